"""`eight class` makes all its files or changes none, and says what is wrong in a sentence."""

import csv
import io
import json
import os
import signal
import subprocess
import sys
import time
from dataclasses import replace

import openpyxl
import pytest

from exercises.classroom.class_list import packs
from exercises.classroom.class_list.class_file import class_text, read_class
from exercises.classroom.class_list.heading import Heading
from exercises.classroom.class_list.set_again import set_again
from exercises.classroom.desk import classes
from exercises.classroom.examination.mark_sheet import USUAL
from exercises.classroom.examination.readiness import Readiness
from exercises.classroom.marking.scheme import Scheme
from exercises.codes.sheet_code import Setting, Station, write_setting
from exercises.kinds.kind import open_code, sheet_of
from generator.build.paper_style import paper_style
from generator.build.runtime import ROOT
from generator.commands import class_command
from generator.commands.class_command import FILES, Progress
from generator.commands.command import main
from tests.exercises.classwork import saved

PHRASE = "sand and salt water"
PAGES = ("key.html", "working.html", "sheets.html", "slips.html")
BERGEN = Station(3, 2026, 5)
ROSTER = "\ufeffRoll;Name\r\n1;Ringed Plover\r\n2;=SUM(A1)\r\n\r\n3;علي\r\n"


@pytest.fixture
def roster(tmp_path):
    path = tmp_path / "roster.csv"
    path.write_text(ROSTER, encoding="utf-8", newline="")
    return str(path)


@pytest.fixture
def out(tmp_path):
    return tmp_path / "made" / "here"


def table(path) -> list[dict[str, str]]:
    text = path.read_bytes().decode("utf-8-sig")
    separator = ";" if ";" in text.partition("\n")[0] else ","  # that of the class's own list
    return list(csv.DictReader(io.StringIO(text, newline=""), delimiter=separator))


def contents(folder) -> dict[str, bytes]:
    return {p.name: p.read_bytes() for p in folder.iterdir() if p.is_file()}


def refused(capsys, *arguments) -> str:
    assert main(["class", *arguments]) == 1
    said = capsys.readouterr().err.strip()
    assert said[0].isupper() or said[0] in "/-" or said.startswith(("class", "roster")), said
    assert said.endswith(".") and "Traceback" not in said
    return said


def test_the_whole_command(roster, out, capsys):
    options = [
        "--kinds",
        "tan-a, tan-b",
        "--place",
        "Bergen",
        "--month",
        "2026-05",
        "--step",
        "0.5",
        "--length",
        "80",
        "--distances",
        "5",
    ]
    site = ["--site", "https://saltmarsh.example/"]
    assert main(["class", roster, "--phrase", PHRASE, *options, *site, "--out", str(out)]) == 0
    said = capsys.readouterr().out
    assert "headings:         line 1\n" in said and "3 students" in said and "holds the class phrase" in said
    assert set(contents(out)) == set(FILES)

    heads = {name: (out / name).read_text(encoding="utf-8-sig").partition("\n")[0] for name in ("codes.csv", "key.csv")}
    assert all(";" in head and "," not in head for head in heads.values())  # as in the list
    codes = table(out / "codes.csv")
    assert [(r["roll"], r["kind"]) for r in codes] == [(n, k) for n in "123" for k in ("tan-a", "tan-b")]
    assert [r["name"] for r in codes[::2]] == ["Ringed Plover", "'=SUM(A1)", "علي"]
    assert len({r["code"] for r in codes}) == 6
    for row in codes:
        assert row["address"] == f"https://saltmarsh.example/exercises/{row['kind']}/?code={row['code']}"
        sheet = open_code(row["code"])
        kind, scenario, working = sheet.kind, sheet.scenario, sheet.working
        assert kind.slug == row["kind"] and scenario.field.where == "Bergen, May 2026" and len(scenario.rows) == 5
        steps = [r for r in table(out / "key.csv") if r["code"] == row["code"]]
        assert [r["step"] for r in steps] == [s.id for s in working.steps]
        for name in PAGES:
            assert row["code"] in (out / name).read_text(encoding="utf-8")
    for name in PAGES:
        text = (out / name).read_text(encoding="utf-8")
        assert text.rstrip().endswith("</html>") and "<script" not in text and "--er-ink" in text
    kept = json.loads((out / "class.json").read_text(encoding="utf-8"))
    assert kept["phrase"] == PHRASE and kept["kinds"][0]["place"] == "Bergen" and len(kept["students"]) == 3


def test_a_kind_with_settings_of_its_own(roster, out):
    own = ["--for", "tan-b", "field=38.2", "length=open", "--for", "law", "step=1", "2l=stated", "grid=1 cm"]
    common = ["--kinds", "tan-a,tan-b", "--place", "Bergen", "--month", "2026-05", "--length", "80", "--2l", "given"]
    assert main(["class", roster, "--phrase", PHRASE, *common, *own, "--out", str(out)]) == 0
    tasks = read_class((out / "class.json").read_text(encoding="utf-8")).tasks
    assert [t.kind.slug for t in tasks] == ["tan-a", "tan-b", "law"]
    assert [t.setting for t in tasks] == [
        Setting("given", BERGEN, 80),
        Setting("given", 38.2),
        Setting("stated", BERGEN, 80, 10, scale_step=1.0),
    ]
    drawn = {r["kind"]: open_code(r["code"]).scenario for r in table(out / "codes.csv")}
    assert drawn["tan-a"].field.where == "Bergen, May 2026" and pytest.approx(38.2e-6) == drawn["tan-b"].B_H
    assert drawn["tan-a"].bar.length == drawn["tan-a"].two_l == 0.08


def test_the_record_page_and_sheets_whose_slips_look_alike_are_told(roster, out, capsys):
    crowded = ["--kinds", "tan-a,law", "--length", "40", "--grid", "10 mm", "--distances", "8"]
    site = ["--site", "https://saltmarsh.example/"]
    assert main(["class", roster, "--phrase", PHRASE, *crowded, *site, "--out", str(out)]) == 0
    said = capsys.readouterr().out
    lab = write_setting(Setting(length_mm=40, grid_mm=10, distances=8))
    address = f"https://saltmarsh.example/record/?lab={lab}"
    assert f"with the settings of Tan A, Tangent law drills: {address}" in said
    assert {r["record"] for r in table(out / "codes.csv")} == {address}
    assert (out / "slips.html").read_text(encoding="utf-8").count(f"/?lab=<span>{lab}</span></small>") == 3
    many = sum(not open_code(r["code"]).scenario.diagnosable for r in table(out / "codes.csv") if r["kind"] == "tan-a")
    assert many and f"cannot all be told apart: {many} of 3 of Tan A." in said


def test_the_desk_and_the_command_write_the_same_bytes(roster, out):
    words = {"2l": "five-sixths", "field": "38.2", "length": "9.6 cm", "grid": "half centimetres", "distances": "4"}
    own = {"law": {"place": "Lima", "month": "May 2026"}}
    options = [part for word, text in words.items() for part in (f"--{word}", text)]
    named = ["--kinds", "tan-a", "--for", "law", "place=Lima", "month=May 2026"]
    site = "https://saltmarsh.example/"
    heading = {"institution": "Saltmarsh College", "course": "Physics II", "laboratory": "Room 3", "date": "4 May 2026"}
    head = [part for line, text in heading.items() for part in (f"--{line}", text)]
    head += ["--ready", "law", "--ready-at", "70 %", "--examination", "--weights", "viva=12.5"]
    assert main(["class", roster, "--phrase", PHRASE, *options, *named, "--site", site, *head, "--out", str(out)]) == 0
    typed = {"list": ROSTER[1:], "phrase": PHRASE, "kinds": ["tan-a", "law"], "common": words, "own": own, "site": site}
    chosen = {"heading": heading, "ready": {"kinds": ["law"], "percent": "70"}, "weights": {"viva": "12.5"}}
    made = json.loads(classes.make(json.dumps({**typed, **chosen})))
    assert {"examination.html", "examiner.html"} < contents(out).keys()
    css = paper_style()
    for name, raw in contents(out).items():
        first = json.loads(classes.part(made["session"], name, 0, 2, css))
        rest = json.loads(classes.part(made["session"], name, 2, 3, "", 1, first.get("written", "")))
        assert saved(first, rest) == raw, name


def test_papers_of_an_examination_that_were_not_made_anew_are_named(roster, out, capsys):
    again = ["class", roster, "--phrase", PHRASE, "--kinds", "law", "--out", str(out)]
    assert main([*again, "--examination"]) == 0
    before = contents(out)
    assert "not made now" not in capsys.readouterr().out
    assert main(again) == 0
    assert "not made now: examination.html, examiner.html. Add --examination" in capsys.readouterr().out
    assert contents(out) == before
    (out / "examiner.html").unlink()
    assert main(again) == 0
    assert "not made now: examination.html. Add --examination" in capsys.readouterr().out


def test_rolls_keep_their_zeros_in_the_workbook(tmp_path, out):
    (tmp_path / "list.csv").write_text("Roll;Name\n0031;=A1\n0032;Knot & Co", encoding="utf-8")
    assert main(["class", str(tmp_path / "list.csv"), "--phrase", PHRASE, "--out", str(out)]) == 0
    sheet = openpyxl.load_workbook(out / "codes.xlsx").active
    rows = [[cell.value for cell in row] for row in sheet.rows]
    assert [row[:2] for row in rows] == [["roll", "name"], ["0031", "=A1"], ["0032", "Knot & Co"]]
    assert [row[3] for row in rows[1:]] == [row["code"] for row in table(out / "codes.csv")]
    assert sheet["B2"].data_type == "s"  # text, no formula


# -- how the list is read -----------------------------------------------------

TWO_ROLLS = "Class Roll,University Roll,Name,Group\n1,0901,Knot,B\n2,0902,Ruff,A\n"


@pytest.fixture
def doubtful(tmp_path):
    path = tmp_path / "doubtful.csv"
    path.write_text(TWO_ROLLS, encoding="utf-8")
    return [str(path), "--phrase", PHRASE, "--kinds", "distances"]


def rolls(out) -> list[str]:
    return [student.roll for student in read_class((out / "class.json").read_text(encoding="utf-8")).students]


def test_a_list_that_is_not_certain_is_refused_with_what_to_add(doubtful, out, capsys):
    said = refused(capsys, *doubtful, "--out", str(out))
    assert "The roll could be column A “Class Roll” or column B “University Roll”." in said
    assert "add --roll A." in said and not out.exists()


@pytest.mark.parametrize("roll", ["B", "b", "2", "University Roll", "UNIVERSITY ROLL."])
def test_columns_are_named_by_heading_letter_or_number(roll, doubtful, out, capsys):
    options = ["--roll", roll, "--name", "Group,Name", "--section", "none", "--lines", "2-2"]
    assert main(["class", *doubtful, *options, "--out", str(out)]) == 0
    (student,) = read_class((out / "class.json").read_text(encoding="utf-8")).students
    assert student == ("0901", "B Knot", "")
    said = capsys.readouterr().out
    assert "  roll:             column B “University Roll”\n" in said and "3 “2, 0902, Ruff, A”" in said


@pytest.mark.parametrize(
    "options, said",
    [
        (
            ["--roll", "E"],
            "--roll: “E” is no column of this list. There are: A “Class Roll”; B “University Roll”; C “Name”",
        ),
        (["--name", "Name,Wing"], "--name: “Wing” is no column"),
        (["--lines", "9-12"], "This list has no lines “9-12”. Give the first and the last line, as in 2-3."),
    ],
)
def test_columns_that_are_not_there(options, said, doubtful, out, capsys):
    assert said in refused(capsys, *doubtful, *options, "--out", str(out))


def test_on_a_terminal_it_asks(doubtful, out, capsys, monkeypatch):
    answers = iter(["Z", " university roll "])
    monkeypatch.setattr("sys.stdin", type("Terminal", (), {"isatty": lambda self: True})())
    monkeypatch.setattr("builtins.input", lambda _: next(answers))
    assert main(["class", *doubtful, "--out", str(out)]) == 0
    assert rolls(out) == ["0901", "0902"] and "“Z” is no column" in capsys.readouterr().out
    monkeypatch.setattr("builtins.input", lambda _: "")
    assert main(["class", *doubtful, "--out", str(out / "two")]) == 0
    assert rolls(out / "two") == ["1", "2"]

    def ended(_):
        raise EOFError

    monkeypatch.setattr("builtins.input", ended)
    assert "No answer came" in refused(capsys, *doubtful, "--out", str(out / "three"))


def test_sixty_is_not_one_student(out, capsys):
    assert "Did you mean 1-60?" in refused(capsys, "60", "--phrase", PHRASE, "--out", str(out))
    assert "leave out --roll" in refused(capsys, "1-60", "--phrase", PHRASE, "--roll", "A", "--out", str(out))
    assert not out.exists()


def test_a_class_file_takes_another_heading_line_by_line(roster, out):
    head = ["--institution", "Saltmarsh College", "--date", "4 May 2026"]
    assert main(["class", roster, "--phrase", PHRASE, *head, "--out", str(out)]) == 0
    again = ["class", str(out / "class.json"), "--date", "11 May 2026", "--out", str(out)]
    assert main(again) == 0
    assert read_class((out / "class.json").read_text("utf-8")).heading == Heading(
        institution="Saltmarsh College", date="11 May 2026"
    )
    for name in ("sheets.html", "slips.html", "key.html", "working.html"):
        assert "Saltmarsh College</span> · <span>11 May 2026" in (out / name).read_text("utf-8"), name


def test_what_shows_who_is_ready_and_the_weights_can_be_set_anew(roster, out):
    assert main(["class", roster, "--phrase", PHRASE, "--ready", "law", "--out", str(out)]) == 0
    again = ["class", str(out / "class.json"), "--ready-at", "65", "--weights", "viva=5", "result=7", "--out", str(out)]
    assert main(again) == 0
    made = read_class((out / "class.json").read_text("utf-8"))
    assert made.ready == Readiness(("law",), 65.0)
    assert dict(made.weights) == dict(USUAL) | {"viva": 5.0, "result": 7.0}
    assert not (out / "examiner.html").exists()


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (["--weights", "viva"], "“viva” is no setting. Write it as part=marks"),
        (["--weights", "oral=3"], "no part “oral”"),
        (["--ready", "swing"], "“swing” is no kind of exercise"),
        (["--ready-at", "most"], "“most” is no number of per cent"),
        (["--course", "x" * 121], "The course in the heading must be one line"),
    ],
)
def test_what_cannot_be_used_is_told_and_nothing_is_written(roster, out, capsys, options, told):
    assert main(["class", roster, "--phrase", PHRASE, *options, "--out", str(out)]) == 1
    assert told in capsys.readouterr().err and not out.exists()


def test_marks_set_for_the_class_are_kept_when_it_is_made_again(roster, out):
    arguments = ["class", roster, "--phrase", PHRASE, "--kinds", "distances", "--out", str(out)]
    assert main(arguments) == 0
    made = read_class((out / "class.json").read_text(encoding="utf-8"))
    marked = class_text(replace(made, scheme=Scheme(step_mark=2.0, attempt="first")))
    (out / "class.json").write_text(marked, encoding="utf-8", newline="")
    assert main(arguments) == 0
    assert (out / "class.json").read_text(encoding="utf-8") == marked


def test_made_again_it_is_the_same_from_the_list_and_from_the_class_file(roster, tmp_path):
    one, two, three = (tmp_path / n for n in ("one", "two", "three"))
    for folder in (one, two, one):
        assert main(["class", roster, "--phrase", PHRASE, "--kinds", "distances", "--out", str(folder)]) == 0
    assert main(["class", str(one / "class.json"), "--out", str(three)]) == 0
    assert contents(one) == contents(two) == contents(three)


def test_roll_numbers_and_no_site(out, capsys):
    assert main(["class", "08-10", "--phrase", PHRASE, "--kinds", "distances", "--out", str(out)]) == 0
    assert "No --site was given" in capsys.readouterr().out
    assert [r["roll"] for r in table(out / "codes.csv")] == ["08", "09", "10"]
    assert table(out / "codes.csv")[0]["address"].startswith("exercises/distances/?code=N")


@pytest.mark.parametrize(
    "arguments, said",
    [
        ([], "--phrase"),
        (["--phrase", "short"], "at least 8"),
        (["--phrase", PHRASE, "--kinds", "tan-z"], "There are: compare"),
        (["--phrase", PHRASE, "--kinds", " , "], "No kind"),
        (["--phrase", PHRASE, "--place", "Nowhere", "--month", "2026-05"], "There are: Aberdeen"),
        (["--phrase", PHRASE, "--place", "Bergen"], "A place needs a month too"),
        (["--phrase", PHRASE, "--field", "0.382"], "Is “0.382” in gauss? A number without a unit is in µT here"),
        (["--phrase", PHRASE, "--field", "3.82e-5"], "in tesla?"),
        (["--phrase", PHRASE, "--length", "9.6"], "type 96, or 9.6 cm."),
        (["--phrase", PHRASE, "--step", "half"], "1 or 0.5 degrees"),
        (["--phrase", PHRASE, "--step", "2"], "scale step is 1 or 0.5"),
        (["--phrase", PHRASE, "--step", "nan"], "“nan” is not"),
        (["--phrase", PHRASE, "--length", "80.5"], "whole number"),
        (["--phrase", PHRASE, "--length", "39"], "from 40 to 200"),
        (["--phrase", PHRASE, "--2l", "half"], "one of: stated, given, five-sixths"),
        (
            ["--phrase", PHRASE, "--length", "40", "--grid", "10", "--field", "65", "--distances", "8"],
            "Tan A: A bar of 40 mm in a field of 65.0 µT leaves at most 7 distances",
        ),
        (["--phrase", PHRASE, "--length", "9" * 5000], "is not read"),
        (["--phrase", PHRASE, "--distances", "9"], "from 3 to 8"),
        (["--phrase", PHRASE, "--site", "saltmarsh"], "http"),
        (["--phrase", PHRASE, "--for", "law", "place"], "“place” is no setting"),
        (["--phrase", PHRASE, "--for", "law", "colour=red"], "no setting “colour”"),
        (["--phrase", PHRASE, "--for", "tan-z", "step=1"], "There are: compare"),
        (["--phrase", PHRASE, "--for", "law", "step=1", "--for", "law", "step=1"], "given twice"),
        (["--phrase", PHRASE, "--for", "law", "length=39"], "For law: "),
    ],
)
def test_bad_options(arguments, said, roster, out, capsys):
    assert said in refused(capsys, roster, *arguments, "--out", str(out))
    assert not out.exists()


@pytest.mark.parametrize(
    "raw, said",
    [
        (b"", "no student"),
        (b"\xff\xfe\x00", "UTF-8"),
        ("1,Ådne".encode("latin-1"), "UTF-8"),
        (b"7,a\n8,b\n7,c\n", "lines 1 and 3"),
        (b'1,"a\n2,b', "From line 1 on"),
        (b"PK\x03\x04" + bytes(range(256)), "UTF-8"),
    ],
)
def test_bad_lists(raw, said, tmp_path, out, capsys):
    path = tmp_path / "bad.csv"
    path.write_bytes(raw)
    assert said in refused(capsys, str(path), "--phrase", PHRASE, "--out", str(out))
    assert not out.exists()


def test_a_list_that_is_too_large_is_not_read(tmp_path, out, capsys):
    path = tmp_path / "large.csv"
    with open(path, "wb") as file:
        file.truncate(50_000_000)
    assert "50,000,000 bytes" in refused(capsys, str(path), "--phrase", PHRASE, "--out", str(out))


@pytest.mark.parametrize("name", ["missing.csv", "", "x" * 5000, "a\0b", "class.json"])
def test_no_such_list(name, out, capsys):
    assert "no file" in refused(capsys, name, "--phrase", PHRASE, "--out", str(out))


def test_a_folder_is_no_list(tmp_path, out, capsys):
    assert "is not a file" in refused(capsys, str(tmp_path), "--phrase", PHRASE, "--out", str(out))


def test_a_class_file_with_options_or_damaged(tmp_path, out, capsys):
    path = tmp_path / "class.json"
    path.write_text("{}")
    assert "leave out --phrase, --step" in refused(
        capsys, str(path), "--phrase", PHRASE, "--step", "1", "--out", str(out)
    )
    assert "not a class file" in refused(capsys, str(path), "--out", str(out))


# -- whole or not at all ------------------------------------------------------


def test_another_class_is_not_written_over(roster, out, capsys):
    assert main(["class", roster, "--phrase", PHRASE, "--kinds", "distances", "--out", str(out)]) == 0
    before = contents(out)
    said = refused(capsys, "1-2", "--phrase", "another phrase", "--kinds", "law", "--out", str(out))
    assert "would be lost" in said and "The class phrase is another." in said and "--anew" in said
    assert "distances is not set any more." in said and "1 student of before is not in it: 3." in said
    same = ["--phrase", PHRASE, "--kinds", "distances", "--out", str(out)]
    assert "distances: the length was open and is 80 mm." in refused(capsys, roster, *same, "--length", "80")
    assert contents(out) == before
    assert main(["class", "1-2", "--phrase", PHRASE, "--kinds", "law", "--out", str(out), "--anew"]) == 0
    assert contents(out) != before


def test_a_student_and_a_kind_more_are_the_same_class(out, capsys):
    assert main(["class", "1-3", "--phrase", PHRASE, "--kinds", "law", "--out", str(out)]) == 0
    before = read_class((out / "class.json").read_text(encoding="utf-8"))
    assert main(["class", "1-4", "--phrase", PHRASE, "--kinds", "law,dial", "--out", str(out)]) == 0
    after = read_class((out / "class.json").read_text(encoding="utf-8"))
    assert [given[0] for _, given in before.codes()] == [given[0] for _, given in after.codes()][:3]


def test_a_second_attempt_has_new_numbers_and_changes_no_code_of_the_first(out, capsys):
    assert main(["class", "1-4", "--phrase", PHRASE, "--kinds", "law,dial", "--out", str(out)]) == 0
    before, first = contents(out), read_class((out / "class.json").read_text(encoding="utf-8"))
    again = [str(out / "class.json"), "--attempt", "2", "--rolls", "2, 4", "--out", str(out)]
    assert main(["class", *again]) == 0 and "for 2 students" in capsys.readouterr().out
    after = read_class((out / "class.json").read_text(encoding="utf-8"))
    assert after.codes() == first.codes() and [s.roll for s, _ in after.codes(2)] == ["2", "4"]
    codes = {str(code) for _, given in after.every_code() for _, code in given}
    assert len(codes) == 4 * 2 + 2 * 2
    assert {name: text for name, text in contents(out).items() if name in before and name != "class.json"} == {
        name: text for name, text in before.items() if name != "class.json"
    }
    table = (out / "attempt-2" / "codes.csv").read_text(encoding="utf-8-sig")
    assert table.count("\n") == 1 + 4 and all(str(code) in table for _, given in after.codes(2) for _, code in given)
    assert main(["class", *again[:1], "--attempt", "3", "--kinds", "dial", "--out", str(out)]) == 0
    third = read_class((out / "class.json").read_text(encoding="utf-8")).codes(3)
    assert [task.kind.slug for _, given in third for task, _ in given] == ["dial"] * 4
    assert "from 2 to 9" in refused(capsys, *again[:1], "--attempt", "1", "--out", str(out))
    assert "has the roll “7”" in refused(capsys, *again[:1], "--attempt", "2", "--rolls", "7", "--out", str(out))


def test_a_workbook_in_place_of_a_list_is_told_what_it_is(out, capsys, tmp_path):
    assert main(["class", "1-3", "--phrase", PHRASE, "--kinds", "law", "--out", str(out)]) == 0
    said = refused(capsys, str(out / "codes.xlsx"), "--phrase", PHRASE, "--out", str(tmp_path / "other"))
    assert "This is a workbook" in said and "“CSV UTF-8”" in said


def test_a_further_attempt_of_some_kinds(out, capsys):
    assert main(["class", "1-4", "--phrase", PHRASE, "--kinds", "law,dial", "--out", str(out)]) == 0
    again = [str(out / "class.json"), "--rolls", "02", "--kinds", "dial", "--out", str(out)]
    assert "Add --attempt 2" in refused(capsys, *again)
    assert main(["class", *again, "--attempt", "2"]) == 0
    ((student, (assigned,)),) = read_class((out / "class.json").read_text(encoding="utf-8")).codes(2)
    assert (student.roll, assigned[0].kind.slug) == ("2", "dial")


def test_what_is_not_given_again_stays_as_it_was(out, capsys):
    some = ["--course", "Physics II", "--date", "4 May 2026", "--site", "https://a.example/", "--weights", "viva=12"]
    start = ["class", "1-3", "--phrase", PHRASE, "--kinds", "law"]
    assert main([*start, *some, "--ready", "law", "--out", str(out)]) == 0
    before = read_class((out / "class.json").read_text(encoding="utf-8"))
    assert main([*start, "--date", "5 May 2026", "--out", str(out)]) == 0
    after = read_class((out / "class.json").read_text(encoding="utf-8"))
    assert after == replace(before, heading=Heading(course="Physics II", date="5 May 2026"))
    bare = replace(before, heading=Heading(), site="", weights=USUAL, ready=Readiness())
    (out.parent / "bare.json").write_text(class_text(bare), encoding="utf-8")
    assert main(["class", str(out.parent / "bare.json"), "--out", str(out)]) == 0
    assert read_class((out / "class.json").read_text(encoding="utf-8")) == bare  # a class file has all of it


def test_a_class_of_the_former_layout_is_not_written_over(roster, out, capsys):
    assert main(["class", roster, "--phrase", PHRASE, "--kinds", "distances", "--out", str(out)]) == 0
    kept = json.loads((out / "class.json").read_text(encoding="utf-8"))
    kept["kinds"] = [{"kind": "distances", "edition": 1, "place": None, "scale_step_degrees": None}]
    (out / "class.json").write_text(json.dumps(kept), encoding="utf-8")
    before = contents(out)
    said = refused(capsys, roster, "--phrase", PHRASE, "--kinds", "distances", "--out", str(out))
    assert "is of the former layout" in said and "move that file away" in said and contents(out) == before
    assert "is of the former layout" in refused(capsys, str(out / "class.json"), "--out", str(out / "new"))


@pytest.mark.parametrize(
    "error, said",
    [
        (OSError(28, "full"), "disk is full"),
        (ArithmeticError("none"), "no consistent numbers"),
        (KeyboardInterrupt(), "Stopped"),
    ],
)
def test_what_fails_on_the_way_changes_nothing(error, said, roster, out, capsys, monkeypatch):
    arguments = [roster, "--phrase", PHRASE, "--kinds", "distances", "--out", str(out)]
    assert main(["class", *arguments]) == 0
    before, opened = contents(out), []

    def fails(code):
        opened.append(code)
        if len(opened) == 3:
            raise error
        return sheet_of(code)

    monkeypatch.setattr(packs, "sheet_of", fails)
    assert said in refused(capsys, *arguments, "--site", "https://elsewhere.example/")
    assert contents(out) == before and len(opened) == 3


def test_stopped_while_the_list_is_read(roster, out, capsys, monkeypatch):
    monkeypatch.setattr(class_command, "read_list", lambda *_: (_ for _ in ()).throw(KeyboardInterrupt))
    assert "Stopped. Nothing was written." in refused(capsys, roster, "--phrase", PHRASE, "--out", str(out))
    assert not out.exists()


def test_ended_from_outside_it_leaves_nothing_behind(out):
    """As when a machine shuts down."""
    begin = "import sys; from generator.commands.command import main; sys.exit(main(sys.argv[1:]))"
    command = [
        sys.executable,
        "-c",
        begin,
        "class",
        "1-9000",
        "--phrase",
        PHRASE,
        "--kinds",
        "tan-a",
        "--out",
        str(out),
    ]
    running = subprocess.Popen(command, stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, text=True, cwd=ROOT)
    end = time.monotonic() + 30
    while not list(out.glob(".making-*/*")) and time.monotonic() < end:
        time.sleep(0.02)
    assert running.poll() is None
    running.send_signal(signal.SIGTERM)
    assert (
        "Stopped. No file of the class was changed." in running.communicate(timeout=30)[1] and running.returncode == 1
    )
    assert not out.exists()


def test_a_folder_where_a_file_should_be(roster, out, capsys):
    (out / "slips.html").mkdir(parents=True)
    assert "is a folder" in refused(capsys, roster, "--phrase", PHRASE, "--kinds", "distances", "--out", str(out))
    assert os.listdir(out) == ["slips.html"]


def test_out_is_a_file(roster, tmp_path, capsys):
    (tmp_path / "file").write_text("mine")
    said = refused(capsys, roster, "--phrase", PHRASE, "--kinds", "distances", "--out", str(tmp_path / "file"))
    assert "--out" in said and (tmp_path / "file").read_text() == "mine"


# -- progress -----------------------------------------------------------------


class Stream(io.StringIO):
    def __init__(self, terminal: bool):
        super().__init__()
        self.terminal = terminal

    def isatty(self):
        return self.terminal


@pytest.mark.parametrize(
    "terminal, shown",
    [
        (True, "\r2 of 4 sheets (50 %)\r4 of 4 sheets (100 %)\r4 of 4 sheets (100 %)\n"),
        (False, "2 of 4 sheets (50 %)\n4 of 4 sheets (100 %)\n"),
    ],
)
def test_progress_is_told_once_a_second(terminal, shown):
    stream, time = Stream(terminal), [0.0]
    progress = Progress(4, stream, lambda: time[0])
    for _ in range(4):
        time[0] += 0.6
        progress.one_more()
    progress.end()
    assert stream.getvalue() == shown


def test_short_work_tells_nothing():
    stream = Stream(True)
    progress = Progress(1, stream, lambda: 0.0)
    progress.one_more()
    progress.end()
    assert stream.getvalue() == ""


def test_what_was_set_once_stays_when_the_list_is_given_again(roster, out):
    """Address, heading, who is ready, weights, and the further attempts of the folder and of a file beside it."""
    list_ = [str(roster), "--phrase", "sand and salt water", "--out", str(out)]
    more = ["--site", "https://saltmarsh.example/", "--course", "Physics 1", "--ready", "dial", "--weights", "viva=9"]
    assert main(["class", *list_, *more]) == 0
    first = read_class((out / "class.json").read_text(encoding="utf-8"))
    assert main(["class", *list_, "--laboratory", "Room 4"]) == 0
    again = read_class((out / "class.json").read_text(encoding="utf-8"))
    heading = replace(first.heading, laboratory="Room 4")
    assert again == replace(first, heading=heading) and again.site
    older = out.parent / "older.json"
    older.write_text(class_text(set_again(again, 2, [again.students[0].roll])), encoding="utf-8")
    assert main(["class", *list_, "--attempt", "2", "--rolls", again.students[1].roll]) == 0
    assert main(["class", str(older), "--out", str(out)]) == 0
    (both,) = read_class((out / "class.json").read_text(encoding="utf-8")).again
    assert both.rolls == tuple(student.roll for student in again.students[:2])


def test_a_roll_that_looks_like_a_range_can_be_set_again(tmp_path, out):
    path = tmp_path / "list.csv"
    path.write_text("Roll,Name\n23-044,Knot\n23-045,Ruff\n", encoding="utf-8")
    of = [str(path), "--phrase", "sand and salt water", "--out", str(out)]
    assert main(["class", *of]) == 0 and main(["class", *of, "--attempt", "2", "--rolls", "23-045"]) == 0
    (again,) = read_class((out / "class.json").read_text(encoding="utf-8")).again
    assert again.rolls == ("23-045",)

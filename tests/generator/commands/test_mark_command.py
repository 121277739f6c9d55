"""`eight mark` marks all that can be marked, lists the rest with a sentence each, and writes all its files or none."""

import csv
import dataclasses
import io
import json
import os
from dataclasses import replace

import pytest

from exercises.classroom.class_list.class_file import class_text
from exercises.classroom.class_list.roster import Student
from exercises.classroom.desk import classes, marks, returned
from exercises.classroom.marking import class_marking
from exercises.classroom.marking.scheme import Scheme
from exercises.kinds.kind import all_kinds, sheet_of
from exercises.record.entries import Record, Row
from exercises.record.return_slip import record_slip
from exercises.return_slip.text import ReturnSlip
from exercises.return_slip.text import return_slip_text as slip_written
from generator.build.paper_style import paper_style
from generator.commands import mark_command
from generator.commands.command import main
from generator.commands.mark_command import FILES
from tests.exercises.classwork import NAMES, a_class, code_of, right, saved

MADE = a_class(4, ("tan-a", "law"), Scheme(out_of=10))


@pytest.fixture
def here(tmp_path):
    """A class file, and a folder into which three of four students have put something."""
    (tmp_path / "class.json").write_text(class_text(MADE), encoding="utf-8")
    returned = tmp_path / "returned"
    (returned / "deep").mkdir(parents=True)
    (returned / "one.txt").write_text(f"Here it is.\n{slip(0)}\n{slip(0, 1)}\nMy regards", encoding="utf-8")
    (returned / "deep" / "two.txt").write_text(slip(1, answers={"mean-1": "=1+1", "pole": "<b>"}), encoding="utf-16")
    return tmp_path


def slip(at, which=0, answers=None, who=None) -> str:
    code = code_of(MADE, at, which)
    return slip_written(
        ReturnSlip(who or MADE.students[at].roll, str(code), right(code) if answers is None else answers, {})
    )


def marked(here, capsys, *more) -> str:
    arguments = [str(here / "returned"), "--class", str(here / "class.json"), "--out", str(here / "marks"), *more]
    assert main(["mark", *arguments]) == 0
    return capsys.readouterr().out


def refused(capsys, *arguments) -> str:
    assert main(["mark", *map(str, arguments)]) == 1
    said = capsys.readouterr().err.strip()
    assert said and "Traceback" not in said and said.endswith(".")
    return said


def table(path) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(path.read_bytes().decode("utf-8-sig"), newline="")))


def test_the_whole_command(here, capsys):
    said = marked(here, capsys)
    assert "3 sheets of 2 students marked:" in said and "Tan A: moment and pole strength: 2 of 4 handed in" in said
    assert sorted(os.listdir(here / "marks")) == sorted(FILES)
    rows = table(here / "marks" / "marks.csv")
    assert [(r["roll"], r["tan-a mark"], r["law mark"]) for r in rows] == [
        ("S01", "10", "10"),
        ("S02", "0", "0"),
        ("S03", "0", "0"),
        ("S04", "0", "0"),
    ]
    assert table(here / "marks" / "not-marked.csv") == []
    pages = (here / "marks" / "students.html").read_text(encoding="utf-8")
    assert (
        pages.count('<article class="mk-page">') == 3
        and "=1+1" in pages
        and "&lt;b&gt;" in pages
        and pages.rstrip().endswith("</html>")
    )
    report = (here / "marks" / "report.html").read_text(encoding="utf-8")
    assert "Tangent law drills" in report and not any(word in report for word in (*NAMES[:2], "S01", MADE.phrase))


def test_the_scheme_of_the_command_line(here, capsys):
    marked(
        here,
        capsys,
        "--out-of",
        "20",
        "--mark",
        "tan-a/pole=3",
        "--mark",
        "TAN-A/mean=0",
        "--step-mark",
        "0,5",
        "--try",
        "First",
    )
    assert [r["tan-a out of"] for r in table(here / "marks" / "marks.csv")][:2] == ["20", "20"]
    pages = (here / "marks" / "students.html").read_text(encoding="utf-8")
    assert "3 / 3" in pages and "0 / 0<" in pages and "0.5 / 0.5" in pages


def test_the_rest_is_done_and_what_is_wrong_is_listed(here, capsys):
    returned = here / "returned"
    (returned / "empty.txt").touch()
    (returned / "picture.png").write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(50))
    (returned / ".hidden").write_text(slip(2))
    (returned / "note.txt").write_text("I will send it tomorrow.")
    (returned / "loop").symlink_to(returned, target_is_directory=True)
    (returned / "gone").symlink_to(returned / "nowhere")
    os.mkfifo(returned / "pipe")
    with open(returned / "large.txt", "wb") as file:
        file.truncate(20_000_001)
    (returned / "broken.txt").write_text(slip(2).replace("mean-1: ", "mean-1: 9"))
    (returned / "stranger.txt").write_text(slip(3, who="S03"))
    said = marked(here, capsys)
    problems = {r["where"]: r["what is wrong"] for r in table(here / "marks" / "not-marked.csv")}
    told = {
        "empty.txt": "It is empty",
        "picture.png": "It is a picture",
        "note.txt": "There is no return slip here",
        "loop": "link to a folder",
        "gone": "leads nowhere",
        "pipe": "no plain file",
        "large.txt": "20,000,001 bytes",
        "broken.txt": "Line 3 (mean-1) was changed",
        "stranger.txt": "which is that of roll S04",
    }
    assert set(problems) == set(told)
    for name, words in told.items():
        assert words in problems[name] and problems[name].endswith("."), problems[name]
    assert "1 hidden file was left out." in said and "9 things that came in are not marked:" in said
    assert "3 sheets of 2 students" in said
    kept = next(r for r in table(here / "marks" / "not-marked.csv") if r["where"] == "stranger.txt")
    assert kept["answers"] == str(len(right(code_of(MADE, 3)))) and "mean-1: " in kept["as typed"]


def test_the_later_of_two_counts_in_the_order_of_names(here, capsys):
    (here / "returned" / "slip 10.txt").write_text(slip(2))
    (here / "returned" / "slip 9.txt").write_text(slip(2, answers={"pole": "1"}))
    said = marked(here, capsys)
    row = table(here / "marks" / "marks.csv")[2]
    assert row["tan-a mark"] == "10" and row["notes"] == "1" and "slip 9.txt" in row["note texts"]
    assert "1 of them has a note beside the marks" in said and "1 thing that came in is not marked:" in said


def totals(here) -> list[tuple[str, str]]:
    return [(row["roll"], row["total"]) for row in table(here / "marks" / "marks.csv")]


def test_a_second_run_joins_the_first_and_drops_nobody(here, capsys):
    assert "Of what came in, 3 sheets are new." in marked(here, capsys, "--follows", "50")
    first = totals(here)
    late = here / "late"
    late.mkdir()
    (late / "three.txt").write_text(slip(2))
    (late / "two.txt").write_text(slip(1))
    arguments = ["--class", str(here / "class.json"), "--out", str(here / "marks")]
    assert main(["mark", str(late), *arguments]) == 0
    said = capsys.readouterr().out
    assert "1 sheet is new and 1 sheet is amended." in said and "4 sheets of 3 students marked" in said
    assert totals(here)[0] == first[0] and totals(here)[2] == ("S03", "10")
    assert json.loads((here / "marks" / "marks.json").read_text())["marks"]["follows"] == 0.5
    kept = (here / "marks" / "marks.json").read_bytes()
    assert main(["mark", str(late), str(here / "returned"), *arguments]) == 0
    assert "4 sheets are the same as before" in capsys.readouterr().out
    assert (here / "marks" / "marks.json").read_bytes() == kept
    assert main(["mark", *arguments]) == 0 and "Nothing came in now" in capsys.readouterr().out
    assert (here / "marks" / "marks.json").read_bytes() == kept


def test_the_marks_of_another_class_are_not_written_over(here, capsys):
    marked(here, capsys)
    before = (here / "marks" / "marks.json").read_bytes()
    other = class_text(dataclasses.replace(MADE, phrase="Sand and salt water", students=MADE.students[1:]))
    (here / "other.json").write_text(other, encoding="utf-8")
    arguments = [here / "returned", "--class", here / "other.json", "--out", here / "marks"]
    said = refused(capsys, *arguments)
    assert "The class phrase is another." in said and "1 student of before is not in it: S01." in said
    assert "--anew" in said and (here / "marks" / "marks.json").read_bytes() == before


def test_what_is_set_by_hand_is_seen_everywhere_and_kept(here, capsys):
    step = next(iter(right(code_of(MADE, 1))))
    marked(
        here, capsys, "--correct", "s02", "tan-a", f"{step}=1", "The scale was torn.", "--excuse", "S04", "all", "Ill"
    )
    marked(here, capsys)
    rows = table(here / "marks" / "marks.csv")
    assert float(rows[1]["tan-a mark"]) > 0 and "The scale was torn." in rows[1]["note texts"]
    assert (
        rows[3]["tan-a mark"] == "excused"
        and rows[3]["total"] == ""
        and "Excused. Reason: Ill." in rows[3]["note texts"]
    )
    pages = (here / "marks" / "students.html").read_text(encoding="utf-8")
    assert "The scale was torn." in pages and "<small>by hand</small>" in pages
    marked(here, capsys, "--correct", "S02", "tan-a", f"{step}=", "", "--not-excused", "S04")
    rows = table(here / "marks" / "marks.csv")
    assert rows[1]["tan-a mark"] == "0" and rows[3]["total"] == "0"


def test_an_option_is_not_guessed_from_its_beginning(here, capsys):
    with pytest.raises(SystemExit):  # it would be taken for --attempts, which says something else
        marked(here, capsys, "--attempt", "first")


def test_what_changed_in_the_mark_book_is_told(here, capsys):
    assert "in the mark book" not in marked(here, capsys)
    assert "No total in the mark book has changed." in marked(here, capsys)
    step = next(iter(right(code_of(MADE, 1))))
    said = marked(here, capsys, "--correct", "S02", "tan-a", f"{step}=1", "Torn", "--excuse", "s03", "all")
    (mark,) = [row["mark out of 20"] for row in table(here / "marks" / "book.csv") if row["roll"] == "S02"]
    told = f"roll S02 had 0 and has {mark}; roll S03 had 0 and has none."
    assert f"2 totals in the mark book have changed: {told}" in said
    assert "it has the “mark out of 14” now" in marked(here, capsys, "--out-of", "7")
    for mine in ("mine", "", "roll,mark\n" + "x" * 200_000, "roll,mark\r1", "roll,mark out of 14\nS01"):
        (here / "marks" / "book.csv").write_text(mine, encoding="utf-8")
        assert "in the mark book" not in marked(here, capsys)


def test_a_file_that_was_given_by_mistake_is_taken_out_again(here, capsys):
    wrong = here / "returned" / "wrong.txt"
    wrong.write_text(f"{slip(2)}\n{slip(3)[:60]}", encoding="utf-8")
    assert "4 sheets of 3 students" in marked(here, capsys)
    wrong.unlink()
    assert table(here / "marks" / "not-marked.csv")[0]["where"] == "wrong.txt, slip 2"
    assert "3 sheets of 2 students" in marked(here, capsys, "--take-out", "wrong.txt")
    assert table(here / "marks" / "not-marked.csv") == []
    again = ["--class", here / "class.json", "--out", here / "marks", "--take-out", "wrong.txt"]
    assert "Nothing in the marks file came in from “wrong.txt”" in refused(capsys, *again)


def test_a_choice_takes_the_roll_as_a_spreadsheet_writes_it(here, capsys):
    made = dataclasses.replace(MADE, students=tuple(Student(f"00{n}") for n in range(1, 4)))
    (here / "class.json").write_text(class_text(made), encoding="utf-8")
    code = str(code_of(made, 1))
    two = [slip_written(ReturnSlip("002", code, {"mean-1": text}, {})) for text in ("1", "2")]
    (here / "returned" / "two.txt").write_text("\n".join(two), encoding="utf-8")
    assert "Choose with --count" in marked(here, capsys)
    assert "Choose with --count" not in marked(here, capsys, "--count", "2", f"tan-a={two[0].split()[-1]}")


def test_the_mark_book_has_roll_and_mark_alone(here, capsys):
    marked(here, capsys)
    book = table(here / "marks" / "book.csv")
    assert list(book[0]) == ["roll", "mark out of 20"] and [row["roll"] for row in book] == ["S01", "S02", "S03", "S04"]
    assert [row["mark out of 20"] for row in book] == ["20", "0", "0", "0"]


def test_a_name_of_no_known_letters(here, capsys):
    with open(os.fsencode(here / "returned") + b"/\xff\x1b[31m.txt", "w") as file:
        file.write("Nothing.")
    said = marked(here, capsys)
    assert "\ufffd\ufffd[31m.txt: There is no return slip" in said and "\x1b" not in said


def test_what_was_typed_cannot_steer_the_terminal(here, capsys):
    (here / "returned" / "odd.txt").write_text(slip(2, who="\x1b[31mS02"))
    said = marked(here, capsys)
    assert "\x1b" not in said and "[31mS02" in said + (here / "marks" / "marks.csv").read_text(encoding="utf-8-sig")


def test_files_given_one_by_one_and_twice(here, capsys):
    one = here / "returned" / "one.txt"
    assert (
        main(
            [
                "mark",
                str(one),
                str(one),
                str(here / "returned"),
                "--class",
                str(here / "class.json"),
                "--out",
                str(here / "m"),
            ]
        )
        == 0
    )
    assert (
        "came 2 times" not in (here / "m" / "marks.csv").read_text(encoding="utf-8-sig")
        and "3 sheets" in capsys.readouterr().out
    )


def test_what_was_written_before_is_not_taken_for_work(here, capsys):
    arguments = [str(here), "--class", str(here / "class.json"), "--out", str(here / "marks")]
    for _ in range(2):
        assert main(["mark", *arguments]) == 0
        assert table(here / "marks" / "not-marked.csv") == []


def test_answers_copied_from_paper(here, capsys):
    paper = here / "paper.csv"
    paper.write_text("roll;kind;step;answer\nS03;law;tan-1;1,23\nS09;law;tan-1;2\n", encoding="utf-8-sig")
    said = marked(here, capsys, "--typed", str(paper))
    assert "4 sheets of 3 students" in said and "no sheet of law for roll S09" in said
    assert table(here / "marks" / "marks.csv")[2]["law handed in"] == "yes"
    assert main(["mark", "--typed", str(paper), "--class", str(here / "class.json"), "--out", str(here / "only")]) == 0


def test_work_that_is_alike_is_told_to_the_instructor_alone(here, capsys):
    (here / "returned" / "other.txt").write_text(slip(2, answers=right(code_of(MADE, 0))))
    said = marked(here, capsys)
    assert "work of different students is alike" in said and "Roll S01 (Ringed Plover) and roll S03" in said
    rows = table(here / "marks" / "marks.csv")
    assert rows[0]["notes"] != "0" and rows[2]["notes"] != "0" and rows[1]["notes"] == "0"
    pages = (here / "marks" / "students.html").read_text(encoding="utf-8")
    assert "Look at both" not in pages and "Look at both" in rows[2]["note texts"]


@pytest.mark.parametrize(
    "arguments, said",
    [
        ([], "Give a folder or files"),
        (["missing"], "There is no such file or folder"),
        (["\0"], "There is no such file or folder"),
        (["returned", "--class", "none.json"], "There is no class file"),
        (["returned", "--class", "returned/one.txt"], "not a class file"),
        (["returned", "--class", "returned"], "returned is not a file. Give one that was made with eight class."),
        (["returned", "--typed", "none.csv"], "There is no table none.csv. Give a table of answers copied from paper."),
        (["returned", "--follows", "150"], "“--follows” must be from 0 to 100 %"),
        (["returned", "--follows", "0.5"], "shares are in per cent. Write 50 % or 0.5 %, whichever you mean."),
        (["returned", "--follows", "much"], "“--follows”: “much” is not a number"),
        (["returned", "--weight", "tan-q=3"], "there is no such kind of exercise"),
        (["returned", "--deadline", "Friday"], "Write it as 2026-11-20 17:00"),
        (["returned", "--missing", "nought"], "“zero”, “blank” or “excused”"),
        (["returned", "--zone", "IST"], "such as +05:30"),
        (["returned", "--correct", "S09", "tan-a", "pole=1", "why"], "No student of this class has the roll “S09”"),
        (["returned", "--correct", "S01", "dial", "pole=1", "why"], "“dial” is not set in this class"),
        (["returned", "--correct", "S01", "tan-a:2", "pole=1", "why"], "was not set attempt 2"),
        (["returned", "--correct", "S01", "tan-a", "poles=1", "why"], "has no step “poles”"),
        (["returned", "--correct", "S01", "tan-a", "pole=2", "why"], "from 0 to 1, which is what it is out of"),
        (["returned", "--correct", "S01", "tan-a", "pole=1", " "], "Say why the mark is corrected"),
        (["returned", "--excuse", "S01", "ill"], "The kind, or the word all, stands before the reason."),
        (["returned", "missing"], "Nothing was changed."),
        (["returned", "--days-late", "S01", "tan-a=soon"], "no whole number of days"),
        (["returned", "--mark", "tan-a/pole"], "Write it as --mark tan-a/pole=2"),
        (["returned", "--mark", "tan-a/poles=2"], "has no step “poles”"),
        (["returned", "--try", "best"], "“first” or “last”"),
        (["returned", "--out", "class.json"], "class.json is not a folder. Give another one with --out."),
    ],
)
def test_bad_options(arguments, said, here, capsys, monkeypatch):
    monkeypatch.chdir(here)
    if "--class" not in arguments:
        arguments = [*arguments, "--class", "class.json"]
    heard = refused(capsys, *arguments)
    assert said in heard
    assert not (here / "marks").exists()


def test_nothing_to_mark_leaves_what_is_there(here, capsys):
    (here / "marks").mkdir()
    (here / "marks" / "marks.csv").write_text("mine")
    (here / "note.txt").write_text("Nothing yet.")
    said = refused(capsys, here / "note.txt", "--class", here / "class.json", "--out", here / "marks")
    assert "There is nothing that can be marked." in said and "note.txt: There is no return slip here" in said
    assert sorted(os.listdir(here / "marks")) == ["marks.csv", "not-marked.csv"]
    assert (here / "marks" / "marks.csv").read_text() == "mine"


@pytest.mark.parametrize("error, said", [(OSError(28, "full"), "disk is full"), (KeyboardInterrupt(), "Stopped")])
def test_what_fails_on_the_way_changes_nothing(error, said, here, capsys, monkeypatch):
    marked(here, capsys)
    before = {p.name: p.read_bytes() for p in (here / "marks").iterdir()}
    monkeypatch.setattr(class_marking, "mark", lambda *_: (_ for _ in ()).throw(error))
    assert said in refused(
        capsys, here / "returned", "--class", here / "class.json", "--out", here / "marks", "--out-of", "7"
    )
    assert {p.name: p.read_bytes() for p in (here / "marks").iterdir()} == before


def test_a_sheet_that_cannot_be_made_is_a_problem(here, capsys, monkeypatch):
    def fails(code):
        if all_kinds()["law"].letter == code.kind:
            raise ArithmeticError("none")
        return sheet_of(code)

    (here / "returned" / "one.txt").write_text(f"{slip(0)}\n{slip(0, 1, who=MADE.students[0].name)}", encoding="utf-8")
    monkeypatch.setattr(class_marking, "sheet_of", fails)
    assert "2 sheets of 2 students" in marked(here, capsys)
    (line,) = table(here / "marks" / "not-marked.csv")
    assert "no consistent numbers" in line["what is wrong"] and line["code"] == str(code_of(MADE, 0, 1))
    assert line["who"] == MADE.students[0].name  # as it stands on the slip, as of every other line of this table


def test_the_class_desk_saves_the_same_files(here, capsys):
    """Byte for byte, from the same class and the same files that were handed in."""
    (here / "returned" / "scan.pdf").write_bytes(b"%PDF-1.4")
    (here / "returned" / "other.txt").write_text(slip(2, who="Nobody") + slip(2, answers={"mean-1": "9"}))
    assert "2 things that came in" in marked(here, capsys)
    session = json.loads(classes.open_file((here / "class.json").read_text(encoding="utf-8")))["session"]
    found = [  # in the order in which the command reads them: first the folder itself, then those in it
        json.loads(returned.return_slips_of_file(session, (here / "returned" / name).read_bytes(), name))
        for name in ("one.txt", "other.txt", "scan.pdf", "deep/two.txt")
    ]
    came_in = {part: [one for each in found for one in each[part]] for part in ("slips", "problems")}
    work = json.loads(returned.take_in(session, json.dumps(came_in)))["work"]
    css = paper_style()
    for name in FILES:
        assert (here / "marks" / name).read_bytes() == saved(json.loads(marks.part(work, name, 0, 100, css))), name


def test_which_slip_counts_is_asked_and_chosen(here, capsys):
    (here / "returned" / "a.txt").write_text(slip(2))
    (here / "returned" / "b.txt").write_text(other := slip(2, answers={"pole": "1"}))
    said = marked(here, capsys)
    assert "1 sheet has several slips, and it is not known which counts. Choose with --count:" in said
    assert "roll S03 (=Dunlin) for tan-a: --count S03 tan-a=…, with one of" in said
    check = other.split()[-1]
    assert f"    {check} (or 2): b.txt (1 answer); this one stands until you choose" in said
    whole = slip(2).split()[-1]
    for choice, mark in ((f"tan-a={whole}", "10"), ("tan-a=2", "0"), ("tan-a=1", "10")):
        said = marked(here, capsys, "--count", "S03", choice)
        assert "--count:" not in said
        assert float(table(here / "marks" / "marks.csv")[2]["tan-a mark"]) == float(mark)
    assert "--count:" in marked(here, capsys, "--count", "S03", "tan-a=")
    arguments = ("mark", here / "returned", "--class", here / "class.json", "--out", here / "marks", "--count")
    for roll, kind, told in (
        ("S9", "law=1", "no student of this class has the roll"),
        ("S03", "dial=1", "was not set"),
    ):
        assert told in refused(capsys, *arguments[1:], roll, kind)


def test_records_come_in_too(here, capsys):
    row = Row("16", ("45.6", "46.1", "45.1", "45.6", "45.8", "45.9", "45.4", "45.7"))
    made = record_slip(Record({"length": "8.0", "B_H": "36", "two_l_is": "five-sixths"}, (row,)), "S04")
    (here / "returned" / "bench.txt").write_text(made.text)
    said = marked(here, capsys)
    assert "1 laboratory record came in; what each comes to is in records.csv." in said and "could not be" not in said
    (found,) = table(here / "marks" / "records.csv")
    assert (found["roll"], found["counts"], found["where"]) == ("S04", "yes", "bench.txt") and found["moment A·m²"]
    bench, file = str(here / "returned" / "bench.txt"), str(here / "class.json")
    only = ["mark", bench, "--class", file, "--out", str(here / "only")]
    assert main(only) == 0  # records alone are no failure


def test_codes_of_another_class_are_one_sentence_and_a_list(here, capsys):
    other = a_class(4, ("tan-a", "law"))
    other = replace(other, phrase=other.phrase.upper())
    for at, (student, codes) in enumerate(other.codes()):
        text = "".join(slip_written(ReturnSlip(student.roll, str(code), {"pole": "1"}, {})) for _, code in codes)
        (here / f"other-{at}.txt").write_text(text)
    files = sorted(here.glob("other-*.txt"))
    said = refused(capsys, *files, "--class", here / "class.json", "--out", here / "none")
    assert (
        said.count("None of the 8 codes that came in is of this class.") == 1 and "the class phrase is another" in said
    )
    assert len(said.splitlines()) == 3 and "not-marked.csv" in said
    assert os.listdir(here / "none") == ["not-marked.csv"] and len(table(here / "none" / "not-marked.csv")) == 9


def test_two_runs_at_once_lose_nothing(here, capsys, monkeypatch):
    """The one that ends last finds the marks file changed, and writes nothing."""
    marked(here, capsys)
    path = here / "marks" / "marks.json"
    text = path.read_text(encoding="utf-8")
    write = mark_command.marks_text

    def meanwhile(file):
        path.write_text(text + " ", encoding="utf-8")
        return write(file)

    monkeypatch.setattr(mark_command, "marks_text", meanwhile)
    said = refused(capsys, "--class", here / "class.json", "--out", here / "marks", "--late", "10")
    assert "was changed by another run" in said and path.read_text(encoding="utf-8") == text + " "


def test_a_slip_chosen_by_its_number_stays_chosen_when_more_come(here, capsys):
    code = str(code_of(MADE, 2))
    for name, answer in (("a.txt", "45"), ("b.txt", "46")):
        (here / "returned" / name).write_text(slip_written(ReturnSlip("S03", code, {"mean-1": answer}, {})))
    marked(here, capsys, "--count", "S03", "tan-a=1")
    (counted,) = json.loads((here / "marks" / "marks.json").read_text(encoding="utf-8"))["counted"]
    assert counted["sheet"] == code and len(counted["which"]) == 5
    again = ReturnSlip("S03", code, {"mean-1": "45"}, {})
    mail = f"From: a@b.example\nDate: Fri, 20 Nov 2026 12:00:00 +0000\n\n{slip_written(again)}"
    (here / "returned" / "c.eml").write_text(mail)
    marked(here, capsys)
    rows = table(here / "marks" / "marks.csv")
    assert "The instructor chose this one." in rows[2]["note texts"]
    assert ">46<" not in (here / "marks" / "students.html").read_text(encoding="utf-8")


def test_a_class_file_that_says_otherwise_how_it_is_marked_is_told(here, capsys):
    assert "counts" not in marked(here, capsys).partition("\n")[0]
    marked(here, capsys, "--late", "5")
    assert "and in marks.json; marks.json counts." in marked(here, capsys)


def test_a_zone_west_of_utc_can_be_typed(here, capsys):
    marked(here, capsys, "--zone", "UTC-03:00")
    assert json.loads((here / "marks" / "marks.json").read_text(encoding="utf-8"))["marks"]["zone"] == "-03:00"


@pytest.mark.parametrize("raw", [b"", b"{", '{"about": "é"}'.encode("latin-1"), b'{"version": 2}'])
def test_a_marks_file_that_cannot_be_read_is_not_written_over(raw, here, capsys):
    marked(here, capsys)
    path = here / "marks" / "marks.json"
    path.write_bytes(raw)
    said = refused(capsys, here / "returned", "--class", here / "class.json", "--out", here / "marks")
    assert "cannot be joined" in said and "codec" not in said and path.read_bytes() == raw


def test_what_a_student_sends_cannot_make_the_marks_file_unreadable(here, capsys):
    """A mail of the year 999, and half a character in UTF-7: what is written can be read again."""
    code = str(code_of(MADE, 2))
    text = slip_written(ReturnSlip("S03", code, {"mean-1": "45"}, {}))
    (here / "returned" / "old.eml").write_text(f"From: a@b.example\nDate: 20 Nov 999 12:00:00 +0000\n\n{text}")
    half = ReturnSlip("S04", str(code_of(MADE, 3)), {"mean-1": "?"}, {})
    body = slip_written(half).replace("?", "\ud800").encode("utf-7", "surrogatepass")
    head = b"From: a@b.example\nContent-Type: text/plain; charset=utf-7\n\n"
    (here / "returned" / "half.eml").write_bytes(head + body)
    marked(here, capsys)
    assert "0999-11-20 12:00:00" in (here / "marks" / "marks.json").read_text(encoding="utf-8")
    marked(here, capsys)

"""The class desk's side of Python: what the page is told is what the modules make, and a fault is a sentence."""

import dataclasses
import json
import re

import pytest

from exercises.classroom.class_list import class_file
from exercises.classroom.class_list.class_file import task
from exercises.classroom.class_list.heading import Heading
from exercises.classroom.class_list.packs import PACKS
from exercises.classroom.class_list.roster import Student
from exercises.classroom.desk import classes as desk
from exercises.classroom.desk import marks as desk_marks
from exercises.classroom.desk import returned as desk_returned
from exercises.classroom.desk import scheme_form as desk_scheme
from exercises.classroom.desk import session as desk_session
from exercises.classroom.marking.intake import take_in
from exercises.classroom.marking.scheme import Scheme
from exercises.classroom.report.marks_table import marks_csv
from exercises.codes.sheet_code import Setting, Station, write_setting
from exercises.kinds.kind import all_kinds, open_code, sheet_of
from exercises.kinds.sheet import written as as_written
from exercises.return_slip.text import ReturnSlip, return_slip_text
from tests.exercises.classwork import marked

PHRASE = "sand and salt water"
NASTY = "<script>alert(1)</script> & “Plover”"
LIST = f"Roll;Name\n1;Ringed Plover\n2;{NASTY}\n3;Sanderling\n4;Sanderling"
STUDENTS = (Student("1", "Ringed Plover"), Student("2", NASTY), Student("3", "Sanderling"), Student("4", "Sanderling"))
GIVEN = {
    "list": LIST,
    "phrase": PHRASE,
    "kinds": ["tan-a", "dial"],
    "common": {"place": "Bergen", "month": "2026-05", "length": "80"},
    "own": {"dial": {"place": "open", "length": "open"}, "law": {"place": "Lima"}},
    "site": "https://saltmarsh.example/",
}
BERGEN = Setting(field=Station(3, 2026, 5), length_mm=80)
MADE = class_file.make(STUDENTS, PHRASE, [task("tan-a", BERGEN), task("dial")], GIVEN["site"], separator=";")
TEXT = class_file.class_text(MADE)


def ask(function, *arguments, ok=True) -> dict:
    """The answer, which is JSON whatever was asked, and says whether it is one."""
    said = json.loads(function(*arguments))
    assert said["ok"] is ok
    return said


def refused(function, *arguments) -> tuple[str, str]:
    """The control and the sentence of a refusal."""
    said = ask(function, *arguments, ok=False)
    assert said["text"].endswith(".") and "Error" not in said["text"]
    return said["control"], said["text"]


def make(**changes) -> dict:
    return ask(desk.make, json.dumps({**GIVEN, **changes}))


def session(text: str = TEXT) -> str:
    """The handle of a class."""
    return ask(desk.open_file, text)["session"]


def work_of(came_in: str, text: str = TEXT) -> str:
    """The handle of work that came in for a class."""
    return ask(desk_returned.take_in, session(text), came_in)["work"]


def handed_in() -> list[ReturnSlip]:
    """Right answers of everybody but the last for tan A, one wrong, and of the first for the dial."""
    slips = []
    for (student, codes), wrong in zip(MADE.codes()[:3], (False, True, False), strict=True):
        for _, code in codes[: 2 if student.roll == "1" else 1]:
            working = open_code(str(code)).working
            values = working.all_values()
            answers = {s.id: values[s.id] if s.choices else as_written(values[s.id], s) for s in working.steps}
            slips.append(ReturnSlip(student.roll, str(code), {**answers, **({"mean-1": "12.0"} if wrong else {})}, {}))
    return slips


def returned(*texts: str) -> str:
    """What the page keeps of texts that came in."""
    found = [ask(desk_returned.return_slips_of_text, session(), f"mail {n}", text) for n, text in enumerate(texts, 1)]
    return json.dumps({k: [each for f in found for each in f[k]] for k in ("slips", "problems")})


# -- the class ----------------------------------------------------------------


def test_a_class_is_made_as_the_command_line_makes_it():
    said = make()
    assert said["text"] == TEXT and said["students"] == 4 and said["sheets"] == 8
    assert said["rows"][1] == ["2", NASTY, [str(code) for _, code in MADE.codes()[1][1]]]
    assert said["settings"] == (
        "Settings: Tan A: B_H at Bergen, May 2026, bars of 80 mm; "
        "Reading the dial: as usual (2l stated, distances in whole millimetres, all else left to the draw)."
    )
    assert make(own={})["settings"] == "Settings: B_H at Bergen, May 2026, bars of 80 mm."


def test_the_heading_is_set_with_the_class_and_given_back_when_its_file_is_opened():
    heading = {"institution": " Saltmarsh  College", "course": "", "laboratory": "Room 3", "date": NASTY}
    made = make(heading=heading)
    kept = Heading("Saltmarsh College", "", "Room 3", NASTY)
    assert class_file.read_class(made["text"]) == dataclasses.replace(MADE, heading=kept)
    assert ask(desk.open_file, made["text"])["given"]["heading"] == dataclasses.asdict(kept)
    assert refused(desk.make, json.dumps({**GIVEN, "heading": {"date": "x" * 121}}))[0] == "heading"


def test_the_record_page_is_given_out_with_the_settings_of_the_class():
    lab = write_setting(BERGEN)
    assert make()["records"] == [["Tan A", f"https://saltmarsh.example/record/?lab={lab}"]]
    assert make(kinds=["dial"])["records"] == []
    strips = ask(desk.part, session(), "slips.html", 0, 4, "p { }")["text"]
    assert strips.count(f"/record/?lab=<span>{lab}</span></small>") == 4


def test_sheets_whose_slips_look_alike_are_counted_and_said():
    crowded = Setting(length_mm=40, grid_mm=10, distances=8)
    class_ = class_file.make(STUDENTS, PHRASE, [task("tan-a", crowded), task("law", crowded), task("dial")])
    sheets = [open_code(str(code)) for _, codes in class_.codes() for _, code in codes]
    many = {k: sum(s.kind.slug == k and not s.scenario.diagnosable for s in sheets) for k in ("tan-a", "law")}
    assert many["tan-a"] and not many["law"]  # with whole centimetres and a short bar
    said, found = ask(desk.open_file, class_file.class_text(class_)), {}
    assert said["alike"]
    for start in (0, 3):
        counted = ask(desk.alike_in, said["session"], start, start + 3, json.dumps(found))
        found = counted["found"]
    assert found == {"tan-a": many["tan-a"]}
    assert counted["says"] == (
        "With these settings the slips of some sheets cannot all be told apart: "
        f"{many['tan-a']} of 4 of Tan A. A slip that looks like another is said as one of two there."
    )
    usual = ask(desk.open_file, class_file.class_text(dataclasses.replace(class_, tasks=class_.tasks[2:])))
    assert not usual["alike"] and ask(desk.alike_in, usual["session"], 0, 8, "{}")["says"] == ""


def test_a_class_file_opens_and_its_controls_make_it_again():
    said = ask(desk.open_file, TEXT)
    assert said["text"] == TEXT
    assert make(**said["given"])["text"] == TEXT
    lima = Setting(field=Station(13, 2026, 5), scale_step=0.5)
    alike = class_file.class_text(class_file.make(STUDENTS, PHRASE, [task("law", lima), task("dial", lima)]))
    given = ask(desk.open_file, alike)["given"]
    assert given["own"] == {} and given["common"]["place"] == "Lima" and make(**given)["text"] == alike


def test_marks_set_before_are_kept():
    scheme = {"step_mark": 2.0, "columns": {"tan-a/pole": 5.0}}
    assert class_file.read_class(make(marks=scheme)["text"]).scheme == Scheme(
        step_mark=2.0, columns=(("tan-a/pole", 5.0),)
    )


@pytest.mark.parametrize(
    "change, control, said",
    [
        ({"list": ""}, "list", "no student"),
        ({"list": "7,a\n8,b\n7,c"}, "list", "lines 1 and 3"),
        ({"list": '1,"a\n2,b'}, "list", "From line 1 on"),
        ({"phrase": "short"}, "phrase", "at least 8"),
        ({"kinds": []}, "kinds", "Choose at least one"),
        ({"kinds": ["tan-z"]}, "kinds", "There are: compare"),
        (
            {"common": {"length": "8.1"}},
            "kinds",
            "Is “8.1” in centimetres?",
        ),
        ({"common": {"place": "Lima"}}, "kinds", "A place needs a month too"),
        ({"own": {"dial": {"field": "0.382"}}}, "kinds", "For dial: Is “0.382” in gauss?"),
        (
            {"common": {"length": "41", "grid": "10 mm", "distances": "8", "field": "65"}},
            "kinds",
            "Tan A: A bar of 41 mm in a field of 65.0 µT leaves at most 7 distances of whole centimetres",
        ),
        ({"site": "saltmarsh"}, "site", "http"),
        ({"marks": {"step_mark": "two"}}, "marks", "mark of a step"),
    ],
)
def test_what_cannot_be_made_says_where(change, control, said):
    where, text = refused(desk.make, json.dumps({**GIVEN, **change}))
    assert where == control and said in text


@pytest.mark.parametrize("text", ["{}", "[1]", TEXT[:-40]])
def test_what_is_no_class_file(text):
    assert "not a class file" in refused(desk.open_file, text)[1]


@pytest.mark.parametrize(
    "raw, said",
    [(bytes(range(256)), "UTF-8"), ("Ådne".encode("latin-1"), "UTF-8"), (b"\0" * 20_000_001, "at most 20,000,000")],
)
def test_a_file_that_is_no_list(raw, said):
    assert said in ask(desk.file_text, raw, "list.csv", ok=False)["text"]


def test_a_file_in_utf_16_is_read():
    assert ask(desk.file_text, LIST.encode("utf-16"), "list.csv") == {"ok": True, "text": LIST}


@pytest.mark.parametrize("name", PACKS)
def test_the_parts_of_a_file_make_it_whole(name):
    pack = PACKS[name]
    whole = pack.head(MADE, "p { }") + "".join(pack.piece(MADE, *of) for of in MADE.codes()) + pack.foot
    for cuts in ((0, 4), (0, 1, 3, 4), (0, 3, 9)):
        parts = [ask(desk.part, session(), name, a, b, "" if a else "p { }")["text"] for a, b in zip(cuts, cuts[1:])]
        assert "".join(parts) == whole


def test_a_setting_without_numbers_is_told(monkeypatch):
    def none(code):
        raise ArithmeticError("none")

    monkeypatch.setattr("exercises.classroom.class_list.packs.sheet_of", none)
    assert "no consistent numbers were found for tan-a" in refused(desk.part, session(), "key.csv", 0, 4)[1]
    assert ask(desk.part, session(), "codes.csv", 0, 4)["ok"]


# -- returned work ------------------------------------------------------------


def test_what_came_in_is_set_against_the_class():
    slips = handed_in()
    stranger = return_slip_text(ReturnSlip(NASTY, "A3H-222-222", {"mean-1": "45"}, {}))
    came_in = returned("\n".join(map(return_slip_text, slips)), stranger, "no slip at all")
    said = ask(desk_returned.take_in, session(), came_in)
    assert said["handed"] == 4 and said["problems"] == 2
    assert "<td>3</td><td>1</td>" in said["html"] and "<td>1</td><td>3</td>" in said["html"]
    assert "Missing (4)" in said["html"] and "no return slip here" in said["html"]
    assert "<script" not in said["html"] and "&lt;script&gt;" in said["html"]


def test_a_table_copied_from_paper_is_read_as_one():
    said = ask(
        desk_returned.return_slips_of_text, session(), "paper.csv", 'roll;kind;step;answer\n1;tan-a;mean-1;"45,2"\n'
    )
    assert [(s["who"], s["answers"]) for s in said["slips"]] == [("1", {"mean-1": "45,2"})]


@pytest.mark.parametrize("raw", [b"", b"%PDF-1.4", b"PK\x03\x04", b"\0\1\2"])
def test_a_file_with_no_text_says_so(raw):
    said = ask(desk_returned.return_slips_of_file, session(), raw, "scan")
    (problem,) = said["problems"]
    assert said["slips"] == [] and problem["source"] == "scan" and problem["text"].startswith("It is ")
    # and it goes on among what could not be marked
    taken = ask(desk_returned.take_in, session(), json.dumps({"slips": [], "problems": [problem]}))
    assert taken["problems"] == 1 and "scan" in taken["html"] and "It is " in taken["html"]


def test_a_file_of_slips():
    said = ask(
        desk_returned.return_slips_of_file, session(), return_slip_text(handed_in()[0]).encode("utf-16"), "mail.txt"
    )
    assert [s["who"] for s in said["slips"]] == ["1"] and not said["problems"]


@pytest.mark.parametrize("slug", list(all_kinds()))
def test_the_form_for_paper_has_every_step(slug):
    text = class_file.class_text(class_file.make(STUDENTS, PHRASE, [task(slug)]))
    said = ask(desk_returned.paper, session(text), "2", slug)
    steps = open_code(said["code"]).working.steps
    assert all(f'name="{s.id}"' in said["html"] and f'for="cd-step-{s.id}"' in said["html"] for s in steps)
    assert said["html"].count("<input ") + said["html"].count("<select ") == len(steps)
    assert "<script" not in said["html"]


def test_a_student_is_found_by_roll_or_by_a_name_that_one_has():
    assert ask(desk_returned.paper, session(), " 1 ", "tan-a")["roll"] == "1"
    assert ask(desk_returned.paper, session(), "ringed  plover", "tan-a")["roll"] == "1"
    for who in ("Sanderling", "", "77"):
        assert refused(desk_returned.paper, session(), who, "tan-a")[0] == "who"
    assert "not set in this class" in refused(desk_returned.paper, session(), "1", "law")[1]


def test_answers_from_paper_become_a_slip_that_amends():
    slip = handed_in()[0]
    said = ask(
        desk_returned.from_paper,
        session(),
        "1",
        "tan-a",
        json.dumps({**slip.answers, "pole": " ", "mean-2": " 44.5° "}),
    )
    expected = {**slip.answers, "mean-2": "44.5°"}
    del expected["pole"]
    expected["pole"] = ""  # what is emptied takes an answer out
    assert [ReturnSlip(**s) for s in said["slips"]] == [ReturnSlip("1", slip.code, expected, {}, by_hand=True)]
    assert "Nothing was changed" in refused(desk_returned.from_paper, session(), "1", "tan-a", "{}")[1]
    assert "200" in refused(desk_returned.from_paper, session(), "1", "tan-a", json.dumps({"mean-1": "1" * 500}))[1]


# -- marks --------------------------------------------------------------------


def test_marks_are_those_of_the_modules_however_they_are_sliced():
    work = work_of(returned("\n".join(map(return_slip_text, handed_in()))))
    for start, stop in ((0, 1), (1, 3), (2, 9)):
        assert ask(desk_marks.mark, work, start, stop)["ok"]
    sheets = [marked(handed, MADE.scheme) for handed in take_in(MADE, handed_in()).handed]
    assert ask(desk_marks.part, work, "marks.csv", 0, 1)["text"] == marks_csv(sheets, MADE)
    said = ask(desk_marks.result, work)
    assert said["says"] == "4 sheets of 3 students marked."
    full = sum(s.possible for s in sheets if s.handed.student.roll == "1")
    assert f"<td>{full:g} / {full:g}</td>" in said["table"] and said["table"].count("not handed in") == 4
    assert "<script" not in said["table"] + said["report"] and "Ringed" not in said["report"]


def test_work_that_is_alike_and_notes_are_shown_beside_the_marks():
    slips = handed_in()
    copied = ReturnSlip(
        "3", slips[3].code, {k: slips[0].answers[k] for k in slips[3].answers if k in slips[0].answers}, {}
    )
    work = work_of(returned("\n".join(map(return_slip_text, [*slips[:3], copied, copied]))))
    said = ask(desk_marks.result, work)
    assert "Work of different students that is alike (" in said["notes"] and "Look at both, and ask." in said["notes"]
    assert "Slips with the same answers came 2 times for roll" in said["notes"]
    assert "Look at both" in ask(desk_marks.part, work, "marks.csv", 0, 1)["text"]


def test_the_pages_for_students_in_parts():
    work = work_of(returned("\n".join(map(return_slip_text, handed_in()))))
    whole = ask(desk_marks.part, work, "students.html", 0, 4, "p { }")["text"]
    parts = [
        ask(desk_marks.part, work, "students.html", a, b, "" if a else "p { }")["text"] for a, b in ((0, 1), (1, 4))
    ]
    assert (
        "".join(parts) == whole
        and whole.count("<article") == 4
        and whole.endswith("</html>\n")
        and "<script" not in whole
    )


def test_what_could_not_be_marked_is_in_its_table():
    work = work_of(returned(return_slip_text(ReturnSlip("9", "A3H-222-222", {"mean-1": "45.25"}, {}))))
    table = ask(desk_marks.part, work, "not-marked.csv", 0, 1)["text"]
    assert "A3H-222-222" in table and "45.25" in table


def test_a_sheet_that_cannot_be_drawn_is_a_problem_and_the_rest_is_marked(monkeypatch):
    first = str(MADE.codes()[0][1][0][1])

    def fails(code):
        if str(code) == first:
            raise ArithmeticError("none")
        return sheet_of(code)

    monkeypatch.setattr("exercises.classroom.marking.class_marking.sheet_of", fails)
    slips = [dataclasses.replace(s, who="Ringed Plover") if s.code == first else s for s in handed_in()]
    work = work_of(returned("\n".join(map(return_slip_text, slips[::-1]))))
    assert ask(desk_marks.mark, work, 0, 4)["ok"]
    said = ask(desk_marks.result, work)
    assert said["says"].startswith("3 sheets of 3 students marked. 1 thing that came in is not marked")
    table = ask(desk_marks.part, work, "not-marked.csv", 0, 1)["text"]
    assert f";Ringed Plover;{first};The sheet of this code has no consistent numbers" in table  # as the slip has it


def test_each_sheet_is_opened_and_marked_once(monkeypatch):
    opened = []

    def counted(code):
        opened.append(str(code))
        return sheet_of(code)

    monkeypatch.setattr("exercises.classroom.marking.class_marking.sheet_of", counted)
    slips = handed_in()
    work = work_of(returned("\n".join(map(return_slip_text, slips))))
    for start, stop in ((0, 2), (1, 3), (0, 9)):
        ask(desk_marks.mark, work, start, stop)
    for name in ("marks.csv", "students.html", "not-marked.csv", "report.html"):
        ask(desk_marks.part, work, name, 0, 9, "p { }")
    ask(desk_marks.result, work)
    assert sorted(opened) == sorted(s.code for s in slips)


# -- handles ------------------------------------------------------------------


def test_what_is_not_open_any_more_is_said_and_can_be_opened_again():
    came_in = returned("\n".join(map(return_slip_text, handed_in())))
    first, work = session(), work_of(came_in)
    before = ask(desk_marks.part, work, "marks.csv", 0, 1)["text"]
    for handles in (desk_session.CLASSES, desk_session.WORKS):
        handles._things.clear()  # as if Python was started again
    for function, *arguments in (
        (desk.part, first, "codes.csv", 0, 4),
        (desk.students, first),
        (desk_returned.return_slips_of_text, first, "mail", "roll,kind,step,answer"),
        (desk_returned.take_in, first, came_in),
        (desk_returned.paper, first, "1", "tan-a"),
        (desk_returned.from_paper, first, "1", "tan-a", '{"mean-1": "45"}'),
        (desk_scheme.form, first),
        (desk_scheme.with_scheme, first, json.dumps(CONTROLS)),
        (desk_marks.mark, work, 0, 1),
        (desk_marks.result, work),
        (desk_marks.part, work, "marks.csv", 0, 1),
    ):
        assert ask(function, *arguments, ok=False)["lost"] is True
    again = work_of(came_in)
    assert again != work and ask(desk_marks.part, again, "marks.csv", 0, 1)["text"] == before


def test_the_last_few_are_kept():
    handles = desk_session.OpenThings(2)
    one, two = handles.add("one"), handles.add("two")
    assert handles[one] == "one"  # so the other is the oldest now
    three = handles.add("three")
    assert handles[one] == "one" and handles[three] == "three" and len({one, two, three}) == 3
    with pytest.raises(desk_session.LostHandle):
        handles[two]


def test_another_scheme_takes_the_work_along_and_leaves_what_is_marked():
    came_in = returned("\n".join(map(return_slip_text, handed_in())))
    first = session()
    work = ask(desk_returned.take_in, first, came_in)["work"]
    before = ask(desk_marks.part, work, "marks.csv", 0, 1)["text"]
    same = ask(desk_scheme.with_scheme, first, json.dumps(CONTROLS), work)
    assert (same["session"], same["work"], same["text"]) == (first, work, TEXT)
    said = ask(desk_scheme.with_scheme, first, json.dumps({**CONTROLS, "step_mark": "2"}), work)
    assert said["session"] != first and said["work"] != work
    scheme = Scheme(step_mark=2.0)
    sheets = [marked(handed, scheme) for handed in take_in(MADE, handed_in()).handed]
    doubled = dataclasses.replace(MADE, scheme=scheme)
    assert ask(desk_marks.part, said["work"], "marks.csv", 0, 1)["text"] == marks_csv(sheets, doubled)
    assert ask(desk_marks.part, work, "marks.csv", 0, 1)["text"] == before
    assert ask(desk_scheme.with_scheme, first, json.dumps({**CONTROLS, "step_mark": "3"}))["work"] == ""


def test_the_table_on_the_page_shows_forty():
    for many, caption in (
        (40, "<caption>Marks</caption>"),
        (41, "The first 40 of 41 students; the table that is saved has all."),
    ):
        made = class_file.make([Student(str(n), "Knot") for n in range(many)], PHRASE, [task("law")])
        nothing = json.dumps({"slips": [], "problems": []})
        said = ask(desk_marks.result, work_of(nothing, class_file.class_text(made)))
        assert (
            caption in said["table"]
            and said["table"].count("not handed in") == 40
            and said["says"] == "0 sheets of 0 students marked."
        )
        preview = ask(desk.open_file, class_file.class_text(made))
        assert len(preview["rows"]) == desk.SHOWN and preview["more"] == many - desk.SHOWN
        assert preview["says"].startswith(f"{many} students, {many} sheets: ")
    one = ask(desk.open_file, class_file.class_text(class_file.make([Student("1")], PHRASE, [task("law")])))
    assert one["says"].startswith("1 student, 1 sheet: ") and one["more"] == 0 and one["students"] == one["sheets"] == 1
    assert ask(desk.students, session())["students"] == [[s.roll, s.name] for s in STUDENTS]


def test_of_one_sheet_and_of_one_thing():
    said = ask(desk_marks.result, work_of(returned(return_slip_text(handed_in()[0]), "no slip at all")))
    assert said["says"].startswith("1 sheet of 1 student marked. 1 thing that came in is not marked")
    slip, other = handed_in()[:2]
    total = f"{sum(MADE.scheme.out_of_sheet(t.kind.slug, t.edition, t.setting) for t in MADE.tasks):g}"
    both = ask(desk_marks.result, work_of(returned(return_slip_text(slip), return_slip_text(other))))
    assert f"<td>{total} / {total}</td>" in both["table"] and both["says"] == "2 sheets of 1 student marked."


def test_a_folded_list_shows_two_hundred():
    assert desk_returned.folded("A", []) == ""
    for many, rest in ((200, ""), (201, "and 1 more"), (1400, "and 1,200 more")):
        html = desk_returned.folded("A", ["x"] * many, opened=many == 201)
        assert html.count("<li>x</li>") == 200 and (rest in html) and ("more" in html) is bool(rest)
        assert f"<summary>A ({many:,})" in html and ("<details open>" in html) is (many == 201)


CONTROLS = {"step_mark": "1", "follows": "100", "figures": "0", "units": "0", "out_of": "", "attempt": "first"}


def test_the_controls_of_a_scheme():
    typed = {
        **CONTROLS,
        "step_mark": "1,5",
        "follows": "50 %",
        "figures": "12.5",
        "out_of": "20",
        "tan-a/pole": "3",
        "dial/mean": "",
    }
    said = ask(desk_scheme.with_scheme, session(), json.dumps(typed | {"attempt": "last"}))
    scheme = class_file.read_class(said["text"]).scheme
    assert scheme == Scheme(1.5, (("tan-a/pole", 3.0),), 0.5, 0.125, 0.0, "last", 20.0)
    html = ask(desk_scheme.form, said["session"])["html"]
    for shown in (
        'value="1.5"',
        'value="50"',
        'value="12.5"',
        'value="20"',
        'name="tan-a/pole" value="3"',
        'value="last" checked',
    ):
        assert shown in html
    for name in typed:
        assert f'name="{name}"' in html or name == "dial/mean"


def test_what_the_controls_show_is_the_scheme_again():
    scheme = Scheme(0.125, (("tan-a/pole", 3.333),), 1 / 3, 0.07, 0.015, "first", 17.25)
    text = class_file.class_text(class_file.make(STUDENTS, PHRASE, MADE.tasks, "", scheme))
    html = ask(desk_scheme.form, session(text))["html"]
    typed = dict(re.findall(r'name="([^"]+)" value="([^"]*)" aria', html)) | {"attempt": "first"}
    again = class_file.read_class(ask(desk_scheme.with_scheme, session(text), json.dumps(typed))["text"]).scheme
    assert again.follows == pytest.approx(1 / 3, abs=1e-6)
    assert dataclasses.replace(again, follows=scheme.follows) == scheme


@pytest.mark.parametrize(
    "change, said",
    [
        ({"step_mark": ""}, "“Marks for each step” is blank"),
        ({"step_mark": "two"}, "“two” is not a number"),
        ({"step_mark": "-1"}, "from 0 to 1000"),
        ({"follows": "150"}, "from 0 to 100 %"),
        ({"units": "nan"}, "from 0 to 100 %"),
        ({"out_of": "0"}, "more than nothing"),
        ({"attempt": "best"}, "“first” or “last”"),
        ({"tan-a/pole": "x"}, "not a number"),
        ({"tan-a/colour": "1"}, "no step “colour”"),
    ],
)
def test_controls_that_are_no_scheme(change, said):
    control, text = refused(desk_scheme.with_scheme, session(), json.dumps({**CONTROLS, **change}))
    assert control == "marks" and said in text

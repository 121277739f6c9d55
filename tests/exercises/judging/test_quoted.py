"""A sentence repeats a little of what was typed: a few words are known again, and a page of them hides the rest."""

import json
import re

import pytest

from exercises.classroom.class_list import class_file
from exercises.classroom.class_list.class_file import make, task
from exercises.classroom.class_list.list_words import told
from exercises.classroom.class_list.proposal import propose
from exercises.classroom.class_list.roster import Student, students_of
from exercises.classroom.desk import classes as desk
from exercises.classroom.desk import returned as desk_returned
from exercises.classroom.desk import scheme_form as desk_scheme
from exercises.classroom.desk.session import OpenClass
from exercises.classroom.marking.intake import strange_steps, take_in
from exercises.classroom.marking.scheme import from_dict
from exercises.classroom.marking.typed_in import typed_in
from exercises.codes.convention_text import read_place
from exercises.codes.conventions import BY_KEY, setting_from
from exercises.judging import answer
from exercises.kinds.kind import open_code
from exercises.record.entries import Record
from exercises.record.place import field_of
from exercises.return_slip.text import ReturnSlip
from exercises.student import hand_in
from tests.exercises.golden import codes_of

LONG = "w" * 300
MADE = make([Student("1", "Knot"), Student("2", "Ruff")], "where the tide turns", [task("law")])
OWN = str(MADE.codes()[0][1][0][1])
TEXT = class_file.class_text(MADE)


def problem(slip: ReturnSlip) -> str:
    taken = take_in(MADE, [slip])
    return " ".join([*(p.text for p in taken.problems), *(n for h in taken.handed for n in h.notes)])


def two_came() -> str:
    first = ReturnSlip("1", OWN, {"tan-1": "1"}, {})
    return take_in(MADE, [first, ReturnSlip(LONG, OWN, {"tan-1": "2"}, {})]).problems[0].text


def session() -> str:
    """The handle of the class, open on the class desk."""
    return json.loads(desk.open_file(TEXT))["session"]


def list_told() -> str:
    """What is said of a class list with long headings."""
    found = propose(f"{LONG};{LONG}\n1;\n2;")
    return " ".join(said for _, said in told(found, students_of(found)))


CASES = [
    (30, lambda: answer.read("1 " + "w" * 50, "moment")),
    (29, lambda: answer.read("1 (" + "w" * 50, "ratio")),
    (40, lambda: from_dict({LONG: 1})),
    (40, lambda: from_dict({"columns": {LONG: 1}})),
    (40, lambda: from_dict({"columns": {f"tan-a/{LONG}": 1}})),
    (40, lambda: task(LONG)),
    (40, lambda: read_place(LONG)),
    (40, lambda: setting_from({LONG: "1"})),
    *(
        (40, lambda key=key: setting_from({"place": "Lima", "month": "2026-05", key: LONG}))
        for key in BY_KEY
        if key != "field"
    ),
    (40, lambda: setting_from({"field": LONG})),
    (40, lambda: problem(ReturnSlip("1", LONG, {}, {}))),
    (60, lambda: problem(ReturnSlip(LONG, OWN, {"tan-1": "1"}, {}))),
    (60, two_came),
    (40, lambda: strange_steps(ReturnSlip("1", OWN, {"x": LONG}, {}), open_code(OWN).working)[0]),
    (60, lambda: typed_in(f"roll,kind,step,answer\n1,law,tan-1,{LONG}\n1,law,tan-1,3\n", MADE, "paper.csv")[1][0].text),
    (60, list_told),
    (80, lambda: json.loads(desk_returned.return_slips_of_file(session(), b"", LONG))["told"]),
    (80, lambda: json.loads(desk.file_text(b"\xff\xfea", LONG))["text"]),
    (40, lambda: OpenClass(MADE).student(LONG)),
    (40, lambda: json.loads(desk_scheme.with_scheme(session(), json.dumps({f"weight:{LONG}": "1"})))["text"]),
    (40, lambda: json.loads(desk_scheme.with_scheme(session(), json.dumps({LONG: "x"})))["text"]),
    (40, lambda: json.loads(desk_scheme.with_scheme(session(), json.dumps({"step_mark": LONG})))["text"]),
    (40, lambda: field_of(Record({"place": LONG}), None).problems["place"]),
    (30, lambda: field_of(Record({"place": "Pune", "date": "w" * 50}), None).problems["date"]),
    (40, lambda: hand_in.file_name(LONG, codes_of("A")[0])),
]


@pytest.mark.parametrize("at", range(len(CASES)))
def test_a_long_text_is_cut_where_it_is_repeated(at):
    most, say = CASES[at]
    try:
        said = say()
    except ValueError as error:
        said = str(error)
    assert max(map(len, re.findall("w+", said))) == most, said[:400]


def test_five_strange_steps_are_named():
    for many in (5, 6, 9):
        slip = ReturnSlip("1", OWN, {f"x-{n}": "1" for n in range(many)}, {})
        said = strange_steps(slip, open_code(OWN).working)[0]
        assert "x-4" in said and "x-5" not in said and ("and more" in said) is (many > 5)

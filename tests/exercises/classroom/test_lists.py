"""Class lists as departments export them: none is misread without a word, and most are read right without a question.

The lists in lists/ are made after the trade's habits (common practice, no source); all who stand in them are birds.
right.json says of each what is right: its students, what is asked about first, or that it is refused.
"""

import json
from pathlib import Path

import pytest

from exercises.classroom.class_list.headings import meaning
from exercises.classroom.class_list.list_words import told
from exercises.classroom.class_list.proposal import Chosen, propose
from exercises.classroom.class_list.roster import RosterError, Student, look, students_of
from exercises.files.text import decode

LISTS = Path(__file__).parent / "lists"
RIGHT = json.loads((LISTS / "right.json").read_text(encoding="utf-8"))


def text_of(name: str) -> str:
    return decode((LISTS / f"{name}.csv").read_bytes())


def test_there_are_enough_lists_and_most_are_read_without_a_question():
    assert {path.stem for path in LISTS.glob("*.csv")} == {one["list"] for one in RIGHT}
    assert len(RIGHT) >= 40
    assert sum(one.get("asks") == [] for one in RIGHT) >= 30


@pytest.mark.parametrize("one", RIGHT, ids=lambda one: one["list"])
def test_a_list_is_read_right_or_asked_about_or_refused(one):
    text = text_of(one["list"])
    found = propose(text)
    if one.get("refused"):
        with pytest.raises(RosterError):
            look(text)
        return
    students = tuple(Student(*student) for student in one["students"])
    assert students_of(found) == students
    assert {doubt.about for doubt in found.doubts} == set(one["asks"])
    if one["asks"]:
        with pytest.raises(RosterError, match="It is not certain how this list is to be read"):
            look(text)
    assert look(text, Chosen(sure=True)).students == students
    said = dict(told(found, students))
    rows = sum(bool(row.strip(",;\t \r\n")) for row in text.splitlines())
    assert said["students"] == f"{len(students):,}" and students[0].roll in said["first"]
    assert len(found.aside) + len(students) == len(found.cells.rows) <= rows


@pytest.mark.parametrize(
    "heading, use",
    [
        ("Roll No.", "roll"),
        ("Enrollment Number", "roll"),
        ("REGD. NO", "roll"),
        ("Adm.No.", "roll"),
        ("Exam Seat No.", "roll"),
        ("Hall Ticket Number", "roll"),
        ("Candidate No", "roll"),
        ("PRN", "roll"),
        ("StudentID", "roll"),
        ("College ID No.", "roll"),
        ("Student's No.", "roll"),
        ("No", "roll"),
        ("S. No.", "serial"),
        ("Sl.No", "serial"),
        ("Sr No", "serial"),
        ("S/N", "serial"),
        ("#", "serial"),
        ("№", "serial"),
        ("Name of the Student", "name"),
        ("STUDENT NAME", "name"),
        ("Name (in block letters)", "name"),
        ("Surname and given name", "name"),
        ("Surname", "part"),
        ("Given names", "part"),
        ("Section/Batch", "section"),
        ("Lab Group", "section"),
        ("Father's Name", None),
        ("Name of the College", None),
        ("Course name", None),
        ("Date of admission", None),
        ("Mobile No", None),
        ("Test 1", None),
        ("", None),
    ],
)
def test_headings(heading, use):
    found = meaning(heading)
    assert (found and found.use) == use


TWO = "Class Roll,University Roll,Name,Who\n1,901,Knot,x\n2,902,Ruff,y"


def test_what_a_person_chose_stands():
    assert [d.about for d in propose(TWO).doubts] == ["roll"]
    found = look(TWO, Chosen(roll=1, names=(3, 2)))
    assert found.students == (Student("901", "x Knot"), Student("902", "y Ruff"))
    assert look(TWO, Chosen(roll=1, names=(), section=2)).students[0] == Student("901", "", "Knot")
    assert look(TWO, Chosen(roll=0, above=2)).students == (Student("2", "Ruff"),)
    assert look(TWO, Chosen(roll=0, below=1)).students == (Student("1", "Knot"),)
    assert propose(TWO, Chosen(never=frozenset({0}))).columns.roll == 1


def test_words_with_a_figure_are_no_rolls_beside_figures_alone():
    assert look("7,Knot 1\n9,Knot 2").students == (Student("7", "Knot 1"), Student("9", "Knot 2"))
    assert propose("12 Marsh Road,31\n7 Sea Lane,32").columns.roll == 1


def test_a_number_alone_is_asked_about():
    with pytest.raises(RosterError, match="Did you mean 1-60"):
        propose("60")
    assert look("60-60").students == (Student("60"),)


def test_a_line_with_very_many_cells_is_refused():
    with pytest.raises(RosterError, match="Line 2 has 301 cells"):
        propose("1,Knot\n" + "x," * 300 + "y")

"""A roll that a spreadsheet or a student changed meets the one in the list, if only one can be meant."""

import json

import pytest

from exercises.classroom.class_list.class_file import make, task
from exercises.classroom.class_list.roll_match import Rolls, note_of
from exercises.classroom.class_list.roster import Student
from exercises.classroom.desk.session import OpenClass
from exercises.classroom.marking.intake import take_in
from exercises.classroom.marking.typed_in import typed_in
from exercises.return_slip.lines import ReturnSlip

CLASS = tuple(map(Student, ("0031", "0032", "7", "07", "24-PH-011", "24/12", "a b")))
MADE = make((Student("0031", "Knot"), Student("0032", "Ruff")), "sand and salt water", [task("distances")])


@pytest.mark.parametrize(
    "said, roll",
    [
        ("0031", "0031"),
        ("31", "0031"),
        (" 31 ", "0031"),
        ("31.0", "0031"),
        ("7", "7"),
        ("07", "07"),
        ("007", None),  # 7 or 07: both are in the class
        ("24ph011", "24-PH-011"),
        ("24 – ph – 011", "24-PH-011"),
        ("24-PH-11", None),  # a zero inside is no zero before a number
        ("2412", None),
        ("A-B", "a b"),
        ("310", None),
        ("", None),
    ],
)
def test_a_roll_is_found_where_one_alone_can_be_meant(said, roll):
    found = Rolls(CLASS).find(said)
    assert (found and found.roll) == roll


def test_a_slip_under_another_spelling_is_the_students_with_a_note():
    ((student, [(_, code)]), (_, [(_, other)])) = MADE.codes()
    intake = take_in(MADE, [ReturnSlip("31", str(code), {"gap": "20"}, {})])
    (handed,) = intake.handed
    assert handed.student == student and not intake.problems
    assert handed.notes == ("It came under the roll 31, which is 0031 in the class list.",)
    (problem,) = take_in(MADE, [ReturnSlip("31", str(other), {"gap": "20"}, {})]).problems
    assert "Roll 0031 (Knot) handed in the sheet" in problem.text


def test_rolls_of_a_table_that_lost_its_zeros_are_found():
    slips, problems = typed_in("roll,kind,step,answer\n31,distances,gap,20\n33,distances,gap,20\n", MADE, "table.csv")
    assert [slip.code for slip in slips] == [str(MADE.codes()[0][1][0][1])]
    assert len(problems) == 1 and "for roll 33" in problems[0].text
    (handed,) = take_in(MADE, slips).handed
    assert handed.notes[0] == note_of("31", handed.student) != ""


def test_the_desk_finds_a_student_by_what_is_left_of_the_roll():
    assert OpenClass(MADE).student("32") == 1


def test_the_code_hangs_on_the_roll_as_the_list_has_it():
    without = make((Student("31", "Knot"), Student("32", "Ruff")), "sand and salt water", [task("distances")])
    assert json.dumps([str(c) for _, [(_, c)] in MADE.codes()]) != json.dumps(
        [str(c) for _, [(_, c)] in without.codes()]
    )


def test_a_slip_without_a_roll_is_not_that_of_a_student_whose_roll_is_a_dash():
    rolls = Rolls([Student("–"), Student("0"), Student("7" * 40)])
    assert rolls.find("") is None and rolls.find("–").roll == "–" and rolls.find("00").roll == "0"
    assert rolls.find("0" + "7" * 40).roll == "7" * 40

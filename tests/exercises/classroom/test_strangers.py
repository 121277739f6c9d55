"""Codes that are none of the class: one wrong thing is said once, with what to do."""

import pytest

from exercises.classroom.class_list.class_file import make, task
from exercises.classroom.class_list.roster import Student
from exercises.classroom.marking.intake import take_in
from exercises.codes.sheet_code import Setting
from exercises.return_slip.lines import ReturnSlip

PHRASE = "where the tide turns"
STUDENTS = [Student(str(n), f"Knot {n}") for n in range(1, 13)]
MADE = make(STUDENTS, PHRASE, [task("tan-a"), task("law")])


def handed_in(made, names=None):
    return [
        ReturnSlip(names or s.roll, str(code), {"tan-1": "1"}, {}, f"{s.roll}.txt")
        for s, codes in made.codes()
        for _, code in codes
    ]


def told(made, slips=(), names=None):
    taken = take_in(MADE, [*handed_in(made, names), *slips])
    return taken.problems


@pytest.mark.parametrize(
    "made, said",
    [
        (
            make(STUDENTS, PHRASE.replace("w", "W", 1), [task("tan-a"), task("law")]),
            "Kinds and settings agree, so the class phrase is another, or the list was changed",
        ),
        (
            make(STUDENTS, PHRASE, [task("tan-a", Setting(length_mm=80)), task("law", Setting(length_mm=80))]),
            "The codes have other settings than this class was set: length is 80 mm on the slips and open here.",
        ),
        (make(STUDENTS, PHRASE, [task("dial"), task("earth")]), "The codes are for dial and earth, which this class"),
    ],
)
def test_another_class_file_is_one_problem(made, said):
    first, *others = told(made)
    assert first.text.startswith("None of the 24 codes that came in is of this class. 24 of these 24 slips are under")
    assert said in first.text and "Use the class file with which these codes were made" in first.text
    assert len(others) == 24 and len({p.text for p in others}) == 1 and all(p.slip for p in others)


def test_whose_they_are_is_said_as_far_as_it_is_known():
    made = make(STUDENTS, "another phrase", [task("tan-a"), task("law")])
    assert "None of the slips is under a roll or a name of this class, so it looks" in told(made, (), "Skua")[0].text
    good = handed_in(MADE)[:3]
    assert told(made, good)[0].text.startswith("Only 3 of the 27 codes that came in are of this class.")


def test_a_few_strangers_among_many_are_told_one_by_one():
    made = make(STUDENTS[:2], "another phrase", [task("law")])
    problems = told(made, handed_in(MADE))
    assert len(problems) == 2 and all("is nobody's in this class." in p.text for p in problems)
    assert all("for law is" in p.text for p in problems)
    assert len(take_in(MADE, handed_in(made)).problems) == 2  # two are too few to say that all are


def test_codes_that_cannot_be_read_say_what_is_wrong_with_each():
    slips = [ReturnSlip("1", "A3H", {}, {}) for _ in range(9)]
    problems = take_in(MADE, slips).problems
    assert len(problems) == 9 and all("cannot be used" in p.text for p in problems)

"""A table of answers copied from paper becomes return slips; what cannot be used keeps its line and its answer."""

import pytest

from exercises.classroom.marking.intake import take_in
from exercises.classroom.marking.typed_in import typed_in
from tests.exercises.classwork import a_class, code_of

MADE = a_class(3, ("tan-a", "law"))
CODE = str(code_of(MADE, 1))


def read(text):
    return typed_in(text, MADE, "paper.csv")


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_one_line_an_answer(mark, end):
    rows = [
        ("Roll", "Kind", "Step", "Answer"),
        ("s02", "TAN-A", "mean-1", "41.2°"),
        ("S02", "tan-a", "Pole", "7.9 A·m"),
        ("S01", "law", "tan-1", "'-0.5"),
        ("", "", "", ""),
    ]
    slips, problems = read("\ufeff" + end.join(mark.join(row) for row in rows))
    assert not problems
    assert [(s.who, s.code, dict(s.answers)) for s in slips] == [
        ("s02", CODE, {"mean-1": "41.2°", "pole": "7.9 A·m"}),
        ("S01", str(code_of(MADE, 0, 1)), {"tan-1": "-0.5"}),
    ]


def test_by_code_and_into_the_class():
    slips, problems = read(f'answer,step,code,roll\n"1,62",pole,{CODE},S02\n,tan-1,{CODE},S02\n')
    assert slips[0].answers == {"pole": "1,62"} and not problems
    intake = take_in(MADE, slips, problems)
    assert [h.student.roll for h in intake.handed] == ["S02"] and len(intake.missing) == 5


@pytest.mark.parametrize(
    "text, said",
    [
        ("", "no column roll and no column kind and no column step and no column answer"),
        ("roll,kind,step\nS01,law,tan-1", "no column answer."),
        ("roll,kind,step,answer\nS09,law,tan-1,2", "There is no sheet of law for roll S09 in this class."),
        ("roll,kind,step,answer\nS01,dial,tan-1,2", "There is no sheet of dial for roll S01"),
        (
            "roll,kind,step,answer\n,,tan-1,2",
            "There is no sheet of a kind that is not named for roll that is not given",
        ),
        ("roll,kind,step,answer\nS01,law,,2", "names no step"),
        (
            "roll,kind,step,answer\nS01,law,tan-1,2\nS01,law,tan-1,3",
            "tan-1 is there twice for this sheet. The later one is used; before it stood “2”.",
        ),
        ('roll,kind,step,answer\nS01,law,tan-1,"2" 3\n', "From line 2 on the cells cannot be told apart"),
        (f"roll,kind,step,answer\nS01,law,tan-1,{'9' * 200_000}\n", "Line 2 has a cell too long for an answer."),
    ],
)
def test_what_cannot_be_used(text, said):
    slips, problems = read(text)
    assert said in problems[0].text and problems[0].source.startswith("paper.csv") and problems[0].text.endswith(".")
    if "twice" in said:
        assert slips[0].answers == {"tan-1": "3"}
    elif "answer" not in said and "cells" not in said:
        assert problems[0].slip.answers in ({"tan-1": "2"}, {"": "2"})


def test_of_two_spellings_of_a_roll_the_last_line_counts():
    """31, 0031 and 31 again are one student's lines, and stand in the order of the table."""
    slips, problems = read("roll,kind,step,answer\nS02,tan-a,mean-1,1\ns02,tan-a,mean-1,2\nS02,tan-a,mean-1,3")
    assert [dict(slip.answers) for slip in slips] == [{"mean-1": "3"}] and len(problems) == 2

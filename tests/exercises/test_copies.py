"""Work that is alike is shown, and an honest class is left in peace."""

import random
import time

import pytest

from exercises.classroom.class_file import make, task
from exercises.classroom.copies import Copies, copied
from exercises.classroom.intake import Handed
from exercises.classroom.roster import Student
from exercises.classroom.slip_text import ReturnSlip
from exercises.kinds import all_kinds, open_code
from exercises.sheet import written
from exercises.slips import slips_for


def a_class(slug, many, seed=1):
    """A class that worked honestly, each with slips and blunders of their own: (handed, working) of each."""
    chance = random.Random(seed)
    made = make([Student(str(n), f"Knot {n}") for n in range(1, many + 1)], "where the tide turns", [task(slug)])
    out = []
    for student, ((set_, code),) in made.codes():
        kind, _, working = open_code(str(code))
        values = working.all_values()
        if chance.random() < 0.6:
            slip = chance.choice(slips_for(kind.slug, working.parts))
            parts = {**working.parts, slip.part: slip.change(working.parts[slip.part])}
            slipped = working.slipped(slip.part, parts, values)
            values = {**values, **{k: v for k, v in slipped.items() if isinstance(v, str) or v == v}}
        answers = {}
        for step in working.steps:
            value = values[step.id]
            if step.choices:
                answers[step.id] = value
            elif chance.random() > 0.05:
                answers[step.id] = written(value * chance.uniform(0.9, 1.1) if chance.random() < 0.1 else value, step)
        out.append((Handed(student, set_, code, ReturnSlip(student.roll, str(code), answers, {}), ()), working))
    return out


def with_answers(handed, answers):
    slip = ReturnSlip(handed.slip.who, handed.slip.code, answers, {})
    return Handed(handed.student, handed.task, handed.code, slip, ())


def right(working):
    values = working.all_values()
    return {step.id: values[step.id] if step.choices else written(values[step.id], step) for step in working.steps}


def found(work):
    copies = Copies()
    for handed, working in work:
        copies.add(handed, working)
    return copies.found()


@pytest.mark.parametrize("slug", sorted(all_kinds()))
def test_an_honest_class_is_left_in_peace(slug):
    assert [a.text for a in found(a_class(slug, 100))] == []


@pytest.mark.parametrize("slug", ["tan-a", "tan-b", "compare", "graph", "dial", "distances"])
def test_a_sheet_copied_from_another(slug):
    work = a_class(slug, 30)
    work[4] = with_answers(work[4][0], right(work[4][1])), work[4][1]
    work[21] = with_answers(work[21][0], work[4][0].slip.answers), work[21][1]
    alike = found(work)
    assert {frozenset(s.roll for s in a.students) for a in alike} == {frozenset({"5", "22"})}
    assert any("do not fit the sheet they came under" in a.text and "right on the sheet of roll 5 (Knot 5)" in a.text for a in alike)


def test_a_part_that_two_share_and_that_is_wrong_on_both_sheets():
    work = a_class("tan-a", 30)
    steps = [f"{column}-{row}" for row in (1, 2, 3) for column in ("mean", "tan", "bracket", "moment")]
    other = right(a_class("tan-a", 31)[30][1])  # of a student who handed in nothing
    for at in (3, 9):
        handed, working = work[at]
        work[at] = with_answers(handed, {**handed.slip.answers, **{s: other[s] for s in steps}}), working
    (alike,) = found(work)
    assert [s.roll for s in alike.students] == ["4", "10"] and alike.steps == tuple(steps)
    assert alike.text.startswith("Roll 4 (Knot 4) and roll 10 (Knot 10) have the same numbers in Tan A")


def test_what_is_right_on_both_sheets_says_nothing():
    work = a_class("tan-a", 10)
    handed, working = work[0]
    work[0] = with_answers(handed, right(working)), working
    work.append((Handed(Student("99"), handed.task, handed.code, ReturnSlip("99", "", right(working), {}), ()), working))
    assert found(work) == []


def test_blank_and_unreadable_answers_and_choices_are_no_copies():
    work = a_class("fault", 20)
    for at, (handed, working) in enumerate(work):
        answers = {s.id: s.choices[0][0] if s.choices else ("see table", "", "1,234")[at % 3] for s in working.steps}
        work[at] = with_answers(handed, answers), working
    assert found(work) == []


def test_a_crowd_that_shares_is_told_once():
    work = a_class("tan-a", 40)
    answers = right(work[0][1])
    work = [(with_answers(handed, answers) if at < 20 else handed, working) for at, (handed, working) in enumerate(work)]
    runs = [a for a in found(work) if "have the same numbers" in a.text]
    assert len(runs) == 1 and len(runs[0].students) == 20 and "and 14 more" in runs[0].text


def test_it_can_be_asked_in_one_call():
    work = a_class("law", 12)
    assert copied(handed for handed, _ in work) == []


def test_a_thousand_sheets_in_time():
    work = a_class("dial", 50) * 20
    start = time.perf_counter()
    found(work)
    assert time.perf_counter() - start < 2.0  # 0.3 s on a quiet machine

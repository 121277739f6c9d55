"""Work that is alike is shown, and an honest class is left in peace."""

import random
import time

import pytest

from exercises.classroom.class_list.class_file import make, task
from exercises.classroom.class_list.roster import Student
from exercises.classroom.marking.copies import Copies
from exercises.classroom.marking.intake import Handed
from exercises.judging.diagnosis import with_slips
from exercises.judging.entries import read_entries
from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.sheet import written
from exercises.return_slip.text import ReturnSlip


def a_class(slug, many, seed=1):
    """A class that worked honestly, each with slips and blunders of their own: (handed, working) of each."""
    chance = random.Random(seed)
    made = make([Student(str(n), f"Knot {n}") for n in range(1, many + 1)], "where the tide turns", [task(slug)])
    out = []
    for student, ((set_, code),) in made.codes():
        sheet = open_code(str(code))
        working = sheet.working
        values = working.all_values()
        if chance.random() < 0.6:
            slip = chance.choice(sheet.slips)
            parts = with_slips(working.parts, slip)
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
    slip = ReturnSlip(handed.return_slip.who, handed.return_slip.code, answers, {})
    return Handed(handed.student, handed.task, handed.code, slip, ())


def right(working):
    values = working.all_values()
    return {step.id: values[step.id] if step.choices else written(values[step.id], step) for step in working.steps}


def found(work):
    copies = Copies()
    for handed, working in work:
        copies.add(handed, working, read_entries(working, handed.return_slip.answers))
    return copies.found()


@pytest.mark.parametrize("slug", sorted(all_kinds()))
def test_an_honest_class_is_left_in_peace(slug):
    assert [a.text for a in found(a_class(slug, 100))] == []


@pytest.mark.parametrize("slug", ["tan-a", "tan-b", "compare", "graph", "dial", "distances"])
def test_a_sheet_copied_from_another(slug):
    work = a_class(slug, 30)
    work[4] = with_answers(work[4][0], right(work[4][1])), work[4][1]
    work[21] = with_answers(work[21][0], work[4][0].return_slip.answers), work[21][1]
    alike = found(work)
    assert {frozenset(s.roll for s in a.students) for a in alike} == {frozenset({"5", "22"})}
    assert any(
        "do not fit the sheet they came under" in a.text and "right on the sheet of roll 5 (Knot 5)" in a.text
        for a in alike
    )


def test_a_part_that_two_share_and_that_is_wrong_on_both_sheets():
    work = a_class("tan-a", 30)
    steps = [f"{column}-{row}" for row in (1, 2, 3) for column in ("mean", "tan", "bracket", "moment")]
    other = right(a_class("tan-a", 31)[30][1])  # of a student who handed in nothing
    for at in (3, 9):
        handed, working = work[at]
        work[at] = with_answers(handed, {**handed.return_slip.answers, **{s: other[s] for s in steps}}), working
    (alike,) = found(work)
    assert [s.roll for s in alike.students] == ["4", "10"] and alike.steps == tuple(steps)
    assert alike.text.startswith("Roll 4 (Knot 4) and roll 10 (Knot 10) have the same numbers in Tan A")


def test_what_is_right_on_both_sheets_says_nothing():
    work = a_class("tan-a", 10)
    handed, working = work[0]
    work[0] = with_answers(handed, right(working)), working
    work.append(
        (Handed(Student("99"), handed.task, handed.code, ReturnSlip("99", "", right(working), {}), ()), working)
    )
    assert found(work) == []


def test_blank_and_unreadable_answers_and_choices_are_no_copies():
    work = a_class("fault", 20)
    for at, (handed, working) in enumerate(work):
        answers = {s.id: s.choices[0][0] if s.choices else ("see table", "", "1 234")[at % 3] for s in working.steps}
        work[at] = with_answers(handed, answers), working
    assert found(work) == []


def test_a_crowd_that_shares_is_told_once():
    work = a_class("tan-a", 40)
    answers = right(work[0][1])
    work = [
        (with_answers(handed, answers) if at < 20 else handed, working) for at, (handed, working) in enumerate(work)
    ]
    runs = [a for a in found(work) if "have the same numbers" in a.text]
    assert len(runs) == 1 and len(runs[0].students) == 20 and "and 14 more" in runs[0].text


@pytest.mark.parametrize("many, told", [(3, False), (4, True), (5, True)])
def test_so_many_steps_in_a_row_are_told(many, told):
    """Of the dial, whose readings rest on nothing: 435 pairs of thirty, and each of four numbers by chance 1 in 31."""
    work = a_class("dial", 30)
    steps = [s.id for s in work[0][1].steps]
    for at, (handed, working) in enumerate(work):
        mine = dict(zip(steps, (f"{at}.{n}" for n in range(len(steps)))))
        work[at] = (
            with_answers(handed, mine | (dict.fromkeys(steps[:many] + steps[6:9], "77.7") if at in (3, 9) else {})),
            working,
        )
    assert [(a.steps, [s.roll for s in a.students]) for a in found(work)] == [(tuple(steps[:many]), ["4", "10"])] * told


@pytest.mark.parametrize("there, here, told", [(4, 0, False), (5, 0, True), (8, 2, True), (8, 3, False)])
def test_a_sheet_is_another_s_where_so_many_fit_there_and_so_large_a_share(there, here, told):
    """At least five that are right there and wrong here, and four in five of all that were answered."""
    work = a_class("tan-a", 30)
    theirs, (handed, working) = right(work[4][1]), work[21]
    mine, other = working.all_values(), work[4][1].all_values()
    steps = [s.id for s in working.steps if s.id in other and abs(mine[s.id] / other[s.id] - 1) > 0.05]
    steps.sort(key=lambda s: not s.startswith("mean-"))  # a sheet is found by two of these
    answers = {s: theirs[s] for s in steps[:there]} | dict.fromkeys(steps[there : there + here], "0.0123")
    assert len(answers) == there + here
    work[4] = with_answers(work[4][0], {}), work[4][1]
    work[21] = with_answers(handed, answers), working
    alike = found(work)
    assert [[s.roll for s in a.students] for a in alike] == [["22", "5"]] * told
    assert all(f"{there} of them are right on the sheet of roll 5" in a.text for a in alike)


def test_a_number_that_many_typed_is_no_sign():
    """Four steps that a third of the class typed alike: of 435 pairs a good share would agree so by chance."""
    work = a_class("law", 30)
    steps = [s.id for s in work[0][1].steps if not s.choices][:4]
    for at in range(10):
        handed, working = work[at]
        work[at] = with_answers(handed, {**handed.return_slip.answers, **dict.fromkeys(steps, "7.77")}), working
    crowd = [a for a in found(work) if len(a.students) == 10]
    assert len(crowd) <= 1 and all(a.steps[:4] == tuple(steps) for a in crowd)


def test_six_are_named_and_the_rest_counted():
    from exercises.classroom.marking.copies import _and, _run_told

    assert _run_told(["roll 1", "roll 2 (Asha)"], "Tan A", ("tan-1", "tan-2")) == (
        "Roll 1 and roll 2 (Asha) have the same numbers in Tan A at tan-1 and tan-2, though their sheets differ. "
        "Look at both, and ask."
    )
    assert _and(["roll 1"]) == "roll 1" and _and(["a", "b"]) == "a and b"
    assert _and(list("abcdef")) == "a, b, c, d, e and f"
    assert _and(list("abcdefg")) == "a, b, c, d, e, f and 1 more" and _and(list("abcdefghi")).endswith("f and 3 more")


def test_a_thousand_sheets_in_time():
    work = a_class("dial", 50) * 20
    start = time.process_time()
    found(work)
    assert time.process_time() - start < 2.0  # 0.3 s on a quiet machine

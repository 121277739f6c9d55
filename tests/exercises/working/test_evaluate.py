"""Compiled code gives what the formulas give, to the last bit, and whatever was asked before."""

import random
from dataclasses import replace

import pytest

from exercises.judging.diagnosis import outcomes, slipped_parts, starts_from
from exercises.judging.entries import read_entries
from exercises.judging.evidence import stands_for
from exercises.judging.verdict import judge_all
from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.sheet import written
from exercises.working.arithmetic import Span
from exercises.working.compiled import Cannot
from exercises.working.compiled_slips import compiled_changes
from exercises.working.compiled_spans import compiled_spans
from exercises.working.evaluate import (
    KEPT,
    Following,
    all_spans,
    changes_by_formula,
    evaluator_of,
    right_values,
    spans_by_formula,
    spans_of,
)
from exercises.working.steps import Plan, Working
from tests.exercises.golden import codes_of

KINDS = sorted(all_kinds())
WITH_CODE = ("compare", "tan-a", "tan-b")  # of the others some formulas decide by numbers


def workings(slug: str, most: int = 40) -> list[Working]:
    return [open_code(code).working for code in codes_of(all_kinds()[slug].letter)[:most]]


def numbers(working: Working) -> tuple[str, ...]:
    """The ids of the steps that ask for a number."""
    return tuple(step.id for step in working.steps if not step.choices)


def entries(working: Working, seed: int) -> dict[str, str]:
    """What somebody types who gets about every third step wrong."""
    chance, values = random.Random(seed), working.all_values()
    return {
        s.id: values[s.id] if s.choices else written(values[s.id] * chance.choice((1, 1, 1.07)), s)
        for s in working.steps
    }


def what_stands(working: Working, seed: int) -> dict[str, Span | str]:
    """What those entries stand for when later steps are worked from them."""
    read = read_entries(working, entries(working, seed))
    return {step_id: stands_for(entry, working.by_id[step_id]) for step_id, entry in read.items()}


def bits(x: object) -> str:
    """A number, a span or a table of these, each float to the last bit; no-number is like itself."""
    if isinstance(x, Span):
        return f"{bits(x.lo)}…{bits(x.hi)}"
    if isinstance(x, (list, tuple)):
        return f"[{', '.join(map(bits, x))}]"
    if isinstance(x, dict):
        return "; ".join(f"{k}: {bits(x[k])}" for k in sorted(x))
    return repr(x)


@pytest.mark.parametrize("slug", KINDS)
def test_spans_are_those_of_the_formulas(slug):
    for working in workings(slug):
        ids = tuple(step.id for step in working.plan.order)
        assert bits(evaluator_of(working).spans(working, ids)) == bits(spans_by_formula(working))


@pytest.mark.parametrize("slug", KINDS)
def test_what_slips_make_is_what_the_formulas_make(slug):
    for working in workings(slug):
        for slips in (all_kinds()[slug].slips_of(1), tuple(s for s in all_kinds()[slug].slips_of(1) if not s.hides)):
            asked = slips, numbers(working), slipped_parts
            found = evaluator_of(working).changes(working, *asked)
            assert bits([[of.right, list(of.values), list(of.keys)] for of in found]) == bits(
                [list(of) for of in changes_by_formula(working, *asked)]
            )


@pytest.mark.parametrize("slug", KINDS)
def test_what_follows_is_what_follows_by_the_formulas(slug):
    for seed, working in enumerate(workings(slug)):
        entered = what_stands(working, seed)
        found, plain = evaluator_of(working).following(working, entered), Following(working, entered)
        for step_id in numbers(working):
            assert bits(found.span(step_id)) == bits(plain.span(step_id)), step_id


@pytest.mark.parametrize("slug", KINDS)
def test_right_values_are_those_of_the_formulas(slug, monkeypatch):
    monkeypatch.setattr("exercises.working.evaluate.OFTEN", 1)
    for working in workings(slug, 10):
        anew = Working(Plan(working.plan.order, working.plan.compiled), working.givens, working.parts)
        found = right_values(anew, len(KEPT))
        assert bits(list(map(dict, found))) == bits([working.all_values(a) for a in KEPT])


@pytest.mark.parametrize("slug", KINDS)
def test_what_slips_make_of_a_step_from_entries_is_what_the_formulas_make(slug, monkeypatch):
    monkeypatch.setattr("exercises.working.evaluate.OFTEN", 1)
    slips, coded = all_kinds()[slug].slips_of(1), 0
    for seed, working in enumerate(workings(slug, 10)):
        by_code, plain = (
            Working(Plan(working.plan.order, compiled), working.givens, working.parts)
            for compiled in (working.plan.compiled, False)
        )
        read = read_entries(working, entries(working, seed))
        left_out = random.Random(seed).choice(working.steps).id
        for step in working.steps:
            rests_on = [n for n in working.plan.rests[step.id] if n in read and n != left_out]
            own = {n: read[n].value for n in rests_on}
            made = [outcomes(w, step, slips, starts_from(w, step, own), own) for w in (by_code, plain)]
            one, other = ([(slip.key, values) for slip, values in found] for found in made)
            assert bits(one) == bits(other), (step.id, own)
        written = [often._code for known in evaluator_of(by_code)._slips.values() for _, often in known]
        coded += sum(code is not None for code in written)
    assert coded or slug not in WITH_CODE  # so that two things are compared


@pytest.mark.parametrize("slug", WITH_CODE)
def test_these_kinds_have_code_and_it_is_used(slug, monkeypatch):
    """So that the three tests before this one compare two things."""

    def by_formula(*_):
        raise AssertionError("the formulas were run")

    for name in ("spans_by_formula", "changes_by_formula"):
        monkeypatch.setattr(f"exercises.working.evaluate.{name}", by_formula)
    slips = tuple(s for s in all_kinds()[slug].slips_of(1) if not s.hides)
    for working in workings(slug, 10):
        assert len(evaluator_of(working).spans(working, numbers(working))) >= len(numbers(working))
        assert evaluator_of(working).changes(working, slips, numbers(working), slipped_parts)[0].right
        if slug != "tan-b":  # one of its steps is a choice
            entered = what_stands(working, 0)
            assert not entered.keys() - evaluator_of(working).following(working, entered)._ends.keys()


@pytest.mark.parametrize("slug", KINDS)
def test_a_kind_that_looks_for_no_code_has_none(slug):
    working = workings(slug, 1)[0]
    slips = tuple(s for s in all_kinds()[slug].slips_of(1) if not s.hides)
    if not working.plan.compiled:
        with pytest.raises(Cannot):
            compiled_spans(working, numbers(working))
        with pytest.raises(Cannot):
            compiled_changes(working, slips, numbers(working), slipped_parts)


@pytest.mark.parametrize("slug", KINDS)
def test_nothing_depends_on_what_was_asked_before(slug):
    """Each sheet alone, then all of them in two orders on plans that others have used, asked for other things first."""
    slips, sheets = all_kinds()[slug].slips_of(1), workings(slug, 12)

    def asked(working: Working, seed: int) -> str:
        typed = entries(working, seed)
        plain = tuple(s for s in slips if not s.hides)
        made = evaluator_of(working).changes(working, plain, numbers(working), slipped_parts)
        return bits([all_spans(working), [list(map(list, of[1:])) for of in made], judge_all(working, slips, typed)])

    def fresh(working: Working, plans: dict[Plan, Plan]) -> Working:
        plan = plans.setdefault(working.plan, Plan(working.plan.order, working.plan.compiled))
        return Working(plan, working.givens, working.parts)

    alone = [asked(fresh(working, {}), seed) for seed, working in enumerate(sheets)]
    for order in (1, 2):
        chance, plans = random.Random(order), {}
        turns = list(enumerate(sheets))
        chance.shuffle(turns)
        for seed, working in turns:
            again = fresh(working, plans)
            for _ in range(2):
                some = tuple(chance.sample(numbers(working), 2))
                spans_of(again, some)
                evaluator_of(again).changes(again, slips[: chance.randrange(len(slips))], some, slipped_parts)
            assert asked(again, seed) == alone[seed]


def test_a_sheet_of_another_shape_is_worked_by_the_formulas():
    five = next(w for w in workings("tan-a") if len(w.givens["d"]) == 5)
    assert all_spans(five)
    near = {**five.givens, "d": (0.001, *five.givens["d"][1:])}  # nearer than the pole: d − l is not above 0
    other = Working(five.plan, near, five.parts)
    assert bits(all_spans(other)) == bits(spans_by_formula(other))


def test_other_parts_have_an_evaluator_of_their_own():
    working = workings("tan-a", 1)[0]
    slip = next(s for s in all_kinds()["tan-a"].slips_of(1) if s.key == "two-left-out")
    slipped = Working(working.plan, working.givens, slipped_parts(working, slip))
    right, wrong = all_spans(working)["moment-1"], all_spans(slipped)["moment-1"]
    assert wrong.lo > right.hi and evaluator_of(working) is not evaluator_of(slipped)
    assert bits(wrong) == bits(spans_by_formula(slipped)["moment-1"])


def test_slips_are_told_by_what_they_are_and_not_by_their_names():
    working = workings("tan-a", 1)[0]
    slip = next(s for s in all_kinds()["tan-a"].slips_of(1) if s.key == "two-left-out")
    other = replace(slip, change=lambda right: lambda a, d: 3 * d)
    one, two = (evaluator_of(working).changes(working, (s,), ("moment-1",), slipped_parts)[0] for s in (slip, other))
    assert one.keys == two.keys and one.values != two.values

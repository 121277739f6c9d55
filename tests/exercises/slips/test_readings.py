"""Slips in a mean of eight: which values they give, when they are named, and when not."""

import pytest

from exercises.judging.verdict import judge
from exercises.kinds.kind import open_code
from exercises.slips import readings as of
from tests.exercises.golden import codes_of

EIGHT = (40.0, 41.0, 44.0, 45.0, 40.0, 42.0, 44.0, 44.0)  # their sum is 340, their mean 42.5
SHEETS = [open_code(code) for code in codes_of("A")[:40]]
ROWS = [
    (sheet, step, sheet.working.givens["readings"][step.row])
    for sheet in SHEETS
    for step in sheet.working.steps
    if step.column == "mean"
]


def test_one_left_out_is_divided_by_seven_or_by_eight():
    assert {300 / 7, 300 / 8, 295 / 7, 296 / 8} < set(of.one_left_out(EIGHT))
    assert len(of.one_left_out(EIGHT)) == 2 * len(set(EIGHT))


def test_one_counted_twice_is_divided_by_eight_or_by_nine():
    assert {380 / 8, 380 / 9, 385 / 9} < set(of.one_counted_twice(EIGHT))


def test_a_misreading_moves_the_mean_by_an_eighth_of_it():
    assert set(of.named_misreads(EIGHT)) == {42.5 + x / 8 for x in (5, -5, 10, -10)}
    others = [(mean - 42.5) * 8 for mean in of.other_misreads(EIGHT)]
    assert sorted(others) == [x for x in range(-20, 21) if x not in (0, 5, -5, 10, -10)]


def test_on_half_degrees_a_misreading_is_of_half_degrees():
    halves = (*EIGHT[:-1], 44.5)
    assert (of.division(EIGHT), of.division(halves)) == (1.0, 0.5)
    assert len(of.other_misreads(halves)) == 2 * (40 - 2)


@pytest.mark.parametrize(
    ("slipped", "keys"),
    [
        (lambda r: (sum(r) - r[2]) / 8, {"reading-left-out"}),
        (lambda r: (sum(r) + r[5]) / 8, {"reading-counted-twice"}),
        (lambda r: (sum(r) + 10) / 8, {"reading-five-or-ten-off"}),
        (lambda r: (sum(r) - 13) / 8, {"sum-off"}),
        (lambda r: sum(r) / 4, {"eight-by-four"}),
        (lambda r: sum(r), {"sum-not-divided"}),
        (lambda r: 90 - sum(r) / 8, {"mean-from-ninety"}),
    ],
)
def test_each_is_named_first_or_as_one_of_two(slipped, keys):
    seen = named = 0
    for sheet, step, readings in ROWS:
        verdict = judge(sheet.working, sheet.slips, {step.id: f"{slipped(readings):.2f}"}, step.id)
        if verdict.state != "right":
            seen += 1
            named += bool(keys & set(verdict.slips[:2]))
    assert seen > 50 and named / seen > 0.9


def test_a_number_near_the_first_arm_s_mean_is_not_called_that():
    """As a student saw: 56.14 was called the first arm's mean, which was 56.25."""
    tried = 0
    for sheet, step, readings in ROWS:
        arm = sum(readings[:4]) / 4
        for off in (-0.11, -0.03, 0.03, 0.11):
            verdict = judge(sheet.working, sheet.slips, {step.id: f"{arm + off:.2f}"}, step.id)
            assert "one-arm-only" not in verdict.slips
            tried += verdict.state != "right"
        named = judge(sheet.working, sheet.slips, {step.id: f"{arm:.2f}"}, step.id)
        assert named.state == "right" or "one-arm-only" in named.slips
    assert tried > 100


def test_with_one_decimal_only_a_sole_fit_is_named():
    cases = set()
    for sheet, step, readings in ROWS:
        for reading in set(readings):
            text = f"{(sum(readings) - reading) / 7:.1f}"
            verdict = judge(sheet.working, sheet.slips, {step.id: text}, step.id)
            assert len(verdict.slips) < 2
            cases.add(verdict.case)
    assert "unexplained" in cases and "one of two slips" not in cases


def test_so_it_is_of_a_dial_whose_readings_are_blank():
    wrong = 0
    for code in codes_of("R")[:20]:
        sheet = open_code(code)
        known, one = sheet.working.all_values(), sheet.working.givens["step"]
        for step in (s for s in sheet.working.steps if s.column == "mean"):
            readings = [round(known[need] / one) * one for need in step.needs]
            for reading in set(readings):
                text = f"{(sum(readings) - reading) / 8:.1f}"
                verdict = judge(sheet.working, sheet.slips, {step.id: text}, step.id)
                assert len(verdict.slips) < 2
                wrong += verdict.state != "right"
    assert wrong > 50


def test_half_up_half_even_and_cut_off_agree_alike():
    """42.125 is 42.13, 42.12, and 42.12 cut off; 42.14 and 42.11 are other numbers."""
    sheet, step, readings = next(r for r in ROWS if (sum(r[2]) - 13) % 1 == 0 and (sum(r[2]) - 13) % 8 in (1, 5))
    value = (sum(readings) - 13) / 8
    for off, is_named in ((0.005, True), (-0.005, True), (0.015, False), (-0.015, False)):
        verdict = judge(sheet.working, sheet.slips, {step.id: f"{value + off:.2f}"}, step.id)
        assert ("sum-off" in verdict.slips) is is_named, off

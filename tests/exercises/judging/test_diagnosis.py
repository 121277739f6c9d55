"""Which slips explain a number, which first, and when two of them cannot be told apart."""

import pytest

from exercises.judging.answer import read
from exercises.judging.diagnosis import _apart, _clear_of, _disjoint, half_unit, matches, that_give
from exercises.kinds.kind import open_code
from exercises.working.arithmetic import Span
from tests.exercises.golden import codes_of

SHEET = open_code(codes_of("A")[0])
ONE, TWO, THREE = SHEET.slips[:3]
MOMENT = SHEET.working.by_id["moment-1"]


def named(text, *found):
    return that_give(read(text, "moment"), MOMENT, found)


def test_the_nearest_slip_comes_first():
    assert named("1.00", (ONE, (1.004,)), (TWO, (0.999,)), (THREE, (1.002,))) == (TWO, THREE, ONE)


def test_nearest_is_a_share_of_the_slips_value():
    """As far off in the unit, the slip of the larger value is the nearer one."""
    assert named("100", (ONE, (99.6,)), (TWO, (100.4,))) == (TWO, ONE)


def test_of_several_values_of_a_slip_the_nearest_counts():
    assert named("1.00", (ONE, (1.003, None, 1.0)), (TWO, (1.001,))) == (ONE, TWO)


def test_a_slip_that_is_not_near_or_gives_nothing_is_not_named():
    assert named("1.00", (ONE, (1.02,)), (TWO, (0.0,)), (THREE, (None, 0.97))) == ()


def test_the_sign_is_not_compared():
    assert named("1.00", (ONE, (-1.0,))) == (ONE,)


@pytest.mark.parametrize(
    ("typed", "last", "value", "is_it"),
    [
        (1.00, 0.01, 1.0100, True),  # half a unit of the third figure, and half a per cent of the value
        (1.00, 0.01, 1.0101, False),
        (1.00, 0.01, 0.9951, True),
        (1.00, 0.01, 0.9900, False),
        (1.0000, 0.0001, 1.0050, True),  # finer than three figures, half of the last place typed
        (1.0000, 0.0001, 1.0052, False),
        (100.0, 100.0, 101.0, True),  # coarser than three figures, half a unit of the third
        (100.0, 100.0, 101.1, False),
    ],
)
def test_how_near_a_typed_number_must_be(typed, last, value, is_it):
    assert matches(typed, last, value) is is_it


def test_a_number_read_off_a_graph_may_miss_by_more():
    assert matches(1.03, 0.01, 1.0, loose=0.03)
    assert not matches(1.03, 0.01, 1.0)


@pytest.mark.parametrize(("value", "last", "half"), [(123.4, None, 0.5), (123.4, 0.1, 0.05), (123.4, 10, 0.5)])
def test_half_a_unit_is_of_the_third_figure_or_finer(value, last, half):
    assert half_unit(value, last) == pytest.approx(half)


# -- telling apart ------------------------------------------------------------


def told_apart(values, keys, loose):
    return _apart(sorted(zip(map(abs, values), keys)), loose)


def test_values_of_one_slip_may_lie_together():
    assert told_apart([1.0, 1.001, 2.0], ["one", "one", "two"], 0.0)


@pytest.mark.parametrize(
    ("other", "loose", "apart"),
    [(1.02, 0.0, False), (1.04, 0.0, True), (-1.04, 0.0, True), (-1.02, 0.0, False), (1.04, 0.03, False)],
)
def test_two_slips_must_lie_farther_apart_than_three_figures_and_slack(other, loose, apart):
    assert told_apart([1.0, other], ["one", "two"], loose) is apart
    assert told_apart([other, 1.0], ["one", "two"], loose) is apart


def test_near_the_end_of_a_decade_a_unit_is_a_smaller_share():
    """9.80 and 9.92 are told apart where 1.00 and 1.012 are not."""
    assert told_apart([9.80, 9.93], ["one", "two"], 0.0)
    assert not told_apart([1.00, 1.013], ["one", "two"], 0.0)


def test_a_wide_reach_counts_beyond_those_that_lie_within_it():
    assert not _disjoint([(0.0, 10.0, "one"), (1.0, 2.0, "one"), (5.0, 6.0, "two")])
    assert _disjoint([(0.0, 2.0, "one"), (1.0, 4.0, "one"), (4.5, 6.0, "two")])
    assert not _disjoint([(5.0, 6.0, "two"), (0.0, 5.0, "one")])  # an end that touches is an overlap


@pytest.mark.parametrize(
    ("value", "clear"), [(0.90, True), (0.99, True), (0.995, False), (1.0, False), (1.06, False), (1.07, True)]
)
def test_a_slip_must_lie_clear_of_what_is_right(value, clear):
    right = Span(1.0, 1.05)
    assert _clear_of(right, [value], 0.0) is clear
    assert _clear_of(right, [-value], 0.0) is clear
    assert _clear_of(right, [0.5, value, 2.0], 0.0) is clear

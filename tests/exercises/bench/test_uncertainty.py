"""What the uncertainty terms promise: where they are least, how they grow, and what does not average out."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.bench.uncertainty import (
    ANGLE_STICKING,
    angle_term,
    distance_term,
    length_term,
    mean_angle,
    mean_moment,
    moment,
    needle_term,
)

THETA = st.floats(20, 70)
D = st.floats(0.12, 0.45)
SHARE = st.floats(0.05, 0.25)  # l / d


@settings(deadline=None)
@given(st.floats(1, 89))
def test_the_angle_is_best_taken_at_45_degrees(theta):
    assert angle_term(theta, 0.2) >= angle_term(45, 0.2)
    assert angle_term(theta, 0.2) == pytest.approx(angle_term(90 - theta, 0.2), rel=1e-9)


def test_the_angle_term_is_15_percent_more_at_30_and_60():
    """1/(sin θ cos θ) is 2 at 45° and 4/√3 at 30° and 60°: the reason for the usual limits."""
    assert angle_term(45, 0.2) == pytest.approx(2 * math.radians(0.2))
    for edge in (30, 60):
        assert angle_term(edge, 0.2) / angle_term(45, 0.2) == pytest.approx(2 / math.sqrt(3))


@settings(deadline=None)
@given(st.floats(0.1, 2), st.integers(1, 64))
def test_more_readings_help_until_the_pivot_s_friction_is_left(step, readings):
    assert ANGLE_STICKING < mean_angle(step, readings + 1) < mean_angle(step, readings)
    assert mean_angle(step, 10**9) == pytest.approx(ANGLE_STICKING, rel=1e-3)


def test_one_reading_has_the_spread_of_its_scale_step():
    assert mean_angle(1.0, 1) == pytest.approx(math.hypot(1 / math.sqrt(12), ANGLE_STICKING))
    assert mean_angle(1.0) == mean_angle(1.0, 8)


@settings(deadline=None)
@given(D, SHARE)
def test_the_terms_of_distance_and_length(d, share):
    l = share * d
    assert distance_term(d, 0, 0.001) == pytest.approx(3 * 0.001 / d)  # m goes as d³ for a dipole
    assert distance_term(d, l, 0.001) > distance_term(d, 0, 0.001)
    assert distance_term(d, l, 0.002) == pytest.approx(2 * distance_term(d, l, 0.001))
    assert length_term(d, 0, 0.001) == 0
    assert length_term(2 * d, l, 0.001) < length_term(d, l, 0.001) / 4 * 1.001


@settings(deadline=None)
@given(THETA, D, st.floats(0.001, 0.01))
def test_the_needle_term_falls_as_the_square(theta, d, needle):
    assert needle_term(theta, d, 0) == 0
    assert needle_term(theta, d, 2 * needle) == pytest.approx(4 * needle_term(theta, d, needle))
    assert needle_term(theta, 2 * d, needle) == pytest.approx(needle_term(theta, d, needle) / 4)


@settings(deadline=None)
@given(THETA, D, SHARE, st.sampled_from([0.5, 1.0]))
def test_a_finer_scale_makes_only_the_row_s_own_part_smaller(theta, d, share, step):
    own, common = moment(theta, d, share * d, step, 0.006)
    finer, same = moment(theta, d, share * d, step / 2, 0.006)
    assert finer < own and same == common


@settings(deadline=None)
@given(THETA, D, SHARE, st.integers(1, 12))
def test_rows_alike_average_their_own_part_and_keep_the_common_one(theta, d, share, rows):
    l = share * d
    own, common = moment(theta, d, l, 0.5, 0.006)
    got = mean_moment([(theta, d)] * rows, l, 0.5, 0.006)
    assert got == pytest.approx(math.hypot(own / math.sqrt(rows), common), rel=1e-12)
    assert got <= math.hypot(own, common) * (1 + 1e-12)


@settings(deadline=None)
@given(st.lists(st.tuples(THETA, D), min_size=1, max_size=6))
def test_the_mean_lies_between_no_and_full_averaging(rows):
    l, step, needle = 0.02, 1.0, 0.006
    singles = [math.hypot(*moment(t, d, l, step, needle)) for t, d in rows]
    assert max(singles) / (len(rows) + 1e-9) * 0.999 <= mean_moment(rows, l, step, needle) <= max(singles) * 1.001


def test_a_whole_determination_is_good_to_about_half_a_percent():
    rows = [(56, 0.185), (50, 0.198), (44, 0.21), (38, 0.225), (33, 0.24)]
    assert 0.003 < mean_moment(rows, 0.035, 0.5, 0.006) < 0.01

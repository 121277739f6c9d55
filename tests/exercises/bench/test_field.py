"""The field formulas: forward and back is where one began, and bad values are refused with a sentence."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.bench.field import (
    MU_0_OVER_4PI,
    broadside_on,
    deflection,
    distance_broadside_on,
    distance_end_on,
    end_on,
    field_from_deflection,
    moment_broadside_on,
    moment_end_on,
    pole_field,
)

MOMENTS = st.floats(1e-3, 1e3)
DISTANCES = st.floats(0.01, 5.0)
SHARES = st.floats(0.0, 0.9)  # l / d
EARTH = st.floats(5e-6, 70e-6)
ANGLES = st.floats(-89.9, 89.9)

NEAR = {"rel": 1e-9}


# -- there and back -----------------------------------------------------------


@settings(deadline=None)
@given(MOMENTS, DISTANCES, SHARES)
def test_the_moment_comes_back_end_on(m, d, share):
    assert moment_end_on(end_on(m, d, share * d), d, share * d) == pytest.approx(m, **NEAR)


@settings(deadline=None)
@given(MOMENTS, DISTANCES, SHARES)
def test_the_moment_comes_back_broadside_on(m, d, share):
    assert moment_broadside_on(broadside_on(m, d, share * d), d, share * d) == pytest.approx(m, **NEAR)


@settings(deadline=None)
@given(MOMENTS, DISTANCES, SHARES)
def test_the_distance_comes_back_end_on(m, d, share):
    assert distance_end_on(m, end_on(m, d, share * d), share * d) == pytest.approx(d, **NEAR)


@settings(deadline=None)
@given(MOMENTS, DISTANCES, SHARES)
def test_the_distance_comes_back_broadside_on(m, d, share):
    assert distance_broadside_on(m, broadside_on(m, d, share * d), share * d) == pytest.approx(d, **NEAR)


@settings(deadline=None)
@given(ANGLES, EARTH)
def test_the_deflection_comes_back(theta, B_H):
    assert deflection(field_from_deflection(theta, B_H), B_H) == pytest.approx(theta, abs=1e-9)


# -- what a physicist expects -------------------------------------------------


@settings(deadline=None)
@given(MOMENTS, DISTANCES)
def test_a_dipole_is_twice_as_strong_end_on_and_falls_as_the_cube(m, d):
    assert end_on(m, d) == pytest.approx(2 * broadside_on(m, d), **NEAR)
    assert end_on(m, d) == pytest.approx(8 * end_on(m, 2 * d), **NEAR)
    assert broadside_on(m, d) == pytest.approx(8 * broadside_on(m, 2 * d), **NEAR)


@settings(deadline=None)
@given(MOMENTS, DISTANCES, st.floats(0.01, 0.9))
def test_length_strengthens_end_on_and_weakens_broadside_on(m, d, share):
    assert end_on(m, d, share * d) > end_on(m, d)
    assert broadside_on(m, d, share * d) < broadside_on(m, d)


@settings(deadline=None)
@given(MOMENTS, DISTANCES, SHARES, st.floats(1.001, 10))
def test_the_field_falls_with_distance(m, d, share, times):
    assert end_on(m, times * d, share * d) < end_on(m, d, share * d)
    assert broadside_on(m, times * d, share * d) < broadside_on(m, d, share * d)


@settings(deadline=None)
@given(MOMENTS, DISTANCES, SHARES)
def test_turning_the_magnet_round_turns_the_field_round(m, d, share):
    assert end_on(-m, d, share * d) == -end_on(m, d, share * d)
    assert broadside_on(-m, d, share * d) == -broadside_on(m, d, share * d)


@settings(deadline=None)
@given(MOMENTS, DISTANCES, st.floats(0.01, 0.9))
def test_two_poles_make_the_formulas(m, d, share):
    l = share * d
    p = m / (2 * l)
    axial = pole_field(p, l, 0, d, 0)[0] + pole_field(-p, -l, 0, d, 0)[0]
    across = pole_field(p, l, 0, 0, d)[0] + pole_field(-p, -l, 0, 0, d)[0]
    assert axial == pytest.approx(end_on(m, d, l), rel=1e-7)
    assert -across == pytest.approx(broadside_on(m, d, l), rel=1e-7)


def test_the_tangent_law_at_known_angles():
    B_H = 36e-6
    assert deflection(0.0, B_H) == 0
    assert deflection(B_H, B_H) == pytest.approx(45)
    assert deflection(B_H * math.sqrt(3), B_H) == pytest.approx(60)
    assert deflection(B_H / math.sqrt(3), B_H) == pytest.approx(30)
    assert deflection(-B_H, B_H) == pytest.approx(-45)


def test_a_worked_number():
    """m = 10⁷ · B_H · (d²−l²)² · tan θ / 2d, by hand: 10⁷ × 36e-6 × 0.0384² × 1 / 0.4 = 1.327 A·m²."""
    assert moment_end_on(36e-6, 0.20, 0.04) == pytest.approx(1.32710, rel=1e-5)
    assert end_on(1.0, 1.0) == 2 * MU_0_OVER_4PI


@settings(deadline=None)
@given(MOMENTS, DISTANCES)
def test_the_constant_can_be_given(m, d):
    assert end_on(m, d, k=2e-7) == pytest.approx(2 * end_on(m, d), **NEAR)
    assert moment_end_on(end_on(m, d, k=2e-7), d, k=2e-7) == pytest.approx(m, **NEAR)
    assert distance_broadside_on(m, broadside_on(m, d, k=2e-7), k=2e-7) == pytest.approx(d, **NEAR)


# -- values that no bench has -------------------------------------------------

FOUR = (end_on, broadside_on, moment_end_on, moment_broadside_on)


@pytest.mark.parametrize("formula", FOUR, ids=lambda f: f.__name__)
@pytest.mark.parametrize("d", [0.04, 0.03, 0.0, -0.2, math.nan, math.inf])
def test_a_distance_within_the_magnet_is_refused_with_what_to_mend(formula, d):
    with pytest.raises(ValueError, match="measure it from the centre of the magnet") as told:
        formula(1.0, d, 0.04)
    assert str(d) in str(told.value) and "0.04 m" in str(told.value)


@pytest.mark.parametrize("formula", FOUR, ids=lambda f: f.__name__)
@pytest.mark.parametrize("l", [-0.01, math.nan])
def test_a_negative_half_length_is_refused(formula, l):
    with pytest.raises(ValueError, match="half length l must not be negative"):
        formula(1.0, 0.2, l)


@pytest.mark.parametrize("theta", [90, -90, 135, math.nan, math.inf])
def test_a_deflection_of_a_right_angle_or_more_is_refused(theta):
    with pytest.raises(ValueError, match="between −90° and 90°"):
        field_from_deflection(theta, 36e-6)


@pytest.mark.parametrize("B_H", [0, -36e-6, math.nan])
def test_the_earths_field_must_be_positive(B_H):
    with pytest.raises(ValueError, match="B_H must be positive"):
        deflection(10e-6, B_H)


@pytest.mark.parametrize("formula", [distance_end_on, distance_broadside_on], ids=lambda f: f.__name__)
@pytest.mark.parametrize(("m", "B"), [(0, 1e-5), (-1, 1e-5), (1, 0), (1, -1e-5), (math.nan, 1e-5), (1, math.nan)])
def test_a_distance_needs_a_moment_and_a_field(formula, m, B):
    with pytest.raises(ValueError, match="must both be positive"):
        formula(m, B, 0.04)


def test_a_field_stronger_than_the_magnet_has_is_refused():
    strongest = MU_0_OVER_4PI * 1.0 / 0.04**3  # at d = 0 on the bisector
    with pytest.raises(ValueError, match="never reaches"):
        distance_broadside_on(1.0, strongest * 1.01, 0.04)


@settings(deadline=None)
@given(MOMENTS, st.floats(1e-9, 1.0), st.floats(0.0, 0.2))
def test_a_distance_that_is_given_can_be_used(m, B, l):
    """Whatever distance comes back lies outside the magnet, so that its own forward formula takes it."""
    assert end_on(m, distance_end_on(m, B, l), l) == pytest.approx(B, rel=1e-4)
    try:
        d = distance_broadside_on(m, B, l)
    except ValueError:
        assert 0.3 * MU_0_OVER_4PI * m / l**3 < B  # a field that is only found within the magnet's own length
    else:
        assert broadside_on(m, d, l) == pytest.approx(B, rel=1e-6)

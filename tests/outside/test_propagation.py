"""Our propagation of uncertainty against the uncertainties package, and its needle term against root finding.

Source: the uncertainties package (E. O. Lebigot), linear propagation with
automatic derivatives, as JCGM 100:2008 (GUM), 5.1.2 has it, and 5.2.2 where two
inputs hang together.  The paragraph that a check rests on stands beside it.
"""

import math

import numpy as np
import pytest
from uncertainties import ufloat, umath

from exercises.bench.field import deflection, distance_end_on, end_on, field_from_deflection
from exercises.bench.instrument import PERFECT, Magnet, equilibrium, poles
from exercises.bench.uncertainty import (
    COVERAGE,
    DISTANCE_BOTH_ARMS,
    DISTANCE_WITHIN,
    MAGNETIC_LENGTH,
    MAGNETIC_LENGTH_WITHIN,
    NEEDLE,
    NEEDLE_WITHIN,
    angle_term,
    determined,
    distance_term,
    length_term,
    mean_angle,
    mean_moment,
    moment,
    needle_effect,
    needle_term,
    of_two_poles,
)

B_H = 36e-6


def relative(x) -> float:
    return x.std_dev / abs(x.nominal_value)


@pytest.mark.parametrize("theta", [5, 30, 37.1, 45, 52.9, 60, 85])
@pytest.mark.parametrize("u", [0.05, 0.2])
def test_angle_term(theta, u):  # 5.1.2
    tangent = umath.tan(umath.radians(ufloat(theta, u)))
    assert angle_term(theta, u) == pytest.approx(relative(tangent), rel=1e-9)


@pytest.mark.parametrize(("d", "l"), [(0.20, 0.04), (0.15, 0.025), (0.42, 0.05), (0.3, 0.0)])
def test_distance_term(d, l):  # 5.1.2
    far = ufloat(d, 0.0004)
    assert distance_term(d, l, 0.0004) == pytest.approx(relative((far**2 - l**2) ** 2 / (2 * far)), rel=1e-9)


@pytest.mark.parametrize(("d", "l"), [(0.20, 0.04), (0.15, 0.025), (0.42, 0.05)])
def test_length_term(d, l):  # 5.1.2
    half = ufloat(l, 0.01 * l)
    assert length_term(d, l, 0.01 * l) == pytest.approx(relative((d**2 - half**2) ** 2), rel=1e-9)


@pytest.mark.parametrize(("d", "l"), [(0.20, 0.04), (0.15, 0.025), (0.42, 0.05), (0.3, 0.03)])
def test_the_terms_of_distance_and_length_broadside_on(d, l):
    far, half = ufloat(d, 0.0004), ufloat(l, 0.01 * l)
    assert distance_term(d, l, 0.0004, tan_b=True) == pytest.approx(relative((far**2 + l**2) ** 1.5), rel=1e-9)
    assert length_term(d, l, 0.01 * l, tan_b=True) == pytest.approx(relative((d**2 + half**2) ** 1.5), rel=1e-9)


def _measured(theta: float, d: float, half, step: float):
    """The moment at one distance, its angle and distance uncertain on their own, the half length handed in."""
    tangent = umath.tan(umath.radians(ufloat(theta, mean_angle(step))))
    far = ufloat(d, DISTANCE_BOTH_ARMS)
    return 1e7 * B_H * tangent * (far**2 - half**2) ** 2 / (2 * far)


@pytest.mark.parametrize("step", [0.5, 1.0])
def test_one_moment(step):
    theta, d, l = 40.0, 0.21, 0.035
    own, common = moment(theta, d, l, step, needle=0.0)
    got = _measured(theta, d, ufloat(l, MAGNETIC_LENGTH * l), step)
    assert math.hypot(own, common) == pytest.approx(relative(got), rel=1e-9)


@pytest.mark.parametrize("needle", [0.0, 0.006])
@pytest.mark.parametrize("count", [1, 4, 6])
@pytest.mark.parametrize("l", [0.025, 0.045])
def test_the_mean_moment_with_what_the_rows_have_in_common(l, count, needle):
    """One bar seen from several distances, so all rows give one moment.

    The half length is one variable and the needle another, shared by all rows.
    Ours adds the rows' common parts as if they went all one way: the same with
    one of the two, and never less with both.  Measured: at most 2 % more.
    """
    m = B_H / end_on(1.0, l / 0.19, l)
    angles = [58 - i * 26 / max(count - 1, 1) for i in range(count)]
    rows = [(a, distance_end_on(m, field_from_deflection(a, B_H), l)) for a in angles]
    half, needles = ufloat(l, MAGNETIC_LENGTH * l), ufloat(0.0, 1.0)
    found = [_measured(a, d, half, 1.0) * (1 + needle_term(a, d, needle) * needles) for a, d in rows]
    assert [f.nominal_value for f in found] == pytest.approx([m] * count, rel=1e-9)
    expected = relative(sum(found) / count)
    ours = mean_moment(rows, l, 1.0, needle)
    assert ours == pytest.approx(expected, rel=0.025 if needle and count > 1 else 1e-3)
    assert ours >= expected * (1 - 1e-3)


def _excess(theta: float, d: float, needle: float, l: float) -> float:
    """By how much B_H tan of where a needle of that half length settles is above the field at its middle.

    θ is where a point needle would settle; root finding by exercises.bench.instrument.
    """
    m = field_from_deflection(theta, B_H) / end_on(1.0, d, l)
    pair = poles(Magnet(m, l), d, "east", "east", PERFECT)
    assert equilibrium(pair, B_H, 0.0) == pytest.approx(deflection(end_on(m, d, l), B_H), abs=1e-8)
    settled = equilibrium(pair, B_H, needle)
    return field_from_deflection(settled, B_H) / end_on(m, d, l) - 1


@pytest.mark.parametrize("needle", [0.001, 0.002, 0.004])
@pytest.mark.parametrize("d", [0.15, 0.25])
@pytest.mark.parametrize("theta", [15, 30, 40, 45, 60, 75])
def test_needle_term_is_what_the_root_finding_shows_for_a_dipole(theta, d, needle):
    """To second order in needle/d, where the next order is a few per cent of it at most.

    Far from 26.6°, where the term passes through zero.
    """
    found = _excess(theta, d, needle, l=1e-4 * d)
    assert needle_term(theta, d, needle) == pytest.approx(abs(found), rel=0.02)


def test_needle_term_vanishes_where_sin_squared_is_one_fifth():
    theta = math.degrees(math.asin(math.sqrt(1 / 5)))
    assert needle_term(theta, 0.2, 0.004) == pytest.approx(0, abs=1e-15)
    assert abs(_excess(theta, 0.2, 0.004, l=1e-5)) < 0.05 * needle_term(45, 0.2, 0.004)


@pytest.mark.parametrize("theta", [35, 45, 58])
def test_needle_term_is_of_the_right_size_for_a_real_bar(theta):
    """A bar of length l/d ≈ 0.19 has a steeper field than a dipole: its needle error is about an eighth more."""
    found = abs(_excess(theta, 0.2, 0.006, l=0.038))
    assert needle_term(theta, 0.2, 0.006) < found < 1.2 * needle_term(theta, 0.2, 0.006)


@pytest.mark.parametrize("l", [0.02, 0.04, 0.06])
@pytest.mark.parametrize("theta", [35, 45, 58])
def test_before_two_poles_the_needle_does_more(theta, l):
    """Root finding again, with l/d from 0.13 to 0.4."""
    assert needle_effect(theta, 0.15, 0.003) * of_two_poles(0.15, l) == pytest.approx(
        _excess(theta, 0.15, 0.003, l=l), rel=0.02
    )


def test_half_widths():
    """4.3.7: within a half width all values are as likely; the standard deviation by drawing."""
    chance = np.random.default_rng(2)
    for within, u in (
        (DISTANCE_WITHIN, DISTANCE_BOTH_ARMS),
        (MAGNETIC_LENGTH_WITHIN, MAGNETIC_LENGTH),
        (NEEDLE_WITHIN, NEEDLE),
    ):
        assert chance.uniform(-within, within, 200_000).std() == pytest.approx(u, rel=0.01)


@pytest.mark.parametrize("tan_b", [False, True])
@pytest.mark.parametrize("needle", [0.0, 0.008])
def test_what_a_determination_comes_to(tan_b, needle):
    """5.1.2 for m, 5.2.2 for p, in which 2l comes twice; 3.2.4: what the needle does is taken off; 6.2.1 for U.

    The needle's effect is one variable shared by all rows, as is the half length.
    """
    rows, step = [(56.0, 0.185), (46.0, 0.205), (35.0, 0.235)], 0.5
    half, shared = ufloat(0.036, MAGNETIC_LENGTH * 0.036), ufloat(1.0, NEEDLE)
    moments = []
    for theta, d in rows:
        tangent, far = umath.tan(umath.radians(ufloat(theta, mean_angle(step)))), ufloat(d, DISTANCE_BOTH_ARMS)
        geometry = (far**2 + half**2) ** 1.5 if tan_b else (far**2 - half**2) ** 2 / (2 * far)
        moments.append(1e7 * B_H * tangent * geometry)
    mean = sum(moments) / 3
    m = mean / (1 + shared * sum(needle_effect(t, d, needle, tan_b) for t, d in rows) / 3)
    p = m / (2 * half)
    got = determined(mean.nominal_value, rows, 0.036, step, needle, tan_b)
    assert got.moment.value == pytest.approx(m.nominal_value, rel=1e-12)
    assert got.pole.value == pytest.approx(p.nominal_value, rel=1e-12)
    # the rows' moments differ a little here, so their shares weigh a little differently
    assert got.moment.u == pytest.approx(m.std_dev, rel=0.03)
    assert got.pole.u == pytest.approx(p.std_dev, rel=0.03)
    assert COVERAGE * got.moment.u == got.moment.U and got.moment.k == 2


@pytest.mark.parametrize("theta", [35, 45, 58])
def test_what_is_taken_off_for_the_needle_leaves_little(theta):
    """3.2.4: of a real bar no more is left than the half width that is counted for it."""
    effect = needle_effect(theta, 0.2, 0.008)
    assert abs(_excess(theta, 0.2, 0.008, l=0.038) - effect) < NEEDLE_WITHIN * effect

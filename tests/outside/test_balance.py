"""The balance of two magnets against magpylib's exact bars and scipy's root finding.

Source: magpylib 6 (see test_magpylib_field.py).  Two slender uniform bars on opposite sides of the needle; where
their whole field vanishes is found without any formula of ours.
"""

import math

import magpylib
import pytest
from scipy.optimize import brentq
from uncertainties import ufloat, umath

from exercises.bench import uncertainty
from exercises.bench.balance import (
    balance_distance,
    null_distance,
    ratio_uncertainty_by_angles,
    ratio_uncertainty_by_balance,
)
from exercises.bench.field import end_on
from exercises.bench.instrument import Magnet

B_H = 30e-6


def bar(length: float, m: float, north: int):
    """A slender bar along x of moment m (A·m²), N pole towards `north` (1 east, −1 west)."""
    diameter = length / 200
    magnetisation = m / (math.pi * diameter**2 / 4 * length)
    made = magpylib.magnet.Cylinder(magnetization=(0, 0, north * magnetisation), dimension=(diameter, length))
    return made.rotate_from_angax(90, "y")


PAIRS = [((0.09, 0.8), (0.045, 0.5), 0.13), ((0.06, 0.3), (0.11, 0.6), 0.12), ((0.10, 0.4), (0.05, 0.9), 0.15)]


@pytest.mark.parametrize(("one", "two", "d1"), PAIRS)
def test_the_balance_point(one, two, d1):
    (length1, m1), (length2, m2) = one, two
    first, second = bar(length1, m1, 1), bar(length2, m2, -1)
    first.position = (d1, 0, 0)

    def left_over(d2: float) -> float:
        second.position = (-d2, 0, 0)
        return (first.getB((0, 0, 0)) + second.getB((0, 0, 0)))[0] * 1e6

    theirs = brentq(left_over, length2 / 2 + 0.01, 0.6, xtol=1e-9)
    magnets = Magnet(m1, length1 / 2), Magnet(m2, length2 / 2)
    assert balance_distance(magnets, d1) == pytest.approx(theirs, abs=2e-6)
    assert null_distance(magnets, d1, B_H, 0.0) == pytest.approx(theirs, abs=2e-6)
    # and the textbook's ratio at that place is the ratio of the moments that the bars were made with
    assert end_on(1, theirs, length2 / 2) / end_on(1, d1, length1 / 2) == pytest.approx(m1 / m2, rel=5e-5)


def test_a_needle_of_some_length_hardly_moves_the_balance():
    """A half needle of 6 mm, twisted as magpylib has it, moves the balance at 13 cm by less than half a millimetre."""
    (length1, m1), (length2, m2), d1 = PAIRS[0]
    first, second = bar(length1, m1, 1), bar(length2, m2, -1)
    first.position = (d1, 0, 0)

    def left_over(d2: float) -> float:
        second.position = (-d2, 0, 0)
        ends = [(0, 0.006, 0), (0, -0.006, 0)]
        return float((first.getB(ends) + second.getB(ends))[:, 0].sum() * 1e6)

    theirs = brentq(left_over, 0.04, 0.6, xtol=1e-9)
    magnets = Magnet(m1, length1 / 2), Magnet(m2, length2 / 2)
    assert null_distance(magnets, d1, B_H, 0.006) == pytest.approx(theirs, abs=2e-6)
    assert 1e-6 < abs(theirs - balance_distance(magnets, d1)) < 0.5e-3


# -- the uncertainty of the ratio, by the uncertainties package --------------------


def _share(x) -> float:
    return x.std_dev / abs(x.nominal_value)


def _bracket(d: float, half):
    """(d² − l²)²/2d of a distance that was read on its own."""
    far = ufloat(d, uncertainty.DISTANCE_BOTH_ARMS)
    return (far**2 - half**2) ** 2 / (2 * far)


HALVES = (0.025, 0.035)


@pytest.mark.parametrize("pairs", [[(0.12, 0.15)], [(0.12, 0.15), (0.14, 0.175), (0.16, 0.2)], [(0.12, 0.15)] * 4])
def test_the_ratio_by_balance_is_as_sure_as_its_parts_allow(pairs):
    """Law of propagation (JCGM 100:2008, 5.1.2): every distance read on its own, the two half lengths shared by all."""
    one, two = (ufloat(l, uncertainty.MAGNETIC_LENGTH * l) for l in HALVES)
    ratios = [_bracket(d1, one) / _bracket(d2, two) for d1, d2 in pairs]
    expected = _share(sum(r / r.nominal_value for r in ratios) / len(ratios))
    assert ratio_uncertainty_by_balance(pairs, HALVES, 0.0) == pytest.approx(expected, rel=0.01)
    # a needle at rest stands along B_H: 3·(needle/d)² at either magnet, and only the difference is in the ratio
    turned = 3 * 0.006**2 * (1 / 0.12**2 - 1 / 0.15**2)
    if len({*pairs}) == 1:
        own = math.sqrt(
            sum(uncertainty.distance_term(d, l, uncertainty.DISTANCE_BOTH_ARMS) ** 2 for d, l in zip(pairs[0], HALVES))
        )
        lengths = [uncertainty.length_term(d, l, uncertainty.MAGNETIC_LENGTH * l) for d, l in zip(pairs[0], HALVES)]
        whole = math.hypot(own / math.sqrt(len(pairs)), *lengths, turned)
        assert ratio_uncertainty_by_balance(pairs, HALVES, 0.006) == pytest.approx(whole, rel=1e-9)


@pytest.mark.parametrize("angles", [(40.0, 55.0), (50.0, 50.0)])
def test_the_ratio_by_angles_is_as_sure_as_its_parts_allow(angles):
    """The same law; the distance is set anew for each magnet."""
    halves = [ufloat(l, uncertainty.MAGNETIC_LENGTH * l) for l in HALVES]
    one, two = (
        umath.tan(umath.radians(ufloat(theta, uncertainty.mean_angle(0.5)))) * _bracket(0.15, half)
        for theta, half in zip(angles, halves)
    )
    expected = _share(one / two)
    assert ratio_uncertainty_by_angles(angles, 0.15, HALVES, 0.5, 0.0) == pytest.approx(expected, rel=1e-3)
    needles = [(0.006 / 0.15) ** 2 * (15 * math.sin(math.radians(t)) ** 2 - 3) for t in angles]
    found = ratio_uncertainty_by_angles(angles, 0.15, HALVES, 0.5, 0.006)
    assert found == pytest.approx(math.hypot(expected, needles[0] - needles[1]), rel=1e-3)

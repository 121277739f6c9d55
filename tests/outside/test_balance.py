"""The balance of two magnets against magpylib's exact bars and scipy's root finding.

Source: magpylib 6 (see test_magpylib_field.py).  Two slender uniform bars on opposite sides of the needle; where
their whole field vanishes is found without any formula of ours.
"""

import math

import magpylib
import pytest
from scipy.optimize import brentq

from exercises.balance import balance_distance, null_distance
from exercises.field import end_on
from exercises.instrument import Magnet

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
    """Half a needle of 6 mm, the twist on both ends from magpylib: less than half a millimetre at 13 cm, as ours says."""
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

"""2l from tan A and tan B at one distance, as the page on tan B teaches it, against other sums and other bars.

The rule is worked on the page (content/exercises/tan-b.md) from the two formulas of two poles.  It is held here
against scipy's root of the whole expression, against the instrument with its faults, its needle and its scale, and
against magpylib's bars (see test_uniform_bar_poles.py for the source), whose poles our model did not place.
"""

import math
import random
from statistics import fmean, pstdev

import pytest
from scipy.optimize import brentq

from exercises.bench.field import broadside_on, deflection, end_on, field_from_deflection, moment_end_on
from exercises.bench.instrument import PERFECT, Box, Faults, Magnet, eight_readings
from exercises.bench.magnets import uniform_magnetic_length
from exercises.codes.scenario import READING_ERROR
from tests.outside.test_uniform_bar_poles import cuboid, cylinder, of_a_cylinder


def tangent(degrees: float) -> float:
    return math.tan(math.radians(degrees))


def from_both(d: float, theta_a: float, theta_b: float) -> float:
    """2l by the two steps of the page, in the unit of d."""
    s = tangent(theta_a) / (2 * tangent(theta_b)) - 1
    first = s / 3.5
    return 2 * d * math.sqrt(max(s / (3.5 + 6.4 * first), 0.0))


def means(l: float, d: float, B_H: float, theta: float, box: Box, faults: Faults = PERFECT, chance=None):
    """The mean deflections of both positions; with `chance`, as read to half a degree, the magnet laid to 0.5 mm."""
    magnet = Magnet(moment_end_on(field_from_deflection(theta, B_H), d, l), l)
    found = []
    for tan_b in (False, True):
        errors = tuple(chance.gauss(0, READING_ERROR) for _ in range(8)) if chance else (0.0,) * 8
        at = d + chance.uniform(-5e-4, 5e-4) if chance else d
        found.append(fmean(eight_readings(magnet, B_H, at, box, faults, errors, 0.5 if chance else None, tan_b)))
    return found


@pytest.mark.parametrize("share", [0.10, 0.15, 0.20, 0.25])
def test_the_two_steps_find_the_root_of_the_whole_expression(share):
    """l/d from the ratio of the two fields: to 0.3 % by the page, exactly by scipy."""
    d = 0.2
    a, b = (deflection(field(1.0, d, share * d), 36e-6) for field in (end_on, broadside_on))
    ratio = tangent(a) / (2 * tangent(b))
    root = brentq(lambda x: (1 + x) ** 1.5 / (1 - x) ** 2 - ratio, 0, 0.5, xtol=1e-14)
    assert math.sqrt(root) == pytest.approx(share, rel=1e-9)
    assert from_both(d, a, b) == pytest.approx(2 * share * d, rel=0.003)


def test_the_example_of_the_page():
    assert from_both(20.0, 40.0, 20.0) == pytest.approx(8.04, abs=0.005)
    # poles at the ends of the 9.6 cm would show this instead
    B_H = end_on(1.0, 0.2, 0.048) / tangent(40.0)
    assert deflection(broadside_on(1.0, 0.2, 0.048), B_H) == pytest.approx(18.9, abs=0.05)


@pytest.mark.parametrize("needle", [0.005, 0.0075, 0.010, 0.0125])
@pytest.mark.parametrize("share", [0.17, 0.20, 0.25])
def test_near_40_degrees_the_needle_s_two_errors_cancel(needle, share):
    """Needles of 1 to 2.5 cm: 2½ % at most at 38° to 42°, 2l being 8 cm; at 60° the longest makes it 15 % too long."""
    d = 0.04 / share
    for theta in (38, 40, 42):
        found = from_both(d, *means(0.04, d, 36e-6, theta, Box(needle=needle)))
        assert found == pytest.approx(0.08, rel=0.025), theta
    if (needle, share) == (0.0125, 0.20):
        assert from_both(d, *means(0.04, d, 36e-6, 60, Box(needle=needle))) / 0.08 == pytest.approx(1.15, abs=0.01)


@pytest.mark.parametrize("share", [0.17, 0.20, 0.25])
def test_how_sure_it_is(share):
    """Instruments with faults, read to half a degree: a standard deviation of 4 % of 2l at most, and no bias to speak
    of.  The whole length and 5/6 of it lie 20 % apart."""
    chance, found = random.Random(1837), []
    for _ in range(200):
        faults = Faults(
            pivot_x=chance.uniform(-4e-4, 4e-4),
            arm_off=chance.uniform(-1, 1),
            box_shift=chance.uniform(-1e-3, 1e-3),
            centre_shift=chance.uniform(-1e-3, 1e-3),
            magnet_turned=chance.uniform(-2, 2),
        )
        d = 0.04 / share
        found.append(
            from_both(d, *means(0.04, d, chance.uniform(18e-6, 40e-6), chance.uniform(38, 42), Box(), faults, chance))
        )
    assert 0.005 < pstdev(found) / 0.08 < 0.04
    assert fmean(found) == pytest.approx(0.08, rel=0.015)


BARS = [
    (cuboid, uniform_magnetic_length, (0.08, 0.016, 0.016)),
    (cuboid, uniform_magnetic_length, (0.06, 0.010, 0.010)),
    (cylinder, of_a_cylinder, (0.08, 0.010)),
]


@pytest.mark.parametrize(("make", "two_l", "size"), BARS)
@pytest.mark.parametrize("times", [2.0, 2.5, 3.0])
def test_it_finds_the_poles_of_uniform_bars(make, two_l, size, times):
    """Magpylib's bars, whose poles lie nearly at their ends: 2l within 1.5 %, so that nobody takes them for 5/6."""
    bar, _ = make(*size)
    d = times * size[0]
    on_axis, beside = bar.getB((0, 0, d))[2], -bar.getB((d, 0, 0))[2]
    B_H = on_axis / tangent(40)
    found = from_both(d, 40.0, deflection(beside, B_H))
    assert found == pytest.approx(two_l(*size), rel=0.015)
    assert found > 0.93 * size[0]

"""Tan B against magpylib's exact bars: the field beside a magnet, the needle's turn, and the moment found.

Source: magpylib 6 (see test_magpylib_field.py), whose cylinder is an exact solution for uniform magnetisation.
"""

import math

import magpylib
import pytest
from scipy import constants

from exercises.bench.field import moment_broadside_on
from exercises.bench.instrument import PERFECT, Box, Magnet, eight_readings, equilibrium, poles

K = constants.mu_0 / (4 * math.pi)
L, MAGNETISATION, B_H = 0.080, 1.2e5, 30e-6


def thin(diameter: float = L / 200):
    """A slender bar along x, N to the east, and a strength that gives it the moment of a thick one: (bar, A·m²)."""
    magnetisation = MAGNETISATION * (L / 10 / diameter) ** 2
    bar = magpylib.magnet.Cylinder(magnetization=(0, 0, magnetisation), dimension=(diameter, L))
    return bar.rotate_from_angax(90, "y"), magnetisation * math.pi * diameter**2 / 4 * L


@pytest.mark.parametrize("arm", ("north", "south"))
@pytest.mark.parametrize("d", (0.10, 0.14, 0.20))
def test_the_needle_turns_against_the_magnet_by_the_exact_field(arm, d):
    bar, m = thin()
    bar.position = (0, d if arm == "north" else -d, 0)
    bx, by, _ = bar.getB((0, 0, 0))
    assert bx < 0 and abs(by) < 1e-12 * abs(bx) + 1e-18
    pair = poles(Magnet(m, L / 2), d, "east" if arm == "north" else "west", "east", PERFECT, tan_b=True)
    ours = equilibrium(pair, B_H, 0.0)
    assert ours == pytest.approx(math.degrees(math.atan2(bx, B_H)), abs=1e-3)


@pytest.mark.parametrize("d", (0.10, 0.14, 0.20))
def test_the_moment_from_the_exact_field(d):
    bar, m = thin()
    assert moment_broadside_on(abs(bar.getB((0, d, 0))[0]), d, L / 2, K) == pytest.approx(m, rel=2e-5)


def test_eight_readings_of_a_perfect_instrument_are_that_turn():
    bar, m = thin()
    theta = math.degrees(math.atan(abs(bar.getB((0, 0.14, 0))[0]) / B_H))
    readings = eight_readings(Magnet(m, L / 2), B_H, 0.14, Box(needle=0.0), tan_b=True)
    assert readings == pytest.approx((theta,) * 8, abs=1e-3)


def test_broadside_is_half_of_end_on_far_away():
    """Gauss's two positions: 2 for a dipole, and for this bar at 25 lengths within four parts in a thousand."""
    bar, _ = thin()
    end, side = bar.getB((2.0, 0, 0))[0], -bar.getB((0, 2.0, 0))[0]
    assert end / side == pytest.approx(2, rel=0.004)

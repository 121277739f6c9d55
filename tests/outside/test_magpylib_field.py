"""The two-pole bar against magpylib's dipole and its uniformly magnetised bars.

Source: magpylib 6 (M. Ortner and L. G. Coliado Bandeira, SoftwareX 11, 2020,
100466; the citation is from memory), whose cylinder and cuboid are exact solutions for uniform magnetisation.

What it means.  A uniformly magnetised bar carries its poles as charged discs on
its two ends, so its magnetic length is its whole length, and the two-pole model
with 2l = L is close for a slender bar and exact in the limit.  The textbook's
2l = 5/6 L is for real steel bars, whose magnetisation fades towards the ends;
against a uniform bar it is off by up to 7 % end-on at 1.5 L, and by less than
1 % from 4 L on.  Numbers below were measured and have a small margin.
"""

import math

import magpylib
import numpy as np
import pytest
from scipy import constants

from exercises.bench.field import broadside_on, end_on, pole_field

K = constants.mu_0 / (4 * math.pi)  # magpylib works with CODATA's µ0
L = 0.080
MAGNETISATION = 1.2e5  # A/m, hardened steel: common practice, no source
FROM_NEAR_TO_FAR = (1.5, 2.0, 3.0, 4.0)  # d / L


def _cylinder(diameter: float):
    """A bar along z and its moment in A·m²."""
    bar = magpylib.magnet.Cylinder(magnetization=(0, 0, MAGNETISATION), dimension=(diameter, L))
    return bar, MAGNETISATION * math.pi * diameter**2 / 4 * L


def _departures(diameter: float, d: float, l: float) -> tuple[float, float]:
    """How far the two-pole model lies above the cylinder, relative: (end-on, broadside-on)."""
    bar, m = _cylinder(diameter)
    axial, across = bar.getB((0, 0, d))[2], -bar.getB((d, 0, 0))[2]
    return end_on(m, d, l, K) / axial - 1, broadside_on(m, d, l, K) / across - 1


@pytest.mark.parametrize("d", [0.05, 0.2, 1.0])
@pytest.mark.parametrize("m", [0.3, 2.5])
def test_the_point_dipole(m, d):
    dipole = magpylib.misc.Dipole(moment=(0, 0, m))
    axial, across = dipole.getB((0, 0, d))[2], -dipole.getB((d, 0, 0))[2]
    assert end_on(m, d) == pytest.approx(axial, rel=1e-9)
    assert broadside_on(m, d) == pytest.approx(across, rel=1e-9)
    # with the same constant nothing but rounding is left
    assert end_on(m, d, k=K) == pytest.approx(axial, rel=1e-13)
    assert broadside_on(m, d, k=K) == pytest.approx(across, rel=1e-13)


@pytest.mark.parametrize("turn", range(0, 360, 25))
def test_two_near_poles_are_a_dipole_in_every_direction(turn):
    """The error of two poles at ±l falls as (l/d)²: 1.5e-5 at most for l/d = 1/400."""
    m, l, d = 1.3, 0.0005, 0.2
    x, y = d * math.cos(math.radians(turn)), d * math.sin(math.radians(turn))
    ours = np.add(pole_field(m / (2 * l), 0, l, x, y), pole_field(-m / (2 * l), 0, -l, x, y))
    theirs = magpylib.misc.Dipole(moment=(0, m, 0)).getB((x, y, 0))[:2]
    assert np.hypot(*(ours - theirs)) <= 2e-5 * np.hypot(*theirs)


@pytest.mark.parametrize("times", FROM_NEAR_TO_FAR)
def test_a_thin_uniform_bar_is_two_poles_at_its_ends(times):
    """The departure falls as the square of the thickness, to 3e-7 at a five-hundredth of the length."""
    thin, thinner = (_departures(L / n, times * L, L / 2) for n in (50, 100))
    for one, half in zip(thin, thinner, strict=True):
        assert one / half == pytest.approx(4, rel=0.01)
    end, side = _departures(L / 1000, times * L, L / 2)
    assert abs(end) < 3e-7 and abs(side) < 2e-7


#: diameter/L, d/L -> percent by which two poles at the ends lie above the cylinder, end-on and broadside-on
AT_THE_ENDS = {
    (1 / 16, 1.5): (0.092, -0.037),
    (1 / 16, 2.0): (0.044, -0.023),
    (1 / 16, 3.0): (0.018, -0.011),
    (1 / 16, 4.0): (0.010, -0.007),
    (1 / 8, 1.5): (0.366, -0.146),
    (1 / 8, 2.0): (0.177, -0.093),
    (1 / 8, 3.0): (0.071, -0.045),
    (1 / 8, 4.0): (0.038, -0.026),
    (1 / 4, 1.5): (1.466, -0.585),
    (1 / 4, 2.0): (0.709, -0.373),
    (1 / 4, 3.0): (0.283, -0.181),
    (1 / 4, 4.0): (0.154, -0.105),
}


@pytest.mark.parametrize(("shape", "percent"), AT_THE_ENDS.items(), ids=lambda x: f"{x[0]:.3g},{x[1]:.3g}")
def test_poles_at_the_ends_of_a_uniform_cylinder(shape, percent):
    """Within 1.5 % everywhere, within 0.4 % for a bar eight times as long as thick.

    Too strong end-on and too weak broadside-on: the discs spread the poles away from the axis.
    """
    (thickness, times), (on_axis, beside) = shape, percent
    end, side = _departures(thickness * L, times * L, L / 2)
    assert end * 100 == pytest.approx(on_axis, abs=0.002)
    assert side * 100 == pytest.approx(beside, abs=0.002)
    assert 0 < end < 0.015 and -0.006 < side < 0


#: d/L -> percent by which 2l = 5/6 L lies above a cylinder eight times as long as thick
FIVE_SIXTHS = {1.5: (-6.88, 4.61), 2.0: (-3.78, 2.66), 3.0: (-1.65, 1.21), 4.0: (-0.93, 0.68)}


@pytest.mark.parametrize(("times", "percent"), FIVE_SIXTHS.items())
def test_five_sixths_is_not_for_a_uniform_bar(times, percent):
    """The rule of thumb is for real steel; on a uniform bar it costs this much, more the nearer."""
    end, side = _departures(L / 8, times * L, 5 / 12 * L)
    assert (end * 100, side * 100) == pytest.approx(percent, abs=0.01)
    # and leaving the length out altogether is three times as bad
    point_end, point_side = _departures(L / 8, times * L, 0.0)
    assert point_end < 2.9 * end and point_side > 3.2 * side


def test_far_away_all_lengths_agree():
    """At 20 L the cylinder, both pole spacings and the point dipole lie within 0.15 % of one another."""
    for l in (0.0, 5 / 12 * L, L / 2):
        end, side = _departures(L / 8, 20 * L, l)
        assert abs(end) < 0.0015 and abs(side) < 0.0015


def test_a_bar_with_a_rectangular_section():
    """A bar as the sheets describe it, 80 × 16 × 8 mm: two poles at its ends hold to 0.8 %, from 1.5 L on."""
    width, thickness = 0.016, 0.008
    bar = magpylib.magnet.Cuboid(magnetization=(0, 0, MAGNETISATION), dimension=(width, thickness, L))
    m = MAGNETISATION * width * thickness * L
    for times in FROM_NEAR_TO_FAR:
        end = end_on(m, times * L, L / 2, K) / bar.getB((0, 0, times * L))[2] - 1
        assert abs(end) < 0.008

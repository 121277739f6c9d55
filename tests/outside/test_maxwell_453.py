"""The four places, and l² from two distances, as Maxwell has them.

Source: J. C. Maxwell, *A Treatise on Electricity and Magnetism*, vol. 2 (1873), articles 453 and 454, pp. 97-99.
Article 453 lays the deflecting magnet to one side of the needle and turns it end for end, takes the mean, does the
same to the other side, and takes the mean again; the series for its force has a coefficient for every power of 1/r,
"depending on the distribution of the magnetization of the bar".  Article 454 says what the coefficient of the second
power can be, and gets rid of it by distances r₁, r₂ and their deflections D₁, D₂.

The words of pages 97 and 99 were read from a proofread copy that leaves most formulas out, and page 98 was not
at hand.  So the formulas below are worked here, from his (2), the force of two poles ±L on the axis, R =
2Mr/(r² − L²)², and from the series (1 + A₁/r + A₂/r² + …).  That D is the mean of four tangents, and that the signs
of A₁, A₃ … change with the reversal, is from memory.
"""

import math
from dataclasses import replace
from statistics import fmean

import magpylib
import pytest
from scipy import constants

from exercises.bench.instrument import PERFECT, Box, Faults, Magnet, eight_places
from exercises.kinds.graph.lines import free_line, root_of
from exercises.kinds.graph.parts import PARTS
from exercises.working.arithmetic import Exact

B_H, AT = 36e-6, 0.20
BAR = Magnet(1.5, 0.04)
POINT = Box(needle=0.0)  # he neglects the length of the needle

#: A fault that moves the single readings to first order, at full size.
FAULTS = {
    "the needle is not at the zero of the distances": Faults(box_shift=0.002),
    "the magnetic centre is not the middle of the bar": Faults(centre_shift=0.002),
    "the arms are not across the meridian": Faults(arm_off=2.0),
    "the bar does not lie along the arm": Faults(magnet_turned=2.0),
}


def tangent(degrees: float) -> float:
    return math.tan(math.radians(degrees))


def four_places(magnet: Magnet, d: float, faults: Faults = PERFECT) -> tuple[float, ...]:
    """The tangent of the deflection at each of the four places, either arm and N either way."""
    ends = eight_places(magnet, B_H, d, POINT, faults)
    return tuple(tangent((one + two) / 2) for one, two in zip(ends[::2], ends[1::2], strict=True))


def maxwell_mean(east: tuple[float, float], west: tuple[float, float]) -> float:
    """D: the mean of the two of reversal on one side, and of these means of both sides."""
    return ((east[0] + east[1]) / 2 + (west[0] + west[1]) / 2) / 2


def his(places: tuple[float, ...]) -> float:
    return maxwell_mean((places[0], places[1]), (places[2], places[3]))


def half_of(faults: Faults) -> Faults:
    return replace(
        faults,
        **{name: getattr(faults, name) / 2 for name in ("box_shift", "centre_shift", "arm_off", "magnet_turned")},
    )


WITHOUT_FAULT = his(four_places(BAR, AT))


@pytest.mark.parametrize("faults", FAULTS.values(), ids=FAULTS.keys())
def test_his_mean_removes_each_fault_to_first_order(faults):
    """Half the fault: a single place is half as wrong, the mean of the four a quarter as wrong."""
    whole, half = four_places(BAR, AT, faults), four_places(BAR, AT, half_of(faults))
    for one, other in zip(whole, half, strict=True):
        assert (one - WITHOUT_FAULT) / (other - WITHOUT_FAULT) == pytest.approx(2, abs=0.15)
    left, left_of_half = his(whole) - WITHOUT_FAULT, his(half) - WITHOUT_FAULT
    assert left / left_of_half == pytest.approx(4, abs=0.05)
    assert abs(left) < 0.05 * min(abs(one - WITHOUT_FAULT) for one in whole)


def test_each_step_of_it_is_needed():
    """Reversal leaves a needle off its zero as it is, and takes arms askew away; the two sides do the opposite."""
    shifted, askew = (four_places(BAR, AT, faults) for faults in (Faults(box_shift=0.002), Faults(arm_off=2.0)))
    reversal = [abs(fmean(places[:2]) / WITHOUT_FAULT - 1) for places in (shifted, askew)]
    sides = [abs(fmean(places[::2]) / WITHOUT_FAULT - 1) for places in (shifted, askew)]
    assert reversal[0] > 0.02 and reversal[1] < 0.002
    assert sides[0] < 0.002 and sides[1] > 0.02


def test_what_is_left_of_a_needle_off_its_zero():
    """Of 1/(r + a)³ and 1/(r − a)³ the mean is 6a²/r² too much: a quarter of a per cent for 4 mm at 20 cm.

    He says that such a term may be neglected "if the measurements are carefully made".
    """
    short = Magnet(1.5, 1e-4)
    for shift in (0.001, 0.002, 0.004):
        with_fault, without = (his(four_places(short, AT, f)) for f in (Faults(box_shift=shift), PERFECT))
        assert with_fault / without - 1 == pytest.approx(6 * (shift / AT) ** 2, rel=0.01)


@pytest.mark.parametrize("faults", FAULTS.values(), ids=FAULTS.keys())
def test_the_mean_of_eight_angles_does_what_his_mean_of_tangents_does(faults):
    """The sheets take the mean of the angles and then its tangent: the two differ by the square of a fault only."""
    differences = []
    for size in (faults, half_of(faults)):
        ours = tangent(fmean(eight_places(BAR, B_H, AT, POINT, size)))
        differences.append(ours - his(four_places(BAR, AT, size)))
    assert abs(differences[0]) < 0.003 * WITHOUT_FAULT
    assert differences[0] / differences[1] == pytest.approx(4, abs=0.1)


@pytest.mark.parametrize("pivot", [0.0002, 0.0004])
def test_both_ends_of_the_pointer_are_ours_and_not_his(pivot):
    """His combination knows no pivot off the centre of a circle.  The mean of both ends removes that."""
    ends, straight = eight_places(BAR, B_H, AT, POINT, Faults(pivot_x=pivot)), eight_places(BAR, B_H, AT, POINT)[0]
    assert abs(ends[0] - straight) > 0.1
    assert fmean(ends[:2]) == pytest.approx(straight, abs=0.005)


def l_squared(r1: float, D1: float, r2: float, D2: float) -> float:
    """A₂/2 from two distances, where D = (2M/H)·(1/r³)(1 + A₂/r²): for two poles at ±l, A₂ is 2l²."""
    twice_ratio = (D1 * r1**5 - D2 * r2**5) / (r1 * r1 - r2 * r2)
    return (D1 * r1**5 / twice_ratio - r1 * r1) / 2


def ours_squared(r1: float, D1: float, r2: float, D2: float) -> float:
    """The intercept of the line of d² against √(d cot θ) through two points, by the sheet's own line."""
    roots = [root_of(r, math.degrees(math.atan(D))) for r, D in ((r1, D1), (r2, D2))]
    return float(free_line(roots, [r1 * r1, r2 * r2])[1])


@pytest.mark.parametrize(("r1", "r2"), [(0.18, 0.24), (0.20, 0.30), (0.30, 0.40)])
@pytest.mark.parametrize("l", [0.02, 0.035, 0.04])
def test_l_squared_from_two_distances_his_way_and_ours(r1, r2, l):
    """Our second line is exact for two poles.  His series stops at 1/r², so l² comes out too large.

    The share is 3l²/2·(1/r₁² + 1/r₂²). For 2l = 8 cm, at 20 and 30 cm, it is
    9 % of l² and half as much of l.
    """
    D1, D2 = (his(four_places(Magnet(1.5, l), r)) for r in (r1, r2))
    assert ours_squared(r1, D1, r2, D2) == pytest.approx(l * l, rel=1e-6)
    assert PARTS.length_from(Exact(), ours_squared(r1, D1, r2, D2)) == pytest.approx(2 * l, rel=1e-6)
    too_large = l_squared(r1, D1, r2, D2) / (l * l) - 1
    assert too_large == pytest.approx(1.5 * l * l * (1 / r1**2 + 1 / r2**2), rel=0.15)
    assert too_large < 0.14


# -- what the coefficient can be, by magpylib --------------------------------
K = constants.mu_0 / (4 * math.pi)


def second_coefficient(length: float, width: float, thickness: float) -> float:
    """A₂ of a uniform bar on its axis, m², by his two distances."""
    bar = magpylib.magnet.Cuboid(magnetization=(0, 0, 1e5), dimension=(width, thickness, length))
    r1, r2 = 6 * max(length, width), 9 * max(length, width)
    D1, D2 = (bar.getB((0, 0, r))[2] / B_H for r in (r1, r2))
    return 2 * l_squared(r1, D1, r2, D2)


@pytest.mark.parametrize(
    ("length", "width", "thickness"), [(0.08, 0.004, 0.004), (0.08, 0.016, 0.008), (0.05, 0.03, 0.01)]
)
def test_it_is_at_most_that_of_poles_at_the_ends(length, width, thickness):
    """He bounds it by half the length of the magnet, and warns that it is not to be taken as equal to that."""
    most = 2 * (length / 2) ** 2
    assert 0 < second_coefficient(length, width, thickness) < 1.02 * most  # 2 %: what stopping at 1/r² adds at 6 L
    assert second_coefficient(length, width, thickness) / most == pytest.approx(
        1 - (width**2 + thickness**2) / (2 * length**2), abs=0.03
    )


def test_it_is_negative_for_a_magnet_broader_than_long():
    """ "may even be negative for a magnet whose largest dimensions are transverse to the axis" (article 454)."""
    assert second_coefficient(0.01, 0.06, 0.06) < -1e-3

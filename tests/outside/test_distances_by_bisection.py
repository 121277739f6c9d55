"""Choosing distances against SciPy's root finder on a field written by itself: two Coulomb poles, added.

Source of the root finder: scipy.optimize.brentq (Brent's method).  The field is
not taken from exercises/: each pole p gives (µ0/4π)·p/r², µ0 from scipy.constants (CODATA).
"""

import math
import random

import pytest
from scipy.constants import mu_0
from scipy.optimize import brentq

from exercises.codes.sheet_code import SEEDS, SheetCode
from exercises.kinds.distances.scenario import truth
from exercises.kinds.kind import open_code
from tests.exercises.settings import half_length

CHANCE = random.Random("distances by bisection")
CODES = [str(SheetCode("N", 1, CHANCE.randrange(SEEDS))) for _ in range(50)]


def two_poles(m: float, two_l: float, d: float) -> float:
    """Field in T on the axis, d m from the middle: the near pole's less the far pole's."""
    pole = m / two_l
    return mu_0 / (4 * math.pi) * pole * (1 / (d - two_l / 2) ** 2 - 1 / (d + two_l / 2) ** 2)


def distance(m: float, two_l: float, B: float) -> float:
    return brentq(lambda d: two_poles(m, two_l, d) - B, two_l / 2 + 1e-4, 3.0, xtol=1e-12)


@pytest.mark.parametrize("code", CODES)
def test_the_corrected_distance_is_the_root_to_less_than_a_millimetre(code):
    sheet = open_code(code)
    s, working = sheet.scenario, sheet.working
    two_l = 2 * half_length(s.code.setting, s.bar)
    for limit, angle in (("near", 60), ("far", 30)):
        root = distance(s.moment, two_l, s.B_H * math.tan(math.radians(angle)))
        assert truth(s, limit) == pytest.approx(root, rel=1e-8)
        assert abs(working.value(f"distance-{limit}") - root) < 0.0008
        # and the correction is what brings it there: without it the guess is several times farther off
        without = abs(working.value(f"guess-{limit}") - root)
        assert without > 4 * abs(working.value(f"distance-{limit}") - root)


@pytest.mark.parametrize("code", CODES)
def test_the_stretch_really_keeps_the_deflection_within_its_limits(code):
    sheet = open_code(code)
    s, working = sheet.scenario, sheet.working
    v = working.all_values()
    for end in ("from", "to"):
        B = two_poles(s.moment, 2 * half_length(s.code.setting, s.bar), v[end])
        assert 29.5 < math.degrees(math.atan2(B, s.B_H)) < 60.5


def test_a_magnet_worked_by_hand():
    """m = 1 A·m², 2l = 8 cm, B = 20 µT, by hand: d₀³ = 0.01 m³, d₀ = 21.54 cm, c = 0.495 cm, d = 22.04 cm."""
    guess = 0.01 ** (1 / 3)
    corrected = guess + 2 * 0.04**2 / (3 * guess)
    assert guess == pytest.approx(0.2154, abs=5e-5) and corrected == pytest.approx(0.2204, abs=1e-4)
    assert distance(1.0, 0.08, 20e-6) == pytest.approx(corrected, abs=2e-4)

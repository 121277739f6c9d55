"""Gauss's end-on observations of June 1832 against our magnet and our needle.

Source: C. F. Gauss, *Intensitas vis magneticae terrestris ad mensuram absolutam
revocata* (read 15 December 1832).  The observations, in gauss_1832_end_on.csv,
were written down from memory; so was his own fit of them,
tan v = 0.086870 R⁻³ − 0.002185 R⁻⁵ (see the README beside this file).

Why R⁻³ and R⁻⁵: for poles at ±l in the bar and ±n in the needle, at small
deflections, end-on,  B = (2km/R³)·(1 + (2l² − 3n²)/R² + …).  Gauss's second
coefficient is negative because his needle was about as long as his bar.
"""

import csv
import math
from pathlib import Path

import numpy as np
import pytest

from exercises.bench.field import MU_0_OVER_4PI, deflection, end_on
from exercises.bench.instrument import PERFECT, Magnet, equilibrium, poles

with (Path(__file__).parent / "gauss_1832_end_on.csv").open() as _file:
    OBSERVED = [
        (float(r["R_m"]), float(r["deg"]) + float(r["min"]) / 60 + float(r["sec"]) / 3600)
        for r in csv.DictReader(_file)
    ]
R = np.array([r for r, _ in OBSERVED])
V = np.array([v for _, v in OBSERVED])  # degrees

GAUSS = (0.086870, -0.002185)  # his own fit, from memory
B_H = 17.8e-6  # T; Gauss's result for Göttingen, 1.78 in his units, from memory.  It sets m and cancels below.


def _fit(v_degrees) -> np.ndarray:
    """a and b of tan v = a R⁻³ + b R⁻⁵ by least squares."""
    return np.linalg.lstsq(np.column_stack([R**-3, R**-5]), np.tan(np.radians(v_degrees)), rcond=None)[0]


def _seconds(v_degrees) -> np.ndarray:
    """How far angles lie from those observed, in seconds of arc."""
    return (np.asarray(v_degrees) - V) * 3600


def test_the_table_is_whole():
    assert len(OBSERVED) == 13
    assert R[0] == 1.3 and R[-1] == 4.0
    assert all(np.diff(R) > 0) and all(np.diff(V) < 0)


def test_gauss_s_own_fit_describes_his_table():
    """To 11 seconds of arc, on deflections of up to 8031 seconds."""
    a, b = GAUSS
    fitted = np.degrees(np.arctan(a * R**-3 + b * R**-5))
    assert np.abs(_seconds(fitted)).max() < 11
    assert np.abs(_seconds(fitted)).max() > 1  # real observations scatter


def test_least_squares_finds_his_coefficients():
    a, b = _fit(V)
    assert a == pytest.approx(0.0869, abs=0.0001)
    assert b == pytest.approx(-0.0022, abs=0.0001)
    assert np.abs(_seconds(np.degrees(np.arctan(a * R**-3 + b * R**-5)))).max() < 15


def test_the_inverse_cube_alone_does_not_do():
    """A point dipole and a point needle, our `end_on` with l = 0, miss the nearest observation by minutes."""
    m = GAUSS[0] * B_H / (2 * MU_0_OVER_4PI)
    points = [deflection(end_on(m, r), B_H) for r in R]
    assert _seconds(points)[0] > 60
    # nor does the best of all point dipoles
    best = (np.tan(np.radians(V)) @ R**-3) / (R**-3 @ R**-3)
    assert np.abs(_seconds(np.degrees(np.arctan(best * R**-3)))).max() > 15


@pytest.mark.parametrize("l", [0.05, 0.10, 0.15])
def test_the_bar_s_own_length_adds_twice_l_squared(l):
    """The end-on formula expanded: its R⁻⁵ term is 2l² times its R⁻³ term (next: 3l⁴/R⁷)."""
    far = 40.0
    m = 1.0
    second = end_on(m, far, l) * far**3 / (2 * MU_0_OVER_4PI * m) - 1
    assert second * far**2 == pytest.approx(2 * l * l, rel=1e-4)


@pytest.mark.parametrize("n", [0.02, 0.10, 0.15])
@pytest.mark.parametrize("l", [1e-4, 0.10, 0.15])
def test_the_needle_s_length_takes_three_n_squared_away(l, n):
    """By the root finding of our instrument, far away, where deflections are small."""
    far, m = 12.0, 0.77
    settled = equilibrium(poles(Magnet(m, l), far, "east", "east", PERFECT), B_H, n)
    second = math.tan(math.radians(settled)) * B_H * far**3 / (2 * MU_0_OVER_4PI * m) - 1
    assert second * far**2 == pytest.approx(2 * l * l - 3 * n * n, abs=4e-5)


def test_our_instrument_set_up_as_gauss_s_shows_his_deflections():
    """A bar and a needle of one length, so that b/a = −l²: all thirteen within 15 seconds of arc.

    One free length is found from his coefficients and no deflection is fitted.
    It comes to 2l = 0.317 m, of the size of his bars (about 0.3 m, from memory).
    """
    a, b = GAUSS
    l = math.sqrt(-b / a)
    assert 0.28 < 2 * l < 0.34
    m = a * B_H / (2 * MU_0_OVER_4PI)
    shown = [equilibrium(poles(Magnet(m, l), r, "east", "east", PERFECT), B_H, l) for r in R]
    assert np.abs(_seconds(shown)).max() < 15
    found = _fit(shown)  # the model has an R⁻⁷ term too, which a fit of two terms lays on the second
    assert found[0] == pytest.approx(a, abs=0.0001)
    assert found[1] == pytest.approx(b, abs=0.0003)

"""The uncertainty sheet against the uncertainties package and the formulas of JCGM 100:2008 (GUM).

Sources: the uncertainties package (E. O. Lebigot), linear propagation with
automatic derivatives; JCGM 100:2008, 4.2.2, 4.2.3, 4.3.7, 5.1.2, and its
example of twenty temperatures (4.4.3) and of a rectangular range (4.4.5), whose
numbers are from memory.
"""

import math

import numpy as np
import pytest
from uncertainties import ufloat, umath

from exercises.codes.sheet_code import SheetCode
from exercises.kinds.uncertainty.budget import PARTS, combined, scatter, u_theta
from exercises.kinds.uncertainty.kind import KIND
from exercises.working.arithmetic import Exact

#: °C; from memory, JCGM 100:2008, table 1: mean 100.14, s = 1.49, of the mean 0.33.
TEMPERATURES = (
    96.90,
    98.18,
    98.25,
    98.61,
    99.03,
    99.49,
    99.56,
    99.74,
    99.89,
    100.07,
    100.33,
    100.42,
    100.68,
    100.95,
    101.11,
    101.20,
    101.57,
    101.84,
    102.36,
    102.72,
)


@pytest.mark.parametrize("seed", range(0, 4000, 97))
def test_combined_and_expanded_against_automatic_derivatives(seed):
    scenario = KIND.draw(SheetCode("X", 1, seed))
    values = KIND.working(scenario).all_values()
    readings = np.array(scenario.row.readings)
    theta = ufloat(readings.mean(), readings.std(ddof=1) / math.sqrt(8))
    d = ufloat(scenario.row.d, scenario.width_d / math.sqrt(3))
    l = ufloat(scenario.two_l, scenario.width_two_l / math.sqrt(3)) / 2
    m = 1e7 * scenario.B_H * (d**2 - l**2) ** 2 / (2 * d) * umath.tan(umath.radians(theta))
    assert values["moment"] == pytest.approx(m.nominal_value, rel=1e-12)
    assert values["combined"] == pytest.approx(m.std_dev / m.nominal_value, rel=1e-9)
    assert values["expanded"] == pytest.approx(2 * m.std_dev, rel=1e-9)
    parts = m.error_components()
    for name, variable in (("angle", theta), ("distance", d)):
        assert values[f"share-{name}"] == pytest.approx(parts[variable] / m.nominal_value, rel=1e-9)


def test_the_guide_on_twenty_temperatures():
    """With our own formulas, told that there are twenty readings."""
    s = math.sqrt(sum((t - sum(TEMPERATURES) / 20) ** 2 for t in TEMPERATURES) / PARTS.freedom(20))
    assert sum(TEMPERATURES) / 20 == pytest.approx(100.145, abs=0.0005)
    assert s == pytest.approx(1.489, abs=0.0005)
    assert s / PARTS.root_of_count(20) == pytest.approx(0.333, abs=0.0005)


def test_the_guide_on_a_rectangular_range():
    """96 °C to 104 °C: 2.3 °C."""
    assert PARTS.rectangular(4.0) == pytest.approx(2.3, abs=0.05)


def test_scatter_is_the_standard_deviation_of_a_sample():
    readings = (43.0, 45.0, 44.5, 46.5, 43.5, 45.5, 44.0, 46.0)
    givens = {"readings": (readings,)}
    s = scatter(Exact, {}, givens, PARTS)
    assert s == pytest.approx(np.std(readings, ddof=1), rel=1e-12)
    assert u_theta(Exact, {"scatter": s}, givens, PARTS) == pytest.approx(s / math.sqrt(8), rel=1e-12)


def test_squares_against_a_monte_carlo():
    """5.1.2 by drawing: the spread of a product of three independent factors, to 1 % of itself."""
    shares = {"share-angle": 0.01, "share-distance": 0.015, "share-length": 0.004}
    chance = np.random.default_rng(5)
    product = np.prod([1 + chance.normal(0, u, 400_000) for u in shares.values()], axis=0)
    assert combined(Exact, shares, {}, PARTS) == pytest.approx(product.std(), rel=0.01)

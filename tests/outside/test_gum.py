"""The uncertainty sheet against the uncertainties package, scipy and the paragraphs of JCGM 100:2008 (GUM).

Sources: the uncertainties package (E. O. Lebigot), linear propagation with
automatic derivatives; scipy.stats.t; numpy's least squares; JCGM 100:2008, whose
numbers here are from memory: table 1, table G.2 and the examples 4.4.3 and 4.4.5.
The paragraph that a check rests on stands in its docstring.
"""

import math
from pathlib import Path

import numpy as np
import pytest
from scipy import stats
from uncertainties import ufloat, umath

from exercises.bench.instrument import PATTERNS
from exercises.bench.student_t import coverage_factor, t95
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.uncertainty.budget import DEGREES, PARTS, ROWS, row_above, row_below, scatter
from exercises.kinds.uncertainty.formulas import combined, effective_freedom, u_mean
from exercises.kinds.uncertainty.kind import KIND
from exercises.working.arithmetic import Exact

#: t for 95 % and ν = 1, 2, … 20; from memory, JCGM 100:2008, table G.2.
ONE_BY_ONE = "12.71 4.30 3.18 2.78 2.57 2.45 2.36 2.31 2.26 2.23 2.20 2.18 2.16 2.14 2.13 2.12 2.11 2.10 2.09 2.09"
BY_FIVES = {25: 2.06, 30: 2.04, 35: 2.03, 40: 2.02, 45: 2.01, 50: 2.01, 100: 1.984, math.inf: 1.960}
TABLE_G2 = {**{n: float(t) for n, t in enumerate(ONE_BY_ONE.split(), 1)}, **BY_FIVES}
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
    """5.1.2 for the four shares, 4.2.3 and 4.3.7 for what goes in, 3.2.4 for the needle, 6.2.1 for U.

    What the needle does hangs on the angle and the distance too.  The sheet leaves that out: to the first order it is
    a share of a share, so here its angle and distance stand fixed.
    """
    scenario = KIND.draw(SheetCode("X", 1, seed))
    values = KIND.working(scenario).all_values()
    mean = np.mean(scenario.row.readings)
    scattered = ufloat(0, values["scatter"] / math.sqrt(8))
    stuck = ufloat(0, scenario.width_theta / math.sqrt(3))
    d = ufloat(scenario.row.d, scenario.width_d / math.sqrt(3))
    two_l = ufloat(scenario.two_l, scenario.width_two_l / math.sqrt(3))
    needle = ufloat(scenario.needle, scenario.width_needle / math.sqrt(3))
    l = two_l / 2
    m = 1e7 * scenario.B_H * (d**2 - l**2) ** 2 / (2 * d) * umath.tan(umath.radians(mean + scattered + stuck))
    effect = (needle / 2 / scenario.row.d) ** 2 * (15 * math.sin(math.radians(mean)) ** 2 - 3)
    assert values["moment"] == pytest.approx(m.nominal_value, rel=1e-12)
    assert values["needle-effect"] == pytest.approx(effect.nominal_value, rel=1e-12)
    corrected = m / (1 + effect)
    assert values["corrected"] == pytest.approx(corrected.nominal_value, rel=1e-12)
    parts = {k: u / corrected.nominal_value for k, u in corrected.error_components().items()}
    shares = {
        "angle": math.hypot(parts[scattered], parts[stuck]),
        "distance": parts[d],
        "length": parts[two_l],
        "needle": parts[needle] * (1 + effect.nominal_value),  # as a share of the moment by the formula
    }
    assert {k: values[f"share-{k}"] for k in shares} == pytest.approx(shares, rel=1e-9)
    assert values["combined"] == pytest.approx(corrected.std_dev / corrected.nominal_value, rel=0.06)
    # G.4.1: of the four variances only that of the scatter has few degrees of freedom
    nu = math.hypot(*shares.values()) ** 4 / (parts[scattered] ** 4 / DEGREES)
    assert values["freedom"] == pytest.approx(nu, rel=1e-9)
    U = stats.t.ppf(0.975, math.floor(nu)) * math.hypot(*shares.values()) * corrected.nominal_value
    assert values["expanded"] == pytest.approx(U, rel=1e-4)


@pytest.mark.parametrize(("freedom", "k"), TABLE_G2.items())
def test_table_g2(freedom, k):
    """G.3.2 and table G.2."""
    assert t95(freedom) == pytest.approx(k, abs=0.0051 if freedom < 100 else 0.0006)


@pytest.mark.parametrize("chance", [0.3173, 0.1, 0.05, 0.01])
@pytest.mark.parametrize("freedom", [1, 2, 3, 4, 5, 7, 10, 16, 25, 29, 30, 31, 40, 55, 100, 350, 5000])
def test_student_s_t(freedom, chance):
    assert coverage_factor(chance, freedom) == pytest.approx(stats.t.isf(chance / 2, freedom), rel=2e-5)


def test_the_table_of_the_page():
    """It has the rows of table G.2 from 3 on: those that a student's k may come from."""
    page = (Path(__file__).parents[2] / "content/exercises/uncertainty.md").read_text()
    lines = [[c.strip("* ") for c in line.strip("|").split("|")] for line in page.splitlines() if line[:1] == "|"]
    rows = [(line[i], line[i + 1]) for i in (0, 2, 4) for line in lines[2:] if line[i]]
    assert [(math.inf if n == "∞" else float(n), float(k)) for n, k in rows] == [
        (n, pytest.approx(k, abs=0.0051)) for n, k in TABLE_G2.items() if n >= DEGREES
    ]


def test_degrees_of_freedom_are_cut_and_not_rounded():
    """G.4.1, note 1: cut to the next lower integer."""
    assert t95(4.99) == t95(4) > t95(5.0) and t95(63.9) == t95(63)
    assert coverage_factor(0.05, math.inf) == pytest.approx(stats.norm.isf(0.025), rel=1e-9)
    assert t95(0.2) == t95(-3.0) == t95(math.nan) == t95(1)


def test_the_rows_beside():
    """Where table G.2 leaves rows out, either row beside is taken."""
    assert tuple(row for row in TABLE_G2 if row >= 20) == ROWS
    assert (row_below(33.0), row_above(33.0)) == (t95(30), t95(35))
    assert (row_below(700.0), row_above(700.0)) == (t95(100), t95(math.inf))
    assert row_below(20.0) == row_above(20.0) == t95(20) and row_below(7.8) == row_above(7.8) == t95(7)


def test_the_scatter_is_that_of_a_fit():
    """G.3.3: of m parameters fitted to n observations by least squares, ν = n − m; here by numpy, 8 − 5."""
    columns = np.array([[1.0] * 8, *PATTERNS.values()]).T
    chance = np.random.default_rng(3)
    for _ in range(50):
        readings = np.round(chance.normal(45, 1.5, 8) * 2) / 2
        _, (squares,), rank, _ = np.linalg.lstsq(columns, readings, rcond=None)
        assert 8 - rank == DEGREES
        assert scatter(Exact, tuple(readings), PARTS.freedom) == pytest.approx(math.sqrt(squares / DEGREES), rel=1e-9)


def test_k_of_effective_degrees_of_freedom_covers():
    """G.4.1 and 6.2.1 by drawing: value ± k·u holds the truth 95 times in a hundred, where k = 2 holds it less often.

    A scatter of 3 degrees of freedom, four readings' worth of it in the mean, beside a rectangular half width that
    is known.
    """
    chance, n = np.random.default_rng(11), 60_000
    u_scatter, half_width = 1.0, 0.9
    s = u_scatter * np.sqrt(chance.chisquare(DEGREES, n) / DEGREES)
    off = chance.normal(0, u_scatter, n) + chance.uniform(-half_width, half_width, n)
    u = np.hypot(s, half_width / math.sqrt(3))
    shares = {"combined": u, "share-angle": s, "u-theta": 1.0, "u-mean": 1.0}
    nu = effective_freedom(Exact, shares, {}, PARTS)
    k = np.array([t95(x) for x in nu])
    assert np.mean(np.abs(off) <= k * u) == pytest.approx(0.95, abs=0.02)
    assert np.mean(np.abs(off) <= 2 * u) < 0.92


def test_the_guide_on_twenty_temperatures():
    """4.4.3, by 4.2.2 and 4.2.3: with our own formulas, told that there are twenty readings."""
    s = math.sqrt(sum((t - sum(TEMPERATURES) / 20) ** 2 for t in TEMPERATURES) / PARTS.freedom(20))
    assert sum(TEMPERATURES) / 20 == pytest.approx(100.145, abs=0.0005)
    assert s == pytest.approx(1.489, abs=0.0005)
    assert s / PARTS.root_of_count(20) == pytest.approx(0.333, abs=0.0005)


def test_the_guide_on_a_rectangular_range():
    """4.4.5, by 4.3.7: 96 °C to 104 °C: 2.3 °C."""
    assert PARTS.rectangular(4.0) == pytest.approx(2.3, abs=0.05)


def test_the_mean_of_eight():
    """4.2.3: s/√n."""
    assert u_mean(Exact, {"scatter": 0.5}, {}, PARTS) == pytest.approx(0.5 / math.sqrt(8), rel=1e-12)


def test_squares_against_a_monte_carlo():
    """5.1.2 by drawing: the spread of a product of four independent factors, to 1 % of itself."""
    shares = {"share-angle": 0.01, "share-distance": 0.015, "share-length": 0.004, "share-needle": 0.006}
    chance = np.random.default_rng(5)
    product = np.prod([1 + chance.normal(0, u, 400_000) for u in shares.values()], axis=0)
    assert combined(Exact, shares, {}, PARTS) == pytest.approx(product.std(), rel=0.01)

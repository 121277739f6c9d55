"""Weber's swinging bar of 1837 against the formulas of the earth's field and the moment together.

Source: W. Weber, in C. F. Gauss and W. Weber, "Results of the observations of the
Magnetic Association", translated in Taylor's *Scientific Memoirs*, vol. 2 (London
1841), pp. 67-83: the times of 23 passages of a bar magnet through the meridian, its
size and its weight, and the horizontal intensity that he published from these and
from deflections.  The figures were read from a proofread copy of those pages.

In that text one vibration is one passage to the next, half of what the pages here
call a swing; so T is twice the time between passages.
"""

import csv
import math
from pathlib import Path

import numpy as np
import pytest

from exercises.bench.least_squares import line
from exercises.bench.vibration import DENSITIES, inertia, period
from exercises.codes.scenario import MATERIALS
from exercises.kinds.earth import parts
from exercises.working.arithmetic import Exact

with (Path(__file__).parent / "weber_1837_vibration.csv").open() as _file:
    _ROWS = list(csv.reader(text for text in _file if not text.startswith("#")))
EXACT = Exact()
PASSAGE = np.array([int(count) for count, _, _ in _ROWS])
TIME = np.array([60 * int(minutes) + float(seconds) for _, minutes, seconds in _ROWS])  # s

MASS, LENGTH, BREADTH = 0.142, 0.101, 0.0175  # kg, m, m
PUBLISHED = 17.74e-6  # T: 1.774 of Gauss's units (mm, mg, s), of 10 µT each
ALL_TOGETHER = 1687.40 / 253  # s from passage to passage, his own, from all 253 of them
GIVENS = {"mass": MASS, "length": LENGTH, "breadth": BREADTH}


def _known() -> dict[str, float]:
    """Moment of inertia, period and m·B_H by the formulas of the earth's sheets."""
    known = {"inertia": parts.inertia(EXACT, {}, GIVENS, parts.PARTS), "period": 2 * line(PASSAGE, TIME).slope}
    return known | {"product": parts.product(EXACT, known, GIVENS, parts.PARTS)}


def test_the_table_is_whole():
    assert list(PASSAGE) == list(range(23))
    assert TIME[0] == 3.25 and TIME[-1] == 150.00
    assert np.diff(TIME).min() > 6.4 and np.diff(TIME).max() < 6.9


def test_least_squares_finds_the_time_between_passages():
    """To half a part in a thousand of what he found from all 253."""
    ours = line(PASSAGE, TIME)
    assert ours.slope == pytest.approx(np.polyfit(PASSAGE, TIME, 1)[0], rel=1e-12)
    assert ours.slope == pytest.approx(6.6664, abs=5e-5)
    assert ours.slope == pytest.approx(ALL_TOGETHER, rel=6e-4)
    assert abs(ours.slope - ALL_TOGETHER) < 3 * ours.slope_error
    assert 0.02 < ours.scatter < 0.15  # s: one hand, one watch


def test_the_moment_of_inertia_of_his_bar():
    assert parts.inertia(EXACT, {}, GIVENS, parts.PARTS) == pytest.approx(1.2434e-4, rel=1e-4)
    assert inertia(MASS, LENGTH, BREADTH) == pytest.approx(1.2434e-4, rel=1e-4)


def test_the_timings_of_the_sheet_give_the_same_period():
    """Three timings of ten swings (twenty passages) from his table, worked as a sheet works them: to 0.1 %."""
    timings = tuple(float(TIME[start + 20] - TIME[start]) for start in range(3))
    found = parts.period(EXACT, {}, {"timings": timings, "swings": 10.0}, parts.PARTS)
    assert found == pytest.approx(2 * ALL_TOGETHER, rel=1e-3)


def test_his_moment_from_the_product_and_the_published_field():
    """π²I over the square of the time between passages is 2.761e-5 A·m²·T; with 17.74 µT the moment is 1.556 A·m²."""
    known = _known()
    assert known["product"] == pytest.approx(math.pi**2 * 1.2434e-4 / 6.6664**2, rel=2e-4)
    assert known["product"] == pytest.approx(2.761e-5, rel=5e-4)
    moment = known["product"] / PUBLISHED
    assert moment == pytest.approx(1.556, abs=0.002)
    # the two results of a sheet, from this product and the ratio that belongs to it
    both = known | {"ratio": moment / PUBLISHED}
    assert parts.moment(EXACT, both, GIVENS, parts.PARTS) == pytest.approx(1.556, abs=0.002)
    assert parts.earth(EXACT, both, GIVENS, parts.PARTS) == pytest.approx(PUBLISHED, rel=1e-9)


def test_our_swinging_magnet_keeps_his_time():
    """A bar of that moment, size and weight in that field swings as his did; half of a swing is one passage."""
    swung = period(inertia(MASS, LENGTH, BREADTH), 1.556, PUBLISHED)
    assert swung / 2 == pytest.approx(ALL_TOGETHER, rel=1e-3)


def test_taking_his_passages_for_whole_swings_makes_the_field_four_times_too_strong():
    """Why the page says that old books count a half swing: the slip is a factor of four in m·B_H."""
    known = _known()
    halved = parts.product(EXACT, known | {"period": known["period"] / 2}, GIVENS, parts.PARTS)
    assert halved / known["product"] == pytest.approx(4, rel=1e-12)


def test_his_bar_is_of_the_steel_that_our_bars_are_drawn_from():
    """His bar's moment for its volume lies in the range of open bars of carbon steel, which ours is from memory."""
    magnetisation = 1.556 / (MASS / DENSITIES["carbon steel"])
    steel = next(material for material in MATERIALS if material.name == "carbon steel")
    assert steel.lowest < magnetisation < steel.highest

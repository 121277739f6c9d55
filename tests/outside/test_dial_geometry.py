"""The dial against the classical theory of a divided circle whose pointer turns about another centre.

Source: the error of eccentricity, (e/R) sin(φ + φ₀), and its disappearance in the mean of two opposite
readings, W. Chauvenet, *A Manual of Spherical and Practical Astronomy*, vol. II, on the eccentricity of
graduated circles (from memory; the formula is derived again below with numpy's complex numbers).
"""

import math

import numpy as np
import pytest

from exercises.bench.instrument import Box, Faults, pointer_ends
from exercises.kinds.dial.drawing import divisions, tip

BOX = Box(radius=0.040)
PIVOTS = [(0.4e-3, 0.0), (0.0, -0.5e-3), (-0.3e-3, 0.45e-3)]


@pytest.mark.parametrize("pivot", PIVOTS)
@pytest.mark.parametrize("phi", [31.0, 38.25, 45.0, 52.5, 59.0])
def test_the_error_of_eccentricity(pivot, phi):
    faults = Faults(pivot_x=pivot[0], pivot_y=pivot[1])
    e = complex(*pivot) / BOX.radius
    first_order = math.degrees(abs(e) * math.sin(math.radians(phi) + np.angle(e)))
    one, two = pointer_ends(phi, BOX, faults)
    second_order = math.degrees(abs(e) ** 2)
    assert one == pytest.approx(phi - first_order, abs=second_order)
    assert two == pytest.approx(phi + first_order, abs=second_order)
    assert abs(one - two) == pytest.approx(2 * abs(first_order), abs=second_order)
    assert (one + two) / 2 == pytest.approx(phi, abs=second_order)


@pytest.mark.parametrize("pivot", PIVOTS)
@pytest.mark.parametrize("phi", [-57.0, -33.0, 41.5, 58.0])
@pytest.mark.parametrize("end", [1, 2])
def test_the_drawn_tip_lies_at_the_reading(pivot, phi, end):
    faults = Faults(pivot_x=pivot[0], pivot_y=pivot[1], box_turned=-0.7)
    drawn = complex(*tip(phi, end, BOX, faults))
    towards = complex(*pivot) / BOX.radius + (1 if end == 1 else -1) * np.exp(-1j * np.radians(phi))
    assert drawn == pytest.approx(towards, abs=1e-12)
    # clockwise from the end's own zero, east for end 1 and west for end 2
    turned = -np.degrees(np.angle(drawn if end == 1 else -drawn))
    assert abs(turned + faults.at_rest) == pytest.approx(pointer_ends(phi, BOX, faults)[end - 1], abs=1e-9)


@pytest.mark.parametrize("step", [0.5, 1.0])
def test_the_words_count_as_numpy_divides(step):
    for reading in np.arange(30, 60, step):
        mark, count = divisions(float(reading), step)
        tens, rest = np.divmod(reading, 10)
        assert (mark, count) == (10 * tens, round(rest / step))

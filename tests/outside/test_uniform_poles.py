"""Where the poles of a uniformly magnetised bar lie, from its far field by magpylib.

Source: magpylib's cuboid, an exact solution for uniform magnetisation (see test_magpylib_field.py).
"""

import math

import magpylib
import pytest
from scipy import constants

from exercises.bench.magnets import MATERIALS, SLIM, uniform_magnetic_length

K = constants.mu_0 / (4 * math.pi)
MAGNETISATION = 3e5  # A/m


def far_magnetic_length(length: float, width: float, thickness: float) -> float:
    """2l of the two poles that have the field of a cuboid on its axis: by B·d³/2km = 1 + 2l²/d² + 3l⁴/d⁴ … far off."""
    bar = magpylib.magnet.Cuboid(magnetization=(0, 0, MAGNETISATION), dimension=(width, thickness, length))
    m = MAGNETISATION * length * width * thickness

    def squared(d: float) -> float:
        return (bar.getB((0, 0, d))[2] * d**3 / (2 * K * m) - 1) * d * d / 2

    near, far = squared(6 * length), squared(12 * length)
    return 2 * math.sqrt((4 * far - near) / 3)  # the next term, which falls as 1/d², taken off


@pytest.mark.parametrize(
    ("length", "width", "thickness"),
    [(0.08, 0.004, 0.003), (0.08, 0.008, 0.008), (0.08, 0.02, 0.01), (0.06, 0.02, 0.015), (0.12, 0.025, 0.006)],
)
def test_poles_of_a_uniform_bar(length, width, thickness):
    theirs = far_magnetic_length(length, width, thickness)
    assert uniform_magnetic_length(length, width, thickness) == pytest.approx(theirs, rel=2e-4)
    assert 0.95 < theirs / length < 1.0


def test_a_slim_uniform_bar():
    """A seventh as wide and a tenth as thick as long: the share that is taken where the size is not yet known."""
    assert far_magnetic_length(0.07, 0.010, 0.007) / 0.07 == pytest.approx(SLIM, abs=0.005)
    assert all(m.weakened or m.share == SLIM for m in MATERIALS)

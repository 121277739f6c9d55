"""Where the poles of a uniformly magnetised bar lie: the far field's pole distance, against magpylib.

Source: magpylib 6 (M. Ortner and L. G. Coliado Bandeira, SoftwareX 11, 2020,
100466; the citation is from memory), whose cylinder and cuboid are exact for
uniform magnetisation.

The magnetic length that a magnetometer can find is that of the two poles whose
field is the bar's far away.  The end faces carry the poles.  A pole spread over a
face of mean square radius q² takes 6q² from the square of that length: far away the
second term of a pole at z on the axis and ρ beside it is z² − 3ρ²/2.  For a face of
sides w and t, q² = (w² + t²)/12; for a disc of diameter D, q² = D²/8.  Worked here.
"""

import math

import magpylib
import pytest
from scipy import constants

from exercises.bench.field import broadside_on, end_on
from exercises.bench.magnets import MATERIALS, SLIM, uniform_magnetic_length

K = constants.mu_0 / (4 * math.pi)  # magpylib works with CODATA's µ0
MAGNETISATION = 3.0e5  # A/m; it cancels
CUBOIDS = [
    (0.08, 0.008, 0.008),
    (0.08, 0.016, 0.008),
    (0.10, 0.025, 0.010),
    (0.054, 0.018, 0.015),
    (0.04, 0.013, 0.013),
]
CYLINDERS = [(0.08, 0.005), (0.08, 0.010), (0.10, 0.020), (0.05, 0.016)]


def of_a_cylinder(length: float, diameter: float) -> float:
    """2l in m by the rule above; no bar of ours is round."""
    return math.sqrt(length**2 - 3 * diameter**2 / 4)


def found_end_on(bar, m: float, d: float) -> float:
    """2l of the two poles of moment m whose end-on field at d is the bar's: 2kmd/B = (d² − l²)²."""
    return 2 * math.sqrt(d * d - math.sqrt(2 * K * m * d / bar.getB((0, 0, d))[2]))


def found_broadside(bar, m: float, d: float, beside: tuple[float, float] = (1.0, 0.0)) -> float:
    """2l of those whose broadside-on field at d is the bar's: km/B = (d² + l²)^(3/2)."""
    B = -bar.getB((beside[0] * d, beside[1] * d, 0))[2]
    return 2 * math.sqrt((K * m / B) ** (2 / 3) - d * d)


def cuboid(length, width, thickness):
    bar = magpylib.magnet.Cuboid(magnetization=(0, 0, MAGNETISATION), dimension=(width, thickness, length))
    return bar, MAGNETISATION * length * width * thickness


def cylinder(length, diameter):
    bar = magpylib.magnet.Cylinder(magnetization=(0, 0, MAGNETISATION), dimension=(diameter, length))
    return bar, MAGNETISATION * length * math.pi * diameter**2 / 4


@pytest.mark.parametrize("size", CUBOIDS)
def test_a_cuboid_s_poles_far_away(size):
    bar, m = cuboid(*size)
    assert found_end_on(bar, m, 20 * size[0]) == pytest.approx(uniform_magnetic_length(*size), rel=5e-4)


@pytest.mark.parametrize("size", CYLINDERS)
def test_a_cylinder_s_poles_far_away_end_on_and_broadside_on(size):
    """One 2l serves both positions of the magnet."""
    bar, m = cylinder(*size)
    far = 20 * size[0]
    assert found_end_on(bar, m, far) == pytest.approx(of_a_cylinder(*size), rel=5e-4)
    assert found_broadside(bar, m, far) == pytest.approx(of_a_cylinder(*size), rel=1e-3)


@pytest.mark.parametrize("size", CUBOIDS)
def test_beside_a_flat_bar_it_matters_a_little_which_face_is_up(size):
    """Square sections have one 2l.  A flat bar's is larger over its thin side; the mean square is 2l's."""
    bar, m = cuboid(*size)
    far = 20 * size[0]
    wide, thin = found_broadside(bar, m, far, (1, 0)), found_broadside(bar, m, far, (0, 1))
    assert (wide**2 + thin**2) / 2 == pytest.approx(uniform_magnetic_length(*size) ** 2, rel=3e-3)
    if size[1] == size[2]:
        assert wide == pytest.approx(thin, rel=1e-4)
    else:
        assert wide < thin


@pytest.mark.parametrize("size", [s for s in CUBOIDS if s[1] <= s[0] / 3])
def test_the_poles_of_a_uniform_bar_are_nearly_at_its_ends(size):
    """95 to 100 hundredths of the length for bars no wider than a third of it: about a sixth more than 5/6."""
    assert 0.94 < found_end_on(*cuboid(*size), 20 * size[0]) / size[0] < 1.0


@pytest.mark.parametrize("size", CUBOIDS)
@pytest.mark.parametrize("times", [2.0, 2.5, 4.0])
def test_where_readings_are_taken_the_far_field_s_poles_still_serve(size, times):
    """At two to four lengths two poles at that distance give the bar's end-on field to 0.3 %; broadside-on to 1 %."""
    bar, m = cuboid(*size)
    d, l = times * size[0], uniform_magnetic_length(*size) / 2
    assert end_on(m, d, l, K) == pytest.approx(bar.getB((0, 0, d))[2], rel=0.003)
    sides = [-bar.getB(at)[2] for at in ((d, 0, 0), (0, d, 0))]
    assert broadside_on(m, d, l, K) == pytest.approx(sum(sides) / 2, rel=0.01)


def test_the_share_of_a_slim_bar():
    """A seventh as wide and a tenth as thick as long: the share that is taken where the size is not yet known."""
    size = (0.07, 0.010, 0.007)
    assert found_end_on(*cuboid(*size), 20 * size[0]) / size[0] == pytest.approx(SLIM, abs=0.005)
    assert all(material.weakened or material.share == SLIM for material in MATERIALS)

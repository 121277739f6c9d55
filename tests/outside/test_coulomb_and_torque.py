"""Field and equilibrium against calculations that share no code with ours.

Sources: Coulomb's inverse-square law for magnetic poles, added up in numpy; for
the needle, scipy.optimize on a torque and on an energy written here from scratch.
"""

import math
import random

import numpy as np
import pytest
from scipy.optimize import brentq, minimize_scalar

from exercises.bench.field import broadside_on, end_on, pole_field
from exercises.bench.instrument import Faults, Magnet, equilibrium, poles

K = 1e-7  # µ0/4π of the textbook


def coulomb(pole_pair, at) -> np.ndarray:
    """Field in tesla at the points `at` (…, 2): K p r / |r|³ summed over the poles."""
    at = np.asarray(at, dtype=float)
    total = np.zeros_like(at)
    for p, x, y in pole_pair:
        r = at - (x, y)
        total += K * p * r / np.linalg.norm(r, axis=-1, keepdims=True) ** 3
    return total


def scalar_potential(pole_pair, at) -> float:
    """K p / |r| summed over the poles, T·m."""
    return sum(K * p / math.dist(at, (x, y)) for p, x, y in pole_pair)


def _scenes(count: int):
    """Instruments a little worse than any sheet's: (two poles, B_H, half needle, tan B or not)."""
    chance = random.Random(1832)
    for i in range(count):
        tan_b = i % 2 == 1
        B_H = chance.uniform(12e-6, 42e-6)
        l = chance.uniform(0.02, 0.055)
        d = l * chance.uniform(4, 6)
        tangent = math.tan(math.radians(chance.uniform(25, 65)))
        m = B_H * tangent / (broadside_on(1, d, l) if tan_b else end_on(1, d, l))
        faults = Faults(
            arm_off=chance.uniform(-3, 3),
            box_shift=chance.uniform(-2e-3, 2e-3),
            centre_shift=chance.uniform(-2e-3, 2e-3),
            magnet_turned=chance.uniform(-4, 4),
        )
        arm, north = chance.choice(("east", "west")), chance.choice(("east", "west"))
        yield poles(Magnet(m, l), d, arm, north, faults, tan_b), B_H, chance.uniform(0.0, 0.012)


SCENES = list(_scenes(60))


def _torque(phi, pole_pair, B_H, needle):
    """n × B summed over the needle's two poles at ±needle·n; clockwise from north is positive."""
    n = np.array((math.sin(phi), math.cos(phi)))
    field = coulomb(pole_pair, (needle * n, -needle * n)).sum(axis=0) + (0.0, 2 * B_H)
    return float(n[0] * field[1] - n[1] * field[0])


@pytest.mark.parametrize(("m", "l", "d"), [(1.5, 0.04, 0.2), (0.3, 0.02, 0.06), (2.7, 0.055, 0.31)])
def test_the_two_formulas_are_the_sum_of_two_poles(m, l, d):
    bar = ((m / (2 * l), l, 0.0), (-m / (2 * l), -l, 0.0))
    axial, across = coulomb(bar, ((d, 0.0), (0.0, d)))
    assert axial == pytest.approx((end_on(m, d, l), 0.0), rel=1e-12)
    assert across[0] == pytest.approx(-broadside_on(m, d, l), rel=1e-12)
    assert across[1] == pytest.approx(0.0, abs=1e-15)


def test_one_pole_is_coulombs_law_in_every_direction():
    chance = np.random.default_rng(7)
    for p, ax, ay, x, y in chance.uniform(-1, 1, (50, 5)):
        assert pole_field(p, ax, ay, x, y) == pytest.approx(coulomb(((p, ax, ay),), (x, y)), rel=1e-12)


def test_the_field_has_no_whirl_and_no_spring_between_the_poles():
    """Numerical curl and (three-dimensional) divergence of the pole field vanish."""
    p, x, y, h = 3.0, 0.11, -0.07, 1e-5
    (ex, ey), (wx, wy) = pole_field(p, 0, 0, x + h, y), pole_field(p, 0, 0, x - h, y)
    (nx, ny), (sx, sy) = pole_field(p, 0, 0, x, y + h), pole_field(p, 0, 0, x, y - h)
    scale = K * p / math.hypot(x, y) ** 3
    assert ((ey - wy) - (nx - sx)) / (2 * h) == pytest.approx(0, abs=1e-6 * scale)
    third = scale  # dBz/dz on the plane of the pole
    assert (ex - wx + ny - sy) / (2 * h) + third == pytest.approx(0, abs=1e-6 * scale)


@pytest.mark.parametrize("scene", SCENES[::4])
def test_a_point_needle_lies_along_the_whole_field(scene):
    pole_pair, B_H, _ = scene
    east, north = coulomb(pole_pair, (0.0, 0.0)) + (0.0, B_H)
    assert equilibrium(pole_pair, B_H, 0.0) == pytest.approx(math.degrees(math.atan2(east, north)), abs=1e-8)


@pytest.mark.parametrize("scene", SCENES)
def test_the_needle_settles_where_scipy_finds_no_torque(scene):
    pole_pair, B_H, needle = scene
    east, north = coulomb(pole_pair, (0.0, 0.0)) + (0.0, B_H)
    about = math.atan2(east, north)
    root = brentq(_torque, about - 0.3, about + 0.3, args=scene, xtol=1e-14)
    assert equilibrium(pole_pair, B_H, needle) == pytest.approx(math.degrees(root), abs=1e-7)


@pytest.mark.parametrize(
    ("m", "l", "d", "needle"), [(0.3, 0.02, 0.024, 0.012), (1.0, 0.02, 0.04, 0.015), (5.0, 0.03, 0.054, 0.02)]
)
def test_close_to_a_strong_magnet_too(m, l, d, needle):
    """A long needle almost at a magnet beside it, 15° and more from where a point would lie: no bench has it."""
    scene = poles(Magnet(m, l), d, "east", "east", Faults(), tan_b=True), 3e-5, needle
    east, north = coulomb(scene[0], (0.0, 0.0)) + (0.0, 3e-5)
    about = math.atan2(east, north)
    root = math.degrees(brentq(_torque, about - 0.6, about + 0.6, args=scene, xtol=1e-14))
    assert equilibrium(*scene) == pytest.approx(root, abs=1e-7) and abs(root - math.degrees(about)) > 15


@pytest.mark.parametrize("scene", [s for s in SCENES if s[2] > 0.002])
def test_the_needle_settles_where_its_energy_is_least(scene):
    """Energy of two poles ±1 of the needle in the potential of the bar and of the earth.

    A minimum is flat, so scipy can place it to about 1e-5° only.
    """
    pole_pair, B_H, needle = scene

    def energy(phi):
        x, y = needle * math.sin(phi), needle * math.cos(phi)
        of_earth = -2 * B_H * y
        return of_earth + scalar_potential(pole_pair, (x, y)) - scalar_potential(pole_pair, (-x, -y))

    settled = math.radians(equilibrium(pole_pair, B_H, needle))
    least = minimize_scalar(
        lambda phi: energy(phi) / (B_H * needle), bounds=(-2.2, 2.2), method="bounded", options={"xatol": 1e-10}
    ).x
    assert math.degrees(settled) == pytest.approx(math.degrees(least), abs=2e-5)
    # and it is the steadiest place of all round the circle, not a crest
    assert all(energy(settled) <= energy(turn / 50) + 1e-18 for turn in range(-157, 158))


@pytest.mark.parametrize("scene", SCENES[::3])
def test_turning_everything_upside_down_turns_the_needle_the_other_way(scene):
    """Mirror the bar in the meridian and swap its poles' signs: the deflection changes sign only."""
    pole_pair, B_H, needle = scene
    mirrored = tuple((-p, x, -y) for p, x, y in pole_pair)
    assert equilibrium(mirrored, B_H, needle) == pytest.approx(-equilibrium(pole_pair, B_H, needle), abs=1e-9)

"""The bars of tests/real_bars.py by magpylib alone, and what a record of such a bar is given.

Source: magpylib's cuboid and cylinder (see test_magpylib_field.py).  The shares of many records are printed by
tests/benchmarks/coverage.py; here a few, with the rates they must keep.
"""

import math
import random
from itertools import product

import magpylib
import numpy as np
import pytest
from scipy import constants

from exercises.bench.instrument import Faults, Magnet, equilibrium, poles
from exercises.record.check import check
from tests.real_bars import NEAR, SHAPES, SHARES, Bench, deflections, real_bar, real_record

SORTS = list(product(SHAPES, SHARES))


def field(bar, d: float) -> float:
    """On the axis, T."""
    return float(magpylib.getB(bar.sources(), (d, 0, 0), sumup=True)[0])


@pytest.mark.parametrize(("shape", "share"), SORTS)
def test_a_real_bar_has_its_poles_where_it_says(shape, share):
    """The field of its moment at 8 and at 16 lengths gives 2l; the next term, which falls as 1/d², is taken off."""
    bar = real_bar(shape, share, 0.08, 0.014, 0.010)
    k = constants.mu_0 / (4 * math.pi)
    near, far = ((field(bar, d) * d**3 / (2 * k * bar.moment) - 1) * d * d / 2 for d in (0.64, 1.28))
    assert bar.magnetic_length == pytest.approx(2 * math.sqrt((4 * far - near) / 3), rel=5e-4)
    assert bar.magnetic_length / 0.08 == pytest.approx(share or 0.99, abs=0.005)
    assert bar.of_moment(2.5).moment == pytest.approx(2.5)
    assert bar.of_moment(2.5).magnetic_length == pytest.approx(bar.magnetic_length)


def test_a_slim_uniform_bar_turns_the_needle_as_two_poles_do():
    """Faults and all: the two ways of finding where the needle rests have nothing in common."""
    bar = real_bar("cylinder", None, 0.08, 0.0008, 0.0008).of_moment(1.5)
    faults = Faults(arm_off=2.0, box_shift=1e-3, centre_shift=-8e-4, magnet_turned=3.0)
    found = deflections(bar, Bench(36e-6, 0.008, faults), [(0.2, 0.21), (0.24, 0.24)])
    magnet, expected = Magnet(1.5, 0.04), []
    for pair in ((0.2, 0.21), (0.24, 0.24)):
        for arm, d in zip(("east", "west"), pair):
            for north in ("east", "west"):
                expected.append(equilibrium(poles(magnet, d, arm, north, faults), 36e-6, 0.008))
    assert found == pytest.approx(np.array(expected), abs=2e-3)


def test_what_is_stated_of_a_real_bar_close_by_holds():
    """What a needle does is half as much again there, and a weakened bar's poles are spread along it."""
    chance, held = random.Random(3), {"m": 0, "p": 0}
    for i in range(30):
        bar, record = real_record(chance, SHAPES[i % 2], 5 / 6, i % 3 > 0, reach=NEAR)
        result = check(record).moments.result
        held["m"] += abs(result.moment.value - bar.moment) <= result.moment.U
        held["p"] += abs(result.pole.value - bar.moment / bar.magnetic_length) <= result.pole.U
    assert min(held.values()) >= 26, held


def test_what_is_stated_of_real_bars_holds():
    chance, held, count = random.Random(12), {"m": 0, "p": 0}, 0
    for shape, share in SORTS:
        for told in (True, False):
            for _ in range(4):
                bar, record = real_record(chance, shape, share, told)
                result = check(record).moments.result
                held["m"] += abs(result.moment.value - bar.moment) <= result.moment.U
                held["p"] += abs(result.pole.value - bar.moment / bar.magnetic_length) <= result.pole.U
                assert 0.035 * result.moment.value > result.moment.U and 0.19 * result.pole.value > result.pole.U
                count += 1
    assert min(held.values()) >= 0.9 * count

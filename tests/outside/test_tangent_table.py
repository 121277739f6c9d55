"""The tangent law drills against a table of natural tangents, and against numpy's vectors.

The table: four-figure natural tangents of whole and half degrees as any school
table prints them, written here from memory, not copied from a book.  That they
are sound is held here too, by the addition formula, which needs no tangent function.
"""

import math
import random

import numpy as np
import pytest

from exercises.codes.sheet_code import SEEDS, SheetCode
from exercises.kinds.kind import open_code
from exercises.kinds.law.parts import PARTS
from exercises.working.arithmetic import Exact

#: degrees -> natural tangent, four places, from memory
TABLE = {
    26: 0.4877,
    27: 0.5095,
    28: 0.5317,
    29: 0.5543,
    30: 0.5774,
    31: 0.6009,
    32: 0.6249,
    33: 0.6494,
    34: 0.6745,
    35: 0.7002,
    36: 0.7265,
    37: 0.7536,
    38: 0.7813,
    39: 0.8098,
    40: 0.8391,
    41: 0.8693,
    42: 0.9004,
    43: 0.9325,
    44: 0.9657,
    45: 1.0000,
    46: 1.0355,
    47: 1.0724,
    48: 1.1106,
    49: 1.1504,
    50: 1.1918,
    51: 1.2349,
    52: 1.2799,
    53: 1.3270,
    54: 1.3764,
    55: 1.4281,
    56: 1.4826,
    57: 1.5399,
    58: 1.6003,
    59: 1.6643,
    60: 1.7321,
    61: 1.8040,
    62: 1.8807,
    63: 1.9626,
    64: 2.0503,
}

CHANCE = random.Random("tangent table")
CODES = [str(SheetCode("W", 1, CHANCE.randrange(SEEDS))) for _ in range(50)]


@pytest.mark.parametrize("degrees", TABLE)
def test_the_tangent_of_the_table(degrees):
    assert PARTS.law_tangent(Exact, degrees) == pytest.approx(TABLE[degrees], abs=5.1e-5)
    assert PARTS.law_angle(Exact, TABLE[degrees]) == pytest.approx(degrees, abs=0.003)


@pytest.mark.parametrize("degrees", range(27, 64))
def test_the_table_is_sound_by_itself(degrees):
    """tan 2x = 2 tan x / (1 − tan² x), with 2x the sum of two neighbours: from three entries, by arithmetic alone."""
    below, above = TABLE[degrees - 1], TABLE[degrees + 1]
    twice = (below + above) / (1 - below * above) if degrees != 45 else math.inf
    middle = TABLE[degrees]
    by_middle = 2 * middle / (1 - middle * middle) if degrees != 45 else math.inf
    # compared as cotangents, which stay small where the tangent runs away
    assert 1 / twice == pytest.approx(1 / by_middle, abs=4e-4)


@pytest.mark.parametrize("code", CODES)
def test_fields_from_the_table_agree(code):
    """Between two entries by proportional parts, as with a printed table."""
    sheet = open_code(code)
    s, working = sheet.scenario, sheet.working
    one, three = (float(np.interp(t, list(TABLE), list(TABLE.values()))) for t in s.theta)
    assert working.value("field-1") == pytest.approx(s.B_H * one, rel=4e-4)
    assert working.value("earth-3") == pytest.approx(s.fields[1] / three, rel=4e-4)


@pytest.mark.parametrize("code", CODES)
def test_the_needle_lies_along_the_sum_of_the_vectors(code):
    sheet = open_code(code)
    s, working = sheet.scenario, sheet.working
    earth = np.array([0.0, s.B_H])  # east, north
    tilt = np.radians(s.tilt if s.north else -s.tilt)
    arm = np.array([np.cos(tilt), np.sin(tilt)])
    for way, along in (("east", arm), ("west", -arm)):
        total = earth + s.fields[2] * along
        angle = np.degrees(np.arccos(total[1] / np.linalg.norm(total)))
        assert working.value(f"{way}-4") == pytest.approx(angle, rel=1e-9)
    across = earth + np.array([s.fields[0], 0.0])
    assert working.value("along-2") == pytest.approx(np.linalg.norm(across), rel=1e-12)
    # the mean is right to a per cent or two, one way alone is not
    assert working.value("field-4") == pytest.approx(s.fields[2], rel=0.03)

"""What the theory figures share: one magnet of the Saltmarsh drawer, one place, one sheet.

The magnet and the place are those of the examples in exercises/field.py; no
figure holds a curve of its own, each asks exercises/ for its numbers.
"""

from functools import cache

from exercises.bench.field import deflection, end_on
from exercises.bench.instrument import Magnet
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.tan_a.kind import KIND
from exercises.working.steps import Working

MAGNET = Magnet(m=1.5, l=0.04)  # A·m², m
LENGTH = 0.096  # m, its measured length; 2l is stated
B_H = 36e-6  # T
DISTANCE = 0.21  # m


def theta(d: float = DISTANCE) -> float:
    """The textbook's deflection in degrees by this magnet at this place, at d metres."""
    return deflection(end_on(MAGNET.m, d, MAGNET.l), B_H)


@cache
def sheet() -> tuple[DeflectionScenario, Working]:
    """The sheet that the page on the result works with."""
    scenario = KIND.draw(SheetCode("A", 1, 3314))
    return scenario, KIND.working(scenario)

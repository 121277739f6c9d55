"""The numbers of a sheet of dials: a magnet at two distances, and a needle that leaves no doubt about the divisions."""

import math

from exercises.bench.field import distance_end_on, field_from_deflection
from exercises.bench.instrument import EIGHT, Faults, Magnet, equilibrium, pointer_ends, poles
from exercises.codes.scenario import Draw, draw_faults, first_good
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.draw import draw_magnet
from exercises.kinds.deflection.stretch import BOX, CLEARANCE, END_ON
from exercises.kinds.dial.scenario import Dial, DialScenario
from exercises.kinds.dial.steps import working_of
from exercises.slips.catalogue import Slip

PLACES = tuple((arm, north) for arm, north, end in EIGHT if end == 1)
#: Where the mean deflection of the two distances lies, degrees.
RANGES = ((47.0, 56.0), (33.0, 43.0))
LARGEST_DEFLECTION = 57.0  # degrees; where the deflection is that, the bar must still be clear of the box
STICKING = 0.25  # degrees, standard deviation of where the needle stops
OFF_DIVISION = 0.3  # of a step: a tip no farther from its division leaves no doubt which one it is
COUNT = 4  # distances that the magnet leaves: with two, a coarse grid has none at the right deflections
TRIES = 8  # at one place, each with the needle stopped anew


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> DialScenario:
    """The numbers of a code of edition 1, such that these slips can be told apart.

    ArithmeticError if there are none, which no code leads to.
    """
    return first_good(Draw(code), slips, lambda draw, slips: _attempt(draw, code, slips))


def _attempt(draw: Draw, code: SheetCode, slips: tuple[Slip, ...]) -> DialScenario | None:
    grid_mm = code.setting.grid_mm
    placed = draw_magnet(draw, code.setting, END_ON, count=COUNT)
    if placed is None:
        return None
    step = code.setting.scale_step or draw.pick((1.0, 0.5))
    faults = draw_faults(draw)
    bar, B_H = placed.bar, placed.B_H
    magnet = Magnet(bar.moment, bar.magnetic_length / 2)
    if _distance(magnet, B_H, LARGEST_DEFLECTION) - bar.length / 2 < BOX.radius + CLEARANCE:
        return None
    dials: list[Dial] = []
    for low, high in RANGES:
        near, far = _distance(magnet, B_H, high), _distance(magnet, B_H, low)
        on_grid = range(math.ceil(near * 1000 / grid_mm), math.floor(far * 1000 / grid_mm) + 1)
        distances = (n * grid_mm / 1000 for n in draw.shuffled(on_grid))
        fours = (_four(draw, magnet, B_H, d, faults, step, slips) for d in distances)
        four = next((found for found in fours if found), None)
        if four is None:
            return None
        dials += four
    return DialScenario(code, *placed, BOX, faults, step, tuple(dials))


def _distance(magnet: Magnet, B_H: float, theta: float) -> float:
    """The distance in m at which the deflection is theta degrees."""
    return distance_end_on(magnet.m, field_from_deflection(theta, B_H), magnet.l)


def _four(
    draw: Draw, magnet: Magnet, B_H: float, d: float, faults: Faults, step: float, slips: tuple[Slip, ...]
) -> list[Dial] | None:
    """The four places at d with clear dials, or None.  The needle sticks a little, so a place is tried again."""
    four = []
    for arm, north in PLACES:
        phi = equilibrium(poles(magnet, d, arm, north, faults), B_H, BOX.needle)
        stops = (round(phi + draw.normal(STICKING), 3) for _ in range(TRIES))
        stopped = next((x for x in stops if _clear(pointer_ends(x, BOX, faults), step, slips)), None)
        if stopped is None:
            return None
        four.append(Dial(arm, north, d, stopped))
    return four


def _clear(tips: tuple[float, float], step: float, slips: tuple[Slip, ...]) -> bool:
    """Whether no eye can be in doubt about the division, and every slip shows for what it is."""
    if any(abs(tip / step - math.floor(tip / step + 0.5)) > OFF_DIVISION for tip in tips):
        return False
    return tells_apart(working_of((tips,), step), slips, ("read-1-1", "read-1-2"))

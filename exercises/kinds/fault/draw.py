"""Numbers for a sheet with a fault to be found: one fault planted, read by an eye, and kept if the fit finds it.

A known share has no fault, and a smaller one a fault that the readings do not
tell from another: a slight zero error or arms slightly off east–west.
"""

import math
from dataclasses import replace

from exercises.bench.fault_fit import variance
from exercises.bench.instrument import Faults, Magnet, eight_readings
from exercises.codes.scenario import ARM_LENGTH, READING_ERROR, Draw, Row, first_good, to_grid
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.draw import PlacedMagnet, draw_count, draw_magnet, stretch_of
from exercises.kinds.deflection.stretch import BOX, END_ON
from exercises.kinds.fault.formulas import stray
from exercises.kinds.fault.scenario import FaultScenario, Planted
from exercises.kinds.fault.steps import working
from exercises.slips.catalogue import Slip

#: Sizes that plainly show (m, degrees), with either sign.
SIZES = {
    "pivot": (0.8e-3, 1.5e-3),
    "zero": (1.5, 3.0),
    "board": (3.0, 5.5),
    "box": (2e-3, 4e-3),
    "centre": (2e-3, 4e-3),
}
SLIGHT = {"zero": (0.5, 1.0), "board": (1.0, 2.0)}  # sizes that may not be told apart
FIELD = {"pivot": "pivot_x", "zero": "zero_error", "board": "arm_off", "box": "box_shift", "centre": "centre_shift"}
#: What is planted, one of these with equal chance: none in 2 of 17, undecided in 1 of 17.
PLANTED = (*(2 * ("pivot", "zero", "board", "box", "centre", "misread", "distance")), "none", "none", "undecided")
COUNTS = (4, 5)  # distances, where the laboratory leaves it open
NEAREST_AT, FARTHEST_AT = 56.5, 33.5  # degrees, between which distances are chosen
LOWEST, HIGHEST = 25.0, 65.0  # degrees, any one reading that is not misread
CLOSEST = 0.002  # m between neighbouring distances, one of which is misread
APART = 0.006  # m from one distance to the next, at least: one that is ½ cm off must not come past its neighbour
LEAST_HALF = 0.15  # degrees, half the largest difference at the nearest distance: from less no shift is worked


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> FaultScenario:
    """The numbers of a code of edition 1: what is planted first, then attempts until the readings show it.

    slips  that can be told apart on the sheet
    ArithmeticError if there are none, which no code leads to.
    """
    draw = Draw(code)
    shown = draw.pick(PLANTED)
    return first_good(draw, slips, lambda draw, slips: _attempt(draw, code, shown, slips))


def _attempt(draw: Draw, code: SheetCode, shown: str, slips: tuple[Slip, ...]) -> FaultScenario | None:
    count = draw_count(draw, code.setting, COUNTS)
    placed = draw_magnet(draw, code.setting, END_ON, count=count, apart=APART)
    if placed is None:
        return None
    step = code.setting.scale_step or draw.pick((1.0, 0.5))
    ends = stretch_of(END_ON, placed, (NEAREST_AT, FARTHEST_AT))
    if ends is None:
        return None
    planted = _plant(draw, shown)
    faults = replace(Faults(), **{FIELD[planted.fault]: planted.size}) if planted.fault in FIELD else Faults()
    rows = _rows(draw, placed, ends, count, faults, step, code.setting.grid_mm)
    if rows is None:
        return None
    if planted.fault == "misread":
        planted, rows = _misread_reading(draw, planted, rows)
    if planted.fault == "distance":
        planted, rows = _misread_distance(draw, planted, rows)
        if any(b.d - a.d < CLOSEST for a, b in zip(rows, rows[1:])):
            return None
    scenario = FaultScenario(code, *placed, BOX, faults, step, ARM_LENGTH, rows, planted)
    return scenario if _shows(scenario) and _worth_working(scenario, slips) else None


def _plant(draw: Draw, shown: str) -> Planted:
    """What is to be shown, as a fault of the instrument with a size; of readings and distances without one yet."""
    fault = draw.pick(("zero", "board")) if shown == "undecided" else shown
    if fault not in FIELD:
        return Planted(shown, fault)
    limits = SLIGHT[fault] if shown == "undecided" else SIZES[fault]
    grid = 0.1 if fault in ("zero", "board") else 1e-4
    size = round(draw.between(*limits) / grid) * grid
    return Planted(shown, fault, size if draw.below(2) else -size)


type Rows = tuple[Row, ...]


def _rows(
    draw: Draw, placed: PlacedMagnet, ends: tuple[float, float], count: int, faults: Faults, step: float, grid_mm: int
) -> Rows | None:
    """So many distances, one in each part of the stretch, with their readings; None if one of these is out of range."""
    near, far = ends
    part = (far - near) / count
    distances = [to_grid(near + part * (i + draw.between(0.2, 0.8)), 1000 // grid_mm) for i in range(count)]
    if len(set(distances)) < count:
        return None
    magnet = Magnet(placed.bar.moment, placed.bar.magnetic_length / 2)
    rows = []
    for d in distances:
        errors = tuple([draw.normal(READING_ERROR) for _ in range(8)])
        readings = eight_readings(magnet, placed.B_H, d, BOX, faults, errors, step)
        if min(readings) < LOWEST or max(readings) > HIGHEST:
            return None
        rows.append(Row(d, readings))
    return tuple(rows)


def _misread_reading(draw: Draw, planted: Planted, rows: Rows) -> tuple[Planted, Rows]:
    """One reading written down 5° or 10° too large or too small."""
    row, at, size = draw.below(len(rows)), draw.below(8), draw.pick((-10.0, -5.0, 5.0, 10.0))
    readings = tuple(r + size if i == at else r for i, r in enumerate(rows[row].readings))
    changed = (*rows[:row], Row(rows[row].d, readings), *rows[row + 1 :])
    return replace(planted, size=size, row=row, reading=at), changed


def _misread_distance(draw: Draw, planted: Planted, rows: Rows) -> tuple[Planted, Rows]:
    """One distance written down ½ cm or 1 cm too large or too small."""
    row, size = draw.below(len(rows)), draw.pick((-0.010, -0.005, 0.005, 0.010))
    changed = (*rows[:row], Row(to_grid(rows[row].d + size, 1000), rows[row].readings), *rows[row + 1 :])
    return replace(planted, size=size, row=row), changed


def _shows(scenario: FaultScenario) -> bool:
    """Whether the fit names what was planted, and leaves no more than chance."""
    found, planted, (fit, second, *_) = scenario.found, scenario.planted, scenario.fits
    if found != planted.shown:
        return False
    if planted.row is not None and (fit.row != planted.row or fit.size * planted.size < 0):
        return False
    if found == "undecided" and {fit.fault, second.fault} != {"zero", "board"}:
        return False
    freedom = 8 * len(scenario.rows) - 2
    return fit.left <= variance(scenario.scale_step) * (freedom + 3 * math.sqrt(2 * freedom))


def _worth_working(scenario: FaultScenario, slips: tuple[Slip, ...]) -> bool:
    """Whether there is a shift to be worked, a misread value stands out, and the slips can be told apart."""
    planted, work = scenario.planted, working(scenario)
    if work.value("half") < LEAST_HALF:
        return False
    if planted.row is not None and planted.reading is not None:
        fit = scenario.fits[0]
        if not fit.reading == stray(scenario.rows[planted.row].readings) == planted.reading:
            return False
    return tells_apart(work, slips, [s.id for s in work.steps if not s.choices])

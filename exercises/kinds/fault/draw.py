"""Numbers for a sheet with a fault to be found: one fault planted, read by an eye, and kept if the fit finds it.

A known share has no fault, and a smaller one a fault that the readings do not
tell from another: a slight one of those that setting up leaves.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from exercises.bench.fault_fit import OF_SETTING, variance
from exercises.bench.instrument import ALONE, PATTERNS, PERFECT, Box, Magnet, eight_readings, to_scale
from exercises.codes.scenario import ARM_LENGTH, READING_ERROR, Draw, Row, first_good, to_grid
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import SLIP_SLACK, tells_apart
from exercises.kinds.deflection.draw import PlacedMagnet, draw_count, draw_magnet, stretch_of
from exercises.kinds.deflection.stretch import END_ON
from exercises.kinds.fault.formulas import TO_TWO_DECIMALS, halves, stray
from exercises.kinds.fault.parts import shift_sines, shift_slope
from exercises.kinds.fault.scenario import FaultScenario, Planted
from exercises.kinds.fault.steps import working
from exercises.slips.catalogue import Slip
from exercises.working.arithmetic import Exact
from exercises.working.rounded import last_place

#: A shorter needle than for most sheets: near a short bar a longer one would itself be taken for a fault.
BOX = Box(radius=0.040, needle=0.004)
#: Sizes that plainly show (m, degrees), with either sign.
SIZES = {
    "pivot": (0.8e-3, 1.5e-3),
    "zero": (1.5, 3.0),
    "first-turn": (3.0, 5.5),
    "second-turn": (3.0, 5.5),
    "box": (2e-3, 4e-3),
    "centre": (2e-3, 4e-3),
}
#: Sizes that may not be told apart, in standard errors of a zero error; and the least of them, degrees.
SLIGHT = {"zero": (4.0, 10.0), "first-turn": (8.0, 20.0), "second-turn": (8.0, 20.0)}
LEAST_SLIGHT = {"zero": 0.2, "first-turn": 0.4, "second-turn": 0.4}
#: What is to be shown, one of these with equal chance: none in 2 of 19, undecided in 1 of 19.
SHOWN = (*(2 * (*SIZES, "misread", "distance")), "none", "none", "undecided")
#: What may show as one and the same fault, each with equal chance.
SHOWN_BY = {"first-turn": ("first-turn", "pointer"), "undecided": OF_SETTING}
COUNTS = (4, 5)  # distances, where the laboratory leaves it open
NEAREST_AT, FARTHEST_AT = 56.5, 33.5  # degrees, between which distances are chosen
LOWEST, HIGHEST = 25.0, 65.0  # degrees, any one reading that is not misread
CLOSEST = 0.002  # m between neighbouring distances, one of which is misread
APART = 0.006  # m from one distance to the next, at least: one that is ½ cm off must not come past its neighbour
LOOKS = 8  # times the pointer is looked at again where the readings will not do; the errors are new each time
LEAST_HALF = 0.15  # degrees, half the largest difference at the nearest distance: from less no shift is worked


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> FaultScenario:
    """The numbers of a code of edition 1: what is planted first, then attempts until the readings show it.

    slips  that can be told apart on the sheet
    ArithmeticError if there are none, which no code leads to.
    """
    draw = Draw(code)
    shown = draw.pick(SHOWN)
    return first_good(draw, slips, lambda draw, slips: _attempt(draw, code, shown, slips))


def _attempt(draw: Draw, code: SheetCode, shown: str, slips: tuple[Slip, ...]) -> FaultScenario | None:
    count = draw_count(draw, code.setting, COUNTS)
    placed = draw_magnet(draw, code.setting, END_ON, count=count, apart=APART)
    if placed is None:
        return None
    step = code.setting.scale_step or draw.pick((1.0, 0.5))
    distances = _distances(draw, placed, count, code.setting.grid_mm)
    if distances is None:
        return None
    planted = _plant(draw, shown, distances, math.sqrt(variance(step) / (8 * count)))
    if planted is None:
        return None
    faults = ALONE[planted.fault](planted.size) if planted.fault in ALONE else PERFECT
    empty = FaultScenario(code, *placed, BOX, faults, step, ARM_LENGTH, (), planted)
    rows = _rows(draw, empty, distances, bool(slips))
    if rows is None:
        return None
    scenario = replace(empty, rows=rows)
    return scenario if _shows(scenario) and _told(scenario, slips) else None


def _distances(draw: Draw, placed: PlacedMagnet, count: int, grid_mm: int) -> list[float] | None:
    """So many distances in m, multiples of the grid, one in each part of the stretch; None if it has too few."""
    inner, outer = stretch_of(END_ON, placed, (NEAREST_AT, FARTHEST_AT)), stretch_of(END_ON, placed)
    if inner is None or outer is None:
        return None
    (first, last), (lowest, highest) = _multiples(inner, grid_mm), _multiples(outer, grid_mm)
    while last - first + 1 < count:  # a coarse grid
        if highest - last >= first - lowest:
            last += 1
        else:
            first -= 1
    if first < lowest or last > highest:
        return None
    chosen: list[int] = []
    for i in range(count):
        wished = first + math.floor((last - first + 1) / count * (i + draw.between(0.2, 0.8)))
        after = chosen[-1] + 1 if chosen else first
        chosen.append(min(max(wished, after), last - (count - 1 - i)))
    return [n * grid_mm / 1000 for n in chosen]


def _multiples(ends: tuple[float, float], grid_mm: int) -> tuple[int, int]:
    """The first and the last multiple of the grid between two distances (m)."""
    near, far = ends
    return math.ceil(near * 1000 / grid_mm), math.floor(far * 1000 / grid_mm)


def _plant(draw: Draw, shown: str, distances: Sequence[float], error: float) -> Planted | None:
    """What is to be shown: the fault of the instrument, of a reading or of a distance, with a size; None if there is
    no room for it.

    distances  in m, as they truly are
    error      standard error of a zero error that is found from all readings, degrees
    """
    if shown == "misread":
        row, at = draw.below(len(distances)), draw.below(8)
        return Planted(shown, shown, draw.pick((-10.0, -5.0, 5.0, 10.0)), row, at)
    if shown == "distance":
        row = draw.below(len(distances))
        sizes = [size for size in (-0.010, -0.005, 0.005, 0.010) if _in_order(_written(distances, row, size))]
        return Planted(shown, shown, draw.pick(sizes), row) if sizes else None
    fault = draw.pick(SHOWN_BY[shown]) if shown in SHOWN_BY else shown
    if fault not in ALONE:
        return Planted(shown, fault)
    if shown == "undecided":
        low, high = (max(times * error, LEAST_SLIGHT[fault]) for times in SLIGHT[fault])
    else:
        low, high = SIZES[shown]
    grid = 0.1 if low > 0.1 else 1e-4  # degrees, or m
    size = round(draw.between(low, high) / grid) * grid
    return Planted(shown, fault, size if draw.below(2) else -size)


def _written(distances: Sequence[float], row: int | None, size: float) -> list[float]:
    """The distances (m) as they are written down, one of them `size` too large."""
    return [to_grid(d + size, 1000) if i == row else d for i, d in enumerate(distances)]


def _in_order(distances: Sequence[float]) -> bool:
    return all(b - a >= CLOSEST for a, b in zip(distances, distances[1:]))


def _rows(draw: Draw, empty: FaultScenario, distances: Sequence[float], told: bool) -> tuple[Row, ...] | None:
    """The readings at these distances (m), in which what is planted may show; None if there are none.

    empty  the sheet without them
    told   whether the slips must be told apart
    """
    planted, l, rows = empty.planted, empty.two_l / 2, []
    written = distances if planted.fault != "distance" else _written(distances, planted.row, planted.size)
    for i, (d, as_written) in enumerate(zip(distances, written)):
        seen = (Row(as_written, readings) for readings in _looks(draw, empty, i, d))
        # what is to be worked hangs on the nearest distance alone: it is asked before the others are read
        row = next((row for row in seen if i > 0 or _to_be_worked(row, l, told)), None)
        if row is None:
            return None
        rows.append(row)
    return tuple(rows)


def _looks(draw: Draw, empty: FaultScenario, at: int, d: float) -> Iterator[tuple[float, ...]]:
    """The eight readings at d (m), the distance numbered `at`, looked at again as often as is asked for; none outside
    the limits, and none in which a misread one does not stand out."""
    planted, bar = empty.planted, empty.bar
    places = eight_readings(Magnet(bar.moment, bar.magnetic_length / 2), empty.B_H, d, BOX, empty.faults)
    for _ in range(LOOKS):
        readings = tuple([to_scale(p + draw.normal(READING_ERROR), empty.scale_step) for p in places])
        if min(readings) < LOWEST or max(readings) > HIGHEST:
            continue
        if planted.reading is not None and planted.row == at:
            readings = tuple([r + planted.size if i == planted.reading else r for i, r in enumerate(readings)])
            if stray(readings) != planted.reading:
                continue
        yield readings


def _to_be_worked(nearest: Row, l: float, told: bool) -> bool:
    """Whether there is a shift to be worked; asked before anything is fitted.

    l     half the magnetic length in m, as the sheet takes it
    told  whether it must be told from what a magnet of no length would give: from a half difference, to two decimals,
          right working reaches all that `TO_TWO_DECIMALS` leaves open
    """
    sums = [halves(pattern, nearest.readings) for pattern in PATTERNS]
    half = max([abs(one - two) for one, two in sums]) / 8
    if half < LEAST_HALF:
        return False
    if not told:
        return True
    per_slope: float = math.radians(half) / shift_sines(Exact, nearest.mean)
    of_a_point = per_slope * nearest.d / 3
    reached: float = per_slope * shift_slope(Exact, nearest.d, l) * (1 + 1.5 * TO_TWO_DECIMALS / half)
    return of_a_point * (1 - SLIP_SLACK) - last_place(of_a_point) > reached


def _shows(scenario: FaultScenario) -> bool:
    """Whether the fit names what was planted, and leaves no more than chance."""
    found, planted, (fit, second, *_) = scenario.found, scenario.planted, scenario.fits
    if found != planted.shown:
        return False
    there = (fit.row, fit.reading) == (planted.row, planted.reading)
    if planted.row is not None and (not there or fit.size * planted.size < 0):
        return False
    if found == "undecided" and not {fit.fault, second.fault} <= {*OF_SETTING}:
        return False
    freedom = 8 * len(scenario.rows) - 2
    return fit.left <= variance(scenario.scale_step) * (freedom + 3 * math.sqrt(2 * freedom))


def _told(scenario: FaultScenario, slips: tuple[Slip, ...]) -> bool:
    """Whether the slips can be told apart."""
    work = working(scenario)
    return tells_apart(work, slips, [s.id for s in work.steps if not s.choices])

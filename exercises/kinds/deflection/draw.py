"""Numbers for a determination by deflection, drawn within physical limits.

Magnet, place and faults first; then distances one by one, each kept only if its
eight readings lie within 30°–60° and its slips can be told apart.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from exercises.bench import uncertainty
from exercises.bench.field import end_on, field_from_deflection
from exercises.bench.instrument import Box, Magnet, eight_readings
from exercises.codes.scenario import (
    ARM_LENGTH,
    READING_ERROR,
    Bar,
    Draw,
    Row,
    draw_bar,
    draw_faults,
    draw_length_mm,
    draw_place,
    to_grid,
)
from exercises.codes.sheet_code import Setting, SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.deflection.steps import MAGNETIC_SHARE, working_of
from exercises.slips.catalogue import Slip
from exercises.working.steps import Plan

LOWEST, HIGHEST = 30.0, 60.0  # degrees, the deflections worth taking
CLOSEST = 0.003  # m between neighbouring distances
CLEARANCE = 0.010  # m between the magnet's near end and the box
BOX = Box(radius=0.040, needle=0.006)
ROUNDS = 2  # times each distance may be tried; its reading errors are new each time
ATTEMPTS = 5000


@dataclass(frozen=True)
class Position:
    """End-on or broadside-on, as the draw needs it.

    moment_from   (B, d, l) -> m          distance_for  (m, B, l) -> d
    shares        range of l/d at 45°: large enough for the l² term to be seen
    reach         how far a magnet of length L spreads along the arm from its middle, as a share of L
    alike         (d, L, tan θ) -> whether two slips come so near each other there that it need not be read
    """

    moment_from: Callable[[float, float, float], float]
    distance_for: Callable[[float, float, float], float]
    shares: tuple[float, float]
    reach: float
    tan_b: bool = False
    alike: Callable[[float, float, float], bool] | None = None


def draw_scenario(
    code: SheetCode, position: Position, plan_for: Callable[[int], Plan], parts, slips: tuple[Slip, ...]
) -> DeflectionScenario:
    """The numbers of a code: attempts from one stream until one is good.

    ArithmeticError if none is, which no setting that can be coded leads to.
    """
    return first_good(code, lambda draw: _attempt(draw, code, position, plan_for, parts, slips))


def first_good(code: SheetCode, attempt: Callable[[Draw], Any]):
    """The first attempt from the code's stream that is not None.  ArithmeticError if none is."""
    draw = Draw(code)
    for _ in range(ATTEMPTS):
        made = attempt(draw)
        if made is not None:
            return made
    raise ArithmeticError(f"no consistent numbers were found for code {code}; use another code")


def draw_magnet(draw: Draw, setting: Setting, position: Position, make_bar=draw_bar):
    """(place, year, month, B_H, bar): a bar whose moment gives 45° at a distance in the position's shares; or None."""
    place, year, month, B_H = draw_place(draw, setting)
    length_mm = draw_length_mm(draw, setting)
    magnetic = to_grid(length_mm * 1e-3 * draw.between(0.82, 0.85), 10000)
    d45 = length_mm * 1e-3 * MAGNETIC_SHARE / 2 / draw.between(*position.shares)
    moment = float(f"{position.moment_from(B_H, d45, magnetic / 2):.2e}")
    bar = make_bar(draw, length_mm, magnetic, moment)
    return None if bar is None else (place, year, month, B_H, bar)


def stretch(position: Position, bar: Bar, B_H: float) -> tuple[float, float] | None:
    """The nearest and farthest distance (m) worth using, or None if the box or the arm's end is in the way."""
    near, far = (
        position.distance_for(bar.moment, field_from_deflection(angle, B_H), bar.magnetic_length / 2)
        for angle in (58.5, 31.5)
    )
    if near - position.reach * bar.length < BOX.radius + CLEARANCE:
        return None
    if far + position.reach * bar.length > ARM_LENGTH:
        return None
    return near, far


def _attempt(draw, code, position, plan_for, parts, slips) -> DeflectionScenario | None:
    setting = code.setting
    magnet = draw_magnet(draw, setting, position)
    if magnet is None:
        return None
    place, year, month, B_H, bar = magnet
    step = setting.scale_step or draw.pick((1.0, 0.5))
    faults = draw_faults(draw)
    count = setting.distances or draw.pick((4, 5, 6))
    ends = stretch(position, bar, B_H)
    if ends is None:
        return None
    near, far = ends

    def with_rows(rows: tuple[Row, ...]) -> DeflectionScenario:
        return DeflectionScenario(code, place, year, month, B_H, bar, BOX, faults, step, ARM_LENGTH, rows)

    def told(rows: tuple[Row, ...], step_ids: tuple[str, ...]) -> bool:
        return tells_apart(working_of(with_rows(rows), plan_for(len(rows)), parts), slips, step_ids)

    rows: list[Row] = []
    for i in range(count):
        low, high = near + (far - near) * i / count, near + (far - near) * (i + 1) / count
        grid = range(math.ceil(low * 1000), math.floor(high * 1000) + 1)
        for mm in (mm for _ in range(ROUNDS) for mm in draw.shuffled(grid)):
            d = mm / 1000
            if rows and d - rows[-1].d < CLOSEST:
                continue
            row = read_row(draw, position, bar, B_H, d, faults, step)
            if row is None or not told((row,), ("moment-1", "tan-1", "bracket-1")):
                continue
            if i + 1 < count:
                rows.append(row)
                break
            scenario = with_rows((*rows, row))
            if not _near_truth(scenario, position, plan_for, parts):
                return None
            if told(scenario.rows, ("mean-moment", "pole")):
                return scenario
        else:
            return None
    return None


def read_row(draw, position, bar, B_H, d, faults, step, box=BOX) -> Row | None:
    """Eight readings at d, or None if any of them lies outside the limits, or d is of no use."""
    errors = tuple([draw.normal(READING_ERROR) for _ in range(8)])
    magnet = Magnet(bar.moment, bar.magnetic_length / 2)
    if position.alike and position.alike(d, bar.length, end_on(magnet.m, d, magnet.l) / B_H):
        return None
    readings = eight_readings(magnet, B_H, d, box, faults, errors, step, position.tan_b)
    return Row(d, readings) if min(readings) >= LOWEST and max(readings) <= HIGHEST else None


def _near_truth(scenario: DeflectionScenario, position: Position, plan_for, parts) -> bool:
    """Whether the answer lies within its own uncertainty (twice the standard one) of the true moment."""
    found = working_of(scenario, plan_for(len(scenario.rows)), parts).value("mean-moment")
    return abs(found - scenario.bar.moment) <= 2 * relative_uncertainty(scenario, position.tan_b) * found


def relative_uncertainty(scenario: DeflectionScenario, tan_b: bool = False) -> float:
    """Relative standard uncertainty of the mean moment of a scenario, end-on or with tan_b broadside-on."""
    l = MAGNETIC_SHARE * scenario.bar.length / 2
    rows = [(row.mean, row.d) for row in scenario.rows]
    return uncertainty.mean_moment(rows, l, scenario.scale_step, scenario.box.needle, tan_b)

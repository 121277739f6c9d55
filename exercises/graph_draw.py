"""Numbers for the graph method, drawn within physical limits: five or six distances, each read eight times."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from exercises import uncertainty
from exercises.deflection import MAGNETIC_SHARE
from exercises.deflection_draw import CLEARANCE, CLOSEST, HIGHEST, LOWEST
from exercises.diagnosis import tells_apart
from exercises.field import distance_end_on, field_from_deflection, moment_end_on
from exercises.graph_lines import Allowed, allowed
from exercises.instrument import Box, Faults, Magnet, eight_readings
from exercises.local_field import Place
from exercises.scenario import (
    ARM_LENGTH, MONTHS, READING_ERROR,
    Bar, Draw, Row, draw_bar, draw_faults, draw_length_mm, draw_place, to_grid,
)  # fmt: skip
from exercises.sheet_code import SheetCode
from exercises.working import Working

#: A shorter needle than for the other sheets: its length bends the second line (uncertainty.needle_term).
BOX = Box(radius=0.040, needle=0.004)
SHARES = (0.185, 0.225)  # l/d at 45°: the larger, the better l comes out of the intercept
LOOSEST = Allowed(slope_a=0.035, slope_b=0.045, intercept=0.55)  # the intercept as a share of itself
ROUNDS = 2
ATTEMPTS = 5000


@dataclass(frozen=True)
class Plotted:
    """One sheet: the distances and their mean deflections, and the truth behind them.  B_H in T as given."""

    code: SheetCode
    place: Place
    year: int
    month: int
    B_H: float
    bar: Bar
    box: Box
    faults: Faults
    scale_step: float
    rows: tuple[Row, ...]

    @property
    def when(self) -> str:
        return f"{MONTHS[self.month - 1]} {self.year}"

    @property
    def ds(self) -> tuple[float, ...]:
        return tuple(row.d for row in self.rows)

    @property
    def thetas(self) -> tuple[float, ...]:
        """The mean deflections in degrees as the sheet gives them, to 0.1°."""
        return tuple(math.floor(row.mean * 10 + 0.5) / 10 for row in self.rows)

    @property
    def half_length(self) -> float:
        """l as the first line takes it, from 5/6 of the measured length."""
        return MAGNETIC_SHARE * self.bar.length / 2

    @property
    def allowed(self) -> Allowed | None:
        """How far what is read may lie from the best value; None before there are points enough."""
        return allowed(self.ds, self.thetas, self.half_length) if len(self.rows) > 2 else None


def draw_plotted(code: SheetCode, working: Callable, slips) -> Plotted:
    """The numbers of a code: attempts from one stream until one is good.

    ArithmeticError if none is, which no setting that can be coded leads to.
    """
    draw = Draw(code)
    for _ in range(ATTEMPTS):
        plotted = _attempt(draw, code, working, slips)
        if plotted is not None:
            return plotted
    raise ArithmeticError(f"no consistent numbers were found for code {code}; use another code")


def _attempt(draw: Draw, code: SheetCode, working, slips) -> Plotted | None:
    place, year, month, B_H = draw_place(draw, code.setting)
    length_mm = draw_length_mm(draw, code.setting)
    magnetic = to_grid(length_mm * 1e-3 * draw.between(0.82, 0.85), 10000)
    d45 = length_mm * 1e-3 * MAGNETIC_SHARE / 2 / draw.between(*SHARES)
    moment = float(f"{moment_end_on(B_H, d45, magnetic / 2):.2e}")
    bar = draw_bar(draw, length_mm, magnetic, moment)
    if bar is None:
        return None
    near, far = (distance_end_on(moment, field_from_deflection(a, B_H), magnetic / 2) for a in (58.5, 31.5))
    if near - bar.length / 2 < BOX.radius + CLEARANCE or far + bar.length / 2 > ARM_LENGTH:
        return None
    faults, step = draw_faults(draw), code.setting.scale_step or draw.pick((1.0, 0.5))
    count = code.setting.distances or draw.pick((5, 6))

    def with_rows(rows) -> Plotted:
        return Plotted(code, place, year, month, B_H, bar, BOX, faults, step, tuple(rows))

    rows: list[Row] = []
    for i in range(count):
        low, high = near + (far - near) * i / count, near + (far - near) * (i + 1) / count
        grid = range(math.ceil(low * 1000), math.floor(high * 1000) + 1)
        for mm in (mm for _ in range(ROUNDS) for mm in draw.shuffled(grid)):
            if rows and mm / 1000 - rows[-1].d < CLOSEST:
                continue
            row = _read(draw, bar, B_H, mm / 1000, faults, step)
            if row and tells_apart(working(with_rows([row])), slips, ("tan-1", "x-1", "root-1")):
                rows.append(row)
                break
        else:
            return None
    plotted = with_rows(rows)
    return plotted if _good(plotted, working(plotted), slips) else None


def _read(draw: Draw, bar: Bar, B_H: float, d: float, faults: Faults, step: float) -> Row | None:
    errors = tuple(draw.normal(READING_ERROR) for _ in range(8))
    readings = eight_readings(Magnet(bar.moment, bar.magnetic_length / 2), B_H, d, BOX, faults, errors, step)
    return Row(d, readings) if LOWEST <= min(readings) and max(readings) <= HIGHEST else None


def _good(plotted: Plotted, worked: Working, slips) -> bool:
    """Whether the lines are straight enough, agree with the truth, and the slips on them can be told apart."""
    allow, right = plotted.allowed, worked.all_values()
    if allow.slope_a > LOOSEST.slope_a or allow.slope_b > LOOSEST.slope_b:
        return False
    if not 0 < allow.intercept < LOOSEST.intercept * right["intercept"]:
        return False
    bar = plotted.bar
    u = uncertainty.mean_moment(
        [(row.mean, row.d) for row in plotted.rows], plotted.half_length, plotted.scale_step, plotted.box.needle
    )
    if abs(right["moment-a"] - bar.moment) > 2 * u * bar.moment:
        return False
    # the second line by what a hand can read off it: its slope is squared in the moment
    if abs(right["moment-b"] / bar.moment - 1) > 2 * allow.slope_b:
        return False
    if abs(right["intercept"] - (bar.magnetic_length / 2) ** 2) > allow.intercept:
        return False
    return tells_apart(worked, slips, ("slope-a", "moment-a", "slope-b", "moment-b", "intercept", "found-2l"))

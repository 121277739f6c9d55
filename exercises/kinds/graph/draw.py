"""Numbers for the graph method, drawn within physical limits: five or six distances, each read eight times."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from exercises.bench import uncertainty
from exercises.bench.field import distance_end_on, moment_end_on
from exercises.bench.instrument import Box, Faults
from exercises.codes.scenario import Bar, Draw, Row, Scenario, draw_faults, first_good
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.draw import CLOSEST, Position, draw_magnet, read_row, stretch
from exercises.kinds.deflection.steps import MAGNETIC_SHARE
from exercises.kinds.graph.lines import Allowed, allowed
from exercises.working.steps import Working

#: A shorter needle than for the other sheets: its length bends the second line (uncertainty.needle_term).
BOX = Box(radius=0.040, needle=0.004)
#: l/d at 45°: the larger, the better l comes out of the intercept.
POSITION = Position(moment_end_on, distance_end_on, shares=(0.185, 0.225), reach=0.5)
LOOSEST = Allowed(slope_a=0.035, slope_b=0.045, intercept=0.55)  # the intercept as a share of itself
ROUNDS = 2


@dataclass(frozen=True)
class Plotted(Scenario):
    """One sheet: the distances and their mean deflections, and the truth behind them.  B_H in T as given."""

    bar: Bar
    box: Box
    faults: Faults
    scale_step: float
    rows: tuple[Row, ...]

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
    return first_good(Draw(code), lambda draw: _attempt(draw, code, working, slips))


def _attempt(draw: Draw, code: SheetCode, working, slips) -> Plotted | None:
    magnet = draw_magnet(draw, code.setting, POSITION)
    if magnet is None:
        return None
    place, year, month, B_H, bar = magnet
    ends = stretch(POSITION, bar, B_H)
    if ends is None:
        return None
    near, far = ends
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
            row = read_row(draw, POSITION, bar, B_H, mm / 1000, faults, step, BOX)
            if row and tells_apart(working(with_rows([row])), slips, ("tan-1", "x-1", "root-1")):
                rows.append(row)
                break
        else:
            return None
    plotted = with_rows(rows)
    return plotted if _good(plotted, working(plotted), slips) else None


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

"""Numbers for the graph method, drawn within physical limits: five or six distances, each read eight times."""

from dataclasses import replace

from exercises.bench import uncertainty
from exercises.bench.field import distance_end_on, end_on, moment_end_on
from exercises.bench.instrument import Box
from exercises.codes.scenario import Draw, draw_faults, first_good
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.draw import distances_to_try, draw_count, draw_magnet, rows_at, stretch_of
from exercises.kinds.deflection.stretch import CLOSEST, Position
from exercises.kinds.graph.lines import Allowed
from exercises.kinds.graph.scenario import Plotted, working
from exercises.slips.catalogue import Slip
from exercises.working.steps import Working

#: A shorter needle than for the other sheets: its length bends the second line (uncertainty.needle_term).
BOX = Box(radius=0.040, needle=0.004)
#: l/d at 45°: the larger, the better l comes out of the intercept.
POSITION = Position(end_on, moment_end_on, distance_end_on, shares=(0.185, 0.225), reach=0.5)
LOOSEST = Allowed(slope_a=0.035, slope_b=0.045, intercept=0.55)  # the intercept as a share of itself
SHOWN = 0.12  # least l/d at 45°: from farther off a line by hand says too little of l
COUNTS = (5, 6)  # distances, where the laboratory leaves it open


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> Plotted:
    """The numbers of a code of edition 1: attempts from one stream until one is good.

    ArithmeticError if none is, which no setting that can be coded leads to.
    """
    return first_good(Draw(code), slips, lambda draw, slips: _attempt(draw, code, slips))


def _attempt(draw: Draw, code: SheetCode, slips: tuple[Slip, ...]) -> Plotted | None:
    setting = code.setting
    count = draw_count(draw, setting, COUNTS)
    magnet = draw_magnet(draw, setting, POSITION, count=count)
    if magnet is None:
        return None
    ends = stretch_of(POSITION, magnet)
    if ends is None:
        return None
    faults, step = draw_faults(draw), setting.scale_step or draw.pick((1.0, 0.5))
    plotted = Plotted(code, *magnet, BOX, faults, step, ())
    for part in range(count):
        nearest = plotted.rows[-1].d + CLOSEST if plotted.rows else 0.0
        rows = (
            row
            for d in distances_to_try(draw, ends, part, count, setting.grid_mm)
            if d >= nearest
            for row in rows_at(draw, POSITION, magnet, d, faults, step, plotted.half_length, BOX)
        )
        told = (r for r in rows if _told(replace(plotted, rows=(r,)), slips, ("tan-1", "x-1", "root-1")))
        row = next(told, None)
        if row is None:
            return None
        plotted = replace(plotted, rows=(*plotted.rows, row))
    return plotted if _good(plotted, working(plotted), slips) else None


def _good(plotted: Plotted, worked: Working, slips: tuple[Slip, ...]) -> bool:
    """Whether the lines are straight enough, agree with the truth, and the slips on them can be told apart."""
    allow, right = plotted.allowed, worked.all_values()
    if allow is None or allow.slope_a > LOOSEST.slope_a or allow.slope_b > LOOSEST.slope_b:
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
    ids = ("slope-a", "moment-a", "slope-b", "moment-b", "intercept", "found-2l")
    return tells_apart(worked, slips, ids)


def _told(plotted: Plotted, slips: tuple[Slip, ...], step_ids: tuple[str, ...]) -> bool:
    return tells_apart(working(plotted), slips, step_ids)

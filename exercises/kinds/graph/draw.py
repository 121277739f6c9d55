"""Numbers for the graph method, drawn within physical limits: five or six distances, each read eight times."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from exercises.bench import uncertainty
from exercises.bench.field import distance_end_on, end_on, moment_end_on
from exercises.bench.instrument import Box
from exercises.bench.least_squares import line
from exercises.codes.scenario import Draw, Row, draw_faults, first_good
from exercises.codes.sheet_code import Setting, SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.draw import PlacedMagnet, distances_to_try, draw_count, draw_magnet, rows_at, stretch_of
from exercises.kinds.deflection.stretch import CLOSEST, Position
from exercises.kinds.graph.lines import Allowed, carried_to_zero, root_of
from exercises.kinds.graph.scenario import Plotted, working
from exercises.slips.catalogue import Slip

#: A shorter needle than for the other sheets: its length bends the second line (uncertainty.needle_term).
BOX = Box(radius=0.040, needle=0.004)
#: l/d at 45°: the larger, the better l comes out of the intercept.
POSITION = Position(end_on, moment_end_on, distance_end_on, shares=(0.185, 0.225), reach=0.5)
LOOSEST = Allowed(slope_a=0.035, slope_b=0.045, intercept=0.55)  # the intercept as a share of itself
SHOWN = 0.13  # least l/d at 45°: from farther off a line by hand says so little of l that hardly any numbers are good
WELL = 0.4  # share of l² by which a hand may miss it where it is read well
MAGNETS = 6  # that are drawn until l² can be read well; the best of them is taken
COUNTS = (5, 6)  # distances, where the laboratory leaves it open


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> Plotted:
    """The numbers of a code of edition 1: attempts from one stream until one is good.

    ArithmeticError if none is, which no setting that can be coded leads to.
    """
    return first_good(Draw(code), slips, lambda draw, slips: _attempt(draw, code, slips))


def _attempt(draw: Draw, code: SheetCode, slips: tuple[Slip, ...]) -> Plotted | None:
    setting = code.setting
    drawn = _magnet(draw, setting)
    if drawn is None:
        return None
    count, magnet, ends = drawn
    faults, step = draw_faults(draw), setting.scale_step or draw.pick((1.0, 0.5))
    empty = Plotted(code, *magnet, BOX, faults, step, ())
    parts = [
        _told_rows(draw, magnet, empty, distances_to_try(draw, ends, part, count, setting.grid_mm), slips)
        for part in range(count)
    ]
    return next((plotted for plotted in _sheets(empty, parts) if _good(plotted, slips)), None)


def _magnet(draw: Draw, setting: Setting) -> tuple[int, PlacedMagnet, tuple[float, float]] | None:
    """How many distances, a magnet, and its stretch (m): the first that lets l² be read well, or the best of a few."""
    best, least = None, math.inf
    for _ in range(MAGNETS):
        count = draw_count(draw, setting, COUNTS)
        magnet = draw_magnet(draw, setting, POSITION, count=count)
        ends = stretch_of(POSITION, magnet) if magnet else None
        if magnet is None or ends is None:
            continue
        unsure = _unsure(magnet, ends, setting.grid_mm)
        if unsure < least:
            best, least = (count, magnet, ends), unsure
        if unsure < WELL:
            break
    return best


def _unsure(magnet: PlacedMagnet, ends: tuple[float, float], grid_mm: int) -> float:
    """How far a hand may miss l², as a share of it, with points from end to end of a stretch (m)."""
    near, far = (
        math.ceil(ends[0] * 1000 / grid_mm) * grid_mm / 1000,
        math.floor(ends[1] * 1000 / grid_mm) * grid_mm / 1000,
    )
    if near >= far:
        return math.inf
    l = magnet.bar.magnetic_length / 2
    low, high = (math.sqrt(d * magnet.B_H / end_on(magnet.bar.moment, d, l)) for d in (near, far))
    return carried_to_zero(low, high, far * far) / (l * l)


def _sheets(empty: Plotted, parts: Sequence[Iterator[Row]]) -> Iterator[Plotted]:
    """A sheet with a row of each part, and then with one of its rows after the other anew: less work than all anew."""
    rows: tuple[Row, ...] = ()
    for part in parts:
        row = next((row for row in part if _in_order(*rows[-1:], row)), None)
        if row is None:
            return
        rows = (*rows, row)
    yield replace(empty, rows=rows)
    for i in (*range(len(parts)), *range(len(parts))):
        for row in parts[i]:
            if _in_order(*rows[:i], row, *rows[i + 1 :]):
                rows = (*rows[:i], row, *rows[i + 1 :])
                yield replace(empty, rows=rows)
                break


def _told_rows(
    draw: Draw, magnet: PlacedMagnet, empty: Plotted, wanted: Iterator[float], slips: tuple[Slip, ...]
) -> Iterator[Row]:
    """The rows at some distances (m) whose slips can be told apart, each read when it is asked for.

    empty  the sheet without rows
    """
    for d in wanted:
        for row in rows_at(draw, POSITION, magnet, d, empty.faults, empty.scale_step, empty.half_length, BOX):
            if tells_apart(working(replace(empty, rows=(row,))), slips, ("tan-1", "x-1", "root-1")):
                yield row


def _in_order(*rows: Row) -> bool:
    return all(b.d - a.d >= CLOSEST for a, b in zip(rows, rows[1:]))


def _good(plotted: Plotted, slips: tuple[Slip, ...]) -> bool:
    """Whether the lines are straight enough, agree with the truth, and the slips on them can be told apart."""
    allow = plotted.allowed
    if allow is None or allow.slope_a > LOOSEST.slope_a or allow.slope_b > LOOSEST.slope_b:
        return False
    found = line([root_of(d, t) for d, t in zip(plotted.ds, plotted.thetas)], [d * d for d in plotted.ds]).intercept
    if not 0 < allow.intercept < LOOSEST.intercept * found:
        return False
    worked = working(plotted)
    right = worked.all_values()
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

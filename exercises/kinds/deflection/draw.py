"""Numbers for a determination by deflection, drawn within physical limits.

Magnet, place and faults first; then distances one by one, each kept only if its
eight readings lie within 30°–60° and its slips can be told apart.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from exercises.bench import uncertainty
from exercises.bench.field import field_from_deflection
from exercises.bench.instrument import Box, Faults, Magnet, eight_places, read_off
from exercises.bench.magnets import Bar
from exercises.codes.scenario import (
    ARM_LENGTH,
    READING_ERROR,
    Draw,
    LocalField,
    Row,
    draw_faults,
    draw_field,
    draw_length_mm,
    first_good,
)
from exercises.codes.sheet_code import Setting, SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.bars import Section, draw_bar, oblong, reach, strengths_of
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.deflection.stretch import (
    BOX,
    CLOSEST,
    FARTHEST_AT,
    HIGHEST,
    LOWEST,
    NEAREST_AT,
    Position,
    fits,
    no_factors,
    range_of_45,
    stretch,
)
from exercises.slips.catalogue import Slip, told_at_ends
from exercises.working.steps import Working

LOOKS = 3  # times the pointer is looked at again where the slips cannot be told apart; the errors are new each time
#: Shares by which correct rounding carries a step of one row, and a result, of such a sheet at most; a test holds them.
WIDEST_ROW, WIDEST_RESULT = 0.035, 0.025
COUNTS = (4, 5, 6)  # distances, where the laboratory leaves it open


class PlacedMagnet(NamedTuple):
    """A magnet and the field that it is used in, in the order in which scenarios take them."""

    field: LocalField
    bar: Bar

    @property
    def B_H(self) -> float:
        """In tesla."""
        return self.field.B_H


def draw_magnet(
    draw: Draw,
    setting: Setting,
    position: Position,
    section: Section = oblong,
    breadth: float = 0.0,
    count: int = 1,
    apart: float = 0.0,
) -> PlacedMagnet | None:
    """A bar whose moment gives 45° at a distance within the position's shares, or None.

    section  how wide and thick it is;  breadth  the least width as a share of the length
    count    how many distances it must leave, multiples of the laboratory's grid
    apart    how far apart these must at least be, m
    """
    field = draw_field(draw, setting)
    length_mm = draw_length_mm(draw, setting)
    rule, length, B_H = rule_of(setting), length_mm / 1e3, field.B_H
    grid, share = max(setting.grid_mm / 1e3, apart), draw.between(0.0, 1.0)

    ends: dict[float, tuple[float, float] | None] = {}  # by l: a bar asks twice

    def moment_for(two_l: float) -> float | None:
        l = rule.two_l(length, two_l) / 2
        if l not in ends:
            strengths = min(strengths_of(rule, length_mm, breadth, draw.materials), key=lambda of: abs(of.l - l))
            nearest, farthest = reach(position, length, strengths._replace(l=l), B_H)
            ends[l] = range_of_45(position, length, l, count, grid, farthest, nearest)
        found = ends[l]
        return found and position.moment_from(B_H, found[0] + (found[1] - found[0]) * share, two_l / 2)

    bar = draw_bar(draw, length_mm, rule, moment_for, section)
    return None if bar is None else PlacedMagnet(field, bar)


def draw_count(draw: Draw, setting: Setting, counts: Sequence[int] = COUNTS) -> int:
    """How many distances a sheet has."""
    return setting.distances or draw.pick(counts)


def stretch_of(
    position: Position, placed: PlacedMagnet, angles: tuple[float, float] = (NEAREST_AT, FARTHEST_AT)
) -> tuple[float, float] | None:
    """The nearest and farthest distance (m) worth using, or None if the box or the arm's end is in the way.

    angles  the deflections there, degrees
    """
    bar = placed.bar
    near, far = stretch(position, bar.moment, placed.B_H, bar.magnetic_length / 2, angles)
    return (near, far) if fits(position, bar.length, near, far) else None


def distances_to_try(draw: Draw, ends: tuple[float, float], part: int, parts: int, grid_mm: int = 1) -> Iterator[float]:
    """Distances (m, multiples of a grid) in one of equal parts of a stretch, in an order of chance."""
    near, far = ends
    low, high = near + (far - near) * part / parts, near + (far - near) * (part + 1) / parts
    grid = range(math.ceil(low * 1000 / grid_mm), math.floor(high * 1000 / grid_mm) + 1)
    return (n * grid_mm / 1000 for n in draw.in_turn(grid))


def rows_at(
    draw: Draw,
    position: Position,
    placed: PlacedMagnet,
    d: float,
    faults: Faults,
    step: float,
    l: float,
    box: Box = BOX,
) -> Iterator[Row]:
    """The eight readings at d, looked at again as often as is asked for; none outside the limits.

    l  half the magnetic length in m as the sheet takes it
    """
    bar, B_H = placed.bar, placed.B_H
    tangent = position.field(bar.moment, d, bar.magnetic_length / 2) / B_H
    if position.hopeless(bar.moment, position.factors(d, l, bar.length, tangent)):
        return
    places = eight_places(Magnet(bar.moment, bar.magnetic_length / 2), B_H, d, box, faults, position.tan_b)
    for _ in range(LOOKS):
        readings = read_off(places, draw.normals(READING_ERROR, 8), step)
        if min(readings) < LOWEST or max(readings) > HIGHEST:
            continue
        row = Row(d, readings)
        if not position.hopeless_as_read(bar.moment, l, bar.length, d, row.mean):
            yield row


#: From a scenario, and the rows that it is tried with, to its working.
type Work = Callable[[DeflectionScenario, tuple[Row, ...]], Working]


def draw_scenario(code: SheetCode, position: Position, work: Work, slips: tuple[Slip, ...]) -> DeflectionScenario:
    """The numbers of a code: attempts from one stream until one is good.

    ArithmeticError if none is good, which no setting that can be coded leads to.
    """
    return first_good(Draw(code), slips, lambda draw, slips: _attempt(draw, code, position, work, slips))


def _attempt(
    draw: Draw, code: SheetCode, position: Position, work: Work, slips: tuple[Slip, ...]
) -> DeflectionScenario | None:
    setting = code.setting
    if not slips:  # they need not be told apart
        position = replace(position, factors=no_factors)
    count = draw_count(draw, setting)
    placed = draw_magnet(draw, setting, position, count=count)
    if placed is None:
        return None
    if placed.bar.poles_at_ends:
        slips = told_at_ends(slips)
    step = setting.scale_step or draw.pick((1.0, 0.5))
    faults = draw_faults(draw)
    ends = stretch_of(position, placed)
    if ends is None:
        return None
    l = rule_of(setting).two_l(placed.bar.length, placed.bar.magnetic_length) / 2
    rows: tuple[Row, ...] = ()

    def with_rows(rows: tuple[Row, ...]) -> DeflectionScenario:
        return DeflectionScenario(code, *placed, BOX, faults, step, ARM_LENGTH, rows)

    empty = with_rows(rows)

    def factors_at(d: float, tangent: float) -> tuple[float, ...]:
        return position.factors(d, l, placed.bar.length, tangent)

    def alike_in_the_mean(d: float, others: list[tuple[float, ...]]) -> bool:
        """Whether some slips surely cannot be told apart in the mean moment if d joins the rows with these factors."""
        m, two_l = placed.bar.moment, placed.bar.magnetic_length
        return position.hopeless(m, *others, factors_at(d, position.field(m, d, two_l / 2) / placed.B_H))

    def good_rows(part: int) -> Iterator[Row]:
        """The rows of one part of the stretch, each read when it is asked for."""
        others = [factors_at(row.d, math.tan(math.radians(row.mean))) for row in rows] if part == 0 else []
        for d in distances_to_try(draw, ends, part, count, setting.grid_mm):
            if rows and rows[0].d - d < CLOSEST or part == 0 and alike_in_the_mean(d, others):
                continue
            for row in rows_at(draw, position, placed, d, faults, step, l):
                if tells_apart(work(empty, (row,)), slips, ("moment-1", "tan-1", "bracket-1"), WIDEST_ROW):
                    yield row

    # from the far end inwards: there l shows least, so what must be given up is given up at once
    for part in range(count - 1, 0, -1):
        row = next(good_rows(part), None)
        if row is None:
            return None
        rows = (row, *rows)
    for row in good_rows(0):
        whole = with_rows((row, *rows))
        if not _near_truth(whole, position):
            return None
        if tells_apart(work(whole, whole.rows), slips, ("mean-moment", "pole"), WIDEST_RESULT):
            return whole
    return None


def _near_truth(scenario: DeflectionScenario, position: Position) -> bool:
    """Whether the answer lies within its own uncertainty (twice the standard one) of the true moment."""
    l, B_H = scenario.two_l / 2, scenario.B_H
    moments = [position.moment_from(field_from_deflection(row.mean, B_H), row.d, l) for row in scenario.rows]
    found = math.fsum(moments) / len(moments)
    return abs(found - scenario.bar.moment) <= 2 * relative_uncertainty(scenario, position.tan_b) * found


def relative_uncertainty(scenario: DeflectionScenario, tan_b: bool = False) -> float:
    """Relative standard uncertainty of the mean moment of a scenario, end-on or with tan_b broadside-on."""
    rows = [(row.mean, row.d) for row in scenario.rows]
    return uncertainty.mean_moment(rows, scenario.two_l / 2, scenario.scale_step, scenario.box.needle, tan_b)

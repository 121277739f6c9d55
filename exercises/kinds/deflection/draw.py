"""Numbers for a determination by deflection, drawn within physical limits.

Magnet, place and faults first; then distances one by one, each kept only if its
eight readings lie within 30°–60° and its slips can be told apart.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from exercises.bench import uncertainty
from exercises.bench.field import distance_end_on, end_on, field_from_deflection, moment_end_on
from exercises.bench.instrument import Box, Faults, Magnet, eight_readings
from exercises.bench.local_field import Place
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
    first_good,
    to_grid,
)
from exercises.codes.sheet_code import Setting, SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.parts import MAGNETIC_SHARE
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.slips.catalogue import Slip
from exercises.working.steps import Working

LOWEST, HIGHEST = 30.0, 60.0  # degrees, the deflections worth taking
NEAREST_AT, FARTHEST_AT = 58.5, 31.5  # degrees, between which distances are chosen: the readings scatter about these
CLOSEST = 0.003  # m between neighbouring distances
CLEARANCE = 0.010  # m between the magnet's near end and the box
BOX = Box(radius=0.040, needle=0.006)
ROUNDS = 2  # times each distance may be tried; its reading errors are new each time


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


END_ON = Position(moment_end_on, distance_end_on, shares=(0.170, 0.205), reach=0.5)


class PlacedMagnet(NamedTuple):
    """A magnet and where it is used, in the order in which scenarios take them.  B_H in tesla."""

    place: Place
    year: int
    month: int
    B_H: float
    bar: Bar


def draw_magnet(
    draw: Draw,
    setting: Setting,
    position: Position,
    make_bar: Callable[[Draw, int, float, float], Bar | None] = draw_bar,
) -> PlacedMagnet | None:
    """A bar whose moment gives 45° at a distance within the position's shares, or None.

    make_bar  (draw, length in mm, magnetic length in m, moment in A·m²) -> a bar, or None if no material has them
    """
    place, year, month, B_H = draw_place(draw, setting)
    length_mm = draw_length_mm(draw, setting)
    magnetic = draw_magnetic_length(draw, length_mm)
    d45 = length_mm * 1e-3 * MAGNETIC_SHARE / 2 / draw.between(*position.shares)
    bar = make_bar(draw, length_mm, magnetic, three_figures(position.moment_from(B_H, d45, magnetic / 2)))
    return None if bar is None else PlacedMagnet(place, year, month, B_H, bar)


def draw_magnetic_length(draw: Draw, length_mm: int) -> float:
    """The true magnetic length in m of a bar, about 5/6 of its length."""
    return to_grid(length_mm * 1e-3 * draw.between(0.82, 0.85), 10000)


def three_figures(moment: float) -> float:
    """A moment to three figures, as a maker would state it."""
    return float(f"{moment:.2e}")


def stretch(
    position: Position, bar: Bar, B_H: float, angles: tuple[float, float] = (NEAREST_AT, FARTHEST_AT)
) -> tuple[float, float] | None:
    """The nearest and farthest distance (m) worth using, or None if the box or the arm's end is in the way.

    angles  the deflections there, degrees
    """
    near, far = (
        position.distance_for(bar.moment, field_from_deflection(angle, B_H), bar.magnetic_length / 2)
        for angle in angles
    )
    if near - position.reach * bar.length < BOX.radius + CLEARANCE:
        return None
    if far + position.reach * bar.length > ARM_LENGTH:
        return None
    return near, far


def distances_to_try(draw: Draw, ends: tuple[float, float], part: int, parts: int, rounds: int) -> Iterator[float]:
    """Distances (m, whole millimetres) in one of equal parts of a stretch, shuffled anew for each round."""
    near, far = ends
    low, high = near + (far - near) * part / parts, near + (far - near) * (part + 1) / parts
    grid = range(math.ceil(low * 1000), math.floor(high * 1000) + 1)
    for _ in range(rounds):
        for mm in draw.shuffled(grid):
            yield mm / 1000


def read_row(
    draw: Draw, position: Position, bar: Bar, B_H: float, d: float, faults: Faults, step: float, box: Box = BOX
) -> Row | None:
    """Eight readings at d, or None if any of them lies outside the limits, or d is of no use."""
    errors = tuple([draw.normal(READING_ERROR) for _ in range(8)])
    magnet = Magnet(bar.moment, bar.magnetic_length / 2)
    if position.alike and position.alike(d, bar.length, end_on(magnet.m, d, magnet.l) / B_H):
        return None
    readings = eight_readings(magnet, B_H, d, box, faults, errors, step, position.tan_b)
    return Row(d, readings) if min(readings) >= LOWEST and max(readings) <= HIGHEST else None


#: From a scenario of one row or more to its working.
type Work = Callable[[DeflectionScenario], Working]


def draw_scenario(code: SheetCode, position: Position, work: Work, slips: tuple[Slip, ...]) -> DeflectionScenario:
    """The numbers of a code: attempts from one stream until one is good.

    ArithmeticError if none is good, which no setting that can be coded leads to.
    """
    return first_good(Draw(code), lambda draw: _attempt(draw, code, position, work, slips))


def _attempt(
    draw: Draw, code: SheetCode, position: Position, work: Work, slips: tuple[Slip, ...]
) -> DeflectionScenario | None:
    magnet = draw_magnet(draw, code.setting, position)
    if magnet is None:
        return None
    step = code.setting.scale_step or draw.pick((1.0, 0.5))
    faults = draw_faults(draw)
    count = code.setting.distances or draw.pick((4, 5, 6))
    ends = stretch(position, magnet.bar, magnet.B_H)
    if ends is None:
        return None
    rows: tuple[Row, ...] = ()

    def with_rows(*rows: Row) -> DeflectionScenario:
        return DeflectionScenario(code, *magnet, BOX, faults, step, ARM_LENGTH, rows)

    def apart(scenario: DeflectionScenario, step_ids: Sequence[str]) -> bool:
        return tells_apart(work(scenario), slips, step_ids)

    def good_rows(part: int) -> Iterator[Row]:
        """The rows of one part of the stretch, each read when it is asked for."""
        for d in distances_to_try(draw, ends, part, count, ROUNDS):
            if rows and d - rows[-1].d < CLOSEST:
                continue
            row = read_row(draw, position, magnet.bar, magnet.B_H, d, faults, step)
            if row and apart(with_rows(row), ("moment-1", "tan-1", "bracket-1")):
                yield row

    for part in range(count - 1):
        row = next(good_rows(part), None)
        if row is None:
            return None
        rows = (*rows, row)
    for row in good_rows(count - 1):
        whole = with_rows(*rows, row)
        if not _near_truth(whole, position, work):
            return None
        if apart(whole, ("mean-moment", "pole")):
            return whole
    return None


def _near_truth(scenario: DeflectionScenario, position: Position, work: Work) -> bool:
    """Whether the answer lies within its own uncertainty (twice the standard one) of the true moment."""
    found: float = work(scenario).value("mean-moment")
    return abs(found - scenario.bar.moment) <= 2 * relative_uncertainty(scenario, position.tan_b) * found


def relative_uncertainty(scenario: DeflectionScenario, tan_b: bool = False) -> float:
    """Relative standard uncertainty of the mean moment of a scenario, end-on or with tan_b broadside-on."""
    l = MAGNETIC_SHARE * scenario.bar.length / 2
    rows = [(row.mean, row.d) for row in scenario.rows]
    return uncertainty.mean_moment(rows, l, scenario.scale_step, scenario.box.needle, tan_b)

"""Which distances a bar leaves: deflections between 30° and 60°, the magnet clear of the box and on the arm.

All here scales with lengths alone: a moment in units of B_H gives the same
deflections at the same distances whatever the field.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

from exercises.bench.field import distance_end_on, end_on, field_from_deflection, moment_end_on
from exercises.bench.instrument import Box
from exercises.codes.scenario import ARM_LENGTH

LOWEST, HIGHEST = 30.0, 60.0  # degrees, the deflections worth taking
NEAREST_AT, FARTHEST_AT = 58.5, 31.5  # degrees, between which distances are chosen: the readings scatter about these
CLOSEST = 0.003  # m between neighbouring distances
CLEARANCE = 0.010  # m between the magnet's near end and the box
BOX = Box(radius=0.040, needle=0.006)
SHORTEST = 1.7  # times l: nearer than that no distance of 45° is looked for
ROOM = 1.02  # how much more of a stretch is asked for than distances take: a true 2l is a little off the sheet's
SURE, UNIT = 0.010, 0.020  # of Position.hopeless: shares of a value, the second for a leading figure of 1
WIDER = 1.06  # where a setting forces the distance of 45°, how far that may vary


def no_factors(d: float, l: float, length: float, tangent: float) -> tuple[float, ...]:
    """What a position has for `factors` where no slips are looked at."""
    return ()


@dataclass(frozen=True, eq=False)  # hashed by what it is: much is kept by position
class Position:
    """End-on or broadside-on, as the draw needs it.

    field         (m, d, l) -> B          moment_from   (B, d, l) -> m          distance_for  (m, B, l) -> d
    shares        range of l/d at 45°: large enough for the l² term to be seen
    reach         how far a magnet of length L spreads along the arm from its middle, as a share of L
    factors       (d, l, length, tan θ) -> how many times the moment is what some common slips make of it there
    """

    field: Callable[[float, float, float], float]
    moment_from: Callable[[float, float, float], float]
    distance_for: Callable[[float, float, float], float]
    shares: tuple[float, float]
    reach: float
    tan_b: bool = False
    factors: Callable[[float, float, float, float], tuple[float, ...]] = no_factors

    def hopeless(self, m: float, *factors_at: tuple[float, ...]) -> bool:
        """Whether two of these slips, or one and the right moment, surely cannot be told apart in the mean moment.

        m           A·m²
        factors_at  the factors at each distance; it may be one, and need not be read yet
        By how much they must differ is what judging.diagnosis asks for, less what the readings may still move.
        """
        factors: Sequence[float] = factors_at[0]
        if len(factors_at) > 1:
            factors = [math.fsum(of) / len(factors_at) for of in zip(*factors_at)]
        return _too_near([m, *[m * factor for factor in factors]])

    def hopeless_as_read(self, m: float, l: float, length: float, d: float, theta: float) -> bool:
        """The same at one distance that was read, θ in degrees: now the tangent of so many radians is known as well."""
        tangent = math.tan(math.radians(theta))
        factors = self.factors(d, l, length, tangent)
        if not factors:
            return False
        return _too_near([m, m * abs(math.tan(theta) / tangent), *[m * factor for factor in factors]])


def _too_near(moments: list[float]) -> bool:
    """Whether two of these moments surely are too near to each other."""
    moments.sort()
    last = 0.0
    for value in moments:
        between = (value - last) / value
        # a leading figure of 1 asks for most: that decides nearly always
        if between < SURE + UNIT and between < SURE + UNIT / (value / 10.0 ** math.floor(math.log10(value))):
            return True
        last = value
    return False


END_ON = Position(end_on, moment_end_on, distance_end_on, shares=(0.170, 0.205), reach=0.5)


def stretch(
    position: Position, m: float, B_H: float, l: float, angles: tuple[float, float] = (NEAREST_AT, FARTHEST_AT)
) -> tuple[float, float]:
    """The distances (m) at which a magnet turns the needle by these angles (degrees)."""
    near, far = (position.distance_for(m, field_from_deflection(angle, B_H), l) for angle in angles)
    return near, far


def fits(position: Position, length: float, near: float, far: float) -> bool:
    """Whether a magnet of that length is clear of the box at its nearest distance and on the arm at its farthest."""
    reach = position.reach * length
    return near - reach >= BOX.radius + CLEARANCE and far + reach <= ARM_LENGTH


@cache
def limits(position: Position, length: float, l: float) -> tuple[float, float]:
    """The least and the greatest distance (m) of 45° at which such a magnet is clear of the box and on the arm."""
    reach = position.reach * length
    clear, on_arm = reach + BOX.radius + CLEARANCE, ARM_LENGTH - reach

    def near(d: float) -> float:
        return stretch(position, position.moment_from(1.0, d, l), 1.0, l)[0]

    def far(d: float) -> float:
        return stretch(position, position.moment_from(1.0, d, l), 1.0, l)[1]

    return _solved(near, clear, SHORTEST * l), _solved(far, on_arm, SHORTEST * l)


def _solved(of: Callable[[float], float], wanted: float, low: float) -> float:
    """Where a rising function of a distance of 45° comes to what is wanted, from `low` to twice the arm."""
    high = 2 * ARM_LENGTH
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if of(middle) < wanted else (low, middle)
    return low


@cache
def needed(position: Position, l: float, count: int, grid: float) -> float:
    """The least distance (m) of 45° at which so many distances, multiples of a grid (m), lie in the stretch."""
    room = count * max(grid, CLOSEST) * ROOM

    def width(d: float) -> float:
        near, far = stretch(position, position.moment_from(1.0, d, l), 1.0, l)
        return far - near

    return _solved(width, room, SHORTEST * l)


def how_many(
    position: Position, length: float, l: float, grid: float, farthest: float = math.inf, nearest: float = 0.0
) -> int:
    """How many distances, multiples of a grid (m), such a bar leaves at best.

    farthest, nearest  the distances of 45° of the strongest and of the weakest bar of that length, m
    """
    least, most = limits(position, length, l)
    least, most = max(least, nearest), min(most, farthest)
    count = 0
    while count < MOST_DISTANCES and max(least, needed(position, l, count + 1, grid)) <= most:
        count += 1
    return count


MOST_DISTANCES = 8


def range_of_45(
    position: Position, length: float, l: float, count: int, grid: float, farthest: float, nearest: float = 0.0
) -> tuple[float, float] | None:
    """Between which distances (m) of 45° a magnet is drawn, or None if no such magnet leaves so many distances.

    The position's own shares of l/d where they can be had, and what comes nearest to them where not.

    farthest, nearest  the distances of 45° of the strongest and of the weakest bar of that length, m
    """
    least, most = limits(position, length, l)
    least, most = max(least, needed(position, l, count, grid), nearest), min(most, farthest)
    if least > most:
        return None
    low, high = l / position.shares[1], l / position.shares[0]
    if high < least:
        return least, min(most, least * WIDER)
    if low > most:
        return max(least, most / WIDER), most
    return max(low, least), min(high, most)

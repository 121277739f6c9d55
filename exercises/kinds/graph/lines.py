"""The two straight lines of the graph method, and how far a line drawn by hand may lie from the best one.

    (a)  tan θ against x = 2d/(d² − l²)², through the origin: slope (µ0/4π)·m/B_H
    (b)  d² against √(d cot θ): slope √((µ0/4π)·2m/B_H), intercept l²

Both are the end-on formula, written so that what is unknown is a slope.

The rule for a number read from a graph: it may differ from the least-squares
value by the root of the sum of two squares, of what the hand does and of what
the points allow.  The hand lays its line, and reads a corner of its triangle,
to half a millimetre on paper where the farthest point stands 15 cm out along
both axes.  The points allow two standard errors, and always the line through
the two extreme points.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from exercises.bench.least_squares import line, through_origin, through_origin_error
from exercises.working.arithmetic import Number, Span, as_span, middle
from exercises.working.steps import Givens, Known

HALF_MM = 0.5  # mm; common practice, no source
AXIS = 150.0  # mm from zero to the farthest point; common practice, no source


def x_of(d: float, l: float) -> float:
    """2d/(d² − l²)² in m⁻³."""
    return 2 * d / (d * d - l * l) ** 2


def root_of(d: float, theta: float) -> float:
    """√(d cot θ) in m^½, θ in degrees."""
    return math.sqrt(d / math.tan(math.radians(theta)))


@dataclass(frozen=True)
class Allowed:
    """How far what is read may lie from the best value: slopes as a share of it, the intercept in m²."""

    slope_a: float
    slope_b: float
    intercept: float


def allowed(ds: Sequence[float], thetas: Sequence[float], l: float) -> Allowed:
    """The rule above for these distances (m) and mean deflections (degrees)."""
    xs, ys = [x_of(d, l) for d in ds], [math.tan(math.radians(t)) for t in thetas]
    return Allowed(_through_origin(xs, ys), *_free([root_of(d, t) for d, t in zip(ds, thetas)], [d * d for d in ds]))


def extremes(xs: Sequence[float], ys: Sequence[float]) -> tuple[float, float]:
    """(slope, intercept) of the line through the points of the least and the greatest x."""
    (x1, y1), *_, (x2, y2) = sorted(zip(xs, ys))
    slope = (y2 - y1) / (x2 - x1)
    return slope, y1 - slope * x1


def _through_origin(xs: Sequence[float], ys: Sequence[float]) -> float:
    best = through_origin(xs, ys)
    others = (extremes(xs, ys)[0], line(xs, ys).slope)
    points = max(2 * through_origin_error(xs, ys), *(abs(other - best) for other in others)) / best
    hand = 3 * HALF_MM / AXIS  # the line at its end, and the corner of the triangle along both axes
    return math.hypot(hand, points)


def _free(xs: Sequence[float], ys: Sequence[float]) -> tuple[float, float]:
    best = line(xs, ys)
    slope, intercept = extremes(xs, ys)
    low, high = min(xs), max(xs)
    across, up = (high - low) / high * AXIS, (max(ys) - min(ys)) / max(ys) * AXIS  # mm from end to end
    points = max(2 * best.slope_error, abs(slope - best.slope)) / best.slope
    hand = math.sqrt(2) * HALF_MM * (1 / up + 1 / across)  # two ends of the line, two corners of the triangle
    far = carried_to_zero(low, high, max(ys))
    return math.hypot(hand, points), math.hypot(far, max(2 * best.intercept_error, abs(intercept - best.intercept)))


def carried_to_zero(low: float, high: float, highest: float) -> float:
    """What half a millimetre at both ends of the points comes to at x = 0.

    low, high  least and greatest x; highest  the greatest y, in whose unit it comes
    """
    return HALF_MM / AXIS * highest * math.hypot(low, high) / (high - low)


# -- the lines of a sheet, whose columns may be known only as spans ------------
def columns(known: Known, givens: Givens, x: str, y: str) -> tuple[list[Number], list[Number]]:
    """The steps x-1, x-2 … and y-1, y-2 … as two columns."""
    rows = range(1, len(givens["d"]) + 1)
    return [known[f"{x}-{i}"] for i in rows], [known[f"{y}-{i}"] for i in rows]


def slope_through_origin(xs: Sequence[Number], ys: Sequence[Number]) -> Number:
    """The slope of the best line through the origin: a span if the columns are spans."""
    x, y = list(map(middle, xs)), list(map(middle, ys))
    slope, total = through_origin(x, y), math.fsum(v * v for v in x)
    return _opened(slope, [v / total for v in x], _play(xs, ys, slope))


def free_line(xs: Sequence[Number], ys: Sequence[Number]) -> tuple[Number, Number]:
    """(slope, intercept) of the best line, each a span if the columns are spans."""
    x, y = list(map(middle, xs)), list(map(middle, ys))
    best, n = line(x, y), len(x)
    mean = math.fsum(x) / n
    total = math.fsum((v - mean) ** 2 for v in x)
    play = _play(xs, ys, best.slope)
    slope = _opened(best.slope, [(v - mean) / total for v in x], play)
    return slope, _opened(best.intercept, [1 / n - mean * (v - mean) / total for v in x], play)


def _play(xs: Sequence[Number], ys: Sequence[Number], slope: float) -> list[float]:
    """How far rounding can move each point off the line, upwards or downwards."""
    return [(as_span(y).hi - as_span(y).lo + abs(slope) * (as_span(x).hi - as_span(x).lo)) / 2 for x, y in zip(xs, ys)]


def _opened(value: float, weights: Sequence[float], play: Sequence[float]) -> Number:
    half = math.fsum(abs(w * p) for w, p in zip(weights, play))  # every rounding the worst way
    return Span(value - half, value + half) if half else value

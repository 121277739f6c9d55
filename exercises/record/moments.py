"""The moments of a record, and what they say together: a trend with d, one that stands apart, the graph.

Uncertainties are relative standard ones, by bench/uncertainty.py (JCGM 100:2008,
5.1.2).  A trend is a weighted straight line of the moments against d.  What
could make one is fitted in the same way, to first order:

    another 2l          dm/m = −2·d(l²)/(d² − l²)         tan B: +1.5·d(l²)/(d² + l²)
    another zero of d   dm/m = (4d²/(d² − l²) − 1)·δ/d    tan B: 3d²/(d² + l²)·δ/d

A wrong B_H changes every moment by the same share, so no trend shows it.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from statistics import mean

from exercises.bench.field import field_from_deflection
from exercises.bench.least_squares import (
    line,
    through_origin,
    through_origin_error,
    weighted_line,
    weighted_mean,
)
from exercises.bench.uncertainty import (
    ANGLE_STICKING,
    DISTANCE_BOTH_ARMS,
    angle_term,
    distance_term,
    mean_angle,
    needle_effect,
    of_two_poles,
)
from exercises.record.position import TAN_A, Position

NEEDLE = 0.008  # m, half length, where none is given; common practice, no source


@dataclass(frozen=True)
class Point:
    """One distance worked: d in m, θ in degrees, moment in A·m².

    angle, distance  relative standard uncertainty of the moment from each of them
    position         the record's
    """

    number: int
    d: float
    theta: float
    moment: float
    angle: float
    distance: float
    position: Position = TAN_A

    @property
    def own(self) -> float:
        """Relative standard uncertainty of the moment from what differs from distance to distance."""
        return math.hypot(self.angle, self.distance)


def seen_angle(step: float, scatter: float | None) -> float:
    """u(θ) in degrees of a mean of eight: the larger of what the scale lets one expect and of what the readings show.

    step  scale step, degrees;  scatter  standard deviation of one reading about the pattern, degrees, or None
    """
    shown = math.hypot(scatter / math.sqrt(8), ANGLE_STICKING) if scatter else 0.0
    return max(mean_angle(step), shown)


def point(
    number: int, d: float, theta: float, B_H: float, l: float, u_theta: float, position: Position = TAN_A
) -> Point:
    """One distance worked.

    d, l     distance and half the magnetic length, m, d > l
    theta    mean deflection, degrees, and u_theta its standard uncertainty;  B_H  T
    """
    moment = position.moment(field_from_deflection(theta, B_H), d, l)
    by_distance = distance_term(d, l, DISTANCE_BOTH_ARMS, position.tan_b)
    return Point(number, d, theta, moment, angle_term(theta, u_theta), by_distance, position)


def by_square(p: Point, l: float) -> float:
    """dm/m for a change of l² (m²), at half the magnetic length l (m)."""
    return 1.5 / (p.d * p.d + l * l) if p.position.tan_b else -2 / (p.d * p.d - l * l)


def turned(p: Point, l: float, needle: float) -> float:
    """By how much, as a share, a needle of this half length (m) makes the moment too large; l as for the moment, m.

    In tan A before two poles; in tan B, where l counts less, before a short magnet.
    """
    share = needle_effect(p.theta, p.d, needle, p.position.tan_b)
    return share if p.position.tan_b else share * of_two_poles(p.d, l)


@dataclass(frozen=True)
class Trend:
    """How the moments go with d.

    change, error   from the nearest distance to the farthest, as a share of the mean, and its standard error
    two_l, u_two_l  the 2l (m) that would level them, and its standard error
    shift, u_shift  what would have to be added to every d (m) to level them, and its standard error
    needle          the change that a needle of this length makes by itself: a fall end-on, a rise broadside-on, or 0
    left            Σ((m − line)/u)², and `level` the same about the mean
    """

    change: float
    error: float
    two_l: float
    u_two_l: float
    shift: float
    u_shift: float
    needle: float
    left: float
    level: float


def trend(points: Sequence[Point], l: float, needle: float) -> Trend | None:
    """The trend of the moments; None where there are not two distances apart.

    l, needle  half the magnetic length, and half the length of the needle, m
    """
    ds = [p.d for p in points]
    if len(points) < 2 or max(ds) - min(ds) < 0.002:
        return None
    m = mean(p.moment for p in points)
    ys, us = [p.moment / m for p in points], [p.own for p in points]
    best = weighted_line(ds, ys, us)
    error = best.slope_error
    if len(points) > 3:
        error *= max(1.0, math.sqrt(best.squares / (len(points) - 2)))
    span = max(ds) - min(ds)
    level = sum(((y - weighted_mean(ys, us)) / u) ** 2 for y, u in zip(ys, us))
    # y = 1 + g·x, where x is the mistake: so the mistake is the slope of y against g, and is taken off again
    square = weighted_line([by_square(p, l) for p in points], ys, us)
    shift = weighted_line([distance_term(p.d, l, 1.0, p.position.tan_b) for p in points], ys, us)
    squared = l * l - square.slope
    half = math.sqrt(squared) if squared > 0 else 0.0
    by_needle = weighted_line(ds, [turned(p, l, needle) for p in points], us).slope * span
    by_needle = max(0.0, by_needle) if points[0].position.tan_b else min(0.0, by_needle)
    return Trend(
        change=best.slope * span,
        error=error * span,
        two_l=2 * half,
        u_two_l=square.slope_error / half if half else math.inf,
        shift=-shift.slope,
        u_shift=shift.slope_error,
        needle=by_needle,
        left=best.squares,
        level=level,
    )


def without_needle(points: Sequence[Point], l: float, needle: float) -> tuple[Point, ...]:
    """The points with what a needle does to the moments taken off, to second order.

    l, needle  half the magnetic length, and half the length of the needle, m
    """
    return tuple(replace(p, moment=p.moment / (1 + turned(p, l, needle))) for p in points)


@dataclass(frozen=True)
class Apart:
    """A moment that stands apart from the mean of the others.

    number      of its distance
    off, error  how much larger it is, as a share, and the standard error of that
    d           the distance (m) that its readings would fit
    left        Σ((m − mean)/u)² of the others
    """

    number: int
    off: float
    error: float
    d: float
    left: float


def apart(points: Sequence[Point], l: float, needle: float) -> Apart | None:
    """The moment farthest from the others, counted in standard errors; None where there are fewer than three.

    What the needle may do counts in the error.

    l, needle  half the magnetic length, and half the length of the needle, m
    """
    if len(points) < 3:
        return None
    found = []
    for p in points:
        others = [o for o in points if o is not p]
        weights = [1 / o.own**2 for o in others]
        m = sum(w * o.moment for w, o in zip(weights, others)) / sum(weights)
        off = p.moment / m - 1
        by_needle = turned(p, l, needle) - mean(turned(o, l, needle) for o in others)
        error = math.hypot(p.own, 1 / math.sqrt(sum(weights)), by_needle)
        left = sum(w * (o.moment / m - 1) ** 2 for w, o in zip(weights, others))
        d = p.d * (1 + off) ** (-1 / distance_term(p.d, l, p.d, p.position.tan_b))
        found.append(Apart(p.number, off, error, d, left))
    return max(found, key=lambda a: abs(a.off) / a.error)


@dataclass(frozen=True)
class Graph:
    """tan θ (ys) against 2d/(d² − l²)², or in tan B 1/(d² + l²)^(3/2) (xs, m⁻³), and the lines through the points.

    slope, error  of the line through the origin, m³; the error is None where there is one point
    moment        from that slope, A·m², and its error
    free          the best line of all: slope (m³), intercept and its error; None of fewer than three points
    """

    xs: tuple[float, ...]
    ys: tuple[float, ...]
    slope: float
    error: float | None
    moment: float
    moment_error: float | None
    free: tuple[float, float, float] | None


def graph(points: Sequence[Point], B_H: float, l: float) -> Graph:
    """The points of the graph and the lines through them, one point at least.  B_H in T, l in m."""
    xs = tuple(p.position.field(1.0, p.d, l, 1.0) for p in points)
    ys = tuple(math.tan(math.radians(p.theta)) for p in points)
    slope, n = through_origin(xs, ys), len(xs)
    error = through_origin_error(xs, ys) if n > 1 else None
    free = None
    if n > 2 and max(xs) - min(xs) > 1e-3 * max(xs):
        best = line(xs, ys)
        free = best.slope, best.intercept, best.intercept_error
    moment_error = None if error is None else 1e7 * B_H * error
    return Graph(xs, ys, slope, error, 1e7 * B_H * slope, moment_error, free)

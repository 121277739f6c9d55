"""Straight lines through measured points, by least squares.

Source of the formulas: the normal equations of each model and the
variance of their solutions, any text on least squares.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple


@dataclass(frozen=True)
class Line:
    """y = intercept + slope·x, with the standard errors of both and of one y about the line."""

    slope: float
    intercept: float
    slope_error: float
    intercept_error: float
    scatter: float


def through_origin(xs: Sequence[float], ys: Sequence[float]) -> float:
    """Slope of the least-squares line y = slope·x: Σxy/Σx².

    xs, ys  as many of each, not all x zero; the slope has the unit of y over
    that of x.  ValueError if the lengths differ, ZeroDivisionError if all x are 0.

    >>> through_origin([1, 2], [2.0, 4.0])
    2.0
    """
    return math.fsum(x * y for x, y in zip(xs, ys, strict=True)) / math.fsum(x * x for x in xs)


def through_origin_error(xs: Sequence[float], ys: Sequence[float]) -> float:
    """Standard error of the slope of `through_origin`: √(Σr²/(n − 1)/Σx²); n ≥ 2 points.

    >>> through_origin_error([1, 2], [2.0, 4.0])
    0.0
    """
    slope = through_origin(xs, ys)
    squares = math.fsum((y - slope * x) ** 2 for x, y in zip(xs, ys))
    return math.sqrt(squares / (len(xs) - 1) / math.fsum(x * x for x in xs))


def line(xs: Sequence[float], ys: Sequence[float]) -> Line:
    """The least-squares line through at least three points, not all at one x.

    Sums are taken about the means, so that close numbers lose no figures.
    ValueError if the lengths differ, ZeroDivisionError if all x are the same.

    >>> line([0, 1, 2], [1.0, 3.0, 5.0])
    Line(slope=2.0, intercept=1.0, slope_error=0.0, intercept_error=0.0, scatter=0.0)
    """
    n = len(xs)
    x_mean, y_mean = math.fsum(xs) / n, math.fsum(ys) / n
    sxx = math.fsum((x - x_mean) ** 2 for x in xs)
    sxy = math.fsum((x - x_mean) * (y - y_mean) for x, y in zip(xs, ys, strict=True))
    slope = sxy / sxx
    squares = math.fsum((y - y_mean - slope * (x - x_mean)) ** 2 for x, y in zip(xs, ys))
    scatter = math.sqrt(squares / (n - 2)) if n > 2 else 0.0
    return Line(
        slope,
        y_mean - slope * x_mean,
        scatter / math.sqrt(sxx),
        scatter * math.sqrt(1 / n + x_mean * x_mean / sxx),
        scatter,
    )


def weighted_mean(ys: Sequence[float], us: Sequence[float]) -> float:
    """The mean of numbers with standard uncertainties `us`, each weighted by 1/u²; one number at least, every u > 0."""
    weights = [1 / (u * u) for u in us]
    return sum(w * y for w, y in zip(weights, ys, strict=True)) / sum(weights)


class WeightedLine(NamedTuple):
    """A straight line through points of unequal weight: its slope, the standard error of that, and Σ((y − line)/u)²."""

    slope: float
    slope_error: float
    squares: float


def weighted_line(xs: Sequence[float], ys: Sequence[float], us: Sequence[float]) -> WeightedLine:
    """The least-squares line through points whose y have the standard uncertainties `us`, every u > 0.

    The standard error follows from the u's alone.  If all x are the same, the
    slope is 0 and its error infinite.

    >>> weighted_line([0.0, 1.0, 2.0], [1.0, 3.0, 5.0], [0.5, 0.5, 0.5]).slope
    2.0
    """
    weights = [1 / (u * u) for u in us]
    total = sum(weights)
    x0 = sum(w * x for w, x in zip(weights, xs, strict=True)) / total
    y0 = weighted_mean(ys, us)
    sxx = sum(w * (x - x0) ** 2 for w, x in zip(weights, xs))
    if sxx <= 1e-12 * total * max(abs(x) for x in xs) ** 2:
        return WeightedLine(0.0, math.inf, sum(w * (y - y0) ** 2 for w, y in zip(weights, ys)))
    slope = sum(w * (x - x0) * (y - y0) for w, x, y in zip(weights, xs, ys)) / sxx
    squares = sum(w * (y - y0 - slope * (x - x0)) ** 2 for w, x, y in zip(weights, xs, ys))
    return WeightedLine(slope, 1 / math.sqrt(sxx), squares)

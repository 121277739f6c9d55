"""Straight lines through measured points."""

from collections.abc import Sequence


def through_origin(xs: Sequence[float], ys: Sequence[float]) -> float:
    """Slope of the least-squares line y = slope·x: Σxy/Σx².

    xs, ys  as many of each, not all x zero; the slope has the unit of y over
    that of x.  ValueError if the lengths differ, ZeroDivisionError if all x are 0.
    Source: the normal equation of the model, any text on least squares.

    >>> through_origin([1, 2], [2.0, 4.0])
    2.0
    """
    return sum(x * y for x, y in zip(xs, ys, strict=True)) / sum(x * x for x in xs)

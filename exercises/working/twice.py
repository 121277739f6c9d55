"""Results with hardly an intermediate, whose span is so narrow that a number rounded twice would fall out of it.

33.948 is 33.9, but 33.95 on the way to it makes 34.0.  Each of these is the
arithmetic's own rounding, with a tenth of a unit more room in the interval.
"""

from exercises.working.arithmetic import (
    ANGLE_PLACE,
    ROUNDED_TWICE,
    TANGENT_PLACE,
    Interval,
    as_span,
    last_place,
    widened,
)

MORE = ROUNDED_TWICE - 0.5  # of a unit in the last place


def keep(a, x):
    """`a.keep(x)`, with room for one more rounding on the way.

    >>> round(keep(Interval, 33.948).hi, 9)
    34.008
    """
    return widened(a.keep(x), MORE * last_place(as_span(x).hi)) if a is Interval else a.keep(x)


def angle(a, x):
    """`a.angle(x)`, with room for one more rounding on the way."""
    return widened(a.angle(x), MORE * ANGLE_PLACE) if a is Interval else a.angle(x)


def tangent(a, x):
    """`a.tangent(x)`, with room for one more rounding on the way."""
    return widened(a.tangent(x), MORE * TANGENT_PLACE) if a is Interval else a.tangent(x)

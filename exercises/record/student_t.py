"""Student's t: how far chance alone goes.

Source: Abramowitz and Stegun, *Handbook of Mathematical Functions*, 26.7.3 and
26.7.4, finite sums for whole degrees of freedom.
"""

import math
from functools import cache


def within(t: float, freedom: int) -> float:
    """The probability that |T| < t, t ≥ 0, with so many degrees of freedom ≥ 1.

    >>> round(within(1.0, 1), 6), round(within(2.0, 2), 6)
    (0.5, 0.816497)
    """
    angle = math.atan(t / math.sqrt(freedom))
    sin, cos = math.sin(angle), math.cos(angle)
    odd = freedom % 2
    term = cos if odd else 1.0
    total = 0.0 if freedom == 1 else term
    for k in range(3 if odd else 2, freedom - 1, 2):
        term *= (k - 1) / k * cos * cos
        total += term
    return 2 / math.pi * (angle + sin * total) if odd else sin * total


@cache
def beyond(share: float, freedom: int) -> float:
    """The t that |T| exceeds with probability `share`, 0 < share < 1.

    >>> round(beyond(0.05, 10), 3)
    2.228
    """
    low, high = 0.0, 1.0
    while within(high, freedom) < 1 - share:
        high *= 2
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if within(middle, freedom) < 1 - share else (low, middle)
    return high


MANY = 1000  # degrees of freedom from which on t is that of the normal distribution to two decimals


def coverage_factor(chance: float, freedom: float) -> float:
    """The k of an interval that misses with probability `chance`: t, with the degrees of freedom cut to a whole number.

    Source: JCGM 100:2008, G.4 and table G.2.

    >>> round(coverage_factor(0.05, 7.9), 2), round(coverage_factor(0.05, float("inf")), 2)
    (2.36, 1.96)
    """
    return beyond(chance, max(1, int(min(freedom, MANY))))

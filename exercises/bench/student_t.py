"""Student's t: how many standard uncertainties an interval must be wide where few observations were made.

Source: Abramowitz and Stegun, *Handbook of Mathematical Functions*, 26.7.3 and
26.7.4, finite sums for whole degrees of freedom, and 26.7.5, an expansion where
they are many.
"""

import math
from functools import cache
from statistics import NormalDist

MANY = 30  # degrees of freedom from which on the expansion is good to five figures


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


def coverage_factor(chance: float, freedom: float) -> float:
    """The k of an interval that misses with probability `chance`: t, with the degrees of freedom cut to a whole number.

    freedom  effective degrees of freedom; below 1, and what is no number, counts as 1
    Source: JCGM 100:2008, G.4.1 and table G.2.

    >>> round(coverage_factor(0.05, 7.9), 2), round(coverage_factor(0.05, float("inf")), 2)
    (2.36, 1.96)
    """
    if freedom >= MANY:
        return _expanded(chance, freedom // 1 if freedom < math.inf else freedom)
    return beyond(chance, int(freedom) if freedom > 1 else 1)


@cache
def _normal(chance: float) -> float:
    return NormalDist().inv_cdf(1 - chance / 2)


def _expanded(chance: float, freedom: float) -> float:
    """The t that |T| exceeds with probability `chance`, for many degrees of freedom."""
    z = _normal(chance)
    terms = (z**3 + z) / 4, (5 * z**5 + 16 * z**3 + 3 * z) / 96, (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384
    return z + sum(term / freedom**power for power, term in enumerate(terms, 1))


def t95(freedom: float) -> float:
    """The k of a 95 % interval; see `coverage_factor`.

    >>> round(t95(3), 2), round(t95(20.7), 2)
    (3.18, 2.09)
    """
    return coverage_factor(0.05, freedom)

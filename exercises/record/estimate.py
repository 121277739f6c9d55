"""The moment and the pole strength of a record, with what is known of 2l and of the needle, and how sure they are.

What is known beforehand of 2l and of the needle counts as two more observations,
each with its standard uncertainty, beside the moments of the distances.  All are
fitted together by least squares, with four unknowns,

    ln m,   l,   n²,   s      (n is half the distance of the needle's poles)

and the equation of each distance is

    ln[B_H·tan θ·(d² − l²)²/(2d·µ0/4π)] = ln m + ln[1 + n²·(15 sin²θ − 3)(d² + l²)/(d² − l²)²] + s·3x²(1 − x)²

with x = l²/d².  The last term is small, and is there because the poles of a bar with weakened ends are spread along
it: the next term of its field, 3x² beside the 1 of a dipole, is larger by the share s.  In tan B it is left out, with
(d² + l²)^(3/2) in place of (d² − l²)²/2d, and n²·(6 − 22.5 sin²θ)/d² for what the needle does.

So a bias of known size, the needle's, is taken off (JCGM 100:2008, 3.2.4), and the
distances say what they can of 2l.  The 95 % interval is by Student's t (G.3), with
effective degrees of freedom by the Welch-Satterthwaite formula (G.4).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from exercises.bench.student_t import coverage_factor
from exercises.bench.uncertainty import Stated, length_term
from exercises.record.moments import Point, turned
from exercises.record.outliers import inverse

#: From where to where 2l may lie, as a share of the measured length: from steel with weak ends (bench/magnets.STEEL) to
#: bars that are magnetised alike all along, and a little more on either side.  Common practice, no source.
SHARES = (0.78, 1.01)
STATED = 0.02  # share, half width: a 2l that was stated is good to so much; common practice, no source
NEEDLES = (0.010, 0.025)  # m, lengths of needles on sale; common practice, no source
#: The distance of a needle's poles as a share of its length, and its half width.  Common practice, no source.
NEEDLE_POLES, NEEDLE_ROOM = 0.95, 0.05
#: By how much the third term of a bar's field is larger than that of two poles at its 2l: not at all for two poles and
#: for bars magnetised alike all along, 0.17 where the magnetisation falls as a parabola to 2l of 5/6.  Worked here.
SPREAD = (0.0, 0.2)
CHANCE = 0.05  # that the truth lies outside the interval
ROUNDS = 5  # of the fit, each about what the last one found
CLEAR = 0.98  # of the nearest distance: l is less in any round
UNKNOWNS = 4
LEAST_FACTOR = 0.2  # of what a needle does: where it would do more, nothing is known

ANGLE, DISTANCE, LENGTH, NEEDLE = TERMS = ("angle", "distance", "2l", "needle")


class Known(NamedTuple):
    """What is known of a number beforehand: its value and its standard uncertainty."""

    value: float
    u: float


def between(low: float, high: float) -> Known:
    """A number that may lie anywhere between two limits, all alike likely (JCGM 100:2008, 4.3.7)."""
    return Known((low + high) / 2, (high - low) / math.sqrt(12))


def known_half(two_l: float, length: float | None, stated: bool) -> Known:
    """What is known of l, m: from a 2l that was stated, or from a rule, which says less than the measured length."""
    if stated or length is None:
        return between(two_l / 2 * (1 - STATED), two_l / 2 * (1 + STATED))
    return between(SHARES[0] * length / 2, SHARES[1] * length / 2)


def known_needle(length: float | None) -> Known:
    """What is known of n², m², from the length of the needle in m, or None where it is not given."""
    low, high = (length, length) if length else NEEDLES
    # all lengths between the limits alike likely: the means of n² and of n⁴ over them
    means = [(NEEDLE_POLES / 2) ** power * _mean_power(low, high, power) for power in (2, 4)]
    spread = means[1] - means[0] ** 2
    poles = 2 * NEEDLE_ROOM / NEEDLE_POLES / math.sqrt(3) * means[0]
    return Known(means[0], math.sqrt(max(0.0, spread) + poles**2))


def _mean_power(low: float, high: float, power: int) -> float:
    """The mean of a power of a number that lies anywhere between two limits."""
    return sum(low**k * high ** (power - k) for k in range(power + 1)) / (power + 1)


@dataclass(frozen=True)
class Result:
    """What a record comes to: m (A·m²), p (A·m) and 2l (m).

    terms    relative standard uncertainty of m from each of `TERMS`; how the poles are spread counts in that of 2l
    excess   how many times more the moments scatter than angle and distance let one expect; 1 where they do not.  Angle
             and distance are counted so many times
    needle   the share by which the needle, as it is known, made the mean of the moments too large
    """

    moment: Stated
    pole: Stated
    two_l: Stated
    terms: dict[str, float]
    excess: float
    needle: float


def result(points: Sequence[Point], l: float, half: Known, needle: Known, freedom: float) -> Result:
    """The result of a record of one distance at least.

    l        half the magnetic length that the points' moments were worked with, m
    half     what is known of l;  needle  what is known of n², m²
    freedom  degrees of freedom of the scatter that the angles' uncertainty rests on; infinite where it rests on none
    """
    fit, count = _fit(points, l, half, needle), len(points) - 1
    excess = math.sqrt(max(1.0, fit.squares / count)) if count else 1.0
    if excess > 1:
        points = [replace(p, angle=excess * p.angle, distance=excess * p.distance) for p in points]
        fit = _fit(points, l, half, needle)
    m, two_l = math.exp(fit.log_m), 2 * fit.l
    of_m, of_p = (_terms(fit, points, half, needle, along) for along in ((1.0, 0.0), (1.0, -1 / fit.l)))
    k, k_pole = (coverage_factor(CHANCE, _freedom(terms, excess, count, freedom)) for terms in (of_m, of_p))
    by_needle = sum(fit.needle * _shape(p, fit.l) for p in points) / len(points)
    return Result(
        moment=Stated(m, m * _together(of_m), k),
        pole=Stated(m / two_l, m / two_l * _together(of_p), k_pole),
        two_l=Stated(two_l, 2 * math.sqrt(fit.covariance[1][1]), k_pole),
        terms=of_m,
        excess=excess,
        needle=by_needle,
    )


def _together(terms: dict[str, float]) -> float:
    return math.hypot(*terms.values())


def _freedom(terms: dict[str, float], excess: float, count: int, freedom: float) -> float:
    """Effective degrees of freedom (JCGM 100:2008, G.4).

    The scatter of the readings, in the angle, has `freedom` of them, and what the moments scatter more than was to be
    expected has `count`; all else is taken as known.
    """
    own = math.hypot(terms[ANGLE], terms[DISTANCE])
    more = own * math.sqrt(1 - 1 / excess**2)
    by_chance = (terms[ANGLE] / excess) ** 4 / max(1.0, freedom) + (more**4 / count if count else 0.0)
    return _together(terms) ** 4 / by_chance if by_chance else math.inf


def _shape(p: Point, l: float) -> float:
    """By what n² is multiplied in the share by which a needle makes a moment too large, m⁻²; l as for the moment."""
    return turned(p, l, 1.0)


def _log_bracket(p: Point, l: float) -> float:
    """ln of what the moment goes with, for half the magnetic length l: (d² − l²)², or (d² + l²)^(3/2)."""
    return 1.5 * math.log(p.d * p.d + l * l) if p.position.tan_b else 2 * math.log(p.d * p.d - l * l)


def _spread(p: Point, l: float) -> tuple[float, float]:
    """The factor of s in the logarithm of a moment of tan A, and its slope by l, m⁻¹; nothing in tan B."""
    if p.position.tan_b:
        return 0.0, 0.0
    x = l * l / (p.d * p.d)
    return 3 * (x * (1 - x)) ** 2, 12 * l / (p.d * p.d) * x * (1 - x) * (1 - 2 * x)


class _Fit(NamedTuple):
    """ln m, l, n² and s, their covariance, and Σ((observation − fit)/u)² over all that is fitted."""

    log_m: float
    l: float
    needle: float
    spread: float
    covariance: list[list[float]]
    squares: float


def _line(p: Point, at: float, l: float, n2: float, s: float) -> tuple[tuple[float, float, float, float], float]:
    """The equation of a distance about l, n² and s: coefficients of ln m, l, n² and s, and the right side.

    at  the l that the moment was worked with
    """
    shape, (spread, spread_by_l) = _shape(p, l), _spread(p, l)
    factor = max(LEAST_FACTOR, 1 + n2 * shape)
    by_l = length_term(p.d, l, 1.0 if p.position.tan_b else -1.0, p.position.tan_b) - s * spread_by_l
    if not p.position.tan_b:  # what the needle does is more the nearer the poles are
        square = p.d * p.d
        by_l -= n2 * shape / factor * (2 * l / (square + l * l) + 4 * l / (square - l * l))
    seen = math.log(p.moment) + _log_bracket(p, l) - _log_bracket(p, at)
    return (1.0, -by_l, shape / factor, spread), seen - by_l * l - math.log(factor) + n2 * shape / factor


def _fit(points: Sequence[Point], at: float, half: Known, needle: Known) -> _Fit:
    most = CLEAR * min(p.d for p in points)
    l, n2, s = min(half.value, most), needle.value, sum(SPREAD) / 2
    for _ in range(ROUNDS):
        lines: list[tuple[tuple[float, ...], float, float]] = [(*_line(p, at, l, n2, s), p.own) for p in points]
        for i, known in enumerate((half, needle, between(*SPREAD)), 1):
            lines.append((tuple(float(j == i) for j in range(UNKNOWNS)), *known))
        normal = [[sum(a[i] * a[j] / (u * u) for a, _, u in lines) for j in range(UNKNOWNS)] for i in range(UNKNOWNS)]
        right = [sum(a[i] * b / (u * u) for a, b, u in lines) for i in range(UNKNOWNS)]
        covariance = inverse(normal)
        found = [math.sumprod(row, right) for row in covariance]
        squares = sum(((math.sumprod(a, found) - b) / u) ** 2 for a, b, u in lines)
        l, n2, s = min(max(found[1], half.value / 2), most), max(found[2], 0.0), found[3]
    return _Fit(found[0], l, n2, s, covariance, squares)


def _terms(
    fit: _Fit, points: Sequence[Point], half: Known, needle: Known, along: tuple[float, float]
) -> dict[str, float]:
    """The share of each source in the standard uncertainty of ln m + … l: its coefficients are `along`."""
    rows = fit.covariance[0], fit.covariance[1]
    weight = [along[0] * one + along[1] * other for one, other in zip(*rows)]
    angle = distance = 0.0
    for p in points:
        coefficients, _ = _line(p, fit.l, fit.l, fit.needle, fit.spread)
        pull = math.sumprod(weight, coefficients) / p.own**2
        angle, distance = math.hypot(angle, pull * p.angle), math.hypot(distance, pull * p.distance)
    length = math.hypot(weight[1] / half.u, weight[3] / between(*SPREAD).u)
    return dict(zip(TERMS, (angle, distance, length, abs(weight[2]) / needle.u), strict=True))

"""Which one fault the readings show: each is fitted to them, and the fits are compared.

Every candidate is the textbook's instrument (a needle so short that it is a
point) with one fault of unknown size and a moment of unknown size, fitted to
all readings by least squares (Gauss–Newton).  The sums of squares that are
left, over the variance of a reading, are compared: nothing is looked up.
A pointer that is not square to the needle shows what the first turn of setting
up left out shows, so these two are one candidate.

Such an instrument shows at most two different values at one distance, each in
four of the eight readings.  So it is fitted to the means of these fours; what the
readings differ from their own mean is the same whatever is fitted, and is added.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from exercises.bench.field import distance_end_on
from exercises.bench.instrument import ALONE, PATTERNS, Box, pointer_ends

#: Faults of the whole set of readings, each with its step for the numerical slope (m or degrees).
COMMON = {"pivot": 1e-5, "zero": 0.01, "first-turn": 0.01, "second-turn": 0.01, "box": 1e-5, "centre": 1e-5}
#: Those of setting up: all three set N east against N west, and only their way with the deflection tells them apart.
OF_SETTING = ("zero", "first-turn", "second-turn")
#: Which four of the eight each of them sets against the other four: a key of instrument.PATTERNS.
PATTERN = {"pivot": "ends", **dict.fromkeys(OF_SETTING, "north"), "box": "arms", "centre": "outward"}
STEPS = 8  # of Gauss–Newton at most, from no fault
GOOD = 1e-6  # degrees²: a step that gains less than this is the last; a reading's variance is 50 000 times as much
#: Gains are in variances of one reading: a fault is believed from CLEAR on, looked for
#: from FAINT on, and told from the next best if that gains less by APART.
FAINT, CLEAR, APART = 9.0, 20.0, 9.0
SCALE = Box()  # only its radius counts here


@dataclass(frozen=True)
class Fit:
    """One candidate fitted.

    size   of the fault: m, or degrees; what is to be taken off to mend it
    left   sum of squares of the residuals, degrees²
    gain   how much less that is than without a fault, in variances of one reading
    row, reading   which distance and which of its eight, for the faults of one only
    """

    fault: str
    size: float
    left: float
    gain: float
    row: int | None = None
    reading: int | None = None


def strength(q: float, r: float, l: float) -> float:
    """tan θ end-on of a magnet with q = (µ0/4π)·m/B_H (m³) at r, half length l (m)."""
    return q * 2 * r / (r * r - l * l) ** 2


def two(q: float, d: float, l: float, fault: str = "", size: float = 0.0) -> tuple[float, float]:
    """What the textbook's instrument with at most one fault shows (degrees) in the fours that the fault parts."""
    if fault == "zero":
        phi = math.degrees(math.atan(strength(q, d, l)))
        return phi + size, abs(size - phi)
    if fault in ("first-turn", "second-turn"):  # the arms are askew; with the second turn left out the scale is too
        askew, b = math.radians(size), strength(q, d, l)
        across, along = b * math.cos(askew), b * math.sin(askew)
        east, west = math.degrees(math.atan2(across, 1 + along)), math.degrees(math.atan2(across, 1 - along))
        return (east, west) if fault == "first-turn" else (abs(east + size), abs(west - size))
    if fault == "pivot":
        return pointer_ends(math.degrees(math.atan(strength(q, d, l))), SCALE, ALONE["pivot"](size))
    off = -size if fault == "box" else size
    one, other = strength(q, d + off, l), strength(q, d - off, l)
    return math.degrees(math.atan(one)), math.degrees(math.atan(other))


def eight(q: float, d: float, l: float, fault: str = "", size: float = 0.0) -> list[float]:
    """The eight readings (degrees) of the textbook's instrument with at most one fault, in the order of `EIGHT`."""
    one, other = two(q, d, l, fault, size)
    return [one if side > 0 else other for side in PATTERNS[PATTERN.get(fault, "ends")]]


Rows = Sequence[tuple[float, Sequence[float]]]  # (d, its eight readings)
Fours = Sequence[tuple[float, float, float]]  # (d, the means of the four readings of each kind)
Means = Sequence[tuple[float, float, int]]  # (d, mean of so many readings)


def _about(readings: Sequence[float], mean: float) -> float:
    """Sum of the squares of what the readings differ from a number."""
    return sum([(r - mean) ** 2 for r in readings])


def _means(rows: Rows) -> Means:
    return [(d, sum(readings) / len(readings), len(readings)) for d, readings in rows]


def _scatter(rows: Rows) -> float:
    """What is left of the readings when each row's own mean is fitted, degrees²."""
    return sum([_about(readings, sum(readings) / len(readings)) for _, readings in rows])


def _fours(rows: Rows, pattern: str) -> tuple[Fours, float]:
    """The means of both fours of each row, and what is left when they are fitted, degrees²."""
    fours, left = [], 0.0
    for d, readings in rows:
        ones = [r for r, side in zip(readings, PATTERNS[pattern]) if side > 0]
        others = [r for r, side in zip(readings, PATTERNS[pattern]) if side < 0]
        one, other = sum(ones) / 4, sum(others) / 4
        fours.append((d, one, other))
        left += _about(ones, one) + _about(others, other)
    return fours, left


def fit_moment(rows: Rows, l: float) -> tuple[float, float]:
    """(q, sum of squares) of the perfect instrument.

    rows   (d in m, readings in degrees) of each distance; not all need have eight
    """
    means = _means(rows)
    d, mean, _ = means[0]
    q, left = math.tan(math.radians(mean)) / strength(1.0, d, l), 0.0
    for _ in range(STEPS):
        left = uu = uo = 0.0
        for d, mean, n in means:
            tangent = strength(q, d, l)
            off = mean - math.degrees(math.atan(tangent))
            u = math.degrees(tangent / (1 + tangent * tangent))  # slope by ln q
            left, uu, uo = left + n * off * off, uu + n * u * u, uo + n * u * off
        q *= 1 + uo / uu
        gained = uo * uo / uu
        left -= gained
        if gained < GOOD:
            break
    return q, left + _scatter(rows)


def fit_size(fours: Fours, l: float, fault: str, q: float) -> tuple[float, float]:
    """(size, sum of squares) of one of the COMMON faults: its size and the moment together; q is a start."""
    h, size, left = COMMON[fault], 0.0, 0.0
    for _ in range(STEPS):
        left = uu = uv = vv = uo = vo = 0.0
        for d, *means in fours:
            here = two(q, d, l, fault, size)
            stronger, larger = two(q * 1.0001, d, l, fault, size), two(q, d, l, fault, size + h)
            for mean, m, m_q, m_size in zip(means, here, stronger, larger):
                off, u, v = mean - m, (m_q - m) / 1e-4, (m_size - m) / h
                left, uu, uv, vv = left + 4 * off * off, uu + 4 * u * u, uv + 4 * u * v, vv + 4 * v * v
                uo, vo = uo + 4 * u * off, vo + 4 * v * off
        over = uu * vv - uv * uv
        by_q, by_size = (uo * vv - vo * uv) / over, (vo * uu - uo * uv) / over
        q *= 1 + by_q
        size += by_size
        gained = uo * by_q + vo * by_size
        left -= gained
        if gained < GOOD:
            break
    return size, left


def variance(step: float, eye: float = 0.2) -> float:
    """Of one reading, degrees²: the eye's, and the rounding to the scale step (GUM 4.3.7: step²/12)."""
    return eye * eye + step * step / 12


def fit_all(rows: Rows, l: float, step: float) -> list[Fit]:
    """Every candidate fitted, the best first.

    rows  (d in m, eight readings in degrees) of each distance, two at least
    l     half the magnetic length, m;  step  scale step, degrees
    """
    s2 = variance(step)
    q, none = fit_moment(rows, l)
    by_pattern = {pattern: _fours(rows, pattern) for pattern in PATTERNS}
    fits = []
    for fault in COMMON:
        fours, within = by_pattern[PATTERN[fault]]
        size, left = fit_size(fours, l, fault, q)
        fits.append(Fit(fault, size, left + within, (none - left - within) / s2))
    fits += [_misread(rows, l, q, none, s2), _distance(rows, l, q, none, s2)]
    return sorted(fits, key=lambda f: f.left)


def _perfect(q: float, d: float, l: float) -> float:
    """Every reading of the perfect instrument at d, degrees."""
    return math.degrees(math.atan(strength(q, d, l)))


def _misread(rows: Rows, l: float, q: float, none: float, s2: float) -> Fit:
    """The one reading without which the others agree best."""
    expected = [_perfect(q, d, l) for d, _ in rows]
    off = [abs(r - right) for (_, readings), right in zip(rows, expected) for r in readings]
    row, reading = divmod(off.index(max(off)), 8)
    d, readings = rows[row]
    others = d, [r for i, r in enumerate(readings) if i != reading]
    best, left = fit_moment([*rows[:row], others, *rows[row + 1 :]], l)
    return Fit("misread", readings[reading] - _perfect(best, d, l), left, (none - left) / s2, row, reading)


def _distance(rows: Rows, l: float, q: float, none: float, s2: float) -> Fit:
    """The one distance without which the others agree best."""
    means = _means(rows)
    sums = [abs(mean - _perfect(q, d, l)) for d, mean, _ in means]
    # the largest stands out, or pulls the moment so far that a neighbour does
    tried = sorted(range(len(rows)), key=lambda i: -sums[i])[:2]
    found = []
    for row in tried:
        # at its own distance this row's mean is fitted whatever the moment is, so the others alone decide on that
        best, left = fit_moment([*rows[:row], *rows[row + 1 :]], l)
        left += _scatter([rows[row]])
        d, mean, _ = means[row]
        true = distance_end_on(best * 1e7, math.tan(math.radians(mean)), l)
        found.append(Fit("distance", d - true, left, (none - left) / s2, row))
    return min(found, key=lambda f: f.left)


def named(fits: Sequence[Fit]) -> str:
    """What the readings say: the name of a fault, "none", or "undecided".

    fits   from `fit_all`, the best first
    """
    best, next_best = fits[0], fits[1]
    if best.gain < FAINT:
        return "none"
    if best.gain < CLEAR or best.gain - next_best.gain < APART:
        return "undecided"
    return best.fault

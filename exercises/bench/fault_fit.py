"""Which one fault the readings show: each is fitted to them, and the fits are compared.

Every candidate is the textbook's instrument (a needle so short that it is a
point) with one fault of unknown size and a moment of unknown size, fitted to
all readings by least squares (Gauss–Newton).  The sums of squares that are
left, over the variance of a reading, are compared: nothing is looked up.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from exercises.bench.instrument import Box, Faults, pointer_ends

#: Faults of the whole set of readings, each with its step for the numerical slope (m or degrees).
COMMON = {"pivot": 1e-5, "zero": 0.01, "board": 0.01, "box": 1e-5, "centre": 1e-5}
STEPS = 4  # of Gauss–Newton, from no fault; what is left to gain then is far below a reading's variance
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


def eight(q: float, d: float, l: float, fault: str = "", size: float = 0.0) -> list[float]:
    """The eight readings (degrees) of the textbook's instrument with at most one fault, in the order of `EIGHT`."""
    askew = math.radians(size) if fault == "board" else 0.0
    cos, sin = math.cos(askew), math.sin(askew)
    out: list[float] = []
    for arm in (1, -1):
        for north in (1, -1):
            r = d - arm * size if fault == "box" else d + arm * north * size if fault == "centre" else d
            b = north * strength(q, r, l)
            phi = math.degrees(math.atan2(b * cos, 1 + b * sin))
            if fault == "pivot":
                out += pointer_ends(phi, SCALE, Faults(pivot_x=size))
            else:
                shown = abs(phi + size) if fault == "zero" else abs(phi)
                out += (shown, shown)
    return out


Rows = Sequence[tuple[float, Sequence[float]]]  # (d, its eight readings)


def _off(rows: Rows, model: Callable[[float], list[float]]) -> list[float]:
    return [r - m for d, readings in rows for r, m in zip(readings, model(d))]


def _squares(off: Sequence[float]) -> float:
    return sum(x * x for x in off)


def first_guess(rows: Rows, l: float) -> float:
    """q from the mean of all eight at the first distance."""
    d, readings = rows[0]
    return math.tan(math.radians(sum(readings) / 8)) / strength(1.0, d, l)


def fit_moment(rows: Rows, l: float, leave_out: int | None = None) -> tuple[float, float]:
    """(q, sum of squares) of the perfect instrument, without the reading numbered `leave_out`."""
    q = first_guess(rows, l)

    def off(q: float) -> list[float]:
        found = _off(rows, lambda d: eight(q, d, l))
        if leave_out is not None:
            found[leave_out] = 0.0
        return found

    for _ in range(STEPS):
        here = off(q)
        slope = [(a - b) / 1e-4 for a, b in zip(here, off(q * 1.0001))]
        q *= 1 + sum(s * o for s, o in zip(slope, here)) / _squares(slope)
    return q, _squares(off(q))


def fit_size(
    rows: Rows, l: float, model: Callable[[float, float], list[float]], h: float, q: float
) -> tuple[float, float]:
    """(size, sum of squares): a fault and the moment together; `model(q, size)` gives all readings, q a start."""
    observed = [r for _, readings in rows for r in readings]

    def off(q: float, size: float) -> list[float]:
        return [o - m for o, m in zip(observed, model(q, size))]

    size = 0.0
    for _ in range(STEPS):
        here = off(q, size)
        u = [(a - b) / 1e-4 for a, b in zip(here, off(q * 1.0001, size))]
        v = [(a - b) / h for a, b in zip(here, off(q, size + h))]
        uu, uv, vv = _squares(u), sum(a * b for a, b in zip(u, v)), _squares(v)
        uo, vo = sum(a * b for a, b in zip(u, here)), sum(a * b for a, b in zip(v, here))
        over = uu * vv - uv * uv
        q *= 1 + (uo * vv - vo * uv) / over
        size += (vo * uu - uo * uv) / over
    return size, _squares(off(q, size))


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
    fits = []
    for fault, h in COMMON.items():

        def model(q: float, size: float, fault: str = fault) -> list[float]:
            return [m for d, _ in rows for m in eight(q, d, l, fault, size)]

        size, left = fit_size(rows, l, model, h, q)
        fits.append(Fit(fault, size, left, (none - left) / s2))
    fits += [_misread(rows, l, q, none, s2), _distance(rows, l, q, none, s2)]
    return sorted(fits, key=lambda f: f.left)


def _misread(rows: Rows, l: float, q: float, none: float, s2: float) -> Fit:
    """The one reading without which the others agree best."""
    off = _off(rows, lambda d: eight(q, d, l))
    worst = max(range(len(off)), key=lambda i: abs(off[i]))
    best, left = fit_moment(rows, l, worst)
    row, reading = divmod(worst, 8)
    d, readings = rows[row]
    return Fit("misread", readings[reading] - eight(best, d, l)[reading], left, (none - left) / s2, row, reading)


def _distance(rows: Rows, l: float, q: float, none: float, s2: float) -> Fit:
    """The one distance without which the others agree best."""
    off = _off(rows, lambda d: eight(q, d, l))
    sums = [abs(sum(off[8 * i : 8 * i + 8])) for i in range(len(rows))]
    # the largest stands out, or pulls the moment so far that a neighbour does
    tried = sorted(range(len(rows)), key=lambda i: -sums[i])[:2]
    found = []
    for row in tried:

        def model(q: float, size: float, row: int = row) -> list[float]:
            # what stands on the sheet is `size` too large
            return [m for i, (d, _) in enumerate(rows) for m in eight(q, d - size if i == row else d, l)]

        size, left = fit_size(rows, l, model, 1e-5, q)
        found.append(Fit("distance", size, left, (none - left) / s2, row))
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

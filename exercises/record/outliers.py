"""Which readings do not belong with the others, once the instrument's own pattern is taken out.

The eight readings differ from each other in a pattern that is no error of
reading: pivot, zero, arms, box and magnetic centre each set four of them
against the other four.  So all readings of a record are fitted together, by
least squares, with

    one mean for each distance,
    one size for each of six effects, the same fault at every distance.

An effect is held near nothing by one imagined observation of PRIOR degrees, so
that a record of one distance can be fitted too.  Then what stands farthest out
is looked for, a single reading or the four of one side at one distance, tested,
set free, and the next one looked for: the generalized extreme Studentized
deviate procedure (B. Rosner, *Technometrics* 25 (1983) 165), which two
misreadings cannot hide each other from.  The variance of a reading is pooled
from the residuals and what the scale lets expect.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from exercises.bench.fault_fit import variance
from exercises.bench.instrument import EIGHT, PATTERNS
from exercises.record.student_t import beyond

PRIOR = 2.0  # degrees; about the largest effect of an instrument in fair condition, common practice, no source
EXPECTED_COUNTS = 8  # observations that the expected reading error is worth beside the residuals
CHANCE = 0.005  # that a record without a misreading has one named
SIDES = ("ends", "north", "arms", "outward")
_TWIST = tuple((1 if north == "east" else -1) * (1 if end == 1 else -1) for _, north, end in EIGHT)


@dataclass(frozen=True)
class Stray:
    """What stands out: a reading (0–7) of a row, or a side (a key of PATTERNS) of it.

    off    how far the reading lies from what the others say, degrees; of a side,
           how much more its four and the other four differ than at the other distances
    error  standard error of `off`
    """

    row: int
    reading: int | None
    side: str
    off: float
    error: float


@dataclass(frozen=True)
class Structure:
    """All readings of a record fitted together.

    scatter     standard deviation of one reading about the pattern, degrees, pooled
    freedom     degrees of freedom of the residuals in it
    strays      what stands out, in the order of finding
    cleaned     the readings, those that stand out replaced by what the others say
    """

    scatter: float
    freedom: float
    strays: tuple[Stray, ...]
    cleaned: tuple[tuple[float, ...], ...]


def columns(rows: Sequence[tuple[float, Sequence[float]]], l: float) -> list[list[float]]:
    """The columns of the six effects over all readings: degrees of reading for one degree of effect at 45°.

    rows  (d in m, eight readings in degrees);  l  half the magnetic length, m
    """
    out: list[list[float]] = [[] for _ in range(6)]
    for d, readings in rows:
        t = math.radians(min(max(median(readings), 1.0), 89.0))
        sin, cos = math.sin(t), math.cos(t)
        steep = 2 * sin * cos * (3 * d * d + l * l) / (3 * (d * d - l * l))  # of a shift along the arm
        steep *= median(d for d, _ in rows) / d
        sizes = (1.4142 * sin, 1.0, 2 * sin * sin, steep, steep)
        for column, pattern, size in zip(out, ("ends", "north", "north", "arms", "outward"), sizes):
            column += [size * sign for sign in PATTERNS[pattern]]
        out[5] += [1.4142 * cos * sign for sign in _TWIST]
    return out


def fit(rows: Sequence[tuple[float, Sequence[float]]], l: float, step: float) -> Structure:
    """The readings fitted and what stands out found.

    rows  (d > l in m, eight readings in degrees) of each distance, one at least
    l     half the magnetic length, m;  step  scale step, degrees
    """
    n, seen = len(rows), [x for _, readings in rows for x in readings]
    expected = variance(step)
    design = [[1.0 if i // 8 == row else 0.0 for i in range(8 * n)] for row in range(n)] + columns(rows, l)
    held = [0.0] * n + [expected / PRIOR**2] * 6
    candidates = [((row, k, ""), [(8 * row + k, 1.0)]) for row in range(n) for k in range(8)]
    if n > 2:
        candidates += [((row, None, side), _side(row, side)) for row in range(n) for side in SIDES]
    found, last = [], 0
    for turn in range(max(1, min(2 + n // 2, 8 * n // 5))):
        state = _Fit(design, held, seen, expected)
        name, places = max(candidates, key=lambda c: abs(state.tested(c[1])))
        column = [0.0] * (8 * n)
        for i, sign in places:
            column[i] = sign
        found.append((name, column))
        design, held = [*design, column], [*held, 0.0]
        after = _Fit(design, held, seen, expected)
        size = abs(after.value[-1]) / (after.scatter * math.sqrt(after.inverse[-1][-1]))
        if size > beyond(CHANCE / len(candidates), max(1, int(after.freedom) + EXPECTED_COUNTS)):
            last = turn + 1
        candidates = [c for c in candidates if c[0] != name]
    design, held = design[: n + 6 + last], held[: n + 6 + last]
    final = _Fit(design, held, seen, expected)
    strays, clean = [], list(seen)
    for at, ((row, k, side), column) in enumerate(found[:last], n + 6):
        error = final.scatter * math.sqrt(final.inverse[at][at])
        share = 1.0 if k is not None else 2.0  # of a side: half of the difference of the two fours
        strays.append(Stray(row, k, side, share * final.value[at], share * error))
        clean = [x - final.value[at] * c for x, c in zip(clean, column)]
    cleaned = tuple(tuple(clean[8 * i : 8 * i + 8]) for i in range(n))
    return Structure(final.scatter, final.freedom, tuple(strays), cleaned)


def _unit(at: int, count: int) -> list[float]:
    return [1.0 if i == at else 0.0 for i in range(count)]


def _side(row: int, side: str) -> list[tuple[int, float]]:
    return [(8 * row + k, float(sign)) for k, sign in enumerate(PATTERNS[side])]


class _Fit:
    """Least squares of `seen` on the columns of a design, each held near nothing with so much weight."""

    def __init__(self, design, held, seen, expected):
        self.design = design
        squares = [[math.sumprod(a, b) for b in design] for a in design]
        for i, weight in enumerate(held):
            squares[i][i] += weight
        self.inverse = inverted(squares)
        right = [math.sumprod(a, seen) for a in design]
        self.value = [math.sumprod(line, right) for line in self.inverse]
        self.off = [x - sum(v * c[i] for v, c in zip(self.value, design)) for i, x in enumerate(seen)]
        free = sum(weight * self.inverse[i][i] for i, weight in enumerate(held))  # of the columns that are held
        self.freedom = max(0.0, len(seen) - len(design) + free)
        pooled = EXPECTED_COUNTS * expected + math.sumprod(self.off, self.off)
        self.scatter = math.sqrt(pooled / (EXPECTED_COUNTS + self.freedom))

    def tested(self, places: Sequence[tuple[int, float]]) -> float:
        """What is gained by setting a column of (place, ±1) free, as the root of the fall in the sum of squares."""
        across = [sum(sign * c[i] for i, sign in places) for c in self.design]
        left = len(places) - math.sumprod(across, [math.sumprod(line, across) for line in self.inverse])
        return sum(sign * self.off[i] for i, sign in places) / math.sqrt(left) if left > 1e-6 else 0.0


def inverted(matrix: list[list[float]]) -> list[list[float]]:
    """The inverse of a square matrix, by elimination with pivots.  ZeroDivisionError if it has none."""
    n = len(matrix)
    work = [[*line, *_unit(i, n)] for i, line in enumerate(matrix)]
    for at in range(n):
        best = max(range(at, n), key=lambda i: abs(work[i][at]))
        work[at], work[best] = work[best], work[at]
        pivot = work[at][at]
        work[at] = [x / pivot for x in work[at]]
        for i in range(n):
            if i != at and work[i][at]:
                factor = work[i][at]
                work[i] = [x - factor * y for x, y in zip(work[i], work[at])]
    return [line[n:] for line in work]


# -- what a misreading looks like -------------------------------------------------


def looks_like(seen: float, expected: float, room: float) -> list[str]:
    """What a misread number may be, in words, the likeliest first; `room` is how near it must come, degrees."""
    tens, rest = divmod(seen, 10)
    ways = [(seen + by, f"read {by}° too small") for by in (10, 5, 20)]
    ways += [(seen - by, f"read {by}° too large") for by in (10, 5, 20)]
    ways.append((90 - seen, "90° less the reading, counted from the wrong end of the quarter"))
    if tens != rest // 1:
        ways.append((10 * (rest // 1) + tens + rest % 1, "its two figures exchanged"))
    ways.append((10 * tens + 10 - rest, "counted from the next numbered mark, backwards"))
    ways.append((10 * seen, "its point one place too far to the left"))
    near = sorted((abs(value - expected), i) for i, (value, _) in enumerate(ways) if abs(value - seen) > 2 * room)
    return [ways[i][1] for gap, i in near if gap <= room][:3]

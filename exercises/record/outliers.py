"""Which readings do not belong with the others, once the instrument's own pattern is taken out.

The eight readings differ from each other in a pattern that is no error of
reading: pivot, zero, arms, box and magnetic centre each set four of them
against the other four.  So all readings of a record are fitted together, by
least squares, with

    one mean for each distance,
    one size for each effect of the instrument (six, in tan B seven), the same fault at every distance.

An effect is held near zero by one imagined observation of PRIOR degrees, so
that a record of one distance can be fitted too.  Then the search begins.  What
stands farthest out, a single reading or the four of one side at one distance,
is tested and left out of the fit, and the next one is looked for.  This is the
generalized extreme Studentized deviate procedure (B. Rosner, *Technometrics*
25 (1983) 165): two misreadings cannot hide each other from it.  The variance of
a reading is pooled from the residuals and from what the scale leads one to expect.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median
from typing import NamedTuple

from exercises.bench.fault_fit import variance
from exercises.bench.instrument import EIGHT, PATTERNS
from exercises.bench.student_t import beyond

PRIOR = 2.0  # degrees; about the largest effect of an instrument in fair condition, common practice, no source
EXPECTED_COUNTS = 8  # observations that the expected reading error is worth beside the residuals
CHANCE = 0.005  # that a record without a misreading has one named
ROUNDING = 1.25  # scale steps: readings that should be the same may round to both sides, and then differ by one step
EFFECTS = 6  # of the instrument in tan A, each with one size; in tan B there is one more
SIDES = ("ends", "north", "arms", "outward")
_TWIST = tuple((1 if north == "east" else -1) * (1 if end == 1 else -1) for _, north, end in EIGHT)
_SIGNS = {**PATTERNS, "twist": _TWIST}

#: (d in m, eight readings in degrees) of each distance.
Rows = Sequence[tuple[float, Sequence[float]]]


@dataclass(frozen=True)
class Outlier:
    """What stands out: a reading (0–7) of a row, or with None a side (a key of PATTERNS) of it.

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
class ReadingFit:
    """All readings of a record fitted together.

    scatter    standard deviation of one reading about the pattern, degrees, pooled
    freedom    degrees of freedom of the residuals in it
    outliers   what stands out, in the order of finding
    corrected  the readings, those that stand out replaced by what the others say
    """

    scatter: float
    freedom: float
    outliers: tuple[Outlier, ...]
    corrected: tuple[tuple[float, ...], ...]


def effect_columns(rows: Rows, l: float, tan_b: bool = False) -> list[list[float]]:
    """The columns of the effects over all readings: degrees of reading for one degree of effect at 45°.

    l  half the magnetic length, m

    Any fault of setting up is made of the second and the third: α cos²θ − ε = (α − ε) − α sin²θ.

    In tan B a shift across the arm turns the field towards the needle or away, by 3s/d: a magnetic centre off the
    middle does it alike with N east and N west, a pivot beside the line of the arms the other way (worked here from the
    dipole's field; tests compare it with the instrument).
    """
    if not rows:
        return []
    middle, each = median(d for d, _ in rows), []
    for d, readings in rows:
        t = math.radians(min(max(median(readings), 1.0), 89.0))
        sin, cos = math.sin(t), math.cos(t)
        across = 2 * sin * sin * middle / d
        along = 2 * sin * cos * middle / d
        if tan_b:
            along *= d * d / (d * d + l * l)
            shifts = [("arms", along), ("arms", across), ("outward", across)]
        else:
            along *= (3 * d * d + l * l) / (3 * (d * d - l * l))
            shifts = [("arms", along), ("outward", along)]
        each.append(
            (("ends", 1.4142 * sin), ("north", 1.0), ("north", 2 * sin * sin), *shifts, ("twist", 1.4142 * cos))
        )
    return [[size * sign for pattern, size in column for sign in _SIGNS[pattern]] for column in zip(*each, strict=True)]


class _Candidate(NamedTuple):
    """What may stand out: one reading of a row, or with None one side of it."""

    row: int
    reading: int | None
    side: str

    def places(self) -> list[tuple[int, float]]:
        """(place among all readings, +1 or −1) of each reading that it moves."""
        if self.reading is not None:
            return [(8 * self.row + self.reading, 1.0)]
        return [(8 * self.row + k, float(sign)) for k, sign in enumerate(PATTERNS[self.side])]

    @property
    def share(self) -> float:
        """How far it lies off for a column of size 1: of a side, the difference of the two fours."""
        return 1.0 if self.reading is not None else 2.0

    def column(self, count: int) -> list[float]:
        """Its column over `count` readings."""
        column = [0.0] * count
        for i, sign in self.places():
            column[i] = sign
        return column


def _candidates(distances: int) -> list[_Candidate]:
    found = [_Candidate(row, k, "") for row in range(distances) for k in range(8)]
    if distances > 2:  # of two, nothing tells which one has the side that is out
        found += [_Candidate(row, None, side) for row in range(distances) for side in SIDES]
    return found


class _Design(NamedTuple):
    """The columns that the readings are fitted with, and the weight with which each is held near zero."""

    columns: list[list[float]]
    held: list[float]

    def with_free(self, columns: Sequence[list[float]]) -> "_Design":
        """The design with these columns too, which nothing holds."""
        return _Design([*self.columns, *columns], [*self.held, *(0.0 for _ in columns)])


def _design(rows: Rows, l: float, expected: float, tan_b: bool) -> _Design:
    n = len(rows)
    means = [[1.0 if i // 8 == row else 0.0 for i in range(8 * n)] for row in range(n)]
    effects = effect_columns(rows, l, tan_b)
    return _Design(means + effects, [0.0] * n + [expected / PRIOR**2] * len(effects))


def fit_readings(rows: Rows, l: float, step: float, tan_b: bool = False) -> ReadingFit:
    """The readings fitted, and what stands out found.

    rows  at least one, d > l
    l     half the magnetic length, m;  step  scale step, degrees
    """
    n, seen = len(rows), [x for _, readings in rows for x in readings]
    expected = variance(step)
    design = _design(rows, l, expected, tan_b)
    found = _search(design, n, seen, expected, ROUNDING * step)
    columns = [candidate.column(8 * n) for candidate in found]
    final = _LeastSquares(design.with_free(columns), seen, expected)
    outliers, clean = [], seen
    for at, (candidate, column) in enumerate(zip(found, columns), len(design.columns)):
        share = candidate.share
        outliers.append(Outlier(*candidate, share * final.value[at], share * final.error(at)))
        clean = [x - final.value[at] * c for x, c in zip(clean, column)]
    corrected = tuple(tuple(clean[8 * i : 8 * i + 8]) for i in range(n))
    return ReadingFit(final.scatter, final.freedom, tuple(outliers), corrected)


def _search(design: _Design, distances: int, seen: Sequence[float], expected: float, least: float) -> list[_Candidate]:
    """What stands out, in the order of finding: all up to the last one that passes its test.

    least  how far it must lie off, degrees
    """
    candidates = _candidates(distances)
    found: list[_Candidate] = []
    passed = 0
    for turn in range(max(1, min(2 + distances // 2, 8 * distances // 5))):
        state = _LeastSquares(design, seen, expected)
        farthest = max(candidates, key=lambda c: abs(state.gain(c.places())))
        found.append(farthest)
        design = design.with_free([farthest.column(8 * distances)])
        after = _LeastSquares(design, seen, expected)
        off = abs(after.value[-1])
        sure = beyond(CHANCE / len(candidates), max(1, int(after.freedom) + EXPECTED_COUNTS))
        if off > sure * after.error(-1) and farthest.share * off > least:
            passed = turn + 1
        candidates.remove(farthest)
    return found[:passed]


class _LeastSquares:
    """Least squares of the readings that were seen, on the columns of a design.

    value    the size of each column;  left  the residuals, degrees
    freedom  degrees of freedom;  scatter  standard deviation of one reading, degrees
    """

    def __init__(self, design: _Design, seen: Sequence[float], expected: float):
        self.columns = design.columns
        squares = [[math.sumprod(a, b) for b in self.columns] for a in self.columns]
        for i, weight in enumerate(design.held):
            squares[i][i] += weight
        self.inverse = inverse(squares)
        right = [math.sumprod(a, seen) for a in self.columns]
        self.value = [math.sumprod(line, right) for line in self.inverse]
        self.left = [x - sum(v * c[i] for v, c in zip(self.value, self.columns)) for i, x in enumerate(seen)]
        free = sum(weight * self.inverse[i][i] for i, weight in enumerate(design.held))  # of the columns that are held
        self.freedom = max(0.0, len(seen) - len(self.columns) + free)
        pooled = EXPECTED_COUNTS * expected + math.sumprod(self.left, self.left)
        self.scatter = math.sqrt(pooled / (EXPECTED_COUNTS + self.freedom))

    def error(self, at: int) -> float:
        """Standard error of the size of a column."""
        return self.scatter * math.sqrt(self.inverse[at][at])

    def gain(self, places: Sequence[tuple[int, float]]) -> float:
        """What is gained by setting a column of (place, ±1) free, as the root of the fall in the sum of squares."""
        across = [sum(sign * c[i] for i, sign in places) for c in self.columns]
        left = len(places) - math.sumprod(across, [math.sumprod(line, across) for line in self.inverse])
        return sum(sign * self.left[i] for i, sign in places) / math.sqrt(left) if left > 1e-6 else 0.0


def inverse(matrix: Sequence[Sequence[float]]) -> list[list[float]]:
    """The inverse of a square matrix, by elimination with pivots.  ZeroDivisionError if it has none.

    >>> inverse([[2.0, 0.0], [0.0, 4.0]])
    [[0.5, 0.0], [0.0, 0.25]]
    """
    n = len(matrix)
    work = [[*line, *(1.0 if j == i else 0.0 for j in range(n))] for i, line in enumerate(matrix)]
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

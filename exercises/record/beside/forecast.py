"""What the next reading is to be, from the readings so far: a guess that is mended by each reading that is taken.

What is not known is one vector, each part with what is known of it before the first reading, as mean 0 and a
standard deviation:

    the moment, and half the magnetic length        the cubic law of every distance
    what a wrong d adds to each distance            degrees
    six effects of the instrument                   those of outliers.effect_columns

A reading is a sum of these parts, to first order, and an error of its own.  So each reading that is taken mends all
parts at once (least squares with one observation more: R. L. Plackett, *Biometrika* 37 (1950) 149), and what a reading
is to be comes with a standard deviation before it is read.
"""

import math
from collections.abc import Sequence
from statistics import median
from typing import NamedTuple, Self

from exercises.bench.fault_fit import strength, variance
from exercises.bench.uncertainty import distance_term
from exercises.record.estimate import Known
from exercises.record.outliers import EFFECTS, effect_columns

#: Standard deviations of what an honest instrument does, degrees at 45°, in the order of outliers.effect_columns: the
#: pivot east–west, zero, turns, box, magnetic centre, the pivot north–south.  Common practice, no source.
USUAL = (0.35, 0.4, 0.35, 0.4, 0.4, 0.35)
UNUSUAL = 3.0  # times: of an instrument with faults that plainly show
ANY_MOMENT, ANY_DEFLECTION = 5.0, 90.0  # of ln m, and degrees: nothing is known of it
D_WITHIN = 0.7e-3  # m, standard deviation of a d that is set with care; common practice, no source
LEAST, MOST = 1.0, 89.0  # degrees: what is read below and above says nothing of the moment
NEAREST = 1.05  # times half the magnetic length: nearer there is no law


class Seen(NamedTuple):
    """One reading that was taken: its distance and which of the eight it is, from 0, and its value in degrees."""

    row: int
    k: int
    value: float


class Bench(NamedTuple):
    """What is fixed while readings come: every d (m), what is known of half the magnetic length (m), the scale step."""

    ds: tuple[float, ...]
    half: Known
    step: float


class Law:
    """The deflections that the cubic law gives at each distance, with a moment that lies in the middle of those seen.

    columns  of each reading (8·row + k), what one unit of each unknown does to it, degrees
    middle   of each row, the deflection at no unknown, degrees
    """

    def __init__(self, bench: Bench, seen: Sequence[Seen]):
        self.bench, l, n = bench, bench.half.value, len(bench.ds)
        of = [_tangent(s.value) / strength(1.0, bench.ds[s.row], l) for s in seen]
        self.q = median(of) if of else 1.0
        self.middle = [self.deflection(d) for d in bench.ds]
        effects = effect_columns([(d, (t,) * 8) for d, t in zip(bench.ds, self.middle)], l)
        self.columns: list[list[float]] = []
        self.within = []
        for row, (d, theta) in enumerate(zip(bench.ds, self.middle)):
            by_q, by_l = _slopes(theta, d, l)
            self.within.append(by_q * distance_term(d, l, D_WITHIN))
            own = [1.0 if i == row else 0.0 for i in range(n)]
            self.columns += [[by_q, by_l, *own, *(e[8 * row + k] for e in effects)] for k in range(8)]

    def deflection(self, d: float) -> float:
        """θ at a distance in m, degrees, at no unknown."""
        return math.degrees(math.atan(strength(self.q, d, self.bench.half.value)))

    def prior(self, times: float, free: int | None) -> list[float]:
        """The standard deviation of each unknown; see `Forecast`."""
        within = [ANY_DEFLECTION if row == free else times * x for row, x in enumerate(self.within)]
        return [ANY_MOMENT, self.bench.half.u, *within, *(times * x for x in USUAL)]


def _tangent(theta: float) -> float:
    return math.tan(math.radians(min(max(theta, LEAST), MOST)))


def _slopes(theta: float, d: float, l: float) -> tuple[float, float]:
    """By what θ (degrees) grows with ln m, and with half the magnetic length in m."""
    by_q = math.degrees(math.sin(math.radians(2 * theta)) / 2)
    return by_q, by_q * 4 * l / (d * d - l * l)


class Forecast:
    """What is known of the unknowns of a law after the readings that were taken.

    times  by how much the instrument's effects, and what a wrong d adds, may be larger than is usual
    free   a distance of which the others are to say nothing, or None
    """

    def __init__(self, law: Law, times: float = 1.0, free: int | None = None):
        self.law = law
        prior = law.prior(times, free)
        self.spread = [[u * u if i == j else 0.0 for j in range(len(prior))] for i, u in enumerate(prior)]
        self.mean = [0.0] * len(prior)
        self.error = variance(law.bench.step)

    def copy(self) -> Self:
        """Another that is mended without this one."""
        other = object.__new__(type(self))
        other.law, other.error = self.law, self.error
        other.mean, other.spread = list(self.mean), [list(row) for row in self.spread]
        return other

    def look(self, s: Seen) -> tuple[float, float]:
        """(how far a reading lies from what is expected, the standard deviation of that), degrees."""
        more, u = self._sum(self.law.columns[8 * s.row + s.k])
        return s.value - self.law.middle[s.row] - more, math.hypot(u, math.sqrt(self.error))

    def take(self, s: Seen) -> None:
        """A reading mends what is known."""
        column = self.law.columns[8 * s.row + s.k]
        by = [math.sumprod(row, column) for row in self.spread]
        over = math.sumprod(column, by) + self.error
        off = (s.value - self.law.middle[s.row] - math.sumprod(column, self.mean)) / over
        self.mean = [m + b * off for m, b in zip(self.mean, by)]
        self.spread = [[x - b * c for x, c in zip(row, by)] for row, b in zip(self.spread, [b / over for b in by])]

    @property
    def strength_now(self) -> float:
        """(µ0/4π)·m/B_H as it is known, m³."""
        return self.law.q * math.exp(self.mean[0])

    @property
    def half_now(self) -> float:
        """Half the magnetic length as it is known, m."""
        return self.law.bench.half.value + self.mean[1]

    def _sum(self, column: Sequence[float]) -> tuple[float, float]:
        """What the unknowns come to in a column, and its standard deviation."""
        by = [math.sumprod(row, column) for row in self.spread]
        return math.sumprod(column, self.mean), math.sqrt(max(0.0, math.sumprod(column, by)))

    def level(self, row: int) -> tuple[float, float]:
        """The mean deflection of a distance without the instrument's effects, and its standard deviation, degrees."""
        column = [*self.law.columns[8 * row][:-EFFECTS], *(0.0,) * EFFECTS]
        more, u = self._sum(column)
        return self.law.middle[row] + more, u

    def at(self, d: float) -> tuple[float, float]:
        """The mean deflection at any distance in m, d beyond the poles, and its standard deviation, degrees."""
        theta, l = self.law.deflection(d), self.law.bench.half.value
        by_q, by_l = _slopes(theta, d, l)
        more, u = self._sum([by_q, by_l, *(0.0 for _ in self.mean[2:])])
        return theta + more, math.hypot(u, by_q * distance_term(d, l, D_WITHIN))

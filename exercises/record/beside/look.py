"""The readings of a record in the making, looked at as they stand."""

from dataclasses import dataclass

from exercises.record.beside.forecast import NEAREST, Bench, Seen
from exercises.record.beside.watch import Watched, watched
from exercises.record.beside.work import Work
from exercises.record.entries import READINGS
from exercises.record.estimate import SHARES, Known, between, known_half
from exercises.record.givens import Givens

ANY_HALF = (0.10, 0.25)  # of the nearest d: half the magnetic length where nothing is said of it
ANY_STEP = 1.0  # degrees: the scale step where none is given


@dataclass(frozen=True)
class Looked:
    """What came of the readings.

    rows  which distance of the record, from 0, each of the bench's is: those with a d that can be worked
    """

    work: Work
    rows: tuple[int, ...]
    bench: Bench
    watched: Watched

    def cell(self, s: Seen) -> str:
        """The name of the cell that a reading stands in."""
        return f"{READINGS[s.k]}-{self.rows[s.row] + 1}"


def looked(work: Work, last: str = "") -> Looked:
    """The readings in the order of the record; that in the cell `last` as if it were read after all others."""
    given = [(i, d) for i in range(len(work.record.rows)) if (d := work.value(f"d-{i + 1}"))]
    half = half_known(work.givens, min((d for _, d in given), default=1.0))
    given = [(i, d) for i, d in given if d > half.value * NEAREST]
    rows, ds = tuple(i for i, _ in given), tuple(d for _, d in given)
    read = [(at, row, k, x) for at, row in enumerate(rows) for k, x in enumerate(work.readings(row)) if x is not None]
    read.sort(key=lambda r: f"{READINGS[r[2]]}-{r[1] + 1}" == last)
    bench = Bench(ds, half, step_of(work.givens))
    return Looked(work, rows, bench, watched(bench, [Seen(at, k, x) for at, _, k, x in read]))


def step_of(givens: Givens) -> float:
    """The scale step in degrees; without one that is given, the coarser of those that are common."""
    return givens.numbers.get("step") or ANY_STEP


def half_known(givens: Givens, nearest: float) -> Known:
    """What is known of half the magnetic length, m; `nearest` is the least d, m."""
    if givens.two_l:
        return known_half(givens.two_l, givens.length, givens.two_l_stated)
    if givens.length:
        return between(*(share * givens.length / 2 for share in SHARES))
    return between(*(share * nearest for share in ANY_HALF))

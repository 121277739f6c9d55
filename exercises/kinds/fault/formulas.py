"""The formulas of looking for a fault: differences of fours, the name of the fault, what is mended, its size."""

from collections.abc import Sequence

from exercises.bench.instrument import PATTERNS
from exercises.kinds.fault.choices import REMOVED
from exercises.kinds.fault.parts import FaultParts
from exercises.working.arithmetic import Arithmetic, Number, Span, as_span, total
from exercises.working.steps import Formula, Givens, Known

TO_TWO_DECIMALS = 0.005  # degrees


def halves(pattern: str, readings: Sequence[float]) -> tuple[float, float]:
    """The two sums of four that the pattern sets against each other."""
    one = total(r for r, side in zip(readings, PATTERNS[pattern]) if side > 0)
    return one, total(readings) - one


def difference(pattern: str, row: int) -> Formula[FaultParts]:
    """How far the two means of four differ, in degrees, without sign."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: FaultParts) -> Number:
        one, two = (parts.mean_of_four(added) for added in halves(pattern, givens["readings"][row]))
        return a.within(abs(one - two), TO_TWO_DECIMALS)

    return formula


def fault(a: Arithmetic, known: Known, givens: Givens, parts: FaultParts) -> str:
    """Which fault the readings show: a key of choices.CHOICES."""
    found: str = givens["fault"]
    return found


def where(a: Arithmetic, known: Known, givens: Givens, parts: FaultParts) -> str:
    """Where it shows: the number of a row from 1, or "all"."""
    found: str = givens["where"]
    return found


def removed(a: Arithmetic, known: Known, givens: Givens, parts: FaultParts) -> str:
    """Whether the mean of eight removes the fault that was named: a key of choices.REMOVED_CHOICES."""
    return REMOVED[known["fault"]]


def stray(readings: Sequence[float]) -> int:
    """Which of the eight lies farthest from the mean of the others."""
    added = total(readings)
    return max(range(8), key=lambda i: abs(readings[i] - (added - readings[i]) / 7))


def misread(known: Known, givens: Givens, row: int) -> int | None:
    """Which of a row's eight readings is misread, if a misread reading was named and placed there."""
    there = known["fault"] == "misread" and known["where"] == str(row + 1)
    return stray(givens["readings"][row]) if there else None


def best_mean(row: int) -> Formula[FaultParts]:
    """The mean of a row's readings without the one that is misread."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: FaultParts) -> Number:
        readings, wrong = givens["readings"][row], misread(known, givens, row)
        added, count = parts.mended_readings(readings, wrong)
        first = a.angle(parts.mean_of_those(added, count))
        if wrong is None or count == 8:
            return first
        # the misread value left out, or put right to a division: both are good practice
        put_right = a.total(readings) - readings[wrong] + givens["expected"].get(row, added / 7)
        one_out = givens["step"] / 8
        return a.either(lambda: first, lambda: a.angle(a.within(parts.mean_of_those(put_right, 8), one_out)))

    return formula


def _largest(values: Sequence[Number]) -> Number:
    if any(isinstance(v, Span) for v in values):
        spans = [as_span(v) for v in values]
        return Span(max(s.lo for s in spans), max(s.hi for s in spans))
    return max(values)


def half(a: Arithmetic, known: Known, givens: Givens, parts: FaultParts) -> Number:
    """Half the largest of the four differences at the nearest distance."""
    largest = _largest([known[f"{pattern}-near"] for pattern in PATTERNS])
    return a.within(parts.half_of_difference(largest), TO_TWO_DECIMALS)


def shift(a: Arithmetic, known: Known, givens: Givens, parts: FaultParts) -> Number:
    """The shift of the magnet along the arm that would turn the needle as far."""
    l = a.keep(parts.magnetic_length(a, givens["length"], givens["two_l"]) / 2)
    slope = parts.shift_slope(a, givens["d"][0], l)
    return a.keep(a.keep(parts.shift_radians(known["half"])) * slope / parts.shift_sines(a, known["mean-1"]))

"""Slips in the mean of eight readings: what one reading too few, too many or misread makes of it.

Which reading it was is not known, so each slip gives several values.  They lie close together, and are named only
where one agrees to the figures typed.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from exercises.slips.catalogue import Slip, unchanged
from exercises.working.arithmetic import Exact, total
from exercises.working.steps import Step, Working

NAMED_MISREADS = (5, 10)  # degrees: a long mark taken for its neighbour, a numbered mark for the next
MOST_MISREAD = 20  # degrees
READ = "before/eight-readings/#when-the-sum-is-off"

#: The readings that a step takes the mean of, from the values that it is worked from.
type Readings = Callable[[Working, Step, Mapping[str, Any]], Sequence[float]]


def handed_to(part: str, working: Working, step: Step, known: Mapping[str, Any]) -> tuple[Any, ...]:
    """What a step's own formula hands to a part."""
    handed: list[tuple[Any, ...]] = []
    right = working.parts.part(part)

    def noting(*given: Any) -> Any:
        handed.append(given)
        return right(*given)

    step.formula(Exact, known, working.givens, working.parts.replaced(**{part: noting}))
    return handed[0]


def of_eight(working: Working, step: Step, known: Mapping[str, Any]) -> Sequence[float]:
    """The eight readings of a distance."""
    _, readings = handed_to("mean_of_eight", working, step, known)
    found: Sequence[float] = readings
    return found


def division(readings: Iterable[float]) -> float:
    """The division that readings are written to: half a degree if any is not whole."""
    return 1.0 if all(r == round(r) for r in readings) else 0.5


def one_left_out(readings: Sequence[float]) -> Iterable[float]:
    """The means with each reading left out: divided by one fewer, or by as many all the same."""
    added, n = total(readings), len(readings)
    return [(added - r) / by for r in dict.fromkeys(readings) for by in (n - 1, n)]


def one_counted_twice(readings: Sequence[float]) -> Iterable[float]:
    """The means with each reading counted twice: divided by as many as there are, or by one more."""
    added, n = total(readings), len(readings)
    return [(added + r) / by for r in dict.fromkeys(readings) for by in (n, n + 1)]


def sum_off(readings: Sequence[float], by: Iterable[float]) -> Iterable[float]:
    """The means with the sum off by these degrees, either way."""
    added, n = total(readings), len(readings)
    return [(added + sign * x) / n for x in by for sign in (1, -1)]


def named_misreads(readings: Sequence[float]) -> Iterable[float]:
    """The means with one reading 5° or 10° off."""
    return sum_off(readings, NAMED_MISREADS)


def other_misreads(readings: Sequence[float]) -> Iterable[float]:
    """The means with one reading off by another number of divisions, up to 20°."""
    step = division(readings)
    offs = [n * step for n in range(1, round(MOST_MISREAD / step) + 1)]
    return sum_off(readings, [x for x in offs if x not in NAMED_MISREADS])


def reading_slips(part: str, readings_of: Readings) -> tuple[Slip, ...]:
    """The slips in a mean of readings, at the steps that take a part."""

    def from_ninety(working: Working, step: Step, known: Mapping[str, Any]) -> Iterable[float]:
        return [90 - known[step.id]]

    def slip(key: str, name: str, means: Callable[[Sequence[float]], Iterable[float]], says: str) -> Slip:
        def at(working: Working, step: Step, known: Mapping[str, Any]) -> Iterable[float]:
            return means(readings_of(working, step, known))

        return Slip(key, name, part, unchanged, says, READ, hides=True, at=at, exact=True)

    return (
        Slip(
            "mean-from-ninety",
            "90° less the mean",
            part,
            unchanged,
            "This looks like 90° less the mean. θ is what the pointer shows, counted from the 0 of the scale.",
            "before/tangent-law/#which-angle",
            hides=True,
            at=from_ninety,
            exact=True,
        ),
        slip(
            "reading-left-out",
            "one reading left out",
            one_left_out,
            "This looks as if one of the readings was left out of the sum. Which one the mean does not tell: "
            "add them again, and tick off each.",
        ),
        slip(
            "reading-counted-twice",
            "one reading counted twice",
            one_counted_twice,
            "This looks as if one of the readings was counted twice. Which one the mean does not tell: "
            "add them again, and tick off each.",
        ),
        slip(
            "reading-five-or-ten-off",
            "one reading 5° or 10° off",
            named_misreads,
            "This looks as if one of the readings went into the sum 5° or 10° off. Which one the mean does not tell: "
            "compare each with the table.",
        ),
        slip(
            "sum-off",
            "the sum some degrees off",
            other_misreads,
            "This is what comes out if the sum is some degrees off: one of the readings may have been copied wrongly, "
            "or the adding went wrong. Add them again.",
        ),
    )

"""The parts that a comparison of two magnets is made of."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

from exercises.kinds.deflection.lengths import LengthRule
from exercises.kinds.deflection.parts import BracketParts, LengthParts, OfOneNumber, ReadingParts
from exercises.working.arithmetic import Arithmetic, Number


def distances_compared(a: Arithmetic, d1: Number, d2: Number) -> tuple[Number, Number]:
    """What stands above and below the line beside the two brackets of a balance: d₂/d₁."""
    return d2, d1


def which_over_which(a: Arithmetic, ratio: Number) -> Number:
    """m₁/m₂, and not the other way about."""
    return ratio


def mean(a: Arithmetic, values: Sequence[Number]) -> Number:
    """The mean of some numbers, whose sum is written down first."""
    return a.keep(a.keep(a.total(values)) / len(values))


@dataclass(frozen=True)
class ComparisonParts(LengthParts, ReadingParts, BracketParts):
    """All parts of a comparison."""

    distances_compared: Callable[[Arithmetic, Number, Number], tuple[Number, Number]] = distances_compared
    which_over_which: OfOneNumber = which_over_which
    mean_of_settings: Callable[[Arithmetic, Sequence[Number]], Number] = mean
    mean_of_ratios: Callable[[Arithmetic, Sequence[Number]], Number] = mean


PARTS = ComparisonParts()


@cache
def parts_for(rule: LengthRule) -> ComparisonParts:
    """The parts of a sheet that knows 2l by a rule."""
    return PARTS.replaced(magnetic_length=rule.part)


def quotient(a: Arithmetic, b1: Number, b2: Number, x: Number, y: Number) -> Number:
    """b1·x / b2·y in the ways it is worked; x or y may be the plain number 1."""
    return a.either(
        lambda: a.keep(a.keep(b1 / b2) * a.keep(x / y)),
        lambda: a.keep(a.keep(b1 * x) / a.keep(b2 * y)),
        lambda: a.keep(a.keep(a.keep(b1 * x) / b2) / y),
        lambda: a.keep(a.keep(b1 / y) / a.keep(b2 / x)),
        lambda: a.keep(a.keep(b1 / (2 * y)) / a.keep(b2 / (2 * x))),
    )

"""The replaceable parts of reading the dial: the right ones.  Everything in degrees."""

from collections.abc import Callable
from dataclasses import dataclass

from exercises.kinds.deflection.parts import OfOneNumber
from exercises.working.arithmetic import Arithmetic, Number
from exercises.working.steps import Parts


def numbered_mark(low: int) -> int:
    """The numbered mark that is counted from: the one below the tip."""
    return low


def one_division(step: float) -> float:
    """The size of one division."""
    return step


def count_direction(low: int, past: Number) -> Number:
    """What is counted past the mark is added to it."""
    return low + past


def zero_of_scale(reading: Number) -> Number:
    """The reading counts from the 0 at the east or the west."""
    return reading


def dial_mean(a: Arithmetic, total: Number) -> Number:
    """The mean of eight readings from their sum."""
    return total / 8


@dataclass(frozen=True)
class DialParts(Parts):
    """The parts of reading the dial."""

    numbered_mark: Callable[[int], int] = numbered_mark
    one_division: Callable[[float], float] = one_division
    count_direction: Callable[[int, Number], Number] = count_direction
    zero_of_scale: Callable[[Number], Number] = zero_of_scale
    dial_mean: OfOneNumber = dial_mean


PARTS = DialParts()

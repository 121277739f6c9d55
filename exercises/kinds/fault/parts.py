"""The replaceable parts of looking for a fault: the right ones."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

from exercises.kinds.deflection.lengths import LengthRule, MagneticLength, as_stated
from exercises.kinds.deflection.parts import OfOneNumber
from exercises.working.arithmetic import Arithmetic, Number, total
from exercises.working.steps import Parts


def mean_of_four(added: Number) -> Number:
    """The mean of four readings from their sum."""
    return added / 4


def half_of_difference(x: Number) -> Number:
    """The fault in degrees: half of the difference."""
    return x / 2


def shift_radians(x: Number) -> Number:
    """Degrees in radians."""
    return math.radians(1) * x


def shift_slope(a: Arithmetic, d: Number, l: Number) -> Number:
    """d(d² − l²)/(3d² + l²) in m: a shift over the share by which it changes the tangent."""
    return a.keep(d * (d * d - l * l) / (3 * d * d + l * l))


def shift_sines(a: Arithmetic, theta: Number) -> Number:
    """sin θ cos θ, with θ in degrees."""
    sine = a.apply(lambda x: math.sin(math.radians(x)), theta)
    return a.keep(sine * a.apply(lambda x: math.cos(math.radians(x)), theta))


def mean_of_those(added: Number, count: int) -> Number:
    """The mean of so many readings from their sum."""
    return added / count


def mended_readings(readings: Sequence[float], wrong: int | None) -> tuple[float, int]:
    """The sum of the readings that count, and how many they are: all eight, or all but the one that is wrong."""
    return (total(readings), 8) if wrong is None else (total(readings) - readings[wrong], 7)


@dataclass(frozen=True)
class FaultParts(Parts):
    """The parts of looking for a fault."""

    magnetic_length: MagneticLength = as_stated
    mean_of_four: Callable[[Number], Number] = mean_of_four
    half_of_difference: Callable[[Number], Number] = half_of_difference
    shift_radians: Callable[[Number], Number] = shift_radians
    shift_slope: Callable[[Arithmetic, Number, Number], Number] = shift_slope
    shift_sines: OfOneNumber = shift_sines
    mean_of_those: Callable[[Number, int], Number] = mean_of_those
    mended_readings: Callable[[Sequence[float], int | None], tuple[float, int]] = mended_readings


PARTS = FaultParts()


@cache
def parts_for(rule: LengthRule) -> FaultParts:
    """The parts of a sheet that knows 2l by a rule."""
    return PARTS.replaced(magnetic_length=rule.part)

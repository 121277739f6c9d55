"""The replaceable parts of the formulas of the tangent law drills: the right ones."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from exercises.kinds.deflection.parts import OfOneNumber, tangent
from exercises.working.arithmetic import Arithmetic, Number
from exercises.working.steps import Parts


def degrees_of_tan(x: float) -> float:
    """The angle in degrees whose tangent is x."""
    return math.degrees(math.atan(x))


def cos_of_degrees(x: float) -> float:
    """cos x, with x in degrees."""
    return math.cos(math.radians(x))


def law_angle(a: Arithmetic, ratio: Number) -> Number:
    """The deflection in degrees from the ratio of the two fields."""
    return a.apply(degrees_of_tan, ratio)


def law_written(B: Number) -> Number:
    """A field as it is typed: without a unit it is in µT."""
    return B


def law_along(a: Arithmetic, B: Number, B_H: Number) -> Number:
    """The field along the needle: both fields together, which lie at right angles."""
    return a.apply(math.sqrt, a.keep(a.keep(B * B) + a.keep(B_H * B_H)))


def law_tilt(alpha: float) -> tuple[float, float]:
    """(cos α, sin α) of the angle by which the arms are askew, α in degrees."""
    return cos_of_degrees(alpha), math.sin(math.radians(alpha))


def law_side(side: int) -> int:
    """1 if B sin α adds to B_H, −1 if it takes from it."""
    return side


def law_halve() -> int:
    """What the sum of the two deflections is divided by."""
    return 2


def law_error(a: Arithmetic, *, large: Number, small: Number, right: Number) -> Number:
    """The share by which the field from the larger deflection alone is too large."""
    return (large - right) / right


def law_percent(share: Number) -> Number:
    """A share as it is typed: without a unit it is in per cent."""
    return share


class Error(Protocol):
    """The signature of `law_error`: all fields in T."""

    def __call__(self, a: Arithmetic, *, large: Number, small: Number, right: Number) -> Number: ...


@dataclass(frozen=True)
class LawParts(Parts):
    """The parts of the tangent law drills.  Fields in T, angles in degrees."""

    law_tangent: OfOneNumber = tangent
    law_angle: OfOneNumber = law_angle
    law_written: Callable[[Number], Number] = law_written
    law_along: Callable[[Arithmetic, Number, Number], Number] = law_along
    law_tilt: Callable[[float], tuple[float, float]] = law_tilt
    law_side: Callable[[int], int] = law_side
    law_halve: Callable[[], int] = law_halve
    law_error: Error = law_error
    law_percent: Callable[[Number], Number] = law_percent


PARTS = LawParts()

"""The replaceable parts of the formulas of choosing distances: the right ones.  Lengths in m, fields in T."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from exercises.kinds.deflection.lengths import MagneticLength, as_stated
from exercises.kinds.deflection.parts import OfOneNumber, field_constant, tangent
from exercises.kinds.deflection.stretch import CLEARANCE
from exercises.kinds.distances.scenario import LIMITS
from exercises.working.arithmetic import Arithmetic, Number
from exercises.working.steps import Parts


def limit_angle(limit: str) -> float:
    """The deflection in degrees at a limit, "near" or "far"."""
    return LIMITS[limit]


def limit_twice_moment(m: Number) -> Number:
    """The 2m above the line."""
    return 2 * m


def limit_tesla(B: Number) -> Number:
    """The field in the unit that the formula takes."""
    return B


def limit_guess_root(a: Arithmetic, cube: Number) -> Number:
    """d₀ from d₀³."""
    return a.apply(math.cbrt, cube)


def limit_half_length(a: Arithmetic, two_l: Number) -> Number:
    """l from 2l."""
    return two_l / 2


def correction_length(l: Number) -> Number:
    """The l of the correction."""
    return l


def correction_square(l: Number) -> Number:
    """The l² of the correction."""
    return l * l


def correction_share() -> float:
    """The 2/3 of the correction."""
    return 2 / 3


def correction_sign() -> int:
    """1, for the correction is added."""
    return 1


def arm_half_bar(length: float, l: Number) -> Number:
    """From the middle of the bar to its end, from its measured length."""
    return length / 2


def box_edge(radius: float) -> float:
    """From the centre of the box to its edge."""
    return radius


def box_clearance() -> float:
    """What is left between the box and the bar."""
    return CLEARANCE


def start_moved() -> bool:
    """Whether the nearest distance is moved out where the bar is too close to the box."""
    return True


def stop_moved() -> bool:
    """Whether the farthest distance is moved in where the arm is too short."""
    return True


@dataclass(frozen=True)
class DistancesParts(Parts):
    """The parts of choosing distances."""

    limit_angle: Callable[[str], float] = limit_angle
    limit_tangent: OfOneNumber = tangent
    limit_twice_moment: Callable[[Number], Number] = limit_twice_moment
    field_constant: Callable[[], float] = field_constant
    limit_tesla: Callable[[Number], Number] = limit_tesla
    limit_guess_root: OfOneNumber = limit_guess_root
    limit_magnetic_length: MagneticLength = as_stated
    limit_half_length: OfOneNumber = limit_half_length
    correction_length: Callable[[Number], Number] = correction_length
    correction_square: Callable[[Number], Number] = correction_square
    correction_share: Callable[[], float] = correction_share
    correction_sign: Callable[[], int] = correction_sign
    arm_half_bar: Callable[[float, Number], Number] = arm_half_bar
    box_edge: Callable[[float], float] = box_edge
    box_clearance: Callable[[], float] = box_clearance
    start_moved: Callable[[], bool] = start_moved
    stop_moved: Callable[[], bool] = stop_moved


PARTS = DistancesParts()

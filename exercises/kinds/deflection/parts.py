"""The replaceable parts that the kinds of deflection share, in groups, and (d² − l²)² made of them.

A kind declares its own parts as a dataclass: it takes the groups that it has,
and adds what is its own.  What each part is given stays: slips replace a part by its name.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from exercises.bench.field import MU_0_OVER_4PI
from exercises.kinds.deflection.lengths import MagneticLength, as_stated
from exercises.working.arithmetic import Arithmetic, Number
from exercises.working.steps import Givens, Parts

#: A part that one number goes through, such as the tangent or the half of a length.
type OfOneNumber = Callable[[Arithmetic, Number], Number]


def metres(x: Number) -> Number:
    """A length in the unit that the formulas take."""
    return x


def field_constant() -> float:
    """µ₀/4π in T·m/A."""
    return MU_0_OVER_4PI


def half_length(a: Arithmetic, two_l: Number) -> Number:
    """l from 2l."""
    return a.keep(two_l / 2)


def distance(a: Arithmetic, d: Number, givens: Givens) -> Number:
    """d, which goes to the middle of the magnet; givens has the magnet's measured `length`."""
    return d


def mean_of_eight(a: Arithmetic, readings: Sequence[Number]) -> Number:
    """The mean of eight readings: the mean of each arm and then of both, or one sum, which has no first rounding."""
    one, two = readings[:4], readings[4:]
    return a.either(
        lambda: (a.angle(a.total(one) / 4) + a.angle(a.total(two) / 4)) / 2,
        lambda: a.total(readings) / 8,
    )


def tangent(a: Arithmetic, theta: Number) -> Number:
    """The tangent of an angle in degrees."""
    return a.apply(tangent_of_degrees, theta)


def tangent_of_degrees(theta: float) -> float:
    """tan θ, θ in degrees."""
    return math.tan(math.radians(theta))


def bracket_sign() -> int:
    """The sign in d² − l²."""
    return -1


def outer_square(a: Arithmetic, difference: Number) -> Number:
    """The square over the bracket d² − l²."""
    return difference**2


def twice_d(a: Arithmetic, d: Number) -> Number:
    """The 2d below the line."""
    return 2 * d


def sum_of_moments(a: Arithmetic, moments: Sequence[Number]) -> Number:
    """The mean of the moments of all distances."""
    return a.keep(a.keep(a.total(moments)) / len(moments))


def pole_length(a: Arithmetic, two_l: Number, length: Number) -> Number:
    """How far apart the poles lie: 2l, not the measured length."""
    return two_l


def poles(a: Arithmetic, m: Number, two_l: Number) -> Number:
    """The pole strength m / 2l."""
    return a.keep(m / a.keep(two_l))


@dataclass(frozen=True)
class UnitParts(Parts):
    """The units and the constant of a formula."""

    metres: Callable[[Number], Number] = metres
    field_constant: Callable[[], float] = field_constant


@dataclass(frozen=True)
class LengthParts(Parts):
    """From the lengths given and the scale to l and d.  A sheet's parts have the magnetic length by its own rule."""

    magnetic_length: MagneticLength = as_stated
    half_length: OfOneNumber = half_length
    distance: Callable[[Arithmetic, Number, Givens], Number] = distance


@dataclass(frozen=True)
class MetricLengthParts(UnitParts, LengthParts):
    """From the measured length and the scale to l and d in metres."""


@dataclass(frozen=True)
class TangentParts(Parts):
    """From a deflection to its tangent."""

    tangent: OfOneNumber = tangent


@dataclass(frozen=True)
class ReadingParts(TangentParts):
    """From eight readings to the tangent of the deflection."""

    mean_of_eight: Callable[[Arithmetic, Sequence[Number]], Number] = mean_of_eight


@dataclass(frozen=True)
class BracketParts(Parts):
    """(d² − l²)²."""

    bracket_sign: Callable[[], int] = bracket_sign
    outer_square: OfOneNumber = outer_square


@dataclass(frozen=True)
class EndOnParts(BracketParts):
    """(d² − l²)² and the 2d below it: the field on the axis."""

    twice_d: OfOneNumber = twice_d


@dataclass(frozen=True)
class ResultParts(Parts):
    """From the moments at all distances to their mean, and to the pole strength."""

    sum_of_moments: Callable[[Arithmetic, Sequence[Number]], Number] = sum_of_moments
    pole_length: Callable[[Arithmetic, Number, Number], Number] = pole_length
    poles: Callable[[Arithmetic, Number, Number], Number] = poles


def end_on_bracket(a: Arithmetic, d: Number, l: Number, parts: BracketParts) -> Number:
    """(d² − l²)² in m⁴.

    The other way to d² − l² is (d − l)(d + l).  Sum and difference of two lengths come out exactly, so it reaches
    nothing that the squares do not reach.
    """
    difference = a.keep(a.keep(d * d) + parts.bracket_sign() * a.keep(l * l))
    return a.keep(parts.outer_square(a, difference))

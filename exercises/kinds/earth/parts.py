"""The replaceable parts of the earth's field and the moment together, and the formulas that are made of them."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Protocol

from exercises.kinds.deflection.lengths import LengthRule
from exercises.kinds.deflection.parts import EndOnParts, MetricLengthParts, TangentParts
from exercises.working.arithmetic import Arithmetic, Number, over, reciprocal_or_zero, signed_root
from exercises.working.steps import Givens, Known

ROWS = 2  # distances of a whole sheet


class RatioValue(Protocol):
    """m/B_H at one distance; a slip may take another formula, which needs d and l."""

    def __call__(
        self, a: Arithmetic, *, tangent: Number, bracket: Number, twice_d: Number, k: float, d: Number, l: Number
    ) -> Number: ...


def ratio_value(a: Arithmetic, *, tangent: Number, bracket: Number, twice_d: Number, k: float, **_: Number) -> Number:
    """m/B_H = (4π/µ₀)(d² − l²)² tan θ / 2d, A·m²/T."""
    return a.product(tangent, bracket, 1 / twice_d) / k


def swing_time(a: Arithmetic, timings: Sequence[Number], swings: float) -> Number:
    """The period in s: the mean of the timings over the number of swings, or the mean of the periods."""
    return a.either(
        lambda: a.keep(a.keep(a.total(timings) / len(timings)) / swings),
        lambda: a.keep(a.keep(a.total(a.keep(t / swings) for t in timings)) / len(timings)),
        lambda: a.keep(a.keep(a.keep(a.total(timings)) / len(timings)) / swings),  # the sum written down first
    )


def bar_units(M: Number, L: Number, b: Number) -> tuple[Number, Number, Number]:
    """Mass, length and breadth in the units of the formula."""
    return M, L, b


def bar_inertia(a: Arithmetic, M: Number, L: Number, b: Number) -> Number:
    """M(L² + b²)/12 in kg·m², in the orders in which it is worked."""
    squares = a.keep(a.keep(L * L) + a.keep(b * b))
    return a.either(
        lambda: a.keep(a.keep(M * squares) / 12),
        lambda: a.keep(M * a.keep(squares / 12)),
        lambda: a.keep(a.keep(M / 12) * squares),
        lambda: a.keep(a.keep(M * a.keep(L * L) / 12) + a.keep(M * a.keep(b * b) / 12)),
    )


def four_pi_squared() -> float:
    """4π²."""
    return 4 * math.pi**2


def period_power(T: Number) -> Number:
    """The period as it stands in the formula: squared."""
    return T * T


def under_root(a: Arithmetic, product: Number, ratio: Number, wanted: str) -> Number:
    """What stands under the root: the product of the two for m, their quotient for B_H."""
    return product * (ratio if wanted == "m" else a.apply(reciprocal_or_zero, ratio))


def final_root(a: Arithmetic, x: Number) -> Number:
    """The root of it."""
    return a.apply(signed_root, x)


@dataclass(frozen=True)
class EarthParts(MetricLengthParts, TangentParts, EndOnParts):
    """The parts of the deflection, of the vibration, and of both together."""

    ratio_value: RatioValue = ratio_value
    swing_time: Callable[[Arithmetic, Sequence[Number], float], Number] = swing_time
    bar_units: Callable[[Number, Number, Number], tuple[Number, Number, Number]] = bar_units
    bar_inertia: Callable[[Arithmetic, Number, Number, Number], Number] = bar_inertia
    four_pi_squared: Callable[[], float] = four_pi_squared
    period_power: Callable[[Number], Number] = period_power
    under_root: Callable[[Arithmetic, Number, Number, str], Number] = under_root
    final_root: Callable[[Arithmetic, Number], Number] = final_root


PARTS = EarthParts()


@cache
def parts_for(rule: LengthRule) -> EarthParts:
    """The parts of a sheet that knows 2l by a rule."""
    return PARTS.replaced(magnetic_length=rule.part)


def mean_ratio(a: Arithmetic, known: Known, givens: Givens, parts: EarthParts) -> Number:
    """The mean of m/B_H at all distances, A·m²/T."""
    return a.keep(a.keep(a.total(known[f"ratio-{i + 1}"] for i in range(ROWS))) / ROWS)


def period(a: Arithmetic, known: Known, givens: Givens, parts: EarthParts) -> Number:
    """The period, s."""
    return a.keep(parts.swing_time(a, givens["timings"], givens["swings"]))


def inertia(a: Arithmetic, known: Known, givens: Givens, parts: EarthParts) -> Number:
    """The bar's moment of inertia, kg·m²."""
    return a.keep(parts.bar_inertia(a, *parts.bar_units(givens["mass"], givens["length"], givens["breadth"])))


def product(a: Arithmetic, known: Known, givens: Givens, parts: EarthParts) -> Number:
    """m·B_H = 4π²I/T², A·m²·T."""
    squared = a.keep(parts.period_power(known["period"]))
    divided = over(a, a.apply(reciprocal_or_zero, squared))
    return a.product(a.keep(parts.four_pi_squared()), known["inertia"], divided)


def moment(a: Arithmetic, known: Known, givens: Givens, parts: EarthParts) -> Number:
    """m, A·m²."""
    return _root_of_both(a, known, parts, "m")


def earth(a: Arithmetic, known: Known, givens: Givens, parts: EarthParts) -> Number:
    """B_H, T."""
    return _root_of_both(a, known, parts, "B_H")


def _root_of_both(a: Arithmetic, known: Known, parts: EarthParts, wanted: str) -> Number:
    under = a.keep(parts.under_root(a, known["product"], known["ratio"], wanted))
    return a.keep(parts.final_root(a, under))

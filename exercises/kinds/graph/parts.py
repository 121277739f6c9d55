"""The replaceable parts of the graph method, and the formulas that are made of them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache

from exercises.kinds.deflection.lengths import LengthRule
from exercises.kinds.deflection.parts import EndOnParts, MetricLengthParts, TangentParts, end_on_bracket
from exercises.kinds.graph.lines import columns, free_line, slope_through_origin
from exercises.working.arithmetic import Arithmetic, Number, Span, as_span, middle, reciprocal_or_zero, signed_root
from exercises.working.steps import Givens, Known

TWO_FIGURES = 0.025  # of 2l: an intercept of two figures is known no better than to a twentieth
LEAST = 1e-5  # m², an intercept of a magnet of six millimetres; whatever the graph allows, l² is not nothing


def over_bracket(a: Arithmetic, twice_d: Number, bracket: Number) -> Number:
    """2d over (d² − l²)², m⁻³."""
    return a.keep(twice_d / bracket)


def times_cot(a: Arithmetic, d: Number, tangent: Number) -> Number:
    """d cot θ, m."""
    return a.either(
        lambda: a.keep(d * a.apply(reciprocal_or_zero, tangent)),
        lambda: a.keep(d * a.keep(a.apply(reciprocal_or_zero, tangent))),
    )


def column_root(a: Arithmetic, x: Number) -> Number:
    """The root over d cot θ."""
    return a.apply(signed_root, x)


def slope_way(slope: Number) -> Number:
    """Rise over run."""
    return slope


def first_line(m: Number) -> Number:
    """The moment from the first line, as it stands."""
    return m


def second_two() -> float:
    """The 2 in the square of the second slope, (µ₀/4π)·2m/B_H."""
    return 2


def second_square(a: Arithmetic, slope: Number) -> Number:
    """The second slope squared."""
    return a.keep(slope * slope)


def with_earth(B_H: Number) -> Number:
    """The B_H that the moment is worked with."""
    return B_H


def intercept_at(intercept: Number, ys: Sequence[Number]) -> Number:
    """Where the line meets the upright axis at zero."""
    return intercept


def length_from(a: Arithmetic, intercept: Number) -> Number:
    """2l from the intercept l²."""
    return 2 * a.keep(a.apply(signed_root, intercept))


@dataclass(frozen=True)
class GraphParts(MetricLengthParts, TangentParts, EndOnParts):
    """The parts of the columns, of both slopes, and of the intercept."""

    over_bracket: Callable[[Arithmetic, Number, Number], Number] = over_bracket
    times_cot: Callable[[Arithmetic, Number, Number], Number] = times_cot
    column_root: Callable[[Arithmetic, Number], Number] = column_root
    slope_way: Callable[[Number], Number] = slope_way
    first_line: Callable[[Number], Number] = first_line
    second_two: Callable[[], float] = second_two
    second_square: Callable[[Arithmetic, Number], Number] = second_square
    with_earth: Callable[[Number], Number] = with_earth
    intercept_at: Callable[[Number, Sequence[Number]], Number] = intercept_at
    length_from: Callable[[Arithmetic, Number], Number] = length_from


PARTS = GraphParts()


@cache
def parts_for(rule: LengthRule) -> GraphParts:
    """The parts of a sheet that knows 2l by a rule."""
    return PARTS.replaced(magnetic_length=rule.part)


def x_formula(row: int) -> Callable[[Arithmetic, Known, Givens, GraphParts], Number]:
    """x = 2d/(d² − l²)² of a row, m⁻³."""
    at = f"d-{row + 1}"

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: GraphParts) -> Number:
        d = known[at]
        return parts.over_bracket(a, parts.twice_d(a, d), end_on_bracket(a, d, known["l"], parts))

    return formula


def root_formula(row: int) -> Callable[[Arithmetic, Known, Givens, GraphParts], Number]:
    """√(d cot θ) of a row, √m."""
    at, tangent = f"d-{row + 1}", f"tan-{row + 1}"

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: GraphParts) -> Number:
        return a.keep(parts.column_root(a, parts.times_cot(a, known[at], known[tangent])))

    return formula


def square_formula(row: int) -> Callable[[Arithmetic, Known, Givens, GraphParts], Number]:
    """d² of a row, m²."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: GraphParts) -> Number:
        return known[f"d-{row + 1}"] ** 2

    return formula


def _read_slope(a: Arithmetic, best: Number, share: float, parts: GraphParts) -> Number:
    return a.within(parts.slope_way(best), share * abs(middle(parts.slope_way(middle(best)))))


def slope_a(a: Arithmetic, known: Known, givens: Givens, parts: GraphParts) -> Number:
    """The slope of tan θ against x, m³."""
    return _read_slope(a, slope_through_origin(*columns(known, givens, "x", "tan")), givens["allowed"].slope_a, parts)


def slope_b(a: Arithmetic, known: Known, givens: Givens, parts: GraphParts) -> Number:
    """The slope of d² against √(d cot θ), m^1.5."""
    return _read_slope(a, free_line(*columns(known, givens, "root", "square"))[0], givens["allowed"].slope_b, parts)


def intercept(a: Arithmetic, known: Known, givens: Givens, parts: GraphParts) -> Number:
    """The intercept of the second line, l² in m²."""
    xs, ys = columns(known, givens, "root", "square")
    best, at_zero = free_line(xs, ys)
    value = parts.intercept_at(at_zero, ys)
    if isinstance(known["slope-b"], Span):
        # a slope a little too steep goes with an intercept that is too low: both belong to one line through the points
        play = givens["allowed"].slope_b * abs(middle(best))
        steep = min(max(middle(known["slope-b"]), middle(best) - play), middle(best) + play) - middle(best)
        shift = steep * a.total(map(middle, xs)) / len(xs)
        value = as_span(value) - Span(min(0.0, shift), max(0.0, shift))
    read = a.within(value, givens["allowed"].intercept)
    return Span(max(read.lo, LEAST), read.hi) if isinstance(read, Span) and read.hi > LEAST else read


def moment_a(a: Arithmetic, known: Known, givens: Givens, parts: GraphParts) -> Number:
    """The moment from the first slope, A·m²."""
    over_k = a.keep(known["slope-a"] * parts.with_earth(givens["B_H"])) * (1 / parts.field_constant())
    return a.keep(parts.first_line(over_k))


def moment_b(a: Arithmetic, known: Known, givens: Givens, parts: GraphParts) -> Number:
    """The moment from the second slope, A·m²."""
    square = a.keep(parts.second_square(a, known["slope-b"]))
    return a.keep(square * parts.with_earth(givens["B_H"])) * (1 / (parts.second_two() * parts.field_constant()))


def two_l(a: Arithmetic, known: Known, givens: Givens, parts: GraphParts) -> Number:
    """2l from the intercept, m."""
    length = parts.length_from(a, known["intercept"])
    reached = as_span(length)
    most = max(abs(reached.lo), abs(reached.hi))  # a student's own length may lie at either end
    return a.within(length, TWO_FIGURES * most)

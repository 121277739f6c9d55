"""The uncertainty of a moment by deflection, end-on, from what was read: the parts of its formulas.

Source: JCGM 100:2008 (GUM): scatter 4.2.2 and 4.2.3, of what was fitted G.3.3, a
rectangular half width 4.3.7, relative uncertainties in squares 5.1.2 and 5.1.6,
a known effect taken off 3.2.4, effective degrees of freedom G.4.1, k from
table G.2, figures 7.2.6.  B_H is taken as exact.
"""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from exercises.bench.student_t import coverage_factor, t95
from exercises.kinds.deflection.parts import EndOnParts, ReadingParts, UnitParts
from exercises.working.arithmetic import Arithmetic, Number

READINGS = 8
SETTINGS = 4  # of the magnet: at each, both ends of the pointer are read
DEGREES = SETTINGS - 1  # of freedom of the scatter: eight readings, less their mean and the four pairs' faults
NAMES = ("angle", "distance", "length", "needle")
SHARES = tuple(f"share-{name}" for name in NAMES)
#: The degrees of freedom that have a row in table G.2, from where it leaves some out.
ROWS = (20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 100.0, math.inf)


def sensitivity(a: Arithmetic, d2: Number, l2: Number, bracket: Number) -> Number:
    """4d² / (d² − l²) − 1, or (3d² + l²) / (d² − l²), which is the same."""
    return a.either(
        lambda: a.keep(a.keep(a.keep(4 * d2) / bracket) - 1),
        lambda: a.keep(a.keep(3 * d2 + l2) / bracket),
    )


def combine(a: Arithmetic, shares: Iterable[Number]) -> Number:
    """The root of the sum of squares."""
    return a.apply(math.sqrt, a.keep(a.total(a.keep(x**2) for x in shares)))


def steepness(a: Arithmetic, angle: Number) -> Number:
    """1 / (sin θ cos θ)."""
    sine, cosine = (a.tangent(a.apply(f, angle)) for f in (sin, cos))
    return a.keep(1 / a.tangent(sine * cosine))


def sin(degrees: float) -> float:
    """sin θ, θ in degrees."""
    # never exactly 0: an entry of 0° must not stop what is worked from it
    return math.sin(math.radians(degrees)) or 1e-12


def cos(degrees: float) -> float:
    """cos θ, θ in degrees."""
    return math.cos(math.radians(degrees))


def figures_to_quote(U: float, m: float) -> int:
    """Significant figures of m once U is rounded to one figure, or to two if the first is a 1.

    >>> figures_to_quote(0.0112, 0.8234), figures_to_quote(0.034, 1.62), figures_to_quote(0.24, 8.1)
    (3, 3, 2)
    """
    if not (0 < U < math.inf and 0 < m < math.inf):
        return 1  # from an entry that is no result there is nothing to count
    return max(1, math.floor(math.log10(m)) - _last_power(U) + 1)


def decimals_to_quote(U: float, m: float) -> int:
    """Decimal places of m as it is quoted, which is not the count of its figures."""
    return max(0, -_last_power(U)) if 0 < U < math.inf else 0


def quoted(U: float, m: float) -> str:
    """The result as it is quoted: '1.62 ± 0.03'."""
    count = decimals_to_quote(U, m)
    return f"{m:.{count}f} ± {U:.{count}f}"


def _last_power(U: float) -> int:
    """The power of ten of the last place of a rounded uncertainty."""
    power = math.floor(math.log10(U))
    return power - 1 if round(U / 10.0**power, 1) < 2 else power


def rounds_plainly(U: float) -> bool:
    """Whether nobody can doubt how U is rounded: not about 2 (1.9 or 2?) and not about 10 (10 or 1.0?)."""
    first = U / 10.0 ** math.floor(math.log10(U))
    return first < 1.9 or 2.1 < first < 9.4


def differences(readings: Sequence[float]) -> list[float]:
    """How much more end ① shows than end ② at each of the four settings of the magnet, degrees."""
    return [one - two for one, two in zip(readings[::2], readings[1::2], strict=True)]


def sum_of_squares(a: Arithmetic, numbers: Sequence[Number]) -> Number:
    """Σ(x − mean)²."""
    mean = a.total(numbers) / len(numbers)
    squares = a.total((x - mean) ** 2 for x in numbers)
    # deviations from a mean kept to 0.1° add n × (what was rounded off)² to the sum of squares
    return a.keep(a.either(lambda: squares, lambda: squares + len(numbers) * 0.05**2))


def scatter(a: Arithmetic, readings: Sequence[Number], freedom: Callable[[int], float]) -> Number:
    """The scatter of one reading about the pattern of the four pairs' faults.

    A fault of the instrument changes both ends alike, or, where the pivot is off the centre, by as much each time the
    other way.  So the four differences of the ends would all be one but for the scatter of two readings each.  It is
    what least squares give of the mean and the four patterns of instrument.PATTERNS, 8 − 5 degrees of freedom.
    """
    return a.keep(scatter_of_differences(a, readings, freedom) / math.sqrt(2))


def scatter_of_differences(a: Arithmetic, readings: Sequence[Number], freedom: Callable[[int], float]) -> Number:
    """The standard deviation of the four differences of the ends."""
    return a.keep(a.apply(math.sqrt, a.keep(sum_of_squares(a, differences(readings)) / freedom(SETTINGS))))


def scatter_of_all(a: Arithmetic, readings: Sequence[Number], freedom: Callable[[int], float]) -> Number:
    """The standard deviation of all eight readings, which holds what the faults do as well."""
    return a.keep(a.apply(math.sqrt, a.keep(sum_of_squares(a, readings) / freedom(READINGS))))


def freedom(n: int) -> int:
    """The degrees of freedom of the scatter of n numbers about their mean."""
    return n - 1


def in_squares(a: Arithmetic, one: Number, other: Number) -> Number:
    """√(one² + other²)."""
    return a.keep(combine(a, (one, other)))


def root_of_count(n: int) -> float:
    """By how much the mean of n readings is surer than one of them."""
    return math.sqrt(n)


def radians(u: Number) -> Number:
    """An angle in degrees as radians."""
    return u * math.pi / 180


def angle_share(a: Arithmetic, u: Number, sine: Number, cosine: Number) -> Number:
    """u(θ) / (sin θ cos θ), u(θ) in radians."""
    return u / a.tangent(sine * cosine)


def rectangular(width: Number) -> Number:
    """The standard uncertainty of a quantity that lies anywhere within a half width."""
    return width / math.sqrt(3)


def half_of_width(width: Number) -> Number:
    """The width of l from that of 2l."""
    return width / 2


def half(two_l: Number) -> Number:
    """l from 2l."""
    return two_l / 2


def half_length_in_moment(l: Number) -> Number:
    """The l that stands in the bracket of the moment."""
    return l


def per_cent(share: Number) -> Number:
    """A share, as it is typed in per cent."""
    return share


def half_needle(between: Number) -> Number:
    """Half the distance between the needle's poles."""
    return between / 2


def steepness_of_needle(a: Arithmetic, square: Number) -> Number:
    """15 sin²θ − 3, from sin²θ."""
    return a.keep(a.keep(15 * square) - 3)


def twice_over(share: Number) -> Number:
    """The 2 that comes from the square of the needle's length."""
    return 2 * share


def without_needle(a: Arithmetic, m: Number, effect: Number) -> Number:
    """The moment with what the needle does taken off; of so small a share, m(1 − f) is as good as m/(1 + f)."""
    return a.either(lambda: m / (1 + effect), lambda: m * (1 - effect))


def power_of_freedom(x: Number) -> Number:
    """The fourth power in the effective degrees of freedom."""
    return (x**2) ** 2


def degrees() -> float:
    """The degrees of freedom of the scatter."""
    return float(DEGREES)


def part_of_scatter(a: Arithmetic, u_theta: Number, u_mean: Number) -> Number:
    """How many times the part that comes from the scatter u(θ) is."""
    return a.keep(u_theta / u_mean)


def row_below(nu: float) -> float:
    """k from the row of table G.2 that is at ν or the next below."""
    return t95(max((row for row in ROWS if row <= nu), default=nu))


def row_above(nu: float) -> float:
    """k from the next row of table G.2 above ν where the table leaves rows out, else as `row_below`."""
    return t95(min(row for row in ROWS if row >= nu)) if nu > ROWS[0] else row_below(nu)


def coverage(a: Arithmetic, nu: Number) -> Number:
    """The coverage factor k of a 95 % interval: t with the degrees of freedom cut to a whole number.

    Where the table has no row, k of either row beside it is as good.
    """
    return a.either(
        lambda: a.keep(a.apply(t95, nu)),
        lambda: a.keep(a.apply(row_below, nu)),
        lambda: a.keep(a.apply(row_above, nu)),
    )


def of_ninety(a: Arithmetic, nu: Number) -> Number:
    """The k of a 90 % interval, which is the column beside."""
    return a.keep(a.apply(lambda x: coverage_factor(0.10, x), nu))


def times_k(k: Number) -> Number:
    """k as it stands in U."""
    return k


def as_share(share: Number) -> Number:
    """u(m)/m as it stands in the product."""
    return share


def of_the_moment(m: Number) -> Number:
    """The moment that the share is of."""
    return m


def compare(a: Arithmetic, other: Number, best: Number) -> Number:
    """How many times the share at 45° the share at another angle is."""
    return other / best


@dataclass(frozen=True)
class BudgetParts(EndOnParts, ReadingParts, UnitParts):
    """The parts of a budget: those of one moment end-on, and of each share of its uncertainty."""

    scatter: Callable[[Arithmetic, Sequence[Number], Callable[[int], float]], Number] = scatter
    freedom: Callable[[int], float] = freedom
    root_of_count: Callable[[int], float] = root_of_count
    with_friction: Callable[[Arithmetic, Number, Number], Number] = in_squares
    radians: Callable[[Number], Number] = radians
    angle_share: Callable[[Arithmetic, Number, Number, Number], Number] = angle_share
    rectangular: Callable[[Number], Number] = rectangular
    half_of_width: Callable[[Number], Number] = half_of_width
    half: Callable[[Number], Number] = half
    sensitivity: Callable[[Arithmetic, Number, Number, Number], Number] = sensitivity
    half_needle: Callable[[Number], Number] = half_needle
    steepness_of_needle: Callable[[Arithmetic, Number], Number] = steepness_of_needle
    twice_over: Callable[[Number], Number] = twice_over
    half_length_in_moment: Callable[[Number], Number] = half_length_in_moment
    per_cent: Callable[[Number], Number] = per_cent
    combine: Callable[[Arithmetic, Sequence[Number]], Number] = combine
    without_needle: Callable[[Arithmetic, Number, Number], Number] = without_needle
    power_of_freedom: Callable[[Number], Number] = power_of_freedom
    degrees: Callable[[], float] = degrees
    part_of_scatter: Callable[[Arithmetic, Number, Number], Number] = part_of_scatter
    coverage: Callable[[Arithmetic, Number], Number] = coverage
    times_k: Callable[[Number], Number] = times_k
    as_share: Callable[[Number], Number] = as_share
    of_the_moment: Callable[[Number], Number] = of_the_moment
    counted: Callable[[float, float], int] = figures_to_quote
    compare: Callable[[Arithmetic, Number, Number], Number] = compare
    steepness: Callable[[Arithmetic, Number], Number] = steepness


PARTS = BudgetParts()

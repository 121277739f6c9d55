"""The uncertainty of a moment by deflection, end-on, from what was read: its parts and formulas.

Source: JCGM 100:2008 (GUM): scatter of repeated readings 4.2.2 and 4.2.3, a
rectangular half width 4.3.7, relative uncertainties in squares 5.1.2 and
5.1.6, coverage 6.2.1, figures 7.2.6.  B_H is taken as exact.
"""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from exercises.kinds.deflection.parts import EndOnParts, ReadingParts, UnitParts, end_on_bracket
from exercises.working.arithmetic import Arithmetic, Number, middle, over
from exercises.working.steps import Givens, Known

READINGS = 8
SHARES = ("share-angle", "share-distance", "share-length")
NAMES = ("angle", "distance", "length")


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


def freedom(n: int) -> int:
    """The degrees of freedom of the scatter of n readings."""
    return n - 1


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


def coverage() -> float:
    """The coverage factor k."""
    return 2.0


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

    freedom: Callable[[int], float] = freedom
    root_of_count: Callable[[int], float] = root_of_count
    radians: Callable[[Number], Number] = radians
    angle_share: Callable[[Arithmetic, Number, Number, Number], Number] = angle_share
    rectangular: Callable[[Number], Number] = rectangular
    half_of_width: Callable[[Number], Number] = half_of_width
    half: Callable[[Number], Number] = half
    sensitivity: Callable[[Arithmetic, Number, Number, Number], Number] = sensitivity
    half_length_in_moment: Callable[[Number], Number] = half_length_in_moment
    per_cent: Callable[[Number], Number] = per_cent
    combine: Callable[[Arithmetic, Sequence[Number]], Number] = combine
    coverage: Callable[[], float] = coverage
    as_share: Callable[[Number], Number] = as_share
    of_the_moment: Callable[[Number], Number] = of_the_moment
    counted: Callable[[float, float], int] = figures_to_quote
    compare: Callable[[Arithmetic, Number, Number], Number] = compare
    steepness: Callable[[Arithmetic, Number], Number] = steepness


PARTS = BudgetParts()


# -- formulas ------------------------------------------------------------------


def distance(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """d, m."""
    return givens["d"]


def half_length(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """l, m."""
    return a.keep(parts.half(givens["two_l"]))


def scatter(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The standard deviation of the eight readings, degrees."""
    readings = givens["readings"][0]
    mean = a.total(readings) / READINGS
    # deviations from a mean kept to 0.1° add 8 × (what was rounded off)² to the sum of squares
    squares = a.total((r - mean) ** 2 for r in readings) + READINGS * a.within(0.0, 0.05) ** 2
    return a.keep(a.apply(math.sqrt, a.keep(a.keep(squares) / parts.freedom(READINGS))))


def u_theta(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The standard uncertainty of the mean of eight, degrees."""
    return a.keep(known["scatter"] / parts.root_of_count(READINGS))


def share_angle(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The share of θ in u(m)/m."""
    sine, cosine = (a.tangent(a.apply(f, known["mean-1"])) for f in (sin, cos))
    u = a.keep(parts.radians(known["u-theta"]))
    return parts.per_cent(a.keep(parts.angle_share(a, u, sine, cosine)))


def u_d(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The standard uncertainty of d, m."""
    return a.keep(parts.rectangular(givens["width_d"]))


def sensitivity_d(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """By what factor the relative uncertainty of d counts in that of m."""
    d2, l2 = a.keep(known["d"] ** 2), a.keep(known["l"] ** 2)
    return parts.sensitivity(a, d2, l2, a.keep(d2 - l2))


def share_distance(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The share of d in u(m)/m."""
    return parts.per_cent(a.keep(a.product(known["sensitivity"], known["u-d"], over(a, 1 / known["d"]))))


def u_l(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The standard uncertainty of l, m."""
    return a.keep(parts.half_of_width(a.keep(parts.rectangular(givens["width_two_l"]))))


def share_length(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The share of 2l in u(m)/m."""
    bracket = a.keep(a.keep(known["d"] ** 2) - a.keep(known["l"] ** 2))
    return parts.per_cent(a.keep(a.product(4.0, known["l"], known["u-l"], over(a, 1 / bracket))))


def combined(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """u(m)/m, the three shares in squares."""
    return parts.per_cent(a.keep(parts.combine(a, [known[s] for s in SHARES])))


def largest(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> str:
    """The key of the largest share."""
    return max(zip((middle(known[s]) for s in SHARES), NAMES))[1]


def moment(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The moment, A·m²."""
    d, l = parts.metres(givens["d"]), parts.metres(parts.half_length_in_moment(known["l"]))
    bracket = end_on_bracket(a, d, l, parts)
    tangent = a.tangent(parts.tangent(a, known["mean-1"]))
    over = 1 / parts.twice_d(a, d)
    return a.keep(a.product(givens["B_H"], tangent, bracket, over) / parts.field_constant())


def expanded(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """U = k·u(m), A·m²."""
    share, m = parts.as_share(known["combined"]), parts.of_the_moment(known["moment"])
    return a.keep(a.product(parts.coverage(), share, m))


def count(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """How many figures of m are quoted."""
    m = middle(known["moment"])
    return a.apply(lambda U: float(parts.counted(U, m)), known["expanded"])


def ratio(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """How many times the share of θ at 45° it is at the other angle."""
    other, best = (parts.steepness(a, x) for x in (givens["other_angle"], 45.0))
    return a.keep(parts.compare(a, other, best))

"""The formulas of the steps of an uncertainty, each written once for any arithmetic (see budget.py for their parts)."""

from exercises.kinds.deflection.parts import end_on_bracket
from exercises.kinds.uncertainty.budget import NAMES, READINGS, SHARES, BudgetParts, cos, sin
from exercises.working.arithmetic import Arithmetic, Number, middle, over
from exercises.working.steps import Givens, Known


def distance(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """d, m."""
    return givens["d"]


def half_length(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """l, m."""
    return a.keep(parts.half(givens["two_l"]))


def scatter(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The scatter of one reading about the pattern of the faults, degrees."""
    return parts.scatter(a, givens["readings"][0], parts.freedom)


def u_mean(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The part of u(θ) that comes from the scatter: that of a mean of eight, degrees."""
    return a.keep(known["scatter"] / parts.root_of_count(READINGS))


def u_theta(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The standard uncertainty of the mean, with that of the friction at the pivot, degrees."""
    return parts.with_friction(a, known["u-mean"], a.keep(parts.rectangular(givens["width_theta"])))


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


def needle_effect(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The share by which the needle makes the moment too large: (n/d)² (15 sin²θ − 3)."""
    n = a.keep(parts.half_needle(givens["needle"]))
    square = a.keep(a.keep(n / known["d"]) ** 2)
    factor = parts.steepness_of_needle(a, a.keep(a.tangent(a.apply(sin, known["mean-1"])) ** 2))
    return parts.per_cent(a.keep(square * factor))


def share_needle(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The share of the needle in u(m)/m: what it does is known as badly as the square of its length."""
    u = a.keep(parts.rectangular(givens["width_needle"]))
    return parts.per_cent(a.keep(a.product(parts.twice_over(known["needle-effect"]), u, over(a, 1 / givens["needle"]))))


def combined(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """u(m)/m, the four shares in squares."""
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


def corrected(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The moment with what the needle does taken off, A·m²."""
    return a.keep(parts.without_needle(a, known["moment"], known["needle-effect"]))


def effective_freedom(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The effective degrees of freedom of u(m): 3 (u(m) over what the scatter adds to it)⁴."""
    of_angle = a.keep(known["combined"] / known["share-angle"])
    of_scatter = parts.part_of_scatter(a, known["u-theta"], known["u-mean"])
    return a.keep(parts.degrees() * a.keep(parts.power_of_freedom(a.keep(of_angle * of_scatter))))


def coverage(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """The coverage factor k."""
    return parts.coverage(a, known["freedom"])


def expanded(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """U = k·u(m), A·m²."""
    share, m = parts.as_share(known["combined"]), parts.of_the_moment(known["corrected"])
    return a.keep(a.product(parts.times_k(known["coverage"]), share, m))


def count(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """How many figures of m are quoted."""
    m = middle(known["corrected"])
    return a.apply(lambda U: float(parts.counted(U, m)), known["expanded"])


def ratio(a: Arithmetic, known: Known, givens: Givens, parts: BudgetParts) -> Number:
    """How many times the share of θ at 45° it is at the other angle."""
    other, best = (parts.steepness(a, x) for x in (givens["other_angle"], 45.0))
    return a.keep(parts.compare(a, other, best))

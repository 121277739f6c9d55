"""The uncertainty of a moment by deflection, end-on, from what was read: its parts and formulas.

Source: JCGM 100:2008 (GUM): scatter of repeated readings 4.2.2 and 4.2.3, a
rectangular half width 4.3.7, relative uncertainties in squares 5.1.2 and
5.1.6, coverage 6.2.1, figures 7.2.6.  B_H is taken as exact.
"""

import math

from exercises.kinds.deflection.old_steps import PARTS as DEFLECTION
from exercises.working.arithmetic import Span

READINGS = 8
SHARES = ("share-angle", "share-distance", "share-length")
NAMES = ("angle", "distance", "length")


def _sensitivity(a, d2, l2, bracket):
    return a.either(
        lambda: a.keep(a.keep(a.keep(4 * d2) / bracket) - 1),
        lambda: a.keep(a.keep(3 * d2 + l2) / bracket),
    )


def _in_squares(a, shares):
    return a.apply(math.sqrt, a.keep(a.total(a.keep(x**2) for x in shares)))


def _steepness(a, angle):
    sine, cosine = (a.tangent(a.apply(f, angle)) for f in (sin, cos))
    return a.keep(1 / a.tangent(sine * cosine))


def sin(degrees: float) -> float:
    # never exactly 0: an entry of 0° must not stop what is worked from it
    return math.sin(math.radians(degrees)) or 1e-12


def cos(degrees: float) -> float:
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


PARTS = {
    **{
        name: DEFLECTION[name]
        for name in ("mean_of_eight", "metres", "tangent", "outer_square", "twice_d", "field_constant")
    },
    "bracket_sign": lambda: -1,
    "freedom": lambda n: n - 1,
    "root_of_count": lambda n: math.sqrt(n),
    "radians": lambda u: u * math.pi / 180,
    "angle_share": lambda a, u, sine, cosine: u / a.tangent(sine * cosine),
    "rectangular": lambda width: width / math.sqrt(3),
    "half_of_width": lambda width: width / 2,
    "half": lambda two_l: two_l / 2,
    "sensitivity": _sensitivity,
    "half_length_in_moment": lambda l: l,
    "per_cent": lambda share: share,
    "combine": _in_squares,
    "coverage": lambda: 2.0,
    "as_share": lambda share: share,
    "of_the_moment": lambda m: m,
    "counted": figures_to_quote,
    "compare": lambda a, other, best: other / best,
    "steepness": _steepness,
}


def middle(x) -> float:
    """A number of any arithmetic as one float."""
    return (x.lo + x.hi) / 2 if isinstance(x, Span) else x


# -- formulas ------------------------------------------------------------------


def scatter(a, known, givens, parts):
    readings = givens["readings"][0]
    mean = a.total(readings) / READINGS
    # deviations from a mean kept to 0.1° add 8 × (what was rounded off)² to the sum of squares
    squares = a.total((r - mean) ** 2 for r in readings) + READINGS * a.within(0.0, 0.05) ** 2
    return a.keep(a.apply(math.sqrt, a.keep(a.keep(squares) / parts["freedom"](READINGS))))


def u_theta(a, known, givens, parts):
    return a.keep(known["scatter"] / parts["root_of_count"](READINGS))


def share_angle(a, known, givens, parts):
    sine, cosine = (a.tangent(a.apply(f, known["mean-1"])) for f in (sin, cos))
    u = a.keep(parts["radians"](known["u-theta"]))
    return parts["per_cent"](a.keep(parts["angle_share"](a, u, sine, cosine)))


def u_d(a, known, givens, parts):
    return a.keep(parts["rectangular"](givens["width_d"]))


def _squares(a, known):
    d2, l2 = a.keep(known["d"] ** 2), a.keep(known["l"] ** 2)
    return d2, l2, a.keep(d2 - l2)


def sensitivity_d(a, known, givens, parts):
    return parts["sensitivity"](a, *_squares(a, known))


def share_distance(a, known, givens, parts):
    return parts["per_cent"](a.keep(a.product(known["sensitivity"], known["u-d"], a.keep(1 / known["d"]))))


def u_l(a, known, givens, parts):
    return a.keep(parts["half_of_width"](a.keep(parts["rectangular"](givens["width_two_l"]))))


def share_length(a, known, givens, parts):
    _, _, bracket = _squares(a, known)
    return parts["per_cent"](a.keep(a.product(4.0, known["l"], known["u-l"], a.keep(1 / bracket))))


def combined(a, known, givens, parts):
    return parts["per_cent"](a.keep(parts["combine"](a, [known[s] for s in SHARES])))


def largest(a, known, givens, parts):
    return max(zip((middle(known[s]) for s in SHARES), NAMES))[1]


def moment(a, known, givens, parts):
    d, l = parts["metres"](givens["d"]), parts["metres"](parts["half_length_in_moment"](known["l"]))
    difference = a.keep(a.keep(d * d) + parts["bracket_sign"]() * a.keep(l * l))
    bracket = a.keep(parts["outer_square"](a, difference))
    tangent = a.tangent(parts["tangent"](a, known["mean-1"]))
    over = a.keep(1 / parts["twice_d"](a, d))
    return a.keep(a.product(givens["B_H"], tangent, bracket, over) / parts["field_constant"]())


def expanded(a, known, givens, parts):
    share, m = parts["as_share"](known["combined"]), parts["of_the_moment"](known["moment"])
    return a.keep(a.product(parts["coverage"](), share, m))


def count(a, known, givens, parts):
    m = middle(known["moment"])
    return a.apply(lambda U: float(parts["counted"](U, m)), known["expanded"])


def ratio(a, known, givens, parts):
    other, best = (parts["steepness"](a, x) for x in (givens["other_angle"], 45.0))
    return a.keep(parts["compare"](a, other, best))

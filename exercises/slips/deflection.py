"""Slips in a determination by deflection: the lengths, the tangent, the formula, the pole strength."""

import math

from exercises.slips.catalogue import Slip, always
from exercises.slips.hiding import HIDING, Distance
from exercises.working.arithmetic import Arithmetic, Number
from exercises.working.steps import Givens


def _near_end(right: Distance) -> Distance:
    """d to the near end of the magnet in place of its middle."""

    def distance(a: Arithmetic, d: Number, givens: Givens) -> Number:
        return right(a, d, givens) - givens["length"] / 2

    return distance


def broadside(a: Arithmetic, *factors: Number, d: Number, l: Number, k: Number) -> Number:
    """The factors times the bracket of the broadside formula, (d² + l²) to the power 3/2, over k."""
    return a.product(*factors, a.keep((d * d + l * l) ** 1.5)) / k


def _broadside(a: Arithmetic, *, B_H: Number, tangent: Number, d: Number, l: Number, k: Number, **_: Number) -> Number:
    """The moment by the broadside formula."""
    return broadside(a, B_H, tangent, d=d, l=l, k=k)


def _sine(degrees: float) -> float:
    return math.sin(math.radians(degrees))


def _tangent_of_complement(degrees: float) -> float:
    return math.tan(math.radians(90 - degrees))


#: Those that every draw tells apart.
TOLD = (
    Slip(
        "length-for-half-length",
        "the magnetic length 2l used for the half length l",
        "half_length",
        always(lambda a, two_l: two_l),
        "This looks as if the whole magnetic length 2l was put where the half length l belongs. "
        "Halve it before squaring.",
        "before/field-end-on/#half-the-magnetic-length",
    ),
    Slip(
        "half-length-left-out",
        "the half length left out",
        "half_length",
        always(lambda a, two_l: 0 * two_l),
        "This looks as if l was left out, so that d² stands alone in the bracket. "
        "That is the formula of a magnet of no length; yours is not short beside d. "
        "If you raised d and l to the power one by one, the result is nearly the same.",
        "before/field-end-on/#half-the-magnetic-length",
    ),
    Slip(
        "distance-to-near-end",
        "distance taken to the near end of the magnet",
        "distance",
        _near_end,
        "This looks as if d was taken to the near end of the magnet. "
        "d goes to the middle of the magnet: the d in the table already does, so take nothing off it.",
        "before/field-end-on/#from-the-centre",
    ),
    Slip(
        "degrees-as-radians",
        "degrees taken as radians",
        "tangent",
        always(lambda a, theta: a.apply(math.tan, theta)),
        "This looks like the tangent of that many radians. Set the calculator to degrees (often marked D or DEG).",
        "before/tangent-law/#degrees-not-radians",
        by_angle=True,
    ),
    Slip(
        "sine-for-tangent",
        "sine taken for tangent",
        "tangent",
        always(lambda a, theta: a.apply(_sine, theta)),
        "This looks like sin θ where tan θ belongs. The two fields are the two short sides of a right-angled "
        "triangle, and their ratio is the tangent.",
        "before/tangent-law/#the-tangent-not-the-sine",
    ),
    Slip(
        "complement-of-angle",
        "the complement of the angle",
        "tangent",
        always(lambda a, theta: a.apply(_tangent_of_complement, theta)),
        "This looks like the tangent of 90° − θ. θ is what the pointer shows, counted from the 0 of the scale; "
        "use it as it is.",
        "before/tangent-law/#which-angle",
    ),
    Slip(
        "bracket-not-squared",
        "(d² − l²) not squared",
        "outer_square",
        always(lambda a, difference: difference),
        "This looks like d² − l² without the square over the bracket. Work out d² − l² first, then square the result.",
        "before/field-end-on/#the-bracket-is-squared",
    ),
    Slip(
        "plus-for-minus",
        "plus taken for minus in (d² − l²)",
        "bracket_sign",
        always(lambda: 1),
        "This looks like (d² + l²)² where (d² − l²)² belongs. End-on it is a minus: the near pole pulls more "
        "than the far pole pushes.",
        "before/field-end-on/#minus-end-on",
    ),
    Slip(
        "broadside-formula",
        "the broadside formula used end-on",
        "moment",
        always(_broadside),
        "This looks like the broadside formula, with (d² + l²) to the power 3/2. In the tan A position the box "
        "lies on the magnet's axis: use (d² − l²)²/2d.",
        "before/field-end-on/#end-on-not-broadside",
        ("tan-a",),
    ),
    Slip(
        "two-left-out",
        "the 2 in 2d left out",
        "twice_d",
        always(lambda a, d: d),
        "This looks twice too large: the 2 in the 2d below the line was left out.",
        "before/field-end-on/#the-2-in-2d",
    ),
    Slip(
        "mu0-for-mu0-over-4pi",
        "µ₀ used for µ₀/4π",
        "field_constant",
        always(lambda: 4e-7 * math.pi),
        "This looks as if µ₀ was used where µ₀/4π belongs. µ₀/4π is 10⁻⁷ T·m/A, so 4π/µ₀ is 10⁷.",
        "before/field-end-on/#mu0-over-4pi",
    ),
    Slip(
        "centimetres",
        "centimetres not turned into metres",
        "metres",
        always(lambda x: x * 100),
        "The figures look right for lengths in centimetres. Turn every length into metres before you use it.",
        "before/field-end-on/#metres-before-anything-else",
        besides=(("moment", "A field left in µT spoils the moment by the same million."),),
    ),
    Slip(
        "half-length-for-length",
        "l used for 2l in the pole strength",
        "pole_length",
        always(lambda a, two_l, length: two_l / 2),
        "This looks like m divided by l. The poles are 2l apart, so p = m / 2l.",
        "before/result/#pole-strength",
    ),
    Slip(
        "measured-length",
        "measured length used for magnetic length",
        "pole_length",
        always(lambda a, two_l, length: length),
        "This looks like m divided by the length of the bar as measured. The poles lie inside its ends: "
        "divide by the magnetic length 2l.",
        "before/result/#the-magnetic-length",
        inside=True,
    ),
)
SLIPS = (*TOLD, *HIDING)

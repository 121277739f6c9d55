"""Slips in a determination by deflection: the lengths, the tangent, the formula, the pole strength."""

import math
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from exercises.slips.catalogue import Part, Slip, always, unchanged
from exercises.slips.readings import of_eight, reading_slips
from exercises.working.arithmetic import Arithmetic, Number, total
from exercises.working.steps import Givens, Step, Working

type Distance = Callable[[Arithmetic, Number, Givens], Number]


def _near_end(right: Distance) -> Distance:
    """d to the near end of the magnet in place of its middle."""

    def distance(a: Arithmetic, d: Number, givens: Givens) -> Number:
        return right(a, d, givens) - givens["length"] / 2

    return distance


def broadside(a: Arithmetic, *factors: Number, d: Number, l: Number, k: Number) -> Number:
    """The factors times the bracket of the broadside formula, (d² + l²) to the power 3/2, over k."""
    return a.product(*factors, a.keep((d * d + l * l) ** 1.5)) / k


def _far_end(right: Distance) -> Distance:
    """d to the far end of the magnet in place of its middle."""

    def distance(a: Arithmetic, d: Number, givens: Givens) -> Number:
        return right(a, d, givens) + givens["length"] / 2

    return distance


def _without_field(right: Part) -> Part:
    """The moment with nothing for B_H."""
    return lambda a, *, B_H, **others: right(a, B_H=1.0, **others)


def _fourth_powers(working: Working, step: Step, known: Mapping[str, Any]) -> Iterable[float]:
    """d⁴ − l⁴ for (d² − l²)², at a step that is worked from d and l."""
    if step.quantity != "length4":
        return ()
    d, l = (known[need] for need in step.needs)
    return [d**4 - l**4]


def _one_moment_left_out(working: Working, step: Step, known: Mapping[str, Any]) -> Iterable[float]:
    """The mean moments with each moment left out: divided by as many as there are, or by one fewer."""
    moments = [known[need] for need in step.needs]
    return [(total(moments) - m) / by for m in moments for by in (len(moments), len(moments) - 1) if by]


def _broadside(a: Arithmetic, *, B_H: Number, tangent: Number, d: Number, l: Number, k: Number, **_: Number) -> Number:
    """The moment by the broadside formula."""
    return broadside(a, B_H, tangent, d=d, l=l, k=k)


def _sine(degrees: float) -> float:
    return math.sin(math.radians(degrees))


def _cosine(degrees: float) -> float:
    return math.cos(math.radians(degrees))


def _tangent_of_grads(angle: float) -> float:
    return math.tan(angle * math.pi / 200)


def _tangent_of_complement(degrees: float) -> float:
    return math.tan(math.radians(90 - degrees))


SLIPS = (
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
        "(If you raised d and l to the power one by one, the result is nearly the same.)",
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
        "the magnetic length 2l is 5/6 of the measured length.",
        "before/result/#the-magnetic-length",
    ),
    # -- looked for only where none of the others explains a number --------------
    Slip(
        "measured-half-length",
        "half the measured length used for l",
        "magnetic_length",
        always(lambda a, length: length),
        "This looks as if l was half the length of the bar as measured. The poles lie inside its ends: "
        "l is half of 5/6 of the measured length.",
        "before/result/#the-magnetic-length",
        hides=True,
    ),
    Slip(
        "one-arm-only",
        "the readings of one arm only",
        "mean_of_eight",
        always(lambda a, readings: a.total(readings[:4]) / 4),
        "This looks like the mean of the first arm's four readings. The other arm's four belong to it: "
        "together they remove a box that is not at the scale's zero.",
        "before/eight-readings/#what-each-pair-removes",
        hides=True,
    ),
    Slip(
        "other-arm-only",
        "the readings of the second arm only",
        "mean_of_eight",
        always(lambda a, readings: a.total(readings[4:]) / 4),
        "This looks like the mean of the second arm's four readings. The first arm's four belong to it.",
        "before/eight-readings/#what-each-pair-removes",
        hides=True,
    ),
    Slip(
        "one-end-only",
        "one end of the pointer only",
        "mean_of_eight",
        always(lambda a, readings: a.total(readings[::2]) / 4),
        "This looks like the mean of end ① of the pointer alone. End ② belongs to it: together they remove "
        "a pivot that is off the centre.",
        "before/eight-readings/#what-each-pair-removes",
        hides=True,
    ),
    Slip(
        "sum-not-divided",
        "the sum of the eight readings not divided",
        "mean_of_eight",
        always(lambda a, readings: a.total(readings)),
        "This looks like the sum of the eight readings. Divide it by eight.",
        "before/eight-readings/#the-mean-of-eight",
        hides=True,
    ),
    Slip(
        "eight-by-four",
        "the eight readings divided by four",
        "mean_of_eight",
        always(lambda a, readings: a.total(readings) / 4),
        "This is twice the mean: eight readings were added and divided by four. Divide by eight.",
        "before/eight-readings/#the-mean-of-eight",
        hides=True,
    ),
    *reading_slips("mean_of_eight", of_eight),
    Slip(
        "cosine-for-tangent",
        "cosine taken for tangent",
        "tangent",
        always(lambda a, theta: a.apply(_cosine, theta)),
        "This looks like cos θ where tan θ belongs. The two fields are the two short sides of a right-angled "
        "triangle, and their ratio is the tangent.",
        "before/tangent-law/#the-tangent-not-the-sine",
        by_angle=True,
        hides=True,
    ),
    Slip(
        "degrees-as-grads",
        "degrees taken as grads",
        "tangent",
        always(lambda a, theta: a.apply(_tangent_of_grads, theta)),
        "This looks like the tangent of that many grads, of which a right angle has 100. "
        "Set the calculator to degrees (often marked D or DEG).",
        "before/tangent-law/#degrees-not-radians",
        by_angle=True,
        hides=True,
    ),
    Slip(
        "distance-to-far-end",
        "distance taken to the far end of the magnet",
        "distance",
        _far_end,
        "This looks as if d was taken to the far end of the magnet. "
        "d goes to the middle of the magnet: the d in the table already does, so add nothing to it.",
        "before/field-end-on/#from-the-centre",
        hides=True,
    ),
    Slip(
        "fourth-powers",
        "d⁴ − l⁴ taken for (d² − l²)²",
        "outer_square",
        unchanged,
        "This looks like d⁴ − l⁴. Work out d² − l² first, then square the result: a square of a difference is not "
        "the difference of the squares.",
        "before/field-end-on/#the-bracket-is-squared",
        hides=True,
        at=_fourth_powers,
        exact=True,
    ),
    Slip(
        "field-left-out",
        "B_H left out",
        "moment",
        _without_field,
        "This looks as if B_H was left out of the product. Multiply by B_H in tesla.",
        "before/field-end-on/#the-moment-from-the-deflection",
        hides=True,
    ),
    Slip(
        "angle-for-tangent",
        "the angle itself used for its tangent",
        "tangent",
        always(lambda a, theta: theta),
        "This looks as if θ itself, in degrees, stands where tan θ belongs.",
        "before/tangent-law/#the-tangent-not-the-sine",
        hides=True,
    ),
    Slip(
        "tangent-left-out",
        "tan θ left out",
        "tangent",
        always(lambda a, theta: 1.0),
        "This looks as if tan θ was left out of the product.",
        "before/field-end-on/#the-moment-from-the-deflection",
        hides=True,
    ),
    Slip(
        "not-divided-by-2d",
        "the 2d below the line left out",
        "twice_d",
        always(lambda a, d: 1.0),
        "This looks as if nothing was divided by 2d.",
        "before/field-end-on/#the-2-in-2d",
        hides=True,
    ),
    Slip(
        "times-d-for-over-d",
        "multiplied by d after dividing by 2",
        "twice_d",
        always(lambda a, d: 2 / d),
        "This looks like “÷ 2 × d” on the calculator. Divide by 2 and by d, or put 2d in brackets.",
        "before/field-end-on/#the-2-in-2d",
        hides=True,
    ),
    Slip(
        "moments-not-divided",
        "the sum of the moments not divided",
        "sum_of_moments",
        always(lambda a, moments: a.total(moments)),
        "This looks like the sum of the moments. Divide it by how many distances there are.",
        "before/result/#the-mean-moment",
        hides=True,
    ),
    Slip(
        "moments-by-eight",
        "the sum of the moments divided by eight",
        "sum_of_moments",
        always(lambda a, moments: a.total(moments) / 8),
        "This looks like the sum of the moments divided by eight, as the readings are. "
        "Divide it by how many distances there are.",
        "before/result/#the-mean-moment",
        hides=True,
    ),
    Slip(
        "moment-left-out",
        "one moment left out",
        "sum_of_moments",
        unchanged,
        "This looks as if one of the moments was left out of the sum. Add them again, and tick off each.",
        "before/result/#the-mean-moment",
        hides=True,
        at=_one_moment_left_out,
        exact=True,
    ),
    Slip(
        "times-length",
        "multiplied by 2l instead of divided",
        "poles",
        always(lambda a, m, two_l: m * two_l),
        "This looks like m multiplied by 2l. The moment is pole strength times length, so p = m / 2l.",
        "before/result/#pole-strength",
        hides=True,
    ),
)

"""Slips in a determination by deflection that hide: looked for only where none of deflection.py explains a number."""

import math
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from exercises.slips.catalogue import Part, Slip, always, unchanged
from exercises.slips.readings import of_eight, reading_slips
from exercises.working.arithmetic import Arithmetic, Number, total
from exercises.working.steps import Givens, Step, Working

type Distance = Callable[[Arithmetic, Number, Givens], Number]


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


def _cosine(degrees: float) -> float:
    return math.cos(math.radians(degrees))


def _tangent_of_grads(angle: float) -> float:
    return math.tan(angle * math.pi / 200)


HIDING = (
    Slip(
        "measured-half-length",
        "half the measured length used for l",
        "magnetic_length",
        always(lambda a, length, given: length),
        "This looks as if l was half the length of the bar as measured. The poles lie inside its ends: "
        "l is half of the magnetic length 2l.",
        "before/result/#the-magnetic-length",
        hides=True,
    ),
    Slip(
        "five-sixths-taken",
        "5/6 taken of a length that is 2l itself",
        "magnetic_length",
        always(lambda a, length, given: a.keep(5 / 6 * given)),
        "This looks as if 5/6 of a length was taken for 2l. This sheet gives 2l itself: use it as it stands.",
        "before/result/#the-magnetic-length",
        rules=("stated", "given"),
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
        like="half-length-left-out",
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
        beside=True,
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

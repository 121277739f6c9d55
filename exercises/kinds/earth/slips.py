"""Slips in finding the earth's field and the moment together: the swing, the bar, and the two combined."""

import math
from collections.abc import Callable

from exercises.slips.catalogue import Part, Slip, always
from exercises.slips.deflection import broadside
from exercises.working.arithmetic import Arithmetic, Number, reciprocal_or_zero

EARTH = "exercises/earth/"


def _broadside(a: Arithmetic, *, tangent: Number, d: Number, l: Number, k: float, **_: Number) -> Number:
    """m/B_H by the broadside formula."""
    return broadside(a, tangent, d=d, l=l, k=k)


def _units(mass: float = 1.0, length: float = 1.0) -> Callable[[Part], Part]:
    """Mass and lengths in other units."""
    return always(lambda M, L, b: (M * mass, L * length, b * length))


def _inertia(squares: Callable[[Number, Number], Number], twelve: float = 12) -> Callable[[Part], Part]:
    """M times something else made of L² and b², over 12 or another number."""
    return always(lambda a, M, L, b: M * squares(L * L, b * b) / twelve)


SLIPS = (
    Slip(
        "broadside-ratio",
        "the broadside formula used end-on",
        "ratio_value",
        always(_broadside),
        "This looks like the broadside formula, with (d² + l²) to the power 3/2. Here the box lies on the magnet's "
        "axis: use (d² − l²)²/2d.",
        "before/field-end-on/#end-on-not-broadside",
    ),
    Slip(
        "all-swings",
        "the time of all swings taken for the period",
        "swing_time",
        always(lambda a, timings, swings: a.total(timings) / len(timings)),
        "This looks like the time of all the swings together. T is the time of one: divide by the number of swings.",
        f"{EARTH}#one-swing-there-and-back",
    ),
    Slip(
        "half-a-swing",
        "half a swing taken for a whole one",
        "swing_time",
        always(lambda a, timings, swings: a.total(timings) / len(timings) / (2 * swings)),
        "This looks like the time from one side to the other, half of T. One swing is there and back again, and the "
        "table already counts whole swings.",
        f"{EARTH}#one-swing-there-and-back",
    ),
    Slip(
        "swing-twice",
        "the period doubled",
        "swing_time",
        always(lambda a, timings, swings: 2 * a.total(timings) / len(timings) / swings),
        "This looks like twice T. The table counts whole swings, there and back, so there is nothing to double.",
        f"{EARTH}#one-swing-there-and-back",
    ),
    Slip(
        "timings-added",
        "the timings added and not averaged",
        "swing_time",
        always(lambda a, timings, swings: a.total(timings) / swings),
        "This looks as if the three timings were added and not divided by three. Take their mean first, then divide "
        "by the number of swings.",
        f"{EARTH}#one-swing-there-and-back",
    ),
    Slip(
        "grams",
        "grams not turned into kilograms",
        "bar_units",
        _units(mass=1e3),
        "This looks as if the mass was left in grams. Turn it into kilograms: a thousand grams make one.",
        f"{EARTH}#kilograms-and-metres",
    ),
    Slip(
        "bar-in-centimetres",
        "the bar's sides left in centimetres",
        "bar_units",
        _units(length=1e2),
        "This looks as if the sides of the bar were left in centimetres. Turn them into metres before squaring; "
        "left in centimetres, the result is ten thousand times too large.",
        f"{EARTH}#kilograms-and-metres",
    ),
    Slip(
        "grams-and-centimetres",
        "grams and centimetres not turned",
        "bar_units",
        _units(mass=1e3, length=1e2),
        "These are the figures in g·cm². Turn the mass into kilograms and the sides into metres: "
        "1 g·cm² is 10⁻⁷ kg·m².",
        f"{EARTH}#kilograms-and-metres",
    ),
    Slip(
        "breadth-left-out",
        "the breadth of the bar left out",
        "bar_inertia",
        _inertia(lambda L2, b2: L2),
        "This looks like ML²/12, with the breadth left out. That is a thin rod; this bar is broad enough to count, "
        "so add b² to L².",
        f"{EARTH}#length-and-breadth",
    ),
    Slip(
        "breadth-taken-off",
        "b² taken from L² and not added",
        "bar_inertia",
        _inertia(lambda L2, b2: L2 - b2),
        "This looks like L² − b² where L² + b² belongs. Breadth puts mass farther from the axis, so it adds.",
        f"{EARTH}#length-and-breadth",
    ),
    Slip(
        "twelve-left-out",
        "the 12 left out",
        "bar_inertia",
        _inertia(lambda L2, b2: L2 + b2, 1),
        "This looks like M(L² + b²) without the 12 below. Only the ends are as far out as L/2; the mean of all "
        "the mass brings in the 12.",
        f"{EARTH}#length-and-breadth",
    ),
    Slip(
        "three-for-twelve",
        "3 in place of 12",
        "bar_inertia",
        _inertia(lambda L2, b2: L2 + b2, 3),
        "This looks like a 3 where the 12 belongs. The 3 is for a bar swinging about one end; "
        "this one hangs by its middle.",
        f"{EARTH}#length-and-breadth",
    ),
    Slip(
        "four-pi-squared-left-out",
        "4π² left out",
        "four_pi_squared",
        always(lambda: 1.0),
        "This looks like I/T², with the 4π² left out. From T = 2π√(I/(mB_H)), squaring both sides squares the 2π too.",
        f"{EARTH}#the-product-from-the-period",
    ),
    Slip(
        "two-pi-not-squared",
        "2π not squared",
        "four_pi_squared",
        always(lambda: 2 * math.pi),
        "This looks like 2π·I/T². The whole right side is squared, and so is its 2π: it becomes 4π².",
        f"{EARTH}#the-product-from-the-period",
    ),
    Slip(
        "period-not-squared",
        "T not squared",
        "period_power",
        always(lambda T: T),
        "This looks like 4π²·I/T, with T not squared. The root in the formula of T goes away by squaring, and T is "
        "squared with it.",
        f"{EARTH}#the-product-from-the-period",
    ),
    Slip(
        "root-forgotten",
        "the square root forgotten",
        "final_root",
        always(lambda a, x: x),
        "This looks like the square of what is asked for: take the root at the end.",
        f"{EARTH}#both-from-the-two",
    ),
    Slip(
        "product-and-ratio-mixed-up",
        "product and ratio mixed up",
        "under_root",
        lambda right: lambda a, product, ratio, wanted: right(a, product, ratio, {"m": "B_H", "B_H": "m"}[wanted]),
        "This looks as if the two were mixed up. Multiplying m·B_H by m/B_H leaves m², and dividing m·B_H by m/B_H "
        "leaves B_H².",
        f"{EARTH}#both-from-the-two",
    ),
    Slip(
        "turned-over",
        "the division turned over",
        "under_root",
        lambda right: (
            lambda a, product, ratio, wanted: (
                ratio * reciprocal_or_zero(product) if wanted == "B_H" else right(a, product, ratio, wanted)
            )
        ),
        "This looks like the division turned over, which gives 1/B_H. Put m·B_H above the line and m/B_H below it.",
        f"{EARTH}#both-from-the-two",
    ),
)

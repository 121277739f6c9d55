"""Slips that belong to the broadside position: the sign, the power 3/2, and what end-on leaves behind."""

from collections.abc import Callable

from exercises.slips.catalogue import Part, Slip, always
from exercises.working.arithmetic import Arithmetic, Number


def _end_on(a: Arithmetic, *, B_H: Number, tangent: Number, d: Number, l: Number, k: Number, **_: Number) -> Number:
    """The moment by the end-on formula."""
    return a.product(B_H, tangent, a.keep((d * d - l * l) ** 2), a.keep(1 / (2 * d))) / k


def _power(n: float) -> Callable[[Part], Part]:
    """Another power in place of 3/2."""
    return always(lambda a, s: a.keep(s**n))


SLIPS = (
    Slip(
        "minus-for-plus",
        "minus taken for plus in (d² + l²)",
        "broadside_sign",
        always(lambda: -1),
        "This looks like d² − l² where d² + l² belongs. Broadside-on it is a plus: both poles are farther from the "
        "needle than the middle of the magnet is.",
        "exercises/tan-b/#plus-broadside-on",
    ),
    Slip(
        "power-left-out",
        "the power 3/2 left out",
        "three_halves",
        _power(1),
        "This looks like d² + l² itself, without the power 3/2. Multiply the sum by its own square root.",
        "exercises/tan-b/#the-power-three-halves",
    ),
    Slip(
        "power-two",
        "the power 2 taken for 3/2",
        "three_halves",
        _power(2),
        "This looks like d² + l² squared. The square belongs to the end-on bracket; broadside-on the power is 3/2.",
        "exercises/tan-b/#the-power-three-halves",
    ),
    Slip(
        "power-three",
        "the power 3 taken for 3/2",
        "three_halves",
        _power(3),
        "This looks like d² + l² to the power 3. Take the square root of that, or cube the square root of d² + l².",
        "exercises/tan-b/#the-power-three-halves",
    ),
    Slip(
        "power-half",
        "the square root alone taken for the power 3/2",
        "three_halves",
        _power(0.5),
        "This looks like the square root of d² + l², which is how far off a pole is. Its cube belongs here: "
        "multiply it by d² + l² once more.",
        "exercises/tan-b/#the-power-three-halves",
    ),
    Slip(
        "power-two-thirds",
        "the power 2/3 taken for 3/2",
        "three_halves",
        _power(2 / 3),
        "This looks like the power 2/3, a cube root squared. 3/2 is the other way about: a square root, cubed.",
        "exercises/tan-b/#the-power-three-halves",
    ),
    Slip(
        "end-on-formula",
        "the end-on formula used broadside-on",
        "moment",
        always(_end_on),
        "This looks like the end-on formula, with (d² − l²)²/2d. In the tan B position the box lies off the "
        "magnet's side: use (d² + l²)^(3/2).",
        "exercises/tan-b/#the-moment-broadside-on",
        ("tan-b",),
    ),
    Slip(
        "two-put-in",
        "a 2 put in below the line",
        "front_number",
        always(lambda: 2),
        "This looks like half of what it should be: a 2 was put below the line. The 2 belongs to the end-on field; "
        "the broadside field has none.",
        "exercises/tan-b/#no-2-broadside-on",
        ("tan-b",),
    ),
    Slip(
        "cubed-then-halved",
        "cubed and then halved for the power 3/2",
        "three_halves",
        always(lambda a, s: a.keep(s**3) / 2),
        "This looks like (d² + l²)³ divided by 2. The power 3/2 is the cube of the square root: s × √s.",
        "exercises/tan-b/#the-power-three-halves",
        ("tan-b",),
        hides=True,
    ),
)

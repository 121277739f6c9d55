"""Slips in the tangent law drills: the tangent and its inverse, the field along the needle, the arms askew."""

import math
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from exercises.kinds.deflection.parts import OfOneNumber
from exercises.slips.catalogue import Slip, always, unchanged
from exercises.working.arithmetic import Arithmetic, Number
from exercises.working.steps import Step, Working

TANGENT, RADIANS, WHICH = (
    "before/tangent-law/" + anchor for anchor in ("#the-tangent-not-the-sine", "#degrees-not-radians", "#which-angle")
)
ALONG = "exercises/law/#the-field-along-the-needle"
BOARD = "exercises/law/#the-first-turn-left-out"


def _in_degrees(function: Callable[[float], float]) -> Callable[[OfOneNumber], OfOneNumber]:
    """Another function of the angle, which is in degrees."""
    return always(lambda a, theta: a.apply(lambda x: function(math.radians(x)), theta))


def _inverse(function: Callable[[float], float]) -> Callable[[OfOneNumber], OfOneNumber]:
    """The angle by another inverse function; where there is none (of a ratio above 1) nobody can slip so."""

    def change(right: OfOneNumber) -> OfOneNumber:
        def changed(a: Arithmetic, ratio: Number) -> Number:
            return math.degrees(function(ratio)) if -1 <= ratio <= 1 else right(a, ratio)

        return changed

    return change


def _field_over_tangent(working: Working, step: Step, known: Mapping[str, Any]) -> Iterable[float]:
    """B_H / tan θ in question 1."""
    return [working.givens["B_H"] / known["tan-1"]] if "tan-1" in step.needs else ()


def _field_by(function: Callable[[float], float]) -> Callable[[Working, Step, Mapping[str, Any]], Iterable[float]]:
    """B_H times another function of θ in question 1."""

    def values(working: Working, step: Step, known: Mapping[str, Any]) -> Iterable[float]:
        theta = math.radians(working.givens["theta"][0])
        return [working.givens["B_H"] * function(theta)] if "tan-1" in step.needs else ()

    return values


def _with_the_scale_askew(working: Working, step: Step, known: Mapping[str, Any]) -> Iterable[float]:
    """What a scale that is askew with the arms shows: α more with N east where the arm is north of east."""
    if step.id not in ("east-4", "west-4"):
        return ()
    more = working.givens["tilt"] * (1 if working.givens["north"] == (step.id == "east-4") else -1)
    return [known[step.id] + more]


SLIPS = (
    Slip(
        "law-sine",
        "sine taken for tangent",
        "law_tangent",
        _in_degrees(math.sin),
        "This looks like sin θ where tan θ belongs. The two fields are the two short sides of a right-angled "
        "triangle, and their ratio is the tangent.",
        TANGENT,
    ),
    Slip(
        "law-cosine",
        "cosine taken for tangent",
        "law_tangent",
        _in_degrees(math.cos),
        "This looks like cos θ where tan θ belongs. The two fields are the two short sides of a right-angled "
        "triangle, and their ratio is the tangent.",
        TANGENT,
    ),
    Slip(
        "law-cotangent",
        "cotangent, or multiplied for divided",
        "law_tangent",
        _in_degrees(lambda x: 1 / math.tan(x)),
        "This looks like 1/tan θ, the tangent of 90° − θ: the wrong angle, or the two fields changed over. "
        "tan θ = B/B_H, with the magnet’s field above and the earth’s below.",
        WHICH,
    ),
    Slip(
        "law-radians",
        "degrees taken as radians",
        "law_tangent",
        always(lambda a, theta: a.apply(math.tan, theta)),
        "This looks like the tangent of that many radians. Set the calculator to degrees (often marked D or DEG).",
        RADIANS,
        by_angle=True,
    ),
    Slip(
        "law-upside-down",
        "B_H/B taken for B/B_H",
        "law_angle",
        lambda right: lambda a, ratio: right(a, 1 / ratio),
        "This looks like 90° − θ, as if the fraction stood upside down. tan θ = B/B_H, with the field that lies "
        "across above and the field that holds the needle north below.",
        WHICH,
    ),
    Slip(
        "law-arcsine",
        "the inverse sine taken",
        "law_angle",
        _inverse(math.asin),
        "This looks like sin⁻¹ of the ratio. The ratio of the two fields is the tangent of θ: take tan⁻¹.",
        TANGENT,
    ),
    Slip(
        "law-arccosine",
        "the inverse cosine taken",
        "law_angle",
        _inverse(math.acos),
        "This looks like cos⁻¹ of the ratio. The ratio of the two fields is the tangent of θ: take tan⁻¹.",
        TANGENT,
    ),
    Slip(
        "law-angle-in-radians",
        "the angle given in radians",
        "law_angle",
        always(lambda a, ratio: a.apply(math.atan, ratio)),
        "This looks like the angle in radians. Set the calculator to degrees (often marked D or DEG).",
        RADIANS,
    ),
    Slip(
        "law-tesla",
        "tesla typed where microtesla is asked",
        "law_written",
        always(lambda B: B * 1e-6),
        "This looks like the field in tesla. A number without a unit is taken to be in µT here: 1 T = 10⁶ µT, "
        "so turn it, or type the T.",
        "exercises/law/#the-law-both-ways",
    ),
    Slip(
        "law-plain-sum",
        "the two fields added as if they were parallel",
        "law_along",
        always(lambda a, B, B_H: a.keep(B + B_H)),
        "This looks like B + B_H. The two fields are at right angles, so the two together are √(B² + B_H²).",
        ALONG,
    ),
    Slip(
        "law-root-of-difference",
        "the squares taken from each other",
        "law_along",
        always(lambda a, B, B_H: math.sqrt(abs(B * B - B_H * B_H))),
        "This looks like the root of a difference of squares. Both fields are short sides of the triangle: add.",
        ALONG,
    ),
    Slip(
        "law-root-of-plain-sum",
        "the fields not squared under the root",
        "law_along",
        always(lambda a, B, B_H: math.sqrt((B + B_H) * 1e6) * 1e-6),
        "This looks like √(B + B_H), worked in µT. Square each field first, add, then take the root.",
        ALONG,
    ),
    Slip(
        "law-root-left-out",
        "the root left out",
        "law_along",
        always(lambda a, B, B_H: (B * B + B_H * B_H) * 1e6),
        "This looks like B² + B_H², worked in µT, with no root taken. Take the square root of the sum.",
        ALONG,
    ),
    Slip(
        "law-signs-changed-over",
        "plus and minus changed over",
        "law_side",
        lambda right: lambda side: -right(side),
        "This looks like the deflection with the magnet the other way round. Where the part of the magnet’s field "
        "along B_H points north it adds to B_H, and the deflection is the smaller one.",
        BOARD,
    ),
    Slip(
        "law-board-left-out",
        "the arms taken to lie east–west",
        "law_tilt",
        always(lambda alpha: (1.0, 0.0)),
        "This looks as if the arms lay magnetic east–west. They are askew, so a part B sin α of the magnet’s field "
        "lies along B_H.",
        BOARD,
    ),
    Slip(
        "law-sine-and-cosine-changed-over",
        "sin α and cos α changed over",
        "law_tilt",
        lambda right: lambda alpha: right(alpha)[::-1],
        "This looks as if sin α and cos α were changed over. α is small, so nearly all of B lies across B_H: "
        "that part is B cos α.",
        BOARD,
    ),
    Slip(
        "law-tilt-in-radians",
        "α taken as radians",
        "law_tilt",
        always(lambda alpha: (math.cos(alpha), math.sin(alpha))),
        "This looks as if α was taken in radians. Set the calculator to degrees (often marked D or DEG).",
        RADIANS,
    ),
    Slip(
        "law-not-halved",
        "the two deflections added and not halved",
        "law_halve",
        always(lambda: 1),
        "This looks like the sum of the two. Their mean is half of it.",
        BOARD,
    ),
    Slip(
        "law-both-ways",
        "the difference of the two ways given",
        "law_error",
        always(lambda a, *, large, small, right: (large - small) / right),
        "This looks like the difference between the two ways. Compare the larger one with the B that is there.",
        BOARD,
    ),
    Slip(
        "law-share",
        "a share given for a percentage",
        "law_percent",
        always(lambda share: share / 100),
        "This looks like the error as a share. In per cent it is a hundred times that.",
        BOARD,
    ),
    # -- looked for only where none of the others explains a number --------------
    Slip(
        "law-second-turn",
        "read as if the second turn had been left out",
        "law_tilt",
        unchanged,
        "This looks like what the pointer shows where the second turn was left out, or the board was turned after "
        "setting up: there the scale is off by α as well. Here the pointer read 0–0 with no magnet near, so it shows "
        "the needle’s own deflection.",
        BOARD,
        hides=True,
        at=_with_the_scale_askew,
    ),
    Slip(
        "law-divided-by-tangent",
        "divided by tan θ, not multiplied",
        "law_written",
        unchanged,
        "This looks like B_H / tan θ. By the tangent law the magnet’s field is B = B_H tan θ: multiply.",
        "exercises/law/#the-law-both-ways",
        hides=True,
        at=_field_over_tangent,
    ),
    Slip(
        "law-field-by-sine",
        "sine taken for tangent in the field",
        "law_written",
        unchanged,
        "This looks like B_H sin θ. By the tangent law the magnet’s field is B = B_H tan θ.",
        TANGENT,
        hides=True,
        at=_field_by(math.sin),
    ),
    Slip(
        "law-field-by-cosine",
        "cosine taken for tangent in the field",
        "law_written",
        unchanged,
        "This looks like B_H cos θ. By the tangent law the magnet’s field is B = B_H tan θ.",
        TANGENT,
        hides=True,
        at=_field_by(math.cos),
    ),
)

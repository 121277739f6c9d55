"""The formulas of the tangent law drills, each named for its step: `tangent_1` is that of question 1.

Question 4: the box was set α off the arms and the board turned to 0–0, so the pointer
shows the needle's own deflection, and the arms are α off magnetic east–west.  The
magnet's field, which lies along the arm, has a part B cos α to the east or west and a part B sin α that adds to B_H
one way round and takes from it the other way.  Worked from the drawing in
content/exercises/law.md; no other source.
"""

from exercises.kinds.law.parts import LawParts, cos_of_degrees, degrees_of_tan
from exercises.working.arithmetic import Arithmetic, Number, middle
from exercises.working.steps import Formula, Givens, Known


def tangent_1(a: Arithmetic, known: Known, givens: Givens, parts: LawParts) -> Number:
    """tan θ."""
    return a.tangent(parts.law_tangent(a, givens["theta"][0]))


def field_1(a: Arithmetic, known: Known, givens: Givens, parts: LawParts) -> Number:
    """B = B_H tan θ."""
    return a.keep(parts.law_written(givens["B_H"] * known["tan-1"]))


def theta_2(a: Arithmetic, known: Known, givens: Givens, parts: LawParts) -> Number:
    """θ from the two fields."""
    return a.angle(parts.law_angle(a, a.tangent(givens["fields"][0] / givens["B_H"])))


def along_2(a: Arithmetic, known: Known, givens: Givens, parts: LawParts) -> Number:
    """The field along the needle, √(B² + B_H²)."""
    B, B_H = givens["fields"][0], givens["B_H"]

    def by_angle() -> Number:  # the same by way of the deflection, which may have been kept to 0.1°
        theta = a.angle(degrees_of_tan(B / B_H))
        return B_H / a.keep(a.apply(cos_of_degrees, theta))

    along = a.either(lambda: parts.law_along(a, B, B_H), by_angle)
    return a.keep(parts.law_written(along))


def earth_3(a: Arithmetic, known: Known, givens: Givens, parts: LawParts) -> Number:
    """B_H = B / tan θ."""
    tangent = a.tangent(parts.law_tangent(a, givens["theta"][1]))
    return a.keep(parts.law_written(givens["fields"][1] / tangent))


def way_4(a: Arithmetic, known: Known, givens: Givens, parts: LawParts) -> str:
    """Which way the N pole points when the needle turns farther: "east" or "west"."""
    # N pole east: the field points out along the east arm, and its northward part has the arm's own sign
    return "west" if givens["north"] else "east"


def turned_4(way: str) -> Formula[LawParts]:
    """The deflection with the N pole that way, "east" or "west"."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: LawParts) -> Number:
        B, (cos, sin) = givens["fields"][2], parts.law_tilt(givens["tilt"])
        side = parts.law_side((1 if givens["north"] else -1) * (1 if way == "east" else -1))
        under = a.keep(givens["B_H"] + side * a.keep(B * sin))
        return a.angle(parts.law_angle(a, a.tangent(a.keep(B * cos) / under)))

    return formula


def mean_4(a: Arithmetic, known: Known, givens: Givens, parts: LawParts) -> Number:
    """The mean of the two deflections."""
    return a.angle((known["east-4"] + known["west-4"]) / parts.law_halve())


def field_4(a: Arithmetic, known: Known, givens: Givens, parts: LawParts) -> Number:
    """B from the mean deflection, as if the arms lay east–west."""
    tangent = a.tangent(parts.law_tangent(a, known["mean-4"]))
    return a.keep(parts.law_written(givens["B_H"] * tangent))


def error_4(a: Arithmetic, known: Known, givens: Givens, parts: LawParts) -> Number:
    """The share by which B from the larger deflection alone is too large."""

    def alone(theta: Number) -> Number:
        return a.keep(givens["B_H"] * a.tangent(parts.law_tangent(a, theta)))

    smaller, larger = sorted((known["east-4"], known["west-4"]), key=middle)
    large, small = alone(larger), alone(smaller)
    return a.keep(parts.law_percent(parts.law_error(a, large=large, small=small, right=givens["fields"][2])))

"""How each step of the tangent law drills looks with its numbers put in."""

from exercises.kinds.deflection.parts import tangent_of_degrees
from exercises.working.numbers import figures, places
from exercises.working.steps import Givens, Known, WorkedLine


def microtesla(B: float) -> str:
    """A field in T as the sheet gives it, in µT."""
    return places(B * 1e6, 1)


def tangent_1(known: Known, givens: Givens) -> str:
    """The tangent of the angle given."""
    return f"tan θ = tan {places(givens['theta'][0], 1)}° = {places(known['tan-1'], 4)}"


def field_1(known: Known, givens: Givens) -> str:
    """B from it."""
    B_H, tangent = microtesla(givens["B_H"]), places(known["tan-1"], 4)
    return f"B = B_H tan θ = {B_H} × {tangent} = {figures(known['field-1'] * 1e6)} µT"


def theta_2(known: Known, givens: Givens) -> str:
    """θ from the two fields."""
    B, B_H = givens["fields"][0], givens["B_H"]
    return (
        f"tan θ = B/B_H = {microtesla(B)} / {microtesla(B_H)} = {places(B / B_H, 4)};  "
        f"θ = {places(known['theta-2'], 1)}°"
    )


def along_2(known: Known, givens: Givens) -> str:
    """The field along the needle."""
    B, B_H = microtesla(givens["fields"][0]), microtesla(givens["B_H"])
    return f"√(B² + B_H²) = √({B}² + {B_H}²) = {figures(known['along-2'] * 1e6)} µT"


def earth_3(known: Known, givens: Givens) -> str:
    """B_H from θ and B."""
    theta, B = givens["theta"][1], microtesla(givens["fields"][1])
    return (
        f"B_H = B / tan θ = {B} / tan {places(theta, 1)}° = {B} / {places(tangent_of_degrees(theta), 4)} "
        f"= {figures(known['earth-3'] * 1e6)} µT"
    )


def way_4(known: Known, givens: Givens) -> str:
    """Why the needle turns farther that way."""
    return (
        f"The east arm points {'north' if givens['north'] else 'south'} of east. With the N pole to the "
        f"{known['way-4']} the magnet’s field has a part to the south, against B_H: there the needle turns farther."
    )


def turned_4(way: str) -> WorkedLine:
    """The deflection with the N pole that way, "east" or "west"."""

    def line(known: Known, givens: Givens) -> str:
        sign = "+" if givens["north"] == (way == "east") else "−"
        B, B_H, alpha = microtesla(givens["fields"][2]), microtesla(givens["B_H"]), f"{givens['tilt']:.0f}°"
        theta = known[f"{way}-4"]
        tangent = places(tangent_of_degrees(theta), 4)
        return (
            f"N {way}: tan θ = {B} cos {alpha} / ({B_H} {sign} {B} sin {alpha}) = {tangent};  θ = {places(theta, 2)}°"
        )

    return line


def mean_4(known: Known, givens: Givens) -> str:
    """The mean of the two deflections."""
    east, west = places(known["east-4"], 2), places(known["west-4"], 2)
    return f"θ = ({east}° + {west}°) / 2 = {places(known['mean-4'], 2)}°"


def field_4(known: Known, givens: Givens) -> str:
    """B from the mean."""
    mean = places(known["mean-4"], 2)
    return (
        f"B = B_H tan θ = {microtesla(givens['B_H'])} × tan {mean}° = {figures(known['field-4'] * 1e6)} µT, "
        f"very nearly the {microtesla(givens['fields'][2])} µT that is there"
    )


def error_4(known: Known, givens: Givens) -> str:
    """How much too large B is from the larger deflection alone."""
    theta, B = max(known["east-4"], known["west-4"]), microtesla(givens["fields"][2])
    one = figures(givens["B_H"] * tangent_of_degrees(theta) * 1e6, 5)  # the difference is small: it takes more figures
    return f"B_H tan {places(theta, 2)}° = {one} µT;  ({one} − {B}) / {B} = {figures(known['error-4'] * 100)} %"

"""How each step of choosing distances looks with its numbers put in."""

import math

from exercises.kinds.deflection.lengths import LengthRule, five_sixths
from exercises.kinds.deflection.stretch import CLEARANCE
from exercises.kinds.distances.scenario import LIMITS
from exercises.working.numbers import centimetres, figures, places
from exercises.working.steps import Givens, Known, WorkedLine


def half_length(rule: LengthRule) -> WorkedLine:
    """l from what the sheet gives, by a rule."""

    def line(known: Known, givens: Givens) -> str:
        begun, l = rule.begun(givens["length"], givens["two_l"]), centimetres(known["l"], 2)
        two_l = f" = {centimetres(2 * known['l'], 2)} cm" if rule.part is five_sixths else ""
        return f"{begun}{two_l};  l = {l} cm"

    return line


def field(limit: str) -> WorkedLine:
    """B at a limit, "near" or "far"."""

    def line(known: Known, givens: Givens) -> str:
        theta = LIMITS[limit]
        return (
            f"B = B_H tan {theta:.0f}° = {places(givens['B_H'] * 1e6, 1)} × "
            f"{places(math.tan(math.radians(theta)), 4)} = {figures(known[f'field-{limit}'] * 1e6)} µT"
        )

    return line


def cube(limit: str) -> WorkedLine:
    """d₀³ at a limit."""

    def line(known: Known, givens: Givens) -> str:
        return (
            f"d₀³ = 10⁻⁷ × 2 × {figures(givens['moment'])} / {figures(known[f'field-{limit}'], 4)} "
            f"= {figures(known[f'cube-{limit}'], 4)} m³"
        )

    return line


def guess(limit: str) -> WorkedLine:
    """d₀ at a limit."""

    def line(known: Known, givens: Givens) -> str:
        return f"d₀ = ∛({figures(known[f'cube-{limit}'], 4)} m³) = {centimetres(known[f'guess-{limit}'])} cm"

    return line


def correction(limit: str) -> WorkedLine:
    """2l²/3d₀ at a limit."""

    def line(known: Known, givens: Givens) -> str:
        return (
            f"2l²/3d₀ = 2 × ({centimetres(known['l'], 2)} cm)² / (3 × {centimetres(known[f'guess-{limit}'])} cm) "
            f"= {centimetres(known[f'correction-{limit}'], 2)} cm"
        )

    return line


def distance(limit: str) -> WorkedLine:
    """d at a limit."""

    def line(known: Known, givens: Givens) -> str:
        return (
            f"d = d₀ + 2l²/3d₀ = {centimetres(known[f'guess-{limit}'], 2)} + "
            f"{centimetres(known[f'correction-{limit}'], 2)} = {centimetres(known[f'distance-{limit}'])} cm"
        )

    return line


def gap(known: Known, givens: Givens) -> str:
    """What is left between the box and the bar."""
    return (
        f"{centimetres(known['distance-near'])} − {centimetres(givens['length'] / 2, 2)} − "
        f"{centimetres(givens['radius'])} = {centimetres(known['gap'])} cm"
    )


def clear(known: Known, givens: Givens) -> str:
    """Whether the bar is clear of the box."""
    gap = centimetres(known["gap"])
    if known["gap"] >= CLEARANCE:
        return f"{gap} cm is more than 1 cm: the bar is clear of the box."
    return f"{gap} cm is less than 1 cm: the bar would be too close to the box."


def reach(known: Known, givens: Givens) -> str:
    """Where the far end of the bar lies."""
    half = centimetres(givens["length"] / 2, 2)
    return f"{centimetres(known['distance-far'])} + {half} = {centimetres(known['reach'])} cm"


def fits(known: Known, givens: Givens) -> str:
    """Whether the bar lies on the arm."""
    more, how = ("less", "long enough") if known["reach"] <= givens["arm"] else ("more", "too short")
    return f"{centimetres(known['reach'])} cm is {more} than {centimetres(givens['arm'])} cm: the arm is {how}."


def start(known: Known, givens: Givens) -> str:
    """The distance that is begun at."""
    if known["gap"] >= CLEARANCE:
        return f"The bar is clear: from {centimetres(known['from'])} cm, where the deflection is 60°."
    half = centimetres(givens["length"] / 2, 2)
    return f"{centimetres(givens['radius'])} + 1 + {half} = {centimetres(known['from'])} cm, box, gap and half the bar"


def stop(known: Known, givens: Givens) -> str:
    """The distance that is gone out to."""
    if known["reach"] <= givens["arm"]:
        return f"The arm is long enough: to {centimetres(known['to'])} cm, where the deflection is 30°."
    half = centimetres(givens["length"] / 2, 2)
    return (
        f"{centimetres(givens['arm'])} − {half} = {centimetres(known['to'])} cm, so that the whole bar lies on the arm"
    )

"""The two steps of the toy kind: the tangent of a deflection, and the field that turned the needle so far."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from exercises.working.arithmetic import Arithmetic, Number
from exercises.working.numbers import figures, places
from exercises.working.steps import Givens, Known, Parts, Plan, Step

THEORY = "exercises/toy/"


@dataclass(frozen=True)
class ToyParts(Parts):
    """What a slip may change: the function of the angle, and the field that the tangent is taken times."""

    toy_tangent: Callable[[Arithmetic, Number], Number] = lambda a, theta: a.apply(
        lambda x: math.tan(math.radians(x)), theta
    )
    toy_earth: Callable[[Number], Number] = lambda B_H: B_H


def _tangent(a: Arithmetic, known: Known, givens: Givens, parts: ToyParts) -> Number:
    return a.tangent(parts.toy_tangent(a, givens["theta"]))


def _field(a: Arithmetic, known: Known, givens: Givens, parts: ToyParts) -> Number:
    return a.keep(a.product(parts.toy_earth(givens["B_H"]), known["tan"]))


PARTS = ToyParts()
PLAN = Plan(
    (
        Step(
            id="tan",
            column="tan",
            title="tan θ",
            quantity="ratio",
            rule="tangent",
            needs=(),
            formula=_tangent,
            line=lambda known, givens: f"tan {places(givens['theta'], 1)}° = {places(known['tan'], 4)}",
            hints=("Set the calculator to degrees.", "Keep four places."),
            read=THEORY + "#the-tangent",
        ),
        Step(
            id="field",
            column="field",
            title="the magnet’s field B",
            quantity="field",
            rule="figures",
            needs=("tan",),
            formula=_field,
            line=lambda known, givens: f"B = B_H tan θ = {figures(known['field'] * 1e6)} µT",
            hints=("B = B_H tan θ.",),
            read=THEORY + "#the-field",
        ),
    )
)

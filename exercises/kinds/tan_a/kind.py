"""Tan A: the magnetic moment and pole strength of a bar magnet, end-on, by deflection.

Arms east–west, the magnet along the arm.  At each distance d: the mean of the
eight readings, its tangent, (d² − l²)², and m = (4π/µ0)·B_H·(d²−l²)²·tan θ / 2d.
Then the mean moment, and the pole strength m / 2l, with 2l = 5/6 of the
measured length (common practice).
"""

import math

from exercises.bench.field import distance_end_on, moment_end_on
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.deflection import steps as deflection
from exercises.kinds.deflection.draw import Position, draw_scenario
from exercises.kinds.deflection.page import DeflectionPage
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.deflection.steps import MAGNETIC_SHARE
from exercises.kinds.kind import Kind
from exercises.slips.catalogue import Slip, slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.working.numbers import figures, places
from exercises.working.steps import Working


def _moment_part(a, *, B_H, tangent, bracket, twice_d, k, **_):
    return a.product(B_H, tangent, bracket, a.keep(1 / twice_d)) / k


PARTS = {**deflection.PARTS, "bracket_sign": lambda: -1, "moment": _moment_part}


def _bracket(row):
    at = f"d-{row + 1}"

    def formula(a, known, givens, parts):
        d, l = known[at], known["l"]
        sign = parts["bracket_sign"]()
        difference = a.either(
            lambda: a.keep(a.keep(d * d) + sign * a.keep(l * l)),
            # the same by (d − l)(d + l); with the wrong sign there is no such form
            lambda: a.keep(a.keep(d - l) * a.keep(d + l)) if sign < 0 else a.keep(d * d + l * l),
        )
        return a.keep(parts["outer_square"](a, difference))

    return formula


def _moment(row):
    at, tangent, bracket = f"d-{row + 1}", f"tan-{row + 1}", f"bracket-{row + 1}"

    def formula(a, known, givens, parts):
        d = known[at]
        return a.keep(
            parts["moment"](
                a,
                B_H=givens["B_H"],
                tangent=known[tangent],
                bracket=known[bracket],
                twice_d=parts["twice_d"](a, d),
                k=parts["field_constant"](),
                d=d,
                l=known["l"],
            )
        )

    return formula


def _bracket_line(row):
    def line(known, givens):
        d, l = givens["d"][row], MAGNETIC_SHARE * givens["length"] / 2
        return (
            f"(d² − l²)² = ({figures(d)}² − {figures(l, 4)}²)² = ({figures(d * d, 4)} − {figures(l * l, 4)})² "
            f"= {figures(known[f'bracket-{row + 1}'], 4)} m⁴"
        )

    return line


def _moment_line(row):
    def line(known, givens):
        return (
            f"m = 10⁷ × {figures(givens['B_H'])} × {figures(known[f'bracket-{row + 1}'], 4)} "
            f"× {places(known[f'tan-{row + 1}'], 4)} / (2 × {figures(givens['d'][row])}) "
            f"= {figures(known[f'moment-{row + 1}'])} A·m²"
        )

    return line


BRACKET = dict(
    column="bracket",
    title="(d² − l²)²",
    quantity="length4",
    rule="figures",
    make=_bracket,
    needs=("d", "l"),
    line=_bracket_line,
    hints=(
        "Turn d and l into metres first. l is half the magnetic length, and the magnetic length is 5/6 "
        "of the measured length.",
        "Square d, square l, subtract, and square what is left.",
    ),
    read="before/field-end-on/#the-bracket-is-squared",
)
MOMENT = dict(
    column="moment",
    title="moment m",
    quantity="moment",
    rule="figures",
    make=_moment,
    line=_moment_line,
    needs=("d", "l", "tan", "bracket"),
    hints=(
        "m = (4π/µ₀) · B_H · (d² − l²)² · tan θ / 2d, with 4π/µ₀ = 10⁷ and B_H in tesla.",
        "Multiply B_H, tan θ and (d² − l²)², divide by 2d in metres, and multiply by 10⁷.",
    ),
    read="before/field-end-on/#the-moment-from-the-deflection",
)

plan_for = deflection.planner(BRACKET, MOMENT)
SLIPS = slips_for("tan-a", PARTS, OF_DEFLECTION)
ALIKE = 0.008  # well within what a third figure and rounding early can bridge


def sine_like_whole_length(d: float, length: float, tangent: float) -> bool:
    """Whether the sine for the tangent, and 2l for l, change the moment at d by the same share.

    d, length in m.  Of all pairs of slips these two are alike most often; it is seen before anything is read.
    """
    l = MAGNETIC_SHARE * length / 2
    sine, whole = 1 / math.hypot(1, tangent), ((d * d - 4 * l * l) / (d * d - l * l)) ** 2
    return abs(sine - whole) < ALIKE * sine


POSITION = Position(moment_end_on, distance_end_on, shares=(0.170, 0.205), reach=0.5, alike=sine_like_whole_length)


def working(scenario: DeflectionScenario) -> Working:
    """The working of a tan A scenario."""
    return deflection.working_of(scenario, plan_for(len(scenario.rows)), PARTS)


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> DeflectionScenario:
    """The numbers of a code of edition 1."""
    return draw_scenario(code, POSITION, plan_for, PARTS, slips)


PAGE = DeflectionPage(
    task="Find the magnetic moment and the pole strength of this bar magnet. The arms lie east–west and the "
    "magnet lies along the arm (tan A position). Take 4π/µ₀ = 10⁷ A/(T·m).",
    formula="m = (4π/µ₀) · B_H · (d² − l²)² · tan θ / (2d)",
    position="N pole points",
)

KIND = Kind("A", "tan-a", "Tan A: moment and pole strength", {1: draw_first_edition}, working, PAGE, SLIPS)

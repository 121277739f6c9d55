"""Tan A: the magnetic moment and pole strength of a bar magnet, end-on, by deflection.

Arms east–west, the magnet along the arm.  At each distance d: the mean of the
eight readings, its tangent, (d² − l²)², and m = (4π/µ0)·B_H·(d²−l²)²·tan θ / 2d.
Then the mean moment, and the pole strength m / 2l.
"""

import math
from dataclasses import replace
from functools import partial

from exercises.codes.scenario import Row
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.deflection.draw import COUNTS, draw_scenario
from exercises.kinds.deflection.enough import Wanted, too_few
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.deflection.page import DeflectionPage
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.deflection.steps import working_of
from exercises.kinds.deflection.stretch import END_ON
from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.kinds.tan_a.questions import QUESTIONS
from exercises.kinds.tan_a.steps import PARTS, parts_for, plan_for
from exercises.slips.catalogue import Slip, slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.slips.elsewhere import SLIPS as OF_PLACES
from exercises.working.steps import Working

SLIPS = slips_for("tan-a", PARTS, (*OF_DEFLECTION, *OF_PLACES))


def factors(d: float, l: float, length: float, tangent: float) -> tuple[float, ...]:
    """How many times the moment it is with the sine, the complement, 2l for l, no l, d² + l², broadside; lengths in m.

    Of all pairs of slips some of these are most often alike, which is known before anything is read.
    """
    d2, l2 = d * d, l * l
    right = (d2 - l2) ** 2
    return (
        1 / math.hypot(1, tangent),
        1 / (tangent * tangent),
        (d2 - 4 * l2) ** 2 / right,
        d2 * d2 / right,
        (d2 + l2) ** 2 / right,
        2 * d * (d2 + l2) ** 1.5 / right,
        2.0,
    )


POSITION = replace(END_ON, factors=factors)


def working(scenario: DeflectionScenario) -> Working:
    """The working of a tan A scenario."""
    return _with_rows(scenario, scenario.rows)


def _with_rows(scenario: DeflectionScenario, rows: tuple[Row, ...]) -> Working:
    rule = rule_of(scenario.code.setting)
    return working_of(scenario, rows, plan_for(len(rows), rule), parts_for(rule))


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> DeflectionScenario:
    """The numbers of a code of edition 1."""
    return draw_scenario(code, POSITION, _with_rows, slips)


PAGE = DeflectionPage(
    task="Find the magnetic moment and the pole strength of this bar magnet. The arms lie east–west and the "
    "magnet lies along the arm (tan A position). Take 4π/µ₀ = 10⁷ A/(T·m).",
    formula="m = (4π/µ₀) · B_H · (d² − l²)²/(2d) · tan θ",
    position="N pole points",
)

KIND = Kind(
    "A",
    "tan-a",
    "Tan A: moment and pole strength",
    {1: draw_first_edition},
    working,
    PAGE,
    SLIPS,
    questions=QUESTIONS,
    listing=Listing(
        order=10,
        name="Tan A",
        task="the moment and the pole strength, magnet end-on: the main experiment",
        steps="mean θ, tan θ, (d²−l²)², moment at each distance; mean moment, pole strength",
        checked="magpylib, Gauss 1832, CODATA, IGRF",
        examples=("avocet", "curlew", "dunlin", "plover", "godwit", "knot"),
    ),
    refuses=partial(too_few, Wanted(POSITION, min(COUNTS))),
)

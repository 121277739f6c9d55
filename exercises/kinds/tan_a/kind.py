"""Tan A: the magnetic moment and pole strength of a bar magnet, end-on, by deflection.

Arms east–west, the magnet along the arm.  At each distance d: the mean of the
eight readings, its tangent, (d² − l²)², and m = (4π/µ0)·B_H·(d²−l²)²·tan θ / 2d.
Then the mean moment, and the pole strength m / 2l, with 2l = 5/6 of the
measured length (common practice).
"""

import math
from dataclasses import replace

from exercises.codes.sheet_code import SheetCode
from exercises.kinds.deflection.draw import END_ON, draw_scenario
from exercises.kinds.deflection.page import DeflectionPage
from exercises.kinds.deflection.parts import MAGNETIC_SHARE
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.deflection.steps import working_of
from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.kinds.tan_a.steps import PARTS, plan_for
from exercises.slips.catalogue import Slip, slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.slips.elsewhere import SLIPS as OF_PLACES
from exercises.working.steps import Working

SLIPS = slips_for("tan-a", PARTS, (*OF_DEFLECTION, *OF_PLACES))
ALIKE = 0.008  # well within what a third figure and rounding early can bridge


def sine_like_whole_length(d: float, length: float, tangent: float) -> bool:
    """Whether the sine for the tangent, and 2l for l, change the moment at d by the same share.

    d, length in m.  Of all pairs of slips these two are most often alike; this is known before anything is read.
    """
    l = MAGNETIC_SHARE * length / 2
    sine, whole = 1 / math.hypot(1, tangent), ((d * d - 4 * l * l) / (d * d - l * l)) ** 2
    return abs(sine - whole) < ALIKE * sine


POSITION = replace(END_ON, alike=sine_like_whole_length)


def working(scenario: DeflectionScenario) -> Working:
    """The working of a tan A scenario."""
    return working_of(scenario, plan_for(len(scenario.rows)), PARTS)


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> DeflectionScenario:
    """The numbers of a code of edition 1."""
    return draw_scenario(code, POSITION, working, slips)


PAGE = DeflectionPage(
    task="Find the magnetic moment and the pole strength of this bar magnet. The arms lie east–west and the "
    "magnet lies along the arm (tan A position). Take 4π/µ₀ = 10⁷ A/(T·m).",
    formula="m = (4π/µ₀) · B_H · (d² − l²)² · tan θ / (2d)",
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
    listing=Listing(
        order=10,
        name="Tan A",
        task="the moment and the pole strength, magnet end-on: the main experiment",
        steps="mean θ, tan θ, (d²−l²)², moment at each distance; mean moment, pole strength",
        checked="magpylib, Gauss 1832, CODATA, IGRF",
        examples=("avocet", "curlew", "dunlin", "plover", "godwit", "knot"),
    ),
)

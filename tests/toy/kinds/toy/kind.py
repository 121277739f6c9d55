"""A toy kind of exercise: the field of a magnet from one deflection.  It is no part of the site.

It stands for a kind that somebody adds: this folder, a page, a file of examples.
"""

import math
from dataclasses import dataclass

from exercises.kinds.toy.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.toy.steps import PARTS, PLAN

from exercises.codes.scenario import Draw, Scenario, draw_field
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.kinds.sheet import Page
from exercises.slips.catalogue import Slip, slips_for
from exercises.working.numbers import places
from exercises.working.steps import Working


@dataclass(frozen=True)
class ToyScenario(Scenario):
    """theta  the deflection in degrees, as it is given"""

    theta: float


def working(scenario: ToyScenario) -> Working:
    """The working of a scenario."""
    return Working(PLAN, {"B_H": scenario.B_H, "theta": scenario.theta}, PARTS)


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> ToyScenario:
    """The numbers of a code of edition 1."""
    draw = Draw(code)
    while True:
        field = draw_field(draw, code.setting)
        theta = math.floor(draw.between(30, 60) * 10) / 10
        scenario = ToyScenario(code, field, theta)
        if tells_apart(working(scenario), slips, ("tan", "field")):
            return scenario


class ToyPage(Page[ToyScenario]):
    """What the sheet shows."""

    task = "Find the field of the magnet that turned the needle so far."
    formula = "B = B_H tan θ"

    def givens(self, scenario: ToyScenario) -> list[tuple[str, str]]:
        earth = f"{places(scenario.B_H * 1e6, 1)} µT"
        return [(scenario.field.named, earth), ("θ", f"{places(scenario.theta, 1)}°")]

    def numbers(self, scenario: ToyScenario) -> dict[str, object]:
        return {"where": scenario.field.where, "B_H": scenario.B_H, "theta": scenario.theta}


KIND = Kind(
    "Y",
    "toy",
    "A toy: the field from one deflection",
    {1: draw_first_edition},
    working,
    ToyPage(),
    slips_for("toy", PARTS, OF_THIS_KIND),
    questions={"field": "tan θ is {tan}, and B_H is {B_H}. What is the field B?"},
    listing=Listing(
        order=15,
        name="A toy",
        task="the field from one deflection",
        steps="tan θ, B",
        checked="nothing: it is a toy",
    ),
)

"""Tan B: the magnetic moment and pole strength of a bar magnet, broadside-on, by deflection.

Arms north–south, the magnet across the arm.  At each distance d the mean of the eight readings, its tangent,
(d² + l²)^(3/2), and m = (4π/µ0)·B_H·(d²+l²)^(3/2)·tan θ.  Then the mean moment,
the pole strength m / 2l, and which way the needle turns.
"""

import math
from dataclasses import dataclass
from functools import partial

from exercises.bench.field import broadside_on, distance_broadside_on, moment_broadside_on
from exercises.bench.instrument import Magnet
from exercises.codes.scenario import Row
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.deflection.draw import COUNTS, draw_scenario
from exercises.kinds.deflection.enough import Wanted, too_few
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.deflection.page import DeflectionPage
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.deflection.steps import working_of
from exercises.kinds.deflection.stretch import Position
from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.kinds.sheet import Group
from exercises.kinds.tan_b.questions import QUESTIONS
from exercises.kinds.tan_b.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.tan_b.steps import ARMS, PARTS, parts_for, plan_for
from exercises.slips.catalogue import Slip, slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.slips.elsewhere import SLIPS as OF_PLACES
from exercises.working.steps import Working

SLIPS = slips_for("tan-b", PARTS, (*OF_DEFLECTION, *OF_THIS_KIND, *OF_PLACES))


def factors(d: float, l: float, length: float, tangent: float) -> tuple[float, ...]:
    """How many times the moment it is with the near end, end-on, a 2, d² − l², 2l for l, no l, the sine; lengths in m.

    Of all pairs of slips some of these are most often alike, which is known before anything is read.
    """
    d2, l2 = d * d, l * l
    right = (d2 + l2) ** 1.5
    return (
        ((d - length / 2) ** 2 + l2) ** 1.5 / right,
        (d2 - l2) ** 2 / (2 * d * right),
        0.5,
        (d2 - l2) ** 1.5 / right,
        (d2 + 4 * l2) ** 1.5 / right,
        d2 * d / right,
        1 / math.hypot(1, tangent),
        1 / (tangent * tangent),
    )


#: A bar is never wider than a third of its length, so half of that is all it takes of the arm.
POSITION = Position(
    broadside_on,
    moment_broadside_on,
    distance_broadside_on,
    shares=(0.19, 0.26),
    reach=1 / 6,
    tan_b=True,
    factors=factors,
)


def laid(scenario: DeflectionScenario) -> tuple[str, str]:
    """How the magnet lies in the question of the needle's turn: the arm, and where N points."""
    return ARMS[scenario.code.seed % 2], ("east", "west")[scenario.code.seed // 2 % 2]


def working(scenario: DeflectionScenario) -> Working:
    """The working of a tan B scenario."""
    rule = rule_of(scenario.code.setting)
    plan, parts = plan_for(len(scenario.rows), rule, laid(scenario)), parts_for(rule)
    givens = working_of(scenario, scenario.rows, plan, parts).givens
    magnet = Magnet(scenario.bar.moment, scenario.bar.magnetic_length / 2)
    return Working(plan, {**givens, "laid": laid(scenario), "magnet": magnet}, parts)


def _numbers_alone(scenario: DeflectionScenario, rows: tuple[Row, ...]) -> Working:
    """The working without the turn of the needle, which hangs on no number that is drawn."""
    rule = rule_of(scenario.code.setting)
    return working_of(scenario, rows, plan_for(len(rows), rule), parts_for(rule))


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> DeflectionScenario:
    """The numbers of a code of edition 1."""
    return draw_scenario(code, POSITION, _numbers_alone, slips)


@dataclass(frozen=True)
class TanBPage(DeflectionPage):
    """A deflection sheet with the turn of the needle beside the result, where it takes no room of its own in print."""

    def groups(self, scenario: DeflectionScenario, working: Working) -> list[Group]:
        """One group for each distance, then the result and the turn of the needle."""
        turn = working.by_id["turns"]
        *rows, result = super().groups(scenario, working)
        return [*rows, Group("Result, and the turn of the needle", [*(s for s in result.steps if s is not turn), turn])]


PAGE = TanBPage(
    task="Find the magnetic moment and the pole strength of this bar magnet. The arms lie north–south and the "
    "magnet lies across the arm (tan B position). Take 4π/µ₀ = 10⁷ A/(T·m).",
    formula="m = (4π/µ₀) · B_H · (d² + l²)^(3/2) · tan θ",
    position="N pole points",
    arms=ARMS,
    tan_b=True,
)

KIND = Kind(
    "T",
    "tan-b",
    "Tan B: moment and pole strength",
    {1: draw_first_edition},
    working,
    PAGE,
    SLIPS,
    questions=QUESTIONS,
    listing=Listing(
        order=20,
        name="Tan B",
        task="the same, broadside-on",
        steps="the set-up, mean θ, tan θ, (d²+l²)^(3/2), moment; mean moment, pole strength",
        checked="magpylib's cylinder",
    ),
    refuses=partial(too_few, Wanted(POSITION, min(COUNTS))),
)

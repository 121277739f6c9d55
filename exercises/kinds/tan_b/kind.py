"""Tan B: the magnetic moment and pole strength of a bar magnet, broadside-on, by deflection.

Arms north–south, the magnet across the arm.  At each distance d the mean of the eight readings, its tangent,
(d² + l²)^(3/2), and m = (4π/µ0)·B_H·(d²+l²)^(3/2)·tan θ.  Then the mean moment,
the pole strength m / 2l, with 2l = 5/6 of the measured length (common practice), and
which way the needle turns.
"""

from dataclasses import dataclass

from exercises.bench.field import distance_broadside_on, moment_broadside_on
from exercises.bench.instrument import Magnet
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.deflection.draw import Position, draw_scenario
from exercises.kinds.deflection.page import DeflectionPage
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.deflection.steps import working_of
from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.kinds.sheet import Group
from exercises.kinds.tan_b.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.tan_b.steps import ARMS, PARTS, plan_for
from exercises.slips.catalogue import Slip, slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.slips.elsewhere import SLIPS as OF_PLACES
from exercises.working.steps import Working

SLIPS = slips_for("tan-b", PARTS, (*OF_DEFLECTION, *OF_THIS_KIND, *OF_PLACES))
#: A bar is never wider than a third of its length, so half of that is all it takes of the arm.
POSITION = Position(moment_broadside_on, distance_broadside_on, shares=(0.19, 0.26), reach=1 / 6, tan_b=True)


def laid(scenario: DeflectionScenario) -> tuple[str, str]:
    """How the magnet lies in the question of the needle's turn: the arm, and where N points."""
    return ARMS[scenario.code.seed % 2], ("east", "west")[scenario.code.seed // 2 % 2]


def working(scenario: DeflectionScenario) -> Working:
    """The working of a tan B scenario."""
    plan = plan_for(len(scenario.rows), laid(scenario))
    givens = working_of(scenario, plan, PARTS).givens
    magnet = Magnet(scenario.bar.moment, scenario.bar.magnetic_length / 2)
    return Working(plan, {**givens, "laid": laid(scenario), "magnet": magnet}, PARTS)


def _numbers_alone(scenario: DeflectionScenario) -> Working:
    """The working without the turn of the needle, which hangs on no number that is drawn."""
    return working_of(scenario, plan_for(len(scenario.rows)), PARTS)


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
)

KIND = Kind(
    "T",
    "tan-b",
    "Tan B: moment and pole strength",
    {1: draw_first_edition},
    working,
    PAGE,
    SLIPS,
    listing=Listing(
        order=20,
        name="Tan B",
        task="the same, broadside-on",
        steps="the set-up, mean θ, tan θ, (d²+l²)^(3/2), moment; mean moment, pole strength",
        checked="magpylib's cylinder",
    ),
)

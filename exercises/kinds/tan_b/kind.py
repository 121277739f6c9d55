"""Tan B: the magnetic moment and pole strength of a bar magnet, broadside-on, by deflection.

Arms north–south, the magnet across the arm.  At each distance d the mean of the eight readings, its tangent,
(d² + l²)^(3/2), and m = (4π/µ0)·B_H·(d²+l²)^(3/2)·tan θ.  Then the mean moment,
the pole strength m / 2l, with 2l = 5/6 of the measured length (common practice), and
which way the needle turns.
"""

from dataclasses import dataclass
from functools import cache

from exercises.bench.field import distance_broadside_on, moment_broadside_on
from exercises.bench.instrument import PERFECT, Magnet, equilibrium, poles
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.deflection import steps as deflection
from exercises.kinds.deflection.draw import Position, draw_scenario
from exercises.kinds.deflection.page import DeflectionPage
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.deflection.steps import MAGNETIC_SHARE
from exercises.kinds.kind import Kind
from exercises.kinds.tan_b.slips import SLIPS as OF_THIS_KIND
from exercises.slips.catalogue import Slip, slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.working.numbers import figures, places
from exercises.working.steps import Plan, Step, Working

ARMS = ("north", "south")


def _three_halves(a, s):
    # s·√s, √(s³) and (√s)³ are one number and three ways of rounding
    return a.either(
        lambda: a.keep(s**1.5),
        lambda: a.keep(s * a.keep(s**0.5)),
        lambda: a.keep(a.keep(s**3) ** 0.5),
        lambda: a.keep(a.keep(s**0.5) ** 3),
    )


def _moment_part(a, *, B_H, tangent, bracket, k, **_):
    return a.product(B_H, tangent, bracket) / k


#: The squared bracket and the 2d belong to end-on alone.
PARTS = {name: part for name, part in deflection.PARTS.items() if name not in ("outer_square", "twice_d")} | {
    "broadside_sign": lambda: 1,
    "three_halves": _three_halves,
    "front_number": lambda: 1,
    "moment": _moment_part,
}


def _bracket(row):
    at = f"d-{row + 1}"

    def formula(a, known, givens, parts):
        d, l = known[at], known["l"]
        return parts["three_halves"](a, a.keep(a.keep(d * d) + parts["broadside_sign"]() * a.keep(l * l)))

    return formula


def _moment(row):
    at, tangent, bracket = f"d-{row + 1}", f"tan-{row + 1}", f"bracket-{row + 1}"

    def formula(a, known, givens, parts):
        m = parts["moment"](
            a,
            B_H=givens["B_H"],
            tangent=known[tangent],
            bracket=known[bracket],
            k=parts["field_constant"](),
            d=known[at],
            l=known["l"],
        )
        return a.keep(m / parts["front_number"]())

    return formula


def _bracket_line(row):
    def line(known, givens):
        d, l = givens["d"][row], MAGNETIC_SHARE * givens["length"] / 2
        s = d * d + l * l
        return (
            f"(d² + l²)^(3/2) = ({figures(d)}² + {figures(l, 4)}²)^(3/2) = {figures(s, 4)}^(3/2) "
            f"= {figures(s, 4)} × √{figures(s, 4)} = {figures(known[f'bracket-{row + 1}'], 4)} m³"
        )

    return line


def _moment_line(row):
    def line(known, givens):
        return (
            f"m = 10⁷ × {figures(givens['B_H'])} × {figures(known[f'bracket-{row + 1}'], 4)} "
            f"× {places(known[f'tan-{row + 1}'], 4)} = {figures(known[f'moment-{row + 1}'])} A·m²"
        )

    return line


BRACKET = dict(
    column="bracket",
    title="(d² + l²)^(3/2)",
    quantity="volume",
    rule="figures",
    make=_bracket,
    needs=("d", "l"),
    line=_bracket_line,
    hints=(
        "Turn d and l into metres first. l is half the magnetic length, and the magnetic length is 5/6 "
        "of the measured length.",
        "Square d, square l and add. To the power 3/2 is the sum times its own square root.",
    ),
    read="exercises/tan-b/#the-power-three-halves",
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
        "m = (4π/µ₀) · B_H · (d² + l²)^(3/2) · tan θ, with 4π/µ₀ = 10⁷ and B_H in tesla.",
        "Multiply B_H, tan θ and (d² + l²)^(3/2), and multiply by 10⁷. Nothing is divided by 2d here.",
    ),
    read="exercises/tan-b/#the-moment-broadside-on",
)


def _turns(a, known, givens, parts):
    """Which way the N end of the needle turns: as the instrument shows it."""
    arm, north = givens["laid"]
    pair = poles(givens["magnet"], givens["d"][0], "east" if arm == ARMS[0] else "west", north, PERFECT, tan_b=True)
    return "east" if equilibrium(pair, givens["B_H"], 0.0) > 0 else "west"


@cache
def _turn_step(arm: str, north: str) -> Step:
    wrong = (
        f"Beside a magnet the field runs back from its N pole to its S pole, against the magnet. Here N points {north}: "
        "which way does the field at the box point?"
    )
    return Step(
        id="turns",
        column="turns",
        title=f"{arm} arm, N {north}: the needle turns",
        quantity="choice",
        rule="choice",
        needs=(),
        formula=_turns,
        line=lambda known, givens: (
            f"Broadside-on the field points against the magnet: N points {north}, so the needle turns {known['turns']}."
        ),
        hints=(
            "Draw one line of the field from the N pole round to the S pole, past the middle of the magnet's side.",
        ),
        read="exercises/tan-b/#which-way-the-needle-turns",
        choices=(
            ("east", "its N end to the east", wrong),
            ("west", "its N end to the west", wrong),
            (
                "stays",
                "not at all",
                "The magnet lies across the arm, so its field at the box lies across the earth's, and turns the needle.",
            ),
        ),
    )


plan_for = deflection.planner(BRACKET, MOMENT)
SLIPS = slips_for("tan-b", PARTS, (*OF_DEFLECTION, *OF_THIS_KIND))
#: A bar is never wider than a third of its length, so half of that is all it takes of the arm.
POSITION = Position(moment_broadside_on, distance_broadside_on, shares=(0.19, 0.26), reach=1 / 6, tan_b=True)


def laid(scenario: DeflectionScenario) -> tuple[str, str]:
    """How the magnet lies in the question of the needle's turn: the arm, and where N points."""
    return ARMS[scenario.code.seed % 2], ("east", "west")[scenario.code.seed // 2 % 2]


def working(scenario: DeflectionScenario) -> Working:
    """The working of a tan B scenario."""
    plan: Plan = plan_for(len(scenario.rows), (_turn_step(*laid(scenario)),))
    plain = deflection.working_of(scenario, plan, PARTS)
    magnet = Magnet(scenario.bar.moment, scenario.bar.magnetic_length / 2)
    return Working(plan, {**plain.givens, "laid": laid(scenario), "magnet": magnet}, PARTS)


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> DeflectionScenario:
    """The numbers of a code of edition 1."""
    return draw_scenario(code, POSITION, plan_for, PARTS, slips)


@dataclass(frozen=True)
class TanBPage(DeflectionPage):
    """A deflection sheet with the turn of the needle beside the result, where it takes no room of its own in print."""

    def groups(self, scenario: DeflectionScenario, working: Working) -> list[tuple[str, list[Step]]]:
        turn = working.by_id["turns"]
        *rows, (_, result) = super().groups(scenario, working)
        return [*rows, ("Result, and the turn of the needle", [*(s for s in result if s is not turn), turn])]


PAGE = TanBPage(
    task="Find the magnetic moment and the pole strength of this bar magnet. The arms lie north–south and the "
    "magnet lies across the arm (tan B position). Take 4π/µ₀ = 10⁷ A/(T·m).",
    formula="m = (4π/µ₀) · B_H · (d² + l²)^(3/2) · tan θ",
    position="N pole points",
    arms=ARMS,
)

KIND = Kind("T", "tan-b", "Tan B: moment and pole strength", {1: draw_first_edition}, working, PAGE, SLIPS)

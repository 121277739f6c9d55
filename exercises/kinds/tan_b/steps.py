"""Tan B: its parts, the bracket and the moment at one distance, and the turn of the needle."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Protocol

from exercises.bench.instrument import PERFECT, equilibrium, poles
from exercises.kinds.deflection.lengths import LengthRule
from exercises.kinds.deflection.parts import (
    MetricLengthParts,
    OfOneNumber,
    ReadingParts,
    ResultParts,
)
from exercises.kinds.deflection.steps import deflection_steps
from exercises.working.arithmetic import Arithmetic, Number
from exercises.working.numbers import figures, places
from exercises.working.steps import Givens, Known, Plan, Step

ARMS = ("north", "south")


class BroadsideMoment(Protocol):
    """The formula of the moment, with all that right and slipped ones take: k is µ₀/4π, bracket is (d² + l²)^(3/2)."""

    def __call__(
        self, a: Arithmetic, *, B_H: Number, tangent: Number, bracket: Number, k: Number, d: Number, l: Number
    ) -> Number: ...


def moment(a: Arithmetic, *, B_H: Number, tangent: Number, bracket: Number, k: Number, **_: Number) -> Number:
    """m = B_H·(d² + l²)^(3/2)·tan θ, divided by µ₀/4π."""
    return a.product(B_H, tangent, bracket) / k


def broadside_sign() -> int:
    """The sign in d² + l²."""
    return 1


def three_halves(a: Arithmetic, s: Number) -> Number:
    """s to the power 3/2.  s·√s, √(s³) and (√s)³ are one number and three ways of rounding."""
    return a.either(
        lambda: a.keep(s**1.5),
        lambda: a.keep(s * a.keep(s**0.5)),
        lambda: a.keep(a.keep(s**3) ** 0.5),
        lambda: a.keep(a.keep(s**0.5) ** 3),
    )


def front_number() -> int:
    """What the moment is divided by besides: nothing, while the end-on field has a 2."""
    return 1


@dataclass(frozen=True)
class TanBParts(MetricLengthParts, ReadingParts, ResultParts):
    """All parts of a tan B sheet.  The squared bracket and the 2d belong to end-on alone."""

    broadside_sign: Callable[[], int] = broadside_sign
    three_halves: OfOneNumber = three_halves
    front_number: Callable[[], int] = front_number
    moment: BroadsideMoment = moment


PARTS = TanBParts()


def bracket_step(row: int, rule: LengthRule) -> Step:
    """(d² + l²)^(3/2) of one distance."""
    id, at = f"bracket-{row + 1}", f"d-{row + 1}"

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: TanBParts) -> Number:
        d, l = known[at], known["l"]
        return parts.three_halves(a, a.keep(a.keep(d * d) + parts.broadside_sign() * a.keep(l * l)))

    def line(known: Known, givens: Givens) -> str:
        d, l = givens["d"][row], givens["two_l"] / 2
        s = d * d + l * l
        return (
            f"(d² + l²)^(3/2) = ({figures(d)}² + {figures(l, 4)}²)^(3/2) = {figures(s, 4)}^(3/2) "
            f"= {figures(s, 4)} × √{figures(s, 4)} = {figures(known[id], 4)} m³"
        )

    return Step(
        id=id,
        column="bracket",
        title="(d² + l²)^(3/2)",
        quantity="volume",
        rule="figures",
        needs=(at, "l"),
        formula=formula,
        line=line,
        hints=(
            f"Turn d and l into metres first. {rule.half_is}",
            "Square d, square l and add. To the power 3/2 is the sum times its own square root.",
        ),
        read="exercises/tan-b/#the-power-three-halves",
        row=row,
    )


def moment_step(row: int) -> Step:
    """The moment from one distance."""
    i = row + 1

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: TanBParts) -> Number:
        m = parts.moment(
            a,
            B_H=givens["B_H"],
            tangent=known[f"tan-{i}"],
            bracket=known[f"bracket-{i}"],
            k=parts.field_constant(),
            d=known[f"d-{i}"],
            l=known["l"],
        )
        return a.keep(m / parts.front_number())

    def line(known: Known, givens: Givens) -> str:
        return (
            f"m = 10⁷ × {figures(givens['B_H'])} × {figures(known[f'bracket-{i}'], 4)} "
            f"× {places(known[f'tan-{i}'], 4)} = {figures(known[f'moment-{i}'])} A·m²"
        )

    return Step(
        id=f"moment-{i}",
        column="moment",
        title="moment m",
        quantity="moment",
        rule="figures",
        needs=(f"d-{i}", "l", f"tan-{i}", f"bracket-{i}"),
        formula=formula,
        line=line,
        hints=(
            "m = (4π/µ₀) · B_H · (d² + l²)^(3/2) · tan θ, with 4π/µ₀ = 10⁷ and B_H in tesla.",
            "Multiply B_H, tan θ and (d² + l²)^(3/2), and multiply by 10⁷. Nothing is divided by 2d here.",
        ),
        read="exercises/tan-b/#the-moment-broadside-on",
        row=row,
    )


def _turns(a: Arithmetic, known: Known, givens: Givens, parts: TanBParts) -> str:
    """Which way the N end of the needle turns: as the instrument shows it."""
    arm, north = givens["laid"]
    pair = poles(givens["magnet"], givens["d"][0], "east" if arm == ARMS[0] else "west", north, PERFECT, tan_b=True)
    return "east" if equilibrium(pair, givens["B_H"], 0.0) > 0 else "west"


def turn_step(arm: str, north: str) -> Step:
    """Which way the needle turns with the magnet on that arm and its N pole pointing that way."""
    wrong = (
        "Beside a magnet the field runs back from its N pole to its S pole, against the magnet. "
        f"Here N points {north}: which way does the field at the box point?"
    )

    def line(known: Known, givens: Givens) -> str:
        return (
            f"Broadside-on the field points against the magnet: N points {north}, so the needle turns {known['turns']}."
        )

    return Step(
        id="turns",
        column="turns",
        title=f"{arm} arm, N {north}: the needle turns",
        quantity="choice",
        rule="choice",
        needs=(),
        formula=_turns,
        line=line,
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
                "The magnet lies across the arm, so its field at the box lies across the earth's, "
                "and turns the needle.",
            ),
        ),
    )


@cache
def parts_for(rule: LengthRule) -> TanBParts:
    """The parts of a sheet that knows 2l by a rule."""
    return PARTS.replaced(magnetic_length=rule.part)


@cache
def plan_for(rows: int, rule: LengthRule, laid: tuple[str, str] | None = None) -> Plan:
    """The plan of a sheet of so many distances; laid is the magnet's arm and where N points, None while it is drawn."""
    turn = () if laid is None else (turn_step(*laid),)
    return Plan((*turn, *deflection_steps(rows, rule, bracket_step, moment_step)))

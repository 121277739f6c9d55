"""Tan A: its parts, and the moment at one distance."""

from dataclasses import dataclass
from functools import cache
from typing import Protocol

from exercises.kinds.deflection.lengths import LengthRule
from exercises.kinds.deflection.parts import EndOnParts, MetricLengthParts, ReadingParts, ResultParts
from exercises.kinds.deflection.steps import deflection_steps, end_on_bracket_step
from exercises.working.arithmetic import Arithmetic, Number
from exercises.working.numbers import figures, places
from exercises.working.steps import Givens, Known, Plan, Step


class EndOnMoment(Protocol):
    """The formula of the moment, with all that right and slipped ones take: k is µ₀/4π, bracket is (d² − l²)²."""

    def __call__(
        self,
        a: Arithmetic,
        *,
        B_H: Number,
        tangent: Number,
        bracket: Number,
        twice_d: Number,
        k: Number,
        d: Number,
        l: Number,
    ) -> Number: ...


def moment(
    a: Arithmetic, *, B_H: Number, tangent: Number, bracket: Number, twice_d: Number, k: Number, **_: Number
) -> Number:
    """m = B_H·(d² − l²)²·tan θ / 2d, divided by µ₀/4π."""
    return a.product(B_H, tangent, bracket, 1 / twice_d) / k


@dataclass(frozen=True)
class TanAParts(MetricLengthParts, ReadingParts, EndOnParts, ResultParts):
    """All parts of a tan A sheet."""

    moment: EndOnMoment = moment


PARTS = TanAParts()


def moment_step(row: int) -> Step:
    """The moment from one distance."""
    i = row + 1

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: TanAParts) -> Number:
        d = known[f"d-{i}"]
        return a.keep(
            parts.moment(
                a,
                B_H=givens["B_H"],
                tangent=known[f"tan-{i}"],
                bracket=known[f"bracket-{i}"],
                twice_d=parts.twice_d(a, d),
                k=parts.field_constant(),
                d=d,
                l=known["l"],
            )
        )

    def line(known: Known, givens: Givens) -> str:
        return (
            f"m = 10⁷ × {figures(givens['B_H'])} × {figures(known[f'bracket-{i}'], 4)} "
            f"× {places(known[f'tan-{i}'], 4)} / (2 × {figures(givens['d'][row])}) "
            f"= {figures(known[f'moment-{i}'])} A·m²"
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
            "m = (4π/µ₀) · B_H · (d² − l²)² · tan θ / 2d, with 4π/µ₀ = 10⁷ and B_H in tesla.",
            "Multiply B_H, tan θ and (d² − l²)², divide by 2d in metres, and multiply by 10⁷.",
        ),
        read="before/field-end-on/#the-moment-from-the-deflection",
        row=row,
    )


@cache
def parts_for(rule: LengthRule) -> TanAParts:
    """The parts of a sheet that knows 2l by a rule."""
    return PARTS.replaced(magnetic_length=rule.part)


@cache
def plan_for(rows: int, rule: LengthRule) -> Plan:
    """The plan of a sheet of so many distances."""
    return Plan(deflection_steps(rows, rule, end_on_bracket_step, moment_step))

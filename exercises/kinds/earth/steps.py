"""The steps of the earth's field and the moment together: how each looks on the sheet and with its numbers put in."""

from functools import cache

from exercises.kinds.deflection.lengths import LengthRule
from exercises.kinds.deflection.steps import (
    LENGTHS,
    distance_step,
    end_on_bracket_step,
    given_angle_step,
    tangent_of_given_step,
)
from exercises.kinds.earth import parts
from exercises.kinds.earth.parts import ROWS, EarthParts
from exercises.working.arithmetic import Arithmetic, Number, total
from exercises.working.numbers import figures, places
from exercises.working.steps import Givens, Known, Plan, Step

THEORY = "exercises/earth/"


def ratio_step(row: int) -> Step:
    """m/B_H of a row."""
    id, at, tangent, bracket = (f"{name}-{row + 1}" for name in ("ratio", "d", "tan", "bracket"))

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: EarthParts) -> Number:
        d = known[at]
        return a.keep(
            parts.ratio_value(
                a,
                tangent=known[tangent],
                bracket=known[bracket],
                twice_d=parts.twice_d(a, d),
                k=parts.field_constant(),
                d=d,
                l=known["l"],
            )
        )

    def line(known: Known, givens: Givens) -> str:
        return (
            f"m/B_H = 10⁷ × {figures(known[bracket], 4)} × {places(known[tangent], 4)} "
            f"/ (2 × {figures(givens['d'][row])}) = {figures(known[id], 4)} A·m²/T"
        )

    return Step(
        id=id,
        column="ratio",
        title="m/B_H",
        quantity="m_over_B",
        rule="figures",
        needs=(at, "l", tangent, bracket),
        formula=formula,
        line=line,
        hints=(
            "The formula of the moment end-on, with B_H carried to the other side: "
            "m/B_H = 10⁷ · (d² − l²)² · tan θ / (2d).",
            "Multiply tan θ by (d² − l²)², divide by 2d in metres, and multiply by 10⁷. "
            "It is a large number: B_H is small.",
        ),
        read=f"{THEORY}#the-ratio-from-the-deflection",
        row=row,
    )


def _mean_ratio_line(known: Known, givens: Givens) -> str:
    added = " + ".join(figures(known[f"ratio-{i + 1}"], 4) for i in range(ROWS))
    return f"m/B_H = ({added}) / {ROWS} = {figures(known['ratio'], 4)} A·m²/T"


def _period_line(known: Known, givens: Givens) -> str:
    times, count = " + ".join(places(t, 1) for t in givens["timings"]), len(givens["timings"])
    return (
        f"mean time = ({times}) / {count} = {places(total(givens['timings']) / count, 2)} s;  "
        f"T = mean time / {givens['swings']:.0f} = {figures(known['period'], 4)} s"
    )


def _inertia_line(known: Known, givens: Givens) -> str:
    M, L, b = (figures(givens[k]) for k in ("mass", "length", "breadth"))
    return f"I = M(L² + b²)/12 = {M} × ({L}² + {b}²) / 12 = {figures(known['inertia'], 4)} kg·m²"


def _product_line(known: Known, givens: Givens) -> str:
    return (
        f"m·B_H = 4π²I/T² = 39.48 × {figures(known['inertia'], 4)} / {figures(known['period'], 4)}² "
        f"= {figures(known['product'], 4)} A·m²·T"
    )


def _moment_line(known: Known, givens: Givens) -> str:
    return f"m = √(({figures(known['product'], 4)}) × ({figures(known['ratio'], 4)})) = {figures(known['moment'])} A·m²"


def _earth_line(known: Known, givens: Givens) -> str:
    return (
        f"B_H = √(({figures(known['product'], 4)}) / ({figures(known['ratio'], 4)})) = {figures(known['earth'])} T "
        f"= {places(known['earth'] * 1e6, 1)} µT"
    )


MEAN_RATIO = Step(
    id="ratio",
    column="ratio",
    title="mean m/B_H",
    quantity="m_over_B",
    rule="figures",
    needs=tuple(f"ratio-{i + 1}" for i in range(ROWS)),
    formula=parts.mean_ratio,
    line=_mean_ratio_line,
    hints=("Add the two and divide by two.",),
    read=f"{THEORY}#the-ratio-from-the-deflection",
)
VIBRATION = (
    Step(
        id="period",
        column="period",
        title="period T",
        quantity="time",
        rule="figures",
        needs=(),
        formula=parts.period,
        line=_period_line,
        hints=(
            "Take the mean of the three timings first.",
            "Then divide by the number of swings: T is the time of one.",
        ),
        read=f"{THEORY}#one-swing-there-and-back",
        looks_back=False,
    ),
    Step(
        id="inertia",
        column="inertia",
        title="moment of inertia I",
        quantity="inertia",
        rule="figures",
        needs=(),
        formula=parts.inertia,
        line=_inertia_line,
        hints=(
            "I = M(L² + b²)/12: L and b are the length and the breadth of the bar itself.",
            "M in kilograms, L and b in metres. Square each side, add, multiply by M, divide by 12.",
        ),
        read=f"{THEORY}#length-and-breadth",
        looks_back=False,
    ),
    Step(
        id="product",
        column="product",
        title="m·B_H",
        quantity="m_times_B",
        rule="figures",
        needs=("inertia", "period"),
        formula=parts.product,
        line=_product_line,
        hints=(
            "Square T = 2π√(I/(m·B_H)) and solve it for m·B_H.",
            "m·B_H = 4π²I/T²: square the period, and take 4π² as 39.48.",
        ),
        read=f"{THEORY}#the-product-from-the-period",
        looks_back=False,
    ),
)
RESULT = (
    Step(
        id="moment",
        column="moment",
        title="moment m",
        quantity="moment",
        rule="figures",
        needs=("product", "ratio"),
        formula=parts.moment,
        line=_moment_line,
        hints=("Multiply m·B_H by m/B_H: what is left?", "The B_H goes away and m² stays. Take the square root."),
        read=f"{THEORY}#both-from-the-two",
        looks_back=False,
    ),
    Step(
        id="earth",
        column="earth",
        title="B_H",
        quantity="field",
        rule="figures",
        needs=("product", "ratio"),
        formula=parts.earth,
        line=_earth_line,
        hints=(
            "Divide m·B_H by m/B_H: what is left?",
            "The m goes away and B_H² stays. Take the square root. In tesla it is a few times 10⁻⁵: turn it into µT.",
        ),
        read=f"{THEORY}#both-from-the-two",
        looks_back=False,
    ),
)


@cache
def plan_for(rows: int, rule: LengthRule) -> Plan:
    """The plan of a sheet: the whole of it for two rows; for fewer, as the draw tries them, no results."""
    if rows == 0:
        return Plan(VIBRATION)
    hidden = [make(row) for make in (distance_step, given_angle_step) for row in range(rows)]
    asked = [
        step
        for row in range(rows)
        for step in (tangent_of_given_step(row), end_on_bracket_step(row, rule), ratio_step(row))
    ]
    rest = (MEAN_RATIO, *VIBRATION, *RESULT) if rows == ROWS else ()
    return Plan((*LENGTHS, *hidden, *asked, *rest))

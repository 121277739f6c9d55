"""The steps that determinations by deflection share.

At each distance: the mean of the eight readings, its tangent, a bracket of the
lengths, the moment.  Then the mean moment, and the pole strength m / 2l.  A
kind (tan A, tan B) brings its own moment, and tan B its own bracket.
"""

from collections.abc import Callable
from dataclasses import replace

from exercises.codes.scenario import Row
from exercises.kinds.deflection.lengths import LengthRule
from exercises.kinds.deflection.parts import (
    BracketParts,
    MetricLengthParts,
    ReadingParts,
    ResultParts,
    TangentParts,
    end_on_bracket,
)
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.working.arithmetic import Arithmetic, Number
from exercises.working.numbers import figures, mean_angle, places, reading
from exercises.working.steps import Givens, Known, Parts, Plan, Step, Working, hidden_step


def _length(a: Arithmetic, known: Known, givens: Givens, parts: MetricLengthParts) -> Number:
    return parts.metres(givens["length"])


def _given_two_l(a: Arithmetic, known: Known, givens: Givens, parts: MetricLengthParts) -> Number:
    return parts.metres(givens["two_l"])


def _magnetic_length(a: Arithmetic, known: Known, givens: Givens, parts: MetricLengthParts) -> Number:
    return parts.magnetic_length(a, known["length"], known["given-two-l"])


def _half_length(a: Arithmetic, known: Known, givens: Givens, parts: MetricLengthParts) -> Number:
    return parts.half_length(a, known["two-l"])


#: Worked but not asked for: the measured length, 2l as the sheet gives it, 2l and l, all in metres.
LENGTHS = (
    hidden_step("length", (), _length),
    hidden_step("given-two-l", (), _given_two_l),
    hidden_step("two-l", ("length", "given-two-l"), _magnetic_length),
    hidden_step("l", ("two-l",), _half_length),
)


def distance_step(row: int) -> Step:
    """d of a row in metres: worked but not asked for."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: MetricLengthParts) -> Number:
        return parts.metres(parts.distance(a, givens["d"][row], givens))

    return hidden_step(f"d-{row + 1}", (), formula)


def mean_step(row: int) -> Step:
    """The mean of the eight readings of a row."""
    id = f"mean-{row + 1}"

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: ReadingParts) -> Number:
        return a.angle(parts.mean_of_eight(a, givens["readings"][row]))

    def line(known: Known, givens: Givens) -> str:
        added = " + ".join(reading(r) for r in givens["readings"][row])
        return f"θ = ({added}) / 8 = {mean_angle(known[id])}°"

    return Step(
        id=id,
        column="mean",
        title="mean θ",
        quantity="angle",
        rule="angle",
        needs=(),
        formula=formula,
        line=line,
        hints=("Add all eight readings of this distance and divide by eight.",),
        read="before/eight-readings/#the-mean-of-eight",
        row=row,
        exact=True,
    )


def tangent_step(row: int) -> Step:
    """The tangent of a row's mean deflection."""
    id, theta = f"tan-{row + 1}", f"mean-{row + 1}"

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: TangentParts) -> Number:
        return a.tangent(parts.tangent(a, known[theta]))

    def line(known: Known, givens: Givens) -> str:
        return f"tan θ = tan {mean_angle(known[theta])}° = {places(known[id], 4)}"

    return Step(
        id=id,
        column="tan",
        title="tan θ",
        quantity="ratio",
        rule="tangent",
        needs=(theta,),
        formula=formula,
        line=line,
        hints=(
            "Take the tangent of the mean deflection, with the calculator set to degrees. Keep four places.",
            "Below 45° the tangent is less than 1; at 45° it is 1; above, it is more.",
        ),
        read="before/tangent-law/#the-tangent-not-the-sine",
        row=row,
    )


def given_angle_step(row: int) -> Step:
    """The mean deflection of a row, where the sheet gives it."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: Parts) -> Number:
        return givens["theta"][row]

    return hidden_step(f"mean-{row + 1}", (), formula)


def tangent_of_given_step(row: int) -> Step:
    """The tangent of an angle that is given, so that only its own rounding counts, which may be done twice."""
    theta = f"mean-{row + 1}"

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: TangentParts) -> Number:
        return a.tangent(a.tangent(parts.tangent(a, known[theta])))

    def line(known: Known, givens: Givens) -> str:
        return f"tan θ = tan {places(givens['theta'][row], 1)}° = {places(known[f'tan-{row + 1}'], 4)}"

    return replace(tangent_step(row), formula=formula, line=line)


def end_on_bracket_step(row: int, rule: LengthRule) -> Step:
    """(d² − l²)² of a row, with 2l by a rule."""
    id, at = f"bracket-{row + 1}", f"d-{row + 1}"

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: BracketParts) -> Number:
        return end_on_bracket(a, known[at], known["l"], parts)

    def line(known: Known, givens: Givens) -> str:
        d, l = givens["d"][row], givens["two_l"] / 2
        return (
            f"(d² − l²)² = ({figures(d)}² − {figures(l, 4)}²)² = ({figures(d * d, 4)} − {figures(l * l, 4)})² "
            f"= {figures(known[id], 4)} m⁴"
        )

    return Step(
        id=id,
        column="bracket",
        title="(d² − l²)²",
        quantity="length4",
        rule="figures",
        needs=(at, "l"),
        formula=formula,
        line=line,
        hints=(
            f"Turn d and l into metres first. {rule.half_is}",
            "Square d, square l, subtract, and square what is left.",
        ),
        read="before/field-end-on/#the-bracket-is-squared",
        row=row,
    )


def mean_moment_step(rows: int) -> Step:
    """The mean of the moments of so many rows."""
    ids = tuple(f"moment-{i + 1}" for i in range(rows))

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: ResultParts) -> Number:
        return parts.sum_of_moments(a, [known[i] for i in ids])

    def line(known: Known, givens: Givens) -> str:
        added = " + ".join(figures(known[i], 4) for i in ids)
        return f"m = ({added}) / {rows} = {figures(known['mean-moment'])} A·m²"

    return Step(
        id="mean-moment",
        column="mean-moment",
        title="mean moment m",
        quantity="moment",
        rule="figures",
        needs=ids,
        formula=formula,
        line=line,
        hints=("Add the moments of all distances and divide by how many there are.",),
        read="before/result/#the-mean-moment",
    )


def _pole(a: Arithmetic, known: Known, givens: Givens, parts: ResultParts) -> Number:
    return parts.poles(a, known["mean-moment"], parts.pole_length(a, known["two-l"], known["length"]))


def pole_step(rule: LengthRule) -> Step:
    """The pole strength, with 2l by a rule."""

    def line(known: Known, givens: Givens) -> str:
        two_l = givens["two_l"]
        return (
            f"{rule.worked(givens['length'], two_l)};  "
            f"p = m / 2l = {figures(known['mean-moment'], 4)} / {figures(two_l, 4)} = {figures(known['pole'])} A·m"
        )

    return Step(
        id="pole",
        column="pole",
        title="pole strength p",
        quantity="pole",
        rule="figures",
        needs=("mean-moment", "two-l", "length"),
        formula=_pole,
        line=line,
        hints=("p = m / 2l: divide the mean moment by the magnetic length.", rule.whole_is),
        read="before/result/#pole-strength",
        looks_back=False,
    )


def deflection_steps(
    rows: int, rule: LengthRule, bracket: Callable[[int, LengthRule], Step], moment: Callable[[int], Step]
) -> tuple[Step, ...]:
    """All steps of a determination at so many distances, in order; bracket and moment make a kind's own of a row."""
    distances = [distance_step(row) for row in range(rows)]
    asked = [
        step for row in range(rows) for step in (mean_step(row), tangent_step(row), bracket(row, rule), moment(row))
    ]
    return (*LENGTHS, *distances, *asked, mean_moment_step(rows), pole_step(rule))


def working_of(scenario: DeflectionScenario, rows: tuple[Row, ...], plan: Plan, parts: Parts) -> Working:
    """The working of a scenario of distances and eight readings; a draw tries it with other rows than its own."""
    givens = {
        "B_H": scenario.B_H,
        "length": scenario.bar.length,
        "two_l": scenario.two_l,
        "d": tuple([r.d for r in rows]),
        "readings": tuple([r.readings for r in rows]),
    }
    return Working(plan, givens, parts)

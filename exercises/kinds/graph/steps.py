"""The steps of the graph method: the columns, what is read from the lines, and what is worked from it."""

from dataclasses import replace
from functools import cache

from exercises.kinds.deflection.lengths import LengthRule
from exercises.kinds.deflection.steps import LENGTHS, distance_step, given_angle_step, tangent_of_given_step
from exercises.kinds.graph import parts, written
from exercises.working.steps import Plan, Step, hidden_step

THEORY = "exercises/graph/"
#: How far a slip in what is read from the graph may miss, as shares (Step.loose).
LOOSE_SLOPE, LOOSE_INTERCEPT = 0.03, 0.3


def y_step(row: int) -> Step:
    """tan θ of a row, the y of the first line."""
    return replace(tangent_of_given_step(row), title="y = tan θ")


def x_step(row: int, rule: LengthRule) -> Step:
    """x of a row, for the first line."""
    return Step(
        id=f"x-{row + 1}",
        column="x",
        title="x = 2d/(d² − l²)²",
        quantity="per_volume",
        rule="figures",
        needs=(f"d-{row + 1}", "l"),
        formula=parts.x_formula(row),
        line=written.x_line(row),
        hints=(
            f"Turn d and l into metres first. {rule.half_is}",
            "Work out (d² − l²)², and divide 2d by it. Expect some hundreds, and more for a short bar.",
        ),
        read=f"{THEORY}#tangent-against-distance",
        row=row,
    )


def root_step(row: int) -> Step:
    """√(d cot θ) of a row, for the second line."""
    return Step(
        id=f"root-{row + 1}",
        column="root",
        title="√(d cot θ)",
        quantity="root_length",
        rule="figures",
        needs=(f"d-{row + 1}", f"tan-{row + 1}"),
        formula=parts.root_formula(row),
        line=written.root_line(row),
        hints=("cot θ is 1/tan θ.", "Divide d in metres by tan θ, and take the root."),
        read=f"{THEORY}#a-line-that-tells-the-length-too",
        row=row,
        looks_back=False,
    )


def _ids(rows: int, *names: str) -> tuple[str, ...]:
    """The steps of these names in so many rows, such as x-1, x-2, tan-1, tan-2."""
    return tuple(f"{name}-{i + 1}" for name in names for i in range(rows))


def _first_line_steps(rows: int) -> tuple[Step, ...]:
    """The slope of the first line, through the origin, and the moment from it."""
    return (
        Step(
            id="slope-a",
            column="slope-a",
            title="its slope",
            quantity="volume",
            rule="figures",
            needs=_ids(rows, "x", "tan"),
            formula=parts.slope_a,
            line=written.slope_a_line,
            hints=(
                "Draw x to the right and tan θ upwards, both from zero. Lay the ruler through the origin and as near "
                "all points as it goes.",
                "Slope = rise over run, between the origin and a point of the line far out.",
            ),
            read=f"{THEORY}#the-slope-of-a-line",
            looks_back=False,
            loose=LOOSE_SLOPE,
        ),
        Step(
            id="moment-a",
            column="moment-a",
            title="moment m from it",
            quantity="moment",
            rule="figures",
            needs=("slope-a",),
            formula=parts.moment_a,
            line=written.moment_a_line,
            hints=("The slope is (µ₀/4π)·m/B_H.", "Multiply the slope by 10⁷ and by B_H in tesla."),
            read=f"{THEORY}#tangent-against-distance",
            looks_back=False,
        ),
    )


def _second_line_steps(rows: int) -> tuple[Step, ...]:
    """The slope of the second line and the moment from it."""
    return (
        Step(
            id="slope-b",
            column="slope-b",
            title="its slope",
            quantity="slope",
            rule="figures",
            needs=_ids(rows, "root", "square"),
            formula=parts.slope_b,
            line=written.slope_b_line,
            hints=(
                "Draw √(d cot θ) to the right and d² upwards, both from zero. "
                "This line does not pass through the origin.",
                "Slope = rise over run, between two points of the line far apart, not of the table.",
            ),
            read=f"{THEORY}#the-slope-of-a-line",
            looks_back=False,
            loose=LOOSE_SLOPE,
        ),
        Step(
            id="moment-b",
            column="moment-b",
            title="moment m from it",
            quantity="moment",
            rule="figures",
            needs=("slope-b",),
            formula=parts.moment_b,
            line=written.moment_b_line,
            hints=(
                "The square of this slope is (µ₀/4π)·2m/B_H.",
                "Square the slope, multiply by 10⁷ and by B_H, and halve.",
            ),
            read=f"{THEORY}#a-line-that-tells-the-length-too",
            looks_back=False,
        ),
    )


def _intercept_steps(rows: int) -> tuple[Step, ...]:
    """The intercept of the second line and the magnetic length from it."""
    return (
        Step(
            id="intercept",
            column="intercept",
            title="its intercept l²",
            quantity="area",
            rule="reading",
            needs=(*_ids(rows, "root", "square"), "slope-b"),
            formula=parts.intercept,
            line=written.intercept_line,
            hints=(
                "Carry the second line on to the left until it meets the upright axis at √(d cot θ) = 0.",
                "Expect a small number, a few thousandths of a square metre or less; "
                "two figures are all it is good for.",
            ),
            read=f"{THEORY}#the-intercept",
            looks_back=False,
            loose=LOOSE_INTERCEPT,
        ),
        Step(
            id="found-2l",
            column="found-2l",
            title="magnetic length 2l",
            quantity="distance",
            rule="reading",
            needs=("intercept",),
            formula=parts.two_l,
            line=written.two_l_line,
            hints=(
                "The intercept is l².",
                "Take its root for l, and double it. Expect a little less than the bar is long.",
            ),
            read=f"{THEORY}#the-intercept",
            looks_back=False,
        ),
    )


def result_steps(rows: int) -> tuple[Step, ...]:
    """What is read from the two lines of so many points, and worked from it."""
    return (*_first_line_steps(rows), *_second_line_steps(rows), *_intercept_steps(rows))


def hidden_steps(row: int) -> tuple[Step, ...]:
    """d, θ and d² of a row, which nobody types."""
    at = f"d-{row + 1}"
    square = hidden_step(f"square-{row + 1}", (at,), parts.square_formula(row))
    return distance_step(row), given_angle_step(row), square


@cache
def plan_for(rows: int, rule: LengthRule) -> Plan:
    """The plan of a sheet of so many distances; of one alone, as the draw tries them, no results."""
    hidden = [step for row in range(rows) for step in hidden_steps(row)]
    asked = [step for row in range(rows) for step in (y_step(row), x_step(row, rule), root_step(row))]
    return Plan((*LENGTHS, *hidden, *asked, *(result_steps(rows) if rows > 2 else ())))

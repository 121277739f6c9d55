"""The steps of reading the dial: both ends of the pointer on each dial, and a mean for each distance.

A reading is right if it lies within half a scale step of the drawn tip.
"""

from functools import cache

from exercises.kinds.dial.drawing import divisions, mark_below
from exercises.kinds.dial.parts import PARTS, DialParts
from exercises.kinds.dial.scenario import DialScenario
from exercises.working.arithmetic import Arithmetic, Number, total
from exercises.working.numbers import places, reading
from exercises.working.steps import Formula, Givens, Known, Plan, Step, WorkedLine, Working

ENDS = {1: "①", 2: "②"}
IN_A_MEAN = 4  # dials


def read_formula(number: int, end: int) -> Formula[DialParts]:
    """What end 1 or 2 of the pointer shows on a dial, numbered from 0."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: DialParts) -> Number:
        step, tip = givens["step"], givens["tips"][number][end - 1]
        low = mark_below(tip)
        past = (tip - low) / step * parts.one_division(step)
        shown = parts.count_direction(parts.numbered_mark(low), past)
        return a.within(parts.zero_of_scale(shown), step / 2)

    return formula


def read_line(number: int, end: int) -> WorkedLine:
    """The reading with its numbers put in."""

    def line(known: Known, givens: Givens) -> str:
        step, tip = givens["step"], givens["tips"][number][end - 1]
        low, count = divisions(tip, step)
        return (
            f"Dial {number + 1}, end {ENDS[end]}: {low} + {count} × {reading(step)}° = {reading(low + count * step)}° "
            f"(the tip is drawn at {places(tip, 2)}°)"
        )

    return line


def read_step(number: int, end: int) -> Step:
    """The reading of end 1 or 2 of the pointer on a dial, numbered from 0."""
    return Step(
        id=f"read-{number + 1}-{end}",
        column="read",
        title=f"dial {number + 1}, end {ENDS[end]}",
        quantity="angle",
        rule="reading",
        needs=(),
        formula=read_formula(number, end),
        line=read_line(number, end),
        hints=(
            "Find the two numbered marks on either side of the tip. The lower one is on the side of the 0.",
            "Count the divisions from one numbered mark to the next: ten to ten degrees, or twenty.",
            "Lower mark + divisions past it × the size of one division.",
        ),
        read="exercises/dial/#how-to-read-it",
    )


def mean_formula(needs: tuple[str, ...]) -> Formula[DialParts]:
    """The mean of these eight readings."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: DialParts) -> Number:
        return a.angle(parts.dial_mean(a, a.total(known[need] for need in needs)))

    return formula


def mean_line(first: int) -> WorkedLine:
    """The mean of a dial, numbered from 0, and the three after it, with its numbers put in."""

    def line(known: Known, givens: Givens) -> str:
        # as the readings are written down: to the nearest division
        tips = [tip for pair in givens["tips"][first : first + IN_A_MEAN] for tip in pair]
        step = givens["step"]
        readings = [low + count * step for low, count in (divisions(tip, step) for tip in tips)]
        return f"θ = ({' + '.join(map(reading, readings))}) / 8 = {places(total(readings) / 8, 2)}°"

    return line


def mean_step(group: int) -> Step:
    """The mean of four dials: of the first four with group 0, of the next with group 1."""
    first = IN_A_MEAN * group
    needs = tuple(f"read-{number + 1}-{end}" for number in range(first, first + IN_A_MEAN) for end in ENDS)
    return Step(
        id=f"mean-{group + 1}",
        column="mean",
        title=f"mean of the eight, dials {first + 1}–{first + IN_A_MEAN}",
        quantity="angle",
        rule="angle",
        needs=needs,
        formula=mean_formula(needs),
        line=mean_line(first),
        hints=("Add the eight readings of these four dials, both ends of each, and divide by eight.",),
        read="before/eight-readings/#the-mean-of-eight",
        looks_back=False,
        exact=True,
    )


@cache
def plan_for(dials: int) -> Plan:
    """The plan of so many dials, with a mean of every four."""
    readings = (read_step(number, end) for number in range(dials) for end in ENDS)
    return Plan((*readings, *(mean_step(group) for group in range(dials // IN_A_MEAN))))


def working_of(tips: tuple[tuple[float, float], ...], scale_step: float) -> Working:
    """The working of dials whose two tips lie there, in degrees as the scale shows them."""
    return Working(plan_for(len(tips)), {"step": scale_step, "tips": tips}, PARTS)


def working(scenario: DialScenario) -> Working:
    """The working of a sheet of dials."""
    return working_of(tuple(scenario.ends(i) for i in range(len(scenario.dials))), scenario.scale_step)

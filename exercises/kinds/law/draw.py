"""The numbers of the tangent law drills, drawn so that their slips can be told apart."""

import math

from exercises.codes.scenario import Draw, draw_field, first_good
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.law.scenario import Drill
from exercises.kinds.law.steps import PLAN, working
from exercises.slips.catalogue import Slip

NUMERIC = tuple(step.id for step in PLAN.steps if not step.choices)
LEAST, MOST = 26.0, 64.0  # degrees
NOT_NEAR_45 = 3.5  # degrees: nearer than that an angle and its complement look alike
TILTS = (5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0)  # degrees
EARTH = (12.0, 42.0)  # µT, what B_H of question 3 may be


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> Drill:
    """The numbers of a code of edition 1, such that these slips can be told apart.

    ArithmeticError if there are none, which no code leads to.
    """
    return first_good(Draw(code), slips, lambda draw, slips: _attempt(draw, code, slips))


def _to_tenth(x: float) -> float:
    return math.floor(x * 10 + 0.5) / 10


def _attempt(draw: Draw, code: SheetCode, slips: tuple[Slip, ...]) -> Drill | None:
    field = draw_field(draw, code.setting)
    earth = field.B_H * 1e6
    one, two, three, four = (_to_tenth(draw.between(LEAST, MOST)) for _ in range(4))
    elsewhere = draw.between(*EARTH)
    tilt, north = draw.pick(TILTS), draw.below(2) == 1
    if any(abs(angle - 45) < NOT_NEAR_45 for angle in (one, two, three)) or len({one, two, three, four}) < 4:
        return None
    fields = _across(two, earth), _across(three, elsewhere), _across(four, earth)
    drill = Drill(code, field, (one, three), fields, tilt, north)
    return drill if tells_apart(working(drill), slips, NUMERIC) else None


def _across(theta: float, microtesla: float) -> float:
    """The field in T, to 0.1 µT, that deflects the needle by theta degrees across so many µT."""
    return math.floor(microtesla * math.tan(math.radians(theta)) * 10 + 0.5) / 1e7

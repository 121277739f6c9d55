"""A calculator set to radians all through a sheet: every tangent is named, and what is worked from it follows.

Half of such tangents come out negative, and they change so fast with the angle that 0.1° decides: 40.9° may be typed
for the 40.9375° that the calculator held.
"""

import json
import math

import pytest

from exercises.kinds.kind import open_code
from exercises.kinds.sheet import written
from exercises.student import desk as student
from exercises.working.arithmetic import Interval, Span
from tests.exercises.classwork import right
from tests.exercises.golden import codes_of


@pytest.mark.parametrize("code", codes_of("A")[:12])
def test_radians_all_through_a_tan_a_sheet(code):
    sheet = open_code(code)
    working = sheet.working
    values, entries = working.all_values(), right(code)
    moments = []
    for step in working.steps:
        if step.column == "tan":
            entries[step.id] = f"{math.tan(values[f'mean-{step.row + 1}']):.4f}"  # the mean with all its figures
        elif step.column == "moment":
            ratio = math.tan(values[f"mean-{step.row + 1}"]) / values[f"tan-{step.row + 1}"]
            moments.append(values[step.id] * ratio)
            entries[step.id] = written(moments[-1], step)
    mean = math.fsum(moments) / len(moments)
    entries["mean-moment"] = written(mean, working.by_id["mean-moment"])
    entries["pole"] = written(mean * values["pole"] / values["mean-moment"], working.by_id["pole"])
    verdicts = json.loads(student.check(code, json.dumps(entries)))["verdicts"]
    for step in working.steps:
        verdict = verdicts[step.id]
        if step.column == "tan":
            assert verdict.get("slips") == ["degrees-as-radians"], (step.id, entries[step.id], verdict)
        elif step.column in ("moment", "mean-moment", "pole"):
            assert verdict["state"] == "follows", (step.id, entries[step.id], verdict)


def test_a_product_of_spans_minds_the_sign():
    """By hand: −3.333 … −2.222 times 4 … 5 is −16.665 … −8.888, and to three figures −16.7 … −8.888."""
    got = Interval.product(Span(-3.333, -2.222), Span(4, 5))
    assert (got.lo, got.hi) == pytest.approx((-16.7, -8.888))
    both = Interval.product(Span(-3.333, -2.222), Span(-5, -4))
    assert (both.lo, both.hi) == pytest.approx((8.888, 16.7))
    assert math.isinf(Interval.product(Span(-1, 1), Span(4, 5)).lo)

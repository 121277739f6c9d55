"""What becomes of a number when intermediates are cut off and not rounded.

Cut     one way of cutting off, in an arithmetic of floats;
CutOff  all that any way can reach, in one of spans.
"""

import itertools
import math
import operator
from collections.abc import Callable, Mapping
from functools import reduce
from typing import Any

from exercises.working.arithmetic import Exact, Interval, Number, Span, as_span, total
from exercises.working.rounded import cut_off
from exercises.working.steps import Step, Working


class Cut:
    """As Exact, but each intermediate is cut off after so many figures, and not rounded.

    figures   significant figures that are kept, of angles and tangents too
    backward  whether a product is worked from its last factor to its first
    second_of_two, second_of_more  whether the second of equal forms is worked, where a formula has two or has more
    """

    within, apply = staticmethod(Exact.within), staticmethod(Exact.apply)
    total = staticmethod(total)

    def __init__(self, figures: int, backward: bool = False, second_of_two: bool = False, second_of_more: bool = False):
        self.figures, self.backward = figures, backward
        self.second_of_two, self.second_of_more = second_of_two, second_of_more

    def keep(self, x: Number) -> Number:
        return cut_off(x, self.figures)

    angle = tangent = keep

    def either(self, *ways: Callable[[], Number]) -> Number:
        second = self.second_of_more if len(ways) > 2 else self.second_of_two
        return ways[1 if second else 0]()

    def product(self, *factors: Number) -> Number:
        first, *others = reversed(factors) if self.backward else factors
        return reduce(lambda x, y: self.keep(x * y), others, first)


#: How a student may cut off instead of rounding: the same way from the first intermediate to the result.
CUTS = tuple(Cut(figures, *others) for figures in (3, 4) for others in itertools.product((False, True), repeat=3))


_MOST_LOST = 0.01 * (1 + 1e-9)  # share: a unit of the third figure is a hundredth of the number at most
_LAST_BITS = 1e-9  # share: what is a whole number of units but for the last bits of a float is none the less kept


class CutOff(Interval):
    """Every value that cutting off can reach, with three figures or more, whichever way: wider than need be, but soon
    found."""

    @staticmethod
    def keep(x: Number) -> Span:
        x = as_span(x)
        nearer, farther = 1 - _MOST_LOST, 1 + _LAST_BITS
        return Span(x.lo * (nearer if x.lo > 0 else farther), x.hi * (farther if x.hi > 0 else nearer))

    angle = tangent = keep

    @staticmethod
    def within(x: Number, half_width: float) -> Span:
        return as_span(x)

    @staticmethod
    def product(*factors: Number) -> Span:
        span = reduce(operator.mul, map(as_span, factors))
        for _ in factors[1:]:
            span = CutOff.keep(span)
        return span


def may_lead_to(value: float, working: Working, step: Step, own: Mapping[str, Any]) -> bool:
    """Whether any of CUTS may come to this value at a step; False only where none does.

    own  the entries that it is worked from
    """
    worked = [step, *(working.by_id[s] for s in working.plan.rests[step.id] if s not in own)]
    if any(s.loose for s in worked):
        return True  # a line through points: what all lines can reach is not found by spans of the points
    try:
        reach = CutOff.keep(working.value(step.id, CutOff, own=own))
    except (ValueError, ArithmeticError):
        return True
    return value in reach or not math.isfinite(reach.hi - reach.lo)

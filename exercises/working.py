"""A solution as named steps, written once and run with three kinds of arithmetic.

A kind of exercise writes each step's formula once, in terms of an arithmetic
`a` and a dictionary of replaceable parts.  The same formula then gives

    Exact      the value with every figure kept (plain floats);
    Interval   every value that correct working can reach when each
               intermediate is kept to three figures or more, angles to 0.1°
               and tangents to four places;
    Rounding   one such path, drawn at random (for the benchmarks and tests).

A slip is a change of one part (slips.py); follow-through is the same formula
started from the student's own entries.  So nothing is worked twice.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

FIGURES = 3  # the fewest figures an intermediate may be kept to
ANGLE_PLACE = 0.1  # degree
TANGENT_PLACE = 1e-4

Parts = Mapping[str, Callable]


def last_place(value: float, figures: int = FIGURES) -> float:
    """The size of one unit in the last of `figures` significant figures of value (≠ 0).

    >>> last_place(0.0123), last_place(999.9)
    (0.0001, 1.0)
    """
    if value == 0 or not math.isfinite(value):
        return 0.0
    return float(f"1e{math.floor(math.log10(abs(value))) - figures + 1}")


class Exact:
    """Plain float arithmetic: nothing is rounded."""

    @staticmethod
    def keep(x):
        """An intermediate that a person writes down: rounded to three figures or more."""
        return x

    @staticmethod
    def angle(x):
        """An angle written down, in degrees: to 0.1° or finer."""
        return x

    @staticmethod
    def tangent(x):
        """A tangent written down: to four places or more."""
        return x

    @staticmethod
    def apply(function: Callable[[float], float], x):
        """A function that rises or falls steadily over the range, of one number."""
        return function(x)

    @staticmethod
    def either(*ways: Callable):
        """Equal forms of one formula, given as functions of nothing; the first is the textbook's."""
        return ways[0]()

    @staticmethod
    def product(*factors):
        """Factors multiplied in any order, each partial product written down."""
        total = factors[0]
        for f in factors[1:]:
            total = total * f
        return total


class Tenths(Exact):
    """Exact, but with angles to 0.1°: the other common path to a slip's value."""

    @staticmethod
    def angle(x):
        return math.floor(x / ANGLE_PLACE + 0.5) * ANGLE_PLACE


class Span:
    """All values from lo to hi.  Only what the formulas need: + − × ÷ and powers of positive spans."""

    __slots__ = ("lo", "hi")

    def __init__(self, lo: float, hi: float | None = None):
        self.lo = lo
        self.hi = lo if hi is None else hi

    def __contains__(self, x: float) -> bool:
        # the last bit of a float must not decide: a value on the edge belongs
        slack = 1e-9 * max(abs(self.lo), abs(self.hi))
        return self.lo - slack <= x <= self.hi + slack

    def __add__(self, other):
        other = as_span(other)
        return Span(self.lo + other.lo, self.hi + other.hi)

    __radd__ = __add__

    def __sub__(self, other):
        other = as_span(other)
        return Span(self.lo - other.hi, self.hi - other.lo)

    def __rsub__(self, other):
        return as_span(other) - self

    def __mul__(self, other):
        other = as_span(other)
        a, b = self.lo, self.hi
        c, d = other.lo, other.hi
        if a >= 0 and c >= 0:
            return Span(a * c, b * d)
        ends = (a * c, a * d, b * c, b * d)
        return Span(min(ends), max(ends))

    __rmul__ = __mul__

    def __truediv__(self, other):
        other = as_span(other)
        if other.lo <= 0 <= other.hi:
            return Span(-math.inf, math.inf)
        return self * Span(1 / other.hi, 1 / other.lo)

    def __rtruediv__(self, other):
        return as_span(other) / self

    def __pow__(self, n):
        if self.lo < 0:
            if n != 2:
                return Span(math.nan, math.nan)
            top = max(self.lo * self.lo, self.hi * self.hi)
            return Span(0.0 if self.hi >= 0 else self.hi * self.hi, top)
        return Span(self.lo**n, self.hi**n)

    def __repr__(self):
        return f"Span({self.lo!r}, {self.hi!r})"


def as_span(x) -> Span:
    return x if isinstance(x, Span) else Span(x)


def widened(span, half_width: float) -> Span:
    span = as_span(span)
    return Span(span.lo - half_width, span.hi + half_width)


class Interval:
    """Arithmetic on spans: each `keep` opens the span by the most that rounding can move it."""

    @staticmethod
    def keep(x):
        x = as_span(x)
        return Span(x.lo - last_place(x.lo) / 2, x.hi + last_place(x.hi) / 2)

    @staticmethod
    def angle(x):
        return widened(x, ANGLE_PLACE / 2)

    @staticmethod
    def tangent(x):
        return widened(x, TANGENT_PLACE / 2)

    @staticmethod
    def apply(function, x):
        x = as_span(x)
        a, b = function(x.lo), function(x.hi)
        return Span(min(a, b), max(a, b))

    @staticmethod
    def either(*ways):
        spans = [as_span(way()) for way in ways]
        return Span(min(s.lo for s in spans), max(s.hi for s in spans))

    @staticmethod
    def product(*factors):
        """The hull over every order of multiplying, each partial product kept."""
        n = len(factors)
        best: list[Any] = [None] * (1 << n)
        for i, factor in enumerate(factors):
            best[1 << i] = as_span(factor)
        for group in range(1, 1 << n):
            if best[group] is not None:
                continue
            lo, hi = math.inf, -math.inf
            part = (group - 1) & group
            while part > group ^ part:  # each split in two once
                both = best[part] * best[group ^ part]
                lo, hi = min(lo, both.lo), max(hi, both.hi)
                part = (part - 1) & group
            best[group] = Interval.keep(Span(lo, hi))
        return best[-1]


class Rounding:
    """One path of correct working, drawn with `draw`, a function of n giving 0 … n−1."""

    def __init__(self, draw: Callable[[int], int]):
        self.draw = draw

    def keep(self, x):
        figures = (3, 4, 5, 17)[self.draw(4)]
        return float(f"{x:.{figures - 1}e}")

    def angle(self, x):
        return round(x, (1, 2, 3, 15)[self.draw(4)])

    def tangent(self, x):
        return round(x, (4, 5, 15)[self.draw(3)])

    @staticmethod
    def apply(function, x):
        return function(x)

    def either(self, *ways):
        return ways[self.draw(len(ways))]()

    def product(self, *factors):
        left = list(factors)
        while len(left) > 1:
            a = left.pop(self.draw(len(left)))
            b = left.pop(self.draw(len(left)))
            left.append(self.keep(a * b))
        return left[0]


@dataclass(frozen=True)
class Step:
    """One thing the student works out and types.

    id        unique on the sheet, such as "tan-2"
    column    what it is called wherever it stands in a row: "tan"
    title     as the sheet says it
    quantity  a key of answer.UNITS
    rule      how finely it is written: "figures", "angle" or "tangent"
    needs     ids of the steps whose values its formula takes
    formula   (a, values of the needs, givens, parts) -> value
    hints     one sentence each, from the gentlest
    read      address of the passage that explains it
    row       index of the distance it belongs to, or None
    looks_back  whether a slip in an earlier, unfilled step is looked for here
    """

    id: str
    column: str
    title: str
    quantity: str
    rule: str
    needs: tuple[str, ...]
    formula: Callable
    hints: tuple[str, ...]
    read: str
    row: int | None = None
    looks_back: bool = True


@dataclass(frozen=True)
class Working:
    """The steps of one sheet in order, its givens and the parts its formulas are made of."""

    steps: tuple[Step, ...]
    givens: Mapping[str, Any]
    parts: Parts
    by_id: Mapping[str, Step] = field(init=False)

    def __post_init__(self):
        object.__setattr__(self, "by_id", {s.id: s for s in self.steps})

    def value(self, step_id: str, a=Exact, parts: Parts | None = None, own: Mapping[str, Any] | None = None):
        """The value of one step, in SI units (degrees for an angle).

        a      the arithmetic; parts  replacements, or None for the right ones
        own    values to start from instead of working them: the student's entries
        """
        return self._value(self.by_id[step_id], a, self.parts if parts is None else parts, dict(own or {}))

    def _value(self, step, a, parts, known):
        # a step that does not look back starts from right values, whatever the slip
        below = parts if step.looks_back else self.parts
        for need in step.needs:
            if need not in known:
                known[need] = self._value(self.by_id[need], a, below, known)
        return step.formula(a, known, self.givens, parts)

    def all_values(self) -> dict[str, float]:
        """Every step's exact value by id."""
        known: dict[str, float] = {}
        for step in self.steps:
            known[step.id] = step.formula(Exact, known, self.givens, self.parts)
        return known


def own_start(value: float, rule: str, last: float) -> Span:
    """The span a student's own entry stands for when later steps are worked from it.

    They may have gone on with what they typed or with the figures still in the
    calculator: half a unit of the last place typed, but no more than the
    coarsest place that correct working may keep.
    """
    coarsest = {"angle": ANGLE_PLACE, "tangent": TANGENT_PLACE}.get(rule) or last_place(value)
    return widened(value, min(last, coarsest) / 2)

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
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

FIGURES = 3  # the fewest figures an intermediate may be kept to
ANGLE_PLACE = 0.1  # degree
TANGENT_PLACE = 1e-4

Parts = Mapping[str, Callable]

_TENS = {n: float(f"1e{n}") for n in range(-330, 309)}


def last_place(value: float, figures: int = FIGURES) -> float:
    """The size of one unit in the last of `figures` significant figures of value; 0.0 for 0 and for what is not finite.

    >>> last_place(0.0123), last_place(999.9)
    (0.0001, 1.0)
    """
    try:
        return _TENS[math.floor(math.log10(abs(value))) - figures + 1]
    except (ValueError, OverflowError):
        return 0.0  # of nothing, and of what is no number


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
        """The hull over every order of multiplying positive spans, each partial product kept."""
        n = len(factors)
        if min(as_span(f).lo for f in factors) <= 0:
            return Span(-math.inf, math.inf)
        best: list[Any] = [None] * (1 << n)
        for i, factor in enumerate(factors):
            span = as_span(factor)
            best[1 << i] = (span.lo, span.hi)
        for group in range(1, 1 << n):
            if best[group] is not None:
                continue
            lo, hi = math.inf, 0.0
            part = (group - 1) & group
            while part > group ^ part:  # each split in two once
                (a, b), (c, d) = best[part], best[group ^ part]
                lo, hi = min(lo, a * c), max(hi, b * d)
                part = (part - 1) & group
            best[group] = (lo - last_place(lo) / 2, hi + last_place(hi) / 2)
        return Span(*best[-1])


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
    line      (all values, givens) -> the step with its numbers put in
    hints     one sentence each, from the gentlest
    read      address of the passage that explains it
    row       index of the distance it belongs to, or None
    looks_back  whether a slip in an earlier, unfilled step is looked for here
    hidden    True for a value that is worked but not asked for, such as l in metres
    """

    id: str
    column: str
    title: str
    quantity: str
    rule: str
    needs: tuple[str, ...]
    formula: Callable
    line: Callable
    hints: tuple[str, ...]
    read: str
    row: int | None = None
    looks_back: bool = True
    hidden: bool = False


def hidden_step(id: str, needs: tuple[str, ...], formula: Callable) -> Step:
    """A value that steps share and nobody types."""
    return Step(id, id, "", "length", "figures", needs, formula, lambda known, givens: "", (), "", hidden=True)


class Plan:
    """The steps of a kind of sheet in order, and how they hang together.

    order    all steps; `steps` those that are asked for
    before   for each step, the steps worked before it, in order, for judging a
             slip in it: all it rests on, or the hidden ones if it does not look back
    """

    def __init__(self, order: tuple[Step, ...]):
        self.order = order
        self.steps = tuple(step for step in order if not step.hidden)
        self.by_id = {step.id: step for step in order}
        self._rests: dict[str, frozenset[str]] = {}
        for step in order:
            self._rests[step.id] = frozenset(step.needs).union(*(self._rests[n] for n in step.needs))
        self.before = {
            s.id: tuple(e for e in order if e.id in self._rests[s.id] and (s.looks_back or e.hidden)) for s in order
        }
        self._uses: dict[str, frozenset[str]] = {}
        self._touched: dict[str, tuple[Step, ...]] = {}

    def rests_on(self, step_id: str, other: str) -> bool:
        """Whether `other` is worked into the step, directly or through other steps."""
        return other in self._rests[step_id]

    def asked_needs(self, step: Step) -> list[str]:
        """The steps a student fills in that this one takes its values from directly."""
        return [n for n in step.needs if not self.by_id[n].hidden]

    def note_uses(self, working: "Working") -> None:
        """Find which parts each step's own formula takes, by running it once."""
        known: dict[str, float] = {}
        for step in self.order:
            noting = _Noting(working.parts)
            known[step.id] = step.formula(Exact, known, working.givens, noting)
            self._uses[step.id] = frozenset(noting.taken)

    def touched(self, part: str, working: "Working") -> tuple[Step, ...]:
        """The steps that a change of `part` can change, in order."""
        if part not in self._touched:
            if not self._uses:
                self.note_uses(working)
            found: dict[str, Step] = {}
            for step in self.order:
                needs = step.needs if step.looks_back else [n for n in step.needs if self.by_id[n].hidden]
                if part in self._uses[step.id] or any(n in found for n in needs):
                    found[step.id] = step
            self._touched[part] = tuple(found.values())
        return self._touched[part]


class _Noting(dict):
    """Parts that note which of them were taken."""

    def __init__(self, parts):
        super().__init__(parts)
        self.taken: set[str] = set()

    def __getitem__(self, key):
        self.taken.add(key)
        return super().__getitem__(key)


class Working:
    """A plan with the numbers of one sheet: its givens, and the parts its formulas are made of."""

    def __init__(self, plan: Plan, givens: Mapping[str, Any], parts: Parts):
        self.plan, self.givens, self.parts = plan, givens, parts
        self.steps, self.by_id = plan.steps, plan.by_id

    def value(self, step_id: str, a=Exact, parts: Parts | None = None, own: Mapping[str, Any] | None = None):
        """The value of one step, in SI units (degrees for an angle).

        a      the arithmetic; parts  replacements, or None for the right ones
        own    values to start from instead of working them: the student's entries
        """
        return self.fill(self.by_id[step_id], a, self.parts if parts is None else parts, dict(own or {}))

    def fill(self, step: Step, a, parts: Parts, known: dict[str, Any]):
        """The value of a step, putting into `known` the values of what it needs and were not there."""
        for need in step.needs:
            if need not in known:
                known[need] = self.fill(self.by_id[need], a, parts, known)
        return step.formula(a, known, self.givens, parts)

    def all_values(self, a=Exact) -> dict[str, Any]:
        """Every step's value by id, in the arithmetic `a`, the hidden ones' too."""
        known: dict[str, Any] = {}
        for step in self.plan.order:
            known[step.id] = step.formula(a, known, self.givens, self.parts)
        return known

    def slipped(
        self, part: str, parts: Parts, right: Mapping[str, float], own: Mapping[str, float] | None = None
    ) -> dict[str, float]:
        """The exact values that change when one part is replaced all through, by id.

        part   the name of the part, and `parts` all of them with it replaced
        right  values without the slip; steps that are not in it are left out
        own    entries to start from; they stay whatever the slip
        """
        known = dict(right)
        changed: dict[str, float] = {}
        for step in self.plan.touched(part, self):
            if step.id not in right or (own and step.id in own):
                continue  # worked only into what was entered, or entered
            start = known if step.looks_back else {**right, **{n: known[n] for n in step.needs if self.by_id[n].hidden}}
            value = step.formula(Exact, start, self.givens, parts)
            if value != right[step.id]:
                known[step.id] = changed[step.id] = value
        return changed


def own_start(value: float, rule: str, last: float) -> Span:
    """The span a student's own entry stands for when later steps are worked from it.

    They may have gone on with what they typed or with the figures still in the
    calculator: half a unit of the last place typed, but no more than the
    coarsest place that correct working may keep.
    """
    coarsest = {"angle": ANGLE_PLACE, "tangent": TANGENT_PLACE}.get(rule) or last_place(value)
    return widened(value, min(last, coarsest) / 2)

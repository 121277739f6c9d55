"""All that correct working can reach, as compiled code: Interval, written down.

Spans are multiplied, divided and raised as Interval does it where they are
positive.  That they are is found at run time: where one is not, the code says
so, and the formulas are run as they stand.
"""

from collections.abc import Callable
from typing import NamedTuple

from exercises.working.arithmetic import Number, total
from exercises.working.compiled import Cannot, Code, Compiled, Symbol, apply, traced, traced_values
from exercises.working.rounded import highest, highest_angle, highest_tangent, lowest, lowest_angle, lowest_tangent
from exercises.working.steps import Working


class TracedSpan(Symbol):
    """A span whose ends are not known yet.  As a kind of Symbol it comes first in a product with one.

    lo, hi  symbols or floats
    """

    __slots__ = ("lo", "hi")

    def __init__(self, code: Code, lo: Number, hi: Number):
        super().__init__(code, "")
        self.lo, self.hi = lo, hi

    def _span(self, lo: Number, hi: Number) -> "TracedSpan":
        return TracedSpan(self.code, lo, hi)

    def _of(self, x: Number) -> "TracedSpan":
        return x if isinstance(x, TracedSpan) else self._span(x, x)

    def positive(self) -> "TracedSpan":
        """The span itself, whose code is only for one above 0."""
        self.code.require(self.lo)
        return self

    def __add__(self, other: Number) -> "TracedSpan":
        other = self._of(other)
        return self._span(self.lo + other.lo, self.hi + other.hi)

    __radd__ = __add__

    def __sub__(self, other: Number) -> "TracedSpan":
        other = self._of(other)
        return self._span(self.lo - other.hi, self.hi - other.lo)

    def __rsub__(self, other: Number) -> "TracedSpan":
        return self._of(other).__sub__(self)

    def __mul__(self, other: Number) -> "TracedSpan":
        if type(other) in (int, float):
            ends = self.lo * other, self.hi * other
            return self._span(*(ends if other >= 0 else ends[::-1]))
        other = self._of(other).positive()
        self.positive()
        return self._span(self.lo * other.lo, self.hi * other.hi)

    __rmul__ = __mul__

    def __truediv__(self, other: Number) -> "TracedSpan":
        if type(other) in (int, float) and other > 0:
            return self.__mul__(1 / other)
        return self._over(self._of(other))

    def _over(self, other: "TracedSpan") -> "TracedSpan":
        other.positive()
        return self * self._span(1 / other.hi, 1 / other.lo)

    def __rtruediv__(self, other: Number) -> "TracedSpan":
        return self._of(other)._over(self)

    def __pow__(self, n: Number) -> "TracedSpan":
        self.positive()
        return self._span(self.lo**n, self.hi**n)

    def widened(self, half_width: Number) -> "TracedSpan":
        """The span opened by half_width to either side."""
        return self._span(self.lo - half_width, self.hi + half_width)


def _span(x: Number) -> TracedSpan:
    if isinstance(x, TracedSpan):
        return x
    if not isinstance(x, Symbol):
        raise Cannot("a number that hangs on no given")
    return TracedSpan(x.code, x, x)


def _rounded(x: Number, low: Callable[[float], float], high: Callable[[float], float]) -> TracedSpan:
    x = _span(x)
    return TracedSpan(x.code, apply(low, x.lo), apply(high, x.hi))


def _least(code: Code, ends: list[Number]) -> Symbol:
    return code.call(min, *ends)


def _most(code: Code, ends: list[Number]) -> Symbol:
    return code.call(max, *ends)


class TracedInterval:
    """Interval, written down.  See there for what each does."""

    @staticmethod
    def keep(x: Number) -> TracedSpan:
        return _rounded(x, lowest, highest)

    @staticmethod
    def angle(x: Number) -> TracedSpan:
        return _rounded(x, lowest_angle, highest_angle)

    @staticmethod
    def tangent(x: Number) -> TracedSpan:
        return _rounded(x, lowest_tangent, highest_tangent)

    @staticmethod
    def within(x: Number, half_width: float) -> TracedSpan:
        return _span(x).widened(half_width)

    @staticmethod
    def apply(function: Callable[[float], float], x: Number) -> TracedSpan:
        x = _span(x)
        ends = [apply(function, x.lo), apply(function, x.hi)]
        return TracedSpan(x.code, _least(x.code, ends), _most(x.code, ends))

    @staticmethod
    def either(*ways: Callable[[], Number]) -> TracedSpan:
        spans = [_span(way()) for way in ways]
        if len(spans) == 1:
            return spans[0]
        code = spans[0].code
        return TracedSpan(code, _least(code, [s.lo for s in spans]), _most(code, [s.hi for s in spans]))

    @staticmethod
    def product(*factors: Number) -> TracedSpan:
        spans = [_span(f).positive() for f in factors]
        code, n = spans[0].code, len(spans)
        best = {1 << i: span for i, span in enumerate(spans)}
        for group in range(1, 1 << n):
            if group in best:
                continue
            pairs = [(best[part], best[group ^ part]) for part in range(group) if part & group == part > group ^ part]
            lows, highs = [a.lo * b.lo for a, b in pairs], [a.hi * b.hi for a, b in pairs]
            low, high = (x[0] if len(x) == 1 else choose(code, x) for x, choose in ((lows, _least), (highs, _most)))
            best[group] = _rounded(TracedSpan(code, low, high), lowest, highest)
        return best[(1 << n) - 1]

    total = staticmethod(total)


def _ends(span: Number) -> tuple[Number, Number]:
    return (span.lo, span.hi) if isinstance(span, TracedSpan) else (span, span)


class CompiledSpans(NamedTuple):
    """A function of the givens: lo and hi of the steps of these ids in order, in one flat tuple."""

    code: Compiled
    step_ids: tuple[str, ...]


def compiled_spans(working: Working, step_ids: tuple[str, ...]) -> CompiledSpans:
    """Code for the spans of these steps, and of the numbers that are worked into them.  Cannot, where there is none."""
    code, plan = Code(), working.plan
    spans = traced_values(traced(working, code), TracedInterval)
    all_ids = frozenset(step_ids).union(*(plan.rests[step_id] for step_id in step_ids))
    step_ids = tuple(step.id for step in plan.order if step.id in all_ids)
    return CompiledSpans(code.function([end for step_id in step_ids for end in _ends(spans[step_id])]), step_ids)


OWN = "entered"  # what the entries stand for stands among the givens under this name


def compiled_following(working: Working) -> Compiled:
    """A function of the givens, and of (lo, hi) of every entry in the order of the steps under OWN.

    Returns lo and hi of what each step follows to from the entries it is worked from, in one flat tuple.  Cannot,
    where there is none.
    """
    code = Code()
    symbols = traced(working, code)
    entered = code.given(OWN, tuple((0.0, 0.0) for _ in working.steps))
    start = {step.id: TracedSpan(code, *pair) for step, pair in zip(working.steps, entered)}
    values = [symbols.value(step.id, TracedInterval, own=start) for step in working.steps]
    return code.function([end for value in values for end in _ends(value)])

"""All that correct working can reach, as straight-line code: Interval, written down.

Spans are multiplied, divided and raised as Interval does it where they are
positive.  That they are is found at run time: where one is not, the code
raises ValueError and the formulas are run as they stand.
"""

from collections.abc import Callable, Iterable
from math import floor, log10

from exercises.working.arithmetic import ANGLE_PLACE, ROUNDED_TWICE, TANGENT_PLACE, Interval, last_place
from exercises.working.compiled import Cannot, Code, Symbol, apply, symbols_of, traced_values

END = float | Symbol


class TracedSpan(Symbol):
    """A span whose ends are not known yet.  As a kind of Symbol it comes first in a product with one."""

    __slots__ = ("lo", "hi")

    def __init__(self, code: Code, lo: END, hi: END):
        super().__init__(code, "")
        self.lo, self.hi = lo, hi

    def _span(self, lo: END, hi: END) -> "TracedSpan":
        return TracedSpan(self.code, lo, hi)

    def _of(self, x) -> "TracedSpan":
        return x if isinstance(x, TracedSpan) else self._span(x, x)

    def positive(self) -> "TracedSpan":
        self.code.require(self.lo)
        return self

    def __add__(self, other):
        other = self._of(other)
        return self._span(self.lo + other.lo, self.hi + other.hi)

    __radd__ = __add__

    def __sub__(self, other):
        other = self._of(other)
        return self._span(self.lo - other.hi, self.hi - other.lo)

    def __rsub__(self, other):
        return self._of(other) - self

    def __mul__(self, other):
        if type(other) in (int, float):
            ends = self.lo * other, self.hi * other
            return self._span(*(ends if other >= 0 else ends[::-1]))
        other = self._of(other).positive()
        self.positive()
        return self._span(self.lo * other.lo, self.hi * other.hi)

    __rmul__ = __mul__

    def __truediv__(self, other):
        if type(other) in (int, float) and other > 0:
            return self * (1 / other)
        other = self._of(other).positive()
        return self * self._span(1 / other.hi, 1 / other.lo)

    def __rtruediv__(self, other):
        return self._of(other) / self

    def __pow__(self, n):
        self.positive()
        return self._span(self.lo**n, self.hi**n)

    def widened(self, half_width: END) -> "TracedSpan":
        return self._span(self.lo - half_width, self.hi + half_width)


def _span(x) -> TracedSpan:
    if isinstance(x, TracedSpan):
        return x
    if not isinstance(x, Symbol):
        raise Cannot("a number that hangs on no given")
    return TracedSpan(x.code, x, x)


HALF_PLACES = {n: last_place(10.0**n) / 2 for n in range(-300, 300)}


def _half_place(x: float) -> float:
    """Half of `last_place` of a number above 0.  KeyError or ValueError where it is not one."""
    return HALF_PLACES[floor(log10(x))]


def _place(x: END) -> END:
    return apply(_half_place, x)


def _least(code: Code, ends: list) -> Symbol:
    return code.call(min, *ends)


def _most(code: Code, ends: list) -> Symbol:
    return code.call(max, *ends)


class TracedInterval(Interval):
    """Interval, written down.  See there for what each does."""

    @staticmethod
    def keep(x, twice=False):
        x = _span(x)
        lo, hi = x.lo - _place(x.lo), x.hi + _place(x.hi)
        if not twice:
            return TracedSpan(x.code, lo, hi)
        more = ROUNDED_TWICE * apply(last_place, x.hi)
        return TracedSpan(x.code, lo - more, hi + more)

    @staticmethod
    def angle(x, twice=False):
        return _span(x).widened((0.5 + ROUNDED_TWICE if twice else 0.5) * ANGLE_PLACE)

    @staticmethod
    def tangent(x, twice=False):
        return _span(x).widened((0.5 + ROUNDED_TWICE if twice else 0.5) * TANGENT_PLACE)

    @staticmethod
    def within(x, half_width):
        return _span(x).widened(half_width)

    @staticmethod
    def apply(function, x):
        x = _span(x)
        ends = [apply(function, x.lo), apply(function, x.hi)]
        return TracedSpan(x.code, _least(x.code, ends), _most(x.code, ends))

    @staticmethod
    def either(*ways):
        spans = [_span(way()) for way in ways]
        if len(spans) == 1:
            return spans[0]
        code = spans[0].code
        return TracedSpan(code, _least(code, [s.lo for s in spans]), _most(code, [s.hi for s in spans]))

    @staticmethod
    def product(*factors):
        spans = [_span(f).positive() for f in factors]
        code, n = spans[0].code, len(spans)
        best = {1 << i: span for i, span in enumerate(spans)}
        for group in range(1, 1 << n):
            if group in best:
                continue
            pairs = [(best[part], best[group ^ part]) for part in range(group) if part & group == part > group ^ part]
            lows, highs = [a.lo * b.lo for a, b in pairs], [a.hi * b.hi for a, b in pairs]
            low, high = (x[0] if len(x) == 1 else choose(code, x) for x, choose in ((lows, _least), (highs, _most)))
            best[group] = TracedSpan(code, low - _place(low), high + _place(high))
        return best[(1 << n) - 1]


def spans_as_code(working, step_ids: Iterable[str]) -> Callable[..., tuple]:
    """A function of the givens: lo and hi of these steps in order, in one flat tuple.  Cannot, where there is none."""
    code = Code()
    traced = type(working)(working.plan, symbols_of(code, working.givens), working.parts)
    spans = traced_values(traced, TracedInterval)
    ends: list[END] = []
    for step_id in step_ids:
        if step_id not in spans:
            raise Cannot(step_id)
        span = spans[step_id]
        ends += (span.lo, span.hi) if isinstance(span, TracedSpan) else (span, span)
    return code.function(ends)


OWN = "entered"  # what the entries stand for stands among the givens under this name


def following_as_code(working) -> Callable[..., tuple]:
    """A function of the givens, and of (lo, hi) of every entry in the order of the steps under OWN.

    Returns lo and hi of what each step follows to from the entries it is worked from, flat.  Cannot, where there is none.
    """
    code = Code()
    givens = symbols_of(code, {**working.givens, OWN: tuple((0.0, 0.0) for _ in working.steps)})
    start = {step.id: TracedSpan(code, *pair) for step, pair in zip(working.steps, givens[OWN])}
    traced = type(working)(working.plan, givens, working.parts)
    ends: list[END] = []
    for step in working.steps:
        span = traced.value(step.id, TracedInterval, own=start)
        ends += (span.lo, span.hi) if isinstance(span, TracedSpan) else (span, span)
    return code.function(ends)

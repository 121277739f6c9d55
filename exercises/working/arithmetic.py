"""The kinds of arithmetic that one formula can run with.

Exact      the value with every figure kept (plain floats), and beside it
Tenths     the same with angles to 0.1°, and
Hundredths with angles to 0.01°;
Interval   every value that correct working can reach when each
           intermediate is rounded to three figures or more, angles to 0.1°
           and tangents to four places.

cutting.py has those that cut off what should be rounded; compiled.py and
compiled_spans.py have others, which write a formula down.
What all of them have is `Arithmetic`.
"""

import math
import operator
from collections.abc import Callable, Iterable
from functools import reduce
from typing import Any, Protocol

from exercises.working.rounded import (
    ANGLE_PLACE,
    TANGENT_PLACE,
    highest,
    highest_angle,
    highest_tangent,
    last_place,
    lowest,
    lowest_angle,
    lowest_tangent,
)

#: A number of any arithmetic: a float, a Span of floats, or a symbol for one of these (compiled.py).  A formula does
#: with them what +, −, ×, ÷ and powers do, and gives what it was given.  No one type has that of all three.
type Number = Any


def total(values: Iterable[Number]) -> Number:
    """The sum of numbers of any arithmetic.

    Of floats it is the float nearest to their true sum (`math.fsum`), so that neither their order nor the Python that
    adds them matters; spans are added end by end; of symbols, it is the same written down.

    >>> total([0.1] * 10), total([Span(1.0, 2.0), 0.5])
    (1.0, Span(1.5, 2.5))
    """
    numbers = tuple(values)
    if {*map(type, numbers)} == {float}:
        return math.fsum(numbers)
    if any(hasattr(x, "lo") for x in numbers):
        return reduce(operator.add, numbers)
    symbol = next((x for x in numbers if not isinstance(x, (int, float))), None)
    return math.fsum(numbers) if symbol is None else symbol.code.total(numbers)


def signed_root(x: float) -> float:
    """√x; of a negative number −√|x|, so that such an entry stops nothing and is judged by its sign.

    >>> signed_root(9.0), signed_root(-9.0)
    (3.0, -3.0)
    """
    return math.copysign(math.sqrt(abs(x)), x)


def reciprocal_or_zero(x: float) -> float:
    """1/x, and 0 for 0, so that an entry of zero stops nothing: it is itself said to be wrong."""
    return 1 / x if x else 0.0


def over(a: "Arithmetic", reciprocal: Number) -> Number:
    """A reciprocal 1/x as a factor: most divide by x, and some write the reciprocal down."""
    return a.either(lambda: reciprocal, lambda: a.keep(reciprocal))


ROUNDED_TWICE = 0.1  # of a last place: how much farther an own number may lie that was rounded once more on the way


class Arithmetic(Protocol):
    """What a formula may ask of its arithmetic `a`."""

    def keep(self, x: Number) -> Number:
        """An intermediate that a person writes down: rounded to three figures or more."""

    def angle(self, x: Number) -> Number:
        """An angle written down, in degrees: to 0.1° or finer."""

    def tangent(self, x: Number) -> Number:
        """A tangent written down: to four places or more."""

    def within(self, x: Number, half_width: float) -> Number:
        """A number read off a scale or a graph, which an eye may take half_width higher or lower."""

    def apply(self, function: Callable[[float], float], x: Number) -> Number:
        """A function that rises or falls steadily over the range, of one number."""

    def either(self, *ways: Callable[[], Number]) -> Number:
        """Equal forms of one formula, given as functions of nothing; the first is the textbook's."""

    def product(self, *factors: Number) -> Number:
        """Factors multiplied in any order, each partial product written down."""

    def total(self, values: Iterable[Number]) -> Number:
        """The sum of numbers; see `total`."""


class Exact:
    """Plain float arithmetic: nothing is rounded.  See `Arithmetic` for what each does, here and below."""

    @staticmethod
    def keep(x: Number) -> Number:
        return x

    @staticmethod
    def angle(x: Number) -> Number:
        return x

    @staticmethod
    def tangent(x: Number) -> Number:
        return x

    @staticmethod
    def within(x: Number, half_width: float) -> Number:
        return x

    @staticmethod
    def apply(function: Callable[[float], float], x: Number) -> Number:
        return function(x)

    @staticmethod
    def either(*ways: Callable[[], Number]) -> Number:
        return ways[0]()

    @staticmethod
    def product(*factors: Number) -> Number:
        return reduce(operator.mul, factors)

    total = staticmethod(total)

    #: whether a slip changed a value
    differ = staticmethod(operator.ne)


class Tenths(Exact):
    """Exact, but with angles to 0.1°: the other common path to a slip's value."""

    @staticmethod
    def angle(x: Number) -> Number:
        return math.floor(x / ANGLE_PLACE + 0.5) * ANGLE_PLACE


class Hundredths(Exact):
    """Exact, but with angles to 0.01°: as most students write a mean."""

    @staticmethod
    def angle(x: Number) -> Number:
        return math.floor(x * 100 + 0.5) / 100


class NotingAngles:
    """As Exact, and notes whether an angle was written down: else Tenths and Hundredths give the same."""

    keep, tangent, within = staticmethod(Exact.keep), staticmethod(Exact.tangent), staticmethod(Exact.within)
    apply, either, product = staticmethod(Exact.apply), staticmethod(Exact.either), staticmethod(Exact.product)
    total = staticmethod(total)

    def __init__(self) -> None:
        self.angles = False

    def angle(self, x: Number) -> Number:
        self.angles = True
        return x


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

    def __add__(self, other: "Span | float") -> "Span":
        other = as_span(other)
        return Span(self.lo + other.lo, self.hi + other.hi)

    __radd__ = __add__

    def __sub__(self, other: "Span | float") -> "Span":
        other = as_span(other)
        return Span(self.lo - other.hi, self.hi - other.lo)

    def __rsub__(self, other: float) -> "Span":
        return as_span(other) - self

    def __mul__(self, other: "Span | float") -> "Span":
        other = as_span(other)
        a, b = self.lo, self.hi
        c, d = other.lo, other.hi
        if a >= 0 and c >= 0:
            return Span(a * c, b * d)
        ends = (a * c, a * d, b * c, b * d)
        return Span(min(ends), max(ends))

    __rmul__ = __mul__

    def __truediv__(self, other: "Span | float") -> "Span":
        other = as_span(other)
        if other.lo <= 0 <= other.hi:
            return Span(-math.inf, math.inf)
        return self * Span(1 / other.hi, 1 / other.lo)

    def __rtruediv__(self, other: float) -> "Span":
        return as_span(other) / self

    def __pow__(self, n: float) -> "Span":
        if self.lo < 0:
            if n != 2:
                return Span(math.nan, math.nan)
            top = max(self.lo * self.lo, self.hi * self.hi)
            return Span(0.0 if self.hi >= 0 else self.hi * self.hi, top)
        return Span(self.lo**n, self.hi**n)

    def __repr__(self) -> str:
        return f"Span({self.lo!r}, {self.hi!r})"


def as_span(x: Span | float) -> Span:
    """A span as it is, and the span of a single number."""
    return x if isinstance(x, Span) else Span(x)


def middle(x: Number) -> float:
    """A number itself, and the middle of a span."""
    return (x.lo + x.hi) / 2 if isinstance(x, Span) else x


def widened(span: Span | float, half_width: float) -> Span:
    """The span opened by half_width to either side."""
    span = as_span(span)
    return Span(span.lo - half_width, span.hi + half_width)


class Interval:
    """Arithmetic on spans: each `keep` takes the ends to the farthest that right rounding can.

    Rounding never turns the order of two numbers round.  So what the numbers of
    a span can become lies between what its two ends can.
    """

    @staticmethod
    def keep(x: Number) -> Span:
        x = as_span(x)
        return Span(lowest(x.lo), highest(x.hi))

    @staticmethod
    def angle(x: Number) -> Span:
        x = as_span(x)
        return Span(lowest_angle(x.lo), highest_angle(x.hi))

    @staticmethod
    def tangent(x: Number) -> Span:
        x = as_span(x)
        return Span(lowest_tangent(x.lo), highest_tangent(x.hi))

    @staticmethod
    def within(x: Number, half_width: float) -> Span:
        return widened(x, half_width)

    @staticmethod
    def apply(function: Callable[[float], float], x: Number) -> Span:
        x = as_span(x)
        a, b = function(x.lo), function(x.hi)
        return Span(min(a, b), max(a, b))

    @staticmethod
    def either(*ways: Callable[[], Number]) -> Span:
        spans = [as_span(way()) for way in ways]
        return Span(min(s.lo for s in spans), max(s.hi for s in spans))

    @staticmethod
    def product(*factors: Number) -> Span:
        """The hull over every order of multiplying spans, each partial product kept; all numbers if one holds zero."""
        n, negative = len(factors), False
        best: dict[int, tuple[float, float]] = {}  # of each group of factors, written as the bits of a number
        for i, factor in enumerate(factors):
            span = as_span(factor)
            if span.lo > 0:
                best[1 << i] = (span.lo, span.hi)
            elif span.hi < 0:  # a calculator set to radians gives such tangents
                best[1 << i], negative = (-span.hi, -span.lo), not negative
            else:
                return Span(-math.inf, math.inf)
        for group in range(1, 1 << n):
            if group in best:
                continue
            lo, hi = math.inf, 0.0
            part = (group - 1) & group
            while part > group ^ part:  # each split in two once
                (a, b), (c, d) = best[part], best[group ^ part]
                lo, hi = min(lo, a * c), max(hi, b * d)
                part = (part - 1) & group
            best[group] = (lowest(lo), highest(hi))
        lo, hi = best[(1 << n) - 1]
        return Span(-hi, -lo) if negative else Span(lo, hi)

    total = staticmethod(total)


def own_start(value: float, rule: str, last: float) -> Span:
    """The span a student's own entry stands for when later steps are worked from it.

    They may have gone on with what they typed or with the figures still in the
    calculator: half a unit of the last place typed and a little more, for a
    number is often rounded twice, but no more than the coarsest place that
    correct working may keep.
    """
    if rule in ("reading", "count"):
        return Span(value)
    coarsest = ANGLE_PLACE if rule == "angle" else TANGENT_PLACE if rule == "tangent" else last_place(value)
    half_width = (0.5 + ROUNDED_TWICE) * min(last, coarsest)
    return Span(value - half_width, value + half_width)

"""One path of correct working, drawn at random: an arithmetic that only tests and benchmarks run with."""

from collections.abc import Callable
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

from exercises.working.arithmetic import Number, total

HALVES = (ROUND_HALF_UP, ROUND_HALF_EVEN)


def to_places(x: float, places: int, half: str) -> float:
    """A number rounded as it reads: half a unit is half a unit, although no float is it exactly."""
    read = Decimal(f"{x:.12g}")
    return float(read.quantize(Decimal(1).scaleb(-places), half))


def to_figures(x: float, figures: int, half: str) -> float:
    """A number to so many significant figures."""
    return to_places(x, figures - 1 - Decimal(f"{x:.12g}").adjusted(), half) if x else x


class Rounding:
    """One path of correct working, drawn with `draw`, a function of n giving 0 … n−1.

    A path rounds all its halves one way, and each intermediate to as many figures as it likes.
    """

    def __init__(self, draw: Callable[[int], int]):
        self.draw = draw
        self.half = HALVES[draw(2)]

    def keep(self, x: Number) -> float:
        figures = 3 + self.draw(9)
        return x if figures > 10 else to_figures(x, figures, self.half)

    def angle(self, x: Number) -> float:
        return self._to_places(x, 1)

    def tangent(self, x: Number) -> float:
        return self._to_places(x, 4)

    def _to_places(self, x: float, fewest: int) -> float:
        places = fewest + self.draw(5)
        return x if places > fewest + 3 else to_places(x, places, self.half)

    def within(self, x: Number, half_width: float) -> Number:
        return x + half_width * (self.draw(201) - 100) / 100

    @staticmethod
    def apply(function: Callable[[float], float], x: Number) -> float:
        return function(x)

    def either(self, *ways: Callable[[], Number]) -> Number:
        return ways[self.draw(len(ways))]()

    def product(self, *factors: Number) -> Number:
        left = list(factors)
        while len(left) > 1:
            a = left.pop(self.draw(len(left)))
            b = left.pop(self.draw(len(left)))
            left.append(self.keep(a * b))
        return left[0]

    total = staticmethod(total)

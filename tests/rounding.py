"""One path of correct working, drawn at random: an arithmetic that only tests and benchmarks run with."""

from collections.abc import Callable

from exercises.working.arithmetic import Number, total


class Rounding:
    """One path of correct working, drawn with `draw`, a function of n giving 0 … n−1."""

    def __init__(self, draw: Callable[[int], int]):
        self.draw = draw

    def keep(self, x: Number, twice: bool = False) -> float:
        figures = (3, 4, 5, 17)[self.draw(4)]
        return float(f"{x:.{figures - 1}e}")

    def angle(self, x: Number, twice: bool = False) -> float:
        return float(round(x, (1, 2, 3, 15)[self.draw(4)]))

    def tangent(self, x: Number, twice: bool = False) -> float:
        return float(round(x, (4, 5, 15)[self.draw(3)]))

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

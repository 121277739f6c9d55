"""The replaceable parts of setting up: the right ones.  Angles in degrees."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from exercises.kinds.dial.parts import one_division, zero_of_scale
from exercises.working.arithmetic import Arithmetic, Number
from exercises.working.steps import Parts


def size(a: Arithmetic, x: Number) -> Number:
    """A number without its sign."""
    return a.apply(math.sqrt, x**2)


def line_from(read: Number) -> Number:
    """Where the line of the arms lies: counted from the 0."""
    return read


def first_turn(line: Number, pointer: Number) -> Number:
    """The box is turned by what the line of the arms shows."""
    return line


def mean_of_ends(added: Number) -> Number:
    """The mean of the two ends of the pointer from their sum."""
    return added / 2


def pointer_after(pointer: Number, line: Number, side: Number) -> Number:
    """Where the pointer lies once the 0 is at the line of the arms.

    side  1 if both lay on one side of the 0, −1 if not
    """
    return pointer - side * line


def shown_from(shown: Number) -> Number:
    """What the pointer shows: counted from the 0."""
    return shown


def second_turn(shows: Number, pointer: Number, line: Number) -> Number:
    """The board is turned by what the pointer shows after the first turn."""
    return shows


def turned(x: Number) -> Number:
    """A turn by what is shown."""
    return x


def mean_of_four(added: Number) -> Number:
    """The mean of four readings from their sum."""
    return added / 4


def mean_of_eight(added: Number) -> Number:
    """The mean of eight readings from their sum."""
    return added / 8


def half_of_difference(x: Number) -> Number:
    """What one way round has too much and the other too little: half of the difference."""
    return x / 2


def askew_share(a: Arithmetic, left_out: str, theta: Number) -> Number:
    """The share of the angle that shows: sin²θ with the first turn left out, cos²θ with the second."""
    return square_of(a, math.sin if left_out == "first" else math.cos, theta)


def square_of(a: Arithmetic, function: Callable[[float], float], theta: Number) -> Number:
    """The square of a function of an angle in degrees."""
    return a.keep(a.apply(lambda x: function(math.radians(x)), theta) ** 2)


def rest_radians(angle: Number) -> Number:
    """Degrees in radians."""
    return math.radians(1) * angle


def rest_square(a: Arithmetic, angle: Number) -> Number:
    """Half the square of an angle in radians."""
    return a.keep(angle**2) / 2


def rest_cosine(a: Arithmetic, theta: Number) -> Number:
    """cos 2θ without its sign."""
    return size(a, a.apply(lambda x: math.cos(math.radians(2 * x)), theta))


def rest_percent(share: Number) -> Number:
    """A share as it is typed: without a unit it is in per cent."""
    return share


@dataclass(frozen=True)
class SettingParts(Parts):
    """The parts of setting up.  The first two are those of reading the dial."""

    one_division: Callable[[float], float] = one_division
    zero_of_scale: Callable[[Number], Number] = zero_of_scale
    line_from: Callable[[Number], Number] = line_from
    first_turn: Callable[[Number, Number], Number] = first_turn
    mean_of_ends: Callable[[Number], Number] = mean_of_ends
    pointer_after: Callable[[Number, Number, Number], Number] = pointer_after
    shown_from: Callable[[Number], Number] = shown_from
    second_turn: Callable[[Number, Number, Number], Number] = second_turn
    turned: Callable[[Number], Number] = turned
    setting_four: Callable[[Number], Number] = mean_of_four
    setting_eight: Callable[[Number], Number] = mean_of_eight
    setting_half: Callable[[Number], Number] = half_of_difference
    askew_share: Callable[[Arithmetic, str, Number], Number] = askew_share
    rest_radians: Callable[[Number], Number] = rest_radians
    rest_square: Callable[[Arithmetic, Number], Number] = rest_square
    rest_cosine: Callable[[Arithmetic, Number], Number] = rest_cosine
    rest_percent: Callable[[Number], Number] = rest_percent


PARTS = SettingParts()

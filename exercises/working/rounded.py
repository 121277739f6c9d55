"""What rounding and cutting off make of one number: to so many figures, to a place, or finer."""

from itertools import accumulate, repeat
from math import copysign, floor, isfinite, log10
from operator import mul

FIGURES = 3  # the fewest figures an intermediate may be kept to
ANGLE_PLACE = 0.1  # degree
TANGENT_PLACE = 1e-4
ANGLE_PER, TANGENT_PER = 10.0, 1e4  # how many of these places make one

_TENS = {n: float(f"1e{n}") for n in range(-330, 309)}


def last_place(value: float, figures: int = FIGURES) -> float:
    """The size of one unit in the last of `figures` significant figures of value; 0.0 for 0 and for what is not finite.

    >>> last_place(0.0123), last_place(999.9)
    (0.0001, 1.0)
    """
    try:
        return _TENS[floor(log10(abs(value))) - figures + 1]
    except (ValueError, OverflowError):
        return 0.0  # of nothing, and of what is no number


_HALF = 0.500001  # of a unit and a little more: half a unit goes up or down, and no float is exactly half of one
_LEVELS = 8  # the figures in turn that rounding is followed to: one more moves a number by less than a span's slack
_LAST_BITS = 1e-11  # share: two floats that are no farther apart are one decimal number
_BELOW, _ABOVE = 1 - _LAST_BITS, 1 + _LAST_BITS


def highest_at(x: float, per: float) -> float:
    """The most that x can become when it is written down to 1/per or finer.

    Half a unit goes up or down.  Where the coarsest place takes x up, no finer
    one takes it farther; where it does not, the next one may.

    >>> highest_at(40.05, 10.0), highest_at(33.948, 10.0), highest_at(33.9, 10.0)
    (40.1, 33.95, 33.9)
    """
    if x < 0:
        return -lowest_at(-x, per)
    edge = x * _BELOW
    for _ in range(_LEVELS):
        rounded = (x * per + _HALF) // 1.0 / per
        if rounded >= edge:
            return rounded if rounded > x else x
        per *= 10.0
    return x  # what is no number, too


def lowest_at(x: float, per: float) -> float:
    """The least that x can become; see `highest_at`.

    >>> lowest_at(40.05, 10.0), lowest_at(33.952, 10.0), lowest_at(33.9, 10.0)
    (40.0, 33.95, 33.9)
    """
    if x < 0:
        return -highest_at(-x, per)
    edge = x * _ABOVE
    for _ in range(_LEVELS):
        rounded = -((_HALF - x * per) // 1.0) / per
        if rounded <= edge:
            return rounded if rounded < x else x
        per *= 10.0
    return x


class _Places(dict[int, tuple[float, ...]]):
    """How many of each place make one, from a number's third figure on, by the power of ten of its first."""

    def __missing__(self, power: int) -> tuple[float, ...]:
        places = self[power] = tuple(accumulate(repeat(10.0, _LEVELS), mul, initial=float(f"1e{FIGURES - 1 - power}")))
        return places


_PER = _Places()


def highest(x: float) -> float:
    """The most that x can become when it is kept to three figures or more."""
    try:
        places = _PER[floor(log10(x))]
    except (ValueError, OverflowError):
        return -lowest(-x) if x < 0 else x
    # as in `highest_at`, and written out: a draw asks for this very often
    edge = x * _BELOW
    for per in places:
        rounded = (x * per + _HALF) // 1.0 / per
        if rounded >= edge:
            return rounded if rounded > x else x
    return x


def lowest(x: float) -> float:
    """The least that x can become when it is kept to three figures or more."""
    try:
        places = _PER[floor(log10(x))]
    except (ValueError, OverflowError):
        return -highest(-x) if x < 0 else x
    edge = x * _ABOVE
    for per in places:
        rounded = -((_HALF - x * per) // 1.0) / per
        if rounded <= edge:
            return rounded if rounded < x else x
    return x


def highest_angle(x: float) -> float:
    """The most that an angle in degrees can become when it is kept to 0.1° or finer."""
    return highest_at(x, ANGLE_PER)


def lowest_angle(x: float) -> float:
    """The least that an angle in degrees can become when it is kept to 0.1° or finer."""
    return lowest_at(x, ANGLE_PER)


def highest_tangent(x: float) -> float:
    """The most that a tangent can become when it is kept to four places or more."""
    return highest_at(x, TANGENT_PER)


def lowest_tangent(x: float) -> float:
    """The least that a tangent can become when it is kept to four places or more."""
    return lowest_at(x, TANGENT_PER)


def cut_off(x: float, figures: int) -> float:
    """A number with what stands after its first `figures` significant figures left out.

    >>> cut_off(1.6289, 3), cut_off(-0.0012399, 4)
    (1.62, -0.001239)
    """
    if not x or not isfinite(x):
        return x
    per = 10.0 ** (figures - 1 - floor(log10(abs(x))))
    return copysign(floor(abs(x) * per * _ABOVE) / per, x)

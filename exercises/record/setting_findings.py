"""What sets N east against N west in a record: a zero error, either turn of setting up left out, or more than one.

With the arms α off their magnetic line and the 0–0 line ε off where it belongs on them a right
deflection θ is read as θ ± (α cos²θ − ε) (bench/instrument.py).  So the difference of
the fours is twice that, and only how it goes with θ tells the faults apart.

A magnet that lies τ off the line of the arms has a field across them of −½τ(d² + 3l²)/(d² − l²) times its field
along them (worked from its two poles).  So it shows as the first turn left out by a little more than τ/2.
"""

import math
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from exercises.record.finding import SURE
from exercises.record.position import Position
from exercises.working.numbers import places
from exercises.working.words import listed

TWO = (
    4.0  # standard errors from which on two faults are believed where one would be simpler; common practice, no source
)


class _Fault(NamedTuple):
    """One fault of setting up.

    said   what is said of it, with its size in degrees
    rest   what the pointer then shows with no magnet near
    shape  (a, b): one degree of it sets the fours apart by a + b sin²θ
    """

    said: str
    rest: str
    shape: tuple[float, float]


#: By the keys of fault_fit.OF_SETTING.
FAULTS = {
    "zero": _Fault("a zero error of {size} (the box was moved after setting up)", "{size}", (2.0, 0.0)),
    "first-turn": _Fault(
        "the first turn left out or not quite made (the box was {size} off {to_arms} the arms, or the pointer is as "
        "far off square to the needle, or the magnet lay about twice as far off the line of the arms)",
        "0°",
        (0.0, -2.0),
    ),
    "second-turn": _Fault(
        "the second turn left out or not quite made (the board was {size} off magnetic {line})",
        "{size}",
        (2.0, -2.0),
    ),
}


class Setting(NamedTuple):
    """What the differences N east less N west say of setting up.

    alone  the faults of which one alone may have made them, with their sizes in degrees; none if it takes two
    arms   how far the arms are off their magnetic line, if it takes two, degrees
    box    how far the 0–0 line is off the arms then, or the pointer off square, degrees
    """

    alone: Mapping[str, float]
    arms: float
    box: float


def setting_of(each: Sequence[float], thetas: Sequence[float], scatter: float) -> Setting:
    """Which faults of setting up make the differences N east less N west.

    each     the difference at every distance, degrees;  thetas  the mean deflections there, degrees
    scatter  standard deviation of one reading, degrees
    """
    variance = scatter**2 / 2  # of a difference of two means of four
    sines = [math.sin(math.radians(theta)) ** 2 for theta in thetas]
    fits = {key: _fit(each, [f.shape[0] + f.shape[1] * s for s in sines]) for key, f in FAULTS.items()}
    least = min(left for _, left in fits.values())
    arms, box, both = _arms_and_box(each, sines)
    if least - both > TWO**2 * variance:
        return Setting({}, arms, box)
    return Setting({key: size for key, (size, left) in fits.items() if left - least <= SURE**2 * variance}, arms, box)


def line_of(found: Setting, theta: float) -> float:
    """The difference N east less N west at a mean deflection, degrees, that two faults make."""
    return 2 * (found.arms * math.cos(math.radians(theta)) ** 2 - found.box)


def said_of_setting(found: Setting, position: Position) -> str:
    """The same in one or two sentences."""
    to_arms = "square to" if position.tan_b else "parallel to"
    if not found.alone:
        return (
            "No zero error makes this, and no single turn left out. "
            f"Arms {_degrees(found.arms)} off magnetic {position.line} would, with the 0–0 line "
            f"{_degrees(found.box)} off {'square to ' * position.tan_b}the arms or the pointer as far off square to "
            "the needle."
        )
    may_be = [(FAULTS[key], _degrees(size)) for key, size in found.alone.items()]
    said = listed(
        [f"of {fault.said.format(size=size, to_arms=to_arms, line=position.line)}" for fault, size in may_be], "or"
    )
    if len(may_be) == 1:
        return f"That is the pattern {said}."
    rests = listed([fault.rest.format(size=size) for fault, size in may_be], "or")
    return (
        f"That is the pattern {said}; these readings do not decide which. "
        f"With no magnet near the pointer tells: it shows {rests}, in this order."
    )


def _degrees(size: float) -> str:
    return f"{places(abs(size), 1)}°"


def _fit(each: Sequence[float], shape: Sequence[float]) -> tuple[float, float]:
    """(size, sum of squares left) of one shape by least squares."""
    size = math.sumprod(each, shape) / math.sumprod(shape, shape)
    return size, sum((x - size * f) ** 2 for x, f in zip(each, shape))


def _arms_and_box(each: Sequence[float], sines: Sequence[float]) -> tuple[float, float, float]:
    """(α, ε, sum of squares left) of 2(α cos²θ − ε) by least squares: a straight line in sin²θ."""
    x, y = sum(sines) / len(sines), sum(each) / len(each)
    spread = sum((s - x) ** 2 for s in sines)
    if spread < 1e-9:  # one deflection only
        return 0.0, 0.0, sum((e - y) ** 2 for e in each)
    slope = sum((s - x) * (e - y) for s, e in zip(sines, each)) / spread
    at_zero = y - slope * x
    left = sum((e - at_zero - slope * s) ** 2 for s, e in zip(sines, each))
    return -slope / 2, -slope / 2 - at_zero / 2, left

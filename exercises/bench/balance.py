"""Two magnets on the arms of one magnetometer: the balance at which the needle stays at rest.

Magnet 1 lies on one arm at d₁, magnet 2 on the other with the like pole
outward, so that their fields at the needle oppose.  Magnet 2 is moved until the
pointer stands where it stood with no magnet near.  The place is found by root
finding on the torque of the whole field, not by the textbook's formula.
"""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from exercises.bench import uncertainty
from exercises.bench.field import distance_end_on, end_on, pole_field
from exercises.bench.instrument import Faults, Magnet, Pole, poles

#: The four balances at one d₁: the arm of magnet 1, and whether N points away from the box ("out") or to it ("in").
FOUR = tuple((arm, way) for arm in ("east", "west") for way in ("out", "in"))


def _opposite(side: str) -> str:
    return "west" if side == "east" else "east"


def torque(sources: Iterable[Pole], B_H: float, needle: float, phi: float) -> float:
    """Twist on the needle (half length `needle`, m) at phi degrees east of north, as a field across it, in tesla.

    sources   (pole strength A·m, x m, y m) of every pole
    """
    s, c = math.sin(math.radians(phi)), math.cos(math.radians(phi))
    across = -2 * B_H * s
    for sign in (1, -1):
        x, y = sign * needle * s, sign * needle * c
        for p, ax, ay in sources:
            bx, by = pole_field(p, ax, ay, x, y)
            across += bx * c - by * s
    return across / 2


def balance_distance(magnets: tuple[Magnet, Magnet], d1: float) -> float:
    """The textbook's d₂ in m: where the end-on field of magnet 2 is that of magnet 1 at d1."""
    one, two = magnets
    return distance_end_on(two.m, end_on(one.m, d1, one.l), two.l)


def null_distance(
    magnets: tuple[Magnet, Magnet],
    d1: float,
    B_H: float,
    needle: float,
    arm: str = "east",
    way: str = "out",
    faults: tuple[Faults, Faults] = (Faults(), Faults()),
    seen_at: float = 0.0,
) -> float:
    """Where magnet 2 keeps the needle at rest against magnet 1 at d1 on `arm`, in metres on its own arm's scale.

    way      "out": both N poles away from the box; "in": both towards it
    faults   the instrument's, with each magnet's own centre and turn
    seen_at  what the eye takes for rest, degrees east

    ArithmeticError if there is no such place within a fifth of the textbook's.

    >>> one = Magnet(0.8, 0.04)
    >>> round(null_distance((one, one), 0.18, 36e-6, 0.006), 9)
    0.18
    """
    one, two = magnets
    north = arm if way == "out" else _opposite(arm)
    first = poles(one, d1, arm, north, faults[0])

    def left_over(d2: float) -> float:
        second = poles(two, d2, _opposite(arm), _opposite(north), faults[1])
        return torque((*first, *second), B_H, needle, seen_at)

    guess = balance_distance(magnets, d1)
    return _root(left_over, 0.8 * guess, 1.2 * guess, max(two.l * 1.05, 0.8 * guess))


def _root(function: Callable[[float], float], low: float, high: float, least: float) -> float:
    """Where a steady function is zero: the false position, with the kept end halved so that it closes in."""
    low = max(low, least)
    f_low, f_high = function(low), function(high)
    if f_low * f_high > 0:
        raise ArithmeticError("the needle cannot be kept at rest here: the second magnet is too near the box")
    side = 0
    for _ in range(60):
        x = (low * f_high - high * f_low) / (f_high - f_low)
        f = function(x)
        if f == 0 or high - low < 1e-9:
            break
        if f * f_high > 0:
            high, f_high = x, f
            f_low = f_low / 2 if side == 1 else f_low
            side = 1
        else:
            low, f_low = x, f
            f_high = f_high / 2 if side == -1 else f_high
            side = -1
        if abs(f) < 1e-13:  # T; the fields are some 10⁻⁵ T
            break
    return x


def four_balances(
    magnets: tuple[Magnet, Magnet],
    d1: float,
    B_H: float,
    needle: float,
    faults: tuple[Faults, Faults],
    errors: Sequence[float],
) -> tuple[float, ...]:
    """The four settings of magnet 2 for one d1, each to a millimetre as the scale is read, in the order of `FOUR`.

    errors   what the eye takes for rest in each, degrees
    """
    return tuple(
        math.floor(null_distance(magnets, d1, B_H, needle, arm, way, faults, e) * 1000 + 0.5) / 1000
        for (arm, way), e in zip(FOUR, errors, strict=True)
    )


def own_faults(faults: Faults, centre_shift: float, magnet_turned: float) -> Faults:
    """The same instrument with another magnet laid on it."""
    return replace(faults, centre_shift=centre_shift, magnet_turned=magnet_turned)


def ratio_uncertainty_by_angles(
    angles: tuple[float, float], d: float, halves: tuple[float, float], step: float, needle: float
) -> float:
    """Relative standard uncertainty of m₁/m₂ from the mean angles (degrees) of two magnets at one d.

    halves   half lengths l of both, m.  The needle's own length shifts both moments, so only the difference counts.
    """
    terms = []
    for theta, l in zip(angles, halves, strict=True):
        terms += [
            uncertainty.angle_term(theta, uncertainty.mean_angle(step)),
            uncertainty.distance_term(d, l, uncertainty.DISTANCE_BOTH_ARMS),
            uncertainty.length_term(d, l, uncertainty.MAGNETIC_LENGTH * l),
        ]
    one, two = (uncertainty.needle_term(theta, d, needle) for theta in angles)
    return math.hypot(*terms, one - two)


def ratio_uncertainty_by_balance(
    distances: Sequence[tuple[float, float]], halves: tuple[float, float], needle: float
) -> float:
    """Relative standard uncertainty of m₁/m₂ from the mean of balances at distances ((d₁, d₂), …), m."""
    own, common = [], []
    for pair in distances:
        terms = [
            uncertainty.distance_term(d, l, uncertainty.DISTANCE_BOTH_ARMS) for d, l in zip(pair, halves, strict=True)
        ]
        own.append(math.hypot(*terms))
        lengths = [
            uncertainty.length_term(d, l, uncertainty.MAGNETIC_LENGTH * l) for d, l in zip(pair, halves, strict=True)
        ]
        one, two = (uncertainty.needle_term(0.0, d, needle) for d in pair)
        common.append(math.hypot(*lengths, one - two))
    return math.hypot(math.hypot(*own) / len(own), sum(common) / len(common))

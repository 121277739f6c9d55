"""The deflection magnetometer: from a magnet on the arm to pointer readings.

Seen from above, in metres, the pivot of the needle at the origin, x to
magnetic east and y to magnetic north.  The needle is a rigid dipole of finite
length on a pivot; it settles where the torque of the whole field (the earth's
and the two-pole magnet's, each felt at both ends of the needle) is zero.  The
equilibrium is found by root finding; the textbook formula is never used here.

Each fault of the instrument is one number in `Faults`; all zero is the perfect
instrument.  The geometry is ours, worked from the drawing of the instrument in
content/before/instrument.md.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from math import cos, sin, sqrt

#: Which reading is which, in the order of the observation table: the arm the
#: magnet lies on, where its north pole points, and the end of the pointer.
EIGHT = tuple((arm, north, end) for arm in ("east", "west") for north in ("east", "west") for end in (1, 2))

#: The pattern of each pair of fours: which four of the eight readings (+1) a fault of
#: the instrument sets against the other four (−1), in the order of `EIGHT`.
PATTERNS = {
    "ends": tuple(1 if end == 1 else -1 for _, _, end in EIGHT),  # a pivot off the centre of the scale
    "north": tuple(1 if north == "east" else -1 for _, north, _ in EIGHT),  # a zero error, or a turn left out
    "arms": tuple(1 if arm == "east" else -1 for arm, _, _ in EIGHT),  # a box off the zero of the distance scale
    "outward": tuple(1 if arm == north else -1 for arm, north, _ in EIGHT),  # a magnetic centre off the middle
}


@dataclass(frozen=True)
class Magnet:
    """A bar magnet of two poles: moment m (A·m²), half length l of its poles (m)."""

    m: float
    l: float

    @property
    def p(self) -> float:
        """Pole strength, A·m."""
        return self.m / (2 * self.l)


@dataclass(frozen=True)
class Box:
    """The compass box: radius of the circular scale and half length of the needle, m."""

    radius: float = 0.040
    needle: float = 0.008


@dataclass(frozen=True)
class Faults:
    """What is wrong with the instrument; zero everywhere is a perfect one.

    pivot_x, pivot_y   where the pivot stands from the centre of the circular scale, m
    arm_off            α: the arms' angle north of magnetic east–west, degrees
    box_turned         ε: the 0–0 line's angle from the arms, degrees clockwise from above
    pointer_turned     the pointer's angle from square to the needle, degrees anticlockwise from above
    box_shift          pivot east of the zero of the distance scale along the arm, m
    centre_shift       magnetic centre from the middle of the bar, towards its north pole, m
    magnet_turned      the bar's axis off the arm, degrees

    The first turn of setting up (the box alone) makes ε nothing; the second (the whole
    board) then makes α nothing.  While they are small, a deflection θ is read as
    θ ± (α cos²θ − ε), with + where the needle turns east; ours, as the geometry.
    """

    pivot_x: float = 0.0
    pivot_y: float = 0.0
    arm_off: float = 0.0
    box_turned: float = 0.0
    pointer_turned: float = 0.0
    box_shift: float = 0.0
    centre_shift: float = 0.0
    magnet_turned: float = 0.0

    @property
    def at_rest(self) -> float:
        """What the pointer shows with no magnet near, α − ε: degrees clockwise from 0."""
        return self.arm_off - self.box_turned - self.pointer_turned


#: One fault by itself, made from its size in m or degrees.
ALONE: Mapping[str, Callable[[float], Faults]] = {
    "pivot": lambda size: Faults(pivot_x=size),
    "zero": lambda size: Faults(box_turned=-size),  # set up well, and the box moved afterwards
    "first-turn": lambda size: Faults(arm_off=size, box_turned=size),  # the box askew, the board turned to 0–0
    "second-turn": lambda size: Faults(arm_off=size),  # the box parallel to the arms, the board as it was found
    "pointer": lambda size: Faults(arm_off=size, pointer_turned=size),  # not square to the needle, both turns made
    "box": lambda size: Faults(box_shift=size),
    "centre": lambda size: Faults(centre_shift=size),
}
PERFECT = Faults()
Pole = tuple[float, float, float]  # strength in A·m, and where it lies: x and y in m
PolePair = tuple[Pole, Pole]
_Directions = tuple[float, float, float, float]


def poles(magnet: Magnet, d: float, arm: str, north: str, faults: Faults, tan_b: bool = False) -> PolePair:
    """Where the two poles lie: (p, x, y) of the north pole and of the south pole.

    The middle of the bar is put at d metres on the scale of the named arm.
    `arm` and `north` are "east" or "west"; with tan_b the arms lie north–south,
    "east" then standing for the north arm, and the bar lies across the arm.
    """
    return _pair(magnet, d, arm, north, faults, _directions(faults, tan_b))


def _directions(faults: Faults, tan_b: bool) -> _Directions:
    """Unit vectors along the arm, and along a bar whose north pole points east: (ux, uy, nx, ny)."""
    along = math.radians(faults.arm_off + (90.0 if tan_b else 0.0))
    axis = math.radians(faults.arm_off + faults.magnet_turned)
    return math.cos(along), math.sin(along), math.cos(axis), math.sin(axis)


def _pair(magnet: Magnet, d: float, arm: str, north: str, faults: Faults, directions: _Directions) -> PolePair:
    ux, uy, nx, ny = directions
    if north == "west":
        nx, ny = -nx, -ny
    reach = (d if arm == "east" else -d) - faults.box_shift
    cx = reach * ux + faults.centre_shift * nx
    cy = reach * uy + faults.centre_shift * ny
    l, p = magnet.l, magnet.p
    return (p, cx + l * nx, cy + l * ny), (-p, cx - l * nx, cy - l * ny)


def equilibrium(pole_pair: PolePair, B_H: float, needle: float, good: float = 1e-11) -> float:
    """Where the needle settles: degrees east (clockwise) of magnetic north.

    pole_pair   two (pole strength A·m, x m, y m)
    B_H         horizontal field of the earth, T, > 0
    needle      half length of the needle, m; 0 is the textbook's point needle
    good        product of two torques that follow each other, as shares of the earth's greatest, from which the next
                is as good as none; the last step leaves an error of about this, in radians

    The torque on the needle, (n × (B₊ + B₋)), is driven to zero by the secant
    method from the textbook's answer; if that strays, by bisection about it.
    """
    (p1, x1, y1), (p2, x2, y2) = pole_pair
    k1, k2 = 1e-7 * p1 / B_H, 1e-7 * p2 / B_H
    u1, u2 = k1 / (x1 * x1 + y1 * y1) ** 1.5, k2 / (x2 * x2 + y2 * y2) ** 1.5
    bx, by = -u1 * x1 - u2 * x2, -u1 * y1 - u2 * y2
    start = a = math.atan2(bx, 1.0 + by)
    fa = _torque(a, needle, k1, x1, y1, k2, x2, y2)
    b = a - fa / (2 * math.hypot(bx, 1.0 + by))
    for _ in range(20):
        fb = _torque(b, needle, k1, x1, y1, k2, x2, y2)
        if fb == fa:
            break
        small = abs(fa * fb) < good
        a, fa, b = b, fb, b - fb * (b - a) / (fb - fa)
        if small and abs(b - start) < 0.6:
            return math.degrees(b)
    torque = partial(_torque, needle=needle, k1=k1, x1=x1, y1=y1, k2=k2, x2=x2, y2=y2)
    lo, hi = start - 0.6, start + 0.6
    if torque(lo) * torque(hi) > 0:
        raise ArithmeticError("the needle has no steady position here: the magnet is too near the box")
    for _ in range(60):
        mid = (lo + hi) / 2
        lo, hi = (mid, hi) if torque(lo) * torque(mid) > 0 else (lo, mid)
    return math.degrees((lo + hi) / 2)


def _torque(phi: float, needle: float, k1: float, x1: float, y1: float, k2: float, x2: float, y2: float) -> float:
    """The torque on the needle, both its ends at once, in units of B_H; a sheet asks for it a hundred times.

    k1, k2  1e-7 times the strength of a pole at (x1, y1) and (x2, y2), over B_H
    """
    s, c = sin(phi), cos(phi)
    x, y = needle * s, needle * c
    ax, ay, bx, by = x - x1, y - y1, x - x2, y - y2
    cx, cy, dx, dy = x + x1, y + y1, x + x2, y + y2
    a2, b2, c2, d2 = ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy, dx * dx + dy * dy
    s1, s2 = k1 / (a2 * sqrt(a2)), k2 / (b2 * sqrt(b2))
    t1, t2 = k1 / (c2 * sqrt(c2)), k2 / (d2 * sqrt(d2))
    along = s1 * ay + s2 * by - t1 * cy - t2 * dy
    across = s1 * ax + s2 * bx - t1 * cx - t2 * dx
    return s * (2.0 + along) - c * across


def pointer_ends(phi: float, box: Box, faults: Faults) -> tuple[float, float]:
    """What the two ends of the pointer show, in degrees from their own zero.

    The pointer is fixed at right angles to the needle, or nearly so; its ends point
    east and west at rest.  phi is the needle's deflection, degrees east of north.  The
    scale has its centre where the pivot should be, so a pivot off centre adds
    to one end what it takes from the other.  Both are read without sign, 0–90.
    """
    turn = math.radians(phi - faults.pointer_turned)
    ux, uy = math.cos(turn) * box.radius, -math.sin(turn) * box.radius
    ex, ey = faults.pivot_x, faults.pivot_y
    one = -math.degrees(math.atan2(ey + uy, ex + ux))
    two = -math.degrees(math.atan2(uy - ey, ux - ex))
    scale = faults.arm_off - faults.box_turned  # the 0–0 line's own angle, north of east
    return abs(one + scale), abs(two + scale)


def to_scale(reading: float, step: float) -> float:
    """A reading to the nearest scale step (degrees), as the eye takes it."""
    return math.floor(reading / step + 0.5) * step


def eight_readings(
    magnet: Magnet,
    B_H: float,
    d: float,
    box: Box = Box(),
    faults: Faults = PERFECT,
    errors: tuple[float, ...] = (0.0,) * 8,
    step: float | None = None,
    tan_b: bool = False,
) -> tuple[float, ...]:
    """The eight readings at one distance, in degrees, in the order of `EIGHT`.

    d        distance on the scale from its zero to the middle of the bar, m
    errors   what the eye adds to each of the eight, degrees
    step     scale step in degrees (1 or ½); None leaves the readings unrounded

    ArithmeticError if the magnet lies so near that the needle has no steady place.

    >>> eight_readings(Magnet(1.5, 0.04), 36e-6, 0.21, Box(needle=0.0), step=0.5)
    (44.0, 44.0, 44.0, 44.0, 44.0, 44.0, 44.0, 44.0)
    """
    return read_off(eight_places(magnet, B_H, d, box, faults, tan_b), errors, step)


def eight_places(
    magnet: Magnet, B_H: float, d: float, box: Box = Box(), faults: Faults = PERFECT, tan_b: bool = False
) -> tuple[float, ...]:
    """Where the pointer's ends stand for each of the eight readings, in degrees; arguments as for `eight_readings`."""
    places: list[float] = []
    directions = _directions(faults, tan_b)
    for arm in ("east", "west"):
        for north in ("east", "west"):
            # a reading is to half a degree: millionths of a radian move it by nothing
            phi = equilibrium(_pair(magnet, d, arm, north, faults, directions), B_H, box.needle, 1e-6)
            places += pointer_ends(phi, box, faults)
    return tuple(places)


def read_off(places: tuple[float, ...], errors: tuple[float, ...], step: float | None) -> tuple[float, ...]:
    """What is read where the pointer's ends stand; errors and step as for `eight_readings`."""
    seen = [place + e for place, e in zip(places, errors, strict=True)]
    return tuple(seen if step is None else [to_scale(r, step) for r in seen])

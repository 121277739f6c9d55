"""From the uncertainty of what was read to the uncertainty of the moment.

JCGM 100:2008 (GUM).  What is known of an input is a *half width*: all values
within it are as likely.  Of a half width a the *standard uncertainty* is a/√3
(4.3.7).  For a product of powers the relative standard uncertainties, each
times its sensitivity, add in squares (5.1.2).  A result is stated as value ± U,
with the *expanded uncertainty* U = k·u (6.2.1).

Four terms make the moment uncertain: the angle, the distance, the magnetic
length, and the needle, which is not a point.  Every `…_term` here takes a
standard uncertainty and gives a relative standard uncertainty of the moment.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

ROOT_3 = math.sqrt(3)

# Half widths: what a student reads with.  Common practice, no source.
DISTANCE_WITHIN = 0.5e-3  # m; half a millimetre
MAGNETIC_LENGTH_WITHIN = 0.02  # of 2l, on a sheet, however it knows 2l
NEEDLE_WITHIN = 0.25  # of what is taken off for the needle: where its poles lie, and that the bar is no dipole

# Standard uncertainties.
ANGLE_STICKING = 0.1  # degrees, of any mean: the pivot's friction, common practice, no source
DISTANCE_BOTH_ARMS = DISTANCE_WITHIN / ROOT_3  # m; one mark on the magnet sets both arms: their mean is no surer
MAGNETIC_LENGTH = MAGNETIC_LENGTH_WITHIN / ROOT_3  # of 2l
NEEDLE = NEEDLE_WITHIN / ROOT_3  # of what is taken off for the needle

#: k where the uncertainty rests on half widths alone, whose degrees of freedom count as infinite (GUM G.4.3): a level
#: of confidence of about 95 % (GUM 6.3.3).
COVERAGE = 2.0


def mean_angle(step: float, readings: int = 8) -> float:
    """The standard uncertainty of a mean of `readings` pointer readings, degrees; the scale step in degrees.

    Rounding to the step has a half width of step/2 and averages down with the
    number of readings; friction at the pivot does not.
    """
    return math.hypot(step / math.sqrt(12 * readings), ANGLE_STICKING)


def angle_term(theta: float, u_theta: float) -> float:
    """That of tan θ: u(θ)/(sin θ cos θ), both in degrees; 0° < θ < 90°."""
    t = math.radians(theta)
    return math.radians(u_theta) / (math.sin(t) * math.cos(t))


def distance_term(d: float, l: float, u_d: float, tan_b: bool = False) -> float:
    """That of (d²−l²)²/2d from u(d): (4d²/(d²−l²) − 1)·u(d)/d.  Metres.

    With tan_b that of (d²+l²)^(3/2): 3d²/(d²+l²)·u(d)/d.
    """
    if tan_b:
        return 3 * d * u_d / (d * d + l * l)
    return (4 * d * d / (d * d - l * l) - 1) * u_d / d


def length_term(d: float, l: float, u_l: float, tan_b: bool = False) -> float:
    """That of (d²−l²)² from u(l): 4l·u(l)/(d²−l²).  Metres.

    With tan_b that of (d²+l²)^(3/2): 3l·u(l)/(d²+l²).
    """
    return 3 * l * u_l / (d * d + l * l) if tan_b else 4 * l * u_l / (d * d - l * l)


def needle_effect(theta: float, d: float, needle: float, tan_b: bool = False) -> float:
    """The share by which a needle of half length `needle` (m), which is not a point, makes the moment too large.

    The field of a dipole averaged over both ends of the needle is stronger
    than at its middle by (needle/d)²·(15 sin²θ − 3), and broadside-on weaker by
    (needle/d)²·(22.5 sin²θ − 6), to second order (worked here from the
    dipole's field; tests compare it with the root finding).  θ in degrees, d in m.
    """
    s = math.sin(math.radians(theta))
    return (needle / d) ** 2 * (6 - 22.5 * s * s if tan_b else 15 * s * s - 3)


def of_two_poles(d: float, l: float) -> float:
    """How many times more the needle does end-on before two poles at ±l than before a dipole; d > l, m.

    What it does goes with the curvature of the field along the axis, 12/d² of it for a dipole and
    12(d² + l²)/(d² − l²)² for two poles (worked here; tests compare it with the root finding).

    >>> round(of_two_poles(0.16, 0.04), 2)
    1.21
    """
    x = (l / d) ** 2
    return (1 + x) / (1 - x) ** 2


def needle_term(theta: float, d: float, needle: float, tan_b: bool = False) -> float:
    """That of a needle which nothing is taken off for: all that it does, without its sign."""
    return abs(needle_effect(theta, d, needle, tan_b))


def moment(theta: float, d: float, l: float, step: float, needle: float, tan_b: bool = False) -> tuple[float, float]:
    """Relative standard uncertainty of m at one distance: (what differs from row to row, what is common).

    Nothing is taken off for the needle.  The needle's and the length's are common to all rows and do not average out.
    """
    own = math.hypot(angle_term(theta, mean_angle(step)), distance_term(d, l, DISTANCE_BOTH_ARMS, tan_b))
    common = math.hypot(length_term(d, l, MAGNETIC_LENGTH * l, tan_b), needle_term(theta, d, needle, tan_b))
    return own, common


def mean_moment(
    rows: Sequence[tuple[float, float]], l: float, step: float, needle: float, tan_b: bool = False
) -> float:
    """That of the mean of the moments at (θ, d) of `rows`, where nothing is taken off for the needle."""
    terms = [moment(theta, d, l, step, needle, tan_b) for theta, d in rows]
    n = len(terms)
    own = math.sqrt(sum(o * o for o, _ in terms)) / n
    common = sum(c for _, c in terms) / n
    return math.hypot(own, common)


class Stated(NamedTuple):
    """A result: its value and its standard uncertainty u, in its unit, and the coverage factor k."""

    value: float
    u: float
    k: float = COVERAGE

    @property
    def U(self) -> float:
        """The expanded uncertainty (GUM 6.2.1)."""
        return self.k * self.u


@dataclass(frozen=True)
class Determined:
    """What a determination by deflection comes to.

    moment  A·m²;  pole  A·m
    needle  the share by which the needle made the mean of the moments too large, which was taken off
    """

    moment: Stated
    pole: Stated
    needle: float


def determined(
    mean: float, rows: Sequence[tuple[float, float]], l: float, step: float, needle: float, tan_b: bool = False
) -> Determined:
    """The moment and the pole strength, what the needle does taken off (GUM 3.2.4).

    mean     the mean of the moments at (θ in degrees, d in m) of `rows`, one row at least, A·m²
    l        half the magnetic length, and `needle` that of the needle, m;  step  scale step, degrees

    An error of l moves the moment, and the moment over 2l once more: the two go the same way end-on and against each
    other broadside-on, so they add with their signs and not in squares (GUM 5.2.2, where the correlation is complete).
    """
    n = len(rows)
    own = [math.hypot(angle_term(t, mean_angle(step)), distance_term(d, l, DISTANCE_BOTH_ARMS, tan_b)) for t, d in rows]
    lengths = sum(length_term(d, l, MAGNETIC_LENGTH * l, tan_b) for _, d in rows) / n
    effect = sum(needle_effect(t, d, needle, tan_b) for t, d in rows) / n
    rest = math.hypot(math.hypot(*own) / n, NEEDLE * effect)
    m = mean / (1 + effect)
    of_pole = abs(MAGNETIC_LENGTH - lengths) if tan_b else MAGNETIC_LENGTH + lengths
    return Determined(
        moment=Stated(m, m * math.hypot(rest, lengths)),
        pole=Stated(m / (2 * l), m / (2 * l) * math.hypot(rest, of_pole)),
        needle=effect,
    )

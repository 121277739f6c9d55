"""From the uncertainty of what was read to the uncertainty of the moment.

Law of propagation of uncertainty, JCGM 100:2008 (GUM), 5.1.2: for a product of
powers the relative uncertainties, each times its sensitivity, add in squares.
All relative uncertainties here are standard ones (one standard deviation).
"""

import math

#: What a student reads with, standard uncertainties.  A rectangular
#: distribution of half width a has a/√3 (GUM 4.3.7).
ANGLE_STICKING = 0.1  # degrees; the pivot's friction, common practice, no source
DISTANCE = 0.5e-3  # m; half a millimetre, on each arm
DISTANCE_BOTH_ARMS = DISTANCE / math.sqrt(2)  # of the mean of the two arms
MAGNETIC_LENGTH = 0.02 / math.sqrt(3)  # of 2l; however it is known, good to about 2 %, common practice, no source


def mean_angle(step: float, readings: int = 8) -> float:
    """u(θ) in degrees of a mean of `readings` pointer readings with a scale step in degrees.

    Rounding to the step has a half width of step/2 and averages down with the
    number of readings; friction at the pivot does not.
    """
    return math.hypot(step / math.sqrt(12 * readings), ANGLE_STICKING)


def angle_term(theta: float, u_theta: float) -> float:
    """Relative uncertainty of tan θ: u(θ)/(sin θ cos θ), both in degrees; 0° < θ < 90°."""
    t = math.radians(theta)
    return math.radians(u_theta) / (math.sin(t) * math.cos(t))


def distance_term(d: float, l: float, u_d: float, tan_b: bool = False) -> float:
    """Relative uncertainty of (d²−l²)²/2d from that of d: (4d²/(d²−l²) − 1)·u(d)/d.  Metres.

    With tan_b that of (d²+l²)^(3/2): 3d²/(d²+l²)·u(d)/d.
    """
    if tan_b:
        return 3 * d * u_d / (d * d + l * l)
    return (4 * d * d / (d * d - l * l) - 1) * u_d / d


def length_term(d: float, l: float, u_l: float, tan_b: bool = False) -> float:
    """Relative uncertainty of (d²−l²)² from that of l: 4l·u(l)/(d²−l²).  Metres.

    With tan_b that of (d²+l²)^(3/2): 3l·u(l)/(d²+l²).
    """
    return 3 * l * u_l / (d * d + l * l) if tan_b else 4 * l * u_l / (d * d - l * l)


def needle_term(theta: float, d: float, needle: float, tan_b: bool = False) -> float:
    """Relative uncertainty from a needle of half length `needle` (m) that is not a point.

    The field of a dipole averaged over both ends of the needle is stronger
    than at its middle by (needle/d)²·(15 sin²θ − 3), and broadside-on weaker by
    (needle/d)²·(22.5 sin²θ − 6), to second order (worked here from the
    dipole's field; tests compare it with the root finding).
    The textbook does not correct for it, so all of it counts as uncertainty.
    """
    s = math.sin(math.radians(theta))
    return abs((needle / d) ** 2 * (22.5 * s * s - 6 if tan_b else 15 * s * s - 3))


def moment(theta: float, d: float, l: float, step: float, needle: float, tan_b: bool = False) -> tuple[float, float]:
    """Relative standard uncertainty of m at one distance: (what differs from row to row, what is common).

    The needle's and the length's are common to all rows and do not average out.
    """
    own = math.hypot(angle_term(theta, mean_angle(step)), distance_term(d, l, DISTANCE_BOTH_ARMS, tan_b))
    common = math.hypot(length_term(d, l, MAGNETIC_LENGTH * l, tan_b), needle_term(theta, d, needle, tan_b))
    return own, common


def mean_moment(rows: list[tuple[float, float]], l: float, step: float, needle: float, tan_b: bool = False) -> float:
    """Relative standard uncertainty of the mean of the moments at (θ, d) of `rows`."""
    terms = [moment(theta, d, l, step, needle, tan_b) for theta, d in rows]
    n = len(terms)
    own = math.sqrt(sum(o * o for o, _ in terms)) / n
    common = sum(c for _, c in terms) / n
    return math.hypot(own, common)

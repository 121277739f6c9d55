"""The field of a bar magnet, the tangent law, and their inverses.

All quantities are plain floats in SI units, angles in degrees.  A magnet is
two poles +p and -p at +l and -l on its axis, with moment m = 2 l p.

    m    magnetic moment, A·m²          d    distance centre to centre, m
    p    pole strength, A·m             l    half the magnetic length, m
    B    the magnet's field, T          B_H  horizontal field of the earth, T

Source of the formulas: the two-pole (Coulomb) model, as in any textbook of
magnetism, e.g. W. J. Duffin, *Electricity and Magnetism*; they follow from
adding the inverse-square fields of the two poles.
"""

import math

#: µ0/4π as the textbook has it, exactly 1e-7 N/A².  The pages and the working
#: use this; it differs from CODATA's (2022) by 1.3 parts in ten thousand million.
MU_0_OVER_4PI = 1e-7


def _clear(d: float, l: float) -> None:
    if not l >= 0:
        raise ValueError(f"the half length l must not be negative; it is {l} m")
    if not (d > l and math.isfinite(d)):
        raise ValueError(
            f"the distance d ({d} m) must be longer than the half length l ({l} m): "
            "measure it from the centre of the magnet"
        )


def end_on(m: float, d: float, l: float = 0.0, k: float = MU_0_OVER_4PI) -> float:
    """Field on the axis of a bar magnet: B = k·2md/(d²−l²)², in tesla.

    m in A·m² (any sign), d > l ≥ 0 in metres, k = µ0/4π in N/A².  l = 0 is the
    point dipole.  ValueError if d ≤ l.

    >>> round(end_on(1.5, 0.20, 0.04) * 1e6, 2)
    40.69
    """
    _clear(d, l)
    return k * 2 * m * d / (d * d - l * l) ** 2


def broadside_on(m: float, d: float, l: float = 0.0, k: float = MU_0_OVER_4PI) -> float:
    """Field on the perpendicular bisector: B = k·m/(d²+l²)^(3/2), in tesla.

    It points against the moment.  m in A·m², d > l ≥ 0 in metres.  ValueError
    if d ≤ l: nearer than that the formula still holds for two poles but a
    magnet so close touches the box.

    >>> round(broadside_on(1.5, 0.20, 0.04) * 1e6, 2)
    17.68
    """
    _clear(d, l)
    field: float = k * m / (d * d + l * l) ** 1.5
    return field


def moment_end_on(B: float, d: float, l: float = 0.0, k: float = MU_0_OVER_4PI) -> float:
    """Inverse of `end_on`: the moment in A·m² from a field in tesla at d metres."""
    _clear(d, l)
    return B * (d * d - l * l) ** 2 / (2 * d * k)


def moment_broadside_on(B: float, d: float, l: float = 0.0, k: float = MU_0_OVER_4PI) -> float:
    """Inverse of `broadside_on`: the moment in A·m² from a field in tesla at d metres."""
    _clear(d, l)
    moment: float = B * (d * d + l * l) ** 1.5 / k
    return moment


def _angle(theta: float) -> None:
    if not -90 < theta < 90:
        raise ValueError(f"a deflection lies between −90° and 90°; {theta}° does not")


def deflection(B: float, B_H: float) -> float:
    """Tangent law: deflection in degrees of a needle in B (T) across B_H (T) > 0.

    Holds for B perpendicular to B_H and a needle so short that B is the same
    all along it.

    >>> deflection(36e-6, 36e-6)
    45.0
    """
    if not B_H > 0:
        raise ValueError(f"the earth's horizontal field B_H must be positive; it is {B_H} T")
    return math.degrees(math.atan(B / B_H))


def field_from_deflection(theta: float, B_H: float) -> float:
    """Tangent law: the field B = B_H tan θ in tesla, θ in degrees within ±90°."""
    _angle(theta)
    return B_H * math.tan(math.radians(theta))


def distance_end_on(m: float, B: float, l: float = 0.0, k: float = MU_0_OVER_4PI) -> float:
    """The distance in metres at which the end-on field is B (T) > 0.

    Solves 2kmd = B(d²−l²)² for d > l by Newton's method, from above, where the
    function is convex, so that it cannot run away.  ValueError unless m, B > 0.

    >>> round(distance_end_on(1.5, end_on(1.5, 0.2, 0.04), 0.04), 9)
    0.2
    """
    if not (m > 0 and B > 0):
        raise ValueError("the moment and the field must both be positive to find a distance")
    a = 2 * k * m / B
    d: float = a ** (1 / 3) + l  # the point dipole's distance plus l is always too far
    for _ in range(100):
        square = d * d - l * l
        step = (square * square - a * d) / (4 * d * square - a)
        d -= step
        if abs(step) <= 1e-15 * d:
            break
    return d


def distance_broadside_on(m: float, B: float, l: float = 0.0, k: float = MU_0_OVER_4PI) -> float:
    """The distance in metres at which the broadside-on field is B (T) > 0.

    ValueError if the field is weaker than B everywhere beyond d = l.
    """
    if not (m > 0 and B > 0):
        raise ValueError("the moment and the field must both be positive to find a distance")
    square = (k * m / B) ** (2 / 3) - l * l
    if square <= l * l:
        raise ValueError(f"this magnet's broadside field never reaches {B} T beyond its own half length")
    return math.sqrt(square)


def pole_field(p: float, ax: float, ay: float, x: float, y: float) -> tuple[float, float]:
    """Field (Bx, By) in tesla at (x, y) m of a pole p (A·m) at (ax, ay) m.

    A north pole (p > 0) pushes away.  Not defined at the pole itself.
    """
    rx, ry = x - ax, y - ay
    s = MU_0_OVER_4PI * p / (rx * rx + ry * ry) ** 1.5
    return s * rx, s * ry

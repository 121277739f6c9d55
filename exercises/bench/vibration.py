"""A bar magnet swinging horizontally in the earth's field alone: its moment of inertia and its period.

M  mass, kg        L, b  length and breadth, m        I  moment of inertia, kg·m²
m  moment, A·m²    B_H   horizontal field, T          T  period, one swing there and back, s
"""

import math

#: Densities in kg/m³, from memory of handbook tables.
DENSITIES = {
    "carbon steel": 7850.0,
    "chrome steel": 7800.0,
    "cobalt steel": 8200.0,
    "ferrite": 4900.0,
    "alnico": 7200.0,
}


def inertia(M: float, L: float, b: float) -> float:
    """I = M(L² + b²)/12 of a rectangular bar about the upright line through its middle.

    L and b are its two level sides; the upright one does not count.  Source:
    the textbooks' tables of moments of inertia (see tests/outside/test_vibration.py).

    >>> round(inertia(0.12, 0.10, 0.02), 9)
    0.000104
    """
    return M * (L * L + b * b) / 12


def period(I: float, m: float, B_H: float, amplitude: float = 0.0, torsion: float = 0.0) -> float:
    """T of a magnet of moment of inertia I in the field B_H, in seconds.

    amplitude  of the swing in degrees, up to about 30; 0 is the textbook's T = 2π√(I/(m·B_H)).
               The factor 1 + a²/16 + 11a⁴/3072 is the pendulum's series.
    torsion    twist of the thread for each radian, as a share of m·B_H

    >>> round(period(1.04e-4, 2.0, 36e-6), 3)
    7.551
    """
    a = math.radians(amplitude)
    return 2 * math.pi * math.sqrt(I / (m * B_H * (1 + torsion))) * (1 + a * a / 16 + 11 * a**4 / 3072)

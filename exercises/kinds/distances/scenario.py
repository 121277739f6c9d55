"""What a sheet of choosing distances has: what is known before the lab, and the limits of the deflection."""

from dataclasses import dataclass

from exercises.bench.field import distance_end_on, field_from_deflection
from exercises.codes.scenario import Bar, Scenario
from exercises.kinds.deflection.draw import HIGHEST, LOWEST
from exercises.kinds.deflection.parts import MAGNETIC_SHARE

HALF_MILLIMETRE = 0.0005  # m; a distance is chosen in whole millimetres
LIMITS = {"near": HIGHEST, "far": LOWEST}  # degrees; the larger deflection is the nearer one


@dataclass(frozen=True)
class Choosing(Scenario):
    """What one student knows before the lab.  Lengths in m, B_H in T.

    moment  rough, in A·m², as the sheet gives it; radius of the box; arm from the box's centre to its end
    """

    bar: Bar
    moment: float
    radius: float
    arm: float


def truth(chosen: Choosing, limit: str) -> float:
    """The distance in m at which the field is exactly what the limit needs, with 2l = 5/6 of the bar."""
    field = field_from_deflection(LIMITS[limit], chosen.B_H)
    return distance_end_on(chosen.moment, field, MAGNETIC_SHARE * chosen.bar.length / 2)

"""What a sheet of choosing distances has: what is known before the lab, and the limits of the deflection."""

from dataclasses import dataclass

from exercises.bench.field import distance_end_on, field_from_deflection
from exercises.bench.magnets import Bar
from exercises.codes.scenario import Scenario
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.deflection.stretch import HIGHEST, LOWEST

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

    @property
    def two_l(self) -> float:
        """The magnetic length in m as the sheet takes it."""
        return rule_of(self.code.setting).two_l(self.bar.length, self.bar.magnetic_length)

    @property
    def poles_at_ends(self) -> bool:
        """Whether the poles of the bar lie so near its ends that the length cannot be told from 2l."""
        return self.bar.poles_at_ends


def truth(chosen: Choosing, limit: str) -> float:
    """The distance in m at which the field is exactly what the limit needs, with 2l as the sheet takes it."""
    field = field_from_deflection(LIMITS[limit], chosen.B_H)
    return distance_end_on(chosen.moment, field, chosen.two_l / 2)

"""What a sheet of tangent law drills has: the numbers of its four questions."""

from dataclasses import dataclass

from exercises.codes.scenario import Scenario


@dataclass(frozen=True)
class Drill(Scenario):
    """The numbers of the four questions: fields in T as shown (0.1 µT), angles in degrees as shown.

    theta  deflections given in questions 1 and 3; fields  the fields given in questions 2, 3 and 4
    tilt   how far the east arm points off east in question 4; north  True if it is off towards the north
    """

    theta: tuple[float, float]
    fields: tuple[float, float, float]
    tilt: float
    north: bool

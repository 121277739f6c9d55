"""What a sheet on the uncertainty of a moment has."""

from dataclasses import dataclass

from exercises.bench.instrument import Box, Faults
from exercises.bench.magnets import Bar
from exercises.codes.scenario import Row, Scenario
from exercises.kinds.uncertainty.budget import PARTS
from exercises.kinds.uncertainty.steps import plan_for, plan_of_inputs
from exercises.working.steps import Working


@dataclass(frozen=True)
class Budget(Scenario):
    """One distance d with its eight readings, and the half widths of what else comes into the moment.

    bar, box and faults are the truth; two_l and needle are as the student is told them.

    width_theta  degrees, of the friction at the pivot;  width_d  m, of d
    two_l        magnetic length, m, and width_two_l its half width
    needle       distance of the needle's poles, m, and width_needle its half width
    other_angle  degrees
    """

    bar: Bar
    box: Box
    faults: Faults
    scale_step: float
    row: Row
    width_theta: float
    width_d: float
    two_l: float
    width_two_l: float
    needle: float
    width_needle: float
    other_angle: float

    @property
    def rows(self) -> tuple[Row, ...]:
        return (self.row,)


def _givens(scenario: Budget) -> dict[str, object]:
    return {
        "B_H": scenario.B_H,
        "d": scenario.row.d,
        "readings": (scenario.row.readings,),
        "width_theta": scenario.width_theta,
        "width_d": scenario.width_d,
        "two_l": scenario.two_l,
        "width_two_l": scenario.width_two_l,
        "needle": scenario.needle,
        "width_needle": scenario.width_needle,
        "other_angle": float(scenario.other_angle),
    }


def working(scenario: Budget) -> Working:
    """The working of a sheet."""
    return Working(plan_for(scenario.other_angle), _givens(scenario), PARTS)


def working_of_inputs(scenario: Budget) -> Working:
    """The part of it that there is compiled code for."""
    return Working(plan_of_inputs(), _givens(scenario), PARTS)

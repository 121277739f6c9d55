"""What a sheet on the uncertainty of a moment has."""

from dataclasses import dataclass

from exercises.bench.instrument import Faults
from exercises.bench.magnets import Bar
from exercises.codes.scenario import Row, Scenario
from exercises.kinds.uncertainty.budget import PARTS
from exercises.kinds.uncertainty.steps import plan_for
from exercises.working.steps import Working


@dataclass(frozen=True)
class Budget(Scenario):
    """One distance d with its eight readings, and half widths (m) of d and 2l; other_angle in degrees.

    two_l is the magnetic length as the student is told it; bar and faults are the truth.
    """

    bar: Bar
    faults: Faults
    scale_step: float
    row: Row
    width_d: float
    two_l: float
    width_two_l: float
    other_angle: float

    @property
    def rows(self) -> tuple[Row, ...]:
        return (self.row,)


def working(scenario: Budget) -> Working:
    """The working of a sheet."""
    givens = {
        "B_H": scenario.B_H,
        "d": scenario.row.d,
        "readings": (scenario.row.readings,),
        "width_d": scenario.width_d,
        "two_l": scenario.two_l,
        "width_two_l": scenario.width_two_l,
        "other_angle": float(scenario.other_angle),
    }
    return Working(plan_for(scenario.other_angle), givens, PARTS)

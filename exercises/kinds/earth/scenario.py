"""What a sheet of the earth's field and the moment together has."""

import math
from dataclasses import dataclass

from exercises.bench.instrument import Box, Faults
from exercises.bench.magnets import Bar
from exercises.codes.scenario import Row, Scenario
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.earth.parts import parts_for
from exercises.kinds.earth.steps import plan_for
from exercises.working.steps import Working


@dataclass(frozen=True)
class Survey(Scenario):
    """One sheet: the magnet on the arm and on the thread, and the truth behind both.

    B_H is the true field (T), which the student is to find.  mass in kg.
    swings, timings  how many swings each timing takes in, and the timings in s
    amplitude in degrees; torsion as a share of m·B_H; stirrup as a share of the bar's I
    """

    bar: Bar
    mass: float
    box: Box
    faults: Faults
    scale_step: float
    rows: tuple[Row, ...]
    swings: int
    timings: tuple[float, ...]
    amplitude: float
    torsion: float
    stirrup: float

    @property
    def two_l(self) -> float:
        """The magnetic length in m as the sheet takes it."""
        return rule_of(self.code.setting).two_l(self.bar.length, self.bar.magnetic_length)

    @property
    def thetas(self) -> tuple[float, ...]:
        """The mean deflections in degrees as the sheet gives them, to 0.1°."""
        return tuple(math.floor(row.mean * 10 + 0.5) / 10 for row in self.rows)


def working(survey: Survey) -> Working:
    """The working of a survey of as many rows as it has so far."""
    bar = survey.bar
    givens = {
        "length": bar.length,
        "two_l": survey.two_l,
        "breadth": bar.width,
        "mass": survey.mass,
        "d": tuple(row.d for row in survey.rows),
        "theta": survey.thetas,
        "swings": float(survey.swings),
        "timings": survey.timings,
    }
    rule = rule_of(survey.code.setting)
    return Working(plan_for(len(survey.rows), rule), givens, parts_for(rule))

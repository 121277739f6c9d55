"""What a sheet of distances and their eight readings has: the magnet, the instrument, the readings."""

from dataclasses import dataclass

from exercises.bench.instrument import Box, Faults
from exercises.bench.magnets import Bar
from exercises.codes.scenario import Row, Scenario
from exercises.kinds.deflection.lengths import rule_of


@dataclass(frozen=True)
class DeflectionScenario(Scenario):
    """One magnet read eight times at each of several distances.

    scale_step in degrees; arm_length in m.
    """

    bar: Bar
    box: Box
    faults: Faults
    scale_step: float
    arm_length: float
    rows: tuple[Row, ...]

    @property
    def two_l(self) -> float:
        """The magnetic length in m as the sheet takes it."""
        return rule_of(self.code.setting).two_l(self.bar.length, self.bar.magnetic_length)

    @property
    def poles_at_ends(self) -> bool:
        """Whether the poles of the bar lie so near its ends that the length cannot be told from 2l."""
        return self.bar.poles_at_ends

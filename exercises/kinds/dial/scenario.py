"""What a sheet of dials has: one instrument, and where its needle stands on each dial."""

from dataclasses import dataclass

from exercises.bench.instrument import Box, Faults, pointer_ends
from exercises.bench.magnets import Bar
from exercises.codes.scenario import Scenario


@dataclass(frozen=True)
class Dial:
    """One dial: the magnet's arm, where its north pole points, its distance d (m), the needle's turn phi (degrees)."""

    arm: str
    north: str
    d: float
    phi: float


@dataclass(frozen=True)
class DialScenario(Scenario):
    """Eight dials of one instrument: the four places of the magnet at each of two distances.  scale_step in degrees."""

    bar: Bar
    box: Box
    faults: Faults
    scale_step: float
    dials: tuple[Dial, ...]

    def ends(self, number: int) -> tuple[float, float]:
        """Where the two tips lie on dial `number` (from 0), in degrees as the scale shows them."""
        return pointer_ends(self.dials[number].phi, self.box, self.faults)

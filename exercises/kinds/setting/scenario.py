"""What a sheet of setting up has: two boards as they stand, and the readings of a third that is not set up."""

from dataclasses import dataclass

from exercises.bench.instrument import Box, Faults, pointer_ends, to_scale
from exercises.codes.scenario import Scenario
from exercises.kinds.dial.drawing import glass_place


@dataclass(frozen=True)
class Board:
    """A board on the bench, no magnet near.  Degrees, clockwise seen from above.

    pointer  where the pointer lies on the scale, from the 0: what it shows, with its side
    line     where the line of the arms lies on the scale, from the 0
    pivot_x, pivot_y  where the pivot stands from the centre of the scale, m
    """

    pointer: float
    line: float
    pivot_x: float
    pivot_y: float

    @property
    def arms(self) -> float:
        """How far the arms lie from magnetic east–west.  The pointer lies along that."""
        return self.line - self.pointer

    @property
    def same_side(self) -> bool:
        """Whether pointer and line lie on the same side of the 0."""
        return (self.line > 0) == (self.pointer > 0)

    @property
    def faults(self) -> Faults:
        """The same as faults of the instrument, where the arms count northwards and the box clockwise."""
        return Faults(self.pivot_x, self.pivot_y, arm_off=-self.arms, box_turned=-self.line)

    def ends(self, box: Box) -> tuple[float, float]:
        """What the two ends of the pointer show, degrees without sign."""
        return pointer_ends(0.0, box, self.faults)

    def read_ends(self, box: Box, step: float) -> tuple[float, float]:
        """The same to the nearest division, as a person reads them."""
        one, two = self.ends(box)
        return to_scale(one, step), to_scale(two, step)

    def read_line(self, step: float) -> float:
        """Where the line of the arms lies, to the nearest division."""
        return to_scale(abs(self.line), step)

    def signed_ends(self, box: Box) -> tuple[float, float]:
        """Where the two tips lie, each from its own 0, clockwise."""
        one, two = (glass_place(0.0, end, box, self.faults)[0] + self.pointer for end in (1, 2))
        return one, two


@dataclass(frozen=True)
class SettingScenario(Scenario):
    """Two boards to set up, and a third on which one turn was left out.

    boards    the two; scale_step in degrees
    left_out  "first" or "second": the turn that was left out on the third
    askew     how far the arms of the third lie from magnetic east–west, degrees north of east
    readings  its eight readings at a nearer distance and at a farther one, in the order of instrument.EIGHT
    asked     0 or 1: for which of the two distances the rest is asked
    """

    box: Box
    scale_step: float
    boards: tuple[Board, Board]
    left_out: str
    askew: float
    readings: tuple[tuple[float, ...], tuple[float, ...]]
    asked: int

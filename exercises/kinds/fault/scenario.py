"""What a sheet with a fault to be found has: readings, the fault planted in them, and the faults fitted to them."""

from dataclasses import dataclass
from functools import cached_property

from exercises.bench.fault_fit import Fit, fit_all, named
from exercises.kinds.deflection.scenario import DeflectionScenario


@dataclass(frozen=True)
class Planted:
    """The fault that was put into the readings.

    shown  what the readings are to show: a key of choices.CHOICES
    fault  what there is: the same, a pointer not square to the needle, which shows as the first turn left out, or
           the slight fault that leaves the readings undecided; a key of instrument.ALONE, or one of a note
    size   of the fault, in m or degrees, with its sign; 0.0 where there is none
    row, reading   which distance, and which of its eight, for the faults of one only
    """

    shown: str
    fault: str
    size: float = 0.0
    row: int | None = None
    reading: int | None = None


@dataclass(frozen=True)
class FaultScenario(DeflectionScenario):
    """Readings with one fault planted, or none."""

    planted: Planted

    @cached_property
    def fits(self) -> tuple[Fit, ...]:
        """Every fault fitted to the readings, the best first."""
        rows = [(row.d, row.readings) for row in self.rows]
        return tuple(fit_all(rows, self.two_l / 2, self.scale_step))

    @property
    def found(self) -> str:
        """What the readings say: a key of choices.CHOICES."""
        return named(self.fits)

"""Two magnets compared: what one sheet has."""

from dataclasses import dataclass

from exercises.bench.instrument import Box, Faults
from exercises.bench.magnets import Bar
from exercises.codes.scenario import Scenario
from exercises.kinds.deflection.lengths import rule_of
from exercises.working.arithmetic import total


@dataclass(frozen=True)
class Balance:
    """Magnet 1 at d1, and the four settings of magnet 2 that keep the needle at rest, m (balance.FOUR)."""

    d1: float
    found: tuple[float, ...]

    @property
    def d2(self) -> float:
        """The mean of the four settings, m."""
        mean: float = total(self.found) / len(self.found)
        return mean


@dataclass(frozen=True)
class Comparison(Scenario):
    """All of one sheet: both magnets, their eight readings at d (m), and the balances.  B_H in tesla."""

    bars: tuple[Bar, Bar]
    box: Box
    faults: tuple[Faults, Faults]
    scale_step: float
    d: float
    readings: tuple[tuple[float, ...], tuple[float, ...]]
    balances: tuple[Balance, ...] = ()

    @property
    def angles(self) -> tuple[float, float]:
        """The mean deflections, degrees."""
        one, two = (total(r) / len(r) for r in self.readings)
        return one, two

    @property
    def halves(self) -> tuple[float, float]:
        """The half lengths l that the working uses, m."""
        rule = rule_of(self.code.setting)
        one, two = (rule.two_l(bar.length, bar.magnetic_length) / 2 for bar in self.bars)
        return one, two

    @property
    def true_ratio(self) -> float:
        """m₁/m₂ as the magnets were made."""
        return self.bars[0].moment / self.bars[1].moment

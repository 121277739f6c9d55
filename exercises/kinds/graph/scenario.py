"""What a sheet of the graph method has."""

import math
from dataclasses import dataclass
from functools import cached_property

from exercises.bench.instrument import Box, Faults
from exercises.bench.magnets import Bar
from exercises.codes.scenario import Row, Scenario
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.graph.lines import Allowed, allowed
from exercises.kinds.graph.parts import parts_for
from exercises.kinds.graph.steps import plan_for
from exercises.working.steps import Working


@dataclass(frozen=True)
class Plotted(Scenario):
    """One sheet: the distances and their mean deflections, and the truth behind them.  B_H in T as given."""

    bar: Bar
    box: Box
    faults: Faults
    scale_step: float
    rows: tuple[Row, ...]

    @property
    def ds(self) -> tuple[float, ...]:
        return tuple(row.d for row in self.rows)

    @property
    def thetas(self) -> tuple[float, ...]:
        """The mean deflections in degrees as the sheet gives them, to 0.1°."""
        return tuple(math.floor(row.mean * 10 + 0.5) / 10 for row in self.rows)

    @property
    def half_length(self) -> float:
        """l in m as the first line takes it."""
        return rule_of(self.code.setting).two_l(self.bar.length, self.bar.magnetic_length) / 2

    @cached_property
    def allowed(self) -> Allowed | None:
        """How far what is read may lie from the best value; None before there are points enough."""
        return allowed(self.ds, self.thetas, self.half_length) if len(self.rows) > 2 else None


def working(plotted: Plotted) -> Working:
    """The working of as many distances as there are so far."""
    givens = {
        "B_H": plotted.B_H,
        "length": plotted.bar.length,
        "two_l": 2 * plotted.half_length,
        "d": plotted.ds,
        "theta": plotted.thetas,
        "allowed": plotted.allowed,
    }
    rule = rule_of(plotted.code.setting)
    return Working(plan_for(len(plotted.rows), rule), givens, parts_for(rule))

"""Every computed column of a record judged, as a sheet of tan A is: the same steps, slips and follow-through.

Two things differ from a sheet: where the numbers come from, and that a record
may state its own 2l, where a sheet takes 5/6 of the measured length.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache

from exercises.judging.verdict import Verdict, judge_all
from exercises.kinds.tan_a.kind import SLIPS
from exercises.kinds.tan_a.steps import PARTS, TanAParts, plan_for
from exercises.slips.catalogue import Slip
from exercises.working.arithmetic import Arithmetic, Number
from exercises.working.steps import Givens, Known, Plan, Step, Working, hidden_step

#: What is said of a slip about the measured length in a record that states its own 2l.
OWN_LENGTH_SAYS = {
    "measured-length": "This looks like m divided by the length of the bar as measured. This record states a magnetic "
    "length 2l of its own: divide by that.",
}
#: Columns that need the magnet's length, and columns that need B_H.
NEED_LENGTH, NEED_FIELD = ("bracket", "moment", "mean-moment", "pole"), ("moment", "mean-moment", "pole")
#: What stands in for a length (m) or a B_H (T) that the record does not give; a column that needs it is not shown.
ANY_LENGTH, ANY_FIELD = 0.05, 3e-5


@dataclass(frozen=True)
class WorkedDistance:
    """One distance that can be worked: its number in the record, d in m, and eight readings in degrees.

    by_mean  True where the readings are not all there and the mean that was noted stands for each of them
    """

    number: int
    d: float
    readings: tuple[float, ...]
    by_mean: bool = False

    @property
    def mean(self) -> float:
        """The mean of the eight readings, degrees."""
        return sum(self.readings) / 8


@cache
def own_length_plan(rows: int) -> Plan:
    """The plan of tan A with 2l as given, not worked from the measured length."""

    def given_length(a: Arithmetic, known: Known, givens: Givens, parts: TanAParts) -> Number:
        return parts.metres(givens["two_l"])

    own = hidden_step("two-l", (), given_length)
    return Plan(tuple(own if step.id == "two-l" else step for step in plan_for(rows).order))


def working(rows: Sequence[WorkedDistance], B_H: float, length: float | None, two_l: float | None) -> Working:
    """The working of these distances: B_H in T, lengths in m, at least one of the two lengths."""
    givens = {
        "B_H": B_H,
        "length": two_l if length is None else length,
        "d": tuple(r.d for r in rows),
        "readings": tuple(r.readings for r in rows),
    }
    if two_l is None:
        return Working(plan_for(len(rows)), givens, PARTS)
    return Working(own_length_plan(len(rows)), {**givens, "two_l": two_l}, PARTS)


def slips_for_record(two_l: float | None) -> tuple[Slip, ...]:
    """The slips of tan A, in words that fit a record with this 2l of its own (m), or None."""
    if two_l is None:
        return SLIPS
    return tuple(replace(s, says=OWN_LENGTH_SAYS[s.key]) if s.key in OWN_LENGTH_SAYS else s for s in SLIPS)


class Columns:
    """The computed columns of a record: each step of the working under the name of the cell it stands in.

    rows           the distances that can be worked, one at least
    B_H            T, or None where the record does not say
    length, two_l  the measured length, and the record's own 2l, m, or None
    """

    def __init__(self, rows: Sequence[WorkedDistance], B_H: float | None, length: float | None, two_l: float | None):
        self.rows = rows
        self.slips = slips_for_record(two_l)
        no_length = length is None and two_l is None
        self.working = working(rows, B_H or ANY_FIELD, length or (None if two_l else ANY_LENGTH), two_l)
        self.unknown = {c for c in NEED_LENGTH if no_length} | {c for c in NEED_FIELD if B_H is None}

    def _steps(self) -> list[tuple[str, Step]]:
        """(cell name, step) of every step whose numbers are known."""
        return [
            (step.id if step.row is None else f"{step.column}-{self.rows[step.row].number}", step)
            for step in self.working.steps
            if step.column not in self.unknown
        ]

    def verdicts(self, entries: Mapping[str, str], complete: bool) -> dict[str, Verdict]:
        """A verdict for each entry that can be judged, by cell name.

        entries   by cell name: "mean-2", "moment-3", "mean-moment", "pole"
        complete  whether every distance of the record is worked, so that its mean can be judged
        """
        names = {step.id: name for name, step in self._steps() if complete or step.row is not None}
        typed = {step: entries[name] for step, name in names.items() if entries.get(name, "").strip()}
        verdicts = judge_all(self.working, self.slips, typed)
        by_mean = {f"mean-{r.number}" for r in self.rows if r.by_mean}
        return {names[step]: verdicts[step] for step in typed if names[step] not in by_mean}

    def values(self, complete: bool) -> dict[str, float]:
        """What each column comes to, in SI units (degrees for an angle), by cell name; `complete` as for `verdicts`."""
        values = self.working.all_values()
        return {name: values[step.id] for name, step in self._steps() if complete or step.row is not None}

    def moment_ratios(self, typed: Mapping[str, float]) -> list[float]:
        """How many times too large each noted moment is for what stands before it in its row.

        typed  values of entries in SI units (degrees for an angle), by cell name
        """
        ratios = []
        for i, row in enumerate(self.rows, 1):
            noted = typed.get(f"moment-{row.number}")
            own = {f"{c}-{i}": v for c in ("tan", "bracket") if (v := typed.get(f"{c}-{row.number}"))}
            if noted and "moment" not in self.unknown:
                expected = self.working.value(f"moment-{i}", own=own)
                if expected > 0:
                    ratios.append(noted / expected)
        return ratios

"""Every computed column of a record judged, as a sheet of tan A or tan B is: the same steps, slips and follow-through.

One thing differs from a sheet: where the numbers come from.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache

from exercises.codes.sheet_code import Setting
from exercises.judging.verdict import Verdict, judge_all
from exercises.kinds.deflection.lengths import LengthRule, rule_of
from exercises.kinds.tan_a import kind as tan_a_kind
from exercises.kinds.tan_a import steps as tan_a
from exercises.kinds.tan_b import kind as tan_b_kind
from exercises.kinds.tan_b import steps as tan_b
from exercises.record.magnetic_length import FIVE_SIXTHS, GIVEN, STATED
from exercises.record.position import Position
from exercises.slips.catalogue import Slip
from exercises.working.steps import Step, Working

#: What is said of slips about the length in a record that states its own 2l, and in one where 2l is the length given.
SAYS = {
    STATED: {
        "measured-length": "This looks like m divided by the length of the bar as measured. This record states a "
        "magnetic length 2l of its own: divide by that.",
        "five-sixths-taken": "This looks as if 5/6 of a length was taken for 2l. This record states 2l: use it as it "
        "stands.",
    },
    GIVEN: {
        "five-sixths-taken": "This looks as if 5/6 of a length was taken for 2l. In this record 2l is the length "
        "given: use it as it stands.",
    },
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


def working(
    position: Position, rows: Sequence[WorkedDistance], B_H: float, length: float, two_l: float, rule: LengthRule
) -> Working:
    """The working of these distances: B_H in T; the measured length, and 2l by a rule, in m."""
    givens = {
        "B_H": B_H,
        "length": length,
        "two_l": two_l,
        "d": tuple(r.d for r in rows),
        "readings": tuple(r.readings for r in rows),
    }
    if position.tan_b:
        return Working(tan_b.plan_for(len(rows), rule), givens, tan_b.parts_for(rule))
    return Working(tan_a.plan_for(len(rows), rule), givens, tan_a.parts_for(rule))


@cache
def slips_for_record(position: Position, key: str) -> tuple[Slip, ...]:
    """The slips of tan A or tan B, in words that fit a record that knows 2l by the rule of that key."""
    says = SAYS.get(key, {})
    slips = tan_b_kind.SLIPS if position.tan_b else tan_a_kind.SLIPS
    fitting = (s for s in slips if key != FIVE_SIXTHS or s.key != "five-sixths-taken")
    return tuple(replace(s, says=says[s.key]) if s.key in says else s for s in fitting)


class Columns:
    """The computed columns of a record: each step of the working under the name of the cell it stands in.

    position  the record's;  rows  the distances that can be worked, one at least
    B_H     T, or None where the record does not say
    length  the measured length, m, or None;  two_l  the magnetic one, m, or None;  rule  how it is known, or None
    """

    def __init__(
        self,
        position: Position,
        rows: Sequence[WorkedDistance],
        B_H: float | None,
        length: float | None,
        two_l: float | None,
        rule: LengthRule | None,
    ):
        self.rows = rows
        used, magnetic = rule or rule_of(Setting(two_l=STATED)), two_l or ANY_LENGTH
        self.slips = slips_for_record(position, used.key)
        self.working = working(position, rows, B_H or ANY_FIELD, length or magnetic, magnetic, used)
        self.unknown = {c for c in NEED_LENGTH if two_l is None} | {c for c in NEED_FIELD if B_H is None}

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

"""Every computed column of a record judged, as a sheet of tan A is: the same steps, slips and follow-through.

What differs from a sheet is only where the numbers come from, and that a
record may state its own 2l instead of taking 5/6 of the measured length.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache

from exercises.judging.verdict import Verdict, judge_all
from exercises.kinds.tan_a.kind import SLIPS
from exercises.kinds.tan_a.steps import PARTS, plan_for
from exercises.working.steps import Plan, Working, hidden_step

#: With a 2l of its own a record's slips about the measured length are said in other words.
OWN_LENGTH_SAYS = {
    "measured-length": "This looks like m divided by the length of the bar as measured. This record states a magnetic "
    "length 2l of its own: divide by that.",
}
#: Steps that need the magnet's length, and steps that need B_H.
NEED_LENGTH, NEED_FIELD = ("bracket", "moment", "mean-moment", "pole"), ("moment", "mean-moment", "pole")


@dataclass(frozen=True)
class Worked:
    """One distance that can be worked: its number in the record, d in m, and eight readings in degrees.

    by_mean  True where the readings are not all there and the mean that was noted stands for each of them
    """

    number: int
    d: float
    readings: tuple[float, ...]
    by_mean: bool = False

    @property
    def mean(self) -> float:
        return sum(self.readings) / 8


@cache
def own_length_plan(rows: int) -> Plan:
    """The plan of tan A with 2l as given, not worked from the measured length."""
    own = hidden_step("two-l", (), lambda a, known, givens, parts: parts.metres(givens["two_l"]))
    return Plan(tuple(own if step.id == "two-l" else step for step in plan_for(rows).order))


def working(rows: Sequence[Worked], B_H: float, length: float | None, two_l: float | None) -> Working:
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


def slips_for_record(two_l: float | None):
    """The slips of tan A, in words that fit a record."""
    if two_l is None:
        return SLIPS
    return tuple(replace(s, says=OWN_LENGTH_SAYS[s.key]) if s.key in OWN_LENGTH_SAYS else s for s in SLIPS)


def judged(
    rows: Sequence[Worked],
    B_H: float | None,
    length: float | None,
    two_l: float | None,
    whole: bool,
    entries: dict[str, str],
) -> dict[str, Verdict]:
    """A verdict for each entry that can be judged, by the record's cell names.

    B_H, length, two_l   as for `working`, or None where the record does not say
    whole                whether every distance of the record is worked, so that its mean can be judged
    entries              by cell name: "mean-2", "moment-3", "mean-moment", "pole"
    """
    if not rows:
        return {}
    skipped = {c for c in NEED_LENGTH if length is None and two_l is None} | {c for c in NEED_FIELD if B_H is None}
    made = working(rows, B_H or 3e-5, length or (None if two_l else 0.05), two_l)
    names = {}
    for step in made.steps:
        name = f"{step.column}-{rows[step.row].number}" if step.row is not None else step.id
        if step.column not in skipped and (whole or step.row is not None):
            names[step.id] = name
    typed = {step: entries[name] for step, name in names.items() if entries.get(name, "").strip()}
    verdicts = judge_all(made, slips_for_record(two_l), typed)
    by_mean = {f"mean-{r.number}" for r in rows if r.by_mean}
    return {names[step]: verdicts[step] for step in typed if names[step] not in by_mean}


def moment_ratios(rows: Sequence[Worked], B_H: float, length, two_l, typed: Mapping[str, float]) -> list[float]:
    """How many times too large each noted moment is for what stands before it in its row.

    typed  values of entries in SI units (degrees for an angle), by cell name
    """
    if not rows or (length is None and two_l is None):
        return []
    made = working(rows, B_H, length, two_l)
    ratios = []
    for i, row in enumerate(rows, 1):
        noted = typed.get(f"moment-{row.number}")
        own = {f"{c}-{i}": v for c in ("tan", "bracket") if (v := typed.get(f"{c}-{row.number}"))}
        if noted:
            expected = made.value(f"moment-{i}", own=own)
            if expected > 0:
                ratios.append(noted / expected)
    return ratios


def right_values(rows: Sequence[Worked], B_H, length, two_l) -> dict[str, float]:
    """What each column comes to, in SI units (degrees for an angle), by the record's cell names."""
    if not rows:
        return {}
    known_length = length is not None or two_l is not None
    made = working(rows, B_H or 3e-5, length or (None if two_l else 0.05), two_l)
    skipped = {c for c in NEED_LENGTH if not known_length} | {c for c in NEED_FIELD if B_H is None}
    values = made.all_values()
    return {
        f"{s.column}-{rows[s.row].number}" if s.row is not None else s.id: values[s.id]
        for s in made.steps
        if s.column not in skipped
    }

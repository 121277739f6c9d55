"""What a record gives to work with: its numbers, the distances that can be worked, the field, the scale step, 2l."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from exercises.bench.instrument import Box
from exercises.kinds.deflection.lengths import LengthRule
from exercises.record.columns import WorkedDistance
from exercises.record.entries import MOST_ROWS, READINGS, Numbers, Record, read, reading_name
from exercises.record.finding import Finding
from exercises.record.magnetic_length import magnetic_length
from exercises.record.moments import NEEDLE
from exercises.record.place import LocalField, field_of
from exercises.record.position import Position

STEPS = (1.0, 0.5, 0.25, 0.2, 0.1)  # degrees; scale steps that readings may show
FEWEST = 4  # readings from which a scale step is told
NEAREST = 1.05  # times half the magnetic length: nearer a distance is not worked


@dataclass(frozen=True)
class Givens:
    """What is worked from.

    position  tan A or tan B
    rows      the distances that can be worked; `complete` if no other one is filled in
    step      scale step, degrees, as given or as the readings show it; `step_shown` is None where neither says it
    rule      how 2l is known, or None where the record does not say
    two_l     the magnetic length by that rule, m, or None
    notes     what was taken for granted or left out
    problems  a sentence for each cell that is not as the rule needs it, by cell name
    """

    position: Position
    numbers: Numbers
    local: LocalField
    rows: tuple[WorkedDistance, ...]
    complete: bool
    step: float
    step_shown: float | None
    rule: LengthRule | None
    two_l: float | None
    notes: tuple[Finding, ...]
    problems: Mapping[str, str]

    @property
    def length(self) -> float | None:
        """The measured length of the magnet, m, or None."""
        return self.numbers.get("length")

    @property
    def half(self) -> float:
        """Half the magnetic length, m; 0 if it is not known."""
        return (self.two_l or 0.0) / 2

    @property
    def half_bar(self) -> float:
        """How far the magnet reaches along the arm from its middle, m: half of it, or half its width across the arm."""
        if not self.position.tan_b:
            return (self.length or 2 * self.half) / 2
        return (self.numbers.get("width") or 0.0) / 2

    @property
    def two_l_stated(self) -> bool:
        """Whether the record states 2l as a number, and does not take it by a rule."""
        return self.rule is not None and self.rule.sure

    @property
    def radius(self) -> float:
        """The radius of the box, m."""
        return self.numbers.get("box") or Box().radius

    @property
    def half_needle(self) -> float:
        """Half the length of the needle, m."""
        needle = self.numbers.get("needle")
        return needle / 2 if needle else NEEDLE


def givens_of(record: Record) -> Givens:
    """What a record gives; nothing in it raises an error."""
    numbers = read(record)
    known = magnetic_length(record, numbers)
    rows, left_out = _rows(record, numbers, known.two_l)
    step, seen = _scale_step(numbers)
    return Givens(
        position=record.position,
        numbers=numbers,
        local=field_of(record, numbers.get("B_H")),
        rows=rows,
        complete=len(rows) == sum(not r.empty for r in record.rows),
        step=step or STEPS[0],
        step_shown=step,
        rule=known.rule,
        two_l=known.two_l,
        notes=(*known.notes, *(Finding("note", "read", text) for text in numbers.notes), *left_out, *seen),
        problems=known.problems,
    )


def _rows(record: Record, numbers: Numbers, two_l: float | None) -> tuple[tuple[WorkedDistance, ...], list[Finding]]:
    """The distances that can be worked, and a note for each one that is filled in otherwise."""
    rows: list[WorkedDistance] = []
    notes: list[Finding] = []
    for number, row in enumerate(record.rows[:MOST_ROWS], 1):
        if row.empty:
            continue
        worked, note = _row(number, numbers, two_l, record.position)
        if worked:
            rows.append(worked)
        if note:
            notes.append(note)
    if len(record.rows) > MOST_ROWS:
        text = f"At most {MOST_ROWS} distances are checked; the record has {len(record.rows)}."
        notes.append(Finding("note", "many", text))
    return tuple(rows), notes


def _row(
    number: int, numbers: Numbers, two_l: float | None, position: Position
) -> tuple[WorkedDistance | None, Finding | None]:
    """One distance as it can be worked, or None, and what is said of what it lacks, or None."""
    d, cell = numbers.get(f"d-{number}"), f"d-{number}"
    if d is None:
        text = f"Distance {number} has no d that can be used, so it is not worked."
        return None, Finding("look", "incomplete", text, cells=(cell,))
    if two_l and d <= two_l / 2 * NEAREST:
        text = (
            f"Distance {number}: d must be longer than half the magnet, or the formula gives nothing. d goes from the "
            "pivot to the middle of the magnet."
        )
        return None, Finding("look", "incomplete", text, cells=(cell,))
    found = [numbers.get(f"{reading}-{number}") for reading in READINGS]
    readings = tuple(x for x in found if x is not None)
    if len(readings) == len(READINGS):
        return WorkedDistance(number, d, readings), None
    places = [k for k, x in enumerate(found) if x is None]
    begun = len(places) < len(READINGS)
    lacking = f"Distance {number} {_lacking(places, position)}"
    cells = (f"{READINGS[places[0]]}-{number}",) if begun else (cell,)
    mean = numbers.get(f"mean-{number}")
    if mean is not None and 0 < mean < 90:
        text = f"{lacking}, so the mean that was noted is taken as it stands."
        return WorkedDistance(number, d, (mean,) * 8, by_mean=True), Finding("note", "incomplete", text, cells=cells)
    text = f"{lacking}, so it is not worked."
    return None, Finding("look" if begun else "note", "incomplete", text, cells=cells)


def _lacking(places: list[int], position: Position) -> str:
    """Which of the eight a distance lacks, after its name."""
    if len(places) == len(READINGS):
        return "has no readings yet"
    if len(places) > 2:
        return f"lacks {len(places)} of its eight readings"
    which = " and ".join(reading_name(k, position) for k in places)
    return f"lacks {'one reading' if len(places) == 1 else 'two readings'} of its eight: {which}"


def _scale_step(numbers: Numbers) -> tuple[float | None, list[Finding]]:
    """The scale step in degrees, as given or as the readings show it, those of unfinished distances too; or None."""
    if step := numbers.get("step"):
        return step, []
    readings = [typed.value for name, typed in numbers.values.items() if name.startswith("reading")]
    if len(readings) < FEWEST:
        return None, []
    step = next((s for s in STEPS if all(math.isclose(x / s, round(x / s), abs_tol=1e-6) for x in readings)), STEPS[-1])
    text = f"No scale step is given; the readings look like a scale read to {step:g}°."
    return step, [Finding("note", "step", text, cells=("step",))]

"""What was handed in becomes marks: every entry judged again, then counted by the scheme.

Nothing is believed but what the student typed.  A step that is right by the
numbers given earns its mark, and counts as right, where it does not follow from
a wrong entry before it too; its page says so.  The mark of a step is rounded
to hundredths first and the total is the sum of those, so that anyone who adds
up what is shown comes to the same.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from exercises.classroom.marking.by_hand import NONE, ByHand, Correction
from exercises.classroom.marking.intake import Handed, strange_steps
from exercises.classroom.marking.late import cost, lateness
from exercises.classroom.marking.scheme import Scheme, exact, hundredths
from exercises.judging.answer import Typed
from exercises.judging.entries import Entry, read_entries
from exercises.judging.verdict import Verdict, judge_entries
from exercises.kinds.kind import Sheet
from exercises.kinds.sheet import Group
from exercises.working.evaluate import right_values
from exercises.working.quantities import quantity
from exercises.working.steps import Step, Working
from exercises.working.words import sentence

EARNS = ("right", "follows")
RESULTS = ("moment", "pole")  # quantities whose spread over a class is worth seeing
#: What is said of a state that earns nothing.
NOTHING = {
    "blank": "Nothing was entered.",
    "slip": "A slip earns no mark.",
    "wrong": "Not right.",
    "ask": "It could not be judged as it was typed.",
    "unread": "It could not be read.",
}


class StepMark(NamedTuple):
    """The mark of one step.

    typed    what was judged; first  as first typed, or "" where that did not differ
    earned, possible  in marks, to hundredths
    why      why it is not the full mark, or ""
    by_hand  whether the instructor set it
    """

    step: Step
    typed: str
    first: str
    verdict: Verdict
    earned: float
    possible: float
    why: str
    by_hand: bool = False


@dataclass(frozen=True)
class Marked:
    """One sheet, marked.

    steps    in the order of the working
    earned, possible  the total, scaled to what every sheet of the kind is out of, less what being late takes off
    groups   the sheet's steps in groups, as they stand on it
    found    step id -> what was found over what is right, of each moment and pole strength that closes the sheet
    """

    handed: Handed
    steps: tuple[StepMark, ...]
    earned: float
    possible: float
    groups: tuple[Group, ...]
    found: tuple[tuple[str, float], ...]


def mark(handed: Handed, sheet: Sheet, scheme: Scheme, read: Mapping[str, Entry], by_hand: ByHand = NONE) -> Marked:
    """The marks of what one student handed in for one kind.

    sheet  that of its code;  read  its answers as last typed, as they are read
    """
    kind, working, slip = sheet.kind, sheet.working, handed.return_slip
    typed_in = slip.answers
    if scheme.attempt == "first":
        typed_in = {**slip.answers, **slip.firsts}
        read = read_entries(working, typed_in)
    verdicts = judge_entries(working, sheet.slips, read)
    steps = []
    by_case = _by_case(scheme, kind.slug)
    for step in working.steps:
        typed, verdict = typed_in.get(step.id) or "", verdicts[step.id]
        state, figures_off, unit_off = verdict.state, bool(verdict.remarks), False
        if scheme.units and state in EARNS and quantity(step.quantity).shown:
            entry = read[step.id]
            unit_off = isinstance(entry, Typed) and not entry.named
        case = step.column, state, figures_off, unit_off
        if case not in by_case:
            by_case[case] = _marks(scheme, scheme.for_step(kind.slug, step.column), state, figures_off, unit_off)
        steps.append(StepMark(step, typed, slip.firsts.get(step.id) or "", verdict, *by_case[case]))
    groups = tuple(kind.page.groups(sheet.scenario, working))
    task, notes = handed.task, list(strange_steps(slip, working))
    key = handed.student.roll, kind.slug, task.attempt
    if corrections := by_hand.corrections.get(key):
        steps = [_corrected(step, corrections.get(step.step.id), notes) for step in steps]
    earned, possible = _scaled(*added(steps), scheme.out_of_sheet(kind.slug, task.edition, task.setting))
    days, said = lateness(handed, scheme, by_hand.days_late.get(key))
    if days:
        share = cost(days, scheme)
        earned = hundredths(exact(earned) * (1 - exact(share)))
        said += f" That takes off {_percent(share)} of its mark." if share else " Nothing is taken off."
    if notes or said:
        handed = replace(handed, notes=(*handed.notes, *notes, *([said] if said else [])))
    return Marked(handed, tuple(steps), earned, possible, groups, _found(working, read))


def _corrected(mark: StepMark, by_hand: Correction | None, notes: list[str]) -> StepMark:
    """The mark of a step as it was set by hand, if it was; a note says so."""
    if by_hand is None:
        return mark
    earned = min(hundredths(exact(by_hand.mark)), mark.possible)
    less = f" {plain(by_hand.mark)} is more than the step can have now." if by_hand.mark > mark.possible else ""
    notes.append(
        f"{mark.step.id}: the mark was set by hand to {plain(earned)} of {plain(mark.possible)}; "
        f"without that it would be {plain(mark.earned)}.{less} Reason: {sentence(by_hand.reason)}"
    )
    return mark._replace(earned=earned, by_hand=True)


def added(steps: Sequence[StepMark]) -> tuple[float, float]:
    """The sum of the steps' marks as they are shown, and of those possible, before any scaling."""
    return round(sum([s.earned for s in steps]), 2), round(sum([s.possible for s in steps]), 2)


def plain(mark: float) -> str:
    """A mark as it is written: no noughts at the end.

    >>> plain(17.5), plain(3.0), plain(0.25)
    ('17.5', '3', '0.25')
    """
    return f"{mark:.2f}".rstrip("0").rstrip(".")


@lru_cache(maxsize=64)
def _by_case(scheme: Scheme, slug: str) -> dict[tuple[str, str, bool, bool], tuple[float, float, str]]:
    """What `_marks` gave for each case of a kind so far, for most steps of a class are alike.

    A case is the column, the state, and whether the figures and the unit are off.
    """
    return {}


def _marks(scheme: Scheme, mark: float, state: str, figures_off: bool, unit_off: bool) -> tuple[float, float, str]:
    """(earned, possible, why not all)."""
    possible = hundredths(exact(mark))
    if state not in EARNS:
        return 0.0, possible, NOTHING[state]
    share, why = Decimal(1), []
    if state == "follows" and scheme.follows < 1:
        share = exact(scheme.follows)
        why.append(f"Right working from a wrong start earns {_percent(scheme.follows)} of the mark.")
    less = Decimal(0)
    if figures_off and scheme.figures:
        less += exact(scheme.figures)
        why.append(f"{_percent(scheme.figures)} off for the number of figures.")
    if unit_off:
        less += exact(scheme.units)
        why.append(f"{_percent(scheme.units)} off, for no unit was typed.")
    return hundredths(exact(mark) * share * max(Decimal(0), 1 - less)), possible, " ".join(why)


def _percent(share: float) -> str:
    return f"{100 * share:g} %"


@lru_cache(maxsize=4096)
def _scaled(earned: float, possible: float, out_of: float) -> tuple[float, float]:
    if not possible:
        return 0.0, hundredths(exact(out_of))
    return hundredths(exact(earned) * exact(out_of) / exact(possible)), hundredths(exact(out_of))


def _found(working: Working, read: Mapping[str, Entry]) -> tuple[tuple[str, float], ...]:
    right, *_ = right_values(working)
    return tuple(
        [
            (step.id, typed.value / right[step.id])
            for step in working.steps
            if step.row is None and step.quantity in RESULTS and isinstance(typed := read.get(step.id), Typed)
        ]
    )

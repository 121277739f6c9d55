"""What a student has in all: of every kind the sheet that counts, and a total that is out of the same for everyone."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from exercises.classroom.class_list.class_file import Assigned, Class, Task
from exercises.classroom.class_list.roster import Student
from exercises.classroom.marking.by_hand import NONE, ByHand
from exercises.classroom.marking.marks import Marked, plain
from exercises.classroom.marking.scheme import MOST_ATTEMPTS, exact, hundredths
from exercises.codes.sheet_code import SheetCode
from exercises.working.words import many, sentence


@dataclass(frozen=True)
class OfKind:
    """One kind, of one student.

    code    of the sheet that counts, or of the first attempt where none was handed in
    sheet   the one that counts, or None
    others  further attempts that were handed in and do not count
    earned  None where it is left blank or is excused;  out_of  the same for every student
    excused whether it does not count in the total
    """

    task: Task
    code: SheetCode
    sheet: Marked | None
    others: tuple[Marked, ...]
    earned: float | None
    out_of: float
    excused: bool

    @property
    def mark(self) -> str:
        """The mark as a table has it: a number, nothing, or the word excused."""
        if self.excused:
            return "excused"
        return "" if self.earned is None else plain(self.earned)


@dataclass(frozen=True)
class Standing:
    """One student: every kind in the order of the class, the total and what it is out of, and the notes of all.

    total  None where there is none: a kind is left blank, or all are excused
    """

    student: Student
    kinds: tuple[OfKind, ...]
    total: float | None
    out_of: float
    notes: tuple[str, ...]

    @property
    def sheets(self) -> dict[str, Marked]:
        """By kind the sheet that counts, of those that were handed in."""
        return {kind.task.kind.slug: kind.sheet for kind in self.kinds if kind.sheet}


def standings(class_: Class, marked: Iterable[Marked], by_hand: ByHand = NONE) -> Iterator[Standing]:
    """Every student in the order of the list, also who handed in nothing."""
    by_roll: dict[str, list[Marked]] = {}
    for sheet in marked:
        by_roll.setdefault(sheet.handed.student.roll, []).append(sheet)
    for student, assigned in class_.codes():
        yield standing(class_, student, assigned, by_roll.get(student.roll, ()), by_hand)


def counting(all_standings: Iterable[Standing]) -> Iterator[Marked]:
    """Of every student and kind the sheet that counts."""
    for one in all_standings:
        yield from one.sheets.values()


def standing(
    class_: Class, student: Student, assigned: Sequence[Assigned], sheets: Sequence[Marked], by_hand: ByHand
) -> Standing:
    """What one student has.

    assigned  the student's codes of first attempts;  sheets  of all attempts that were handed in
    """
    by_kind: dict[str, list[Marked]] = {}
    for sheet in sheets:
        by_kind.setdefault(sheet.handed.task.kind.slug, []).append(sheet)
    kinds, notes = [], []
    for task, code in assigned:
        slug = task.kind.slug
        of_kind, said = _of_kind(class_, task, code, by_kind.get(slug, []), by_hand, student)
        kinds.append(of_kind)
        notes += [f"{slug}: {note}" for note in said]
    total, out_of = _total(kinds)
    return Standing(student, tuple(kinds), total, out_of, tuple(notes))


def _of_kind(
    class_: Class, task: Task, code: SheetCode, sheets: list[Marked], by_hand: ByHand, student: Student
) -> tuple[OfKind, list[str]]:
    """One kind of one student, and what is said of it."""
    scheme, slug = class_.scheme, task.kind.slug
    out_of = scheme.out_of_sheet(slug, task.edition, task.setting)
    excuse = by_hand.excuse(student.roll, slug)
    counts = _counting(sheets, scheme.attempts)
    others = tuple(sheet for sheet in sheets if sheet is not counts)
    notes = [*counts.handed.notes] if counts else []
    if counts and others:
        notes.append(
            f"Attempt {counts.handed.task.attempt} counts: the scheme takes the {scheme.attempts}. "
            + "; ".join(f"Attempt {o.handed.task.attempt} has {plain(o.earned)} of {plain(o.possible)}" for o in others)
            + "."
        )
        notes += [f"attempt {other.handed.task.attempt}: {note}" for other in others for note in other.handed.notes]
    notes += _waiting(by_hand, student.roll, slug, [sheet.handed.task.attempt for sheet in sheets])
    excused = excuse is not None or (counts is None and scheme.missing == "excused")
    if excuse:
        notes.append(
            ("Excused, so what was handed in does not count." if counts else "Excused.")
            + (f" Reason: {sentence(excuse.reason)}" if excuse.reason else "")
        )
    earned = None if excused else counts.earned if counts else 0.0 if scheme.missing == "zero" else None
    return OfKind(task, counts.handed.code if counts else code, counts, others, earned, out_of, excused), notes


def _waiting(by_hand: ByHand, roll: str, slug: str, came: Sequence[int]) -> Iterator[str]:
    """A sentence on each attempt of which marks or days were set by hand, and no sheet is marked."""
    if not (by_hand.corrections or by_hand.days_late):
        return
    for attempt in range(1, MOST_ATTEMPTS + 1):
        of = roll, slug, attempt
        what = [many(len(corrections), "mark")] if (corrections := by_hand.corrections.get(of)) else []
        what += ["its days late"] if of in by_hand.days_late else []
        if what and attempt not in came:
            which = f"attempt {attempt}" if attempt > 1 else "the sheet"
            yield f"Set by hand: {' and '.join(what)}; this waits, for {which} has not come in."


def _counting(sheets: Sequence[Marked], which: str) -> Marked | None:
    """Of the sheets of all attempts at a kind, the one that counts; of two that are as good, the earlier."""
    if not sheets:
        return None
    in_order = sorted(sheets, key=lambda sheet: sheet.handed.task.attempt)
    if which == "best":
        return max(in_order, key=lambda sheet: sheet.earned)
    return in_order[0 if which == "first" else -1]


def _total(kinds: Sequence[OfKind]) -> tuple[float | None, float]:
    """The total of a student and what it is out of: what is excused is made up for by the rest."""
    out_of = round(sum(kind.out_of for kind in kinds), 2)
    if not out_of:
        return (None if all(kind.excused for kind in kinds) else 0.0), out_of
    counted = [kind for kind in kinds if not kind.excused and kind.out_of]  # a blank of a kind out of 0 leaves no gap
    if not counted:
        return None, out_of
    possible = round(sum(kind.out_of for kind in counted), 2)
    earned = [kind.earned for kind in counted if kind.earned is not None]
    if len(earned) < len(counted):
        return None, out_of
    total = exact(round(sum(earned), 2))
    if possible != out_of:
        total = total * exact(out_of) / exact(possible)
    return hundredths(total), out_of

"""What the instructor sets for one student, beside the scheme: a mark corrected, days late, excused, which slip counts.

Each is kept in the marks file with what it is about, and is seen wherever its mark is seen.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields, replace
from functools import cached_property
from typing import Any

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.class_list.roll_match import Rolls
from exercises.classroom.marking.scheme import MOST, Scheme
from exercises.classroom.refused import Refused
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.kind import sheet_of
from exercises.working.steps import Step

MOST_DAYS, LONGEST_REASON = 1000, 300


class ByHandError(Refused):
    """Something set by hand that cannot be; the text says why."""

    part = "student"


@dataclass(frozen=True)
class Correction:
    """The mark of one step, and why it is set by hand.  `mark` is in marks of the step, before a sheet is scaled."""

    roll: str
    kind: str
    step: str
    mark: float
    reason: str
    attempt: int = 1


@dataclass(frozen=True)
class DaysLate:
    """How many days late a sheet is, whatever dates are known of it."""

    roll: str
    kind: str
    days: int
    attempt: int = 1


@dataclass(frozen=True)
class Excused:
    """A student who need not hand in a kind; any, if `kind` is ""."""

    roll: str
    kind: str = ""
    reason: str = ""


@dataclass(frozen=True)
class Counted:
    """Which of several slips counts, as several.Choices has it: of a sheet by its code, of a record by “RECORD 7”."""

    sheet: str
    which: str


type Entry = Correction | DaysLate | Excused | Counted
type SheetOf = tuple[str, str, int]  # roll, kind, attempt

#: Their names in the marks file, in its order.
LISTS: dict[str, type[Entry]] = {
    "corrections": Correction,
    "late": DaysLate,
    "excused": Excused,
    "counted": Counted,
}


@dataclass(frozen=True)
class ByHand:
    """All that was set by hand, in the order in which it was, each thing once."""

    entries: tuple[Entry, ...] = ()

    def plus(self, entry: Entry) -> "ByHand":
        """With one more; what was set in its place before is gone."""
        return ByHand((*self.minus(entry).entries, entry))

    def minus(self, entry: Entry) -> "ByHand":
        """Without what is set in the place of this one."""
        return ByHand(tuple(one for one in self.entries if _place(one) != _place(entry)))

    @cached_property
    def corrections(self) -> dict[SheetOf, dict[str, Correction]]:
        """By sheet and step."""
        found: dict[SheetOf, dict[str, Correction]] = {}
        for one in self.entries:
            if isinstance(one, Correction):
                found.setdefault((one.roll, one.kind, one.attempt), {})[one.step] = one
        return found

    @cached_property
    def days_late(self) -> dict[SheetOf, int]:
        """By sheet."""
        return {(o.roll, o.kind, o.attempt): o.days for o in self.entries if isinstance(o, DaysLate)}

    @cached_property
    def counted(self) -> dict[str, str]:
        """Which slip counts, by sheet, as several.Choices has it."""
        return {one.sheet: one.which for one in self.entries if isinstance(one, Counted)}

    def excuse(self, roll: str, kind: str) -> Excused | None:
        """By what a student is excused from a kind, if so."""
        return self._excused.get((roll, kind)) or self._excused.get((roll, ""))

    @cached_property
    def _excused(self) -> dict[tuple[str, str], Excused]:
        return {(o.roll, o.kind): o for o in self.entries if isinstance(o, Excused)}


NONE = ByHand()


def _place(entry: Entry) -> tuple[object, ...]:
    """What an entry sets: two that set the same cannot both hold."""
    if isinstance(entry, Counted):
        return "Counted", entry.sheet
    of = (type(entry).__name__, entry.roll, entry.kind)
    if isinstance(entry, Excused):
        return of
    return (*of, entry.attempt, entry.step if isinstance(entry, Correction) else "")


def checked(entries: Iterable[Entry], class_: Class, fresh: bool = True) -> tuple[Entry, ...]:
    """The entries, with each roll as it stands in the class.  ByHandError, with a sentence, if one is not of it.

    fresh  whether they are set now: the marks of steps may have become less than one that was set before
    """
    rolls = Rolls(class_.students)
    codes = {
        (student.roll, task.kind.slug, task.attempt): code
        for student, assigned in class_.every_code()
        for task, code in assigned
    }
    most = class_.scheme if fresh else None
    return tuple(_checked(entry, class_, most, rolls, codes) for entry in entries)


def _checked(
    entry: Entry, class_: Class, scheme: Scheme | None, rolls: Rolls, codes: Mapping[SheetOf, SheetCode]
) -> Entry:
    if isinstance(entry, Counted):
        return entry  # what names no slip is told as a problem of what came in
    student = rolls.find(entry.roll)
    if student is None:
        raise ByHandError(f"No student of this class has the roll “{entry.roll[:40]}”. Look at the class list.")
    roll = student.roll
    roll = student.roll
    entry = replace(entry, roll=roll)
    kinds = [task.kind.slug for task in class_.tasks]
    if entry.kind not in kinds and not (isinstance(entry, Excused) and not entry.kind):
        before = " The kind, or the word all, stands before the reason." if isinstance(entry, Excused) else ""
        raise ByHandError(f"“{entry.kind[:40]}” is not set in this class, which has {', '.join(kinds)}.{before}")
    if isinstance(entry, Excused):
        _check_reason(entry.reason)
        return entry
    code = codes.get((roll, entry.kind, entry.attempt))
    if code is None:
        raise ByHandError(f"Roll {roll} was not set attempt {entry.attempt} of {entry.kind}.")
    if isinstance(entry, DaysLate) and not 0 <= entry.days <= MOST_DAYS:
        raise ByHandError(f"Days late are a whole number from 0 to {MOST_DAYS}.")
    if isinstance(entry, Correction):
        _check_correction(entry, code, scheme)
    return entry


def _check_correction(entry: Correction, code: SheetCode, scheme: Scheme | None) -> None:
    steps = _steps(code)
    if entry.step not in steps:
        raise ByHandError(f"The sheet {code} has no step “{entry.step[:40]}”. It has: {', '.join(steps)}.")
    most = scheme.for_step(entry.kind, steps[entry.step].column) if scheme else MOST
    if not 0 <= entry.mark <= most:
        raise ByHandError(f"The mark of {entry.step} must be a number from 0 to {most:g}, which is what it is out of.")
    if scheme and not entry.reason.strip():
        raise ByHandError("Say why the mark is corrected: the reason stands beside it and on the student’s page.")
    _check_reason(entry.reason)


def _steps(code: SheetCode) -> dict[str, Step]:
    try:
        return {step.id: step for step in sheet_of(code).working.steps}
    except ArithmeticError:
        raise ByHandError(f"The sheet {code} has no consistent numbers, so it has no mark to correct.") from None


def _check_reason(reason: str) -> None:
    if len(reason) > LONGEST_REASON or not reason.isprintable():
        raise ByHandError(f"A reason is one line of at most {LONGEST_REASON} characters.")


def as_lists(by_hand: ByHand) -> dict[str, list[dict[str, Any]]]:
    """As JSON can hold it, each list by its name; what is as usual is left out."""
    return {name: [_fields_of(one) for one in by_hand.entries if type(one) is kind] for name, kind in LISTS.items()}


def _fields_of(entry: Entry) -> dict[str, Any]:
    found = {field.name: getattr(entry, field.name) for field in fields(entry)}
    return {name: value for name, value in found.items() if not (name == "attempt" and value == 1) and value != ""}


def from_lists(found: Mapping[str, Any]) -> ByHand:
    """Of what `as_lists` gave.  TypeError if it is none; whether it fits the class is for `checked`."""
    places: dict[tuple[object, ...], Entry] = {}
    for name, kind in LISTS.items():
        rows = found.get(name, [])
        if not isinstance(rows, list):
            raise TypeError
        for row in rows:
            entry = kind(**row)
            texts = [getattr(entry, f.name) for f in fields(entry) if f.name not in ("mark", "days", "attempt")]
            if not all(isinstance(text, str) for text in texts):
                raise TypeError
            numbers = [getattr(entry, name, 1) for name in ("mark", "days", "attempt")]
            if not all(type(n) in (int, float) for n in numbers) or type(numbers[1]) is float:
                raise TypeError
            places[_place(entry)] = entry
    return ByHand(tuple(places.values()))

"""Return slips and a class become work to be marked: whose each is, what is wrong with the others, what is missing.

The code says whose sheet it is; the roll or the name on the slip is held
against that.  Nothing is dropped without a word: what is not counted becomes a
problem with a sentence, and what is counted all the same has notes.  What the
instructor typed in amends what came in (amendments.py); of several slips of one
sheet several.py says which counts.  A record from the bench is no sheet: it goes
to its student, and is never a problem.
"""

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, replace

from exercises.classroom.class_list.class_file import Class, Task
from exercises.classroom.class_list.roll_match import Rolls, note_of
from exercises.classroom.class_list.roster import Student, same_roll
from exercises.classroom.marking.amendments import Change, amended, from_paper
from exercises.classroom.marking.order import comings
from exercises.classroom.marking.several import Choices, Several, misnamed, of_slip, several
from exercises.classroom.marking.strangers import Stranger, said_of, stranger_of, unread
from exercises.codes.sheet_code import CodeError, SheetCode, read
from exercises.record.return_slip import MARK, is_record
from exercises.return_slip.lines import Problem, ReturnSlip
from exercises.return_slip.step_names import no_such_step
from exercises.working.steps import Working

_ASCII_WORD = re.compile("[a-z0-9]+")
_OF_ROLL = {"roll", "no", "number", "nr"}  # as in “Roll no. 7”


@dataclass(frozen=True)
class Handed:
    """One sheet that was handed in and counts.

    return_slip  what is marked: what came in, with what was typed in for it
    notes        sentences to stand beside its mark
    changes      what was typed in over what came in
    several      all slips that came in for it, where there are others than this
    typed        what was typed in for it, as it is laid over whichever slip counts
    """

    student: Student
    task: Task
    code: SheetCode
    return_slip: ReturnSlip
    notes: tuple[str, ...]
    changes: tuple[Change, ...] = ()
    several: Several | None = None
    typed: tuple[ReturnSlip, ...] = ()


@dataclass(frozen=True)
class HandedRecord:
    """A laboratory record that came in: whose it is, or None where that is not known.

    counts  whether it is the one of this student that counts;  notes  sentences to stand beside it
    """

    student: Student | None
    return_slip: ReturnSlip
    counts: bool
    notes: tuple[str, ...]


@dataclass(frozen=True)
class Intake:
    """What is to be marked and what is missing, in the order of the class list, and what could not be counted.

    several  the sheets and the records of which several slips came in that differ
    records  laboratory records, in the order of the class list, those of nobody at the end
    """

    handed: tuple[Handed, ...]
    problems: tuple[Problem, ...]
    missing: tuple[tuple[Student, Task], ...]
    several: tuple[Several, ...] = ()
    records: tuple[HandedRecord, ...] = ()

    @property
    def questions(self) -> list[Several]:
        """Those of which it is not known which counts: the instructor is to choose."""
        return [one for one in self.several if one.why == "unknown"]


def take_in(
    class_: Class, return_slips: Iterable[ReturnSlip], problems: Iterable[Problem] = (), choices: Choices | None = None
) -> Intake:
    """Sort return slips into the class; the order in which they came says nothing of them.

    Of several for one sheet the scheme says which counts, but one whose roll or name is not the student's never
    before one whose is.
    choices  which counts of those of which the instructor chose
    """
    return _Places(class_, choices or {}).take_in(return_slips, tuple(problems))


def with_slip(handed: Handed, chosen: Several) -> Handed:
    """What was handed in with another slip of its sheet as the one that counts."""
    return _handed(handed.student, handed.task, handed.code, chosen, handed.typed)


def _handed(
    student: Student, task: Task, code: SheetCode, came: Several | None, typed: tuple[ReturnSlip, ...]
) -> Handed:
    """One sheet of which slips came in, or answers were typed in, or both."""
    if came is None:
        whole = from_paper(typed)
        return Handed(student, task, code, whole.slip, (*_spellings(student, typed), *whole.notes), typed=typed)
    whole = amended(came.earliest.slip, typed)
    notes = [*_spellings(student, (came.counted.slip, *typed)), *came.notes(), *whole.notes]
    if not came.counted.mine:
        notes.append(
            f"It came under “{came.counted.slip.who[:60]}”, which is no roll or name of this class; by its code it is "
            f"of {named(student)}."
        )
    if not whole.slip.answers:
        notes.append("There is no answer in it.")
    kept = came if came.others else None
    return Handed(student, task, code, whole.slip, tuple(notes), whole.changes, kept, typed)


def _spellings(student: Student, slips: Iterable[ReturnSlip]) -> tuple[str, ...]:
    """A note for each other spelling of the student's roll that slips came under."""
    return tuple(filter(None, dict.fromkeys(note_of(slip.who, student) for slip in slips)))


def named(student: Student) -> str:
    """A student in a sentence."""
    return f"roll {student.roll} ({student.name})" if student.name else f"roll {student.roll}"


def strange_steps(return_slip: ReturnSlip, working: Working) -> tuple[str, ...]:
    """A note on answers to steps that the sheet does not have, if there are any: they are not marked."""
    names = dict.fromkeys([step.id for step in working.steps if not step.hidden])
    strange = [i for i in dict.fromkeys((*return_slip.answers, *return_slip.firsts)) if i not in names]
    if not strange:
        return ()
    answers = {**return_slip.firsts, **return_slip.answers}
    shown = "; ".join(f"“{answers[i][:40]}”, for {no_such_step(i, names)}" for i in strange[:5])
    more = "; and more" if len(strange) > 5 else ""
    return (f"Not everything in it is marked: {shown}{more}.",)


class _Places:
    """A class by its codes, rolls and names, each found in one step."""

    def __init__(self, class_: Class, choices: Choices) -> None:
        self.class_, self.choices = class_, choices
        self.places: list[tuple[Student, Task, SheetCode]] = []
        self.texts: list[str] = []  # of their codes
        self.by_code: dict[str, int] = {}
        self.codes_of = dict(class_.every_code())
        self.rolls = Rolls(self.codes_of)
        self.names: dict[str, list[Student]] = {}
        for student, codes in self.codes_of.items():
            if plain := _plain(student.name):
                self.names.setdefault(plain, []).append(student)
            for task, code in codes:
                self.by_code[text := str(code)] = len(self.places)
                self.texts.append(text)
                self.places.append((student, task, code))

    def take_in(self, slips: Iterable[ReturnSlip], problems: tuple[Problem, ...]) -> Intake:
        found: list[Problem] = list(problems)
        strangers: list[Stranger] = []
        records: list[ReturnSlip] = []
        came: dict[int, list[tuple[bool, ReturnSlip]]] = {}
        typed: dict[int, list[ReturnSlip]] = {}
        good = 0
        for slip in slips:
            if is_record(slip):
                records.append(slip)
                continue
            at = self._place(slip)
            if isinstance(at, Problem):
                found.append(at)
                continue
            if isinstance(at, Stranger):
                strangers.append(at)
                continue
            good += 1
            student = self.places[at][0]
            mine = _is(slip.who, student) or self.rolls.find(slip.who) is student
            if not mine and (other := self._someone(slip.who)):
                found.append(of_slip(slip, _of_two(slip, student, other)))
            elif slip.by_hand:
                typed.setdefault(at, []).append(slip)
            else:
                came.setdefault(at, []).append((mine, slip))
        found[:0] = said_of(strangers, good)  # first, for it may be the reason of all the rest
        which = self.class_.scheme.which
        all_several: list[Several] = []
        handed = []
        for at in sorted(came.keys() | typed.keys()):
            student, task, code = self.places[at]
            one = None
            if at in came:
                about = f"{named(student)} for {task.kind.slug}"
                about += f", attempt {task.attempt}" if task.attempt > 1 else ""
                one = self._several(self.texts[at], about, came[at], which)
                found += [] if one.why == "best" else one.problems()
                all_several.append(one)
            handed.append(_handed(student, task, code, one, tuple(typed.get(at, ()))))
        kept, of_records = self._records(records)
        all_several += of_records
        found += misnamed(self.choices, all_several)
        there = {(self.places[at][0].roll, self.places[at][1].kind.slug) for at in came.keys() | typed.keys()}
        missing = tuple((s, t) for s, t, _ in self.places if t.attempt == 1 and (s.roll, t.kind.slug) not in there)
        differ = tuple(one for one in all_several if one.others)
        return Intake(tuple(handed), tuple(found), missing, differ, kept)

    def _several(self, key: str, about: str, slips: list[tuple[bool, ReturnSlip]], which: str) -> Several:
        return several(key, about, comings(slips), which, self.choices.get(key, ""))

    def _records(self, slips: Iterable[ReturnSlip]) -> tuple[tuple[HandedRecord, ...], list[Several]]:
        """The records, each with its student, and of each student which of them counts."""
        came: dict[Student, list[tuple[bool, ReturnSlip]]] = {}
        strange: list[HandedRecord] = []
        for slip in slips:
            student = self._someone(slip.who)
            mine = student is not None
            student = student or self._of_code(slip)
            if student is None:
                note = f"It came under “{slip.who[:60]}”, which is no roll or name of this class."
                strange.append(HandedRecord(None, slip, False, (note,)))
            else:
                came.setdefault(student, []).append((mine, slip))
        which = "first" if self.class_.scheme.which == "first" else "last"  # records have no marks
        records: list[HandedRecord] = []
        found = []
        for student in filter(came.__contains__, self.class_.students):
            about = f"{named(student)}, as a laboratory record"
            one = self._several(f"{MARK} {student.roll}", about, came[student], which)
            found.append(one)
            for coming in (one.counted, *one.others):
                notes = one.notes() if coming is one.counted else ()
                under = f"It came under “{coming.slip.who[:60]}”; by its code it is of {named(student)}."
                notes = (*_spellings(student, [coming.slip]), *notes) if coming.mine else (*notes, under)
                if (other := self._of_code(coming.slip)) not in (None, student):
                    notes = (*notes, f"Its code is of {named(other)}.")
                records.append(HandedRecord(student, coming.slip, coming is one.counted, notes))
        return (*records, *strange), found

    def _of_code(self, record: ReturnSlip) -> Student | None:
        """Whose the code is that a record stands under, if it is one of the class."""
        at = self.by_code.get(" ".join(record.code.split()[1:]).upper())
        return None if at is None else self.places[at][0]

    def _place(self, slip: ReturnSlip) -> int | Stranger | Problem:
        """Where in the class a slip's code belongs, or what is wrong with the code."""
        if (at := self.by_code.get(slip.code)) is not None:
            return at
        try:
            code = read(slip.code)
        except CodeError as error:
            return unread(slip, error)
        if (at := self.by_code.get(str(code))) is not None:
            return at
        student = self._someone(slip.who)
        stranger = stranger_of(slip, code, self.class_, student is not None)
        if isinstance(stranger, Stranger) and student and stranger.task:
            own = next(c for t, c in self.codes_of[student] if t is stranger.task)
            told = f" The code of {named(student)} for {stranger.task.kind.slug} is {own}."
            return replace(stranger, own=told)
        return stranger

    def _someone(self, who: str) -> Student | None:
        """The one student who goes by this roll or name."""
        if student := self.rolls.find(who):
            return student
        same = self.names.get(_plain(who), [])
        return same[0] if len(same) == 1 else None


def _of_two(slip: ReturnSlip, student: Student, other: Student) -> str:
    """What is said of a sheet of one student under the roll or name of another."""
    if slip.by_hand:
        return (
            f"This line has the sheet {slip.code}, which is that of {named(student)}, for {named(other)}, so it is "
            "used for neither. Mend the roll or the code."
        )
    return (
        f"{_cap(named(other))} handed in the sheet {slip.code}, which is that of {named(student)}, so it is counted "
        "for neither. Ask both. If only the name on the slip is wrong, ask for the slip again under the right one."
    )


def _cap(text: str) -> str:
    return text[:1].upper() + text[1:]


def _plain(name: str) -> str:
    """A name as it is compared: only letters and figures; capitals, forms of accents and marks between do not count."""
    return " ".join(_words(name))


def _words(text: str) -> list[str]:
    if text.isascii():
        return _ASCII_WORD.findall(text.casefold())
    text = unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", text).casefold())
    kinds = ((c, unicodedata.category(c)) for c in text)
    return "".join(c if kind[0] in "LMN" else " " for c, kind in kinds if kind != "Cf").split()


def _is(who: str, student: Student) -> bool:
    """Whether who is the student: the roll, the name in any order of its words, or both."""
    if who == student.roll:  # as most slips have it
        return True
    roll = same_roll(" ".join(who.split()))
    if roll == same_roll(student.roll):
        return True
    said = [w for w in _words(who) if w not in _OF_ROLL] or _words(who)
    name, number = _words(student.name), _words(student.roll)
    return bool(said) and sorted(said) in (sorted(name), sorted(number), sorted([*number, *name]))

"""Return slips and a class become work to be marked: whose each is, what is wrong with the others, what is missing.

The code says whose sheet it is; the roll or the name on the slip is held
against that.  Nothing is dropped without a word: what is not counted becomes a
problem with a sentence, and what is counted all the same has notes.
"""

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

from exercises.classroom.class_list.class_file import Class, Task
from exercises.classroom.class_list.roster import Student, same_roll
from exercises.codes.sheet_code import CodeError, SheetCode, read
from exercises.kinds.kind import kind_of
from exercises.return_slip.lines import Problem, ReturnSlip
from exercises.working.steps import Working
from exercises.working.words import many

_OF_ROLL = {"roll", "no", "number", "nr"}  # as in “Roll no. 7”


@dataclass(frozen=True)
class Handed:
    """One sheet that was handed in and counts.  `notes` are sentences to stand beside its mark."""

    student: Student
    task: Task
    code: SheetCode
    return_slip: ReturnSlip
    notes: tuple[str, ...]


@dataclass(frozen=True)
class Intake:
    """What is to be marked and what is missing, in the order of the class list, and what could not be counted."""

    handed: tuple[Handed, ...]
    problems: tuple[Problem, ...]
    missing: tuple[tuple[Student, Task], ...]


def take_in(class_: Class, return_slips: Iterable[ReturnSlip], problems: Iterable[Problem] = ()) -> Intake:
    """Sort return slips, in the order in which they came, into the class.

    Of two that differ the later counts, but one whose roll or name is not the student's never before one whose is.
    """
    return _Places(class_).take_in(return_slips, tuple(problems))


def named(student: Student) -> str:
    """A student in a sentence."""
    return f"roll {student.roll} ({student.name})" if student.name else f"roll {student.roll}"


def strange_steps(return_slip: ReturnSlip, working: Working) -> tuple[str, ...]:
    """A note on answers to steps that the sheet does not have, if there are any: they are not marked."""
    strange = [
        i
        for i in dict.fromkeys((*return_slip.answers, *return_slip.firsts))
        if i not in working.by_id or working.by_id[i].hidden
    ]
    if not strange:
        return ()
    shown = ", ".join(
        f"{i} (“{(return_slip.answers.get(i) or return_slip.firsts.get(i, ''))[:40]}”)" for i in strange[:5]
    )
    more = " and more" if len(strange) > 5 else ""
    return (f"It has answers to steps that this sheet does not have, which are not marked: {shown}{more}.",)


class _Places:
    """A class by its codes, rolls and names, each found in one step."""

    def __init__(self, class_: Class) -> None:
        self.class_ = class_
        self.places: list[tuple[Student, Task, SheetCode]] = []
        self.by_code: dict[str, int] = {}
        self.codes_of = dict(class_.every_code())
        self.rolls: dict[str, Student] = {}
        self.names: dict[str, list[Student]] = {}
        for student, codes in self.codes_of.items():
            self.rolls[same_roll(student.roll)] = student
            if student.name:
                self.names.setdefault(_plain(student.name), []).append(student)
            for task, code in codes:
                self.by_code[str(code)] = len(self.places)
                self.places.append((student, task, code))

    def take_in(self, slips: Iterable[ReturnSlip], problems: tuple[Problem, ...]) -> Intake:
        found: list[Problem] = list(problems)
        by_place: dict[int, list[tuple[bool, ReturnSlip]]] = {}
        for slip in slips:
            at = self._place(slip)
            if isinstance(at, Problem):
                found.append(at)
                continue
            student = self.places[at][0]
            mine = _is(slip.who, student)
            if not mine and (other := self._someone(slip.who)):
                told = (
                    f"{_cap(named(other))} handed in the sheet {slip.code}, which is that of {named(student)}, so it "
                    "is counted "
                    "for neither. Ask both. If only the name on the slip is wrong, ask for the slip again under the "
                    "right one."
                )
                found.append(problem_of(slip, told))
            else:
                by_place.setdefault(at, []).append((mine, slip))
        handed = []
        for at in sorted(by_place):
            counted, uncounted = self._of_one_place(at, by_place[at])
            handed.append(counted)
            found += uncounted
        came = {(self.places[at][0].roll, self.places[at][1].kind.slug) for at in by_place}
        missing = tuple((s, t) for s, t, _ in self.places if t.attempt == 1 and (s.roll, t.kind.slug) not in came)
        return Intake(tuple(handed), tuple(found), missing)

    def _place(self, slip: ReturnSlip) -> int | Problem:
        """Where in the class a slip's code belongs, or what is wrong with the code."""
        if (at := self.by_code.get(slip.code)) is not None:
            return at
        try:
            code = read(slip.code)
            if (at := self.by_code.get(str(code))) is not None:
                return at
            kind = kind_of(code)
        except CodeError as error:
            return problem_of(slip, f"The code “{slip.code[:40]}” of this slip cannot be used. {error}")
        task = next((t for t in self.class_.tasks if t.kind.slug == kind.slug), None)
        if task is None:
            told = (
                f"This slip is for {kind.title} ({kind.slug}), which this class was not set. Look whether it is for "
                "another class."
            )
        elif code.edition != task.edition:
            told = (
                f"The code {code} has numbers of edition {code.edition}, and this class was set edition "
                f"{task.edition} of {kind.slug}. "
                "Look whether the slip is for another class, or was made on another site."
            )
        else:
            told = (
                f"The code {code} is nobody's in this class. It may be a sheet that the student drew with “New "
                "numbers”, "
                "or one of another class."
            )
        student = self._someone(slip.who)
        if student and task:
            own = next(c for t, c in self.codes_of[student] if t is task)
            told += f" The code of {named(student)} for {kind.slug} is {own}."
        return problem_of(slip, told)

    def _someone(self, who: str) -> Student | None:
        """The one student who goes by this roll or name."""
        if student := self.rolls.get(same_roll(" ".join(who.split()))):
            return student
        same = self.names.get(_plain(who), [])
        return same[0] if len(same) == 1 else None

    def _of_one_place(self, at: int, slips: list[tuple[bool, ReturnSlip]]) -> tuple[Handed, list[Problem]]:
        """What counts of all that came for one sheet, and a problem for each other that differs."""
        student, task, code = self.places[at]
        best = max(range(len(slips)), key=lambda n: (slips[n][0], n))
        mine, slip = slips[best]
        notes: list[str] = []
        uncounted: list[tuple[ReturnSlip, str]] = []  # with what is said of each
        same = 0
        for n, (_, other) in enumerate(slips):
            if n == best:
                continue
            if other.answers == slip.answers and other.firsts == slip.firsts:
                same += 1
                continue
            which = "An earlier" if n < best else "A later"
            why = "a later one differs from it and counts" if n < best else f"it came under “{other.who[:60]}”"
            told = (
                f"{which} slip of {named(student)} for {task.kind.slug}, with {_answers(other)}, is not counted: "
                f"{why}. "
                f"Counted is the one from {slip.source or 'the same place'}, with {_answers(slip)}."
            )
            uncounted.append((other, told))
        if same:
            notes.append(f"The same slip came {same + 1} times.")
        if uncounted:
            notes.append(
                f"{len(uncounted)} other slip{'s' if len(uncounted) > 1 else ''} for this sheet "
                f"differ{'s' if len(uncounted) == 1 else ''} "
                f"from this one and {'are' if len(uncounted) > 1 else 'is'} not counted: "
                + "; ".join(f"{other.source or 'without a source'}, {_answers(other)}" for other, _ in uncounted[:5])
                + ("; and more." if len(uncounted) > 5 else ".")
            )
        if not mine:
            notes.append(
                f"It came under “{slip.who[:60]}”, which is no roll or name of this class; by its code it is of "
                f"{named(student)}."
            )
        if not slip.answers:
            notes.append("There is no answer in it.")
        return Handed(student, task, code, slip, tuple(notes)), [problem_of(*one) for one in uncounted]


def problem_of(slip: ReturnSlip, told: str, code: str = "") -> Problem:
    """What is wrong with a return slip, under the roll or name that stands on it.

    code  of the sheet, where it is known better than the slip has it
    """
    return Problem(slip.source, slip.who, code or slip.code, told, slip)


def _answers(slip: ReturnSlip) -> str:
    return many(len(slip.answers), "answer")


def _cap(text: str) -> str:
    return text[:1].upper() + text[1:]


def _plain(name: str) -> str:
    """A name as it is compared: only letters and figures; capitals, forms of accents and marks between do not count."""
    return " ".join(_words(name))


def _words(text: str) -> list[str]:
    text = unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", text).casefold())
    kinds = ((c, unicodedata.category(c)) for c in text)
    return "".join(c if kind[0] in "LMN" else " " for c, kind in kinds if kind != "Cf").split()


def _is(who: str, student: Student) -> bool:
    """Whether who is the student: the roll, the name in any order of its words, or both."""
    roll = same_roll(" ".join(who.split()))
    if roll == same_roll(student.roll):
        return True
    said = [w for w in _words(who) if w not in _OF_ROLL] or _words(who)
    name, number = _words(student.name), _words(student.roll)
    return bool(said) and sorted(said) in (sorted(name), sorted(number), sorted([*number, *name]))

"""Work that is alike where chance does not make it so: the same numbers on two sheets that differ.

Every student's sheet has numbers of its own, so two things are looked for:

- four steps or more in a row at which students typed the same numbers, most of
  them wrong on the sheet of one of them (what is right on both sheets says
  nothing: the sheets may agree there), and too many to agree by chance;
- a sheet that is wrong by its own numbers and right by those of another.

Chance is reckoned from the class itself: of the steps that are worked from no
other in the run, the share of the class that typed the same number, multiplied
together and by the number of pairs.  That is to be less than CHANCE.

Both say that two pieces of work are alike, never who copied.  Time and memory
go with the number of sheets: runs are found by their numbers, sheets by the
right values of two steps that rest on no other.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from exercises.classroom.class_list.class_file import Task
from exercises.classroom.class_list.roster import Student
from exercises.classroom.marking.intake import Handed, named
from exercises.judging import answer
from exercises.judging.answer import Typed, Unreadable
from exercises.judging.entries import accepts
from exercises.working.arithmetic import Span
from exercises.working.evaluate import all_spans
from exercises.working.steps import Plan, Step, Working
from exercises.working.words import listed

RUN = 4  # steps in a row
WRONG = 3  # of them, and half of all that are shared, wrong on the sheet of one of those who share it
CHANCE = 0.001  # pairs of a class that agree so by chance
FEWEST, SHARE = (
    5,
    0.8,
)  # of another sheet: so many answers right there and wrong here, and of all that share right there
_BIN = 0.005  # relative width of the bins by which sheets are found
_MOST_BINS = 4
_FIGURES = 6


@dataclass(frozen=True)
class Alike:
    """Students whose work for a task is alike, the steps by id at which it is, and a sentence."""

    students: tuple[Student, ...]
    task: Task
    steps: tuple[str, ...]
    text: str


#: How a sheet is found by what is right on it: kind, two steps, and the bins of their values.
type _Key = tuple[str, str, str, int, int]
#: What sheets share in a run: kind, steps, and the numbers typed at them.
type _Run = tuple[str, tuple[str, ...], tuple[float | None, ...]]


@dataclass(frozen=True)
class _Sheet:
    """One sheet: whose, the numbered steps in order, what was typed as read, and what is right."""

    student: Student
    task: Task
    steps: tuple[str, ...]
    typed: tuple[Typed | None, ...]  # in the order of steps
    numbers: tuple[float | None, ...]
    wrong: tuple[bool, ...]
    needs: tuple[tuple[str, ...], ...]  # of each step, the steps asked for that it is worked from
    starts: tuple[int, ...]  # places of the steps that need none
    right: tuple[Span, ...]
    working: Working | None  # kept only of a sheet that is mostly wrong


class Copies:
    """Takes sheets one after the other, as they are marked, and then says which are alike."""

    def __init__(self) -> None:
        self._sheets: list[_Sheet] = []
        self._runs: dict[int, list[tuple[int, int]]] = {}
        self._by_right: dict[_Key, list[int]] = {}
        self._typed: dict[tuple[str, str, float | None], int] = {}  # (kind, step, number) -> how many typed it
        self._handed: dict[str, int] = {}

    def add(self, handed: Handed, working: Working) -> None:
        """Take one sheet; `working` is that of its code."""
        sheet, at = _sheet(handed, working), len(self._sheets)
        self._sheets.append(sheet)
        slug = handed.task.kind.slug
        self._handed[slug] = self._handed.get(slug, 0) + 1
        for typed in zip((slug,) * len(sheet.steps), sheet.steps, sheet.numbers):
            self._typed[typed] = self._typed.get(typed, 0) + 1
        for start in range(len(sheet.steps) - RUN + 1):
            if None not in (run := sheet.numbers[start : start + RUN]):
                self._runs.setdefault(hash((slug, sheet.steps[start], run)), []).append((at, start))
        for one, two in _pairs(sheet.starts):
            for key in _keys(slug, sheet, one, two, *(_bins(sheet.right[p]) for p in (one, two))):
                self._by_right.setdefault(key, []).append(at)

    def found(self) -> list[Alike]:
        """What is alike, by task and in the order in which the sheets came."""
        return [*self._shared_runs(), *self._of_another_sheet()]

    def _shared_runs(self) -> list[Alike]:
        out = []
        for who, places in sorted(self._sharers().items()):
            first = self._sheets[who[0]]
            ids = tuple(first.steps[p] for p in places)
            wrong = max(self._wrong(at, ids) for at in who)
            if wrong >= max(WRONG, len(ids) / 2) and self._by_chance(who, first, places) < CHANCE:
                out.append(self._alike(who, ids, _run_told))
        return out

    def _sharers(self) -> dict[tuple[int, ...], list[int]]:
        """Sheets that share runs of numbers -> the places of the shared steps on the first of them, in order."""
        shared: dict[tuple[int, ...], set[int]] = {}
        for runs in self._runs.values():
            if len(runs) < 2:
                continue
            same: dict[_Run, list[tuple[int, int]]] = {}
            for at, start in runs:  # two runs may have one hash
                sheet = self._sheets[at]
                key = (sheet.task.kind.slug, sheet.steps[start : start + RUN], sheet.numbers[start : start + RUN])
                same.setdefault(key, []).append((at, start))
            for sharers in same.values():
                if len(sharers) > 1:
                    start = sharers[0][1]
                    shared.setdefault(tuple(at for at, _ in sharers), set()).update(range(start, start + RUN))
        return {who: sorted(places) for who, places in shared.items()}

    def _wrong(self, at: int, ids: tuple[str, ...]) -> int:
        sheet = self._sheets[at]
        return sum(wrong for step, wrong in zip(sheet.steps, sheet.wrong) if step in ids)

    def _by_chance(self, who: tuple[int, ...], sheet: _Sheet, places: list[int]) -> float:
        """How many pairs of the class would agree in these steps by chance."""
        slug = sheet.task.kind.slug
        handed = self._handed[slug]
        pairs = handed * handed / 2
        ids = {sheet.steps[p] for p in places}
        for p in places:
            if ids.isdisjoint(sheet.needs[p]):
                others = self._typed[slug, sheet.steps[p], sheet.numbers[p]] - len(who)
                pairs *= (max(others, 0) + 1) / (handed + 1)
        return pairs

    def _of_another_sheet(self) -> list[Alike]:
        out = []
        for at, sheet in enumerate(self._sheets):
            if sheet.working is None:
                continue
            by_id = sheet.working.by_id
            tried = {at}
            for one, two in _pairs(sheet.starts):
                bins = [_bins(_meant(sheet.typed[p])) for p in (one, two)]
                for key in _keys(sheet.task.kind.slug, sheet, one, two, *bins):
                    for other in self._by_right.get(key, ())[:50]:
                        if other not in tried and (ids := _right_there(sheet, self._sheets[other], by_id)):
                            out.append(self._alike((at, other), ids, _sheet_told))
                        tried.add(other)
        return out

    def _alike(
        self, places: tuple[int, ...], ids: tuple[str, ...], told: Callable[[list[str], str, tuple[str, ...]], str]
    ) -> Alike:
        students = tuple(self._sheets[at].student for at in places)
        task = self._sheets[places[0]].task
        return Alike(students, task, ids, told([named(s) for s in students], task.kind.title, ids))


def _right_there(sheet: _Sheet, other: _Sheet, by_id: Mapping[str, Step]) -> tuple[str, ...]:
    """The steps that are wrong here and right by another sheet, or none if these are too few."""
    there = dict(zip(other.steps, other.right))
    answered, right, telling = 0, 0, []
    for step, typed, wrong in zip(sheet.steps, sheet.typed, sheet.wrong):
        if typed is None:
            continue
        answered += 1
        if step in there and accepts(there[step], typed, by_id[step]):
            right += 1
            if wrong:
                telling.append(step)
    return tuple(telling) if len(telling) >= FEWEST and right >= SHARE * answered else ()


class _Asked(NamedTuple):
    """Of all sheets of one plan: the steps with numbers in order, their ids, and what each needs.

    starts  the places of those that need none
    """

    steps: tuple[Step, ...]
    ids: tuple[str, ...]
    needs: tuple[tuple[str, ...], ...]
    starts: tuple[int, ...]


@lru_cache(maxsize=256)
def _asked(plan: Plan) -> _Asked:
    steps = tuple(step for step in plan.steps if not step.choices)
    needs = tuple(tuple(plan.asked_needs(step)) for step in steps)
    return _Asked(steps, tuple(s.id for s in steps), needs, tuple(at for at, needed in enumerate(needs) if not needed))


def _sheet(handed: Handed, working: Working) -> _Sheet:
    asked, spans = _asked(working.plan), all_spans(working)
    typed = tuple([_read(handed.return_slip.answers.get(step.id, ""), step.quantity) for step in asked.steps])
    right = tuple([span for step_id in asked.ids if isinstance(span := spans[step_id], Span)])
    wrong = tuple([t is not None and not accepts(span, t, step) for t, span, step in zip(typed, right, asked.steps)])
    many = sum(wrong)
    return _Sheet(
        handed.student,
        handed.task,
        asked.ids,
        typed,
        tuple([None if t is None else float(f"{t.value:.{_FIGURES}g}") for t in typed]),
        wrong,
        asked.needs,
        asked.starts,
        right,
        working if many >= FEWEST and 2 * many > len(typed) - typed.count(None) else None,
    )


def _read(text: str, quantity: str) -> Typed | None:
    try:
        return answer.read(text, quantity) if text else None
    except Unreadable:
        return None


def _pairs(starts: tuple[int, ...]) -> list[tuple[int, int]]:
    """Steps to find a sheet by: each with the next and the next but one, since some are known too widely."""
    return [*zip(starts, starts[1:]), *zip(starts, starts[2:])]


def _meant(typed: Typed | None) -> Span:
    """All that rounds to what was typed."""
    return (
        Span(math.nan)
        if typed is None
        else Span(typed.value - typed.last_place / 2, typed.value + typed.last_place / 2)
    )


def _bins(span: Span) -> list[int]:
    """The bins that hold a span's values; none where it is too wide to find a sheet by."""
    if not 0 < span.lo <= span.hi < math.inf:
        return []
    low, high = (math.floor(math.log(end) / _BIN) for end in (span.lo, span.hi))
    return list(range(low, high + 1)) if high - low < _MOST_BINS else []


def _keys(slug: str, sheet: _Sheet, one: int, two: int, bins: Sequence[int], others: Sequence[int]) -> list[_Key]:
    """The keys of two steps, by their places, for each pair of bins."""
    return [(slug, sheet.steps[one], sheet.steps[two], b, c) for b in bins for c in others]


def _run_told(who: list[str], title: str, ids: tuple[str, ...]) -> str:
    students = _and(who)
    return (
        f"{students[0].upper()}{students[1:]} have the same numbers in {title} at {_and(list(ids))}, "
        "though their sheets differ. Look at both, and ask."
    )


def _sheet_told(who: list[str], title: str, ids: tuple[str, ...]) -> str:
    return (
        f"The answers of {who[0]} in {title} do not fit the sheet they came under; "
        f"{len(ids)} of them are right on the sheet of {who[1]}: {_and(list(ids))}. Look at both, and ask."
    )


def _and(words: list[str]) -> str:
    shown = words[:6] + [f"{len(words) - 6} more"] * (len(words) > 6)
    return listed(shown)

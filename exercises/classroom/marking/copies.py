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

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import product
from math import floor, log
from typing import NamedTuple

from exercises.classroom.class_list.class_file import Task
from exercises.classroom.class_list.roster import Student
from exercises.classroom.marking.intake import Handed, named
from exercises.judging.answer import Typed
from exercises.judging.entries import Entry, accepts
from exercises.judging.plain import is_rounded_from
from exercises.working.arithmetic import Span
from exercises.working.evaluate import all_spans, right_values
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
_MOST_BINS = 6
_NONE = 1 << 30  # the bin of what has no logarithm
_FARTHEST = 0.035  # share by which correct rounding carries what is worked from no other step, at most
_FIGURES = 6
_STEPS = 1000  # more than any sheet has


@dataclass(frozen=True)
class Alike:
    """Students whose work for a task is alike, the steps by id at which it is, and a sentence."""

    students: tuple[Student, ...]
    task: Task
    steps: tuple[str, ...]
    text: str


#: What sheets share in a run: kind, steps, and the numbers typed at them.
type _Run = tuple[str, tuple[str, ...], tuple[float | None, ...]]


class _Sheet(NamedTuple):
    """One sheet: whose, the steps on it, the numbers typed at them, and which are wrong.

    starts        what is right at the steps that are worked from no others, in their order
    working       says what is right at the others, which is worked out only for a sheet that another may be alike
    mostly_wrong  what was typed, as read; None of any other sheet
    """

    student: Student
    task: Task
    asked: "_Asked"
    numbers: tuple[float | None, ...]  # here and below in the order of the steps
    wrong: tuple[bool, ...]
    starts: tuple[float, ...]
    working: Working
    mostly_wrong: tuple[Typed | None, ...] | None

    @property
    def steps(self) -> tuple[str, ...]:
        return self.asked.ids


class _Places[V]:
    """What is found under a number: mostly one thing alone, so that a list is made only for the second."""

    def __init__(self) -> None:
        self._first: dict[int, V] = {}
        self.shared: dict[int, list[V]] = {}

    def add(self, key: int, value: V) -> None:
        first = self._first.setdefault(key, value)
        if first != value:
            self.shared.setdefault(key, [first]).append(value)

    def all_of(self, key: int) -> list[V]:
        return self.shared.get(key) or ([self._first[key]] if key in self._first else [])


class Copies:
    """Takes sheets one after the other, as they are marked, and then says which are alike."""

    def __init__(self) -> None:
        self._sheets: list[_Sheet] = []
        self._runs: _Places[int] = _Places()  # sheet and first step of each, in one number: there are very many
        self._by_right: _Places[int] = _Places()

    def add(self, handed: Handed, working: Working, read: Mapping[str, Entry]) -> None:
        """Take one sheet; `working` is that of its code, and `read` its answers as they are read."""
        sheet, at = _sheet(handed, working, read), len(self._sheets)
        self._sheets.append(sheet)
        runs = zip(*[sheet.numbers[start:] for start in range(RUN)])
        for start, run in enumerate(zip(sheet.asked.runs, runs), at * _STEPS):
            if None not in run[1]:
                self._runs.add(hash(run), start)
        bins = [_bin(value) for value in sheet.starts]
        for one, two, steps in sheet.asked.pairs:
            self._by_right.add(hash((steps, bins[one], bins[two])), at)

    def found(self) -> list[Alike]:
        """What is alike, by task and in the order in which the sheets came."""
        return [*self._shared_runs(), *self._of_another_sheet()]

    def _shared_runs(self) -> list[Alike]:
        out, typed = [], cache(self._typed)
        for who, places in sorted(self._sharers().items()):
            first = self._sheets[who[0]]
            ids = tuple(first.steps[p] for p in places)
            wrong = max(self._wrong(at, ids) for at in who)
            if wrong < max(WRONG, len(ids) / 2):
                continue
            if _by_chance(len(who), first, places, *typed(first.task.kind.slug)) < CHANCE:
                out.append(self._alike(who, ids, _run_told))
        return out

    def _sharers(self) -> dict[tuple[int, ...], list[int]]:
        """Sheets that share runs of numbers -> the places of the shared steps on the first of them, in order."""
        shared: dict[tuple[int, ...], set[int]] = {}
        for runs in self._runs.shared.values():
            same: dict[_Run, list[tuple[int, int]]] = {}
            for at, start in (divmod(run, _STEPS) for run in runs):  # two runs may have one hash
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

    def _typed(self, slug: str) -> tuple[int, Counter[tuple[str, float | None]]]:
        """How many sheets of a kind were handed in, and how many students typed each number at each step."""
        sheets = [sheet for sheet in self._sheets if sheet.task.kind.slug == slug]
        return len(sheets), Counter(typed for sheet in sheets for typed in zip(sheet.steps, sheet.numbers))

    def _of_another_sheet(self) -> list[Alike]:
        out = []
        for at, sheet in enumerate(self._sheets):
            if (typed := sheet.mostly_wrong) is None:
                continue
            tried, meant = {at}, [_bins(typed[place]) for place in sheet.asked.starts]
            for one, two, steps in sheet.asked.pairs:
                for b, c in product(meant[one], meant[two]):
                    for other in self._by_right.all_of(hash((steps, b, c)))[:50]:
                        if other not in tried and (ids := _right_there(sheet, typed, self._sheets[other])):
                            out.append(self._alike((at, other), ids, _sheet_told))
                        tried.add(other)
        return out

    def _alike(
        self, places: tuple[int, ...], ids: tuple[str, ...], told: Callable[[list[str], str, tuple[str, ...]], str]
    ) -> Alike:
        students = tuple(self._sheets[at].student for at in places)
        task = self._sheets[places[0]].task
        return Alike(students, task, ids, told([named(s) for s in students], task.kind.title, ids))


def _by_chance(
    who: int, sheet: _Sheet, places: list[int], handed: int, typed: Counter[tuple[str, float | None]]
) -> float:
    """How many pairs of the class would agree in these steps of a sheet by chance.

    who     how many students share the numbers; handed, typed  as `Copies._typed` gives them
    """
    pairs = handed * handed / 2
    ids = {sheet.steps[p] for p in places}
    for p in places:
        if ids.isdisjoint(sheet.asked.needs[p]):
            others = typed[sheet.steps[p], sheet.numbers[p]] - who
            pairs *= (max(others, 0) + 1) / (handed + 1)
    return pairs


def _right_there(sheet: _Sheet, typed: tuple[Typed | None, ...], other: _Sheet) -> tuple[str, ...]:
    """The steps that are wrong here and right by another sheet, or none if these are too few.

    typed  what was typed on `sheet`
    """
    many = len(typed) - typed.count(None)
    may_be_far = many - SHARE * many
    far = 0
    for place, start in zip(sheet.asked.starts, other.starts):
        if (entry := typed[place]) and abs(entry.value - start) > _FARTHEST * abs(start) + entry.last_place:
            far += 1
            if far > may_be_far:
                return ()  # as nearly always: then the other sheet's spans need not be worked
    by_id = sheet.working.by_id
    numbers = [
        (step, number, wrong) for step, number, wrong in zip(sheet.steps, typed, sheet.wrong) if number is not None
    ]
    there = all_spans(other.working)
    right = [
        (step, wrong)
        for step, number, wrong in numbers
        if isinstance(span := there.get(step), Span) and accepts(span, number, by_id[step])
    ]
    telling = tuple([step for step, wrong in right if wrong])
    return telling if len(telling) >= FEWEST and len(right) >= SHARE * len(numbers) else ()


class _Asked(NamedTuple):
    """Of all sheets of one plan: the steps with numbers in order, their ids, and which others each is worked from.

    runs    of each step at which a run can begin, a hash that stands for the kind and the step
    starts  the places of those that are worked from none
    pairs   of these, by their order among them, each with the next and the next but one, for a sheet is found by two;
            and a hash that stands for the kind and both
    """

    steps: tuple[Step, ...]
    ids: tuple[str, ...]
    needs: tuple[tuple[str, ...], ...]
    runs: tuple[int, ...]
    starts: tuple[int, ...]
    pairs: tuple[tuple[int, int, int], ...]


@lru_cache(maxsize=256)
def _asked(plan: Plan, slug: str) -> _Asked:
    steps = tuple(step for step in plan.steps if not step.choices)
    needs = tuple(tuple(plan.asked_needs(step)) for step in steps)
    starts = tuple(at for at, needed in enumerate(needs) if not needed)
    ids = tuple(s.id for s in steps)
    runs = tuple(hash((slug, step_id)) for step_id in ids[: 1 - RUN])
    order = range(len(starts))
    pairs = (*zip(order, order[1:]), *zip(order, order[2:]))
    keyed = tuple((p, q, hash((slug, ids[starts[p]], ids[starts[q]]))) for p, q in pairs)
    return _Asked(steps, ids, needs, runs, starts, keyed)


def _sheet(handed: Handed, working: Working, read: Mapping[str, Entry]) -> _Sheet:
    asked = _asked(working.plan, handed.task.kind.slug)
    typed = tuple([entry if isinstance(entry := read.get(step_id), Typed) else None for step_id in asked.ids])
    values, *_ = right_values(working)
    wrong = _wrong(working, asked, typed)
    starts = tuple([values[asked.ids[place]] for place in asked.starts])
    numbers = tuple([None if t is None else float(f"{t.value:.{_FIGURES}g}") for t in typed])
    many = sum(wrong)
    mostly_wrong = many >= FEWEST and 2 * many > len(typed) - typed.count(None)
    kept = Working(working.plan, working.givens, working.parts)  # without all that was found out for it
    return _Sheet(handed.student, handed.task, asked, numbers, wrong, starts, kept, typed if mostly_wrong else None)


def _wrong(working: Working, asked: _Asked, typed: tuple[Typed | None, ...]) -> tuple[bool, ...]:
    """Whether each number that was typed is wrong by the sheet's own numbers."""
    values, *_ = right_values(working)
    perhaps = [t is not None and not is_rounded_from(values[s.id], t, s) for t, s in zip(typed, asked.steps)]
    if not any(perhaps):
        return tuple(perhaps)
    spans = all_spans(working)
    return tuple(
        [
            might and t is not None and isinstance(span := spans[step.id], Span) and not accepts(span, t, step)
            for might, t, step in zip(perhaps, typed, asked.steps)
        ]
    )


def _bin(value: float) -> int:
    """The bin that holds a value; one of its own for what is not above 0."""
    return floor(log(value) / _BIN) if value > 0 else _NONE


def _bins(typed: Typed | None) -> range:
    """The bins of all that a number may have been rounded from, early or late; none where that is too wide."""
    if typed is None:
        return range(0)
    low, high = typed.value - typed.last_place / 2, typed.value + typed.last_place / 2
    found = range(_bin(low * (1 - _BIN / 2)), _bin(high * (1 + _BIN / 2)) + 1) if low > 0 else range(0)
    return found if len(found) <= _MOST_BINS else range(0)


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

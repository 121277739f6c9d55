"""What a whole class did, counted: no name and no roll is in it.

A `Tally` takes one marked sheet after another and keeps only counts, so that a
large class needs little memory; `Tally.report` closes it.
"""

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.marking.marks import EARNS, Marked, added
from exercises.classroom.report.names import labels_of, merge
from exercises.kinds.kind import Kind

MISSED = ("slip", "wrong", "ask", "unread")  # entered, and not right even from the entries above
FACTOR = 2.0  # what is farther from right than this is counted apart from the spread
POWER_NEAR = 0.02  # a power of ten off: what is left after it is taken out, as a share
FEW = 5  # below so many sheets a count may point at a person


class StateCounts(NamedTuple):
    """Entries by what was said of them; unread: could not be read or judged as typed."""

    right: int = 0
    follows: int = 0
    slip: int = 0
    wrong: int = 0
    unread: int = 0
    blank: int = 0

    @property
    def all(self) -> int:
        return sum(self)

    @property
    def missed(self) -> int:
        """Entered, and not right even from the entries above."""
        return self.slip + self.wrong + self.unread


class StepCount(NamedTuple):
    """One column of a kind (Step.column), over all its rows and sheets, or one part of the sheet.

    sheets  how many sheets have at least one entry of it missed
    series  of a part, the row of like parts that it belongs to (sheet.Group), or ""
    """

    label: str
    counts: StateCounts
    sheets: int
    series: str = ""


class SlipCount(NamedTuple):
    """A slip: on how many sheets it was named, in how many entries, and in how many of those beside another."""

    name: str
    read: str
    sheets: int
    entries: int
    shared: int


class SectionCount(NamedTuple):
    """One section: how many students it has, how many handed in, and the quartiles of their marks as shares.

    marks  () where so few handed in that they would point at a person
    """

    section: str
    students: int
    sheets: int
    marks: tuple[float, ...]


class Spread(NamedTuple):
    """How far the found values of one result lie from the right ones, in per cent of them.

    near      those within a factor of two, in order
    quartiles lower, middle, upper of `near` (linear between the two nearest), or () if there are none
    powers, far  how many lie farther: a power of ten off, and otherwise
    """

    label: str
    near: tuple[float, ...]
    quartiles: tuple[float, ...]
    powers: int
    far: int

    @property
    def all(self) -> int:
        return len(self.near) + self.powers + self.far


class Tries(NamedTuple):
    """Entries by whether they were changed after they were first typed.

    stood   right, or right from the entries above, and never changed
    corrected  changed, and right in the end; lost  changed, and not right in the end
    """

    stood: int
    corrected: int
    lost: int


@dataclass(frozen=True)
class KindReport:
    """One kind: how many handed in, the marks, and the counts.

    marks    share of the full mark, lower, middle and upper quartile, 0 to 1, or () if nothing was handed in
    columns, parts  in the order of the sheet
    cells    (part, label of a column) -> counts; slips  the one on most sheets first
    sections in the order of the list, () where the class has none
    tries    None where nothing tells what was typed first, or the first attempts were judged
    """

    kind: Kind
    students: int
    sheets: int
    marks: tuple[float, ...]
    columns: tuple[StepCount, ...]
    parts: tuple[StepCount, ...]
    cells: dict[tuple[str, str], StateCounts]
    slips: tuple[SlipCount, ...]
    spreads: tuple[Spread, ...]
    tries: Tries | None
    sections: tuple[SectionCount, ...] = ()

    @property
    def counts(self) -> StateCounts:
        """Every entry of every sheet."""
        return StateCounts(*map(sum, zip(*(c.counts for c in self.columns)))) if self.columns else StateCounts()


@dataclass(frozen=True)
class Report:
    """A class: a report for each kind that was set, and which attempt was judged."""

    students: int
    attempt: str
    kinds: tuple[KindReport, ...]


def count(class_: Class, marked: Iterable[Marked]) -> Report:
    """The report of a class."""
    tally = Tally(class_)
    for sheet in marked:
        tally.add(sheet)
    return tally.report()


def quartiles(values: Sequence[float]) -> tuple[float, ...]:
    """Lower quartile, median and upper quartile of values in order, or () if there are none.

    Linear between the two nearest, the ends counted in: definition 7 of Hyndman and Fan,
    The American Statistician 50 (1996) 361.
    """
    if not values:
        return ()
    found = []
    for share in (0.25, 0.5, 0.75):
        at = share * (len(values) - 1)
        low = math.floor(at)
        high = min(low + 1, len(values) - 1)
        found.append(values[low] + (at - low) * (values[high] - values[low]))
    return tuple(found)


class Tally:
    """Counts that grow with every sheet."""

    def __init__(self, class_: Class) -> None:
        self.class_ = class_
        self._of = {task.kind.slug: _KindTally(task.kind) for task in class_.tasks}

    def add(self, sheet: Marked) -> None:
        """Count one sheet."""
        self._of[sheet.handed.task.kind.slug].add(sheet)

    def report(self) -> Report:
        many, attempt = len(self.class_.students), self.class_.scheme.attempt
        of_section = Counter(student.section for student in self.class_.students)
        sections = of_section if any(of_section) else Counter[str]()
        return Report(many, attempt, tuple(k.report(many, attempt, sections) for k in self._of.values()))


class _KindTally:
    """The counts of one kind."""

    def __init__(self, kind: Kind) -> None:
        self.kind, self.sheets = kind, 0
        self.marks: list[float] = []
        self.by_section: dict[str, list[float]] = {}
        self.cells: Counter[tuple[str, str, str]] = Counter()  # (column, part, state)
        self.missing_in: Counter[tuple[str, str]] = Counter()  # sheets by ("column" or "part", which)
        self.columns: list[str] = []
        self.parts: list[str] = []
        self.series: dict[str, str] = {}  # part -> the row of like parts that it belongs to
        self.titles: dict[str, dict[str, None]] = {}  # column -> the titles it has been seen with
        self.stands_in: dict[str, dict[str, None]] = {}  # column -> the parts of the sheet it stands in
        self.slips: dict[str, list[int]] = {}  # key -> sheets, entries, entries beside another
        self.found: dict[str, list[float]] = {}
        self.stood = self.corrected = self.lost = 0

    def add(self, sheet: Marked) -> None:
        self.sheets += 1
        earned, possible = added(sheet.steps)
        share = earned / possible if possible else 0.0
        self.marks.append(share)
        self.by_section.setdefault(sheet.handed.student.section, []).append(share)
        self.series.update((group.common_name, group.series) for group in sheet.groups)
        part_of = {step.id: group.common_name for group in sheet.groups for step in group.steps}
        merge(self.columns, (mark.step.column for mark in sheet.steps))
        merge(self.parts, (part_of.get(mark.step.id, "") for mark in sheet.steps))
        missing: set[tuple[str, str]] = set()
        slips: dict[str, tuple[int, int]] = {}
        for mark in sheet.steps:
            step, state = mark.step, mark.verdict.state
            column, part = step.column, part_of.get(step.id, "")
            self.cells[column, part, state] += 1
            self.titles.setdefault(column, {})[step.title] = None
            self.stands_in.setdefault(column, {})[part] = None
            if state in MISSED:
                missing.update((("column", column), ("part", part)))
                for key in dict.fromkeys(mark.verdict.slips):
                    entries, shared = slips.get(key, (0, 0))
                    slips[key] = entries + 1, shared + (len(mark.verdict.slips) > 1)
            good = state in EARNS
            if mark.first:
                self.corrected, self.lost = self.corrected + good, self.lost + (not good)
            else:
                self.stood += good
        self.missing_in.update(missing)
        for key, (entries, shared) in slips.items():
            so_far = self.slips.setdefault(key, [0, 0, 0])
            so_far[:] = so_far[0] + 1, so_far[1] + entries, so_far[2] + shared
        for step_id, ratio in sheet.found:
            self.found.setdefault(step_id, []).append(ratio)

    def report(self, students: int, attempt: str, sections: Mapping[str, int]) -> KindReport:
        labels = labels_of(self.titles, self.stands_in)
        names = {s.key: s for s in self.kind.slips}
        slips = [SlipCount(names[k].name, names[k].read, *n) for k, n in self.slips.items()]
        return KindReport(
            self.kind,
            students,
            self.sheets,
            quartiles(sorted(self.marks)),
            tuple(StepCount(labels[c], self._counts(0, c), self.missing_in["column", c]) for c in self.columns),
            tuple(
                StepCount(p, self._counts(1, p), self.missing_in["part", p], self.series.get(p, "")) for p in self.parts
            ),
            {
                (p, labels[c]): self._counts(slice(2), (c, p))
                for p in self.parts
                for c in self.columns
                if p in self.stands_in[c]
            },
            tuple(sorted(slips, key=lambda s: (-s.sheets, -s.entries, s.name))),
            tuple(_spread(labels.get(step_id, step_id), found) for step_id, found in self.found.items()),
            Tries(self.stood, self.corrected, self.lost)
            if attempt == "last" and (self.corrected or self.lost)
            else None,
            tuple(self._section(section, many) for section, many in sections.items()),
        )

    def _section(self, section: str, students: int) -> SectionCount:
        shares = sorted(self.by_section.get(section, ()))
        return SectionCount(section, students, len(shares), quartiles(shares) if len(shares) >= FEW else ())

    def _counts(self, at: int | slice, which: str | tuple[str, str]) -> StateCounts:
        """Of a column (at 0), a part of the sheet (at 1), or a column in a part (both)."""
        by: Counter[str] = Counter()
        for key, number in self.cells.items():
            if key[at] == which:
                by["unread" if key[2] == "ask" else key[2]] += number
        return StateCounts(**by)


def _spread(label: str, ratios: Iterable[float]) -> Spread:
    near, powers, far = [], 0, 0
    for ratio in ratios:
        if 1 / FACTOR <= ratio <= FACTOR:
            near.append(100 * (ratio - 1))
        elif ratio > 0 and abs(ratio / 10.0 ** round(math.log10(ratio)) - 1) < POWER_NEAR:
            powers += 1
        else:
            far += 1
    near.sort()
    return Spread(label, tuple(near), quartiles(near), powers, far)

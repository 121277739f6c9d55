"""Which column of a list is the roll, which the name and which the section: a proposal, and what makes it doubtful."""

import re
from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple

from exercises.classroom.class_list.cells import Row, same_roll
from exercises.classroom.class_list.headings import ENROLLED, FULL, NAME, Meaning, meaning

Asked = Literal["roll", "name", "section", "lines"]  # what a choice can be about
MOSTLY = 0.75  # of the rows, where nearly all are meant: a short list may end with a few that are no students
_FIGURE, _LETTER = re.compile(r"\d"), re.compile(r"[^\W\d_]")
_SEARCHED = 30  # rows at the top, among which the headings are looked for


class Doubt(NamedTuple):
    """What is not certain about a proposal, and the sentence that says why."""

    about: Asked
    text: str


class Columns(NamedTuple):
    """Columns, from 0: of the roll, of the parts of the name in their order, and of the section."""

    roll: int
    names: tuple[int, ...] = ()
    section: int | None = None


class Column:
    """What stands in one column of the students' rows."""

    def __init__(self, at: int, heading: str, rows: Sequence[Row]) -> None:
        cells = [row.at(at) for row in rows]
        self.at, self.heading, self.many = at, heading, len(cells)
        self.means: Meaning | None = meaning(heading) if heading else None
        self.filled = sum(map(bool, cells))
        self.figures = sum(map(has_figure, cells))
        self.letters = sum(map(has_letter, cells))
        self.different = len({same_roll(cell) for cell in cells if cell})
        self.addresses = sum("@" in cell for cell in cells)
        self.wordy = sum(" " in cell and has_letter(cell) for cell in cells)
        self._serial = [cell.rstrip(".)") for cell in cells]

    def mostly(self, number: int) -> bool:
        """Whether nearly all rows have it."""
        return number >= MOSTLY * self.many

    @property
    def tells_apart(self) -> bool:
        """Whether nearly every row has something there, and no two the same."""
        return self.mostly(self.filled) and self.different == self.filled

    @property
    def serial(self) -> bool:
        """Whether the rows are numbered one by one."""
        first = self._serial[0] if self._serial else ""
        if not (first.isascii() and first.isdecimal() and len(first) < 8):
            return False
        found = [int(c) for c in self._serial if c.isascii() and c.isdecimal() and len(c) < 8]
        return self.mostly(len(found)) and found == list(range(int(first), int(first) + len(found)))

    @property
    def called(self) -> str:
        """How a sentence calls it."""
        return f"column {letter(self.at)}" + (f" “{self.heading[:60]}”" if self.heading else "")


def letter(at: int) -> str:
    """A column as a spreadsheet calls it.

    >>> letter(0), letter(27)
    ('A', 'AB')
    """
    return (letter(at // 26 - 1) if at > 25 else "") + chr(ord("A") + at % 26)


def has_figure(cell: str) -> bool:
    """Whether a figure of any script is in it."""
    return _FIGURE.search(cell) is not None


def has_letter(cell: str) -> bool:
    """Whether a letter of any script is in it."""
    return _LETTER.search(cell) is not None


def header_of(rows: Sequence[Row]) -> int | None:
    """Which row has the headings: the one with most that are known, a roll or a name among them."""
    best, found = 0, None
    for at, row in enumerate(rows[:_SEARCHED]):
        known = [m for cell in row.cells if cell and len(cell) < 60 and (m := meaning(cell))]
        uses = {m.use for m in known}
        score = len(known) if uses & {"roll", "name", "part"} else 0
        if score > best and (
            score > 1 or at == 0 or len(rows[at + 1 :]) and row.filled == 1 == usually_filled(rows[at + 1 :])
        ):
            best, found = score, at
    return found


def titles_of(rows: Sequence[Row]) -> tuple[int, bool]:
    """How many rows at the top are no students, in a list without known headings, and whether the last is a header."""
    usual, wide = usually_filled(rows), max((len(row.cells) for row in rows), default=0)
    many = 0
    while many < len(rows) - 1 and usual > 1 and rows[many].filled == 1:
        many += 1
    with_figures = [c for c in range(wide) if _all_have(rows[many + 1 :], c)]
    while many < len(rows) - 1 and not any(map(has_figure, rows[many].cells)) and with_figures:
        many += 1
        with_figures = [c for c in with_figures if _all_have(rows[many + 1 :], c)] or with_figures
    return many, many > 0 and rows[many - 1].filled >= min(usual, 2)


def _all_have(rows: Sequence[Row], column: int) -> bool:
    """Whether nearly all rows have a figure in this column."""
    return bool(rows) and sum(has_figure(row.at(column)) for row in rows) >= MOSTLY * len(rows)


def usually_filled(rows: Sequence[Row]) -> int:
    """How many cells are filled in the middle one of the rows."""
    return sorted(row.filled for row in rows)[len(rows) // 2] if rows else 0


def roll_of(columns: Sequence[Column]) -> tuple[int, list[Doubt]]:
    """Which column is the roll."""
    headed = [c for c in columns if c.means and c.means.use == "roll"]
    passed_over: list[Column] = []
    for rank in sorted({c.means.rank for c in headed if c.means}, reverse=True):
        of_rank = [c for c in headed if c.means and c.means.rank == rank]
        able = [c for c in of_rank if c.tells_apart]
        if rank < ENROLLED:
            able = [c for c in able if not c.serial] or able
        if able:
            told = []
            if len(able) > 1:
                told.append(f"The roll could be {_either(able)}.")
            if passed_over:
                why = "has empty cells, or the same roll twice"
                told.append(f"{_cap(passed_over[0].called)} {why}, so {able[0].called} is taken.")
            return able[0].at, [Doubt("roll", text) for text in told]
        passed_over += of_rank
    if passed_over:
        return passed_over[0].at, []  # what is wrong with its rolls is said when the list is read
    free = [c for c in columns if not c.means]
    serials = [c for c in columns if c.means and c.means.use == "serial"]
    with_figures = [c for c in free if c.mostly(c.figures) and not c.addresses]
    with_figures = [c for c in with_figures if not c.mostly(c.wordy)] or with_figures  # “12 Marsh Road” is no roll
    numbers = [c for c in with_figures if c.tells_apart] or with_figures[:1]
    others = [c for c in numbers if not c.serial] or numbers
    known = any(c.means for c in columns)
    if others and not known:
        named = any(c.heading for c in columns)
        doubtful = len(numbers) > 1 or (named and len(columns) > 2)
        told = [f"No heading is known, and the roll could be {_either(numbers)}."] if doubtful else []
        return others[0].at, [Doubt("roll", text) for text in told]
    if serials:
        text = f"There is no column of rolls, so {serials[0].called} would be used, which only numbers the lines."
        return serials[0].at, [Doubt("roll", text)]
    one = (others or free or list(columns))[0]
    return one.at, [Doubt("roll", f"No column is headed as a roll, so {one.called} would be used.")]


def names_of(columns: Sequence[Column], roll: int) -> tuple[tuple[int, ...], list[Doubt]]:
    """Which columns are the name."""
    there = [c for c in columns if c.at != roll]
    wholes = sorted((c for c in there if c.means and c.means.use == "name"), key=lambda c: -(c.means or (0, 0))[1])
    parts = [c.at for c in there if c.means and c.means.use == "part"]
    rank = wholes[0].means.rank if wholes and wholes[0].means else 0
    best = [c for c in wholes if c.means and c.means.rank == rank]
    if best and (rank == FULL or len(parts) != 1):
        told = [Doubt("name", f"The name could be {_either(best)}.")] if len(best) > 1 else []
        return (best[0].at,), told
    if best and rank == NAME:
        return tuple(sorted([best[0].at, *parts])), []
    if parts:
        return tuple(parts), []
    free = [c for c in there if not c.means and c.letters and c.mostly(c.letters) and not c.addresses]
    able = [c for c in free if c.different * 2 > c.filled] or free
    if not able:
        return (), []
    known = any(c.means for c in columns)
    if known or len(able) > 1:
        why = "No column is headed as a name" if known else "No heading is known"
        return (able[0].at,), [Doubt("name", f"{why}, and the name could be {_either(able)}.")]
    return (able[0].at,), []


def section_of(columns: Sequence[Column], taken: Iterable[int]) -> tuple[int | None, list[Doubt]]:
    """Which column is the section, if one is headed so."""
    taken = set(taken)
    found = [(c.means.rank, c) for c in columns if c.means and c.means.use == "section" and c.at not in taken]
    if not found:
        return None, []
    best = [c for rank, c in found if rank == max(rank for rank, _ in found)]
    return best[0].at, [Doubt("section", f"The section could be {_either(best)}.")] if len(best) > 1 else []


def _either(columns: Sequence[Column]) -> str:
    """Columns to choose from, in a sentence."""
    return re.sub(r", (?=[^,]*$)", " or ", ", ".join(c.called for c in columns[:5]))


def _cap(text: str) -> str:
    return text[:1].upper() + text[1:]

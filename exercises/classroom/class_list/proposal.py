"""How a class list would be read: columns, first and last line, what is left out, and what is not certain about it.

Nothing is guessed silently.  What a person chose stands; the rest is proposed.
"""

import re
from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from exercises.classroom.class_list.cells import Cells, RosterError, Row, cells_of, numbered, ranges_of
from exercises.classroom.class_list.columns import (
    MOSTLY,
    Asked,
    Column,
    Columns,
    Doubt,
    has_figure,
    has_letter,
    header_of,
    names_of,
    roll_of,
    section_of,
    titles_of,
    usually_filled,
)
from exercises.classroom.class_list.headings import meaning
from exercises.working.words import listed

NOWHERE = -1  # the section's column where a person chose none
_FLOAT = re.compile(r"\d+\.0", re.ASCII)
_NUMBERING = re.compile(r"\(?(\d{1,3})[).]?", re.ASCII)


class Chosen(NamedTuple):
    """What a person chose; None is left to the proposal.

    roll, names, section  columns, from 0; `NOWHERE` and () are none
    above, below          how many rows that are not empty stand before the first student and after the last
    never                 columns that are not to be proposed
    sure                  whether the person looked at the proposal and agrees
    """

    roll: int | None = None
    names: tuple[int, ...] | None = None
    section: int | None = None
    above: int | None = None
    below: int | None = None
    never: frozenset[int] = frozenset()
    sure: bool = False


PROPOSED = Chosen()  # nothing was chosen


class Proposal(NamedTuple):
    """How a list is read.

    rolls     of ranges, such as 1-60; then there are no columns
    cells     of the list; of lines such as "12. Knot" each line has two
    headings  of the columns, or ()
    students  the rows of students;  aside  the other rows, in their order
    doubts    what is not certain; none if it is certain
    """

    cells: Cells
    columns: Columns
    headings: Sequence[str] = ()
    above: int = 0
    below: int = 0
    students: Sequence[Row] = ()
    aside: Sequence[Row] = ()
    doubts: Sequence[Doubt] = ()
    rolls: Sequence[str] | None = None

    def called(self, at: int) -> str:
        """How a sentence calls a column."""
        return Column(at, self.headings[at] if at < len(self.headings) else "", ()).called


def propose(text: str, chosen: Chosen = PROPOSED) -> Proposal:
    """How a list is to be read.  RosterError, with a sentence, where it has no students or its cells are not clear."""
    rolls = ranges_of(text)
    if rolls is not None:
        return Proposal(Cells((), ",", 1), Columns(0), rolls=rolls)
    cells = cells_of(text)
    above, header = _top(cells.rows, chosen.above)
    headings = cells.rows[header].cells if header is not None else ()
    below = min(chosen.below or 0, max(0, len(cells.rows) - above - 1))
    if above >= len(cells.rows):
        raise RosterError("There is no student in this class list.")
    body = cells.rows[above : len(cells.rows) - below]
    known = [m.use for h in headings if (m := meaning(h))]
    if "roll" not in known and (split := numbered(body)):
        body, headings = tuple(split), ()
        rows = (*cells.rows[:above], *split, *cells.rows[len(cells.rows) - below :])
        cells = Cells(rows, cells.separator, 2)
    columns, doubts = _columns(cells, body, headings, chosen)
    students, aside, more = _sorted_out(body, cells.rows[:above], columns)
    doubts += more + _of_rows(cells.rows[:above], students, headings, columns, header)
    settled: dict[Asked, bool] = {
        "roll": chosen.roll is not None,
        "name": chosen.names is not None,
        "section": chosen.section is not None,
        "lines": chosen.above is not None or chosen.below is not None,
    }
    doubts = [d for d in doubts if not (chosen.sure or settled[d.about])]
    left = (*cells.rows[:above], *aside, *cells.rows[len(cells.rows) - below :])
    return Proposal(cells, columns, headings, above, below, students, left, doubts)


def _top(rows: Sequence[Row], chosen: int | None) -> tuple[int, int | None]:
    """How many rows stand above the first student, and which of them has the headings."""
    if chosen is not None:
        above = min(chosen, max(0, len(rows) - 1))
        header = header_of(rows[:above])
        return above, header if header is not None or not above or rows[above - 1].filled < 2 else above - 1
    header = header_of(rows)
    if header is not None:
        return header + 1, header
    above, headed = titles_of(rows)
    return above, above - 1 if headed else None


def _columns(cells: Cells, body: Sequence[Row], headings: Sequence[str], chosen: Chosen) -> tuple[Columns, list[Doubt]]:
    """The columns, as they were chosen or by what stands in them, and what is not certain about them."""
    usual = usually_filled(body)
    plain = [row for row in body if row.cells != headings and not (usual > 1 and row.filled == 1)] or body
    every = [Column(at, headings[at] if at < len(headings) else "", plain) for at in range(cells.wide)]
    every = [column for column in every if column.at not in chosen.never] or every
    roll, doubts = roll_of(every) if chosen.roll is None else (chosen.roll, [])
    names, section = chosen.names, chosen.section
    if names is None:
        names, more = names_of([c for c in every if c.at != section], roll)
        doubts += more
    if section is None:
        section, more = section_of(every, (roll, *names))
        doubts += more
    return Columns(roll, names, None if section == NOWHERE else section), doubts


def _sorted_out(
    body: Sequence[Row], above: Sequence[Row], columns: Columns
) -> tuple[list[Row], list[Row], list[Doubt]]:
    """The rows of students, the others, and a doubt about others that stand between students."""
    rolls = [row.at(columns.roll) for row in body]
    figures = sum(map(has_figure, rolls)) >= MOSTLY * len(body)
    spaced = sum(" " in roll for row, roll in zip(body, rolls) if row.filled > 1) * 2 > len(body)
    named = sum(any(map(row.at, columns.names)) for row in body) >= MOSTLY * len(body)
    usual = usually_filled(body)
    seen = [row.cells for row in above]  # a page's head may come again
    students: list[Row] = []
    aside: list[Row] = []
    strange: list[int] = []  # lines that may say something of the students below them
    between: list[int] = []
    for row, roll in zip(body, rolls):
        name = " ".join(filter(None, map(row.at, columns.names)))
        wordy = bool(roll) and figures and not has_figure(roll)
        alone = named and row.filled == 1 and bool(roll) and (wordy or (not spaced and " " in roll))
        again = row.cells in seen
        alone = alone or (not roll and row.filled == 1 < usual - 1)
        if again or alone or not (roll or name) or (wordy and not has_letter(name)):
            aside.append(row)
            strange += [] if again or not students else [row.line]
        elif not students and _numbers_columns(row):
            aside.append(row)
        else:
            students.append(row)
            between += strange
            strange = []
    told = f"{_lines(between)} between the students {'is' if len(between) == 1 else 'are'} left out." if between else ""
    return students, aside, [Doubt("lines", told)] if told else []


def _numbers_columns(row: Row) -> bool:
    """Whether a row only numbers the columns: (1) (2) (3)."""
    found = [match[1] for cell in row.cells if (match := _NUMBERING.fullmatch(cell))]
    return len(found) == len(row.cells) > 2 and found == [str(n) for n in range(1, len(found) + 1)]


def _of_rows(
    above: Sequence[Row], students: Sequence[Row], headings: Sequence[str], columns: Columns, header: int | None
) -> list[Doubt]:
    """What single rows make doubtful."""
    doubts: list[Doubt] = []

    def doubt(about: Asked, rows: Sequence[Row], one: str, more: str) -> None:
        if rows:
            doubts.append(Doubt(about, f"{_lines([row.line for row in rows])} {one if len(rows) == 1 else more}."))

    roll, names = columns.roll, columns.names
    with_figure = [row for row in students if has_figure(row.at(roll))]
    if len(with_figure) * 2 > len(students):
        odd = [row for row in students if row.at(roll) and not has_figure(row.at(roll))]
        doubt("roll", odd, "has a roll without a figure", "have rolls without a figure")
    if students and all(_FLOAT.fullmatch(row.at(roll)) for row in students):
        doubts.append(Doubt("roll", "All rolls end in “.0”, which a spreadsheet may have added."))
    if names:
        odd = [r for r in students if any(map(r.at, names)) and not any(has_letter(r.at(at)) for at in names)]
        doubt("name", odd, "has a name without a letter", "have names without a letter")
    usual = len(headings) or Counter(len(row.cells) for row in students).most_common(1)[0][0] if students else 0
    alone = [row for row in students if names and row.filled == 1]
    doubt("lines", alone if len(alone) * 2 < len(students) else (), "has a roll alone", "have rolls alone")
    wide = [row for row in students if len(row.cells) > usual]
    more = "more cells than there are headings" if headings else "more cells than most lines"
    doubt("lines", wide, f"has {more}", f"have {more}")
    early = [
        row
        for row in above[: header or 0]
        if has_figure(row.at(roll))
        and any(has_letter(row.at(at)) for at in names)
        and not any(cell.endswith(":") for cell in row.cells)
    ]
    doubt("lines", early, "above the headings may be a student", "above the headings may be students")
    run_together = [
        row for row in students if " " in row.at(roll) and has_letter(row.at(roll)) and has_figure(row.at(roll))
    ]
    if not names and len(run_together) * 2 > len(students) and max(len(row.cells) for row in students) == 1:
        doubts.append(Doubt("lines", "Each line is one cell, so the roll cannot be told from the rest of it."))
    return doubts


def _lines(lines: Sequence[int]) -> str:
    """Lines at the beginning of a sentence.

    >>> _lines([7]), _lines([7, 9])
    ('Line 7', 'Lines 7 and 9')
    """
    shown = [str(line) for line in lines[:5]] + ["more"] * (len(lines) > 5)
    return f"Line{'s' if len(lines) > 1 else ''} {listed(shown)}"

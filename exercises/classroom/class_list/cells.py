"""The cells of a class list's text: its rows, each with its line, and the separator between the cells; or ranges."""

import re
import unicodedata
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from exercises.classroom.refused import Refused
from exercises.files.tables import FORMULA_STARTS, TableError, rows_of
from exercises.files.text import LARGEST, without_mark

MOST_STUDENTS = 100_000
MOST_OTHERS = 1_000  # rows of a list that are no students: titles, heads of further pages, sums
SEPARATORS = "\t;,"  # in this order where two are on equally many lines
MOST_COLUMNS = 200
_JOINERS = "\u200c\u200d"  # spelling in some scripts depends on them
_RANGE = re.compile(r"(\d{1,9})(?:\s*(?:-|\.\.|…|\bto\b)\s*(\d{1,9}))?", re.ASCII)
_DASHES = str.maketrans("–—−‐‑", "-----")
_NUMBERED = re.compile(r"(\d{1,9})(?:[.):]\s*|\s+)([^\W\d].*)")


class RosterError(Refused):
    """A class list that cannot be used; the text says why, and where to look."""

    part = "list"


class Row(NamedTuple):
    """A row that is not empty: the number of its first line, from 1, and its cells, cleaned."""

    line: int
    cells: Sequence[str]

    def at(self, column: int) -> str:
        """The cell of a column, or "" beyond the last."""
        return self.cells[column] if column < len(self.cells) else ""

    @property
    def filled(self) -> int:
        """How many cells are not empty."""
        return sum(map(bool, self.cells))


class Cells(NamedTuple):
    """The rows of a list, what stands between their cells, and how many columns the widest has."""

    rows: tuple[Row, ...]
    separator: str
    wide: int


def cells_of(text: str) -> Cells:
    """The rows of a list that are not empty.  RosterError if they cannot be told apart, or are too many."""
    if len(text) > LARGEST:
        raise RosterError(f"This class list has {len(text):,} characters; at most {LARGEST:,} are read.")
    text = without_mark(text)
    told = re.match(r"sep=([,;\t])(\r\n|\r|\n)", text, re.IGNORECASE)  # as some spreadsheets write it
    start = 1 if told else 0
    body = text[told.end() :] if told else text
    separator = told[1] if told else _separator(body)
    rows: list[Row] = []
    try:
        for row in rows_of(body, separator):
            cells = [clean(_as_text(cell), " ") for cell in row.cells]
            if any(cell.strip(SEPARATORS + " ") for cell in cells):  # “;;” is empty, whatever the separator
                while not cells[-1]:
                    del cells[-1]
                rows.append(Row(start + row.first, cells))
            if len(cells) > MOST_COLUMNS:
                raise RosterError(
                    f"Line {start + row.first} has {len(cells):,} cells; at most {MOST_COLUMNS} are read."
                )
            if len(rows) > MOST_STUDENTS + MOST_OTHERS:
                raise too_many()
    except TableError as error:
        line = start + error.first
        if error.too_long:
            raise RosterError(f"Line {line} has a cell too long for a roll or a name.") from None
        raise RosterError(
            f"From line {line} on the cells cannot be told apart: a quotation mark that opens a cell must close "
            "it, before the next separator. Mend it or take it out."
        ) from None
    return Cells(tuple(rows), separator, max((len(row.cells) for row in rows), default=0))


def ranges_of(text: str) -> list[str] | None:
    """The rolls of "1-30, 41-60", or None if the text is something else.  RosterError if they cannot be used."""
    text = without_mark(text).strip()
    if "\n" in text or "\r" in text or len(text) > 4000:
        return None
    line = clean(text, "").translate(_DASHES)
    parts = re.split("[,;]", line)
    found = [match for part in parts if (match := _RANGE.fullmatch(part.strip()))]
    if len(found) < len(parts):
        return None
    if len(found) == 1 and not found[0][2]:
        one = found[0][1]
        raise RosterError(
            f"The number {one} alone is one roll. Did you mean 1-{one}? For one student alone write {one}-{one}."
        )
    rolls: list[str] = []
    for match in found:
        low, high = match[1], match[2] or match[1]
        if int(high) < int(low):
            raise RosterError(f"The range {match[0]} runs downwards. Write the smaller roll number first.")
        if len(rolls) + int(high) - int(low) >= MOST_STUDENTS:
            raise RosterError(f"With {match[0]} these are more than {MOST_STUDENTS:,} students, the most of one class.")
        width = len(low) if low.startswith("0") else 0  # 001-060 keeps its noughts
        rolls += [f"{n:0{width}d}" for n in range(int(low), int(high) + 1)]
    return rolls


def rolls_of(text: str, of_class: Iterable[str] = ()) -> list[str]:
    """The rolls of "7, 9-12, PH-3", for choosing some of a class; a roll alone is meant here, and is one.

    of_class  its rolls: one that looks like a range, such as 23-045, is that roll

    >>> rolls_of("7, 9-11; PH-3")
    ['7', '9', '10', '11', 'PH-3']
    >>> rolls_of("23-045, 1-2", ["23-044", "23-045"])
    ['23-045', '1', '2']
    """
    found: list[str] = []
    known = set(map(same_roll, of_class))
    for part in filter(None, (clean(part, "") for part in re.split("[,;\t\r\n]", text))):
        match = None if same_roll(part) in known else _RANGE.fullmatch(part.translate(_DASHES))
        is_range = match is not None and match[2] and int(match[1]) <= int(match[2])
        found += (ranges_of(part) or []) if is_range else [part]
    return found


def same_roll(roll: str) -> str:
    """The roll as it is compared and hashed: capitals and wide forms make no other student."""
    if roll.isascii():
        return roll.casefold()
    return unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", roll).casefold())


def too_many() -> RosterError:
    """What is said of a list with too many students."""
    return RosterError(f"This class list has more than {MOST_STUDENTS:,} students, the most of one class.")


def numbered(rows: Sequence[Row]) -> list[Row]:
    """Rows such as "12. Ringed Plover", each as a number and a name; none if not all of them are such."""
    found = []
    for row in rows:
        match = _NUMBERED.fullmatch(" ".join(row.cells).strip()) if row.filled == 1 else None
        if not match:
            return []
        found.append(Row(row.line, [match[1], match[2]]))
    return found


def clean(text: str, gap: str) -> str:
    """One line of what can be seen.  An apostrophe that our own tables put before a formula's sign comes off.

    gap  " " in a name, whose spelling may need its joiners; "" in a roll, where nothing invisible may stand
    """
    if text.isascii() and text.isprintable():
        plain = " ".join(text.split())
    else:
        seen = []
        for c in unicodedata.normalize("NFC", text):
            kind = unicodedata.category(c)
            if kind == "Cs":
                seen.append("\ufffd")  # half a character: it could not be written again
            elif kind == "Cc":
                seen.append(" ")
            elif kind != "Cf" or (gap and c in _JOINERS):
                seen.append(c)
        plain = " ".join("".join(seen).split())
    return re.sub(rf"^'+(?=[{re.escape(FORMULA_STARTS)}])", "", plain) if plain[:1] == "'" else plain


def _as_text(cell: str) -> str:
    """The cell, taken out of ="…": so some programs write a number that a spreadsheet must not change."""
    return cell[2:-1] if cell[:2] == '="' and cell[-1:] == '"' and len(cell) > 2 else cell


def _separator(text: str) -> str:
    """The separator that is on the most lines, outside quotation marks; a comma where none is on any."""
    bare = re.sub(r'"[^"]*"', "", text)
    lines = [line for line in re.split(r"[\r\n]+", bare) if line.strip(SEPARATORS + " ")]
    counts = {mark: sum(mark in line for line in lines) for mark in SEPARATORS}
    return max(SEPARATORS, key=lambda mark: counts[mark]) if any(counts.values()) else SEPARATORS[-1]

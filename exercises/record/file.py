"""The record file: CSV that a spreadsheet makes and that reads as a record.

Head lines first, a label and its value each; then one line of headings and a
line for each distance; the results may stand before or after.  Columns are
found by the words of their headings, so they may come in any order and any may
be missing.  Commas, semicolons or tabs may separate the cells.
"""

import csv
import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from exercises.files.tables import lines
from exercises.files.text import without_mark
from exercises.record.entries import COLUMNS, HEAD, MOST_ROWS, READINGS, RESULTS, Field, Record, Row
from exercises.record.headings import (
    IN_ORDER,
    Heading,
    field_of_label,
    head_value,
    headings_for,
    headings_of,
    is_number,
    position_of,
    row_values,
)
from exercises.record.position import KEY, TAN_A, TAN_B, Position, position_named

LARGEST = 2_000_000  # bytes; a record of eight distances has about two thousand
LONGEST_CELL = 200  # characters
MOST_LINES, MOST_CELLS, LONGEST_LINE = 1000, 60, 20_000  # of a file; of a line, the last in characters
NAME = "Eight Readings"  # a line that begins with it is the title of a record
TITLE = f"{NAME}: a laboratory record"
SEPARATORS = "\t;,"


class RecordError(ValueError):
    """A record that cannot be read at all; the text says why and what to do."""


@dataclass(frozen=True)
class OpenedRecord:
    """A record that was read, and a sentence for each thing that was taken for granted or left out.

    lines  the number of the line that each head cell (by key) and each distance (by number) stands on
    """

    record: Record
    notes: tuple[str, ...]
    lines: Mapping[str | int, int] = field(default_factory=dict)


def decode(raw: bytes) -> str:
    """The text of a file in UTF-8, UTF-16 or a Western spreadsheet's own letters.  RecordError if it is too large."""
    if len(raw) > LARGEST:
        raise RecordError(
            f"This file has {len(raw):,} bytes; a record has a few thousand, and at most {LARGEST:,} are read. "
            "Is it the right file? Save the sheet with the record alone as CSV."
        )
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return raw.decode("utf-16", "replace")
    if raw.startswith((b"PK", b"\xd0\xcf\x11\xe0", b"%PDF")) or b"\x00" in raw[:1000]:
        raise RecordError(
            "This is not a CSV file. In the spreadsheet choose “Save as” and CSV UTF-8, and open that file."
        )
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        return raw.decode("cp1252", "replace")


def opened(text: str) -> OpenedRecord:
    """The record in a text.  RecordError if there is nothing in it that looks like one."""
    if len(text) > LARGEST:
        raise RecordError(
            f"This text has {len(text):,} characters; at most {LARGEST:,} are read. Is it the right file?"
        )
    table = _table(text)
    reading = _Reading(table.notes)
    for line, cells in table.lines:
        reading.take(line, cells)
    return reading.opened()


def written(record: Record) -> str:
    """The record as CSV text; a cell that a spreadsheet would run as a formula is kept from it."""
    position = record.position
    head = {**record.head, KEY: position.name} if record.head.get(KEY, "").strip() else record.head
    out: list[Iterable[str]] = [(f"{TITLE} in the {position.name} position",)]
    out += [(_label(f), head.get(f.key, "")) for f in HEAD]
    out += [(), headings_for(position)]
    out += [(r.d, *r.readings, *(getattr(r, c) for c in COLUMNS)) for r in record.rows]
    out += [(), *((_label(f), record.head.get(f.key, "")) for f in RESULTS)]
    return lines(out)


def blank(rows: int = 5, position: Position = TAN_A) -> str:
    """An empty record to fill in."""
    return written(Record({KEY: position.name}, (Row(),) * rows))


def _label(f: Field) -> str:
    return f"{f.label} ({f.unit})" if f.unit else f.label


@dataclass(frozen=True)
class _Table:
    """The lines of a file that are not empty, (number, cells), and a note for each thing that was left out."""

    lines: list[tuple[int, list[str]]]
    notes: list[str]


def _table(text: str) -> _Table:
    text = without_mark(text)
    named = re.match(r"sep=([,;\t])(\r\n|\r|\n)", text, re.IGNORECASE)  # a spreadsheet's own first line
    start = 1 if named else 0
    body = re.sub(r"\r\n?|[\v\f\x85\u2028\u2029]", "\n", text[named.end() :] if named else text)
    mark = named[1] if named else _separator(body)
    every = body.split("\n")
    table = _Table([], [])
    if len(every) > MOST_LINES:
        table.notes.append(f"The first {MOST_LINES:,} lines were read; there are {len(every):,}.")
    for line, text_line in enumerate(every[:MOST_LINES], start + 1):
        cells = _cells(line, text_line, mark, table.notes)
        if any(c.strip(SEPARATORS + " ") for c in cells):
            table.lines.append((line, cells))
    return table


def _cells(line: int, text: str, mark: str, notes: list[str]) -> list[str]:
    """The cells of one line, cleaned, and no more nor longer than are read."""
    if len(text) > LONGEST_LINE:
        notes.append(f"Line {line} has {len(text):,} characters; the first {LONGEST_LINE:,} were read.")
        text = text[:LONGEST_LINE]
    # a line at a time: a quotation mark left open spoils no other, and is left out
    closed = text.count('"') % 2 == 0
    cells = next(csv.reader([text], delimiter=mark), []) if closed else text.replace('"', "").split(mark)
    if len(cells) > MOST_CELLS:
        notes.append(f"Line {line} has {len(cells):,} cells; the first {MOST_CELLS} were read.")
    cells = [_clean(c) for c in cells[:MOST_CELLS]]
    if any(len(c) > LONGEST_CELL for c in cells):
        notes.append(f"Line {line} has a cell of more than {LONGEST_CELL} characters; what is beyond was left out.")
        cells = [c[:LONGEST_CELL] for c in cells]
    return cells


def _separator(body: str) -> str:
    """The mark that is on the most lines outside quotation marks; of two, the one that is no decimal mark."""
    bare = [re.sub(r'"[^"\n]*"', "", line) for line in body.split("\n")[:400]]
    counts = {mark: sum(line.count(mark) > 0 for line in bare) for mark in SEPARATORS}
    widest = {mark: max((line.count(mark) for line in bare), default=0) for mark in SEPARATORS}
    return max(SEPARATORS, key=lambda m: (widest[m] >= 5 and m != ",", counts[m]))


def _clean(cell: str) -> str:
    """The cell without marks that cannot be seen, and without the apostrophe that guards against a formula."""
    kinds = [(c, unicodedata.category(c)) for c in cell]
    kept = "".join(" " if kind in ("Cc", "Zs") else c for c, kind in kinds if kind not in ("Cf", "Cs"))
    return re.sub(r"^'+(?=[=+\-@])", "", " ".join(kept.split()))


class _Reading:
    """A record while its lines are read, one after the other."""

    def __init__(self, notes: list[str]):
        self.notes = notes
        self.head: dict[str, str] = {}
        self.rows: list[Row] = []
        self.lines: dict[str | int, int] = {}
        self.columns: dict[int, Heading] = {}
        self.by_headings: Position | None = None
        self.too_many = 0

    def take(self, line: int, cells: list[str]) -> None:
        """One line: headings, a distance, or a line of the head."""
        if headings := headings_of(cells):
            if self.columns:
                self.notes.append(f"Line {line} was taken as a second line of headings.")
            self.columns = headings
            self.by_headings = self.by_headings or position_of(cells)
        elif self.columns and self._is_row(cells):
            if len(self.rows) == MOST_ROWS:
                self.too_many += 1
            else:
                self._take_row(line, cells)
        elif not self.columns and _is_row_alone(cells):
            self.notes.append(
                f"No headings were found before line {line}, so its cells were taken in the order of an empty record."
            )
            self.columns = IN_ORDER
            self._take_row(line, cells)
        else:
            self._take_head(line, cells)

    def _is_row(self, cells: list[str]) -> bool:
        numbers = sum(i < len(cells) and is_number(cells[i]) for i in self.columns)
        plain = not cells[0] or is_number(cells[0])  # a label has more in its cell
        return field_of_label(cells[0]) is None and numbers >= (1 if plain else 2)

    def _take_row(self, line: int, cells: list[str]) -> None:
        """A distance; left out, with a note, where its cells cannot be told apart."""
        width = max(self.columns) + 1
        if any(is_number(c) for c in cells[width:]):
            self.notes.append(
                f"Line {line} has {len(cells)} cells under {width} headings, so it was left out. Where the comma is "
                "the decimal mark, save the record with semicolons between the cells."
            )
            return
        beyond = [c for i, c in enumerate(cells) if c and i not in self.columns]
        if beyond:
            what = beyond[0][:30]
            self.notes.append(
                f"Line {line}: “{what}” stands in a column that is none of the record's, and was left out."
            )
        values = row_values(cells, self.columns, self._position())
        readings = tuple(values.get(reading, "") for reading in READINGS)
        self.rows.append(Row(values.get("d", ""), readings, *(values.get(c, "") for c in COLUMNS)))
        self.lines[len(self.rows)] = line

    def _position(self) -> Position:
        return position_named(self.head.get(KEY, "")) or self.by_headings or TAN_A

    def _take_head(self, line: int, cells: list[str]) -> None:
        """A line of the head; left out, with a note, where it is not understood or comes again."""
        label = cells[0]
        if label.startswith(NAME):
            return
        known = field_of_label(label)
        rest = [c for c in cells[1:] if c]
        if known is None:
            if rest or self.columns or is_number(label):  # a title above the record may stand
                left_out = ", ".join(c for c in cells if c)[:60]
                self.notes.append(f"Line {line} was not understood and left out: “{left_out}”.")
        elif rest and self.head.get(known.key):
            first = self.head[known.key][:30]
            self.notes.append(f"Line {line} gives the {known.label} a second time; the first, “{first}”, is kept.")
        elif rest:
            self.head[known.key] = head_value(known, label, rest)
            self.lines[known.key] = line

    def opened(self) -> OpenedRecord:
        """What was read.  RecordError if there was nothing that looks like a record."""
        if self.too_many:
            self.notes.append(
                f"At most {MOST_ROWS} distances are checked: the {self.too_many:,} after them were left out."
            )
        if not self.rows and not self.head and not self.columns:
            raise RecordError(
                "Nothing here looks like a record: no line of headings such as “d (cm)”, and none that begins with a "
                "word such as “measured length (cm)”. Take an empty record and fill it in."
            )
        self._settle_position()
        return OpenedRecord(Record(self.head, tuple(self.rows)), tuple(self.notes), self.lines)

    def _settle_position(self) -> None:
        """The position by its key: as the record says, or else as its headings show it; a record of before is tan A."""
        said = self.head.get(KEY, "")
        named, found = position_named(said), self._position()
        if said and named is None:
            self.notes.append(
                f"The position “{said[:30]}” was not read: it is tan A or tan B. This record was taken as "
                f"{found.name}, {found.lies}."
            )
        elif named and self.by_headings and named is not self.by_headings:
            self.notes.append(
                f"The record says {named.name}, and its headings are those of {self.by_headings.name}. It was taken as "
                f"{named.name}: see whether that is so."
            )
        elif not said and found is TAN_B:
            self.notes.append("The headings are those of tan B, so this record was taken as tan B.")
        if found is TAN_B or said:
            self.head[KEY] = found.key


def _is_row_alone(cells: list[str]) -> bool:
    """Whether a line is a distance even where there are no headings: nine numbers, and nothing but numbers."""
    return sum(map(is_number, cells)) >= 9 and all(is_number(c) or not c for c in cells)

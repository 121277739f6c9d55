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

from exercises.bench.instrument import EIGHT
from exercises.classroom.class_list.tables import lines
from exercises.record.entries import (
    COLUMNS,
    FIELDS,
    HEAD,
    MOST_ROWS,
    QUANTITY,
    RESULTS,
    Field,
    Record,
    Row,
)
from exercises.working.quantities import QUANTITIES, plain_unit

LARGEST = 2_000_000  # bytes; a record of eight distances has about two thousand
LONGEST_CELL = 200  # characters
MOST_LINES, MOST_CELLS, LONGEST_LINE = 1000, 60, 20_000  # of a file; of a line, the last in characters
TITLE = "Eight Readings: a laboratory record in the tan A position"
SEPARATORS = "\t;,"
HEADINGS = (
    "d (cm)",
    *(f"{arm} arm N {north} end {end} (degrees)" for arm, north, end in EIGHT),
    "mean theta (degrees)",
    "tan theta",
    "(d2-l2)2 (m4)",
    "moment (A m2)",
)
#: Words by which a head cell is known, besides its label.
ALSO = {
    "name": ("name", "student", "observed by", "by"),
    "length": ("length", "magnet length", "length of the magnet", "measured length of the magnet", "l measured"),
    "two_l": ("2l", "magnetic length", "two l"),
    "B_H": ("bh", "b h", "b_h", "horizontal field", "earth s field", "horizontal component"),
    "height": ("height above sea level", "altitude", "elevation"),
    "step": ("step", "scale step in degrees", "least count", "division"),
    "box": ("box radius", "radius of box", "box"),
    "needle": ("needle", "needle length"),
    "mean-moment": ("mean m", "moment m", "magnetic moment", "m mean"),
    "pole": ("p", "pole strength p"),
}


class RecordError(ValueError):
    """A record that cannot be read at all; the text says why and what to do."""


@dataclass(frozen=True)
class Opened:
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


def opened(text: str) -> Opened:
    """The record in a text.  RecordError if there is nothing in it that looks like one."""
    if len(text) > LARGEST:
        raise RecordError(
            f"This text has {len(text):,} characters; at most {LARGEST:,} are read. Is it the right file?"
        )
    notes: list[str] = []
    table = _table(text.removeprefix("\ufeff"), notes)
    head: dict[str, str] = {}
    rows: list[Row] = []
    places: dict[str | int, int] = {}
    columns: dict[int, tuple[str, str]] = {}
    over = 0
    for line, cells in table:
        if found := _headings(cells):
            if columns:
                notes.append(f"Line {line} was taken as a second line of headings.")
            columns = found
            continue
        if columns and _is_row(cells, columns):
            if len(rows) == MOST_ROWS:
                over += 1
            elif row := _row(line, cells, columns, notes):
                rows.append(row)
                places[len(rows)] = line
            continue
        if not columns and sum(map(_is_number, cells)) >= 9 and all(_is_number(c) or not c for c in cells):
            notes.append(
                f"No headings were found before line {line}, so its cells were taken in the order of an empty record."
            )
            columns = {i: column for i, column in enumerate(_in_order())}
            if row := _row(line, cells, columns, notes):
                rows.append(row)
                places[len(rows)] = line
            continue
        if key := _head_cell(line, cells, head, notes, bool(columns)):
            places[key] = line
    if over:
        notes.append(f"At most {MOST_ROWS} distances are checked: the {over:,} after them were left out.")
    if not rows and not head and not columns:
        raise RecordError(
            "Nothing here looks like a record: no line of headings such as “d (cm)”, and none that begins with a word "
            "such as “measured length (cm)”. Take an empty record and fill it in."
        )
    return Opened(Record(head, tuple(rows)), tuple(notes), places)


def written(record: Record) -> str:
    """The record as CSV text; a cell that a spreadsheet would run as a formula is kept from it."""
    out: list[Iterable[str]] = [(TITLE,)]
    out += [(_label(f), record.head.get(f.key, "")) for f in HEAD]
    out += [(), HEADINGS]
    out += [(r.d, *r.readings, *(getattr(r, c) for c in COLUMNS)) for r in record.rows]
    out += [(), *((_label(f), record.head.get(f.key, "")) for f in RESULTS)]
    return lines(out)


def blank(rows: int = 5) -> str:
    """An empty record to fill in."""
    return written(Record({}, (Row(),) * rows))


def _label(f: Field) -> str:
    return f"{f.label} ({f.unit})" if f.unit else f.label


def _table(text: str, notes: list[str]) -> list[tuple[int, list[str]]]:
    """The lines that are not empty: (number, cells)."""
    told = re.match(r"sep=([,;\t])(\r\n|\r|\n)", text, re.IGNORECASE)
    start = 1 if told else 0
    body = text[told.end() :] if told else text
    body = re.sub(r"\r\n?|[\v\f\x85\u2028\u2029]", "\n", body)
    mark = told[1] if told else _separator(body)
    table, every = [], body.split("\n")
    if len(every) > MOST_LINES:
        notes.append(f"The first {MOST_LINES:,} lines were read; there are {len(every):,}.")
    for line, text_line in enumerate(every[:MOST_LINES], start + 1):
        if len(text_line) > LONGEST_LINE:
            notes.append(f"Line {line} has {len(text_line):,} characters; the first {LONGEST_LINE:,} were read.")
            text_line = text_line[:LONGEST_LINE]
        # a line at a time: a quotation mark left open spoils no other, and is left out
        whole = text_line.count('"') % 2 == 0
        cells = next(csv.reader([text_line], delimiter=mark), []) if whole else text_line.replace('"', "").split(mark)
        if len(cells) > MOST_CELLS:
            notes.append(f"Line {line} has {len(cells):,} cells; the first {MOST_CELLS} were read.")
        cells = [_clean(c) for c in cells[:MOST_CELLS]]
        if any(len(c) > LONGEST_CELL for c in cells):
            notes.append(f"Line {line} has a cell of more than {LONGEST_CELL} characters; what is beyond was left out.")
            cells = [c[:LONGEST_CELL] for c in cells]
        if any(c.strip(SEPARATORS + " ") for c in cells):
            table.append((line, cells))
    return table


def _separator(body: str) -> str:
    """The mark that is on the most lines outside quotation marks; of two, the one that is no decimal mark."""
    bare = [re.sub(r'"[^"\n]*"', "", line) for line in body.split("\n")[:400]]
    counts = {mark: sum(line.count(mark) > 0 for line in bare) for mark in SEPARATORS}
    widest = {mark: max((line.count(mark) for line in bare), default=0) for mark in SEPARATORS}
    return max(SEPARATORS, key=lambda m: (widest[m] >= 5 and m != ",", counts[m]))


def _clean(cell: str) -> str:
    kinds = [(c, unicodedata.category(c)) for c in cell]
    kept = "".join(" " if kind in ("Cc", "Zs") else c for c, kind in kinds if kind not in ("Cf", "Cs"))
    return re.sub(r"^'+(?=[=+\-@])", "", " ".join(kept.split()))


def _words(cell: str) -> str:
    plain = unicodedata.normalize("NFKC", cell).casefold().replace("θ", " theta ").replace("ø", " theta ")
    plain = plain.translate(str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789"))
    if not plain.startswith("("):
        plain = re.sub(r"[(\[/,].*", "", plain)  # a unit
    return " ".join(re.sub(r"[\W_]+", " ", plain).split())


def _is_number(cell: str) -> bool:
    return bool(re.match(r"[+\-−]?\s*[.,]?\d", cell))


_EIGHT = re.compile(
    r"(?:magnet on )?(?:the )?(east|west|e|w) arm (?:magnet )?(?:n|north)(?: pole)?(?: points| to)? (east|west|e|w) "
    r"(?:end )?([12])\b"
)
_UNIT = re.compile(r"[(\[/,]\s*([^()\[\]/,]*?)\s*[)\]]?\s*$")


def _unit(cell: str, quantity: str) -> str:
    """The unit in a heading such as “d (mm)”, “d/mm” or “d, mm”, or ""."""
    found = _UNIT.search(cell)
    unit = found[1] if found else ""
    if not unit or quantity not in QUANTITIES:
        return ""
    return unit if plain_unit(unit) in QUANTITIES[quantity].units else ""


def _with_unit(cell: str, unit: str, quantity: str) -> str:
    """The cell with the unit of its heading, where it has none and a bare number would mean another."""
    if not unit or not _is_number(cell) or re.search(r"[^\W\d_]{1,2}[²2⁴4]?\s*$|°\s*$", cell):
        return cell
    measured = QUANTITIES[quantity]
    return cell if measured.units[plain_unit(unit)] == measured.bare else f"{cell} {unit}"


def _column(cell: str) -> str | None:
    """The column a heading names: "d", "reading3", "mean", "tan", "bracket", "moment", or None."""
    words = _words(cell)
    plain = unicodedata.normalize("NFKC", cell).casefold().replace(" ", "")
    if re.match(r"\(d(2|\^2|\*\*2|²)[-−–]l", plain) or words in ("bracket", "d2 l2 2", "d 2 l 2 2"):
        return "bracket"
    if words in ("d", "distance", "distance d", "d cm", "d mm", "d m"):
        return "d"
    if words.startswith("tan") or words == "tangent":
        return "tan"
    if words.startswith(("mean theta", "mean deflection", "mean angle")) or words in ("mean", "theta", "mean of eight"):
        return "mean"
    if words in ("m", "moment", "moment m", "magnetic moment") or words.startswith("moment m "):
        return "moment"
    full = unicodedata.normalize("NFKC", cell.replace("①", " 1").replace("②", " 2")).casefold().replace("θ", "theta ")
    full = " ".join(re.sub(r"[\W_]+", " ", full).split())
    if found := _EIGHT.match(full):
        arm, north = ({"e": "east", "w": "west"}.get(x, x) for x in found.group(1, 2))
        return f"reading{EIGHT.index((arm, north, int(found[3]))) + 1}"
    if found := re.fullmatch(r"(?:reading|theta|r|no)? *([1-8])(?: degrees?| deg)?", full):
        return f"reading{found[1]}"
    return None


def _headings(cells: list[str]) -> dict[int, tuple[str, str]]:
    """Column by place if this is the line of headings: it names d, and at least two columns in all."""
    found: dict[int, tuple[str, str]] = {}
    for i, cell in enumerate(cells):
        column = _column(cell) if cell else None
        if column and column not in (c for c, _ in found.values()):
            quantity = "angle" if column.startswith("reading") else QUANTITY[column]
            found[i] = (column, _unit(cell, quantity))
    return found if len(found) > 1 and any(c == "d" for c, _ in found.values()) else {}


def _in_order() -> list[tuple[str, str]]:
    return [("d", ""), *((f"reading{k}", "") for k in range(1, 9)), *((c, "") for c in COLUMNS)]


def _is_row(cells: list[str], columns) -> bool:
    numbers = sum(i < len(cells) and _is_number(cells[i]) for i in columns)
    plain = not cells[0] or _is_number(cells[0])  # a label has more in its cell
    return _key(cells[0]) is None and numbers >= (1 if plain else 2)


def _row(line: int, cells: list[str], columns, notes: list[str]) -> Row | None:
    """The row of a line; None, with a note, where its cells cannot be told apart."""
    width = max(columns) + 1
    if any(_is_number(c) for c in cells[width:]):
        notes.append(
            f"Line {line} has {len(cells)} cells under {width} headings, so it was left out. Where the comma is the "
            "decimal mark, save the record with semicolons between the cells."
        )
        return None
    values = {}
    for i, (column, unit) in columns.items():
        text = cells[i] if i < len(cells) else ""
        quantity = "angle" if column.startswith("reading") else QUANTITY[column]
        values[column] = _with_unit(text, unit, quantity)
    beyond = [c for i, c in enumerate(cells) if c and i not in columns]
    if beyond:
        what = beyond[0][:30]
        notes.append(f"Line {line}: “{what}” stands in a column that is none of the record's, and was left out.")
    readings = tuple(values.get(f"reading{k}", "") for k in range(1, 9))
    return Row(values.get("d", ""), readings, *(values.get(c, "") for c in COLUMNS))


def _key(cell: str) -> str | None:
    """The head cell that a label names."""
    words = _words(cell)
    for f in FIELDS.values():
        if words and (words == _words(f.label) or words in ALSO.get(f.key, ())):
            return f.key
    return None


def _head_cell(line: int, cells: list[str], head: dict[str, str], notes: list[str], late: bool) -> str | None:
    """Put a head line into the head; its key, or None with a note where it is not taken."""
    if cells[0] == TITLE or cells[0].startswith("Eight Readings"):
        return None
    key = _key(cells[0])
    rest = [c for c in cells[1:] if c]
    if key is None:
        if rest or late or _is_number(cells[0]):  # a title above the record may stand
            notes.append(f"Line {line} was not understood and left out: “{', '.join(c for c in cells if c)[:60]}”.")
        return None
    if not rest:
        return None
    if head.get(key):
        first = head[key][:30]
        notes.append(f"Line {line} gives the {FIELDS[key].label} a second time; the first, “{first}”, is kept.")
        return None
    f = FIELDS[key]
    value = ", ".join(rest) if not f.quantity else rest[0]
    if f.quantity:
        unit = _unit(cells[0], f.quantity)
        if len(rest) > 1 and not unit and _is_number(rest[0]):
            unit = _unit(f"({rest[1]})", f.quantity)
        value = _with_unit(value, unit, f.quantity)
    head[key] = value
    return key

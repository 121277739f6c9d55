"""What a laboratory record holds, and how each cell of it is read.

A record is text as a person wrote it: head cells by key, and a row for each
distance.  Reading it gives numbers for what can be read and a sentence for
each cell that cannot; one bad cell stops nothing else.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from exercises.bench.instrument import EIGHT
from exercises.judging.answer import Typed, Unreadable
from exercises.judging.answer import read as read_number
from exercises.record.position import KEY, TAN_A, Position, position_named
from exercises.working.asked import unit_question
from exercises.working.quantities import QUANTITIES

MOST_ROWS = 8
READINGS = tuple(f"reading{k}" for k in range(1, 9))
COLUMNS = ("mean", "tan", "bracket", "moment")  # those that are worked out
#: The quantity of quantities.QUANTITIES that each column is read as.
QUANTITY = {
    "d": "distance",
    **dict.fromkeys(READINGS, "angle"),
    "mean": "angle",
    "tan": "ratio",
    "moment": "moment",
}  # and of the bracket the position says it


class Field(NamedTuple):
    """One cell of the head: its key, its label, the unit of a bare number, and what it is read as ("" for words)."""

    key: str
    label: str
    unit: str = ""
    quantity: str = ""


HEAD = (
    Field("name", "observer"),
    Field(KEY, "position", "tan A or tan B"),
    Field("magnet", "magnet"),
    Field("length", "measured length", "cm", "distance"),
    Field("two_l_is", "how 2l is known", "stated, given or five-sixths"),
    Field("two_l", "magnetic length 2l", "cm", "distance"),
    Field("width", "width", "cm", "distance"),
    Field("thickness", "thickness", "cm", "distance"),
    Field("B_H", "B_H", "µT", "field"),
    Field("place", "place"),
    Field("date", "date"),
    Field("latitude", "latitude", "degrees north"),
    Field("longitude", "longitude", "degrees east"),
    Field("height", "height", "m"),
    Field("step", "scale step", "degrees", "angle"),
    Field("box", "radius of the box", "cm", "distance"),
    Field("needle", "length of the needle", "cm", "distance"),
)
RESULTS = (Field("mean-moment", "mean moment", "A·m²", "moment"), Field("pole", "pole strength", "A·m", "pole"))
FIELDS = {f.key: f for f in (*HEAD, *RESULTS)}

#: Smallest and largest honest value in SI units (degrees), and the sentence for one outside.
#: "reading" is for all eight.
RANGES: dict[str, tuple[float, float, str]] = {
    "length": (0.005, 0.5, "A bar magnet for this experiment is between 0.5 cm and 50 cm long. Look at the unit."),
    "two_l": (0.004, 0.5, "A magnetic length lies between 0.4 cm and 50 cm. Look at the unit."),
    "width": (0.0005, 0.2, "A width lies between 0.05 cm and 20 cm. Look at the unit."),
    "thickness": (0.0005, 0.2, "A thickness lies between 0.05 cm and 20 cm. Look at the unit."),
    "B_H": (1e-6, 70e-6, "On earth B_H lies between about 1 µT and 42 µT. Look at the unit: 0.36 G is 36 µT."),
    "step": (0.05, 5.0, "A scale step lies between 0.05° and 5°."),
    "box": (0.005, 0.2, "The radius of a compass box lies between 0.5 cm and 20 cm."),
    "needle": (0.001, 0.1, "The needle of a compass box is between 0.1 cm and 10 cm long."),
    "d": (
        0.02,
        2.0,
        "A distance on the arm lies between 2 cm and 200 cm. Look at the unit: bare numbers are centimetres.",
    ),
    "reading": (
        0.0,
        90.0,
        "A reading lies between 0° and 90°. On a scale to 360° count from the nearer of the two points "
        "where the pointer rested.",
    ),
}
ANY = (-1e300, 1e300, "")  # the range of what has none
#: Smallest and largest usual value in SI units.  A number without a unit that is usual in another unit only is
#: asked about.  Common practice, no source.
USUAL: dict[str, tuple[float, float]] = {
    "length": (0.02, 0.3),
    "two_l": (0.015, 0.3),
    "width": (0.002, 0.035),
    "thickness": (0.001, 0.03),
    "B_H": (10e-6, 70e-6),
    "box": (0.01, 0.15),
    "needle": (0.005, 0.08),
    "d": (0.04, 0.55),
}


@dataclass(frozen=True)
class Row:
    """One distance, every cell as text; the readings in the order of instrument.EIGHT."""

    d: str = ""
    readings: tuple[str, ...] = ("",) * 8
    mean: str = ""
    tan: str = ""
    bracket: str = ""
    moment: str = ""

    def cells(self) -> Iterator[tuple[str, str]]:
        """(name without the row's number, text) of every cell."""
        yield "d", self.d
        yield from zip(READINGS, self.readings)
        for column in COLUMNS:
            yield column, getattr(self, column)

    @property
    def empty(self) -> bool:
        """Whether nothing is written in it."""
        return not any(text.strip() for _, text in self.cells())


class Cell(NamedTuple):
    """Which cell: its column or key of the head, and the number of its distance, or None for one of the head."""

    column: str
    row: int | None


def cell_of(name: str) -> Cell:
    """The cell of a name.

    >>> cell_of("reading5-2"), cell_of("mean-moment")
    (Cell(column='reading5', row=2), Cell(column='mean-moment', row=None))
    """
    if name in FIELDS:
        return Cell(name, None)
    column, _, row = name.rpartition("-")
    return Cell(column, int(row))


@dataclass(frozen=True)
class Record:
    """A record as text: head and results by key, and its rows."""

    head: Mapping[str, str] = field(default_factory=dict)
    rows: tuple[Row, ...] = ()

    @property
    def position(self) -> Position:
        """The position it was made in; tan A where it does not say one that is known."""
        return position_named(self.head.get(KEY, "")) or TAN_A

    def cells(self) -> Iterator[tuple[str, str]]:
        """(name, text) of every cell: a key of FIELDS, or "d-2", "reading5-2", "moment-2"."""
        for key in FIELDS:
            yield key, self.head.get(key, "")
        for i, row in enumerate(self.rows, 1):
            for name, text in row.cells():
                yield f"{name}-{i}", text


@dataclass(frozen=True)
class Numbers:
    """What a record says in numbers.

    texts     every cell that is to hold a number, as it is read: with a decimal point, by cell name
    values    the numbers, by cell name
    problems  a sentence for each cell that gave none, by cell name
    notes     a sentence for each thing that was taken for granted
    """

    texts: Mapping[str, str]
    values: Mapping[str, Typed]
    problems: Mapping[str, str]
    notes: tuple[str, ...] = ()

    def get(self, name: str) -> float | None:
        """The value of a cell in SI units (degrees for an angle), or None."""
        typed = self.values.get(name)
        return None if typed is None else typed.value


def from_plain(data: object) -> Record:
    """A record from what JSON holds; whatever is not as it should be is left out, never an error."""
    plain = data if isinstance(data, dict) else {}
    head, rows = plain.get("head"), plain.get("rows")
    texts = {k: _text(head.get(k)) for k in FIELDS} if isinstance(head, dict) else {}
    return Record(texts, tuple(_row(r) for r in rows[:MOST_ROWS]) if isinstance(rows, list) else ())


def as_plain(record: Record) -> dict[str, object]:
    """The record as JSON can hold it."""
    rows = [{"d": r.d, "readings": list(r.readings), **{c: getattr(r, c) for c in COLUMNS}} for r in record.rows]
    return {"head": {k: record.head.get(k, "") for k in FIELDS}, "rows": rows}


def _text(x: object) -> str:
    return x if isinstance(x, str) else f"{x:g}" if isinstance(x, int | float) and not isinstance(x, bool) else ""


def _row(data: object) -> Row:
    plain = data if isinstance(data, dict) else {}
    listed = plain.get("readings")
    readings = [_text(x) for x in listed[:8]] if isinstance(listed, list) else []
    readings += [""] * (8 - len(readings))
    return Row(_text(plain.get("d")), tuple(readings), *(_text(plain.get(c)) for c in COLUMNS))


_COMMA = re.compile(r"\s*[-+−]?\d*,(\d+)(?!\d|.*,)")
_POINT = re.compile(r"\s*[-+−]?\d*\.\d+(?![.\d])")


def decimal_comma(texts: Iterable[str]) -> bool:
    """Whether a comma is the decimal mark all through: some number proves it, and none has a point."""
    proved = False
    for text in texts:
        if _POINT.match(text):
            return False
        found = _COMMA.match(text)
        if found and (len(found[1]) != 3 or text.strip().startswith(("0,", ","))):
            proved = True
    return proved


def column_quantity(column: str, position: Position) -> str:
    """What a column is read as: a key of quantities.QUANTITIES."""
    return position.bracket_quantity if column == "bracket" else QUANTITY[column]


def quantity_of(name: str, position: Position = TAN_A) -> str:
    """What a cell is read as: a key of quantities.QUANTITIES, or "" for words."""
    return FIELDS[name].quantity if name in FIELDS else column_quantity(cell_of(name).column, position)


def read(record: Record) -> Numbers:
    """Every cell that holds a number, read; a decimal comma is known from the record as a whole."""
    position = record.position
    every = ((name, text, quantity_of(name, position)) for name, text in record.cells() if text.strip())
    cells = [cell for cell in every if cell[2]]
    comma = decimal_comma(text for _, text, _ in cells)
    texts = {name: pointed(text) if comma else text for name, text, _ in cells}
    values: dict[str, Typed] = {}
    problems: dict[str, str] = {}
    notes = ["The comma was read as the decimal mark all through this record."] if comma else []
    for name, text, quantity in cells:
        try:
            typed = read_number(texts[name], quantity)
        except Unreadable as error:
            problems[name] = str(error)
            continue
        if typed is None:
            continue
        column = cell_of(name).column
        if column in READINGS and typed.value < 0:
            typed = typed._replace(value=-typed.value)
            notes.append(f"{cell_label(name, position)}: readings are noted without sign, so the minus was left out.")
        if problem := _doubt(text, typed, column):
            problems[name] = problem
        else:
            values[name] = typed
    return Numbers(texts, values, problems, tuple(notes))


def _doubt(text: str, typed: Typed, column: str) -> str:
    """Why a number that was read is not used: it is out of range, or may be in another unit; "" if it is used."""
    low, high, sentence = RANGES.get("reading" if column in READINGS else column, ANY)
    in_range = low * (1 - 1e-9) <= typed.value <= high * (1 + 1e-9)
    if column in USUAL and not typed.named:
        quantity = FIELDS[column].quantity if column in FIELDS else QUANTITY[column]
        measured = QUANTITIES[quantity]
        if question := unit_question(text, typed.value / measured.bare, quantity, USUAL[column]):
            meant = f" If {text.strip()[:30]} {measured.shown} is meant, type it with the unit." if in_range else ""
            return question + meant
    return "" if in_range else f"“{text.strip()[:30]}” was not used. {sentence}"


def pointed(text: str) -> str:
    """A number that was typed with a decimal comma, with a point instead."""
    return re.sub(r"(?<=\d),(?=\d)|^\s*,(?=\d)", ".", text, count=1)


def reading_name(k: int, position: Position = TAN_A) -> str:
    """What the k-th of the eight (from 0) is called: "east arm, N east, end ①"."""
    arm, north, end = EIGHT[k]
    return f"{position.arm(arm)} arm, N {north}, end {'①②'[end - 1]}"


NAMES = {"d": "d", "mean": "mean θ", "tan": "tan θ", "moment": "moment m"}


def cell_label(name: str, position: Position = TAN_A, opening: bool = True) -> str:
    """What a cell is called; with `opening` as the first words of a sentence.

    >>> cell_label("moment-2"), cell_label("moment-2", opening=False)
    ('Distance 2, moment m', 'distance 2, moment m')
    """
    cell = cell_of(name)
    if cell.row is None:
        label = FIELDS[name].label
    elif cell.column in READINGS:
        label = f"distance {cell.row}, {reading_name(READINGS.index(cell.column), position)}"
    else:
        label = f"distance {cell.row}, {NAMES.get(cell.column, position.bracket)}"
    return label[0].upper() + label[1:] if opening else label

"""CSV that opens cleanly in a spreadsheet, and CSV that is read without guessing.

Written as RFC 4180 has it: commas (or the separator of a class's own list), lines that end in CR LF, quotation marks
around a cell that needs them and doubled inside.  A spreadsheet would run a
text that begins with = + - @ (or a wide form of them, or a tab or line end) as
a formula.  So an apostrophe is put before it; whoever reads the table again
takes it off.  A number of ours stays as it is: a minus makes no formula of it.
Between semicolons numbers have a comma: spreadsheets that separate cells so take 12.5 for the twelfth of May
(common practice, no source).
"""

import csv
import io
from collections.abc import Iterable, Iterator
from decimal import Decimal
from typing import NamedTuple

#: First characters with which a spreadsheet begins a formula; the wide forms count in some of them.
FORMULA_STARTS = "=+-@＝＋－＠"
_GUARDED = frozenset((*FORMULA_STARTS, "\t", "\r", "\n"))


class TableError(ValueError):
    """A table that cannot be read on.

    first, last  numbers of the first and the last line of the row that is at fault, from 1
    too_long     whether a cell has too many characters; otherwise quotation marks do not close
    """

    def __init__(self, first: int, last: int, too_long: bool) -> None:
        super().__init__(f"lines {first} to {last} of the table cannot be read")
        self.first, self.last, self.too_long = first, last, too_long


class Numeral(str):
    """A number that is written already: in a table it stays as it is."""


class TableRow(NamedTuple):
    """One row: the numbers of its first and last line, from 1, and its cells."""

    first: int
    last: int
    cells: list[str]


def guarded(text: str) -> str:
    """A text that no spreadsheet takes for a formula.

    >>> guarded("=1+1"), guarded("Plover")
    ("'=1+1", 'Plover')
    """
    return f"'{text}" if text.lstrip(" ")[:1] in _GUARDED else text


def lines(rows: Iterable[Iterable[str | Decimal]], separator: str = ",") -> str:
    """Rows as CSV text.  A Decimal or a Numeral is a number and stays one; everything else is guarded.

    >>> lines([("=A1", Decimal("-12.5"))], ";")
    "'=A1;-12,5\\r\\n"
    """
    out = io.StringIO(newline="")
    csv.writer(out, delimiter=separator, lineterminator="\r\n").writerows(
        [[_cell(cell, separator) for cell in row] for row in rows]
    )
    return out.getvalue()


def _cell(cell: str | Decimal, separator: str) -> str:
    if type(cell) is str:
        return cell if cell[:1].isalnum() else guarded(cell)
    if not isinstance(cell, Decimal | Numeral):
        return guarded(cell)
    number = written_number(cell)
    return number.replace(".", ",") if separator == ";" else number


def written_number(number: Decimal | Numeral) -> str:
    """A number as a table has it."""
    if isinstance(number, Decimal):
        return format(number, "f" if abs(number.adjusted()) < 7 else "e")
    return number


def rows_of(text: str, separator: str) -> Iterator[TableRow]:
    """The rows of CSV text, one after the other.  TableError where the cells cannot be told apart."""
    taken = _Lines(text)
    reader = csv.reader(taken, delimiter=separator, strict=True)
    first = 1
    while True:
        taken.characters = 0
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error:
            # the reader says only in prose what is wrong; no cell is too long in a row that is short
            too_long = taken.characters > csv.field_size_limit()
            raise TableError(first, reader.line_num, too_long) from None
        yield TableRow(first, reader.line_num, cells)
        first = reader.line_num + 1


class _Lines:
    """The lines of a text, and how many characters were taken since the count was last set back."""

    def __init__(self, text: str) -> None:
        self._lines = io.StringIO(text, newline="")
        self.characters = 0

    def __iter__(self) -> Iterator[str]:
        return self

    def __next__(self) -> str:
        line = next(self._lines)
        self.characters += len(line)
        return line

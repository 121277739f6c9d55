"""CSV that opens cleanly in a spreadsheet: the addresses for the students, and the key.

Written as RFC 4180 has it: commas, lines that end in CR LF, quotation marks
around a cell that needs them and doubled inside.  A text that begins with
= + - @ (or a wide form of them, or a tab or line end) would be run as a formula
by a spreadsheet; an apostrophe is put before it, and roster.py takes it off
again.  Numbers of ours are written as they are: a minus makes no formula of one.
"""

import csv
import io
import math
from collections.abc import Iterable
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from exercises.classroom.class_list.roster import FORMULA_STARTS, Student
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.kind import Kind
from exercises.working.quantities import quantity
from exercises.working.steps import Working

ADDRESS_HEAD = ("roll", "name", "kind", "code", "address")
KEY_HEAD = ("roll", "name", "kind", "code", "step", "title", "value", "lo", "hi", "unit")
FIGURES = 6  # of an end of an allowed interval: finer than anything that is typed


def guarded(text: str) -> str:
    """A text that no spreadsheet takes for a formula.

    >>> guarded("=1+1"), guarded("Plover")
    ("'=1+1", 'Plover')
    """
    begins = text.lstrip(" ")
    return f"'{text}" if begins.startswith((*FORMULA_STARTS, "\t", "\r", "\n")) else text


def lines(rows: Iterable[Iterable[str | Decimal]]) -> str:
    """Rows as CSV text.  A Decimal is a number and stays one; everything else is guarded."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    for row in rows:
        writer.writerow(
            [
                f"{cell:f}"
                if isinstance(cell, Decimal) and abs(cell.adjusted()) < 7
                else f"{cell:e}"
                if isinstance(cell, Decimal)
                else guarded(cell)
                for cell in row
            ]
        )
    return out.getvalue()


def address(site: str, kind: Kind, code: SheetCode) -> str:
    """Where a sheet opens; `site` is the site's own address, or "" for one relative to it."""
    return f"{site.rstrip('/') + '/' if site else ''}exercises/{kind.slug}/?code={code}"


def address_row(site: str, student: Student, kind: Kind, code: SheetCode) -> tuple[str, ...]:
    """One line of the table of addresses, under ADDRESS_HEAD."""
    return student.roll, student.name, kind.slug, str(code), address(site, kind, code)


def key_rows(student: Student, kind: Kind, code: SheetCode, working: Working) -> list[tuple]:
    """The lines of the key for one sheet, one a step, under KEY_HEAD.

    lo and hi bound what correct working can reach, in the unit of the sheet, rounded outward; of a
    choice the value is its label and they are empty.  Empty too where there is no bound.
    """
    values, spans, text = working.all_values(), working.spans, str(code)
    rows = []
    for step in working.steps:
        if step.choices:
            numbers = (next(label for key, label, _ in step.choices if key == values[step.id]), "", "")
            unit = ""
        else:
            size, span = quantity(step.quantity).bare, spans[step.id]
            numbers = (
                _number(values[step.id] / size, None),
                _number(span.lo / size, ROUND_FLOOR),
                _number(span.hi / size, ROUND_CEILING),
            )
            unit = quantity(step.quantity).shown
        rows.append((student.roll, student.name, kind.slug, text, step.id, step.title, *numbers, unit))
    return rows


def _number(value: float, rounding: str | None) -> Decimal | str:
    """To FIGURES figures, downward, upward or to the nearest; "" if it is not finite."""
    if not math.isfinite(value):
        return ""
    exact = Decimal(f"{value:.12g}")  # what floats add in the last bits must not move an end by a whole unit
    if not exact:
        return Decimal(0)
    rounded = exact.quantize(Decimal(1).scaleb(exact.adjusted() - FIGURES + 1), rounding=rounding)
    # no noughts at the end
    plain = rounded.normalize()
    return plain if plain.adjusted() >= 7 or plain.as_tuple().exponent <= 0 else plain.quantize(Decimal(1))

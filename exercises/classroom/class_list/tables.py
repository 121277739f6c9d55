"""The tables of a class: the addresses for the students, and the key."""

import math
from collections.abc import Iterable
from decimal import ROUND_CEILING, ROUND_FLOOR, Context, Decimal
from typing import NamedTuple

from exercises.classroom.class_list.class_file import Task
from exercises.classroom.class_list.roster import Student
from exercises.codes.sheet_code import Setting, SheetCode, write_setting
from exercises.kinds.kind import Kind, Sheet
from exercises.working.evaluate import all_spans, right_values
from exercises.working.quantities import quantity

ADDRESS_HEAD = ("roll", "name", "kind", "code", "address", "record")
FIGURES = 6  # of an end of an allowed interval: finer than anything that is typed
_TO_FIGURES = {rounding: Context(FIGURES, rounding) for rounding in (None, ROUND_FLOOR, ROUND_CEILING)}
_NOUGHT, _UNIT = Decimal(0), Decimal(1)


class KeyRow(NamedTuple):
    """One line of the key: a step of a sheet.

    lo and hi bound what correct working can reach, in the unit of the sheet, rounded outward; "" where there
    is no bound.  Of a choice the value is its label, and lo, hi and unit are "".
    """

    roll: str
    name: str
    kind: str
    code: str
    step: str
    title: str
    value: Decimal | str
    lo: Decimal | str
    hi: Decimal | str
    unit: str


KEY_HEAD = KeyRow._fields


def address(site: str, kind: Kind, code: SheetCode) -> str:
    """Where a sheet opens; `site` is the site's own address, or "" for one relative to it."""
    return f"{_front(site)}exercises/{kind.slug}/?code={code}"


def record_address(site: str, setting: Setting) -> str:
    """Where the record page opens with a laboratory's own settings; `site` as for `address`."""
    lab = write_setting(setting)
    return f"{_front(site)}record/{f'?lab={lab}' if lab else ''}"


def settings_addresses(site: str, tasks: Iterable[Task]) -> list[tuple[str, str]]:
    """The names of the kinds that have settings of a laboratory, and the record page's address with these.

    One for each of the settings.
    """
    kinds: dict[Setting, list[str]] = {}
    for task in tasks:
        if task.setting != Setting():
            kinds.setdefault(task.setting, []).append(task.kind.listing.name)
    return [(", ".join(names), record_address(site, setting)) for setting, names in kinds.items()]


def _front(site: str) -> str:
    return f"{site.rstrip('/')}/" if site else ""


def address_row(site: str, student: Student, kind: Kind, code: SheetCode) -> tuple[str, ...]:
    """One line of the table of addresses, under ADDRESS_HEAD."""
    opens, record = address(site, kind, code), record_address(site, code.setting)
    return student.roll, student.name, kind.slug, str(code), opens, record


def key_rows(student: Student, sheet: Sheet) -> list[KeyRow]:
    """The lines of the key for one sheet, one a step."""
    working, slug, code = sheet.working, sheet.kind.slug, str(sheet.scenario.code)
    (values, *_), spans = right_values(working), all_spans(working)
    rows = []
    for step in working.steps:
        value: Decimal | str
        lo: Decimal | str
        hi: Decimal | str
        span = spans[step.id]
        if isinstance(span, str):
            value = next(label for key, label, _ in step.choices if key == values[step.id])
            lo = hi = unit = ""
        else:
            measured = quantity(step.quantity)
            size, unit = measured.bare, measured.shown
            value = _number(values[step.id] / size, None)
            lo, hi = _number(span.lo / size, ROUND_FLOOR), _number(span.hi / size, ROUND_CEILING)
        rows.append(KeyRow(student.roll, student.name, slug, code, step.id, step.title, value, lo, hi, unit))
    return rows


def _number(value: float, rounding: str | None) -> Decimal | str:
    """To FIGURES figures, downward, upward or to the nearest; "" if it is not finite."""
    if not math.isfinite(value):
        return ""
    # what floats add in the last bits must not move an end by a whole unit
    rounded = _TO_FIGURES[rounding].create_decimal(f"{value:.12g}")
    # no noughts at the end, and no power of ten for a whole number below 10⁷
    plain = rounded.normalize()
    if not plain:
        return _NOUGHT
    return plain.quantize(_UNIT) if 0 < plain.adjusted() < 7 and plain == plain.to_integral_value() else plain

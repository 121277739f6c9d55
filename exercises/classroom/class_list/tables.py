"""The tables of a class: the addresses for the students, and the key."""

import math
from collections.abc import Iterable
from typing import Literal, NamedTuple

from exercises.classroom.class_list.class_file import Task
from exercises.classroom.class_list.roster import Student
from exercises.codes.sheet_code import Setting, SheetCode, write_setting
from exercises.files.tables import Numeral
from exercises.kinds.kind import Kind, Sheet
from exercises.working.evaluate import all_spans, right_values
from exercises.working.quantities import quantity

ADDRESS_HEAD = ("roll", "name", "kind", "code", "address", "record")
FIGURES = 6  # of an end of an allowed interval: finer than anything that is typed
_READ, _LAST = 12, 10**6  # figures of a float that count, and what the last of these are parts of, after FIGURES


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
    value: Numeral | str
    lo: Numeral | str
    hi: Numeral | str
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
        value: Numeral | str
        lo: Numeral | str
        hi: Numeral | str
        span = spans[step.id]
        if isinstance(span, str):
            value = next(label for key, label, _ in step.choices if key == values[step.id])
            lo = hi = unit = ""
        else:
            measured = quantity(step.quantity)
            size, unit = measured.bare, measured.shown
            value = number(values[step.id] / size)
            lo, hi = number(span.lo / size, "down"), number(span.hi / size, "up")
        rows.append(KeyRow(student.roll, student.name, slug, code, step.id, step.title, value, lo, hi, unit))
    return rows


def number(value: float, toward: Literal["nearest", "down", "up"] = "nearest") -> Numeral | str:
    """A number to FIGURES figures, without noughts at its end; "" if it is not finite.

    A power of ten is written from 10⁷ on and below 10⁻⁶.

    >>> number(2 / 3), number(2 / 3, "down"), number(0.1 + 0.2, "up"), number(1234567.0)
    ('0.666667', '0.666666', '0.3', '1234570')
    """
    if not math.isfinite(value):
        return ""
    # what floats add in the last bits must not move an end by a whole unit
    mantissa, _, power = f"{abs(value):.{_READ - 1}e}".partition("e")
    head, rest = divmod(int(mantissa[0] + mantissa[2:]), _LAST)
    if toward == "nearest":
        up = rest * 2 > _LAST or rest * 2 == _LAST and head % 2 == 1
    else:
        up = rest > 0 and (toward == "up") == (value > 0)
    if not head + up:
        return Numeral("0")
    digits, ten = str(head + up), int(power)
    ten += len(digits) - FIGURES
    digits, sign = digits.rstrip("0"), "-" if value < 0 else ""
    if not -7 < ten < 7:
        return Numeral(f"{sign}{digits[0]}{'.' if digits[1:] else ''}{digits[1:]}e{ten:+d}")
    if ten < 0:
        return Numeral(f"{sign}0.{'0' * (-ten - 1)}{digits}")
    whole, part = digits[: ten + 1].ljust(ten + 1, "0"), digits[ten + 1 :]
    return Numeral(f"{sign}{whole}.{part}" if part else sign + whole)

"""The tables of a class: the addresses for the students, and the key."""

from collections.abc import Iterable
from math import ceil, floor, isfinite
from typing import NamedTuple

from exercises.classroom.class_list.class_file import Task
from exercises.classroom.class_list.roster import Student
from exercises.codes.sheet_code import Setting, SheetCode, write_setting
from exercises.files.tables import Numeral
from exercises.judging.entries import UNROUNDED
from exercises.kinds.kind import Kind, Sheet
from exercises.working.arithmetic import Span
from exercises.working.evaluate import all_spans, right_values
from exercises.working.quantities import quantity
from exercises.working.rounded import TANGENT_PER, last_place
from exercises.working.steps import Step

ADDRESS_HEAD = ("roll", "name", "kind", "code", "address", "record")
FIGURES, END_FIGURES = 5, 4  # of a value of the key, and of an end of what is accepted: nearly nobody types more
_LITTLE = 1e-6  # of a unit in the last figure: the last bits of a float must not decide


class KeyRow(NamedTuple):
    """One line of the key: a step of a sheet.

    lo and hi are the least and the greatest number of four figures that is accepted, in the unit of the sheet; ""
    where there is no bound.  Of a choice the value is its label, and lo, hi and unit are "".
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
            lo, hi = ends(span, step, size)
        rows.append(KeyRow(student.roll, student.name, slug, code, step.id, step.title, value, lo, hi, unit))
    return rows


def number(value: float, figures: int = FIGURES) -> Numeral | str:
    """A number to so many figures, without noughts at its end; "" if it is not finite.

    >>> number(2 / 3), number(0.1 + 0.2), number(3.60213e-5)
    ('0.66667', '0.3', '3.6021e-05')
    """
    return Numeral(f"{value:.{figures}g}") if isfinite(value) else ""


def ends(span: Span, step: Step, size: float = 1.0) -> tuple[Numeral | str, Numeral | str]:
    """The least and the greatest number that is accepted at a step, of those with `END_FIGURES` figures.

    size  of the unit that they are given in;  a tangent has four places at least
    `entries.accepts` takes the ends of a span as far as rounding takes them.
    """
    lo, hi = span.lo / size, span.hi / size
    if not (isfinite(lo) and isfinite(hi)):
        return "", ""
    low, high = _per(lo, step), _per(hi, step)
    if step.rule in UNROUNDED:
        least, greatest = ceil(lo * low - _LITTLE), floor(hi * high + _LITTLE)
    else:
        least, greatest = ceil(lo * low - 0.5 - _LITTLE), floor(hi * high + 0.5 + _LITTLE)
    return number(least / low, END_FIGURES + 1), number(greatest / high, END_FIGURES + 1)


def _per(value: float, step: Step) -> float:
    """How many of the last places that an end is written to make one."""
    place = last_place(value, END_FIGURES) or 1.0
    return max(1 / place, TANGENT_PER) if step.rule == "tangent" else 1 / place

"""The laboratory records of a class, from the bench or the record page: what each comes to, as a table.

A record is checked as the record page checks it (record/check.py).  What is
blank in it is filled by the laboratory's settings, where the class has one set
of them for all its kinds.
"""

from collections.abc import Iterable, Iterator
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from exercises.bench.uncertainty import Stated
from exercises.classroom.class_list.class_file import Class
from exercises.classroom.class_list.tables import number
from exercises.classroom.marking.intake import HandedRecord
from exercises.codes.sheet_code import Setting
from exercises.files.tables import Numeral, lines
from exercises.files.text import BYTE_ORDER_MARK
from exercises.record.check import check
from exercises.record.laboratory import with_settings
from exercises.record.return_slip import record_of
from exercises.record.said import stated
from exercises.return_slip.lines import ReturnSlip
from exercises.working.words import listed

FIGURES = 4
KEPT = 1000  # records of which what was found is kept: the desk asks again with every slip that comes in
HEAD = (
    "counts",
    "distances",
    "moment A·m²",
    "moment from",
    "moment to",
    "pole A·m",
    "pole from",
    "pole to",
    "with what stands out put right",
    "right",
    "entries",
    "gravest finding",
    "what was found",
    "findings",
    "who",
    "slip",
    "written",
    "mailed (UTC)",
    "where",
    "notes",
)


class Found(NamedTuple):
    """What a record comes to.

    distances  that have readings;  moment, pole  A·m², A·m, or None where there is no result
    right      entries that are right;  entries  those that were judged
    corrected  the moment with what stands out put right, in words, or ""
    level      of the gravest finding, "amiss", "look" or "note", and its key and text; "" where nothing was found
    findings   how many;  notes  what was taken for granted
    """

    distances: int
    moment: Stated | None
    pole: Stated | None
    right: int
    entries: int
    corrected: str
    level: str
    text: str
    findings: int
    notes: tuple[str, ...]

    @property
    def said(self) -> str:
        """The result in a sentence, and what is worst."""
        if self.moment is None or self.pole is None:
            result = "There is no result"
        else:
            result = f"m = {stated(self.moment, 'A·m²')}, p = {stated(self.pole, 'A·m')}"
        return f"{result}. {self.text}" if self.text else f"{result}. Nothing was found that is amiss."


def found_in(slip: ReturnSlip, class_: Class) -> Found:
    """What the record of a return slip comes to."""
    settings = {task.setting for task in class_.tasks} - {Setting()}
    return _found(tuple(slip.answers.items()), settings.pop() if len(settings) == 1 else None)


@lru_cache(maxsize=KEPT)
def _found(answers: tuple[tuple[str, str], ...], setting: Setting | None) -> Found:
    handed = record_of(ReturnSlip("", "", dict(answers), {}))
    record, notes = with_settings(handed.record, setting)
    if handed.left_out:
        notes = (*notes, f"Left out, since they are none of a record: {listed(handed.left_out[:5])}.")
    checked = check(record)
    moments, findings = checked.moments, checked.findings
    corrected = stated(moments.corrected.moment, "A·m²") if moments and moments.corrected else ""
    return Found(
        distances=sum(not row.empty for row in record.rows),
        moment=moments.result.moment if moments else None,
        pole=moments.result.pole if moments else None,
        right=sum(verdict.state == "right" for verdict in checked.verdicts.values()),
        entries=len(checked.verdicts),
        corrected=corrected,
        level=findings[0].level if findings else "",
        text=findings[0].text if findings else "",
        findings=len(findings),
        notes=notes,
    )


def records_csv(records: Iterable[HandedRecord], class_: Class) -> str:
    """The records that came in, in the order of the class list, those of nobody at the end."""
    with_section = any(student.section for student in class_.students)
    who = ("roll", "name", "section") if with_section else ("roll", "name")
    rows: list[Iterable[str | Decimal]] = [(*who, *HEAD)]
    for record in records:
        student = record.student or ("", "", "")
        rows.append([*student[: len(who)], *_cells(record, found_in(record.return_slip, class_))])
    return BYTE_ORDER_MARK + lines(rows, class_.separator)


def _cells(record: HandedRecord, found: Found) -> Iterator[str | Decimal]:
    slip = record.return_slip
    yield "yes" if record.counts else "no"
    yield Decimal(found.distances)
    yield from _interval(found.moment)
    yield from _interval(found.pole)
    yield from (found.corrected, Decimal(found.right), Decimal(found.entries), found.level, found.text)
    yield Decimal(found.findings)
    yield from (slip.who, Decimal(slip.number) if slip.number else "", slip.written, slip.mailed, slip.source)
    yield " ".join((*record.notes, *found.notes))


def _interval(result: Stated | None) -> tuple[Numeral | str, ...]:
    """A result with the ends of its interval, for 95 in a hundred."""
    if result is None:
        return "", "", ""
    ends = (result.value, result.value - result.U, result.value + result.U)
    return tuple(number(value, FIGURES) for value in ends)

"""A laboratory record as a return slip: both ends of it.

It is written and read as every return slip (exercises/return_slip/text.py), with a check on each line and one over all:

    EIGHT READINGS RETURN SLIP 1
    01 who: Ringed Plover [KP]
    02 code: RECORD [8W]
    03 length: 8.0 [7E]
    04 b-h: 36.2 [53]
    05 zero-1: 0.5 [R2]
    06 d-1: 21.3 [KP]
    07 readings-1: 44 / 45 / 44.5 / 46.5 / ? / ? / ? / ? [3C]
    END OF SLIP 7 LINES C4NYX

The code is RECORD, and after it the code that the class knows the record by, if there is one.  A label is the name of
a cell in small letters with hyphens.  The eight readings of a distance stand on one line, in the order of
instrument.EIGHT, with a question mark for one that is blank.  Readings that would not come back from such a line have
a line each.
"""

import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from exercises.record.entries import COLUMNS, FIELDS, MOST_ROWS, READINGS, Record, Row, cell_label
from exercises.return_slip.lines import LONGEST_ANSWER, ReturnSlip, hour
from exercises.return_slip.text import ReturnSlipError, return_slip_text
from exercises.student.hand_in import counted, file_name, wrong_with_who

MARK = "RECORD"
ALL, BETWEEN, BLANK = "readings", " / ", "?"
LONGEST_CODE = 60  # characters
_CELL = {name.replace("_", "-").lower(): name for name in FIELDS}
_OF_ROW = re.compile(rf"({'|'.join((ALL, 'd', *READINGS, *COLUMNS))})-([1-{MOST_ROWS}])")
#: The zero check: what each end of the pointer shows with no magnet near.
ZERO = ("zero-1", "zero-2")


class RecordSlip(NamedTuple):
    """What comes of writing a record's return slip.

    ok    whether there is one;  says  a sentence about it, or what to do first, at the cell `at` ("" for none)
    text  the slip;  file  a name for it
    """

    ok: bool
    says: str
    text: str = ""
    file: str = ""
    at: str = ""


@dataclass(frozen=True)
class HandedRecord:
    """A record that came in as a return slip.

    who, code  roll or name, and what the class knows the record by, or "";  zero  the zero check as typed
    left_out   labels of lines that are none of a record's;  source  where it was found
    """

    who: str
    code: str
    record: Record
    zero: tuple[str, str]
    left_out: tuple[str, ...]
    source: str


# ---- writing ----------------------------------------------------------------


def record_slip(
    record: Record, who: str, code: str = "", zero: Sequence[str] = ("", ""), number: int = 0, written: str = ""
) -> RecordSlip:
    """The return slip of a record, or a sentence that says what to do first.

    number, written  which of the slips of the page's records it is, and when it is made (ReturnSlip)
    """
    who = " ".join(unicodedata.normalize("NFC", who).split())
    if told := wrong_with_who(who):
        return RecordSlip(False, told, at="who")
    code = " ".join(code.split())
    if len(code) > LONGEST_CODE:
        told = f"That is {len(code)} characters; a code has at most {LONGEST_CODE}. Copy it once more."
        return RecordSlip(False, told, at="code")
    if not any(not row.empty for row in record.rows):
        return RecordSlip(False, "There is no distance yet. Take the readings of one first.")
    long = next(((name, text) for name, text in record.cells() if len(text) > LONGEST_ANSWER), None)
    if long:
        told = (
            f"{cell_label(long[0])}: that is {len(long[1]):,} characters; a slip carries {LONGEST_ANSWER} of one cell. "
            "Shorten it."
        )
        return RecordSlip(False, told, at=long[0])
    try:
        slip = ReturnSlip(
            who, f"{MARK} {code}".strip(), dict(_lines(record, zero)), {}, "", counted(number), hour(written)
        )
        text = return_slip_text(slip)
    except ReturnSlipError as error:
        return RecordSlip(False, str(error))
    return RecordSlip(True, _says(record), text, file_name(who, "record"))


def _lines(record: Record, zero: Sequence[str]) -> Iterator[tuple[str, str]]:
    """(label, text) of every line after who and code."""
    for label, name in _CELL.items():
        yield label, _kept(record.head.get(name, ""))
    yield from zip(ZERO, (_kept(text[:LONGEST_ANSWER]) for text in zero))
    for number, row in enumerate(record.rows, 1):
        packed = _packed(row.readings)
        for column, text in row.cells():
            if not (packed and column in READINGS):
                yield f"{column}-{number}", _kept(text)
            elif column == READINGS[0]:
                yield f"{ALL}-{number}", packed


def _kept(text: str) -> str:
    """The text, or "" where nothing is written in it: a blank cell has no line."""
    return text if text.strip() else ""


def _packed(readings: Sequence[str]) -> str:
    """The eight on one line, or "" where they are all blank or would not come back from it."""
    texts = [text if text.strip() else BLANK for text in readings]
    packed = BETWEEN.join(texts)
    wrote = [text for text in readings if text.strip()]
    if not wrote or len(packed) > LONGEST_ANSWER or any("/" in text or text == BLANK for text in wrote):
        return ""
    return packed


def _says(record: Record) -> str:
    begun = [row for row in record.rows if not row.empty]
    whole = sum(bool(row.d.strip()) and all(text.strip() for text in row.readings) for row in begun)
    if whole == len(begun):
        return f"The slip has {whole} distance{'s' * (whole != 1)} with all readings."
    return f"The slip has {len(begun)} distance{'s' * (len(begun) != 1)}, {whole} of them with all readings."


# ---- reading ----------------------------------------------------------------


def is_record(slip: ReturnSlip) -> bool:
    """Whether a return slip is that of a record."""
    return slip.code.upper().split()[:1] == [MARK]


def record_of(slip: ReturnSlip) -> HandedRecord:
    """The record of a slip for which `is_record` holds."""
    head, zero, left_out = {}, dict.fromkeys(ZERO, ""), []
    rows: dict[int, dict[str, str]] = {}
    for label, text in slip.answers.items():
        if label in _CELL:
            head[_CELL[label]] = text
        elif label in zero:
            zero[label] = text
        elif found := _OF_ROW.fullmatch(label):
            rows.setdefault(int(found[2]), {}).update(_cells(found[1], text))
        else:
            left_out.append(label)
    last = max(rows, default=0)
    record = Record(head, tuple(_row(rows.get(number, {})) for number in range(1, last + 1)))
    code = " ".join(slip.code.split()[1:])
    return HandedRecord(slip.who, code, record, (zero["zero-1"], zero["zero-2"]), tuple(left_out), slip.source)


def _cells(column: str, text: str) -> dict[str, str]:
    """The cells of a line, by column."""
    if column != ALL:
        return {column: text}
    return {reading: "" if part == BLANK else part for reading, part in zip(READINGS, text.split(BETWEEN))}


def _row(cells: Mapping[str, str]) -> Row:
    readings = tuple(cells.get(reading, "") for reading in READINGS)
    return Row(cells.get("d", ""), readings, *(cells.get(column, "") for column in COLUMNS))

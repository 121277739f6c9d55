"""A table as a workbook (.xlsx), in which a spreadsheet leaves text as it is: 0031 keeps its zeros, =1+1 is no formula.

A workbook is a ZIP archive of small XML files (ECMA-376, Office Open XML).  Nothing is compressed and all dates are
the earliest that the archive knows, so that the same table makes the same bytes everywhere.  The sheet stands last, so
its text can be written in pieces: what stands before it has the same length whatever is in it.
"""

from binascii import crc32
from collections.abc import Iterable
from decimal import Decimal
from html import escape
from typing import NamedTuple

from exercises.files.tables import Numeral, written_number

MOST_ROWS = 1_048_576  # of a sheet, in the spreadsheets that have most
LONGEST_CELL = 32_767  # characters; the rest of a longer one is left out
_XML = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_TYPES = "application/vnd.openxmlformats-officedocument.spreadsheetml"
_RELATION = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships"
_SHEET = "xl/worksheets/sheet1.xml"
_BEFORE = {
    "[Content_Types].xml": '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    f'<Override PartName="/xl/workbook.xml" ContentType="{_TYPES}.sheet.main+xml"/>'
    f'<Override PartName="/{_SHEET}" ContentType="{_TYPES}.worksheet+xml"/>'
    f'<Override PartName="/xl/styles.xml" ContentType="{_TYPES}.styles+xml"/></Types>',
    "_rels/.rels": f'<Relationships xmlns="{_RELATIONS}"><Relationship Id="rId1" Type="{_RELATION}/officeDocument" '
    'Target="xl/workbook.xml"/></Relationships>',
    "xl/workbook.xml": f'<workbook xmlns="{_MAIN}" xmlns:r="{_RELATION}"><sheets><sheet name="Table" sheetId="1" '
    'r:id="rId1"/></sheets></workbook>',
    "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{_RELATIONS}"><Relationship Id="rId1" '
    f'Type="{_RELATION}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" '
    f'Type="{_RELATION}/styles" Target="styles.xml"/></Relationships>',
    # style 1 is text (number format 49), so that a cell stays text when a person changes it
    "xl/styles.xml": f'<styleSheet xmlns="{_MAIN}"><fonts count="1"><font/></fonts><fills count="2"><fill><patternFill '
    'patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border/>'
    '</borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="2"><xf xfId="0"/>'
    '<xf numFmtId="49" xfId="0" applyNumberFormat="1"/></cellXfs><cellStyles count="1"><cellStyle '
    'name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>',
}
HEAD = (
    f'{_XML}<worksheet xmlns="{_MAIN}"><sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" '
    'activePane="bottomLeft" state="frozen"/></sheetView></sheetViews><sheetData>\n'
)
FOOT = "</sheetData></worksheet>\n"


class Written(NamedTuple):
    """What was written of the sheet so far: its check sum and its size in bytes."""

    crc: int = 0
    size: int = 0

    def and_then(self, raw: bytes) -> "Written":
        """With a further piece."""
        return Written(crc32(raw, self.crc), self.size + len(raw))


def sheet_rows(rows: Iterable[Iterable[str | Decimal]]) -> str:
    """Rows as a piece of the sheet, between HEAD and FOOT.  A Decimal or a Numeral is a number, all else is text."""
    return "".join(f"<row>{''.join(map(_cell, row))}</row>\n" for row in rows)


def _cell(cell: str | Decimal) -> str:
    if isinstance(cell, Decimal | Numeral):
        return f"<c><v>{written_number(cell)}</v></c>"
    if not cell:
        return "<c/>"
    # what no XML can hold becomes the mark for a character that is not known
    plain = "".join(c if c >= " " and c not in "\ufffe\uffff" or c in "\t\n" else "\ufffd" for c in cell)
    text = escape(plain.encode("utf-8", "replace").decode()[:LONGEST_CELL], quote=False)
    return f'<c t="inlineStr" s="1"><is><t xml:space="preserve">{text}</t></is></c>'


def around(sheet: Written) -> tuple[bytes, bytes]:
    """What stands before the sheet and what after it, once all of it is written; the first has always one length."""
    front, directory = b"", b""
    files = {name: (_XML + text).encode() for name, text in _BEFORE.items()}
    for name, raw in (*files.items(), (_SHEET, None)):
        crc, size = sheet if raw is None else Written().and_then(raw)
        # version 2.0, no flags, stored, 1 January 1980
        head = _numbers(
            (20, 2), (0, 2), (0, 2), (0, 2), (0x21, 2), (crc, 4), (size, 4), (size, 4), (len(name), 2), (0, 2)
        )
        directory += b"PK\1\2" + _numbers((20, 2)) + head
        directory += _numbers((0, 2), (0, 2), (0, 2), (0, 4), (len(front), 4)) + name.encode()
        front += b"PK\3\4" + head + name.encode() + (raw or b"")
    many = len(files) + 1
    end = _numbers((0, 2), (0, 2), (many, 2), (many, 2), (len(directory), 4), (len(front) + sheet.size, 4), (0, 2))
    return front, directory + b"PK\5\6" + end


def _numbers(*numbers: tuple[int, int]) -> bytes:
    """Whole numbers, each in so many bytes, the lowest first."""
    return b"".join(number.to_bytes(size, "little") for number, size in numbers)

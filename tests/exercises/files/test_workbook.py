"""Workbooks hold what was put in, as a library that did not write them reads it, and are the same bytes each time."""

import io
import zipfile
from decimal import Decimal

import openpyxl
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from exercises.files.tables import Numeral
from exercises.files.workbook import FOOT, HEAD, LONGEST_CELL, Written, around, sheet_rows


def workbook(*pieces) -> bytes:
    """A whole workbook, its sheet written in pieces of rows."""
    raw, written = b"", Written()
    for text in (HEAD, *map(sheet_rows, pieces), FOOT):
        raw += text.encode()
        written = written.and_then(text.encode())
    front, back = around(written)
    return front + raw + back


def read(raw: bytes) -> list[list[object]]:
    sheet = openpyxl.load_workbook(io.BytesIO(raw)).active
    return [[cell.value for cell in row] for row in sheet.rows]


def test_text_stays_text_and_numbers_are_numbers():
    rows = [["roll", "mark"], ["0031", Decimal("12.5")], ["=1+1", Numeral("3.6e-05")], [" two  spaces ", ""]]
    raw = workbook(rows[:1], rows[1:])
    assert raw == workbook(rows)
    assert read(raw) == [["roll", "mark"], ["0031", 12.5], ["=1+1", 3.6e-05], [" two  spaces ", None]]
    sheet = openpyxl.load_workbook(io.BytesIO(raw)).active
    assert [sheet[at].data_type for at in ("A2", "B2", "A3", "B3")] == ["s", "n", "s", "n"]
    assert sheet["A2"].number_format == "@" and sheet.freeze_panes == "A2"


def test_the_archive_is_whole_and_has_no_date_of_its_own():
    """By Python's own zipfile, which checks every sum."""
    archive = zipfile.ZipFile(io.BytesIO(workbook([["1"]])))
    assert archive.testzip() is None
    assert {info.date_time for info in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    assert {info.compress_type for info in archive.infolist()} == {zipfile.ZIP_STORED}
    assert archive.namelist()[0] == "[Content_Types].xml" and archive.namelist()[-1] == "xl/worksheets/sheet1.xml"


def test_what_stands_before_the_sheet_has_one_length():
    assert len(around(Written())[0]) == len(around(Written(2**32 - 1, 10**9))[0])


def test_a_cell_that_no_spreadsheet_holds_is_cut():
    assert read(workbook([["x" * 40_000]])) == [["x" * LONGEST_CELL]]


@settings(max_examples=100, deadline=None)
@given(st.lists(st.lists(st.text(max_size=20), min_size=1, max_size=4), min_size=1, max_size=5))
@example([["\0<&>\ud800\ufffe]]>", "0031"]])
def test_any_text_is_read_back(rows):
    found = read(workbook(rows))
    wide = max(map(len, rows))
    assert [[cell or "" for cell in row] for row in found] == [
        [*map(shown, row), *[""] * (wide - len(row))] for row in rows
    ]


def shown(text: str) -> str:
    """What XML can hold of a text; a line end in it is a line feed."""
    whole = text.encode("utf-8", "replace").decode()
    return "".join(c if c in "\t\n" or c >= " " and c not in "\ufffe\uffff" else "\ufffd" for c in whole)


@pytest.mark.parametrize("many", [0, 1, 3])
def test_so_many_rows(many):
    assert len(read(workbook([["1"]] * many))) == many

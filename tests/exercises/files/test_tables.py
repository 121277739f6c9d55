"""The tables open cleanly in a spreadsheet and run no formula; what is read says where it cannot be read."""

import csv
import io
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.files.tables import TableError, TableRow, guarded, lines, rows_of


def cells(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline=""), strict=True))


@settings(max_examples=300, deadline=None)
@given(st.lists(st.lists(st.text() | st.text("=+-@\t\r\n ＝'\",;1"), min_size=1, max_size=4), max_size=5))
def test_no_text_begins_a_formula(rows):
    back = cells(lines(rows))
    assert back == [[guarded(cell) for cell in row] for row in rows]
    for row, was in zip(back, rows, strict=True):
        for cell, text in zip(row, was, strict=True):
            assert not cell.lstrip(" ").startswith(tuple("=+-@\t\r\n＝＋－＠"))
            assert cell in (text, f"'{text}")


def test_rfc_4180():
    assert (
        lines([("a,b", 'say "x"', "plain"), ("two\nlines", "", "é")])
        == '"a,b","say ""x""",plain\r\n"two\nlines",,é\r\n'
    )


@pytest.mark.parametrize(
    "number, shown", [("-0.005", "-0.005"), ("1.50", "1.50"), ("1234567", "1234567"), ("1.5e-9", "1.5e-9"), ("0", "0")]
)
def test_numbers_stay_numbers(number, shown):
    text = lines([(Decimal(number), "x")])
    assert text == f"{shown},x\r\n"


@settings(max_examples=200, deadline=None)
@given(st.lists(st.lists(st.text("ab,;\"\n\r '="), min_size=1, max_size=3), max_size=6))
def test_the_lines_of_rows_are_told(rows):
    text = lines(rows)
    found = list(rows_of(text, ","))
    assert [row.cells for row in found] == cells(text)
    assert [row.first for row in found] == [1, *(row.last + 1 for row in found)][: len(found)]


def test_a_row_of_three_lines():
    assert list(rows_of('a;"b\nc\nd"\ne', ";")) == [TableRow(1, 3, ["a", "b\nc\nd"]), TableRow(4, 4, ["e"])]


@pytest.mark.parametrize(
    "text, first, last, too_long",
    [
        ('a,b\n"c,d\ne,f', 2, 3, False),  # it never closes
        ('a,b\n"c" d,e', 2, 2, False),
        (f"a,b\nc,{'9' * 200_000}\ne,f", 2, 2, True),
        (f'a,b\nc,{"9" * 100_000}\n"d" e', 3, 3, False),  # what is long stands in a row before
    ],
)
def test_a_table_that_cannot_be_read_says_where_and_why(text, first, last, too_long):
    rows = rows_of(text, ",")
    with pytest.raises(TableError) as error:
        list(rows)
    assert (error.value.first, error.value.last, error.value.too_long) == (first, last, too_long)

"""A record file is read however a spreadsheet wrote it, or refused with a sentence; nothing in it crashes anything."""

import csv
import io
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.record import file
from exercises.record.check import check, sentences
from exercises.record.entries import HEAD, Record, Row, decimal_comma, read
from exercises.record.file import HEADINGS, RecordError, blank, decode, opened, written
from exercises.record.paper import paper

READINGS = (("59.5", "60", "59.5", "60", "59.5", "59.5", "60", "59.5"), ("54", "54", "54.5", "54", "54", "54", "54", "54"))
RECORD = Record(
    {"name": "Ringed Plover", "magnet": "Curlew", "length": "8.0", "B_H": "36.0", "date": "2026-03-14", "step": "0.5",
     "mean-moment": "1.52", "pole": "22.9 A·m"},
    (Row("17.5", READINGS[0], "59.69", "1.7106", "8.71e-4", "1.53"), Row("18.7", READINGS[1], "", "", "", "1.51")),
)  # fmt: skip


def same(one: Record, other: Record) -> bool:
    return one.rows == other.rows and {k: v for k, v in one.head.items() if v} == {k: v for k, v in other.head.items() if v}


def numbers(record: Record) -> dict:
    return {name: typed.value for name, typed in read(record).values.items()}


def test_what_is_written_is_read_again():
    assert same(opened(written(RECORD)).record, RECORD)
    assert opened(written(RECORD)).notes == ()
    assert same(opened("\ufeff" + written(RECORD)).record, RECORD)


def test_an_empty_record_holds_every_label_and_opens():
    text = blank()
    assert opened(text).notes == () and all(f.label in text for f in HEAD)
    assert sentences(check(opened(text).record), {})[-1].startswith("There is no distance")


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_marks_and_line_ends(mark, end):
    out = io.StringIO()
    csv.writer(out, delimiter=mark, lineterminator=end).writerows(csv.reader(io.StringIO(written(RECORD))))
    assert same(opened(out.getvalue()).record, RECORD)


@pytest.mark.parametrize("mark", [";", "\t"])
def test_decimal_commas_mean_what_points_mean(mark):
    rows = [[c.replace(".", ",") for c in cells] for cells in csv.reader(io.StringIO(written(RECORD)))]
    found = opened("\n".join(mark.join(cells) for cells in rows)).record
    assert numbers(found) == pytest.approx(numbers(RECORD))
    assert check(found).verdicts["tan-1"].state == "right"


def test_a_comma_that_may_be_either_is_asked_about():
    assert not decimal_comma(["1,234", "36.0"]) and not decimal_comma(["1,234"])
    assert decimal_comma(["1,234", "0,5"]) and decimal_comma(["59,5", "14.03.2026"])
    problems = read(Record({"mean-moment": "1,234"})).problems
    assert "two ways" in problems["mean-moment"]


def test_decimal_commas_between_commas_leave_that_line_out_and_say_so():
    text = (
        "B_H,36\nlength (cm),8\nd (cm),1,2,3,4,5,6,7,8\n17,5,59,5,60,0,59,5,60,0,59,5,59,5,60,0,59,5\n"
        "18.7,54,54,54.5,54,54,54,54,54\n"
    )
    found = opened(text)
    assert [r.d for r in found.record.rows] == ["18.7"]
    assert "Line 4 has 18 cells under 9 headings" in found.notes[0] and "semicolons" in found.notes[0]


def test_columns_in_any_order_units_in_headings_and_missing_columns():
    text = (
        "Magnet length (mm);80\nB_H [µT];36\n\nmoment (A m²);west arm N west ②;d/mm;theta1;theta 2;reading 3;4;θ5;6;7;tan θ\n"
        "1,53;59,5;175;59,5;60;59,5;60;59,5;59,5;60;1,7106\n"
    )
    found = opened(text)
    assert found.notes == ()
    values = numbers(found.record)
    assert values["d-1"] == pytest.approx(0.175) and values["length"] == pytest.approx(0.08) and values["B_H"] == 36e-6
    assert [values[f"reading{k}-1"] for k in range(1, 9)] == [float(x) for x in READINGS[0]]
    assert values["moment-1"] == 1.53 and "mean-1" not in values


def test_a_unit_of_the_heading_yields_to_one_of_the_cell():
    values = numbers(opened("d (mm),1,2\n175,44,45\n17.5 cm,44,45\n0.175 m,44,45\n").record)
    assert [values[f"d-{i}"] for i in (1, 2, 3)] == pytest.approx([0.175] * 3)


def test_without_headings_the_order_of_an_empty_record():
    found = opened("length (cm),8\n17.5,59.5,60,59.5,60,59.5,59.5,60,59.5,59.69\n")
    assert found.record.rows[0].mean == "59.69" and "No headings" in found.notes[0]


def test_what_is_not_understood_is_told_with_its_line():
    found = opened("length (cm),8\nlength (cm),9\nweather,rain\nd (cm),1,2,remark,3\n17,44,45,good,46\n\"open,44\n")
    assert found.record.head["length"] == "8" and found.lines == {"length": 1, 1: 5}
    said = " ".join(found.notes)
    assert "Line 2 gives the measured length a second time" in said and "Line 3 was not understood" in said
    assert "Line 5: “good”" in said and "Line 6 was not understood and left out: “open, 44”" in said


def test_bad_cells_are_named_and_the_other_rows_checked():
    text = written(RECORD).replace("17.5", "here").replace("54.5", "fifty")
    found = opened(text + "19.9,48.5,48.5,48.5,48.5,48.5,48.5,48.5,48.5,48.5\r\n")
    said = sentences(check(found.record), found.lines)
    at = text.split("\r\n").index(next(line for line in text.split("\r\n") if line.startswith("here"))) + 1
    assert any(s.startswith(f"Line {at}, distance 1, d: “here”") for s in said), said
    assert any(f"Line {at + 1}, distance 2, east arm, N west, end ①: “fifty”" in s for s in said)
    assert check(found.record).verdicts["mean-3"].state == "right"


def test_more_distances_than_are_checked():
    text = written(RECORD) + "".join(f"{20 + i / 1000:.3f},44,44,44,44,44,44,44,44\r\n" for i in range(10_000))
    found = opened(text)
    assert len(found.record.rows) == 8
    assert "first 1,000 lines were read; there are 10,0" in found.notes[0] and "after them were left out" in found.notes[-1]


def test_a_file_of_cells_without_end_is_read_in_no_time():
    for junk in ("1," * 900_000, "1,\n" * 600_000, '"' * 1_900_000, ";" * 1_900_000, "d,1\n" * 400_000):
        start = time.perf_counter()
        try:
            check(opened(junk).record)
        except RecordError:
            pass
        assert time.perf_counter() - start < 2


def test_nothing_written_is_a_formula():
    record = Record({"name": '=HYPERLINK("x")', "magnet": "+1", "place": "@a"}, (Row("=1+1", ("-44",) * 8, "-1", "", "", "=2"),))
    cells = [c for row in csv.reader(io.StringIO(written(record))) for c in row]
    assert not any(c.startswith(("=", "+", "-", "@")) for c in cells)
    assert same(opened(written(record)).record, record)


@pytest.mark.parametrize(
    "raw, part",
    [(b"PK\x03\x04xx", "CSV"), (b"x" * (file.LARGEST + 1), "bytes"), (b"%PDF-1.4", "CSV"), (b"ab\x00\x00", "CSV")],
)
def test_what_is_no_record_at_all(raw, part):
    with pytest.raises(RecordError, match=part):
        decode(raw)


@pytest.mark.parametrize("text", ["", "\n\n", "hello", "a,b\n1,2\n", ";;;\n", "\ufeff"])
def test_an_empty_text_is_refused_with_a_sentence(text):
    with pytest.raises(RecordError, match="Nothing here looks like a record"):
        opened(text)


def test_letters_of_other_encodings():
    text = written(RECORD).replace("Ringed Plover", "Brachvögel")
    for encoding in ("utf-8", "utf-8-sig", "utf-16", "cp1252"):
        assert opened(decode(text.encode(encoding, "replace"))).record.head["name"] == "Brachvögel"


def test_headings_of_the_empty_record_are_all_known():
    assert len(file._headings(list(HEADINGS))) == 13


TYPED = st.one_of(st.just(""), st.floats(0, 90).map("{:.1f}".format), st.sampled_from(["44,5", "8 cm", "4°", "1e-3"]))


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.floats(1, 90).map("{:.1f}".format), *[TYPED] * 12), max_size=8))
def test_a_saved_record_opens_as_it_was(rows):
    record = Record({"length": "8"}, tuple(Row(r[0], r[1:9], *r[9:]) for r in rows))
    assert opened(written(record)).record.rows == record.rows


CELL = st.one_of(
    st.text(max_size=12),
    st.sampled_from([*HEADINGS, *(f.label for f in HEAD), "=1", "1e400", "nan", "0", "-0", "44,5", "1/2", '"', "8 cm"]),
    st.floats().map(str), st.floats(0, 90).map("{:.1f}".format),
)  # fmt: skip


@settings(max_examples=50, deadline=None)
@given(st.lists(st.lists(CELL, max_size=14), max_size=14), st.sampled_from([",", ";", "\t"]))
def test_no_junk_crashes(table, mark):
    text = "\n".join(mark.join(cells) for cells in table)
    for junk in (text, written(RECORD) + text, "d (cm),1,2,3,4,5,6,7,8,mean\nlength,8\nB_H,36\n" + text):
        try:
            found = opened(junk)
        except RecordError as error:
            assert str(error).endswith(".")
            continue
        checked = check(found.record)
        assert all(isinstance(s, str) and s for s in sentences(checked, found.lines))
        paper(checked)


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=300))
def test_no_bytes_crash(raw):
    try:
        opened(decode(raw))
    except RecordError:
        pass

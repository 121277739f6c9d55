"""A record file is read however a spreadsheet wrote it, or refused with a sentence; nothing in it crashes anything."""

import csv
import io
import time
from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.record import file
from exercises.record.check import check, sentences
from exercises.record.entries import HEAD, Record, Row, decimal_comma, read
from exercises.record.file import RecordError, blank, decode, opened, written
from exercises.record.headings import column_of, headings_for, headings_of, unit_of
from exercises.record.paper import paper
from exercises.record.position import TAN_A, TAN_B

READINGS = (
    ("59.5", "60", "59.5", "60", "59.5", "59.5", "60", "59.5"),
    ("54", "54", "54.5", "54", "54", "54", "54", "54"),
)
RECORD = Record(
    {
        "name": "Ringed Plover",
        "magnet": "Curlew",
        "length": "8.0",
        "B_H": "36.0",
        "date": "2026-03-14",
        "step": "0.5",
        "mean-moment": "1.52",
        "pole": "22.9 A·m",
    },
    (Row("17.5", READINGS[0], "59.69", "1.7106", "8.71e-4", "1.53"), Row("18.7", READINGS[1], "", "", "", "1.51")),
)


def same(one: Record, other: Record) -> bool:
    return one.rows == other.rows and {k: v for k, v in one.head.items() if v} == {
        k: v for k, v in other.head.items() if v
    }


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
    problems = read(Record({"mean-moment": "1,234 mA·m²"})).problems
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
        "Magnet length (mm);80\nB_H [µT];36\n\n"
        "moment (A m²);west arm N west ②;d/mm;theta1;theta 2;reading 3;4;θ5;6;7;tan θ\n"
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
    found = opened('length (cm),8\nlength (cm),9\nweather,rain\nd (cm),1,2,remark,3\n17,44,45,good,46\n"open,44\n')
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
    assert (
        "first 1,000 lines were read; there are 10,0" in found.notes[0]
        and "after them were left out" in found.notes[-1]
    )


def test_a_file_of_cells_without_end_is_read_in_no_time():
    for junk in ("1," * 900_000, "1,\n" * 600_000, '"' * 1_900_000, ";" * 1_900_000, "d,1\n" * 400_000):
        start = time.process_time()
        with suppress(RecordError):
            check(opened(junk).record)
        assert time.process_time() - start < 2


def test_nothing_written_is_a_formula():
    record = Record(
        {"name": '=HYPERLINK("x")', "magnet": "+1", "place": "@a"}, (Row("=1+1", ("-44",) * 8, "-1", "", "", "=2"),)
    )
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
    assert len(headings_of(list(headings_for(TAN_A)))) == 13


TYPED = st.one_of(st.just(""), st.floats(0, 90).map("{:.1f}".format), st.sampled_from(["44,5", "8 cm", "4°", "1e-3"]))


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.floats(1, 90).map("{:.1f}".format), *[TYPED] * 12), max_size=8))
def test_a_saved_record_opens_as_it_was(rows):
    record = Record({"length": "8"}, tuple(Row(r[0], r[1:9], *r[9:]) for r in rows))
    assert opened(written(record)).record.rows == record.rows


CELL = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        [
            *headings_for(TAN_A),
            *headings_for(TAN_B),
            *(f.label for f in HEAD),
            "=1",
            "1e400",
            "nan",
            "0",
            "-0",
            "44,5",
            "1/2",
            '"',
            "8 cm",
        ]
    ),
    st.floats().map(str),
    st.floats(0, 90).map("{:.1f}".format),
)


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
    with suppress(RecordError):
        opened(decode(raw))


# -- limits of a file ------------------------------------------------------------

HEADS = "d (cm)," + ",".join("12345678") + "\n"
LINE = "17.5,44,44,44,44,44,44,44,44\n"


def notes(text: str) -> str:
    return " ".join(opened(text).notes)


def test_so_many_lines_are_read():
    for many, told in ((file.MOST_LINES, False), (file.MOST_LINES + 1, True)):
        text = HEADS + LINE + "\n" * (many - 3)
        assert ("The first 1,000 lines were read; there are 1,001." in notes(text)) is told
    last = HEADS + "\n" * (file.MOST_LINES - 2) + LINE
    assert len(opened(last).record.rows) == 1 and opened(last).lines == {1: file.MOST_LINES}
    assert opened(HEADS + "\n" * (file.MOST_LINES - 1) + LINE).record.rows == ()
    assert opened("sep=,\n" + HEADS + LINE).lines == {1: 3}


def test_so_many_cells_and_letters_of_a_line_are_read():
    for many, told in ((file.MOST_CELLS, False), (file.MOST_CELLS + 1, True)):
        assert ("cells; the first 60 were read." in notes(HEADS + LINE + "name," + "," * (many - 2) + "\n")) is told
    for many, told in ((file.LONGEST_CELL, False), (file.LONGEST_CELL + 1, True)):
        found = opened(HEADS + LINE + f"name,{'x' * many}\n")
        assert found.record.head["name"] == "x" * file.LONGEST_CELL
        assert ("a cell of more than 200 characters" in " ".join(found.notes)) is told
    for many, told in ((file.LONGEST_LINE, False), (file.LONGEST_LINE + 1, True)):
        text = HEADS + "name,Knot," + " " * (many - 10) + "\n"
        assert (f"has {many:,} characters; the first 20,000 were read." in notes(text)) is told
    assert "at most 2,000,000" in refusal("x" * (file.LARGEST + 1))
    with pytest.raises(RecordError, match="Nothing here"):
        opened("x" * file.LARGEST)
    assert len(decode(b"x" * file.LARGEST)) == file.LARGEST


def refusal(text: str) -> str:
    with pytest.raises(RecordError) as told:
        opened(text)
    return str(told.value)


def test_so_many_distances_are_read():
    for many, over in ((8, ""), (9, "the 1 after them"), (12, "the 4 after them")):
        found = opened(HEADS + LINE * many)
        assert (
            len(found.record.rows) == min(many, 8)
            and (over in " ".join(found.notes))
            and bool(found.notes) is bool(over)
        )


def test_a_line_that_is_not_understood_is_told_in_short():
    found = notes(HEADS + LINE + f"{'w' * 70},rain\n")
    assert f"Line 3 was not understood and left out: “{'w' * 60}”." in found
    assert "“" + "y" * 30 + "”, is kept" in notes(f"name,{'y' * 40}\nname,z\n" + HEADS)
    assert f"“{'g' * 30}” stands in a column" in notes(
        HEADS.replace("\n", ",remark\n") + LINE.replace("\n", f",{'g' * 40}\n")
    )


def test_headings_come_again_and_columns_by_their_words():
    found = opened(HEADS + LINE + "d (mm),1,2\n175,44,45\n")
    assert "Line 3 was taken as a second line of headings." in found.notes and [r.d for r in found.record.rows] == [
        "17.5",
        "175 mm",
    ]
    for words, column in (
        ("distance", "d"),
        ("D/mm", "d"),
        ("tangent", "tan"),
        ("tan(theta)", "tan"),
        ("Mean deflection", "mean"),
        ("θ", "mean"),
        ("(d²−l²)²", "bracket"),
        ("(d2 - l2)2", "bracket"),
        ("m", "moment"),
        ("Moment (A m²)", "moment"),
        ("θ₃", "reading3"),
        ("r 8", "reading8"),
        ("9", None),
        ("0", None),
        ("E arm N W ②", "reading4"),
        ("magnet on the west arm, north pole to east, end 1", "reading5"),
        ("weather", None),
    ):
        assert column_of(words) == column, words


def test_units_in_headings_and_beside_a_value():
    for cell, unit in (
        ("d (mm)", "mm"),
        ("d/m", "m"),
        ("d, cm", "cm"),
        ("d [mm]", "mm"),
        ("d", ""),
        ("d (furlong)", ""),
    ):
        assert unit_of(cell, "distance") == unit
    for cell, quantity, unit in (
        ("moment (erg/G)", "moment", "erg/G"),
        ("moment [G cm³]", "moment", "G cm³"),
        ("B_H (gauss)", "field", "gauss"),
        ("B_H/Oe", "field", "Oe"),
        ("pole strength (emu/cm)", "pole", "emu/cm"),
        ("d (on the arm, mm)", "distance", "mm"),
    ):
        assert unit_of(cell, quantity) == unit
    found = opened("B_H (gauss),0.382\nlength,8.0\nd (cm),1,2,moment (erg/G)\n17.5,44,45,1620\n").record
    assert numbers(found)["B_H"] == pytest.approx(38.2e-6) and numbers(found)["moment-1"] == pytest.approx(1.62)
    assert opened("length,80,mm\n" + HEADS).record.head["length"] == "80 mm"
    assert opened("length (cm),8,mm\n" + HEADS).record.head["length"] == "8"
    assert opened("length,80,about\n" + HEADS).record.head["length"] == "80"
    assert opened("name,Knot,red\n" + HEADS).record.head["name"] == "Knot, red"


def test_a_record_without_headings_needs_nine_numbers_in_a_line():
    assert len(opened("name,x\n" + LINE).record.rows) == 1
    assert opened("name,x\n" + LINE.replace(",44\n", "\n")).record.rows == ()
    assert opened("name,x\n" + LINE.replace("\n", ",remark\n")).record.rows == ()


def test_a_comma_in_the_numbers_and_another_mark_between_the_cells():
    text = "name;Knot\nd;" + ";".join("12345678") + "\n17,5;" + ";".join(["44,5"] * 8) + "\n"
    assert numbers(opened(text).record)["reading8-1"] == 44.5
    assert numbers(opened("d,1,2\n17.5,44,45\n;\n").record)["reading2-1"] == 45


@pytest.mark.parametrize("rows", [1, 5])
def test_an_empty_record_has_so_many_lines(rows):
    assert len(blank(rows).splitlines()) - len(blank(0).splitlines()) == rows


def test_one_mark_in_a_line_parts_its_cells():
    for mark in ";\t":
        found = opened(f"name{mark}Knot\nlength{mark}8,4\nwidth{mark}1,2\n").record.head
        assert (found["name"], found["length"], found["width"]) == ("Knot", "8,4", "1,2")
    assert opened("name,Knot\nlength,8.4\n").record.head["length"] == "8.4"

"""A class list is read right or refused with a sentence; no student is lost on the way."""

import csv
import io

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from exercises.classroom.class_list import cells, roster
from exercises.classroom.class_list.list_words import told
from exercises.classroom.class_list.proposal import propose
from exercises.classroom.class_list.roster import RosterError, Student, look, same_roll, students_of
from exercises.files import text as files_text
from exercises.files.tables import guarded, lines
from exercises.files.text import FileError, decode
from tests.exercises.classwork import read

CLASS = (Student("1", "Ringed Plover"), Student("2", "Dunlin, small"), Student("3", "علي"), Student("4", "भार"))


def refusal(text: str) -> str:
    with pytest.raises(RosterError) as told:
        read(text)
    sentence = str(told.value)
    assert sentence[0].isupper() and sentence.endswith(".") and len(sentence) < 400, sentence
    return sentence


# -- every way a list comes ---------------------------------------------------


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("header", ["", "Roll{0}Name", "roll no.{0}Full name", "Matrikel{0}Vorname"])
@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("start", ["", "\ufeff", "\ufeffsep={0}|"])
def test_separators_line_ends_and_headers(start, mark, header, end):
    rows = [header.format(mark)] * bool(header) + [f'{s.roll}{mark}"{s.name}"{mark}' for s in CLASS] + ["", mark, "  "]
    text = start.format(mark).replace("|", end) + end.join(rows)
    assert read(text) == CLASS
    assert bool(propose(text).aside) == bool(header)


def test_columns_in_another_order_and_names_in_two():
    assert read("Surname,First name,Roll\nPlover,Ringed,7") == (Student("7", "Plover Ringed"),)
    assert read("Ringed Plover;07;x\nDunlin;08;y") == (Student("07", "Ringed Plover"), Student("08", "Dunlin"))


def test_a_header_taken_is_told():
    found = propose("Nummer;Wer\n1;A\n2;B")
    assert dict(told(found, students_of(found)))["headings"] == "line 1"


def test_rolls_without_names():
    assert read("4\n9\n\n2") == (Student("4"), Student("9"), Student("2"))
    assert read("2024-17\n2024-18") == (Student("2024-17"), Student("2024-18"))


@pytest.mark.parametrize(
    "text, rolls",
    [
        ("1-4", "1 2 3 4"),
        (" 1 – 4 ", "1 2 3 4"),
        ("1..3; 7", "1 2 3 7"),
        ("2 to 3, 008-011", "2 3 008 009 010 011"),
        ("\ufeff5-5\n", "5"),
    ],
)
def test_ranges(text, rolls):
    assert [s.roll for s in read(text)] == rolls.split()


def test_joiners_of_a_script_stay_in_names_and_leave_rolls():
    assert read("1\u200d,क्\u200dष") == (Student("1", "क्\u200dष"),)


def test_wide_figures_and_capitals_make_no_second_student():
    assert same_roll("Ａ１") == same_roll("a1")
    assert "lines 1 and 2" in refusal("a1,x\nＡ１,y")


def test_bytes_of_a_file():
    for coding in ("utf-8", "utf-8-sig", "utf-16"):
        assert read(decode("1,علي\n2,Ådne".encode(coding))) == (Student("1", "علي"), Student("2", "Ådne"))
    with pytest.raises(FileError, match="CSV UTF-8"):
        decode("1,Ådne".encode("latin-1"))
    with pytest.raises(FileError, match="CSV UTF-8"):
        decode(b"\xff\xfea")
    for workbook in (b"PK\x03\x04 and so on", b"\xd0\xcf\x11\xe0 and so on"):
        with pytest.raises(FileError, match="This is a workbook"):
            decode(workbook)


# -- what is refused ----------------------------------------------------------


@pytest.mark.parametrize(
    "text, said",
    [
        ("", "no student"),
        ("\ufeff\n , \n", "no student"),
        ("Roll,Name\n", "no student"),
        ("Roll,Name\n7,a\n8,b\n\n7,c", "Roll 7 is on lines 2 and 5"),
        ('1,"a\nb"\n2,c\n1,d', "lines 1 and 4"),
        ("1\n1\n1", "lines 1, 2 and 3"),
        ("\n".join(["1"] * 50), "and more"),
        ("\n".join(map(str, [*range(20), *range(20)])), "and 15 other rolls too"),
        ("1-5, 4-8", "more than one range"),
        ("9-1", "runs downwards"),
        ("1-999999999", "100,000"),
        ("1-60000, 70000-200000", "100,000"),
        ("1,a\n,b", "Line 2 has no roll"),
        ('1,a\n2,"b\n3,c', "From line 2 on"),
        ('1,"a"b', "From line 1 on"),
        (f"{'7' * 41},a", "41 characters"),
        (f"1,{'x' * 121}", "121 characters"),
        (f"1,{'x' * 200_000}", "Line 1 has a cell too long"),
    ],
)
def test_refusals(text, said):
    assert said in refusal(text)


def test_sizes_are_bounded(monkeypatch):
    monkeypatch.setattr(roster, "MOST_STUDENTS", 5)
    monkeypatch.setattr(cells, "MOST_STUDENTS", 5)
    monkeypatch.setattr(cells, "LARGEST", 50)
    assert len(read("1-5")) == len(read("1\n2\n3\n4\n5")) == len(read("roll\n1\n2\n3\n4\n5")) == 5
    for text in ("1-6", "1\n2\n3\n4\n5\n6", "roll\n1\n2\n3\n4\n5\n6", "1\n2\n3\n4\n5\n6\n7\n8"):
        assert "more than 5" in refusal(text)
    assert "at most 50" in refusal("x" * 51)
    monkeypatch.setattr(files_text, "LARGEST", 50)
    with pytest.raises(FileError, match="at most 50"):
        decode(b"x" * 51)


# -- attacks ------------------------------------------------------------------


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=200) | st.text(alphabet='1a2,;\t"\n\r -=\ufeff\0', max_size=60))
@example("=\n'")
@example("\ud800")
@example("sep=,\n")
def test_any_text_is_read_or_refused_with_a_sentence(text):
    try:
        students = read(text)
    except RosterError as error:
        assert str(error).endswith(".")
        return
    assert students and len({same_roll(s.roll) for s in students}) == len(students)
    for student in students:
        assert student.roll
        assert not set("\n\r\t\0\ufeff") & set(student.roll + student.name)
        (student.roll + student.name).encode()


@settings(max_examples=200, deadline=None)
@given(st.binary(max_size=200))
def test_any_bytes_are_decoded_or_refused(raw):
    try:
        assert isinstance(decode(raw), str)
    except FileError as error:
        assert str(error).endswith(".")


NAMES = st.text(st.characters(exclude_categories=("Cs", "Cc", "Cf")), min_size=1, max_size=30).map(
    lambda t: read(lines([("roll", "name"), ("1", t)]))[0].name
)


@settings(max_examples=200, deadline=None)
@given(st.lists(st.tuples(st.integers(0, 10**6).map(str), NAMES), min_size=1, max_size=12, unique_by=lambda s: s[0]))
def test_what_our_tables_write_is_read_back(students):
    text = lines([("roll", "name"), *students])
    assert read(text) == tuple(Student(*s) for s in students)


@pytest.mark.parametrize("sign", ["=", "+", "-", "@"])
def test_the_apostrophe_of_our_tables_comes_off(sign):
    assert read(f"roll,name\n{guarded(sign + '5')},{guarded(sign + 'x')}") == (Student(f"{sign}5", f"{sign}x"),)


@settings(max_examples=200, deadline=None)
@given(
    st.lists(
        st.lists(st.sampled_from(["1", "22", "Ann", "", "a;b", 'say "x"', "é"]), min_size=1, max_size=3), max_size=8
    )
)
@example([["", ""], ["a;b"]])
def test_no_row_is_lost(rows):
    """Each row that is not empty is a student, left out and told, or the reason for a refusal."""
    out = io.StringIO(newline="")
    csv.writer(out).writerows(rows)
    try:
        found = propose(out.getvalue())
        students = students_of(found)
    except RosterError:
        return
    if len(rows) == 1 and all(cell.strip().isdecimal() for cell in rows[0]):
        return  # a line of roll numbers
    assert len(students) + len(found.aside) == sum(any(cell for cell in row) for row in rows)


def test_a_line_of_numbers_is_a_line_of_rolls():
    assert [s.roll for s in read("7, 8; 9")] == ["7", "8", "9"]


def test_a_numbered_list_is_rolls_and_names():
    found = look("1. Knot\n2. Ringed Plover\n13) Ruff\n14 Curlew")
    assert found.students == (
        Student("1", "Knot"),
        Student("2", "Ringed Plover"),
        Student("13", "Ruff"),
        Student("14", "Curlew"),
    )
    assert [s.roll for s in read("A1 Knot\n2 Ruff")] == ["A1 Knot", "2 Ruff"]  # not all are numbered

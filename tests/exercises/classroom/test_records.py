"""Laboratory records come in as return slips: each goes to its student, is checked, and is never a problem."""

import csv
import io
import json

import pytest

from exercises.classroom.class_list.class_file import class_text
from exercises.classroom.desk import classes, marks, returned
from exercises.classroom.marking.intake import take_in
from exercises.classroom.marking.marks_file import read_marks
from exercises.classroom.report.records import found_in, records_csv
from exercises.record.check import check
from exercises.record.entries import Record, Row
from exercises.record.return_slip import record_of, record_slip
from exercises.return_slip.text import check_of, return_slips_in
from tests.exercises.classwork import a_class, code_of

MADE = a_class(3, ("tan-a", "law"))
#: Two distances of a magnet of some 0.5 A·m² in 36 µT, and a reading of the second that does not belong there.
NEAR = Row("16", ("45.6", "46.1", "45.1", "45.6", "45.8", "45.9", "45.4", "45.7"))
FAR = Row("19", ("30.2", "30.7", "29.7", "30.2", "30.4", "30.5", "30.0", "30.3"))
ODD = Row("19", ("30.2", "30.7", "29.7", "30.2", "30.4", "30.5", "30.0", "36.3"))
HEAD = {"length": "8.0", "B_H": "36", "two_l_is": "five-sixths"}


def slip(who, *rows, code="", number=0, written="", source="bench.txt"):
    made = record_slip(Record(HEAD, rows), who, code, ("0.5", "0"), number, written)
    (found,), problems = return_slips_in(made.text, source)
    assert made.ok and not problems
    return found


def rows_of(slips, made=MADE):
    text = records_csv(take_in(made, slips).records, made)
    return list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff"), newline="")))


def test_each_goes_to_its_student_and_none_is_a_problem():
    slips = [
        slip("Nobody", NEAR),
        slip("Dunlin", NEAR, FAR),
        slip("s01", NEAR, FAR),
        slip("Skua", NEAR, code=str(code_of(MADE, 1))),
    ]
    taken = take_in(MADE, slips)
    assert not taken.problems and not taken.handed and len(taken.missing) == 6
    assert [record.student and record.student.roll for record in taken.records] == ["S01", "S02", "S03", None]
    rows = rows_of(slips)
    assert [(r["roll"], r["who"], r["distances"], r["counts"]) for r in rows] == [
        ("S01", "s01", "2", "yes"),
        ("S02", "Skua", "1", "yes"),
        ("S03", "Dunlin", "2", "yes"),
        ("", "Nobody", "1", "no"),
    ]
    assert "no roll or name of this class" in rows[3]["notes"] and "by its code it is of roll S02" in rows[1]["notes"]


def test_the_result_is_that_of_the_record_page():
    record = slip("S01", NEAR, ODD)
    (row,) = rows_of([record])
    checked = check(record_of(record).record)
    moment = checked.moments.result.moment
    assert float(row["moment A·m²"]) == pytest.approx(moment.value, rel=1e-3)
    assert float(row["moment from"]) == pytest.approx(moment.value - moment.U, rel=1e-3)
    assert float(row["moment to"]) == pytest.approx(moment.value + moment.U, rel=1e-3)
    assert row["gravest finding"] == checked.findings[0].level == "amiss"
    assert row["what was found"] == checked.findings[0].text and int(row["findings"]) == len(checked.findings)
    assert row["with what stands out put right"]
    (row,) = rows_of([slip("S01", Row("16", ("45",)))])
    assert (
        row["moment A·m²"] == row["pole to"] == ""
        and "There is no result" in found_in(slip("S01", Row("16")), MADE).said
    )


def test_of_two_the_order_of_time_says_which_counts_or_the_instructor():
    one, other = slip("S01", NEAR, number=1), slip("S01", NEAR, FAR, number=2)
    for slips in ((one, other), (other, one)):
        assert [(r["counts"], r["distances"]) for r in rows_of(slips)] == [("yes", "2"), ("no", "1")]
    blind = [slip("S01", NEAR), slip("S01", NEAR, FAR)]
    (question,) = take_in(MADE, blind).questions
    assert question.key == "RECORD S01" and "as a laboratory record" in question.about
    taken = take_in(MADE, blind, (), {"RECORD S01": check_of(blind[0])})
    assert not taken.questions and not taken.problems and taken.records[0].return_slip == blind[0]


def test_the_desk_lists_them():
    session = json.loads(classes.open_file(class_text(MADE)))["session"]
    text = record_slip(Record(HEAD, (NEAR, FAR)), "S02").text + record_slip(Record(HEAD, (NEAR,)), "<i>S02").text
    found = json.loads(returned.return_slips_of_text(session, "bench.txt", text))
    said = json.loads(returned.take_in(session, json.dumps(found)))
    assert said["records"] == 2 and said["problems"] == 0
    assert "Laboratory records (2)" in said["html"] and "&lt;i&gt;S02" in said["html"] and "A·m²" in said["html"]


def test_the_desk_asks_which_counts():
    session = json.loads(classes.open_file(class_text(MADE)))["session"]
    slips = [slip("S01", NEAR), slip("S01", NEAR, FAR)]
    found = {"slips": [vars(s) for s in slips], "problems": []}
    said = json.loads(returned.take_in(session, json.dumps(found)))
    assert said["questions"] == 1 and "Which slip counts (1): of 1 it is not known, choose" in said["html"]
    check = check_of(slips[0])
    assert f'name="counts:RECORD S01" value="{check}"' in said["html"]
    chosen = json.loads(returned.take_in(session, json.dumps({**found, "choices": {"RECORD S01": check}})))
    assert chosen["questions"] == 0 and f'value="{check}" checked' in chosen["html"]


def test_records_alone_are_kept_by_the_desk_too():
    session = json.loads(classes.open_file(class_text(MADE)))["session"]
    given = {"slips": [vars(slip("S01", NEAR, FAR))], "problems": []}
    work = json.loads(returned.take_in(session, json.dumps(given)))["work"]
    assert json.loads(marks.mark(work, 0, 1))["ok"] and json.loads(marks.result(work))["ok"]
    texts = {name: json.loads(marks.part(work, name, 0, 1))["text"] for name in ("records.csv", "marks.json")}
    assert "S01" in texts["records.csv"] and len(read_marks(texts["marks.json"], MADE).slips) == 1

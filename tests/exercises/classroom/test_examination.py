"""The papers of a practical examination: nothing is told on the student's, and the viva is the same for ever."""

import csv
import json

import pytest

from exercises.classroom.class_list.class_file import ClassError, class_text, make, read_class, task
from exercises.classroom.class_list.heading import Heading
from exercises.classroom.class_list.packs import EXAMINATION
from exercises.classroom.class_list.roster import Student
from exercises.classroom.desk import classes as desk
from exercises.classroom.examination.mark_sheet import PARTS, USUAL, MarkSheetError, total, weights_from
from exercises.classroom.examination.papers import TELLS, UNNAMED, examination_sheet, examiner_page
from exercises.classroom.examination.viva_draw import BENCH, BENCH_TAN_B, COLUMNS, LAW, LAW_TAN_B, drawn
from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.sheet import written
from exercises.student.viva import VIVA
from exercises.working.mathematics import symbols
from tests.exercises.golden import FOLDER, codes_of

STUDENT = Student("31", "Ringed Plover", "B")
HEADING = Heading("Saltmarsh College", date="26 November 2026")
SHEETS = {slug: open_code(codes_of(kind.letter)[2]) for slug, kind in all_kinds().items()}


def test_the_questions_of_a_code_are_those_of_before():
    """What is kept was drawn when codes of this edition first had a viva; it is never written anew."""
    with open(FOLDER / "viva.csv", encoding="utf-8", newline="") as kept:
        rows = list(csv.reader(kept))
    assert {open_code(code).kind.slug for code, *_ in rows} == set(COLUMNS)
    for code, *keys in rows:
        assert [one.key for one in drawn(open_code(code))] == keys, code


@pytest.mark.parametrize("slug", COLUMNS)
def test_three_questions_have_an_answer_each_and_the_last_has_the_sheets_own_number(slug):
    known, keys = {one.key: one for one in VIVA}, set()
    assert set(COLUMNS[slug]) <= set(all_kinds()[slug].questions)
    for code in codes_of(all_kinds()[slug].letter)[:40]:
        sheet = open_code(code)
        bench, law, working = drawn(sheet)
        for one in (bench, law):
            keys.add(one.key)
            assert one.question == symbols(known[one.key].question) and one.answer == symbols(known[one.key].answer)
        step = sheet.working.by_id[working.key]
        assert symbols(written(sheet.working.value(step.id), step).replace(" °", "°")) in working.answer
        assert working.question.endswith("?") and "{" not in working.question
    lists = (BENCH_TAN_B, LAW_TAN_B) if slug == "tan-b" else (BENCH, LAW)
    assert keys <= {key for keys in lists for key in keys} and len(keys) > 15


def test_the_lists_of_questions_have_each_once():
    for keys in (BENCH, LAW, BENCH_TAN_B, LAW_TAN_B):
        assert len(set(keys)) == len(keys) and set(keys) <= {one.key for one in VIVA}
    assert not set(BENCH) & set(LAW)


@pytest.mark.parametrize("slug", SHEETS)
def test_the_students_paper_tells_nothing_and_asks_for_all(slug):
    sheet = SHEETS[slug]
    paper = examination_sheet(STUDENT, sheet, HEADING)
    for told in ("er-formula", "<a ", "er-hint", "<button", "href"):
        assert told not in paper
    titles = {s.title for s in sheet.working.steps if s.column in TELLS.get(slug, ())}
    assert bool(titles) == (slug in TELLS) and (UNNAMED in paper) == bool(titles)
    assert not any(symbols(title) in paper for title in titles)
    asked = [s for s in sheet.working.steps if not s.choices]
    assert paper.count("<input ") == len(asked)
    assert "Saltmarsh College" in paper and "section <bdi>B</bdi>" in paper


def test_the_examiners_page_has_the_parts_with_what_they_count_and_the_viva():
    sheet, weights = SHEETS["tan-a"], weights_from({"viva": "2,5", "result": "0"})
    page = examiner_page(STUDENT, sheet, HEADING, weights)
    for part in PARTS:
        assert part.title in page and all(line in page for line in part.looked_for)
    assert total(USUAL) == 40 and total(weights) == 30.5 and "<td>30.5</td>" in page and "<td>2.5</td>" in page
    for one in drawn(sheet):
        assert one.question in page and one.answer in page
        assert one.answer not in examination_sheet(STUDENT, sheet, HEADING)


@pytest.mark.parametrize(
    "typed", [{"viva": "lots"}, {"viva": "-1"}, {"viva": "nan"}, {"viva": "1001"}, {"viva": "0.125"}, {"exam": "3"}]
)
def test_weights_that_cannot_be_used_are_refused_in_a_sentence(typed):
    with pytest.raises(MarkSheetError, match=r"\.$"):
        weights_from(typed)


def test_weights_that_add_up_to_nothing_are_refused():
    with pytest.raises(MarkSheetError, match="add up to nothing"):
        weights_from({part.key: "0" for part in PARTS})
    assert weights_from({}) == USUAL and weights_from({"viva": " "}) == USUAL


def test_the_class_file_keeps_the_weights_and_the_desk_gives_them_back():
    typed = {"list": "1-3", "phrase": "sand and salt water", "kinds": ["tan-a"], "common": {}, "own": {}, "site": ""}
    made = json.loads(desk.make(json.dumps({**typed, "weights": {"viva": "12"}})))
    class_ = read_class(made["text"])
    assert dict(class_.weights)["viva"] == 12 and read_class(class_text(class_)) == class_
    opened = json.loads(desk.open_file(made["text"]))
    assert opened["given"]["weights"] == dict(class_.weights)
    for name, pack in EXAMINATION.items():
        whole = pack.head(class_, "") + "".join(pack.piece(class_, *of) for of in class_.codes()) + pack.foot
        assert json.loads(desk.part(opened["session"], name, 0, 3, ""))["text"] == whole
    refused = json.loads(desk.make(json.dumps({**typed, "weights": {"viva": "lots"}})))
    assert (refused["ok"], refused["control"]) == (False, "examination")


@pytest.mark.parametrize("strange", ['"x"', "3", '{"viva": "lots"}', '{"exam": 3}', "[3]"])
def test_a_class_file_with_other_weights_is_refused_in_a_sentence(strange):
    text = class_text(make([STUDENT], "sand and salt water", [task("tan-a")]))
    with pytest.raises(ClassError, match=r"\.$"):
        read_class(text.replace('"site"', f'"examination": {strange}, "site"'))

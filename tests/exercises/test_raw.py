"""No raw notation in what is printed for a class, reported of it, said of a record, and asked at the bench."""

import json

import pytest

from exercises.classroom.class_list import prints
from exercises.classroom.class_list.heading import Heading
from exercises.classroom.class_list.roster import Student
from exercises.classroom.desk import classes
from exercises.classroom.examination.mark_sheet import USUAL
from exercises.classroom.examination.papers import examination_sheet, examiner_page
from exercises.classroom.report.counts import count
from exercises.classroom.report.page import report_fragment
from exercises.classroom.report.student_pages import page
from exercises.kinds.kind import all_kinds, open_code
from exercises.record.beside import page as beside
from exercises.record.check import check
from exercises.record.paper import paper
from exercises.student import desk
from tests.exercises.classwork import a_class, code_of, handed, marked, slipped
from tests.exercises.golden import codes_of
from tests.exercises.record.test_check import record_of
from tests.raw import raw_in


@pytest.mark.parametrize("slug", sorted(all_kinds()))
def test_of_prints(slug):
    sheet = open_code(codes_of(all_kinds()[slug].letter)[4])
    for of in (prints.sheet_page, prints.key, prints.worked):
        assert not raw_in(of(Student("1", "Dunlin"), sheet))
    assert not raw_in(examination_sheet(Student("1", "Dunlin"), sheet, Heading()))
    assert not raw_in(examiner_page(Student("1", "Dunlin"), sheet, Heading(), USUAL))


@pytest.mark.parametrize("slug", ["law", "earth", "tan-b"])
def test_of_a_class(slug):
    """A slip whose words have a symbol in them was made, and is named in the report and on the student's page."""
    made = a_class(1, (slug,))
    sheet = open_code(str(code_of(made, 0)))
    slip = next(s for s in sheet.slips if not s.hides and raw_in(f"{s.name} {s.says}"))
    done = marked(handed(made, 0, slipped(code_of(made, 0), slip.key)), made.scheme)
    assert not raw_in(report_fragment(count(made, [done])) + page(done, made))


@pytest.mark.parametrize(
    "more", [{}, {"B_H": ""}, {"B_H": "360"}, {"B_H": "36", "place": "Vienna", "date": "1850-01-01"}]
)
@pytest.mark.parametrize("position", ["tan A", "tan B"])
def test_of_a_record(more, position):
    assert not raw_in(paper(check(record_of(filled=False, position=position, **more))))


def test_of_the_bench():
    """What lacks, and what is wrong with what was typed, comes as HTML too."""
    work = {"head": {"two_l_is": "given", "length": "8", "B_H": "360", "step": "1"}, "zero": [], "rows": []}
    asked = {one["cell"]: one for one in json.loads(beside.begin(json.dumps(work)))["asked"]}
    assert "B_H" in asked["B_H"]["text"] and "<sub>H</sub>" in asked["B_H"]["html"]
    work["head"]["B_H"] = ""
    assert "<i>B</i><sub>H</sub>" in json.loads(beside.now(json.dumps(work)))["lacks"]


def test_of_what_is_refused():
    answers = (
        desk.fresh("tan-a", "0", json.dumps({"field": "900"})),
        classes.make(
            json.dumps(
                {
                    "list": "1 Dunlin",
                    "phrase": "salt and sand",
                    "kinds": ["tan-a"],
                    "site": "",
                    "common": {"field": "900"},
                    "own": {},
                }
            )
        ),
    )
    for answer in map(json.loads, answers):
        assert not answer["ok"] and "B_H" in answer["text"] and "<sub>H</sub>" in answer["html"]

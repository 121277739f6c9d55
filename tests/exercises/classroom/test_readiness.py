"""Who may go to the bench: by the mark of each kind that counts, in lists by section, with strips to countersign."""

import json
import re

import pytest

from exercises.classroom.class_list.class_file import ClassError, class_text, make, read_class, task
from exercises.classroom.class_list.roster import Student
from exercises.classroom.desk import classes as desk
from exercises.classroom.examination.readiness import USUAL, Readiness, ReadinessError, readiness_from, shown
from exercises.classroom.examination.ready_page import DECLARATION, ready_html, shares_of
from exercises.classroom.marking.scheme import Scheme
from exercises.kinds.kind import all_kinds
from tests.exercises.classwork import a_class, code_of, handed, marked, right

NASTY = "<b>Knot</b>"
KINDS = [all_kinds()["setting"], all_kinds()["dial"]]
CLASS = make(
    [Student("1", "Ringed Plover", "B"), Student("2", NASTY, "A"), Student("3", "Ruff", "B")],
    "sand and salt water",
    [task(slug) for slug in ("tan-a", "setting", "dial")],
)


@pytest.mark.parametrize(
    ("shares", "ready"),
    [
        ({"setting": 0.8, "dial": 1.0}, True),
        ({"setting": 0.7999, "dial": 1.0}, False),
        ({"setting": 1.0}, False),
        ({"tan-a": 1.0}, False),
        ({}, False),
    ],
)
def test_each_kind_that_counts_must_reach_the_mark(shares, ready):
    assert shown(Readiness(), KINDS, shares).ready is ready


def test_nobody_is_ready_where_no_kind_counts():
    assert not shown(Readiness(), [], {"setting": 1.0}).ready
    made = a_class(3)  # of tan A alone
    page = ready_html(made, {"S01": {"tan-a": 1.0}}, "")
    assert "This class is not set Choosing distances, " in page and "nothing shows who is ready" in page
    assert ">ready<" not in page and 'class="cl-strip ' not in page


def test_a_mark_that_is_just_reached_is_enough():
    for earned, possible, percent in ((7, 10, 70.0), (23, 25, 92.0), (0.57, 1, 57.0)):
        assert shown(Readiness(percent=percent), KINDS[:1], {"setting": earned / possible}).ready


def test_lists_by_section_and_a_strip_for_each_who_may():
    shares = {"1": {"setting": 0.9, "dial": 0.8996}, "2": {"setting": 1.0, "dial": 1.0}, "3": {"setting": 0.5}}
    page = ready_html(CLASS, shares, "")
    sections = page.split("<section")[1:]
    assert ["section B" in one for one in sections] == [True, False]  # in the order of the list
    assert all(DECLARATION in one and one.index(DECLARATION) < one.index("ex-list") for one in sections)
    assert re.findall(r"<td>(ready|not yet)</td>", page) == ["ready", "not yet", "ready"]
    assert "<td>89.9 %</td>" in page and "<td>50 %</td><td>–</td>" in page
    assert [one.count("ex-strip") for one in sections] == [1, 1] and "1 student of 2 may go" in sections[0]
    assert "This class is not set Choosing distances or Tangent law drills." in page
    assert NASTY not in page and page.count("&lt;b&gt;Knot") == 2


def test_the_shares_are_those_of_the_marks():
    made = a_class(1, ("setting", "dial"))
    sheets = {
        "setting": marked(handed(made, 0), made.scheme),
        "dial": marked(handed(made, 0, {}, which=1), made.scheme),
    }
    assert shares_of(sheets) == {"setting": 1.0, "dial": 0.0}


@pytest.mark.parametrize(
    ("kinds", "percent", "found"),
    [
        ("", "", Readiness()),
        ("law, Dial,law", "75 %", Readiness(("dial", "law"), 75.0)),
        (["tan-a"], "62,5", Readiness(("tan-a",), 62.5)),
        (USUAL, 80, Readiness()),
    ],
)
def test_it_is_read_as_it_is_typed(kinds, percent, found):
    assert readiness_from(kinds, percent) == found


@pytest.mark.parametrize(
    ("kinds", "percent"), [("swing", ""), ([], ""), ("law", "0"), ("law", "101"), ("law", "many"), ("law", "nan")]
)
def test_what_cannot_be_used_is_refused_in_a_sentence(kinds, percent):
    with pytest.raises(ReadinessError, match=r"\.$"):
        readiness_from(kinds, percent)


def test_the_class_file_keeps_it_and_the_desk_gives_it_back():
    typed = {"list": "1-3", "phrase": "sand and salt water", "kinds": ["law"], "common": {}, "own": {}, "site": ""}
    given = {"kinds": ["law", "dial"], "percent": "75"}
    made = json.loads(desk.make(json.dumps({**typed, "ready": given})))
    class_ = read_class(made["text"])
    assert class_.ready == Readiness(("dial", "law"), 75.0) and read_class(class_text(class_)) == class_
    assert json.loads(desk.open_file(made["text"]))["given"]["ready"] == {"kinds": ["dial", "law"], "percent": 75.0}
    refused = json.loads(desk.make(json.dumps({**typed, "ready": {**given, "kinds": []}})))
    assert (refused["ok"], refused["control"]) == (False, "ready")


@pytest.mark.parametrize(
    "strange", ['"x"', "3", '{"kinds": 3}', '{"kinds": ["swing"]}', '{"percent": "80"}', '{"at": 1}']
)
def test_a_class_file_with_another_set_is_refused_in_a_sentence(strange):
    with pytest.raises(ClassError, match=r"\.$"):
        read_class(class_text(CLASS).replace('"site"', f'"ready": {strange}, "site"'))


def test_a_kind_of_weight_nought_shows_readiness_and_a_small_weight_does_not_round_it_up():
    """14 of 18 is 78 %: out of 0.1 it would be 0.08, which is 80 % of it."""
    for weight in (0, 0.1):
        made = a_class(1, ("law",), Scheme(weights=(("law", weight),), deadline="2026-11-20 17:00", late=0.5))
        answers = right(code_of(made, 0))
        most = len(answers)
        some = dict(list(answers.items())[: round(0.78 * most)])
        for given, share in ((answers, 1), (some, len(some) / most)):
            sheet = marked(handed(made, 0, given), made.scheme)
            assert shares_of({"law": sheet}) == {"law": pytest.approx(share)}

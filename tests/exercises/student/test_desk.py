"""The student's desk answers in JSON, and says what is wrong in a sentence."""

import json
import re

import pytest

from exercises.codes.conventions import words_of
from exercises.codes.sheet_code import SheetCode, write, write_setting
from exercises.kinds.kind import all_kinds, open_code
from exercises.student import desk as student
from tests.exercises.in_words import lines_of
from tests.exercises.settings import FIXED

CODE = write(SheetCode("A", 1, 0))


def test_fresh_makes_a_code_that_opens():
    code = json.loads(student.fresh("tan-a", "00ff12ab"))["code"]
    opened = json.loads(student.open_sheet("tan-a", code.lower()))
    assert opened["ok"] and opened["code"] == code and code in opened["html"]


def test_new_numbers_by_a_laboratorys_own_conventions():
    made = json.loads(student.fresh("tan-a", "00ff12ab", json.dumps(words_of(FIXED))))
    assert made["ok"] and len(made["code"]) == 19 and made["code"].endswith(write_setting(FIXED)[:7])
    assert open_code(made["code"]).scenario.code.setting == FIXED
    assert json.loads(student.open_sheet("tan-a", made["code"]))["ok"]


@pytest.mark.parametrize(
    "words, said",
    [
        ({"field": "0.382"}, "Is “0.382” in gauss?"),
        ({"field": "65", "length": "40", "grid": "10 mm", "distances": "8"}, "A bar of 40 mm in a field of 65.0 µT"),
    ],
)
def test_conventions_without_numbers_are_refused_in_a_sentence(words, said):
    refused = json.loads(student.fresh("tan-b", "00ff12ab", json.dumps(words)))
    assert not refused["ok"] and refused["text"].startswith(said) and refused["text"].endswith(("?", "."))


def test_a_code_of_the_former_layout_is_said_to_be_one():
    for page in ("tan-a", "tan-b"):
        refused = json.loads(student.open_sheet(page, "A322-2557-87X5"))
        assert not refused["ok"] and refused["text"].startswith("This is a code of the former layout")


def test_a_wrong_code_is_refused_in_a_sentence():
    opened = json.loads(student.open_sheet("tan-a", "A322"))
    assert not opened["ok"] and "9 characters, or 15 with" in opened["text"]
    unknown = CODE[0] + "Y" + CODE[2:]
    assert not json.loads(student.open_sheet("tan-a", unknown))["ok"]


def test_check_hint_and_solution():
    working = open_code(CODE).working
    checked = json.loads(student.check(CODE, json.dumps({"mean-1": f"{working.value('mean-1'):.1f}", "pole": "x"})))
    assert checked["right"] == 1 and checked["steps"] == len(working.steps)
    assert checked["verdicts"]["pole"]["state"] == "unread"
    first, last = (json.loads(student.hint(CODE, "tan-1", n)) for n in (0, 9))
    assert first["left"] == 1 and last["left"] == 0 and first["text"] != last["text"]
    assert any(line.startswith("tanθ =tan") for line in lines_of(json.loads(student.solution(CODE))["html"]))


def test_the_sheet_shows_no_answers():
    working = open_code(CODE).working
    html = json.loads(student.open_sheet("tan-a", CODE))["html"]
    assert f"{working.value('mean-moment'):.3g}" not in html.replace(CODE, "")


def test_a_code_of_another_kind_is_sent_there():
    for slug, kind in all_kinds().items():
        code = str(SheetCode(kind.letter, kind.edition, 3))
        for page in all_kinds():
            opened = json.loads(student.open_sheet(page, code))
            assert opened["ok"] is (page == slug)
            if page != slug:
                assert opened["text"] == f"This code is for another exercise: {kind.title}."
                assert opened["go"] == f"exercises/{slug}/?code={code}"


def test_where_a_code_is_wrong_is_told():
    wrong = CODE[:-1] + ("2" if CODE[-1] != "2" else "3")
    refused = json.loads(student.open_sheet("tan-a", wrong))
    assert refused["ok"] is False and "position" in refused


def test_hints_follow_one_another_and_the_last_stays():
    working = open_code(CODE).working
    for step in working.steps:
        found = [json.loads(student.hint(CODE, step.id, n)) for n in range(len(step.hints) + 2)]
        assert [f["text"] for f in found] == [*step.hints, *[step.hints[-1]] * 2]
        assert [f["left"] for f in found] == [*range(len(step.hints) - 1, -1, -1), 0, 0] and {
            f["read"] for f in found
        } == {step.read}


def test_a_blank_step_has_no_verdict():
    checked = json.loads(student.check(CODE, json.dumps({"pole": " ", "tan-1": "x"})))
    assert set(checked["verdicts"]) == {"tan-1"} and checked["right"] == 0


def test_numbers_are_what_the_sheet_gives():
    found = json.loads(student.numbers(CODE))
    sheet = open_code(CODE)
    scenario, working = sheet.scenario, sheet.working
    assert (
        found["code"] == CODE
        and found["where"] == scenario.field.where
        and found["rows"] == [[r.d, *r.readings] for r in scenario.rows]
    )
    assert {k: float(v) for k, v in found["answers"].items()} == {
        s.id: float(f"{working.value(s.id):.9e}") for s in working.steps
    }
    assert all(re.fullmatch(r"\d\.\d{9}e[+-]\d\d", v) for v in found["answers"].values())

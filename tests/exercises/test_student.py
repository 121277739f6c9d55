"""The student's desk answers in JSON, and says what is wrong in a sentence."""

import json

from exercises import student
from exercises.kinds import open_code
from tests.exercises.golden import codes_of

CODE = codes_of("A")[0]


def test_fresh_makes_a_code_that_opens():
    code = json.loads(student.fresh("tan-a", "00ff12ab"))["code"]
    opened = json.loads(student.open_sheet("tan-a", code.lower()))
    assert opened["ok"] and opened["code"] == code and code in opened["html"]


def test_a_wrong_code_is_refused_in_a_sentence():
    opened = json.loads(student.open_sheet("tan-a", "A322"))
    assert not opened["ok"] and "12 characters" in opened["text"]
    unknown = CODE[0] + "Y" + CODE[2:]
    assert not json.loads(student.open_sheet("tan-a", unknown))["ok"]


def test_check_hint_and_solution():
    _, _, working = open_code(CODE)
    checked = json.loads(student.check(CODE, json.dumps({"mean-1": f"{working.value('mean-1'):.1f}", "pole": "x"})))
    assert checked["right"] == 1 and checked["steps"] == len(working.steps)
    assert checked["verdicts"]["pole"]["state"] == "unread"
    first, last = (json.loads(student.hint(CODE, "tan-1", n)) for n in (0, 9))
    assert first["left"] == 1 and last["left"] == 0 and first["text"] != last["text"]
    assert "tan θ = tan" in json.loads(student.solution(CODE))["html"]


def test_the_sheet_shows_no_answers():
    _, _, working = open_code(CODE)
    html = json.loads(student.open_sheet("tan-a", CODE))["html"]
    assert f"{working.value('mean-moment'):.3g}" not in html.replace(CODE, "")

"""What stands on the sheet becomes the slip, or a sentence says what to do first."""

import json

from exercises.kinds.kind import open_code
from exercises.return_slip.text import return_slips_in
from exercises.student.desk import return_slip

CODE = "A3H-222-222"
STEPS = open_code(CODE).working.steps


def asked(who="7", entries=None, firsts=None, code=CODE):
    return json.loads(return_slip(code, who, json.dumps(entries or {}), json.dumps(firsts or {})))


def test_answers_go_as_typed_and_the_blank_are_counted():
    made = asked(
        " Ringed\u00a0 Plover ",
        {"mean-1": " 45.2", "tan-1": "  ", "gone": "5"},
        {"mean-1": "44", "tan-1": "1", "mean-2": ""},
    )
    (slip,), problems = return_slips_in(made["text"], "")
    assert problems == []
    assert (slip.who, slip.code, slip.answers, slip.firsts) == (
        "Ringed Plover",
        CODE,
        {"mean-1": " 45.2"},
        {"mean-1": "44", "tan-1": "1"},
    )
    assert made["blank"] == len(STEPS) - 1 and made["says"].startswith("25 of 26 steps are still blank.")
    whole = {step.id: "1" for step in STEPS}
    assert asked(entries=whole)["says"] == "The slip has all 26 steps."
    assert asked(entries={**whole, "pole": ""})["says"].startswith("1 of 26 steps is still blank.")


def test_what_must_be_mended_first_gets_a_sentence():
    for who in ("", "  ", "-", "\u200b", "…"):
        told = asked(who)
        assert (told["ok"], told["at"]) == (False, "who") and "Type your roll number or your name first" in told["says"]
    assert "at most 160" in asked("x" * 161)["says"]
    told = asked(entries={"mean-1": "4" * 201})
    assert told["at"] == "mean-1" and "has 201 characters" in told["says"] and "“" in told["says"]
    assert "text" in asked(entries={"mean-1": "4"}, firsts={"mean-1": "4" * 5000})
    assert not asked(code="A322")["ok"]


def test_odd_input_makes_no_trouble():
    assert asked("7", {"mean-1": 5, "tan-1": None, "pole": ["1"]})["blank"] == len(STEPS)
    made = asked("\ud800 7", {"mean-1": "\udc00"})
    (slip,), _ = return_slips_in(made["text"], "")
    assert slip.who == "\ufffd 7" and slip.answers == {"mean-1": "\ufffd"}


def test_the_files_name_is_clean_on_every_system():
    assert asked('../a\\b:c*?"<>| 7')["file"] == f"return-a-b-c-7-{CODE}.txt"
    assert asked("نورس البحر")["file"] == f"return-نورس-البحر-{CODE}.txt"
    assert len(asked("x" * 160)["file"]) < 80

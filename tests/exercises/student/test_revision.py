"""The drill: every card can be asked and answered, missed ones come back sooner, and no kept state spoils it."""

import json
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.sheet import written
from exercises.student import desk as student
from exercises.student import revision
from exercises.student.asked import questions
from exercises.student.viva import VIVA

#: What a step looks at besides, which its question does not need.
NOT_TOLD = {
    "distances/gap": ("l",),
    "distances/from": ("l",),
    "distances/reach": ("l",),
    "distances/to": ("l", "reach"),
}


def of_steps():
    return [key for key in revision.question_keys() if not key.startswith("viva/")]


@pytest.mark.parametrize("key", revision.question_keys())
def test_every_question_can_be_asked_and_its_right_answer_is_right(key):
    asked = revision.question(key, 987654321987654321)
    assert asked["key"] == key and asked["html"]
    answer = revision.model(key, asked.get("code", ""), asked.get("step", ""))
    assert answer["html"] and answer["read"] and "B_H" not in answer["html"]
    if not asked["viva"]:
        working = open_code(asked["code"]).working
        step = working.by_id[asked["step"]]
        value = working.value(step.id)
        text = value if step.choices else written(value, step)
        assert revision.judged(asked["code"], step.id, text).state == "right", text


def test_the_model_answer_is_worked_from_what_the_question_gives():
    """A balance at d₂ = 11.9 cm is worked with 0.119 m, and not with the 0.11868 m that was rounded to it."""
    for noise in range(20):
        asked = revision.question("compare/far-1", noise)
        working = open_code(asked["code"]).working
        d = float(written(working.value("null-1"), working.by_id["null-1"]).removesuffix(" cm")) / 100
        model = revision.model("compare/far-1", asked["code"], asked["step"])["html"]
        assert f"{d:.4g}" in model, (d, model)
        bracket = (d**2 - (working.givens["two_ls"][1] / 2) ** 2) ** 2
        assert revision.judged(asked["code"], asked["step"], f"{bracket:.2e}").state == "right"


@pytest.mark.parametrize("key", of_steps())
def test_a_question_is_a_sentence_with_its_own_data_and_nothing_more(key):
    """No table and no other step's data; what it gives, and only that, is what the step is worked from."""
    for noise in range(3, 3 + 60 * revision.SEEDS, 17 * revision.SEEDS + 131):
        asked = revision.question(key, noise)
        sheet = open_code(asked["code"])
        step = sheet.working.by_id[asked["step"]]
        (sentence,) = {said for one, said, _ in questions(sheet, step.column) if one == step}
        assert step.column == key.split("/")[1]
        assert sentence.rstrip("?") + "?" == sentence and len(sentence) < 330 and "{" not in sentence
        assert "<table" not in asked["html"] and ("<svg" in asked["html"]) == (step.column == "read")
        for need in sheet.working.plan.asked_needs(step):
            value = written(sheet.working.value(need), sheet.working.by_id[need])
            assert value.replace(" °", "°") in sentence or sheet.working.by_id[need].column in NOT_TOLD.get(key, ())


@pytest.mark.parametrize("key", of_steps())
def test_what_is_said_of_an_answer_speaks_of_no_sheet(key):
    """Nothing was entered above, and beside the model answer nobody is told to work it again."""
    asked = revision.question(key, 5)
    step = open_code(asked["code"]).working.by_id[asked["step"]]
    for text in ("7.77e-3", "0", "-3.21", "412") if not step.choices else [c[0] for c in step.choices]:
        said = revision.judged(asked["code"], step.id, text).text
        assert not re.search("entered above|earlier|once more|sheet", said), said


def test_every_kind_and_every_question_can_be_asked():
    rooms = {key.split("/")[0] for key in revision.question_keys()}
    assert rooms == set(all_kinds()) | {"viva"}
    assert sum(key.startswith("viva/") for key in revision.question_keys()) == len(VIVA) >= 30


def test_the_questions_come_in_the_order_of_an_examination():
    """First what is found and the instrument, then setting up in its order, the readings, the working, the result."""
    keys = [v.key for v in VIVA]
    assert len(set(keys)) == len(keys)
    in_order = ["aim", "short-needle", "two-adjustments", "four-places", "why-45", "moment-formula", "straight-line"]
    assert [key for key in keys if key in in_order] == in_order
    turns = next(v.answer for v in VIVA if v.key == "two-adjustments")
    assert turns.index("box alone") < turns.index("whole board")


def test_a_missed_question_comes_back_after_two_others_and_a_known_one_rests_longer():
    state = {"turn": 0, "questions": {}, "page": []}
    state = revision.answered(state, "viva/mirror", False)
    state = revision.answered(state, "viva/why-45", True)
    later = []
    for noise in range(3):
        key = revision.next_key(state, noise)
        later.append(key)
        state = revision.answered(state, key, True)
    assert "viva/mirror" in later[:2]
    for _ in range(3):
        before = state["turn"]
        state = revision.answered(state, "viva/why-45", True)
        rest = state["questions"]["viva/why-45"]["due"] - before
    assert rest > 8


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers() | st.text(), lambda c: st.lists(c) | st.dictionaries(st.text(), c)
    )
)
def test_any_kept_state_is_mended(kept):
    state = revision.usable(kept)
    assert revision.next_key(state, 5) in revision.question_keys()


def test_the_page_goes_round():
    asked = json.loads(student.drill("null", "ff" * 16))
    done = json.loads(student.drill_done(json.dumps(asked["state"]), json.dumps(asked["question"]), True))
    assert done["state"]["turn"] == 1 and done["html"] and done["page"].count("<li>") == 1 and not asked["page"]


def test_how_long_a_question_rests():
    """Answered well, 3, 5, 9, 17 and 33 questions, and no longer; missed, two, and all begins again."""
    state, rests = {"turn": 7, "questions": {}, "page": []}, []
    for well in [True] * 6 + [False] + [True]:
        state = revision.answered(state, "viva/mirror", well)
        rests.append(state["questions"]["viva/mirror"]["due"] - state["turn"])
    assert rests == [3, 5, 9, 17, 33, 33, 2, 3] and state["turn"] == 15
    missed = revision.answered(revision.usable(None), "viva/mirror", False)
    assert missed["questions"] == {"viva/mirror": {"well": 0, "due": 3}}


def test_which_question_is_next():
    due = {
        "viva/mirror": {"well": 2, "due": 5},
        "viva/why-45": {"well": 1, "due": 5},
        "law/tan-1": {"well": 0, "due": 6},
    }
    assert revision.next_key({"turn": 5, "questions": due}, 1) == "viva/why-45"  # of two due alike, the less sure
    assert revision.next_key({"turn": 9, "questions": {**due, "law/tan-1": {"well": 5, "due": 4}}}, 1) == "law/tan-1"
    fresh = {revision.next_key({"turn": 4, "questions": due}, noise) for noise in range(30)}
    assert not fresh & set(due) and len(fresh) > 15
    all_seen = {key: {"well": 1, "due": 50} for key in revision.question_keys()} | {
        "viva/mirror": {"well": 1, "due": 40}
    }
    assert revision.next_key({"turn": 4, "questions": all_seen}, 3) == "viva/mirror"


def test_a_kept_state_is_mended_and_not_thrown_away():
    kept = {
        "viva/mirror": {"well": 9, "due": 3},
        "viva/why-45": {"well": -2, "due": -5},
        "law/tan-1": {"well": 1},
        "no/such": {"well": 1, "due": 1},
    }
    good = {"viva/mirror": {"well": 5, "due": 3}, "viva/why-45": {"well": 0, "due": -5}}
    assert revision.usable({"turn": 8, "questions": kept}) == {"turn": 8, "questions": good, "page": []}
    for useless in ({"turn": 0, "questions": 3}, {"turn": -1}, {"turn": "8"}, None):
        assert revision.usable(useless) == {"turn": 0, "questions": {}, "page": []}


def test_each_distance_has_its_turn():
    asked = [revision.question("tan-a/moment", 5 + n * revision.SEEDS)["step"] for n in range(8)]
    assert len(set(asked)) >= 4 and all(step.startswith("moment-") for step in asked)


def test_what_was_kept_under_earlier_names_is_read():
    """Edition before: `cards`, each with its `box`, and no page."""
    kept = {"turn": 3, "cards": {"viva/mirror": {"box": 2, "due": 9}}}
    assert revision.usable(kept) == {"turn": 3, "questions": {"viva/mirror": {"well": 2, "due": 9}}, "page": []}


def test_the_notebook_has_the_last_questions_ticked_or_with_a_note():
    state = revision.usable(None)
    for key in [*of_steps()[:9], "viva/mirror"]:
        state = revision.answered(state, key, key != "viva/mirror")
    page = revision.notebook(revision.usable(json.loads(json.dumps(state))))
    assert page.count("<li>") == revision.LINES and page.count("✓") == revision.LINES - 1
    mirror = next(v for v in VIVA if v.key == "mirror")
    assert page.endswith(f'<b>once more: <a href="../../{mirror.read}">read</a></b></li>')


@pytest.mark.parametrize("page", [3, [3], [[]], [["viva/mirror"]], [[["viva/mirror"], 1]], [["<b>", True]]])
def test_a_spoilt_page_of_the_notebook_is_left_out(page):
    assert revision.usable({"turn": 1, "page": page})["page"] == []

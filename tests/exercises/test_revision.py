"""The drill: every card can be asked and answered, missed ones come back sooner, and no kept state spoils it."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exercises import revision, student
from exercises.kinds import all_kinds, open_code
from exercises.sheet import written
from exercises.viva import VIVA


@pytest.mark.parametrize("key", revision.keys())
def test_every_card_can_be_asked_and_its_right_answer_is_right(key):
    card = revision.card(key, 987654321987654321)
    assert card["key"] == key and card["html"]
    answer = revision.model(key, card.get("code"), card.get("step"))
    assert answer["text"] and answer["read"]
    if not card["viva"]:
        _, _, working = open_code(card["code"])
        step = working.by_id[card["step"]]
        value = working.value(step.id)
        text = value if step.choices else written(value, step)
        assert revision.judged(card["code"], step.id, text)["state"] == "right", text


def test_every_kind_and_every_question_is_in_the_drill():
    rooms = {key.split("/")[0] for key in revision.keys()}
    assert rooms == set(all_kinds()) | {"viva"}
    assert sum(key.startswith("viva/") for key in revision.keys()) == len(VIVA) >= 12


def test_a_missed_card_comes_back_after_two_others_and_a_known_one_rests_longer():
    state = {"turn": 0, "cards": {}}
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
        rest = state["cards"]["viva/why-45"]["due"] - before
    assert rest > 8


@given(st.recursive(st.none() | st.booleans() | st.integers() | st.text(), lambda c: st.lists(c) | st.dictionaries(st.text(), c)))
def test_any_kept_state_is_mended(kept):
    state = revision.mended(kept)
    assert revision.next_key(state, 5) in revision.keys()


def test_the_page_goes_round():
    asked = json.loads(student.drill("null", "ff" * 16))
    done = json.loads(student.drill_done(json.dumps(asked["state"]), json.dumps(asked["card"]), True))
    assert done["state"]["turn"] == 1 and done["text"]

"""The drill: every card can be asked and answered, missed ones come back sooner, and no kept state spoils it."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.sheet import written
from exercises.student import desk as student
from exercises.student import revision
from exercises.student.viva import VIVA


@pytest.mark.parametrize("key", revision.card_keys())
def test_every_card_can_be_asked_and_its_right_answer_is_right(key):
    card = revision.card(key, 987654321987654321)
    assert card["key"] == key and card["html"]
    answer = revision.model(key, card.get("code", ""), card.get("step", ""))
    assert answer["html"] and answer["read"] and "B_H" not in answer["html"]
    if not card["viva"]:
        working = open_code(card["code"]).working
        step = working.by_id[card["step"]]
        value = working.value(step.id)
        text = value if step.choices else written(value, step)
        assert revision.judged(card["code"], step.id, text).state == "right", text


def test_every_kind_and_every_question_is_in_the_drill():
    rooms = {key.split("/")[0] for key in revision.card_keys()}
    assert rooms == set(all_kinds()) | {"viva"}
    assert sum(key.startswith("viva/") for key in revision.card_keys()) == len(VIVA) >= 30


def test_the_questions_come_in_the_order_of_an_examination():
    """First what is found and the instrument, then setting up in its order, the readings, the working, the result."""
    keys = [v.key for v in VIVA]
    assert len(set(keys)) == len(keys)
    in_order = ["aim", "short-needle", "two-adjustments", "four-places", "why-45", "moment-formula", "straight-line"]
    assert [key for key in keys if key in in_order] == in_order
    turns = next(v.answer for v in VIVA if v.key == "two-adjustments")
    assert turns.index("box alone") < turns.index("whole board")


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


@given(
    st.recursive(
        st.none() | st.booleans() | st.integers() | st.text(), lambda c: st.lists(c) | st.dictionaries(st.text(), c)
    )
)
def test_any_kept_state_is_mended(kept):
    state = revision.usable(kept)
    assert revision.next_key(state, 5) in revision.card_keys()


def test_the_page_goes_round():
    asked = json.loads(student.drill("null", "ff" * 16))
    done = json.loads(student.drill_done(json.dumps(asked["state"]), json.dumps(asked["card"]), True))
    assert done["state"]["turn"] == 1 and done["html"]


def test_how_long_a_card_rests():
    """Answered well, 3, 5, 9, 17 and 33 cards, and no longer; missed, two, and all begins again."""
    state, rests = {"turn": 7, "cards": {}}, []
    for well in [True] * 6 + [False] + [True]:
        state = revision.answered(state, "viva/mirror", well)
        rests.append(state["cards"]["viva/mirror"]["due"] - state["turn"])
    assert rests == [3, 5, 9, 17, 33, 33, 2, 3] and state["turn"] == 15
    assert revision.answered({"turn": 0, "cards": {}}, "viva/mirror", False)["cards"]["viva/mirror"] == {
        "box": 0,
        "due": 3,
    }


def test_which_card_is_next():
    due = {"viva/mirror": {"box": 2, "due": 5}, "viva/why-45": {"box": 1, "due": 5}, "law/tan-1": {"box": 0, "due": 6}}
    assert revision.next_key({"turn": 5, "cards": due}, 1) == "viva/why-45"  # of two that are due alike, the less known
    assert revision.next_key({"turn": 9, "cards": {**due, "law/tan-1": {"box": 5, "due": 4}}}, 1) == "law/tan-1"
    fresh = {revision.next_key({"turn": 4, "cards": due}, noise) for noise in range(30)}
    assert not fresh & set(due) and len(fresh) > 15
    all_seen = {key: {"box": 1, "due": 50} for key in revision.card_keys()} | {"viva/mirror": {"box": 1, "due": 40}}
    assert revision.next_key({"turn": 4, "cards": all_seen}, 3) == "viva/mirror"


def test_a_kept_state_is_mended_and_not_thrown_away():
    kept = {
        "viva/mirror": {"box": 9, "due": 3},
        "viva/why-45": {"box": -2, "due": -5},
        "law/tan-1": {"box": 1},
        "no/such": {"box": 1, "due": 1},
    }
    good = {"viva/mirror": {"box": 5, "due": 3}, "viva/why-45": {"box": 0, "due": -5}}
    assert revision.usable({"turn": 8, "cards": kept}) == {"turn": 8, "cards": good}
    for useless in ({"turn": 0, "cards": 3}, {"turn": -1}, {"turn": "8"}, None):
        assert revision.usable(useless) == {"turn": 0, "cards": {}}


def test_a_card_gives_what_the_step_is_worked_from():
    for noise in range(0, 40 * revision.SEEDS, 7 * revision.SEEDS + 11):
        card = revision.card("tan-a/moment", noise)
        working = open_code(card["code"]).working
        assert working.by_id[card["step"]].column == "moment" and card["viva"] is False
        for need in working.plan.asked_needs(working.by_id[card["step"]]):
            assert f"<dd>{written(working.value(need), working.by_id[need])}</dd>" in card["html"]
    rows = {revision.card("tan-a/moment", 5 + n * revision.SEEDS)["step"] for n in range(8)}
    assert len(rows) >= 4  # each distance has its turn

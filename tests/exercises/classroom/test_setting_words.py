"""A class in words: what the command line and the class desk say alike."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.classroom.class_list.class_file import ClassError
from exercises.classroom.class_list.setting_words import OPEN, WORDS, setting_from, tasks_from, words_of
from exercises.codes.editions import places_of
from exercises.codes.sheet_code import DISTANCES, LENGTHS_MM, SCALE_STEPS, Setting

PLACES = places_of(1)
SETTINGS = st.builds(
    Setting,
    st.none() | st.integers(0, len(PLACES) - 1),
    st.sampled_from(SCALE_STEPS),
    st.sampled_from(DISTANCES),
    st.sampled_from(LENGTHS_MM),
)


@settings(max_examples=200, deadline=None)
@given(SETTINGS)
def test_a_setting_said_in_words_is_the_same(setting):
    assert setting_from(words_of(setting)) == setting
    assert setting_from({w: t for w, t in words_of(setting).items() if t != OPEN}) == setting


def test_what_a_kind_has_of_its_own_takes_the_place_of_what_all_have():
    common = {"place": "Bergen", "step": "1", "length": "", "distances": " "}
    own = {"law": {"place": "lima", "step": "", "length": "Open"}, "dial": {"step": OPEN}}
    tasks = tasks_from(["tan-a", "law", "dial", "tan-a"], common, own)
    assert [t.kind.slug for t in tasks] == ["tan-a", "law", "dial"]
    assert [t.setting for t in tasks] == [Setting(3, 1.0), Setting(13, 1.0), Setting(3, None)]
    assert all(t.edition == t.kind.edition for t in tasks)


@pytest.mark.parametrize(
    "words, said",
    [
        ({"colour": "red"}, "no setting “colour”"),
        ({"place": "Nowhere"}, "There are: Aberdeen"),
        ({"step": "half"}, "must be a number"),
        ({"length": "80.5"}, "whole number"),
        ({"distances": "nine"}, "whole number"),
        ({"distances": "9"}, "number of distances cannot be 9"),
        ({"step": "inf"}, "cannot be inf"),
    ],
)
def test_what_is_no_setting(words, said):
    with pytest.raises(ClassError) as told:
        tasks_from(["law"], words)
    assert said in str(told.value) and str(told.value).endswith(".")
    assert set(WORDS) == {"place", "step", "length", "distances"}

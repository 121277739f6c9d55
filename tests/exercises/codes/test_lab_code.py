"""A laboratory's settings alone, as an address carries them: the last two groups of its codes, and a check."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.codes.sheet_code import ALPHABET, CodeError, Setting, SheetCode, read_setting, write, write_setting
from tests.exercises.settings import FIXED, SETTINGS


@settings(max_examples=300, deadline=None)
@given(SETTINGS, st.integers(0, 23**6 - 1))
def test_it_is_the_end_of_every_code_of_the_laboratory(setting, seed):
    lab = write_setting(setting)
    assert read_setting(lab) == read_setting(lab.lower().replace("-", " ")) == setting
    assert read_setting(f"https://saltmarsh.example/record/?lab={lab}&x=1#top") == setting
    assert bool(lab) is (setting != Setting())
    if lab:
        assert write(SheetCode("A", 1, seed, setting)).endswith(f"-{lab[:7]}") and len(lab) == 9


def test_every_wrong_character_and_every_swap_is_caught():
    lab = write_setting(FIXED)
    for at, right in enumerate(lab):
        for other in ALPHABET if right != "-" else "":
            if other != right:
                with pytest.raises(CodeError, match="One character of this laboratory’s code is wrong"):
                    read_setting(lab[:at] + other + lab[at + 1 :])
    plain = lab.replace("-", "")
    for at in range(len(plain) - 1):
        if plain[at] != plain[at + 1]:
            with pytest.raises(CodeError):
                read_setting(plain[:at] + plain[at + 1] + plain[at] + plain[at + 2 :])


@pytest.mark.parametrize("text", ["52M-7XC", "A3H-222-222", "hello", "<b>", "?lab=2", "2" * 500])
def test_what_is_none_is_refused_in_a_sentence(text):
    with pytest.raises(CodeError) as told:
        read_setting(text)
    assert str(told.value).endswith(".") and len(str(told.value)) < 300


def test_nothing_is_fixed_where_nothing_stands():
    assert (
        read_setting("") == read_setting(" - ") == read_setting("https://saltmarsh.example/record/?lab=") == Setting()
    )

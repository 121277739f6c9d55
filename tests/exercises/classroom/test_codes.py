"""Codes of a class: the same every time, different from each other, and of nobody else's making."""

import hashlib
import hmac

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.classroom.class_list import codes
from exercises.classroom.class_list.codes import PhraseError, codes_for, seed_for, tidy_phrase
from exercises.classroom.class_list.roster import Student
from exercises.codes.sheet_code import SEEDS, write_setting
from exercises.codes.sheet_code import read as read_code
from exercises.kinds.kind import all_kinds, kind_of
from tests.exercises.classwork import read
from tests.exercises.settings import FIXED, SETTINGS

PHRASE = "sand and salt water"
TAN_A = all_kinds()["tan-a"]


def test_codes_of_a_hundred_thousand_differ():
    made = codes_for(read("1-100000"), PHRASE, TAN_A)
    assert len({str(code) for code in made.values()}) == 100_000
    # some seeds were taken: the counter was needed, and used
    assert any(seed_for(PHRASE, "tan-a", s.roll) != code.seed for s, code in made.items())


def test_a_seed_is_the_keyed_hash():
    message = b"eight-readings class\ntan-a\n7\n0"
    digest = hmac.new(PHRASE.encode(), message, hashlib.sha256).digest()
    assert seed_for(PHRASE, "tan-a", "7") == int.from_bytes(digest) % SEEDS
    assert codes_for([Student("7")], PHRASE, TAN_A)[Student("7")].seed == int.from_bytes(digest) % SEEDS


def test_codes_never_change():
    """Recorded when they were first made: a class made again has the same numbers."""
    made = codes_for(read("1-3"), PHRASE, TAN_A, FIXED)
    assert [str(c) for c in made.values()] == ["A39-N24-PW8-5NJ-HWF", "A3R-RRK-FRR-5NJ-HWF", "A3E-WWK-F5C-5NJ-HWF"]


@settings(max_examples=100, deadline=None)
@given(SETTINGS)
def test_the_letters_of_the_settings_are_the_same_for_all_codes_of_a_class(setting):
    made = [codes_for(read("1-20"), PHRASE, kind, setting).values() for kind in all_kinds().values()]
    ends = {str(code)[len("A3H-222-222") :] for codes in made for code in codes}
    assert len(ends) == 1 and ends.pop()[1:] == write_setting(setting)[: len("52M-7XC")]


@pytest.mark.parametrize("slug", list(all_kinds()))
def test_codes_are_of_the_kind_its_edition_and_the_setting(slug):
    kind, setting = all_kinds()[slug], FIXED
    for code in codes_for(read("1-20"), PHRASE, kind, setting).values():
        again = read_code(str(code))
        assert kind_of(again) is kind and again.setting == setting and again.edition == kind.edition


def test_each_of_phrase_kind_and_roll_counts():
    seeds = {
        seed_for(p, k, r) for p in (PHRASE, "another phrase") for k in ("tan-a", "tan-b") for r in ("1", "01", "2")
    }
    assert len(seeds) == 12


@settings(max_examples=50, deadline=None)
@given(st.permutations(range(1, 30)))
def test_the_order_of_the_list_does_not_matter(order):
    students = [Student(str(n)) for n in order]
    made = codes_for(students, PHRASE, TAN_A)
    assert list(made) == students
    assert made == codes_for(read("1-29"), PHRASE, TAN_A)


@settings(max_examples=50, deadline=None)
@given(st.permutations(range(1, 30)))
def test_where_seeds_meet_the_order_of_the_sorted_rolls_decides(order):
    few = {(str(n), c): (n * 7 + c) % 40 for n in range(1, 30) for c in range(60)}
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(codes, "seed_for", lambda phrase, slug, roll, counter=0, attempt=1: few[roll, counter] % 31)
        made = codes_for([Student(str(n)) for n in order], PHRASE, TAN_A)
        assert len({c.seed for c in made.values()}) == 29
        assert made == codes_for(read("1-29"), PHRASE, TAN_A)
        assert made[Student("1")].seed == few["1", 0] % 31


def test_a_name_changes_no_code():
    assert list(codes_for([Student("7", "a")], PHRASE, TAN_A).values()) == list(
        codes_for([Student("7")], PHRASE, TAN_A).values()
    )


def test_a_phrase_typed_otherwise_is_the_same():
    assert tidy_phrase("  sand  and\tsalt water ") == PHRASE
    assert tidy_phrase("A\u030adne p\u00e5 Saltmarsh") == tidy_phrase("Ådne på Saltmarsh")


@pytest.mark.parametrize("phrase", ["", "short", "       a", "x" * 201, "with a bell \a in it", "half a letter \ud800"])
def test_a_phrase_that_cannot_be_used(phrase):
    with pytest.raises(PhraseError) as told:
        codes_for(read("1-2"), phrase, TAN_A)
    assert str(told.value).endswith(".")

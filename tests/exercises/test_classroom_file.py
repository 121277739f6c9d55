"""The class file: read again it makes the same class, and a damaged one is refused with a sentence."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.classroom.class_file import ClassError, make, opened, place_number, written
from exercises.classroom.codes import PhraseError
from exercises.classroom.roster import Student, read
from exercises.kinds import all_kinds
from exercises.local_field import PLACES
from exercises.sheet_code import DISTANCES, LENGTHS_MM, SCALE_STEPS, Setting

PHRASE = "sand and salt water"
CLASS = make(
    (Student("1", "Ringed Plover"), Student("=2", "@Dunlin, “small”"), Student("3", "علي")),
    PHRASE,
    ["tan-b", "dial"],
    Setting(3, 0.5, 5, 80),
    "https://saltmarsh.example/lab",
)


@settings(max_examples=100, deadline=None)
@given(
    st.integers(1, 50),
    st.lists(st.sampled_from(list(all_kinds())), min_size=1, unique=True),
    st.builds(
        Setting,
        st.none() | st.integers(0, len(PLACES) - 1),
        st.sampled_from(SCALE_STEPS),
        st.sampled_from(DISTANCES),
        st.sampled_from(LENGTHS_MM),
    ),
    st.sampled_from(["", "http://127.0.0.1:8000/", "https://saltmarsh.example"]),
)
def test_written_and_opened_it_is_the_same(many, slugs, setting, site):
    made = make(read(f"1-{many}"), PHRASE, slugs, setting, site)
    assert opened(written(made)) == made


def test_names_and_rolls_that_begin_a_formula_come_back():
    again = opened("\ufeff" + written(CLASS))
    assert again == CLASS and again.codes() == CLASS.codes()


def test_a_person_can_read_it():
    text = written(CLASS)
    for shown in ("Bergen", "علي", PHRASE, "tan-b", "https://saltmarsh.example/lab", "keep it where no student reads it"):
        assert shown in text
    assert len(text.splitlines()) < 25


def test_the_editions_are_kept():
    kept = json.loads(written(CLASS))
    assert [(k["kind"], k["edition"]) for k in kept["kinds"]] == [(k.slug, k.edition) for k, _ in CLASS.kinds]
    kept["kinds"][0]["edition"] = 22
    with pytest.raises(ClassError, match="edition 22 of tan-b"):
        opened(json.dumps(kept))


@pytest.mark.parametrize(
    "change",
    [
        {"phrase": None},
        {"phrase": 7},
        {"phrase": "short"},
        {"students": []},
        {"students": None},
        {"students": [{"roll": "1"}]},
        {"students": [{"roll": 1, "name": "a"}]},
        {"students": [{"roll": "1", "name": "a"}, {"roll": "1", "name": "b"}]},
        {"students": [{"roll": "", "name": "a"}]},
        {"students": "1-60"},
        {"kinds": []},
        {"kinds": [{"kind": "tan-z", "edition": 1}]},
        {"kinds": [{"kind": "tan-a", "edition": 1.0}]},
        {"kinds": [{"kind": "tan-a", "edition": True}]},
        {"kinds": [{"kind": "tan-a", "edition": 1}] * 2},
        {"place": "Nowhere"},
        {"place": ["Bergen"]},
        {"scale_step_degrees": "0.5"},
        {"scale_step_degrees": float("nan")},
        {"distances": 99},
        {"length_mm": {}},
        {"site": "javascript:alert(1)"},
        {"site": None},
    ],
    ids=str,
)
def test_a_damaged_one_is_refused(change):
    with pytest.raises((ClassError, PhraseError)) as told:
        opened(json.dumps({**json.loads(written(CLASS)), **change}))
    assert str(told.value)[0].isupper() and str(told.value).endswith(".")


@settings(max_examples=200, deadline=None)
@given(st.integers(0, len(written(CLASS)) - 3))
def test_one_cut_short_is_refused(length):
    with pytest.raises(ClassError, match="not a class file"):
        opened(written(CLASS)[:length])


@pytest.mark.parametrize("text", ["", "[]", "7", "null", "[" * 100_000, '{"students": {}}'])
def test_what_is_no_class_file_is_refused(text):
    with pytest.raises(ClassError, match="not a class file"):
        opened(text)


def test_places_are_known_by_their_names_however_written():
    assert all(place_number(place.name.upper()) == at for at, place in enumerate(PLACES))
    assert place_number("bogota") == place_number("Bogotá") and place_number("mexico-city") == place_number("Mexico City")
    with pytest.raises(ClassError, match="There are: Aberdeen"):
        place_number("")


@pytest.mark.parametrize("site", ["saltmarsh.example", "ftp://saltmarsh.example", "https://a b", 'https://a"b', "https://a/?x", "https://a\udcff", "https://" + "a" * 300])
def test_a_site_that_is_no_address(site):
    with pytest.raises(ClassError, match="http"):
        make(read("1-2"), PHRASE, ["tan-a"], site=site)

"""A laboratory's conventions in words: what class files, commands and forms say alike, and what is asked about."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.bench.local_field import PLACES
from exercises.codes.convention_text import (
    ConventionError,
    read_field,
    read_grid,
    read_length,
    read_month,
    read_place,
    read_step,
)
from exercises.codes.conventions import BY_KEY, CHOICES, OPEN, in_words, instead, setting_from, words_of
from exercises.codes.sheet_code import FIELDS_UT10, LENGTHS_MM, Setting, Station
from tests.exercises.settings import FIXED, SETTINGS


@settings(max_examples=300, deadline=None)
@given(SETTINGS)
def test_a_setting_said_in_words_is_the_same(setting):
    words = words_of(setting)
    assert list(words) == [choice.key for choice in CHOICES]
    assert setting_from(words) == setting
    assert setting_from({key: text for key, text in words.items() if text != BY_KEY[key].usual}) == setting
    # a list offers every value that is not typed
    assert all(text == OPEN or text in dict(BY_KEY[key].offered) for key, text in words.items() if BY_KEY[key].offered)


def test_nothing_fixed_is_the_usual():
    assert setting_from({}) == setting_from(dict.fromkeys(BY_KEY, " ")) == Setting()
    assert words_of(Setting()) == {choice.key: choice.usual for choice in CHOICES}


@pytest.mark.parametrize(
    "words, setting",
    [
        (
            {"2l": "Five-Sixths", "grid": "whole centimetres", "step": "½°"},
            Setting("five-sixths", None, None, 10, None, 0.5),
        ),
        ({"2l": "the length given"}, Setting("given")),
        ({"2l": "Five sixths of the measured length"}, Setting("five-sixths")),
        ({"field": "38,2"}, Setting(field=38.2)),
        ({"field": "0.382 G"}, Setting(field=38.2)),
        ({"field": "3.82e-5 T"}, Setting(field=38.2)),
        ({"field": "38.2 uT", "length": "9.6 cm"}, Setting(field=38.2, length_mm=96)),
        ({"place": "bogota", "month": "May 2026"}, Setting(field=Station(4, 2026, 5))),
        ({"place": "Bogotá", "month": "2026-5", "distances": "3"}, Setting(field=Station(4, 2026, 5), distances=3)),
        ({"length": "８０ mm", "grid": "5", "step": "1.0"}, Setting(length_mm=80, grid_mm=5, scale_step=1.0)),
        ({"grid": "0.5 cm", "step": "0,5", "length": "OPEN"}, Setting(grid_mm=5, scale_step=0.5)),
    ],
    ids=str,
)
def test_ways_to_write_one(words, setting):
    assert setting_from(words) == setting


@pytest.mark.parametrize(
    "words, asked",
    [
        ({"field": "0.382"}, "Is “0.382” in gauss? A number without a unit is in µT here: type 38.2, or 0.382 G."),
        (
            {"field": "3.82e-5"},
            "Is “3.82e-5” in tesla? A number without a unit is in µT here: type 38.2, or 3.82e-5 T.",
        ),
        ({"field": "38200"}, "Is “38200” in nanotesla?"),
        ({"length": "9.6"}, "Is “9.6” in centimetres? A number without a unit is in mm here: type 96, or 9.6 cm."),
        ({"length": "0.096"}, "Is “0.096” in metres?"),
        ({"grid": "0.5"}, "Is “0.5” in centimetres? A number without a unit is in mm here: type 5, or 0.5 cm."),
    ],
    ids=str,
)
def test_a_number_in_another_unit_is_asked_about(words, asked):
    with pytest.raises(ConventionError) as told:
        setting_from(words)
    assert str(told.value).startswith(asked)


@given(st.sampled_from(FIELDS_UT10), st.sampled_from(LENGTHS_MM[1:]))
def test_what_a_question_says_can_be_typed(tenths, length_mm):
    for unit, text in (("G", f"{tenths / 1000:.4g}"), ("T", f"{tenths / 1e7:.4g}")):
        with pytest.raises(ConventionError, match=f"type {tenths / 10:g}, or {text} {unit}"):
            read_field(text)
        assert read_field(f"{text} {unit}") == read_field(f"{tenths / 10:g}") == tenths / 10
    assert read_length(f"{length_mm / 10:g} cm") == read_length(f"{length_mm}") == length_mm


@pytest.mark.parametrize(
    "words, said",
    [
        ({"colour": "red"}, "no setting “colour”"),
        ({"2l": "half"}, "one of: stated, given, five-sixths"),
        ({"2l": "open "}, None),
        ({"place": "Nowhere", "month": "2026-05"}, "There are: Aberdeen"),
        ({"place": "Bergen"}, "A place needs a month too"),
        ({"month": "2026-05"}, "A month needs a place too"),
        ({"place": "Bergen", "month": "2026-05", "field": "38.2"}, "B_H is either"),
        ({"field": "38.2", "month": "2026-05"}, "B_H is either"),
        ({"place": "Bergen", "month": "2030-01"}, "from 2025-01 to 2029-12"),
        ({"place": "Bergen", "month": "Mai 2026"}, "A month is written as 2026-05"),
        ({"field": "9.9"}, "from 10.0 to 65.0 µT, with one decimal. “9.9” is not"),
        ({"field": "65.1"}, "from 10.0 to 65.0"),
        ({"field": "38.25"}, "with one decimal"),
        ({"field": "-38.2"}, "is not read"),
        ({"field": "38.2 mm"}, "is not read"),
        ({"field": "nan"}, "is not read"),
        ({"length": "80.5"}, "whole number of millimetres, from 40 to 200"),
        ({"length": "39"}, "from 40 to 200"),
        ({"length": "9" * 5000}, "is not read"),
        ({"length": "1e400"}, "from 40 to 200"),
        ({"grid": "2"}, "multiples of 1, 5 or 10 mm"),
        ({"distances": "2"}, "from 3 to 8"),
        ({"distances": "9"}, "from 3 to 8"),
        ({"distances": "4.0"}, "whole number"),
        ({"step": "2"}, "1 or 0.5 degrees"),
        ({"step": "half"}, "1 or 0.5 degrees"),
    ],
    ids=lambda given: str(given)[:60],
)
def test_what_is_no_setting(words, said):
    if said is None:
        assert setting_from(words) == Setting()
        return
    with pytest.raises(ConventionError) as told:
        setting_from(words)
    assert said in str(told.value) and str(told.value).endswith(".") and len(str(told.value)) < 500


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(list(BY_KEY)), st.text(max_size=30))
def test_any_text_is_read_or_refused_in_a_sentence(key, text):
    other = {"place": {"month": "2026-05"}, "month": {"place": "Lima"}}.get(key, {})
    try:
        found = setting_from({key: text, **other})
    except ConventionError as error:
        assert str(error)[0].isupper() and str(error).endswith(".")
    else:
        assert setting_from(words_of(found)) == found


def test_places_are_known_by_their_names_however_written():
    assert all(read_place(place.name.upper()) == at for at, place in enumerate(PLACES))
    assert read_place("bogota") == read_place("Bogotá") and read_place("mexico-city") == read_place("Mexico City")
    with pytest.raises(ConventionError, match="There are: Aberdeen"):
        read_place("")


def test_the_readers_of_lists_read_what_is_offered():
    assert all(read_month(text) == read_month(words) for text, words in BY_KEY["month"].offered)
    assert all(read_grid(text) == read_grid(words) for text, words in BY_KEY["grid"].offered)
    assert all(read_step(text) == read_step(words) for text, words in BY_KEY["step"].offered)


def test_words_of_one_kind_take_the_place_of_those_of_all():
    common = {"place": "Bergen", "month": "2026-05", "length": "80"}
    assert setting_from(instead(common, {"length": "open", "step": " "})) == Setting(field=Station(3, 2026, 5))
    assert setting_from(instead(common, {"place": "Lima"})) == Setting(field=Station(13, 2026, 5), length_mm=80)
    assert setting_from(instead(common, {"month": "2027-01"})) == Setting(field=Station(3, 2027, 1), length_mm=80)
    assert setting_from(instead(common, {"field": "38.2"})) == Setting(field=38.2, length_mm=80)
    assert setting_from(instead(common, {"place": "open"})) == Setting(length_mm=80)
    assert setting_from(instead(common, {"field": "open"})) == Setting(length_mm=80)
    assert setting_from(instead({"field": "38.2"}, {"place": "Lima", "month": "2026-05"})) == Setting(
        field=Station(13, 2026, 5)
    )


def test_what_is_set_is_said():
    assert in_words(FIXED) == (
        "2l is the length given, B_H at Bergen, May 2026, bars of 80 mm, distances in half centimetres, 5 distances, "
        "scale step ½°"
    )
    assert in_words(Setting("five-sixths", 38.0)) == "2l is five sixths of the measured length, B_H 38.0 µT"
    assert in_words(Setting()).startswith("as usual (2l stated, ")

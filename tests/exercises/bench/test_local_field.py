"""The horizontal component at the places of the sheets: sensible, smooth, and bounded."""

import math
from statistics import median

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.bench.local_field import FIRST_YEAR, LAST_YEAR, PLACES, OutsideModel, field_parts, horizontal
from exercises.codes.editions import NEWEST, counts_of


def at(place, year=2026.0):
    return horizontal(place.latitude, place.longitude, place.height, year)


def test_the_places_are_those_that_codes_count():
    assert len(PLACES) == counts_of(NEWEST).places
    assert len({p.name for p in PLACES}) == len({p[1:3] for p in PLACES}) == len(PLACES)


def test_the_places_lie_on_the_earth_and_in_both_hemispheres():
    for place in PLACES:
        assert -90 < place.latitude < 90 and -180 < place.longitude < 180 and 0 <= place.height < 5
        # to a tenth of a degree, so that a place is a town and nobody's house
        assert round(place.latitude, 1) == place.latitude and round(place.longitude, 1) == place.longitude
    south = {p.name for p in PLACES if p.latitude < 0}
    west = {p.name for p in PLACES if p.longitude < 0}
    assert south == {
        "Antananarivo",
        "Dunedin",
        "Hobart",
        "Lima",
        "Montevideo",
        "Nairobi",
        "Perth",
        "Suva",
        "Ushuaia",
    }
    assert west == {
        "Mexico City",
        *["Aberdeen", "Accra", "Bogotá", "Dakar", "Denver", "Lima", "Lisbon", "Montevideo", "Ushuaia"],
    }


@pytest.mark.parametrize("place", PLACES, ids=lambda p: p.name)
def test_every_place_has_a_field_that_a_compass_can_use(place):
    """From 13 µT in the north of Scandinavia to 42 µT in south-east Asia: the range of the inhabited world."""
    assert 13e-6 < at(place) < 42e-6


def test_the_places_differ():
    fields = sorted(at(p) for p in PLACES)
    assert fields[-1] > 2 * fields[0]
    assert 20e-6 < median(fields) < 35e-6


@settings(deadline=None)
@given(st.sampled_from(PLACES), st.floats(FIRST_YEAR, LAST_YEAR - 0.1))
def test_the_field_drifts_slowly(place, year):
    """Less than 0.2 µT a year at any of the places."""
    assert abs(at(place, year + 0.1) - at(place, year)) < 0.02e-6


@settings(deadline=None)
@given(st.floats(-60, 60), st.floats(-180, 180))
def test_the_field_is_weaker_higher_up(latitude, longitude):
    """On the whole as the cube of the distance from the earth's centre: 5 % in 100 km, more or less."""
    low, high = (horizontal(latitude, longitude, h, 2026.0) for h in (0, 100))
    assert 0.85 < high / low < 1.05


def test_east_and_west_of_the_date_line_are_one_place():
    assert horizontal(-18.0, 180.0, 0, 2026.0) == pytest.approx(horizontal(-18.0, -180.0, 0, 2026.0), rel=1e-9)


def test_the_same_question_has_the_same_answer():
    first = [at(p, 2027.25) for p in PLACES]
    assert [at(p, 2027.25) for p in reversed(PLACES)] == first[::-1]


@pytest.mark.parametrize(
    ("wrong", "word"),
    [
        ({"latitude": 90.5}, "latitude"),
        ({"latitude": -91}, "latitude"),
        ({"latitude": math.nan}, "latitude"),
        ({"longitude": 181}, "longitude"),
        ({"longitude": -math.inf}, "longitude"),
        ({"height": -2}, "height"),
        ({"height": 601}, "height"),
        ({"year": 2024.99}, "2025.0 to 2030.0"),
        ({"year": 2030.01}, "2025.0 to 2030.0"),
        ({"year": math.nan}, "2025.0 to 2030.0"),
    ],
)
def test_a_value_outside_the_model_is_refused_by_name(wrong, word):
    place = {"latitude": 52.0, "longitude": 0.0, "height": 0.0, "year": 2026.0}
    with pytest.raises(OutsideModel, match=word) as told:
        horizontal(**{**place, **wrong})
    assert [told.value.quantity] == list(wrong)
    assert str(*wrong.values()) in str(told.value)


@pytest.mark.parametrize(
    "edge", [(90, 0, 0, 2025.0), (-90, 0, 0, 2030.0), (0, 180, 600, 2026.0), (0, -180, -1, 2026.0)]
)
def test_the_edges_themselves_are_inside(edge):
    assert 0 < horizontal(*edge) < 50e-6


@pytest.mark.parametrize("place", PLACES, ids=lambda p: p.name)
def test_the_parts_of_the_field_belong_together(place):
    """By Pythagoras; the vertical part is given by its size in both hemispheres."""
    parts = field_parts(*place[1:], 2027.5)
    assert parts.horizontal == at(place, 2027.5) and parts.vertical > 0
    assert math.hypot(parts.horizontal, parts.vertical) == pytest.approx(parts.total, rel=1e-9)

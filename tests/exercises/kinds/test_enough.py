"""What is refused when it is set, and that whatever is not refused gives a sheet, of every kind."""

import math
import time

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from exercises.bench.local_field import PLACES, horizontal
from exercises.codes.scenario import DRAWN_LENGTHS_MM, strongest_field
from exercises.codes.sheet_code import SEEDS, Setting, SheetCode, Station
from exercises.kinds.kind import all_kinds
from tests.exercises.settings import FIXED, SETTINGS

SHORTEST, LONGEST = 40, 200  # mm


@pytest.mark.parametrize("slug", list(all_kinds()))
def test_what_is_not_refused_gives_a_sheet(slug):
    """For as many random settings as a few seconds hold."""
    kind, until = all_kinds()[slug], time.monotonic() + 4

    @settings(max_examples=60, deadline=None)
    @given(SETTINGS, st.integers(0, SEEDS - 1))
    # at the edges: the shortest bar and the longest, the weakest field and the strongest, few and many distances
    @example(Setting("given", 65.0, SHORTEST, 10, 3, 1.0), 1)
    @example(Setting("five-sixths", 65.0, SHORTEST, 10, 5, 0.5), 2)
    @example(Setting("stated", 10.0, SHORTEST, 1, 8, 0.5), 3)
    @example(Setting("stated", 65.0, LONGEST, 1, 8, None), 4)
    @example(Setting("given", 10.0, 100, 10, None, 1.0), 5)
    @example(Setting("five-sixths", 12.0, 148, 1, None, None), 6)
    @example(Setting("stated", 24.0, 196, 1, None, None), 7)
    @example(Setting("five-sixths", None, 62, 10, 6, None), 8)
    def drawn(setting, seed):
        if time.monotonic() < until and not kind.refuses(setting):
            assert kind.draw(SheetCode(kind.letter, 1, seed, setting)).code.setting == setting

    drawn()


@given(SETTINGS)
@settings(max_examples=100, deadline=None)
def test_a_refusal_is_a_sentence_and_says_how_many(setting):
    for kind in all_kinds().values():
        told = kind.refuses(setting)
        assert not told or (told.startswith("A bar") and told.endswith(".") and len(told) < 250)
        if told.endswith("are set."):
            assert f"; {setting.distances} are set." in told


@pytest.mark.parametrize("slug", ["tan-a", "tan-b", "graph", "fault"])
def test_as_many_as_a_refusal_says_can_be_had(slug):
    kind = all_kinds()[slug]
    tried = 0
    for length_mm in (SHORTEST, 45, 50):
        for field in (40.0, 65.0):
            most = max(n for n in range(3, 9) if not kind.refuses(Setting("stated", field, length_mm, 10, n)))
            assert all(not kind.refuses(Setting("stated", field, length_mm, 10, n)) for n in range(3, most))
            if most < 8:
                tried += 1
                told = kind.refuses(Setting("stated", field, length_mm, 10, 8))
                assert f"at most {most} distances of whole centimetres" in told and told.endswith("; 8 are set.")
            made = kind.draw(SheetCode(kind.letter, 1, 5, Setting("stated", field, length_mm, 10, most)))
            assert len(made.rows) == most
            if slug != "fault":  # there one may be written down half a centimetre wrong
                assert all(math.isclose(row.d * 100, round(row.d * 100)) for row in made.rows)
    assert tried


def test_what_is_usual_is_never_refused():
    for kind in all_kinds().values():
        assert kind.refuses(Setting()) == kind.refuses(FIXED) == ""
        assert not any(kind.refuses(Setting(length_mm=length)) for length in DRAWN_LENGTHS_MM)


def test_the_distances_that_a_kind_does_not_take_do_not_count():
    crowded = Setting("stated", 65.0, SHORTEST, 10, 8)
    assert all_kinds()["tan-b"].refuses(crowded)
    assert not any(all_kinds()[slug].refuses(crowded) for slug in ("earth", "law", "distances", "uncertainty"))


def test_a_bar_that_swings_too_slowly_is_refused():
    told = all_kinds()["earth"].refuses(Setting(field=12.0, length_mm=LONGEST))
    assert told.startswith("A bar of 200 mm swings too slowly where B_H is 12.0 µT: 10 swings take ")
    assert told.endswith(" s or more, and 150 s is the most that is counted.")


def test_the_strongest_field_of_a_setting():
    assert strongest_field(Setting(field=38.2)) == pytest.approx(38.2e-6)
    at_lima = Station(13, 2026, 5)
    lima = PLACES[13]
    there = horizontal(lima.latitude, lima.longitude, lima.height, 2026 + 4.5 / 12)
    assert strongest_field(Setting(field=at_lima)) == pytest.approx(there, abs=0.06e-6)
    drawn = [SheetCode("A", 1, seed) for seed in range(300)]
    fields = [all_kinds()["law"].draw(SheetCode("W", 1, code.seed)).B_H for code in drawn]
    assert max(fields) <= strongest_field(Setting()) <= max(fields) + 1e-6

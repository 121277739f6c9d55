"""From where on something is said of moments, field and magnet: just inside and just outside each limit."""

import math
from dataclasses import replace

import pytest

from exercises.bench.magnets import MATERIALS
from exercises.record.finding import SURE
from exercises.record.moments import Apart, Point, Trend
from exercises.record.place import LocalField
from exercises.record.result_findings import of_another_field, of_field, of_moments, of_size, usual_by_needle

POINTS = [Point(n, d, 45.0, 1.5, 0.005, 0.005) for n, d in ((1, 0.18), (2, 0.20), (3, 0.22))]
LEVEL = Trend(
    change=0.0, error=0.005, two_l=0.07, u_two_l=0.004, shift=0.002, u_shift=0.001, needle=-0.01, left=2.0, level=2.0
)
ALONE = Apart(number=2, off=0.05, error=0.01, d=0.204, left=1.0)


def said(t=None, a=None, two_l=0.07, length=0.084, points=POINTS):
    return [f.key for f in of_moments(points, t, a, two_l, length)]


def text(**changed) -> str:
    (found,) = of_moments(POINTS, replace(LEVEL, **changed), None, 0.07, 0.084)
    return found.text


def test_a_rise_is_told_from_one_per_cent_and_three_standard_errors_on():
    assert (
        said(replace(LEVEL, change=0.011, error=0.001)) == ["trend"]
        and said(replace(LEVEL, change=0.009, error=0.001)) == []
    )
    assert (
        said(replace(LEVEL, change=0.0301, error=0.01)) == ["trend"]
        and said(replace(LEVEL, change=0.0299, error=0.01)) == []
    )
    assert SURE == 3.0


def test_a_fall_is_told_where_it_is_more_than_a_needle_makes():
    assert usual_by_needle(LEVEL) == 0.03 and usual_by_needle(replace(LEVEL, needle=-0.04)) == pytest.approx(0.06)
    assert usual_by_needle(replace(LEVEL, needle=0.0)) == 0.015
    small = replace(LEVEL, error=0.001)
    assert said(replace(small, change=-0.031)) == ["trend"] and said(replace(small, change=-0.029)) == []
    # of the fall, what the needle makes is taken off before it is held against its error
    assert (
        said(replace(LEVEL, change=-0.0501, error=0.0133)) == ["trend"]
        and said(replace(LEVEL, change=-0.0499, error=0.0134)) == []
    )


def test_one_moment_apart_is_told_from_two_per_cent_and_three_standard_errors_on():
    assert said(a=ALONE) == ["apart"] == said(a=replace(ALONE, off=-0.05))
    assert (
        said(a=replace(ALONE, off=0.021, error=0.001)) == ["apart"]
        and said(a=replace(ALONE, off=0.019, error=0.001)) == []
    )
    assert said(a=replace(ALONE, off=0.0301)) == ["apart"] and said(a=replace(ALONE, off=0.0299)) == []
    words = of_moments(POINTS, None, ALONE, 0.07, 0.084)[0]
    assert "Distance 2: its moment is 5.0 % larger than the mean of the others (standard error 1.0 %)" in words.text
    assert "d = 20.4 cm instead of 20.0 cm" in words.text and words.cells == ("d-2", "moment-2")
    assert "5.0 % smaller" in of_moments(POINTS, None, replace(ALONE, off=-0.05), 0.07, 0.084)[0].text


def test_what_explains_the_moments_better_is_said_first():
    """Nine in the sum of squares: three standard errors."""
    rise = replace(LEVEL, change=0.05, left=10.5)
    assert said(rise, replace(ALONE, left=1.4)) == ["apart"]
    (both,) = of_moments(POINTS, rise, replace(ALONE, left=1.6), 0.07, 0.084)
    assert (
        both.key == "trend"
        and "Or distance 2 alone is out: its readings would fit 20.4 cm instead of 20.0 cm." in both.text
    )
    assert "alone is out" not in text(change=0.05)


def test_what_would_level_a_trend():
    rise = text(change=0.05)
    assert "The moments rise by 5.0 % from the nearest distance to the farthest (standard error 0.5 %)." in rise
    assert (
        "a 2l of (7.0 ± 0.4) cm instead of 7.0 cm; or distances that are all (0.20 ± 0.10) cm more than noted" in rise
    )
    assert "usual here" not in rise and "cm less than noted" in text(change=0.05, shift=-0.002)
    fall = text(change=-0.08)
    assert "fall by 8.0 %" in fall and "A fall of up to 3 % is usual here" in fall
    assert "taken off already" in text(change=-0.08, needle=0.0)


def test_a_length_that_no_bar_of_that_size_has_is_not_proposed():
    for length, most in ((0.1, 0.1), (None, 0.07 * 1.2)):
        for share, proposed in ((0.59, False), (0.61, True), (1.01, True), (1.03, False)):
            (found,) = of_moments(POINTS, replace(LEVEL, change=0.05, two_l=share * most), None, 0.07, length)
            assert ("a 2l of" in found.text) is proposed, (length, share)
    assert "that are all" in text(change=0.05, shift=0.049) and "that are all" not in text(change=0.05, shift=0.051)
    neither = text(change=0.05, shift=0.051, two_l=0.01)
    assert "Look at l, and at the point from which d was measured." in neither and "level them" not in neither
    (of_two,) = of_moments(POINTS[:2], replace(LEVEL, change=0.05), None, 0.07, 0.084)
    assert "level them" not in of_two.text


def test_a_distance_whose_readings_are_all_ten_too_large():
    off = math.tan(math.radians(45)) / math.tan(math.radians(35)) - 1
    (found,) = of_moments(POINTS, None, replace(ALONE, off=off), 0.07, 0.084)
    assert found.text.endswith(" Or all eight are read 10° too large.")
    assert "all eight" not in of_moments(POINTS, None, replace(ALONE, off=off * 0.88), 0.07, 0.084)[0].text


def local(model=30e-6, total=50e-6, vertical=40e-6):
    return LocalField(None, "", model, total, vertical)


def test_the_typed_field_beside_the_model():
    assert of_field(local(), None) == [] == of_field(LocalField(None, ""), 42e-6)
    assert of_field(local(), 31.4e-6) == [] == of_field(local(), 28.6e-6)
    (more,), (less,) = of_field(local(), 31.6e-6), of_field(local(), 28.4e-6)
    assert "5 % more" in more.text and "5 % less" in less.text and "Iron in the building" in more.text
    assert "31.6 µT; the field model gives 30.0 µT" in more.text and more.level == "look" and more.cells == ("B_H",)
    for typed, iron in ((38.5e-6, True), (39.5e-6, False), (21.5e-6, True), (20.5e-6, False)):
        (found,) = of_field(local(vertical=10e-6), typed)
        assert ("Iron" in found.text) is iron and ("Look at the unit" in found.text) is not iron, typed


def test_the_whole_field_or_its_vertical_part_is_known_again():
    for typed, name in (
        (50e-6, "the whole field"),
        (40e-6, "the vertical part"),
        (48.6e-6, "the whole"),
        (41.1e-6, "the vertical"),
    ):
        (found,) = of_field(local(), typed)
        assert f"It is about {name}" in found.text and found.level == "amiss"
    for typed in (48.4e-6, 41.3e-6):  # three per cent and more from both
        assert "It is about" not in of_field(local(), typed)[0].text
    # where the whole field is nearly the horizontal part, it is no explanation
    assert "It is about" not in of_field(local(total=30.8e-6, vertical=None), 31.6e-6)[0].text


def test_without_a_model_only_what_is_nowhere_on_earth_is_told():
    (found,) = of_field(LocalField(None, ""), 44e-6)
    assert found.cells == ("B_H",) and "B_H = 44.0 µT is more than the horizontal part is anywhere" in found.text


def test_another_field_in_all_noted_moments():
    (found,) = of_another_field(36e-6, [1.05, 1.055, 1.045], 3)
    assert "all 1.050 times" in found.text and "B_H = 37.8 µT" in found.text and found.cells == ("B_H",)
    assert of_another_field(36e-6, [1.05, 1.05], 2) and not of_another_field(36e-6, [1.05, 1.05], 1)
    assert not of_another_field(36e-6, [1.05], 2)
    assert of_another_field(36e-6, [1.011] * 2, 2) and not of_another_field(36e-6, [1.009] * 2, 2)
    assert of_another_field(36e-6, [0.98] * 2, 2)
    for apart, told in ((0.0055, True), (0.0065, False)):
        assert bool(of_another_field(36e-6, [1.1 * (1 - apart), 1.1 * (1 + apart)], 2)) is told
    for times, told in ((4.9, False), (5.1, True), (69, True), (71, False)):
        assert bool(of_another_field(36e-6, [times / 36] * 2, 2)) is told, times


@pytest.mark.parametrize(
    "magnetisation, level, words",
    [
        (1.16e6, "amiss", "No magnet keeps so much (about 1.2 × 10⁶ A/m is the most)"),
        (1.14e6, "note", "as the strong modern magnets have"),
        (1.1e4, "note", "as weak bars have"),
        (0.9e4, "look", "little even for an old steel bar"),
    ],
)
def test_the_moment_beside_the_volume(magnetisation, level, words):
    (found,) = of_size(magnetisation * 1e-5, 0.1, 0.01, 0.01)
    assert (
        found.level == level and words in found.text and found.cells == ("mean-moment", "length", "width", "thickness")
    )
    assert of_size(1.0, None, 0.01, 0.01) == of_size(1.0, 0.1, None, 0.01) == of_size(1.0, 0.1, 0.01, None) == []


def test_every_material_is_named_from_its_weakest_to_its_strongest():
    for m in MATERIALS:
        for magnetisation in (m.lowest * 1.0001, m.highest * 0.9999):
            assert m.name in of_size(magnetisation * 1e-5, 0.1, 0.01, 0.01)[0].text

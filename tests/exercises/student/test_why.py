"""What each fault does, and which average takes it out: the page "Why eight readings"."""

import itertools
import json
import math
import re

import numpy as np
import pytest

from exercises.bench.field import end_on
from exercises.bench.instrument import EIGHT, Faults
from exercises.student.desk import why
from exercises.student.why import (
    B_H,
    DISTANCE,
    MAGNET,
    SLIDERS,
    TRUE_ANGLE,
    USUAL,
    each_alone,
    faults_of,
    fragment,
    means,
    moment,
    read,
    removed_by,
    sentence,
    settings_from,
)
from generator.figures.theory_why import INSTRUMENTS, moments, spread
from generator.pages.fragments import FRAGMENTS, page_fragment

ZERO = settings_from({})
REMOVED_BY = {
    "pivot_x": 2,
    "pivot_y": 2,
    "zero_error": 4,
    "first_turn": 4,
    "second_turn": 4,
    "pointer": 4,
    "centre_shift": 4,
    "magnet_turned": 4,
    "box_shift": 8,
}


def test_every_fault_of_the_instrument_has_a_slider():
    moved = [{field for field, value in vars(s.fault(1.0)).items() if value} for s in SLIDERS]
    assert set().union(*moved) == set(vars(Faults()))


def test_faults_that_are_set_together_add_up():
    """In degrees: both turns and the pointer turn the arms by 1 + 2 + 3; the zero error turns the box by −0.5."""
    set_ = {"first_turn": 1.0, "second_turn": 2.0, "pointer": 3.0, "zero_error": 0.5, "pivot_x": 1.0, "box_shift": -2.0}
    assert faults_of(set_) == Faults(
        pivot_x=1e-3, arm_off=6.0, box_turned=0.5, pointer_turned=3.0, box_shift=-2e-3, centre_shift=0.0
    )
    assert faults_of(set_).at_rest == 2.5  # the second turn, and the zero error
    assert faults_of({}) == Faults()


def test_the_perfect_instrument_reads_the_textbook():
    assert pytest.approx(math.degrees(math.atan(end_on(MAGNET.m, DISTANCE, MAGNET.l) / B_H))) == TRUE_ANGLE
    assert read(ZERO) == pytest.approx([TRUE_ANGLE] * 8, abs=1e-9)
    assert moment(TRUE_ANGLE) == pytest.approx(MAGNET.m)
    assert "Every fault is off" in sentence(ZERO)


@pytest.mark.parametrize("slider", SLIDERS, ids=lambda s: s.name)
@pytest.mark.parametrize("share", [-1, -0.5, 0.2, 1])
def test_which_average_removes_a_fault(slider, share):
    setting = share * slider.most
    size = removed_by(slider, setting)
    assert size == REMOVED_BY[slider.name]
    readings = read({slider.name: setting})
    one = max(abs(r - TRUE_ANGLE) for r in readings)
    before, after = (max(abs(m - TRUE_ANGLE) for m in means(readings, n)) for n in (size // 2, size))
    assert before > 0.8 * one > 5 * after
    words = {2: "both ends", 4: "Reversing", 8: "both arms"}[size]
    assert words in sentence({**ZERO, slider.name: setting}) and slider.short in sentence(
        {**ZERO, slider.name: setting}
    )


def test_a_fault_that_is_off_is_not_spoken_of():
    assert all(removed_by(s, 0.0) is None for s in SLIDERS)
    assert "zero error" not in sentence({**USUAL, "zero_error": 0.0})


def test_means_are_of_neighbours():
    readings = tuple(float(i) for i in range(8))
    assert means(readings, 1) == readings
    assert means(readings, 2) == (0.5, 2.5, 4.5, 6.5)
    assert means(readings, 8) == (3.5,)


def test_every_corner_of_the_sliders_has_an_answer():
    for corner in itertools.product((-1, 1), repeat=len(SLIDERS)):
        settings = {s.name: side * s.most for s, side in zip(SLIDERS, corner)}
        answer = json.loads(why(json.dumps(settings)))
        assert answer["html"].count("<table>") == 2 and answer["says"].endswith(".")
        assert "nan" not in answer["html"]


def test_the_tables_show_the_numbers():
    html = fragment(USUAL)
    readings = read(USUAL)
    first = re.findall(r"<td>([\d.]+)</td>", html)
    assert [float(x) for x in first[:2]] == [round(r, 1) for r in readings[:2]]
    assert f"<td>{moment(means(readings, 8)[0]):.3f}</td>" in html
    assert html.count('class="er-mean"') == 4 + 2 + 1
    assert each_alone().count("<tr>") == len(SLIDERS) + 1


@pytest.mark.parametrize("odd", [{"zero_error": "x"}, {"zero_error": None}, {"nosuch": 3}, {"zero_error": "NaN"}, {}])
def test_what_is_no_setting_is_taken_as_off(odd):
    assert settings_from(odd) == ZERO
    assert json.loads(why(json.dumps(odd)))["says"].startswith("Every fault is off")


def test_a_setting_beyond_a_slider_is_kept_within_it():
    assert settings_from({"box_shift": "99"})["box_shift"] == 3
    assert settings_from({"box_shift": -1e308})["box_shift"] == -3


def test_the_spread_falls_with_every_average():
    spreads = [spread(n) for n in (1, 2, 4, 8)]
    assert spreads == sorted(spreads, reverse=True)
    assert 0.30 < spreads[2] / spreads[1] < 0.38 and spreads[3] < spreads[2] / 3  # as the page says
    assert all(len(m) == INSTRUMENTS and abs(np.mean(m) / MAGNET.m - 1) < 0.005 for m in moments().values())


def test_what_is_left_is_mostly_the_reading():
    """±0.5 %: an eye good to 0.2° and a half-degree scale, over √8, through 2/sin 2θ, twice over."""
    reading = math.hypot(0.2, 0.5 / math.sqrt(12)) / math.sqrt(8)
    alone = 1.96 * math.radians(reading) / (math.sin(math.radians(TRUE_ANGLE)) * math.cos(math.radians(TRUE_ANGLE)))
    assert 0.7 * spread(8) < 100 * alone < 1.3 * spread(8)


def test_fragments_of_pages_are_found_by_name():
    assert "er-sliders" in page_fragment("why") and page_fragment("why").count('type="range"') == len(SLIDERS)
    with pytest.raises(Exception, match=f"there are {', '.join(sorted(FRAGMENTS))}"):
        page_fragment("nosuch")


def cells(html: str) -> list[list[str]]:
    return [re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row) for row in re.findall(r"<tr[^>]*>(.*?)</tr>", html)]


@pytest.mark.parametrize("settings", [USUAL, ZERO, {**ZERO, "second_turn": -5.0, "box_shift": 3.0}])
def test_every_cell_of_both_tables(settings):
    readings = read(settings)
    heads, *rows = cells(fragment(settings).split("</table>")[0])
    assert heads == ["arm, N pole", "①", "②", "mean of ends", "and reversed", "and both arms"]
    for i, row in enumerate(rows):
        arm, north, _ = EIGHT[2 * i]
        two, four, eight = (sum(readings[2 * i : 2 * i + n]) / n for n in (2, 4, 8))
        more = [f"{four:.2f}"] * (i % 2 == 0) + [f"{eight:.2f}"] * (i == 0)
        assert row == [f"{arm}, N {north}", *(f"{r:.1f}" for r in readings[2 * i : 2 * i + 2]), f"{two:.2f}", *more]
    assert re.findall(r'rowspan="(\d)"', fragment(settings)) == ["1", "2", "4", "1", "1", "2", "1"]
    moments_ = cells(fragment(settings).split("</table>")[1])
    for size, (name, theta, m, off) in zip((1, 2, 4, 8), moments_[1:5], strict=True):
        mean = sum(readings[:size]) / size
        found = 1.5 * math.tan(math.radians(mean)) / math.tan(math.radians(TRUE_ANGLE))
        share = 100 * (found / 1.5 - 1)
        signed = f"{abs(share):.1f}" if f"{abs(share):.1f}" == "0.0" else f"{share:+.1f}".replace("-", "−")
        assert name.startswith(f"{size}: ") and (theta, m, off) == (f"{mean:.2f}", f"{found:.3f}", signed)
    assert moments_[5] == ["the truth", f"{TRUE_ANGLE:.2f}", "1.500", ""]


def test_each_fault_by_itself_at_half_its_range():
    heads, *rows = cells(each_alone())
    assert heads == ["fault", "1", "2", "4", "8", "removed by"]
    for slider, row in zip(SLIDERS, rows, strict=True):
        readings = read({slider.name: slider.most / 2})
        for size, cell in zip((1, 2, 4, 8), row[1:5]):
            share = 100 * (moment(sum(readings[:size]) / size) / 1.5 - 1)
            assert float(cell.replace("−", "-")) == pytest.approx(share, abs=0.051)
        assert row[5] == {2: "both ends", 4: "reversal", 8: "both arms"}[REMOVED_BY[slider.name]]


@pytest.mark.parametrize(
    ("off", "words"),
    [
        (1.0004, "to within 0.05 %"),
        (1.0006, "0.1 % above"),
        (0.9996, "to within 0.05 %"),
        (0.9994, "0.1 % below"),
        (1.2345, "23.4 % above"),
        (0.9, "10.0 % below"),
    ],
)
def test_how_far_a_moment_is_off_in_words(off, words):
    from exercises.student.why import _off

    assert words in _off(1.5 * off)


def test_what_no_mean_removes_is_said():
    """Every fault at its most: the sentence names each once."""
    text = sentence({s.name: s.most for s in SLIDERS})
    assert all(text.count(s.short) == 1 for s in SLIDERS)
    assert re.search(r"The mean of eight gives \d\.\d{3} A·m², .* the true moment\.$", text)

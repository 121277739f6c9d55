"""Reading the dial: what is drawn is what the instrument shows, and every reading is judged by the drawn tip."""

import math
import random
import re
from html import unescape

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exercises.bench.instrument import Box, Faults, Magnet, equilibrium, pointer_ends, poles
from exercises.codes.editions import places_of
from exercises.codes.sheet_code import DISTANCES, SCALE_STEPS, SEEDS, Setting, SheetCode, Station
from exercises.judging.verdict import judge, judge_all
from exercises.kinds.dial import kind as kind_module
from exercises.kinds.dial.drawing import RADIUS, dial, divisions, glass_place, tip, words
from exercises.kinds.dial.strokes import PER_DEGREE, shown
from exercises.kinds.kind import all_kinds
from tests.exercises.slip_values import slip_values
from tests.rounding import Rounding

PLACES = places_of(1)
KIND = kind_module.KIND
CHANCE = random.Random("dials")
CODES = [
    SheetCode("R", 1, CHANCE.randrange(SEEDS), Setting(scale_step=step, distances=CHANCE.choice(DISTANCES)))
    for step in SCALE_STEPS
    for _ in range(15)
]
SHEETS = [(s, KIND.working(s)) for s in map(KIND.draw, CODES)]
CATALOGUE = all_kinds()["dial"].slips_of(1)
PLAIN = [slip for slip in CATALOGUE if not slip.hides]
READINGS = [f"read-{n}-{end}" for n in range(1, 9) for end in (1, 2)]


def tips(scenario):
    """Every tip from the pivot and the pointer's direction, worked afresh with vectors."""
    found = []
    for one in scenario.dials:
        for sign in (1, -1):
            x = scenario.faults.pivot_x + sign * scenario.box.radius * math.cos(math.radians(one.phi))
            y = scenario.faults.pivot_y - sign * scenario.box.radius * math.sin(math.radians(one.phi))
            clockwise = -math.degrees(math.atan2(y, x)) + scenario.faults.at_rest
            from_zero = clockwise % 180
            found.append(min(from_zero, 180 - from_zero))
    return found


@pytest.mark.parametrize("scenario,working", SHEETS, ids=lambda x: str(getattr(x, "code", "")))
def test_every_step_worked_afresh(scenario, working):
    values = working.all_values()
    found = tips(scenario)
    assert [values[s] for s in READINGS] == pytest.approx(found, abs=1e-9)
    assert values["mean-1"] == pytest.approx(sum(found[:8]) / 8)
    assert values["mean-2"] == pytest.approx(sum(found[8:]) / 8)


@pytest.mark.parametrize("scenario,working", SHEETS[::3], ids=lambda x: str(getattr(x, "code", "")))
def test_right_within_half_a_step_and_not_beyond(scenario, working):
    step = scenario.scale_step
    for s, t in zip(READINGS, tips(scenario)):
        nearest = math.floor(t / step + 0.5) * step
        for value, right in (
            (nearest, 1),
            (t, 1),
            (t + 0.49 * step, 1),
            (t - 0.49 * step, 1),
            (t + 0.52 * step, 0),
            (t - 0.52 * step, 0),
            (nearest + step, 0),
            (nearest - step, 0),
        ):
            assert (judge(working, CATALOGUE, {s: f"{value:.3f}"}, s).state == "right") == bool(right), (s, value)


@pytest.mark.parametrize("scenario,working", SHEETS, ids=lambda x: str(getattr(x, "code", "")))
def test_limits(scenario, working):
    assert len(scenario.dials) == 8 and len(working.steps) == 18
    assert all(25 < t < 65 for t in tips(scenario))
    assert {(one.arm, one.north) for one in scenario.dials[:4]} == {
        (a, n) for a in ("east", "west") for n in ("east", "west")
    }
    for one in scenario.dials:
        assert (one.phi > 0) == (one.north == "east")
    for t in tips(scenario):  # no eye can be in doubt about the division
        assert abs(t / scenario.scale_step - round(t / scenario.scale_step)) <= 0.3 + 1e-9
    if scenario.code.setting.scale_step:
        assert scenario.scale_step == scenario.code.setting.scale_step


@pytest.mark.parametrize("place", range(0, len(PLACES), 7))
def test_the_place_is_the_one_that_is_set_and_its_field_turns_the_needle(place):
    scenario = KIND.draw(SheetCode("R", 1, 5, Setting(field=Station(place, 2027, 5))))
    assert scenario.field.place == PLACES[place] and PLACES[place].name in dict(KIND.page.givens(scenario))["Place"]
    one, magnet = scenario.dials[0], Magnet(scenario.bar.moment, scenario.bar.magnetic_length / 2)
    pair = poles(magnet, one.d, one.arm, one.north, scenario.faults)
    # the needle sticks: a few times 0.25°
    assert one.phi == pytest.approx(equilibrium(pair, scenario.B_H, scenario.box.needle), abs=1.5)


def test_slips_are_the_typical_ones_and_each_is_named():
    assert {s.key for s in CATALOGUE} >= {
        "from-the-wrong-zero",
        "division-misjudged",
        "mark-above",
        "mark-below",
        "back-taken-for-on",
        "on-taken-for-back",
        "divided-by-four",
    }
    seen = set()
    for _, working in SHEETS[::4]:
        for step in working.steps:
            for slip, values in slip_values(working, step, PLAIN, {}):
                verdict = judge(working, CATALOGUE, {step.id: f"{values[0]:.2e}"}, step.id)
                assert (verdict.state, verdict.slips) == ("slip", (slip.key,)), step.id
                seen.add(slip.key)
    assert seen == {s.key for s in PLAIN}


def test_a_slip_on_whole_divisions_is_named_as_a_student_types_it():
    scenario, working = next(x for x in SHEETS if x[0].scale_step == 0.5)
    low, count = divisions(scenario.ends(0)[0], 0.5)
    verdict = judge(working, CATALOGUE, {"read-1-1": str(low + count)}, "read-1-1")
    assert verdict.slips in (("division-misjudged",), ()) and verdict.state != "right"
    needle = judge(working, CATALOGUE, {"read-1-1": f"{90 - scenario.ends(0)[0]:.1f}"}, "read-1-1")
    assert needle.slips == ("from-the-wrong-zero",)


def test_correct_working_is_never_refused_and_follows_from_what_was_read():
    for scenario, working in SHEETS[::4]:
        for seed in range(10):
            path = working.all_values(Rounding(random.Random(seed).randrange))
            entries = {s.id: f"{path[s.id]:.9f}" for s in working.steps}
            assert {v.state for v in judge_all(working, CATALOGUE, entries).values()} == {"right"}
        entries = {s: f"{t:.3f}" for s, t in zip(READINGS, tips(scenario))}
        entries["read-1-1"] = "20"
        mean = (sum(float(entries[s]) for s in READINGS[:8])) / 8
        verdicts = judge_all(working, CATALOGUE, {**entries, "mean-1": f"{mean:.2f}"})
        assert verdicts["mean-1"].state == "follows" and verdicts["read-1-1"].state != "right"


@given(
    st.floats(-85, 85).filter(lambda x: abs(x) > 3), st.floats(-1e-3, 1e-3), st.floats(-1e-3, 1e-3), st.floats(-2, 2)
)
def test_the_drawn_tips_show_what_pointer_ends_gives(phi, px, py, zero):
    box, faults = Box(), Faults(pivot_x=px, pivot_y=py, box_turned=-zero)
    for end, expected in enumerate(pointer_ends(phi, box, faults), 1):
        turn, _ = glass_place(phi, end, box, faults)
        assert abs(turn + zero) == pytest.approx(expected)


def test_the_svg_itself_measured():
    """The tip's place in a reading glass, measured in the drawing against the two numbered marks."""
    phi, box, faults = 37.3, Box(), Faults(pivot_x=4e-4, pivot_y=-3e-4, box_turned=-0.6)
    svg = dial(phi, box, faults, 0.5, "Dial")
    pointers = re.findall(r'<path d="M(\d+\.\d\d) (\d+\.\d\d)L', svg)
    radius, bases = math.degrees(PER_DEGREE), (222 + 50, 222 + 96 + 50)
    assert len(pointers) == 2
    for (x, y), base, reading in zip(pointers, bases, pointer_ends(phi, box, faults)):
        off = math.degrees(math.atan2(float(x) - 160, base + radius - float(y)))
        middle = round(reading / 5) * 5
        assert middle + off == pytest.approx(reading, abs=0.01)
        assert f">{math.ceil((middle - 12.5) / 10) * 10}</text>" in svg
    x, y = tip(phi, 1, box, faults)
    assert f"M{160 + RADIUS * x:.1f} {111 - RADIUS * y:.1f}L" in svg


def test_four_quadrants_and_no_ids_and_the_site_colours():
    assert [shown(a) for a in range(0, 361, 45)] == [0, 45, 90, 45, 0, 45, 90, 45, 0]
    svg = dial(40.0, Box(), Faults(), 1.0, "Dial <1>")
    assert " id=" not in svg and "var(--er-ink,#22302f)" in svg and "Dial &lt;1&gt;" in svg
    assert svg.count(">90<") >= 2 and svg.count(">0<") >= 2


@pytest.mark.parametrize("scenario,working", SHEETS[::5], ids=lambda x: str(getattr(x, "code", "")))
def test_the_words_are_enough_to_read_by_and_do_not_give_the_reading(scenario, working):
    html = unescape(KIND.page.observations(scenario))
    said = re.findall(r"End [①②]: the tip lies between the marks numbered (\d+) and (\d+), at division (\d+)", html)
    assert len(said) == 32  # sixteen on the drawings, sixteen in the list
    for group in (said[:16], said[16:]):
        for s, (low, high, count) in zip(READINGS, group):
            assert int(high) == int(low) + 10
            value = int(low) + int(count) * scenario.scale_step
            assert judge(working, CATALOGUE, {s: f"{value:g}"}, s).state == "right"
    for t in tips(scenario):
        assert f"{t:.1f}" not in html.replace("°", "").split("<ul>")[1]


def test_words_on_a_numbered_mark():
    assert "between the marks numbered 80 and 90, at division 10" in words(90.0, 2, 1.0)
    assert divisions(40.1, 1.0) == (40, 0) and divisions(49.9, 0.5) == (40, 20)


@pytest.mark.parametrize("text", ["0", "-43", "1e9", "43°", "nonsense", "90"])
def test_any_entry_gets_a_sentence(text):
    assert judge(SHEETS[0][1], CATALOGUE, {"read-1-1": text}, "read-1-1").text.endswith((".", "?"))

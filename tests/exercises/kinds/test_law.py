"""Tangent law drills: every step recomputed, the limits of the draw, and what is said of right and wrong answers."""

import cmath
import math
import random

import pytest

from exercises.bench.field import moment_end_on
from exercises.bench.instrument import ALONE, Box, Magnet, eight_readings
from exercises.codes.editions import places_of
from exercises.codes.sheet_code import SEEDS, Setting, SheetCode, Station
from exercises.judging.verdict import judge, judge_all
from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.law.draw import TILTS
from exercises.kinds.law.kind import KIND
from tests.exercises.slip_values import slip_values
from tests.rounding import Rounding

PLACES = places_of(1)
CHANCE = random.Random("law")
CODES = [str(SheetCode("W", 1, CHANCE.randrange(SEEDS))) for _ in range(60)]
SLIPS = all_kinds()["law"].slips_of(1)


def written(value, step, more: int = 0) -> str:
    """As it is typed: a field in µT, an angle to 0.1° or finer, a tangent to four places or more."""
    if step.choices:
        return value
    if step.rule == "angle":
        return f"{value:.{1 + more}f}"
    if step.rule == "tangent":
        return f"{value:.{4 + more}f}"
    return f"{value / {'field': 1e-6, 'percent': 1e-2}[step.quantity]:.{2 + more}e}"


def lies(B: float, earth: float, east_of_north: float) -> float:
    """Where a needle lies, degrees from north, in B_H and a field B that points so far east of north: as vectors."""
    total = earth + cmath.rect(B, math.radians(east_of_north))
    return abs(math.degrees(cmath.phase(total)))


@pytest.mark.parametrize("code", CODES[:30])
def test_every_step_worked_anew(code):
    sheet = open_code(code)
    s, working = sheet.scenario, sheet.working
    v = working.all_values()
    one, three = s.theta
    B2, B3, B4 = s.fields
    assert v["tan-1"] == pytest.approx(math.sin(math.radians(one)) / math.cos(math.radians(one)), rel=1e-12)
    # with the field found, the needle lies at the angle given
    assert lies(v["field-1"], s.B_H, 90) == pytest.approx(one, rel=1e-12)
    assert v["theta-2"] == pytest.approx(lies(B2, s.B_H, 90), rel=1e-12)
    assert v["along-2"] == pytest.approx(abs(complex(B2, s.B_H)), rel=1e-12)
    assert lies(B3, v["earth-3"], 90) == pytest.approx(three, rel=1e-12)
    arm = 90 - s.tilt if s.north else 90 + s.tilt  # where the east arm points, east of north
    assert v["east-4"] == pytest.approx(lies(B4, s.B_H, arm), rel=1e-12)
    assert v["west-4"] == pytest.approx(lies(B4, s.B_H, arm + 180), rel=1e-12)
    assert v["way-4"] == ("east" if v["east-4"] > v["west-4"] else "west")
    mean = (v["east-4"] + v["west-4"]) / 2
    assert v["mean-4"] == pytest.approx(mean, rel=1e-12)
    assert v["field-4"] == pytest.approx(s.B_H * math.tan(math.radians(mean)), rel=1e-12)
    large = s.B_H * math.tan(math.radians(max(v["east-4"], v["west-4"])))
    assert v["error-4"] == pytest.approx(large / B4 - 1, rel=1e-9)


@pytest.mark.parametrize("code", CODES[:20])
def test_the_instrument_shows_the_same_deflections(code):
    """A short magnet on the east arm, the box askew and the board turned to 0–0; the needle is found by torque."""
    sheet = open_code(code)
    s, working = sheet.scenario, sheet.working
    d, l = 0.20, 0.001
    magnet = Magnet(moment_end_on(s.fields[2], d, l), l)
    skewed = ALONE["first-turn"](s.tilt if s.north else -s.tilt)
    assert skewed.at_rest == 0
    readings = eight_readings(magnet, s.B_H, d, Box(needle=0.0), skewed)
    assert working.value("east-4") == pytest.approx(readings[0], abs=1e-3)
    assert working.value("west-4") == pytest.approx(readings[2], abs=1e-3)


def test_a_scale_that_is_taken_to_be_askew_too_is_named():
    """What the instrument shows where the second turn was left out: the same arms, and the scale askew with them.

    It hides, so where another slip gives the same number that one is named.
    """
    named = []
    for code in CODES:
        s, working = open_code(code).scenario, open_code(code).working
        magnet = Magnet(moment_end_on(s.fields[2], 0.20, 0.001), 0.001)
        skewed = ALONE["second-turn"](s.tilt if s.north else -s.tilt)
        readings = eight_readings(magnet, s.B_H, 0.20, Box(needle=0.0), skewed)
        for step, shown in (("east-4", readings[0]), ("west-4", readings[2])):
            verdict = judge(working, SLIPS, {step: f"{shown:.1f}"}, step)
            assert verdict.state == "slip", (code, step)
            named.append(verdict.slips == ("law-second-turn",))
    assert sum(named) > 0.8 * len(named)


def test_the_limits_of_the_draw():
    sides = set()
    for code in CODES:
        sheet = open_code(code)
        s, working = sheet.scenario, sheet.working
        v = working.all_values()
        angles = (*s.theta, v["theta-2"])
        assert all(25.9 < a < 64.1 and abs(a - 45) > 3 for a in angles)
        assert all(round(B * 1e7) / 1e7 == B for B in s.fields) and s.tilt in TILTS
        assert 0 < v["east-4"] < 90 and 0 < v["west-4"] < 90 and v["error-4"] > 0.02
        sides.add((s.north, v["way-4"]))
    assert sides == {(True, "west"), (False, "east")}


@pytest.mark.parametrize("place", range(len(PLACES)))
def test_every_place_has_numbers(place):
    scenario = KIND.draw(SheetCode("W", 1, 5, Setting(field=Station(place, 2027, 5))))
    assert scenario.B_H > 5e-6


@pytest.mark.parametrize("slip", [s for s in SLIPS if not s.hides], ids=lambda s: s.key)
def test_each_slip_is_named_alone_wherever_it_shows(slip):
    shown = 0
    for code in CODES:
        working = open_code(code).working
        for step in working.steps:
            for _, values in () if step.choices else slip_values(working, step, (slip,), {}):
                unit = {"field": 1e-6, "percent": 1e-2}.get(step.quantity, 1.0)
                verdict = judge(working, SLIPS, {step.id: f"{values[0] / unit:.2e}"}, step.id)
                assert (verdict.state, verdict.slips) == ("slip", (slip.key,)), (code, step.id)
                shown += 1
    assert shown


@pytest.mark.parametrize("code", CODES[:30])
def test_right_answers_are_never_refused(code):
    working = open_code(code).working
    for seed in range(20):
        chance = random.Random(seed)
        path = working.all_values(Rounding(chance.randrange))
        for step in working.steps:
            text = written(path[step.id], step, chance.randrange(2))
            assert judge(working, SLIPS, {step.id: text}, step.id).state == "right", (step.id, seed)


@pytest.mark.parametrize("code", CODES[:30])
def test_both_forms_of_the_field_along_the_needle_are_right(code):
    sheet = open_code(code)
    s, working = sheet.scenario, sheet.working
    theta = round(math.degrees(math.atan2(s.fields[0], s.B_H)), 1)
    along = s.B_H / math.cos(math.radians(theta))
    assert judge(working, SLIPS, {"along-2": f"{along * 1e6:.1f}"}, "along-2").state == "right"


@pytest.mark.parametrize("code", CODES[:30])
def test_a_whole_sheet_is_right(code):
    working = open_code(code).working
    values = working.all_values()
    entries = {s.id: written(values[s.id], s, 1) for s in working.steps}
    assert {v.state for v in judge_all(working, SLIPS, entries).values()} == {"right"}


def test_right_from_a_wrong_start_follows():
    sheet = open_code(CODES[0])
    s, working = sheet.scenario, sheet.working
    tan = 1 / working.value("tan-1")
    entries = {"tan-1": f"{tan:.4f}", "field-1": f"{s.B_H * tan * 1e6:.2f}"}
    verdicts = judge_all(working, SLIPS, entries)
    assert verdicts["tan-1"].slips == ("law-cotangent",)
    assert verdicts["field-1"].state == "follows"


def test_signs_changed_over_all_through_is_marked_where_it_is_and_not_after():
    working = open_code(CODES[1]).working
    v = working.all_values()
    entries = {"east-4": f"{v['west-4']:.1f}", "west-4": f"{v['east-4']:.1f}", "mean-4": f"{v['mean-4']:.1f}"}
    verdicts = judge_all(working, SLIPS, entries)
    assert verdicts["east-4"].slips == verdicts["west-4"].slips == ("law-signs-changed-over",)
    assert verdicts["mean-4"].state in ("right", "follows")


def test_the_choice_says_why_it_is_wrong():
    for code in CODES[:6]:
        working = open_code(code).working
        right = working.value("way-4")
        wrong = {"east": "west", "west": "east"}[right]
        assert judge(working, SLIPS, {"way-4": right}, "way-4").state == "right"
        verdict = judge(working, SLIPS, {"way-4": wrong}, "way-4")
        assert verdict.state == "wrong" and "part to the north" in verdict.text and verdict.read

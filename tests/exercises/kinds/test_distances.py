"""Choosing distances: every step recomputed, the limits of the draw, and what is said of right and wrong answers."""

import math
import random

import pytest

from exercises.bench.field import end_on
from exercises.codes.editions import places_of
from exercises.codes.sheet_code import LENGTHS_MM, SEEDS, TWO_L, Setting, SheetCode
from exercises.judging.verdict import judge, judge_all
from exercises.kinds.distances.draw import ARMS, RADII
from exercises.kinds.distances.kind import KIND
from exercises.kinds.distances.scenario import truth
from exercises.kinds.kind import all_kinds, open_code
from exercises.working.arithmetic import Interval
from tests.exercises.settings import half_length
from tests.exercises.slip_values import slip_values
from tests.rounding import Rounding

PLACES = places_of(1)
CHANCE = random.Random("distances")
CODES = [str(SheetCode("N", 1, CHANCE.randrange(SEEDS))) for _ in range(60)]
SLIPS = all_kinds()["distances"].slips_of(1)


def written(value: float, step, figures: int = 3) -> str:
    """As it is typed: a field in µT, a length in cm, a cube in m³; a choice by its key."""
    if step.choices:
        return value
    return f"{value / {'field': 1e-6, 'distance': 1e-2, 'volume': 1.0}[step.quantity]:.{figures - 1}e}"


@pytest.mark.parametrize("code", CODES[:30])
def test_every_step_worked_anew(code):
    sheet = open_code(code)
    s, working = sheet.scenario, sheet.working
    v = working.all_values()
    l = half_length(s.code.setting, s.bar)
    assert v["l"] == pytest.approx(l, rel=1e-12)
    found = {}
    for limit, tangent in (("near", math.sqrt(3)), ("far", 1 / math.sqrt(3))):
        B = s.B_H * tangent
        cube = 1e-7 * 2 * s.moment / B
        d0 = math.exp(math.log(cube) / 3)
        found[limit] = d0 + 2 * l**2 / (3 * d0)
        assert v[f"field-{limit}"] == pytest.approx(B, rel=1e-12)
        assert v[f"cube-{limit}"] == pytest.approx(cube, rel=1e-12)
        assert v[f"guess-{limit}"] == pytest.approx(d0, rel=1e-12)
        assert v[f"correction-{limit}"] == pytest.approx(2 * l**2 / (3 * d0), rel=1e-12)
        assert v[f"distance-{limit}"] == pytest.approx(found[limit], rel=1e-12)
    gap = found["near"] - s.bar.length / 2 - s.radius
    reach = found["far"] + s.bar.length / 2
    assert v["gap"] == pytest.approx(gap, rel=1e-9) and v["reach"] == pytest.approx(reach, rel=1e-12)
    assert v["clear"] == ("clear" if gap >= 0.01 else "close")
    assert v["fits"] == ("fits" if reach <= s.arm else "short")
    assert v["from"] == pytest.approx(max(found["near"], s.radius + 0.01 + s.bar.length / 2), rel=1e-12)
    assert v["to"] == pytest.approx(min(found["far"], s.arm - s.bar.length / 2), rel=1e-12)


@pytest.mark.parametrize("code", CODES)
def test_the_whole_formula_agrees_and_is_taken_for_right(code):
    sheet = open_code(code)
    s, working = sheet.scenario, sheet.working
    for limit, angle in (("near", 60), ("far", 30)):
        d = truth(s, limit)
        assert end_on(s.moment, d, half_length(s.code.setting, s.bar)) == pytest.approx(
            s.B_H * math.tan(math.radians(angle)), rel=1e-9
        )
        assert abs(working.value(f"distance-{limit}") - d) < 0.0008
        # a student who solves the formula itself and gives whole millimetres
        verdict = judge(working, SLIPS, {f"distance-{limit}": f"{d * 100:.1f}"}, f"distance-{limit}")
        assert verdict.state == "right"


def test_the_limits_of_the_draw():
    clear, fits = set(), set()
    for code in CODES:
        sheet = open_code(code)
        s, working = sheet.scenario, sheet.working
        v = working.all_values()
        assert s.radius in RADII and s.arm in ARMS and s.moment == float(f"{s.moment:.2e}")
        assert v["gap"] > 0.002 and v["to"] - v["from"] >= 0.015
        assert v["to"] + s.bar.length / 2 <= s.arm + 1e-12
        assert v["from"] - s.bar.length / 2 - s.radius >= 0.01 - 1e-12
        clear.add(v["clear"])
        fits.add(v["fits"])
    assert clear == {"clear", "close"} and fits == {"fits", "short"}


@pytest.mark.parametrize("field", [10.0, 20.0, 35.0, 65.0])
@pytest.mark.parametrize("length", LENGTHS_MM[1::9])
def test_every_setting_has_numbers(field, length):
    for rule in TWO_L:
        scenario = KIND.draw(SheetCode("N", 1, 5, Setting(rule, field, length)))
        assert scenario.bar.length == length / 1e3 and pytest.approx(field * 1e-6) == scenario.B_H


@pytest.mark.parametrize("slip", [s for s in SLIPS if not s.hides], ids=lambda s: s.key)
def test_each_slip_is_named_alone_wherever_it_shows(slip):
    shown = 0
    for code in CODES:
        sheet = open_code(code)
        working, told = sheet.working, [s for s in sheet.slips if s.key == slip.key and not s.hides]
        for step in working.steps:
            for _, values in () if step.choices else slip_values(working, step, told, {}):
                verdict = judge(working, sheet.slips, {step.id: written(values[0], step)}, step.id)
                assert (verdict.state, verdict.slips) == ("slip", (slip.key,)), (code, step.id)
                shown += 1
    assert shown


@pytest.mark.parametrize("code", CODES[:30])
def test_right_answers_are_never_refused(code):
    working = open_code(code).working
    for seed in range(20):
        chance = random.Random(seed)
        path = working.all_values(Rounding(chance.randrange))
        # what is read to half a millimetre may lie on the very edge, where one more rounding is not at issue
        entries = {
            s.id: written(path[s.id], s, 9 if s.rule == "reading" else chance.choice((3, 4))) for s in working.steps
        }
        for step in working.steps:
            assert judge(working, SLIPS, {step.id: entries[step.id]}, step.id).state == "right", (step.id, seed)


@pytest.mark.parametrize("code", CODES[:30])
def test_a_whole_sheet_worked_from_what_was_typed_is_right(code):
    working = open_code(code).working
    entries, own = {}, {}
    for step in working.steps:
        value = working.value(step.id, own=own)
        entries[step.id] = written(value, step, 4)
        own[step.id] = value if step.choices else float(entries[step.id]) * (value / float(written(value, step, 17)))
    assert {v.state for v in judge_all(working, SLIPS, entries).values()} == {"right"}


def test_right_from_a_wrong_start_follows():
    working = open_code(CODES[0]).working
    wrong = working.value("guess-near") * 1.2
    own = {"guess-near": wrong}
    entries = {"guess-near": f"{wrong * 100:.3f}"}
    for id in ("correction-near", "distance-near"):
        own[id] = working.value(id, own=own)
        entries[id] = f"{own[id] * 100:.3f}"
    verdicts = judge_all(working, SLIPS, entries)
    assert verdicts["guess-near"].state != "right"
    assert verdicts["correction-near"].state == verdicts["distance-near"].state == "follows"


def test_choices_follow_the_own_gap():
    code = next(c for c in CODES if open_code(c).working.value("clear") == "clear")
    working = open_code(code).working
    assert judge(working, SLIPS, {"clear": "clear"}, "clear").state == "right"
    wrong = judge(working, SLIPS, {"clear": "close"}, "clear")
    assert wrong.state == "wrong" and wrong.read
    assert judge(working, SLIPS, {"gap": "0.5", "clear": "close"}, "clear").state == "follows"


def test_the_interval_is_not_wide():
    for code in CODES[:20]:
        working = open_code(code).working
        spans = working.all_values(Interval)
        for limit in ("near", "far"):
            for column, most in (("field", 0.007), ("guess", 0.010), ("distance", 0.020)):
                span = spans[f"{column}-{limit}"]
                assert (span.hi - span.lo) / (span.hi + span.lo) < most, column

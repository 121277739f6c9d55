"""The graph method: every step worked again by numpy, limits, what reading a graph allows, slips, verdicts."""

import math
import random

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from exercises.codes.editions import places_of
from exercises.codes.sheet_code import SEEDS, Setting, SheetCode, Station
from exercises.judging.diagnosis import tells_apart
from exercises.judging.verdict import judge, judge_all
from exercises.kinds.graph.kind import KIND, SLIPS
from exercises.kinds.graph.lines import extremes
from tests.exercises.settings import BY_RULE, SETTINGS, half_length
from tests.exercises.slip_values import slip_values
from tests.rounding import Rounding

PLACES = places_of(1)
READ = ("slope-a", "slope-b", "intercept")


def sheet(seed, setting=Setting()):
    scenario = KIND.draw(SheetCode("K", 1, seed, setting))
    return scenario, KIND.working(scenario)


SHEETS = [sheet(seed * 7919 + 5, BY_RULE[seed % 3]) for seed in range(12)]
SCENARIO, WORKING = SHEETS[0]
RIGHT = WORKING.all_values()


def by_numpy(scenario):
    """Columns and lines from the numbers on the sheet, with none of the working's own code."""
    d, y = np.array(scenario.ds), np.tan(np.radians(scenario.thetas))
    l = half_length(scenario.code.setting, scenario.bar)
    return d, y, 2 * d / (d**2 - l**2) ** 2, np.sqrt(d / y)


@pytest.mark.parametrize("scenario, working", SHEETS)
def test_every_step_worked_again(scenario, working):
    d, y, x, root = by_numpy(scenario)
    expected = {f"{c}-{i + 1}": v for c, column in (("tan", y), ("x", x), ("root", root)) for i, v in enumerate(column)}
    (expected["slope-a"],) = np.linalg.lstsq(x[:, None], y, rcond=None)[0]
    expected["slope-b"], expected["intercept"] = np.polyfit(root, d**2, 1)
    expected["moment-a"] = expected["slope-a"] * scenario.B_H * 1e7
    expected["moment-b"] = expected["slope-b"] ** 2 * scenario.B_H * 1e7 / 2
    expected["found-2l"] = 2 * math.sqrt(expected["intercept"])
    assert {s.id for s in working.steps} == set(expected)
    for step in working.steps:
        assert working.value(step.id) == pytest.approx(expected[step.id], rel=1e-9), step.id


def test_the_second_line_is_the_end_on_formula():
    # a perfect magnet and a needle that is a point: both lines give what went in, to the last figure
    m, l, earth = 1.5, 0.04, 36e-6
    d = np.linspace(0.17, 0.25, 6)
    tangent = 1e-7 * 2 * m * d / (d**2 - l**2) ** 2 / earth
    slope, intercept = np.polyfit(np.sqrt(d / tangent), d**2, 1)
    assert 1e7 * slope**2 * earth / 2 == pytest.approx(m, rel=1e-9) and math.sqrt(intercept) == pytest.approx(
        l, rel=1e-9
    )


@settings(max_examples=60, deadline=None)
@given(st.integers(0, SEEDS - 1), SETTINGS)
def test_consistent_whatever_the_laboratory_fixes(seed, setting):
    assume(not KIND.refuses(setting))
    scenario, working = sheet(seed, setting)
    bar, allow = scenario.bar, scenario.allowed
    assert not isinstance(setting.field, Station) or scenario.field.place == PLACES[setting.field.place]
    assert setting.length_mm is None or round(bar.length * 1e3) == setting.length_mm
    assert len(scenario.rows) == (setting.distances or len(scenario.rows)) and len(scenario.rows) >= 3
    assert all(30 <= r <= 60 for row in scenario.rows for r in row.readings)
    ds = [d * 1000 for d in scenario.ds]
    assert all(b - a > 2.999 for a, b in zip(ds, ds[1:]))
    assert all(d / setting.grid_mm == pytest.approx(round(d / setting.grid_mm)) for d in ds)
    assert bar.material.lowest <= bar.magnetisation <= bar.material.highest
    # the truth lies within what the sheet says a graph allows
    assert 0.01 < allow.slope_a < 0.036 and 0.015 < allow.slope_b < 0.046
    assert working.value("moment-a") == pytest.approx(bar.moment, rel=0.05)
    assert working.value("moment-b") == pytest.approx(bar.moment, rel=2 * allow.slope_b)
    assert working.value("intercept") == pytest.approx((bar.magnetic_length / 2) ** 2, abs=allow.intercept)
    assert 0 < allow.intercept < 0.55 * working.value("intercept")
    assert not scenario.diagnosable or tells_apart(working, SLIPS, [s.id for s in working.steps])


@pytest.mark.parametrize("scenario, working", SHEETS)
def test_the_line_through_the_two_extreme_points_is_right(scenario, working):
    d, y, x, root = by_numpy(scenario)
    slope, intercept = extremes(list(root), list(d**2))
    entries = {
        "slope-a": f"{extremes(list(x), list(y))[0]:.3e}",
        "slope-b": f"{slope:.3e}",
        "moment-b": f"{slope**2 * scenario.B_H * 1e7 / 2:.3e}",
        "intercept": f"{intercept:.2e}",
        "found-2l": f"{200 * math.sqrt(intercept):.2f}",
    }
    assert {v.state for v in judge_all(working, SLIPS, entries).values()} == {"right", "blank"}


@pytest.mark.parametrize("scenario, working", SHEETS)
def test_what_a_graph_does_not_allow_is_not_right(scenario, working):
    for step, share in zip(READ, (0.07, 0.09, 1.2)):
        for sign in (-1, 1):
            text = f"{working.value(step) * (1 + sign * share):.3e}"
            assert judge(working, SLIPS, {step: text}, step).state in ("wrong", "slip"), (step, text)


@pytest.mark.parametrize("scenario, working", SHEETS)
def test_an_intercept_worked_from_the_students_own_slope(scenario, working):
    d, _, _, root = by_numpy(scenario)
    for share in (-0.02, -0.01, 0.01):
        slope = float(f"{working.value('slope-b') * (1 + share):.2e}")
        intercept = np.mean(d**2) - slope * np.mean(root)
        entries = {"slope-b": f"{slope:.2e}", "intercept": f"{intercept:.2e}"}
        if intercept > 0:
            assert {k: judge_all(working, SLIPS, entries)[k].state for k in entries} == dict.fromkeys(entries, "right")


def test_a_moment_must_follow_from_the_slope_typed():
    high = RIGHT["slope-b"] * 1.02
    fits = f"{high**2 * SCENARIO.B_H * 1e7 / 2:.3e}"
    assert judge_all(WORKING, SLIPS, {"slope-b": f"{high:.3e}", "moment-b": fits})["moment-b"].state == "right"
    other = f"{RIGHT['moment-b'] * 0.98:.3e}"
    assert judge_all(WORKING, SLIPS, {"slope-b": f"{high:.3e}", "moment-b": other})["moment-b"].state == "wrong"


@pytest.mark.parametrize("slip", [s for s in SLIPS if not s.hides], ids=lambda s: s.key)
def test_each_slip_is_named_alone_wherever_it_shows(slip):
    shown = 0
    for _, working in SHEETS:
        for step in working.steps:
            for _, values in slip_values(working, step, (slip,), {}):
                for value in values:
                    # a slip in what is read from a graph is known although the reading is rough
                    for rough in (1.0, 1.02, 0.98) if step.id in READ else (1.0,):
                        text = f"{value * rough * (100 if step.quantity == 'distance' else 1):.2e}"
                        verdict = judge(working, SLIPS, {step.id: text}, step.id)
                        assert (verdict.state, verdict.slips) == ("slip", (slip.key,)), (step.id, text)
                    shown += 1
    assert shown


@pytest.mark.parametrize("scenario, working", SHEETS)
def test_correct_working_is_never_refused(scenario, working):
    for seed in range(20):
        path = working.all_values(Rounding(random.Random(seed).randrange))
        entries = {}
        for step in working.steps:
            value = path[step.id] * (100 if step.quantity == "distance" else 1)
            entries[step.id] = f"{value:.4f}" if step.rule == "tangent" else f"{value:.3e}"
        for step in working.steps:
            alone = judge(working, SLIPS, {step.id: entries[step.id]}, step.id)
            assert alone.state == "right", (step.id, entries[step.id])


@pytest.mark.parametrize("entry", ["0", "0.000", "-3", "1e-30", "1e30"])
@pytest.mark.parametrize("step", ["tan-1", "root-2", "x-1", "slope-a", "slope-b", "intercept"])
def test_no_entry_breaks_the_steps_after_it(step, entry):
    typed = {
        "slope-a": "1.23e-3",
        "moment-a": "1.23",
        "slope-b": "0.0812",
        "moment-b": "1.23",
        "intercept": "0.0019",
        "found-2l": "8.1",
        step: entry,
    }
    verdicts = judge_all(WORKING, SLIPS, typed)
    assert verdicts[step].state in ("wrong", "ask", "slip")
    assert all(v.text.endswith((".", "?")) for k, v in verdicts.items() if k in typed)


def test_the_units_a_student_may_type():
    for step, text in (
        ("x-1", f"{RIGHT['x-1']:.1f} m⁻³"),
        ("x-1", f"{RIGHT['x-1']:.1f} /m³"),
        ("root-1", f"{RIGHT['root-1']:.4f} m^0.5"),
        ("root-1", f"{RIGHT['root-1']:.4f} √m"),
        ("slope-a", f"{RIGHT['slope-a']:.3e} m³"),
        ("slope-b", f"{RIGHT['slope-b']:.4f} m^1.5"),
        ("intercept", f"{RIGHT['intercept'] * 1e4:.1f} cm²"),
        ("found-2l", f"{RIGHT['found-2l'] * 1e3:.0f} mm"),
    ):
        assert judge(WORKING, SLIPS, {step: text}, step).state == "right", text

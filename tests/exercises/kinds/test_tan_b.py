"""Tan B: every step worked again from the scenario, the limits of the draw, and what is said of slips."""

import math
import random

import pytest

from exercises.bench.field import deflection
from exercises.bench.instrument import PERFECT, Magnet, equilibrium, poles
from exercises.bench.uncertainty import needle_term
from exercises.codes.editions import places_of
from exercises.codes.sheet_code import DISTANCES, LENGTHS_MM, SCALE_STEPS, Setting, SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.judging.verdict import judge, judge_all
from exercises.kinds.deflection.draw import relative_uncertainty
from exercises.kinds.deflection.stretch import BOX, CLEARANCE
from exercises.kinds.kind import Sheet, all_kinds
from exercises.kinds.tan_b import kind as tan_b
from tests.exercises.settings import BY_RULE, FIXED, half_length
from tests.exercises.slip_values import slip_values
from tests.rounding import Rounding

PLACES = places_of(1)
SEEDS = [(i * 7919 + 13) % 1000003 for i in range(20)]


def sheet(seed: int, setting: Setting = Setting()):
    scenario = tan_b.KIND.draw(SheetCode("T", 1, seed, setting))
    return scenario, tan_b.working(scenario)


SHEETS = [sheet(seed, BY_RULE[i % 3]) for i, seed in enumerate(SEEDS)]
SLIPS = all_kinds()["tan-b"].slips_of(1)


@pytest.mark.parametrize(("scenario", "working"), SHEETS)
def test_every_step_worked_again(scenario, working):
    l = half_length(scenario.code.setting, scenario.bar)
    moments = []
    for i, row in enumerate(scenario.rows, 1):
        theta = sum(row.readings) / 8
        s = row.d**2 + l**2
        m = 1e7 * scenario.B_H * s * math.sqrt(s) * math.tan(math.radians(theta))
        moments.append(m)
        assert working.value(f"mean-{i}") == pytest.approx(theta)
        assert working.value(f"tan-{i}") == pytest.approx(math.tan(math.radians(theta)))
        assert working.value(f"bracket-{i}") == pytest.approx(math.sqrt(s) ** 3)
        assert working.value(f"moment-{i}") == pytest.approx(m)
    mean = sum(moments) / len(moments)
    assert working.value("mean-moment") == pytest.approx(mean)
    assert working.value("pole") == pytest.approx(mean / (2 * l))
    _, north = tan_b.laid(scenario)
    assert working.value("turns") == {"east": "west", "west": "east"}[north]


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize(
    "setting",
    [
        Setting(),
        FIXED,
        Setting("five-sixths", 65.0, 127, 1, 6, 1.0),
        Setting(length_mm=80),
        Setting(grid_mm=10, distances=3),
    ],
    ids=str,
)
def test_consistent_whatever_the_laboratory_fixes(seed, setting):
    scenario, working = sheet(seed, setting)
    bar, rows = scenario.bar, scenario.rows
    assert setting.field != 65.0 or pytest.approx(65e-6) == scenario.B_H
    assert setting != FIXED or scenario.field.place == PLACES[FIXED.field.place]
    assert len(rows) == (setting.distances or len(rows)) and len(rows) in DISTANCES
    assert scenario.scale_step == (setting.scale_step or scenario.scale_step) and scenario.scale_step in SCALE_STEPS
    assert (
        round(bar.length * 1e3) == (setting.length_mm or round(bar.length * 1e3))
        and round(bar.length * 1e3) in LENGTHS_MM
    )
    assert all(30 <= r <= 60 and r % scenario.scale_step == 0 for row in rows for r in row.readings)
    assert rows[0].d - bar.width / 2 >= BOX.radius + CLEARANCE
    assert rows[-1].d + bar.width / 2 <= scenario.arm_length
    assert bar.material.lowest <= bar.magnetisation <= bar.material.highest
    found = working.value("mean-moment")
    assert abs(found - bar.moment) <= 2 * relative_uncertainty(scenario, tan_b=True) * found
    numeric = [s.id for s in working.steps if s.column in ("moment", "mean-moment", "pole")]
    assert not scenario.diagnosable or tells_apart(working, Sheet(tan_b.KIND, scenario, working).slips, numeric)


def test_the_slips_of_this_sheet():
    assert {s.key for s in SLIPS} >= {
        "length-for-half-length",
        "half-length-left-out",
        "distance-to-near-end",
        "degrees-as-radians",
        "sine-for-tangent",
        "complement-of-angle",
        "minus-for-plus",
        "power-left-out",
        "power-two",
        "power-three",
        "power-half",
        "power-two-thirds",
        "end-on-formula",
        "two-put-in",
        "mu0-for-mu0-over-4pi",
        "centimetres",
        "half-length-for-length",
        "measured-length",
    }
    # what belongs to end-on alone is not looked for here
    assert not {s.key for s in SLIPS} & {"bracket-not-squared", "plus-for-minus", "broadside-formula", "two-left-out"}


@pytest.mark.parametrize("slip", [s for s in SLIPS if not s.hides], ids=lambda s: s.key)
def test_each_slip_is_named_alone_wherever_it_shows(slip):
    shown = 0
    for _, working in SHEETS[:8]:
        for step in working.steps:
            for _, values in () if step.choices else slip_values(working, step, (slip,), {}):
                for value in values:
                    verdict = judge(working, SLIPS, {step.id: f"{value:.2e}"}, step.id)
                    assert (verdict.state, verdict.slips) == ("slip", (slip.key,)), step.id
                    shown += 1
    assert shown


@pytest.mark.parametrize(("scenario", "working"), SHEETS[:8])
def test_correct_working_is_never_refused(scenario, working):
    for seed in range(10):
        path = working.all_values(Rounding(random.Random(seed).randrange))
        entries = {}
        for step in working.steps:
            digits = {"angle": ".2f", "tangent": ".4f"}.get(step.rule, ".3e")
            entries[step.id] = path[step.id] if step.choices else f"{path[step.id]:{digits}}"
        assert {v.state for v in judge_all(working, SLIPS, entries).values()} == {"right"}


def test_right_from_a_wrong_start():
    _, working = SHEETS[0]
    entries = {"bracket-1": f"{working.value('bracket-1') * 1.4:.3e}"}
    entries["moment-1"] = f"{working.value('moment-1', own={'bracket-1': float(entries['bracket-1'])}):.3e}"
    verdicts = judge_all(working, SLIPS, entries)
    assert verdicts["bracket-1"].state == "wrong" and verdicts["moment-1"].state == "follows"


def test_a_wrong_turn_is_told_why():
    scenario, working = SHEETS[0]
    _, north = tan_b.laid(scenario)
    verdict = judge(working, SLIPS, {"turns": north}, "turns")
    assert verdict.state == "wrong" and "against the magnet" in verdict.text


def test_all_four_ways_to_lay_it_occur():
    assert len({tan_b.laid(scenario) for scenario, _ in SHEETS}) == 4


@pytest.mark.parametrize("theta", (30, 45, 60))
def test_the_needle_term_is_what_the_root_finding_shows(theta):
    """A near dipole, half the needle a fortieth of the distance: the second order holds to a tenth of itself."""
    d, needle, B_H = 0.2, 0.005, 30e-6
    m = B_H * math.tan(math.radians(theta)) * d**3 / 1e-7
    phi = abs(equilibrium(poles(Magnet(m, 0.0005), d, "east", "east", PERFECT, tan_b=True), B_H, needle))
    off = abs(1 - math.tan(math.radians(phi)) / math.tan(math.radians(theta)))
    assert off == pytest.approx(needle_term(theta, d, needle, tan_b=True), rel=0.1)
    assert deflection(1e-7 * m / d**3, B_H) == pytest.approx(theta)

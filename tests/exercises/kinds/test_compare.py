"""Comparing two magnets: every step worked again, the balance, the limits, and what is said of slips."""

import math
import random

import pytest

from exercises.bench.balance import FOUR, balance_distance, null_distance, torque
from exercises.bench.field import end_on
from exercises.bench.instrument import Faults, Magnet, equilibrium, poles
from exercises.bench.uncertainty import needle_effect, of_two_poles
from exercises.codes.scenario import ARM_LENGTH
from exercises.codes.sheet_code import Setting, SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.judging.verdict import judge, judge_all
from exercises.kinds.compare import kind as compare
from exercises.kinds.compare.draw import uncertainties
from exercises.kinds.compare.result import ratios
from exercises.kinds.deflection.stretch import BOX, CLEARANCE
from exercises.kinds.kind import all_kinds
from tests.exercises.settings import BY_RULE, FIXED, half_length
from tests.exercises.slip_values import slip_values
from tests.rounding import Rounding

SEEDS = [(i * 104729 + 7) % 1000003 for i in range(20)]


def sheet(seed: int, setting: Setting = Setting()):
    scenario = compare.KIND.draw(SheetCode("C", 1, seed, setting))
    return scenario, compare.working(scenario)


SHEETS = [sheet(seed, BY_RULE[i % 3]) for i, seed in enumerate(SEEDS)]
SLIPS = all_kinds()["compare"].slips_of(1)


@pytest.mark.parametrize(("scenario", "working"), SHEETS)
def test_every_step_worked_again(scenario, working):
    l1, l2 = (half_length(scenario.code.setting, bar) for bar in scenario.bars)
    t1, t2 = (math.tan(math.radians(sum(r) / 8)) for r in scenario.readings)
    b1, b2 = (scenario.d**2 - l1**2) ** 2, (scenario.d**2 - l2**2) ** 2
    for step, value in (("tan-1", t1), ("tan-2", t2), ("bracket-1", b1), ("bracket-2", b2)):
        assert working.value(step) == pytest.approx(value)
    assert working.value("ratio-angles") == pytest.approx(b1 * t1 / (b2 * t2))
    ratios = []
    for j, balance in enumerate(scenario.balances, 1):
        d2 = sum(balance.found) / 4
        # at balance the end-on field of a magnet of ratio 1 must be that of magnet 2 of moment 1
        ratio = end_on(1, d2, l2) / end_on(1, balance.d1, l1)
        ratios.append(ratio)
        assert working.value(f"null-{j}") == pytest.approx(d2)
        assert working.value(f"ratio-{j}") == pytest.approx(ratio)
    assert working.value("mean-ratio") == pytest.approx(sum(ratios) / len(ratios))


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize(
    "setting",
    [Setting(), FIXED, Setting("five-sixths", 65.0, 127, 1, None, 1.0), Setting(length_mm=66, grid_mm=10)],
    ids=str,
)
def test_consistent_whatever_the_laboratory_fixes(seed, setting):
    scenario, working = sheet(seed, setting)
    one, two = scenario.bars
    assert setting.length_mm is None or round(one.length * 1e3) == setting.length_mm
    assert one.name != two.name and max(one.length, two.length) / min(one.length, two.length) > 1.5
    assert scenario.scale_step == (setting.scale_step or scenario.scale_step)
    assert all(30 <= r <= 60 and r % scenario.scale_step == 0 for eight in scenario.readings for r in eight)
    assert len(scenario.balances) in (2, 3)
    places = [(one, scenario.d), (two, scenario.d)]
    for balance in scenario.balances:
        places += [(one, balance.d1), *((two, d) for d in balance.found)]
        assert all(round(d * 1000) / 1000 == d for d in (balance.d1, *balance.found))
    for bar, d in places:
        assert d - bar.length / 2 >= BOX.radius + CLEARANCE - 1e-12 and d + bar.length / 2 <= ARM_LENGTH
    for bar in scenario.bars:
        assert bar.material.lowest <= bar.magnetisation <= bar.material.highest
    for step, u in zip(("ratio-angles", "mean-ratio"), uncertainties(scenario), strict=True):
        assert abs(working.value(step) / scenario.true_ratio - 1) <= 2 * u
    assert not scenario.diagnosable or tells_apart(working, SLIPS, ["ratio-angles", "mean-ratio"])


def test_what_the_needle_does_to_the_ratios_is_taken_off():
    """JCGM 100:2008, 3.2.4.  Over many sheets what is left is no bias, and less than half of what there was."""
    before, after, turned = [], [], []
    for scenario, working in SHEETS:
        worked = working.value("ratio-angles"), working.value("mean-ratio")
        stated = ratios(scenario, *worked)
        for ratio, found in zip(worked, (stated.by_angles, stated.by_balance), strict=True):
            assert abs(found.value - scenario.true_ratio) <= found.U and found.k == 2
            assert found.value != ratio
        before.append((worked[0] / scenario.true_ratio - 1) ** 2)
        after.append((stated.by_angles.value / scenario.true_ratio - 1) ** 2)
        turned.append(stated.needle)
    assert sum(after) < sum(before) / 4
    assert max(abs(one) for one, _ in turned) > 0.01


@pytest.mark.parametrize("needle", [0.003, 0.006])
def test_the_needle_moves_a_balance_by_what_is_taken_off(needle):
    """By root finding on the torque: two magnets of unlike length, all faults nothing."""
    one, two = Magnet(0.8, 0.045), Magnet(0.5, 0.022)
    found = null_distance((one, two), 0.15, 30e-6, needle)
    ratio = end_on(1, found, two.l) / end_on(1, 0.15, one.l)
    turned = [needle_effect(0.0, d, needle) * of_two_poles(d, l) for d, l in ((0.15, one.l), (found, two.l))]
    assert ratio / (one.m / two.m) - 1 == pytest.approx(turned[0] - turned[1], rel=0.03)


def test_with_all_faults_zero_the_textbook_balance_is_found():
    one, two = Magnet(0.8, 0.045), Magnet(0.5, 0.022)
    for arm, way in FOUR:
        found = null_distance((one, two), 0.15, 30e-6, 0.0, arm, way)
        assert found == pytest.approx(balance_distance((one, two), 0.15), abs=1e-7)
        assert end_on(two.m, found, two.l) == pytest.approx(end_on(one.m, 0.15, one.l), rel=1e-5)


def test_four_settings_take_out_what_they_are_said_to():
    """The box 2 mm off and each centre 1 mm: single settings are millimetres off, the mean a fraction of one."""
    one, two = Magnet(0.8, 0.045), Magnet(0.5, 0.022)
    faults = Faults(box_shift=2e-3, centre_shift=1e-3), Faults(box_shift=2e-3, centre_shift=-1e-3)
    true = balance_distance((one, two), 0.16)
    found = [null_distance((one, two), 0.16, 30e-6, 0.0, arm, way, faults) for arm, way in FOUR]
    assert max(abs(d - true) for d in found) > 3e-3
    assert abs(sum(found) / 4 - true) < 0.2e-3


def test_the_torque_is_nothing_where_one_magnet_turns_the_needle_to():
    pair = poles(Magnet(1.0, 0.04), 0.2, "east", "east", Faults())
    phi = equilibrium(pair, 30e-6, 0.006)
    assert torque(pair, 30e-6, 0.006, phi) == pytest.approx(0, abs=1e-15)
    assert torque(pair, 30e-6, 0.006, phi - 1) > 0 > torque(pair, 30e-6, 0.006, phi + 1)


def test_no_balance_near_the_box_is_told():
    with pytest.raises(ArithmeticError, match="too near the box"):
        null_distance((Magnet(5.0, 0.01), Magnet(0.02, 0.05)), 0.09, 30e-6, 0.006)


def test_the_slips_of_this_sheet():
    assert {s.key for s in SLIPS} >= {
        "upside-down",
        "distances-upside-down",
        "distances-left-out",
        "length-for-half-length",
        "half-length-left-out",
        "distance-to-near-end",
        "degrees-as-radians",
        "sine-for-tangent",
        "complement-of-angle",
        "bracket-not-squared",
        "plus-for-minus",
    }


@pytest.mark.parametrize("slip", [s for s in SLIPS if not s.hides], ids=lambda s: s.key)
def test_each_slip_is_named_alone_wherever_it_shows(slip):
    shown = 0
    for _, working in SHEETS[:8]:
        for step in working.steps:
            for _, values in slip_values(working, step, (slip,), {}):
                for value in values:
                    verdict = judge(working, SLIPS, {step.id: f"{value / _unit(step):.2e}"}, step.id)
                    assert (verdict.state, verdict.slips) == ("slip", (slip.key,)), step.id
                    shown += 1
    assert shown


def _unit(step) -> float:
    return 1e-2 if step.quantity == "distance" else 1.0


@pytest.mark.parametrize(("scenario", "working"), SHEETS[:8])
def test_correct_working_is_never_refused(scenario, working):
    for seed in range(10):
        path = working.all_values(Rounding(random.Random(seed).randrange))
        entries = {}
        for step in working.steps:
            digits = {"angle": ".2f", "tangent": ".4f"}.get(step.rule, ".3e")
            entries[step.id] = f"{path[step.id] / _unit(step):{digits}}"
        assert {v.state for v in judge_all(working, SLIPS, entries).values()} == {"right"}


def test_right_from_a_wrong_start():
    _, working = SHEETS[0]
    wrong = working.value("far-1") * 1.3
    entries = {"far-1": f"{wrong:.3e}", "ratio-1": f"{working.value('ratio-1', own={'far-1': wrong}):.3e}"}
    verdicts = judge_all(working, SLIPS, entries)
    assert verdicts["far-1"].state == "wrong" and verdicts["ratio-1"].state == "follows"


@pytest.mark.parametrize("length", [40, 84])
def test_where_even_the_weakest_bar_is_strong_the_distance_is_longer(length):
    """Uniform bars in a weak field: none is weak enough for a distance as short as its length alone would allow."""
    for seed in range(5):
        scenario = all_kinds()["compare"].draw(SheetCode("C", 1, seed, Setting("given", 10.0, length)))
        assert max(scenario.halves) / scenario.d < 0.31

"""The sheet on uncertainty: every step worked again by plain means, each slip named, right answers never refused."""

import math
import random
import statistics

import pytest

from exercises.bench import uncertainty
from exercises.bench.instrument import ALONE, PATTERNS, Faults, Magnet, eight_readings
from exercises.bench.student_t import t95
from exercises.codes.editions import places_of
from exercises.codes.sheet_code import SCALE_STEPS, TWO_L, Setting, SheetCode
from exercises.judging.verdict import judge, judge_all
from exercises.kinds.kind import all_kinds
from exercises.kinds.uncertainty import slips as own_slips
from exercises.kinds.uncertainty.budget import PARTS, decimals_to_quote, figures_to_quote, quoted, scatter
from exercises.kinds.uncertainty.draw import CLEAR, OTHERS, WORLDS
from exercises.kinds.uncertainty.kind import KIND
from exercises.working.arithmetic import Exact
from tests.exercises.slip_values import slip_values
from tests.rounding import Rounding

PLACES = places_of(1)
SEEDS = [n * 104729 + 11 for n in range(40)]
SHARES = {name: f"share-{name}" for name in ("angle", "distance", "length", "needle")}


def sheet(seed, setting=Setting()):
    scenario = KIND.draw(SheetCode("X", 1, seed, setting))
    return scenario, KIND.working(scenario)


SHEETS = [sheet(seed) for seed in SEEDS]
CATALOGUE = all_kinds()["uncertainty"].slips_of(1)


def typed(value, step, figures=3):
    if step.choices:
        return value
    if step.rule == "count":
        return f"{value:.0f}"
    return f"{value / {'percent': 1e-2, 'distance': 1e-2}.get(step.quantity, 1):.{figures - 1}e}"


def about_the_pattern(readings):
    """The scatter of one reading about the mean and the patterns of the four pairs, by what is left of them."""
    theta = statistics.fmean(readings)
    left = [r - theta for r in readings]
    for pattern in PATTERNS.values():
        size = statistics.fmean(sign * r for sign, r in zip(pattern, readings))
        left = [x - size * sign for sign, x in zip(pattern, left)]
    return math.sqrt(sum(x * x for x in left) / (8 - 1 - len(PATTERNS)))


@pytest.mark.parametrize(("scenario", "working"), SHEETS)
def test_every_step_worked_again(scenario, working):
    got = working.all_values()
    d, l, readings = scenario.row.d, scenario.two_l / 2, scenario.row.readings
    theta, s, n = statistics.fmean(readings), about_the_pattern(readings), scenario.needle / 2
    u_mean, friction = s / math.sqrt(8), scenario.width_theta / math.sqrt(3)
    u_theta, u_d, u_l = (
        math.hypot(u_mean, friction),
        scenario.width_d / math.sqrt(3),
        scenario.width_two_l / math.sqrt(3) / 2,
    )
    effect = uncertainty.needle_effect(theta, d, n)
    shares = (
        uncertainty.angle_term(theta, u_theta),
        uncertainty.distance_term(d, l, u_d),
        uncertainty.length_term(d, l, u_l),
        2 * effect * scenario.width_needle / math.sqrt(3) / scenario.needle,
    )
    m = scenario.B_H * math.tan(math.radians(theta)) * (d * d - l * l) ** 2 / (2 * d) / 1e-7
    corrected, nu = m / (1 + effect), 3 * (math.hypot(*shares) / uncertainty.angle_term(theta, u_mean)) ** 4
    U = t95(nu) * math.hypot(*shares) * corrected
    expected = {
        "mean-1": theta,
        "scatter": s,
        "u-mean": u_mean,
        "u-theta": u_theta,
        "u-d": u_d,
        "u-l": u_l,
        "sensitivity": 4 * d * d / (d * d - l * l) - 1,
        "needle-effect": effect,
        **dict(zip(SHARES.values(), shares)),
        "combined": math.hypot(*shares),
        "moment": m,
        "corrected": corrected,
        "freedom": nu,
        "coverage": t95(nu),
        "expanded": U,
        "ratio": uncertainty.angle_term(scenario.other_angle, 1) / uncertainty.angle_term(45, 1),
    }
    assert {k: got[k] for k in expected} == pytest.approx(expected, rel=1e-9)
    assert got["largest"] == max(zip(shares, SHARES))[1]
    value, after = quoted(U, corrected).split(" ± ")
    assert got["count"] == len(value.replace(".", "").lstrip("0"))
    assert float(after) == pytest.approx(U, rel=0.26)
    assert abs(float(value) - corrected) <= 0.501 * 10.0 ** -decimals_to_quote(U, corrected)


@pytest.mark.parametrize(("fault", "size"), [("zero", 3.0), ("first-turn", 3.0), ("box", 2e-3), ("pivot", 1e-3)])
def test_a_fault_that_the_mean_is_free_of_adds_nothing_to_the_scatter(fault, size):
    """The eight differ by design: a fault sets four against four, and the standard deviation of all is no measure."""
    readings = eight_readings(Magnet(1.2, 0.04), 36e-6, 0.2, faults=ALONE[fault](size))
    assert statistics.stdev(readings) > 0.5
    assert scatter(Exact, readings, PARTS.freedom) < 0.02 * statistics.stdev(readings)


def test_the_scatter_is_that_of_the_readings():
    """Of 4000 sets of eight with σ = 0.2° and faults of any size: the mean of s² is σ², 3 degrees of freedom."""
    chance = random.Random(4)
    faults = Faults(pivot_x=4e-4, arm_off=1.2, box_turned=0.5, box_shift=8e-4, centre_shift=-7e-4, magnet_turned=1.5)
    true = eight_readings(Magnet(1.2, 0.04), 36e-6, 0.2, faults=faults)
    squares = [scatter(Exact, tuple(r + chance.gauss(0, 0.2) for r in true), PARTS.freedom) ** 2 for _ in range(4000)]
    assert statistics.fmean(squares) == pytest.approx(0.04, rel=0.06)
    # the variance of s² is 2σ⁴/ν
    assert 2 * 0.04**2 / statistics.variance(squares) == pytest.approx(3, rel=0.15)


@pytest.mark.parametrize(("scenario", "working"), SHEETS)
def test_the_numbers_are_consistent(scenario, working):
    values = working.all_values()
    assert all(30 <= r <= 60 for r in scenario.row.readings)
    assert abs(values["corrected"] - scenario.bar.moment) < values["expanded"]
    assert abs(2 * scenario.box.needle - scenario.needle) <= scenario.width_needle
    assert values["scatter"] >= scenario.scale_step / math.sqrt(12)
    assert values["freedom"] >= 3 and 1.95 < values["coverage"] < 3.19
    assert abs(scenario.two_l - scenario.bar.magnetic_length) <= scenario.width_two_l + 0.5e-3
    shares = sorted(values[s] for s in SHARES.values())
    assert shares[-1] >= CLEAR * shares[-2]
    assert scenario.other_angle in OTHERS and values["ratio"] > 1.3


def test_each_share_leads_on_some_sheet():
    assert {w.value("largest") for _, w in SHEETS} == set(WORLDS)


def test_the_settings_of_a_laboratory_are_kept():
    for i in range(60):
        setting = Setting(TWO_L[i % 3], 10.0 + i % 55, (54, 75, 100, 127)[i % 4], scale_step=SCALE_STEPS[i % 3])
        scenario, _ = sheet(i, setting)
        assert scenario.bar.length == pytest.approx(setting.length_mm / 1000)
        assert setting.scale_step in (None, scenario.scale_step)
        assert scenario == sheet(i, setting)[0]


@pytest.mark.parametrize(("scenario", "working"), SHEETS[:20])
@pytest.mark.parametrize("slip", own_slips.SLIPS, ids=lambda s: s.key)
def test_each_slip_is_named_wherever_it_shows(scenario, working, slip):
    shown = 0
    for step in working.steps:
        if step.choices:
            continue
        for _, values in slip_values(working, step, (slip,), {}):
            if not values[0]:
                continue
            verdict = judge(working, CATALOGUE, {step.id: typed(values[0], step)}, step.id)
            if slip.hides:  # it may be too near to what is right, or to another
                assert verdict.state in ("right", "slip"), step.id
                shown += slip.key in verdict.slips
                continue
            assert (verdict.state, verdict.slips) == ("slip", (slip.key,)), step.id
            assert verdict.text == slip.says or (slip.key, verdict.like) == ("half-width-as-full", ("needle-once",))
            shown += 1
    # of a moment below 1 A·m² the decimals may be as many as the figures
    assert shown or slip.hides or slip.key == "decimals-for-figures"


@pytest.mark.parametrize("slip", [s for s in own_slips.SLIPS if s.hides], ids=lambda s: s.key)
def test_a_slip_that_hides_is_named_on_some_sheets(slip):
    said = 0
    for _, working in SHEETS:
        for step in working.steps:
            if step.choices or not working.plan.takes(step, slip.part, working):
                continue
            for _, values in slip_values(working, step, (slip,), {}):
                verdict = judge(working, CATALOGUE, {step.id: typed(values[0], step)}, step.id)
                said += slip.key in (*verdict.slips, *verdict.like)
    assert said >= 10


@pytest.mark.parametrize(("scenario", "working"), SHEETS)
def test_correct_working_is_never_refused(scenario, working):
    for seed in range(15):
        path = working.all_values(Rounding(random.Random(seed).randrange))
        # with the figures kept, since a number rounded twice may go the other way
        entries = {s.id: typed(path[s.id], s, 6) for s in working.steps}
        verdicts = judge_all(working, CATALOGUE, entries)
        assert {k: v.text for k, v in verdicts.items() if v.state != "right"} == {}


def test_right_from_a_wrong_start():
    _, working = SHEETS[0]
    right = working.all_values()
    entries = {"scatter": "5.00", "u-mean": "1.77"}
    states = {k: v.state for k, v in judge_all(working, CATALOGUE, entries).items() if v.state != "blank"}
    assert states == {"scatter": "wrong", "u-mean": "follows"}
    shares = {s: right[s] for s in SHARES.values()} | {"share-angle": 0.09}
    entries = {s: f"{100 * x:.2e}" for s, x in shares.items()} | {
        "combined": f"{100 * math.hypot(*shares.values()):.2e}",
        "largest": "angle",
    }
    verdicts = judge_all(working, CATALOGUE, entries)
    assert verdicts["combined"].state == "follows"
    assert verdicts["largest"].state == ("right" if right["largest"] == "angle" else "follows")


@pytest.mark.parametrize("wrong", WORLDS)
def test_a_wrong_choice_says_why(wrong):
    _, working = next(s for s in SHEETS if s[1].value("largest") != wrong)
    verdict = judge(working, CATALOGUE, {"largest": wrong}, "largest")
    assert verdict.state == "wrong" and "not" in verdict.text and verdict.read


@pytest.mark.parametrize("text", ["0", "0.00", "-1.23", "90.0", "1e30", "1e-30"])
def test_no_entry_stops_the_judging(text):
    _, working = SHEETS[1]
    for step in working.steps:
        for others in ("0", "90.0", "1e30"):
            entries = {s.id: others for s in working.steps if not s.choices} | {step.id: text}
            assert len(judge_all(working, CATALOGUE, entries)) == len(working.steps)


@pytest.mark.parametrize(
    ("U", "m", "says", "count"),
    [
        (0.0112, 0.8234, "0.823 ± 0.011", 3),
        (0.034, 1.6237, "1.62 ± 0.03", 3),
        (0.012, 1.6237, "1.624 ± 0.012", 4),
        (0.24, 8.13, "8.1 ± 0.2", 2),
        (0.196, 8.13, "8.1 ± 0.2", 2),
        (0.194, 8.13, "8.13 ± 0.19", 3),
        (1.4, 24.13, "24.1 ± 1.4", 3),
        (3.0, 24.1, "24 ± 3", 2),
    ],
)
def test_figures_to_quote(U, m, says, count):
    assert quoted(U, m) == says
    assert figures_to_quote(U, m) == count


def test_the_sine_of_nothing_stops_nothing():
    """An entry of 0° must not stop what is worked from it, nor count for anything."""
    from exercises.kinds.uncertainty.budget import cos, sin

    assert 0 < sin(0.0) < 1e-9 and sin(30.0) == pytest.approx(0.5) and cos(60.0) == pytest.approx(0.5)

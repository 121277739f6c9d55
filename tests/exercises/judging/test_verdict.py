"""Typed answers get the verdict a patient teacher would give."""

import math
import random
from collections import Counter
from decimal import ROUND_DOWN, Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.judging.answer import Typed
from exercises.judging.entries import accepts, read_entries
from exercises.judging.evidence import Evidence, gather
from exercises.judging.verdict import NUMBERS, judge, judge_all, remarks_on
from exercises.kinds.kind import all_kinds, open_code
from exercises.working.arithmetic import Interval
from exercises.working.cutting import CUTS
from exercises.working.evaluate import all_spans
from exercises.working.rounded import last_place
from tests.benchmarks.judging import cut
from tests.exercises.golden import codes_of
from tests.exercises.slip_values import slip_values
from tests.rounding import Rounding

TAN_A = codes_of("A")
#: Of bars whose poles lie well inside their ends: there every slip about 2l is told.
INSIDE = [code for code in TAN_A if not open_code(code).scenario.poles_at_ends]
SHEET = open_code(INSIDE[0])
KIND, SCENARIO, WORKING = SHEET.kind, SHEET.scenario, SHEET.working
CATALOGUE = SHEET.slips
RIGHT = WORKING.all_values()


def say(entries, step):
    return judge(WORKING, CATALOGUE, entries, step)


def test_the_catalogue_has_the_slips_of_this_sheet():
    keys = {s.key for s in CATALOGUE}
    assert keys >= {
        "length-for-half-length",
        "half-length-left-out",
        "distance-to-near-end",
        "degrees-as-radians",
        "sine-for-tangent",
        "complement-of-angle",
        "bracket-not-squared",
        "plus-for-minus",
        "broadside-formula",
        "two-left-out",
        "mu0-for-mu0-over-4pi",
        "centimetres",
        "half-length-for-length",
        "measured-length",
    }
    for slug, kind in all_kinds().items():
        mine = [s.key for s in kind.slips]
        assert len(set(mine)) == len(mine), slug
        assert all(s.says.endswith(".") and "#" in s.read and s.name for s in kind.slips), slug


@pytest.mark.parametrize("slip", [s for s in CATALOGUE if not s.hides], ids=lambda s: s.key)
@pytest.mark.parametrize("code", INSIDE[:20])
def test_each_slip_is_named_alone_wherever_it_shows(code, slip):
    sheet = open_code(code)
    working, told = sheet.working, [s for s in sheet.slips if s.key == slip.key and not s.hides]
    shown = 0
    for step in working.steps:
        for _, values in slip_values(working, step, told, {}):
            for value in values:
                verdict = judge(working, sheet.slips, {step.id: f"{value:.2e}"}, step.id)
                assert (verdict.state, verdict.slips[0], verdict.read) == ("slip", slip.key, slip.read), step.id
                assert verdict.slips == (slip.key,)
                if verdict.like:  # d⁴ − l⁴ and d⁴, where three figures tell them apart no longer
                    assert verdict.like == ("fourth-powers",) and slip.said_at(step) in verdict.text
                else:
                    assert verdict.text == slip.said_at(step)
                shown += 1
    assert shown or slip.inside and sheet.scenario.poles_at_ends


@pytest.mark.parametrize("code", TAN_A[:20])
def test_correct_working_is_never_refused(code):
    working = open_code(code).working
    for seed in range(20):
        chance = random.Random(seed)
        path = working.all_values(Rounding(chance.randrange))
        entries = {}
        for step in working.steps:
            digits = {"angle": f"{path[step.id]:.1f}", "tangent": f"{path[step.id]:.4f}"}
            entries[step.id] = digits.get(step.rule, f"{path[step.id]:.2e}")
        assert {v.state for v in judge_all(working, CATALOGUE, entries).values()} == {"right"}


def test_a_slip_that_hides_is_named_where_it_can_be_told():
    named = Counter()
    for code in TAN_A[:16]:
        working = open_code(code).working
        for slip in CATALOGUE:
            for step in working.steps if slip.hides else ():
                for _, values in slip_values(working, step, (slip,), {}):
                    named[slip.key] += (
                        slip.key in judge(working, CATALOGUE, {step.id: f"{values[0]:.4e}"}, step.id).slips
                    )
    assert set(named) == {s.key for s in CATALOGUE if s.hides} and min(named.values()) > 0


def test_a_step_whose_start_is_right_must_follow_from_it():
    """Swapped figures that some early rounding could reach are wrong where the earlier steps stand there, right."""
    entries = {k: f"{RIGHT[k]:.4e}" for k in ("mean-1", "tan-1", "bracket-1")}
    for factor, state in ((1.002, "right"), (0.998, "right"), (1.035, "wrong"), (0.965, "wrong")):
        typed = f"{RIGHT['moment-1'] * factor:.3e}"
        assert say({**entries, "moment-1": typed}, "moment-1").state == state, factor
    first = {f"moment-{i}": f"{RIGHT[f'moment-{i}']:.3e}" for i in range(1, len(SCENARIO.rows) + 1)}
    assert say({**first, "mean-moment": f"{RIGHT['mean-moment'] * 1.012:.3e}"}, "mean-moment").state == "wrong"


def test_coarse_entries_bind_nobody():
    entries = {"tan-1": f"{RIGHT['tan-1']:.2f}", "bracket-1": f"{RIGHT['bracket-1']:.4e}"}
    assert say({**entries, "moment-1": f"{RIGHT['moment-1']:.2e}"}, "moment-1").state == "right"


def test_a_minus_alone_is_said_to_be_that():
    assert "drop the minus" in say({"moment-1": f"-{RIGHT['moment-1']:.3g}"}, "moment-1").text


def test_right_from_a_wrong_start_and_the_mistake_is_marked_once():
    entries = {"tan-1": "0.5000", "moment-1": f"{WORKING.value('moment-1', own={'tan-1': 0.5}):.2e}"}
    verdicts = judge_all(WORKING, CATALOGUE, entries)
    assert verdicts["tan-1"].state == "wrong"
    assert verdicts["moment-1"].state == "follows"


def test_a_mean_of_wrong_moments_follows():
    moments = {k: v * 2 for k, v in RIGHT.items() if k.startswith("moment-")}
    entries = {k: f"{v:.3e}" for k, v in moments.items()}
    entries["mean-moment"] = f"{sum(moments.values()) / len(moments):.3e}"
    verdicts = judge_all(WORKING, CATALOGUE, entries)
    assert verdicts["moment-1"].slips == ("two-left-out",)
    assert verdicts["mean-moment"].state == "follows"


def test_figures_are_a_remark_and_never_a_mark_against():
    few = say({"mean-moment": f"{RIGHT['mean-moment']:.1e}"}, "mean-moment")
    assert few.state == "right" and "Few figures" in few.remarks[0]
    many = say({"mean-moment": f"{RIGHT['mean-moment']:.8f}"}, "mean-moment")
    assert many.state == "right" and "Many figures" in many.remarks[0]
    assert say({"mean-1": f"{RIGHT['mean-1']:.0f}"}, "mean-1").state == "right"
    assert say({"mean-moment": f"{RIGHT['mean-moment']:.2e}"}, "mean-moment").remarks == ()


def test_one_figure_is_asked_for_more():
    assert say({"pole": "9"}, "pole").state == "ask"


def test_an_unexplained_number_is_described_without_the_answer():
    verdict = say({"moment-1": f"{RIGHT['moment-1'] * 100:.3e}"}, "moment-1")
    assert verdict.state == "wrong" and "10² times too large" in verdict.text
    verdict = say({"mean-1": f"{RIGHT['mean-1'] * 1.05:.1f}"}, "mean-1")
    assert verdict.state == "wrong" and "a little too large" in verdict.text and verdict.read
    assert f"{RIGHT['mean-1']:.1f}" not in verdict.text


def test_negative_zero_and_blank():
    assert say({}, "pole").state == "blank"
    assert say({"pole": "  "}, "pole").state == "blank"
    assert say({"pole": "0"}, "pole").state == "wrong"
    assert "drop the minus" in say({"pole": f"-{RIGHT['pole']:.3g}"}, "pole").text
    assert "radians" in say({"pole": f"-{RIGHT['pole'] * 1.7:.3g}"}, "pole").text


def test_the_unit_typed_is_used():
    assert say({"mean-moment": f"{RIGHT['mean-moment'] * 1e3:.0f} mA m²"}, "mean-moment").state == "right"
    assert say({"mean-moment": f"{RIGHT['mean-moment']:.3g} mA m²"}, "mean-moment").state == "wrong"
    assert say({"bracket-1": f"{RIGHT['bracket-1'] * 1e8:.3e} cm⁴"}, "bracket-1").state == "right"


@settings(deadline=None, max_examples=300)
@given(st.text(max_size=40), st.sampled_from([s.id for s in WORKING.steps]))
def test_any_text_gets_a_verdict(text, step):
    verdict = say({step: text}, step)
    assert verdict.state in ("blank", "right", "follows", "slip", "wrong", "ask", "unread")
    assert verdict.state == "blank" or verdict.text.endswith((".", "?"))


def test_no_number_follows_from_a_start_that_leads_nowhere():
    for typed in ("7.3", "0.899", "1.8e6"):
        assert say({"tan-1": "-1.126", "moment-1": typed}, "moment-1").state != "follows"


def test_one_figure_that_is_exact_or_a_slip_is_judged():
    values = {"pole": f"{RIGHT['pole']:.3g}"}
    assert say({**values, "mean-moment": "9e9"}, "mean-moment").state == "ask"


def test_one_figure_is_asked_about_and_never_called_a_slip():
    sheet = open_code("A3Y-MAK-X9M")
    working, slips = sheet.working, sheet.slips
    for mean in ("45", "44.9"):
        verdicts = judge_all(working, slips, {"mean-1": mean, "tan-1": "1"})
        assert verdicts["tan-1"].state == "ask" and not verdicts["tan-1"].slips
    assert judge_all(working, slips, {"mean-1": "45", "tan-1": "1.0000"})["tan-1"].state == "follows"


# -- what an unexplained number looks like ---------------------------------------


def evidence_on(typed: Typed, step: str, texts: dict[str, str] | None = None) -> Evidence:
    """The evidence on a number, where these texts stand in the other steps."""
    entries = read_entries(WORKING, texts or {})
    return gather(WORKING, CATALOGUE, {**entries, step: typed})[step]


def looks_like(ratio: float, step: str = "moment-1", **entries) -> str:
    """What is said of a number that is so many times too large, where nothing explains it."""
    texts = {k.replace("_", "-"): v for k, v in entries.items()}
    expected = evidence_on(Typed(1.0, 4, 0.001, True), step, texts).expected
    value = ratio * expected
    evidence = evidence_on(Typed(value, 4, abs(value) / 1000, True), step, texts)
    first = next(at for at, case in enumerate(NUMBERS) if case.name == "no start")
    return next(case.verdict(evidence).text for case in NUMBERS[first:] if case.holds(evidence))


@pytest.mark.parametrize(
    ("ratio", "much"),
    [
        (10.05, "much too large"),
        (9.7, "more than twice as large as it should be"),
        (2.01, "more than twice as large as it should be"),
        (1.99, "too large"),
        (1.11, "too large"),
        (1.09, "a little too large"),
        (0.92, "a little too small"),
        (0.89, "too small"),
        (0.51, "too small"),
        (0.49, "less than half of what it should be"),
        (0.103, "less than half of what it should be"),
        (0.098, "much too small"),
    ],
)
def test_how_far_a_number_is_off(ratio, much):
    if abs(ratio - 10.05) < 0.01:
        ratio = 10.2  # within a hundredth it is a power of ten
    assert looks_like(ratio).startswith(f"This is {much}, and no slip known here explains it.")


@pytest.mark.parametrize(
    ("ratio", "said"),
    [
        (10, "ten times too large"),
        (0.1, "ten times too small"),
        (1000, "10³ times too large"),
        (1e-12, "10¹² times too small"),
        (10.09, "ten times"),
        (9.91, "ten times"),
        (10.11, None),
        (9.89, None),
        (1.0, None),
    ],
)
def test_a_power_of_ten_is_known(ratio, said):
    text = looks_like(ratio)
    assert (said in text and "Look at the powers of ten" in text) if said else "The figures are right" not in text


def test_advice_on_a_number_that_nothing_explains():
    assert "Fill in the steps before it, and each will be checked." in looks_like(1.3)
    assert "Fill in the earlier steps, so that it can be judged from them." in looks_like(1.3, "pole")
    full = {k.replace("-", "_"): f"{RIGHT[k]:.5g}" for k in ("tan-1", "bracket-1", "mean-1")}
    near = looks_like(1.014, **full)
    assert (
        near.startswith("From what you entered above, this is a little too large") and "how early you rounded" in near
    )
    assert looks_like(1.016, **full).endswith("Work it once more.") and looks_like(0.984, **full).endswith(
        "Work it once more."
    )
    assert "how early you rounded" in looks_like(0.987, **full)
    assert "calculator set to radians" in looks_like(-1.3) and "does not come to nothing" in looks_like(0.0)


def test_figures_are_remarked_on_but_no_mark_against():
    def remarks(step, figures, last):
        return remarks_on(evidence_on(Typed(1.0, figures, last, True), step))

    assert remarks("pole", 5, 1e-4) == () and "Many figures" in remarks("pole", 6, 1e-5)[0]
    assert "Many figures" in remarks("mean-moment", 6, 1e-5)[0]
    assert remarks("mean-1", 2, 0.1) == () and "angles to 0.1°" in remarks("mean-1", 2, 1.0)[0]
    assert remarks("tan-1", 4, 1e-4) == () and "tangents to four places" in remarks("tan-1", 3, 1e-3)[0]
    assert remarks("pole", 3, 0.01) == () and "three figures" in remarks("pole", 2, 0.1)[0]


@pytest.mark.parametrize("step", ["mean-1", "tan-1", "bracket-1", "moment-1"])
def test_on_the_way_the_calculator_may_keep_all_figures(step):
    """As before/result teaches: carry one figure more than you will give, or let the calculator keep them all."""
    verdict = say({step: f"{RIGHT[step]:.11g}"}, step)
    assert verdict.state == "right" and verdict.remarks == ()


def test_a_mean_that_is_exact_has_no_few_figures():
    code, mean = next(
        (code, value)
        for code in TAN_A
        for step, value in open_code(code).working.all_values().items()
        if step == "mean-1" and value == round(value)
    )
    sheet = open_code(code)
    verdict = judge(sheet.working, sheet.slips, {"mean-1": f"{mean:.0f}"}, "mean-1")
    assert verdict.state == "right" and verdict.remarks == ()
    near = next(c for c in TAN_A if 0.2 < open_code(c).working.value("mean-1") % 1 < 0.4)
    sheet = open_code(near)
    rounded = judge(sheet.working, sheet.slips, {"mean-1": f"{sheet.working.value('mean-1'):.0f}"}, "mean-1")
    assert rounded.state == "right" and "angles to 0.1°" in rounded.remarks[0]


@pytest.mark.parametrize(("step", "remark"), [("expanded", None), ("u-d", "two figures"), ("u-l", "two figures")])
@pytest.mark.parametrize("code", codes_of("X")[:20])
def test_an_uncertainty_may_be_stated_with_one_figure(code, step, remark):
    """U = 0.03, as the exercise itself rounds it, and u(d) = 0.03 cm where it is 0.0289."""
    sheet = open_code(code)
    value = sheet.working.value(step) * (1 if step == "expanded" else 100)
    one = f"{value:.0e}"
    verdict = judge(sheet.working, sheet.slips, {step: one}, step)
    if one.startswith("1"):  # two, if the first is a 1
        assert verdict.state == "ask" and verdict.text.endswith("Type two figures.")
    else:
        assert verdict.state == "right", verdict
        assert verdict.remarks == () if remark is None else remark in verdict.remarks[0]
    two = judge(sheet.working, sheet.slips, {step: f"{value:.1e}"}, step)
    assert two.state == "right" and two.remarks == ()
    assert judge(sheet.working, sheet.slips, {step: f"{value * 3:.0e}"}, step).state == "ask"


def test_nothing_is_remarked_on_a_wrong_number_that_one_slip_explains():
    for code in TAN_A[:8]:
        sheet = open_code(code)
        for step in sheet.working.steps:
            for _, values in slip_values(sheet.working, step, sheet.slips, {}):
                for number in (f"{values[0]:.1e}", f"{values[0]:.9e}"):
                    verdict = judge(sheet.working, sheet.slips, {step.id: number}, step.id)
                    said = verdict.state == "right" or verdict.case == "one of several slips"
                    assert said or not verdict.remarks, (code, step.id, number, verdict)


def test_one_figure_is_asked_about_where_it_is_not_right():
    value = RIGHT["pole"]
    assert say({"pole": f"{value * 3:.0e}"}, "pole").state == "ask"
    assert "Type three figures." in say({"pole": f"{value * 3:.0e}"}, "pole").text
    assert (
        "the angle to 0.1°" in say({"mean-1": "8"}, "mean-1").text
        and "four places" in say({"tan-1": "9"}, "tan-1").text
    )
    assert say({"mean-1": "12"}, "mean-1").state != "ask"


def test_a_dropped_minus_and_a_zero():
    minus = say({"pole": f"{-RIGHT['pole']:.4g}"}, "pole")
    assert minus.state == "wrong" and "drop the minus" in minus.text
    assert "comes to zero" in say({"pole": "0.00"}, "pole").text


# -- from wrong entries, and cut off ----------------------------------------------


def test_a_number_that_follows_from_a_wrong_entry_is_not_simply_right():
    """Though it lies where right working ends too: a pole strength from a mean moment that is nearly right."""
    found = 0
    for code in TAN_A[:20]:
        working = open_code(code).working
        mean = f"{all_spans(working)['mean-moment'].hi * 1.001:.4e}"
        pole = f"{working.value('pole', own={'mean-moment': float(mean)}):.2e}"
        together = judge_all(working, CATALOGUE, {"mean-moment": mean, "pole": pole})
        assert together["mean-moment"].state != "right" and together["pole"].state == "follows"
        found += judge(working, CATALOGUE, {"pole": pole}, "pole").state == "right"
    assert found


def test_a_right_entry_shields_what_is_worked_from_it():
    entries = {"moment-1": f"{RIGHT['moment-1'] * 1.3:.3e}", "mean-moment": f"{RIGHT['mean-moment']:.3e}"}
    verdicts = judge_all(WORKING, CATALOGUE, {**entries, "pole": f"{RIGHT['pole']:.3e}"})
    assert [verdicts[k].state for k in ("moment-1", "mean-moment", "pole")] == ["wrong", "right", "right"]


@pytest.mark.parametrize("column", ["mean", "tan", "bracket"])
def test_a_right_number_that_does_not_follow_from_a_wrong_entry_says_so(column):
    """Worked from the sheet's numbers beside a wrong entry of one's own: it earns, and is not simply right."""
    own = {f"{column}-1": f"{RIGHT[f'{column}-1'] * 1.1:.4g}"}
    moment = {"moment-1": f"{RIGHT['moment-1']:.3e}"}
    verdict = say({**own, **moment}, "moment-1")
    assert (verdict.state, verdict.case, verdict.is_plain) == ("right", "right, does not follow", False)
    assert "does not follow" in verdict.text and verdict.slips == ()
    alone = say(moment, "moment-1")
    assert (alone.case, alone.text) == ("right", "Right.") and alone.is_plain
    # what is right leads on rightly: the mean of the moments is worked from it, and from blank rows
    later = judge_all(WORKING, CATALOGUE, {**own, **moment, "mean-moment": f"{RIGHT['mean-moment']:.3e}"})
    assert later["mean-moment"].case == "right"


def test_where_a_number_is_right_and_follows_too_it_is_said_to_follow():
    """A bracket a little beside the accepted window, and its moment, which right working reaches as well."""
    found = 0
    for code in TAN_A[:20]:
        working = open_code(code).working
        bracket = f"{all_spans(working)['bracket-1'].hi * 1.002:.4e}"
        moment = f"{working.value('moment-1', own={'bracket-1': float(bracket)}):.3e}"
        verdicts = judge_all(working, CATALOGUE, {"bracket-1": bracket, "moment-1": moment})
        assert verdicts["bracket-1"].state != "right" and verdicts["moment-1"].case == "follows"
        found += judge(working, CATALOGUE, {"moment-1": moment}, "moment-1").case == "right"
    assert found


@pytest.mark.parametrize("slug", all_kinds())
@pytest.mark.parametrize("a", CUTS)
def test_one_way_of_cutting_off_is_right_unless_a_slip_gives_the_number(slug, a):
    for code in codes_of(all_kinds()[slug].letter)[:10]:
        sheet = open_code(code)
        for step in (s for s in sheet.working.steps if not s.choices):
            text = cut(a, sheet.working.value(step.id, a), step)
            assert judge(sheet.working, sheet.slips, {step.id: text}, step.id).state in ("right", "slip"), (
                code,
                step.id,
            )


def _cut(x: float) -> float:
    """Three figures of a number, the others left out, as a person reads them off."""
    read = Decimal(f"{x:.12g}")
    return float(read.quantize(Decimal(1).scaleb(read.adjusted() - 2), ROUND_DOWN))


def _broadside_by_hand(givens) -> float:
    """m of the first distance: one sum of eight, (d² + l²) times its root, and everything cut off."""
    d, l = givens["d"][0], _cut(givens["two_l"] / 2)
    tangent = _cut(math.tan(math.radians(_cut(sum(givens["readings"][0]) / 8))))
    square = _cut(_cut(d * d) + _cut(l * l))
    bracket = _cut(square * _cut(math.sqrt(square)))
    return _cut(_cut(_cut(givens["B_H"] * tangent) * bracket) * 1e7)


def _vibration_by_hand(givens) -> float:
    """m·B_H = 4π²I/T²: divided by T², whose reciprocal nobody writes down, and everything cut off."""
    T = _cut(_cut(sum(givens["timings"]) / 3) / givens["swings"])
    inertia = _cut(_cut(givens["mass"] * _cut(_cut(givens["length"] ** 2) + _cut(givens["breadth"] ** 2))) / 12)
    return _cut(_cut(_cut(4 * math.pi**2) * inertia) / _cut(T * T))


@pytest.mark.parametrize(
    ("letter", "step_id", "by_hand"), [("T", "moment-1", _broadside_by_hand), ("E", "product", _vibration_by_hand)]
)
def test_cutting_off_by_hand_is_right_unless_a_slip_gives_the_number(letter, step_id, by_hand):
    """Worked here with none of the kinds' own formulas."""
    cases = set()
    for code in codes_of(letter):
        sheet = open_code(code)
        if sheet.scenario.code.setting.two_l == "five-sixths":
            continue  # there 2l is cut off too
        text = f"{by_hand(sheet.working.givens):.2e}"
        verdict = judge(sheet.working, sheet.slips, {step_id: text}, step_id)
        assert verdict.state in ("right", "slip"), (code, text)
        cases.add(verdict.case)
    assert "cut off" in cases


def test_what_was_cut_off_is_remarked_on_and_leads_on():
    a, remarked = CUTS[0], 0
    for code in TAN_A[:20]:
        working = open_code(code).working
        path = working.all_values(a)
        verdicts = judge_all(working, CATALOGUE, {s.id: cut(a, path[s.id], s) for s in working.steps})
        if "slip" in {v.state for v in verdicts.values()}:
            continue
        assert {v.state for v in verdicts.values()} == {"right"}
        step = next((working.by_id[k] for k, v in verdicts.items() if v.case == "cut off"), None)
        if step:
            remarked += 1
            # two units less in the last figure are no way of cutting off
            less = path[step.id] - 2 * last_place(path[step.id])
            assert judge(working, CATALOGUE, {step.id: cut(a, less, step)}, step.id).case != "cut off"
    assert remarked


@pytest.mark.parametrize(
    ("typed", "state"), [("34.0", "right"), ("33.95", "right"), ("33.99", "wrong"), ("34.1", "wrong")]
)
def test_a_number_may_be_rounded_once_more_as_it_is_typed(typed, state):
    """33.948 is 33.95 on paper, and from there 34.0; but nothing makes 33.99 of it."""
    step = WORKING.by_id["pole"]
    number = Typed(float(typed), len(typed) - 1, 10.0 ** (3 - len(typed)), True)
    assert accepts(Interval.keep(33.948), number, step) == (state == "right")

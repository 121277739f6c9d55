"""A right number is right however it is written: a comma, a symbol before it, an uncertainty after it, c.g.s. units."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.judging.verdict import judge
from exercises.kinds.kind import open_code
from exercises.working.quantities import QUANTITIES
from tests.exercises.golden import GOLDEN

CODES = [golden["code"] for golden in GOLDEN[::7]]
RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")
BEFORE = ("", "= ", "≈ ", "m = ", "θ ≈ ", "tan θ = ", "p=", "B_H = ", "mean = ")
#: How many of the unit are one SI unit: NBS Special Publication 696; a pole strength is a moment over a length.
CGS = {
    "moment": {"emu": 1e3, "erg/G": 1e3, "G cm³": 1e3},
    "pole": {"emu/cm": 10.0, "erg/(G·cm)": 10.0},
    "field": {"G": 1e4, "gauss": 1e4, "Oe": 1e4, "oersted": 1e4},
}


@st.composite
def right_answers(draw):
    """(code, step, a right number written in one of many ways, what each of its two readings would be worth in SI)."""
    code = draw(st.sampled_from(CODES))
    working = open_code(code).working
    step = draw(st.sampled_from([s for s in working.steps if not s.choices and s.rule != "count"]))
    value, measured = working.value(step.id), QUANTITIES[step.quantity]
    units = {measured.shown: 1 / measured.bare, "": 1 / measured.bare, **CGS.get(step.quantity, {})}
    unit = draw(st.sampled_from(sorted(units)))
    number = value * units[unit]
    mantissa, power = f"{number:.{draw(st.integers(3, 7))}e}".split("e")
    if draw(st.booleans()):
        ten = draw(
            st.sampled_from((f"e{int(power)}", f" × 10^{int(power)}", f"·10{str(int(power)).translate(RAISED)}"))
        )
        ten = f"x10-{-int(power)}" if int(power) < 0 and draw(st.booleans()) else ten
    else:
        mantissa, ten = f"{number:.{max(0, 5 - int(power))}f}", ""
    body = mantissa.replace(".", draw(st.sampled_from((".", ","))))
    text = draw(st.sampled_from(BEFORE)) + body + ten
    if draw(st.booleans()):
        text += draw(st.sampled_from((" ± ", "±", " +/- "))) + "0.01" + ten
    whole_again = float(body.replace(",", "").replace(".", "")) * 10.0 ** (int(power) if ten else 0) / units[unit]
    return code, step.id, f"{text} {unit}".strip(), body, whole_again


@settings(deadline=None, max_examples=600)
@given(right_answers())
def test_a_right_number_is_right_however_it_is_written(written):
    code, step_id, text, body, whole_again = written
    sheet = open_code(code)
    step = sheet.working.by_id[step_id]
    verdict = judge(sheet.working, sheet.slips, {step_id: text}, step_id)
    if verdict.state == "ask":  # only where a comma may part thousands, and the number would be possible then too
        assert "," in body and len(body.partition(",")[2]) == 3 and QUANTITIES[step.quantity].can_be(whole_again), text
    else:
        assert verdict.state == "right", (code, step_id, text, verdict)


@pytest.mark.parametrize("code", CODES)
def test_four_figures_with_a_decimal_comma_are_right_on_every_sheet(code):
    """As the pages promise, “the way you would write it”."""
    sheet = open_code(code)
    for step in sheet.working.steps:
        if step.choices or step.rule == "count":
            continue
        number = sheet.working.value(step.id) / QUANTITIES[step.quantity].bare
        mantissa, power = f"{number:.3e}".split("e")
        text = f"{number:.4g}" if 1e-2 <= abs(number) < 1e4 else f"{mantissa}·10{str(int(power)).translate(RAISED)}"
        verdict = judge(sheet.working, sheet.slips, {step.id: text.replace(".", ",")}, step.id)
        assert verdict.state == "right", (step.id, text, verdict)

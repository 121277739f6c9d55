"""The tables of cases: each is reached, and each stands above those that it says it must stand above."""

import pytest

from exercises.judging.entries import read_entries
from exercises.judging.evidence import Evidence, gather
from exercises.judging.sentences import SENTENCES
from exercises.judging.verdict import CHOICES, NUMBERS, Case, case_of, judge_all
from exercises.kinds.kind import open_code

#: Each case of the tables: a code, what was typed, the step that is looked at, its state and what is said.
REACHED = [
    ("blank", "A322-2W35-2XC5", {"tan-1": "0.8"}, "moment-1", "blank", ""),
    (
        "two readings",
        "K34X-TP24-5XH6",
        {"moment-a": "1,234 mA·m²"},
        "moment-a",
        "ask",
        "“1,234 mA·m2” can be read two ways: 1.234 or 1234. "
        "Type it with a point, or without any mark between the figures.",
    ),
    (
        "not read",
        "N33Y-49PW-42HN",
        {"to": "1/2"},
        "to",
        "unread",
        "“1” was understood, “/2” after it was not. Type the result, not the sum: nothing is worked out for you here.",
    ),
    (
        "zero",
        "K32P-Y555-WTEX",
        {"x-2": "0.0"},
        "x-2",
        "wrong",
        "Nothing on this sheet comes to zero. Look at what was typed.",
    ),
    (
        "one figure",
        "A322-2NFT-4XCE",
        {"tan-1": "1"},
        "tan-1",
        "ask",
        "One figure is too few to tell a right number from a wrong one. Type the tangent to four places.",
    ),
    (
        "follows",
        "A322-2W35-2XC5",
        {"tan-1": "8.16e-01", "moment-1": "1.9468e+00"},
        "moment-1",
        "follows",
        "Right working from a wrong start: this follows from what you entered above. "
        "Mend the earlier entry, then come back to this one.",
    ),
    ("right", "X32Y-3AMH-X3YX", {"count": "3"}, "count", "right", "Right."),
    (
        "minus",
        "X322-2M5T-PF4A",
        {"count": "-3"},
        "count",
        "wrong",
        "The figures are right: drop the minus. Everything on this sheet is positive.",
    ),
    ("slip", "K322-29RR-TFMN", {"x-2": "5.2e+02"}, "x-2", "slip", None),
    ("one of two slips", "A322-2NFT-4XCE", {"tan-1": "1.35"}, "tan-1", "slip", None),
    (
        "one of several slips",
        "A322-2A26-EKAH",
        {"mean-3": "42.50"},
        "mean-3",
        "slip",
        "This looks like one of several slips: the readings of the second arm only; or one reading left out; or "
        "the sum some degrees off. Work it once more, and look at each.",
    ),
    (
        "no start",
        "F322-2EF4-8355",
        {"arms-far": "1"},
        "arms-far",
        "wrong",
        "What was entered above leads to no number here. Mend that first, then come back to this one.",
    ),
    (
        "nothing",
        "F322-2MHT-CKFR",
        {"half": "0"},
        "half",
        "wrong",
        "This does not come to nothing. Look at what was typed.",
    ),
    (
        "negative",
        "F322-2A6E-9KA2",
        {"half": "-1"},
        "half",
        "wrong",
        "Everything on this sheet is positive. A minus often comes from a calculator set to radians.",
    ),
    (
        "power of ten",
        "K32F-WX4W-9A2J",
        {"x-1": "5.4e+05"},
        "x-1",
        "wrong",
        "The figures are right, but the number is 10³ times too large. Look at the powers of ten and the units.",
    ),
    (
        "cut off",
        "T322-2EM2-PW36",
        {"moment-1": "0.927"},
        "moment-1",
        "right",
        "Right, but figures were cut off. Round them: up where the next figure is 5 or more.",
    ),
    (
        "follows, cut off",
        "T322-2EM2-PW36",
        {"mean-1": "59.02", "tan-1": "1.66"},
        "tan-1",
        "follows",
        "Right working from a wrong start, but figures were cut off. "
        "Mend the earlier entry, then come back to this one, and round.",
    ),
    ("unexplained", "N32A-FYWP-MYXE", {"gap": "1"}, "gap", "wrong", None),
    (
        "not offered",
        "F3X3-8K7M-Y6XW",
        {"fault": "strange"},
        "fault",
        "unread",
        "That is not one of the choices offered. Choose one of them.",
    ),
    ("chosen wrongly", "F32R-MYCA-2P2R", {"where": "5"}, "where", "wrong", None),
]

#: (the upper case, a lower one that holds as well, a code, what was typed, the step).
BOTH_HOLD = [
    ("two readings", "not read", "K34X-TP24-5XH6", {"moment-a": "1,234 mA·m²"}, "moment-a"),
    ("zero", "one figure", "K32P-Y555-WTEX", {"x-2": "0.0"}, "x-2"),
    ("zero", "right", "X32C-TKXM-K9EF", {"u-theta": "-0"}, "u-theta"),
    ("one figure", "right", "A322-2NFT-4XCE", {"tan-1": "1"}, "tan-1"),
    ("one figure", "minus", "C327-CEH6-KX52", {"far-1": "-0.0001"}, "far-1"),
    ("one figure", "slip", "A322-2NFT-4XCE", {"tan-1": "1"}, "tan-1"),
    (
        "follows",
        "slip",
        "A322-2TP8-AHFF",
        {"bracket-1": "1.37e-04", "tan-3": "1.2131e+00", "tan-4": "1.50e+00", "mean-moment": "7.13e-01"},
        "mean-moment",
    ),
    ("right", "minus", "F32R-X9C8-P6ET", {"ends-far": "-0.0001"}, "ends-far"),
    ("right", "slip", "A32T-H32F-CHA2", {"tan-6": "0.6905"}, "tan-6"),
    ("right", "one of two slips", "A322-2NFT-4XCE", {"moment-3": "0.67"}, "moment-3"),
    ("right", "one of several slips", "A32A-7EJF-2MW7", {"tan-1": "1.45"}, "tan-1"),
    ("minus", "slip", "C32J-YXJ6-JY33", {"tan-1": "-8.7e-01"}, "tan-1"),
    ("right", "slip", "T322-2EM2-PW36", {"mean-1": "56.75"}, "mean-1"),
    ("right", "one of two slips", "T322-2EM2-PW36", {"mean-1": "57"}, "mean-1"),
    ("minus", "slip", "T322-2EM2-PW36", {"tan-1": "-1.5"}, "tan-1"),
    ("minus", "negative", "X322-2M5T-PF4A", {"count": "-3"}, "count"),
    ("slip", "negative", "W3RA-3MCY-W39A", {"error-4": "-7.0707e+01"}, "error-4"),
    ("slip", "power of ten", "N322-22PX-X9XW", {"cube-near": "2.394e-09", "to": "1.96e+01"}, "cube-near"),
    ("slip", "unexplained", "K322-29RR-TFMN", {"x-2": "5.2e+02"}, "x-2"),
    ("one of two slips", "unexplained", "A322-2NFT-4XCE", {"tan-1": "1.35"}, "tan-1"),
    ("one of several slips", "unexplained", "A322-2A26-EKAH", {"mean-3": "42.50"}, "mean-3"),
    ("one of two slips", "unexplained", "T322-2K3H-K62F", {"tan-3": "9.0e-01"}, "tan-3"),
    ("cut off", "unexplained", "T322-2EM2-PW36", {"moment-1": "0.927"}, "moment-1"),
    ("follows, cut off", "unexplained", "T322-2EM2-PW36", {"mean-1": "59.02", "tan-1": "1.66"}, "tan-1"),
    ("power of ten", "unexplained", "K32F-WX4W-9A2J", {"x-1": "5.4e+05"}, "x-1"),
    ("right", "follows", "N32E-5FEN-5WNM", {"l": "5.29e+00", "fits": "fits"}, "fits"),
    ("follows", "chosen wrongly", "F3X2-8N7E-63R7", {"fault": "distance", "removed": "no"}, "removed"),
]


def evidence_on(code: str, texts: dict[str, str], step_id: str) -> Evidence:
    """The evidence on one step of a code's sheet."""
    sheet = open_code(code)
    return gather(sheet.working, sheet.slips, read_entries(sheet.working, texts))[step_id]


def table_of(e: Evidence) -> tuple[Case, ...]:
    """The table that a step is judged by."""
    return CHOICES if e.step.choices else NUMBERS


@pytest.mark.parametrize(("name", "code", "texts", "step_id", "state", "text"), REACHED, ids=lambda x: str(x)[:20])
def test_a_case_is_reached_and_says_what_it_said(name, code, texts, step_id, state, text):
    sheet = open_code(code)
    verdict = judge_all(sheet.working, sheet.slips, texts)[step_id]
    assert (verdict.case, verdict.state) == (name, state)
    assert verdict.text == text if text is not None else verdict.text.endswith(".")


def test_every_case_is_among_those():
    named = {case.name for case in (*NUMBERS, *CHOICES)}
    assert named == {name for name, *_ in REACHED}
    # a pair of slips is found only over a whole sheet (test_slip_pairs.py)
    assert set(SENTENCES) == named | {"two slips", "two slips, or two others"}


@pytest.mark.parametrize(("upper", "lower", "code", "texts", "step_id"), BOTH_HOLD, ids=lambda x: str(x)[:20])
def test_where_two_cases_hold_the_upper_counts_and_it_matters(upper, lower, code, texts, step_id):
    evidence = evidence_on(code, texts, step_id)
    cases = {case.name: case for case in table_of(evidence)}
    assert case_of(evidence) is cases[upper]
    assert cases[lower].holds(evidence)
    there, here = cases[upper].verdict(evidence), cases[lower].verdict(evidence)
    assert (there.state, there.text) != (here.state, here.text)


def test_every_order_that_a_table_asks_for_is_among_those():
    asked = {(case.name, lower) for table in (NUMBERS, CHOICES) for case in table for lower in case.before}
    assert asked == {(upper, lower) for upper, lower, *_ in BOTH_HOLD}


@pytest.mark.parametrize("table", [NUMBERS, CHOICES])
def test_a_table_is_in_order_and_its_last_case_holds_always(table):
    names = [case.name for case in table]
    assert len(set(names)) == len(names)
    for at, case in enumerate(table):
        assert set(case.before) <= set(names[at + 1 :]), case.name
    assert table[-1].holds(None)  # it asks for no evidence


def test_the_case_stays_inside():
    """Which case made a verdict is for tests and for readers of the code: pages and files get none of it."""
    sheet = open_code("X32Y-3AMH-X3YX")
    verdict = judge_all(sheet.working, sheet.slips, {"count": "3"})["count"]
    assert verdict.case == "right"
    assert list(verdict.as_dict()) == ["state", "text", "read", "slips", "remarks"]

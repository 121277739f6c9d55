"""The tables of cases: each is reached, and each stands above those that it says it must stand above."""

import pytest

from exercises.judging.entries import read_entries
from exercises.judging.evidence import Evidence, gather
from exercises.judging.sentences import SENTENCES
from exercises.judging.verdict import CHOICES, NUMBERS, Case, case_of, judge_all
from exercises.kinds.kind import open_code

#: Each case of the tables: a code, what was typed, the step that is looked at, its state and what is said.
REACHED = [
    ("blank", "A32-NFT-4XC", {"tan-1": "0.8"}, "moment-1", "blank", ""),
    (
        "two readings",
        "C35-FCJ-485",
        {"bracket-1": "1,234"},
        "bracket-1",
        "ask",
        "“1,234” can be read two ways: 1.234 or 1234. Type it with a point, or without any mark between the figures.",
    ),
    (
        "not read",
        "R33-H73-AEP",
        {"mean-2": "1/2"},
        "mean-2",
        "unread",
        "“1” was understood, “/2” after it was not. Type the result, not the sum: nothing is worked out for you here.",
    ),
    (
        "zero",
        "C35-FCJ-485",
        {"tan-1": "0.0"},
        "tan-1",
        "wrong",
        "Nothing on this sheet comes to zero. Look at what was typed.",
    ),
    (
        "one figure",
        "X3A-8KK-9NC",
        {"u-d": "3e-01"},
        "u-d",
        "ask",
        "One figure is too few to tell a right number from a wrong one. Type two figures.",
    ),
    (
        "follows",
        "F3X-T9T-FYE",
        {"fault": "misread", "where": "2", "mean-1": "53"},
        "mean-1",
        "follows",
        "Right working from a wrong start: this follows from what you entered above. Mend the earlier entry, then "
        "come back to this one.",
    ),
    ("right", "E38-26K-A4R", {"bracket-2": "3.43e-04"}, "bracket-2", "right", "Right."),
    (
        "right, does not follow",
        "A35-HX8-4CX",
        {"mean-1": "5.8204e+01", "tan-1": "1.54e+00"},
        "tan-1",
        "right",
        "Right by the numbers given, but it does not follow from what you entered above. Mend the earlier entry, "
        "then look at this one again.",
    ),
    (
        "minus",
        "A3X-3N6-M9A",
        {"mean-4": "4.1947e+01", "tan-4": "-8.7e-01"},
        "tan-4",
        "wrong",
        "The figures are right: drop the minus. Everything on this sheet is positive.",
    ),
    ("slip", "E3K-T34-6EE", {"moment": "9.76e-01"}, "moment", "slip", None),
    ("slip, or one like it", "X3C-X8E-2NH", {"share-needle": "1.25e-02"}, "share-needle", "slip", None),
    ("one of two slips", "N32-4W8-64R", {"cube-near": "3.9998e-03"}, "cube-near", "slip", None),
    (
        "one of several slips",
        "T3F-HJ2-8AA",
        {"mean-1": "54.00"},
        "mean-1",
        "slip",
        "This looks like one of several slips: one end of the pointer only; or one reading left out; or one reading "
        "counted twice; or the sum some degrees off. Work it once more, and look at each.",
    ),
    (
        "more than nothing",
        "F3T-2C5-9X4",
        {"arms-far": "1,234"},
        "arms-far",
        "wrong",
        "This is not right, and no slip known here explains it. Look once more, to the last division or decimal.",
    ),
    (
        "no start",
        "K3C-849-5AA",
        {**{f"root-{n}": "0.300" for n in range(1, 7)}, "slope-b": "0.0321"},
        "slope-b",
        "wrong",
        "What was entered above leads to no number here. Mend that first, then come back to this one.",
    ),
    (
        "nothing",
        "P3H-9FJ-J7E",
        {"read-2-2": "-0"},
        "read-2-2",
        "wrong",
        "This does not come to nothing. Look at what was typed.",
    ),
    (
        "negative",
        "A3P-J9Y-2AR",
        {"tan-3": "-4.78e-01"},
        "tan-3",
        "wrong",
        "Everything on this sheet is positive. A minus often comes from a calculator set to radians.",
    ),
    (
        "negative start",
        "A3P-J9Y-2AR",
        {"mean-3": "105", "tan-3": "2.606"},
        "tan-3",
        "wrong",
        "From what you entered above this would be negative, and everything on this sheet is positive. "
        "Mend that first, then come back to this one.",
    ),
    (
        "power of ten",
        "N3T-F9P-9MC",
        {"l": "4.15e+03"},
        "l",
        "wrong",
        "The figures are right, but the number is 10³ times too large. Look at the powers of ten and the units.",
    ),
    (
        "cut off",
        "W3F-23X-CH2",
        {"theta-2": "52.60"},
        "theta-2",
        "right",
        "Right, but figures were cut off. Round them: up where the next figure is 5 or more.",
    ),
    (
        "follows, cut off",
        "N3J-EK3-R7N",
        {"cube-near": "5.2515e-03", "guess-near": "1.73e+01"},
        "guess-near",
        "follows",
        "Right working from a wrong start, but figures were cut off. Mend the earlier entry, then come back to this "
        "one, and round.",
    ),
    ("unexplained", "T3K-AWE-R2T", {"bracket-6": "1.4e+01"}, "bracket-6", "wrong", None),
    (
        "not offered",
        "W3N-HMW-9HJ",
        {"way-4": "strange"},
        "way-4",
        "unread",
        "That is not one of the choices offered. Choose one of them.",
    ),
    ("chosen wrongly", "F3T-2C5-9X4", {"fault": "box"}, "fault", "wrong", None),
    ("minus, or a slip", "T3P-22N-87K-222-9TK", {"tan-2": "-1.17"}, "tan-2", "slip", None),
]

#: (the upper case, a lower one that holds as well, a code, what was typed, the step).
BOTH_HOLD = [
    ("right", "minus", "F34-P74-X94", {"ends-far": "-0.0001"}, "ends-far"),
    ("two readings", "not read", "C35-FCJ-485", {"bracket-1": "1,234"}, "bracket-1"),
    ("zero", "one figure", "C35-FCJ-485", {"tan-1": "0.0"}, "tan-1"),
    ("zero", "right", "T3M-TRT-KHC", {"bracket-1": "0.0"}, "bracket-1"),
    ("one figure", "right", "C3M-HNR-5T4", {"far-1": "2e-04"}, "far-1"),
    ("one figure", "minus", "K3A-3J8-X37", {"tan-3": "-1e+00"}, "tan-3"),
    ("one figure", "slip", "T3W-8XK-TR5", {"tan-2": "1e+00"}, "tan-2"),
    ("follows", "slip", "F3F-EF4-835", {"where": "2", "mean-4": "39"}, "mean-4"),
    ("right", "slip", "A3F-JYW-RAY", {"bracket-1": "1.12e-03"}, "bracket-1"),
    ("right", "one of two slips", "T3J-853-R66", {"tan-4": "7.54e-01"}, "tan-4"),
    ("right", "one of several slips", "X39-7H7-3Y8", {"needle-effect": "3.8459e+00"}, "needle-effect"),
    (
        "right, does not follow",
        "slip",
        "T3J-853-R66",
        {"tan-2": "1.1894e+00", "bracket-2": "7.4430e-03", "moment-2": "2.26e+00"},
        "moment-2",
    ),
    (
        "right, does not follow",
        "one of two slips",
        "C32-MKE-HNR",
        {"tan-1": "6.80e-01", "bracket-1": "1.7540e-04", "ratio-angles": "3.6575e-01"},
        "ratio-angles",
    ),
    (
        "right, does not follow",
        "negative start",
        "K3Y-C5C-H6W",
        {
            "root-1": "4.723e-01",
            "root-2": "4.6468e-01",
            "root-4": "5.9731e-01",
            "slope-b": "1.190e-01",
            "intercept": "2.0e-03",
        },
        "intercept",
    ),
    ("right, does not follow", "unexplained", "A35-HX8-4CX", {"mean-1": "5.8204e+01", "tan-1": "1.54e+00"}, "tan-1"),
    ("slip, or one like it", "slip", "X3C-X8E-2NH", {"share-needle": "1.25e-02"}, "share-needle"),
    ("slip, or one like it", "negative", "C35-FCJ-485", {"near-2": "-2.60e-04"}, "near-2"),
    ("slip, or one like it", "unexplained", "X3C-X8E-2NH", {"share-needle": "1.25e-02"}, "share-needle"),
    (
        "minus",
        "slip",
        "T37-44R-HHA",
        {"tan-4": "6.85e-01", "bracket-4": "6.2290e-03", "moment-4": "-1.24e+00"},
        "moment-4",
    ),
    ("minus", "negative", "A3X-3N6-M9A", {"mean-4": "4.1947e+01", "tan-4": "-8.7e-01"}, "tan-4"),
    ("slip", "negative", "F38-WNY-CM2", {"where": "4", "mean-3": "-45.1"}, "mean-3"),
    ("slip", "power of ten", "A3C-25R-C37", {"bracket-6": "4.31e+04"}, "bracket-6"),
    ("slip", "unexplained", "E3K-T34-6EE", {"moment": "9.76e-01"}, "moment"),
    ("one of two slips", "unexplained", "N32-4W8-64R", {"cube-near": "3.9998e-03"}, "cube-near"),
    ("one of several slips", "unexplained", "T3F-HJ2-8AA", {"mean-1": "54.00"}, "mean-1"),
    ("cut off", "unexplained", "W3F-23X-CH2", {"theta-2": "52.60"}, "theta-2"),
    (
        "follows, cut off",
        "unexplained",
        "N3J-EK3-R7N",
        {"cube-near": "5.2515e-03", "guess-near": "1.73e+01"},
        "guess-near",
    ),
    ("power of ten", "unexplained", "N3T-F9P-9MC", {"l": "4.15e+03"}, "l"),
    (
        "right",
        "follows",
        "X3N-EK9-89R",
        {"share-angle": "5.892e-01", "share-length": "7.426e-01", "share-needle": "8.9837e-02", "largest": "length"},
        "largest",
    ),
    ("follows", "chosen wrongly", "F3W-W83-9JA", {"fault": "distance", "removed": "no"}, "removed"),
    ("more than nothing", "no start", "F3T-2C5-9X4", {"arms-far": "1,234"}, "arms-far"),
    (
        "right, does not follow",
        "more than nothing",
        "F3K-JMH-9HP",
        {"north-near": "-2.50e+00", "half": "1.25e+00"},
        "half",
    ),
    ("right, does not follow", "no start", "F3K-JMH-9HP", {"north-near": "-2.50e+00", "half": "1.25e+00"}, "half"),
    (
        "right, does not follow",
        "power of ten",
        "C3W-8PT-JCA",
        {"tan-1": "1.35e+01", "ratio-angles": "1.57e+00"},
        "ratio-angles",
    ),
    (
        "right, does not follow",
        "one of several slips",
        "C3W-8PT-JCA",
        {"bracket-1": "-4.37e-05", "ratio-angles": "1.57e+00"},
        "ratio-angles",
    ),
    ("minus, or a slip", "minus", "T3P-22N-87K-222-9TK", {"tan-2": "-1.17"}, "tan-2"),
    ("minus, or a slip", "slip", "T3P-22N-87K-222-9TK", {"tan-2": "-1.17"}, "tan-2"),
    ("minus, or a slip", "negative", "T3P-22N-87K-222-9TK", {"tan-2": "-1.17"}, "tan-2"),
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
    name, code, texts, step, *_ = next(case for case in REACHED if case[0] == "right")
    sheet = open_code(code)
    verdict = judge_all(sheet.working, sheet.slips, texts)[step]
    assert verdict.case == name
    assert list(verdict.as_dict()) == ["state", "text", "read", "slips", "remarks"]

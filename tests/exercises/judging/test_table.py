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
        "C3W-N7T-M6A",
        {"near-1": "1,234"},
        "near-1",
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
        "T3F-WNF-Y5J",
        {"tan-2": "0.0"},
        "tan-2",
        "wrong",
        "Nothing on this sheet comes to zero. Look at what was typed.",
    ),
    (
        "one figure",
        "E3E-N5T-YX4",
        {"earth": "2e+09"},
        "earth",
        "ask",
        "One figure is too few to tell a right number from a wrong one. Type three figures.",
    ),
    (
        "follows",
        "F3X-T9T-FYE",
        {"fault": "distance", "where": "2", "mean-1": "52"},
        "mean-1",
        "follows",
        "Right working from a wrong start: this follows from what you entered above. Mend the earlier entry, then "
        "come back to this one.",
    ),
    ("right", "N3J-J2Y-YXC", {"distance-far": "1.24e+01", "reach": "1.5e+01"}, "reach", "right", "Right."),
    (
        "right, does not follow",
        "N3M-KCM-7K6",
        {"distance-far": "2.2808e+01", "reach": "2.56e+01", "l": "4.160e+00", "to": "2.2e+01"},
        "to",
        "right",
        "Right by the numbers given, but it does not follow from what you entered above. Mend the earlier entry, "
        "then look at this one again.",
    ),
    (
        "minus",
        "A3E-WJ5-49A",
        {"mean-2": "-50.88"},
        "mean-2",
        "wrong",
        "The figures are right: drop the minus. Everything on this sheet is positive.",
    ),
    ("minus, or a slip", "X3E-JPC-MHP", {"mean-1": "4.96e+01", "moment": "-8.9888e-01"}, "moment", "slip", None),
    ("slip", "W3F-23X-CH2", {"theta-2": "64.0"}, "theta-2", "slip", None),
    ("slip, or one like it", "A32-2YX-78H", {"bracket-4": "-2.60e-04"}, "bracket-4", "slip", None),
    ("one of two slips", "N3T-7FJ-WHW", {"field-near": "1.801e+01"}, "field-near", "slip", None),
    (
        "one of several slips",
        "T37-44R-HHA",
        {"tan-4": "-6.46e-01"},
        "tan-4",
        "slip",
        "This looks like one of several slips: the readings of one arm only; or one end of the pointer only; or the "
        "readings of the second arm only. Work it once more, and look at each.",
    ),
    (
        "no start",
        "F3K-Y9X-HW5",
        {"north-far": "1,234"},
        "north-far",
        "wrong",
        "What was entered above leads to no number here. Mend that first, then come back to this one.",
    ),
    (
        "nothing",
        "R3N-HT2-5H9",
        {"read-6-2": "0.0"},
        "read-6-2",
        "wrong",
        "This does not come to nothing. Look at what was typed.",
    ),
    (
        "negative",
        "F3Y-MAN-KA2",
        {"half": "2.5000e-01", "shift": "-4.0e+00"},
        "shift",
        "wrong",
        "Everything on this sheet is positive. A minus often comes from a calculator set to radians.",
    ),
    (
        "power of ten",
        "C3M-MFF-8E3",
        {"bracket-2": "5.42e-01"},
        "bracket-2",
        "wrong",
        "The figures are right, but the number is 10³ times too large. Look at the powers of ten and the units.",
    ),
    (
        "cut off",
        "C3W-J5N-3FH",
        {"bracket-2": "1.25e-04"},
        "bracket-2",
        "right",
        "Right, but figures were cut off. Round them: up where the next figure is 5 or more.",
    ),
    (
        "follows, cut off",
        "F38-WNY-CM2",
        {"fault": "zero", "where": "1", "mean-4": "39.30"},
        "mean-4",
        "follows",
        "Right working from a wrong start, but figures were cut off. Mend the earlier entry, then come back to this "
        "one, and round.",
    ),
    ("unexplained", "X3F-EN6-Y2Y", {"mean-1": "5.54e+01", "moment": "1,234"}, "moment", "wrong", None),
    (
        "not offered",
        "F3W-3J6-28H",
        {"fault": "undecided", "removed": "strange"},
        "removed",
        "unread",
        "That is not one of the choices offered. Choose one of them.",
    ),
    ("chosen wrongly", "F3T-2C5-9X4", {"fault": "centre"}, "fault", "wrong", None),
]

#: (the upper case, a lower one that holds as well, a code, what was typed, the step).
BOTH_HOLD = [
    ("right", "minus", "F3H-36A-NHH", {"ends-near": "-0.0001"}, "ends-near"),
    ("two readings", "not read", "C3W-N7T-M6A", {"near-1": "1,234"}, "near-1"),
    ("zero", "one figure", "T3F-WNF-Y5J", {"tan-2": "0.0"}, "tan-2"),
    ("zero", "right", "A3X-3N6-M9A", {"bracket-3": "0.0"}, "bracket-3"),
    ("one figure", "right", "C3P-NHH-E33", {"null-1": "1e+01"}, "null-1"),
    ("one figure", "minus", "C3T-NMP-KTH", {"far-2": "-4e-04"}, "far-2"),
    ("one figure", "slip", "C3M-HNR-5T4", {"far-1": "1e-04"}, "far-1"),
    ("follows", "slip", "F3X-T9T-FYE", {"fault": "distance", "where": "2", "mean-1": "52"}, "mean-1"),
    ("right", "slip", "T3N-635-438", {"mean-4": "36"}, "mean-4"),
    ("right", "one of two slips", "A37-EF2-P3N", {"moment-2": "9.724e-01"}, "moment-2"),
    ("right", "one of several slips", "X3E-JPC-MHP", {"moment": "9e-01"}, "moment"),
    (
        "right, does not follow",
        "slip",
        "A3X-3N6-M9A",
        {"tan-4": "8.521e-01", "bracket-4": "9.07e-04", "moment-4": "5.8e-01"},
        "moment-4",
    ),
    (
        "right, does not follow",
        "one of two slips",
        "C3M-MFF-8E3",
        {"near-1": "2.374e-04", "ratio-1": "1.19e+00"},
        "ratio-1",
    ),
    (
        "right, does not follow",
        "one of several slips",
        "A3E-WJ5-49A",
        {"bracket-4": "1.71e-03", "moment-4": "1.05e+00"},
        "moment-4",
    ),
    (
        "right, does not follow",
        "negative",
        "K3Y-C5C-H6W",
        {
            "root-1": "4.974e-01",
            "root-2": "4.4043e-01",
            "root-4": "5.7193e-01",
            "slope-b": "1.226e-01",
            "intercept": "2.3e-03",
        },
        "intercept",
    ),
    (
        "right, does not follow",
        "unexplained",
        "N3M-KCM-7K6",
        {"distance-far": "2.2808e+01", "reach": "2.56e+01", "l": "4.160e+00", "to": "2.2e+01"},
        "to",
    ),
    ("slip, or one like it", "slip", "A32-2YX-78H", {"bracket-4": "-2.60e-04"}, "bracket-4"),
    ("slip, or one like it", "negative", "A32-2YX-78H", {"bracket-4": "-2.60e-04"}, "bracket-4"),
    ("slip, or one like it", "unexplained", "C3M-HNR-5T4", {"bracket-2": "1.08e-04"}, "bracket-2"),
    ("minus, or a slip", "minus", "X3E-JPC-MHP", {"mean-1": "4.96e+01", "moment": "-8.9888e-01"}, "moment"),
    ("minus, or a slip", "slip", "X3E-JPC-MHP", {"mean-1": "4.96e+01", "moment": "-8.9888e-01"}, "moment"),
    ("minus, or a slip", "negative", "X3E-JPC-MHP", {"mean-1": "4.96e+01", "moment": "-8.9888e-01"}, "moment"),
    ("minus", "slip", "A3E-WJ5-49A", {"mean-2": "-50.88"}, "mean-2"),
    ("minus", "negative", "A3E-WJ5-49A", {"mean-2": "-50.88"}, "mean-2"),
    ("slip", "negative", "E38-FN9-283", {"tan-1": "-5.0300e+01"}, "tan-1"),
    ("slip", "power of ten", "W3R-372-R7X", {"along-2": "3.3982e-01"}, "along-2"),
    ("slip", "unexplained", "W3F-23X-CH2", {"theta-2": "64.0"}, "theta-2"),
    ("one of two slips", "unexplained", "N3T-7FJ-WHW", {"field-near": "1.801e+01"}, "field-near"),
    ("one of several slips", "unexplained", "C36-86C-6A9", {"mean-2": "47.75"}, "mean-2"),
    ("cut off", "unexplained", "C3W-J5N-3FH", {"bracket-2": "1.25e-04"}, "bracket-2"),
    ("follows, cut off", "unexplained", "F38-WNY-CM2", {"fault": "zero", "where": "1", "mean-4": "39.30"}, "mean-4"),
    ("power of ten", "unexplained", "C3M-MFF-8E3", {"bracket-2": "5.42e-01"}, "bracket-2"),
    ("right", "follows", "N3N-E6F-PP6", {"reach": "1.92e+01", "fits": "fits"}, "fits"),
    ("follows", "chosen wrongly", "F38-WNY-CM2", {"fault": "misread", "removed": "no"}, "removed"),
    ("right, does not follow", "no start", "F3H-36A-NHH", {"north-near": "-5.00e+00", "half": "2.500e+00"}, "half"),
    (
        "right, does not follow",
        "power of ten",
        "C3W-8PT-JCA",
        {"tan-1": "1.49e+01", "ratio-angles": "1.681e+00"},
        "ratio-angles",
    ),
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

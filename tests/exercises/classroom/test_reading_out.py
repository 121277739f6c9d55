"""The sentences of a report, from counts that are made up: what is told, and from what number on."""

from dataclasses import replace

import pytest

from exercises.classroom.report.counts import KindReport, Report, SlipCount, Spread, StateCounts, StepCount, Tries
from exercises.classroom.report.reading_out import paragraphs, passage
from exercises.kinds.kind import all_kinds

KIND = all_kinds()["tan-a"]
PLAIN = KindReport(KIND, 40, 20, (), (StepCount("tan θ", StateCounts(right=20), 0),), (), {}, (), (), None)


def said(attempt="last", **changed) -> str:
    text = "\n\n".join(paragraphs(Report(40, attempt, (replace(PLAIN, **changed),))))
    assert text.startswith(f"{KIND.title}. ")
    return text.removeprefix(f"{KIND.title}. ")


def column(label, sheets=0, series="", **counts) -> StepCount:
    return StepCount(label, StateCounts(**counts), sheets, series)


def slip(name, sheets, read="before/result/") -> SlipCount:
    return SlipCount(name, read, sheets, sheets, 0)


def test_nothing_remarkable():
    assert (
        said() == "Of 40 students 20 handed in. Of 20 entries 20 are right. Every step went well. No entry was missed."
    )


def test_shares_are_told_from_a_hundred_entries_on():
    assert "Of 99 entries 98 are right." in said(columns=(column("a", right=98, wrong=1),))
    assert "Of every 100 entries 98 are right, and 1 more follows rightly" in said(
        columns=(column("a", right=98, follows=1, wrong=1),)
    )
    assert "Of every 100 entries 50 are right, and 3 more follow rightly" in said(
        columns=(column("a", right=100, follows=6, blank=94),)
    )
    assert "Of 1 entry, as it was" not in said() and "Of 20 entries, as they were first typed, 20 are right" in said(
        attempt="first"
    )
    assert "Of 9 entries 1 is right." in said(columns=(column("a", right=1, blank=8),))


def test_what_went_well_is_at_least_nine_in_ten_and_the_best_three_in_the_order_of_the_sheet():
    some = [
        column(name, right=right, wrong=100 - right)
        for name, right in (("a", 92), ("b", 90), ("c", 99), ("d", 93), ("e", 89))
    ]
    assert "What went well: “a”, “c” and “d”." in said(columns=tuple(some))
    assert "What went well: “b”." in said(columns=(some[1], some[4])) and "went well" not in said(columns=(some[4],))


def test_the_step_missed_most():
    worst, like = column("b", 7, right=13, wrong=7), column("c", 7, right=14, wrong=6)
    text = said(columns=(column("a", 6, right=14, wrong=6), worst, like))
    assert "The step most often missed is “b” (and as often “c”): on 7 of 20 sheets it is not right." in text
    three = column("c", 7, right=54, wrong=6)
    assert "“c”: on 7 of 20 sheets it is not right in at least one place." in said(columns=(three,))
    alike = said(columns=(worst, like, like._replace(label="d"), like._replace(label="e")))
    assert "(and as often “c” and “d”)" in alike


def test_the_slips_seen_most():
    assert "No slip was made on more than one sheet." in said(slips=(slip("one", 1),)) and "lip" not in said()
    assert "The slip seen most is “one”, on 2 sheets; read “Result”." in said(slips=(slip("one", 2), slip("two", 1)))
    half = said(slips=(slip("one", 8), slip("two", 4, "before/x/#y")))
    assert "“one”, on 8 sheets; read “Result”. Next is “two”, on 4; read “Y”." in half
    assert "two" not in said(slips=(slip("one", 9), slip("two", 4)))
    assert "“one”, on 8 sheets, then “two”, on 5; for both read “Result”." in said(
        slips=(slip("one", 8), slip("two", 5))
    )


def test_few_sheets_are_told_without_counts():
    for sheets, counted in ((4, False), (5, True)):
        text = said(sheets=sheets, slips=(slip("one", 3, "a/#b"), slip("two", 2, "a/#b"), slip("three", 1, "a/#c-d")))
        assert ("Of 20 entries" in text) is counted and ("too few" in text) is not counted
        assert ("Worth reading again: “B” and “C d”." in text) is not counted
    many = said(sheets=1, slips=tuple(slip(n, 1, f"a/#{n}") for n in "wxyz"))
    assert "“W”, “X” and “Y”." in many
    assert said(sheets=0) == "Nothing has been handed in yet."
    assert said(sheets=40).startswith("Everyone in the class handed in.")
    assert said(sheets=1, students=1).startswith("The one student of the class")
    assert passage("a/b-c/") == "B c"


def parts(one, two, sheets=5):
    return (
        column("Distance 1", 1, "Distance", right=100 - one, wrong=one),
        column("Distance 2", sheets, "Distance", right=100 - two, wrong=two),
    )


def test_a_distance_is_told_apart_from_three_standard_errors_on():
    """Of 100 and 100 with 10 and 27 missed: difference 0.17, standard error √(0.185·0.815·2/100) = 0.0549; three are
    0.165."""
    text = said(parts=(*parts(10, 27), column("Result", 9, wrong=20)))
    assert "Distance 2 gave more trouble than Distance 1: 27 of 100 entries missed, against 10 of 100." in text
    assert "trouble" not in said(parts=parts(10, 26)) and "trouble" not in said(parts=parts(10, 27, sheets=4))
    assert "trouble" not in said(parts=parts(10, 27)[1:]) and "trouble" not in said(parts=())
    # what is not alike is not compared: of another row of parts, or of none
    other = column("Balance 1", 1, "Balance", right=99, wrong=1)
    assert "trouble" not in said(parts=(parts(10, 20)[1], other, parts(10, 26)[0]))


def test_blank_is_told_from_a_tenth_on():
    assert "Most often left blank is “b”: 10 of 100 entries." in said(
        columns=(column("a", right=95, blank=5), column("b", right=90, blank=10))
    )
    assert "blank" not in said(columns=(column("b", right=91, blank=9),))


def spread(low, high, near=5, powers=0, far=0) -> tuple[Spread]:
    return (Spread("m", (0.0,) * near, (low, 0.0, high), powers, far),)


def test_how_far_the_found_values_lie():
    start = "Of the 5 values found for “m” all lie within a factor of two of the right one, the middle half "
    assert start + "within half a per cent of it." in said(spreads=spread(-0.49, 0.49))
    assert start + "between 0.5 % below and 1.3 % above." in said(spreads=spread(-0.5, 1.26))
    assert "between 2 % below and 0.1 % below." in said(spreads=spread(-2.0, -0.1))
    assert "values" not in said(spreads=spread(0, 0, near=4, powers=9)) and "values" not in said(spreads=())
    text = said(spreads=spread(0, 0, powers=1, far=1))
    assert (
        "Of the 7 values found for “m” 5 lie within a factor of two of the right one, the middle half of these within"
        in text
    )
    assert "1 is out by a power of ten: look at the units. 1 is out by a factor of two or more in another way." in text
    assert (
        "2 are out by a power of ten" in (text := said(spreads=spread(0, 0, powers=2, far=3)))
        and "3 are out by a factor" in text
    )


@pytest.mark.parametrize(
    "tries, words",
    [
        (Tries(0, 1, 0), "Of 1 entry that came right 1 had first been typed otherwise."),
        (Tries(1, 0, 5), "Of 1 entry that came right 0 had first"),
        (Tries(90, 9, 0), "Of 99 entries that came right 9 had first"),
        (Tries(180, 20, 7), "Of every 100 entries that came right 10 had first"),
        (Tries(95, 5, 0), "Of every 100 entries that came right 5 had first"),
    ],
)
def test_what_was_mended(tries, words):
    assert words in said(tries=tries)
    assert "came right" not in said(tries=Tries(0, 0, 3)) and "came right" not in said()

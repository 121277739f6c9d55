"""The report's counts, of a small class counted by hand; its quartiles, against other people's; its words."""

import re
import statistics

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from exercises.classroom.marking.scheme import Scheme
from exercises.classroom.report.counts import StateCounts, StepCount, Tally, _spread, count, quartiles
from exercises.classroom.report.names import merge
from exercises.classroom.report.page import evening, report_fragment, report_html
from exercises.classroom.report.reading_out import caution, paragraphs, passage
from exercises.kinds.kind import all_kinds, open_code
from tests.exercises.classwork import NAMES, a_class, code_of, handed, marked, right, slipped

CSS = '[data-md-color-scheme="evening"] { --er-ink: #e7e3d8; }'


def read_out(report) -> str:
    return "\n\n".join(paragraphs(report))


def a_report(many=9, scheme=Scheme(attempt="last")):
    """Of nine students seven hand in tan A: three all right, two with one slip, one with two faults, one blank."""
    made = a_class(many, scheme=scheme)
    odd = right(code_of(made, 5))
    value = float(odd["mean-moment"].split()[0])
    # ten times too large, and no number at all; the first mean mended, the second typed worse
    odd |= {"mean-moment": f"{10 * value:.4g} A·m²", "pole": "none"}
    work = [
        *(handed(made, at) for at in range(3)),
        *(handed(made, at, slipped(code_of(made, at), "bracket-not-squared")) for at in (3, 4)),
        handed(made, 5, odd, {"mean-1": "99", "pole": "12 A·m"}),
        handed(made, 6, {}),
    ]
    return made, count(made, (marked(h, made.scheme) for h in work))


MADE, REPORT = a_report()
KIND = REPORT.kinds[0]
ROWS = [len(open_code(str(code_of(MADE, at))).scenario.rows) for at in range(7)]


def of(column) -> StepCount:
    return next(c for c in KIND.columns if c.label == column)


def test_who_handed_in():
    assert (REPORT.students, KIND.students, KIND.sheets) == (9, 9, 7)


def test_the_steps():
    assert [c.label for c in KIND.columns] == [
        "mean θ",
        "tan θ",
        "(d² − l²)²",
        "moment m",
        "mean moment m",
        "pole strength p",
    ]
    all_rows, slip_rows, blank = sum(ROWS), ROWS[3] + ROWS[4], ROWS[6]
    assert of("mean θ") == StepCount("mean θ", StateCounts(right=all_rows - blank, blank=blank), 0)
    assert of("(d² − l²)²").counts == StateCounts(right=all_rows - slip_rows - blank, slip=slip_rows, blank=blank)
    assert of("moment m").counts == StateCounts(right=all_rows - slip_rows - blank, follows=slip_rows, blank=blank)
    assert of("(d² − l²)²").sheets == 2 and of("moment m").sheets == 0
    # right on three; following on two; ten times too large on one; blank on one
    assert of("mean moment m").counts == StateCounts(right=3, follows=2, wrong=1, blank=1)
    assert of("pole strength p").counts == StateCounts(right=5, unread=1, blank=1)
    assert KIND.counts.all == sum(4 * rows + 2 for rows in ROWS)


def test_the_parts_of_the_sheet():
    labels = [p.label for p in KIND.parts]
    assert labels == [*(f"Distance {n + 1}" for n in range(max(ROWS))), "Result"]
    first = KIND.parts[0].counts
    assert first == StateCounts(right=4 * 4 + 2 * 2, follows=2, slip=2, blank=4)
    assert sum(p.counts.all for p in KIND.parts) == KIND.counts.all
    assert (
        KIND.cells["Distance 1", "(d² − l²)²"] == StateCounts(right=4, slip=2, blank=1)
        and ("Result", "tan θ") not in KIND.cells
    )
    assert sum(c.all for c in KIND.cells.values()) == KIND.counts.all


def test_the_slips():
    (slip,) = KIND.slips
    assert slip.name == "(d² − l²) not squared" and slip.read == "before/field-end-on/#the-bracket-is-squared"
    assert (slip.sheets, slip.entries, slip.shared) == (2, ROWS[3] + ROWS[4], 0)


def test_how_far_from_right():
    moment, pole = KIND.spreads
    # three right, two with the slip far out, one ten times too large
    assert (len(moment.near), moment.far, moment.powers) == (3, 2, 1)
    assert moment.quartiles == pytest.approx((0, 0, 0), abs=0.5) and len(pole.near) == 5 and pole.all == 5


def test_first_tries():
    # one mended, one lost; all the other good entries stand as first typed
    good = KIND.counts.right + KIND.counts.follows
    assert KIND.tries == (good - 1, 1, 1)


def test_marks():
    made, report = a_report(scheme=Scheme(step_mark=2, attempt="last", out_of=50))
    assert report.kinds[0].marks == KIND.marks and KIND.marks[2] == 1.0 and 0.5 < KIND.marks[0] < 1


def test_first_attempts_are_said_to_be_such():
    made, report = a_report(scheme=Scheme(attempt="first"))
    counts = {c.label: c.counts for c in report.kinds[0].columns}
    assert counts["mean θ"].wrong == 1 and report.attempt == "first" and report.kinds[0].tries is None
    assert "as they were first typed" in read_out(report)


@pytest.mark.parametrize("slug", all_kinds())
def test_every_kind_can_be_reported(slug):
    made = a_class(2, (slug,))
    report = count(made, [marked(handed(made, 0), made.scheme)])
    kind = report.kinds[0]
    assert kind.sheets == 1 and kind.counts.right == kind.counts.all == len(right(code_of(made, 0)))
    labels = [c.label for c in kind.columns]
    assert all(labels) and len(set(labels)) == len(labels)
    assert all(abs(p) < 2 for spread in kind.spreads for p in spread.near)  # three figures, a graph read by eye
    assert "undefined" not in report_fragment(report) and kind.kind.title in read_out(report)


# -- against something outside ------------------------------------------------


@given(st.lists(st.floats(-1e6, 1e6), min_size=2, max_size=60))
def test_quartiles_are_those_of_the_standard_library_and_of_numpy(values):
    values.sort()
    ours = quartiles(values)
    assert ours == pytest.approx(statistics.quantiles(values, n=4, method="inclusive"), rel=1e-9, abs=1e-6)
    assert ours == pytest.approx(list(numpy.percentile(values, [25, 50, 75], method="linear")), rel=1e-9, abs=1e-6)


def test_quartiles_of_few():
    assert quartiles([]) == () and quartiles([3.0]) == (3.0, 3.0, 3.0)


@pytest.mark.parametrize(
    "ratio, near, powers, far",
    [
        (1.0, 1, 0, 0),
        (2.0, 1, 0, 0),
        (0.5, 1, 0, 0),
        (2.01, 0, 0, 1),
        (10.0, 0, 1, 0),
        (0.0101, 0, 1, 0),
        (0.0105, 0, 0, 1),
        (0.0, 0, 0, 1),
        (-1.0, 0, 0, 1),
        (1e-29, 0, 1, 0),
        (4 * 3.14159, 0, 0, 1),
    ],
)
def test_what_is_far_is_counted_apart(ratio, near, powers, far):
    found = _spread("m", [ratio])
    assert (len(found.near), found.powers, found.far) == (near, powers, far)


def test_columns_of_one_title_are_told_apart_by_where_they_stand():
    made = a_class(5, ("compare",))
    report = count(made, [marked(handed(made, at), made.scheme) for at in range(5)])
    labels = [c.label for c in report.kinds[0].columns]
    assert {
        "mean θ",
        "m₁/m₂ (Deflections)",
        "m₁/m₂ (Balance)",
        "(d₁² − l₁²)² (Balance 1)",
        "(d₁² − l₁²)² (Balance 2)",
    } <= set(labels)


def test_a_longer_sheet_puts_its_parts_where_they_belong():
    order: list[str] = []
    merge(order, ["Distance 1", "Distance 2", "Result"])
    merge(order, ["Distance 1", "Distance 2", "Distance 3", "Result"])
    assert order == ["Distance 1", "Distance 2", "Distance 3", "Result"]


# -- words and pages ----------------------------------------------------------


def test_what_is_read_out():
    assert read_out(REPORT).startswith(
        "Tan A: moment and pole strength. Of 9 students 7 handed in. Of every 100 entries "
    )
    said = read_out(REPORT)
    assert "The step most often missed is “(d² − l²)²”: on 2 of 7 sheets it is not right in at least one place." in said
    assert "The slip seen most is “(d² − l²) not squared”, on 2 sheets; read “The bracket is squared”." in said
    assert "Most often left blank is" in said and not re.search(r"!| [01] (sheets|entries|students)\b", said)


@pytest.mark.parametrize(
    "many, work, said",
    [
        (2, 0, "Nothing has been handed in yet."),
        (1, 1, "The one student of the class handed in. That is too few to speak of in counts"),
        (
            8,
            8,
            "Everyone in the class handed in. Of every 100 entries 100 are right. Every step went well. No entry was "
            "missed.",
        ),
        (6, 1, "Of 6 students 1 handed in. That is too few"),
    ],
)
def test_small_classes(many, work, said):
    made = a_class(many, scheme=Scheme(attempt="last"))
    report = count(made, [marked(handed(made, at), made.scheme) for at in range(work)])
    assert said in read_out(report)
    assert ("can point at a person" in report_fragment(report)) == (0 < work < 5)


def test_caution_and_passages():
    assert caution(0) == caution(5) == "" and caution(1).startswith("With 1 sheet a count")
    assert passage("exercises/dial/#which-way") == "Which way" and passage("before/result/") == "Result"


def test_no_name_no_roll_and_no_code_is_in_a_report():
    page = report_html(REPORT, MADE, CSS)
    for name in (
        *NAMES[:9],
        "Dunlin",
        *(s.roll for s in MADE.students),
        MADE.phrase,
        *(str(code_of(MADE, at)) for at in range(9)),
    ):
        assert name not in page, name
    assert 'href="https://saltmarsh.example/before/field-end-on/#the-bracket-is-squared"' in page
    assert "<p>9 students. What was typed last was judged. No name" in page
    alone = a_class(1, scheme=Scheme(attempt="first"))
    assert "<p>1 student. What was typed first was judged. No name" in report_html(count(alone, []), alone, CSS)
    assert (
        "prefers-color-scheme: dark" in page
        and "<script" not in page
        and "http://" not in page.replace("http://www.w3.org", "")
    )
    assert "href" not in report_fragment(REPORT)
    assert evening("body {}") == ""


def test_headings_follow_one_another():
    for level in (2, 3):
        found = [int(n) for n in re.findall(r"<h(\d)", report_fragment(REPORT, level=level))]
        assert found[0] == level and set(found) == {level, level + 1}


def test_a_tally_takes_one_sheet_after_another():
    tally = Tally(MADE)
    assert tally.report().kinds[0].counts == StateCounts() and tally.report().kinds[0].columns == ()
    tally.add(marked(handed(MADE, 0), MADE.scheme))
    tally.add(marked(handed(MADE, 1), MADE.scheme))
    assert tally.report().kinds[0].sheets == 2


def tables(html: str) -> dict[str, list[list[str]]]:
    """The cells of each table by its caption, headings first where there are any."""
    found = {}
    for caption, inside in re.findall(r'<table class="rp-table" aria-label="([^"]*)">(.*?)</table>', html):
        rows = re.findall(r"<tr>(.*?)</tr>", inside)
        found.setdefault(caption, []).extend(
            [re.sub("<[^>]*>", "", c) for c in re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row)] for row in rows
        )
    return found


def test_the_tables_say_what_was_counted():
    html = report_fragment(REPORT)
    found = tables(html)
    steps = found["Entries by what was said of them, and sheets on which at least one was missed"]
    columns, parts = steps[: len(KIND.columns) + 1], steps[len(KIND.columns) + 1 :]
    for (heads, *rows), counted, what in ((columns, KIND.columns, "step"), (parts, KIND.parts, "part of the sheet")):
        assert heads == [what, "right", "follows", "slip", "not right", "not read", "blank", "sheets"]
        assert rows == [[c.label, *map(str, c.counts), str(c.sheets)] for c in counted]
    heads, *rows = found["Right, of all entries, by step"]
    assert heads == ["part of the sheet", "mean θ", "tan θ", "(d² − l²)²", "moment m"]
    assert [r[0] for r in rows] == [p.label for p in KIND.parts[:-1]]
    assert rows[0][3] == "4&nbsp;of&nbsp;7"
    ((heads, row),) = [
        found[
            "On how many sheets each slip was named; “beside another” where two explain the number, alone or together"
        ]
    ]
    assert row == ["(d² − l²) not squared", "2", str(ROWS[3] + ROWS[4]), "0", "The bracket is squared"] and len(
        heads
    ) == len(row)
    heads, moment, _, pole = found["Found over right, less one; right for each sheet’s own numbers"]
    assert moment[:2] == ["mean moment m", "3"] and moment[-2:] == ["1", "2"] and pole[0] == "pole strength p"
    assert len(heads) == len(moment) == 7
    assert [m.replace("−", "-") for m in moment[2:5]] == [f"{q:+.2f} %" for q in KIND.spreads[0].quartiles]
    marks = found["Marks of the sheets, and entries by their first try"]
    assert [r[1] for r in marks] == [*(f"{100 * m:.0f} %" for m in KIND.marks), *map(str, KIND.tries)] and len(
        marks
    ) == 6
    assert html.count("<thead>") == len(re.findall("<table", html)) - 1  # the marks have no headings
    assert 'href="https://saltmarsh.example/before/' in report_fragment(REPORT, site="https://saltmarsh.example/")


def test_what_there_is_nothing_of_has_no_section():
    made = a_class(5)
    html = report_fragment(count(made, [marked(handed(made, 0), made.scheme)]))
    assert "No slip was named." in html and "and first typed otherwise" not in html and "Where on the sheet" in html
    nothing = report_fragment(count(made, []))
    assert "<h4" not in nothing and "<h3" not in nothing and "<table" not in nothing

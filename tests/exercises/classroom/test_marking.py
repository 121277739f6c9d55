"""Marks of small cases worked by hand; nothing that is typed can break the marking."""

import csv
import io
import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.classroom.marking.marks import added, plain
from exercises.classroom.marking.scheme import Scheme
from exercises.classroom.report import student_pages as mark_pages
from exercises.classroom.report.marks_table import OF_A_KIND, marks_csv, problems_csv
from exercises.kinds.kind import open_code
from exercises.return_slip.text import Problem, ReturnSlip
from tests.exercises.classwork import NAMES, a_class, code_of, handed, right, slipped
from tests.exercises.classwork import marked as mark_sheet

MADE = a_class(3)
CODE = code_of(MADE, 0)
RIGHT = right(CODE)
ROWS = len(open_code(str(CODE)).scenario.rows)
STEPS = 4 * ROWS + 2


def marked(scheme=Scheme(), firsts=None, **changed):
    """All steps right but those given, `mean_1` for mean-1."""
    answers = {**RIGHT, **{k.replace("_", "-"): v for k, v in changed.items()}}
    return mark_sheet(handed(MADE, 0, answers, firsts), scheme)


def of(sheet, step):
    return next(s for s in sheet.steps if s.step.id == step)


def follow() -> dict[str, str]:
    """A wrong mean at the first distance, and what follows rightly from it there: two steps of five or more."""
    own = {"mean-1": 41.0, "tan-1": 0.8693}
    moment = open_code(str(CODE)).working.value("moment-1", own=own)
    return {"mean_1": "41.0°", "tan_1": "0.8693", "moment_1": f"{moment:.4g} A·m²"}


def test_all_right():
    sheet = marked()
    assert (sheet.earned, sheet.possible) == (STEPS, STEPS) and {s.why for s in sheet.steps} == {""}
    assert [s.step.id for s in sheet.steps] == list(RIGHT)


def test_what_earns_nothing():
    sheet = marked(mean_1="", tan_2="none", bracket_3="7.77", pole="1,234.5")
    states = {k: of(sheet, k).verdict.state for k in ("mean-1", "tan-2", "bracket-3", "pole")}
    assert states == {"mean-1": "blank", "tan-2": "unread", "bracket-3": "wrong", "pole": "ask"}
    assert sheet.earned == STEPS - 4 and all(of(sheet, k).earned == 0 and of(sheet, k).why for k in states)


def test_a_slip_all_through_earns_nothing_where_it_shows_and_follows_earns_its_share():
    answers = slipped(CODE, "bracket-not-squared")
    sheet = mark_sheet(handed(MADE, 0, answers), Scheme(follows=0.5))
    states = [of(sheet, f"bracket-{n + 1}").verdict.state for n in range(ROWS)]
    assert states == ["slip"] * ROWS
    others = [s for s in sheet.steps if s.step.column in ("moment", "mean-moment")]
    assert {s.verdict.state for s in others} == {"follows"}
    # two right steps of each distance and the pole strength; the moments and their mean at half
    assert sheet.earned == 2 * ROWS + 1 + (ROWS + 1) / 2 and of(sheet, "moment-1").why == (
        "Right working from a wrong start earns 50 % of the mark."
    )


def test_a_right_number_beside_a_wrong_start_earns_its_mark_and_is_shown_as_what_it_is():
    sheet = marked(Scheme(follows=0.5), bracket_1=f"{float(RIGHT['bracket-1'].split()[0]) * 1.1:.4g}")
    mark, wrong = of(sheet, "moment-1"), of(sheet, "bracket-1")
    assert wrong.earned == 0 and (mark.earned, mark.why) == (1, "") and sheet.earned == STEPS - 1
    assert (mark.verdict.state, mark.verdict.case) == ("right", "right, does not follow")
    assert mark.verdict.text in page_of(sheet)


@pytest.mark.parametrize("share, earned", [(1.0, STEPS - 1), (0.5, STEPS - 2), (0.0, STEPS - 3), (1 / 3, STEPS - 2.34)])
def test_the_share_for_following(share, earned):
    sheet = marked(Scheme(follows=share), **follow())
    assert [of(sheet, k).verdict.state for k in ("mean-1", "tan-1", "moment-1")] == ["wrong", "follows", "follows"]
    # a third of a mark is 0.33, twice: the total is the sum of what is shown
    assert sheet.earned == pytest.approx(earned, abs=1e-9)


def test_figures():
    exact = open_code(str(CODE)).working.value("pole")
    sheet = marked(Scheme(figures=0.25), tan_1=f"{float(RIGHT['tan-1']):.2f}", pole=f"{exact:.6f} A·m")
    assert [of(sheet, k).verdict.state for k in ("tan-1", "pole")] == ["right", "right"]
    assert [of(sheet, k).earned for k in ("tan-1", "pole")] == [0.75, 0.75]
    assert of(sheet, "tan-1").why == "25 % off for the number of figures."
    assert of(marked(tan_1=f"{float(RIGHT['tan-1']):.2f}"), "tan-1").earned == 1


def test_units():
    bare = RIGHT["pole"].split()[0]
    sheet = marked(Scheme(units=0.5), pole=bare, mean_1=RIGHT["mean-1"].rstrip("°"))
    assert of(sheet, "pole").earned == 0.5 and of(sheet, "mean-1").earned == 0.5
    assert of(sheet, "tan-1").earned == 1  # it has none
    assert of(sheet, "pole").why == "50 % off, for no unit was typed."
    assert sheet.earned == STEPS - 1 and marked(pole=bare).earned == STEPS


def test_all_at_once_and_never_below_nothing():
    rough = {**follow(), "tan_1": "0.87"}
    scheme = Scheme(step_mark=2, follows=0.5, figures=0.75, units=0.75)
    sheet = marked(scheme, **{**rough, "moment_1": follow()["moment_1"].split()[0]})
    assert of(sheet, "tan-1").earned == 0.25 and of(sheet, "moment-1").earned == 0.25  # 2 × 0.5 × 0.25
    assert of(marked(Scheme(figures=1, units=1), pole=RIGHT["pole"].split()[0][:3]), "pole").earned == 0


def test_marks_of_single_steps_and_the_total():
    scheme = Scheme(step_mark=0.1, columns=(("tan-a/pole", 3.0), ("tan-a/mean", 0.0)), out_of=20)
    sheet = marked(scheme, pole="")
    possible = 0.1 * (3 * ROWS + 1) + 3
    assert added(sheet.steps) == (round(possible - 3, 2), round(possible, 2))
    assert sheet.possible == 20 and sheet.earned == round(20 * (possible - 3) / possible + 1e-9, 2)
    assert of(sheet, "mean-1").possible == 0
    nothing = marked(Scheme(step_mark=0, out_of=10))
    assert (nothing.earned, nothing.possible) == (0, 10)


def test_the_first_attempt():
    firsts = {"mean-1": "9.9", "pole": RIGHT["pole"]}
    last = marked(firsts=firsts, pole="")
    first = marked(Scheme(attempt="first"), firsts=firsts, pole="")
    assert last.earned == STEPS - 1 and of(last, "mean-1").first == "9.9"
    assert of(first, "mean-1").typed == "9.9" and of(first, "mean-1").earned == 0 and of(first, "pole").earned == 1


def test_what_was_found_over_what_is_right():
    value = float(RIGHT["pole"].split()[0])
    found = dict(marked(pole=f"{2 * value} A·m", mean_moment="what").found)
    assert found == {"pole": pytest.approx(2, rel=0.006)}  # three figures


@settings(max_examples=60, deadline=None)
@given(
    st.dictionaries(st.sampled_from([*RIGHT, "strange"]), st.text(max_size=80)),
    st.dictionaries(st.sampled_from(list(RIGHT)), st.text(max_size=30)),
)
def test_nothing_that_is_typed_breaks_it(answers, firsts):
    for attempt in ("last", "first"):
        sheet = mark_sheet(handed(MADE, 0, answers, firsts), Scheme(units=0.5, figures=0.5, attempt=attempt))
        assert 0 <= sheet.earned <= sheet.possible == STEPS and math.isfinite(sheet.earned)
        page = mark_pages.page(sheet, MADE)
        assert "<script" not in page


@pytest.mark.parametrize("number, shown", [(0.0, "0"), (3.0, "3"), (17.5, "17.5"), (0.25, "0.25"), (100.0, "100")])
def test_marks_as_they_are_written(number, shown):
    assert plain(number) == shown


# -- tables and pages ---------------------------------------------------------


def rows(text: str) -> list[dict[str, str]]:
    assert text.startswith("\ufeff") and text.count("\n") == text.count("\r\n")
    return list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff"), newline=""), strict=True))


def test_the_table_of_marks_has_every_student_and_adds_up():
    made = a_class(3, ("tan-a", "law"), Scheme(out_of=10))
    work = [
        handed(made, 0),
        handed(made, 0, which=1, notes=("=HYPERLINK(1) it came twice.",)),
        handed(made, 2, {"turn": "1"}),
    ]
    table = rows(marks_csv([mark_sheet(h, Scheme(out_of=10)) for h in work], made))
    assert [r["roll"] for r in table] == ["S01", "S02", "S03"] and table[2]["name"] == "'=Dunlin" == f"'{NAMES[2]}"
    assert len(table[0]) == 2 + 2 * len(OF_A_KIND) + 4
    assert (table[0]["tan-a mark"], table[0]["law mark"], table[0]["total"], table[0]["total out of"]) == (
        "10",
        "10",
        "20",
        "20",
    )
    assert table[0]["notes"] == "1" and table[0]["note texts"] == "law: =HYPERLINK(1) it came twice."
    assert table[1]["tan-a handed in"] == "no" and table[1]["tan-a mark"] == table[1]["total"] == "0"
    assert {row["total out of"] for row in table} == {"20"}
    assert table[1]["tan-a code"] == str(code_of(made, 1))
    blank = int(table[2]["tan-a blank"])
    assert table[2]["tan-a mark"] == "0" and blank == len(right(code_of(made, 2))) and table[2]["law handed in"] == "no"
    for row in table:
        if row["tan-a handed in"] == "yes":
            assert sum(int(row[f"tan-a {k}"]) for k in OF_A_KIND[4:]) == len(right(row["tan-a code"]))


def test_what_could_not_be_marked_keeps_what_was_typed():
    slip = ReturnSlip("@7", "A322", {"mean-1": "-1", "pole": '3,"x'}, {})
    table = rows(
        problems_csv([Problem("=mail", "@7", "A322", "It is cut short.", slip), Problem("x", "", "", "Empty.")])
    )
    assert table[0]["where"] == "'=mail" and table[0]["who"] == "'@7" and table[0]["answers"] == "2"
    assert table[0]["as typed"] == 'mean-1: -1; pole: 3,"x' and table[1]["answers"] == ""


def test_a_page_says_all_and_runs_nothing():
    sheet = mark_sheet(
        handed(
            MADE, 0, {**slipped(CODE, "bracket-not-squared"), "mean-1": "<b>1</b>"}, {"pole": "<i>"}, notes=("<u>",)
        ),
        Scheme(attempt="last", out_of=20),
    )
    page = mark_pages.head("") + mark_pages.page(sheet, MADE) + mark_pages.FOOT
    for shown in (
        "S01",
        NAMES[0],
        str(CODE),
        "&lt;b&gt;1&lt;/b&gt;",
        "first: <bdi>&lt;i&gt;",
        "&lt;u&gt;",
        plain(sheet.earned),
        "of 20",
    ):
        assert shown in page, shown
    assert (
        "https://saltmarsh.example/before/field-end-on/#the-bracket-is-squared" in page
        and "The bracket is squared" in page
    )
    assert "<b>1" not in page and "<script" not in page
    assert page.count(" / 1</td>") == STEPS
    assert 'href="' not in mark_pages.page(sheet, a_class(3, site=""))


def page_of(sheet, site="https://saltmarsh.example/") -> str:
    return mark_pages.page(sheet, a_class(3, site=site))


def test_what_is_said_of_each_answer_on_the_page():
    firsts = {"mean-1": "9.9", "tan-1": "0.5", "pole": RIGHT["pole"]}
    page = page_of(marked(Scheme(attempt="last"), firsts=firsts, tan_1="", pole=RIGHT["pole"]))
    assert "<small>first: <bdi>9.9</bdi></small>" in page and "<small>first: <bdi>0.5</bdi></small>" in page
    assert page.count("<small>first") == 2
    first = page_of(marked(Scheme(attempt="first"), firsts=firsts, tan_1=""))
    assert f"<small>later: <bdi>{RIGHT['mean-1']}</bdi></small>" in first and "<small>later: taken out</small>" in first
    assert first.count("<small>later") == 2 and "<small>first" not in first


def test_things_to_look_at_again_are_numbered_and_said_once():
    page = page_of(mark_sheet(handed(MADE, 0, slipped(CODE, "bracket-not-squared")), Scheme()))
    assert page.count("<li>") == len(set(re.findall(r"<li>.*?</strong> (.*?)</li>", page))) >= 1
    assert page.count(" (1)</span>") == ROWS and "Nothing is left" not in page and "left blank" not in page
    slip = re.search(r"<li><strong>(.*?)\.</strong>", page)[1]
    assert slip.startswith("Distance 1: (") and slip.count(";") == min(ROWS, 4) - 1 and ("more" in slip) is (ROWS > 4)


def test_places_are_listed_up_to_four():
    assert mark_pages._listed(list("abc")) == "a; b; c" and mark_pages._listed(list("abcd")) == "a; b; c; d"
    assert mark_pages._listed(list("abcde")) == "a; b; c; d and 1 more" and mark_pages._listed(
        list("abcdefg")
    ).endswith("d and 3 more")


def test_what_was_left_blank_is_counted():
    assert "Nothing is left to look at again." in page_of(marked())
    assert "<p>1 entry was left blank.</p>" in page_of(marked(pole=""))
    assert "<p>2 entries were left blank.</p>" in page_of(marked(pole="", tan_1=""))
    assert "look at again" not in page_of(marked(pole=""))


def test_the_total_and_its_scale():
    assert f'<p class="mk-mark">{STEPS} <small>of {STEPS}</small></p>' in page_of(marked())
    assert f"<br><small>{STEPS - 1} of {STEPS} on the steps below</small>" in page_of(
        marked(Scheme(out_of=10), pole="")
    )


def test_long_answers_are_cut_on_the_page():
    for many, cut in ((mark_pages.LONGEST, ""), (mark_pages.LONGEST + 1, "…")):
        assert f"<bdi>{'9' * mark_pages.LONGEST}{cut}</bdi>" in page_of(marked(pole="9" * many))


def test_without_a_site_passages_have_no_address():
    page = page_of(mark_sheet(handed(MADE, 0, slipped(CODE, "bracket-not-squared")), Scheme()), site="")
    assert "Read “The bracket is squared”: before/field-end-on/#the-bracket-is-squared" in page and "<a " not in page

"""The page for the record book, its graph, and the field by place and date: every part from made-up numbers."""

import datetime
import json
import re
from dataclasses import replace

import pytest

from exercises.bench.local_field import PLACES, horizontal
from exercises.bench.uncertainty import Stated
from exercises.record import page
from exercises.record.check import check
from exercises.record.entries import Record, Row, as_plain
from exercises.record.estimate import Result
from exercises.record.finding import Finding
from exercises.record.moments import Graph
from exercises.record.paper import LONGEST, MOST_FINDINGS, paper, shown
from exercises.record.place import angle, field_of
from exercises.record.plot import BOTTOM, LEFT, RIGHT, TOP, graph_svg, steps
from exercises.record.position import TAN_A
from exercises.record.said import quote
from exercises.working.numbers import figures, places

HEAD = {"length": "8.4", "two_l_is": "five-sixths", "B_H": "36", "step": "0.5"}
ROWS = tuple(Row(d, (reading,) * 8) for d, reading in (("17.5", "57"), ("18.7", "51.5"), ("20.1", "45"), ("22", "37")))


def checked(rows=ROWS, **head):
    return check(Record({**HEAD, **head}, rows))


def bare(html: str) -> str:
    return re.sub(r"<[^>]*>", "", html)


# -- the page ------------------------------------------------------------------------


def test_what_is_given():
    html = bare(paper(checked(name="Knot", magnet="Ruff", date="2026-03-14", place="Pune")))
    for part in (
        "ObserverKnot",
        "MagnetRuff",
        "PlacePune",
        "Date2026-03-14",
        "Measured length8.40 cm",
        "36.0 µT, as typed",
        "Scale step0.5°",
        "Magnetic length 2l7.00 cm, 5/6 of the measured length",
    ):
        assert part in html, part
    own = bare(paper(checked(two_l_is="stated", two_l="6.9", length="")))
    assert "2l6.90 cm, as stated" in own and "Measured length" not in own and "Observer" not in own


def test_long_cells_are_cut_on_paper():
    for many, cut in ((LONGEST, False), (LONGEST + 1, True)):
        html = bare(paper(checked(name="K" * many)))
        assert ("K" * LONGEST + "…" in html) is cut and "K" * (LONGEST + 1) not in html


def test_the_columns():
    """tan 45° and the rest are worked out here, in italics; right entries stand as typed, wrong ones are struck out."""
    value = checked().values
    rows = (*ROWS[:2], replace(ROWS[2], mean="45.0", tan="0.7", moment="x"), replace(ROWS[3], d="here"))
    html = paper(checked(rows))
    lines = re.findall(r"<tr><th scope=\"row\">(.*?)</tr>", html)
    assert [line.split("</th>")[0] for line in lines] == ["17.5", "18.7", "20.1", "here"]
    cells = re.findall("<td>(.*?)</td>", lines[2])
    assert cells[:9] == ["45"] * 8 + ["45.0"] and cells[9] == "<s>0.7</s><br><i>1.0000</i>"
    assert cells[11] == f"<s>x</s><br><i>{shown('moment', value['moment-3'])}</i>"
    assert (
        cells[10] == f"<i>{shown('bracket', value['bracket-3'])}</i>"
        and re.findall("<td>(.*?)</td>", lines[3])[8:] == ["–"] * 4
    )
    assert (
        shown("mean", 44.5625) == "44.5625"
        and shown("tan", 0.98764) == "0.9876"
        and shown("moment", 1.23456) == "1.235"
    )


def test_a_doubtful_reading_has_its_mark():
    rows = (*ROWS[:2], replace(ROWS[2], readings=("45",) * 3 + ("55",) + ("45",) * 4), ROWS[3])
    html = paper(checked(rows))
    assert (
        html.count("<sup>?</sup>") == 1
        and "<td>55<sup>?</sup></td>" in html
        and "With what stands out put right: m = (" in html
    )
    assert "With what stands out" not in paper(checked())


def test_results_as_they_were_typed():
    made = checked()
    mean_m, pole = (f"{made.values[k]:.3g}" for k in ("mean-moment", "pole"))
    html = bare(paper(checked(**{"mean-moment": mean_m, "pole": f"{pole} A·m"})))
    assert f"Mean moment: {mean_m} A·m²" in html and f"Pole strength: {pole} A·m" in html
    assert f"{pole} A·m A·m" not in html
    assert "There is no result yet." in bare(paper(checked(B_H="", length="")))


def test_how_a_result_is_quoted():
    assert quote(999.0, 2.0, "A·m") == "(999 ± 2) A·m" and quote(1001.0, 20.0, "A·m") == "(1.00 ± 0.02) × 10³ A·m"
    assert quote(0.0101, 2e-4, "A") == "(0.0101 ± 0.0002) A" and quote(0.0099, 2e-4, "A") == "(9.9 ± 0.2) × 10⁻³ A"
    assert quote(1.5, 0.0, "A") == "1.50 A" == quote(1.5, float("inf"), "A") and quote(2.5e-10, 1e-11, "A").endswith(
        "× 10⁻⁹ A"
    )
    assert quote(3e12, 1e11, "A").endswith("× 10⁹ A") and quote(2e6, 1e5, "A").startswith("(2.0")


def test_what_is_said_of_the_uncertainty():
    c = checked()
    terms = {"angle": 0.003, "distance": 0.004, "2l": 0.012, "needle": 0.001}
    result = Result(Stated(1.5, 0.01, 2.1), Stated(21.0, 0.25, 2.1), Stated(0.08, 0.002, 2.1), terms, 1.0, 0.0121)
    html = bare(paper(replace(c, moments=replace(c.moments, result=result))))
    assert "m = (1.50 ± 0.02) A·m²p = (21.0 ± 0.5) A·m" in html and "It rests on 4 distances and" in html
    assert "expanded uncertainty U, with k = 2.10: 95 intervals in a hundred" in html
    assert "m is 0.7 % of it: from the angle 0.3 %, the distance 0.4 %, 2l 1.2 % and the needle 0.1 %" in html
    assert "about 1.2 % too large, and" in html and "scatter more" not in html
    wild = bare(paper(replace(c, moments=replace(c.moments, result=replace(result, excess=1.7, needle=-0.002)))))
    assert "these two were counted 1.7 times" in wild and "about 0.2 % too small, and" in wild
    far = replace(result, pole=Stated(21.0, 0.25, 2.31))
    assert "k = 2.10 for m and 2.31 for p" in bare(paper(replace(c, moments=replace(c.moments, result=far))))
    assert "It rests on 1 distance and" in bare(paper(checked(ROWS[:1])))


@pytest.mark.parametrize(
    ("intercept", "error", "words"),
    [
        (0.029, 0.01, "at the origin, within"),
        (0.031, 0.01, "near the origin."),
        (-0.059, 0.01, "near the origin."),
        (0.061, 0.01, "away from the origin"),
    ],
)
def test_where_the_best_line_meets_the_axis(intercept, error, words):
    c = checked()
    graph = c.moments.graph
    free = replace(c.moments, graph=replace(graph, free=(0.01, intercept, error)))
    html = bare(paper(replace(c, moments=free)))
    assert f"at {places(intercept, 3)} ± {places(error, 3)}, {words}" in html
    error = f"{figures(1e7 * 36e-6 * graph.error, 2)} A·m²"
    assert f"nothing taken off: m = {figures(graph.moment)} A·m², with a standard error of {error}." in html


def test_what_was_found_is_on_paper_up_to_a_number():
    c = checked()
    grave = tuple(Finding(("amiss", "look")[n % 2], "x", f"Thing {n}.") for n in range(MOST_FINDINGS + 2))
    for many in (1, MOST_FINDINGS, MOST_FINDINGS + 1, MOST_FINDINGS + 2):
        html = paper(replace(c, findings=grave[:many]))
        assert html.count("<li>") == min(many, MOST_FINDINGS + 1) and "stands out" not in html.split("rc-found")[1]
        more = many - MOST_FINDINGS
        assert (f"<li>And {more} more.</li>" in html) is (more > 0)
    notes = (Finding("note", "step", "Step."), Finding("note", "arms", "Arms."))
    quiet = paper(replace(c, findings=notes))
    assert (
        "Nothing in the readings or the moments stands out.</p>" in quiet
        and "<li>Arms.</li>" in quiet
        and "Step." not in quiet
    )
    assert "Entries struck out above are to be mended." in paper(checked((*ROWS[:3], replace(ROWS[3], tan="0.1"))))


def summary(rows=ROWS, **head) -> str:
    return json.loads(page.check(json.dumps(as_plain(Record({**HEAD, **head}, rows)))))["summary"]


def test_the_status_line():
    assert summary() == "No column was filled in to be judged. Nothing in the readings or the moments stands out."
    assert summary((*ROWS[:3], replace(ROWS[3], tan="0.1", mean="37.0"))).startswith(
        "1 of 2 entries right. Nothing in the readings"
    )
    doubtful = (*ROWS[:2], replace(ROWS[2], readings=("45",) * 3 + ("55",) + ("45",) * 4), ROWS[3])
    assert summary(doubtful).endswith("1 thing in the readings or the moments to look at.")
    two = (*doubtful[:3], replace(ROWS[3], d="32", readings=("15",) * 8))
    assert re.search(r" [2-9] things in the readings or the moments to look at\.$", summary(two))
    assert summary(B_H="").endswith("Nothing in the readings stands out; there is no moment yet.")
    assert summary(()) == "There is no distance that can be worked yet."


def test_cells_as_the_page_shows_them():
    rows = (
        *ROWS[:2],
        replace(ROWS[2], readings=("45",) * 3 + ("55",) + ("45",) * 4, tan="0.98"),
        replace(ROWS[3], mean="37.0", d="here"),
    )
    found = json.loads(page.check(json.dumps(as_plain(Record(HEAD, rows)))))
    cells = found["cells"]
    assert (
        cells["reading4-3"]["state"] == "doubt" and cells["d-4"]["state"] == "ask" and cells["tan-3"]["quiet"] is False
    )
    quiet = json.loads(page.check(json.dumps(as_plain(Record(HEAD, (*ROWS[:3], replace(ROWS[3], mean="37.0")))))))[
        "cells"
    ]
    label = "Distance 4, mean θ"
    assert quiet == {
        "mean-4": {"state": "right", "text": "Right.", "html": "Right.", "read": "", "quiet": True, "label": label}
    }
    assert (
        found["computed"]["mean-1"] == "57"
        and found["computed"]["tan-2"] == "1.2572"
        and "moment-4" not in found["computed"]
    )
    levels = [f["level"] for f in found["findings"]]
    assert (
        levels[0] == "amiss"
        and "Distance 4, d: “here”" in found["findings"][0]["html"]
        and found["findings"][0]["cells"] == ["d-4"]
    )


# -- the graph -----------------------------------------------------------------------

GRAPH = Graph((60.0, 90.0, 150.0), (0.55, 0.8, 1.4), 0.0093, 0.0001, 1.4, 0.015, (0.0094, -0.01, 0.02))
TEXT = re.compile(r'<text x="([\d.-]+)" y="([\d.-]+)"[^>]*>([^<]*)</text>')


def scales(svg: str):
    """From a place in the drawing to x and y, by the numbers at its axes."""
    texts = [(float(x), float(y), text) for x, y, text in TEXT.findall(svg)]
    below = [(x, float(t)) for x, y, t in texts if y == BOTTOM + 14]
    beside = [(y - 4, float(t)) for x, y, t in texts if x == LEFT - 5]

    def along(pairs):
        (p0, v0), (p1, v1) = pairs[0], pairs[-1]
        assert v0 == 0 and len(pairs) >= 3
        return lambda p: v0 + (p - p0) * (v1 - v0) / (p1 - p0)

    return along(below), along(beside)


def test_points_and_lines_lie_where_the_axes_say():
    svg = graph_svg(GRAPH, (1, 2, 4), TAN_A.abscissa)
    x_of, y_of = scales(svg)
    points = [(float(x), float(y)) for x, y in re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)"', svg)]
    assert [x_of(x) for x, _ in points] == pytest.approx(GRAPH.xs, rel=2e-3)
    assert [y_of(y) for _, y in points] == pytest.approx(GRAPH.ys, abs=0.004)
    for (x, y), number in zip(points, "124"):
        assert any(
            abs(float(tx) - x + 7) < 0.11 and abs(float(ty) - y + 5) < 0.11 and t == number
            for tx, ty, t in TEXT.findall(svg)
        )
    through = re.search(r'<path d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)" stroke="var\(--er-accent', svg)
    free = re.search(r'<path d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)" stroke="var\(--er-soft', svg)
    for found, slope, intercept in ((through, GRAPH.slope, 0.0), (free, 0.0094, -0.01)):
        x0, y0, x1, y1 = map(float, found.groups())
        for x, y in ((x0, y0), (x1, y1)):
            assert y_of(y) == pytest.approx(intercept + slope * x_of(x), abs=0.01)
            assert LEFT - 0.1 <= x <= RIGHT + 0.1 and TOP - 0.1 <= y <= BOTTOM + 0.1
        assert x1 - x0 > 0.8 * (RIGHT - LEFT)  # over nearly the whole of the drawing
    assert "slope 0.00930 m³" in svg or "slope 9.30 × 10⁻³ m³" in svg
    assert "meets the upright axis at −0.010 ± 0.020" in svg and "distance 4: 150, 1.400." in svg
    assert "dash" not in graph_svg(replace(GRAPH, free=None), (1, 2, 4), TAN_A.abscissa)


def test_the_axes_are_named_at_their_middles():
    svg = graph_svg(GRAPH, (1, 2, 4), TAN_A.abscissa)
    named = {text: (float(x), float(y)) for x, y, text in TEXT.findall(svg)}
    assert named["2d/(d² − l²)² in m⁻³"] == ((LEFT + RIGHT) / 2, 242) and named["tan θ"] == (12, (TOP + BOTTOM) / 2)
    assert f"rotate(-90 12 {(TOP + BOTTOM) / 2:.0f})" in svg and 'viewBox="0 0 360 250"' in svg


def test_the_lines_of_the_grid_are_at_their_numbers():
    svg = graph_svg(GRAPH, (1, 2, 4), TAN_A.abscissa)
    x_of, y_of = scales(svg)
    grid = [
        tuple(map(float, p))
        for p in re.findall(r'<path d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)" stroke="var\(--er-line', svg)
    ]
    upright, level = [g for g in grid if g[0] == g[2]], [g for g in grid if g[1] == g[3]]
    assert {round(x_of(g[0])) for g in upright} == {0, 50, 100, 150} and {round(y_of(g[1]), 2) for g in level} == {
        0,
        0.5,
        1.0,
        1.5,
    }
    assert all((g[1], g[3]) == (BOTTOM, TOP) for g in upright) and all((g[0], g[2]) == (LEFT, RIGHT) for g in level)


@pytest.mark.parametrize("top", [0.11, 0.4, 1.0, 1.24, 1.26, 1.7, 2.4, 5.4, 5.6, 7.0, 30.0, 99.0, 160.0, 1234.0])
def test_axes_have_a_few_round_numbers(top):
    found = steps(top)
    size = found[1]
    assert 3 <= len(found) <= 6 and found[0] == 0 and found[-1] <= top * (1 + 1e-9) < found[-1] + size * (1 + 1e-9)
    assert found == pytest.approx([n * size for n in range(len(found))])
    assert re.fullmatch(r"(1|2|2\.5|5)(\.0)?e[+-]\d+", f"{size:.1e}".replace(".0e", "e")), size


# -- place and date ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "year", "month", "day"),
    [
        ("2026-03-14", 2026, 3, 14),
        ("2026-3", 2026, 3, 15),
        ("14 March 2026", 2026, 3, 14),
        ("March 2026", 2026, 3, 15),
        ("Dec. 31, 2026", 2026, 12, 31),
        ("1 Jan 2027", 2027, 1, 1),
        ("31.12.2026", 2026, 12, 31),
        ("13/1/2027", 2027, 1, 13),
        ("1/13/2027", 2027, 1, 13),
        ("5/5/2027", 2027, 5, 5),
        ("4.3.2026", 2026, 3, 4),
        ("29 Feb 2028", 2028, 2, 29),
        ("12/13/2028", 2028, 12, 13),
    ],
)
def test_the_model_is_asked_for_the_day(text, year, month, day):
    day_of_year = (datetime.date(year, month, day) - datetime.date(year - 1, 12, 31)).days
    when = year + (day_of_year - 1) / (366 if year % 4 == 0 else 365)
    here = next(p for p in PLACES if p.name == "Pune")
    found = field_of(Record({"place": "pune", "date": text}), None)
    assert found.model == horizontal(here.latitude, here.longitude, here.height, when) and not found.problems
    assert round(found.model, 7) == found.B_H and found.source == f"field model WMM2025 at Pune, {text}"
    assert found.total**2 == pytest.approx(found.vertical**2 + found.model**2, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "said"), [("12/11/2026", "2026-12-11"), ("1/2/2026", "2026-01-02"), ("12/12/2026", "")]
)
def test_a_date_that_can_be_read_two_ways(text, said):
    problem = field_of(Record({"place": "Pune", "date": text}), None).problems.get("date", "")
    assert bool(problem) is bool(said) and said in problem


def test_a_height_is_in_metres_if_nothing_else_is_said():
    def model(height, **more):
        return field_of(
            Record({"latitude": "18.5", "longitude": "73.9", "date": "2026-07-02", "height": height, **more}), None
        )

    assert (
        model("560").model
        == model("0.56 km").model
        == model("560 m").model
        == horizontal(18.5, 73.9, 0.56, 2026 + 182 / 365)
    )
    assert model("").model == model("0").model != model("560").model and "height" in model("high").problems
    listed = field_of(Record({"place": "Pune", "date": "2026-07-02", "height": "560"}), None)
    assert listed.model == model("560").model
    assert (
        model("").source == "field model WMM2025 at 18.5°, 73.9°, 2026-07-02"
        and "at Hut," in model("", place="Hut").source
    )
    assert "height" in model("9999 km").problems


def test_a_place_is_asked_for_only_where_it_is_needed():
    assert not field_of(Record({"place": "Saltmarsh", "B_H": "36"}), 36e-6).problems
    assert "date" not in field_of(Record({"place": "Pune"}), 36e-6).problems
    assert field_of(Record({"place": "Pune"}), 36e-6).source == "as typed"
    both = field_of(Record({"latitude": "x", "longitude": "y"}), None).problems
    assert "N or S" in both["latitude"] and "E or W" in both["longitude"]
    assert field_of(Record({}), None).B_H is None and field_of(Record({}), None).problems == {}


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("33° 54' 36\" S", -33.91),
        ("33 deg", 33.0),
        ("+12.5", 12.5),
        ("-12.5 S", 12.5),
        ("12.5 w", -12.5),
        ("12,5 east", 12.5),
        ("−70.5", -70.5),
        ("33°54′", 33.9),
        ("south", None),
        ("33.9 x", None),
        ("1234", None),
    ],
)
def test_angles(text, value):
    assert angle(text) == (pytest.approx(value, abs=1e-9) if value is not None else None)


def test_what_stands_at_the_top_is_what_keeps_the_result_back():
    """A date that the model does not know comes before an entry that is no number, and a misread reading too."""
    head = {k: v for k, v in HEAD.items() if k != "B_H"} | {"place": "Bergen", "date": "2024-01-31", "pole": "hello"}
    found = json.loads(page.check(json.dumps(as_plain(Record(head, ROWS)))))
    first = found["findings"][0]
    assert found["result"] == "" and first["cells"] == ["date"] and "type <i>B</i><sub>H</sub> itself" in first["html"]
    assert any(f["cells"] == ["pole"] and f["level"] == "amiss" for f in found["findings"])

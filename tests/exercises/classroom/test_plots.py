"""The plots: XML that can be read, words for all they show, and lengths that agree with the numbers."""

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exercises.classroom.report import plots
from exercises.classroom.report.counts import StateCounts, _spread
from exercises.classroom.report.plots import STATES, WIDE

SVG = "{http://www.w3.org/2000/svg}"
COUNTS = StateCounts(right=50, follows=20, slip=15, wrong=10, unread=3, blank=2)


def drawn(svg: str) -> ElementTree.Element:
    root = ElementTree.fromstring(svg)
    title, desc = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert root.get("role") == "img" and title.text and desc.text
    assert root.get("aria-labelledby") == f"{title.get('id')} {desc.get('id')}"
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    assert len(set(ids)) == len(ids)
    used = set(re.findall(r"url\(#([^)]*)\)", svg))
    assert used <= set(ids)
    _, _, wide, tall = map(float, root.get("viewBox").split())
    assert wide == WIDE
    for rect in root.iter(f"{SVG}rect"):
        if rect.get("x"):
            x, y, w, h = (float(rect.get(k)) for k in ("x", "y", "width", "height"))
            assert x >= -0.01 and x + w <= wide + 0.6 and y >= -0.01 and y + h <= tall, rect.attrib
    for text in root.iter(f"{SVG}text"):
        assert 0 <= float(text.get("x")) <= wide and 0 < float(text.get("y")) <= tall
    return root


def bars(root, state, ident="p"):
    return [r for r in root.iter(f"{SVG}rect") if r.get("fill") == f"url(#{ident}-{state})"]


def words(root) -> list[str]:
    return [t.text for t in root.iter(f"{SVG}text")]


def test_stretches_are_as_long_as_their_numbers():
    root = drawn(plots.stacked([("tan θ <&>", COUNTS)], "Entries", "50 of 100 right.", "p"))
    for state, number in COUNTS._asdict().items():
        key, stretch = bars(root, state)  # the legend's patch, and the one stretch
        assert float(stretch.get("width")) == pytest.approx(number / 100 * (WIDE - 1), abs=0.06)
        assert STATES[state].word in words(root) and float(key.get("width")) == 18
    assert "50 of 100 right" in words(root) and "tan θ <&>" in words(root)
    assert {"50", "20", "15", "10"} <= set(words(root)) and "2" not in words(root)  # no room for the smallest


def test_patterns_differ_so_that_nothing_hangs_on_colour():
    shapes = [re.sub(r"#\w+|var\([^)]*\)", "", state.pattern) for state in STATES.values()]
    assert len(set(shapes)) == len(STATES) and set(STATES) == set(StateCounts._fields)


def test_only_states_that_occur_are_in_the_legend():
    assert words(drawn(plots.stacked([("tan θ", StateCounts(right=3))], "Entries", "All right.", "p")))[0] == "right"
    assert "slip" not in words(drawn(plots.stacked([("tan θ", StateCounts(right=3))], "Entries", "All right.", "p")))


def test_long_names_are_broken_into_lines():
    name = "counted from the 90, or the needle read instead of the pointer"
    root = drawn(plots.plain_bars([(name, 7), ("short", 0)], 20, "Sheets", "Seven of twenty.", "p"))
    assert name not in words(root) and name in " ".join(words(root)) and all(len(w) < 50 for w in words(root))
    assert "7 of 20" in words(root) and float(bars(root, "slip")[0].get("width")) == pytest.approx(
        7 / 20 * (WIDE - 1), abs=0.06
    )


@given(st.lists(st.floats(-3, 12), min_size=1, max_size=80))
def test_a_spread_shows_every_value_once(ratios):
    found = _spread("m", ratios)
    if not found.near:
        return
    root = drawn(plots.spread(found, "How far", "So far.", "p"))
    numbers = [int(w.replace(",", "")) for w in words(root) if re.fullmatch(r"[\d,]+", w)]
    assert sum(numbers) == len(found.near) and len(bars(root, "wrong")) == len(numbers)
    assert max(float(b.get("height")) for b in bars(root, "wrong")) == pytest.approx(110 - 12 - 6, abs=0.06)


def test_the_scale_of_a_spread_follows_the_values():
    for size, mark in ((0.4, "+1 %"), (1.5, "+2 %"), (4.0, "+5 %"), (30.0, "+50 %")):
        assert mark in words(drawn(plots.spread(_spread("m", [1 + size / 100, 1 - size / 200]), "a", "b", "p")))
    near = _spread("m", [1.0] * 20 + [1.9, 0.6])
    shown = words(drawn(plots.spread(near, "a", "b", "p")))
    assert "less" in shown and "more" in shown and "−1 %" in shown


# -- where everything stands --------------------------------------------------


def boxes(root) -> list[tuple[float, float, float, float, str]]:
    """What each text takes, about: left, right, top, bottom; a letter is 0.54 of its size wide."""
    out = []
    for t in root.iter(f"{SVG}text"):
        long, x, y = plots.LETTER * len(t.text), float(t.get("x")), float(t.get("y"))
        left = x - long * {"start": 0, "middle": 0.5, "end": 1}[t.get("text-anchor")]
        out.append((left, left + long, y - 0.75 * plots.SIZE, y + 0.2 * plots.SIZE, t.text))
    return out


def overlapping(root):
    found = boxes(root)
    return [
        (a[4], b[4])
        for n, a in enumerate(found)
        for b in found[:n]
        if a[0] < b[1] and b[0] < a[1] and a[2] < b[3] and b[2] < a[3]
    ]


LONG = "the readings of the second arm only, or of one end of the pointer alone, whichever comes first"
ROWS = [
    (LONG, COUNTS),
    ("tan θ", StateCounts(right=1)),
    (LONG[:50], StateCounts(right=990, wrong=10)),
    ("none", StateCounts(blank=3)),
]


def test_no_text_stands_on_another():
    assert overlapping(drawn(plots.stacked(ROWS, "a", "b", "p"))) == []
    assert overlapping(drawn(plots.plain_bars([(name, 7) for name, _ in ROWS], 2000, "a", "b", "p"))) == []
    for ratios in ([1.0] * 5, [1.0, 1.001, 0.97, 1.3, 0.6], [1 + n / 90 for n in range(-30, 60)]):
        assert overlapping(drawn(plots.spread(_spread("m", ratios), "a", "b", "p"))) == []


def test_stretches_follow_one_another_on_a_line_of_their_own():
    root = drawn(plots.stacked(ROWS, "a", "b", "p"))
    found = [
        r
        for r in root.iter(f"{SVG}rect")
        if (r.get("fill") or "").startswith("url(") and float(r.get("height")) == plots.BAR
    ]
    lines: dict[float, list] = {}
    for r in found:
        lines.setdefault(float(r.get("y")), []).append((float(r.get("x")), float(r.get("width"))))
    assert len(lines) == len(ROWS) and [len(stretches) for stretches in lines.values()] == [6, 1, 2, 1]
    for stretches in lines.values():
        end = 0.5
        for x, width in stretches:
            assert x == pytest.approx(end, abs=0.11)
            end = x + width
        assert end == pytest.approx(WIDE - 0.5, abs=0.3)
    # below every name there is its bar, and every line of a name is as far below the one before as a letter is high
    tops = sorted(lines)
    assert all(b - a >= plots.BAR + plots.GAP + plots.SIZE for a, b in zip(tops, tops[1:]))
    bottom = float(root.get("viewBox").split()[3])
    assert bottom == pytest.approx(tops[-1] + plots.BAR + plots.GAP, abs=0.1)
    for _, right, top, low, text in boxes(root):
        if re.fullmatch(r"\d+ of \d+ right", text):
            y = min(t for t in tops if t > top)
            assert right == WIDE and 0 < y - low < plots.SIZE * 6


def test_numbers_stand_in_the_middle_of_their_stretch_where_there_is_room():
    """Two figures need 2 × 6.48 + 5 = 18 of the drawing's units and 2 to spare: 6 of a hundred are 20.3 wide, 5 are
    17."""
    for few, told in ((5, False), (6, True)):
        root = drawn(plots.stacked([("a", StateCounts(right=1000 - 10 * few, wrong=10 * few))], "t", "s", "p"))
        assert (str(10 * few) in words(root)) is told
    root = drawn(plots.stacked([("a", COUNTS)], "t", "s", "p"))
    for state, number in COUNTS._asdict().items():
        (_, stretch), text = (
            bars(root, state),
            next((t for t in root.iter(f"{SVG}text") if t.text == str(number)), None),
        )
        if text is not None:
            middle = float(stretch.get("x")) + float(stretch.get("width")) / 2
            assert float(text.get("x")) == pytest.approx(middle, abs=0.2)
            plate = [
                r
                for r in root.iter(f"{SVG}rect")
                if r.get("fill") == plots.PAPER and r.get("x") and float(r.get("height")) == plots.BAR - 4
            ]
            assert any(abs(float(p.get("x")) + float(p.get("width")) / 2 - middle) < 0.2 for p in plate)
            assert float(stretch.get("y")) < float(text.get("y")) < float(stretch.get("y")) + plots.BAR


def test_the_legend_goes_on_below_where_the_width_is_full():
    root = drawn(plots.stacked([("a", COUNTS)], "t", "s", "p"))
    keys = [
        (b, t) for s in STATES for b in bars(root, s)[:1] for t in root.iter(f"{SVG}text") if t.text == STATES[s][0]
    ]
    places = [(float(b.get("y")), float(b.get("x")), float(t.get("x")), float(t.get("y"))) for b, t in keys]
    assert places == sorted(places) and len({y for y, *_ in places}) == 2 and places[0][1] == 0.5
    for y, x, tx, ty in places:
        assert 18 < tx - x < 25 and y < ty < y + plots.SIZE
    assert all(right <= WIDE for _, right, _, _, text in boxes(root))
    one = drawn(plots.stacked([("a", StateCounts(right=1, wrong=1, blank=1))], "t", "s", "p"))
    assert len({b.get("y") for s in ("right", "wrong", "blank") for b in bars(one, s)[:1]}) == 1


def at_marks(root) -> tuple[float, float]:
    """Of a spread: where 0 stands, and how long one per cent is."""
    x = {t.text: float(t.get("x")) for t in root.iter(f"{SVG}text")}
    mark = next(text for text in x if text.startswith("+"))
    return x["right"], (x[mark] - x["right"]) / float(mark[1:-2])


def test_a_spread_is_drawn_to_its_scale():
    ratios = [1 + n / 100 for n in (-4.9, -2.4, -0.2, 0.0, 0.3, 2.1, 4.9)]
    root = drawn(plots.spread(_spread("m", ratios), "a", "b", "p"))
    middle, one = at_marks(root)
    assert middle == pytest.approx(WIDE / 2, abs=0.1)
    found = [(float(b.get("x")) - 0.5, float(b.get("width"))) for b in bars(root, "wrong")]
    for value in (-4.9, -2.4, 0.0, 2.1, 4.9):
        assert any(x - 0.1 <= middle + one * value <= x + width + 0.1 for x, width in found), value
    assert len({width for _, width in found}) == 1 and found[0][1] * plots.BINS == pytest.approx(10 * one, abs=0.6)
    for b in bars(root, "wrong"):  # its number stands above the middle of a bar
        middle_of, top = float(b.get("x")) - 0.5 + float(b.get("width")) / 2, float(b.get("y"))
        assert any(
            abs(float(t.get("x")) - middle_of) < 0.2 and abs(float(t.get("y")) - top + 4) < 0.2
            for t in root.iter(f"{SVG}text")
        )
        assert top + float(b.get("height")) == pytest.approx(110, abs=0.11)
    low, centre, high = _spread("m", ratios).quartiles
    box = next(r for r in root.iter(f"{SVG}rect") if r.get("height") == "8")
    assert float(box.get("x")) == pytest.approx(middle + one * low - 1, abs=0.1)
    assert float(box.get("width")) == pytest.approx(one * (high - low) + 2, abs=0.15)
    median = next(p for p in root.iter(f"{SVG}path") if p.get("stroke-width") == "2.5")
    assert float(re.match(r"M([\d.]+)", median.get("d"))[1]) == pytest.approx(middle + one * centre, abs=0.1)
    ticks = [float(x) for p in root.iter(f"{SVG}path") for x in re.findall(r"^M([\d.]+) 110\.0v5$", p.get("d"))]
    assert ticks == pytest.approx([middle - 5 * one, middle, middle + 5 * one], abs=0.1)


def test_what_is_beyond_the_scale_stands_at_its_ends():
    near = [1.0] * 30 + [1.9, 0.6, 0.55]
    root = drawn(plots.spread(_spread("m", near), "a", "b", "p"))
    found = {float(b.get("x")) - 0.5: t for b in bars(root, "wrong") for t in [float(b.get("height"))]}
    assert (
        min(found) == 0.0 and max(found) == pytest.approx(WIDE - WIDE / (plots.BINS + 4), abs=0.1) and len(found) == 3
    )
    assert found[0.0] == pytest.approx(2 * found[max(found)], abs=0.15)
    assert ("less" in words(root)) and "more" in words(root)
    assert not {"less", "more"} & set(words(drawn(plots.spread(_spread("m", [1.0] * 9), "a", "b", "p"))))


def test_nine_in_ten_are_within_the_scale():
    for far, mark in ((1, "+1 %"), (2, "+2 %")):  # of ten values
        assert mark in words(drawn(plots.spread(_spread("m", [1.0] * (10 - far) + [1.015] * far), "a", "b", "p")))
    for size, mark in (
        (1.0, "+1 %"),
        (2.0, "+2 %"),
        (5.0, "+5 %"),
        (10.0, "+10 %"),
        (20.0, "+20 %"),
        (50.0, "+50 %"),
        (70.0, "+100 %"),
    ):
        assert mark in words(drawn(plots.spread(_spread("m", [1 + (size - 1e-6) / 100] * 5), "a", "b", "p"))), size


def test_the_words_for_the_quartiles_stand_where_there_is_room():
    for ratios, anchor in (([1.04] * 5 + [0.95], "end"), ([0.96] * 5 + [1.05], "start")):
        root = drawn(plots.spread(_spread("m", ratios), "a", "b", "p"))
        text = next(t for t in root.iter(f"{SVG}text") if t.text == "middle half and median")
        assert text.get("text-anchor") == anchor
        box = next(r for r in root.iter(f"{SVG}rect") if r.get("height") == "8")
        left, right, top, low, _ = next(b for b in boxes(root) if b[4] == text.text)
        assert right < float(box.get("x")) if anchor == "end" else left > float(box.get("x")) + float(box.get("width"))
        assert top < float(box.get("y")) + 4 < low


def test_a_bar_of_many_stands_in_its_frame():
    rows = [("short", 5), (LONG, 20), ("none", 0)]
    root = drawn(plots.plain_bars(rows, 20, "a", "b", "p"))
    frames = [r for r in root.iter(f"{SVG}rect") if r.get("fill") == plots.PAPER and r.get("x")]
    assert len(frames) == len(rows)
    tall, bottom = float(root.get("viewBox").split()[3]), 0.0
    for frame, bar, (name, number) in zip(frames, bars(root, "slip"), rows):
        assert (frame.get("x"), float(frame.get("width")), float(frame.get("height"))) == (
            "0.5",
            WIDE - 1,
            plots.BAR / 2,
        )
        assert (bar.get("x"), bar.get("y"), bar.get("height")) == ("0.5", frame.get("y"), frame.get("height"))
        assert float(bar.get("width")) == pytest.approx((WIDE - 1) * number / 20, abs=0.06)
        above = [b for b in boxes(root) if bottom <= b[2] and b[3] <= float(frame.get("y"))]
        assert (
            f"{number} of 20" in [b[4] for b in above] and " ".join(b[4] for b in above if " of 20" not in b[4]) == name
        )
        bottom = float(frame.get("y")) + plots.BAR / 2
    assert tall == pytest.approx(bottom + plots.GAP, abs=0.1)

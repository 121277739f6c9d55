"""The plots: XML that can be read, words for all they show, and lengths that agree with the numbers."""

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exercises.classroom import plots
from exercises.classroom.plots import STATES, WIDE
from exercises.classroom.report import Counts, _spread

SVG = "{http://www.w3.org/2000/svg}"
COUNTS = Counts(right=50, follows=20, slip=15, wrong=10, unread=3, blank=2)


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
            assert -0.01 <= x and x + w <= wide + 0.6 and -0.01 <= y and y + h <= tall, rect.attrib
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
        assert STATES[state][0] in words(root) and float(key.get("width")) == 18
    assert "50 of 100 right" in words(root) and "tan θ <&>" in words(root)
    assert {"50", "20", "15", "10"} <= set(words(root)) and "2" not in words(root)  # no room for the smallest


def test_patterns_differ_so_that_nothing_hangs_on_colour():
    shapes = [re.sub(r"#\w+|var\([^)]*\)", "", mark) for _, _, mark in STATES.values()]
    assert len(set(shapes)) == len(STATES) and set(STATES) == set(Counts._fields)


def test_only_states_that_occur_are_in_the_legend():
    assert words(drawn(plots.stacked([("tan θ", Counts(right=3))], "Entries", "All right.", "p")))[0] == "right"
    assert "slip" not in words(drawn(plots.stacked([("tan θ", Counts(right=3))], "Entries", "All right.", "p")))


def test_long_names_are_broken_into_lines():
    name = "counted from the 90, or the needle read instead of the pointer"
    root = drawn(plots.plain_bars([(name, 7), ("short", 0)], 20, "Sheets", "Seven of twenty.", "p"))
    assert name not in words(root) and name in " ".join(words(root)) and all(len(w) < 50 for w in words(root))
    assert "7 of 20" in words(root) and float(bars(root, "slip")[0].get("width")) == pytest.approx(7 / 20 * (WIDE - 1), abs=0.06)


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

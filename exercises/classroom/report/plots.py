"""Small plots of counts as SVG text: they print, follow the page's colours, and say in words what they show.

Meaning never hangs on colour: each state has a pattern of its own, a number, and its word in the legend.
Every length is in the units of the drawing, which is as wide as a narrow telephone shows at full size.
"""

import textwrap
from collections.abc import Sequence
from typing import NamedTuple

from exercises.classroom.report.counts import Spread, StateCounts
from exercises.working.mathematics import drawn, spoken

WIDE = 340
SIZE = 12  # of the letters
INK, SOFT, LINE, PAPER = (
    "var(--er-ink, #22302f)",
    "var(--er-soft, #55635f)",
    "var(--er-faint, #888)",
    "var(--er-sheet, #fff)",
)


class State(NamedTuple):
    """How the entries of one state are shown.

    word  in the legend;  short  at the head of a column
    colour  of the pattern;  pattern  what is drawn over the paper in a square of 6 by 6
    """

    word: str
    short: str
    colour: str
    pattern: str


STATES = {
    "right": State("right", "right", "var(--er-right, #1d6b3a)", '<rect width="6" height="6" fill-opacity="0.3"/>'),
    "follows": State(
        "follows from a wrong start",
        "follows",
        "var(--er-amber, #7a5200)",
        '<path d="M0 6L6 0M-1 1L1 -1M5 7L7 5"/>',
    ),
    "slip": State("slip", "slip", "var(--er-wrong, #a02c20)", '<path d="M0 0L6 6M0 6L6 0"/>'),
    "wrong": State("not right", "not right", "var(--er-south, #2b4f9e)", '<path d="M1.5 0V6M4.5 0V6"/>'),
    "unread": State("not read", "not read", SOFT, '<circle cx="3" cy="3" r="1.1"/>'),
    "blank": State("blank", "blank", LINE, ""),
}
BAR, GAP = 16, 9  # height of a bar, and what is free below it
LETTER = 0.54 * SIZE  # width of a letter, about
LIMITS = (1, 2, 5, 10, 20, 50, 100)  # per cent, of the scale of a spread
BINS = 11


def stacked(rows: Sequence[tuple[str, StateCounts]], title: str, says: str, ident: str) -> str:
    """A bar for each row, as long as all its entries, in stretches by state.

    ident  begins every id in the drawing, so that several may stand on one page
    """
    used = [s for s in STATES if any(getattr(counts, s) for _, counts in rows)]
    legend, top = _legend(used, ident)
    parts = [legend]
    for label, counts in rows:
        told = f"{counts.right:,} of {counts.all:,} right"
        lines = textwrap.wrap(label, int((WIDE - LETTER * (len(told) + 2)) / LETTER))
        parts += [_text(0, top + SIZE * (n + 1), line) for n, line in enumerate(lines)]
        parts.append(_text(WIDE, top + SIZE, told, SOFT, "end"))
        top += SIZE * len(lines) + 5
        x = 0.0
        for state in used:
            number = getattr(counts, state)
            long = (WIDE - 1) * number / counts.all
            if number:
                parts.append(_bar(x, top, long, state, ident))
                parts.append(_number(x + long / 2, top, long, number))
            x += long
        top += BAR + GAP
    return _drawing(top, title, says, ident, _patterns(used, ident) + "".join(parts))


def plain_bars(rows: Sequence[tuple[str, int]], of: int, title: str, says: str, ident: str) -> str:
    """A bar for each number, of so many that would fill the width."""
    parts, top = [], 0.0
    for label, number in rows:
        lines = textwrap.wrap(label, int((WIDE - 9 * LETTER) / LETTER))
        parts += [_text(0, top + SIZE * (n + 1), line) for n, line in enumerate(lines)]
        parts.append(_text(WIDE, top + SIZE, f"{number:,} of {of:,}", SOFT, "end"))
        top += SIZE * len(lines) + 5
        parts.append(
            f'<rect x="0.5" y="{_n(top)}" width="{WIDE - 1}" height="{BAR // 2}" fill="{PAPER}" stroke="{LINE}"/>'
        )
        parts.append(_bar(0, top, (WIDE - 1) * number / of, "slip", ident, BAR // 2))
        top += BAR // 2 + GAP
    return _drawing(top, title, says, ident, _patterns(["slip"], ident) + "".join(parts))


def spread(found: Spread, title: str, says: str, ident: str) -> str:
    """How often a result was so many per cent away from right: a histogram, with the quartiles below it.

    What is farther than the scale goes stands in a bar of its own at either end.
    """
    limit = next((m for m in LIMITS if sum(abs(v) <= m for v in found.near) >= 0.9 * len(found.near)), LIMITS[-1])
    bins = [0] * (BINS + 2)
    for value in found.near:
        at = int((value + limit) / (2 * limit) * BINS) + 1 if abs(value) < limit else 0 if value < 0 else BINS + 1
        bins[at] += 1
    step, floor = WIDE / (BINS + 4), 110.0
    left = [0.0, *(step * (2 + n) for n in range(BINS)), WIDE - step]
    tall = (floor - SIZE - 6) / max(*bins, 1)
    parts = []
    for x, number in zip(left, bins):
        if number:
            parts.append(_bar(x, floor - tall * number, step, "wrong", ident, tall * number))
            parts.append(_text(x + step / 2, floor - tall * number - 4, f"{number:,}", INK, "middle"))
    parts.append(f'<path d="M0 {floor}H{WIDE}" stroke="{INK}" fill="none"/>')
    middle, half = step * (2 + BINS / 2), step * BINS / 2
    for mark in (-limit, 0, limit):
        x = middle + half * mark / limit
        parts.append(f'<path d="M{_n(x)} {floor}v5" stroke="{INK}"/>')
        parts.append(_text(x, floor + 5 + SIZE, f"{mark:+g} %".replace("-", "−") if mark else "right", INK, "middle"))
    ends = ((0, "less", "start", bins[0]), (WIDE, "more", "end", bins[-1]))
    parts += [_text(x, floor + 9 + 2 * SIZE, word, SOFT, anchor) for x, word, anchor, number in ends if number]
    if found.quartiles:
        low, centre, high = (middle + half * max(-1.0, min(1.0, q / limit)) for q in found.quartiles)
        y = floor + 2 * SIZE + 16
        parts.append(f'<rect x="{_n(low - 1)}" y="{y - 4}" width="{_n(high - low + 2)}" height="8" fill="{SOFT}"/>')
        parts.append(f'<path d="M{_n(centre)} {y - 8}v16" stroke="{INK}" stroke-width="2.5"/>')
        anchor, x = ("start", high + 7) if high < 0.6 * WIDE else ("end", low - 7)
        parts.append(_text(x, y + 4, "middle half and median", SOFT, anchor))
    return _drawing(floor + 2 * SIZE + 28, title, says, ident, _patterns(["wrong"], ident) + "".join(parts))


def _drawing(tall: float, title: str, says: str, ident: str, inside: str) -> str:
    return (
        f'<svg class="er-figure" xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE} {_n(tall)}" role="img" '
        f'aria-labelledby="{ident}-title {ident}-desc" font-size="{SIZE}" font-family="system-ui, sans-serif">'
        f'<title id="{ident}-title">{spoken(title)}</title><desc id="{ident}-desc">{spoken(says)}</desc>{inside}</svg>'
    )


def _patterns(states: Sequence[str], ident: str) -> str:
    return f"<defs>{''.join(_pattern(state, ident) for state in states)}</defs>"


def _pattern(state: str, ident: str) -> str:
    _, _, colour, pattern = STATES[state]
    fill, stroke = (colour, "none") if state in ("right", "unread") else ("none", colour)
    return (
        f'<pattern id="{ident}-{state}" width="6" height="6" patternUnits="userSpaceOnUse">'
        f'<rect width="6" height="6" fill="{PAPER}"/>'
        f'<g fill="{fill}" stroke="{stroke}" stroke-width="1.1">{pattern}</g></pattern>'
    )


def _legend(states: Sequence[str], ident: str) -> tuple[str, float]:
    """The legend, and how far down it reaches."""
    parts, x, y = [], 0.0, 0.0
    for state in states:
        word = STATES[state].word
        long = 24 + LETTER * len(word) + 12
        if x and x + long > WIDE:
            x, y = 0.0, y + SIZE + 8
        parts.append(_bar(x, y + 1, 18, state, ident, SIZE) + _text(x + 23, y + SIZE - 1, word))
        x += long
    return "".join(parts), y + SIZE + 12


def _bar(x: float, y: float, long: float, state: str, ident: str, tall: float = BAR) -> str:
    return (
        f'<rect x="{_n(x + 0.5)}" y="{_n(y)}" width="{_n(long)}" height="{_n(tall)}" fill="url(#{ident}-{state})" '
        f'stroke="{STATES[state].colour}"/>'
    )


def _number(middle: float, top: float, long: float, number: int) -> str:
    """A number on a plate of paper in its stretch, if it has room."""
    word = f"{number:,}"
    plate = LETTER * len(word) + 5
    if plate > long - 2:
        return ""
    return (
        f'<rect x="{_n(middle - plate / 2 + 0.5)}" y="{_n(top + 2)}" width="{_n(plate)}" height="{BAR - 4}" '
        f'fill="{PAPER}"/>' + _text(middle + 0.5, top + BAR - 4, word, INK, "middle")
    )


def _text(x: float, y: float, text: str, fill: str = INK, anchor: str = "start") -> str:
    return f'<text x="{_n(x)}" y="{_n(y)}" fill="{fill}" text-anchor="{anchor}">{drawn(text)}</text>'


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")

"""A board as it stands on the bench, seen from above: an SVG, and the same in words.

Magnetic north is at the top, so the needle stands upright and the pointer lies
level.  The scale and the arms lie at their true angles to it.  Below the plan
three places of the rim are drawn enlarged, as through a reading glass: both
ends of the pointer, and where the line of the arms crosses the scale.
"""

import math
from html import escape

from exercises.bench.instrument import Box
from exercises.kinds.dial.drawing import divisions, glass
from exercises.kinds.dial.strokes import (
    ACCENT,
    FAINT,
    GLASS,
    INK,
    WIDTH,
    Rim,
    fine,
    line,
    needle,
    ring,
    shown,
    text,
)
from exercises.kinds.setting.scenario import Board

PLAN = 200  # height of the plan
CENTRE = (WIDTH / 2, PLAN / 2)
RADIUS = 54  # of the circle where the divisions begin
NUMBERS = 71  # where the numbers stand, from the centre
BOX_RADIUS = 81
ARM, HALF_BREADTH = 152, 12  # from the centre to an arm's end, and half the breadth of the board
SHEET = "var(--er-sheet,#fffdf8)"
SIDES = {True: "clockwise", False: "anticlockwise"}


def _towards(degrees: float, reach: float, across: float = 0.0) -> tuple[float, float]:
    """The place so far from the centre in the direction so many degrees clockwise of east, and so far across it."""
    a = math.radians(degrees)
    return (
        CENTRE[0] + reach * math.cos(a) - across * math.sin(a),
        CENTRE[1] + reach * math.sin(a) + across * math.cos(a),
    )


def _arms(board: Board) -> str:
    """The board with its middle line, and the names of its arms."""
    corners = [_towards(board.arms, ARM * a, HALF_BREADTH * b) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    path = "L".join(f"{fine(x)} {fine(y)}" for x, y in corners)
    lines = "".join(_middle_line(board.arms, sign) for sign in (1, -1))
    names = "".join(
        text(*_towards(board.arms, sign * 124, -25), name, 12) for sign, name in ((1, "east arm"), (-1, "west arm"))
    )
    return f'<path d="M{path}Z" fill="none" stroke="{INK}" stroke-width="1"/>{lines}{names}'


def _middle_line(arms: float, sign: int) -> str:
    """The double line along the middle of one arm, up to the box."""
    return "".join(
        line(*_towards(arms, sign * BOX_RADIUS, across), *_towards(arms, sign * ARM, across), INK, 0.8)
        for across in (-1.5, 1.5)
    )


def _box(board: Board) -> str:
    """The box: its scale, which lies as the box does, its 0–0 line, the needle and the pointer."""
    cx, cy = CENTRE
    turn = -board.pointer  # of the 0 at the east: the pointer lies level
    out = [
        f'<circle cx="{fine(cx)}" cy="{fine(cy)}" r="{BOX_RADIUS}" fill="{SHEET}" stroke="{INK}" stroke-width="1.2"/>',
        f'<circle cx="{fine(cx)}" cy="{fine(cy)}" r="{RADIUS}" fill="none" stroke="{INK}" stroke-width="1"/>',
        *(ring(cx, cy, RADIUS, *divisions, turn) for divisions in ((4, 2, 0.5), (7, 10, 1.0), (10, 90, 1.8))),
    ]
    for mark in range(0, 360, 30):
        zero = mark % 180 == 0
        out.append(text(*_towards(turn + mark, NUMBERS), shown(mark), 13 if zero else 10, INK, "bold" if zero else ""))
    out.append(
        line(*_towards(turn, -RADIUS), *_towards(turn, RADIUS), INK, 0.7).replace("/>", ' stroke-dasharray="3 3"/>')
    )
    px, py = cx + board.pivot_x / Box().radius * RADIUS, cy - board.pivot_y / Box().radius * RADIUS
    out.append(line(px - RADIUS, py, px + RADIUS, py, ACCENT, 1.6))
    out += [text(px + sign * 36, py - 9, mark, 13, ACCENT) for sign, mark in ((1, "①"), (-1, "②"))]
    return "".join(out) + needle(px, py, 0.0, half=20, thick=3.5, size=11)


def _line_glass(board: Board, step: float, top: float) -> str:
    """Where the line of the arms crosses the scale, at the 0 in the east, enlarged."""
    rim = Rim(top, round(board.line / 5) * 5, step)
    out = [rim.drawn()]
    lean = math.radians(board.line - rim.middle)
    for across in (-2.5, 2.5):
        (x1, y1), (x2, y2) = rim.at(board.line, -18), rim.at(board.line, 46)
        dx, dy = across * math.cos(lean), across * math.sin(lean)
        out.append(line(x1 + dx, y1 + dy, x2 + dx, y2 + dy, INK, 1.2))
    return "".join(out) + text(24, top + 82, "arms", 15) + line(0, top, WIDTH, top, FAINT, 1)


def _where(place: float, step: float) -> str:
    low, count = divisions(abs(place), step)
    return (
        f"{SIDES[place > 0]} of its 0, between the marks numbered {low} and {low + 10}, at division {count} counted "
        f"from the {low}"
    )


def words(board: Board, box: Box, step: float) -> str:
    """What is to be seen of a board, by counting: where each end and the line lie on the scale, not what they show."""
    ends = " ".join(
        f"End {mark} of the pointer lies {_where(place, step)}." for mark, place in zip("①②", board.signed_ends(box))
    )
    return (
        "Seen from above, magnetic north at the top. The needle points north with its N end; the pointer is square to "
        f"it, end ① to the east. {ends} The line of the east arm lies {_where(board.line, step)}."
    )


def plan(board: Board, said: str) -> str:
    """The board from above as one `<svg>`, without the glasses; said is what it shows, in words."""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="er-figure er-scale" viewBox="0 0 {WIDTH} {PLAN}" role="img" '
        f'aria-label="{escape(said)}">{_arms(board)}{_box(board)}</svg>'
    )


def drawn(board: Board, box: Box, step: float, label: str) -> str:
    """The board as one `<svg>`, its name and what it shows in words.  No id in it, so any number fit a page."""
    said = f"{label}. {words(board, box, step)} One division is {'half a degree' if step == 0.5 else 'one degree'}."
    glasses = [glass(0.0, end, box, board.faults, step, PLAN + (end - 1) * GLASS) for end in (1, 2)]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="er-figure er-scale" viewBox="0 0 {WIDTH} {PLAN + 3 * GLASS}" '
        f'role="img" aria-label="{escape(said)}">'
        + _arms(board)
        + _box(board)
        + "".join(glasses)
        + _line_glass(board, step, PLAN + 2 * GLASS)
        + "</svg>"
    )

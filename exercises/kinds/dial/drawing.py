"""The dial of the compass box as the instrument shows it: an SVG, and the same in words.

Seen from above, east to the right.  The scale is drawn about its own centre,
turned by the zero error.  The pointer is drawn from where the pivot stands,
which may be off that centre, so that each drawn tip lies at the angle that
`instrument.pointer_ends` gives.  Below the dial each tip is drawn once more,
enlarged, as through a reading glass, with the rim upwards.
"""

import math
from html import escape

from exercises.bench.instrument import Box, Faults, pointer_ends

WIDTH, DIAL, GLASS = 320, 222, 96  # of the drawing, of the dial's height and of each glass's
RADIUS = 78  # of the circle where the divisions begin
PER_DEGREE = 12.0  # in a glass
HALF_WINDOW = 12.5  # degrees to either side in a glass: two numbered marks are always seen
INK, ACCENT, FAINT = "var(--er-ink,#22302f)", "var(--er-accent,#0f6b62)", "var(--er-faint,#b9c0bb)"
NORTH, SOUTH = "var(--er-north,#b23a2e)", "var(--er-south,#2b4f9e)"


def shown(turn: int) -> int:
    """The number at a whole-degree turn from the first 0: 0–90 in each of the four quadrants.

    >>> [shown(a) for a in (0, 40, 90, 130, 180, 350)]
    [0, 40, 90, 50, 0, 10]
    """
    return min(turn % 180, 180 - turn % 180)


def tip(phi: float, end: int, box: Box, faults: Faults) -> tuple[float, float]:
    """Where the tip of end 1 or 2 lies, x and y (north) from the centre of the scale, in scale radii."""
    turn, sign = math.radians(phi), 1 if end == 1 else -1
    return (
        faults.pivot_x / box.radius + sign * math.cos(turn),
        faults.pivot_y / box.radius - sign * math.sin(turn),
    )


def _fine(x: float) -> str:
    return f"{x:.1f}".removesuffix(".0")


def _line(x1: float, y1: float, x2: float, y2: float, color: str, width: float) -> str:
    return (
        f'<path d="M{_fine(x1)} {_fine(y1)}L{_fine(x2)} {_fine(y2)}" stroke="{color}" '
        f'stroke-width="{width}" fill="none"/>'
    )


def _text(x: float, y: float, text: str | int, size: int, color: str = INK, weight: str = "") -> str:
    bold = f' font-weight="{weight}"' if weight else ""
    return (
        f'<text x="{_fine(x)}" y="{_fine(y)}" font-size="{size}" fill="{color}" text-anchor="middle" '
        f'dominant-baseline="central"{bold}>{text}</text>'
    )


def _ring(cx: float, cy: float, inner: float, length: float, every: float, width: float, turn: float) -> str:
    """Divisions every so many degrees, as the dashes of one circle that starts at the east, turned so many degrees."""
    dash = math.degrees(width / (inner + length / 2))
    return (
        f'<circle cx="{cx}" cy="{cy}" r="{_fine(inner + length / 2)}" fill="none" stroke="{INK}" '
        f'stroke-width="{length}" pathLength="360" stroke-dasharray="{dash:.3f} {every - dash:.3f}" '
        f'stroke-dashoffset="{dash / 2:.3f}" transform="rotate({_fine(turn)} {cx} {cy})"/>'
    )


def _whole(phi: float, box: Box, faults: Faults) -> str:
    """The dial: its scale, the pointer, and the needle on its pivot."""
    return _scale(faults) + _pointer(phi, box, faults) + _needle(phi, box, faults)


def _scale(faults: Faults) -> str:
    cx, cy = WIDTH / 2, DIAL / 2
    out = [
        f'<circle cx="{_fine(cx)}" cy="{_fine(cy)}" r="{RADIUS}" fill="none" stroke="{INK}" stroke-width="1"/>',
        *(
            _ring(cx, cy, RADIUS, length, every, width, -faults.at_rest)
            for length, every, width in ((5, 1, 0.5), (8, 5, 0.8), (11, 10, 1.1))
        ),
    ]
    for turn in range(0, 360, 10):
        a = math.radians(turn - faults.at_rest)
        out.append(_text(cx + 99 * math.cos(a), cy + 99 * math.sin(a), shown(turn), 11))
    return "".join(out)


def _towards_end_1(phi: float) -> tuple[float, float]:
    """The direction of end 1 of the pointer, y downwards."""
    turn = math.radians(phi)
    return math.cos(turn), math.sin(turn)


def _pointer(phi: float, box: Box, faults: Faults) -> str:
    cx, cy = WIDTH / 2, DIAL / 2
    ux, uy = _towards_end_1(phi)
    ends = [(cx + RADIUS * x, cy - RADIUS * y) for x, y in (tip(phi, end, box, faults) for end in (1, 2))]
    out = [_line(*ends[0], *ends[1], ACCENT, 1.4)]
    for (x, y), mark, sign in zip(ends, "①②", (1, -1)):
        # beside the pointer, on the side of the needle's N end
        out.append(_text(x - sign * 20 * ux - 11 * -uy, y - sign * 20 * uy - 11 * ux, mark, 14, ACCENT))
    return "".join(out)


def _needle(phi: float, box: Box, faults: Faults) -> str:
    out = []
    px = WIDTH / 2 + faults.pivot_x / box.radius * RADIUS
    py = DIAL / 2 - faults.pivot_y / box.radius * RADIUS
    ux, uy = _towards_end_1(phi)
    half, thick = 26, 4.5
    nx, ny = uy, -ux  # the needle's N end, at right angles to the pointer
    for sign, color, letter in ((1, NORTH, "N"), (-1, SOUTH, "S")):
        x, y = px + sign * nx * half, py + sign * ny * half
        out.append(
            f'<path d="M{_fine(x)} {_fine(y)}L{_fine(px + ux * thick)} {_fine(py + uy * thick)}L'
            f'{_fine(px - ux * thick)} {_fine(py - uy * thick)}Z" fill="{color}"/>'
        )
        out.append(_text(x + sign * nx * 9, y + sign * ny * 9, letter, 12, color, "bold"))
    out.append(f'<circle cx="{_fine(px)}" cy="{_fine(py)}" r="2" fill="{INK}"/>')
    return "".join(out)


def glass_place(phi: float, end: int, box: Box, faults: Faults) -> tuple[float, float]:
    """(the tip's turn clockwise from its own zero of the undisturbed scale, its distance from the centre in radii)."""
    x, y = tip(phi, end, box, faults)
    sign = 1 if end == 1 else -1
    return -math.degrees(math.atan2(sign * y, sign * x)), math.hypot(x, y)


def _glass(phi: float, end: int, box: Box, faults: Faults, step: float, top: float) -> str:
    """One end enlarged, the rim upwards; clockwise on the dial is to the right."""
    turn, reach = glass_place(phi, end, box, faults)
    radius = math.degrees(PER_DEGREE)
    signed = turn + faults.at_rest  # what the scale has there, clockwise from this end's 0
    middle = round(signed / 5) * 5
    cx, base = WIDTH / 2, top + 50

    def at(mark: float, out: float) -> tuple[float, float]:
        a = math.radians(mark - middle)
        return cx + (radius + out) * math.sin(a), base + radius - (radius + out) * math.cos(a)

    parts: list[str] = []
    path: list[str] = []
    count = math.floor(HALF_WINDOW / step)
    for i in range(-count, count + 1):
        mark = middle + i * step
        whole = mark == round(mark)
        length = 24 if whole and mark % 10 == 0 else 18 if whole and mark % 5 == 0 else 12 if whole else 7
        (x1, y1), (x2, y2) = at(mark, 0), at(mark, length)
        path.append(f"M{_fine(x1)} {_fine(y1)}L{_fine(x2)} {_fine(y2)}")
        if whole and mark % 10 == 0:
            x, y = at(mark, 35)
            parts.append(_text(x, y, shown(int(mark)), 17))
    (x1, y1), (x2, y2) = at(middle - HALF_WINDOW, 0), at(middle + HALF_WINDOW, 0)
    parts.append(f'<path d="{"".join(path)}" stroke="{INK}" stroke-width="1" fill="none"/>')
    parts.append(
        f'<path d="M{_fine(x1)} {_fine(y1)}A{radius:.0f} {radius:.0f} 0 0 1 {_fine(x2)} {_fine(y2)}" '
        f'stroke="{INK}" stroke-width="1" fill="none"/>'
    )
    x, y = at(signed, (reach - 1) * radius)
    lean = math.radians(phi + faults.at_rest - middle)  # the pointer's own direction, from the vertical
    dx, dy = math.sin(lean), -math.cos(lean)
    bx, by = x - 34 * dx, y - 34 * dy
    parts.append(
        f'<path d="M{x:.2f} {y:.2f}L{_fine(bx - 3 * dy)} {_fine(by + 3 * dx)}'
        f'L{_fine(bx + 3 * dy)} {_fine(by - 3 * dx)}Z" fill="{ACCENT}"/>'
    )
    parts.append(_text(16, top + 82, "①②"[end - 1], 19, ACCENT))
    parts.append(_line(0, top, WIDTH, top, FAINT, 1))
    return "".join(parts)


def words(reading: float, end: int, step: float) -> str:
    """Where a tip lies, by counting: the numbered marks about it and the division, not the reading.

    >>> words(43.4, 1, 0.5)
    'End ①: the tip lies between the marks numbered 40 and 50, at division 7 counted from the 40 towards the 50.'
    """
    low, count = divisions(reading, step)
    return (
        f"End {'①②'[end - 1]}: the tip lies between the marks numbered {low} and {low + 10}, "
        f"at division {count} counted from the {low} towards the {low + 10}."
    )


def mark_below(reading: float) -> int:
    """The numbered mark below a reading.

    >>> mark_below(43.4), mark_below(90.0)
    (40, 80)
    """
    return min(math.floor(reading / 10), 8) * 10


def divisions(reading: float, step: float) -> tuple[int, int]:
    """The numbered mark below a reading, and the nearest division counted from it."""
    low = mark_below(reading)
    return low, math.floor((reading - low) / step + 0.5)


def dial(phi: float, box: Box, faults: Faults, step: float, label: str) -> str:
    """The dial as one `<svg>`, its name and what it shows in words.  No id in it, so any number fit a page."""
    ends = pointer_ends(phi, box, faults)
    said = f"{label}. " + " ".join(words(r, end, step) for end, r in enumerate(ends, 1))
    said += f" One division is {'half a degree' if step == 0.5 else 'one degree'}."
    height = DIAL + 2 * GLASS
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="er-figure" viewBox="0 0 {WIDTH} {height}" role="img" '
        f'aria-label="{escape(said)}">'
        + _whole(phi, box, faults)
        + "".join(_glass(phi, end, box, faults, step, DIAL + (end - 1) * GLASS) for end in (1, 2))
        + "</svg>"
    )

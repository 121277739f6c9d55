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
from exercises.kinds.dial.strokes import ACCENT, FAINT, GLASS, INK, WIDTH, Rim, fine, line, needle, ring, shown, text

DIAL = 222  # of the dial's height
RADIUS = 78  # of the circle where the divisions begin


def tip(phi: float, end: int, box: Box, faults: Faults) -> tuple[float, float]:
    """Where the tip of end 1 or 2 lies, x and y (north) from the centre of the scale, in scale radii."""
    turn, sign = math.radians(phi), 1 if end == 1 else -1
    return (
        faults.pivot_x / box.radius + sign * math.cos(turn),
        faults.pivot_y / box.radius - sign * math.sin(turn),
    )


def _whole(phi: float, box: Box, faults: Faults) -> str:
    """The dial: its scale, the pointer, and the needle on its pivot."""
    return _scale(faults) + _pointer(phi, box, faults) + _needle(phi, box, faults)


def _scale(faults: Faults) -> str:
    cx, cy = WIDTH / 2, DIAL / 2
    out = [
        f'<circle cx="{fine(cx)}" cy="{fine(cy)}" r="{RADIUS}" fill="none" stroke="{INK}" stroke-width="1"/>',
        *(
            ring(cx, cy, RADIUS, length, every, width, -faults.at_rest)
            for length, every, width in ((5, 1, 0.5), (8, 5, 0.8), (11, 10, 1.1))
        ),
    ]
    for turn in range(0, 360, 10):
        a = math.radians(turn - faults.at_rest)
        out.append(text(cx + 99 * math.cos(a), cy + 99 * math.sin(a), shown(turn), 11))
    return "".join(out)


def _towards_end_1(phi: float) -> tuple[float, float]:
    """The direction of end 1 of the pointer, y downwards."""
    turn = math.radians(phi)
    return math.cos(turn), math.sin(turn)


def _pointer(phi: float, box: Box, faults: Faults) -> str:
    cx, cy = WIDTH / 2, DIAL / 2
    ux, uy = _towards_end_1(phi)
    ends = [(cx + RADIUS * x, cy - RADIUS * y) for x, y in (tip(phi, end, box, faults) for end in (1, 2))]
    out = [line(*ends[0], *ends[1], ACCENT, 1.4)]
    for (x, y), mark, sign in zip(ends, "①②", (1, -1)):
        # beside the pointer, on the side of the needle's N end
        out.append(text(x - sign * 20 * ux - 11 * -uy, y - sign * 20 * uy - 11 * ux, mark, 14, ACCENT))
    return "".join(out)


def _needle(phi: float, box: Box, faults: Faults) -> str:
    px = WIDTH / 2 + faults.pivot_x / box.radius * RADIUS
    py = DIAL / 2 - faults.pivot_y / box.radius * RADIUS
    return needle(px, py, phi, half=26, thick=4.5, size=12)


def glass_place(phi: float, end: int, box: Box, faults: Faults) -> tuple[float, float]:
    """(the tip's turn clockwise from its own zero of the undisturbed scale, its distance from the centre in radii)."""
    x, y = tip(phi, end, box, faults)
    sign = 1 if end == 1 else -1
    return -math.degrees(math.atan2(sign * y, sign * x)), math.hypot(x, y)


def glass(phi: float, end: int, box: Box, faults: Faults, step: float, top: float) -> str:
    """One end enlarged, the rim upwards; clockwise on the dial is to the right."""
    turn, reach = glass_place(phi, end, box, faults)
    signed = turn + faults.at_rest  # what the scale has there, clockwise from this end's 0
    rim = Rim(top, round(signed / 5) * 5, step)
    x, y = rim.at(signed, (reach - 1) * rim.radius)
    lean = math.radians(phi + faults.at_rest - rim.middle)  # the pointer's own direction, from the vertical
    dx, dy = math.sin(lean), -math.cos(lean)
    bx, by = x - 34 * dx, y - 34 * dy
    return (
        rim.drawn()
        + f'<path d="M{x:.2f} {y:.2f}L{fine(bx - 3 * dy)} {fine(by + 3 * dx)}'
        + f'L{fine(bx + 3 * dy)} {fine(by - 3 * dx)}Z" fill="{ACCENT}"/>'
        + text(16, top + 82, "①②"[end - 1], 19, ACCENT)
        + line(0, top, WIDTH, top, FAINT, 1)
    )


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
        f'<svg xmlns="http://www.w3.org/2000/svg" class="er-figure er-scale" viewBox="0 0 {WIDTH} {height}" role="img" '
        f'aria-label="{escape(said)}">'
        + _whole(phi, box, faults)
        + "".join(glass(phi, end, box, faults, step, DIAL + (end - 1) * GLASS) for end in (1, 2))
        + "</svg>"
    )

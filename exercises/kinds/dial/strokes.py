"""What drawings of the circular scale share: colours, lines, numbers, rings of divisions, and the rim in a glass."""

import math
from dataclasses import dataclass

WIDTH, GLASS = 320, 96  # of a drawing, and of a glass's height
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


def fine(x: float) -> str:
    """A coordinate to a tenth.

    >>> fine(12.04), fine(-3.25)
    ('12', '-3.2')
    """
    return f"{x:.1f}".removesuffix(".0")


def line(x1: float, y1: float, x2: float, y2: float, color: str, width: float) -> str:
    """A straight line."""
    return (
        f'<path d="M{fine(x1)} {fine(y1)}L{fine(x2)} {fine(y2)}" stroke="{color}" stroke-width="{width}" fill="none"/>'
    )


def text(x: float, y: float, words: str | int, size: int, color: str = INK, weight: str = "") -> str:
    """A word or a number about its middle, where the style sheet sets all words of such a drawing."""
    bold = f' font-weight="{weight}"' if weight else ""
    fill = f' fill="{color}"' if color != INK else ""
    return f'<text x="{fine(x)}" y="{fine(y)}" font-size="{size}"{fill}{bold}>{words}</text>'


def ring(cx: float, cy: float, inner: float, length: float, every: float, width: float, turn: float) -> str:
    """Divisions every so many degrees, as the dashes of one circle that starts at the east, turned so many degrees."""
    dash = math.degrees(width / (inner + length / 2))
    return (
        f'<circle cx="{cx}" cy="{cy}" r="{fine(inner + length / 2)}" fill="none" stroke="{INK}" '
        f'stroke-width="{length}" pathLength="360" stroke-dasharray="{dash:.3f} {every - dash:.3f}" '
        f'stroke-dashoffset="{dash / 2:.3f}" transform="rotate({fine(turn)} {cx} {cy})"/>'
    )


def needle(px: float, py: float, phi: float, half: float, thick: float, size: int) -> str:
    """The needle about its pivot, phi degrees east of north, half so long; N and S at its ends in letters of a size."""
    out = []
    turn = math.radians(phi)
    ux, uy = math.cos(turn), math.sin(turn)
    nx, ny = uy, -ux  # the needle's N end, at right angles to the pointer
    for sign, color, letter in ((1, NORTH, "N"), (-1, SOUTH, "S")):
        x, y = px + sign * nx * half, py + sign * ny * half
        out.append(
            f'<path d="M{fine(x)} {fine(y)}L{fine(px + ux * thick)} {fine(py + uy * thick)}L'
            f'{fine(px - ux * thick)} {fine(py - uy * thick)}Z" fill="{color}"/>'
        )
        out.append(text(x + sign * nx * 9, y + sign * ny * 9, letter, size, color, "bold"))
    out.append(f'<circle cx="{fine(px)}" cy="{fine(py)}" r="2" fill="{INK}"/>')
    return "".join(out)


@dataclass(frozen=True)
class Rim:
    """A piece of the rim as a reading glass shows it: upwards, clockwise on the dial to the right.

    top     where the glass begins in the drawing
    middle  the mark in its middle, degrees clockwise from this end's 0
    step    of the scale, degrees
    """

    top: float
    middle: float
    step: float

    @property
    def radius(self) -> float:
        """Of the circle where the divisions begin."""
        return math.degrees(PER_DEGREE)

    def at(self, mark: float, out: float) -> tuple[float, float]:
        """The place that lies at a mark (degrees) and so far outside the circle of the divisions."""
        a = math.radians(mark - self.middle)
        reach = self.radius + out
        return WIDTH / 2 + reach * math.sin(a), self.top + 50 + self.radius - reach * math.cos(a)

    def drawn(self) -> str:
        """The divisions with their numbers."""
        parts: list[str] = []
        path: list[str] = []
        count = math.floor(HALF_WINDOW / self.step)
        for i in range(-count, count + 1):
            mark = self.middle + i * self.step
            whole = mark == round(mark)
            length = 24 if whole and mark % 10 == 0 else 18 if whole and mark % 5 == 0 else 12 if whole else 7
            (x1, y1), (x2, y2) = self.at(mark, 0), self.at(mark, length)
            path.append(f"M{fine(x1)} {fine(y1)}L{fine(x2)} {fine(y2)}")
            if whole and mark % 10 == 0:
                parts.append(text(*self.at(mark, 35), shown(int(mark)), 17))
        (x1, y1), (x2, y2) = self.at(self.middle - HALF_WINDOW, 0), self.at(self.middle + HALF_WINDOW, 0)
        parts.append(f'<path d="{"".join(path)}" stroke="{INK}" stroke-width="1" fill="none"/>')
        parts.append(
            f'<path d="M{fine(x1)} {fine(y1)}A{self.radius:.0f} {self.radius:.0f} 0 0 1 {fine(x2)} {fine(y2)}" '
            f'stroke="{INK}" stroke-width="1" fill="none"/>'
        )
        return "".join(parts)

"""Arms that are not east–west, the first turn left out: what the two parts of the magnet's field do, each way round."""

import math

from matplotlib.figure import Figure
from matplotlib.patches import Wedge

from generator.figures.plates import plate
from generator.figures.style import ACCENT, FAINT, INK, arrow, bar_magnet, lines, needle, north_arrow, sketch

TILT = 12.0  # degrees; drawn larger than anybody sets a box askew
DASHED = (0, (4, 3))


def _deflection(sign: int, ratio: float = 1.0) -> float:
    """Deflection in degrees where the part along the earth's field adds (1) or takes away (−1); B = ratio B_H."""
    a = math.radians(TILT)
    return math.degrees(math.atan2(ratio * math.cos(a), 1 + sign * ratio * math.sin(a)))


def _caption() -> str:
    small, large = _deflection(1), _deflection(-1)
    return (
        f"Both fields equal and the east arm {TILT:.0f}° north of east, from above and to scale. If the arms were "
        f"east–west, both ways would give 45°; here N east gives {small:.0f}° and N west {large:.0f}°. Their mean is "
        "45°: with equal fields the two errors cancel altogether."
    )


@plate(
    "board-turned",
    alt="Two plans of a needle beside an arm that slants to the north of east. With the north pole east the magnet's "
    "field slants to the north and the needle turns less; with the north pole west the field slants to the south and "
    "the needle turns more, to the other side.",
    caption=_caption,
)
def board_turned() -> Figure:
    fig, ax = sketch(300, 330)
    t = math.radians(TILT)
    ux, uy = math.cos(t), math.sin(t)
    size = 74
    for way, y, sign in (("east", 192, 1), ("west", 26, -1)):
        x = 96 if sign > 0 else 116
        ax.plot([x, x + 190], [y, y], color=FAINT, linewidth=0.9, linestyle=DASHED)
        for start, stop in ((0, 111), (173, 182)):  # the arm, but not across the magnet
            ax.plot([x + start * ux, x + stop * ux], [y + start * uy, y + stop * uy], color=INK, linewidth=0.9)
        bar_magnet(ax, x + 142 * ux, y + 142 * uy, 62, 15, TILT if sign > 0 else TILT + 180)
        ax.add_patch(Wedge((x, y), 100, 0, TILT, width=0, edgecolor=INK, linewidth=0.8))
        ax.text(x + 90, y + 8.5, "α", ha="center", va="center")
        theta = _deflection(sign)
        ex, ey = sign * size * ux, sign * size * uy
        arrow(ax, (x, y), (x, y + size), width=1.6, head=13)
        arrow(ax, (x, y + size), (x + ex, y + size + ey), color=ACCENT, width=1.6, head=13)
        ax.plot([x, x + ex], [y, y + size + ey], color=INK, linewidth=0.9, linestyle=DASHED)
        needle(ax, x, y, 24, 90 - sign * theta)
        ax.text(x - sign * 7, y + 48, "*B_H*", ha="right" if sign > 0 else "left", va="center")
        ax.text(x + 0.5 * ex - sign * 2, y + size + 0.5 * ey + 9, "*B*", ha="center", va="center", color=ACCENT)
        ax.text(x + sign * 15, y + 36, "θ", ha="center", va="center")
        lines(ax, 196, y + size + 36, f"N pole {way}:\nθ = {theta:.0f}°", ha="left")
    north_arrow(ax, 22, 268, 26)
    return fig

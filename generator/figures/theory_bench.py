"""The instrument: the idea in one sketch, the bench from above, the dial."""

import math

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Wedge

from exercises.bench.instrument import PERFECT, Box, pointer_ends
from generator.figures.plates import plate
from generator.figures.style import (
    ACCENT,
    FAINT,
    INK,
    PAPER,
    Point,
    arrow,
    bar_magnet,
    dimension,
    lines,
    needle,
    north_arrow,
    plank,
    sketch,
)
from generator.figures.theory import LENGTH, theta

FAR = 0.25  # m, where the magnet lies on the plan, clear of the figures of the scale


def pointer(ax: Axes, x: float, y: float, half: float, turn: float, width: float = 1.6) -> None:
    """The aluminium pointer, at rest east–west, turned `turn` degrees clockwise."""
    t = math.radians(-turn)
    ux, uy = half * math.cos(t), half * math.sin(t)
    ax.plot([x - ux, x + ux], [y - uy, y + uy], color=INK, linewidth=width)


def leader(ax: Axes, start: Point, end: Point) -> None:
    """A thin line from a label to the part it names."""
    ax.plot([start[0], end[0]], [start[1], end[1]], color=INK, linewidth=0.6)
    ax.plot([end[0]], [end[1]], "o", color=INK, markersize=2.2)


def letters(ax: Axes, x: float, y: float, away: float, angle: float) -> None:
    """N and S on the two sides of (x, y), N at `angle` degrees anticlockwise of +x."""
    t = math.radians(angle)
    for sign, letter in ((1, "N"), (-1, "S")):
        ax.text(
            x + sign * away * math.cos(t),
            y + sign * away * math.sin(t),
            letter,
            ha="center",
            va="center_baseline",
            weight="bold",
        )


@plate(
    "the-idea",
    alt="Two compass needles seen from above. Alone, the needle points north. With a bar magnet lying to its east, "
    "it turns away from north through an angle theta.",
    caption="Left, the needle alone. Right, a bar magnet lies to the east of it: the needle settles between the "
    "pull of the earth and that of the magnet. The angle θ tells how strong the magnet is.",
)
def the_idea() -> Figure:
    fig, ax = sketch(300, 185)
    for x in (52, 165):
        ax.add_patch(Circle((x, 95), 40, facecolor=PAPER, edgecolor=INK, linewidth=0.9))
        ax.plot([x, x], [95, 150], color=INK, linewidth=0.8, linestyle=(0, (4, 3)))
        ax.text(x, 154, "north", ha="center")
    needle(ax, 52, 95, 27)
    turn = theta()
    needle(ax, 165, 95, 27, 90 - turn)
    t = math.radians(90 - turn)
    letters(ax, 52 + 8, 95, 22, 90)
    letters(ax, 165, 95, 29, 90 - turn - 22)
    ax.add_patch(Wedge((165, 95), 46, 90 - turn, 90, width=0, edgecolor=ACCENT, linewidth=1.4))
    ax.text(
        165 + 53 * math.cos((t + math.pi / 2) / 2),
        95 + 53 * math.sin((t + math.pi / 2) / 2),
        "θ",
        color=ACCENT,
        ha="center",
        va="center",
        size=12,
    )
    foot, tip = ((165 + r * math.cos(t), 95 + r * math.sin(t)) for r in (28, 50))
    ax.plot([foot[0], tip[0]], [foot[1], tip[1]], color=INK, linewidth=0.5)
    bar_magnet(ax, 258, 95, 62, 18)
    ax.text(258, 112, "magnet", ha="center")
    dimension(ax, (165, 38), (258, 38), "*d*", lift=-8)
    for x in (165, 258):
        ax.plot([x, x], [34, 86 if x == 258 else 52], color=INK, linewidth=0.5)
    ax.text(52, 30, "no magnet near", ha="center")
    return fig


@plate(
    "bench",
    alt="The bench from above. The arms lie east to west through a square board that carries the round compass box. "
    "The magnet lies along the east arm, its N pole to the east. The distance d runs from the pivot to the middle "
    "of the magnet.",
    caption="The bench from above. The box is drawn larger than it is. <i>d</i> runs from the pivot to the middle "
    "of the magnet, not to either of its ends.",
)
def bench() -> Figure:
    fig, ax = sketch(300, 240)
    x, y, cm = 150, 122, 4.3
    plank(ax, 10, y - 10, 280, 20)
    for side in (-1, 1):
        for mark in range(10, 33):
            long = 7 if mark % 10 == 0 else 5 if mark % 5 == 0 else 3
            at = x + side * mark * cm
            ax.plot([at, at], [y - 10, y - 10 + long], color=INK, linewidth=0.6)
        for mark in (20, 30):
            ax.text(x + side * mark * cm, y - 22, str(mark), ha="center")
    plank(ax, x - 40, y - 40, 80, 80)
    ax.add_patch(Circle((x, y), 34, fill=False, edgecolor=INK, linewidth=1.1))
    turn = theta(FAR)
    pointer(ax, x, y, 31, turn)
    needle(ax, x, y, 15, 90 - turn)
    letters(ax, x, y, 23, 90 - turn)
    magnet = x + FAR * 100 * cm
    bar_magnet(ax, magnet, y, LENGTH * 100 * cm, 15)
    leader(ax, (268, 165), (magnet + 8, y + 4))
    ax.text(268, 169, "magnet", ha="center")
    ax.text(58, y + 15, "west arm", ha="center")
    leader(ax, (200, 196), (x + 26, y + 22))
    ax.text(202, 199, "compass box", ha="left", va="center")
    leader(ax, (120, 199), (x - 30, y + 36))
    ax.text(118, 202, "board", ha="right", va="center")
    north_arrow(ax, 26, 172, 34)
    for at in (x, magnet):
        ax.plot([at, at], [40, y - 9], color=INK, linewidth=0.5)
    dimension(ax, (x, 46), (magnet, 46), "*d*", lift=9)
    ax.text(216, y + 15, "east arm", ha="center")
    lines(ax, 10, 60, "distance scale,\ncm from the pivot", ha="left")
    ax.text((x + magnet) / 2, 28, "centre to centre", ha="center")
    return fig


def _dial_caption() -> str:
    one, two = pointer_ends(theta(), Box(), PERFECT)
    return (
        f"The dial. The short needle is turned {theta():.0f}° to the east, and both ends of the pointer show it: "
        f"{one:.0f} and {two:.0f} on this perfect instrument. North is at the top, so the zeros lie east and west."
    )


@plate(
    "dial",
    alt="The dial of the compass box. A short needle with N and S ends carries a long thin pointer fixed at right "
    "angles to it. The circular scale has four quadrants, each from 0 to 90; the zeros are at the east and the west. "
    "Inside the scale lies a ring of mirror.",
    caption=_dial_caption,
)
def dial() -> Figure:
    fig, ax = sketch(300, 326)
    x, y, radius = 150, 160, 104
    ax.add_patch(Circle((x, y), radius, facecolor=PAPER, edgecolor=INK, linewidth=1.2))
    ax.add_patch(Wedge((x, y), 84, 0, 360, width=22, facecolor=FAINT, alpha=0.45, edgecolor="none"))
    for degree in range(0, 360, 2):
        long = 14 if degree % 10 == 0 else 6
        c, s = math.cos(math.radians(degree)), math.sin(math.radians(degree))
        ax.plot(
            [x + (radius - long) * c, x + radius * c],
            [y + (radius - long) * s, y + radius * s],
            color=INK,
            linewidth=0.9 if degree % 10 == 0 else 0.4,
        )
        if degree % 30 == 0:
            shown = degree % 180 if degree % 180 <= 90 else 180 - degree % 180
            ax.text(x + 115 * c, y + 115 * s, str(shown), ha="center", va="center")
    turn = theta()
    pointer(ax, x, y, 99, turn, width=1.8)
    needle(ax, x, y, 34, 90 - turn)
    t = math.radians(90 - turn)
    letters(ax, x, y, 45, 90 - turn)
    arrow(ax, (x, 284), (x, 304), width=0.9, head=11)
    ax.text(x, 308, "north", ha="center")
    leader(ax, (48, 288), (86, 246))
    lines(ax, 8, 306, "scale, 0–90\nfour times", ha="left")
    leader(ax, (x + 27, y + 5), (x + 14 * math.cos(t), y + 14 * math.sin(t)))
    ax.text(x + 44, y - 2, "needle", ha="center", va="center")
    leader(ax, (52, 26), (x - 44, y - 58))
    ax.text(46, 14, "ring of mirror", ha="center")
    p = math.radians(-turn)
    leader(ax, (252, 27), (x + 78 * math.cos(p), y + 78 * math.sin(p)))
    ax.text(250, 14, "pointer", ha="center")
    return fig

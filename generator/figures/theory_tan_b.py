"""Broadside-on: the bench turned to tan B, and the field beside a magnet, pole by pole."""

import math

from matplotlib.figure import Figure
from matplotlib.patches import Circle

from exercises.bench.field import broadside_on, deflection, pole_field
from generator.figures.plates import plate
from generator.figures.style import (
    ACCENT,
    INK,
    NORTH,
    PAPER,
    SOUTH,
    arrow,
    bar_magnet,
    dimension,
    lines,
    needle,
    north_arrow,
    plank,
    sketch,
)
from generator.figures.theory import B_H, LENGTH, MAGNET
from generator.figures.theory_bench import leader, pointer

ACROSS = 0.170  # m, from the pivot to the middle of the magnet


def _turn() -> float:
    """The deflection at ACROSS, degrees."""
    return deflection(broadside_on(MAGNET.m, ACROSS, MAGNET.l), B_H)


@plate(
    "tan-b-bench",
    alt="The bench in the tan B position, from above. The arms lie north and south, along the needle at rest. The "
    "magnet lies across the north arm with its N pole to the east, its middle at d from the pivot. The zeros of the "
    "circular scale lie east and west, across the arms. The needle is turned to the west.",
    caption=lambda: (
        "Tan B, from above; the box is drawn larger than it is. The arms lie along the needle, the magnet "
        f"across the arm. N points east and the needle turns west, here by {_turn():.0f}°. At rest the pointer lies "
        "across the arms, at 0 and 0."
    ),
)
def tan_b_bench() -> Figure:
    fig, ax = sketch(300, 330)
    x, y, cm = 138, 112, 9.6
    plank(ax, x - 10, 8, 20, 310)
    for mark in range(6, 22):
        long = 7 if mark % 5 == 0 else 4
        for side in (-1, 1):
            at = y + side * mark * cm
            if 8 < at < 318:
                ax.plot([x - 10, x - 10 + long], [at, at], color=INK, linewidth=0.6)
    plank(ax, x - 46, y - 46, 92, 92)
    ax.add_patch(Circle((x, y), 40, fill=False, edgecolor=INK, linewidth=1.1))
    for side in (-1, 1):
        ax.plot([x + side * 33, x + side * 40], [y, y], color=ACCENT, linewidth=2.2)
        ax.text(x + side * 54, y, "0", ha="center", va="center_baseline", color=ACCENT, weight="bold")
    turn = _turn()
    pointer(ax, x, y, 36, -turn)
    needle(ax, x, y, 19, 90 + turn)
    t = math.radians(90 + turn)
    for sign, letter in ((1, "N"), (-1, "S")):
        ax.text(
            x + sign * 27 * math.cos(t),
            y + sign * 27 * math.sin(t),
            letter,
            ha="center",
            va="center_baseline",
            weight="bold",
        )
    magnet = y + ACROSS * 100 * cm
    bar_magnet(ax, x, magnet, LENGTH * 100 * cm, 16)
    for at in (y, magnet):
        start = x + 64 if at == y else x + LENGTH * 50 * cm + 4
        ax.plot([start, 232], [at, at], color=INK, linewidth=0.5)
    dimension(ax, (226, y), (226, magnet), "*d*", lift=9, side=-1)
    north_arrow(ax, 26, 252, 38)
    leader(ax, (62, 196), (x - 6, 206))
    ax.text(58, 196, "north arm", ha="right", va="center")
    leader(ax, (62, 34), (x - 6, 34))
    ax.text(58, 34, "south arm", ha="right", va="center")
    leader(ax, (216, 62), (x + 36 * math.cos(math.radians(turn)) * 0.8, y + 36 * math.sin(math.radians(turn)) * 0.8))
    ax.text(218, 54, "pointer", ha="left", va="center")
    leader(ax, (200, 306), (x + 34, magnet + 6))
    lines(ax, 204, 310, "magnet, across\nthe arm", ha="left")
    return fig


def _fields() -> tuple[tuple[float, float], tuple[float, float]]:
    """Fields in tesla at P, which lies ACROSS beside the magnet: of the north pole and of the south pole."""
    p, l = MAGNET.p, MAGNET.l
    return pole_field(p, l, 0, 0, -ACROSS), pole_field(-p, -l, 0, 0, -ACROSS)


def _poles_caption() -> str:
    (nx, ny), _ = _fields()
    total = broadside_on(MAGNET.m, ACROSS, MAGNET.l)
    return (
        f"To scale, for a magnet with 2<i>l</i> = {200 * MAGNET.l:.0f} cm at <i>d</i> = {ACROSS * 100:.0f} cm. Each "
        f"pole alone makes {math.hypot(nx, ny) * 1e6:.0f} µT. Their parts along <i>d</i> cancel, and what is left, "
        f"{total * 1e6:.0f} µT, points against the magnet."
    )


@plate(
    "tan-b-poles",
    alt="A bar magnet lying left to right with its N pole to the right, and a point P below its middle. Both poles are "
    "the same distance from P, the root of d squared plus l squared. The N pole's field at P points down and to the "
    "left, the S pole's up and to the left, both equally long. Their sum points straight to the left, from N towards "
    "S.",
    caption=_poles_caption,
)
def tan_b_poles() -> Figure:
    fig, ax = sketch(300, 300)
    x, y = 170, 252  # the middle of the magnet; one unit is a millimetre
    l, d = MAGNET.l * 1000, ACROSS * 1000
    north, south = _fields()
    scale = 74 / math.hypot(*north)
    bar_magnet(ax, x, y, LENGTH * 1000, 22, letters=False)
    for sign, letter, color in ((1, "N", NORTH), (-1, "S", SOUTH)):
        ax.plot([x, x + sign * l], [y - d, y], color=INK, linewidth=0.7, linestyle=(0, (4, 3)))
        ax.plot([x + sign * l], [y], "o", color=color, markersize=5)
        ax.text(x + sign * (l - 14), y, letter, weight="bold", ha="center", va="center_baseline")
    ax.plot([x, x], [y - d, y - 11], color=INK, linewidth=0.5)
    arrow(ax, (x, y - d), (x + north[0] * scale, y - d + north[1] * scale), color=NORTH, width=2)
    arrow(ax, (x, y - d), (x + south[0] * scale, y - d + south[1] * scale), color=SOUTH, width=2)
    both = (north[0] + south[0]) * scale
    arrow(ax, (x, y - d), (x + both, y - d), color=ACCENT, width=2.6)
    ax.plot([x], [y - d], "o", color=PAPER, markeredgecolor=INK, markersize=5)
    ax.text(x + 12, y - d - 3, "*P*", ha="left", va="center", size=12)
    ax.text(x + north[0] * scale - 4, y - d + north[1] * scale + 8, "from N", ha="right")
    ax.text(x + south[0] * scale - 5, y - d + south[1] * scale - 12, "from S", ha="right")
    ax.text(x + both - 5, y - d, "both", ha="right", va="center", color=ACCENT)
    ax.text(x + 5, y - 66, "*d*", ha="left", va="center", size=12)
    ax.text(x + 34, y - 84, "√(*d*² + *l*²)", ha="left", va="center")
    for a, b in ((x - l, x), (x, x + l)):
        dimension(ax, (a, y + 24), (b, y + 24), "*l*", lift=9)
    for at in (x - l, x, x + l):
        ax.plot([at, at], [y + 12, y + 29], color=INK, linewidth=0.5)
    return fig

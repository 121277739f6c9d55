"""The earth's field and the moment together: a magnet on a thread, and how ratio and product cross."""

import math

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Arc

from generator.figures.plates import plate
from generator.figures.style import ACCENT, FAINT, INK, arrow, bar_magnet, graph, lines, sketch
from generator.figures.theory import B_H, MAGNET

DASHED = (0, (5, 3))


@plate(
    "swinging-magnet",
    alt="Seen from above, a bar magnet hangs level by its middle, turned a little east of north. Its length L and its "
    "breadth b are marked, and a curved arrow shows the earth twisting it back to north.",
    caption="The magnet on its thread, seen from above and turned aside more than one would in earnest. The earth "
    "twists it back to north; it overshoots, and comes back. That is one swing.",
)
def swinging_magnet() -> Figure:
    fig, ax = sketch(300, 250)
    x, y, long, broad, angle = 150, 116, 150, 38, 68
    ax.plot([x, x], [y - 100, y + 100], color=INK, linewidth=0.8, linestyle=DASHED)
    arrow(ax, (x, y + 98), (x, y + 106), width=0.8, head=10)
    ax.text(x, y + 112, "north", ha="center", va="bottom")
    bar_magnet(ax, x, y, long, broad, angle)
    ax.plot([x], [y], "o", color=INK, markersize=4)
    t = math.radians(angle)
    ux, uy = math.cos(t), math.sin(t)

    def beside(along: float, across: float) -> tuple[float, float]:
        return x + along * ux + across * uy, y + along * uy - across * ux

    for (a, b), text, spot in (
        (((-long / 2, broad / 2 + 10), (long / 2, broad / 2 + 10)), "*L*", (6, broad / 2 + 22)),
        (((-long / 2 - 10, -broad / 2), (-long / 2 - 10, broad / 2)), "*b*", (-long / 2 - 22, 0)),
    ):
        p, q = beside(*a), beside(*b)
        for start, end in ((p, q), (q, p)):
            arrow(ax, start, end, width=0.8, head=8)
        ax.text(*beside(*spot), text, ha="center", va="center", size=12)
    ax.add_patch(Arc((x, y), 190, 190, theta1=angle + 3, theta2=87, color=ACCENT, linewidth=1.6))
    tip = math.radians(88)
    arrow(
        ax,
        (x + 95 * math.cos(math.radians(84)), y + 95 * math.sin(math.radians(84))),
        (x + 95 * math.cos(tip), y + 95 * math.sin(tip)),
        color=ACCENT,
        head=11,
    )
    lines(ax, x + 62, y + 84, "twisted back by\nthe earth", ha="left", color=ACCENT)
    lines(ax, x - 30, y + 22, "thread, seen\nfrom above", ha="right")
    ax.plot([x - 28, x - 3], [y + 17, y + 2], color=INK, linewidth=0.7)
    return fig


def crossing(
    m: float, earth: float, names: tuple[str, str] = ("*m*/*B_H* is known", "*m*·*B_H* is known")
) -> tuple[Figure, Axes]:
    """(figure, axes) of the line of one ratio and the curve of one product, and where they cross; m in A·m², T."""
    fig, ax = graph(3.6, x="*B_H*, µT", y="moment *m*, A·m²")
    top = 2.1 * earth
    b = np.linspace(0.3 * earth, top, 120)
    ax.plot([0, top], [0, m * top / earth], color=INK)
    ax.plot(b, m * earth / b, color=ACCENT)
    ax.plot([earth, earth], [0, m], color=FAINT, linewidth=0.9, linestyle=DASHED)
    ax.plot([0, earth], [m, m], color=FAINT, linewidth=0.9, linestyle=DASHED)
    ax.plot([earth], [m], "o", color=ACCENT, markersize=6)
    ax.set_xlim(0, top)
    ax.set_ylim(0, 2.6 * m)
    ax.xaxis.set_major_formatter(lambda v, _: f"{v * 1e6:g}")
    ax.text(1.28 * earth, 2.2 * m, names[0], ha="right", va="center")
    ax.plot([1.3 * earth, 1.68 * earth], [2.2 * m, 1.78 * m], color=INK, linewidth=0.6)
    ax.text(1.32 * earth, 0.42 * m, names[1], color=ACCENT, va="center")
    ax.plot([1.55 * earth, 1.68 * earth], [0.49 * m, 0.57 * m], color=ACCENT, linewidth=0.6)
    return fig, ax


@plate(
    "ratio-and-product",
    alt="Moment against the earth's field. All pairs with one ratio lie on a straight line through the origin, all "
    "pairs with one product on a falling curve. The two cross at one point.",
    caption="The deflections leave every point of the straight line possible, the swing every point of the curve. "
    f"Only one point is on both: here {MAGNET.m} A·m² and {B_H * 1e6:.0f} µT.",
)
def ratio_and_product() -> Figure:
    return crossing(MAGNET.m, B_H)[0]

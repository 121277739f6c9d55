"""The field on the axis of a bar magnet, pole by pole, and its fall with distance."""

import numpy as np
from matplotlib.figure import Figure

from exercises.bench.field import broadside_on, distance_end_on, end_on, pole_field
from generator.figures.plates import plate
from generator.figures.style import ACCENT, INK, NORTH, PAPER, SOUTH, arrow, bar_magnet, dimension, graph, sketch
from generator.figures.theory import B_H, DISTANCE, LENGTH, MAGNET

DASHED = (0, (5, 3))
FROM = 0.170  # m, the point of the sketch from the middle of the magnet


def _pulls(d: float = FROM) -> tuple[float, float]:
    """Field in tesla at P of the north pole and of the south pole, along the axis."""
    p, l = MAGNET.p, MAGNET.l
    return pole_field(p, l, 0, d, 0)[0], pole_field(-p, -l, 0, d, 0)[0]


def _pole_caption() -> str:
    near, far = _pulls()
    return (
        f"To scale, for a magnet with 2<i>l</i> = {200 * MAGNET.l:.0f} cm at <i>d</i> = {FROM * 100:.0f} cm. The "
        f"near pole's field is {near / -far:.1f} times the far pole's, and opposite. What is left is the field of the "
        "magnet."
    )


@plate(
    "pole-forces",
    alt="A bar magnet and a point P on its axis. The N pole, nearer to P, makes a long field arrow pointing away from "
    "the magnet; the S pole, farther off, makes a shorter one pointing back. P is d from the middle, d minus l from "
    "the N pole and d plus l from the S pole.",
    caption=_pole_caption,
)
def pole_forces() -> Figure:
    fig, ax = sketch(300, 232)
    x, y = 66, 152  # the middle of the magnet; one unit is a millimetre
    l, d = MAGNET.l * 1000, FROM * 1000
    near, far = _pulls()
    scale = 52 / near
    ax.plot([8, 296], [y, y], color=INK, linewidth=0.5, linestyle=(0, (6, 3, 1, 3)))
    bar_magnet(ax, x, y, LENGTH * 1000, 22, letters=False)
    for sign, letter, color in ((1, "N", NORTH), (-1, "S", SOUTH)):
        ax.plot([x + sign * l], [y], "o", color=color, markersize=5)
        ax.text(x + sign * (l - 14), y, letter, weight="bold", ha="center", va="center_baseline")
    arrow(ax, (x + d, y), (x + d + near * scale, y), color=NORTH, width=2)
    arrow(ax, (x + d, y), (x + d + far * scale, y), color=SOUTH, width=2)
    ax.plot([x + d], [y], "o", color=PAPER, markeredgecolor=INK, markersize=5)
    ax.text(x + d, y + 30, "*P*", ha="center", size=12)
    ax.text(x + d + 32, y + 10, "from N", ha="center")
    ax.text(x + d - 26, y + 10, "from S", ha="center")
    for at in (x - l, x, x + l, x + d):
        ax.plot([at, at], [y - 12, 46 if at in (x - l, x + d) else 74 if at == x else 102], color=INK, linewidth=0.5)
    dimension(ax, (x + l, 108), (x + d, 108), "*d* − *l*", lift=8)
    dimension(ax, (x, 80), (x + d, 80), "*d*", lift=8)
    dimension(ax, (x - l, 52), (x + d, 52), "*d* + *l*", lift=8)
    for a, b in ((x - l, x), (x, x + l)):
        dimension(ax, (a, y + 24), (b, y + 24), "*l*", lift=9)
    for at in (x - l, x, x + l):
        ax.plot([at, at], [y + 12, y + 29], color=INK, linewidth=0.5)
    ax.text(150, 20, "*P* is where the needle hangs", ha="center")
    return fig


def _distance_caption() -> str:
    d = DISTANCE
    near, across = end_on(MAGNET.m, d, MAGNET.l), broadside_on(MAGNET.m, d, MAGNET.l)
    no_length = end_on(MAGNET.m, d)
    return (
        f"A magnet of {MAGNET.m} A·m² with 2<i>l</i> = {200 * MAGNET.l:.0f} cm. At {d * 100:.0f} cm its field is "
        f"{near * 1e6:.1f} µT end-on and {across * 1e6:.1f} µT broadside-on. Leaving <i>l</i> out gives "
        f"{no_length * 1e6:.1f} µT end-on, {100 * (1 - no_length / near):.0f} % too little."
    )


@plate(
    "end-on-broadside",
    alt="The field of a bar magnet against distance. All curves fall steeply. The end-on field is about twice the "
    "broadside-on field or more; the end-on curve for a magnet of no length lies a little below the true end-on curve.",
    caption=_distance_caption,
)
def end_on_broadside() -> Figure:
    fig, ax = graph(3.9, x="distance *d*, cm", y="field *B*, µT")
    d = np.linspace(0.15, 0.35, 121)
    m, l = MAGNET.m, MAGNET.l
    ax.plot(d * 100, [end_on(m, x) * 1e6 for x in d], color=INK, linewidth=1.0, linestyle=DASHED)
    ax.plot(d * 100, [broadside_on(m, x, l) * 1e6 for x in d], color=INK, linewidth=1.6)
    ax.plot(d * 100, [end_on(m, x, l) * 1e6 for x in d], color=ACCENT, linewidth=1.9)
    ax.axhline(B_H * 1e6, color=INK, linewidth=0.6)
    ax.text(35, B_H * 1e6 + 2, f"*B_H* = {B_H * 1e6:.0f} µT", ha="right")
    ax.text(16.5, end_on(m, 0.162, l) * 1e6 + 2, "end-on", color=ACCENT)
    ax.annotate(
        "end-on with *l* left out",
        xy=(17.0, end_on(m, 0.17) * 1e6),
        xytext=(20.0, 66),
        arrowprops={"arrowstyle": "-", "linewidth": 0.6, "color": INK, "shrinkA": 2, "shrinkB": 0},
    )
    ax.annotate(
        "broadside-on",
        xy=(19.0, broadside_on(m, 0.19, l) * 1e6),
        xytext=(15.4, 4),
        arrowprops={"arrowstyle": "-", "linewidth": 0.6, "color": INK, "shrinkA": 2, "shrinkB": 0},
    )
    ax.set_xlim(15, 35)
    ax.set_ylim(0, 110)
    ax.set_xticks([15, 20, 25, 30, 35])
    return fig


def _falls_caption() -> str:
    m, l = MAGNET.m, MAGNET.l
    equal = distance_end_on(m, B_H, l)
    metre = end_on(m, 1.0, l)
    ten = distance_end_on(10 * m, B_H, l)
    return (
        f"The end-on field of a bar of {m} A·m², and of one ten times as strong. The weaker equals the earth's "
        f"{B_H * 1e6:.0f} µT at {equal * 100:.0f} cm; a metre away only {metre * 1e6:.2f} µT are left. The stronger "
        f"one reaches just {ten / equal:.1f} times as far. Both scales go up by factors of ten."
    )


@plate(
    "field-falls",
    alt="The end-on field of two bar magnets against distance, both scales logarithmic. Far away the curves are "
    "straight lines falling a thousandfold for each tenfold of distance.",
    caption=_falls_caption,
)
def field_falls() -> Figure:
    fig, ax = graph(4.1, x="distance *d*, cm", y="field *B*, µT", left=0.19)
    m, l = MAGNET.m, MAGNET.l
    d = np.geomspace(0.08, 1.0, 101)
    ax.loglog(d * 100, [end_on(10 * m, x, l) * 1e6 for x in d], color=INK, linewidth=1.5)
    ax.loglog(d * 100, [end_on(m, x, l) * 1e6 for x in d], color=ACCENT, linewidth=1.9)
    ax.axhline(B_H * 1e6, color=INK, linewidth=0.6)
    ax.text(8.4, B_H * 1e6 * 0.72, "*B_H*", va="top")
    equal = distance_end_on(m, B_H, l)
    ax.plot([equal * 100], [B_H * 1e6], "o", color=ACCENT, markersize=5)
    ax.text(33, end_on(10 * m, 0.33, l) * 1e6 * 1.3, "ten times as strong", ha="left")
    ax.text(25, end_on(m, 0.27, l) * 1e6 * 0.8, "*m* = 1.5 A·m²", ha="right", va="top", color=ACCENT)
    ax.plot([100], [end_on(m, 1.0, l) * 1e6], "o", color=ACCENT, markersize=5, clip_on=False)
    ax.set_xlim(8, 100)
    ax.set_ylim(0.1, 10000)
    ax.set_xticks([10, 20, 50, 100], ["10", "20", "50", "100"])
    ax.set_yticks([0.1, 1, 10, 100, 1000, 10000], ["0.1", "1", "10", "100", "1000", "10 000"])
    ax.minorticks_off()
    return fig

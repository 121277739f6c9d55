"""The tangent law: two fields at right angles, and how the deflection grows."""

import numpy as np
from matplotlib.figure import Figure
from matplotlib.patches import Wedge

from exercises.bench.field import deflection, end_on
from generator.figures.plates import plate
from generator.figures.style import ACCENT, FAINT, INK, arrow, graph, lines, needle, sketch
from generator.figures.theory import B_H, DISTANCE, MAGNET, theta

DASHED = (0, (5, 3))


def _two_fields_caption() -> str:
    b = end_on(MAGNET.m, DISTANCE, MAGNET.l)
    return (
        f"Drawn to scale: the earth's horizontal field of {B_H * 1e6:.0f} µT and a magnet's field of {b * 1e6:.1f} "
        f"µT across it. The needle lies along the two together, at θ = {theta():.1f}°."
    )


@plate(
    "two-fields",
    alt="A right-angled triangle of fields. The earth's field B H points north, the magnet's field B points east from "
    "its tip, and the needle lies along the longest side. Theta is the angle between north and the needle.",
    caption=_two_fields_caption,
)
def two_fields() -> Figure:
    fig, ax = sketch(300, 262)
    x, y, north = 92, 42, 170
    east = north * end_on(MAGNET.m, DISTANCE, MAGNET.l) / B_H
    ax.plot([x, x + east], [y, y + north], color=INK, linewidth=0.9, linestyle=DASHED)
    needle(ax, x, y, 34, 90 - theta())
    arrow(ax, (x, y), (x, y + north), width=1.8, head=15)
    arrow(ax, (x, y + north), (x + east, y + north), color=ACCENT, width=1.8, head=15)
    ax.plot([x, x + 10, x + 10], [y + north - 10, y + north - 10, y + north], color=INK, linewidth=0.7)
    ax.add_patch(Wedge((x, y), 62, 90 - theta(), 90, width=0, edgecolor=INK, linewidth=0.9))
    ax.text(x + 28, y + 68, "θ", ha="center", va="center", size=12)
    ax.text(x - 10, y + 104, "*B_H*", ha="right", size=12)
    lines(ax, x - 10, y + 88, "of the earth,\nto the north", ha="right")
    ax.text(x + east / 2, y + north + 22, "*B*", ha="center", size=12, color=ACCENT)
    ax.text(x + east / 2, y + north + 9, "of the magnet", ha="center")
    lines(ax, x + 108, y + 86, "both together:\nso lies the needle", ha="left")
    ax.text(x + 31, y + 18, "N", weight="bold", ha="center", va="center")
    ax.text(x - 31, y - 18, "S", weight="bold", ha="center", va="center")
    ax.text(222, 34, "tan θ = *B* / *B_H*", ha="center", size=13)
    return fig


@plate(
    "deflection-curve",
    alt="Deflection theta against the ratio of the magnet's field to the earth's. It rises steeply at first, passes "
    "45 degrees where the two fields are equal, and flattens towards 90 degrees, which it never reaches.",
    caption="The deflection for every ratio of the two fields. At 45° the two are equal. The shaded band, 30° to "
    "60°, is where readings are worth taking.",
)
def deflection_curve() -> Figure:
    fig, ax = graph(3.7, x="*B* / *B_H*", y="deflection θ, degrees")
    ratio = np.linspace(0, 4, 161)
    ax.axhspan(30, 60, color=FAINT, alpha=0.35, linewidth=0)
    ax.plot(ratio, np.degrees(ratio), color=INK, linewidth=0.9, linestyle=DASHED)
    ax.plot(ratio, [deflection(r * B_H, B_H) for r in ratio], color=ACCENT, linewidth=1.8)
    ax.plot([1, 1], [0, 45], color=INK, linewidth=0.6)
    ax.plot([0, 1], [45, 45], color=INK, linewidth=0.6)
    ax.plot([1], [45], "o", color=ACCENT, markersize=5)
    ax.text(1.12, 40, "equal fields: 45°")
    ax.text(2.2, 71, "θ")
    ax.text(1.6, 84, "if θ grew in step with *B*")
    ax.text(3.95, 32, "take readings here", ha="right")
    ax.set_xlim(0, 4)
    ax.set_ylim(0, 90)
    ax.set_xticks(range(5))
    ax.set_yticks([0, 15, 30, 45, 60, 75, 90])
    return fig

"""The earth's field from the side: how steep it is, and the horizontal component that a compass needle feels."""

import math

from matplotlib.figure import Figure
from matplotlib.patches import Arc

from generator.figures.plates import plate
from generator.figures.style import ACCENT, FAINT, INK, arrow, lines, sketch
from generator.figures.theory import B_H

DIP = 40.0  # degrees
DASHED = (0, (4, 3))


def _caption() -> str:
    whole = B_H * 1e6 / math.cos(math.radians(DIP))
    return (
        f"The earth’s field from the side, at a place where it dips by {DIP:.0f}°. The whole field is {whole:.0f} µT. "
        f"Its horizontal component <i>B</i><sub>H</sub> is {B_H * 1e6:.0f} µT. Only this one turns the needle. "
        "South of the magnetic equator the whole field slants up and not down, but there too <i>B</i><sub>H</sub> "
        "points to magnetic north."
    )


@plate(
    "dip",
    alt="A view from the side. From one point the whole field of the earth slants down into the ground. It is the sum "
    "of two arrows: the horizontal component, which points level to magnetic north, and the vertical component, which "
    "points straight down. The angle between the whole field and the level is the dip.",
    caption=_caption,
)
def dip() -> Figure:
    fig, ax = sketch(300, 212)
    x, y, level = 44.0, 168.0, 150.0
    down = level * math.tan(math.radians(DIP))
    ax.plot([8, 292], [y, y], color=FAINT, linewidth=1)
    ax.plot([x, x + level], [y - down, y - down], color=INK, linewidth=0.6, linestyle=DASHED)
    ax.plot([x + level, x + level], [y, y - down], color=INK, linewidth=0.6, linestyle=DASHED)
    arrow(ax, (x, y), (x + level, y), color=ACCENT, width=2.6)
    arrow(ax, (x, y), (x, y - down), width=1.5)
    arrow(ax, (x, y), (x + level, y - down), width=2)
    ax.add_patch(Arc((x, y), 76, 76, theta1=-DIP, theta2=0, color=INK, linewidth=0.8))
    ax.text(x + 46, y - 15, "dip", ha="left", va="center")
    ax.text(x + level / 2, y + 14, "horizontal component B_H", ha="center", va="center", color=ACCENT)
    ax.text(x + level + 8, y + 14, "to magnetic north", ha="left", va="center", size=10)
    lines(ax, x + level + 8, y - down + 4, "the whole\nfield", ha="left")
    ax.text(x, y - down - 14, "vertical component", ha="left", va="center")
    return fig

"""Two magnets balanced on the arms of one magnetometer."""

from matplotlib.figure import Figure
from matplotlib.patches import Circle

from exercises.bench.balance import balance_distance
from exercises.bench.instrument import Magnet
from generator.figures.plates import plate
from generator.figures.style import INK, arrow, bar_magnet, dimension, needle, north_arrow, plank, sketch
from generator.figures.theory import MAGNET
from generator.figures.theory_bench import pointer

OTHER = Magnet(m=0.9, l=0.025)  # A·m², m
FIRST = 0.210  # m, where the first magnet lies
SHARE = 5 / 6


@plate(
    "balance-bench",
    alt="The bench from above with a magnet on each arm, the longer one on the east arm at d1, the shorter one on the "
    "west arm at d2, nearer to the box. The N poles point outward, away from the box. The needle points north, "
    "undeflected, and the pointer is at 0 and 0.",
    caption=lambda: (
        "A balance. Both N poles point outward, so the two fields at the needle oppose; the shorter, weaker "
        f"magnet is moved until the pointer stands at rest. Here <i>m</i>₁/<i>m</i>₂ is {MAGNET.m / OTHER.m:.2f}."
    ),
)
def balance_bench() -> Figure:
    fig, ax = sketch(300, 190)
    x, y, cm = 138, 100, 4.7
    second = balance_distance((MAGNET, OTHER), FIRST)
    plank(ax, 4, y - 9, 292, 18)
    plank(ax, x - 34, y - 34, 68, 68)
    ax.add_patch(Circle((x, y), 29, fill=False, edgecolor=INK, linewidth=1.1))
    pointer(ax, x, y, 26, 0)
    needle(ax, x, y, 14)
    ax.text(x + 7, y + 15, "N", weight="bold", ha="center", va="center_baseline")
    ax.text(x + 7, y - 15, "S", weight="bold", ha="center", va="center_baseline")
    places = ((x + FIRST * 100 * cm, MAGNET, 0, "1"), (x - second * 100 * cm, OTHER, 180, "2"))
    for at, magnet, angle, name in places:
        bar_magnet(ax, at, y, 2 * magnet.l / SHARE * 100 * cm, 15, angle)
        ax.text(at, y + 15, f"magnet {name}", ha="center")
        ax.plot([at, at], [34, y - 9], color=INK, linewidth=0.5)
    ax.plot([x, x], [34, y - 34], color=INK, linewidth=0.5)
    dimension(ax, (x, 42), (places[0][0], 42), "*d*₁", lift=-9)
    dimension(ax, (x, 42), (places[1][0], 42), "*d*₂", lift=9)
    north_arrow(ax, 26, 142, 28)
    # the two fields at the needle, side by side so that neither hides the other
    arrow(ax, (x + 4, 158), (x + 44, 158), color=INK, width=1.6)
    arrow(ax, (x - 4, 158), (x - 44, 158), color=INK, width=1.6)
    ax.text(x + 48, 158, "field of 1", ha="left", va="center")
    ax.text(x - 48, 158, "of 2", ha="right", va="center")
    return fig

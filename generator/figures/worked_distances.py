"""The figure of a worked example of choosing distances: the stretch on the arm, to scale."""

import math

from matplotlib.patches import Rectangle, Wedge

from exercises.kinds.distances.scenario import Choosing
from exercises.working.numbers import centimetres
from exercises.working.steps import Working
from generator.figures.plates import as_plate, figure_name
from generator.figures.style import ACCENT, FAINT, INK, PAPER, bar_magnet, dimension, notebook, plank, sketch
from generator.figures.svg import to_svg

DASHED = (0, (3, 2))


def stretch(scenario: Choosing, working: Working) -> str:
    """The east arm from above with the box, both limits, and the bar at the near and the far end of the stretch."""
    values = working.all_values()
    start, stop = values["from"], values["to"]
    widest = max(scenario.arm, stop + scenario.bar.length / 2) + 0.012
    cm: float = 284 / (widest * 100)
    x0, y = 8, 92

    def at(d: float) -> float:
        return x0 + d * 100 * cm

    with notebook():
        fig, ax = sketch(300, 186)
        plank(ax, at(0), y - 10, at(scenario.arm) - at(0), 20)
        ax.add_patch(
            Rectangle((at(start), y - 10), at(stop) - at(start), 20, facecolor=ACCENT, alpha=0.25, linewidth=0)
        )
        for mark in range(math.ceil(scenario.radius * 100), int(scenario.arm * 100) + 1):
            ax.plot([at(mark / 100)] * 2, [y - 10, y - 10 + (7 if mark % 5 == 0 else 3.5)], color=INK, linewidth=0.6)
        radius = scenario.radius * 100 * cm
        ax.add_patch(Wedge((at(0), y), radius, -90, 90, facecolor=PAPER, edgecolor=INK, linewidth=1.1))
        ax.text(at(0) + radius * 0.46, y, "box", ha="center", va="center_baseline")
        for d, theta in ((values["distance-near"], "60°"), (values["distance-far"], "30°")):
            used = d in (start, stop)
            ax.plot([at(d)] * 2, [y - 10, y + 52], color=INK if used else FAINT, linewidth=0.8, linestyle=DASHED)
            ax.text(at(d), y + 57, theta, ha="center")
        thick = 13
        bar_magnet(ax, at(start), y + 26, scenario.bar.length * 100 * cm, thick)
        bar_magnet(ax, at(stop), y - 26, scenario.bar.length * 100 * cm, thick)
        for d, side in ((start, 1), (stop, -1)):
            ax.plot([at(d)] * 2, [y, y + side * 26], color=INK, linewidth=0.7)
            ax.plot([at(d)], [y + side * 26], "o", color=PAPER, markeredgecolor=INK, markersize=4)
        dimension(ax, (at(0), 44), (at(start), 44), f"{centimetres(start)} cm", lift=-8)
        dimension(ax, (at(0), 18), (at(stop), 18), f"{centimetres(stop)} cm", lift=-9)
        ax.plot([at(start)] * 2, [41, y - 10], color=FAINT, linewidth=0.8, linestyle=DASHED)
        ax.plot([at(stop)] * 2, [15, y - 34], color=FAINT, linewidth=0.8, linestyle=DASHED)
        ax.text(at(start), y + 76, f"from {centimetres(start)} to {centimetres(stop)} cm", ha="left", color=ACCENT)
        alt = (
            f"The east arm from above, to scale, {centimetres(scenario.arm)} cm long, with half of the compass box at "
            f"its left end. The stretch from {centimetres(start)} cm to {centimetres(stop)} cm is tinted. The magnet "
            f"{scenario.bar.name} is drawn twice: above the arm with its middle at the near end of the stretch, below "
            f"it at the far end. Marks show where the deflection is 60° and 30°."
        )
        svg = to_svg(fig, figure_name("stretch", scenario.code), alt)
    return as_plate(
        svg,
        "The stretch to use, to scale, with the bar drawn beside the arm at either end of it. Dashed: where the "
        "deflection is 60° and 30°.",
    )

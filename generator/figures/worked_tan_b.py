"""The figures of a worked example of tan B: its bench, and four of its dials."""

import math

from matplotlib.patches import Circle

from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.tan_b.steps import ARMS
from exercises.working.numbers import centimetres
from exercises.working.steps import Working
from generator.figures import worked
from generator.figures.plates import as_plate, figure_name
from generator.figures.style import (
    ACCENT,
    FAINT,
    INK,
    PAPER,
    bar_magnet,
    dimension,
    lines,
    needle,
    north_arrow,
    notebook,
    plank,
    sketch,
)
from generator.figures.svg import to_svg


def bench(scenario: DeflectionScenario, working: Working) -> str:
    """The plan of the bench with the magnet across the north arm at the nearest distance, to scale."""
    row, bar, box = scenario.rows[0], scenario.bar, scenario.box
    far = scenario.rows[-1].d
    with notebook():
        span = max(bar.length + 0.13, 0.22)
        scale = 100 / span
        fig, ax = sketch(100, (far + box.radius + 0.075) * scale)
        x0, y0 = 38, (box.radius + 0.045) * scale
        plank(ax, x0 - 4, 0, 8, (far + box.radius + 0.075) * scale)
        for cm in range(int((far + 0.03) * 100) + 1):
            y = y0 + cm * scale / 100
            if y - y0 > box.radius * scale:
                ax.plot([x0 - 4, x0 - (2.2 if cm % 5 == 0 else 3.0)], [y, y], color=INK, linewidth=0.6)
        ax.add_patch(Circle((x0, y0), box.radius * scale, facecolor=PAPER, edgecolor=INK, linewidth=1.2))
        needle(ax, x0, y0, max(3.2, box.needle * scale), 90 + row.mean)
        reach, turn = box.radius * scale * 0.9, math.radians(row.mean)
        dx, dy = math.cos(turn) * reach, math.sin(turn) * reach
        ax.plot([x0 - dx, x0 + dx], [y0 - dy, y0 + dy], color=ACCENT, linewidth=1.3)
        at = y0 + row.d * scale
        bar_magnet(ax, x0, at, bar.length * scale, max(4.5, bar.width * scale))
        right = x0 + max(bar.length / 2, box.radius) * scale + 8
        for y in (y0, at):
            start = x0 + (box.radius if y == y0 else bar.length / 2) * scale + 1
            ax.plot([start, right + 2], [y, y], color=FAINT, linewidth=0.8, linestyle=(0, (3, 2)))
        dimension(ax, (right, y0), (right, at), "")
        lines(ax, right + 2, (y0 + at) / 2, f"*d* =\n{centimetres(row.d)} cm", ha="left")
        for d in (r.d for r in scenario.rows[1:]):
            ax.plot([x0 + 4, x0 + 6], [y0 + d * scale] * 2, color=ACCENT, linewidth=1.4)
        north_arrow(ax, 6, y0 + 0.03 * scale, 0.03 * scale)
        alt = (
            f"Plan of the bench, seen from above with north at the top. The magnet {bar.name}, "
            f"{centimetres(bar.length)} cm long, lies across the north arm with its north pole to the east, its "
            f"middle {centimetres(row.d)} cm from the centre of the compass box. The needle is turned {row.mean:.0f}° "
            f"to the west."
        )
        svg = to_svg(fig, figure_name("bench", scenario.code), alt)
    return as_plate(
        svg,
        "The bench at the nearest distance, to scale; the south arm is cut short. The marks beside the arm are the "
        f"other distances, up to {centimetres(far)} cm; on the south arm they are the same.",
    )


def dials(scenario: DeflectionScenario, working: Working) -> str:
    """The four dials at the nearest distance: broadside-on the needle turns against the magnet."""
    return worked.dials(scenario, working, ARMS, turned="west", note="With N to the east the needle turns west.")

"""The figure of a worked example of the tangent law: the fields of the board turned, each way round."""

import math

from matplotlib.patches import Wedge

from exercises.kinds.law.scenario import Drill
from exercises.working.numbers import places
from exercises.working.steps import Working
from generator.figures import as_plate
from generator.figures.style import ACCENT, FAINT, INK, arrow, lines, north_arrow, notebook, sketch
from generator.figures.svg import to_svg

DASHED = (0, (4, 3))


def fields(scenario: Drill, working: Working) -> str:
    """The earth's field and the magnet's added head to tail, N pole east on the right, N pole west on the left."""
    values = working.all_values()
    B, earth = scenario.fields[2] * 1e6, scenario.B_H * 1e6
    tilt = math.radians(scenario.tilt if scenario.north else -scenario.tilt)
    ux, uy = math.cos(tilt), math.sin(tilt)
    unit = min(118 / (B * ux), 120 / (earth + B * abs(uy)))
    with notebook():
        x, y = 150, 46
        height = y + unit * (earth + B * abs(uy)) + 44
        fig, ax = sketch(300, height)
        top = y + unit * earth
        ax.plot([x - 132, x + 132], [top, top], color=FAINT, linewidth=0.9, linestyle=DASHED)
        arrow(ax, (x, y), (x, top), width=1.8, head=14)
        ax.text(x + 5, y + unit * earth * 0.72, "*B_H*", ha="left", va="center")
        for way, sign in (("east", 1), ("west", -1)):
            tip = (x + sign * unit * B * ux, top + sign * unit * B * uy)
            theta = values[f"{way}-4"]
            arrow(ax, (x, top), tip, color=ACCENT, width=1.8, head=14)
            ax.plot([x, tip[0]], [y, tip[1]], color=INK, linewidth=0.9, linestyle=DASHED)
            ax.add_patch(
                Wedge(
                    (x, y),
                    34,
                    90 - theta if sign > 0 else 90,
                    90 if sign > 0 else 90 + theta,
                    width=0,
                    edgecolor=INK,
                    linewidth=0.8,
                )
            )
            half = math.radians(90 - sign * theta / 2)
            ax.text(x + 25 * math.cos(half), y + 25 * math.sin(half), "θ", ha="center", va="center")
            lines(ax, x + sign * 84, y - 8, f"N pole {way}:\nθ = {places(theta, 1)}°")
            ax.text(
                x + sign * unit * B * ux * 0.6,
                max(top, tip[1], top + 0.6 * (tip[1] - top)) + 9,
                "*B*",
                ha="center",
                color=ACCENT,
            )
        ax.plot([x], [y], "o", color=INK, markersize=4)
        north_arrow(ax, 20, height - 58, 22)
        side = "north" if scenario.north else "south"
        alt = (
            f"The fields from above, to scale. The earth's field of {places(earth, 1)} microtesla points north. From its "
            f"tip the magnet's field of {places(B, 1)} microtesla goes along the arm, which slants "
            f"{scenario.tilt:.0f}° {side} of east: to the right with the north pole east, to the left with it west. "
            f"The needle lies along the sum, {places(values['east-4'], 1)}° east of north and "
            f"{places(values['west-4'], 1)}° west of it."
        )
        svg = to_svg(fig, f"fields-{str(scenario.code).lower()}", alt)
    return as_plate(
        svg,
        f"Both ways round in one drawing, to scale. The arm, and with it B, slants {scenario.tilt:.0f}°; on a true "
        "board B would lie along the pale line, and both deflections would be the same.",
    )

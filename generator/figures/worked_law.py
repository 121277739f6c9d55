"""The figure of a worked example of the tangent law: the fields with the arms askew, each way round."""

import math

from matplotlib.axes import Axes
from matplotlib.patches import Wedge

from exercises.kinds.law.scenario import Drill
from exercises.working.numbers import places
from exercises.working.steps import Working
from generator.figures.plates import as_plate, figure_name
from generator.figures.style import ACCENT, FAINT, INK, Point, arrow, lines, north_arrow, notebook, sketch
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
            step = sign * unit * B * ux, sign * unit * B * uy
            _one_way(ax, (x, y), top, step, way, values[f"{way}-4"])
        ax.plot([x], [y], "o", color=INK, markersize=4)
        north_arrow(ax, 20, height - 58, 22)
        side = "north" if scenario.north else "south"
        alt = (
            f"The fields from above, to scale. The earth's field of {places(earth, 1)} microtesla points north. From "
            f"its tip the magnet's field of {places(B, 1)} microtesla goes along the arm, which slants "
            f"{scenario.tilt:.0f}° {side} of east: to the right with the north pole east, to the left with it west. "
            f"The needle lies along the sum, {places(values['east-4'], 1)}° east of north and "
            f"{places(values['west-4'], 1)}° west of it."
        )
        svg = to_svg(fig, figure_name("fields", scenario.code), alt)
    return as_plate(
        svg,
        f"Both ways round in one drawing, to scale. The arm, and with it B, slants {scenario.tilt:.0f}°. If "
        "the arms were east–west, B would lie along the pale line, and both deflections would be the same.",
    )


def _one_way(ax: Axes, foot: Point, top: float, step: Point, way: str, theta: float) -> None:
    """The magnet's field from the tip of the earth's, the sum of both, and the angle between the sum and north.

    foot  where the needle turns; top  the height of the tip of the earth's field; step  the magnet's field
    way   "east" or "west", where the N pole points and the needle turns; theta  by how many degrees
    """
    sign = 1 if way == "east" else -1
    x, y = foot
    tip = (x + step[0], top + step[1])
    arrow(ax, (x, top), tip, color=ACCENT, width=1.8, head=14)
    ax.plot([x, tip[0]], [y, tip[1]], color=INK, linewidth=0.9, linestyle=DASHED)
    start, stop = (90 - theta, 90) if sign > 0 else (90, 90 + theta)
    ax.add_patch(Wedge((x, y), 34, start, stop, width=0, edgecolor=INK, linewidth=0.8))
    half = math.radians(90 - sign * theta / 2)
    ax.text(x + 25 * math.cos(half), y + 25 * math.sin(half), "θ", ha="center", va="center")
    lines(ax, x + sign * 84, y - 8, f"N pole {way}:\nθ = {places(theta, 1)}°")
    name_at = max(top, tip[1], top + 0.6 * step[1]) + 9
    ax.text(x + step[0] * 0.6, name_at, "*B*", ha="center", color=ACCENT)

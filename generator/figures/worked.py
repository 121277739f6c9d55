"""The figures of a worked example: its bench, four of its dials, and its graph."""

import math
from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.collections import LineCollection
from matplotlib.patches import Circle

from exercises.bench.instrument import EIGHT
from exercises.bench.least_squares import through_origin
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.working.numbers import centimetres, figures, reading
from exercises.working.steps import Working
from generator.figures.plates import as_plate, figure_name
from generator.figures.style import (
    ACCENT,
    FAINT,
    INK,
    PAPER,
    WIDTH,
    arrow,
    bar_magnet,
    dimension,
    figure,
    lines,
    needle,
    north_arrow,
    notebook,
    plank,
    sketch,
)
from generator.figures.style import graph as axes
from generator.figures.svg import to_svg


def bench(scenario: DeflectionScenario, working: Working) -> str:
    """The plan of the bench with the magnet at the nearest distance on the east arm, to scale."""
    row, bar, box = scenario.rows[0], scenario.bar, scenario.box
    far = scenario.rows[-1].d
    half = far + bar.length / 2 + 0.02
    with notebook():
        # drawn so that the west arm is cut short: what stands there is the east side's mirror image
        left = box.radius + 0.05
        width = left + half + 0.01
        scale = 100 / width
        fig, ax = sketch(100, 62)
        x0, y0 = left * scale, 34
        thick = max(4.5, bar.width * scale)
        plank(ax, 0, y0 - 4, 100, 8)
        for cm in range(int(half * 100) + 1):
            x = x0 + cm * scale / 100
            if x - x0 > box.radius * scale:
                ax.plot([x, x], [y0 - 4, y0 - (2.2 if cm % 5 == 0 else 3.0)], color=INK, linewidth=0.6)
        ax.add_patch(Circle((x0, y0), box.radius * scale, facecolor=PAPER, edgecolor=INK, linewidth=1.2))
        needle(ax, x0, y0, max(3.2, box.needle * scale), 90 - row.mean)
        reach, turn = box.radius * scale * 0.9, math.radians(row.mean)
        dx, dy = math.cos(turn) * reach, -math.sin(turn) * reach
        ax.plot([x0 - dx, x0 + dx], [y0 - dy, y0 + dy], color=ACCENT, linewidth=1.3)
        bar_magnet(ax, x0 + row.d * scale, y0, bar.length * scale, thick)
        dimension(ax, (x0, 52), (x0 + row.d * scale, 52), f"*d* = {centimetres(row.d)} cm", lift=3.5)
        for x in (x0, x0 + row.d * scale):
            ax.plot([x, x], [y0 + 6, 53.5], color=FAINT, linewidth=0.8, linestyle=(0, (3, 2)))
        ends = [x0 + (row.d + s * bar.length / 2) * scale for s in (-1, 1)]
        dimension(ax, (ends[0], 22), (ends[1], 22), f"{centimetres(bar.length)} cm", lift=-3.8)
        for d in (r.d for r in scenario.rows[1:]):
            ax.plot([x0 + d * scale] * 2, [y0 + 4, y0 + 6], color=ACCENT, linewidth=1.4)
        north_arrow(ax, 6, 46, 8)
        lines(ax, 1, 10, "compass box,\nits pointer shown deflected", ha="left")
        arrow(ax, (x0, 14.5), (x0, y0 - box.radius * scale - 1), width=0.8, head=7)
        alt = (
            f"Plan of the bench, seen from above with north at the top. The magnet {bar.name}, "
            f"{centimetres(bar.length)} cm long, lies on the east arm with its north pole to the east, its middle "
            f"{centimetres(row.d)} cm from the centre of the compass box. The needle is turned {row.mean:.0f}° to the "
            f"east."
        )
        svg = to_svg(fig, figure_name("bench", scenario.code), alt)
    return as_plate(
        svg,
        f"The bench at the nearest distance, to scale. The marks above the arm are the other distances, "
        f"up to {centimetres(far)} cm; on the west arm they are the same.",
    )


def dials(
    scenario: DeflectionScenario,
    working: Working,
    arms: tuple[str, str] = ("east", "west"),
    turned: str = "east",
    note: str = "The pointer lies at right angles to the needle.",
) -> str:
    """The four dials at the nearest distance: each arm, each way round, with both ends read.

    arms    the names of the two arms
    turned  which way N must point for the needle to turn east
    note    what the caption says of needle and pointer
    """
    row = scenario.rows[0]
    names = dict(zip(("east", "west"), arms, strict=True))
    with notebook():
        fig = figure(WIDTH, WIDTH)
        for place in range(4):
            arm, north, _ = EIGHT[2 * place]
            one, two = row.readings[2 * place : 2 * place + 2]
            ax = fig.add_axes((0.02 + 0.5 * (place % 2), 0.52 - 0.5 * (place // 2), 0.46, 0.46))
            _dial(ax, one, two, east=north == turned)
            ax.text(0, 1.62, f"{names[arm]} arm, N {north}", ha="center", va="center", weight="bold")
        alt = f"Four dials at {centimetres(row.d)} cm. " + " ".join(
            f"Magnet on the {names[EIGHT[2 * i][0]]} arm, north pole {EIGHT[2 * i][1]}: the ends of the pointer show "
            f"{reading(row.readings[2 * i])} and {reading(row.readings[2 * i + 1])} degrees."
            for i in range(4)
        )
        svg = to_svg(fig, figure_name("dials", scenario.code), alt)
    return as_plate(
        svg,
        f"The eight readings at d = {centimetres(row.d)} cm. {note} "
        "① is the end that points east at rest, ② the other.",
    )


def _dial(ax: Axes, one: float, two: float, east: bool) -> None:
    """A dial with both ends of the pointer where they were read; east: the needle is turned east."""
    ax.set_xlim(-1.7, 1.7)
    ax.set_ylim(-1.6, 1.8)
    ax.set_aspect("equal")
    ax.set_axis_off()
    ax.add_patch(Circle((0, 0), 1.0, fill=False, edgecolor=INK, linewidth=1.0))
    ticks = []
    for degrees in range(0, 360, 10):
        a = math.radians(degrees)
        ticks.append([(r * math.cos(a), r * math.sin(a)) for r in (0.88 if degrees % 30 == 0 else 0.93, 1.0)])
    ax.add_collection(LineCollection(ticks, colors=INK, linewidths=0.6))
    for degrees, label in ((0, "0"), (90, "90"), (180, "0"), (270, "90")):
        a = math.radians(degrees)
        ax.text(0.72 * math.cos(a), 0.74 * math.sin(a), label, ha="center", va="center_baseline")
    sign = -1 if east else 1
    first, second = math.radians(sign * one), math.radians(180 + sign * two)
    ax.plot(
        [0.97 * math.cos(first), 0, 0.97 * math.cos(second)],
        [0.97 * math.sin(first), 0, 0.97 * math.sin(second)],
        color=ACCENT,
        linewidth=1.5,
    )
    turned = 90 + sign * (one + two) / 2
    needle(ax, 0, 0, 0.42, turned, thick=0.07)
    for letter, r in (("N", 0.58), ("S", -0.58)):
        x, y = r * math.cos(math.radians(turned)), r * math.sin(math.radians(turned))
        ax.text(x, y, letter, ha="center", va="center", weight="bold", size=9)
    for angle, mark, value in ((first, "①", one), (second, "②", two)):
        ax.text(1.42 * math.cos(angle), 1.27 * math.sin(angle), f"{mark} {reading(value)}°", ha="center", va="center")


def graph(scenario: DeflectionScenario, xs: Sequence[float], tangents: Sequence[float], label: str, spoken: str) -> str:
    """tan θ against xs (m⁻³) with the line through the origin; the abscissa as it is named on the axis, and aloud."""
    slope = through_origin(xs, tangents)
    with notebook():
        fig, ax = axes(3.8, label, "tan *θ*")
        top = max(xs) * 1.08
        ax.plot([0, top], [0, slope * top], color=ACCENT)
        ax.plot(xs, tangents, "o", color=INK, markersize=5, markerfacecolor=PAPER, markeredgewidth=1.3)
        ax.set_xlim(0, top)
        ax.set_ylim(0, max(tangents) * 1.1)
        ax.grid(True)
        alt = (
            f"Graph of tan θ against {spoken} for {len(xs)} distances: the points lie close to a straight line "
            f"through the origin that reaches tan θ = {slope * max(xs):.2f} at {figures(max(xs))} per cubic metre."
        )
        svg = to_svg(fig, figure_name("graph", scenario.code), alt)
    return as_plate(svg, "The slope of the line through the origin is (µ₀/4π)·m/<i>B</i><sub>H</sub>.")

"""The figures of a worked example of tan B: its bench, four of its dials, and its graph."""

import math

from matplotlib.patches import Circle

from exercises.deflection import MAGNETIC_SHARE
from exercises.fit import through_origin
from exercises.instrument import EIGHT
from exercises.kinds.tan_b import ARMS
from exercises.numbers import centimetres, figures, reading
from exercises.scenario import Scenario
from exercises.working import Working
from generator.figures import as_plate
from generator.figures.style import (
    ACCENT,
    FAINT,
    INK,
    PAPER,
    WIDTH,
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
from generator.figures.worked import _dial, _name


def bench(scenario: Scenario, working: Working) -> str:
    """The plan of the bench with the magnet across the north arm at the nearest distance, to scale."""
    row, bar, box = scenario.rows[0], scenario.bar, scenario.box
    far = scenario.rows[-1].d
    with notebook():
        span = max(bar.length + 0.13, 0.22)
        scale = 100 / span
        fig, ax = sketch(100, (far + box.radius + 0.075) * scale)
        x0, y0 = 38, (box.radius + 0.045) * scale
        plank(ax, x0 - 4, 0, 8, (far + box.radius + 0.075) * scale)
        for cm in range(0, int((far + 0.03) * 100) + 1):
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
            f"Plan of the bench, seen from above with north at the top. The magnet {bar.name}, {centimetres(bar.length)} cm "
            f"long, lies across the north arm with its north pole to the east, its middle {centimetres(row.d)} cm from the "
            f"centre of the compass box. The needle is turned {row.mean:.0f}° to the west."
        )
        svg = to_svg(fig, _name("bench", scenario), alt)
    return as_plate(
        svg,
        "The bench at the nearest distance, to scale; the south arm is cut short. The marks beside the arm are the other "
        f"distances, up to {centimetres(far)} cm; on the south arm they are the same.",
    )


def dials(scenario: Scenario, working: Working) -> str:
    """The four dials at the nearest distance: each arm, each way round, with both ends read."""
    row = scenario.rows[0]
    names = dict(zip(("east", "west"), ARMS, strict=True))
    with notebook():
        fig = figure(WIDTH, WIDTH)
        for place in range(4):
            arm, north, _ = EIGHT[2 * place]
            one, two = row.readings[2 * place : 2 * place + 2]
            ax = fig.add_axes((0.02 + 0.5 * (place % 2), 0.52 - 0.5 * (place // 2), 0.46, 0.46))
            _dial(ax, one, two, east=north == "west")  # broadside-on the needle turns against the magnet
            ax.text(0, 1.62, f"{names[arm]} arm, N {north}", ha="center", va="center", weight="bold")
        alt = f"Four dials at {centimetres(row.d)} cm. " + " ".join(
            f"Magnet on the {names[EIGHT[2 * i][0]]} arm, north pole {EIGHT[2 * i][1]}: the ends of the pointer show "
            f"{reading(row.readings[2 * i])} and {reading(row.readings[2 * i + 1])} degrees."
            for i in range(4)
        )
        svg = to_svg(fig, _name("dials", scenario), alt)
    return as_plate(
        svg,
        f"The eight readings at d = {centimetres(row.d)} cm. With N to the east the needle turns west. "
        "① is the end of the pointer that points east at rest, ② the other.",
    )


def against(scenario: Scenario, values) -> tuple[list[float], list[float]]:
    """(1/(d²+l²)^(3/2) in m⁻³, tan θ) of every distance: the points of the straight line."""
    l = MAGNETIC_SHARE * scenario.bar.length / 2
    xs = [(r.d**2 + l**2) ** -1.5 for r in scenario.rows]
    return xs, [values[f"tan-{i + 1}"] for i in range(len(xs))]


def graph(scenario: Scenario, working: Working) -> str:
    """tan θ against 1/(d² + l²)^(3/2) with the line through the origin."""
    xs, ys = against(scenario, working.all_values())
    slope = through_origin(xs, ys)
    with notebook():
        fig, ax = axes(3.8, "1/(*d*² + *l*²)^(3/2) in m⁻³", "tan *θ*")
        top = max(xs) * 1.08
        ax.plot([0, top], [0, slope * top], color=ACCENT)
        ax.plot(xs, ys, "o", color=INK, markersize=5, markerfacecolor=PAPER, markeredgewidth=1.3)
        ax.set_xlim(0, top)
        ax.set_ylim(0, max(ys) * 1.1)
        ax.grid(True)
        alt = (
            f"Graph of tan θ against one over (d² + l²) to the power three halves for {len(xs)} distances: the points lie "
            f"close to a straight line through the origin that reaches tan θ = {slope * max(xs):.2f} at "
            f"{figures(max(xs))} per cubic metre."
        )
        svg = to_svg(fig, _name("graph", scenario), alt)
    return as_plate(svg, "The slope of the line through the origin is (µ₀/4π)·m/<i>B</i><sub>H</sub>.")

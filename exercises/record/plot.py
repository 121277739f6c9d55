"""The graph of a record as SVG: tan θ against 2d/(d² − l²)², the line through the origin and the free line."""

import math
from html import escape

from exercises.record.moments import Graph
from exercises.working.numbers import figures, places

WIDTH, HEIGHT = 360, 250
LEFT, RIGHT, TOP, BOTTOM = 44, 348, 10, 208  # of the axes
INK, ACCENT, SOFT, FAINT = (
    "var(--er-ink,#22302f)",
    "var(--er-accent,#0f6b62)",
    "var(--er-soft,#55635f)",
    "var(--er-line,#d8d3c4)",
)


def steps(top: float) -> list[float]:
    """Round numbers from 0 to about `top`, four to eight of them.

    >>> steps(1.7)
    [0.0, 0.5, 1.0, 1.5]
    """
    power = 10.0 ** math.floor(math.log10(top / 4))
    size = next(s * power for s in (1, 2, 2.5, 5, 10) if top / (s * power) < 5.5)
    return [round(i * size, 12) for i in range(int(top / size + 1e-9) + 1)]


def _text(x, y, text, anchor="middle", size=11, turn="") -> str:
    return f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" fill="{INK}" text-anchor="{anchor}"{turn}>{escape(text)}</text>'


def _path(points, color, width, more="") -> str:
    drawn = "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
    return f'<path d="M{drawn}" stroke="{color}" stroke-width="{width}" fill="none"{more}/>'


def graph_svg(graph: Graph, numbers: tuple[int, ...]) -> str:
    """The graph; `numbers` are those of the distances, in the order of its points."""
    top_x, top_y = max(graph.xs) * 1.12, max(max(graph.ys), graph.slope * max(graph.xs)) * 1.12

    def at(x: float, y: float) -> tuple[float, float]:
        return LEFT + (RIGHT - LEFT) * x / top_x, BOTTOM - (BOTTOM - TOP) * y / top_y

    parts = []
    for x in steps(top_x):
        parts += [_path([at(x, 0), at(x, top_y)], FAINT, 0.7), _text(at(x, 0)[0], BOTTOM + 14, f"{x:g}")]
    for y in steps(top_y):
        parts += [_path([at(0, y), at(top_x, y)], FAINT, 0.7), _text(LEFT - 5, at(0, y)[1] + 4, f"{y:g}", "end")]
    parts.append(_path([(LEFT, TOP), (LEFT, BOTTOM), (RIGHT, BOTTOM)], INK, 1))
    end = min(top_x, top_y / graph.slope)
    parts.append(_path([at(0, 0), at(end, graph.slope * end)], ACCENT, 1.6))
    said = f"Graph of tan θ against 2d/(d² − l²)² with a line through the origin of slope {figures(graph.slope)} m³"
    if graph.free:
        slope, intercept, error = graph.free
        ends = [x for x in (0.0, top_x) if 0 <= intercept + slope * x <= top_y]
        if slope:
            ends += [x for y in (0.0, top_y) if 0 <= (x := (y - intercept) / slope) <= top_x]
        if len(ends) > 1:
            both = [at(x, intercept + slope * x) for x in (min(ends), max(ends))]
            parts.append(_path(both, SOFT, 1.2, ' stroke-dasharray="5 4"'))
        meets = f"{places(intercept, 3)} ± {places(error, 3)}"
        said += f", and dashed the best line of all, which meets the upright axis at {meets}"
    for x, y, number in zip(graph.xs, graph.ys, numbers):
        px, py = at(x, y)
        parts.append(f'<circle cx="{px:.1f}" cy="{py:.1f}" r="3.2" fill="{INK}"/>')
        parts.append(_text(px - 7, py - 5, str(number), "end", 10))
    parts.append(_text((LEFT + RIGHT) / 2, HEIGHT - 8, "2d/(d² − l²)² in m⁻³", size=12))
    middle = (TOP + BOTTOM) / 2
    parts.append(_text(12, middle, "tan θ", size=12, turn=f' transform="rotate(-90 12 {middle:.0f})"'))
    points = "; ".join(f"distance {n}: {figures(x)}, {places(y, 3)}" for n, x, y in zip(numbers, graph.xs, graph.ys))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="er-figure rc-graph" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" '
        f'aria-label="{escape(said)}. Points: {escape(points)}.">{"".join(parts)}</svg>'
    )

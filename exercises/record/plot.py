"""The graph of a record as SVG: tan θ against its abscissa, the line through the origin and the free line."""

import math
from collections.abc import Sequence
from typing import NamedTuple

from exercises.record.moments import Graph
from exercises.working.mathematics import drawn, spoken
from exercises.working.numbers import figures, places

WIDTH, HEIGHT = 360, 250
LEFT, RIGHT, TOP, BOTTOM = 44, 348, 10, 208  # of the axes
#: The power 3/2, set higher; the zero-width space brings what follows down again.
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


def _text(x: float, y: float, text: str, anchor: str = "middle", size: int = 11, turn: str = "") -> str:
    place = f'x="{x:.1f}" y="{y:.1f}"'
    return f'<text {place} font-size="{size}" fill="{INK}" text-anchor="{anchor}"{turn}>{drawn(text)}</text>'


def _path(points: Sequence[tuple[float, float]], color: str, width: float, more: str = "") -> str:
    drawn = "L".join(f"{x:.1f} {y:.1f}" for x, y in points)
    return f'<path d="M{drawn}" stroke="{color}" stroke-width="{width}" fill="none"{more}/>'


class _Frame(NamedTuple):
    """The axes: from zero to these numbers."""

    top_x: float
    top_y: float

    def at(self, x: float, y: float) -> tuple[float, float]:
        """The place of a point in the drawing."""
        return LEFT + (RIGHT - LEFT) * x / self.top_x, BOTTOM - (BOTTOM - TOP) * y / self.top_y

    def ends(self, slope: float, intercept: float) -> list[tuple[float, float]]:
        """Where a straight line enters and leaves the frame; fewer than two places if it does not cross it."""
        xs = [x for x in (0.0, self.top_x) if 0 <= intercept + slope * x <= self.top_y]
        if slope:
            xs += [x for y in (0.0, self.top_y) if 0 <= (x := (y - intercept) / slope) <= self.top_x]
        return [self.at(x, intercept + slope * x) for x in (min(xs), max(xs))] if len(xs) > 1 else []


def graph_svg(graph: Graph, numbers: tuple[int, ...], abscissa: str) -> str:
    """The graph; `numbers` are those of the distances, in the order of its points; `abscissa` names the lower axis."""
    frame = _Frame(max(graph.xs) * 1.12, max(max(graph.ys), graph.slope * max(graph.xs)) * 1.12)
    parts = _grid(frame) + _lines(frame, graph)
    for x, y, number in zip(graph.xs, graph.ys, numbers):
        px, py = frame.at(x, y)
        parts.append(f'<circle cx="{px:.1f}" cy="{py:.1f}" r="3.2" fill="{INK}"/>')
        parts.append(_text(px - 7, py - 5, str(number), "end", 10))
    parts.append(_text((LEFT + RIGHT) / 2, HEIGHT - 8, abscissa, size=12))
    middle = (TOP + BOTTOM) / 2
    parts.append(_text(12, middle, "tan θ", size=12, turn=f' transform="rotate(-90 12 {middle:.0f})"'))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="er-figure rc-graph" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" '
        f'aria-label="{spoken(_in_words(graph, numbers, abscissa))}">{"".join(parts)}</svg>'
    )


def _grid(frame: _Frame) -> list[str]:
    """The axes, and a faint line with its number at every step."""
    parts = []
    for x in steps(frame.top_x):
        foot = frame.at(x, 0)
        parts += [_path([foot, frame.at(x, frame.top_y)], FAINT, 0.7), _text(foot[0], BOTTOM + 14, f"{x:g}")]
    for y in steps(frame.top_y):
        foot = frame.at(0, y)
        parts += [_path([foot, frame.at(frame.top_x, y)], FAINT, 0.7), _text(LEFT - 5, foot[1] + 4, f"{y:g}", "end")]
    return [*parts, _path([(LEFT, TOP), (LEFT, BOTTOM), (RIGHT, BOTTOM)], INK, 1)]


def _lines(frame: _Frame, graph: Graph) -> list[str]:
    """The line through the origin, and dashed the best line of all if there is one in the frame."""
    end = min(frame.top_x, frame.top_y / graph.slope)
    parts = [_path([frame.at(0, 0), frame.at(end, graph.slope * end)], ACCENT, 1.6)]
    if graph.free:
        slope, intercept, _ = graph.free
        if ends := frame.ends(slope, intercept):
            parts.append(_path(ends, SOFT, 1.2, ' stroke-dasharray="5 4"'))
    return parts


def _in_words(graph: Graph, numbers: tuple[int, ...], abscissa: str) -> str:
    """What the graph shows, for those who do not see it."""
    said = (
        f"Graph of tan θ against {abscissa.removesuffix(' in m⁻³')} with a line through the origin of slope "
        f"{figures(graph.slope)} m³"
    )
    if graph.free:
        _, intercept, error = graph.free
        meets = f"{places(intercept, 3)} ± {places(error, 3)}"
        said += f", and dashed the best line of all, which meets the upright axis at {meets}"
    points = "; ".join(f"distance {n}: {figures(x)}, {places(y, 3)}" for n, x, y in zip(numbers, graph.xs, graph.ys))
    return f"{said}. Points: {points}."

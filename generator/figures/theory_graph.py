"""The graph method: the two straight lines of one magnet, with points as eight readings give them."""

import math
from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from exercises.bench.field import deflection, end_on
from exercises.bench.least_squares import Line, line
from exercises.kinds.graph.lines import extremes, root_of, slope_through_origin, x_of
from exercises.working.mathematics import symbols
from exercises.working.numbers import figures
from generator.figures.plates import plate
from generator.figures.style import ACCENT, INK, PAPER, graph
from generator.figures.theory import B_H, MAGNET

DASHED = (0, (5, 3))
DISTANCES = (0.175, 0.190, 0.205, 0.222, 0.240)
#: Invented errors of the five mean deflections, in degrees.
ERRORS = (0.5, -0.4, 0.1, 0.3, -0.5)


def _angles() -> list[float]:
    return [round(deflection(end_on(MAGNET.m, d, MAGNET.l), B_H) + e, 1) for d, e in zip(DISTANCES, ERRORS)]


def _points(ax: Axes, xs: Sequence[float], ys: Sequence[float]) -> None:
    ax.plot(xs, ys, "o", color=INK, markersize=5, markerfacecolor=PAPER, markeredgewidth=1.3)


def _triangle(ax: Axes, x1: float, y1: float, x2: float, y2: float) -> None:
    ax.plot([x1, x2, x2], [y1, y1, y2], color=INK, linewidth=0.9, linestyle=DASHED)


def first(ds: Sequence[float], tangents: Sequence[float], l: float) -> tuple[Figure, float]:
    """(figure, slope) of tan θ against 2d/(d² − l²)², with the triangle the slope is read from."""
    xs = [x_of(d, l) for d in ds]
    slope = slope_through_origin(xs, tangents)
    fig, ax = graph(3.8, "2*d*/(*d*² − *l*²)² in m⁻³", "tan *θ*")
    top = max(xs) * 1.08
    ax.plot([0, top], [0, slope * top], color=ACCENT)
    _triangle(ax, 0, 0, max(xs) * 0.95, slope * max(xs) * 0.95)
    ax.text(max(xs) * 0.5, slope * max(xs) * 0.04, "run", ha="center")
    ax.text(max(xs) * 0.93, slope * max(xs) * 0.42, "rise", ha="right")
    _points(ax, xs, tangents)
    ax.set_xlim(0, top)
    ax.set_ylim(0, max(tangents) * 1.12)
    ax.grid(True)
    return fig, slope


def second(ds: Sequence[float], roots: Sequence[float], by_two: bool = False) -> tuple[Figure, Line]:
    """(figure, line) of d² against √(d cot θ), carried on to the upright axis.

    by_two  shows as well where the first and the last point alone would take it
    """
    squares = [d * d for d in ds]
    best = line(roots, squares)
    fig, ax = graph(3.8, "√(*d* cot *θ*) in √m", "*d*² in m²", left=0.175)
    top = max(roots) * 1.08
    edge = min(roots)
    ax.plot([edge, top], [best.intercept + best.slope * x for x in (edge, top)], color=ACCENT)
    ax.plot([0, edge], [best.intercept, best.intercept + best.slope * edge], color=ACCENT, linestyle=DASHED)
    if by_two:
        slope, intercept = extremes(roots, squares)
        ax.plot([0, edge], [intercept, intercept + slope * edge], color=INK, linewidth=0.8)
    _points(ax, roots, squares)
    ax.plot([0], [best.intercept], "o", color=ACCENT, markersize=6, clip_on=False)
    ax.annotate(
        "intercept *l*²",
        (0, best.intercept),
        (0.05 * top, max(squares) * 0.48),
        va="bottom",
        arrowprops={"arrowstyle": "-", "color": INK, "linewidth": 0.7},
    )
    ax.set_xlim(0, top)
    ax.set_ylim(0, max(squares) * 1.12)
    ax.grid(True)
    return fig, best


def _first() -> tuple[Figure, float]:
    return first(DISTANCES, [math.tan(math.radians(t)) for t in _angles()], MAGNET.l)


def _second() -> tuple[Figure, Line]:
    return second(DISTANCES, [root_of(d, t) for d, t in zip(DISTANCES, _angles())], by_two=True)


@plate(
    "graph-first",
    alt="Tan theta against two d over the square of d squared minus l squared: five points close to a straight line "
    "through the origin, and the triangle of rise and run from which its slope is read.",
    caption=f"Five distances of one magnet of {MAGNET.m} A·m². The line goes through the origin, for without a magnet "
    f"there is no deflection. The triangle is large: a small one is hard to read.",
)
def graph_first() -> Figure:
    return _first()[0]


def _second_caption() -> str:
    best = _second()[1]
    return (
        f"The same five distances. The slope is {figures(best.slope)} {symbols('m^1.5')}, and the intercept "
        f"{figures(best.intercept, 2)} m² with a standard error of {figures(best.intercept_error, 1)} m². Dashed, the "
        f"line carried on to zero; thin, where the first and the last point alone would take it."
    )


@plate(
    "graph-second",
    alt="d squared against the root of d cotangent theta: five points close to a straight line that meets the upright "
    "axis a little above zero, at l squared.",
    caption=_second_caption,
)
def graph_second() -> Figure:
    return _second()[0]

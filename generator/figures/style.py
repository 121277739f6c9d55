"""One look for every figure: thin ink lines on no background, one accent, poles lettered N and S.

A figure is about 4.2 in wide, so that on a 360 px screen it is shown at about
its own size and its 10 pt text stays legible.  The colours below are what the
printed figure has; `svg.to_svg` turns each into a CSS variable of the site.

Text may hold a little markup, set by `to_svg`: `*d*` is italic (a symbol) and
`B_H` has a lowered H.  Keep every label on one line (`lines` stacks several):
only single lines are placed by the browser's own font.
"""

import math
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Literal

import matplotlib as mpl
from matplotlib.axes import Axes
from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.figure import Figure
from matplotlib.patches import FancyArrowPatch, Polygon, Rectangle
from matplotlib.typing import RcKeyType

INK = "#22302f"  # lines and all text
ACCENT = "#0f6b62"  # the one thing the figure is about
NORTH = "#b23a2e"  # north poles, always lettered N as well
SOUTH = "#2b4f9e"  # south poles, always lettered S as well
FAINT = "#b9c0bb"  # grids, bands, outlines of what is not at issue; never text
PAPER = "#fbf8f1"  # covers a line that passes behind something

#: Sentinel colour -> the CSS variable that takes its place.
VARIABLES = {
    INK: "--er-ink",
    ACCENT: "--er-accent",
    NORTH: "--er-north",
    SOUTH: "--er-south",
    FAINT: "--er-faint",
    PAPER: "--er-paper",
}

WIDTH = 4.2  # inches
TEXT = 10  # points, the smallest text in a figure

RC: dict[RcKeyType, str | float | bool] = {
    "svg.fonttype": "none",
    "font.family": "DejaVu Sans",  # comes with matplotlib, so the layout is the same everywhere
    "font.size": TEXT,
    "text.color": INK,
    "text.parse_math": False,
    "text.usetex": False,
    "axes.edgecolor": INK,
    "axes.labelcolor": INK,
    "axes.labelsize": TEXT,
    "axes.facecolor": "none",
    "axes.linewidth": 0.8,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.unicode_minus": True,
    "figure.facecolor": "none",
    "savefig.facecolor": "none",
    "xtick.color": INK,
    "ytick.color": INK,
    "xtick.labelsize": TEXT,
    "ytick.labelsize": TEXT,
    "lines.linewidth": 1.4,
    "lines.solid_capstyle": "round",
    "patch.linewidth": 1.0,
    "patch.facecolor": "none",  # else a colour of matplotlib's own, where none is asked for
    "grid.color": FAINT,
    "grid.linewidth": 0.6,
}


#: A place in data units.
type Point = tuple[float, float]


@contextmanager
def notebook() -> Iterator[None]:
    """matplotlib set to this style and to nothing else, whatever the machine's own settings are."""
    with mpl.rc_context():
        mpl.rcdefaults()
        mpl.rcParams.update(RC)
        yield


def figure(width_in: float = WIDTH, height_in: float = 4.2) -> Figure:
    """An empty figure of this size in inches.  Use it inside `notebook()`; a plate's function already is."""
    fig = Figure(figsize=(width_in, height_in))
    FigureCanvasSVG(fig)
    return fig


def graph(
    height_in: float = 3.8, x: str = "", y: str = "", left: float = 0.155, bottom: float = 0.145
) -> tuple[Figure, Axes]:
    """(figure, axes) of a graph with its axes named; y is written level above the axis, where it is easy to read."""
    fig = figure(WIDTH, height_in)
    ax = fig.add_axes((left, bottom, 0.965 - left, 0.90 - bottom))
    ax.set_xlabel(x)
    ax.text(-0.10, 1.035, y, transform=ax.transAxes, ha="left", va="bottom")
    return fig, ax


def sketch(width: float, height: float) -> tuple[Figure, Axes]:
    """(figure, axes) of a drawing without axes, `width` × `height` in its own units, one scale both ways."""
    fig = figure(WIDTH, WIDTH * height / width)
    ax = fig.add_axes((0, 0, 1, 1))
    ax.set_xlim(0, width)
    ax.set_ylim(0, height)
    ax.set_axis_off()
    return fig, ax


def lines(
    ax: Axes,
    x: float,
    y: float,
    text: str,
    ha: Literal["left", "center", "right"] = "center",
    leading: float = 1.3,
    size: float = TEXT,
    color: str = INK,
) -> None:
    """Several lines of text from (x, y) downwards, each a text of its own; y is the first baseline."""
    points = ax.figure.dpi_scale_trans.inverted()
    for i, line in enumerate(text.split("\n")):
        _, top = points.transform(ax.transData.transform((x, y)))
        down = ax.transData.inverted().transform(
            ax.figure.dpi_scale_trans.transform((0, top - i * leading * size / 72))
        )[1]
        ax.text(x, down, line, ha=ha, va="baseline", size=size, color=color)


def arrow(ax: Axes, start: Point, end: Point, color: str = INK, width: float = 1.3, head: float = 12) -> None:
    """A straight arrow from start to end, in data units, its point exactly at end."""
    ax.add_patch(
        FancyArrowPatch(
            start,
            end,
            arrowstyle="-|>",
            mutation_scale=head,
            color=color,
            linewidth=width,
            shrinkA=0,
            shrinkB=0,
            joinstyle="miter",
        )
    )


def dimension(
    ax: Axes, start: Point, end: Point, text: str, lift: float = 0.0, side: float = 1.0, color: str = INK
) -> None:
    """A dimension line between two points with its length written beside the middle.

    lift moves the text off the line, in data units, to the left hand of the way
    from start to end when `side` is 1, to the right when it is −1.
    """
    ax.add_patch(
        FancyArrowPatch(
            start, end, arrowstyle="<|-|>", mutation_scale=10, color=color, linewidth=0.8, shrinkA=0, shrinkB=0
        )
    )
    (x1, y1), (x2, y2) = start, end
    length = math.hypot(x2 - x1, y2 - y1)
    nx, ny = -(y2 - y1) / length, (x2 - x1) / length
    ax.text(
        (x1 + x2) / 2 + side * lift * nx, (y1 + y2) / 2 + side * lift * ny, text, ha="center", va="center", color=color
    )


def bar_magnet(
    ax: Axes,
    x: float,
    y: float,
    length: float,
    thick: float,
    angle: float = 0.0,
    size: float = TEXT,
    letters: bool = True,
) -> None:
    """A bar magnet with its middle at (x, y); its N pole points `angle` degrees anticlockwise of +x."""
    t = math.radians(angle)
    ux, uy = math.cos(t), math.sin(t)
    for sign, color, letter in ((1, NORTH, "N"), (-1, SOUTH, "S")):
        ex, ey = x + sign * ux * length / 2, y + sign * uy * length / 2
        px, py = -uy * thick / 2, ux * thick / 2
        corners = [(x + px, y + py), (ex + px, ey + py), (ex - px, ey - py), (x - px, y - py)]
        ax.add_patch(Polygon(corners, closed=True, facecolor=color, alpha=0.22, edgecolor="none"))
        ax.add_patch(Polygon(corners, closed=True, fill=False, edgecolor=color, linewidth=1.2))
        if letters:
            lx, ly = x + sign * ux * length * 0.36, y + sign * uy * length * 0.36
            ax.text(lx, ly, letter, ha="center", va="center_baseline", weight="bold", size=size)


def needle(ax: Axes, x: float, y: float, half: float, angle: float = 90.0, thick: float | None = None) -> None:
    """A compass needle pivoted at (x, y); its N end points `angle` degrees anticlockwise of +x."""
    t = math.radians(angle)
    ux, uy = math.cos(t), math.sin(t)
    w = half / 5 if thick is None else thick
    for sign, color in ((1, NORTH), (-1, SOUTH)):
        tip = (x + sign * ux * half, y + sign * uy * half)
        ax.add_patch(Polygon([(x - uy * w, y + ux * w), tip, (x + uy * w, y - ux * w)], color=color, linewidth=0.8))
    ax.plot([x], [y], "o", color=PAPER, markeredgecolor=INK, markersize=3.2, markeredgewidth=0.8)


def north_arrow(ax: Axes, x: float, y: float, length: float, text: str = "north") -> None:
    """The arrow that says which way magnetic north lies on a plan: upwards."""
    arrow(ax, (x, y), (x, y + length), width=0.9, head=11)
    ax.text(x, y + length * 1.08, text, ha="center", va="bottom")


def plank(ax: Axes, x: float, y: float, width: float, height: float) -> None:
    """A plain rectangle on paper: an arm, a board."""
    ax.add_patch(Rectangle((x, y), width, height, facecolor=PAPER, edgecolor=INK, linewidth=0.9))

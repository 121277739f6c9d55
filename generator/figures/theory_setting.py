"""Setting up: the two turns in their order, what is wrong when one is left out, and tan B's own version."""

import math

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle, FancyArrowPatch, Polygon

from generator.figures.plates import plate
from generator.figures.style import ACCENT, INK, PAPER, Point, lines, needle, north_arrow, sketch

FOUND = (10.0, 34.0)  # degrees north of east: of the arms, and of the 0–0 line; larger than you will meet
LEFT = 12.0  # degrees by which something is left askew
LONG = (118.0, 8.0, 33.0)  # half length and half width of the arms, radius of the box
UPRIGHT = (72.0, 6.0, 27.0)


def _at(x: float, y: float, away: float, angle: float) -> Point:
    """The place `away` from (x, y), `angle` degrees anticlockwise of east."""
    t = math.radians(angle)
    return x + away * math.cos(t), y + away * math.sin(t)


def _station(ax: Axes, x: float, y: float, arms: float, scale: float, size: tuple[float, float, float] = LONG) -> None:
    """The board from above: arms and 0–0 line at these degrees north of east, needle and pointer at rest."""
    half, wide, radius = size
    t = math.radians(arms)
    ux, uy = math.cos(t), math.sin(t)
    ends = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    corners = [(x + a * half * ux - b * wide * uy, y + a * half * uy + b * wide * ux) for a, b in ends]
    ax.add_patch(Polygon(corners, closed=True, facecolor=PAPER, edgecolor=INK, linewidth=0.9))
    ax.add_patch(Circle((x, y), radius, facecolor=PAPER, edgecolor=INK, linewidth=1.1))
    for turn in (scale, scale + 180):
        ax.plot(*zip(_at(x, y, radius - 8, turn), _at(x, y, radius, turn), strict=True), color=ACCENT, linewidth=2.2)
        ax.text(*_at(x, y, radius + 10, turn), "0", ha="center", va="center_baseline", color=ACCENT, weight="bold")
    ax.plot([x - radius + 3, x + radius - 3], [y, y], color=INK, linewidth=1.5)
    needle(ax, x, y, radius / 2)
    for sign, letter in ((1, "N"), (-1, "S")):
        ax.text(x + 7, y + sign * (radius / 2 - 2), letter, weight="bold", ha="left", va="center")


def _turn(ax: Axes, x: float, y: float, away: float, start: float, end: float) -> None:
    """An arrow about (x, y) from one angle to another, that says what is turned next and which way."""
    bend = math.radians(start - end) / 4
    ax.add_patch(
        FancyArrowPatch(
            _at(x, y, away, start),
            _at(x, y, away, end),
            connectionstyle=f"arc3,rad={-bend:.3f}",
            arrowstyle="-|>",
            mutation_scale=12,
            color=ACCENT,
            linewidth=1.5,
            shrinkA=0,
            shrinkB=0,
        )
    )


@plate(
    "setting-up",
    alt="Three views of the instrument from above. First the arms slant and the zeros of the scale slant more, while "
    "the pointer lies east to west. An arrow shows the box alone to be turned clockwise. After this first turn the "
    "zeros lie on the line of the arms, which still slant; an arrow shows the whole board to be turned clockwise. "
    "After this second turn the arms, the zeros and the pointer all lie east to west.",
    caption=f"The two turns in their order. The needle and its pointer stay where the earth holds them; you turn the "
    f"wood. Here the box alone is turned by {FOUND[1] - FOUND[0]:.0f}°, then the whole board by {FOUND[0]:.0f}°. The "
    "angles are drawn larger than you will meet.",
)
def setting_up() -> Figure:
    fig, ax = sketch(300, 372)
    arms, scale = FOUND
    steps = (
        ("As you find it", arms, scale),
        ("After the first turn: 0–0 line parallel to arms", arms, arms),
        ("After the second turn: pointer at 0–0", 0.0, 0.0),
    )
    for i, (text, along, zeros) in enumerate(steps):
        top = 360 - i * 122
        ax.text(8, top, text, ha="left", va="center")
        _station(ax, 150, top - 60, along, zeros)
    _turn(ax, 150, 300, 60, scale + 4, arms + 6)
    ax.text(212, 336, "box alone", ha="left", va="center", color=ACCENT)
    _turn(ax, 150, 178, 126, arms, 1)
    ax.text(292, 212, "whole board", ha="right", va="center", color=ACCENT)
    north_arrow(ax, 24, 306, 22)
    return fig


@plate(
    "turn-left-out",
    alt="Two views of the instrument from above. Left out the first turn: the pointer lies on the zeros of the scale, "
    "east to west, but the arms slant. Left out the second turn: the zeros lie on the line of the arms, but both "
    "slant, and the pointer lies off the zeros.",
    caption=f"What is wrong when a turn is left out, here by {LEFT:.0f}°. In the first picture the pointer looks "
    "right, and the arms are wrong. In the second the pointer itself tells you.",
)
def turn_left_out() -> Figure:
    fig, ax = sketch(300, 250)
    cases = (
        ("First turn left out: pointer at 0–0, arms askew", 0.0),
        ("Second turn left out: pointer not at 0–0", LEFT),
    )
    for i, (text, scale) in enumerate(cases):
        top = 238 - i * 122
        ax.text(8, top, text, ha="left", va="center")
        _station(ax, 150, top - 60, LEFT, scale)
    return fig


@plate(
    "setting-up-tan-b",
    alt="Three views from above of the instrument set up for tan B. First the arms lie roughly north to south and the "
    "zeros of the scale slant. After the box alone is turned, the line of the zeros is square to the arms. After the "
    "whole board is turned, the arms lie north to south and the pointer lies on the zeros, east to west.",
    caption="The same two turns for tan B. The 0–0 line is set square to the arms, and then the whole board is turned "
    "until the pointer reads 0–0. The arms then lie magnetic north–south.",
)
def setting_up_tan_b() -> Figure:
    fig, ax = sketch(300, 226)
    arms, scale = 10.0, 34.0
    steps = (
        ("as you\nfind it", arms, scale),
        ("0–0 line\nsquare to arms", arms, arms),
        ("pointer\nat 0–0", 0.0, 0.0),
    )
    for i, (text, askew, zeros) in enumerate(steps):
        x = 52 + i * 98
        _station(ax, x, 138, 90 + askew, zeros, UPRIGHT)
        lines(ax, x, 34, text)
    _turn(ax, 52, 138, 46, scale + 4, arms - 2)
    _turn(ax, 150, 138, 78, 90 + arms, 91)
    ax.text(104, 186, "box", ha="center", va="center", color=ACCENT)
    ax.text(178, 216, "board", ha="center", va="center", color=ACCENT)
    return fig

"""Setting up: the two turns in their order, and what a skewed board does."""

import math

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Polygon

from exercises.bench.instrument import ALONE, Box, eight_readings
from generator.figures.plates import plate, table
from generator.figures.style import ACCENT, INK, PAPER, needle, sketch
from generator.figures.theory import B_H, MAGNET, theta


def _station(ax: Axes, x: float, y: float, arms: float, scale: float) -> None:
    """The board with its arms at `arms` degrees and the zeros of the scale at `scale` degrees from east–west."""
    t = math.radians(arms)
    ux, uy = math.cos(t), math.sin(t)
    ends = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    corners = [(x + a * 118 * ux - b * 8 * uy, y + a * 118 * uy + b * 8 * ux) for a, b in ends]
    ax.add_patch(Polygon(corners, closed=True, facecolor=PAPER, edgecolor=INK, linewidth=0.9))
    ax.add_patch(Circle((x, y), 33, facecolor=PAPER, edgecolor=INK, linewidth=1.1))
    s = math.radians(scale)
    for sign in (1, -1):
        c, d = sign * math.cos(s), sign * math.sin(s)
        ax.plot([x + 25 * c, x + 33 * c], [y + 25 * d, y + 33 * d], color=ACCENT, linewidth=2.2)
        ax.text(x + 43 * c, y + 43 * d, "0", ha="center", va="center_baseline", color=ACCENT, weight="bold")
    ax.plot([x - 30, x + 30], [y, y], color=INK, linewidth=1.5)
    needle(ax, x, y, 17)
    ax.text(x + 7, y + 15, "N", weight="bold", ha="left", va="center")
    ax.text(x + 7, y - 15, "S", weight="bold", ha="left", va="center")


@plate(
    "setting-up",
    alt="Three steps from above. First the arms and the zeros of the scale both lie askew to the pointer. After the "
    "board is turned the arms lie along the pointer, but the zeros do not. After the box is turned on the board "
    "the pointer reads 0 at both ends.",
    caption="The two turns in their order. The needle and its pointer stay where the earth holds them; you turn the "
    "wood to the pointer, then the scale to the pointer. The angles are drawn larger than you will meet.",
)
def setting_up() -> Figure:
    fig, ax = sketch(300, 366)
    steps = (
        ("As you find it", 10, 34),
        ("1. Turn the whole board: arms along the pointer", 0, 24),
        ("2. Turn the box alone: pointer at 0 and 0", 0, 0),
    )
    for i, (text, arms, scale) in enumerate(steps):
        top = 352 - i * 120
        ax.text(8, top, text, ha="left", va="center")
        _station(ax, 150, top - 58, arms, scale)
    return fig


NEAR = 0.18  # m, near enough that a skewed board matters


def _skewed(askew: float) -> tuple[float, float, float]:
    """Deflection with N east, with N west, and the mean of eight, in degrees, with the board so far askew."""
    r = eight_readings(MAGNET, B_H, NEAR, Box(needle=0.0), ALONE["first-turn"](askew))
    return r[0], r[2], sum(r) / 8


def _moment_off(angle: float) -> float:
    """How far the moment worked from this deflection is off, in per cent."""
    return 100 * (math.tan(math.radians(angle)) / math.tan(math.radians(theta(NEAR))) - 1)


def _skewed_caption() -> str:
    return (
        f"A magnet that should give {theta(NEAR):.1f}° on a board that is not east–west; all else is perfect. The "
        "last two columns say how far the moment is off, worked from the readings with N east alone and from all eight."
    )


@table("skewed-board", caption=_skewed_caption)
def skewed_board() -> str:
    body = ""
    for askew in (0, 1, 2, 5, 10):
        east, west, mean = _skewed(askew)
        cells = (f"{east:.1f}°", f"{west:.1f}°", *(percent(_moment_off(a)) for a in (east, mean)))
        body += f'<tr><th scope="row">{askew}°</th>' + "".join(f"<td>{c}</td>" for c in cells) + "</tr>"
    heads = ("askew", "N east", "N west", "<i>m</i>, N east", "<i>m</i>, all 8")
    head = "".join(f'<th scope="col">{h}</th>' for h in heads)
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def percent(value: float) -> str:
    """A signed percentage with one place, and a plain 0 where there is nothing to show."""
    return "0" if abs(value) < 0.05 else f"{value:+.1f} %".replace("-", "−")

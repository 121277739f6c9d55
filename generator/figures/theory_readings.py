"""The eight readings: the four places of the magnet, and what each pair removes."""

import math
from collections.abc import Callable

from matplotlib.figure import Figure
from matplotlib.patches import Circle

from exercises.bench.instrument import ALONE, EIGHT, PERFECT, Box, Faults, eight_readings, equilibrium, poles
from generator.figures.plates import NBSP, plate, table
from generator.figures.style import ACCENT, INK, PAPER, bar_magnet, graph, needle, plank, sketch
from generator.figures.theory import B_H, DISTANCE, MAGNET, theta
from generator.figures.theory_bench import letters, pointer

SHORT = Box(needle=0.0)  # so short a needle that nothing but the faults shows

#: What is wrong, in words and in numbers; what differs between the two halves of the readings, from (arm, north, end).
FAULTS: tuple[tuple[str, Faults, Callable[[str, str, int], str]], ...] = (
    ("pivot 1 mm off centre", Faults(pivot_x=1e-3), lambda arm, north, end: f"end {'①②'[end - 1]}"),
    ("zero of the scale 1° out", ALONE["zero"](1.0), lambda arm, north, end: f"N {north}"),
    (
        "magnetic centre 2 mm off the middle",
        Faults(centre_shift=2e-3),
        lambda arm, north, end: "N outward" if arm == north else "N inward",
    ),
    ("box 2 mm from the scale's zero", Faults(box_shift=2e-3), lambda arm, north, end: f"{arm} arm"),
)
ALL = Faults(pivot_x=1e-3, box_turned=-1.0, centre_shift=2e-3, box_shift=2e-3)


def read(faults: Faults) -> tuple[float, ...]:
    """The eight readings of this magnet with these faults, not rounded."""
    return eight_readings(MAGNET, B_H, DISTANCE, SHORT, faults)


@plate(
    "four-places",
    alt="Four plans of the bench, one for each place of the magnet: on the east arm with N east, on the east arm with "
    "N west, on the west arm with N east, on the west arm with N west. The needle turns east when N points east and "
    "west when N points west. Two readings are taken at each.",
    caption="The four places of the magnet, in the order of the observation table. At each you read both ends of the "
    "pointer, ① and ②: eight readings. The needle follows the way N points, on either arm.",
)
def four_places() -> Figure:
    fig, ax = sketch(300, 392)
    x = 116
    for i in range(0, 8, 2):
        arm, north, _ = EIGHT[i]
        y = 344 - i / 2 * 97
        plank(ax, x - 110, y - 7, 220, 14)
        ax.add_patch(Circle((x, y), 32, facecolor=PAPER, edgecolor=INK, linewidth=1.0))
        turn = equilibrium(poles(MAGNET, DISTANCE, arm, north, PERFECT), B_H, SHORT.needle)
        pointer(ax, x, y, 30, turn)
        needle(ax, x, y, 16, 90 - turn)
        letters(ax, x, y, 23.5, 90 - turn)
        p = math.radians(-turn)
        for sign, mark in ((1, "①"), (-1, "②")):
            ax.text(x + sign * 41 * math.cos(p), y + sign * 42 * math.sin(p), mark, ha="center", va="center")
        side = 1 if arm == "east" else -1
        bar_magnet(ax, x + side * 80, y, 50, 16, 0 if north == "east" else 180)
        ax.text(236, y + 9, f"{arm} arm,", va="center")
        ax.text(236, y - 5, f"N {north}:", va="center")
        ax.text(236, y - 19, f"{i + 1} and {i + 2}", va="center", color=ACCENT, weight="bold")
    return fig


@plate(
    "pairs-cancel",
    alt="For each of four faults, the eight readings fall in two groups, one above and one below the true deflection. "
    "The mean of the eight lies close to the true deflection every time.",
    caption=lambda: (
        f"Four faults one at a time, on an instrument that should read {theta():.1f}°. Circles: the eight readings, "
        "four and four on top of each other. Diamond: their mean. Each pair of places puts one fault on both sides."
    ),
)
def pairs_cancel() -> Figure:
    fig, ax = graph(4.3, x="reading less true deflection, degrees", left=0.04, bottom=0.13)
    true = theta()
    for i, (name, faults, group) in enumerate(FAULTS):
        y = -i
        readings = read(faults)
        groups: dict[str, list[float]] = {}
        for place, r in zip(EIGHT, readings, strict=True):
            groups.setdefault(group(*place), []).append(r - true)
        ax.plot([0, 0], [y - 0.22, y + 0.22], color=INK, linewidth=0.8)
        ax.text(-1.95, y + 0.38, name, ha="left", va="center")
        for called, offs in groups.items():
            ax.plot(offs, [y] * len(offs), "o", color=PAPER, markeredgecolor=INK, markersize=7)
            middle = sum(offs) / len(offs)
            side = 0.1 if middle > 0 else -0.1
            ax.text(middle + side, y, called, ha="left" if middle > 0 else "right", va="center")
        ax.plot([sum(readings) / 8 - true], [y], "D", color=ACCENT, markersize=6.5)
    ax.set_xlim(-2, 2)
    ax.set_ylim(-3.5, 0.6)
    ax.set_xticks([-2, -1, 0, 1, 2], ["−2", "−1", "0", "1", "2"])
    ax.set_yticks([])
    ax.spines["left"].set_visible(False)
    return fig


def _eight_caption() -> str:
    mean = sum(read(ALL)) / 8
    return (
        f"The same faults in numbers, and all four at once. The true deflection is {theta():.2f}°; with every fault "
        f"at work the mean of eight is {mean:.2f}°, though single readings are up to "
        f"{max(abs(r - theta()) for r in read(ALL)):.1f}° off. Degrees; “E, N W” "
        "is the magnet on the east arm with N to the west."
    )


@table("eight-in-numbers", caption=_eight_caption)
def eight_in_numbers() -> str:
    columns = [read(f) for _, f, _ in FAULTS] + [read(ALL)]
    head = "".join(f'<th scope="col">{h}</th>' for h in ("pivot", "zero", "magnet", "box", "all"))
    body = ""
    for i, (arm, north, end) in enumerate(EIGHT):
        cells = "".join(f"<td>{c[i]:.1f}</td>" for c in columns)
        place = f"{arm[0].upper()}, N {north[0].upper()} {'①②'[end - 1]}".replace(" ", NBSP)
        body += f'<tr><th scope="row">{place}</th>{cells}</tr>'
    means = "".join(f"<td><strong>{sum(c) / 8:.1f}</strong></td>" for c in columns)
    return (
        f'<table><thead><tr><th scope="col">place</th>{head}</tr></thead><tbody>{body}'
        f'<tr><th scope="row">mean</th>{means}</tr></tbody></table>'
    )

"""A worked example of finding a fault: the pattern, the fits, what is mended, and what was planted."""

import math

from exercises.bench.fault_fit import OF_SETTING, Fit
from exercises.kinds.fault.choices import CHOICES
from exercises.kinds.fault.scenario import FaultScenario
from exercises.kinds.kind import Kind, Sheet
from exercises.kinds.rendering import render_working
from exercises.working.numbers import centimetres, places
from exercises.working.steps import Working
from generator.examples.parts import figure, given, observed

LABELS = {key: label for key, label, _ in CHOICES}
#: What setting up left, by how many degrees.
OF_TURNS = {
    "zero": "A zero error of {angle}: the box was moved after setting up.",
    "first-turn": "The box stood {angle} askew to the arms, and then the board was turned until the pointer read 0–0. "
    "A pointer as far off square to the needle would have given the same readings.",
    "pointer": "The pointer is {angle} off square to the needle. Both turns were made, and so the arms lay as far off "
    "magnetic east–west. A box as far askew to the arms would have given the same readings.",
    "second-turn": "The box was parallel to the arms, but the board lay {angle} off magnetic east–west, and so the "
    "pointer rested at {angle} and not at 0.",
}


def markdown(code: str, kind: Kind, scenario: FaultScenario, working: Working) -> str:
    """The Markdown of one worked example."""
    return f"""\
## What is given

{given(kind, scenario)}

{observed(kind, scenario)}

## The pattern, seen

{figure("pattern", code)}

## Every step

{render_working(Sheet(kind, scenario, working), level=3)}

## How the judge decides

The judge does not know which fault was put in. It takes the textbook's instrument, gives it one fault of unknown size
and a magnet of unknown moment, and finds the two that fit all the readings best. It does so for every fault. For the
right fault, what is left of the readings is no larger than chance makes it. For the others it is larger.

{_fits(scenario)}

{_decision(scenario)}

## Which fault was put in

{_planted(scenario)}

Now [find the fault on a sheet of your own](../exercises/fault.md), or
[type the steps of this one](../exercises/fault.md?code={code}).
"""


def _size(fit: Fit) -> str:
    if fit.fault in (*OF_SETTING, "misread"):
        return f"{places(abs(fit.size), 1)}°"
    return f"{places(abs(fit.size) * 1e3, 1)} mm"


def _fits(scenario: FaultScenario) -> str:
    count = 8 * len(scenario.rows)
    lines = []
    for fit in scenario.fits:
        at = "" if fit.row is None else f", at {centimetres(scenario.rows[fit.row].d)} cm"
        lines.append(f"| {LABELS[fit.fault]}{at} | {_size(fit)} | {places(math.sqrt(fit.left / count), 2)}° |")
    return "| if … | its best size | root mean square left |\n|---|---|---|\n" + "\n".join(lines)


def _decision(scenario: FaultScenario) -> str:
    found = scenario.found
    if found == "none":
        return "None of them fits much better than no fault at all, so there is none beyond chance."
    if found == "undecided":
        return (
            "The first two fit nearly alike. Chance could make either of them the better one, so the readings do not "
            "decide."
        )
    return f"The first fits clearly better than the next, so: {LABELS[found]}."


def _planted(scenario: FaultScenario) -> str:
    planted = scenario.planted
    if planted.fault == "none":
        return "None. The scatter comes from the eye, and from the rounding to a division."
    if planted.row is not None:
        d = scenario.rows[planted.row].d
        if planted.fault == "misread":
            return (
                f"One reading at {centimetres(d)} cm was written down {abs(planted.size):.0f}° too "
                f"{'large' if planted.size > 0 else 'small'}."
            )
        return f"The distance given as {centimetres(d)} cm was really {centimetres(d - planted.size)} cm."
    angle = f"{abs(planted.size):.1f}°"
    if planted.fault in OF_TURNS:
        return OF_TURNS[planted.fault].format(angle=angle)
    return f"This: {LABELS[planted.fault]}, by {abs(planted.size) * 1e3:.1f} mm."


def _pattern(scenario: FaultScenario, working: Working) -> str:
    from generator.figures.plates import as_plate, figure_name
    from generator.figures.style import ACCENT, FAINT, INK, PAPER, graph, notebook
    from generator.figures.svg import to_svg

    shades = [ACCENT, INK]
    with notebook():
        fig, ax = graph(3.6, "which of the eight readings", "reading less mean of its eight, degrees", left=0.12)
        ax.axhline(0, color=FAINT, linewidth=0.8)
        for row, color, mark in ((scenario.rows[0], shades[0], "o"), (scenario.rows[-1], shades[1], "s")):
            offs = [r - row.mean for r in row.readings]
            ax.plot(range(1, 9), offs, color=color, linewidth=0.8)
            ax.plot(range(1, 9), offs, mark, color=PAPER, markeredgecolor=color, markersize=6.5)
        top = max(1.0, max(abs(r - row.mean) for row in (scenario.rows[0], scenario.rows[-1]) for r in row.readings))
        ax.set_ylim(-1.2 * top, 1.2 * top)
        ax.set_xticks(range(1, 9))
        near, far = (centimetres(scenario.rows[i].d) for i in (0, -1))
        alt = (
            f"Graph of the eight readings at {near} cm and at {far} cm, each less the mean of its eight. At {near} cm: "
            + ", ".join(places(r - scenario.rows[0].mean, 1) for r in scenario.rows[0].readings)
            + f" degrees. At {far} cm: "
            + ", ".join(places(r - scenario.rows[-1].mean, 1) for r in scenario.rows[-1].readings)
            + " degrees."
        )
        svg = to_svg(fig, figure_name("pattern", scenario.code), alt)
    return as_plate(
        svg,
        f"The eight readings in the order of the table: circles at {near} cm, squares at {far} cm. Readings 1, 3, 5, 7 "
        "are end ①; 1, 2, 5, 6 have N east; 1 to 4 are the east arm; 1, 2, 7, 8 have N outward.",
    )


figures = {"pattern": _pattern}

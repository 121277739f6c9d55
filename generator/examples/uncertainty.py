"""A worked example of an uncertainty: the readings, every share, the result and what would make it better."""

import math

from exercises.kinds.kind import Kind, Sheet
from exercises.kinds.rendering import render_working
from exercises.kinds.uncertainty.budget import NAMES, SHARES, decimals_to_quote, quoted
from exercises.kinds.uncertainty.scenario import Budget
from exercises.working.numbers import centimetres, places
from exercises.working.numbers import figures as sig
from exercises.working.steps import Working
from generator.examples.parts import figure, given, observed, own_sheet, percent

WORDS = dict(zip(NAMES, ("the angle", "the distance", "the magnetic length", "the needle")))
BETTER = {
    "angle": "More care at the pointer, a finer scale, or a second set of eight: twice as many readings make what the "
    "scatter adds smaller by √2. Against the friction they do nothing. Tap the box lightly before you read.",
    "distance": "A better way of setting the middle of the magnet, such as reading the scale at both its ends. More "
    "readings at the same setting would do nothing, for each of them has the same *d*.",
    "length": "Going farther off, where *l*² is a smaller part of *d*² − *l*², or finding the poles better. More "
    "readings would do nothing.",
    "needle": "A shorter needle, or the magnet farther off: the effect goes with the square of *n*/*d*. Smaller "
    "deflections help too. More readings would do nothing.",
}


def markdown(code: str, kind: Kind, scenario: Budget, working: Working) -> str:
    """The Markdown of one worked example."""
    values = working.all_values()
    largest = values["largest"]
    without = math.sqrt(values["combined"] ** 2 - values[f"share-{largest}"] ** 2)
    off = values["corrected"] - scenario.bar.moment
    finer = decimals_to_quote(values["expanded"], values["corrected"]) + 1
    return f"""\
## What is known

{given(kind, scenario)}

## The eight readings

{observed(kind, scenario)}

The readings run from {min(scenario.row.readings):g}° to {max(scenario.row.readings):g}°. Most of that is the faults of
this instrument. They set four readings against the other four, and the mean of eight is free of them. The rest is the
scale step and the eye. It shows in the differences of the two ends, and *s* is taken from these.

## Every step

{render_working(Sheet(kind, scenario, working), level=3)}

## Which matters most

{figure("shares", code)}

Here {WORDS[largest]} matters most. Without it the other three would leave {percent(without)} instead of
{percent(values["combined"])}. {BETTER[largest]}

## The result

> **m = ({quoted(values["expanded"], values["corrected"])}) A·m²**, value ± *U* with
> *k* = {places(values["coverage"], 2)} for 95 %, from {math.floor(values["freedom"])} effective degrees of freedom.

How close did it come? The draw knows the magnet's true moment: {sig(scenario.bar.moment)} A·m². The result is
{abs(off):.{finer}f} A·m² {"above" if off > 0 else "below"} it, and *U* is {values["expanded"]:.{finer}f} A·m². The
magnet truly lay within {centimetres(scenario.width_d, 2)} cm of *d*, and its magnetic length is
{centimetres(scenario.bar.magnetic_length, 2)} cm where the student was told {centimetres(scenario.two_l)} cm. The poles
of its needle lie {centimetres(2 * scenario.box.needle, 2)} cm apart, where the student was told
{centimetres(scenario.needle)} cm.

If the deflection were {scenario.other_angle:g}°, the share of the angle would be
{places(values["ratio"], 2)} times that at 45°, with readings just as good. That is why
[distances are chosen](../before/choosing-distances.md) for 30° to 60°.

{own_sheet(kind, code)}
"""


def _shares(scenario: Budget, working: Working) -> str:
    from generator.figures.plates import as_plate, figure_name
    from generator.figures.style import ACCENT, FAINT, graph, notebook
    from generator.figures.svg import to_svg

    values = working.all_values()
    shares = [100 * values[s] for s in SHARES]
    whole = 100 * values["combined"]
    bars = [*zip(("angle θ", "distance *d*", "length 2*l*", "needle"), shares), ("in squares", whole)]
    linear = sum(shares)
    with notebook():
        fig, ax = graph(3.4, x="share of u(*m*)/*m*, %", left=0.27, bottom=0.19)
        for i, (_, share) in enumerate(bars):
            ax.barh(-i, share, height=0.55, color=ACCENT if i == len(SHARES) else FAINT)
            ax.text(share + linear * 0.015, -i, f"{sig(share, 2)} %", ha="left", va="center")
        ax.plot([linear, linear], [-4.4, -3.6], color=ACCENT, linestyle=(0, (3, 2)))
        ax.text(linear, -3.35, "added", ha="right", va="center")
        ax.set_yticks([-i for i in range(len(bars))], [""] * len(bars))
        for i, (name, _) in enumerate(bars):
            ax.text(-linear * 0.03, -i, name, ha="right", va="center")
        ax.set_xlim(0, linear * 1.18)
        ax.set_ylim(-4.5, 0.5)
        ax.tick_params(axis="y", length=0)
        alt = (
            f"Bar chart of the shares of the uncertainty: angle {sig(shares[0], 2)} %, distance {sig(shares[1], 2)} %, "
            f"length {sig(shares[2], 2)} %, needle {sig(shares[3], 2)} %; together in squares {sig(whole, 2)} %."
        )
        svg = to_svg(fig, figure_name("shares", scenario.code), alt)
    return as_plate(
        svg,
        f"What each input adds. In squares they come to {sig(whole, 2)} %; "
        f"simply added (dashed) they would be {sig(linear, 2)} %, as if all four were off the same way at once.",
    )


figures = {"shares": _shares}

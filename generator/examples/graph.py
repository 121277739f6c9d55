"""A worked example of the graph method: the columns, both lines, and how sure they are."""

from exercises.bench.least_squares import line, through_origin_error
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.graph.lines import allowed, columns, free_line
from exercises.kinds.graph.scenario import Plotted
from exercises.kinds.kind import Kind, Sheet
from exercises.kinds.rendering import render_working
from exercises.working.mathematics import symbols
from exercises.working.numbers import centimetres, places
from exercises.working.numbers import figures as sig
from exercises.working.steps import Working
from generator.examples.parts import figure, given, observed, own_sheet, percent


def markdown(code: str, kind: Kind, scenario: Plotted, working: Working) -> str:
    """The Markdown of one worked example."""
    bar = scenario.bar
    return f"""\
## What is given

The Saltmarsh drawer gives *{bar.name}*, a bar of {bar.material.name}.

{given(kind, scenario)}

{observed(kind, scenario)}

## The columns

{_columns(scenario, working)}

## The first line

{figure("first", code)}

## The second line

{figure("second", code)}

## Every step

{render_working(Sheet(kind, scenario, working), level=3)}

## What the lines say

{_said(scenario, working)}

{own_sheet(kind, code)}
"""


def _columns(scenario: Plotted, working: Working) -> str:
    v = working.all_values()
    head = "| d | tan θ | x = 2d/(d² − l²)² | d² | √(d cot θ) |\n|---|---|---|---|---|\n"
    return head + "\n".join(
        f"| {centimetres(d)} cm | {places(v[f'tan-{i}'], 4)} | {sig(v[f'x-{i}'], 4)} m⁻³ | {sig(v[f'square-{i}'], 4)} "
        f"m² | {sig(v[f'root-{i}'], 4)} √m |"
        for i, d in enumerate(scenario.ds, 1)
    )


def _said(scenario: Plotted, working: Working) -> str:
    known = rule_of(scenario.code.setting).said or "as stated"
    v, bar, allow = working.all_values(), scenario.bar, allowed(scenario.ds, scenario.thetas, scenario.half_length)
    error_a = through_origin_error(*columns(v, working.givens, "x", "tan")) / v["slope-a"]
    best = line(*columns(v, working.givens, "root", "square"))
    return f"""\
By least squares the first slope has a standard error of {percent(error_a)}, the second one of
{percent(best.slope_error / best.slope)}, and the intercept one of {percent(best.intercept_error / best.intercept)}:
the same scatter, but the intercept lies far from the points. A hand with a ruler may lie {percent(allow.slope_a)},
{percent(allow.slope_b)} and {percent(allow.intercept / best.intercept)} off, and would still have done well.

| | first line | second line | the draw knows |
|---|---|---|---|
| moment | {sig(v["moment-a"])} A·m² | {sig(v["moment-b"])} A·m² | {sig(bar.moment)} A·m² |
| magnetic length | {centimetres(2 * scenario.half_length)} cm, {known} | {centimetres(v["found-2l"])} cm | \
{centimetres(bar.magnetic_length)} cm |

The second line found a length that it had not been told, though only roughly. For the moment the first line is the
surer of the two: its slope is not squared, and the origin holds one end of it fast."""


def _plate(what: str, scenario: Plotted, working: Working) -> str:
    from generator.figures import theory_graph
    from generator.figures.plates import as_plate, figure_name
    from generator.figures.style import notebook
    from generator.figures.svg import to_svg

    v, rows = working.all_values(), range(1, len(scenario.rows) + 1)
    with notebook():
        if what == "first":
            fig, slope = theory_graph.first(scenario.ds, [v[f"tan-{i}"] for i in rows], scenario.half_length)
            alt = (
                f"tan θ against 2d/(d² − l²)²: {len(rows)} points close to a line through the origin "
                f"of slope {slope:.3g} m³."
            )
            caption = f"The slope is {sig(slope)} m³: (µ₀/4π)·m/<i>B</i><sub>H</sub>."
        else:
            roots = [v[f"root-{i}"] for i in rows]
            fig, _ = theory_graph.second(scenario.ds, roots)
            slope, intercept = free_line(roots, [d * d for d in scenario.ds])
            alt = (
                f"d² against √(d cot θ): {len(rows)} points close to a line of slope {slope:.3g} that meets the "
                f"upright axis at {intercept:.2g} square metres."
            )
            caption = f"The slope is {sig(slope)} {symbols('m^1.5')}, the intercept {sig(intercept, 2)} m²."
        svg = to_svg(fig, figure_name(f"graph-{what}", scenario.code), alt)
    return as_plate(svg, caption)


figures = {
    "first": lambda scenario, working: _plate("first", scenario, working),
    "second": lambda scenario, working: _plate("second", scenario, working),
}

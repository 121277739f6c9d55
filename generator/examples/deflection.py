"""What the worked examples of tan A and tan B share: everything about one sheet, from the bench to the result."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from exercises.bench import uncertainty
from exercises.bench.field import MU_0_OVER_4PI
from exercises.bench.instrument import Faults
from exercises.bench.least_squares import through_origin
from exercises.kinds.deflection.draw import relative_uncertainty
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.kind import Kind, Sheet
from exercises.kinds.rendering import render_working
from exercises.working.numbers import centimetres, places
from exercises.working.numbers import figures as sig
from exercises.working.steps import Working
from generator.examples.parts import figure, observed, own_sheet, percent, stated


@dataclass(frozen=True)
class Determination:
    """What differs between the two: the set-up, the line of the graph, the faults, and what the needle does.

    setup     one sentence on how arms and magnet lie
    law       the tangent law as LaTeX, tan θ = …
    against   what tan θ is drawn against, in words or LaTeX; `label` names it on the axis, `spoken` aloud
    x         (d, l) in m -> the abscissa of the graph in m⁻³
    faults    the faults of this instrument, in words
    closing   what the moments of near and far distances show
    """

    setup: str
    law: str
    against: str
    label: str
    spoken: str
    x: Callable[[float, float], float]
    faults: Callable[[Faults], str]
    closing: str
    tan_b: bool = False


#: What is said of the magnetic length, by the rule that the sheet keeps to.
KNOWN: dict[str, Callable[[DeflectionScenario], str]] = {
    "stated": lambda s: f"The sheet states its magnetic length: 2l = {centimetres(s.two_l)} cm.",
    "given": lambda s: (
        f"In this laboratory the length given is taken as the magnetic length: 2l = {centimetres(s.two_l)} cm."
    ),
    "five-sixths": lambda s: (
        "In this laboratory the magnetic length 2l is taken as 5/6 of the measured length: 2l = "
        f"{centimetres(s.two_l, 2)} cm."
    ),
}


def _points(
    determination: Determination, scenario: DeflectionScenario, values: Mapping[str, float]
) -> tuple[list[float], list[float]]:
    """(abscissa, tan θ) of every distance: the points of the straight line."""
    l = scenario.two_l / 2
    xs = [determination.x(r.d, l) for r in scenario.rows]
    return xs, [values[f"tan-{i + 1}"] for i in range(len(xs))]


def graph(determination: Determination, scenario: DeflectionScenario, working: Working) -> str:
    """The figure of the straight line."""
    from generator.figures import worked

    points = _points(determination, scenario, working.all_values())
    return worked.graph(scenario, *points, determination.label, determination.spoken)


def markdown(
    determination: Determination, code: str, kind: Kind, scenario: DeflectionScenario, working: Working
) -> str:
    """The Markdown of one worked example."""
    values = working.all_values()
    bar, rule = scenario.bar, rule_of(scenario.code.setting)
    return f"""\
## The bench

The Saltmarsh drawer gives *{bar.name}*, a bar of {bar.material.name}, {centimetres(bar.length)} cm long,
{bar.width * 1e3:.0f} mm wide and {bar.thickness * 1e3:.0f} mm thick. {KNOWN[rule.key](scenario)} The kit stands at
{scenario.field.where}, where the horizontal component of the earth's field is
$B_\\text{{H}} = {places(scenario.B_H * 1e6, 1)}\\ \\mathrm{{µT}}$. {determination.setup} The circular scale has a
step of {"half a degree" if scenario.scale_step == 0.5 else "one degree"}.

{figure("bench", code)}

## The dial

{figure("dials", code)}

## The observation table

{observed(kind, scenario)}

## Every step

{render_working(Sheet(kind, scenario, working), level=3)}

## The graph

By the tangent law ${determination.law}$,
so tan θ against {determination.against} is a straight line through the origin.

{figure("graph", code)}

{_slope(determination, scenario, values)}

## The result, and how sure it is

{_budget(determination, scenario)}

{_result(determination, scenario, values)}

{own_sheet(kind, code)}
"""


def _slope(determination: Determination, scenario: DeflectionScenario, values: Mapping[str, float]) -> str:
    slope = through_origin(*_points(determination, scenario, values))
    moment = slope * scenario.B_H / MU_0_OVER_4PI
    return (
        f"Its slope is {sig(slope)} m³, and so m = 10⁷ × {sig(scenario.B_H)} × {sig(slope)} = "
        f"{sig(moment)} A·m²: the same moment by another road."
    )


def _budget(determination: Determination, scenario: DeflectionScenario) -> str:
    l = scenario.two_l / 2
    head = "| d | reading θ | distance d | length 2l | needle not a point |\n|---|---|---|---|---|\n"
    lines = [
        f"| {centimetres(r.d)} cm | "
        f"{percent(uncertainty.angle_term(r.mean, uncertainty.mean_angle(scenario.scale_step)))} "
        f"| {percent(uncertainty.distance_term(r.d, l, uncertainty.DISTANCE_BOTH_ARMS, determination.tan_b))} "
        f"| {percent(uncertainty.length_term(r.d, l, uncertainty.MAGNETIC_LENGTH * l, determination.tan_b))} "
        f"| {percent(uncertainty.needle_term(r.mean, r.d, scenario.box.needle, determination.tan_b))} |"
        for r in scenario.rows
    ]
    return (
        "What each source adds to the relative standard uncertainty of the moment at each distance:\n\n"
        + head
        + "\n".join(lines)
    )


def _result(determination: Determination, scenario: DeflectionScenario, values: Mapping[str, float]) -> str:
    u = relative_uncertainty(scenario, determination.tan_b)
    u_pole = math.hypot(u, uncertainty.MAGNETIC_LENGTH)
    found, pole, true = values["mean-moment"], values["pole"], scenario.bar.moment
    off = found / true - 1
    return f"""\
The first two are different at every distance and shrink in the mean; the last two are shared and do not. Together the
mean moment has a relative standard uncertainty of {percent(u)}. The pole strength has the magnetic length's besides,
once more and in full: {percent(u_pole)}. With one standard uncertainty each:

> **m = {stated(found, u * found)} A·m²** and **p = {stated(pole, u_pole * pole)} A·m**.

How close did it come? The draw knows the magnet's true moment: {sig(true)} A·m². The answer is
{percent(abs(off))} {"above" if off > 0 else "below"} it, {abs(off) / u:.1f} times its standard uncertainty, although
this instrument had {determination.faults(scenario.faults)}. {determination.closing}"""

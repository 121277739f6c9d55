"""What the worked examples of tan A and tan B share: everything about one sheet, from the bench to the result."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from exercises.bench import uncertainty
from exercises.bench.field import MU_0_OVER_4PI
from exercises.bench.instrument import Faults
from exercises.bench.least_squares import through_origin
from exercises.kinds.deflection.draw import relative_uncertainty
from exercises.kinds.deflection.parts import MAGNETIC_SHARE
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.sheet import render_working
from exercises.working.numbers import centimetres, places
from exercises.working.numbers import figures as sig
from generator.examples import figure, observed, percent, stated


@dataclass(frozen=True)
class Telling:
    """What differs: the set-up in a sentence, the line of the graph, the faults that are told, and what the needle does.

    law     the tangent law as LaTeX, tan θ = …, and `against` what tan θ is drawn against, in words or LaTeX
    x       (d, l) -> the abscissa of the graph
    """

    slug: str
    setup: str
    law: str
    against: str
    x: Callable[[float, float], float]
    faults: Callable[[Faults], str]
    closing: str
    tan_b: bool = False


def points(scenario: DeflectionScenario, values, x) -> tuple[list[float], list[float]]:
    """(abscissa, tan θ) of every distance: the points of the straight line."""
    l = MAGNETIC_SHARE * scenario.bar.length / 2
    xs = [x(r.d, l) for r in scenario.rows]
    return xs, [values[f"tan-{i + 1}"] for i in range(len(xs))]


def markdown(telling: Telling, code: str, kind, scenario: DeflectionScenario, working) -> str:
    """The Markdown of one worked example."""
    values = working.all_values()
    bar, place = scenario.bar, scenario.place
    return f"""\
## The bench

The Saltmarsh drawer gives *{bar.name}*, a bar of {bar.material.name}, {centimetres(bar.length)} cm long,
{bar.width * 1e3:.0f} mm wide and {bar.thickness * 1e3:.0f} mm thick. The kit stands at {place.name} in
{scenario.when}, where the horizontal component of the earth's field is
$B_\\text{{H}} = {places(scenario.B_H * 1e6, 1)}\\ \\mathrm{{µT}}$. {telling.setup} The circular scale has a step of
{"half a degree" if scenario.scale_step == 0.5 else "one degree"}.

{figure("bench", code)}

## The dial

{figure("dials", code)}

## The observation table

{observed(kind, scenario)}

## Every step

{render_working(kind, scenario, working, level=3)}

## The graph

By the tangent law ${telling.law}$,
so tan θ against {telling.against} is a straight line through the origin.

{figure("graph", code)}

{_slope(telling, scenario, values)}

## The result, and how sure it is

{_budget(telling, scenario)}

{_result(telling, scenario, values)}

Now [work a sheet of your own](../exercises/{telling.slug}.md), or [type the steps of this one](../exercises/{telling.slug}.md?code={code}).
"""


def _slope(telling: Telling, scenario: DeflectionScenario, values) -> str:
    slope = through_origin(*points(scenario, values, telling.x))
    moment = slope * scenario.B_H / MU_0_OVER_4PI
    return (
        f"Its slope is {sig(slope)} m³, and so m = 10⁷ × {sig(scenario.B_H)} × {sig(slope)} = "
        f"{sig(moment)} A·m²: the same moment by another road."
    )


def _budget(telling: Telling, scenario: DeflectionScenario) -> str:
    l = MAGNETIC_SHARE * scenario.bar.length / 2
    head = "| d | reading θ | distance d | length 2l | needle not a point |\n|---|---|---|---|---|\n"
    lines = [
        f"| {centimetres(r.d)} cm | {percent(uncertainty.angle_term(r.mean, uncertainty.mean_angle(scenario.scale_step)))} "
        f"| {percent(uncertainty.distance_term(r.d, l, uncertainty.DISTANCE_BOTH_ARMS, telling.tan_b))} "
        f"| {percent(uncertainty.length_term(r.d, l, uncertainty.MAGNETIC_LENGTH * l, telling.tan_b))} "
        f"| {percent(uncertainty.needle_term(r.mean, r.d, scenario.box.needle, telling.tan_b))} |"
        for r in scenario.rows
    ]
    return (
        "What each source adds to the relative standard uncertainty of the moment at each distance:\n\n"
        + head
        + "\n".join(lines)
    )


def _result(telling: Telling, scenario: DeflectionScenario, values) -> str:
    u = relative_uncertainty(scenario, telling.tan_b)
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
this instrument had {telling.faults(scenario.faults)}. {telling.closing}"""

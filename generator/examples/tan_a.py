"""A worked example of tan A: everything about one sheet, from the bench to the result."""

import math

from exercises import uncertainty
from exercises.deflection import MAGNETIC_SHARE
from exercises.deflection_draw import relative_uncertainty
from exercises.field import MU_0_OVER_4PI
from exercises.fit import through_origin
from exercises.numbers import centimetres, places
from exercises.numbers import figures as sig
from exercises.scenario import Scenario
from exercises.sheet import render_working
from generator.examples import figure, observed, percent, stated

def markdown(code: str, kind, scenario: Scenario, working) -> str:
    """The Markdown of one worked example."""
    values = working.all_values()
    bar, place = scenario.bar, scenario.place
    return f"""\
## The bench

The Saltmarsh drawer gives *{bar.name}*, a bar of {bar.material.name}, {centimetres(bar.length)} cm long,
{bar.width * 1e3:.0f} mm wide and {bar.thickness * 1e3:.0f} mm thick. The kit stands at {place.name} in
{scenario.when}, where the horizontal component of the earth's field is
$B_\\text{{H}} = {places(scenario.B_H * 1e6, 1)}\\ \\mathrm{{µT}}$. The circular scale has a step of
{"half a degree" if scenario.scale_step == 0.5 else "one degree"}.

{figure("bench", code)}

## The dial

{figure("dials", code)}

## The observation table

{observed(kind, scenario)}

## Every step

{render_working(kind, scenario, working)}

## The graph

By the tangent law $\\tan\\theta = \\frac{{\\mu_0}}{{4\\pi}} \\frac{{m}}{{B_\\text{{H}}}} \\cdot \\frac{{2d}}{{(d^2-l^2)^2}}$,
so tan θ against $2d/(d^2-l^2)^2$ is a straight line through the origin.

{figure("graph", code)}

{_slope(scenario, values)}

## The result, and how sure it is

{_budget(scenario)}

{_result(scenario, values)}

Now [work a sheet of your own](../exercises/tan-a.md), or [type the steps of this one](../exercises/tan-a.md?code={code}).
"""


def _slope(scenario: Scenario, values) -> str:
    l = MAGNETIC_SHARE * scenario.bar.length / 2
    xs = [2 * r.d / (r.d**2 - l**2) ** 2 for r in scenario.rows]
    ys = [values[f"tan-{i + 1}"] for i in range(len(xs))]
    slope = through_origin(xs, ys)
    moment = slope * scenario.B_H / MU_0_OVER_4PI
    return (
        f"Its slope is {sig(slope)} m³, and so m = 10⁷ × {sig(scenario.B_H)} × {sig(slope)} = "
        f"{sig(moment)} A·m²: the same moment by another road."
    )


def _budget(scenario: Scenario) -> str:
    l = MAGNETIC_SHARE * scenario.bar.length / 2
    head = "| d | reading θ | distance d | length 2l | needle not a point |\n|---|---|---|---|---|\n"
    lines = [
        f"| {centimetres(r.d)} cm | {percent(uncertainty.angle_term(r.mean, uncertainty.mean_angle(scenario.scale_step)))} "
        f"| {percent(uncertainty.distance_term(r.d, l, uncertainty.DISTANCE_BOTH_ARMS))} "
        f"| {percent(uncertainty.length_term(r.d, l, uncertainty.MAGNETIC_LENGTH * l))} "
        f"| {percent(uncertainty.needle_term(r.mean, r.d, scenario.box.needle))} |"
        for r in scenario.rows
    ]
    return (
        "What each source adds to the relative standard uncertainty of the moment at each distance:\n\n"
        + head
        + "\n".join(lines)
    )


def _result(scenario: Scenario, values) -> str:
    u = relative_uncertainty(scenario)
    u_pole = math.hypot(u, uncertainty.MAGNETIC_LENGTH)
    found, pole, true = values["mean-moment"], values["pole"], scenario.bar.moment
    off = found / true - 1
    faults = scenario.faults
    return f"""\
The first two are different at every distance and shrink in the mean; the last two are shared and do not. Together the
mean moment has a relative standard uncertainty of {percent(u)}. The pole strength has the magnetic length's besides,
once more and in full: {percent(u_pole)}. With one standard uncertainty each:

> **m = {stated(found, u * found)} A·m²** and **p = {stated(pole, u_pole * pole)} A·m**.

How close did it come? The draw knows the magnet's true moment: {sig(true)} A·m². The answer is
{percent(abs(off))} {"above" if off > 0 else "below"} it, {abs(off) / u:.1f} times its standard uncertainty, although
this instrument had its pivot {abs(complex(faults.pivot_x, faults.pivot_y)) * 1e3:.1f} mm off centre, a zero error of
{places(faults.zero_error, 1)}°, arms {abs(faults.arm_off):.1f}° off east–west, the box {abs(faults.box_shift) * 1e3:.1f} mm
from the centre of the scale and the magnetic centre {abs(faults.centre_shift) * 1e3:.1f} mm from the middle of the bar.
That is what eight readings are for. The moments near by come out a little larger than those far off: that is the
needle, which is not a point."""


def _drawn(what: str):
    def draw(scenario, working):
        from generator.figures import worked

        return getattr(worked, what)(scenario, working)

    return draw


figures = {what: _drawn(what) for what in ("bench", "dials", "graph")}

"""What the worked examples of tan A and tan B share: everything about one sheet, from the bench to the result."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from exercises.bench import uncertainty
from exercises.bench.field import MU_0_OVER_4PI
from exercises.bench.instrument import Faults
from exercises.bench.least_squares import through_origin
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.deflection.result import determination, quantity
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.kind import Kind, Sheet
from exercises.kinds.rendering import render_working
from exercises.working.numbers import centimetres, places
from exercises.working.numbers import figures as sig
from exercises.working.steps import Working
from generator.examples.parts import figure, observed, own_sheet, percent


@dataclass(frozen=True)
class Determination:
    """What differs between the two: the set-up, the line of the graph, the faults, and what the needle does.

    setup     one sentence on how arms and magnet lie
    law       the tangent law as LaTeX, tan θ = …
    against   what tan θ is drawn against, in words or LaTeX; `label` names it on the axis, `spoken` aloud
    x         (d, l) in m -> the abscissa of the graph in m⁻³
    faults    the faults of this instrument, in words
    closing   what is said before the moments of near and far distances are compared
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

{render_working(Sheet(kind, scenario, working), level=3, with_result=False)}

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
        f"{sig(moment)} A·m²: the same moment, found in another way."
    )


def _budget(determination: Determination, scenario: DeflectionScenario) -> str:
    l, tan_b = scenario.two_l / 2, determination.tan_b
    head = "| d | angle θ | distance d | length 2l | needle |\n|---|---|---|---|---|\n"
    lines = [
        f"| {centimetres(r.d)} cm | "
        f"{percent(uncertainty.angle_term(r.mean, uncertainty.mean_angle(scenario.scale_step)))} "
        f"| {percent(uncertainty.distance_term(r.d, l, uncertainty.DISTANCE_BOTH_ARMS, tan_b))} "
        f"| {percent(uncertainty.length_term(r.d, l, uncertainty.MAGNETIC_LENGTH * l, tan_b))} "
        f"| {percent(uncertainty.NEEDLE * uncertainty.needle_term(r.mean, r.d, scenario.box.needle, tan_b))} |"
        for r in scenario.rows
    ]
    return (
        "What each source adds to the relative standard uncertainty of the moment at each distance. The half width of "
        f"*d* is {1e3 * uncertainty.DISTANCE_WITHIN:g} mm, that of 2*l* "
        f"{100 * uncertainty.MAGNETIC_LENGTH_WITHIN:g} % of it, and that of the needle's effect "
        f"{100 * uncertainty.NEEDLE_WITHIN:g} % of the effect. A half width divided by √3 is a standard "
        "uncertainty:\n\n" + head + "\n".join(lines)
    )


def _result(made: Determination, scenario: DeflectionScenario, values: Mapping[str, float]) -> str:
    found = determination(scenario, values["mean-moment"], made.tan_b)
    m, p, true = found.moment, found.pole, scenario.bar.moment
    off = m.value / true - 1
    return f"""\
The first two are different at every distance and shrink in the mean; the last two are shared and do not.

The needle is not a point. It makes the mean of the moments {percent(abs(found.needle))} too
{"large" if found.needle >= 0 else "small"}. What is known of an error is not an uncertainty, so it is set right:
{sig(values["mean-moment"], 4)} A·m² becomes {sig(m.value, 4)} A·m². The moment has a relative standard uncertainty of
{percent(m.u / m.value)}. In the pole strength the magnetic length comes once more: {percent(p.u / p.value)}. The
expanded uncertainty *U* is *k* times the standard uncertainty. All four rest on half widths and not on a few
readings, so *k* = {m.k:g} makes a range of about 95 %:

> **m = {quantity(m, "A·m²")}** and **p = {quantity(p, "A·m")}**, value ± *U* with *k* = {m.k:g}.

How close did it come? The draw knows the magnet's true moment: {sig(true)} A·m². The answer is
{percent(abs(off))} {"above" if off > 0 else "below"} it, {abs(off) * m.value / m.u:.1f} times its standard uncertainty,
although this instrument had {made.faults(scenario.faults)}. {made.closing} {near_and_far(made, scenario, values)}"""


def near_and_far(made: Determination, scenario: DeflectionScenario, values: Mapping[str, float]) -> str:
    """What the needle does to the moments of near and far distances, and whether these moments show it."""
    first, *_, last = scenario.rows
    adds = [uncertainty.needle_effect(r.mean, r.d, scenario.box.needle, made.tan_b) for r in (first, last)]
    foretold = adds[0] - adds[1]
    found = values["moment-1"] / values[f"moment-{len(scenario.rows)}"] - 1
    size = "larger" if foretold > 0 else "smaller"
    if found * foretold > 0 and abs(found) > abs(foretold) / 2:
        return (
            f"The moment from the nearest distance comes out {size} than that from the farthest: that is the needle, "
            "which is not a point."
        )
    return (
        f"The needle, which is not a point, makes the moments near by {size} than those far off, here by "
        f"{percent(abs(foretold))}. The readings are not fine enough to show it."
    )

"""A worked example of the earth's field and the moment together."""

import math

from exercises.bench.uncertainty import COVERAGE, determined
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.earth.draw import STOPWATCH, uncertainties
from exercises.kinds.earth.scenario import Survey
from exercises.kinds.kind import Kind, Sheet
from exercises.kinds.rendering import render_working
from exercises.kinds.uncertainty.budget import quoted
from exercises.working.numbers import centimetres, places
from exercises.working.numbers import figures as sig
from exercises.working.steps import Working
from generator.examples.parts import figure, given, observed, own_sheet, percent


def markdown(code: str, kind: Kind, scenario: Survey, working: Working) -> str:
    """The Markdown of one worked example."""
    bar = scenario.bar
    return f"""\
## What was done

The Saltmarsh drawer gives *{bar.name}*, a flat bar of {bar.material.name}, {centimetres(bar.length)} cm long,
{centimetres(bar.width)} cm broad and {bar.thickness * 1e3:.0f} mm thick. It lay end-on at two distances, and then
swung level on a thread, far from the magnetometer and from all iron.

{given(kind, scenario)}

{observed(kind, scenario)}

## Every step

{render_working(Sheet(kind, scenario, working), level=3)}

## The two together

{figure("crossing", code)}

{_check(scenario, working)}

## The result, and how sure it is

{_result(scenario, working)}

{own_sheet(kind, code)}
"""


def _check(scenario: Survey, working: Working) -> str:
    values = working.all_values()
    m, earth = values["moment"], values["earth"]
    return (
        f"A check that costs nothing: {sig(m)} A·m² times {sig(earth)} T is {sig(m * earth)} A·m²·T, the product "
        f"again, and one over the other is {sig(m / earth, 4)} A·m²/T, the ratio again."
    )


def _result(scenario: Survey, working: Working) -> str:
    values, product = working.all_values(), uncertainties(scenario)["product"]
    ratio = determined(
        1.0, [(r.mean, r.d) for r in scenario.rows], scenario.two_l / 2, scenario.scale_step, scenario.box.needle
    )
    u_ratio, root = ratio.moment.u / ratio.moment.value, math.sqrt(1 + ratio.needle)
    m, earth = values["moment"] / root, values["earth"] * 1e6 * root
    u = math.hypot(u_ratio, product) / 2
    U = COVERAGE * u
    rule = rule_of(scenario.code.setting)
    known = f", which is half of {rule.said}" if rule.said else ""
    off_m, off_earth = m / scenario.bar.moment - 1, earth / (scenario.B_H * 1e6) - 1
    return f"""\
The needle is not a point and makes the ratio {percent(ratio.needle)} too large. That is known, so it is set right: the
moment is divided by the root of {places(1 + ratio.needle, 4)}, and the field multiplied by it. The ratio then has a
relative standard uncertainty of {percent(u_ratio)}, from the angles, the distances, and a half
length of {centimetres(scenario.two_l / 2, 2)} cm{known}; the product one of {percent(product)}, from a stopwatch
good to {STOPWATCH} s, the measured length, and what the formula leaves out: a swing that is not quite small, a thread
that twists a little, a stirrup that swings along. The two are independent, and a root halves them: together
{percent(u)} in the moment and as much in the field, one standard uncertainty.

> **m = ({quoted(U * m, m)}) A·m²** and ***B*<sub>H</sub> = ({quoted(U * earth, earth)}) µT**, value ± *U*
> with *k* = {COVERAGE:g}, for about 95 %.

The draw knows the truth: {sig(scenario.bar.moment)} A·m², and by the World Magnetic Model
{places(scenario.B_H * 1e6, 1)} µT at {scenario.field.where}. The moment came out {_off(off_m)}, and
the field {_off(off_earth)}."""


def _off(share: float) -> str:
    return f"{percent(abs(share))} {'too large' if share > 0 else 'too small'}"


def _crossing(scenario: Survey, working: Working) -> str:
    from generator.figures.plates import as_plate, figure_name
    from generator.figures.style import notebook
    from generator.figures.svg import to_svg
    from generator.figures.theory_earth import crossing

    values = working.all_values()
    with notebook():
        fig, _ = crossing(values["moment"], values["earth"])
        alt = (
            "Moment against the earth's field: the straight line of the ratio and the falling curve of the product "
            f"cross at {values['earth'] * 1e6:.1f} microtesla and {values['moment']:.3g} ampere square metre."
        )
        svg = to_svg(fig, figure_name("crossing", scenario.code), alt)
    return as_plate(
        svg,
        "What the deflections allow (straight) and what the swing allows (curved). Both hold only where they cross.",
    )


figures = {"crossing": _crossing}

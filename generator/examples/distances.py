"""A worked example of choosing distances: what is known, every step, and the stretch drawn on the arm."""

from collections.abc import Mapping

from exercises.bench.field import deflection, end_on
from exercises.kinds.deflection.stretch import CLEARANCE
from exercises.kinds.distances.scenario import HALF_MILLIMETRE, LIMITS, Choosing, truth
from exercises.kinds.kind import Kind, Sheet
from exercises.kinds.rendering import render_working
from exercises.working.numbers import centimetres, places
from exercises.working.steps import Working
from generator.examples.parts import figure, given, own_sheet


def markdown(code: str, kind: Kind, scenario: Choosing, working: Working) -> str:
    """The Markdown of one worked example."""
    values = working.all_values()
    return f"""\
## What is known

The Saltmarsh drawer gives *{scenario.bar.name}*, and the slip of paper in its box gives a rough moment.

{given(kind, scenario)}

## Every step

{render_working(Sheet(kind, scenario, working), level=3)}

## On the arm

{figure("stretch", code)}

{_ends(scenario, values)}

## How close the correction comes

{_closeness(scenario, values)}

{own_sheet(kind, code)}
"""


def _ends(scenario: Choosing, values: Mapping[str, float]) -> str:
    said = []
    if values["gap"] < CLEARANCE:
        said.append(
            f"At the distance for 60° only {centimetres(values['gap'])} cm would be left between the bar and the box, "
            "so the stretch begins farther off, with 1 cm between them."
        )
    if values["reach"] > scenario.arm:
        said.append(
            "At the distance for 30° the bar would stand out over the end of the arm, so the stretch ends where the "
            "whole bar still lies on it."
        )
    if not said:
        said.append("The bar is clear of the box and lies on the arm all the way, so the whole stretch can be used.")
    angles = [_deflection_at(scenario, values[end]) for end in ("from", "to")]
    said.append(
        f"There the deflections are {places(angles[0], 0)}° at the near end and {places(angles[1], 0)}° at the far end."
    )
    return " ".join(said)


def _deflection_at(scenario: Choosing, d: float) -> float:
    return deflection(end_on(scenario.moment, d, scenario.two_l / 2), scenario.B_H)


def _closeness(scenario: Choosing, values: Mapping[str, float]) -> str:
    rows = "\n".join(
        f"| {LIMITS[limit]:.0f}° | {centimetres(values[f'guess-{limit}'], 2)} cm | "
        f"{centimetres(values[f'distance-{limit}'], 2)} cm | {centimetres(truth(scenario, limit), 2)} cm |"
        for limit in LIMITS
    )
    off = max(abs(values[f"distance-{limit}"] - truth(scenario, limit)) for limit in LIMITS)
    finely = (
        "less than the half millimetre to which"
        if off < HALF_MILLIMETRE
        else "hardly more than the half millimetre to which"
    )
    return f"""\
The last column is the *d* that satisfies the whole formula, found by trying ever closer values.

| deflection | first guess *d*₀ | with the correction | the whole formula |
|---|---|---|---|
{rows}

The corrected distance is off by {places(off * 1e3, 1)} mm at most. That is {finely} the
magnet is set, and the rough moment is far less sure."""


def _stretch(scenario: Choosing, working: Working) -> str:
    from generator.figures.worked_distances import stretch

    return stretch(scenario, working)


figures = {"stretch": _stretch}

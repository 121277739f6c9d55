"""A worked example of reading the dial: eight dials, sixteen readings, two means, and the truth behind them."""

from collections.abc import Callable

from exercises.kinds.dial.drawing import divisions
from exercises.kinds.dial.scenario import DialScenario
from exercises.kinds.kind import Kind
from exercises.working.numbers import centimetres, places, reading
from exercises.working.steps import Working
from generator.examples.parts import given, observed


def markdown(code: str, kind: Kind, scenario: DialScenario, working: Working) -> str:
    """The Markdown of one worked example."""
    step = scenario.scale_step
    first, second = scenario.ends(0)
    low, count = divisions(first, step)
    return f"""\
## What is given

{given(kind, scenario)}

One division of this scale is {"half a degree: there are twenty" if step == 0.5 else "one degree: there are ten"}
from one numbered mark to the next.

## The dials

{observed(kind, scenario)}

## One end, slowly

Dial 1, end ①. The tip of the pointer lies between the marks numbered {low} and {low + 10}. The {low} is on the side of
the 0, so count from it: the nearest division is number {count}. The reading is {low} + {count} × {reading(step)}° =
**{reading(low + count * step)}°**. The other end of the same pointer comes to {places(second, 1)}° before it is
taken to the nearest division. The two differ by {places(abs(first - second), 1)}°, and neither is wrong.

## All sixteen readings

{_table(scenario)}

## The two means

{_means(scenario, working)}

## The truth behind it

{_truth(scenario)}

Now [read the dials of a sheet of your own](../exercises/dial.md), or
[type the readings of this one](../exercises/dial.md?code={code}).
"""


def _nearest(tip: float, step: float) -> float:
    low, count = divisions(tip, step)
    return low + count * step


def _table(scenario: DialScenario) -> str:
    lines = []
    for i, one in enumerate(scenario.dials):
        ends = [_nearest(t, scenario.scale_step) for t in scenario.ends(i)]
        lines.append(
            f"| {i + 1} | {centimetres(one.d)} cm, {one.arm} arm, N {one.north} | {reading(ends[0])}° | "
            f"{reading(ends[1])}° |"
        )
    return "| dial | the magnet | end ① | end ② |\n|---|---|---|---|\n" + "\n".join(lines)


def _means(scenario: DialScenario, working: Working) -> str:
    known = working.all_values()
    return "\n".join(
        f"- at {centimetres(scenario.dials[4 * i].d)} cm: {working.by_id[f'mean-{i + 1}'].line(known, working.givens)}"
        for i in (0, 1)
    )


def _truth(scenario: DialScenario) -> str:
    faults = scenario.faults
    turns = [abs(one.phi) for one in scenario.dials[:4]]
    return (
        f"The pivot of this box stands {abs(complex(faults.pivot_x, faults.pivot_y)) * 1e3:.1f} mm off the centre of "
        f"the scale, so the two ends do not agree, and the pointer rests "
        f"{places(abs(faults.at_rest), 1)}° from 0. On dials 1 to 4 the needle itself was turned by "
        f"{', '.join(places(t, 1) + '°' for t in turns[:3])} and {places(turns[3], 1)}°, {places(sum(turns) / 4, 2)}° "
        f"in the mean: that is what the mean of the eight readings comes so near to."
    )


figures: dict[str, Callable[[DialScenario, Working], str]] = {}

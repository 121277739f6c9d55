"""A worked example of the tangent law drills: the four questions, every step, and the fields of the last drawn."""

import math

from exercises.bench.field import deflection
from exercises.kinds.law.scenario import Drill
from exercises.kinds.sheet import render_working
from exercises.working.numbers import places
from generator.examples import figure, given, observed


def markdown(code: str, kind, scenario: Drill, working) -> str:
    """The Markdown of one worked example."""
    values = working.all_values()
    return f"""\
## The questions

{given(kind, scenario)}

{observed(kind, scenario)}

## Every step

{render_working(kind, scenario, working, level=3)}

## The fields of the last question

{figure("fields", code)}

{_looked_at(scenario, values)}

Now [work a sheet of your own](../exercises/law.md), or [type the steps of this one](../exercises/law.md?code={code}).
"""


def _looked_at(scenario: Drill, values) -> str:
    true = deflection(scenario.fields[2], scenario.B_H)
    left = values["field-4"] / scenario.fields[2] - 1
    share = f"{abs(left) * 100:.1f}"
    rest = "no error that shows" if share == "0.0" else f"an error of {share} %"
    return (
        f"On a true board both ways would give {places(true, 1)}°. The two here lie "
        f"{places(abs(values['east-4'] - true), 1)}° and {places(abs(values['west-4'] - true), 1)}° from it, to either "
        f"side. Their mean leaves {rest} in *B*, where the larger one alone leaves "
        f"{places(values['error-4'] * 100, 0)} %: sin {scenario.tilt:.0f}° is "
        f"{places(math.sin(math.radians(scenario.tilt)), 3)}, and that share of *B* lies along *B*<sub>H</sub> instead "
        "of across it."
    )


def _fields(scenario: Drill, working) -> str:
    from generator.figures.worked_law import fields

    return fields(scenario, working)


figures = {"fields": _fields}

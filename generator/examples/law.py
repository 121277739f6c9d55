"""A worked example of the tangent law drills: the four questions, every step, and the fields of the last drawn."""

import math
from collections.abc import Mapping

from exercises.bench.field import deflection
from exercises.kinds.kind import Kind, Sheet
from exercises.kinds.law.scenario import Drill
from exercises.kinds.rendering import render_working
from exercises.working.numbers import places
from exercises.working.steps import Working
from generator.examples.parts import figure, given, observed, own_sheet


def markdown(code: str, kind: Kind, scenario: Drill, working: Working) -> str:
    """The Markdown of one worked example."""
    values = working.all_values()
    return f"""\
## The questions

{given(kind, scenario)}

{observed(kind, scenario)}

## Every step

{render_working(Sheet(kind, scenario, working), level=3)}

## The fields of the last question

{figure("fields", code)}

{_looked_at(scenario, values)}

{own_sheet(kind, code)}
"""


def _looked_at(scenario: Drill, values: Mapping[str, float]) -> str:
    true = deflection(scenario.fields[2], scenario.B_H)
    left = values["field-4"] / scenario.fields[2] - 1
    share = f"{abs(left) * 100:.1f}"
    more = scenario.tilt if scenario.north else -scenario.tilt
    shown = {"east": values["east-4"] + more, "west": values["west-4"] - more}
    rest = "no error that shows" if share == "0.0" else f"an error of {share} %"
    return (
        f"With the arms east–west both ways would give {places(true, 1)}°. The two here lie "
        f"{places(abs(values['east-4'] - true), 1)}° and {places(abs(values['west-4'] - true), 1)}° from it, to either "
        f"side. Their mean leaves {rest} in *B*, where the larger one alone leaves "
        f"{places(values['error-4'] * 100, 0)} %: sin {scenario.tilt:.0f}° is "
        f"{places(math.sin(math.radians(scenario.tilt)), 3)}, and that share of *B* lies along *B*<sub>H</sub> instead "
        "of across it.\n\n"
        "The pointer read 0–0 before the magnet came, and so it shows these deflections as they are. If the second "
        f"turn were left out and not the first, the scale would stand {scenario.tilt:.0f}° off too. The pointer would "
        f"show {places(shown['east'], 1)}° with N east and {places(shown['west'], 1)}° with N west. So the larger "
        f"reading would be with N {'east' if shown['east'] > shown['west'] else 'west'}, and not with N "
        f"{'east' if shown['east'] < shown['west'] else 'west'} as here."
    )


def _fields(scenario: Drill, working: Working) -> str:
    from generator.figures.worked_law import fields

    return fields(scenario, working)


figures = {"fields": _fields}

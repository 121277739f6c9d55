"""A worked example of the toy kind."""

from exercises.kinds.toy.kind import ToyScenario

from exercises.kinds.kind import Kind, Sheet
from exercises.kinds.rendering import render_working
from exercises.working.steps import Working
from generator.examples.parts import figure, given, own_sheet


def markdown(code: str, kind: Kind, scenario: ToyScenario, working: Working) -> str:
    """The Markdown of one worked example."""
    return f"""\
## What is given

{given(kind, scenario)}

## Every step

{render_working(Sheet(kind, scenario, working), level=3)}

{figure("needle", code)}

{own_sheet(kind, code)}
"""


figures = {"needle": lambda scenario, working: f"<figure>A needle, turned by {scenario.theta}°</figure>"}

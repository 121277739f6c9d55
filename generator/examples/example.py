"""The worked example of a sheet, and its figures, from the file of its kind.

The file of a kind has its slug for a name (tan_b.py of "tan-b"), and in it

    markdown  (code, kind, scenario, working) -> the Markdown of the example
    figures   what -> a function of (scenario, working) that gives the complete
              figure; it loads matplotlib only when it is called

In the Markdown `parts.figure("bench", code)` stands for the figure.
"""

import importlib
from collections.abc import Callable, Mapping
from types import ModuleType

from exercises.codes.scenario import Scenario
from exercises.kinds.kind import Kind, open_code
from exercises.working.steps import Working

#: Each kind's file has them for its own class of scenario.
type Markdown = Callable[[str, Kind, Scenario, Working], str]
type Figures = Mapping[str, Callable[[Scenario, Working], str]]


def _file_of(kind: Kind) -> ModuleType:
    return importlib.import_module(f"generator.examples.{kind.slug.replace('-', '_')}")


def worked_example(code: str) -> str:
    """The Markdown of the worked example of a code."""
    sheet = open_code(code)
    markdown: Markdown = _file_of(sheet.kind).markdown
    return markdown(code, sheet.kind, sheet.scenario, sheet.working)


def example_figure(what: str, code: str) -> str:
    """One figure of an example, complete with its caption."""
    sheet = open_code(code)
    figures: Figures = _file_of(sheet.kind).figures
    return figures[what](sheet.scenario, sheet.working)

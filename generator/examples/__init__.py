"""Worked examples, as Markdown: one file here for each kind, found by its name.

A kind's file has `markdown(code, kind, scenario, working)`, and `figures`: what
-> a function of (scenario, working) that draws it (matplotlib loaded only
then).  In the Markdown `figure("bench", code)` stands for the figure.
"""

import importlib

from exercises.kinds.kind import open_code


def _module(kind):
    return importlib.import_module(f"{__name__}.{kind.slug.replace('-', '_')}")


def worked_example(code: str) -> str:
    """The Markdown of the worked example of a code."""
    sheet = open_code(code)
    kind, scenario, working = sheet.kind, sheet.scenario, sheet.working
    return _module(kind).markdown(code, kind, scenario, working)


def example_figure(what: str, code: str) -> str:
    """One figure of an example, complete with its caption."""
    sheet = open_code(code)
    kind, scenario, working = sheet.kind, sheet.scenario, sheet.working
    return _module(kind).figures[what](scenario, working)


def figure(what: str, code: str) -> str:
    """The mark that the build replaces by a figure."""
    return f"<!-- example-figure: {what} {code} -->"


def observed(kind, scenario) -> str:
    """The observation table or drawing of a sheet, as it stands on a page."""
    return (
        '<div class="er-scroll" tabindex="0" role="region" aria-label="What was observed">'
        f"{kind.page.observations(scenario)}</div>"
    )


def given(kind, scenario) -> str:
    """What is given, as a Markdown table."""
    rows = "\n".join(f"| {what} | {value} |" for what, value in kind.page.givens(scenario))
    return f"| given | |\n|---|---|\n{rows}".replace("B_H", "*B*<sub>H</sub>")


def percent(share: float) -> str:
    """A share in per cent, to two figures: `percent(0.0123)` is '1.2 %'."""
    return f"{share * 100:.2g} %"


def stated(value: float, u: float) -> str:
    """A result as the page on the result states it: u to one figure, to two if it begins with 1.

    >>> stated(0.3713, 0.0045), stated(1.476, 0.0132)
    ('(0.371 ± 0.004)', '(1.476 ± 0.013)')
    """
    figures = 2 if f"{u:e}".startswith("1") else 1
    places = max(0, figures - 1 - int(f"{u:e}".split("e")[1]))
    return f"({value:.{places}f} ± {u:.{places}f})"

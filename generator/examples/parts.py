"""What the worked examples of all kinds share: what is given, what was observed, how a result is stated."""

from exercises.codes.scenario import Scenario
from exercises.kinds.kind import Kind


def figure(what: str, code: str) -> str:
    """The mark that the build replaces by a figure."""
    return f"<!-- example-figure: {what} {code} -->"


def observed(kind: Kind, scenario: Scenario) -> str:
    """The observation table or drawing of a sheet, as it stands on a page."""
    return (
        '<div class="er-scroll" tabindex="0" role="region" aria-label="What was observed">'
        f"{kind.page.observations(scenario)}</div>"
    )


def given(kind: Kind, scenario: Scenario) -> str:
    """What is given, as a Markdown table."""
    rows = "\n".join(f"| {what} | {value} |" for what, value in kind.page.givens(scenario))
    return f"| given | |\n|---|---|\n{rows}".replace("B_H", "*B*<sub>H</sub>")


def own_sheet(kind: Kind, code: str) -> str:
    """The last line of an example: to a sheet of one's own, and to the sheet of this example, as Markdown."""
    page = f"../exercises/{kind.slug}.md"
    return f"Now [work a sheet of your own]({page}), or [type the steps of this one]({page}?code={code})."


def percent(share: float) -> str:
    """A share in per cent, to two figures: `percent(0.0123)` is '1.2 %'."""
    return f"{share * 100:.2g} %"

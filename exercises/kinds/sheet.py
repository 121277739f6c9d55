"""What a sheet shows: its parts as HTML, and the texts in them.  rendering.py puts them together.

All text passes through `escape`; nothing that a person typed gets here.
"""

from html import escape
from typing import NamedTuple

from exercises.codes.scenario import Scenario
from exercises.working.numbers import figures, places
from exercises.working.quantities import quantity
from exercises.working.steps import Step, Working


class Group(NamedTuple):
    """Steps that stand together on a sheet.

    name    what they are called where a list says where a step stands, such as "Distance 1"
    detail  what stands after the name in the heading, such as "d = 17.3 cm", or ""
    part    the name without the numbers of one sheet, for a report on many sheets; "" where the name has none
    series  the row of like groups that it belongs to, one for each distance or so; "" where it stands alone
    """

    name: str
    steps: list[Step]
    detail: str = ""
    part: str = ""
    series: str = ""

    @property
    def heading(self) -> str:
        """The heading of the group on the sheet."""
        return f"{self.name}: {self.detail}" if self.detail else self.name

    @property
    def common_name(self) -> str:
        """The name that is the same on every sheet of the kind."""
        return self.part or self.name


class Page[S: Scenario = Scenario]:
    """What the sheet of a kind shows; each kind has its own, for a scenario of its own class.

    task      what is asked, one or two sentences (B_H is set as a symbol)
    formula   the formula to use, in plain text, or ""
    """

    task: str
    formula: str

    def givens(self, scenario: S) -> list[tuple[str, str]]:
        """What is known from the start: (what it is, its value)."""
        raise NotImplementedError

    def observations(self, scenario: S) -> str:
        """The observation table or drawing as HTML, or ""."""
        return ""

    def groups(self, scenario: S, working: Working) -> list[Group]:
        """The steps in groups, each with a heading."""
        return [Group("Work it out", list(working.steps))]

    def result(self, scenario: S, working: Working) -> str:
        """What the full working comes to, as value ± U, in a sentence or two; "" where the steps say it all."""
        return ""

    def numbers(self, scenario: S) -> dict[str, object]:
        """What is given, as JSON can hold it, to compare machines by."""
        raise NotImplementedError


def symbols(text: str) -> str:
    """Escaped text with its B_H and 4π/µ₀ set as symbols."""
    return escape(text).replace("B_H", "<i>B</i><sub>H</sub>")


def entry(step: Step) -> str:
    """The field for one step, with its label, its hint button and the place of its verdict."""
    unit = quantity(step.quantity).shown
    unit = {"°": "degrees"}.get(unit, unit)
    shown = f' <span class="er-unit">in {escape(unit)}</span>' if unit else ""
    about = f'id="er-{step.id}" name="{step.id}" aria-describedby="er-{step.id}-said"'
    if step.choices:
        options = "".join(f'<option value="{escape(key)}">{escape(label)}</option>' for key, label, _ in step.choices)
        field = f'<select {about}><option value="">choose …</option>{options}</select>'
    else:
        field = f'<input {about} type="text" autocomplete="off" autocapitalize="off" spellcheck="false">'
    return (
        f'<div class="er-entry" data-step="{step.id}"><label for="er-{step.id}">{symbols(step.title)}{shown}</label>'
        f'{field}<button type="button" class="er-hint" aria-label="Hint for {escape(step.title)}">hint</button>'
        f'<div class="er-said" id="er-{step.id}-said" role="status"></div></div>'
    )


def written(value: float | str, step: Step) -> str:
    """A step's value as it should be written, with its unit; of a choice, its label."""
    if isinstance(value, str):
        return next(label for key, label, _ in step.choices if key == value)
    measured = quantity(step.quantity)
    if step.quantity == "count":
        return f"{value:.0f}"
    if step.rule == "angle":
        return f"{places(value, 1)}°"
    if step.rule == "tangent":
        return places(value, 4)
    return f"{figures(value / measured.bare)} {measured.shown}".strip()

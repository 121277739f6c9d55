"""What a sheet shows: what is given, its parts, and the texts in them.  rendering.py writes them as HTML.

Every datum has a key, that of `Working.givens` which it is: "B_H", or "readings.0"
for the first of a row of them.  So a sheet knows where the data of a step stand
(sources.py), and what stands far off is said again beside the field.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from typing import NamedTuple

from exercises.codes.scenario import Scenario
from exercises.working.mathematics import spoken, symbols
from exercises.working.numbers import figures, places
from exercises.working.quantities import quantity
from exercises.working.steps import Step, Working


class Given(tuple[str, str]):
    """One thing that is known from the start: (what it is, its value), and which data these are.

    keys   the data that it holds
    short  what it is called beside a field; said  its value there, where the whole is too long
    """

    keys: tuple[str, ...]
    short: str
    said: str

    def __new__(cls, name: str, value: str, *keys: str, short: str = "", said: str = "") -> "Given":
        made = super().__new__(cls, (name, value))
        made.keys, made.short, made.said = keys, short or name, said or value
        return made


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


@dataclass(frozen=True)
class Beside:
    """Entries with their data beside them or above them.

    steps  the steps that are asked for here
    shown  the data as HTML, or ""
    keys   which data these are
    said   those of them that can be said again in a few words, beside the entries that are farther down
    again  whether all this is shown elsewhere on a wide screen and on paper, and only once more on a narrow one
    """

    steps: Sequence[Step]
    shown: str = ""
    keys: tuple[str, ...] = ()
    said: tuple[Given, ...] = ()
    again: bool = False


@dataclass(frozen=True)
class Line:
    """One line of a table in which the entries stand in the row of their data.

    name     what it is called in a list, such as "Distance 1"
    heading  what stands first in it, and its key
    cells    the data after it, and their keys: one for all of them, or one for each
    steps    the entries that end it
    """

    name: str
    heading: str
    heading_key: str
    cells: Sequence[str]
    keys: tuple[str, ...]
    steps: Sequence[Step]


@dataclass(frozen=True)
class Book:
    """A table as in a record book: a line for each distance or so, the readings first and then what is worked.

    caption  HTML
    head     rows of column headings as HTML, without those of the entries
    lines    its lines, all with as many cells, and entries for the same columns
    first    what a line's heading is, and its unit: ("d", "cm"); two empty texts where it goes on with the line's name
    labels   what each cell is called where a line is a block of its own
    sides    what the two halves of the cells are called there, or none
    columns  what the entries are called over the table, where their titles do not say it
    """

    caption: str
    head: Sequence[str]
    lines: Sequence[Line]
    first: tuple[str, str]
    labels: Sequence[str]
    sides: tuple[str, ...] = ()
    columns: tuple[str, ...] = ()

    @property
    def asked(self) -> Sequence[Step]:
        """The entries of its longest line, which its columns are for."""
        return max((line.steps for line in self.lines), key=len)


#: A heading, and what stands under it in order; without a heading where a table says enough.
type Part = tuple[str, Sequence[Beside | Book]]


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

    def parts(self, scenario: S, working: Working) -> list[Part]:
        """The sheet from top to bottom: every step once, in order, with the data that it is worked from."""
        return [(group.heading, [Beside(group.steps)]) for group in self.groups(scenario, working)]

    def looked_at(self, step: Step) -> tuple[str, ...]:
        """Entries that a choice is made from where no formula takes them."""
        return ()

    def result(self, scenario: S, working: Working) -> str:
        """What the full working comes to, as value ± U, in a sentence or two; "" where the steps say it all."""
        return ""

    def numbers(self, scenario: S) -> dict[str, object]:
        """What is given, as JSON can hold it, to compare machines by."""
        raise NotImplementedError


def unit_shown(step: Step) -> str:
    """The unit of an entry, as HTML beside its title; "" where it has none."""
    unit = quantity(step.quantity).shown
    unit = {"°": "degrees"}.get(unit, unit)
    return f' <span class="er-unit">in {symbols(unit)}</span>' if unit else ""


def entry(step: Step, data: str = "", attributes: str = "", of: str = "", tag: str = "div") -> str:
    """The field for one step, with its label, its hint button and the place of its verdict.

    data        HTML under the field: what it is worked from
    attributes  more of the element that holds it all, whose name is `tag`
    of          the row that it belongs to, for those who do not see the row; what is said stands under the row
    """
    about = f'id="er-{step.id}" name="{step.id}" aria-describedby="er-{step.id}-said"'
    if step.choices:
        options = "".join(f'<option value="{escape(key)}">{spoken(label)}</option>' for key, label, _ in step.choices)
        field = f'<select {about}><option value="">choose …</option>{options}</select>'
    else:
        field = (
            f'<input {about} type="text" inputmode="decimal" enterkeyhint="next" autocomplete="off" '
            'autocapitalize="off" spellcheck="false">'
        )
    title = f' data-title="{spoken(step.title)}"' if of else ""
    row = f'<span class="er-hidden">, {escape(of)}</span>' if of else ""
    label = f"{symbols(step.title)}{unit_shown(step)}{row}"
    hint = spoken(f"Hint for {step.title}{of and f', {of}'}")
    return (
        f'<{tag} class="er-entry" data-step="{step.id}"{attributes}><label for="er-{step.id}">{label}</label>'
        f'{field}<button type="button" class="er-hint" aria-label="{hint}">hint</button>'
        f'{data}<div class="er-said" id="er-{step.id}-said" role="status"{title}></div></{tag}>'
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

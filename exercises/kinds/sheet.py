"""A sheet as a student sees it, as HTML: the same at build time and in the browser.

All text passes through `escape`; nothing a person typed ever gets here.
"""

from html import escape

from exercises.working.numbers import figures, places
from exercises.working.quantities import quantity
from exercises.working.steps import Step, Working


class Page:
    """What the sheet of a kind shows; each kind has its own.

    task      what is asked, one or two sentences (B_H is set as a symbol)
    formula   the formula to use, in plain text, or ""
    """

    task: str
    formula: str

    def givens(self, scenario) -> list[tuple[str, str]]:
        """What is known from the start: (what it is, its value)."""
        raise NotImplementedError

    def observations(self, scenario) -> str:
        """The observation table or drawing as HTML, or ""."""
        return ""

    def groups(self, scenario, working: Working) -> list[tuple[str, list[Step]]]:
        """The steps in groups, each with a heading."""
        return [("Work it out", list(working.steps))]

    def numbers(self, scenario) -> dict:
        """What is given, as JSON can hold it, to compare machines by."""
        raise NotImplementedError


def render(kind, scenario, working: Working) -> str:
    """The sheet: what is given, the observations, and an entry for each step."""
    page = kind.page
    code = str(scenario.code)
    givens = "".join(f"<div><dt>{symbols(k)}</dt><dd>{symbols(v)}</dd></div>" for k, v in page.givens(scenario))
    groups = "".join(_group(title, steps) for title, steps in page.groups(scenario, working))
    observed = page.observations(scenario)
    if observed:
        observed = f'<div class="er-scroll" tabindex="0" role="region" aria-label="What was observed">{observed}</div>'
    formula = f'<p class="er-formula">{symbols(page.formula)}</p>' if page.formula else ""
    return (
        f'<section class="er-sheet" data-kind="{kind.slug}" data-code="{code}" aria-label="Sheet {code}">'
        f'<header class="er-sheet-head"><p class="er-code">Sheet <strong>{code}</strong></p>'
        '<p class="er-name">Name <span></span></p></header>'
        f'<p class="er-task">{symbols(page.task)}</p>{formula}<dl class="er-givens">{givens}</dl>'
        f'{observed}<div class="er-entries">{groups}</div></section>'
    )


def symbols(text: str) -> str:
    """Escaped text with its B_H and 4π/µ₀ set as symbols."""
    return escape(text).replace("B_H", "<i>B</i><sub>H</sub>")


def _group(title: str, steps: list[Step]) -> str:
    entries = "".join(map(entry, steps))
    return f'<fieldset class="er-group"><legend>{escape(title)}</legend>{entries}</fieldset>'


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


def render_working(kind, scenario, working: Working, level: int = 4) -> str:
    """The full working, each step with its numbers put in, as HTML; its headings are of that level."""
    known = working.all_values()
    parts = []
    for title, steps in kind.page.groups(scenario, working):
        lines = "".join(f"<li>{symbols(step.line(known, working.givens))}</li>" for step in steps)
        parts.append(f"<h{level}>{escape(title)}</h{level}><ol>{lines}</ol>")
    return f'<div class="er-working">{"".join(parts)}</div>'


def render_static(kind, scenario, working: Working) -> str:
    """The sheet for a page whose scripts are off: the answers folded away below it."""
    known = working.all_values()
    rows = "".join(
        f"<tr><th>{escape(title)}</th><td>"
        + ";  ".join(f"{escape(s.title)} = {written(known[s.id], s)}" for s in steps)
        + "</td></tr>"
        for title, steps in kind.page.groups(scenario, working)
    )
    return (
        render(kind, scenario, working)
        + '<details class="er-answers"><summary>The answers to this sheet</summary>'
        + f"<table>{rows}</table></details>"
        + '<details class="er-answers"><summary>The full working of this sheet</summary>'
        + render_working(kind, scenario, working, level=2)
        + "</details>"
    )


def written(value, step: Step) -> str:
    """A step's value as it should be written, with its unit; of a choice, its label."""
    if step.choices:
        return next(label for key, label, _ in step.choices if key == value)
    measured = quantity(step.quantity)
    if step.quantity == "count":
        return f"{value:.0f}"
    if step.rule == "angle":
        return f"{places(value, 1)}°"
    if step.rule == "tangent":
        return places(value, 4)
    return f"{figures(value / measured.bare)} {measured.shown}".strip()

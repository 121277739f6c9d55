"""A whole sheet as HTML, as a student sees it: the same at build time and in the browser.

All text passes through `escape`; nothing that a person typed gets here.
"""

from exercises.kinds.kind import Sheet
from exercises.kinds.sheet import Group, entry, written
from exercises.working.mathematics import set_out, symbols


def render(sheet: Sheet) -> str:
    """The sheet: what is given, the observations, and an entry for each step."""
    page, scenario = sheet.kind.page, sheet.scenario
    code = str(scenario.code)
    givens = "".join(f"<div><dt>{symbols(k)}</dt><dd>{symbols(v)}</dd></div>" for k, v in page.givens(scenario))
    groups = "".join(map(_fieldset, page.groups(scenario, sheet.working)))
    observed = page.observations(scenario)
    if observed:
        observed = f'<div class="er-scroll" tabindex="0" role="region" aria-label="What was observed">{observed}</div>'
    formula = f'<p class="er-formula">{set_out(page.formula)}</p>' if page.formula else ""
    return (
        f'<section class="er-sheet" data-kind="{sheet.kind.slug}" data-code="{code}" aria-label="Sheet {code}">'
        f'<header class="er-sheet-head"><p class="er-code">Sheet <strong>{code}</strong></p>'
        '<p class="er-name">Name <span></span></p></header>'
        f'<p class="er-task">{symbols(page.task)}</p>{formula}<dl class="er-givens">{givens}</dl>'
        f'{observed}<div class="er-entries">{groups}</div></section>'
    )


def _fieldset(group: Group) -> str:
    entries = "".join(map(entry, group.steps))
    return f'<fieldset class="er-group"><legend>{symbols(group.heading)}</legend>{entries}</fieldset>'


def render_working(sheet: Sheet, level: int = 4, with_result: bool = True) -> str:
    """The full working, each step with its numbers put in, as HTML; its headings are of that level.

    with_result  whether the last line states the result as value ± U
    """
    working, values = sheet.working, sheet.working.all_values()
    parts = []
    for group in sheet.kind.page.groups(sheet.scenario, working):
        lines = "".join(f"<li>{set_out(step.line(values, working.givens))}</li>" for step in group.steps)
        parts.append(f"<h{level}>{symbols(group.heading)}</h{level}><ol>{lines}</ol>")
    result = sheet.kind.page.result(sheet.scenario, working) if with_result else ""
    if result:
        parts.append(f"<p>{symbols(result)}</p>")
    return f'<div class="er-working">{"".join(parts)}</div>'


def render_static(sheet: Sheet) -> str:
    """The sheet for a page whose scripts are off: the answers folded away below it."""
    values = sheet.working.all_values()
    rows = "".join(
        f"<tr><th>{symbols(group.heading)}</th><td>"
        + ";  ".join(f"{symbols(s.title)} = {symbols(written(values[s.id], s))}" for s in group.steps)
        + "</td></tr>"
        for group in sheet.kind.page.groups(sheet.scenario, sheet.working)
    )
    return (
        render(sheet)
        + '<details class="er-answers"><summary>The answers to this sheet</summary>'
        + f"<table>{rows}</table></details>"
        + '<details class="er-answers"><summary>The full working of this sheet</summary>'
        + render_working(sheet, level=2)
        + "</details>"
    )

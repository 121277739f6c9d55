"""What goes on paper: a page a student and kind, code strips to cut, the key, and the key with its working.

Each is one self-contained HTML file, in pieces so that a large class
need not be held in memory: `head`, a piece for each sheet or student, `FOOT`.
"""

import re
from collections.abc import Iterable
from decimal import Decimal
from html import escape

from exercises.classroom.class_list.class_file import Assigned
from exercises.classroom.class_list.roster import Student
from exercises.classroom.class_list.tables import KeyRow, address, key_rows, settings_addresses
from exercises.kinds.kind import Sheet
from exercises.kinds.rendering import render, render_working
from exercises.kinds.sheet import written
from exercises.working.mathematics import symbols
from exercises.working.numbers import figures

#: What paper needs besides the notebook's own styles: no page to go with, room to write, the code large.
PAPER = """
body { margin: 0; background: var(--er-paper); color: var(--er-ink); font-family: var(--md-text-font); }
.cl-page { box-sizing: border-box; max-width: 190mm; margin: 0 auto 8mm; background: var(--er-sheet); \
break-after: page; }
.cl-page:last-child { break-after: auto; }
.cl-head { display: flex; justify-content: space-between; align-items: baseline; gap: 6mm; padding: 2mm 0; }
.cl-head p, .cl-strip p { margin: 0; overflow-wrap: anywhere; }
.cl-code { font-family: var(--md-code-font); font-size: 18pt; font-weight: 700; letter-spacing: 0.06em; \
white-space: nowrap; }
.cl-page .er-sheet { padding: 0 1px; border: 0; }
.cl-page .er-sheet-head, .cl-page .er-said, .cl-page .er-from { display: none; }
.cl-page .er-book { --er-hint: 0px; }
.cl-page table { border-collapse: collapse; }
.cl-page .er-entry { grid-template-columns: 1fr; }
.cl-page .er-entry input { box-sizing: border-box; height: 9mm; border: 1px solid #888; background: none; }
.cl-choices { font-size: 8pt; line-height: 1.35; }
.cl-page .er-sheet:has(.cl-choices) .er-faults { display: none; }
.cl-page .er-sheet .er-part:has(.cl-choices) .er-dial { max-width: 36mm; }
.cl-page .er-sheet[data-kind="setting"] .cl-choices { line-height: 1.2; }
.cl-choices span::before { content: "☐ "; }
.cl-choices span { display: inline-block; margin-right: 3mm; }
.cl-page .er-entry:has(.cl-choices) { grid-column: 1 / -1; }
.cl-page .er-sheet:has(.cl-choices) .er-entry input { height: 7mm; }
.cl-page .er-sheet:has(.cl-choices) .er-entry { font-size: 8pt; line-height: 1.2; gap: 0; }
.cl-page .er-entry label, .cl-page .er-entry > span { font-size: 8.5pt; }
.cl-key { max-width: 190mm; margin: 0 auto 5mm; padding-top: 2mm; border-top: 2px solid var(--er-ink); \
break-inside: avoid; }
.cl-key .cl-code { font-size: 12pt; }
.cl-groups { columns: 2; column-gap: 6mm; font-family: var(--er-plain); font-size: 7.5pt; line-height: 1.3; }
.cl-steps { width: 100%; border-collapse: collapse; break-inside: avoid; margin: 0 0 1.5mm; \
font-variant-numeric: tabular-nums; }
.cl-steps caption { text-align: left; font-weight: 600; }
.cl-steps :is(td, th) { border-bottom: 1px solid var(--er-line); padding: 0.3mm 1.5mm 0.3mm 0; text-align: left; \
font-weight: 400; vertical-align: top; }
.cl-steps td:nth-child(2) { width: 25%; font-weight: 600; }
.cl-steps td:nth-child(3) { width: 1%; white-space: nowrap; padding-right: 0; }
.cl-page .er-working h4 { margin: 2mm 0 0; break-after: avoid; }
.cl-page .er-working ol { margin: 0; font-size: 7.8pt; line-height: 1.5; break-inside: auto; }
.cl-strips { display: grid; grid-template-columns: repeat(2, 1fr); max-width: 190mm; margin: 0 auto; }
.cl-strip { box-sizing: border-box; border: 1px dashed #888; padding: 4mm; break-inside: avoid; min-width: 0; }
.cl-strip .cl-code { font-size: 15pt; }
.cl-strip small { display: block; overflow-wrap: anywhere; }
@media screen and (max-width: 40em) {
  body { padding: 0 3mm; }
  .cl-head { flex-wrap: wrap; gap: 0 6mm; }
  .cl-groups { columns: 1; }
  .cl-strips { grid-template-columns: 1fr; }
  .cl-page fieldset, .cl-page legend { min-width: 0; max-width: 100%; white-space: normal; }
  .cl-code { font-size: 13pt; }
}
@media print { .cl-page { margin: 0; max-width: none; }
.cl-page .er-sheet[data-kind="setting"] .er-part:has(.er-plan) { grid-template-columns: 36mm 1fr 1fr; \
grid-auto-flow: row; }
.cl-page .er-sheet[data-kind="setting"] .er-part .er-entry[data-step^="arms-"] { grid-column: 1 / -1; }
.cl-page .er-sheet[data-kind="setting"] .er-part:has(.er-plan) .er-data { grid-column: 1; grid-row: 2 / span 3; } }
"""
#: A saved page fetches nothing and runs nothing, whatever has got into it.
POLICY = (
    '<meta http-equiv="Content-Security-Policy" '
    """content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">"""
)
FOOT = "</main></body></html>\n"


def head(title: str, css: str, layout: str = "") -> str:
    """The page up to its first piece; `css` is the text of the notebook's style sheet, `layout` a class of PAPER.

    ValueError if it would end the style element or fetch something.
    """
    if "</" in css or re.search(r"@import|url\s*\(", css, re.IGNORECASE):
        raise ValueError("the style sheet must hold all it needs: no address, no import and no end tag")
    return (
        f'<!doctype html><html lang="en"><head><meta charset="utf-8">{POLICY}<title>{escape(title)}</title>'
        '<meta name="viewport" content="width=device-width"><meta name="robots" content="noindex">'
        f'<style>{css}{PAPER}</style></head><body data-md-color-scheme="notebook">'
        f'<main class="{f"md-typeset {layout}".strip()}">'
    )


def sheet_page(student: Student, sheet: Sheet) -> str:
    """One page: whose it is, the code large, and the sheet with room to write."""
    return f'<article class="cl-page">{_top(student, sheet)}{_for_paper(render(sheet), _code(sheet))}</article>\n'


def key(student: Student, sheet: Sheet) -> str:
    """The key of one sheet: each step's value and the interval that correct working can reach, group by group."""
    values = sheet.working.all_values()
    key_row = {row.step: row for row in key_rows(student, sheet)}
    tables = []
    for group in sheet.kind.page.groups(sheet.scenario, sheet.working):
        rows = "".join(
            f"<tr><th>{symbols(s.title)}</th><td>{symbols(written(values[s.id], s))}</td>"
            f"<td>{_interval(key_row[s.id])}</td></tr>"
            for s in group.steps
        )
        tables.append(f'<table class="cl-steps"><caption>{symbols(group.heading)}</caption>{rows}</table>')
    return f'<article class="cl-key">{_top(student, sheet)}<div class="cl-groups">{"".join(tables)}</div></article>\n'


def worked(student: Student, sheet: Sheet) -> str:
    """One sheet's givens, what was observed, and the full working."""
    page, scenario = sheet.kind.page, sheet.scenario
    givens = "".join(f"<div><dt>{symbols(k)}</dt><dd>{symbols(v)}</dd></div>" for k, v in page.givens(scenario))
    shown = f'<dl class="er-givens">{givens}</dl>{page.observations(scenario)}{render_working(sheet)}'
    return f'<article class="cl-page">{_top(student, sheet)}{_own_ids(shown, _code(sheet))}</article>\n'


def code_strip(student: Student, assigned: Iterable[Assigned], site: str) -> str:
    """One strip to cut: whose it is, a code and an address for each task, and the record page with their settings."""
    assigned = tuple(assigned)
    parts = "".join(
        f'<p>{escape(task.kind.title)}</p><p class="cl-code">{code}</p>'
        f"<small>{escape(address(site, task.kind, code))}</small>"
        for task, code in assigned
    )
    records = settings_addresses(site, [task for task, _ in assigned])
    if records:
        parts += f"<p>Your own record</p>{''.join(f'<small>{escape(where)}</small>' for _, where in records)}"
    return f'<div class="cl-strip"><p><strong>{_who(student)}</strong></p>{parts}</div>\n'


def _code(sheet: Sheet) -> str:
    return str(sheet.scenario.code)


def _top(student: Student, sheet: Sheet) -> str:
    return (
        f'<div class="cl-head"><p><strong>{_who(student)}</strong><br>{escape(sheet.kind.title)}</p>'
        f'<p class="cl-code">{_code(sheet)}</p></div>'
    )


def _interval(row: KeyRow) -> str:
    if not row.lo or not row.hi:
        return ""  # there is no bound
    return f"{_plain(row.lo)} to {_plain(row.hi)}"


def _plain(numeral: str) -> str:
    """A number of the key without the noughts that say nothing."""
    number = Decimal(numeral)
    return f"{number.normalize():f}".replace("-", "−") if -4 < number.adjusted() < 7 else figures(float(number), 6)


def _who(student: Student) -> str:
    # a name may be written from right to left: it keeps to itself
    name = f" · <bdi>{escape(student.name)}</bdi>" if student.name else ""
    return f"<bdi>{escape(student.roll)}</bdi>{name}"


def _for_paper(html: str, code: str) -> str:
    """A sheet without buttons, its lists as boxes to tick, and no id that another sheet has."""
    html = re.sub(r"<button\b[^>]*>.*?</button>", "", html)
    html = re.sub(r"<label for=[^>]*>((?:(?!</label>).)*)</label><select\b[^>]*>(.*?)</select>", _ticks, html)
    html = re.sub(r'<div class="er-said"[^>]*></div>', "", html)
    return _own_ids(re.sub(r' aria-describedby="[^"]*-said"', "", html), code)


def _own_ids(html: str, code: str) -> str:
    """No id, and no word of one, that another sheet of the same page has."""
    return re.sub(r'\b(id|for|aria-labelledby|aria-describedby)="', rf'\1="{code}-', html)


def _ticks(found: re.Match[str]) -> str:
    labels = re.findall(r'<option value="[^"]+">(.*?)</option>', found[2])
    return (
        f'<span>{found[1]}</span><div class="cl-choices">{"".join(f"<span>{label}</span> " for label in labels)}</div>'
    )

"""What goes to students on paper: a page a student and kind, and slips with codes to cut.

Each is one self-contained HTML file, given in pieces so that a large class
need not be held in memory: `head`, a piece for each sheet or student, `FOOT`.
"""

import re
from collections.abc import Iterable
from html import escape

from exercises.classroom.roster import Student
from exercises.classroom.tables import address
from exercises.kinds import Kind
from exercises.sheet import render
from exercises.sheet_code import SheetCode
from exercises.working import Working

#: What paper needs besides the notebook's own styles: no page to go with, room to write, the code large.
PAPER = """
body { margin: 0; background: var(--er-paper); color: var(--er-ink); font-family: var(--md-text-font); }
.cl-page { box-sizing: border-box; max-width: 190mm; margin: 0 auto 8mm; background: var(--er-sheet); break-after: page; }
.cl-page:last-child { break-after: auto; }
.cl-head { display: flex; justify-content: space-between; align-items: baseline; gap: 6mm; padding: 2mm 0; }
.cl-head p, .cl-slip p { margin: 0; overflow-wrap: anywhere; }
.cl-code { font-family: var(--md-code-font); font-size: 18pt; font-weight: 700; letter-spacing: 0.06em; white-space: nowrap; }
.cl-page .er-sheet { padding: 0 1px; border: 0; }
.cl-page .er-sheet-head, .cl-page .er-said { display: none; }
.cl-page table { border-collapse: collapse; }
.cl-page .er-entry { grid-template-columns: 1fr; }
.cl-page .er-entry input { box-sizing: border-box; height: 9mm; border: 1px solid #888; background: none; }
.cl-choices { font-size: 8pt; line-height: 1.35; }
.cl-choices span::before { content: "☐ "; }
.cl-choices span { margin-right: 3mm; }
.cl-page .er-entry:has(.cl-choices) { grid-column: 1 / -1; }
.cl-page .er-sheet:has(.cl-choices) .er-entry input { height: 7mm; }
.cl-page .er-sheet:has(.cl-choices) .er-entry { font-size: 8pt; line-height: 1.2; gap: 0; }
.cl-page .er-entry label, .cl-page .er-entry > span { font-size: 8.5pt; }
.cl-slips { display: grid; grid-template-columns: repeat(2, 1fr); max-width: 190mm; margin: 0 auto; }
.cl-slip { box-sizing: border-box; border: 1px dashed #888; padding: 4mm; break-inside: avoid; min-width: 0; }
.cl-slip .cl-code { font-size: 15pt; }
.cl-slip small { display: block; overflow-wrap: anywhere; }
@media print { .cl-page { margin: 0; max-width: none; } .cl-page .er-group:last-child { grid-template-columns: repeat(4, 1fr); } }
"""
FOOT = "</main></body></html>\n"


def head(title: str, css: str) -> str:
    """The page up to its first piece; `css` is the text of the notebook's style sheet.

    ValueError if it would end the style element or fetch something.
    """
    if "</" in css or re.search(r"@import|url\s*\(", css, re.IGNORECASE):
        raise ValueError("the style sheet must hold all it needs: no address, no import and no end tag")
    slips = " cl-slips" if title.startswith("Slips") else ""
    return (
        f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{escape(title)}</title>'
        '<meta name="viewport" content="width=device-width"><meta name="robots" content="noindex">'
        f'<style>{css}{PAPER}</style></head><body data-md-color-scheme="notebook"><main class="md-typeset{slips}">'
    )


def sheet(student: Student, kind: Kind, scenario, working: Working) -> str:
    """One page: whose it is, the code large, and the sheet with room to write."""
    code = str(scenario.code)
    return (
        f'<article class="cl-page"><div class="cl-head"><p><strong>{_who(student)}</strong><br>{escape(kind.title)}</p>'
        f'<p class="cl-code">{code}</p></div>{_for_paper(render(kind, scenario, working), code)}</article>\n'
    )


def slip(student: Student, codes: Iterable[tuple[Kind, SheetCode]], site: str) -> str:
    """One slip to cut: whose it is, and a code and an address for each kind."""
    parts = "".join(
        f'<p>{escape(kind.title)}</p><p class="cl-code">{code}</p><small>{escape(address(site, kind, code))}</small>'
        for kind, code in codes
    )
    return f'<div class="cl-slip"><p><strong>{_who(student)}</strong></p>{parts}</div>\n'


def _who(student: Student) -> str:
    # a name may be written from right to left: it keeps to itself
    name = f" · <bdi>{escape(student.name)}</bdi>" if student.name else ""
    return f"<bdi>{escape(student.roll)}</bdi>{name}"


def _for_paper(html: str, code: str) -> str:
    """A sheet without buttons, its lists as boxes to tick, and no id that another sheet has."""
    html = re.sub(r"<button\b[^>]*>.*?</button>", "", html)
    html = re.sub(r"<label for=[^>]*>((?:(?!</label>).)*)</label><select\b[^>]*>(.*?)</select>", _ticks, html)
    html = re.sub(r'<div class="er-said"[^>]*></div>', "", html)
    html = re.sub(r' aria-describedby="[^"]*-said"', "", html)
    return re.sub(r'\b(id|for|aria-labelledby|aria-describedby)="', rf'\1="{code}-', html)


def _ticks(found: re.Match) -> str:
    labels = re.findall(r'<option value="[^"]+">(.*?)</option>', found[2])
    return f'<span>{found[1]}</span><div class="cl-choices">{"".join(f"<span>{label}</span> " for label in labels)}</div>'

"""What is alike on every paper of a class: its styles, the page around it, and the head that each page carries."""

import re
from functools import lru_cache
from html import escape

from exercises.classroom.class_list.heading import Heading
from exercises.classroom.class_list.roster import Student

#: What paper needs besides the notebook's own styles: no page to go with, room to write, the code large.
PAPER = """
body { margin: 0; background: var(--er-paper); color: var(--er-ink); font-family: var(--md-text-font); }
.cl-page { box-sizing: border-box; max-width: 190mm; margin: 0 auto 8mm; background: var(--er-sheet); \
break-after: page; }
.cl-page:last-child { break-after: auto; }
.cl-frame { width: 100%; table-layout: fixed; border-collapse: collapse; }
.cl-frame > * > tr > td { padding: 0; }
.cl-frame > thead { break-inside: avoid; }
.cl-frame > thead > tr > td { padding-bottom: 1mm; }
.cl-head { display: flex; flex-wrap: wrap; justify-content: space-between; align-items: baseline; gap: 0 6mm; \
padding: 1mm 0; border-bottom: 1px solid var(--er-line); }
.cl-head > p:not(.cl-heading, .cl-code) { flex: 1 1 50mm; }
.cl-heading { flex: 1 0 100%; font-family: var(--er-plain); font-size: 8pt; line-height: 1.3; }
.cl-head p, .cl-strip p, .cl-title p { margin: 0; overflow-wrap: anywhere; }
.cl-title { display: flex; justify-content: space-between; align-items: center; gap: 6mm; margin-top: 1mm; }
.cl-marks { white-space: nowrap; }
.cl-marks span { display: inline-block; width: 24mm; height: 8mm; border: 1px solid var(--er-ink); \
vertical-align: middle; margin-left: 1mm; }
.cl-code { font-family: var(--md-code-font); font-size: 18pt; font-weight: 700; letter-spacing: 0.06em; \
white-space: nowrap; }
.cl-page .er-sheet { padding: 0 1px; border: 0; }
.cl-page .er-sheet-head, .cl-page .er-said, .cl-page .er-from { display: none; }
.cl-page .er-book { --er-hint: 0px; }
.cl-page :is(.er-entry, .er-part tr, li) { break-inside: avoid; }
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
.ex-marks, .ex-list { width: 100%; border-collapse: collapse; font-size: 9pt; line-height: 1.35; margin: 2mm 0; }
.ex-marks :is(td, th), .ex-list tr:nth-child(n) > th, .ex-list tbody td { border: 1px solid #888; padding: 1mm 1.5mm; \
text-align: left; vertical-align: top; font-weight: 400; break-inside: avoid; overflow-wrap: break-word; }
.ex-marks th:first-child { font-weight: 600; width: 25mm; }
.ex-marks :is(td, th):nth-child(n + 3) { width: 15mm; }
.ex-list th:first-child { min-width: 28mm; }
.ex-list thead td { padding: 0 0 1mm; }
.ex-list p, .ex-strip p { margin: 0; }
.ex-list tr { break-inside: avoid; }
.ex-page h4 { margin: 2mm 0 0; break-after: avoid; }
.ex-viva { margin: 0 0 2mm; padding-left: 5mm; font-size: 9pt; line-height: 1.4; }
.ex-section { max-width: 190mm; margin: 0 auto; break-after: page; font-size: 9.5pt; line-height: 1.35; }
.ex-section:last-child { break-after: auto; }
.ex-declared { border: 1px solid var(--er-ink); padding: 2mm 3mm; margin: 0 0 2mm; break-inside: avoid; }
.ex-strip .ex-line span { display: inline-block; width: 45mm; height: 7mm; border-bottom: 1px solid var(--er-ink); }
.cl-strips { display: grid; grid-template-columns: repeat(2, 1fr); max-width: 190mm; margin: 0 auto; }
.cl-strip { box-sizing: border-box; border: 1px dashed #888; padding: 3mm; break-inside: avoid; min-width: 0; }
.cl-wide { grid-column: 1 / -1; }
.cl-wide .cl-tasks { display: grid; grid-template-columns: 1fr 1fr; gap: 0 6mm; }
.cl-tasks > div { min-width: 0; padding-top: 1mm; break-inside: avoid; }
.cl-strip .cl-code { font-size: 15pt; }
.cl-strip small { display: block; overflow-wrap: anywhere; }
.cl-strip small span { display: inline-block; white-space: nowrap; }
.cl-room { display: grid; grid-template-columns: 1fr 1fr; gap: 2mm 4mm; margin-top: 3mm; }
.cl-room div { height: 60mm; box-sizing: border-box; border: 1px solid #888; padding: 0.5mm 1.5mm; font-size: 8pt; \
break-inside: avoid; }
.cl-room[data-rows="4"] div { height: 46mm; }
.cl-room[data-rows="5"] div { height: 36mm; }
.cl-room[data-rows="6"] div { height: 30mm; }
.cl-room div:last-child:nth-child(odd) { grid-column: 1 / -1; }
@media screen and (max-width: 40em) {
  body { padding: 0 3mm; }
  .cl-head { flex-wrap: wrap; gap: 0 6mm; }
  .cl-groups { columns: 1; }
  .cl-strips { grid-template-columns: 1fr; }
  .cl-page fieldset, .cl-page legend { min-width: 0; max-width: 100%; white-space: normal; }
  .cl-code { font-size: 13pt; }
  .ex-marks th:first-child, .ex-marks :is(td, th):nth-child(n + 3) { width: auto; }
}
@media print { @page { margin: 12mm; }
.cl-page { margin: 0; max-width: none; }
.cl-page .er-sheet[data-kind="setting"] .er-part:has(.er-plan) { grid-template-columns: 36mm 1fr 1fr; \
grid-auto-flow: row; }
.cl-page .er-sheet[data-kind="setting"] .er-part .er-entry[data-step^="arms-"] { grid-column: 1 / -1; }
.cl-page .er-sheet[data-kind="setting"] .er-part:has(.er-plan) .er-data { grid-column: 1; grid-row: 2 / span 3; } }
"""
#: A saved page fetches nothing and runs nothing, whatever has got into it.
POLICY = (
    '<meta http-equiv="Content-Security-Policy" '
    """content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:">"""
)
#: The one address that a style sheet may have: a font that stands in it.
FONT = re.compile(r'url\("data:font/woff2;base64,[A-Za-z0-9+/]+=*"\)')
FOOT = "</main></body></html>\n"


def head(title: str, css: str, layout: str = "") -> str:
    """The page up to its first piece; `css` is the style sheet of paper, `layout` a class of PAPER.

    The style sheet of paper is the notebook's, with the font of the formulas in it.
    ValueError if it would end the style element or fetch something.
    """
    if "</" in css or re.search(r"@import|url\s*\(", FONT.sub("", css, 1), re.IGNORECASE):
        raise ValueError("the style sheet must hold all it needs: no address, no import and no end tag")
    return (
        f'<!doctype html><html lang="en"><head><meta charset="utf-8">{POLICY}<title>{escape(title)}</title>'
        '<meta name="viewport" content="width=device-width"><meta name="robots" content="noindex">'
        f'<style>{css}{PAPER}</style></head><body data-md-color-scheme="notebook">'
        f'<main class="{f"md-typeset {layout}".strip()}">'
    )


def framed(kind: str, heading: Heading, student: Student, title: str, code: str, body: str) -> str:
    """A piece of paper, an article of the class `kind`: wherever it breaks, whose it is and its code stand on top.

    title  of what it is, plain text;  body  HTML
    """
    return (
        f'<article class="{kind}"><table class="cl-frame" role="presentation"><thead><tr><td>'
        f"{top(heading, student, title, code)}</td></tr></thead><tbody><tr><td>{body}</td></tr></tbody></table>"
        "</article>\n"
    )


def top(heading: Heading, student: Student, title: str, code: str) -> str:
    """The heading of the class, whose the piece is, what it is, and its code."""
    below = f"<br>{escape(title)}" if title else ""
    return (
        f'<div class="cl-head">{heading_line(heading)}<p><strong>{who(student)}</strong>{below}</p>'
        f'<p class="cl-code">{escape(code)}</p></div>'
    )


@lru_cache(maxsize=4)  # one class after another
def heading_line(heading: Heading) -> str:
    """The heading of the class in one paragraph; "" where it has none."""
    shown = " · ".join(f"<span>{escape(line)}</span>" for line in heading.lines)
    return f'<p class="cl-heading">{shown}</p>' if shown else ""


def who(student: Student) -> str:
    """Roll, name and section, as HTML."""
    # a name may be written from right to left: it keeps to itself
    words = (("", student.roll), ("", student.name), ("section ", student.section))
    return " · ".join(f"{word}<bdi>{escape(text)}</bdi>" for word, text in words if text)

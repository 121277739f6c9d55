"""A page for each marked sheet, to give back: what was typed, what is said of it, the marks, and what to read again.

One self-contained HTML file in pieces, as in prints.py: `head`, a page for each sheet, `FOOT`.
"""

from html import escape
from typing import NamedTuple

from exercises.classroom.class_list import paper
from exercises.classroom.class_list.class_file import Class
from exercises.classroom.class_list.paper import FOOT as FOOT
from exercises.classroom.marking.marks import Marked, StepMark, added, plain
from exercises.classroom.report.page import evening
from exercises.classroom.report.reading_out import passage
from exercises.working.mathematics import symbols

#: State -> (sign, word).
SAID = {
    "right": ("✓", "right"),
    "follows": ("↳", "follows"),
    "slip": ("✕", "slip"),
    "wrong": ("✕", "not right"),
    "ask": ("?", "not judged"),
    "unread": ("?", "not read"),
    "blank": ("–", "blank"),
}
GOOD = ("right", "follows")
BY_HAND = "<small>by hand</small>"
LONGEST = 120  # characters that are shown of what was typed

STYLES = """
.mk-page { box-sizing: border-box; max-width: 190mm; margin: 0 auto 8mm; padding: 0 1px; background: var(--er-sheet); \
break-after: page; font-size: 9.5pt; line-height: 1.35; }
.mk-page:last-child { break-after: auto; }
.mk-head { display: flex; flex-wrap: wrap; justify-content: space-between; align-items: baseline; gap: 1mm 6mm; \
padding: 2mm 0 1mm; border-bottom: 2px solid var(--er-ink); }
.md-typeset .mk-head :is(p, h2) { margin: 0; border: 0; padding: 0; font-size: 11pt; overflow-wrap: anywhere; }
.md-typeset .mk-mark { font-size: 15pt; font-weight: 700; white-space: nowrap; }
.mk-mark small { font-size: 10pt; font-weight: 400; }
.mk-groups { columns: 21em 2; column-gap: 6mm; margin: 2mm 0; font-family: var(--er-plain); font-size: 7.8pt; \
line-height: 1.3; }
.mk-groups table { width: 100%; table-layout: fixed; border-collapse: collapse; break-inside: avoid; margin: 0 0 2mm; \
font-variant-numeric: tabular-nums; }
.mk-groups caption { text-align: left; font-weight: 600; }
.mk-groups :is(th, td) { border-bottom: 1px solid var(--er-line); padding: 0.4mm 1mm 0.4mm 0; text-align: left; \
font-weight: 400; vertical-align: top; overflow-wrap: anywhere; }
.mk-groups td:nth-child(2) { width: 31%; }
.mk-groups td:nth-child(3) { width: 31%; }
.mk-groups td:nth-child(4) { width: 14%; text-align: right; white-space: nowrap; }
.mk-groups small { display: block; color: var(--er-soft); }
.mk-right .mk-said { color: var(--er-right); } .mk-follows .mk-said { color: var(--er-amber); }
.mk-slip .mk-said, .mk-wrong .mk-said { color: var(--er-wrong); font-weight: 600; }
.md-typeset .mk-page h3 { font-size: 10pt; margin: 2mm 0 1mm; }
.md-typeset .mk-again { margin: 0; padding-left: 1.3em; }
.md-typeset .mk-again li { margin: 0 0 1.2mm; break-inside: avoid; }
.mk-again a { color: var(--er-accent); overflow-wrap: anywhere; }
.md-typeset .mk-notes p { margin: 1mm 0; border-left: 3px solid var(--er-amber); padding-left: 2mm; }
@media screen { .mk-page { padding: 0 1rem 1rem; font-size: 12pt; } .mk-groups { font-size: 10pt; } }
@media print { .mk-page { margin: 0; max-width: none; } .mk-again a { color: inherit; } }
"""


def head(css: str) -> str:
    """The file up to its first page; `css` is the text of the notebook's style sheet."""
    return paper.head("Marked work", css + evening(css) + STYLES)


def page(sheet: Marked, class_: Class) -> str:
    """The page of one marked sheet."""
    handed = sheet.handed
    again = _again(sheet, class_.site)
    numbers = {step_id: n for n, remark in enumerate(again, 1) for step_id in remark.steps}
    by_id = {mark.step.id: mark for mark in sheet.steps}
    typed_in = {change.step for change in handed.changes}
    groups = "".join(
        f'<table class="mk-table"><caption>{symbols(group.heading)}</caption><tbody>'
        + "".join(
            _row(by_id[s.id], handed.return_slip.answers.get(s.id) or "", numbers.get(s.id), s.id in typed_in)
            for s in group.steps
        )
        + "</tbody></table>"
        for group in sheet.groups
    )
    notes = "".join(f"<p>{escape(note)}</p>" for note in handed.notes)
    attempt = f", attempt {handed.task.attempt}" if handed.task.attempt > 1 else ""
    body = (
        f'<div class="mk-head"><h2>{escape(handed.task.kind.title)}{attempt}</h2>{_total(sheet)}</div>'
        f'<div class="mk-groups">{groups}</div>{_list(sheet, again)}'
        + (f'<div class="mk-notes">{notes}</div>' if notes else "")
    )
    return paper.framed("mk-page", class_.heading, handed.student, "", str(handed.code), body)


def _total(sheet: Marked) -> str:
    earned, possible = added(sheet.steps)
    scaled = ""
    if (earned, possible) != (sheet.earned, sheet.possible):
        scaled = f"<br><small>{plain(earned)} of {plain(possible)} on the steps below</small>"
    return f'<p class="mk-mark">{plain(sheet.earned)} <small>of {plain(sheet.possible)}</small>{scaled}</p>'


def _row(mark: StepMark, last: str, number: int | None, typed_in: bool) -> str:
    state = mark.verdict.state
    sign, word = SAID[state]
    other = ""
    if mark.first and mark.first != mark.typed:
        other = f"<small>first: {_shown(mark, mark.first)}</small>"
    elif last != mark.typed and mark.first:
        other = f"<small>later: {_shown(mark, last) or 'taken out'}</small>"
    if typed_in:
        other += "<small>typed in by the instructor</small>"
    see = f" ({number})" if number else ""
    return (
        f'<tr class="mk-{state}"><th scope="row">{symbols(mark.step.title)}</th>'
        f"<td>{_shown(mark, mark.typed)}{other}</td>"
        f'<td><span class="mk-said">{sign} {word}{see}</span></td>'
        f"<td>{plain(mark.earned)} / {plain(mark.possible)}{BY_HAND if mark.by_hand else ''}</td></tr>"
    )


def _shown(mark: StepMark, typed: str) -> str:
    """What was typed, as text; of a choice, its words."""
    words = {key: label for key, label, _ in mark.step.choices}.get(typed, typed)
    return f"<bdi>{escape(words if len(words) <= LONGEST else words[:LONGEST] + '…')}</bdi>" if words else ""


class _Remark(NamedTuple):
    """What is to be looked at again: the ids of its steps, where they stand, and what is said (HTML)."""

    steps: list[str]
    places: list[str]
    html: str


def _again(sheet: Marked, site: str) -> list[_Remark]:
    """What is to be looked at again, each thing said once."""
    group_of = {step.id: group.name for group in sheet.groups for step in group.steps}
    said: dict[tuple[str, str], _Remark] = {}
    for mark in sheet.steps:
        state = mark.verdict.state
        remarks = " ".join(mark.verdict.remarks)
        texts = [] if mark.verdict.is_plain else [mark.verdict.text]
        texts += [remarks] if state in GOOD and remarks else []
        texts += [mark.why] if state in GOOD and mark.why else []
        if texts:
            text, read = " ".join(texts), "" if state in GOOD else mark.verdict.read
            remark = said.setdefault((text, read), _Remark([], [], symbols(text) + _read(read, site)))
            remark.steps.append(mark.step.id)
            remark.places.append(": ".join(filter(None, (group_of.get(mark.step.id), mark.step.title))))
    return list(said.values())


def _read(read: str, site: str) -> str:
    if not read:
        return ""
    address = f"{site.rstrip('/')}/{read}" if site else read
    shown = f'<a href="{escape(address)}">{escape(address)}</a>' if site else escape(address)
    return f" Read “{escape(passage(read))}”: {shown}"


def _list(sheet: Marked, again: list[_Remark]) -> str:
    blank = sum(mark.verdict.state == "blank" for mark in sheet.steps)
    items = "".join(f"<li><strong>{_listed(remark.places)}.</strong> {remark.html}</li>" for remark in again)
    parts = [f'<h3>To look at again</h3><ol class="mk-again">{items}</ol>'] if items else []
    if blank:
        parts.append(f"<p>{blank} {'entry was' if blank == 1 else 'entries were'} left blank.</p>")
    return "".join(parts) or "<p>Nothing is left to look at again.</p>"


def _listed(places: list[str], most: int = 4) -> str:
    more = f" and {len(places) - most} more" if len(places) > most else ""
    return symbols("; ".join(places[:most])) + more

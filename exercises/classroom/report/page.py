"""The report of a class as HTML: a paragraph to read out, then each count as a plot and as a table."""

import re
from html import escape

from exercises.classroom.class_list import paper
from exercises.classroom.class_list.class_file import Class
from exercises.classroom.report import plots
from exercises.classroom.report.counts import FEW, KindReport, Report, SectionCount, Spread, StateCounts, StepCount
from exercises.classroom.report.plots import STATES
from exercises.classroom.report.reading_out import caution, paragraphs, passage
from exercises.working.mathematics import spoken, symbols
from exercises.working.words import many

MOST_SLIPS = 12  # in the plot; the table has all
WORDS = ' class="rp-words"'

#: For a page of its own.
PAGE = """
html { font-size: 118%; }
.rp-page { max-width: 46rem; margin: 0 auto; padding: 1rem; }
.rp-page h1 { font-size: 1.5rem; margin: 0 0 0.4em; }
.rp-page h2 { font-size: 1.15rem; margin: 1.6em 0 0.5em; }
.rp-page h3 { font-size: 0.95rem; margin: 1.4em 0 0.3em; }
.rp-page p { margin: 0.5em 0; }
.rp-page a { color: var(--er-accent); }
@media print { html { font-size: 100%; } .rp-page { max-width: none; padding: 0; } .rp-page a { color: inherit; } }
"""
#: For the sections of the report, wherever they stand.
STYLES = """
.md-typeset .rp-kind figure { margin: 0.6rem 0; max-width: 26rem; }
.md-typeset table.rp-table { display: table; border-collapse: collapse; font-family: var(--er-plain); \
font-size: 0.68rem; font-variant-numeric: tabular-nums; }
.md-typeset .rp-table :is(th, td) { border: 1px solid var(--er-line); padding: 0.3em 0.5em; text-align: right; \
font-weight: 400; min-width: 0; }
.md-typeset .rp-table thead th { font-weight: 600; vertical-align: bottom; }
.md-typeset .rp-table tbody th { min-width: 6rem; }
.md-typeset .rp-table :is(th:first-child, .rp-words) { text-align: left; }
.md-typeset .rp-table .rp-words { min-width: 7rem; }
.md-typeset .rp-caption { font-family: var(--er-plain); font-size: 0.68rem; color: var(--er-soft); \
margin: 0.9em 0 0.3em; }
.rp-kind :is(figure, tr) { break-inside: avoid; }
.rp-kind :is(h2, h3, h4, h5, .rp-caption, thead) { break-after: avoid; }
"""


def report_html(report: Report, class_: Class, css: str) -> str:
    """The whole report as a page that needs nothing else; `css` is the text of the notebook's style sheet."""
    judged = "What was typed first was judged." if report.attempt == "first" else "What was typed last was judged."
    return (
        paper.head("Report of a class", css + evening(css) + STYLES + PAGE)
        + f'<article class="rp-page"><h1>Report of a class</h1>'
        f"{paper.heading_line(class_.heading)}<p>{many(report.students, 'student')}. {judged} "
        "No name and no roll is in it.</p>" + report_fragment(report, class_.site) + f"</article>{paper.FOOT}"
    )


def evening(css: str) -> str:
    """The evening colours of a style sheet, for a page of its own that is read in the dark."""
    found = re.search(r'\[data-md-color-scheme="evening"\]\s*\{([^{}]*)\}', css)
    return (
        f"@media screen and (prefers-color-scheme: dark) {{ [data-md-color-scheme] {{{found[1]}}} }}" if found else ""
    )


def report_fragment(report: Report, site: str = "", level: int = 2) -> str:
    """A section for each kind, to stand on another page.

    site   what the addresses of passages begin with, or "" to leave them out
    level  of the headings of the kinds, 1 to 5
    """
    return "".join(_kind(kind, words, site, level) for kind, words in zip(report.kinds, paragraphs(report)))


def _kind(kind: KindReport, words: str, site: str, level: int) -> str:
    ident, h, smaller = f"rp-{kind.kind.slug}", f"h{level}", f"h{level + 1}"
    parts = [f'<section class="rp-kind" aria-labelledby="{ident}"><{h} id="{ident}">{escape(kind.kind.title)}</{h}>']
    if warning := caution(kind.sheets):
        parts.append(f'<p class="er-note">{symbols(warning)}</p>')
    parts.append(f"<p>{symbols(words.removeprefix(f'{kind.kind.title}. '))}</p>")
    if kind.sheets:
        sections = (
            ("How the steps went", _steps(kind.columns, "step", f"{ident}-steps")),
            ("Where on the sheet", _where(kind, f"{ident}-parts") if len(kind.parts) > 1 else ""),
            ("Slips", _slips(kind, site, f"{ident}-slips")),
            ("How far from right", "".join(_spread(s, f"{ident}-far-{n}") for n, s in enumerate(kind.spreads))),
            ("Marks, and first tries", _marks(kind)),
            ("By section", _sections(kind.sections)),
        )
        parts += [f"<{smaller}>{title}</{smaller}>{html}" for title, html in sections if html]
    return "".join(parts) + "</section>"


def _steps(rows: tuple[StepCount, ...], what: str, ident: str) -> str:
    used = [s for s in STATES if any(getattr(r.counts, s) for r in rows)]
    says = "; ".join(f"{r.label}: {r.counts.right} of {r.counts.all} right" for r in rows) + "."
    table = _table(
        "Entries by what was said of them, and sheets on which at least one was missed",
        [what, *(STATES[s].short for s in used), "sheets"],
        [[symbols(r.label), *(f"{getattr(r.counts, s):,}" for s in used), f"{r.sheets:,}"] for r in rows],
    )
    return _figure(plots.stacked([(r.label, r.counts) for r in rows], f"Entries by {what}", says, ident)) + table


def _where(kind: KindReport, ident: str) -> str:
    """The parts of the sheet, and each step that stands in several of them, such as at every distance."""
    labels = [c.label for c in kind.columns if sum(label == c.label for _, label in kind.cells) > 1]
    parts = [p.label for p in kind.parts if any((p.label, label) in kind.cells for label in labels)]
    rows = [[symbols(part), *(_right_of(kind.cells.get((part, label))) for label in labels)] for part in parts]
    table = _table("Right, of all entries, by step", ["part of the sheet", *labels], rows) if rows else ""
    return _steps(kind.parts, "part of the sheet", ident) + table


def _right_of(counts: StateCounts | None) -> str:
    return f"{counts.right:,}&nbsp;of&nbsp;{counts.all:,}" if counts else "–"


def _slips(kind: KindReport, site: str, ident: str) -> str:
    if not kind.slips:
        return "<p>No slip was named.</p>"
    shown = kind.slips[:MOST_SLIPS]
    says = "; ".join(f"{s.name}: {s.sheets} of {kind.sheets} sheets" for s in shown) + "."
    rows = [
        [symbols(s.name), f"{s.sheets:,}", f"{s.entries:,}", f"{s.shared:,}", _passage(s.read, site)]
        for s in kind.slips
    ]
    heads = ["slip", "sheets", "entries", "of these beside another", "where to read"]
    caption = "On how many sheets each slip was named; “beside another” where two explain the number, alone or together"
    plot = plots.plain_bars(
        [(s.name, s.sheets) for s in shown], kind.sheets, "Sheets on which a slip was named", says, ident
    )
    return _figure(plot) + _table(caption, heads, rows, words=(4,))


def _spread(found: Spread, ident: str) -> str:
    if not found.all:
        return ""
    low, middle, high = (_percent(q) for q in found.quartiles) if found.quartiles else ("–",) * 3
    row = [symbols(found.label), f"{len(found.near):,}", low, middle, high, f"{found.powers:,}", f"{found.far:,}"]
    heads = [
        "result",
        "within a factor of two",
        "lower quartile",
        "median",
        "upper quartile",
        "a power of ten out",
        "farther",
    ]
    says = (
        f"{len(found.near)} of {found.all} within a factor of two of right; median {middle}, quartiles {low} and "
        f"{high}."
    )
    plot = plots.spread(found, f"How far {found.label} is from right", says, ident) if found.near else ""
    return (_figure(plot) if plot else "") + _table(
        "Found over right, less one; right for each sheet’s own numbers", heads, [row]
    )


def _marks(kind: KindReport) -> str:
    parts = ("a quarter of the sheets", "half of the sheets", "three quarters of the sheets")
    rows = [[f"{part} earned at most", f"{100 * mark:.0f} %"] for part, mark in zip(parts, kind.marks)]
    if kind.tries:
        rows += [
            ["right, and never typed otherwise", f"{kind.tries.stood:,}"],
            ["right in the end, and first typed otherwise", f"{kind.tries.corrected:,}"],
            ["not right in the end, and first typed otherwise", f"{kind.tries.lost:,}"],
        ]
    return _table("Marks of the sheets, and entries by their first try", [], rows)


def _sections(sections: tuple[SectionCount, ...]) -> str:
    if not sections:
        return ""
    rows = [
        [
            escape(one.section) or "none",
            f"{one.sheets:,} of {one.students:,}",
            *([f"{100 * mark:.0f} %" for mark in one.marks] or ["–"] * 3),
        ]
        for one in sections
    ]
    caption = f"Marks by section; of fewer than {FEW} sheets no mark is told, for it could point at a person"
    return _table(caption, ["section", "handed in", "lower quartile", "median", "upper quartile"], rows)


def _passage(read: str, site: str) -> str:
    name = escape(passage(read))
    return f'<a href="{escape(site.rstrip("/"))}/{escape(read)}">{name}</a>' if site else name


def _percent(value: float) -> str:
    return f"{value:+.2f} %".replace("-", "−")


def _figure(svg: str) -> str:
    return f'<figure class="er-plate">{svg}</figure>'


def _table(caption: str, heads: list[str], rows: list[list[str]], words: tuple[int, ...] = ()) -> str:
    """Cells are HTML; the first of a row is its heading, those of the columns `words` are no numbers."""
    head = "".join(f'<th scope="col"{WORDS if n in words else ""}>{symbols(h)}</th>' for n, h in enumerate(heads))
    head = f"<thead><tr>{head}</tr></thead>" if head else ""
    body = "".join(
        f'<tr><th scope="row">{row[0]}</th>'
        + "".join(f"<td{WORDS if n in words else ''}>{cell}</td>" for n, cell in enumerate(row[1:], 1))
        + "</tr>"
        for row in rows
    )
    # a caption inside would be as wide as the table, and cut where that is wider than the screen
    return (
        f'<p class="rp-caption">{symbols(caption)}</p>'
        f'<div class="er-scroll" tabindex="0" role="group" aria-label="{spoken(caption)}">'
        f'<table class="rp-table" aria-label="{spoken(caption)}">'
        f"{head}<tbody>{body}</tbody></table></div>"
    )

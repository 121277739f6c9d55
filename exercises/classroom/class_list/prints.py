"""What goes on paper: a page a student and kind, code strips to cut, the key, and the key with its working.

Each is one self-contained HTML file, in pieces so that a large class
need not be held in memory: `head` and `FOOT` of paper.py, and a piece
for each sheet or student between them.
"""

import re
from collections.abc import Iterable
from decimal import Decimal
from html import escape

from exercises.classroom.class_list.class_file import Assigned
from exercises.classroom.class_list.heading import Heading
from exercises.classroom.class_list.paper import framed, heading_line, who
from exercises.classroom.class_list.roster import Student
from exercises.classroom.class_list.tables import KeyRow, address, key_rows, settings_addresses
from exercises.kinds.kind import Sheet
from exercises.kinds.rendering import render, render_working
from exercises.kinds.sheet import written
from exercises.working.mathematics import symbols
from exercises.working.numbers import figures

NARROW = 5  # tasks on a strip that is half as wide as the page; with more it is as wide


def sheet_page(student: Student, sheet: Sheet, heading: Heading = Heading()) -> str:
    """The sheet of one student with room to write: the answers, their marks, and the working below them."""
    body = f"{title_line(sheet.kind.title, 'Marks')}{for_paper(render(sheet), _code(sheet))}{room(sheet)}"
    return framed("cl-page", heading, student, "", _code(sheet), body)


def title_line(title: str, box: str) -> str:
    """The name of a kind, and a box for what is called `box`; both plain text."""
    return (
        f'<div class="cl-title"><p><strong>{escape(title)}</strong></p>'
        f'<p class="cl-marks">{escape(box)} <span></span></p></div>'
    )


def room(sheet: Sheet) -> str:
    """Boxes for the working, one for each group of steps that has any; "" where all is read off or chosen."""
    groups = sheet.kind.page.groups(sheet.scenario, sheet.working)
    worked_out = [g for g in groups if any(not s.choices and s.rule not in ("reading", "count") for s in g.steps)]
    if not worked_out:
        return ""
    boxes = "".join(f"<div>Working. {symbols(group.heading)}</div>" for group in worked_out)
    return f'<div class="cl-room" data-rows="{min(6, (len(worked_out) + 1) // 2)}">{boxes}</div>'


def key(student: Student, sheet: Sheet, heading: Heading = Heading()) -> str:
    """The key of one sheet: each step's value and the interval that correct working can reach, group by group."""
    return framed("cl-key", heading, student, sheet.kind.title, _code(sheet), key_groups(student, sheet))


def key_groups(student: Student, sheet: Sheet) -> str:
    """The key of one sheet, without whose it is."""
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
    return f'<div class="cl-groups">{"".join(tables)}</div>'


def worked(student: Student, sheet: Sheet, heading: Heading = Heading()) -> str:
    """One sheet's givens, what was observed, and the full working."""
    page, scenario = sheet.kind.page, sheet.scenario
    givens = "".join(f"<div><dt>{symbols(k)}</dt><dd>{symbols(v)}</dd></div>" for k, v in page.givens(scenario))
    shown = f'<dl class="er-givens">{givens}</dl>{page.observations(scenario)}{render_working(sheet)}'
    return framed("cl-page", heading, student, sheet.kind.title, _code(sheet), _own_ids(shown, _code(sheet)))


def code_strip(student: Student, assigned: Iterable[Assigned], site: str, heading: Heading = Heading()) -> str:
    """One strip to cut: whose it is, a code and an address for each task, and the record page with their settings."""
    assigned = tuple(assigned)
    tasks = [
        f'<div><p>{escape(task.kind.title)}</p><p class="cl-code">{code}</p>'
        f"<small>{_whole(address(site, task.kind, code), str(code))}</small></div>"
        for task, code in assigned
    ]
    records = settings_addresses(site, [task for task, _ in assigned])
    if records:
        shown = "".join(f"<small>{_whole(where, where.rpartition('=')[2])}</small>" for _, where in records)
        tasks.append(f"<div><p>Your own record</p>{shown}</div>")
    layout = "cl-strip cl-wide" if len(assigned) > NARROW else "cl-strip"
    return (
        f'<div class="{layout}">{heading_line(heading)}<p><strong>{who(student)}</strong></p>'
        f'<div class="cl-tasks">{"".join(tasks)}</div></div>\n'
    )


def _whole(address: str, code: str) -> str:
    """An address as HTML that breaks before the code at its end, and never inside it."""
    return f"{escape(address.removesuffix(code))}<span>{escape(code)}</span>"


def _code(sheet: Sheet) -> str:
    return str(sheet.scenario.code)


def _interval(row: KeyRow) -> str:
    if not row.lo or not row.hi:
        return ""  # there is no bound
    return f"{_plain(row.lo)} to {_plain(row.hi)}"


def _plain(numeral: str) -> str:
    """A number of the key without the noughts that say nothing."""
    number = Decimal(numeral)
    return f"{number.normalize():f}".replace("-", "−") if -4 < number.adjusted() < 7 else figures(float(number), 6)


def for_paper(html: str, code: str) -> str:
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

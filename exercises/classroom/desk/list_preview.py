"""The class list on the class desk, before a class is made of it: menus for columns and lines over its first and last
rows.  Text in, JSON text out, as in classes.py.

What was chosen comes as JSON, {control: what it shows}: col-0, col-1 … with a word of `_USES`, above and below with
how many rows stand before the first student and after the last, and sure.  With `list`, which tells whether it was
chosen for this list.
"""

import json
from collections.abc import Mapping, Sequence
from html import escape
from typing import Any

from exercises.classroom.class_list.cells import Row
from exercises.classroom.class_list.columns import letter
from exercises.classroom.class_list.list_words import doubts, told
from exercises.classroom.class_list.proposal import NOWHERE, PROPOSED, Chosen, Proposal, propose
from exercises.classroom.class_list.roster import UNCERTAIN, RosterError, Student, students_of
from exercises.classroom.desk.session import answering
from exercises.working.page_answer import page_answer

_USES = {"": "left out", "roll": "roll", "name": "name", "name-2": "name, 2nd part", "name-3": "name, 3rd part"}
_USES |= {"section": "section"}
_TOP, _FIRST, _LAST, _END = 4, 3, 2, 2  # rows that are shown: of the list's top, of students, and of the list's end
_OFFERED = 14  # lines in a menu


@answering("list")
def preview(text: str, columns: str) -> str:
    """How a list would be read, as HTML, and what was chosen that still holds for it."""
    picked: dict[str, Any] = json.loads(columns) if columns else {}
    found = propose(text, chosen(text, picked))
    wrong, students = "", tuple[Student, ...]()
    try:
        students = students_of(found)
    except RosterError as error:
        wrong = str(error)
    held = picked if _mark(found) == picked.get("list") else {}
    html = "".join((_said(found, students), _wrong(found, wrong, bool(held.get("sure"))), _lines(found), _table(found)))
    return page_answer(ok=True, html=html, columns={**held, "list": _mark(found)})


def chosen(text: str, picked: Mapping[str, Any]) -> Chosen:
    """What the controls say of this list; what was chosen for another is left to the proposal.

    RosterError where the list cannot be read.
    """
    if not picked:
        return PROPOSED
    above, below = (int(n) if (n := str(picked.get(name, ""))).isdecimal() else None for name in ("above", "below"))
    lines = Chosen(above=above, below=below)
    plain = propose(text, lines)
    if plain.rolls is not None or _mark(plain) != picked.get("list"):
        return PROPOSED
    uses = {at: picked[f"col-{at}"] for at in range(plain.cells.wide) if f"col-{at}" in picked}
    by_use = {use: at for at, use in uses.items()}
    names, section = _names(plain, uses), None
    if "section" in by_use or plain.columns.section in uses:
        section = by_use.get("section", NOWHERE)
    never = frozenset(at for at, use in uses.items() if use != "roll")
    sure = bool(picked.get("sure"))
    return lines._replace(roll=by_use.get("roll"), names=names, section=section, never=never, sure=sure)


def _names(plain: Proposal, uses: Mapping[int, str]) -> tuple[int, ...] | None:
    """The columns of the name in their order; None where no menu says anything of them."""
    proposed = {at: part for part, at in enumerate(plain.columns.names, 1)}
    said = {at: int(use.partition("-")[2] or 1) for at, use in uses.items() if use.startswith("name")}
    if not said and not any(at in uses for at in proposed):
        return None
    parts = {at: part for at, part in proposed.items() if at not in uses} | said
    if not parts and "roll" in map(uses.get, proposed):
        return None  # the column of the names was made the roll, so another is proposed
    return tuple(sorted(parts, key=lambda at: (parts[at], at)))


def _mark(found: Proposal) -> str:
    """Tells lists apart whose columns or first lines differ, so that no choice is held against another list."""
    first = found.cells.rows[0].cells if found.cells.rows else ()
    return json.dumps([found.cells.wide, list(first)], ensure_ascii=False)


def _said(found: Proposal, students: Sequence[Student]) -> str:
    items = "".join(
        f"<div><dt>{about}</dt><dd><bdi>{escape(said)}</bdi></dd></div>" for about, said in told(found, students)
    )
    return f'<dl class="cd-told">{items}</dl>'


def _wrong(found: Proposal, wrong: str, sure: bool) -> str:
    """What cannot be used, or is not certain, with a box to tick where it is right all the same."""
    if wrong:
        return f'<p class="cd-wrong">{escape(wrong)}</p>'
    if not found.doubts and not sure:
        return ""
    why = f'<p class="cd-doubt">{UNCERTAIN} {escape(doubts(found))}</p>' if found.doubts else ""
    ticked = " checked" if sure else ""
    return (
        f'{why}<p class="cd-check"><input type="checkbox" id="cd-sure" name="sure"{ticked}>'
        '<label for="cd-sure">The list is right as it is shown here</label></p>'
    )


def _lines(found: Proposal) -> str:
    """The menus for the first and the last line of the students."""
    if found.rolls is not None:
        return ""
    rows, students = found.cells.rows, found.students
    above = sum(row.line < students[0].line for row in rows) if students else found.above
    below = sum(row.line > students[-1].line for row in rows) if students else found.below  # a sum is no student
    firsts = sorted({*range(min(_OFFERED, len(rows))), above})
    lasts = sorted({*range(min(_OFFERED, len(rows) - above)), below})
    return (
        f'<div class="cd-two"><div>{_menu("above", "First line of the students", firsts, above, rows)}</div>'
        f"<div>{_menu('below', 'Last line of the students', lasts, below, rows[::-1])}</div></div>"
    )


def _menu(name: str, label: str, offered: Sequence[int], now: int, rows: Sequence[Row]) -> str:
    options = "".join(
        f'<option value="{n}"{" selected" if n == now else ""}>{rows[n].line}: '
        f"{escape(', '.join(filter(None, rows[n].cells))[:50])}</option>"
        for n in offered
    )
    return f'<label for="cd-{name}">{label}</label><select id="cd-{name}" name="{name}">{options}</select>'


def _table(found: Proposal) -> str:
    """The first and the last rows, each column under its menu."""
    if found.rolls is not None:
        return ""
    rows, wide = found.cells.rows, found.cells.wide
    some = (*rows[:_TOP], *found.students[:_FIRST], *found.students[-_LAST:], *rows[-_END:])
    shown = [row for _, row in sorted({row.line: row for row in some}.items())]
    students = {row.line for row in found.students}
    heads = "".join(f'<th scope="col">{_use_menu(found, at)}</th>' for at in range(wide))
    body, before = "", shown[0].line if shown else 0
    for row in shown:
        if skipped := sum(before < r.line < row.line for r in rows):
            body += f'<tr class="cd-more"><td colspan="{wide + 1}">… {skipped:,} more …</td></tr>'
        kind, note = "", ""
        if row.line not in students:
            kind, note = ("headings", "headings") if row.cells == found.headings else ("out", "left out")
        cells = "".join(f"<td><bdi>{escape(row.at(at)[:60])}</bdi></td>" for at in range(wide))
        small = f"<br><small>{note}</small>" if note else ""
        body += f'<tr{f" class=cd-{kind}" if kind else ""}><th scope="row">{row.line}{small}</th>{cells}</tr>'
        before = row.line
    return (
        '<div class="cd-scroll" tabindex="0" role="region" aria-label="First and last lines of the class list">'
        '<table class="cd-table cd-list-table"><thead><tr><th scope="col">Line</th>'
        f"{heads}</tr></thead><tbody>{body}</tbody></table></div>"
    )


def _use_menu(found: Proposal, at: int) -> str:
    columns = found.columns
    now = ""
    if at == columns.roll:
        now = "roll"
    elif at in columns.names:
        part = columns.names.index(at) + 1
        now = "name" if part == 1 else f"name-{part}"
    elif at == columns.section:
        now = "section"
    options = "".join(
        f'<option value="{u}"{" selected" if u == now else ""}>{word}</option>' for u, word in _USES.items()
    )
    name = f"Column {letter(at)}"
    return f'<label for="cd-col-{at}">{name}</label><select id="cd-col-{at}" name="col-{at}">{options}</select>'

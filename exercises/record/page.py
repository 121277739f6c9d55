"""What the page "Lab record" may ask of Python.  JSON text in, JSON text out; never an exception for input."""

import json

from exercises.codes.sheet_code import CodeError, read_setting
from exercises.files.text import FromBrowser, bytes_of
from exercises.record import file
from exercises.record.check import Checked, is_worked_out
from exercises.record.check import check as checked
from exercises.record.entries import Record, as_plain, cell_label, cell_of, from_plain
from exercises.record.finding import LEVELS, Finding, Level
from exercises.record.laboratory import notes_of, taken, with_settings
from exercises.record.paper import both, paper, shown
from exercises.record.position import TAN_A, position_named
from exercises.working.mathematics import symbols
from exercises.working.page_answer import page_answer


def _record(text: str) -> Record:
    try:
        return from_plain(json.loads(text))
    except (ValueError, RecursionError):
        return Record()


def check(text: str) -> str:
    """Everything found in a record, which is JSON as `entries.as_plain` makes it.

    cells      {cell: {state, label, text, read, quiet}} of the entries that were judged or could not be read
    computed   {cell: what the readings give}
    findings   [{level, html, read, cells}], first the cells without which nothing can be worked, then
               by level, what the readings say before entries
    summary    one sentence for the status line
    result     the moment and the pole strength as HTML, or "";  put_right  the same with what stands out put
               right, or "".  What stands first in `findings` is the gravest
    paper      the page for the record book, as HTML
    """
    found = checked(_record(text))
    return page_answer(
        cells=_cells(found),
        computed={name: shown(cell_of(name).column, value) for name, value in found.values.items()},
        findings=_findings(found),
        summary=_summary(found),
        result=both(found.moments.result, "<br>") if found.moments else "",
        put_right=both(found.moments.corrected, ", ") if found.moments and found.moments.corrected else "",
        paper=paper(found),
    )


def _cells(found: Checked) -> dict[str, dict[str, object]]:
    cells: dict[str, dict[str, object]] = {}
    for name, text in found.problems.items():
        cells[name] = {"state": "ask", "text": text, "html": symbols(text), "read": ""}
    for name, v in found.verdicts.items():
        quiet = v.is_plain and not v.remarks
        text = " ".join((v.text, *v.remarks))
        cells[name] = {"state": v.state, "text": text, "html": symbols(text), "read": v.read, "quiet": quiet}
    for f in found.findings:
        for name in f.cells if f.key in ("misread", "incomplete") else ():
            cells.setdefault(name, {"state": "doubt", "text": "", "read": ""})
    position = found.record.position
    return {name: {**said, "label": cell_label(name, position)} for name, said in cells.items()}


def _findings(found: Checked) -> list[dict[str, object]]:
    def entry(level: Level, name: str, text: str, read: str) -> Finding:
        return Finding(level, "entry", f"{cell_label(name, found.record.position)}: {text}", read, (name,))

    unread = [entry("amiss", name, text, "") for name, text in found.problems.items() if not is_worked_out(name)]
    entries = [entry("amiss", name, text, "") for name, text in found.problems.items() if is_worked_out(name)]
    entries += [
        entry("amiss" if v.state != "right" else "look", name, v.text, v.read)
        for name, v in found.verdicts.items()
        if not v.is_plain
    ]
    said = sorted((*found.findings, *entries), key=lambda f: LEVELS.index(f.level))
    return [
        {"level": f.level, "html": symbols(f.text), "read": f.read, "cells": list(f.cells)} for f in (*unread, *said)
    ]


def _summary(found: Checked) -> str:
    """One sentence for the status line."""
    if not found.givens.rows:
        return "There is no distance that can be worked yet."
    judged = len(found.verdicts)
    right = sum(v.state == "right" for v in found.verdicts.values())
    said = f"{right} of {judged} entries right." if judged else "No column was filled in to be judged."
    grave = sum(f.level != "note" for f in found.findings)
    if not grave:
        more = "or the moments stands out" if found.moments else "stands out; there is no moment yet"
        return f"{said} Nothing in the readings {more}."
    return f"{said} {grave} thing{'s' if grave > 1 else ''} in the readings or the moments to look at."


def laboratory(lab: str, text: str) -> str:
    """The cells of a record's head that its laboratory fills, with notes, or a sentence that says why not.

    lab   a laboratory's code, as its address has it;  text  the record, which is JSON as `entries.as_plain` makes it
    """
    try:
        setting, head = read_setting(lab), _record(text).head
    except CodeError as error:
        return page_answer(ok=False, text=str(error))
    return page_answer(ok=True, cells=taken(setting, head), notes=notes_of(setting, head))


def open_file(data: str | bytes | FromBrowser, lab: str = "") -> str:
    """A record from the bytes of a file (or its text): the record and notes, or a sentence that says why not.

    lab  a laboratory's code, whose settings fill what the file does not say; "" for none
    """
    try:
        text = data if isinstance(data, str) else file.decode(bytes_of(data))
        opened = file.opened(text)
        record, notes = with_settings(opened.record, read_setting(lab) if lab else None)
    except (file.RecordError, CodeError) as error:
        return page_answer(ok=False, text=str(error))
    return page_answer(ok=True, record=as_plain(record), notes=[*opened.notes, *notes])


def save(text: str) -> str:
    """The record file of a record, as CSV text."""
    return page_answer(csv=file.written(_record(text)), name="record.csv")


def blank(position: str = "") -> str:
    """An empty record file for a position by its key; "" for tan A."""
    return page_answer(csv=file.blank(position=position_named(position) or TAN_A), name="blank-record.csv")

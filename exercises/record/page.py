"""What the page "Check a lab record" may ask of Python.  JSON text in, JSON text out; never an exception for input."""

import json

from exercises.kinds.sheet import symbols
from exercises.record import file
from exercises.record.check import Checked
from exercises.record.check import check as checked
from exercises.record.entries import Record, as_plain, from_plain, where
from exercises.record.instrument_findings import Finding
from exercises.record.paper import paper, shown


def _answer(**fields) -> str:
    return json.dumps(fields, ensure_ascii=False)


def _record(text: str) -> Record:
    try:
        return from_plain(json.loads(text))
    except (ValueError, RecursionError):
        return Record()


def check(text: str) -> str:
    """Everything found in a record, which is JSON as `entries.as_plain` makes it.

    cells      {cell: {state, text, read, quiet}} of the entries that were judged or could not be read
    computed   {cell: what the readings give}
    findings   [{level, text, read, cells}], unread cells and wrong entries first
    paper      the page for the record book, as HTML
    """
    record = _record(text)
    found = checked(record)
    return _answer(
        cells=_cells(found),
        computed={name: shown(_column(name), value) for name, value in found.values.items()},
        findings=_findings(found),
        summary=_summary(found),
        paper=paper(found),
    )


def _column(name: str) -> str:
    return "moment" if name == "mean-moment" else name.rsplit("-", 1)[0]


def _cells(found: Checked) -> dict[str, dict]:
    cells = {name: {"state": "ask", "text": text, "read": ""} for name, text in found.problems.items()}
    for name, v in found.verdicts.items():
        quiet = v.state == "right" and not v.remarks
        cells[name] = {"state": v.state, "text": " ".join((v.text, *v.remarks)), "read": v.read, "quiet": quiet}
    for f in found.findings:
        for name in f.cells if f.key == "misread" else ():
            cells.setdefault(name, {"state": "doubt", "text": "", "read": ""})
    return cells


def _findings(found: Checked) -> list[dict]:
    amiss = [(name, text, "") for name, text in found.problems.items()]
    amiss += [(name, v.text, v.read) for name, v in found.verdicts.items() if v.state != "right"]
    listed = [Finding("amiss", "entry", f"{where(name)}: {text}", read, (name,)) for name, text, read in amiss]
    return [
        {"level": f.level, "html": symbols(f.text), "read": f.read, "cells": list(f.cells)}
        for f in (*listed, *found.findings)
    ]


def _summary(found: Checked) -> str:
    """One sentence for the status line."""
    judged = len(found.verdicts)
    right = sum(v.state == "right" for v in found.verdicts.values())
    grave = sum(f.level != "note" for f in found.findings)
    said = f"{right} of {judged} entries right." if judged else "No column was filled in to be judged."
    if not found.rows:
        return "There is no distance that can be worked yet."
    things = (
        "Nothing in the readings or the moments stands out."
        if not grave
        else (f"{grave} thing{'s' if grave > 1 else ''} in the readings or the moments to look at.")
    )
    return f"{said} {things}"


def open_file(data) -> str:
    """A record from the bytes of a file (or its text): the record and notes, or a sentence that says why not."""
    try:
        if not isinstance(data, str):
            data = file.decode(bytes(data.to_py() if hasattr(data, "to_py") else data))
        opened = file.opened(data)
    except file.RecordError as error:
        return _answer(ok=False, text=str(error))
    return _answer(ok=True, record=as_plain(opened.record), notes=list(opened.notes))


def save(text: str) -> str:
    """The record file of a record, as CSV text."""
    return _answer(csv=file.written(_record(text)), name="record.csv")


def blank() -> str:
    """An empty record file."""
    return _answer(csv=file.blank(), name="blank-record.csv")

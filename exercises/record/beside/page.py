"""What the page for the bench may ask of Python.  JSON text in, JSON text out; never an exception for input."""

import json

from exercises.codes.sheet_code import CodeError, read_setting
from exercises.record import file
from exercises.record.beside.asked import asked
from exercises.record.beside.look import looked, step_of
from exercises.record.beside.order import Next, next_of, next_of_distances, plans
from exercises.record.beside.proposal import Proposal, proposed
from exercises.record.beside.settling import Settled, differs, settled, stop
from exercises.record.beside.warnings import Warned, all_alarms, problems_of, said_of
from exercises.record.beside.work import Work, work_of
from exercises.record.entries import READINGS, Record, as_plain, cell_of
from exercises.record.estimate import Result
from exercises.record.laboratory import notes_of, taken
from exercises.record.return_slip import is_record, record_of, record_slip
from exercises.record.said import stated
from exercises.return_slip.text import return_slips_in
from exercises.working.mathematics import symbols
from exercises.working.numbers import figures, places
from exercises.working.page_answer import page_answer
from exercises.working.words import listed, many


def _work(text: str) -> Work:
    try:
        return work_of(json.loads(text))
    except (ValueError, RecursionError):
        return work_of({})


def begin(text: str) -> str:
    """What is needed before the first reading.

    asked     [{cell, label, unit, kind, options, help, text, html, state, lacks}] in the order in which it is asked
    cells     the cells that the laboratory's settings fill, with notes;  trouble  why they could not be read, or ""
    complete  whether nothing lacks
    """
    work = _work(text)
    needed = asked(work)
    cells: dict[str, str] = {}
    notes: tuple[str, ...] = ()
    trouble = ""
    try:
        if work.lab:
            setting = read_setting(work.lab)
            cells, notes = taken(setting, work.record.head), notes_of(setting, work.record.head)
    except CodeError as error:
        trouble = str(error)
    return page_answer(
        asked=[one.plain() for one in needed],
        cells=cells,
        notes=notes,
        complete=not any(one.lacks for one in needed),
        trouble=trouble,
    )


def now(text: str, at: str = "") -> str:
    """How the work stands; `at` is the cell that was typed last, or "".

    next      what is to be read or chosen next, with what the hands do before it, or None
    plans     the eight places of the magnet, for a small plan
    said      what is to be said at once of that cell: {key, text, cells}, or None
    warnings  the same for every reading that does not go with those before it
    problems  a sentence for each cell of a distance or of the zero check that was not read
    propose   where to lay the magnet next, also before the zero check; None where a distance is begun
    rows      the distances so far;  result  what they come to, or None, with a sentence (HTML) in lacks
    settles   how the result has come about;  stop, enough  whether another distance is worth its readings
    """
    work = _work(text)
    found = looked(work, at)
    proposal = proposed(found)
    come_to = settled(found)
    end = stop(come_to, proposal, step_of(work.givens))
    return page_answer(
        next=_next(next_of(work)),
        plans=plans(),
        said=_warned(said_of(found, at)) if at else None,
        warnings=[_warned(w) for w in all_alarms(found)],
        problems=problems_of(found),
        propose=_proposed(next_of_distances(work), proposal),
        rows=_rows(work, come_to),
        result=_result(come_to, differs(come_to, end.enough)),
        lacks=symbols(_lacks(work, come_to)),
        settles=[{"distances": n, **_moment(result)} for n, result in come_to.steps],
        stop=end.text,
        enough=end.enough,
        read=len(work.all_readings()),
    )


def _next(coming: Next | None) -> dict[str, object] | None:
    return None if coming is None else coming._asdict()


def _warned(warned: Warned | None) -> dict[str, object] | None:
    return None if warned is None else warned._asdict()


def _proposed(coming: Next | None, proposal: Proposal) -> dict[str, str] | None:
    """Where to lay the magnet next, while that is what is asked."""
    if coming is None or cell_of(coming.cell).column != "d":
        return None
    return {"cell": coming.cell, "cm": proposal.shown, "text": proposal.text}


def _rows(work: Work, found: Settled) -> list[dict[str, object]]:
    """Each distance: d as typed, how many readings, and of a whole one its mean and its moment."""
    points = {p.number: p for p in found.points}
    distances: list[dict[str, object]] = []
    for i, row in enumerate(work.record.rows):
        readings = [x for x in work.readings(i) if x is not None]
        whole, p = work.is_whole(i), points.get(i + 1)
        distances.append(
            {
                "distance": i + 1,
                "d": row.d.strip(),
                "count": len(readings),
                "mean": f"{places(sum(readings) / len(READINGS), 2)}°" if whole else "",
                "moment": f"{figures(p.moment)} A·m²" if whole and p else "",
            }
        )
    return distances


def _moment(result: Result) -> dict[str, object]:
    m = result.moment
    return {"moment": stated(m, "A·m²"), "pole": stated(result.pole, "A·m"), "value": m.value, "U": m.U}


def _result(found: Settled, why: str) -> dict[str, object] | None:
    """What m and p come to; `why` says why they are less sure than before, or ""."""
    if found.result is None:
        return None
    of = _moment(found.result)
    after = many(len(found.points), "distance")
    if len(found.points) > found.count:
        after = f"{after}, the last not whole" if found.count else f"part of {after}"
    text = f"After {after}: m = {of['moment']}, p = {of['pole']}."
    return {**of, "distances": len(found.points), "text": f"{text} {why}".rstrip()}


def _lacks(work: Work, found: Settled) -> str:
    """Why there is no result yet, or ""."""
    if found.result is not None:
        return ""
    lacking = [name for name, there in (("2l", work.givens.two_l), ("B_H", work.givens.local.B_H)) if not there]
    if lacking:
        typed = "Go back to Givens: something that is typed there cannot be used. "
        wrong = typed if any(one.text for one in asked(work)) else ""
        return f"{wrong}Without {listed(lacking)} the readings give no moment yet. They can be taken all the same."
    return "The first reading gives a first moment."


def finish(text: str, number: int = 0, written: str = "") -> str:
    """The end of the work: the record as the record page keeps it, the record file, and the return slip.

    number, written  which of the return slips of records it is, and the date and hour, "2026-11-26 14:05"
    """
    work = _work(text)
    rows = tuple(row for row in work.record.rows if not row.empty)
    record = Record(work.record.head, rows)
    slip = record_slip(record, work.who, work.code or work.lab, work.zero, number, written)
    return page_answer(record=as_plain(record), csv=file.written(record), name="record.csv", slip=slip._asdict())


def open_slip(text: str) -> str:
    """The first record that a text holds as a return slip, or a sentence that says why there is none."""
    slips, problems = return_slips_in(text, "this text")
    handed = [record_of(slip) for slip in slips if is_record(slip)]
    if handed:
        first = handed[0]
        notes = [f"Left out, since they are none of a record: {listed(first.left_out)}."] if first.left_out else []
        return page_answer(
            ok=True, record=as_plain(first.record), zero=list(first.zero), who=first.who, code=first.code, notes=notes
        )
    said = problems[0].text if problems else "This is the return slip of a sheet. Here the slip of a record is opened."
    return page_answer(ok=False, text=said)

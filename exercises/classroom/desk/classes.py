"""Classes on the class desk: made or opened, shown, and given out as files.  Text in, JSON text out.

Every function answers with a JSON object; a fault of the input is an answer
with `ok` false, a sentence, and the control it is about, never an exception.
A class that is made or opened has a handle, `session`, by which it is asked
for (session.py).
"""

import json
from collections import Counter
from dataclasses import asdict, replace

from exercises.classroom.class_list import class_file
from exercises.classroom.class_list.alike import alike, alike_note, can_be_alike
from exercises.classroom.class_list.cells import rolls_of
from exercises.classroom.class_list.class_file import Class, class_text, read_class, tasks_from
from exercises.classroom.class_list.heading import heading_from
from exercises.classroom.class_list.packs import EXAMINATION, PACKS
from exercises.classroom.class_list.roster import look
from exercises.classroom.class_list.set_again import set_again as set_attempt
from exercises.classroom.class_list.tables import settings_addresses
from exercises.classroom.desk.list_preview import chosen
from exercises.classroom.desk.session import CLASSES, OpenClass, answering
from exercises.classroom.desk.sheets import around_sheet
from exercises.classroom.examination.mark_sheet import weights_from
from exercises.classroom.examination.readiness import as_dict as ready_dict
from exercises.classroom.examination.readiness import readiness_from
from exercises.classroom.marking.scheme import as_dict, from_dict
from exercises.codes.conventions import BY_KEY, in_words, words_of
from exercises.files.tables import lines
from exercises.files.text import FileError, FromBrowser, bytes_of, decode
from exercises.files.workbook import Written
from exercises.working.page_answer import page_answer

SHOWN = 6  # students in the preview


def file_text(raw: bytes | FromBrowser, name: str) -> str:
    """The text of a file's bytes, or a sentence that says why it has none."""
    try:
        return page_answer(ok=True, text=decode(bytes_of(raw)))
    except FileError as error:
        return page_answer(ok=False, control="", text=f"{name[:80]}: {error}")


@answering()
def make(controls: str) -> str:
    """A class from the controls of the page.

    controls  JSON: list (text), phrase, kinds (slugs), common ({word: text}), own ({slug: {word: text}}), site,
              columns, what was chosen of the list (see list_preview), or none, heading ({line: text}),
              ready ({"kinds": slugs, "percent": text}), weights ({part: text}), and marks, a scheme as the class
              file has it, or none
    """
    typed = json.loads(controls)
    found = look(typed["list"], chosen(typed["list"], typed.get("columns") or {}))
    tasks = tasks_from(typed["kinds"], typed["common"], typed["own"])
    scheme = from_dict(typed.get("marks") or {})
    heading = heading_from(typed.get("heading", {}))
    class_ = class_file.make(found.students, typed["phrase"], tasks, typed["site"], scheme, heading, found.separator)
    if "ready" in typed:
        class_ = replace(class_, ready=readiness_from(typed["ready"]["kinds"], typed["ready"]["percent"]))
    return _shown(replace(class_, weights=weights_from(typed.get("weights", {}))))


@answering("file")
def open_file(text: str) -> str:
    """A class from the text of its file."""
    class_ = read_class(text)
    return _shown(class_, controls=_controls(class_))


def _controls(class_: Class) -> dict[str, object]:
    """The controls of the page as they would be set for this class; see `make`."""
    named = any(s.name or s.section for s in class_.students)
    rows = (
        [("roll", "name", "section"), *class_.students] if named else [("roll",), *((s.roll,) for s in class_.students)]
    )
    words = {t.kind.slug: words_of(t.setting) for t in class_.tasks}
    first = next(iter(words.values()))
    alike = all(w == first for w in words.values())
    common = {key: "" if text == BY_KEY[key].usual else text for key, text in first.items()}
    return {
        "list": lines(rows, class_.separator).replace("\r\n", "\n"),
        "phrase": class_.phrase,
        "site": class_.site,
        "kinds": list(words),
        "common": common if alike else {},
        "own": {} if alike else words,
        "heading": asdict(class_.heading),
        "ready": ready_dict(class_.ready),
        "weights": dict(class_.weights),
    }


def _shown(class_: Class, controls: dict[str, object] | None = None) -> str:
    """What the page shows and keeps of a class, with the handle under which it is open from now on."""
    opened = OpenClass(class_)
    many = len(class_.students)
    sheets = many * len(class_.tasks)
    titles = ", ".join(t.kind.title for t in class_.tasks)
    return page_answer(
        ok=True,
        text=class_text(class_),
        students=many,
        sheets=sheets,
        kinds=[{"slug": t.kind.slug, "title": t.kind.title} for t in class_.tasks],
        settings=_settings(class_),
        rows=[[s.roll, s.name, [str(code) for _, code in assigned]] for s, assigned in opened.codes[:SHOWN]],
        more=max(0, many - SHOWN),
        says=f"{many:,} student{'s' if many > 1 else ''}, {sheets:,} sheet{'s' if sheets > 1 else ''}: {titles}.",
        site=class_.site,
        records=settings_addresses(class_.site, class_.tasks),
        alike=can_be_alike(class_),
        marks=as_dict(class_.scheme),
        attempts=[[n, len(opened.of_attempt(n))] for n in (1, *sorted({again.attempt for again in class_.again}))],
        given=controls,
        session=CLASSES.add(opened),
    )


def _settings(class_: Class) -> str:
    """What the laboratory fixed, in words: once, if it is the same for every kind."""
    said = {t.kind.listing.name: in_words(t.setting) for t in class_.tasks}
    if len(set(said.values())) == 1:
        return f"Settings: {next(iter(said.values()))}."
    return f"Settings: {'; '.join(f'{name}: {words}' for name, words in said.items())}."


@answering("again")
def set_again(session: str, attempt: str, rolls: str) -> str:
    """The class with one more attempt, with new numbers, for some students and every kind of the class.

    attempt  2 or more;  rolls  roll numbers as in a class list, such as “7, 9-12”; "" is every student
    """
    number = int(attempt) if attempt.isascii() and attempt.isdecimal() and len(attempt) < 6 else 0
    class_ = CLASSES[session].class_
    return _shown(set_attempt(class_, number, rolls_of(rolls, (student.roll for student in class_.students))))


@answering("")
def alike_in(session: str, start: int, stop: int, found: str) -> str:
    """Sheets whose slips cannot all be told apart, counted for the students from `start` up to `stop`.

    found  JSON, {kind: how many} of the students before; the answer has it with these added, and what is said of it
    """
    opened, counted = CLASSES[session], Counter(json.loads(found))
    for _, assigned in opened.codes[start:stop]:
        counted += alike(assigned)
    return page_answer(ok=True, found=counted, says=alike_note(opened.class_, counted))


@answering("")
def part(session: str, name: str, start: int, stop: int, css: str = "", attempt: int = 1, written: str = "") -> str:
    """A stretch of one of the class's files (see packs.PACKS), for the students from `start` up to `stop`.

    css      the notebook's style sheet; needed where start is 0
    attempt  of a later one, the students are those who were set something again
    written  of a workbook, what the answer before had as `written`; the last answer has what stands around the sheet
    """
    opened, pack = CLASSES[session], (PACKS | EXAMINATION)[name]
    codes = opened.of_attempt(attempt)
    pieces = [pack.head(opened.class_, css)] if start == 0 else []
    pieces += [pack.piece(opened.class_, student, assigned) for student, assigned in codes[start:stop]]
    if stop >= len(codes):
        pieces.append(pack.foot)
    text = "".join(pieces)
    if not name.endswith(".xlsx"):
        return page_answer(ok=True, text=text)
    sheet = Written(*json.loads(written or "[]")).and_then(text.encode())
    ends = around_sheet(sheet) if stop >= len(codes) else {}
    return page_answer(ok=True, text=text, written=json.dumps(sheet), **ends)


@answering()
def students(session: str) -> str:
    """Roll and name of each student, for choosing one."""
    return page_answer(ok=True, students=[[s.roll, s.name] for s in CLASSES[session].class_.students])

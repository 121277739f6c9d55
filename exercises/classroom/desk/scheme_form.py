"""The scheme of marks on the class desk: its controls, and what stands in them made a scheme.

Text in, JSON text out, as in classes.py.
"""

import json
from dataclasses import replace
from functools import cache
from html import escape
from typing import Any

from exercises.classroom.class_list.class_file import class_text
from exercises.classroom.desk.session import CLASSES, WORKS, OpenClass, Work, answering
from exercises.classroom.marking.scheme import Scheme, SchemeError, as_dict, columns_of, from_dict
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.kind import Kind, all_kinds, open_code
from exercises.working.mathematics import symbols
from exercises.working.page_answer import page_answer

#: The controls whose shares stand on the page in per cent: name, label, and what is behind the number.
SHARES = (
    ("follows", "Right working from a wrong start earns", "of the step’s mark"),
    ("figures", "Too few or too many figures take off", "of it"),
    ("units", "A unit left out takes off", "of it"),
)


@answering("")
def form(session: str) -> str:
    """The controls of the class's scheme, as HTML; `session` is the handle of the class."""
    class_ = CLASSES[session].class_
    scheme = class_.scheme
    shares = "".join(
        f'<div><label for="cd-{name}">{label}, in % {behind}</label>'
        f"{_field(name, _shown(100 * getattr(scheme, name)))}</div>"
        for name, label, behind in SHARES
    )
    attempts = "".join(
        f'<p class="cd-check"><input type="radio" name="attempt" id="cd-attempt-{value}" value="{value}"'
        f'{" checked" if scheme.attempt == value else ""}><label for="cd-attempt-{value}">{label}</label></p>'
        for value, label in (("first", "what was typed first"), ("last", "what was typed last"))
    )
    out_of = "" if scheme.out_of is None else _shown(scheme.out_of)
    columns = "".join(_columns(task.kind, scheme) for task in class_.tasks)
    html = (
        f'<div class="cd-two"><div><label for="cd-step_mark">Marks for each step</label>'
        f"{_field('step_mark', _shown(scheme.step_mark))}</div>"
        '<div><label for="cd-out_of">Scale each sheet to a total of (blank: as it comes)</label>'
        f"{_field('out_of', out_of)}</div>{shares}</div>"
        f'<fieldset class="cd-attempt"><legend>What is marked</legend>{attempts}</fieldset>'
        f'<details class="cd-own"{" open" if scheme.columns else ""}><summary>Other marks for single steps</summary>'
        f'<p class="cd-note">A blank one has the mark of each step.</p>{columns}</details>'
    )
    return page_answer(ok=True, html=html)


def _shown(number: float) -> str:
    """A number so that, typed again, it is the same."""
    return f"{number:.12g}"


def _field(name: str, value: str) -> str:
    return (
        f'<input type="text" inputmode="decimal" autocomplete="off" id="cd-{name}" name="{name}" value="{value}" '
        'aria-describedby="cd-marks-wrong">'
    )


def _columns(kind: Kind, scheme: Scheme) -> str:
    marks = dict(scheme.columns)
    fields = ""
    for column, title in _titles(kind.slug).items():
        name = f"{kind.slug}/{column}"
        field = _field(name, _shown(marks[name]) if name in marks else "")
        fields += f'<div><label for="cd-{name}">{symbols(title)}</label>{field}</div>'
    return f'<fieldset class="cd-columns"><legend>{escape(kind.title)}</legend>{fields}</fieldset>'


@cache
def _titles(slug: str) -> dict[str, str]:
    """What the sheet calls each of the steps that can have a mark of its own."""
    kind = all_kinds()[slug]
    steps = open_code(str(SheetCode(kind.letter, kind.edition, 0))).working.steps
    return {column: next((s.title for s in steps if s.column == column), column) for column in columns_of(slug)}


@answering()
def with_scheme(session: str, controls: str, work: str = "") -> str:
    """The class marked as the controls say, and the work that came in for it, each with the handle it then has.

    controls  JSON, {name: what stands in it};  work  the handle of the work, or "" where none has come in
    """
    opened = CLASSES[session]
    scheme = _scheme(json.loads(controls))
    if scheme == opened.class_.scheme:
        class_ = opened.class_
    else:
        class_ = replace(opened.class_, scheme=scheme)
        session = CLASSES.add(OpenClass(class_))
        work = WORKS.add(Work(class_, WORKS[work].intake)) if work else ""
    return page_answer(ok=True, text=class_text(class_), marks=as_dict(scheme), session=session, work=work)


def _scheme(controls: dict[str, str]) -> Scheme:
    """The scheme of the controls.  SchemeError, with a sentence, if one of them cannot be used."""
    labels = {name: label for name, label, _ in SHARES} | {"step_mark": "Marks for each step", "out_of": "The total"}
    found: dict[str, Any] = {"columns": {}}
    for name, typed in controls.items():
        if not typed.strip():
            if name in ("out_of", "attempt") or "/" in name:
                continue
            raise SchemeError(f"“{labels.get(name, name[:40])}” is blank. Type a number.")
        if name == "attempt":
            found[name] = typed
            continue
        slug, _, column = name.partition("/")
        label = labels.get(name) or (slug in all_kinds() and _titles(slug).get(column)) or name[:40]
        number = _number(typed, label)
        if "/" in name:
            found["columns"][name] = number
        else:
            found[name] = _share(number, label) if name in [share for share, *_ in SHARES] else number
    return from_dict(found)


def _number(typed: str, label: str) -> float:
    try:
        return float(typed.strip().rstrip("%").strip().replace(",", ".").replace("½", ".5"))
    except ValueError:
        raise SchemeError(f"“{label}”: “{typed.strip()[:40]}” is not a number.") from None


def _share(percent: float, label: str) -> float:
    if not 0 <= percent <= 100:
        raise SchemeError(f"“{label}” must be from 0 to 100 %.")
    return round(percent / 100, 6)

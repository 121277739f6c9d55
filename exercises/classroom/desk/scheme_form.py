"""The scheme of marks on the class desk: its controls, and what stands in them made a scheme.

Text in, JSON text out, as in classes.py.
"""

import json
from dataclasses import replace
from functools import cache
from html import escape
from typing import Any

from exercises.classroom.class_list.class_file import Class, class_text
from exercises.classroom.desk.session import CLASSES, WORKS, OpenClass, Work, answering
from exercises.classroom.marking.scheme import Scheme, SchemeError, as_dict, columns_of, from_dict
from exercises.classroom.marking.scheme_text import put, shown_share
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.kind import Kind, all_kinds, sheet_of
from exercises.working.mathematics import symbols
from exercises.working.page_answer import page_answer

#: The controls whose shares stand on the page in per cent: name, label, and what is behind the number.
SHARES = (
    ("follows", "Right working from a wrong start earns", "of the step’s mark"),
    ("figures", "Too few or too many figures take off", "of it"),
    ("units", "A unit left out takes off", "of it"),
)
LATE = (
    ("late", "Each day late, or part of a day, takes off", "of the sheet’s mark"),
    ("late_most", "Being late takes off at most", "of it"),
)
#: The controls with choices: name, legend, and each choice with its label.
CHOICES = (
    ("attempt", "What is marked of a step", (("first", "what was typed first"), ("last", "what was typed last"))),
    (
        "which",
        "Which of several return slips of one sheet counts",
        (("first", "the first"), ("last", "the last"), ("best", "the best")),
    ),
    (
        "missing",
        "What a sheet is that was not handed in",
        (("zero", "nought"), ("blank", "blank, and so is the total"), ("excused", "excused: the rest makes up for it")),
    ),
)
ATTEMPTS = (
    "attempts",
    "Which of several attempts with new numbers counts",
    (("first", "the first"), ("last", "the last"), ("best", "the best")),
)
NEEDED = ("step_mark", *(name for name, *_ in (*SHARES, *LATE)))


@answering("")
def form(session: str) -> str:
    """The controls of the class's scheme, as HTML; `session` is the handle of the class."""
    class_ = CLASSES[session].class_
    scheme = class_.scheme
    choices = "".join(_choices(scheme, *choice) for choice in (*CHOICES, *([ATTEMPTS] if class_.again else [])))
    out_of = "" if scheme.out_of is None else _shown(scheme.out_of)
    columns = "".join(_columns(task.kind, scheme) for task in class_.tasks)
    html = (
        f'<div class="cd-two"><div><label for="cd-step_mark">Marks for each step</label>'
        f"{_field('step_mark', _shown(scheme.step_mark))}</div>"
        '<div><label for="cd-out_of">Every sheet is out of (blank: the most that one of its kind can earn)</label>'
        f"{_field('out_of', out_of)}</div>{_shares(scheme, SHARES)}</div>{choices}"
        f"{_by_kind(class_, scheme)}{_deadlines(class_, scheme)}"
        f'<details class="cd-own"{" open" if scheme.columns else ""}><summary>Other marks for single steps</summary>'
        '<p class="cd-note">A step left blank has what stands at the top under “Marks for each step”.</p>'
        f"{columns}</details>"
    )
    return page_answer(ok=True, html=html)


def _shares(scheme: Scheme, shares: tuple[tuple[str, str, str], ...]) -> str:
    return "".join(
        f'<div><label for="cd-{name}">{label}, in % {behind}</label>'
        f"{_field(name, shown_share(getattr(scheme, name)))}</div>"
        for name, label, behind in shares
    )


def _choices(scheme: Scheme, name: str, legend: str, choices: tuple[tuple[str, str], ...]) -> str:
    buttons = "".join(
        f'<p class="cd-check"><input type="radio" name="{name}" id="cd-{name}-{value}" value="{value}"'
        f'{" checked" if getattr(scheme, name) == value else ""}><label for="cd-{name}-{value}">{label}</label></p>'
        for value, label in choices
    )
    return f'<fieldset class="cd-attempt"><legend>{legend}</legend>{buttons}</fieldset>'


def _by_kind(class_: Class, scheme: Scheme) -> str:
    """What every sheet of each kind is out of."""
    weights = dict(scheme.weights)
    fields = "".join(
        f'<div><label for="cd-weight:{task.kind.slug}">{escape(task.kind.title)}</label>'
        + _field(f"weight:{task.kind.slug}", _shown(weights[task.kind.slug]) if task.kind.slug in weights else "")
        + "</div>"
        for task in class_.tasks
    )
    return (
        f'<details class="cd-own"{" open" if weights else ""}><summary>Weights: what the sheets of each kind are out of'
        '</summary><p class="cd-note">A kind left blank is out of what stands above.</p>'
        f'<div class="cd-columns">{fields}</div></details>'
    )


def _deadlines(class_: Class, scheme: Scheme) -> str:
    """The deadlines of all kinds, of each, and of later attempts, and what being late costs."""
    own = dict(scheme.deadlines)
    names = [(t.kind.slug, t.kind.title) for t in class_.tasks] if len(class_.tasks) > 1 else []
    titles = {task.kind.slug: task.kind.title for task in class_.tasks}
    names += [
        (f"{again.kind}:{again.attempt}", f"{titles[again.kind]}, attempt {again.attempt}") for again in class_.again
    ]
    fields = "".join(
        f'<div><label for="cd-deadline:{name}">{escape(title)}</label>'
        f"{_text(f'deadline:{name}', own.get(name, ''))}</div>"
        for name, title in names
    )
    opened = " open" if scheme.deadline or own else ""
    return (
        f'<details class="cd-own"{opened}><summary>Deadline, and what being late costs</summary><div class="cd-two">'
        '<div><label for="cd-deadline">Due on (such as 2026-11-20 17:00; blank: no deadline)</label>'
        f"{_text('deadline', scheme.deadline)}</div>"
        '<div><label for="cd-zone">Your clock is ahead of UTC by (such as +05:30), for the dates of mails</label>'
        f"{_text('zone', scheme.zone)}</div>{_shares(scheme, LATE)}</div>"
        + (f'<p class="cd-note">Other deadlines:</p><div class="cd-columns">{fields}</div>' if fields else "")
        + "</details>"
    )


def _shown(number: float) -> str:
    """A number so that, typed again, it is the same."""
    return f"{number:.12g}"


def _field(name: str, value: str) -> str:
    return _text(name, value, ' inputmode="decimal"')


def _text(name: str, value: str, more: str = "") -> str:
    return (
        f'<input type="text"{more} autocomplete="off" id="cd-{name}" name="{name}" value="{value}" '
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
    steps = sheet_of(SheetCode(kind.letter, kind.edition, 0)).working.steps
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
        work = WORKS.add(Work(class_, replace(WORKS[work].file, scheme=scheme))) if work else ""
    return page_answer(ok=True, text=class_text(class_), marks=as_dict(scheme), session=session, work=work)


def _scheme(controls: dict[str, str]) -> Scheme:
    """The scheme of the controls.  SchemeError, with a sentence, if one of them cannot be used."""
    labels = {name: label for name, label, _ in (*SHARES, *LATE)}
    labels |= {"step_mark": "Marks for each step", "out_of": "The total"}
    found: dict[str, Any] = {}
    for name, typed in controls.items():
        slug, _, column = name.partition("/")
        label = labels.get(name) or (slug in all_kinds() and _titles(slug).get(column)) or name[:40]
        if not typed.strip() and name in NEEDED:
            raise SchemeError(f"“{label}” is blank. Type a number.")
        put(found, name, typed, label)
    return from_dict(found)

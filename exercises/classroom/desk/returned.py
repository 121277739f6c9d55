"""Returned work on the class desk: return slips found in what came in, set against the class, or typed in from paper.

Text in, JSON text out, as in classes.py.  `session` is the handle of a class (session.py).
"""

import json
from collections import Counter
from collections.abc import Sequence
from dataclasses import asdict, replace
from html import escape

from exercises.classroom.class_list.class_file import Assigned, Class, ClassError
from exercises.classroom.class_list.roster import Student
from exercises.classroom.desk.session import CLASSES, FILES, WORKS, Work, answering
from exercises.classroom.marking.by_hand import ByHand, checked, from_lists
from exercises.classroom.marking.marks_file import MarksFile, begun, joined
from exercises.classroom.marking.typed_in import is_typed_in, typed_in
from exercises.files.text import FromBrowser, bytes_of
from exercises.kinds.kind import Sheet, open_code
from exercises.return_slip.files import NoText, text_of
from exercises.return_slip.lines import Problem, ReturnSlip
from exercises.return_slip.text import ReturnSlipError, return_slip_text, return_slips_in
from exercises.working.mathematics import spoken, symbols
from exercises.working.page_answer import page_answer
from exercises.working.quantities import quantity
from exercises.working.steps import Step

SHOWN = 200  # students missing, and problems, that are listed on the page; the tables have all


def _found(slips: Sequence[ReturnSlip], problems: Sequence[Problem], told: str = "") -> str:
    """What was found in something that came in.

    told  what is said of the first problem beside the control; with "" that is its text with its source before it
    """
    found = {"slips": [asdict(s) for s in slips], "problems": [asdict(p) for p in problems]}
    if not problems:
        return page_answer(ok=True, **found)
    return page_answer(ok=True, **found, told=told or f"{problems[0].source}: {problems[0].text}")


@answering("")
def return_slips_of_text(session: str, source: str, text: str) -> str:
    """The return slips in what was handed in for a class, and what could not be used.

    text  any text with return slips in it, or a table of answers copied from paper (typed_in.py)
    """
    if is_typed_in(text):
        return _found(*typed_in(text, CLASSES[session].class_, source))
    return _found(*return_slips_in(text, source))


@answering("")
def return_slips_of_file(session: str, raw: bytes | FromBrowser, name: str) -> str:
    """`return_slips_of_text` of a file's bytes.  One without text is a problem with a sentence, as in `eight mark`."""
    try:
        text = text_of(bytes_of(raw), name)
    except NoText as error:
        return _found([], [Problem(name, "", "", str(error))], str(error))
    return return_slips_of_text(session, name, text)


@answering("")
def take_in(session: str, returned: str, before: str = "", by_hand: str = "") -> str:
    """What has come in, as HTML, how many sheets can be marked, and the handle of this work, `work`.

    returned  JSON: slips and problems, all that `return_slips_of_text` and the others found
    before    the handle of the marks file that they join (marks_file.open_file), or ""
    by_hand   JSON, as by_hand.as_lists has it: what is set by hand now; "" is what the marks file has
    """
    found = json.loads(returned)
    slips = [ReturnSlip(**s) for s in found["slips"]]
    problems = [Problem(**{**p, "slip": p["slip"] and ReturnSlip(**p["slip"])}) for p in found["problems"]]
    class_ = CLASSES[session].class_
    file, gained = joined(_begun(class_, before, by_hand), slips, problems)
    work = Work(class_, file)
    intake = work.intake
    handed = Counter(h.task.kind.slug for h in intake.handed)
    rows = "".join(
        f'<tr><th scope="row">{escape(t.kind.title)}</th><td>{handed[t.kind.slug]:,}</td>'
        f"<td>{len(class_.students) - handed[t.kind.slug]:,}</td></tr>"
        for t in class_.tasks
    )
    table = (
        '<table class="cd-table"><caption>What has come in</caption><thead><tr><th scope="col">kind</th>'
        f'<th scope="col">handed in</th><th scope="col">missing</th></tr></thead><tbody>{rows}</tbody></table>'
    )
    missing = folded("Missing", [f"{shown_student(student)}: {escape(t.kind.title)}" for student, t in intake.missing])
    unused = folded("What cannot be marked, and why", [_problem(p) for p in intake.problems], opened=True)
    return page_answer(
        ok=True,
        html=table + unused + missing,
        handed=len(intake.handed),
        problems=len(intake.problems),
        gained=gained.text if before else "",
        work=WORKS.add(work),
    )


def _begun(class_: Class, before: str, by_hand: str) -> MarksFile:
    """The marks file that is open, or a new one, with what is set by hand now and the scheme that the class has now."""
    file = replace(FILES[before], scheme=class_.scheme) if before else begun(class_)
    if not by_hand:
        return file
    entries = from_lists(json.loads(by_hand)).entries
    return replace(file, by_hand=ByHand(checked(entries, class_, fresh=False)))


def folded(title: str, lines: list[str], opened: bool = False) -> str:
    """A folded list of HTML lines with their number, the first SHOWN of them; "" if there are none."""
    if not lines:
        return ""
    rest = f"<li>and {len(lines) - SHOWN:,} more</li>" if len(lines) > SHOWN else ""
    items = "".join(f"<li>{line}</li>" for line in lines[:SHOWN])
    many = f"{title} ({len(lines):,})"
    return (
        f'<details{" open" if opened else ""}><summary>{many}</summary><ul class="cd-list">{items}{rest}</ul></details>'
    )


def _problem(problem: Problem) -> str:
    about = " · ".join(escape(part) for part in (problem.source, problem.who, problem.code) if part)
    return f"<strong><bdi>{about}</bdi></strong> {escape(problem.text)}"


def shown_student(student: Student) -> str:
    """A student as HTML."""
    return f"<bdi>{escape(' '.join(student).strip())}</bdi>"


# ---- work that came on paper ------------------------------------------------


def _assigned(session: str, name: str, slug: str) -> tuple[Student, Assigned]:
    """A student of the class, by roll or name, with the task of a kind.  ClassError if there is none."""
    opened = CLASSES[session]
    student, assigned = opened.codes[opened.student(name)]
    for task, code in assigned:
        if task.kind.slug == slug:
            return student, (task, code)
    raise ClassError("That kind of exercise is not set in this class. Choose another.", "student")


@answering("who")
def paper(session: str, name: str, slug: str) -> str:
    """The form in which a sheet's answers are typed in; `name` is a roll, or the name of one student alone."""
    student, (task, code) = _assigned(session, name, slug)
    try:
        sheet = open_code(str(code))
    except ArithmeticError:
        told = "With the settings of this class that sheet has no consistent numbers."
        raise ClassError(told, "student") from None
    return page_answer(ok=True, html=_form(student, sheet), roll=student.roll, kind=slug, code=str(code))


def _form(student: Student, sheet: Sheet) -> str:
    groups = "".join(
        f"<fieldset><legend>{symbols(group.heading)}</legend>{''.join(map(_entry, group.steps))}</fieldset>"
        for group in sheet.kind.page.groups(sheet.scenario, sheet.working)
    )
    return (
        f'<p class="cd-paper-head"><strong>{shown_student(student)}</strong>, {escape(sheet.kind.title)}, sheet '
        f'<span class="cd-code">{sheet.scenario.code}</span></p>{groups}'
        '<p class="cd-tools"><button type="submit">Add these answers</button></p>'
    )


def _entry(step: Step) -> str:
    about = f'id="cd-step-{step.id}" name="{step.id}"'
    if step.choices:
        options = "".join(f'<option value="{escape(key)}">{spoken(label)}</option>' for key, label, _ in step.choices)
        field = f'<select {about}><option value="">none</option>{options}</select>'
    else:
        field = f'<input {about} type="text" autocomplete="off" autocapitalize="off" spellcheck="false">'
    unit = f" <small>in {symbols(u)}</small>" if (u := quantity(step.quantity).shown) else ""
    return f'<div><label for="cd-step-{step.id}">{symbols(step.title)}{unit}</label>{field}</div>'


@answering("who")
def from_paper(session: str, roll: str, slug: str, entries: str) -> str:
    """The return slip of answers typed in from paper, as the student's own page would have made it."""
    student, (task, code) = _assigned(session, roll, slug)
    typed = {step: answer.strip() for step, answer in json.loads(entries).items() if answer.strip()}
    if not typed:
        raise ClassError("No answer was typed in. Type at least one, or leave this student out.", "student")
    source = f"On paper: {' '.join(student).strip()}, {task.kind.title}"
    try:
        text = return_slip_text(ReturnSlip(student.roll, str(code), typed, {}))
    except ReturnSlipError as error:
        raise ClassError(str(error), "student") from error
    slips, problems = return_slips_in(text, source)
    return page_answer(ok=True, name=source, slips=[asdict(s) for s in slips], problems=[asdict(p) for p in problems])

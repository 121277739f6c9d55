"""Returned work on the class desk: slips found in what came in, set against the class, or typed in from paper.

Text in, JSON text out, as in desk.py.
"""

import json
import re
from collections import Counter
from dataclasses import asdict
from functools import lru_cache
from html import escape

from exercises.classroom.class_list.class_file import ClassError
from exercises.classroom.class_list.codes import PhraseError
from exercises.classroom.class_list.roster import Student
from exercises.classroom.desk.desk import Open, answer, bytes_of, open_text, refusal
from exercises.classroom.marking.copies import Copies
from exercises.classroom.marking.intake import Intake
from exercises.classroom.marking.intake import take_in as taken_in
from exercises.classroom.marking.typed_in import typed_in
from exercises.kinds.kind import open_code
from exercises.kinds.sheet import symbols
from exercises.return_slip.files import text_of
from exercises.return_slip.text import Problem, ReturnSlip, SlipError, found_in, written
from exercises.working.quantities import quantity

SHOWN = 200  # students missing, and problems, that are listed on the page; the tables have all


def slips_of_text(text: str, source: str, given: str) -> str:
    """The slips in what was handed in for a class, and what could not be used.

    text  the class;  given  any text with slips in it, or a table of answers copied from paper (typed_in.py)
    """
    first = re.split(r"[\t;,]", given.lstrip("\ufeff\r\n").partition("\n")[0][:1000].casefold().replace('"', ""))
    try:
        if {"step", "answer"} <= {cell.strip() for cell in first}:
            slips, problems = typed_in(given, open_text(text).made, source)
        else:
            slips, problems = found_in(given, source)
    except (ClassError, PhraseError) as error:
        return refusal(error)
    return answer(ok=True, slips=[asdict(s) for s in slips], problems=[asdict(p) for p in problems])


def slips_of_file(text: str, raw, name: str) -> str:
    """`slips_of_text` of a file's bytes; one without text is among what could not be used, as `eight mark` has it."""
    try:
        return slips_of_text(text, name, text_of(bytes_of(raw), name))
    except ValueError as error:
        return answer(ok=True, slips=[], problems=[asdict(Problem(name, "", "", str(error)))])


class Work:
    """A class with what came in for it."""

    def __init__(self, opened: Open, returned: str):
        found = json.loads(returned)
        slips = [ReturnSlip(**s) for s in found["slips"]]
        problems = [Problem(**{**p, "slip": p["slip"] and ReturnSlip(**p["slip"])}) for p in found["problems"]]
        self.made = opened.made
        self.intake: Intake = taken_in(opened.made, slips, problems)
        self.problems: list[Problem] = list(self.intake.problems)  # and those found in marking
        self.copies = Copies()  # of what is marked
        self.marked: dict[int, object] = {}  # place in intake.handed -> Marked, or None where it cannot be


@lru_cache(maxsize=2)
def work_of(text: str, returned: str) -> Work:
    """The work of a class, kept while neither changes."""
    return Work(open_text(text), returned)


def take_in(text: str, returned: str) -> str:
    """What has come in, as HTML, and how many sheets can be marked."""
    intake, made = work_of(text, returned).intake, open_text(text).made
    handed = Counter(h.task.kind.slug for h in intake.handed)
    rows = "".join(
        f'<tr><th scope="row">{escape(t.kind.title)}</th><td>{handed[t.kind.slug]:,}</td>'
        f"<td>{len(made.students) - handed[t.kind.slug]:,}</td></tr>"
        for t in made.tasks
    )
    table = (
        '<table class="cd-table"><caption>What has come in</caption><thead><tr><th scope="col">kind</th>'
        f'<th scope="col">handed in</th><th scope="col">missing</th></tr></thead><tbody>{rows}</tbody></table>'
    )
    missing = folded("Missing", [f"{who(student)}: {escape(task.kind.title)}" for student, task in intake.missing])
    problems = folded("What cannot be marked, and why", [_problem(p) for p in intake.problems], opened=True)
    return answer(ok=True, html=table + problems + missing, handed=len(intake.handed), problems=len(intake.problems))


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


def who(student: Student) -> str:
    """A student as HTML."""
    return f"<bdi>{escape(' '.join(student).strip())}</bdi>"


# ---- work that came on paper ------------------------------------------------


def _sheet(text: str, name: str, slug: str):
    """Student, task, code, kind, scenario and working of one sheet of the class.  ClassError if there is none."""
    opened = open_text(text)
    student, given = opened.codes[opened.student(name)]
    task, code = next(((t, c) for t, c in given if t.kind.slug == slug), (None, None))
    if task is None:
        raise ClassError("That kind of exercise is not set in this class. Choose another.")
    try:
        return student, task, code, *open_code(str(code))
    except ArithmeticError:
        raise ClassError("With the settings of this class that sheet has no consistent numbers.") from None


def paper(text: str, name: str, slug: str) -> str:
    """The form in which a sheet's answers are typed in; `name` is a roll, or the name of one student alone."""
    try:
        student, task, code, kind, scenario, working = _sheet(text, name, slug)
    except (ClassError, PhraseError) as error:
        return refusal(error, "who")
    groups = "".join(
        f"<fieldset><legend>{escape(title)}</legend>{''.join(map(_entry, steps))}</fieldset>"
        for title, steps in kind.page.groups(scenario, working)
    )
    html = (
        f'<p class="cd-paper-head"><strong>{who(student)}</strong>, {escape(kind.title)}, sheet '
        f'<span class="cd-code">{code}</span></p>{groups}'
        '<p class="cd-tools"><button type="submit">Add these answers</button></p>'
    )
    return answer(ok=True, html=html, roll=student.roll, kind=slug, code=str(code))


def _entry(step) -> str:
    about = f'id="cd-step-{step.id}" name="{step.id}"'
    if step.choices:
        options = "".join(f'<option value="{escape(key)}">{escape(label)}</option>' for key, label, _ in step.choices)
        field = f'<select {about}><option value="">none</option>{options}</select>'
    else:
        field = f'<input {about} type="text" autocomplete="off" autocapitalize="off" spellcheck="false">'
    unit = f" <small>in {escape(u)}</small>" if (u := quantity(step.quantity).shown) else ""
    return f'<div><label for="cd-step-{step.id}">{symbols(step.title)}{unit}</label>{field}</div>'


def from_paper(text: str, roll: str, slug: str, entries: str) -> str:
    """The slip of answers typed in from paper, as the student's own page would have made it."""
    try:
        student, task, code, *_ = _sheet(text, roll, slug)
        typed = {step: given.strip() for step, given in json.loads(entries).items() if given.strip()}
        if not typed:
            raise ClassError("No answer was typed in. Type at least one, or leave this student out.")
        source = f"On paper: {' '.join(student).strip()}, {task.kind.title}"
        slips, problems = found_in(written(ReturnSlip(student.roll, str(code), typed, {})), source)
    except (ClassError, PhraseError, SlipError) as error:
        return refusal(error, "who")
    return answer(ok=True, name=source, slips=[asdict(s) for s in slips], problems=[asdict(p) for p in problems])

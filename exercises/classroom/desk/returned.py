"""Returned work on the class desk: return slips found in what came in, set against the class, or typed in.

Text in, JSON text out, as in classes.py.  `session` is the handle of a class (session.py).
"""

import json
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import asdict, replace
from html import escape

from exercises.classroom.class_list.class_file import Assigned, Class, ClassError
from exercises.classroom.class_list.roster import Student
from exercises.classroom.desk.choices import choices, records
from exercises.classroom.desk.folded import SHOWN as SHOWN
from exercises.classroom.desk.folded import folded as folded
from exercises.classroom.desk.folded import shown_student as shown_student
from exercises.classroom.desk.session import CLASSES, FILES, WORKS, Work, answering
from exercises.classroom.marking.by_hand import ByHand, Counted, checked, from_lists
from exercises.classroom.marking.marks_file import MarksFile, begun, joined
from exercises.classroom.marking.typed_in import is_typed_in, typed_in
from exercises.files.text import FromBrowser, bytes_of
from exercises.kinds.kind import Sheet, sheet_of
from exercises.return_slip.files import Letter, NoText, letters_of
from exercises.return_slip.lines import Problem, ReturnSlip
from exercises.return_slip.text import ReturnSlipError, return_slip_text, return_slips_in, slips_of_letters
from exercises.working.mathematics import spoken, symbols
from exercises.working.page_answer import page_answer
from exercises.working.quantities import quantity
from exercises.working.steps import Step
from exercises.working.words import many


def _found(slips: Sequence[ReturnSlip], problems: Sequence[Problem]) -> str:
    """What was found in something that came in, and what is said beside the control of the first problem."""
    found = {"slips": [asdict(s) for s in slips], "problems": [asdict(p) for p in problems]}
    if not problems:
        return page_answer(ok=True, **found)
    return page_answer(ok=True, **found, told=f"{problems[0].source[:80]}: {problems[0].text}")


@answering("")
def return_slips_of_text(session: str, source: str, text: str) -> str:
    """The return slips in what was handed in for a class, and what could not be used.

    text  any text with return slips in it, or a table of answers copied from paper (typed_in.py)
    """
    return _slips_of([Letter(text)], CLASSES[session].class_, source)


def _slips_of(letters: Sequence[Letter], class_: Class, source: str) -> str:
    if is_typed_in(letters[0].text):
        return _found(*typed_in(letters[0].text, class_, source))
    return _found(*slips_of_letters(letters, source))


@answering("")
def return_slips_of_file(session: str, raw: bytes | FromBrowser, name: str) -> str:
    """`return_slips_of_text` of a file's bytes.  One without text is a problem with a sentence, as in `eight mark`."""
    try:
        letters = letters_of(bytes_of(raw), name)
    except NoText as error:
        return _found([], [Problem(name, "", "", str(error))])
    return _slips_of(letters, CLASSES[session].class_, name)


@answering("")
def take_in(session: str, returned: str, before: str = "", by_hand: str = "") -> str:
    """What has come in, as HTML, how many sheets can be marked, and the handle of this work, `work`.

    returned  JSON: slips and problems, all that `return_slips_of_text` and the others found, and choices: which of
              several slips counts (several.Choices), "" to leave it to the scheme
    before    the handle of the marks file that they join (marks_file.open_file), or ""
    by_hand   JSON, as by_hand.as_lists has it: what is set by hand now; "" is what the marks file has
    """
    found = json.loads(returned)
    slips = [ReturnSlip(**s) for s in found["slips"]]
    problems = [Problem(**{**p, "slip": p["slip"] and ReturnSlip(**p["slip"])}) for p in found["problems"]]
    class_ = CLASSES[session].class_
    file, gained = joined(_begun(class_, before, by_hand, found.get("choices", {})), slips, problems)
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
    told = [_problem(problem) for problem in intake.problems if not problem.one_of_all]
    unused = folded("What is not marked, and why", told, opened=True)
    return page_answer(
        ok=True,
        html=table + choices(intake.several) + records(intake.records, class_) + unused + missing,
        handed=len(intake.handed),
        questions=len(intake.questions),
        records=len(intake.records),
        problems=len(intake.problems),
        gained=gained.text if before else "",
        work=WORKS.add(work),
    )


def _begun(class_: Class, before: str, by_hand: str, choices: Mapping[str, str]) -> MarksFile:
    """The marks file that is open, or a new one, with the scheme that the class has now and what is set by hand now."""
    file = replace(FILES[before], scheme=class_.scheme) if before else begun(class_)
    hand = file.by_hand
    if by_hand:
        hand = ByHand(checked(from_lists(json.loads(by_hand)).entries, class_, fresh=False))
    for key, which in choices.items():
        chosen = Counted(key, which)
        hand = hand.plus(chosen) if which else hand.minus(chosen)
    return replace(file, by_hand=hand)


def _problem(problem: Problem) -> str:
    about = " · ".join(escape(part) for part in (problem.source, problem.who, problem.code) if part)
    return f"<strong><bdi>{about}</bdi></strong> {escape(problem.text)}"


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
def paper(session: str, name: str, slug: str, work: str = "") -> str:
    """The form in which a sheet's answers are typed in, with what is there now, which `now` has by step.

    name  a roll, or the name of one student alone;  work  the handle of what has come in, or ""
    """
    student, (task, code) = _assigned(session, name, slug)
    try:
        sheet = sheet_of(code)
    except ArithmeticError:
        told = "With the settings of this class that sheet has no consistent numbers."
        raise ClassError(told, "student") from None
    handed = WORKS[work].intake.handed if work else ()
    there = next((one.return_slip for one in handed if str(one.code) == str(code)), None)
    now = {} if there is None else dict(there.answers)
    html = _form(student, sheet, there)
    return page_answer(ok=True, html=html, roll=student.roll, kind=slug, code=str(code), now=now)


def _form(student: Student, sheet: Sheet, there: ReturnSlip | None) -> str:
    """The form of a sheet, with what has come in for it, if anything has."""
    answers, firsts = (there.answers, there.firsts) if there else ({}, {})
    groups = "".join(
        f"<fieldset><legend>{symbols(group.heading)}</legend>"
        + "".join(_entry(step, answers.get(step.id, ""), firsts.get(step.id, "")) for step in group.steps)
        + "</fieldset>"
        for group in sheet.kind.page.groups(sheet.scenario, sheet.working)
    )
    about = "Nothing has come in for this sheet yet."
    if there:
        about = (
            f"In the form stand the {many(len(answers), 'answer')} that came in ({escape(there.source)}). What you "
            "change takes the place of the student’s answer, and the marks and the student’s page say so."
        )
    return (
        f'<p class="cd-paper-head"><strong>{shown_student(student)}</strong>, {escape(sheet.kind.title)}, sheet '
        f'<span class="cd-code">{sheet.scenario.code}</span></p><p class="cd-note">{about}</p>{groups}'
        '<p class="cd-tools"><button type="submit">Add these answers</button></p>'
    )


def _entry(step: Step, now: str, first: str) -> str:
    """A field with what is there now, and what was typed first where that is something else."""
    about = f'id="cd-step-{step.id}" name="{step.id}"'
    if step.choices:
        options = "".join(
            f'<option value="{escape(key)}"{" selected" if key == now else ""}>{spoken(label)}</option>'
            for key, label, _ in step.choices
        )
        field = f'<select {about}><option value="">none</option>{options}</select>'
    else:
        field = (
            f'<input {about} type="text" value="{escape(now)}" autocomplete="off" autocapitalize="off" '
            'spellcheck="false">'
        )
    was = f" <small>first: <bdi>{escape(first)}</bdi></small>" if first else ""
    unit = f" <small>in {symbols(u)}</small>" if (u := quantity(step.quantity).shown) else ""
    return f'<div><label for="cd-step-{step.id}">{symbols(step.title)}{unit}{was}</label>{field}</div>'


@answering("who")
def from_paper(session: str, roll: str, slug: str, entries: str) -> str:
    """What was typed in for a sheet, as a return slip that amends what has come in.

    entries  JSON, {step: answer} of what was changed in the form; "" takes an answer out
    """
    student, (task, code) = _assigned(session, roll, slug)
    typed = {step: answer.strip() for step, answer in json.loads(entries).items()}
    if not typed:
        told = "Nothing was changed in the form. Type at least one answer, or leave this student out."
        raise ClassError(told, "student")
    name = f"Typed in: {f'{student.roll} {student.name}'.strip()}, {task.kind.title}"
    try:
        text = return_slip_text(ReturnSlip(student.roll, str(code), typed, {}))
    except ReturnSlipError as error:
        raise ClassError(str(error), "student") from error
    taken_out = {step: "" for step, answer in typed.items() if not answer}
    slips, problems = return_slips_in(text, "the form of the class desk")
    amending = [replace(slip, answers={**slip.answers, **taken_out}, by_hand=True) for slip in slips]
    return page_answer(ok=True, name=name, slips=list(map(asdict, amending)), problems=list(map(asdict, problems)))

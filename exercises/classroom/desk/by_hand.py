"""What is set by hand on the class desk: a form beside a student's sheet.  Text in, JSON text out, as in classes.py."""

import json
from collections.abc import Sequence
from dataclasses import replace
from html import escape
from typing import Any

from exercises.classroom.class_list.class_file import ClassError
from exercises.classroom.class_list.roster import Student
from exercises.classroom.desk.folded import shown_student
from exercises.classroom.desk.session import CLASSES, WORKS, OpenClass, Work, answering
from exercises.classroom.marking.by_hand import (
    ByHand,
    ByHandError,
    Correction,
    DaysLate,
    Excused,
    as_lists,
    checked,
)
from exercises.classroom.marking.class_marking import ClassMarking
from exercises.classroom.marking.marks import Marked, StepMark, plain
from exercises.classroom.marking.scheme import SchemeError
from exercises.classroom.marking.scheme_text import number
from exercises.classroom.report.student_pages import SAID
from exercises.working.mathematics import symbols
from exercises.working.page_answer import page_answer


@answering("by-hand-who")
def sheets(session: str) -> str:
    """Every kind and attempt that is set in a class: how `form` is asked for it, and its title."""
    class_ = CLASSES[session].class_
    titles = {task.kind.slug: task.kind.title for task in class_.tasks}
    again = [[f"{a.kind}:{a.attempt}", f"{titles[a.kind]}, attempt {a.attempt}"] for a in class_.again]
    return page_answer(ok=True, sheets=[[slug, title] for slug, title in titles.items()] + again)


@answering("by-hand-who")
def form(work: str, name: str, sheet: str) -> str:
    """The marks of a student's sheet with what is set by hand, as a form.

    name  a roll, or the name of one student alone;  sheet  a kind, or a kind and an attempt as in “tan-a:2”
    """
    opened = WORKS[work]
    student, slug, attempt = _which(opened, name, sheet)
    marked = _marked(opened, student, slug, attempt)
    title = next(t.kind.title for t in opened.class_.tasks if t.kind.slug == slug)
    by_hand = opened.file.by_hand
    days = by_hand.days_late.get((student.roll, slug, attempt))
    excuse = by_hand.excuse(student.roll, slug)
    said = f", attempt {attempt}" if attempt > 1 else ""
    code = f', sheet <span class="cd-code">{marked.handed.code}</span>' if marked else ", not handed in"
    ticked = " checked" if excuse else ""
    html = (
        f'<p class="cd-paper-head"><strong>{shown_student(student)}</strong>, {escape(title)}{said}{code}</p>'
        + (_steps(marked, by_hand.corrections.get((student.roll, slug, attempt), {})) if marked else "")
        + '<div class="cd-two">'
        + (_field("why", "Why, if a mark is set now", "") if marked else "")
        + (_field("days", "Days late (blank: by its date)", "" if days is None else str(days)) if marked else "")
        + '<div><p class="cd-check"><input type="checkbox" name="excused" id="cd-hand-excused"'
        f'{ticked}><label for="cd-hand-excused">Excused from this kind</label></p></div>'
        + _field("excuse", "Why excused", excuse.reason if excuse else "")
        + '</div><p class="cd-tools"><button type="submit">Set by hand</button></p>'
    )
    return page_answer(ok=True, html=html, roll=student.roll, sheet=f"{slug}:{attempt}")


def _which(opened: Work, name: str, sheet: str) -> tuple[Student, str, int]:
    """A student by roll or name, with a kind and an attempt.  ClassError if there is none."""
    of_class = OpenClass(opened.class_)
    student = of_class.codes[of_class.student(name)][0]
    slug, _, attempt = sheet.partition(":")
    if slug not in [task.kind.slug for task in opened.class_.tasks]:
        raise ClassError("That kind of exercise is not set in this class. Choose another.", "student")
    return student, slug, int(attempt or 1)


def _marked(opened: Work, student: Student, slug: str, attempt: int) -> Marked | None:
    """The marks of one sheet, or None if it was not handed in."""
    for handed in opened.intake.handed:
        if (handed.student, handed.task.kind.slug, handed.task.attempt) == (student, slug, attempt):
            alone = replace(opened.intake, handed=(handed,), problems=())
            marking = ClassMarking(alone, opened.class_.scheme, opened.file.by_hand)
            return next((marked for _, marked in marking.marked_up_to()), None)
    return None


def _steps(marked: Marked, corrections: dict[str, Correction]) -> str:
    rows = "".join(_row(mark, corrections.get(mark.step.id)) for mark in marked.steps)
    return (
        '<div class="cd-scroll" tabindex="0" role="region" aria-label="The marks of this sheet">'
        '<table class="cd-table">'
        '<thead><tr><th scope="col">step</th><th scope="col">typed</th><th scope="col">said</th>'
        f'<th scope="col">mark</th><th scope="col">by hand</th></tr></thead><tbody>{rows}</tbody></table></div>'
    )


def _row(mark: StepMark, correction: Correction | None) -> str:
    sign, word = SAID[mark.verdict.state]
    value = "" if correction is None else f"{correction.mark:.12g}"
    why = f" <small>{escape(correction.reason)}</small>" if correction else ""
    step = mark.step.id
    return (
        f'<tr><th scope="row">{symbols(mark.step.title)} <small>{step}</small></th>'
        f"<td><bdi>{escape(mark.typed)}</bdi></td>"
        f"<td>{sign} {word}</td><td>{plain(mark.earned)} / {plain(mark.possible)}</td>"
        f'<td><input type="text" inputmode="decimal" size="4" autocomplete="off" name="mark {step}" value="{value}" '
        f'aria-label="Mark of {step} by hand">{why}</td></tr>'
    )


def _field(name: str, label: str, value: str) -> str:
    return (
        f'<div><label for="cd-hand-{name}">{label}</label><input type="text" autocomplete="off" id="cd-hand-{name}" '
        f'name="{name}" value="{escape(value)}"></div>'
    )


@answering("by-hand")
def put(work: str, roll: str, sheet: str, controls: str) -> str:
    """What is set by hand, with what stands in a form, and the handle of the work that has it.

    controls  JSON, {name: what stands in it}, of the form of that student and sheet
    """
    opened = WORKS[work]
    student, slug, attempt = _which(opened, roll, sheet)
    typed = {name: text.strip() for name, text in json.loads(controls).items()}
    by_hand = _with_corrections(opened, student, slug, attempt, typed)
    if "days" in typed:  # the form of a sheet that was not handed in has no such field
        late = DaysLate(student.roll, slug, _days(typed["days"]), attempt)
        by_hand = by_hand.plus(late) if typed["days"] else by_hand.minus(late)
    excuse = Excused(student.roll, slug, typed.get("excuse", ""))
    before = by_hand.excuse(student.roll, slug)
    if "excused" not in typed:
        by_hand = _not_excused(by_hand, student.roll, slug, [task.kind.slug for task in opened.class_.tasks])
    elif before is None or before.reason != excuse.reason:
        by_hand = by_hand.plus(excuse)
    again = Work(
        opened.class_, replace(opened.file, by_hand=ByHand(checked(by_hand.entries, opened.class_, fresh=False)))
    )
    lists: dict[str, Any] = as_lists(again.file.by_hand)
    return page_answer(
        ok=True, work=WORKS.add(again), by_hand=json.dumps(lists), says=f"Set by hand for roll {student.roll}."
    )


def _not_excused(by_hand: ByHand, roll: str, slug: str, slugs: Sequence[str]) -> ByHand:
    """Without the excuse from one kind; who was excused from all stays so from the others."""
    from_all = by_hand.excuse(roll, "")
    by_hand = by_hand.minus(Excused(roll, slug))
    if from_all is None:
        return by_hand
    for other in slugs:
        own = by_hand.excuse(roll, other)
        by_hand = by_hand.plus(Excused(roll, other, own.reason if own else "")) if other != slug else by_hand
    return by_hand.minus(Excused(roll))


def _with_corrections(opened: Work, student: Student, slug: str, attempt: int, typed: dict[str, str]) -> ByHand:
    """What is set by hand, with the marks of a form.  ByHandError, with a sentence, if one of them cannot be."""
    by_hand = opened.file.by_hand
    before = by_hand.corrections.get((student.roll, slug, attempt), {})
    for name, text in typed.items():
        kind, _, step = name.partition(" ")
        if kind != "mark":
            continue
        old = before.get(step)
        if not text:
            by_hand = by_hand.minus(old) if old else by_hand
            continue
        try:
            mark = number(text, step)
        except SchemeError as error:
            raise ByHandError(str(error)) from None
        if old is None or old.mark != mark:
            (new,) = checked([Correction(student.roll, slug, step, mark, typed.get("why", ""), attempt)], opened.class_)
            by_hand = by_hand.plus(new)
    return by_hand


def _days(text: str) -> int:
    if not text:
        return 0
    if not (text.isascii() and text.isdecimal() and len(text) < 6):
        raise ByHandError(f"“{text[:40]}” is no whole number of days.")
    return int(text)

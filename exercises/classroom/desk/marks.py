"""Marks on the class desk: the marking in slices, and what is shown and saved of it.

Text in, JSON text out, as in classes.py.  `work` is the handle of returned work (returned.take_in).
"""

from collections.abc import Sequence
from html import escape

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.class_list.roster import Student
from exercises.classroom.desk.returned import folded, shown_student
from exercises.classroom.desk.session import WORKS, answering
from exercises.classroom.examination.ready_page import ready_html, shares_of
from exercises.classroom.marking.marks import Marked, plain
from exercises.classroom.report.counts import count
from exercises.classroom.report.marks_table import marks_csv, problems_csv
from exercises.classroom.report.page import report_fragment, report_html
from exercises.classroom.report.student_pages import FOOT, head, page
from exercises.working.mathematics import symbols
from exercises.working.page_answer import page_answer
from exercises.working.words import many

SHOWN = 40  # students in the table on the page; the table that is saved has all


@answering("")
def mark(work: str, start: int, stop: int) -> str:
    """Mark what was handed in from `start` up to `stop`."""
    WORKS[work].marked(start, stop)
    return page_answer(ok=True)


@answering("")
def result(work: str) -> str:
    """What is shown when all is marked: the first students' marks as a table, and the report, both as HTML."""
    opened = WORKS[work]
    class_, sheets = opened.class_, opened.marked()
    problems = len(opened.marking.problems)
    says = f"{many(len(sheets), 'sheet')} of {many(len({s.handed.student for s in sheets}), 'student')} marked."
    if problems:
        says += f" {many(problems, 'thing')} that came in could not be marked: see above, under returned work."
    noted = [
        f"{shown_student(s.handed.student)}, {escape(s.handed.task.kind.title)}: {escape(note)}"
        for s in sheets
        for note in s.handed.notes
    ]
    alike = [symbols(one.text) for one in opened.marking.copies.found()]
    return page_answer(
        ok=True,
        table=_table(class_, sheets),
        notes=folded("Notes beside the marks", noted) + folded("Work of different students that is alike", alike),
        report=report_fragment(count(class_, sheets), class_.site, 3),
        says=says,
    )


def _table(class_: Class, sheets: Sequence[Marked]) -> str:
    """The marks of the first students, as HTML."""
    by_roll: dict[str, dict[str, Marked]] = {}
    for sheet in sheets:
        by_roll.setdefault(sheet.handed.student.roll, {})[sheet.handed.task.kind.slug] = sheet
    slugs = [task.kind.slug for task in class_.tasks]
    titles = "".join(f'<th scope="col">{escape(task.kind.title)}</th>' for task in class_.tasks)
    rows = "".join(_row(s, [by_roll.get(s.roll, {}).get(slug) for slug in slugs]) for s in class_.students[:SHOWN])
    students = len(class_.students)
    caption = "Marks"
    if students > SHOWN:
        caption = f"The first {SHOWN} of {students:,} students; the table that is saved has all."
    return (
        f'<caption>{caption}</caption><thead><tr><th scope="col">roll</th><th scope="col">name</th>{titles}'
        f'<th scope="col">total</th></tr></thead><tbody>{rows}</tbody>'
    )


def _row(student: Student, sheets: Sequence[Marked | None]) -> str:
    cells = "".join(
        f"<td>{plain(s.earned)} / {plain(s.possible)}</td>" if s else "<td>not handed in</td>" for s in sheets
    )
    there = [s for s in sheets if s]
    total = f"{plain(sum(s.earned for s in there))} / {plain(sum(s.possible for s in there))}" if there else ""
    name = f"<bdi>{escape(student.name)}</bdi>"
    return f'<tr><th scope="row"><bdi>{escape(student.roll)}</bdi></th><td>{name}</td>{cells}<td>{total}</td></tr>'


@answering("")
def part(work: str, name: str, start: int, stop: int, css: str = "") -> str:
    """A file of the marks; of the pages for students, those of what was handed in from `start` up to `stop`.

    css  the notebook's style sheet; needed where start is 0
    """
    opened = WORKS[work]
    class_ = opened.class_
    if name == "students.html":
        pieces = [head(css)] if start == 0 else []
        pieces += [page(sheet, class_) for sheet in opened.marked(start, stop)]
        if stop >= len(opened.intake.handed):
            pieces.append(FOOT)
        return page_answer(ok=True, text="".join(pieces))
    files = {
        "marks.csv": lambda: marks_csv(opened.marked(), class_, opened.marking.copies.found()),
        "not-marked.csv": lambda: problems_csv(opened.marking.problems),
        "ready.html": lambda: ready_html(class_, _shares(opened.marked()), css),
        "report.html": lambda: report_html(count(class_, opened.marked()), class_, css),
    }
    return page_answer(ok=True, text=files[name]())


def _shares(sheets: Sequence[Marked]) -> dict[str, dict[str, float]]:
    """Roll -> kind -> share of the marks."""
    found: dict[str, dict[str, Marked]] = {}
    for sheet in sheets:
        found.setdefault(sheet.handed.student.roll, {})[sheet.handed.task.kind.slug] = sheet
    return {roll: shares_of(of_student) for roll, of_student in found.items()}

"""Marks on the class desk: the marking in slices, and what is shown and saved of it.

Text in, JSON text out, as in classes.py.  `work` is the handle of returned work (returned.take_in).
"""

from collections.abc import Sequence
from html import escape

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.desk.folded import folded, shown_student
from exercises.classroom.desk.session import WORKS, Work, answering
from exercises.classroom.desk.sheets import around_sheet
from exercises.classroom.examination.ready_page import ready_html, shares_of
from exercises.classroom.marking.marks import plain
from exercises.classroom.marking.marks_file import NAME, marks_text
from exercises.classroom.marking.totals import OfKind, Standing, counting, standings
from exercises.classroom.report.counts import count
from exercises.classroom.report.marks_table import book_csv, marks_csv, marks_table, problems_csv, sheet_of
from exercises.classroom.report.page import report_fragment, report_html
from exercises.classroom.report.records import records_csv
from exercises.classroom.report.student_pages import FOOT, head, page
from exercises.files.workbook import Written
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
        is_ = "is" if problems == 1 else "are"
        says += f" {many(problems, 'thing')} that came in {is_} not marked: see above, under returned work."
    all_standings = _standings(opened)
    noted = [f"{shown_student(one.student)}, {escape(note)}" for one in all_standings for note in one.notes]
    alike = [symbols(one.text) for one in opened.marking.copies.found()]
    return page_answer(
        ok=True,
        table=_table(class_, all_standings),
        notes=folded("Notes beside the marks", noted) + folded("Work of different students that is alike", alike),
        report=report_fragment(count(class_, counting(all_standings)), class_.site, 3),
        says=says,
    )


def _standings(opened: Work) -> list[Standing]:
    return list(standings(opened.class_, opened.marked(), opened.file.by_hand))


def _table(class_: Class, all_standings: Sequence[Standing]) -> str:
    """The marks of the first students, as HTML."""
    titles = "".join(f'<th scope="col">{escape(task.kind.title)}</th>' for task in class_.tasks)
    sections = len(class_.sections) > 1
    rows = "".join(_row(one, sections) for one in all_standings[:SHOWN])
    students = len(class_.students)
    caption = "Marks"
    if students > SHOWN:
        caption = f"The first {SHOWN} of {students:,} students; the table that is saved has all."
    section = '<th scope="col">section</th>' if sections else ""
    return (
        f'<caption>{caption}</caption><thead><tr><th scope="col">roll</th><th scope="col">name</th>{section}{titles}'
        f'<th scope="col">total</th></tr></thead><tbody>{rows}</tbody>'
    )


def _row(one: Standing, sections: bool) -> str:
    student = one.student
    cells = "".join(f"<td>{_cell(kind)}</td>" for kind in one.kinds)
    total = "–" if one.total is None else f"{plain(one.total)} / {plain(one.out_of)}"
    section = f"<td><bdi>{escape(student.section)}</bdi></td>" if sections else ""
    name = f"<bdi>{escape(student.name)}</bdi>"
    roll = f'<th scope="row"><bdi>{escape(student.roll)}</bdi></th>'
    return f"<tr>{roll}<td>{name}</td>{section}{cells}<td>{total}</td></tr>"


def _cell(kind: OfKind) -> str:
    if kind.excused:
        return "excused"
    mark = "" if kind.earned is None else f"{plain(kind.earned)} / {plain(kind.out_of)}"
    return mark if kind.sheet else f"not handed in{f': {mark}' if mark else ''}"


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
    if name == "marks.xlsx":
        table = marks_table(opened.marked(), class_, opened.marking.copies.found(), opened.file.by_hand)
        sheet = sheet_of(table)
        return page_answer(ok=True, text=sheet, **around_sheet(Written().and_then(sheet.encode())))
    files = {
        "marks.csv": lambda: marks_csv(opened.marked(), class_, opened.marking.copies.found(), opened.file.by_hand),
        "book.csv": lambda: book_csv(class_, [(one.student, one.total) for one in _standings(opened)]),
        NAME: lambda: marks_text(opened.file),
        "records.csv": lambda: records_csv(opened.intake.records, class_),
        "not-marked.csv": lambda: problems_csv(opened.marking.problems, class_.separator),
        "ready.html": lambda: ready_html(class_, _shares(_standings(opened)), css),
        "report.html": lambda: report_html(count(class_, counting(_standings(opened))), class_, css),
    }
    return page_answer(ok=True, text=files[name]())


def _shares(all_standings: Sequence[Standing]) -> dict[str, dict[str, float]]:
    """Roll -> kind -> share of the marks."""
    return {one.student.roll: shares_of(one.sheets) for one in all_standings if one.sheets}

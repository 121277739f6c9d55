"""Marks on the class desk: the marking in slices, and what is shown and saved of it.

Text in, JSON text out, as in desk.py.
"""

from html import escape

from exercises.classroom.class_list.class_file import ClassError
from exercises.classroom.class_list.codes import PhraseError
from exercises.classroom.desk.desk import answer, refusal
from exercises.classroom.desk.returned import Work, folded, work_of
from exercises.classroom.desk.returned import who as _who
from exercises.classroom.marking.marking import Marked, plain
from exercises.classroom.marking.marking import mark as marked
from exercises.classroom.report.marks_table import marks_csv, problems_csv
from exercises.classroom.report.report import count
from exercises.classroom.report.report_page import report_fragment, report_html
from exercises.classroom.report.student_pages import FOOT, head, page
from exercises.kinds.kind import open_code
from exercises.return_slip.text import Problem

SHOWN = 40  # students in the table on the page; the table that is saved has all


def mark(text: str, returned: str, start: int, stop: int) -> str:
    """Mark what was handed in from `start` up to `stop`."""
    try:
        _mark(work_of(text, returned), start, stop)
    except (ClassError, PhraseError) as error:
        return refusal(error)
    return answer(ok=True)


def _mark(work: Work, start: int, stop: int) -> list[Marked]:
    """The sheets of a stretch of what was handed in, each marked once; one that cannot be becomes a problem."""
    places = range(start, min(stop, len(work.intake.handed)))
    for at in places:
        if at in work.marked:
            continue
        handed = work.intake.handed[at]
        try:
            work.marked[at] = marked(handed, work.made.scheme)
            work.copies.add(handed, open_code(str(handed.code)).working)
        except ArithmeticError:
            work.marked[at] = None
            told = "The sheet of this code has no consistent numbers, so it cannot be marked. Look at the settings of the class."
            work.problems.append(Problem(handed.slip.source, handed.slip.who, str(handed.code), told, handed.slip))
    return [work.marked[at] for at in places if work.marked[at]]


def _all(work: Work) -> list[Marked]:
    return _mark(work, 0, len(work.intake.handed))


def result(text: str, returned: str) -> str:
    """What is shown when all is marked: the first students' marks as a table, and the report, both as HTML."""
    work = work_of(text, returned)
    made, sheets = work.made, _all(work)
    problems = len(work.problems)
    by_student: dict[str, dict[str, Marked]] = {}
    for sheet in sheets:
        by_student.setdefault(sheet.handed.student.roll, {})[sheet.handed.task.kind.slug] = sheet
    slugs = [task.kind.slug for task in made.tasks]
    titles = "".join(f'<th scope="col">{escape(task.kind.title)}</th>' for task in made.tasks)
    rows = "".join(_row(s, [by_student.get(s.roll, {}).get(slug) for slug in slugs]) for s in made.students[:SHOWN])
    few = len(made.students) <= SHOWN
    caption = (
        "Marks" if few else f"The first {SHOWN} of {len(made.students):,} students; the table that is saved has all."
    )
    table = (
        f'<caption>{caption}</caption><thead><tr><th scope="col">roll</th><th scope="col">name</th>{titles}'
        f'<th scope="col">total</th></tr></thead><tbody>{rows}</tbody>'
    )
    says = f"{_many(len(sheets), 'sheet')} of {_many(len(by_student), 'student')} marked."
    if problems:
        says += f" {_many(problems, 'thing')} that came in could not be marked: see above, under returned work."
    noted = [
        f"{_who(s.handed.student)}, {escape(s.handed.task.kind.title)}: {escape(note)}"
        for s in sheets
        for note in s.handed.notes
    ]
    alike = [escape(one.text) for one in work.copies.found()]
    notes = folded("Notes beside the marks", noted) + folded("Work of different students that is alike", alike)
    report = report_fragment(count(made, sheets), made.site, 3)
    return answer(ok=True, table=table, notes=notes, report=report, says=says)


def _many(number: int, what: str) -> str:
    return f"{number:,} {what}{'' if number == 1 else 's'}"


def _row(student, sheets: list[Marked | None]) -> str:
    cells = "".join(
        f"<td>{plain(s.earned)} / {plain(s.possible)}</td>" if s else "<td>not handed in</td>" for s in sheets
    )
    there = [s for s in sheets if s]
    total = f"{plain(sum(s.earned for s in there))} / {plain(sum(s.possible for s in there))}" if there else ""
    name = f"<bdi>{escape(student.name)}</bdi>"
    return f'<tr><th scope="row"><bdi>{escape(student.roll)}</bdi></th><td>{name}</td>{cells}<td>{total}</td></tr>'


def part(text: str, returned: str, name: str, start: int, stop: int, css: str = "") -> str:
    """A file of the marks; of the pages for students, those of what was handed in from `start` up to `stop`.

    css  the notebook's style sheet; needed where start is 0
    """
    work = work_of(text, returned)
    made = work.made
    if name == "students.html":
        pieces = [head(css)] if start == 0 else []
        pieces += [page(sheet, made) for sheet in _mark(work, start, stop)]
        return answer(ok=True, text="".join([*pieces, *[FOOT] * (stop >= len(work.intake.handed))]))
    files = {
        "marks.csv": lambda: marks_csv(_all(work), made, work.copies.found()),
        "not-marked.csv": lambda: problems_csv(work.problems),
        "report.html": lambda: report_html(count(made, _all(work)), made, css),
    }
    return answer(ok=True, text=files[name]())

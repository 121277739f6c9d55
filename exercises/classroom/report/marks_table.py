"""Marks as CSV, one line a student, and what could not be marked, one line a slip."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.class_list.roster import Student
from exercises.classroom.class_list.tables import lines
from exercises.classroom.marking.copies import Alike
from exercises.classroom.marking.marking import Marked, plain
from exercises.codes.sheet_code import SheetCode
from exercises.return_slip.text import Problem

BYTE_ORDER_MARK = "\ufeff"  # tells a spreadsheet that the names are UTF-8
OF_A_KIND = ("code", "handed in", "mark", "out of", "right", "follows", "slips", "not right", "not read", "blank")
PROBLEM_HEAD = ("where", "who", "code", "what is wrong", "answers", "as typed")


def marks_csv(marked: Iterable[Marked], made: Class, alike: Iterable[Alike] = ()) -> str:
    """The marks of a class: every student in the order of the list, also who handed in nothing.

    alike  what copies.py found; it stands among the notes of each student it is about
    """
    by_student: dict[str, dict[str, Marked]] = defaultdict(dict)
    for sheet in marked:
        by_student[sheet.handed.student.roll][sheet.handed.task.kind.slug] = sheet
    rows = (
        marks_row(made, student, {task.kind.slug: code for task, code in given}, by_student.get(student.roll, {}))
        for student, given in made.codes()
    )
    about = alike_by_roll(alike)
    return BYTE_ORDER_MARK + lines([marks_head(made), *(with_notes(row, about.get(row[0], ())) for row in rows)])


def marks_head(made: Class) -> tuple[str, ...]:
    """The heads of the columns; OF_A_KIND for each kind that is set."""
    of_kinds = (f"{task.kind.slug} {what}" for task in made.tasks for what in OF_A_KIND)
    return "roll", "name", *of_kinds, "total", "total out of", "notes", "note texts"


def marks_row(made: Class, student: Student, codes: Mapping[str, SheetCode], sheets: Mapping[str, Marked]) -> list:
    """The line of one student; `codes` and `sheets` by kind.  The total is of what was handed in."""
    cells: list[str | Decimal] = [student.roll, student.name]
    for slug in (task.kind.slug for task in made.tasks):
        sheet = sheets.get(slug)
        if sheet is None:
            cells += [str(codes[slug]), "no", *[""] * (len(OF_A_KIND) - 2)]
            continue
        by = Counter(step.verdict.state for step in sheet.steps)
        numbers = (by["right"], by["follows"], by["slip"], by["wrong"], by["ask"] + by["unread"], by["blank"])
        cells += [str(codes[slug]), "yes", _mark(sheet.earned), _mark(sheet.possible), *map(Decimal, numbers)]
    notes = [f"{slug}: {note}" for slug, sheet in sheets.items() for note in sheet.handed.notes]
    totals = [_mark(sum(getattr(s, what) for s in sheets.values())) for what in ("earned", "possible")]
    return with_notes([*cells, *(totals if sheets else ("", "")), Decimal(0), ""], notes)


def with_notes(row: list, notes: Sequence[str]) -> list:
    """A line of `marks_row` with more notes at its end."""
    *cells, many, text = row
    return [*cells, many + len(notes), " ".join([text, *notes]).strip()]


def alike_by_roll(alike: Iterable[Alike]) -> dict[str, list[str]]:
    """The sentences on work that is alike, by the rolls of those it is about.  They name others: for the instructor only."""
    found: dict[str, list[str]] = defaultdict(list)
    for one in alike:
        for student in one.students:
            found[student.roll].append(one.text)
    return found


def problems_csv(problems: Iterable[Problem]) -> str:
    """What could not be marked: where it was found, whose it seems to be, what is wrong, and what was typed."""
    return BYTE_ORDER_MARK + lines([PROBLEM_HEAD, *map(problem_row, problems)])


def problem_row(problem: Problem) -> list:
    """One line under PROBLEM_HEAD."""
    typed = dict(problem.slip.answers) if problem.slip else {}
    said = "; ".join(f"{step}: {answer}" for step, answer in typed.items())
    return [problem.source, problem.who, problem.code, problem.text, Decimal(len(typed)) if problem.slip else "", said]


def _mark(mark: float) -> Decimal:
    return Decimal(plain(mark))

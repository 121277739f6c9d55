"""Marks as CSV, one line a student, and what could not be marked, one line a slip."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.class_list.roster import Student
from exercises.classroom.marking.copies import Alike
from exercises.classroom.marking.marks import Marked, plain
from exercises.codes.sheet_code import SheetCode
from exercises.files.tables import lines
from exercises.files.text import BYTE_ORDER_MARK
from exercises.return_slip.lines import Problem

OF_A_KIND = ("code", "handed in", "mark", "out of", "right", "follows", "slips", "not right", "not read", "blank")
PROBLEM_HEAD = ("where", "who", "code", "what is wrong", "answers", "as typed")


@dataclass(frozen=True)
class MarksRow:
    """The line of one student: the cells up to the totals, and the notes that end it."""

    student: Student
    cells: tuple[str | Decimal, ...]
    notes: tuple[str, ...]


def marks_csv(marked: Iterable[Marked], class_: Class, alike: Iterable[Alike] = ()) -> str:
    """The marks of a class: every student in the order of the list, also who handed in nothing.

    alike  what copies.py found; it stands among the notes of each student it is about
    """
    by_roll: dict[str, dict[str, Marked]] = defaultdict(dict)
    for sheet in marked:
        by_roll[sheet.handed.student.roll][sheet.handed.task.kind.slug] = sheet
    rows = (
        marks_row(class_, student, {task.kind.slug: code for task, code in assigned}, by_roll.get(student.roll, {}))
        for student, assigned in class_.codes()
    )
    return table_of(class_, rows, alike)


def table_of(class_: Class, rows: Iterable[MarksRow], alike: Iterable[Alike]) -> str:
    """The lines of the students as CSV, under their heads, each with what is alike among its notes."""
    return BYTE_ORDER_MARK + lines(table_rows(class_, rows, alike), class_.separator)


def table_rows(class_: Class, rows: Iterable[MarksRow], alike: Iterable[Alike]) -> list[Iterable[str | Decimal]]:
    """The rows of that table, for CSV or a workbook."""
    about = alike_by_roll(alike)
    heads = (f"{task.kind.slug} {what}" for task in class_.tasks for what in OF_A_KIND)
    who = ("roll", "name", "section") if any(s.section for s in class_.students) else ("roll", "name")
    table: list[Iterable[str | Decimal]] = [(*who, *heads, "total", "total out of", "notes", "note texts")]
    for row in rows:
        notes = [*row.notes, *about.get(row.student.roll, ())]
        table.append([*row.student[: len(who)], *row.cells, Decimal(len(notes)), " ".join(notes).strip()])
    return table


def marks_row(
    class_: Class, student: Student, codes: Mapping[str, SheetCode], sheets: Mapping[str, Marked]
) -> MarksRow:
    """The line of one student; `codes` and `sheets` by kind.  The total is of what was handed in."""
    cells: list[str | Decimal] = []
    for slug in (task.kind.slug for task in class_.tasks):
        sheet = sheets.get(slug)
        if sheet is None:
            cells += [str(codes[slug]), "no", *[""] * (len(OF_A_KIND) - 2)]
            continue
        by = Counter(step.verdict.state for step in sheet.steps)
        numbers = (by["right"], by["follows"], by["slip"], by["wrong"], by["ask"] + by["unread"], by["blank"])
        cells += [str(codes[slug]), "yes", _mark(sheet.earned), _mark(sheet.possible), *map(Decimal, numbers)]
    if sheets:
        cells += [_mark(sum(s.earned for s in sheets.values())), _mark(sum(s.possible for s in sheets.values()))]
    else:
        cells += ["", ""]
    notes = tuple(f"{slug}: {note}" for slug, sheet in sheets.items() for note in sheet.handed.notes)
    return MarksRow(student, tuple(cells), notes)


def alike_by_roll(alike: Iterable[Alike]) -> dict[str, list[str]]:
    """The sentences on work that is alike, by the rolls of those it is about.

    They name other students, so they are for the instructor only.
    """
    found: dict[str, list[str]] = defaultdict(list)
    for one in alike:
        for student in one.students:
            found[student.roll].append(one.text)
    return found


def problems_csv(problems: Iterable[Problem], separator: str = ",") -> str:
    """What could not be marked: where it was found, whose it seems to be, what is wrong, and what was typed."""
    return BYTE_ORDER_MARK + lines([PROBLEM_HEAD, *map(problem_row, problems)], separator)


def problem_row(problem: Problem) -> list[str | Decimal]:
    """One line under PROBLEM_HEAD."""
    typed = dict(problem.slip.answers) if problem.slip else {}
    said = "; ".join(f"{step}: {answer}" for step, answer in typed.items())
    return [problem.source, problem.who, problem.code, problem.text, Decimal(len(typed)) if problem.slip else "", said]


def _mark(mark: float) -> Decimal:
    return Decimal(plain(mark))

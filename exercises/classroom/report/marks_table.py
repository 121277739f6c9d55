"""Marks as CSV, one line a student, and what is not marked, one line a slip."""

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from exercises.classroom.class_list.class_file import Class
from exercises.classroom.class_list.roster import Student
from exercises.classroom.marking.by_hand import NONE, ByHand
from exercises.classroom.marking.copies import Alike
from exercises.classroom.marking.marks import Marked, plain
from exercises.classroom.marking.totals import Standing, standings
from exercises.files import workbook
from exercises.files.tables import lines
from exercises.files.text import BYTE_ORDER_MARK
from exercises.return_slip.lines import Problem

OF_A_KIND = ("code", "handed in", "mark", "out of", "right", "follows", "slips", "not right", "not read", "blank")
type Table = list[Iterable[str | Decimal]]  # rows of cells, their heads first

PROBLEM_HEAD = ("where", "who", "code", "what is wrong", "answers", "as typed")


def marks_csv(marked: Iterable[Marked], class_: Class, alike: Iterable[Alike] = (), by_hand: ByHand = NONE) -> str:
    """The marks of a class: every student in the order of the list, also who handed in nothing.

    alike  what copies.py found; it stands among the notes of each student it is about
    """
    return csv_of(class_, marks_table(marked, class_, alike, by_hand))


def marks_table(marked: Iterable[Marked], class_: Class, alike: Iterable[Alike], by_hand: ByHand) -> Table:
    """The rows of that table."""
    return table_rows(class_, map(marks_row, standings(class_, marked, by_hand)), alike)


@dataclass(frozen=True)
class MarksRow:
    """The line of one student: the cells up to the totals, and the notes that end it."""

    student: Student
    cells: tuple[str | Decimal, ...]
    notes: tuple[str, ...]


def csv_of(class_: Class, table: Table) -> str:
    """The table as CSV, with the separator of the class's own list."""
    return BYTE_ORDER_MARK + lines(table, class_.separator)


def sheet_of(table: Table) -> str:
    """The table as the sheet of a workbook, which workbook.around completes."""
    return f"{workbook.HEAD}{workbook.sheet_rows(table)}{workbook.FOOT}"


def table_rows(class_: Class, rows: Iterable[MarksRow], alike: Iterable[Alike]) -> Table:
    """The lines of the students under their heads, each with what is alike among its notes."""
    about = alike_by_roll(alike)
    heads = (f"{task.kind.slug} {what}" for task in class_.tasks for what in OF_A_KIND)
    who = ("roll", "name", "section") if any(s.section for s in class_.students) else ("roll", "name")
    table: Table = [(*who, *heads, "total", "total out of", "notes", "note texts")]
    for row in rows:
        notes = [*row.notes, *about.get(row.student.roll, ())]
        table.append([*row.student[: len(who)], *row.cells, Decimal(len(notes)), " ".join(notes).strip()])
    return table


def marks_row(of: Standing) -> MarksRow:
    """The line of one student."""
    cells: list[str | Decimal] = []
    for kind in of.kinds:
        sheet = kind.sheet
        mark = kind.mark if kind.earned is None else _mark(kind.earned)
        cells += [str(kind.code), "yes" if sheet else "no", mark, _mark(kind.out_of)]
        if sheet is None:
            cells += [""] * (len(OF_A_KIND) - 4)
            continue
        by = Counter(step.verdict.state for step in sheet.steps)
        numbers = (by["right"], by["follows"], by["slip"], by["wrong"], by["ask"] + by["unread"], by["blank"])
        cells += map(Decimal, numbers)
    cells += ["" if of.total is None else _mark(of.total), _mark(of.out_of)]
    return MarksRow(of.student, tuple(cells), of.notes)


def book_csv(class_: Class, totals: Iterable[tuple[Student, float | None]]) -> str:
    """Roll and mark alone, for a mark book; with sections, those of a section together.

    totals  of each student in the order of the list: the total, or None where there is none
    """
    rows = [(student, "" if total is None else _mark(total)) for student, total in totals]
    out_of = plain(round(sum(class_.scheme.out_of_sheet(t.kind.slug, t.edition, t.setting) for t in class_.tasks), 2))
    if not any(student.section for student, _ in rows):
        return csv_of(class_, [("roll", f"mark out of {out_of}"), *((s.roll, mark) for s, mark in rows)])
    order = {section: at for at, section in enumerate(class_.sections)}
    rows.sort(key=lambda row: order[row[0].section])
    heads = ("section", "roll", f"mark out of {out_of}")
    return csv_of(class_, [heads, *((s.section, s.roll, mark) for s, mark in rows)])


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
    """What came in and is not marked: where it was found, whose it seems to be, what is wrong, and what was typed."""
    return BYTE_ORDER_MARK + lines([PROBLEM_HEAD, *map(problem_row, problems)], separator)


def problem_row(problem: Problem) -> list[str | Decimal]:
    """One line under PROBLEM_HEAD."""
    typed = dict(problem.slip.answers) if problem.slip else {}
    said = "; ".join(f"{step}: {answer}" for step, answer in typed.items())
    return [problem.source, problem.who, problem.code, problem.text, Decimal(len(typed)) if problem.slip else "", said]


def _mark(mark: float) -> Decimal:
    return Decimal(plain(mark))

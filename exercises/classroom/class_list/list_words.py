"""How a class list is read, in words: for the command as for the class desk."""

from collections.abc import Sequence

from exercises.classroom.class_list.columns import letter
from exercises.classroom.class_list.proposal import Proposal
from exercises.classroom.class_list.roster import Student
from exercises.working.words import listed, many

_SHOWN = 6  # things left out that are listed


def told(found: Proposal, students: Sequence[Student]) -> list[tuple[str, str]]:
    """What is said of a proposal, each with what it is about.

    students  of the proposal; where it has none that can be used, what is said of them is left out
    """
    if found.rolls is not None:
        return [("students", f"{len(students):,}: rolls {found.rolls[0]} to {found.rolls[-1]}")]
    columns = found.columns
    said = [
        ("roll", found.called(columns.roll)),
        ("name", listed([found.called(at) for at in columns.names]) if columns.names else "none"),
        ("section", "none" if columns.section is None else found.called(columns.section)),
    ]
    if students:
        lines = [row.line for row in found.students]
        said += [
            ("students", f"{len(students):,}"),
            ("first", f"line {lines[0]}: {_student(students[0])}"),
            ("last", f"line {lines[-1]}: {_student(students[-1])}"),
        ]
    taken = {columns.roll, columns.section, *columns.names}
    others = [at for at in range(found.cells.wide) if at not in taken and _used(found, at)]
    if others:
        said.append(("columns left out", _some([found.called(at).removeprefix("column ") for at in others], "column")))
    if heads := [str(row.line) for row in found.aside if row.cells == found.headings]:
        said.append(("headings", f"line{'s' if len(heads) > 1 else ''} {_some(heads, 'line')}"))
    rows = [row for row in found.aside if row.cells != found.headings]
    if rows:
        shown = [f"{row.line} “{', '.join(filter(None, row.cells))[:60]}”" for row in rows]
        said.append(("lines left out", _some(shown, "line")))
    return said


def _used(found: Proposal, at: int) -> bool:
    return at < len(found.headings) and bool(found.headings[at]) or any(row.at(at) for row in found.students)


def _some(things: Sequence[str], one: str) -> str:
    more = len(things) - _SHOWN
    return "; ".join(things[:_SHOWN]) + (f"; and {many(more, 'more ' + one)}" if more > 0 else "")


def _student(student: Student) -> str:
    return ", ".join(filter(None, student))


def doubts(found: Proposal) -> str:
    """Why a proposal is not certain, in sentences; "" if it is certain."""
    return " ".join(doubt.text for doubt in found.doubts)


def lines_of(found: Proposal) -> str:
    """The first and the last line of the students, as they can be given again."""
    return f"{found.students[0].line}-{found.students[-1].line}" if found.students else ""


def columns_of(ats: Sequence[int]) -> str:
    """Columns by their letters, as they can be given again."""
    return ",".join(map(letter, ats)) or "none"

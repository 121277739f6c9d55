"""A class list, from a spreadsheet's CSV, pasted cells, or roll numbers by range, becomes students.

Nothing is guessed silently: how a list is read is proposed first (proposal.py), and what cannot be read with certainty
is refused with the lines to look at.
"""

import re
from collections.abc import Sequence
from typing import NamedTuple

from exercises.classroom.class_list.cells import MOST_STUDENTS, SEPARATORS, RosterError, Row, clean, same_roll, too_many
from exercises.classroom.class_list.columns import Columns
from exercises.classroom.class_list.proposal import PROPOSED, Chosen, Proposal, propose

__all__ = [
    "MOST_STUDENTS",
    "SEPARATORS",
    "ClassList",
    "RosterError",
    "UNCERTAIN",
    "Student",
    "look",
    "same_roll",
    "students_of",
    "students_of_rows",
]

UNCERTAIN = "It is not certain how this list is to be read."
LONGEST_ROLL, LONGEST_NAME = 40, 120
_POWER = re.compile(r"\d([.,]\d+)?E\+\d+", re.ASCII | re.IGNORECASE)


class Student(NamedTuple):
    """One student: the roll as it is written in the list, the name or "", and the section or ""."""

    roll: str
    name: str = ""
    section: str = ""


class ClassList(NamedTuple):
    """What was read: the students in the order of the list, and what stands between the cells of the list."""

    students: tuple[Student, ...]
    separator: str


def look(text: str, chosen: Chosen = PROPOSED) -> ClassList:
    """A class list, read as a person chose, and in the rest as it is proposed.

    RosterError, with a sentence, if it cannot be used, and where something about it is to be chosen first.

    >>> look("Roll;Name\\n1;Ringed Plover").students
    (Student(roll='1', name='Ringed Plover', section=''),)
    >>> [s.roll for s in look("08-10, 14").students]
    ['08', '09', '10', '14']
    """
    found = propose(text, chosen)
    students = students_of(found)
    if found.doubts:
        told = " ".join(doubt.text for doubt in found.doubts)
        raise RosterError(f"{UNCERTAIN} {told} Choose the columns and lines, or say that they are right as proposed.")
    return ClassList(students, found.cells.separator)


def students_of(found: Proposal) -> tuple[Student, ...]:
    """The students of a list as it is proposed to be read.  RosterError, with a sentence, if they cannot be used."""
    if found.rolls is not None:
        return _each_once([(None, Student(roll)) for roll in found.rolls])
    return students_of_rows(found.students, found.columns)


def students_of_rows(rows: Sequence[Row], columns: Columns) -> tuple[Student, ...]:
    """The students of rows.  RosterError, with a sentence and the line, if they cannot be used."""
    if len(rows) > MOST_STUDENTS:
        raise too_many()
    return _each_once([(row.line, _student(row, columns)) for row in rows])


def _student(row: Row, columns: Columns) -> Student:
    line = row.line
    # a roll is compared, so nothing invisible may stand in it; a name may need its joiners
    roll = clean(row.at(columns.roll), "")
    name = " ".join(filter(None, map(row.at, columns.names)))
    section = "" if columns.section is None else row.at(columns.section)
    if not roll:
        raise RosterError(f"Line {line} has no roll number. Give every student one.")
    if _POWER.fullmatch(roll):
        raise RosterError(
            f"Line {line} has the roll {roll}: a spreadsheet has cut its figures off. Make the column wide there, as "
            "numbers without decimals or as text, and save the list again."
        )
    for what, text, most in (
        ("roll", roll, LONGEST_ROLL),
        ("name", name, LONGEST_NAME),
        ("section", section, LONGEST_ROLL),
    ):
        if len(text) > most:
            raise RosterError(
                f"Line {line} has a {what} of {len(text)} characters; at most {most} are read. Shorten it."
            )
    return Student(roll, name, section)


def _each_once(found: Sequence[tuple[int | None, Student]]) -> tuple[Student, ...]:
    """The students, if there are any and each has a roll of their own."""
    if not found:
        raise RosterError("There is no student in this class list.")
    places: dict[str, list[tuple[int | None, str]]] = {}
    for line, student in found:
        places.setdefault(same_roll(student.roll), []).append((line, student.roll))
    twice = [where for where in places.values() if len(where) > 1]
    if twice:
        said = []
        for where in twice[:5]:
            lines = [str(line) for line, _ in where[:5]] + ["more"] * (len(where) > 5)
            said.append(
                f"roll {where[0][1]} is in more than one range"
                if where[0][0] is None
                else f"roll {where[0][1]} is on lines {', '.join(lines[:-1])} and {lines[-1]}"
            )
        more = f"; and {len(twice) - 5} other rolls too" if len(twice) > 5 else ""
        text = "; ".join(said) + more
        raise RosterError(f"{text[0].upper()}{text[1:]}. Each student needs a roll of their own.")
    return tuple(student for _, student in found)

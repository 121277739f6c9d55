"""A roll as it comes back from a spreadsheet or a student meets the one in the class list, where only one can be meant.

The roll of the list stays what it is: codes are made from it alone.
"""

import re
import unicodedata
from collections.abc import Iterable

from exercises.classroom.class_list.cells import same_roll
from exercises.classroom.class_list.roster import Student

_DASHES = "-\u2212_"  # with all that Unicode calls a dash
_DECIMAL = re.compile(r"(\d+)\.0+", re.ASCII)


def loosely(roll: str) -> str:
    """The roll without what gets lost on the way: capitals, spaces, dashes, and the zeros before a number.

    >>> loosely("0031"), loosely("31.0"), loosely("24-PH 031"), loosely("000")
    ('31', '31', '24ph031', '0')
    """
    plain = same_roll(roll).strip()
    if match := _DECIMAL.fullmatch(plain):
        plain = match[1]  # as a spreadsheet writes a number
    kept = "".join(c for c in plain if not c.isspace() and c not in _DASHES and unicodedata.category(c) != "Pd")
    return (kept.lstrip("0") or "0") if kept.isascii() and kept.isdecimal() else kept


class Rolls:
    """The rolls of a class, each found in one step."""

    def __init__(self, students: Iterable[Student]) -> None:
        self._exact: dict[str, Student] = {}
        self._loose: dict[str, Student | None] = {}  # None where it could be several
        for student in students:
            self._exact[same_roll(student.roll)] = student
            key = loosely(student.roll)
            self._loose[key] = None if key in self._loose else student

    def find(self, roll: str) -> Student | None:
        """The student of this roll, or of the only one in the class that it can mean."""
        said = " ".join(roll.split())
        loose = loosely(said)  # nothing is left of “–”, and that is nobody's
        return self._exact.get(same_roll(said)) or (self._loose.get(loose) if loose else None)


def note_of(roll: str, student: Student) -> str:
    """What stands beside work that came under another spelling of the student's roll; "" where it is none.

    >>> note_of("31", Student("0031"))
    'It came under the roll 31, which is 0031 in the class list.'
    """
    if roll == student.roll:  # as most slips have it
        return ""
    said = " ".join(roll.split())
    if not said or same_roll(said) == same_roll(student.roll) or loosely(said) != loosely(student.roll):
        return ""
    return f"It came under the roll {said}, which is {student.roll} in the class list."

"""A class list, from a spreadsheet's CSV, pasted cells, or roll numbers by range.

Nothing is guessed silently: a line taken as the header is told in a note, and
what cannot be read with certainty is refused with the lines to look at.
"""

import re
import unicodedata
from typing import NamedTuple

from exercises.classroom.refused import Refused
from exercises.files.tables import FORMULA_STARTS, TableError, rows_of
from exercises.files.text import LARGEST, without_mark

MOST_STUDENTS = 100_000
LONGEST_ROLL, LONGEST_NAME = 40, 120

SEPARATORS = "\t;,"  # in this order where two are on equally many lines
ROLL_WORDS = {"roll", "roll no", "roll number", "rollno", "no", "number", "id", "student id", "student number"}
NAME_WORDS = {"name", "student", "student name", "full name", "first name", "last name", "surname", "given name"}
SECTION_WORDS = {"section", "group", "batch", "division"}
_RANGE = re.compile(r"(\d{1,9})(?:\s*(?:-|\.\.|…|\bto\b)\s*(\d{1,9}))?", re.ASCII)
_NUMBERED = re.compile(r"(\d{1,9})(?:[.):]\s*|\s+)([^\W\d].*)")
_DASHES = str.maketrans("–—−‐‑", "-----")
_JOINERS = "\u200c\u200d"  # spelling in some scripts depends on them


class RosterError(Refused):
    """A class list that cannot be used; the text says why, and where to look."""

    part = "list"


class Student(NamedTuple):
    """One student: the roll as it is written in the list, the name or "", and the section or ""."""

    roll: str
    name: str = ""
    section: str = ""


class ClassList(NamedTuple):
    """What was read: the students in the order of the list, and sentences on what was taken for granted."""

    students: tuple[Student, ...]
    notes: tuple[str, ...]


def read(text: str) -> tuple[Student, ...]:
    """The students of a class list.  RosterError, with a sentence, if it cannot be used.

    >>> read("Roll;Name\\n1;Ringed Plover\\n2;Sanderling")
    (Student(roll='1', name='Ringed Plover', section=''), Student(roll='2', name='Sanderling', section=''))
    >>> [s.roll for s in read("08-10, 14")]
    ['08', '09', '10', '14']
    """
    return look(text).students


def look(text: str) -> ClassList:
    """`read`, with notes on what was taken for granted.

    One line of several roll numbers, or of a range, is ranges; all else is cells.  With a header the
    columns are found by its words, and several columns of names are joined.  Without one, the first
    column whose cells all hold a figure is the roll, and the first other column the name.  A single
    column of lines such as "12. Ringed Plover" is a column of rolls and one of names.
    """
    if len(text) > LARGEST:
        raise RosterError(f"This class list has {len(text):,} characters; at most {LARGEST:,} are read.")
    text = without_mark(text)
    students = _ranges(text)
    if students is not None:
        return _each_once([(None, s) for s in students], ())
    rows = _rows(text)
    if not rows:
        raise RosterError("There is no student in this class list.")
    (line, first), rest = rows[0], rows[1:]
    words = [_word(cell) for cell in first]
    notes: tuple[str, ...] = ()
    if _is_header(words, first, [cells for _, cells in rest]):
        rows = rest
        notes = (f"Line {line} was taken as the header: {', '.join(f'“{c}”' for c in first if c)[:200]}.",)
    else:
        words = []
    numbered = [match for _, cells in rows if (match := _NUMBERED.fullmatch(" ".join(cells).strip()))]
    if len(numbered) == len(rows) and all(sum(map(bool, cells)) == 1 for _, cells in rows):
        rows, words = [(line, [match[1], match[2]]) for (line, _), match in zip(rows, numbered)], []
        notes += ("Each line was taken as a roll number and a name.",) if rows else ()
    roll_at, names_at = _columns(words, [cells for _, cells in rows])
    section_at = next((at for at, w in enumerate(words) if w in SECTION_WORDS and at != roll_at), None)
    found: list[tuple[int | None, Student]] = [
        (line, _student(line, cells, roll_at, names_at, section_at)) for line, cells in rows
    ]
    return _each_once(found, notes)


def same_roll(roll: str) -> str:
    """The roll as it is compared and hashed: capitals and wide forms make no other student."""
    return unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", roll).casefold())


def _ranges(text: str) -> list[Student] | None:
    """The students of "1-30, 41-60", or None if the text is something else."""
    line = _clean(text, "").translate(_DASHES)
    if "\n" in text.strip() or "\r" in text.strip() or len(line) > 2000:
        return None
    parts = re.split("[,;]", line)
    found = [match for part in parts if (match := _RANGE.fullmatch(part.strip()))]
    if len(found) < len(parts) or (len(found) == 1 and not found[0][2]):
        return None
    students: list[Student] = []
    for match in found:
        low, high = match[1], match[2] or match[1]
        if int(high) < int(low):
            raise RosterError(f"The range {match[0]} runs downwards. Write the smaller roll number first.")
        if len(students) + int(high) - int(low) >= MOST_STUDENTS:
            raise RosterError(f"With {match[0]} these are more than {MOST_STUDENTS:,} students, the most of one class.")
        width = len(low) if low.startswith("0") else 0  # 001-060 keeps its noughts
        students += [Student(f"{n:0{width}d}") for n in range(int(low), int(high) + 1)]
    return students


def _rows(text: str) -> list[tuple[int, list[str]]]:
    """The rows that are not empty, each with the number of its first line, its cells cleaned."""
    told = re.match(r"sep=([,;\t])(\r\n|\r|\n)", text, re.IGNORECASE)  # as some spreadsheets write it
    start = 1 if told else 0
    body = text[told.end() :] if told else text
    rows: list[tuple[int, list[str]]] = []
    try:
        for row in rows_of(body, told[1] if told else _separator(body)):
            cells = [_clean(cell, " ") for cell in row.cells]
            if any(cell.strip(SEPARATORS + " ") for cell in cells):  # “;;” is empty, whatever the separator
                rows.append((start + row.first, cells))
            if len(rows) > MOST_STUDENTS + 1:
                raise RosterError(f"This class list has more than {MOST_STUDENTS:,} students, the most of one class.")
    except TableError as error:
        line = start + error.first
        if error.too_long:
            raise RosterError(f"Line {line} has a cell too long for a roll or a name.") from None
        raise RosterError(
            f"From line {line} on the cells cannot be told apart: a quotation mark that opens a cell must close "
            "it, before the next separator. Mend it or take it out."
        ) from None
    return rows


def _separator(text: str) -> str:
    """The separator that is on the most lines, outside quotation marks."""
    bare = re.sub(r'"[^"]*"', "", text)
    lines = [line for line in re.split(r"[\r\n]+", bare) if line.strip(SEPARATORS + " ")]
    counts = {mark: sum(mark in line for line in lines) for mark in SEPARATORS}
    return max(SEPARATORS, key=lambda mark: counts[mark])


def _clean(text: str, gap: str) -> str:
    """One line of what can be seen.  An apostrophe that our own tables put before a formula's sign comes off."""
    seen = []
    for c in unicodedata.normalize("NFC", text):
        kind = unicodedata.category(c)
        if kind == "Cs":
            seen.append("\ufffd")  # half a character: it could not be written again
        elif kind == "Cc":
            seen.append(" ")
        elif kind != "Cf" or (gap and c in _JOINERS):
            seen.append(c)
    return re.sub(rf"^'+(?=[{re.escape(FORMULA_STARTS)}])", "", " ".join("".join(seen).split()))


def _word(cell: str) -> str:
    return " ".join(re.sub(r"[\W_]+", " ", cell.casefold()).split())


def _has_figure(cell: str) -> bool:
    return any(c.isdecimal() for c in cell)


def _is_header(words: list[str], first: list[str], others: list[list[str]]) -> bool:
    """Words of a header; or no figure in the first row, and in one column a figure in every other row."""
    if any(_has_figure(cell) for cell in first):
        return False
    if any(w in ROLL_WORDS for w in words) or (words[0] in NAME_WORDS):
        return True
    return any(others and all(len(r) > at and _has_figure(r[at]) for r in others) for at in range(len(first)))


def _columns(words: list[str], rows: list[list[str]]) -> tuple[int, tuple[int, ...]]:
    """Where the roll is, and where the parts of the name are."""
    wide = max((len(r) for r in rows), default=0)
    roll = next((at for at, w in enumerate(words) if w in ROLL_WORDS), None)
    names = tuple(at for at, w in enumerate(words) if w in NAME_WORDS and at != roll)
    if roll is None:
        roll = next(
            (at for at in range(wide) if at not in names and all(len(r) > at and _has_figure(r[at]) for r in rows)),
            next((at for at in range(wide) if at not in names), 0),
        )
        names = tuple(at for at in names if at != roll)
    if not names:
        names = next(((at,) for at in range(wide) if at != roll), ())
    return roll, names


def _student(
    line: int, cells: list[str], roll_at: int, names_at: tuple[int, ...], section_at: int | None = None
) -> Student:
    # a roll is compared, so nothing invisible may stand in it; a name may need its joiners
    roll = _clean(cells[roll_at], "") if roll_at < len(cells) else ""
    name = " ".join(cells[at] for at in names_at if at < len(cells) and cells[at])
    if not roll:
        raise RosterError(f"Line {line} has no roll number. Give every student one.")
    if len(roll) > LONGEST_ROLL:
        raise RosterError(
            f"Line {line} has a roll of {len(roll)} characters; at most {LONGEST_ROLL} are read. Shorten it."
        )
    if len(name) > LONGEST_NAME:
        raise RosterError(
            f"Line {line} has a name of {len(name)} characters; at most {LONGEST_NAME} are read. Shorten it."
        )
    section = cells[section_at] if section_at is not None and section_at < len(cells) else ""
    if len(section) > LONGEST_ROLL:
        raise RosterError(f"Line {line} has a section of {len(section)} characters; at most {LONGEST_ROLL} are read.")
    return Student(roll, name, section)


def _each_once(found: list[tuple[int | None, Student]], notes: tuple[str, ...]) -> ClassList:
    """The list, if it has students and each roll once."""
    if not found:
        raise RosterError("There is no student in this class list.")
    if len(found) > MOST_STUDENTS:
        raise RosterError(f"This class list has more than {MOST_STUDENTS:,} students, the most of one class.")
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
    return ClassList(tuple(student for _, student in found), notes)

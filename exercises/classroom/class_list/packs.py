"""The files of a class, each in pieces: the command line writes them to a folder, the class desk saves them.

Both make them here, so that they are the same byte for byte.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from exercises.classroom.class_list import prints, tables
from exercises.classroom.class_list.class_file import Class, ClassError, Task, written
from exercises.classroom.class_list.roster import Student
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.kind import open_code

Given = list[tuple[Task, SheetCode]]  # a student's tasks and codes
MARK = "\ufeff"  # a byte-order mark tells a spreadsheet that the names are UTF-8


@dataclass(frozen=True)
class Pack:
    """One file: the text of `head(class, style sheet)`, then of `piece` for each student, then `foot`.

    The text of CSV has its own line ends; it is written as UTF-8, nothing translated.
    """

    head: Callable[[Class, str], str]
    piece: Callable[[Class, Student, Given], str]
    foot: str = ""


def _drawn(given: Given) -> Iterable[tuple]:
    """Every sheet drawn: its kind, scenario and working.  ClassError where a setting leaves no consistent numbers."""
    for task, code in given:
        try:
            yield open_code(str(code))
        except ArithmeticError:
            raise ClassError(
                f"With these settings no consistent numbers were found for {task.kind.slug} {code}. "
                "Leave the length or the number of distances open, or change the phrase."
            ) from None


def _codes(made: Class, student: Student, given: Given) -> str:
    return tables.lines(tables.address_row(made.site, student, task.kind, code) for task, code in given)


def _key(made: Class, student: Student, given: Given) -> str:
    return "".join(
        tables.lines(tables.key_rows(student, kind, scenario.code, working))
        for kind, scenario, working in _drawn(given)
    )


def _pages(page: Callable) -> Callable[[Class, Student, Given], str]:
    return lambda made, student, given: "".join(page(student, *drawn) for drawn in _drawn(given))


def _slips(made: Class, student: Student, given: Given) -> str:
    return prints.slip(student, given, made.site)


def _paper(title: str, layout: str = "") -> Callable[[Class, str], str]:
    return lambda made, css: prints.head(title, css, layout)


#: By file name, in the order in which they are told.
PACKS: dict[str, Pack] = {
    "codes.csv": Pack(lambda made, css: MARK + tables.lines([tables.ADDRESS_HEAD]), _codes),
    "key.csv": Pack(lambda made, css: MARK + tables.lines([tables.KEY_HEAD]), _key),
    "key.html": Pack(_paper("Key of a class"), _pages(prints.key), prints.FOOT),
    "working.html": Pack(_paper("Key of a class, with the working"), _pages(prints.worked), prints.FOOT),
    "sheets.html": Pack(_paper("Sheets of a class"), _pages(prints.sheet), prints.FOOT),
    "slips.html": Pack(_paper("Slips to cut", "cl-slips"), _slips, prints.FOOT),
    "class.json": Pack(lambda made, css: written(made), lambda made, student, given: ""),
}

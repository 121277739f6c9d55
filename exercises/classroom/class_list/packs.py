"""The files of a class, each in pieces: the command line writes them to a folder, the class desk saves them.

Both make them here, so that they are the same byte for byte.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from exercises.classroom.class_list import paper, prints, tables
from exercises.classroom.class_list.class_file import Assigned, Class, ClassError, class_text
from exercises.classroom.class_list.heading import Heading
from exercises.classroom.class_list.paper import FOOT
from exercises.classroom.class_list.roster import Student
from exercises.classroom.examination.papers import examination_sheet, examiner_page
from exercises.files import workbook
from exercises.files.tables import lines
from exercises.files.text import BYTE_ORDER_MARK
from exercises.kinds.kind import Sheet, sheet_of


@dataclass(frozen=True)
class Pack:
    """One file: the text of `head(class, style sheet)`, then of `piece` for each student, then `foot`.

    The text of CSV has its own line ends; it is written as UTF-8, nothing translated.
    That of .xlsx is the text of a sheet, which workbook.around completes.
    """

    head: Callable[[Class, str], str]
    piece: Callable[[Class, Student, Sequence[Assigned]], str]
    foot: str = ""


def sheets(assigned: Sequence[Assigned]) -> Iterator[Sheet]:
    """Every sheet of a student.  ClassError where a setting leaves no consistent numbers."""
    for task, code in assigned:
        try:
            yield sheet_of(code)
        except ArithmeticError:
            raise ClassError(
                f"With these settings no consistent numbers were found for {task.kind.slug} {code}. "
                "Leave one of them open, or change the phrase.",
                "kinds",
            ) from None


def _addresses(class_: Class, student: Student, assigned: Sequence[Assigned]) -> str:
    return lines(_address_rows(class_, student, assigned), class_.separator)


def _address_rows(class_: Class, student: Student, assigned: Sequence[Assigned]) -> Iterator[tuple[str, ...]]:
    return (tables.address_row(class_.site, student, task.kind, code) for task, code in assigned)


def _key(class_: Class, student: Student, assigned: Sequence[Assigned]) -> str:
    return "".join(lines(tables.key_rows(student, sheet), class_.separator) for sheet in sheets(assigned))


def _pages(page: Callable[[Student, Sheet, Heading], str]) -> Callable[[Class, Student, Sequence[Assigned]], str]:
    return lambda class_, student, assigned: "".join(page(student, one, class_.heading) for one in sheets(assigned))


def _code_strips(class_: Class, student: Student, assigned: Sequence[Assigned]) -> str:
    return prints.code_strip(student, assigned, class_.site, class_.heading)


def _csv(head: Sequence[str]) -> Callable[[Class, str], str]:
    return lambda class_, css: BYTE_ORDER_MARK + lines([head], class_.separator)


def _paper(title: str, layout: str = "") -> Callable[[Class, str], str]:
    return lambda class_, css: paper.head(title, css, layout)


def _examiner(class_: Class, student: Student, assigned: Sequence[Assigned]) -> str:
    return "".join(examiner_page(student, one, class_.heading, class_.weights) for one in sheets(assigned))


#: By file name, in the order in which they are told.
PACKS: dict[str, Pack] = {
    "codes.csv": Pack(_csv(tables.ADDRESS_HEAD), _addresses),
    "codes.xlsx": Pack(
        lambda class_, css: workbook.HEAD + workbook.sheet_rows([tables.ADDRESS_HEAD]),
        lambda *of: workbook.sheet_rows(_address_rows(*of)),
        workbook.FOOT,
    ),
    "key.csv": Pack(_csv(tables.KEY_HEAD), _key),
    "key.html": Pack(_paper("Key of a class"), _pages(prints.key), FOOT),
    "working.html": Pack(_paper("Key of a class, with the working"), _pages(prints.worked), FOOT),
    "sheets.html": Pack(_paper("Sheets of a class"), _pages(prints.sheet_page), FOOT),
    "slips.html": Pack(_paper("Code strips to cut", "cl-strips"), _code_strips, FOOT),
    "class.json": Pack(lambda class_, css: class_text(class_), lambda class_, student, assigned: ""),
}
#: The papers of a practical examination, made where they are asked for.
EXAMINATION: dict[str, Pack] = {
    "examination.html": Pack(_paper("Practical examination"), _pages(examination_sheet), FOOT),
    "examiner.html": Pack(_paper("Practical examination, for the examiner"), _examiner, FOOT),
}

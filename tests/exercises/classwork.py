"""A small class with work handed in, for the tests of marks and report.  All of it is invented."""

from base64 import b64decode

from exercises.classroom.class_list.class_file import Class, make, task
from exercises.classroom.class_list.proposal import propose
from exercises.classroom.class_list.roster import Student, students_of
from exercises.classroom.marking.intake import Handed
from exercises.classroom.marking.marks import Marked, mark
from exercises.classroom.marking.scheme import Scheme
from exercises.judging.diagnosis import with_slips
from exercises.judging.entries import read_entries
from exercises.kinds.kind import open_code
from exercises.kinds.sheet import written
from exercises.return_slip.text import ReturnSlip

NAMES = (
    "Ringed Plover",
    "Sanderling",
    "=Dunlin",
    "Curlew",
    "Avocet",
    "Turnstone",
    "Knot",
    "Redshank",
    "Whimbrel",
    "Ruff",
)


def saved(*answers: dict) -> bytes:
    """A file as the class desk saves it from Python's answers: the last has what stands around a workbook's sheet."""
    front, back = (b64decode(answers[-1].get(end, "")) for end in ("front", "back"))
    return front + "".join(answer["text"] for answer in answers).encode() + back


def read(text: str) -> tuple[Student, ...]:
    """The students of a list as it is proposed to be read, also where that is not certain."""
    return students_of(propose(text))


def a_class(many: int, slugs=("tan-a",), scheme: Scheme = Scheme(), site: str = "https://saltmarsh.example/") -> Class:
    students = [Student(f"S{n + 1:02d}", NAMES[n % len(NAMES)]) for n in range(many)]
    return make(students, "sand and salt water", [task(s) for s in slugs], site, scheme)


def right(code) -> dict[str, str]:
    """Every step of a sheet, right and with its unit."""
    working = open_code(str(code)).working
    values = working.all_values()
    return {s.id: values[s.id] if s.choices else written(values[s.id], s) for s in working.steps}


def slipped(code, key: str) -> dict[str, str]:
    """Every step of a sheet, worked with one slip all through."""
    sheet = open_code(str(code))
    working = sheet.working
    slip = next(s for s in sheet.slips if s.key == key)
    values = working.all_values()
    parts = with_slips(working.parts, slip)
    changed = {**values, **working.slipped(slip.part, parts, values)}
    return {s.id: written(changed[s.id], s) for s in working.steps}


def handed(made: Class, at: int, answers=None, firsts=None, which: int = 0, notes=()) -> Handed:
    """What the student at a place in the list handed in for one of the tasks; all right if nothing else is said."""
    student, given = made.codes()[at]
    given_task, code = given[which]
    slip = ReturnSlip(student.roll, str(code), right(code) if answers is None else answers, firsts or {}, "mail.txt")
    return Handed(student, given_task, code, slip, tuple(notes))


def marked(handed: Handed, scheme: Scheme) -> Marked:
    """The marks of one sheet."""
    sheet = open_code(str(handed.code))
    return mark(handed, sheet, scheme, read_entries(sheet.working, handed.return_slip.answers))


def code_of(made: Class, at: int, which: int = 0):
    return made.codes()[at][1][which][1]

"""Sheets whose slips cannot all be told apart: only a laboratory's settings leave such, and an instructor is told."""

from collections import Counter
from collections.abc import Iterable, Mapping

from exercises.classroom.class_list.class_file import Assigned, Class
from exercises.classroom.class_list.packs import sheets
from exercises.codes.sheet_code import Setting


def can_be_alike(class_: Class) -> bool:
    """Whether a sheet of the class may be such a one at all."""
    return any(task.setting != Setting() for task in class_.tasks)


def alike(assigned: Iterable[Assigned]) -> Counter[str]:
    """How many sheets of a student's are such, by the slug of their kind.  ClassError if one has no numbers."""
    perhaps = [(task, code) for task, code in assigned if task.setting != Setting()]
    return Counter(sheet.kind.slug for sheet in sheets(perhaps) if not sheet.scenario.diagnosable)


def alike_note(class_: Class, found: Mapping[str, int]) -> str:
    """What is said of a class in which so many sheets of each kind are such; "" where none is.

    found  by the slug of a kind
    """
    many = f"{len(class_.students):,}"
    each = [
        f"{found[t.kind.slug]:,} of {many} of {t.kind.listing.name}" for t in class_.tasks if found.get(t.kind.slug)
    ]
    if not each:
        return ""
    return (
        f"With these settings the slips of some sheets cannot all be told apart: {', '.join(each)}. "
        "A slip that looks like another is said as one of two there."
    )

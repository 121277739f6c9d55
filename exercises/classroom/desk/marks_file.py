"""A marks file on the class desk: opened, so that what comes in joins it.  Text in, JSON text out, as in classes.py."""

import json
from dataclasses import replace

from exercises.classroom.class_list.class_file import class_text
from exercises.classroom.desk.session import CLASSES, FILES, OpenClass, answering
from exercises.classroom.marking.by_hand import as_lists
from exercises.classroom.marking.marks_file import read_marks
from exercises.classroom.marking.scheme import Scheme, as_dict
from exercises.working.page_answer import page_answer
from exercises.working.words import many


@answering("marks-file")
def open_file(session: str, text: str) -> str:
    """The class with the scheme of a marks file, the handle of that file, and what is set by hand in it as JSON.

    session  the handle of the class;  text  of the file
    """
    opened = CLASSES[session]
    file = read_marks(text, opened.class_)
    class_ = opened.class_
    if file.scheme != class_.scheme:
        class_ = replace(class_, scheme=file.scheme)
        session = CLASSES.add(OpenClass(class_))
    says = (
        f"The marks file is open. It has {many(len(file.slips), 'slip')} and "
        f"{many(len(file.by_hand.entries), 'thing')} set by hand; what comes in now joins it."
    )
    if opened.class_.scheme not in (Scheme(), file.scheme):
        says += " How it is marked stood otherwise in the class file; the marks file counts."
    return page_answer(
        ok=True,
        file=FILES.add(file),
        by_hand=json.dumps(as_lists(file.by_hand)) if file.by_hand.entries else "",
        text=class_text(class_),
        marks=as_dict(class_.scheme),
        session=session,
        slips=len(file.slips),
        says=says,
    )

"""What the class desk has open: classes and the work that came in for them, each by a handle.

A page asks with the handle that it got when it opened the class or handed over
the work.  Only the last few are kept, and none when Python was started again.
A handle that is not known gets an answer with `lost`; the page then opens the
class again from the text of its file, which it keeps.
"""

import os
from collections import OrderedDict
from collections.abc import Callable, Sequence
from functools import wraps

from exercises.classroom.class_list.class_file import Assigned, Class, ClassError
from exercises.classroom.class_list.roll_match import Rolls
from exercises.classroom.class_list.roster import Student, same_roll
from exercises.classroom.marking.class_marking import ClassMarking
from exercises.classroom.marking.intake import take_in
from exercises.classroom.marking.marks import Marked
from exercises.classroom.marking.marks_file import MarksFile
from exercises.classroom.refused import Part, Refused
from exercises.working.mathematics import symbols
from exercises.working.page_answer import page_answer

#: The control of the page at which what is wrong with a part of a class is said, where it is called otherwise.
CONTROLS: dict[Part, str] = {"student": "who"}


class OpenClass:
    """A class that is open on the page, with its codes worked out."""

    def __init__(self, class_: Class) -> None:
        self.class_ = class_
        self.codes: Sequence[tuple[Student, list[Assigned]]] = class_.codes()

    def of_attempt(self, attempt: int) -> Sequence[tuple[Student, list[Assigned]]]:
        """The codes of the first attempt, or of a later one for those who were set something again."""
        return self.codes if attempt == 1 else self.class_.codes(attempt)

    def student(self, roll: str) -> int:
        """Where in the list the student of a roll is, or of a name that only one has.  ClassError if nowhere."""
        wanted = same_roll(" ".join(roll.split()))
        for part in (0, 1):
            found = [at for at, (student, _) in enumerate(self.codes) if same_roll(student[part]) == wanted]
            if wanted and len(found) == 1:
                return found[0]
        if student := Rolls(self.class_.students).find(roll):
            return self.class_.students.index(student)
        told = f"No one student of this class has the roll or name “{roll[:40]}”. Look at the class list."
        raise ClassError(told, "student")


class Work:
    """The work that came in for a class, as its marks file has it, marked as far as it was asked for."""

    def __init__(self, class_: Class, file: MarksFile) -> None:
        self.class_, self.file = class_, file
        self.intake = take_in(class_, file.slips, file.problems, file.by_hand.counted)
        self.marking = ClassMarking(self.intake, class_.scheme, file.by_hand)
        self._marked: dict[int, Marked] = {}  # place in what was handed in -> its marks

    def marked(self, start: int = 0, stop: int | None = None) -> list[Marked]:
        """The marked sheets of a stretch of what was handed in; what is not marked yet is marked now."""
        self._marked.update(self.marking.marked_up_to(stop))
        stop = len(self.intake.handed) if stop is None else stop
        return [self._marked[at] for at in range(start, min(stop, len(self.intake.handed))) if at in self._marked]


class LostHandle(LookupError):
    """Nothing is open under this handle."""


class OpenThings[T]:
    """The last few things that were opened, each under a handle of its own."""

    def __init__(self, most: int) -> None:
        self.most = most
        self._things: OrderedDict[str, T] = OrderedDict()  # the one last asked for at the end

    def add(self, thing: T) -> str:
        """The handle of a thing that is now open."""
        handle = os.urandom(8).hex()  # so that none of before Python was started again is taken for a new one
        self._things[handle] = thing
        while len(self._things) > self.most:
            self._things.popitem(last=False)
        return handle

    def __getitem__(self, handle: str) -> T:
        """The thing of a handle.  LostHandle if it is not open."""
        if handle not in self._things:
            raise LostHandle(handle)
        self._things.move_to_end(handle)
        return self._things[handle]


CLASSES: OpenThings[OpenClass] = OpenThings(3)
WORKS: OpenThings[Work] = OpenThings(2)
FILES: OpenThings[MarksFile] = OpenThings(2)  # marks files, as they were opened


def refusal(error: Refused, control: str | None = None) -> str:
    """What is wrong, and which control it is about: that of the error's own part, if none is named."""
    place = CONTROLS.get(error.part, error.part) if control is None else control
    # of all parts, only the settings have sentences with symbols in them
    html = {"html": symbols(str(error))} if error.part == "kinds" else {}
    return page_answer(ok=False, control=place, text=str(error), **html)


def answering[**P](control: str | None = None) -> Callable[[Callable[P, str]], Callable[P, str]]:
    """A function that the page may ask: what it refuses is an answer too, and so is a handle that is lost.

    control  where the page is to say what is wrong: None at the control of the error's part, "" where it asked
    """

    def with_refusals(function: Callable[P, str]) -> Callable[P, str]:
        @wraps(function)
        def asked(*args: P.args, **named: P.kwargs) -> str:
            try:
                return function(*args, **named)
            except Refused as error:
                return refusal(error, control)
            except LostHandle:
                told = "This page had to start again, and this class is not open in it any more. Open it again."
                return page_answer(ok=False, lost=True, control="", text=told)

        return asked

    return with_refusals

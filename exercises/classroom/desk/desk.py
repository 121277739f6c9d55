"""The class desk: what the instructor's page may ask of Python.  Text in, JSON text out.

Every function answers with a JSON object; a fault of the input is an answer
with `ok` false, a sentence, and the control it is about, never an exception.
A class goes back and forth as the text of its file, so that nothing is lost
when Python is started again; it is opened once and kept.
"""

import json
from functools import lru_cache

from exercises.classroom.class_list import class_file
from exercises.classroom.class_list.class_file import Class, ClassError
from exercises.classroom.class_list.codes import PhraseError
from exercises.classroom.class_list.given import OPEN, tasks_from, words_of
from exercises.classroom.class_list.packs import PACKS
from exercises.classroom.class_list.roster import RosterError, decode, look, same_roll
from exercises.classroom.class_list.tables import lines
from exercises.classroom.marking.scheme import SchemeError, as_dict, from_dict

SHOWN = 6  # students in the preview


def answer(**fields) -> str:
    """A JSON object as text."""
    return json.dumps(fields, ensure_ascii=False)


def refusal(error: Exception, control: str = "") -> str:
    """What is wrong, and which control it is about."""
    return answer(ok=False, control=control, text=str(error))


class Open:
    """A class that was opened, with its codes worked out."""

    def __init__(self, made: Class):
        self.made = made
        self.codes = made.codes()

    def student(self, roll: str) -> int:
        """Where in the list the student of a roll, or of a name that only one has, is.  ClassError if nowhere."""
        wanted = same_roll(" ".join(roll.split()))
        for part in (0, 1):
            found = [at for at, (student, _) in enumerate(self.codes) if same_roll(student[part]) == wanted]
            if wanted and len(found) == 1:
                return found[0]
        raise ClassError(f"No one student of this class has the roll or name “{roll[:40]}”. Look at the class list.")


@lru_cache(maxsize=3)
def open_text(text: str) -> Open:
    """The class of a file's text.  ClassError or PhraseError if it is none."""
    return Open(class_file.opened(text))


def file_text(raw, name: str) -> str:
    """The text of a file's bytes, or a sentence that says why it has none."""
    try:
        return answer(ok=True, text=decode(bytes_of(raw)))
    except RosterError as error:
        return answer(ok=False, control="", text=f"{name[:80]}: {error}")


def bytes_of(raw) -> bytes:
    """The bytes of a file as the browser hands them over, or as Python does."""
    return bytes(raw.to_py() if hasattr(raw, "to_py") else raw)


def make(given: str) -> str:
    """A class from the controls of the page.

    given  JSON: list (text), phrase, kinds (slugs), common ({word: text}), own ({slug: {word: text}}), site,
           and marks, a scheme as the class file has it, or none
    """
    said = json.loads(given)
    try:
        found = look(said["list"])
    except RosterError as error:
        return refusal(error, "list")
    try:
        tasks = tasks_from(said["kinds"], said["common"], said["own"])
        made = class_file.make(found.students, said["phrase"], tasks, said["site"], from_dict(said.get("marks") or {}))
    except PhraseError as error:
        return refusal(error, "phrase")
    except SchemeError as error:
        return refusal(error, "marks")
    except ClassError as error:
        return refusal(error, "site" if "site's address" in str(error) else "kinds")
    return _summary(class_file.written(made), found.notes)


def open_file(text: str) -> str:
    """A class from its file."""
    try:
        made = open_text(text).made
        return _summary(class_file.written(made), given=_given(made))
    except (ClassError, PhraseError) as error:
        return refusal(error, "file")


def _given(made: Class) -> dict:
    """The controls of the page as they would be set for this class; see `make`."""
    rows = (
        [("roll", "name"), *made.students] if any(s.name for s in made.students) else [(s.roll,) for s in made.students]
    )
    words = {t.kind.slug: words_of(t.setting) for t in made.tasks}
    first = next(iter(words.values()))
    alike = all(w == first for w in words.values())
    common = {w: "" if t == OPEN else t for w, t in first.items()}
    return {
        "list": lines(rows).replace("\r\n", "\n"),
        "phrase": made.phrase,
        "site": made.site,
        "kinds": list(words),
        "common": common if alike else {},
        "own": {} if alike else words,
    }


def _summary(text: str, notes: tuple[str, ...] = (), given: dict | None = None) -> str:
    opened = open_text(text)
    made = opened.made
    rows = [[s.roll, s.name, [str(code) for _, code in given]] for s, given in opened.codes[:SHOWN]]
    many = len(made.students)
    kinds = [t.kind.title for t in made.tasks]
    return answer(
        ok=True,
        text=text,
        notes=notes,
        students=many,
        sheets=many * len(kinds),
        kinds=[{"slug": t.kind.slug, "title": t.kind.title, "setting": _setting_words(t)} for t in made.tasks],
        rows=rows,
        more=max(0, many - SHOWN),
        says=f"{many:,} student{'s' if many > 1 else ''}, {many * len(kinds):,} sheet{'s' if many * len(kinds) > 1 else ''}: {', '.join(kinds)}.",
        site=made.site,
        marks=as_dict(made.scheme),
        given=given,
    )


def _setting_words(task) -> str:
    """What the laboratory fixed for a task, in words."""
    words = {"place": "{}", "step": "scale step {}°", "length": "magnets of {} mm", "distances": "{} distances"}
    chosen = [words[word].format(text) for word, text in words_of(task.setting).items() if text != OPEN]
    return ", ".join(chosen) or "all left to the draw"


def part(text: str, name: str, start: int, stop: int, css: str = "") -> str:
    """A stretch of one of the class's files (see packs.PACKS), for the students from `start` up to `stop`.

    css  the notebook's style sheet; needed where start is 0
    """
    try:
        opened, pack = open_text(text), PACKS[name]
        pieces = [pack.head(opened.made, css)] if start == 0 else []
        pieces += [pack.piece(opened.made, student, given) for student, given in opened.codes[start:stop]]
        if stop >= len(opened.codes):
            pieces.append(pack.foot)
    except (ClassError, PhraseError) as error:
        return refusal(error)
    return answer(ok=True, text="".join(pieces))


def students(text: str) -> str:
    """Roll and name of each student, for choosing one."""
    return answer(ok=True, students=[[s.roll, s.name] for s in open_text(text).made.students])

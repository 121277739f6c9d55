"""The class file: all that makes a class, as text that a person can read, so that it can be made again."""

import json
import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from exercises.bench.local_field import PLACES
from exercises.classroom.class_list.codes import codes_for, tidy_phrase
from exercises.classroom.class_list.roster import RosterError, Student, read
from exercises.classroom.marking.scheme import Scheme, SchemeError, as_dict, from_dict
from exercises.classroom.refused import Part, Refused
from exercises.codes.editions import places_of
from exercises.codes.sheet_code import Setting, SheetCode, pack
from exercises.files.tables import lines
from exercises.files.text import without_mark
from exercises.kinds.kind import Kind, all_kinds

ABOUT = (
    "A class of Eight Readings. With this file the same codes are made again. It holds the class phrase: "
    "whoever has it can make every student's code and key, so keep it where no student reads it."
)
SETTINGS = ("place", "scale_step_degrees", "distances", "length_mm")
_TOO_LARGE = 1_000_000_000_000  # for an edition or a setting
_DEEPEST = 20  # brackets in brackets; a class file has four


class ClassError(Refused):
    """A class that cannot be made or used as it was given; the text says why."""

    def __init__(self, text: str, part: Part) -> None:
        super().__init__(text)
        self.part = part


@dataclass(frozen=True)
class Task:
    """What every student of a class is set: a kind, the edition of its numbers, and what the laboratory fixed."""

    kind: Kind
    edition: int
    setting: Setting = Setting()


type Assigned = tuple[Task, SheetCode]  # a task, and the code of one student for it


@dataclass(frozen=True)
class Class:
    """A class: who is in it, the phrase, what is set, the site's address, and how work is marked."""

    students: tuple[Student, ...]
    phrase: str
    tasks: tuple[Task, ...]
    site: str = ""
    scheme: Scheme = Scheme()

    def codes(self) -> list[tuple[Student, list[Assigned]]]:
        """Every student with a code for each task, in the order of the list; worked out once."""
        return self._codes

    @cached_property
    def _codes(self) -> list[tuple[Student, list[Assigned]]]:
        by_task = [(t, codes_for(self.students, self.phrase, t.kind, t.setting, t.edition)) for t in self.tasks]
        return [(s, [(task, codes[s]) for task, codes in by_task]) for s in self.students]


def task(slug: str, setting: Setting = Setting(), edition: int | None = None) -> Task:
    """A task by the name of its kind; None is the current edition.  ClassError if it cannot be set."""
    offered = all_kinds()
    if slug not in offered:
        raise ClassError(
            f"There is no kind of exercise “{slug[:40]}”. There are: {', '.join(sorted(offered))}.", "kinds"
        )
    kind = offered[slug]
    chosen = kind.edition if edition is None else edition
    if chosen not in kind.draws:
        raise ClassError(
            f"This site does not have edition {chosen} of {slug}. Use the newer site for this class.", "kinds"
        )
    try:
        pack(setting, chosen)
    except ValueError as error:
        told = str(error)
        raise ClassError(f"{told[0].upper()}{told[1:]} (set for {slug}).", "kinds") from None
    return Task(kind, chosen, setting)


def make(
    students: Iterable[Student], phrase: str, tasks: Iterable[Task], site: str = "", scheme: Scheme = Scheme()
) -> Class:
    """A class from what was given, checked.  ClassError or PhraseError, with a sentence, if it cannot be."""
    tasks = tuple(tasks)
    if not tasks:
        raise ClassError("No kind of exercise was given. Choose at least one.", "kinds")
    slugs = [t.kind.slug for t in tasks]
    if twice := next((s for s in slugs if slugs.count(s) > 1), None):
        raise ClassError(f"The kind {twice} is given twice. Each kind of exercise is set once in a class.", "kinds")
    if site and (len(site) > 300 or not site.isprintable() or not re.fullmatch(r"https?://[^\s?#\"'<>\\]+", site)):
        raise ClassError(
            "The site's address must begin with http:// or https:// and have no space, ? or # in it.", "site"
        )
    return Class(tuple(students), tidy_phrase(phrase), tasks, site, scheme)


def class_text(class_: Class) -> str:
    """The class as the text of its file, one student a line."""
    common: dict[str, object] = {
        "about": ABOUT,
        "phrase": class_.phrase,
        "site": class_.site,
        "marks": as_dict(class_.scheme),
    }
    lists: dict[str, list[dict[str, Any]]] = {
        "kinds": [_task_fields(t) for t in class_.tasks],
        "students": [{"roll": s.roll, "name": s.name} for s in class_.students],
    }
    parts = [f"  {_json(key)}: {_json(value)}" for key, value in common.items()]
    parts += [f"  {_json(key)}: [\n    " + ",\n    ".join(map(_json, rows)) + "\n  ]" for key, rows in lists.items()]
    return "{\n" + ",\n".join(parts) + "\n}\n"


def _task_fields(set_: Task) -> dict[str, object]:
    setting = set_.setting
    place = None if setting.place is None else PLACES[setting.place].name
    chosen = (place, setting.scale_step, setting.distances, setting.length_mm)
    return {"kind": set_.kind.slug, "edition": set_.edition, **dict(zip(SETTINGS, chosen, strict=True))}


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False)


def read_class(text: str) -> Class:
    """The class of a file's text.  ClassError, with a sentence, if it is not one."""
    try:
        if _nested(text):  # the browser's Python does not survive what is nested thousands deep
            raise ValueError
        found = json.loads(without_mark(text))
        rows = [(s["roll"], s["name"]) for s in found["students"]]
        # a file of before each kind had its own settings has one for all, and no marks
        common = {name: found[name] for name in SETTINGS if name in found}
        kinds = [_task_of({**common, **k}) for k in found["kinds"]]
        phrase, site, marks = found["phrase"], found["site"], found.get("marks", {})
        if not all(isinstance(t, str) for t in (phrase, site, *(cell for row in rows for cell in row))):
            raise TypeError
        if not isinstance(marks, dict):
            raise TypeError
    except (ValueError, TypeError, KeyError, RecursionError) as error:
        what = f" near line {error.lineno}" if isinstance(error, json.JSONDecodeError) else ""
        raise ClassError(
            f"This is not a class file, or it was damaged{what}. Make the class again from its list.", "file"
        ) from None
    try:
        # the list in a file is held to the same rules as one that is given
        students = read(lines([("roll", "name"), *rows]))
        scheme = from_dict(marks)
    except RosterError as error:
        told = f"The students of this class file cannot be used (counted from line 2): {error}"
        raise ClassError(told, "file") from None
    except SchemeError as error:
        raise ClassError(f"The marks in this class file cannot be used: {error}", "file") from None
    tasks = [
        task(slug, Setting(None if place is None else place_number(place), step, distances, length), edition)
        for slug, edition, place, step, distances, length in kinds
    ]
    return make(students, phrase, tasks, site, scheme)


def _nested(text: str) -> bool:
    """Whether brackets stand deeper in one another than in any class file."""
    bare = re.sub(r'"(?:[^"\\]++|\\.)*+"?|[^][{}"]++', "", text, flags=re.DOTALL)  # without its strings
    for _ in range(_DEEPEST):
        bare = bare.replace("[]", "").replace("{}", "")  # the innermost
    return bare.count("[") + bare.count("{") > _DEEPEST


def _task_of(fields: Mapping[str, Any]) -> tuple[str, int, str | None, float | None, int | None, int | None]:
    """Kind, edition and settings of a task in a file, each of its type.  TypeError or KeyError if one is not."""
    slug, edition, place, step, distances, length = (fields[name] for name in ("kind", "edition", *SETTINGS))
    chosen = step, distances, length
    if not isinstance(slug, str) or type(edition) is not int or not (place is None or isinstance(place, str)):
        raise TypeError
    if not all(c is None or type(c) in (int, float) for c in chosen):
        raise TypeError
    if any(abs(c) >= _TOO_LARGE for c in (edition, *chosen) if c is not None):
        raise ValueError  # a number of a thousand digits is no sentence's
    return slug, edition, place, step, distances, length


def place_number(name: str) -> int:
    """The number of a place by its name, however its capitals and accents are written.  ClassError if there is none."""
    plain = _plain(str(name))
    for number, place in enumerate(places_of()):
        if _plain(place.name) == plain:
            return number
    raise ClassError(
        f"There is no place “{str(name)[:40]}” here. There are: {', '.join(p.name for p in places_of())}.", "kinds"
    )


def _plain(name: str) -> str:
    return "".join(c for c in unicodedata.normalize("NFKD", name.casefold()) if c.isalpha())

"""The class file: all that makes a class, as text that a person can read, so that it can be made again."""

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from functools import cached_property
from typing import Any

from exercises.classroom.class_list.attempts import Again, again_of, fields_of
from exercises.classroom.class_list.cells import Row, clean
from exercises.classroom.class_list.class_keys import not_known
from exercises.classroom.class_list.codes import codes_for, tidy_phrase
from exercises.classroom.class_list.columns import Columns
from exercises.classroom.class_list.heading import Heading, HeadingError
from exercises.classroom.class_list.roster import SEPARATORS, RosterError, Student, students_of_rows
from exercises.classroom.examination import readiness
from exercises.classroom.examination.mark_sheet import USUAL as USUAL_WEIGHTS
from exercises.classroom.examination.mark_sheet import MarkSheetError, Weights, weights_from
from exercises.classroom.examination.readiness import Readiness, ReadinessError
from exercises.classroom.marking.scheme import Scheme, SchemeError, as_dict, from_dict
from exercises.classroom.refused import Part, Refused
from exercises.codes.convention_text import ConventionError
from exercises.codes.conventions import BY_KEY, OPEN, instead, setting_from, words_of
from exercises.codes.sheet_code import Setting, SheetCode, pack
from exercises.files.nested import nested
from exercises.files.text import without_mark
from exercises.files.workbook import MOST_ROWS
from exercises.kinds.kind import Kind, all_kinds

ABOUT = (
    "A class of Eight Readings. With this file the same codes are made again. It holds the class phrase: "
    "whoever has it can make every student's code and key, so keep it where no student reads it."
)
FORMER = ("scale_step_degrees", "length_mm")  # settings in class files of the former layout
_TOO_LARGE = 1_000_000_000_000  # for an edition
_DEEPEST = 20  # brackets in brackets; a class file has four


class ClassError(Refused):
    """A class that cannot be made or used as it was given; the text says why."""

    def __init__(self, text: str, part: Part) -> None:
        super().__init__(text)
        self.part = part


@dataclass(frozen=True)
class Task:
    """What every student of a class is set: a kind, the edition of its numbers, and what the laboratory fixed.

    attempt  1; more where some students were set it again, with new numbers
    """

    kind: Kind
    edition: int
    setting: Setting = Setting()
    attempt: int = 1


type Assigned = tuple[Task, SheetCode]  # a task, and the code of one student for it


@dataclass(frozen=True)
class Class:
    """A class: who is in it, the phrase, what is set, the site's address, and how work is marked.

    heading    what stands at the top of its papers
    ready      what shows that a student may go to the bench
    weights    what the parts of the mark sheet of a practical examination count
    separator  what stands between the cells of its list, and of the tables that are made of it: "," or ";" or a tab
    again      what some were set again, with new numbers
    """

    students: tuple[Student, ...]
    phrase: str
    tasks: tuple[Task, ...]
    site: str = ""
    scheme: Scheme = Scheme()
    heading: Heading = Heading()
    separator: str = SEPARATORS[-1]
    ready: Readiness = Readiness()
    weights: Weights = USUAL_WEIGHTS
    again: tuple[Again, ...] = ()

    def codes(self, attempt: int = 1) -> list[tuple[Student, list[Assigned]]]:
        """Every student with a code for each task, in the order of the list; worked out once.

        attempt  of a later one, only who was set something again
        """
        if attempt == 1:
            return self._codes
        of_attempt = [(s, [one for one in given if one[0].attempt == attempt]) for s, given in self.every_code()]
        return [(student, given) for student, given in of_attempt if given]

    def every_code(self) -> list[tuple[Student, list[Assigned]]]:
        """Every student with the codes of all attempts, the first ones first; worked out once."""
        return self._every_code if self.again else self._codes

    @cached_property
    def _every_code(self) -> list[tuple[Student, list[Assigned]]]:
        more: dict[Student, list[Assigned]] = {}
        for again in sorted(self.again, key=lambda a: a.attempt):
            task = next(t for t in self.tasks if t.kind.slug == again.kind)
            codes = codes_for(self.students, self.phrase, task.kind, task.setting, task.edition, again.attempt)
            rolls, later = set(again.rolls), replace(task, attempt=again.attempt)
            for student in self.students:
                if student.roll in rolls:
                    more.setdefault(student, []).append((later, codes[student]))
        return [(student, [*given, *more.get(student, ())]) for student, given in self._codes]

    @cached_property
    def sections(self) -> tuple[str, ...]:
        """The sections in the order in which the list comes to them; with "" where some students have none."""
        return tuple(dict.fromkeys(student.section for student in self.students))

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
    if told := kind.refuses(setting):
        raise ClassError(f"{kind.listing.name}: {told}", "kinds")
    return Task(kind, chosen, setting)


def tasks_from(
    slugs: Iterable[str], common: Mapping[str, str], own: Mapping[str, Mapping[str, str]] | None = None
) -> tuple[Task, ...]:
    """A task for each kind named, in that order.  ClassError, with a sentence, if one cannot be set.

    common  words of conventions.CHOICES for every kind; own  by kind, words that take their place for that one
    """
    own = own or {}
    _setting(common)
    return tuple(task(slug, _setting(instead(common, own.get(slug, {})), slug)) for slug in dict.fromkeys(slugs))


def _setting(words: Mapping[str, str], slug: str = "") -> Setting:
    """The setting of these words, or ClassError; `slug` names the kind that they are for, if they are for one."""
    try:
        return setting_from(words)
    except ConventionError as error:
        raise ClassError(f"{f'For {slug[:40]}: ' if slug else ''}{error}", "kinds") from None


def make(
    students: Iterable[Student],
    phrase: str,
    tasks: Iterable[Task],
    site: str = "",
    scheme: Scheme = Scheme(),
    heading: Heading = Heading(),
    separator: str = SEPARATORS[-1],
) -> Class:
    """A class from what was given, checked.  ClassError or PhraseError, with a sentence, if it cannot be."""
    tasks = tuple(tasks)
    if not tasks:
        raise ClassError("No kind of exercise was given. Choose at least one.", "kinds")
    students = tuple(students)
    if len(students) * len(tasks) >= MOST_ROWS:
        raise ClassError(
            f"{len(students):,} students with {len(tasks)} kinds are more sheets than one table holds. Make several "
            "classes, each of a part of the list.",
            "kinds",
        )
    slugs = [t.kind.slug for t in tasks]
    if twice := next((s for s in slugs if slugs.count(s) > 1), None):
        raise ClassError(f"The kind {twice} is given twice. Each kind of exercise is set once in a class.", "kinds")
    return Class(students, tidy_phrase(phrase), tasks, checked_site(site), scheme, heading, separator)


def checked_site(site: str) -> str:
    """The site's address, or "".  ClassError if it is none."""
    if site and (len(site) > 300 or not site.isprintable() or not re.fullmatch(r"https?://[^\s?#\"'<>\\]+", site)):
        raise ClassError(
            "The site's address must begin with http:// or https:// and have no space, ? or # in it.", "site"
        )
    return site


def class_text(class_: Class) -> str:
    """The class as the text of its file, one student a line."""
    common: dict[str, object] = {
        "about": ABOUT,
        "phrase": class_.phrase,
        "site": class_.site,
        "marks": as_dict(class_.scheme),
    }
    if class_.heading.lines:
        common["heading"] = asdict(class_.heading)
    if class_.ready != Readiness():
        common["ready"] = readiness.as_dict(class_.ready)
    if class_.weights != USUAL_WEIGHTS:
        common["examination"] = dict(class_.weights)
    if class_.separator != SEPARATORS[-1]:
        common["separator"] = class_.separator
    if class_.again:
        common["again"] = [fields_of(again) for again in class_.again]
    lists: dict[str, list[dict[str, Any]]] = {
        "kinds": [_task_fields(t) for t in class_.tasks],
        "students": [_student_fields(s) for s in class_.students],
    }
    parts = [f"  {_json(key)}: {_json(value)}" for key, value in common.items()]
    parts += [f"  {_json(key)}: [\n    " + ",\n    ".join(map(_json, rows)) + "\n  ]" for key, rows in lists.items()]
    return "{\n" + ",\n".join(parts) + "\n}\n"


def _student_fields(student: Student) -> dict[str, str]:
    return {"roll": student.roll, "name": student.name} | ({"section": student.section} if student.section else {})


def _task_fields(set_: Task) -> dict[str, object]:
    fixed = {key: None if text == OPEN else text for key, text in words_of(set_.setting).items()}
    return {"kind": set_.kind.slug, "edition": set_.edition, **fixed}


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False)


def read_class(text: str) -> Class:
    """The class of a file's text.  ClassError, with a sentence, if it is not one."""
    if not without_mark(text).strip():
        raise ClassError(
            "This class file is empty: there is nothing in it. Look for the one of before, or make the class again "
            "from its list, with the same phrase, kinds and settings; the codes are then the same.",
            "file",
        )
    try:
        if nested(text, _DEEPEST):  # the browser's Python does not survive what is nested thousands deep
            raise ValueError
        found = json.loads(without_mark(text))
        rows = [(s["roll"], s["name"], s.get("section", "")) for s in found["students"]]
        if any(name in part for name in FORMER for part in (found, *found["kinds"])):
            raise ClassError(
                "This class file is of the former layout, from before a laboratory could set its own conventions. "
                "Its numbers can no longer be had. Make the class again from its list and its phrase.",
                "file",
            )
        if told := not_known(found):
            raise ClassError(told, "file")
        kinds = [_task_of(k) for k in found["kinds"]]
        phrase, site, marks = found["phrase"], found["site"], found.get("marks", {})
        heading, separator = Heading(**found.get("heading", {})), found.get("separator", SEPARATORS[-1])
        ready = readiness.from_dict(found.get("ready", {}))
        weights = weights_from(dict(found.get("examination", {})))
        if separator not in tuple(SEPARATORS):
            raise ValueError
        if not all(isinstance(t, str) for t in (phrase, site, *(cell for row in rows for cell in row))):
            raise TypeError
        if not isinstance(marks, dict):
            raise TypeError
        again = tuple(
            again_of(one, [slug for slug, *_ in kinds], [roll for roll, *_ in rows]) for one in found.get("again", [])
        )
    except ClassError:
        raise
    except HeadingError as error:
        raise ClassError(f"The heading in this class file cannot be used: {error}", "file") from None
    except (ReadinessError, MarkSheetError) as error:
        raise ClassError(f"A part of this class file cannot be used: {error}", "file") from None
    except (ValueError, TypeError, KeyError, RecursionError) as error:
        what = f" near line {error.lineno}" if isinstance(error, json.JSONDecodeError) else ""
        raise ClassError(
            f"This is not a class file, or it was damaged{what}. Make the class again from its list.", "file"
        ) from None
    try:
        # the list in a file is held to the same rules as one that is given
        cells = (Row(line, [clean(cell, " ") for cell in row]) for line, row in enumerate(rows, 1))
        students = students_of_rows(tuple(cells), Columns(0, (1,), 2))
        scheme = from_dict(marks)
    except RosterError as error:
        told = f"The students of this class file cannot be used (each is counted as a line): {error}"
        raise ClassError(told, "file") from None
    except SchemeError as error:
        raise ClassError(f"The marks in this class file cannot be used: {error}", "file") from None
    tasks = [task(slug, _setting(words, slug), edition) for slug, edition, words in kinds]
    made = make(students, phrase, tasks, site, scheme, heading, separator)
    return replace(made, ready=ready, weights=weights, again=again)


def _task_of(fields: Mapping[str, Any]) -> tuple[str, int, dict[str, str]]:
    """Kind, edition and words of a task in a file, each of its type.  TypeError, KeyError or ValueError if not."""
    slug, edition = fields["kind"], fields["edition"]
    words = {key: fields[key] for key in BY_KEY}
    if not isinstance(slug, str) or type(edition) is not int:
        raise TypeError
    if not all(text is None or isinstance(text, str) for text in words.values()):
        raise TypeError
    if abs(edition) >= _TOO_LARGE:
        raise ValueError  # a number of a thousand digits is no sentence's
    return slug, edition, {key: text or OPEN for key, text in words.items()}

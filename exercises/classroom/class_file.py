"""The class file: all that was given for a class, as text that a person can read, so that it can be made again."""

import json
import re
import unicodedata
from dataclasses import dataclass

from exercises.classroom.codes import codes_for, tidy_phrase
from exercises.classroom.roster import RosterError, Student, read
from exercises.classroom.tables import lines
from exercises.kinds import Kind, all_kinds
from exercises.local_field import PLACES
from exercises.sheet_code import Setting, SheetCode, pack

ABOUT = (
    "A class of Eight Readings. With this file the same codes are made again. It holds the class phrase: "
    "whoever has it can make every student's code and key, so keep it where no student reads it."
)


class ClassError(ValueError):
    """A class that cannot be made as it was given; the text says why."""


@dataclass(frozen=True)
class Class:
    """A class: who is in it, the phrase, the kinds set with the editions of their numbers, the setting, the site."""

    students: tuple[Student, ...]
    phrase: str
    kinds: tuple[tuple[Kind, int], ...]
    setting: Setting = Setting()
    site: str = ""

    def codes(self) -> list[tuple[Student, list[tuple[Kind, SheetCode]]]]:
        """Every student with a code for each kind, in the order of the list."""
        by_kind = [(k, codes_for(self.students, self.phrase, k, self.setting, edition)) for k, edition in self.kinds]
        return [(s, [(kind, codes[s]) for kind, codes in by_kind]) for s in self.students]


def make(students, phrase: str, slugs, setting: Setting = Setting(), site: str = "", editions=None) -> Class:
    """A class from what was given, checked.  ClassError or PhraseError, with a sentence, if it cannot be.

    slugs     names of kinds; editions  of each, or None for the current ones
    """
    offered = all_kinds()
    kinds = []
    for at, slug in enumerate(dict.fromkeys(slugs)):
        if slug not in offered:
            raise ClassError(f"There is no kind of exercise “{slug[:40]}”. There are: {', '.join(sorted(offered))}.")
        edition = editions[at] if editions else offered[slug].edition
        if edition not in offered[slug].draws:
            raise ClassError(f"This site does not have edition {edition} of {slug}. Use the newer site for this class.")
        kinds.append((offered[slug], edition))
    if not kinds:
        raise ClassError("No kind of exercise was given.")
    try:
        pack(setting)
    except ValueError as error:
        raise ClassError(f"{str(error)[0].upper()}{str(error)[1:]}.") from None
    if site and (len(site) > 300 or not site.isprintable() or not re.fullmatch(r"https?://[^\s?#\"'<>\\]+", site)):
        raise ClassError("The site's address must begin with http:// or https:// and have no space, ? or # in it.")
    return Class(tuple(students), tidy_phrase(phrase), tuple(kinds), setting, site)


def written(made: Class) -> str:
    """The class as the text of its file, one student a line."""
    setting = made.setting
    given = {
        "about": ABOUT,
        "phrase": made.phrase,
        "site": made.site,
        "place": None if setting.place is None else PLACES[setting.place].name,
        "scale_step_degrees": setting.scale_step,
        "distances": setting.distances,
        "length_mm": setting.length_mm,
    }
    lists = {
        "kinds": [{"kind": kind.slug, "edition": edition} for kind, edition in made.kinds],
        "students": [{"roll": s.roll, "name": s.name} for s in made.students],
    }
    parts = [f"  {_json(key)}: {_json(value)}" for key, value in given.items()]
    parts += [f"  {_json(key)}: [\n    " + ",\n    ".join(map(_json, rows)) + "\n  ]" for key, rows in lists.items()]
    return "{\n" + ",\n".join(parts) + "\n}\n"


def _json(value) -> str:
    return json.dumps(value, ensure_ascii=False)


def opened(text: str) -> Class:
    """The class of a file's text.  ClassError, with a sentence, if it is not one."""
    try:
        found = json.loads(text.removeprefix("\ufeff"))
        rows = [(s["roll"], s["name"]) for s in found["students"]]
        slugs, editions = [k["kind"] for k in found["kinds"]], [k["edition"] for k in found["kinds"]]
        place, phrase, site = found["place"], found["phrase"], found["site"]
        chosen = found["scale_step_degrees"], found["distances"], found["length_mm"]
        texts = [phrase, site, *([] if place is None else [place]), *slugs, *(cell for row in rows for cell in row)]
        numbers = [*editions, *(c for c in chosen if c is not None)]
        if not all(isinstance(t, str) for t in texts) or not all(type(n) in (int, float) for n in numbers) or not all(type(e) is int for e in editions):
            raise TypeError
        if len(set(slugs)) != len(slugs):
            raise ClassError("This class file names a kind of exercise twice. Take one of the two out.")
    except (ValueError, TypeError, KeyError, RecursionError) as error:
        if isinstance(error, ClassError):
            raise
        what = f" near line {error.lineno}" if isinstance(error, json.JSONDecodeError) else ""
        raise ClassError(f"This is not a class file, or it was damaged{what}. Make the class again from its list.") from None
    try:
        # the list in a file is held to the same rules as one that is given
        students = read(lines([("roll", "name"), *rows]))
    except RosterError as error:
        raise ClassError(f"The students of this class file cannot be used (counted from line 2): {error}") from None
    return make(students, phrase, slugs, Setting(None if place is None else place_number(place), *chosen), site, editions)


def place_number(name: str) -> int:
    """The number of a place by its name, however its capitals and accents are written.  ClassError if there is none."""
    plain = _plain(str(name))
    for number, place in enumerate(PLACES):
        if _plain(place.name) == plain:
            return number
    raise ClassError(f"There is no place “{str(name)[:40]}” here. There are: {', '.join(p.name for p in PLACES)}.")


def _plain(name: str) -> str:
    return "".join(c for c in unicodedata.normalize("NFKD", name.casefold()) if c.isalpha())

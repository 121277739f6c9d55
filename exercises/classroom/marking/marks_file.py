"""The marks file: all that came in for a class, how it is marked, and what was set by hand, as text that grows.

The marks are made from it and the class file; it holds no mark that was not
set by hand.  It is JSON with one slip a line, so that a person can read and mend it.
"""

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields, replace
from datetime import datetime
from typing import Any

from exercises.classroom.class_list import fingerprint
from exercises.classroom.class_list.class_file import Class
from exercises.classroom.class_list.fingerprint import Fingerprint, differences, fingerprint_of
from exercises.classroom.marking import by_hand as hand
from exercises.classroom.marking.by_hand import ByHand, checked
from exercises.classroom.marking.scheme import Scheme, SchemeError, as_dict, from_dict
from exercises.classroom.refused import Refused
from exercises.files.nested import nested
from exercises.files.text import without_mark
from exercises.return_slip.lines import Problem, ReturnSlip, hour
from exercises.working.words import listed, many

NAME = "marks.json"
ABOUT = (
    "What came in for a class of Eight Readings, how it is marked, and what was set by hand. With it and the class "
    "file the same marks are made again. It names students: keep it where no student reads it."
)
_DEEPEST = 6  # brackets in brackets; a marks file has four
_MAILED = re.compile(r"\d{4}-\d\d-\d\d \d\d:\d\d:\d\d", re.ASCII)
_KEYS = ("about", "class", "marks", *hand.LISTS, "slips", "problems")
_SLIP = {field.name: field for field in fields(ReturnSlip)}


class MarksFileError(Refused):
    """A marks file that cannot be used; the text says why."""

    part = "file"


@dataclass(frozen=True)
class MarksFile:
    """What a marks file holds: of which class it is, how it is marked, what was set by hand, and what came in."""

    of: Fingerprint
    scheme: Scheme
    by_hand: ByHand = hand.NONE
    slips: tuple[ReturnSlip, ...] = ()
    problems: tuple[Problem, ...] = ()


@dataclass(frozen=True)
class Joined:
    """What a marks file gained: how many sheets are new in it, how many have a slip more, how many nothing more."""

    new: int
    amended: int
    same: int

    @property
    def text(self) -> str:
        """In a sentence, or "" where nothing came in."""
        parts = [
            *([f"{many(self.new, 'sheet')} {_is(self.new)} new"] if self.new else []),
            *([f"{many(self.amended, 'sheet')} {_is(self.amended)} amended"] if self.amended else []),
            *([f"{many(self.same, 'sheet')} {_is(self.same)} the same as before"] if self.same else []),
        ]
        return f"Of what came in, {listed(parts)}." if parts else ""


def _is(number: int) -> str:
    return "is" if number == 1 else "are"


def begun(class_: Class) -> MarksFile:
    """That of a class for which nothing has come in."""
    return MarksFile(fingerprint_of(class_), class_.scheme)


def joined(before: MarksFile, slips: Iterable[ReturnSlip], problems: Iterable[Problem]) -> tuple[MarksFile, Joined]:
    """The file with what came in now after what it has, and what that changed.

    A slip that is there already is not put in again.  A problem gives way to what came in now from the same source, and
    to a new slip of the same sheet.
    """
    came = tuple(slips)
    had = {_content(slip) for slip in before.slips}
    more = tuple(slip for slip in came if _content(slip) not in had)
    codes = {_code(slip) for slip in before.slips}
    added, all_came = {_code(slip) for slip in more}, {_code(slip) for slip in came}
    now = tuple(problems)
    sources = {slip.source for slip in came} | {problem.source for problem in now}
    kept = (p for p in before.problems if p.source not in sources and _code(p) not in added)
    gained = Joined(len(added - codes), len(added & codes), len(all_came - added))
    return replace(before, slips=(*before.slips, *more), problems=(*now, *kept)), gained


def taken_out(file: MarksFile, source: str) -> MarksFile:
    """The file without what came in from one source.  MarksFileError, with a sentence, if nothing did.

    What else stands in the same file or mail, as in “a.txt, slip 2”, goes with it.
    """

    def other(came: ReturnSlip | Problem) -> bool:
        return came.source != source and not came.source.startswith(f"{source}, ")

    slips, problems = tuple(filter(other, file.slips)), tuple(filter(other, file.problems))
    if len(slips) + len(problems) == len(file.slips) + len(file.problems):
        raise MarksFileError(
            f"Nothing in the marks file came in from “{source[:80]}”. Write it as it stands in not-marked.csv or in a "
            "note."
        )
    return replace(file, slips=slips, problems=problems)


def _content(slip: ReturnSlip) -> tuple[object, ...]:
    """What makes two slips the same, wherever they were found."""
    answers, firsts = (tuple(sorted(given.items())) for given in (slip.answers, slip.firsts))
    return slip.who, slip.code, answers, firsts, slip.number, slip.written, slip.by_hand


def _code(of: ReturnSlip | Problem) -> str:
    return of.code.strip().casefold()


# ---- as text ----------------------------------------------------------------


def marks_text(file: MarksFile) -> str:
    """The file as text, one slip a line."""
    common = {"about": ABOUT, "class": fingerprint.as_dict(file.of), "marks": as_dict(file.scheme)}
    lists: dict[str, list[dict[str, Any]]] = {
        **hand.as_lists(file.by_hand),
        "slips": [_slip_fields(slip) for slip in file.slips],
        "problems": [_problem_fields(problem) for problem in file.problems],
    }
    parts = [f'  "{key}": {_json(value)}' for key, value in common.items()]
    for key, rows in lists.items():
        inside = "\n    " + ",\n    ".join(map(_json, rows)) + "\n  " if rows else ""
        parts.append(f'  "{key}": [{inside}]')
    return "{\n" + ",\n".join(parts) + "\n}\n"


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False)


def _slip_fields(slip: ReturnSlip) -> dict[str, Any]:
    """A slip as JSON has it; what it does not say is left out."""
    found = {name: getattr(slip, name) for name in _SLIP}
    return {name: value for name, value in found.items() if value or name in ("who", "code", "answers")}


def _problem_fields(problem: Problem) -> dict[str, Any]:
    found: dict[str, Any] = {field.name: getattr(problem, field.name) for field in fields(Problem)}
    return {**found, "slip": problem.slip and _slip_fields(problem.slip)}


def read_marks(text: str, class_: Class) -> MarksFile:
    """The marks file of a class.  MarksFileError, with a sentence, if it is none or is of another class."""
    file = _read(text)
    if differ := differences(file.of, fingerprint_of(class_)):
        raise MarksFileError(f"This marks file is of another class. {' '.join(differ)}")
    if not file.by_hand.entries:
        return replace(file, of=fingerprint_of(class_))
    try:
        by_hand = ByHand(checked(file.by_hand.entries, replace(class_, scheme=file.scheme), fresh=False))
    except Refused as error:
        raise MarksFileError(f"Something that was set by hand in this marks file cannot be used: {error}") from None
    return replace(file, of=fingerprint_of(class_), by_hand=by_hand)


def _read(text: str) -> MarksFile:
    if not text.strip():
        raise MarksFileError("This marks file is empty. Use the one of before, or take this one away.")
    try:
        if nested(text, _DEEPEST):  # the browser's Python does not survive what is nested thousands deep
            raise ValueError
        found = json.loads(without_mark(text))
        if strange := [key for key in found if key not in _KEYS]:
            raise MarksFileError(f"This marks file has “{strange[0][:40]}”. There are: {', '.join(_KEYS)}.")
        return MarksFile(
            fingerprint.from_dict(found["class"]),
            from_dict(found["marks"]),
            hand.from_lists(found),
            tuple([_slip_of(fields) for fields in found["slips"]]),
            tuple([_problem_of(fields) for fields in found["problems"]]),
        )
    except SchemeError as error:
        raise MarksFileError(f"The scheme in this marks file cannot be used: {error}") from None
    except MarksFileError:
        raise
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError) as error:
        where = f" near line {error.lineno}" if isinstance(error, json.JSONDecodeError) else ""
        raise MarksFileError(f"This is not a marks file, or it was damaged{where}. Use one of before.") from None


def _slip_of(found: Mapping[str, Any]) -> ReturnSlip:
    """TypeError or ValueError if it is no slip."""
    slip = ReturnSlip(**{"firsts": {}, **found})
    texts = [slip.who, slip.code, slip.source, slip.written, slip.mailed]
    for given in (slip.answers, slip.firsts):
        texts += [*given.keys(), *given.values()]
    if not all(isinstance(text, str) for text in texts) or type(slip.number) is not int:
        raise TypeError
    if hour(slip.written) != slip.written or (slip.mailed and not _MAILED.fullmatch(slip.mailed)):
        raise ValueError
    if slip.mailed:
        datetime.fromisoformat(slip.mailed)
    return slip


def _problem_of(found: Mapping[str, Any]) -> Problem:
    problem = Problem(**{**found, "slip": found["slip"] and _slip_of(found["slip"])})
    if not all(isinstance(text, str) for text in (problem.source, problem.who, problem.code, problem.text)):
        raise TypeError
    return problem

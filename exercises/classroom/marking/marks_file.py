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
from exercises.record.return_slip import is_record
from exercises.return_slip.lines import MOST_SLIPS, Problem, ReturnSlip, hour
from exercises.working.words import listed, many

NAME = "marks.json"
ABOUT = (
    "What came in for a class of Eight Readings, how it is marked, and what was set by hand. With it and the class "
    "file the same marks are made again. It names students: keep it where no student reads it."
)
_DEEPEST = 6  # brackets in brackets; a marks file has four
_MAILED = re.compile(r"\d{4}-\d\d-\d\d \d\d:\d\d:\d\d", re.ASCII)
_KEYS = ("about", "class", "marks", *hand.LISTS, "slips", "problems")
_SLIP = tuple(field.name for field in fields(ReturnSlip))
_PROBLEM = tuple(field.name for field in fields(Problem))


type _Sheet = tuple[str, str]
type _Content = tuple[object, ...]


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

    A slip that is there already is not put in again, but with the date of another mail.  What was typed in by the
    instructor counts as typed now: it goes behind what was typed in since it was typed first.  A problem gives way to
    what came in now in its place, and to a new slip of the same sheet.
    """
    came, now = tuple(slips), tuple(problems)
    of_came = [(slip, _sheet(slip), _content(slip)) for slip in came]
    sheets = {sheet for _, sheet, _ in of_came}
    had = [(sheet, _content(slip)) for slip in before.slips if (sheet := _sheet(slip)) in sheets]
    there = {content for _, content in had}
    more = [one for one in of_came if one[0].by_hand or one[2] not in there]
    typed = {content for slip, _, content in of_came if slip.by_hand}
    stay = [slip for slip in before.slips if not (typed and slip.by_hand and _content(slip) in typed)]
    added = {code for _, (code, _), _ in more}
    kept = [p for p in _kept(before.problems, came, now) if p.code.strip().casefold() not in added]
    file = replace(before, slips=(*stay, *(slip for slip, *_ in more)), problems=(*now, *kept))
    were = _by_sheet(had)
    are = _by_sheet([*(one for one in had if one[1] not in typed), *(one[1:] for one in more)])
    new = sum(sheet not in were for sheet in sheets)
    same = sum(were.get(sheet) == are[sheet] for sheet in sheets)
    return file, Joined(new, len(sheets) - new - same, same)


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


def _content(slip: ReturnSlip) -> _Content:
    """What makes two slips the same, in whatever file they were found."""
    answers, firsts = (frozenset(given.items()) for given in (slip.answers, slip.firsts))
    return slip.who, slip.code, answers, firsts, slip.number, slip.written, slip.mailed, slip.by_hand


def _sheet(slip: ReturnSlip) -> _Sheet:
    """What a slip is of: a sheet by its code, a record by who handed it in, for the code of many is the same."""
    return slip.code.strip().casefold(), slip.who.casefold() if is_record(slip) else ""


def _by_sheet(contents: Iterable[tuple[_Sheet, _Content]]) -> dict[_Sheet, list[_Content]]:
    found: dict[_Sheet, list[_Content]] = {}
    for sheet, content in contents:
        found.setdefault(sheet, []).append(content)
    return found


def _kept(before: Iterable[Problem], came: Iterable[ReturnSlip], now: Iterable[Problem]) -> list[Problem]:
    """The problems of before that still stand: nothing came in now from the same source, or what is of someone else.

    Files of two folders may have one name.  A table of typed answers is read whole, so all that was said of it goes.
    """
    of: dict[str, set[str]] = {}
    tables = {slip.source for slip in came if slip.by_hand}
    newcomers: list[ReturnSlip | Problem] = [*came, *now]
    for one in newcomers:
        of.setdefault(one.source, set()).update((one.who.casefold(), one.code.casefold()))
    kept = []
    for problem in before:
        about = {problem.who.casefold(), problem.code.casefold()} - {""}
        again = of.get(problem.source)
        mended = again is not None and (not about or bool(about & again))
        if not mended and problem.source.rpartition(", ")[0] not in tables:
            kept.append(problem)
    return kept


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
    found: dict[str, Any] = {name: getattr(problem, name) for name in _PROBLEM}
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
        found = json.loads(without_mark(text), object_pairs_hook=_each_key_once)
        if strange := [key for key in found if key not in _KEYS]:
            raise _strange(strange[0], "This marks file", _KEYS)
        for name, keys in (*_hand_keys(), ("slips", _SLIP), ("problems", _PROBLEM)):
            known = set(keys)
            for number, row in enumerate(found.get(name, ()), 1):
                if not row.keys() <= known:
                    strange = [key for key in row if key not in keys]
                    raise _strange(strange[0], f"Line {number} of “{name}” in this marks file", keys)
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


def _hand_keys() -> list[tuple[str, list[str]]]:
    return [(name, [field.name for field in fields(kind)]) for name, kind in hand.LISTS.items()]


def _strange(key: object, where: str, keys: Iterable[str]) -> MarksFileError:
    return MarksFileError(
        f"{where} has “{str(key)[:40]}”, which is not known here. There can be: {', '.join(keys)}. Mend the word if it "
        "was typed; if a newer site wrote the file, use that site."
    )


def _each_key_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """An object of JSON.  MarksFileError if a key is there twice: what the first has would be lost without a word."""
    found = dict(pairs)
    if len(found) < len(pairs):
        keys = [key for key, _ in pairs]
        twice = next(key for key in keys if keys.count(key) > 1)
        raise MarksFileError(f"This marks file has “{twice[:40]}” twice in one place. Put the two together.")
    return found


def _slip_of(found: Mapping[str, Any]) -> ReturnSlip:
    """TypeError or ValueError if it is no slip."""
    slip = ReturnSlip(**{"firsts": {}, **found})
    texts = [slip.who, slip.code, slip.source, slip.written, slip.mailed]
    for given in (slip.answers, slip.firsts):
        texts += [*given.keys(), *given.values()]
    if not all(isinstance(text, str) for text in texts) or (type(slip.number), type(slip.by_hand)) != (int, bool):
        raise TypeError
    if not 0 <= slip.number <= MOST_SLIPS:
        raise ValueError
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

"""The lines of a return slip as they are found in a text, and what is said of those that were changed on the way."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import NamedTuple

from exercises.return_slip.characters import check, read_check, restored
from exercises.return_slip.step_names import nearest, no_such_step, steps_of
from exercises.working.words import listed

MOST_LINES, LONGEST_ANSWER, LONGEST_WHO = 200, 200, 160
HAND_IN, WRITTEN = "hand-in", "written"
OWN_LABELS = ("who", "code", HAND_IN, WRITTEN)  # what a slip says of itself, in this order
MOST_SLIPS = 9999  # of one sheet, that a page counts
_HOUR = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2} [0-9]{2}:[0-9]{2}")
_ENDS = re.compile(r"\[ ?([0-9A-Za-z]{2}) ?\]")
_LABEL = re.compile(r"(?<![0-9])([0-9]{1,3})[ .):-]{1,3}((?:first )?[a-z][a-z0-9-]{0,39}) ?: ?", re.IGNORECASE)
_LONGEST_CHUNK, _MOST_TRIED = 5_000, 20
_MOST_RENAMED = 6  # lines of a slip whose names are held against its sheet: no more are told


@dataclass(frozen=True)
class ReturnSlip:
    """What one student handed in for one sheet; nothing in it is more than what was typed.

    who      roll or name;  code  of the sheet
    answers  step id -> as last typed;  firsts  step id -> as first typed, where that is something else
    source   where it was found
    number   which of the slips of this sheet it is, as the student's page counted them from 1; 0 where it does not say
    written  date and hour at which that page made it, by its own clock, "2026-11-26 14:05"; "" where it does not say
    mailed   date and hour of the mail that it came in, UTC, "2026-11-26 13:06:41", or ""
    by_hand  whether it was typed in by the instructor: its answers then amend what has come in; "" takes one out
    """

    who: str
    code: str
    answers: Mapping[str, str]
    firsts: Mapping[str, str]
    source: str = field(default="", compare=False)
    number: int = 0
    written: str = ""
    mailed: str = field(default="", compare=False)
    by_hand: bool = False


@dataclass(frozen=True)
class Problem:
    """Something handed in that could not be used: where it was found, whose it seems to be, and what to do.

    slip  what could be read of it, or None; it is to look at, not to be marked
    one_of_all  whether another problem says it of all at once: then this one stands in the table alone
    """

    source: str
    who: str
    code: str
    text: str
    slip: ReturnSlip | None = None
    one_of_all: bool = False


class ReturnLine(NamedTuple):
    """One line of a slip; its label is one of OWN_LABELS, a step's id, or “first ” and a step's id."""

    number: int
    label: str
    text: str

    @property
    def checked_text(self) -> str:
        """What its check is worked from; capitals make no other person and no other code."""
        text = self.text.casefold() if self.label in ("who", "code") else self.text
        return f"{self.number} {self.label}: {text}"


def check_of_all(lines: Iterable[ReturnLine]) -> str:
    """The check over all lines of a return slip, in order."""
    return check("\n".join(line.checked_text for line in lines), 5)


def lines_in(tidy: str) -> list[ReturnLine]:
    """The lines in the order of their numbers, taking each piece as it stands; of a number twice, the last."""
    found = {}
    for chunk in _ENDS.split(tidy)[::2]:
        if (label := _LABEL.search(chunk)) and (line := _line(chunk, label)):
            found[line.number] = line
    return [found[n] for n in sorted(found)]


def _line(chunk: str, label: re.Match[str]) -> ReturnLine | None:
    try:
        return ReturnLine(int(label[1]), label[2].lower(), restored(chunk[label.end() :].strip()))
    except ValueError:
        return None


def agree(lines: list[ReturnLine], end: re.Match[str]) -> bool:
    """Whether these are all the lines and the check over all agrees."""
    if not 2 <= len(lines) <= MOST_LINES or len(lines) != int(end["count"]) or lines[-1].number != len(lines):
        return False
    if [line.label for line in lines[:2]] != ["who", "code"] or any(len(line.text) > LONGEST_ANSWER for line in lines):
        return False
    return check_of_all(lines) == read_check(end["all"])


def return_slip_of(lines: list[ReturnLine], where: str) -> ReturnSlip:
    """The return slip of its lines, the first two of which are who and code; `where` is its source."""
    texts = {line.label: line.text for line in lines}
    own = {label: texts.pop(label, "") for label in OWN_LABELS}
    answers = {label: text for label, text in texts.items() if not label.startswith("first ")}
    firsts = {label[6:]: text for label, text in texts.items() if label.startswith("first ")}
    # “87X5” becomes “87×5” where a program mends what it takes for a product
    code = own["code"].replace("×", "X")
    return ReturnSlip(own["who"], code, answers, firsts, where, hand_in_number(own[HAND_IN]), hour(own[WRITTEN]))


def hand_in_number(text: str) -> int:
    """Which of the slips of a sheet one is, as it is written, or 0 where it is no such number."""
    return int(text) if re.fullmatch("[1-9][0-9]{0,3}", text) else 0


def hour(text: str) -> str:
    """A date and an hour as they stand in a slip, "2026-11-26 14:05"; "" where the text is none."""
    try:
        return text if _HOUR.fullmatch(text) and datetime.fromisoformat(text) else ""
    except ValueError:
        return ""


class LineTrouble(NamedTuple):
    """What is wrong with a line of a return slip: its number, if it has one, and a sentence."""

    number: int | None
    text: str


def looked_at(tidy: str) -> tuple[list[ReturnLine], list[LineTrouble]]:
    """The lines whose own checks agree, in order, and what is wrong with each other.

    A line is among them too if its check agrees once the name of its step is spelt as on the sheet.
    """
    found: dict[int, ReturnLine] = {}
    troubles: list[LineTrouble] = []
    changed: list[tuple[ReturnLine, str]] = []  # with the checks at their ends
    pieces = _ENDS.split(tidy)
    for chunk, said in zip(pieces[::2], [*pieces[1::2], None]):
        labels = list(_LABEL.finditer(chunk[:_LONGEST_CHUNK]))[:_MOST_TRIED]
        tried = [(label, line) for label in labels if (line := _line(chunk, label))]
        good = next((at for at, (_, line) in enumerate(tried) if said and _agrees(line, said)), None)
        before = tried[:good] if good is not None else tried[:-1] if said else tried
        if good is not None:
            line = tried[good][1]
            if found.setdefault(line.number, line) != line:
                troubles.append(LineTrouble(line.number, f"Line {line.number} is there twice, and the two differ."))
        elif said and tried:
            line = tried[-1][1]
            changed.append((line, said))
            found.setdefault(line.number, line)
        elif said:
            told = f"A line that ends in [{said.upper()}] has lost its number or label: “{shown(chunk)}”."
            troubles.append(LineTrouble(None, told))
        troubles += [_without_check(chunk, label, line) for label, line in before]
    code = next((line.text for line in found.values() if line.label == "code"), "")
    for at, (line, said) in enumerate(changed):
        names = (*OWN_LABELS, *steps_of(code)) if at < _MOST_RENAMED else ()
        renamed, trouble = _renamed(line, said, names)
        found[line.number] = renamed if found[line.number] == line else found[line.number]
        troubles.append(trouble)
    return [found[n] for n in sorted(found)], troubles


def _agrees(line: ReturnLine, said: str) -> bool:
    return check(line.checked_text, 2) == read_check(said)


def _renamed(line: ReturnLine, said: str, names: Sequence[str]) -> tuple[ReturnLine, LineTrouble]:
    """A line whose check does not agree, with the name of its step mended if that is what is wrong, and what is said.

    names  what a line of this sheet may be called; of a sheet that is not known only those of every slip
    """
    first, _, name = line.label.rpartition(" ")
    if name in names or len(names) <= len(OWN_LABELS):
        return line, _changed(line, said)
    for near in nearest(name, names):
        other = line._replace(label=f"{first} {near}".strip())
        if _agrees(other, said):
            told = f"Line {line.number} is called “{name}”; by its check it is {near}. Mend that word."
            return other, LineTrouble(line.number, told)
    told = no_such_step(name, names)
    return line, LineTrouble(line.number, f"Line {line.number} has a wrong name or a wrong answer: {told}.")


def _without_check(chunk: str, label: re.Match[str], line: ReturnLine) -> LineTrouble:
    own = chunk[label.end() :]
    text = own[: other.start()] if (other := _LABEL.search(own)) else own
    told = f"Line {line.number} ({line.label}) has lost the check at its end: “{shown(text)}”."
    return LineTrouble(line.number, told)


def _changed(line: ReturnLine, said: str) -> LineTrouble:
    told = (
        f"Line {line.number} ({line.label}) was changed on the way: it reads “{shown(line.text)}”, "
        f"its check says {read_check(said)}, and for what stands there it should be {check(line.checked_text, 2)}."
    )
    return LineTrouble(line.number, told)


def problem_of(lines: list[ReturnLine], troubles: list[LineTrouble], end: re.Match[str] | None, where: str) -> Problem:
    """What is said of a return slip that does not agree; `end` is the match of its last line, if there is one."""
    by_label = {line.label: line for line in lines}
    who, code = (shown(by_label[k].text) if k in by_label else "" for k in ("who", "code"))
    told = [trouble.text for trouble in troubles]
    if missing := _missing(lines, troubles, end):
        many = len(missing) > 1
        told.append(f"Line{'s' * many} {_listed(missing)} {'are' if many else 'is'} missing.")
    if about_end := _about_end(lines, end, bool(told)):
        told.append(about_end)
    more = f" And {len(told) - 6} more line{'s' if len(told) > 7 else ''}." if len(told) > 6 else ""
    advice = "Ask for the slip again, or look at a photograph of it and mend the text."
    rest = [line for line in lines if line.label not in ("who", "code")]
    readable = return_slip_of([ReturnLine(1, "who", who), ReturnLine(2, "code", code), *rest], where) if rest else None
    text = f"This slip cannot be used as it is. {' '.join(told[:6])}{more} {advice}"
    return Problem(where, who, code, text, readable)


def _missing(lines: list[ReturnLine], troubles: list[LineTrouble], end: re.Match[str] | None) -> list[int]:
    """The numbers of the lines that should be there and of which nothing was found."""
    numbers = {line.number for line in lines}
    count = min(int(end["count"]), MOST_LINES) if end else max(numbers, default=0)
    numbers |= {trouble.number for trouble in troubles if trouble.number is not None}
    return [n for n in range(1, count + 1) if n not in numbers]


def _about_end(lines: list[ReturnLine], end: re.Match[str] | None, told: bool) -> str:
    """What is wrong at the end of a return slip, or with its number of lines, or "".

    told  whether something is said of its lines already, which then is enough
    """
    if end is None:
        if lines:
            return "It is cut short: its last line, “END OF SLIP …”, is missing."
        return "It is cut short: no line of it follows."
    count = min(int(end["count"]), MOST_LINES)
    if int(end["count"]) > MOST_LINES or len(lines) > MOST_LINES:
        return f"A slip has at most {MOST_LINES} lines."
    if told:
        return ""
    if len(lines) != count:
        return f"Its last line says {count} lines, and {len(lines)} are here."
    return (
        "The check of each line agrees but the one over all does not: lines of two slips are mixed, or the last "
        f"line was changed. If you are sure of every line, its last line must end in {check_of_all(lines)}."
    )


def _listed(numbers: list[int]) -> str:
    words = [str(n) for n in numbers[:10]] + ["others"] * (len(numbers) > 10)
    return listed(words)


def shown(text: str) -> str:
    """A text as it may stand in a sentence: at most 60 characters that can be seen."""
    plain = "".join(c if c.isprintable() else "\ufffd" for c in text[:61].strip())
    return plain if len(plain) <= 60 else plain[:60] + "…"

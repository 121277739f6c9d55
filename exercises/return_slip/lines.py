"""The lines of a return slip as they are found in a text, and what is said of those that were changed on the way."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from exercises.return_slip.characters import check, read_check, restored

MOST_LINES, LONGEST_ANSWER, LONGEST_WHO = 200, 200, 160
_ENDS = re.compile(r"\[ ?([0-9A-Za-z]{2}) ?\]")
_LABEL = re.compile(r"(?<![0-9])([0-9]{1,3})[ .):-]{1,3}((?:first )?[a-z][a-z0-9-]{0,39}) ?: ?", re.IGNORECASE)
_LONGEST_CHUNK, _MOST_TRIED = 5_000, 20


@dataclass(frozen=True)
class ReturnSlip:
    """What one student handed in for one sheet; nothing in it is more than what was typed.

    who      roll or name;  code  of the sheet
    answers  step id -> as last typed;  firsts  step id -> as first typed, where that is something else
    source   where it was found
    """

    who: str
    code: str
    answers: Mapping[str, str]
    firsts: Mapping[str, str]
    source: str = field(default="", compare=False)


@dataclass(frozen=True)
class Problem:
    """Something handed in that could not be used: where it was found, whose it seems to be, and what to do.

    slip  what could be read of it, or None; it is to look at, not to be marked
    """

    source: str
    who: str
    code: str
    text: str
    slip: ReturnSlip | None = None


class Line(NamedTuple):
    """One line of a slip; its label is “who”, “code”, a step's id, or “first ” and a step's id."""

    number: int
    label: str
    text: str

    @property
    def whole(self) -> str:
        """What its check is worked from; capitals make no other person and no other code."""
        text = self.text.casefold() if self.label in ("who", "code") else self.text
        return f"{self.number} {self.label}: {text}"


def check_of_all(lines) -> str:
    return check("\n".join(line.whole for line in lines), 5)


def lines_in(tidy: str) -> list[Line]:
    """The lines in the order of their numbers, taking each piece as it stands; of a number twice, the last."""
    found = {}
    for chunk in _ENDS.split(tidy)[::2]:
        if (label := _LABEL.search(chunk)) and (line := _line(chunk, label)):
            found[line.number] = line
    return [found[n] for n in sorted(found)]


def _line(chunk: str, label: re.Match) -> Line | None:
    try:
        return Line(int(label[1]), label[2].lower(), restored(chunk[label.end() :].strip()))
    except ValueError:
        return None


def agree(lines: list[Line], end: re.Match) -> bool:
    """Whether these are all the lines and the check over all agrees."""
    if not 2 <= len(lines) <= MOST_LINES or len(lines) != int(end["count"]) or lines[-1].number != len(lines):
        return False
    if [line.label for line in lines[:2]] != ["who", "code"] or any(len(line.text) > LONGEST_ANSWER for line in lines):
        return False
    return check_of_all(lines) == read_check(end["all"])


def slip_of(lines: list[Line], where: str) -> ReturnSlip:
    who, code, *rest = lines
    answers = {line.label: line.text for line in rest if not line.label.startswith("first ")}
    firsts = {line.label[6:]: line.text for line in rest if line.label.startswith("first ")}
    # “87X5” becomes “87×5” where a program mends what it takes for a product
    return ReturnSlip(who.text, code.text.replace("×", "X"), answers, firsts, where)


def looked_at(tidy: str) -> tuple[list[Line], list[str]]:
    """The lines whose own checks agree, in order, and a sentence on each that has none."""
    found: dict[int, Line] = {}
    troubles: list[str] = []
    pieces = _ENDS.split(tidy)
    for chunk, said in zip(pieces[::2], [*pieces[1::2], None]):
        labels = list(_LABEL.finditer(chunk[:_LONGEST_CHUNK]))[:_MOST_TRIED]
        tried = [(label, line) for label in labels if (line := _line(chunk, label))]
        good = next(
            ((at, line) for at, (_, line) in enumerate(tried) if said and check(line.whole, 2) == read_check(said)),
            None,
        )
        before = tried[: good[0]] if good else tried[:-1] if said else tried
        if good:
            if found.setdefault(good[1].number, good[1]) != good[1]:
                troubles.append(f"Line {good[1].number} is there twice, and the two differ.")
        elif said and tried:
            line = tried[-1][1]
            troubles.append(_changed(line, said))
            found.setdefault(line.number, line)
        elif said:
            troubles.append(f"A line that ends in [{said.upper()}] has lost its number or label: “{shown(chunk)}”.")
        for label, line in before:
            own = chunk[label.end() :]
            text = own[: other.start()] if (other := _LABEL.search(own)) else own
            troubles.append(f"Line {line.number} ({line.label}) has lost the check at its end: “{shown(text)}”.")
    return [found[n] for n in sorted(found)], troubles


def _changed(line: Line, said: str) -> str:
    return (
        f"Line {line.number} ({line.label}) was changed on the way: it reads “{shown(line.text)}”, "
        f"its check says {read_check(said)}, and for what stands there it should be {check(line.whole, 2)}."
    )


def problem_of(lines: list[Line], troubles: list[str], end: re.Match | None, where: str) -> Problem:
    """What is said of a slip that does not agree; `end` is the match of its last line, if there is one."""
    by_label = {line.label: line for line in lines}
    who, code = (shown(by_label[k].text) if k in by_label else "" for k in ("who", "code"))
    numbers = {line.number for line in lines}
    count = min(int(end["count"]), MOST_LINES) if end else max(numbers, default=0)
    named = {int(n) for n in re.findall(r"^Line (\d+)", "\n".join(troubles), re.MULTILINE)}
    missing = [n for n in range(1, count + 1) if n not in numbers | named]
    if missing:
        troubles.append(
            f"Line{'s' * (len(missing) > 1)} {_listed(missing)} {'are' if len(missing) > 1 else 'is'} missing."
        )
    if end is None:
        told = (
            "It is cut short: its last line, “END OF SLIP …”, is missing."
            if lines
            else "It is cut short: no line of it follows."
        )
        troubles.append(told)
    elif int(end["count"]) > MOST_LINES or len(lines) > MOST_LINES:
        troubles.append(f"A slip has at most {MOST_LINES} lines.")
    elif not troubles and len(lines) != count:
        troubles.append(f"Its last line says {count} lines, and {len(lines)} are here.")
    elif not troubles:
        troubles.append(
            "The check of each line agrees but the one over all does not: lines of two slips are mixed, or the last "
            f"line was changed. If you are sure of every line, its last line must end in {check_of_all(lines)}."
        )
    more = f" And {len(troubles) - 6} more line{'s' if len(troubles) > 7 else ''}." if len(troubles) > 6 else ""
    advice = "Ask for the slip again, or look at a photograph of it and mend the text."
    rest = [line for line in lines if line.label not in ("who", "code")]
    kept = slip_of([Line(1, "who", who), Line(2, "code", code), *rest], where)
    return Problem(
        where,
        who,
        code,
        f"This slip cannot be used as it is. {' '.join(troubles[:6])}{more} {advice}",
        kept if rest else None,
    )


def _listed(numbers: list[int]) -> str:
    words = [str(n) for n in numbers[:10]] + ["others"] * (len(numbers) > 10)
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def shown(text: str) -> str:
    """A text as it may stand in a sentence: at most 60 characters that can be seen."""
    plain = "".join(c if c.isprintable() else "\ufffd" for c in text[:61].strip())
    return plain if len(plain) <= 60 else plain[:60] + "…"

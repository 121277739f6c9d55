"""The return slip: what a student hands in, as a text that a person can read and send by any way.

    EIGHT READINGS RETURN SLIP 1
    01 who: Ringed Plover [KP]
    02 code: A3H-222-222 [E6]
    03 hand-in: 2 [H9]
    04 written: 2026-11-26 14:05 [HX]
    05 mean-1: 45.2° [66]
    06 moment-1: 1.62 A·m{^2} [C7]
    07 first mean-1: 44.2 [H5]
    END OF SLIP 7 LINES 8CKNW

A line is a number, a label, the text as typed (characters.py) and a check of two characters; the last
line holds how many there are and a check of five over all of them in order.  “hand-in” is how many slips
of this sheet the student's page had made, this one counted, and “written” when it made this one, by its
own clock; slips of before have neither.  “first” is what was typed first where that is something else.
A line longer than 40 columns goes on in the next, set in; one that ends in a backslash goes on without a
space.

The reader takes any text: what stands before and after, quotation marks of mail, line numbers, lines in
another order or twice, lines broken or run together, even the whole slip on one line.  A slip counts
only if every line is there and the check over all agrees; then one that was changed is taken for whole
once in 6.4 million, and one with a single character changed or two swapped never (characters.check says
when).  If it does not agree, the checks of the lines say which to look at.
"""

import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from exercises.return_slip.characters import carried, check, restored, untangled
from exercises.return_slip.files import Letter
from exercises.return_slip.lines import (
    HAND_IN,
    LONGEST_ANSWER,
    LONGEST_WHO,
    MOST_LINES,
    OWN_LABELS,
    WRITTEN,
    Problem,
    ReturnLine,
    ReturnSlip,
    agree,
    check_of_all,
    lines_in,
    looked_at,
    problem_of,
    return_slip_of,
    shown,
)

FORM = 1
WIDE = 40  # columns: what a telephone shows without going sideways
LONGEST_SLIP = 100_000  # characters as sent
MOST_CHARACTERS = 20_000_000  # characters of one text
MOST_PROBLEMS = 10_000  # told one by one of one text

_EDGE = re.compile(
    r"eight\W{1,12}readings\W{1,12}return\W{1,12}slip\W{1,12}(?P<form>\d{1,4})(?!\w)"
    r"|end\W{1,12}of\W{1,12}slip\W{1,12}(?P<count>\d{1,4})\W{1,12}lines?\W{1,12}(?P<all>\w{5}(?=eight\W{1,12}readings\b)|\w{1,12})",
    re.IGNORECASE,
)
_HALVES = re.compile("[\ud800-\udfff]")
_STEP = re.compile(r"[a-z][a-z0-9-]{0,39}")


class ReturnSlipError(ValueError):
    """A slip that cannot be written; the text says why."""


# ---- writing ----------------------------------------------------------------


def return_slip_text(slip: ReturnSlip) -> str:
    """The slip as text, its lines ended by line feeds.  ReturnSlipError, with a sentence, if it is too large."""
    for name in (*slip.answers, *slip.firsts):
        if not _STEP.fullmatch(name) or name in OWN_LABELS:
            raise ReturnSlipError(f"A step cannot be called “{shown(name)}” in a return slip.")
    fields = _fields(slip)
    if len(fields) > MOST_LINES:
        raise ReturnSlipError(f"A return slip holds at most {MOST_LINES} lines; this one would have {len(fields)}.")
    for label, text in fields.items():
        most = LONGEST_WHO if label == "who" else LONGEST_ANSWER
        if len(text) > most:
            raise ReturnSlipError(
                f"What is typed at {label} has {len(text):,} characters; a return slip carries at most {most}. "
                "Shorten it."
            )
    lines = _lines(fields)
    rows = [
        _folded(f"{line.number:02d} {line.label}: {carried(line.text)}", f" [{check(line.checked_text, 2)}]")
        for line in lines
    ]
    last = f"END OF SLIP {len(lines)} LINES {check_of_all(lines)}"
    text = "\n".join([f"EIGHT READINGS RETURN SLIP {FORM}", *rows, last, ""])
    if len(text) > LONGEST_SLIP // 2:  # room for what is put in front of its lines on the way
        raise ReturnSlipError(
            f"What is typed on this sheet makes a slip of {len(text):,} characters. Shorten the answers."
        )
    return text


def check_of(slip: ReturnSlip) -> str:
    """The five characters at the end of a slip, by which it is told from others: 8CKNW of the one above."""
    return check_of_all(_lines(_fields(slip)))


def _fields(slip: ReturnSlip) -> dict[str, str]:
    """What each line holds, by label.  An empty answer has no line, nor has a first that is the same as the last."""
    own = {"who": slip.who, "code": slip.code}
    own |= {HAND_IN: str(slip.number)} if slip.number else {}
    own |= {WRITTEN: slip.written} if slip.written else {}
    answers = {k: v for k, v in slip.answers.items() if v}
    return own | answers | {f"first {k}": v for k, v in slip.firsts.items() if v and v != answers.get(k)}


def _lines(fields: Mapping[str, str]) -> list[ReturnLine]:
    """The lines of label and text, as they come back."""
    return [ReturnLine(n, label, restored(carried(text))) for n, (label, text) in enumerate(fields.items(), 1)]


def _folded(text: str, end: str) -> str:
    """One line of the slip, over several where it is wider than WIDE."""
    if any(unicodedata.bidirectional(c) in ("R", "AL") for c in text):
        end = f"\u200e{end}"  # so that the check stands at the right of a name that runs to the left
    rows, row = [], ""
    for word in re.split("(?<= )", text + end):
        if row.strip() and _columns(row + word.rstrip()) > WIDE:
            rows.append(row.rstrip())
            row = "   "
        while _columns(row + word.rstrip()) > WIDE:
            at = _cut(word, WIDE - 1 - _columns(row))
            rows.append(f"{row}{word[:at]}\\")
            row, word = "   ", word[at:]
        row += word
    return "\n".join([*rows, row])


def _columns(text: str) -> int:
    """Columns of a monospaced face: two for a wide character, none for a mark on another."""
    if text.isascii():
        return len(text)
    return sum(
        0 if unicodedata.category(c) in ("Mn", "Me", "Cf") else 1 + (unicodedata.east_asian_width(c) in "WF")
        for c in text
    )


def _cut(word: str, room: int) -> int:
    """Where to break a word that is wider than `room` columns: not inside braces."""
    at = 0
    for match in re.finditer(r"\{[^{}]*\}|.", word, re.DOTALL):
        if _columns(word[: match.end()]) > room:
            break
        at = match.end()
    return max(at, 1)


# ---- reading ----------------------------------------------------------------


def return_slips_in(text: str, source: str) -> tuple[list[ReturnSlip], list[Problem]]:
    """Every return slip in any text, in order, and what could not be used, each with a sentence.

    Takes time and memory in proportion to the text, which may have up to MOST_CHARACTERS characters.
    """
    if len(text) > MOST_CHARACTERS:
        told = f"This text has {len(text):,} characters; at most {MOST_CHARACTERS:,} are read. Give it in parts."
        return [], [Problem(source, "", "", told)]
    try:
        text.encode()
    except UnicodeEncodeError:  # half a character, from a mail in UTF-7 or a page: no file could hold it
        text = _HALVES.sub("\ufffd", text)
    slips: list[ReturnSlip] = []
    problems: list[Problem] = []
    untold = 0
    for body, form, end, where in _pieces(text, source):
        read = _read(body, form, end, where)
        if isinstance(read, ReturnSlip):
            slips.append(read)
        elif len(problems) < MOST_PROBLEMS:
            problems.append(read)
        else:
            untold += 1
    if untold:
        problems.append(Problem(source, "", "", f"And {untold:,} more slips in this text could not be used."))
    if not slips and not problems:
        told = (
            "There is no return slip here: no line “EIGHT READINGS RETURN SLIP 1”. Look whether this is the right text."
        )
        problems.append(Problem(source, "", "", told))
    return slips, problems


def slips_of_letters(letters: Sequence[Letter], source: str) -> tuple[list[ReturnSlip], list[Problem]]:
    """`return_slips_in` of all texts of a file, each slip with the date of its mail."""
    whole = [
        each._replace(text=each.page) if not _EDGE.search(each.text) and _EDGE.search(each.page) else each
        for each in letters
    ]
    with_slips = [letter for letter in whole if _EDGE.search(letter.text)] or whole[:1]
    slips: list[ReturnSlip] = []
    problems: list[Problem] = []
    for at, letter in enumerate(with_slips, 1):
        found, wrong = return_slips_in(letter.text, source if at == 1 else f"{source}, mail {at}")
        slips += [replace(slip, mailed=letter.mailed) for slip in found]
        problems += wrong
    return slips, problems


def _pieces(text: str, source: str) -> Iterator[tuple[str, int | None, re.Match[str] | None, str]]:
    """Of each slip in order: the text between its ends, its form, the match of its last line, and where it was found.

    The form is None where there is no first line, the match where there is no last one.
    """
    start, form, count = 0, None, 0
    for edge in _EDGE.finditer(text):
        where = f"{source}, slip {count}" if count > 1 else source
        if edge["form"]:
            if form is not None and re.search(r"\w", text[start : min(edge.start(), start + LONGEST_SLIP)]):
                yield text[start : edge.start()], form, None, where
                count += 1
            start, form, count = edge.end(), int(edge["form"]), max(count, 1)
        else:
            yield text[start : edge.start()], form, edge, where
            start, form, count = edge.end(), None, count + 1
    if form is not None:
        yield text[start : start + LONGEST_SLIP + 1], form, None, f"{source}, slip {count}" if count > 1 else source


def _read(body: str, form: int | None, end: re.Match[str] | None, where: str) -> ReturnSlip | Problem:
    """The slip of the text between its first and its last line, or what is wrong with it."""
    if form is None:
        told = "Here is the end of a slip without its first lines. Ask for the whole slip."
        return Problem(where, "", "", told)
    if form != FORM:
        told = (
            f"This is a return slip of form {form}; this page reads form {FORM}. It was made by "
            f"{'a newer' if form > FORM else 'another'} site: read it there."
        )
        return Problem(where, "", "", told)
    if len(body) > LONGEST_SLIP:
        if end is not None:
            told = f"This slip is longer than {LONGEST_SLIP:,} characters, so it was not read. Ask for it again."
            return Problem(where, "", "", told)
        body = body[:LONGEST_SLIP]
    tidy = untangled(body)
    lines = lines_in(tidy)
    if end is not None and agree(lines, end):
        return return_slip_of(lines, where)
    if (decoded := _decoded_again(body)) is not None:
        again = lines_in(untangled(decoded))
        if end is not None and agree(again, end):
            return return_slip_of(again, where)
    lines, troubles = looked_at(tidy)
    if end is not None and agree(lines, end):
        return return_slip_of(lines, where)
    return problem_of(lines, troubles, end, where)


def _decoded_again(body: str) -> str | None:
    """UTF-8 that was shown as Windows' Western letters, “45.2Â°”, as it was; None if it is not that."""
    if not re.search("[ÂÃÎâàØÙ]", body):
        return None
    try:
        return body.encode("cp1252").decode()
    except UnicodeError:
        return None

"""The student's end of the return slip: what stands on the sheet becomes the slip's text."""

import re
import unicodedata
from collections.abc import Mapping

from exercises.codes.sheet_code import CodeError
from exercises.kinds.kind import open_code
from exercises.return_slip.text import LONGEST_ANSWER, LONGEST_WHO, ReturnSlip, SlipError, written


def slip_of(code: str, who: str, entries: Mapping[str, str], firsts: Mapping[str, str]) -> dict:
    """The slip as the page shows it, or a sentence that says what to do first (see student.return_slip).

    Answers go as they were typed; one of spaces only counts as blank.
    """
    who = " ".join(unicodedata.normalize("NFC", str(who)).split())
    if not any(unicodedata.category(c)[0] in "LN" for c in who):
        told = "Type your roll number or your name first, as it is in the class list, so that the slip is known to be yours."
        return {"ok": False, "says": told, "at": "who"}
    if len(who) > LONGEST_WHO:
        told = f"That is {len(who)} characters; a name of at most {LONGEST_WHO} goes on a slip. Shorten it."
        return {"ok": False, "says": told, "at": "who"}
    try:
        sheet = open_code(code)
        scenario, working = sheet.scenario, sheet.working
    except CodeError as error:
        return {"ok": False, "says": str(error), "at": ""}
    answers = {step.id: text for step in working.steps if (text := _typed(entries, step.id))}
    first = {step.id: text for step in working.steps if (text := _typed(firsts, step.id))}
    for step in working.steps:
        if len(long := answers.get(step.id, "")) > LONGEST_ANSWER:
            told = f"What is typed at “{step.title}” has {len(long):,} characters; a slip carries {LONGEST_ANSWER} of one answer. Shorten it."
            return {"ok": False, "says": told, "at": step.id}
        if len(first.get(step.id, "")) > LONGEST_ANSWER:
            del first[step.id]  # by mistake, and it cannot be mended: the answer itself is what is handed in
    try:
        text = written(ReturnSlip(who, str(scenario.code), answers, first))
    except SlipError as error:
        return {"ok": False, "says": str(error), "at": ""}
    blank = len(working.steps) - len(answers)
    if blank:
        says = f"{blank} of {len(working.steps)} steps {'is' if blank == 1 else 'are'} still blank. The slip is made all the same."
    else:
        says = f"The slip has all {len(working.steps)} steps."
    return {"ok": True, "says": says, "text": text, "blank": blank, "file": _file_name(who, scenario.code)}


def _typed(entries: Mapping[str, str], step_id: str) -> str:
    text = entries.get(step_id)
    return text if isinstance(text, str) and text.strip() else ""


def _file_name(who: str, code) -> str:
    """A name that every system takes: letters and figures of any script, joined by hyphens.

    >>> _file_name("Ringed Plover/7", "A322-2557-87X5")
    'return-Ringed-Plover-7-A322-2557-87X5.txt'
    """
    kept = "".join(c if unicodedata.category(c)[0] in "LMN" else " " for c in who)
    short = re.sub(r"\s+", "-", kept.strip())[:40]
    return f"return-{short}-{code}.txt"

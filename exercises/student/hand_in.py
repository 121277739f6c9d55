"""The student's end of the return slip: what stands on the sheet becomes the text of the slip."""

import re
import unicodedata
from collections.abc import Mapping, Sequence

from exercises.codes.sheet_code import CodeError
from exercises.kinds.kind import open_code
from exercises.return_slip.lines import LONGEST_ANSWER, LONGEST_WHO, MOST_SLIPS, ReturnSlip, hour
from exercises.return_slip.text import ReturnSlipError, return_slip_text
from exercises.working.steps import Step


def return_slip_of(
    code: str, who: str, entries: Mapping[str, str], firsts: Mapping[str, str], number: int = 0, written: str = ""
) -> dict[str, object]:
    """The return slip as the page shows it, or a sentence that says what to do first (see desk.return_slip).

    entries, firsts  step id -> as typed last, and as typed first
    number, written  which of the slips of this sheet it is, and when it is made (ReturnSlip); left out if not good
    Answers go as they were typed; one of spaces only counts as blank.
    """
    who = " ".join(unicodedata.normalize("NFC", str(who)).split())
    if told := wrong_with_who(who):
        return {"ok": False, "says": told, "at": "who"}
    try:
        sheet = open_code(code)
    except CodeError as error:
        return {"ok": False, "says": str(error), "at": ""}
    steps, sheet_code = sheet.working.steps, str(sheet.scenario.code)
    answers, first = _typed(steps, entries), _typed(steps, firsts)
    if too_long := next((step for step in steps if len(answers.get(step.id, "")) > LONGEST_ANSWER), None):
        told = (
            f"What is typed at “{too_long.title}” has {len(answers[too_long.id]):,} characters; "
            f"a slip carries {LONGEST_ANSWER} of one answer. Shorten it."
        )
        return {"ok": False, "says": told, "at": too_long.id}
    # a first answer that is too long cannot be mended any more: the answer itself is what is handed in
    first = {step: text for step, text in first.items() if len(text) <= LONGEST_ANSWER}
    try:
        text = return_slip_text(ReturnSlip(who, sheet_code, answers, first, "", counted(number), hour(written)))
    except ReturnSlipError as error:
        return {"ok": False, "says": str(error), "at": ""}
    blank = len(steps) - len(answers)
    says = f"The slip has all {len(steps)} steps."
    if blank:
        are = "is" if blank == 1 else "are"
        says = f"{blank} of {len(steps)} steps {are} still blank. The slip is made all the same."
    return {"ok": True, "says": says, "text": text, "blank": blank, "file": file_name(who, sheet_code)}


def counted(number: object) -> int:
    """Which of the slips of a sheet one is, as a page counted it; 0 where that is no such number."""
    return number if type(number) is int and 0 < number <= MOST_SLIPS else 0


def wrong_with_who(who: str) -> str:
    """What is wrong with a roll or name, or ""."""
    if not any(unicodedata.category(c)[0] in "LN" for c in who):
        return (
            "Type your roll number or your name first, as it is in the class list, "
            "so that the slip is known to be yours."
        )
    if len(who) > LONGEST_WHO:
        return f"That is {len(who)} characters; a name of at most {LONGEST_WHO} goes on a slip. Shorten it."
    return ""


def _typed(steps: Sequence[Step], entries: Mapping[str, str]) -> dict[str, str]:
    """Step id -> what was typed, without those that are blank."""
    typed = ((step.id, entries.get(step.id)) for step in steps)
    return {step_id: text for step_id, text in typed if isinstance(text, str) and text.strip()}


def file_name(who: str, code: str) -> str:
    """A name that every system takes: letters and figures of any script, joined by hyphens.

    >>> file_name("Ringed Plover/7", "A3H-222-222")
    'return-Ringed-Plover-7-A3H-222-222.txt'
    """
    letters = "".join(c if unicodedata.category(c)[0] in "LMN" else " " for c in who)
    short = re.sub(r"\s+", "-", letters.strip())[:40]
    return f"return-{short}-{code}.txt"

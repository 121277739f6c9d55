"""The student's desk: what the page may ask of Python.  Text in, JSON text out.

Every function answers with a JSON object; a fault of the input is an answer
with a sentence in it, never an exception.
"""

import json

from exercises.codes.convention_text import ConventionError
from exercises.codes.conventions import setting_from
from exercises.codes.sheet_code import SEEDS, CodeError, SheetCode, write
from exercises.judging.verdict import Verdict, judge_all
from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.rendering import render, render_working
from exercises.student import revision
from exercises.student.hand_in import return_slip_of
from exercises.student.why import fragment, sentence, settings_from
from exercises.working.mathematics import symbols
from exercises.working.page_answer import page_answer


def fresh(slug: str, noise: str, words: str = "{}") -> str:
    """A new code of a kind, or a sentence that says why these settings have none.

    noise  hexadecimal from the browser's own random source
    words  JSON, {key of conventions.CHOICES: text}: what is set for new numbers
    """
    kind = all_kinds()[slug]
    try:
        setting = setting_from(json.loads(words))
    except ConventionError as error:
        return page_answer(ok=False, text=str(error), html=symbols(str(error)))
    if told := kind.refuses(setting):
        return page_answer(ok=False, text=told, html=symbols(told))
    return page_answer(ok=True, code=write(SheetCode(kind.letter, kind.edition, int(noise, 16) % SEEDS, setting)))


def open_sheet(slug: str, text: str) -> str:
    """The sheet of a code: its HTML, or a sentence that says why there is none."""
    try:
        sheet = open_code(text)
    except CodeError as error:
        return page_answer(ok=False, text=str(error), position=error.position)
    except ArithmeticError:
        told = (
            "No consistent numbers are found for this code, with the settings that are in it. "
            "Take new numbers, or ask for another code."
        )
        return page_answer(ok=False, text=told, position=None)
    kind, code = sheet.kind, sheet.scenario.code
    if kind.slug != slug:
        told = f"This code is for another exercise: {kind.title}."
        return page_answer(ok=False, text=told, go=f"exercises/{kind.slug}/?code={code}")
    return page_answer(ok=True, code=str(code), html=render(sheet))


def check(code: str, entries: str) -> str:
    """A verdict on every step from everything typed; `entries` is JSON: {step id: text}."""
    sheet = open_code(code)
    verdicts = judge_all(sheet.working, sheet.slips, json.loads(entries))
    right = sum(v.state == "right" for v in verdicts.values())
    return page_answer(
        verdicts={step: _shown(v) for step, v in verdicts.items() if v.state != "blank"},
        right=right,
        steps=len(verdicts),
    )


def _shown(verdict: Verdict) -> dict[str, str | tuple[str, ...]]:
    """A verdict with what is said of the entry as HTML."""
    return {**verdict.as_dict(), "html": symbols(" ".join((verdict.text, *verdict.remarks)))}


def hint(code: str, step_id: str, count: int) -> str:
    """The hint number `count` (from 0) for a step; the last one stays the last."""
    working = open_code(code).working
    step = working.by_id[step_id]
    at = min(count, len(step.hints) - 1)
    text = step.hints[at]
    return page_answer(text=text, html=symbols(text), read=step.read, left=len(step.hints) - 1 - at)


def solution(code: str) -> str:
    """The full working of a sheet, as HTML."""
    return page_answer(html=render_working(open_code(code), level=2))


def return_slip(code: str, who: str, entries: str, firsts: str, number: int = 0, written: str = "") -> str:
    """The return slip of a sheet; `entries` and `firsts` are JSON: {step id: text}.

    number, written  which of the slips of this sheet it is, and the date and hour, "2026-11-26 14:05"

    {ok, says, text, blank, file}, or {ok: false, says, at}: `at` is "who" or a step id.
    """
    return page_answer(**return_slip_of(code, who, json.loads(entries), json.loads(firsts), number, written))


def drill(state: str, noise: str) -> str:
    """The examiner's next question; `state` is JSON as the page keeps it, `noise` hexadecimal."""
    usable, chance = revision.usable(json.loads(state or "null")), int(noise, 16)
    question = revision.question(revision.next_key(usable, chance), chance)
    return page_answer(state=usable, question=question, page=revision.notebook(usable))


def drill_check(code: str, step_id: str, text: str) -> str:
    """The verdict on an answer to a question about a step."""
    return page_answer(**_shown(revision.judged(code, step_id, text)))


def drill_done(state: str, question: str, well: bool) -> str:
    """The state after a question, the notebook's page, and the model answer."""
    asked = json.loads(question)
    after = revision.answered(revision.usable(json.loads(state or "null")), asked["key"], well)
    return page_answer(
        state=after,
        page=revision.notebook(after),
        **revision.model(asked["key"], asked.get("code", ""), asked.get("step", "")),
    )


def why(settings: str) -> str:
    """What a setting of the instrument's faults does: `settings` is JSON, {name of a fault: number}."""
    found = settings_from(json.loads(settings))
    return page_answer(html=fragment(found), says=sentence(found))


def numbers(code: str) -> str:
    """What a code's sheet gives and its right answers, to compare machines by."""
    sheet = open_code(code)
    kind, scenario, working = sheet.kind, sheet.scenario, sheet.working
    values = working.all_values()
    return page_answer(
        code=str(scenario.code),
        **kind.page.numbers(scenario),
        answers={s.id: values[s.id] if s.choices else f"{values[s.id]:.9e}" for s in working.steps},
    )

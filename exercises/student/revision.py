"""An examiner at the bench: asks a step of the working, or what is answered aloud, and comes back to what was missed.

What a student has answered is a small dictionary that the page keeps:

    {"turn": how many were answered, "questions": {key: {"well": 0–5, "due": turn}}, "page": [[key, well], …]}

A question's key is "KIND/COLUMN" or "viva/KEY".  Answered well, a question rests twice as long as the
last time; missed, it comes back after two others.  The page has the last ones, as a notebook does.
"""

import random
from dataclasses import replace
from html import escape
from typing import Any, TypedDict

from exercises.codes.sheet_code import SEEDS, SheetCode, write
from exercises.judging.answer import read as read_number
from exercises.judging.verdict import Verdict, judge
from exercises.kinds.beside import Surroundings
from exercises.kinds.kind import Sheet, all_kinds, listed_kinds, open_code, sheet_of
from exercises.kinds.sheet import entry, written
from exercises.student.asked import questions
from exercises.student.viva import VIVA, Viva
from exercises.working.arithmetic import Exact, Number
from exercises.working.mathematics import set_out, symbols
from exercises.working.steps import Step

LONGEST = 5  # times answered well, after which a question rests no longer
SOON = 2  # questions until a missed one comes back
LINES = 8  # of the notebook's page

#: What is said here in place of a sheet's sentences, by the case of the verdict.
OWN_WORDS = {
    "unexplained": "That is not right, and no slip known here explains it.",
    "more than nothing": "That is not right, and no slip known here explains it.",
    "zero": "It does not come to zero. Look at what was typed.",
    "negative": "It is positive. A minus often comes from a calculator set to radians.",
    "minus": "The figures are right: drop the minus.",
}


class Progress(TypedDict):
    """How often a question was answered well since it was last missed, and the turn in which it is due."""

    well: int
    due: int


class State(TypedDict):
    """What a student has answered: how many, how each question went, and the last ones in order."""

    turn: int
    questions: dict[str, Progress]
    page: list[tuple[str, bool]]


def question_keys() -> tuple[str, ...]:
    """Every question there is."""
    of_kinds = (f"{kind.slug}/{column}" for kind in listed_kinds() for column in kind.questions)
    return (*of_kinds, *(f"viva/{v.key}" for v in VIVA))


def usable(kept: object) -> State:
    """A state that can be used, whatever the page had kept; what it kept under earlier names is read too."""
    state: dict[Any, Any] = kept if isinstance(kept, dict) else {}  # any JSON at all may stand there
    turn, asked, page = state.get("turn"), state.get("questions", state.get("cards")), state.get("page")
    keys, good = question_keys(), dict[str, Progress]()
    for key, one in asked.items() if isinstance(asked, dict) else ():
        well, due = (one.get("well", one.get("box")), one.get("due")) if isinstance(one, dict) else (None, None)
        if key in keys and isinstance(well, int) and isinstance(due, int):
            good[key] = {"well": min(max(well, 0), LONGEST), "due": due}
    lines = [tuple(line) for line in page if isinstance(line, list)] if isinstance(page, list) else []
    known = [(line[0], bool(line[1])) for line in lines if len(line) == 2 and line[0] in keys]
    return {
        "turn": turn if isinstance(turn, int) and turn >= 0 else 0,
        "questions": good,
        "page": known[-LINES:],
    }


def next_key(state: State, noise: int) -> str:
    """The question to ask: one that is due, else one never asked, else the one that is due first."""
    chance = random.Random(noise)
    asked, turn = state["questions"], state["turn"]
    due = [k for k, one in asked.items() if one["due"] <= turn]
    if due:
        return min(due, key=lambda k: (asked[k]["due"], asked[k]["well"]))
    fresh = [k for k in question_keys() if k not in asked]
    if fresh:
        return chance.choice(fresh)
    return min(asked, key=lambda k: (asked[k]["due"], chance.random()))


def answered(state: State, key: str, well: bool) -> State:
    """The state after a question was answered."""
    turn = state["turn"] + 1
    before = state["questions"][key]["well"] if key in state["questions"] else 0
    times = min(before + 1, LONGEST) if well else 0
    due = turn + (2**times + 1 if well else SOON)
    return {
        "turn": turn,
        "questions": {**state["questions"], key: {"well": times, "due": due}},
        "page": [*state["page"], (key, well)][-LINES:],
    }


def question(key: str, noise: int) -> dict[str, str | bool]:
    """A question as the page shows it: its key, its HTML and, of a step, its code and step id."""
    room, name = key.split("/")
    if room == "viva":
        return {"key": key, "viva": True, "html": f'<p class="er-asked">{symbols(_viva(name).question)}</p>'}
    kind = all_kinds()[room]
    for seed in range(noise, noise + 50):  # the few sheets without such a step are passed over
        code = write(SheetCode(kind.letter, kind.edition, seed % SEEDS))
        if found := questions(open_code(code), name):
            break
    step, sentence, shown = found[noise // SEEDS % len(found)]
    html = f'<p class="er-asked">{symbols(sentence)}</p>{shown}{entry(step)}'
    return {"key": key, "viva": False, "code": code, "step": step.id, "html": html}


def _viva(key: str) -> Viva:
    """A question to answer aloud, by its key."""
    return next(v for v in VIVA if v.key == key)


def model(key: str, code: str, step_id: str) -> dict[str, str]:
    """The model answer to a question, worked from what the question gives: its HTML, and where to read about it.

    code, step_id  of the question, where it asks for a step; else ""
    """
    room, name = key.split("/")
    if room == "viva":
        viva = _viva(name)
        return {"html": symbols(viva.answer), "read": viva.read}
    sheet = open_code(code)
    working = sheet.working
    step = working.by_id[step_id]
    known: dict[str, Number] = {}
    for need, given in _given(sheet, step).items():
        typed = None if working.by_id[need].choices else read_number(given, working.by_id[need].quantity)
        known[need] = typed.value if typed else given
    known[step_id] = working.fill(step, Exact, working.parts, known)
    text = step.line({**working.all_values(), **known}, working.givens)
    text = text or f"{step.title} = {written(known[step_id], step)}"
    return {"html": set_out(text), "read": step.read}


def judged(code: str, step_id: str, text: str) -> Verdict:
    """The verdict on an answer to a question about a step, worked from what the question gives."""
    sheet = open_code(code)
    working = sheet.working
    verdict = judge(working, sheet.slips, {**_given(sheet, working.by_id[step_id]), step_id: text}, step_id)
    return replace(verdict, text=OWN_WORDS.get(verdict.case, verdict.text))


def _given(sheet: Sheet, step: Step) -> dict[str, str]:
    """What a question about a step gives of those before it, by id: a choice's key, or a number as it is written."""
    values = sheet.working.all_values()
    needs = [sheet.working.by_id[n] for n in Surroundings(sheet).entries(step)]
    return {s.id: values[s.id] if s.choices else written(values[s.id], s) for s in needs}


def notebook(state: State) -> str:
    """The page of the notebook as HTML: a line for each of the last questions, ticked or with a note."""
    return "".join(f"<li>{_line(key, well)}</li>" for key, well in state["page"])


def _line(key: str, well: bool) -> str:
    room, name = key.split("/")
    if room == "viva":
        title, read = _viva(name).question, _viva(name).read
    else:
        kind = all_kinds()[room]
        working = sheet_of(SheetCode(kind.letter, kind.edition, 0)).working
        step = next((s for s in working.steps if s.column == name), working.steps[0])
        title, read = f"{step.title} ({kind.listing.name})", step.read
    again = f'<b>once more: <a href="../../{escape(read)}">read</a></b>'
    return f"<span>{symbols(title)}</span> {'<b class="er-tick">✓</b>' if well else again}"

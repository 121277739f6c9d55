"""A mixed drill: one step of a sheet of any kind, or a question to answer aloud; missed ones come back sooner.

What a student has done is a small dictionary that the page keeps:

    {"turn": how many cards were answered, "cards": {key: {"box": 0–5, "due": turn}}}

A card's key is "KIND/COLUMN" or "viva/KEY".  Answered well, a card rests twice
as long as the last time; missed, it comes back after two others.
"""

import random
from functools import cache
from html import escape
from typing import Any, TypedDict

from exercises.codes.sheet_code import SEEDS, SheetCode, write
from exercises.judging.verdict import Verdict, judge
from exercises.kinds.kind import Sheet, all_kinds, open_code
from exercises.kinds.sheet import entry, written
from exercises.student.viva import VIVA, Viva
from exercises.working.mathematics import set_out, symbols
from exercises.working.steps import Step

HIGHEST_BOX = 5
SOON = 2  # cards until a missed one comes back


class Progress(TypedDict):
    """How well a card is known: its box, and the turn in which it is due."""

    box: int
    due: int


class State(TypedDict):
    """What a student has done: how many cards were answered, and the progress of each card that was seen."""

    turn: int
    cards: dict[str, Progress]


@cache
def card_keys() -> tuple[str, ...]:
    """Every card there is.  One code of each kind shows which columns it has."""
    found: list[str] = []
    for kind in all_kinds().values():
        working = kind.working(kind.draw(SheetCode(kind.letter, kind.edition, 0)))
        found += dict.fromkeys(f"{kind.slug}/{step.column}" for step in working.steps)
    return (*found, *(f"viva/{v.key}" for v in VIVA))


def usable(kept: object) -> State:
    """A state that can be used, whatever the page had kept."""
    state: dict[Any, Any] = kept if isinstance(kept, dict) else {}  # any JSON at all may stand there
    turn, cards = state.get("turn"), state.get("cards")
    good: dict[str, Progress] = {}
    for key, card in cards.items() if isinstance(cards, dict) else ():
        if key in card_keys() and isinstance(card, dict) and all(isinstance(card.get(f), int) for f in ("box", "due")):
            good[key] = {"box": min(max(card["box"], 0), HIGHEST_BOX), "due": card["due"]}
    return {"turn": turn if isinstance(turn, int) and turn >= 0 else 0, "cards": good}


def next_key(state: State, noise: int) -> str:
    """The card to show: one that is due, else one never seen, else the one that is due first."""
    chance = random.Random(noise)
    seen, turn = state["cards"], state["turn"]
    due = [k for k, card in seen.items() if card["due"] <= turn]
    if due:
        return min(due, key=lambda k: (seen[k]["due"], seen[k]["box"]))
    fresh = [k for k in card_keys() if k not in seen]
    if fresh:
        return chance.choice(fresh)
    return min(seen, key=lambda k: (seen[k]["due"], chance.random()))


def answered(state: State, key: str, well: bool) -> State:
    """The state after a card was answered."""
    turn = state["turn"] + 1
    before = state["cards"][key]["box"] if key in state["cards"] else 0
    box = min(before + 1, HIGHEST_BOX) if well else 0
    due = turn + (2**box + 1 if well else SOON)
    return {"turn": turn, "cards": {**state["cards"], key: {"box": box, "due": due}}}


def card(key: str, noise: int) -> dict[str, str | bool]:
    """A card as the page shows it: its key, its HTML and, of a step, its code and step id."""
    room, name = key.split("/")
    if room == "viva":
        return {"key": key, "viva": True, "html": f"<p>{symbols(_viva(name).question)}</p>"}
    kind = all_kinds()[room]
    code = write(SheetCode(kind.letter, kind.edition, noise % SEEDS))
    sheet = open_code(code)
    # where this code's sheet has no such column, its first step is asked: every sheet has that
    steps = [s for s in sheet.working.steps if s.column == name] or [sheet.working.steps[0]]
    step = steps[noise // SEEDS % len(steps)]
    return {"key": key, "viva": False, "code": code, "step": step.id, "html": _question(sheet, step)}


def _viva(key: str) -> Viva:
    """A question to answer aloud, by its key."""
    return next(v for v in VIVA if v.key == key)


def _question(sheet: Sheet, step: Step) -> str:
    """What is asked, with what is needed for it: the givens, and the earlier steps' values already worked."""
    kind, scenario, working = sheet.kind, sheet.scenario, sheet.working
    values = working.all_values()
    needs = [working.by_id[n] for n in working.plan.asked_needs(step)]
    known = [(s.title, written(values[s.id], s)) for s in needs]
    given = "".join(
        f"<div><dt>{symbols(k)}</dt><dd>{symbols(v)}</dd></div>" for k, v in [*kind.page.givens(scenario), *known]
    )
    group = next(g.heading for g in kind.page.groups(scenario, working) if step in g.steps)
    seen = kind.page.observations(scenario)
    box = '<div class="er-scroll" tabindex="0" role="region" aria-label="What was observed">'
    observed = f"{box}{seen}</div>" if seen else ""
    formula = f'<p class="er-formula">{set_out(kind.page.formula)}</p>' if kind.page.formula else ""
    return (
        f"<p><strong>{escape(kind.title)}</strong>, {symbols(group)}: find {symbols(step.title)}.</p>"
        f'{formula}<dl class="er-givens">{given}</dl>{observed}{entry(step)}'
    )


def model(key: str, code: str, step_id: str) -> dict[str, str]:
    """The model answer of a card: its HTML, and where to read about it.

    code, step_id  of the card, where it asks for a step; else ""
    """
    room, name = key.split("/")
    if room == "viva":
        viva = _viva(name)
        return {"html": symbols(viva.answer), "read": viva.read}
    working = open_code(code).working
    step = working.by_id[step_id]
    values = working.all_values()
    text = step.line(values, working.givens) or f"{step.title} = {written(values[step_id], step)}"
    return {"html": set_out(text), "read": step.read}


def judged(code: str, step_id: str, text: str) -> Verdict:
    """The verdict on an answer to a step's card, worked from the earlier steps as the card gives them."""
    sheet = open_code(code)
    working = sheet.working
    values = working.all_values()
    needs = [working.by_id[n] for n in working.plan.asked_needs(working.by_id[step_id])]
    given = {s.id: values[s.id] if s.choices else written(values[s.id], s) for s in needs}
    return judge(working, sheet.slips, {**given, step_id: text}, step_id)

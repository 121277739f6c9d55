"""A typed answer and the working make a verdict in plain words.

The order of judging: can it be read; can correct working reach it; is it right
working from the student's own earlier entries; does one slip explain it; and
if none does, what the number looks like and where to read.
"""

import math
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, replace

from exercises.judging import answer
from exercises.judging.answer import Typed, Unreadable
from exercises.judging.diagnosis import matches, slip_values
from exercises.judging.entries import AS_READ, Chosen, Entered, accepts, too_few
from exercises.judging.slip_pairs import FEWEST, pairs_that_explain
from exercises.slips.catalogue import Slip
from exercises.working.arithmetic import last_place, widened
from exercises.working.steps import Step, Working

TWICE = 0.1  # of a last place: what typing may add to a number that was rounded before
FEWEST_FIGURES = 2  # with one, a right number and many wrong ones look alike
MOST_FIGURES = {"moment": 5, "pole": 5, "angle": 6}


@dataclass(frozen=True)
class Verdict:
    """What is said of one entry.

    state    "blank", "right", "follows" (right from a wrong start), "slip",
             "wrong", "ask" (typed so that it cannot be judged), "unread"
    text     one to three plain sentences
    read     address of a passage, or ""
    slips    keys of the slips that explain the number; of two at once, two and two
    remarks  about figures; never a mark against
    """

    state: str
    text: str
    read: str = ""
    slips: tuple[str, ...] = ()
    remarks: tuple[str, ...] = field(default=())

    def as_dict(self) -> dict:
        return asdict(self)


BLANK = Verdict("blank", "")


def judge_all(working: Working, slips: tuple[Slip, ...], entries: Mapping[str, str]) -> dict[str, Verdict]:
    """A verdict for every step of the sheet, from everything typed on it."""
    return judge_entered(Entered(working, entries), slips)


def judge_entered(entered: Entered, slips: tuple[Slip, ...]) -> dict[str, Verdict]:
    """`judge_all` of entries that have been read."""
    working = entered.working
    verdicts = {step.id: _judge(working, step, slips, entered) for step in working.steps}
    verdicts.update(_explained_by_two(working, slips, entered.known, verdicts))
    return verdicts


def judge(working: Working, slips: tuple[Slip, ...], entries: Mapping[str, str], step_id: str) -> Verdict:
    """The verdict on one step.  KeyError if the sheet has no such step."""
    return judge_all(working, slips, {k: v for k, v in entries.items() if k in working.by_id})[step_id]


def _explained_by_two(working, slips, known, verdicts) -> dict[str, Verdict]:
    """New verdicts for wrong numbers that two slips together explain, the same two in more than one entry."""
    numbers = {k: t for k, t in known.items() if isinstance(t, Typed)}
    wrong = [s for s in working.steps if verdicts[s.id].state == "wrong" and s.id in numbers and numbers[s.id].value]
    if len(wrong) < FEWEST:
        return {}
    better: dict[str, Verdict] = {}
    for (one, two), ids in pairs_that_explain(working, slips, wrong, numbers):
        for step_id in ids:
            said = better.get(step_id)
            if said is None:
                text = (
                    f"This looks like two slips at once, for the same two explain {len(ids)} of your entries: "
                    f"{one.name}; and {two.name}. First: {one.says} Second: {two.says}"
                )
                better[step_id] = Verdict("slip", text, one.read, (one.key, two.key))
            elif len(said.slips) == 2:
                text = f"{said.text} Or else: {one.name}; and {two.name}."
                better[step_id] = replace(said, text=text, slips=(*said.slips, one.key, two.key))
    return better


def _remarks(typed: Typed, step: Step) -> tuple[str, ...]:
    if too_few(typed, step):
        asked = {"angle": "angles to 0.1°", "tangent": "tangents to four places"}.get(step.rule, "three figures")
        return (f"Few figures: keep {asked}, so that the rounding does not grow in the next step.",)
    if step.rule not in AS_READ and typed.figures > MOST_FIGURES.get(step.quantity, 10):
        return ("Many figures: that is finer than the readings allow. Three say all that is known.",)
    return ()


def _judge(working: Working, step: Step, slips, entered: Entered) -> Verdict:
    typed = entered.read.get(step.id)
    if typed is None:
        return BLANK
    if isinstance(typed, Unreadable):
        return Verdict("ask" if isinstance(typed, answer.Ask) else "unread", str(typed))
    if isinstance(typed, Chosen):
        return _judge_choice(working, step, typed, entered)
    if not math.isfinite(typed.value) or (typed.value == 0 and step.rule not in AS_READ):
        return Verdict("wrong", "Nothing on this sheet comes to zero. Look at what was typed.", step.read)
    if typed.figures < FEWEST_FIGURES and step.rule not in AS_READ and typed.value not in entered.span(step.id):
        return Verdict(
            "ask",
            f"One figure is too few to tell a right number from a wrong one. Type {_asked(step)}.",
        )
    remarks = _remarks(typed, step)
    started = entered.starts(step)
    sound = started.isdisjoint(entered.wrong)
    reachable = accepts(entered.span(step.id), typed, step)
    follows = bool(started) and accepts(widened(entered.followed(step), TWICE * last_place(typed.value)), typed, step)
    if follows and not sound and not reachable:
        return Verdict("follows", FOLLOWS, remarks=remarks)
    # where all it is worked from stands there, right and finely enough, it must follow from that
    bound = sound and all(n in entered.known and n not in entered.coarse for n in working.plan.asked_needs(step))
    if follows or (reachable and not (started and bound)):
        return Verdict("right", "Right.", remarks=remarks)
    if typed.value < 0 and accepts(entered.span(step.id), replace(typed, value=-typed.value), step):
        return Verdict("wrong", MINUS)
    found = explained(working, step, slips, typed, entered)
    if found:
        return _slip_verdict(found, remarks)
    return Verdict("wrong", _looks_like(working, step, typed, entered), step.read)


def _slip_verdict(found: list[Slip], remarks: tuple[str, ...]) -> Verdict:
    says = found[0].says
    if len(found) > 1:
        says = "This looks like one of two slips. " + " Or: ".join(s.says for s in found[:2])
    return Verdict("slip", says, found[0].read, tuple(s.key for s in found), remarks)


MINUS = "The figures are right: drop the minus. Everything on this sheet is positive."
FOLLOWS = (
    "Right working from a wrong start: this follows from what you entered above. "
    "Mend the earlier entry, then come back to this one."
)


def _judge_choice(working: Working, step: Step, chosen: Chosen, entered: Entered) -> Verdict:
    says = {key: wrong for key, _, wrong in step.choices}
    if chosen.value not in says:
        return Verdict("unread", "That is not one of the choices offered. Choose one of them.")
    if chosen.value == working.value(step.id):
        return Verdict("right", "Right.")
    own = entered.values_but(step.id)
    if entered.starts(step) and chosen.value == working.value(step.id, own=own):
        return Verdict("follows", FOLLOWS)
    return Verdict("wrong", says[chosen.value], step.read)


def _asked(step: Step) -> str:
    return {"angle": "the angle to 0.1°", "tangent": "the tangent to four places"}.get(step.rule, "three figures")


def explained(working, step, slips, typed: Typed, entered: Entered) -> list[Slip]:
    """The slips that give this number, the nearest first."""
    own = entered.values_but(step.id)
    try:
        working.value(step.id, own=own)
    except (ValueError, ArithmeticError):
        return []  # what was entered before leads to no number here
    plain = [s for s in slips if not s.hides]
    by_angle = [s for s in plain if s.by_angle]
    # what stands there as 40.9° may have been 40.9375° in the calculator
    finer = (
        {k: v for k, v in own.items() if k in entered.wrong or working.by_id[k].rule != "angle"} if by_angle else own
    )
    return (
        _matching(working, step, plain, typed, own)
        or (finer != own and _matching(working, step, by_angle, typed, finer))
        or _matching(working, step, [s for s in slips if s.hides], typed, own)
    )


def _matching(working, step, slips, typed: Typed, own) -> list[Slip]:
    found = []
    for slip, values in slip_values(working, step, slips, own):
        near = [
            abs(abs(typed.value) - abs(v)) / abs(v)
            for v in values
            if v and matches(typed.value, typed.last_place, v, step.loose)
        ]
        if near:
            found.append((min(near), slip))
    return [slip for _, slip in sorted(found, key=lambda pair: pair[0])]


def _looks_like(working, step, typed, entered: Entered) -> str:
    """What an unexplained number looks like, without giving the right one away."""
    own = entered.values_but(step.id)
    try:
        expected = working.value(step.id, own=own)
    except (ValueError, ArithmeticError):
        expected = 0.0
    if not expected or not math.isfinite(expected):
        return "What was entered above leads to no number here. Mend that first, then come back to this one."
    needs = working.plan.asked_needs(step)
    ratio = typed.value / expected
    if ratio == 0:
        return "This does not come to nothing. Look at what was typed."
    if ratio < 0:
        return "Everything on this sheet is positive. A minus often comes from a calculator set to radians."
    power = round(math.log10(ratio))
    if power and abs(ratio / 10.0**power - 1) < 0.01:
        many = "ten" if abs(power) == 1 else f"10{str(abs(power)).translate(str.maketrans('0123456789', '⁰¹²³⁴⁵⁶⁷⁸⁹'))}"
        return f"The figures are right, but the number is {many} times too {'large' if power > 0 else 'small'}. Look at the powers of ten and the units."
    side = "large" if ratio > 1 else "small"
    factor = max(ratio, 1 / ratio)
    much = (
        "much too"
        if factor > 10
        else "more than twice too"
        if factor > 2
        else "too"
        if factor > 1.1
        else "a little too"
    )
    start = "From what you entered above, this" if any(n in own for n in needs) else "This"
    advice = " Work it once more" if factor > 1.015 else " Look at how early you rounded, and work it once more"
    if step.rule == "reading":
        advice = " Look once more, to the last division or decimal"
    missing = [n for n in needs if n not in own]
    if missing and step.row is not None:
        advice = " Fill in the steps before it, and each will be checked"
    elif missing:
        advice = " Fill in the earlier steps, so that it can be judged from them"
    return f"{start} is {much} {side}, and no slip known here explains it.{advice}."

"""Answers that the instructor typed in: step by step they take the place of what came in, or are all there is."""

from collections.abc import Sequence
from typing import NamedTuple

from exercises.return_slip.lines import ReturnSlip

LONGEST = 40  # characters of an answer in a note


class Change(NamedTuple):
    """One answer that was typed in: its step, what stands there now, and what stood there last and first, or ""."""

    step: str
    now: str
    before: str
    first: str


class Amended(NamedTuple):
    """A slip with what was typed in, what that changed, and what is said of it."""

    slip: ReturnSlip
    changes: tuple[Change, ...]
    notes: tuple[str, ...]


def amended(slip: ReturnSlip, typed: Sequence[ReturnSlip]) -> Amended:
    """A slip that came in, with what was typed in for its sheet, the later over the earlier.

    What is typed in is no first attempt: it counts whichever attempt is marked.
    """
    if not typed:
        return Amended(slip, (), ())
    answers, firsts = dict(slip.answers), dict(slip.firsts)
    for each in typed:
        for step, answer in each.answers.items():
            firsts.pop(step, None)
            if answer:
                answers[step] = answer
            else:
                answers.pop(step, None)
    changes = []
    for step in dict.fromkeys(step for each in typed for step in each.answers):
        now, before = answers.get(step, ""), slip.answers.get(step, "")
        first = slip.firsts.get(step, "")
        if now != before or first:
            changes.append(Change(step, now, before, first))
    if not changes:
        return Amended(slip, (), ())
    told = "; ".join(map(_told, changes))
    note = f"Typed in by the instructor ({_sources(typed)}): {told}."
    whole = ReturnSlip(
        slip.who, slip.code, answers, firsts, slip.source, slip.number, slip.written, slip.mailed, slip.by_hand
    )
    return Amended(whole, tuple(changes), (note,))


def from_paper(typed: Sequence[ReturnSlip]) -> Amended:
    """The slip of a sheet of which nothing came in but what was typed in, at least once."""
    first = typed[0]
    answers: dict[str, str] = {}
    for each in typed:
        answers |= each.answers
    answers = {step: answer for step, answer in answers.items() if answer}
    note = f"All of it was typed in by the instructor ({_sources(typed)})."
    return Amended(ReturnSlip(first.who, first.code, answers, {}, first.source, by_hand=True), (), (note,))


def _told(change: Change) -> str:
    now, before, first = (text[:LONGEST] for text in (change.now, change.before, change.first))
    was = f", where “{first}” was typed first" if first else ""
    if not before:
        return f"{change.step} “{now}”{was or ', which was blank'}"
    if not now:
        return f"{change.step} taken out, where “{before}” stood"
    return f"{change.step} “{now}” in place of “{before}”{was}" if now != before else f"{change.step} “{now}”{was}"


def _sources(typed: Sequence[ReturnSlip]) -> str:
    return ", ".join(dict.fromkeys(each.source or "without a source" for each in typed))

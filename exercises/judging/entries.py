"""What was typed or chosen on one sheet, read: for each step a number, a choice, or why it cannot be read."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from exercises.judging import answer
from exercises.judging.answer import Typed, Unreadable
from exercises.working.arithmetic import Span
from exercises.working.rounded import ANGLE_PLACE, TANGENT_PLACE, highest_at, last_place, lowest_at
from exercises.working.steps import Step, Working

#: Rules of numbers that are read off a scale or counted: nobody rounds them, so their figures are not at issue.
UNROUNDED = ("reading", "count")


@dataclass(frozen=True)
class Chosen:
    """An entry picked from a list: the key of the choice."""

    value: str


type Entry = Typed | Chosen | Unreadable


def read_entries(working: Working, texts: Mapping[str, str]) -> dict[str, Entry]:
    """Every entry that is not blank, by the id of its step, in the sheet's order.

    Of one that cannot be read, the error.
    """
    found: dict[str, Entry] = {}
    for step in working.steps:
        if not (text := texts.get(step.id)):
            continue
        if step.choices:
            found[step.id] = Chosen(text)
            continue
        try:
            number = answer.read(text, step.quantity)
        except Unreadable as error:
            found[step.id] = error
        else:
            if number is not None:
                found[step.id] = number
    return found


def leads_on(entry: Entry, step: Step) -> bool:
    """Whether later steps can be worked from an entry: nothing is multiplied or divided by zero."""
    if isinstance(entry, Chosen):
        return any(entry.value == key for key, *_ in step.choices)
    return isinstance(entry, Typed) and (bool(entry.value) or step.rule in UNROUNDED)


def coarsest_place(typed: Typed, step: Step) -> float:
    """The coarsest last place that this step may be written to."""
    if step.rule == "angle":
        return ANGLE_PLACE
    if step.rule == "tangent":
        return TANGENT_PLACE
    if step.rule in UNROUNDED:
        return math.inf
    return last_place(typed.value)


def is_coarse(typed: Typed, step: Step) -> bool:
    """Whether a number has fewer figures than are asked for."""
    return typed.last_place > coarsest_place(typed, step) * 1.000001


def accepts(span: Span, typed: Typed, step: Step) -> bool:
    """Whether a typed number lies in the span that correct working can reach.

    It may have been rounded once more as it was typed: 33.95 on paper, and 34.0
    here.  So the ends of the span go as far as rounding them to its place takes
    them.  What is read off a scale or counted is not rounded.
    """
    if typed.value in span:
        return True
    if step.rule in UNROUNDED:
        return False
    per = 1 / typed.last_place
    return typed.value in Span(lowest_at(span.lo, per), highest_at(span.hi, per))

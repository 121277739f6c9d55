"""What is right at first sight, so that nothing further need be worked out for it.

The value that a step has exactly lies in every span that right working reaches
from it.  So an entry is right where it is that value, rounded to the figures
typed, with nothing before it but entries that are so too.  Most entries of a
class are.
"""

from collections.abc import Mapping
from typing import Any

from exercises.judging.answer import Typed
from exercises.judging.entries import UNROUNDED, Chosen, Entry, is_coarse, leads_on
from exercises.working.evaluate import right_values
from exercises.working.steps import Step, Working

MOST_FIGURES = 5  # of a result: with more, something was copied from the calculator that nobody knows
_FEWEST_FIGURES = 2  # with one, more is asked for
_HALF = 0.5000001  # of a unit: half a unit goes up or down, and the last bit of a float must not decide
_LAST_BITS = 1e-12  # share


def plainly_right(working: Working, entries: Mapping[str, Entry]) -> frozenset[str]:
    """The ids of entries that are right for sure, with nothing to be remarked; others may be right too."""
    (values, *_), rests = right_values(working), working.plan.rests
    found: set[str] = set()
    others: set[str] = set()  # other entries, from which something may be worked
    for step in working.steps:
        entry = entries.get(step.id)
        if entry is None:
            continue
        if others.isdisjoint(rests[step.id]) and _is_plain(entry, step, values[step.id]):
            found.add(step.id)
        elif leads_on(entry, step):
            others.add(step.id)
    return frozenset(found)


def is_rounded_from(right: float, typed: Typed, step: Step) -> bool:
    """Whether a number is the value that is right, rounded to the figures typed: then any span of it accepts it."""
    room = _LAST_BITS * abs(right) if step.rule in UNROUNDED else _HALF * typed.last_place
    return abs(typed.value - right) <= room


def _is_plain(entry: Entry, step: Step, right: Any) -> bool:
    """Whether an entry is the right value, rounded to figures that nothing is remarked on."""
    if not isinstance(entry, Typed):
        return isinstance(entry, Chosen) and entry.value == right
    if not entry.value or not is_rounded_from(right, entry, step):
        return False
    if step.rule in UNROUNDED:  # its figures are not at issue
        return True
    return _FEWEST_FIGURES <= entry.figures <= MOST_FIGURES and not is_coarse(entry, step)

"""Further attempts: who was set which kind of exercise again, with new numbers, and which attempt that is."""

from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from exercises.classroom.class_list.roster import same_roll
from exercises.classroom.marking.scheme import MOST_ATTEMPTS


class Again(NamedTuple):
    """One kind set again: its name, which attempt it is (2 or more), and the rolls of those it is for."""

    kind: str
    attempt: int
    rolls: tuple[str, ...]


def with_more(before: Iterable[Again], more: Iterable[Again], order: Iterable[str]) -> tuple[Again, ...]:
    """What was set again before and what is set now, together, one entry for a kind and attempt.

    order  every roll of the class
    """
    found: dict[tuple[str, int], set[str]] = {}
    for again in (*before, *more):
        found.setdefault((again.kind, again.attempt), set()).update(map(same_roll, again.rolls))
    order = tuple(order)
    return tuple(Again(*key, tuple(r for r in order if same_roll(r) in found[key])) for key in found)


def fields_of(again: Again) -> dict[str, object]:
    """As the class file has it."""
    return {"kind": again.kind, "attempt": again.attempt, "rolls": list(again.rolls)}


def again_of(fields: Mapping[str, Any], kinds: Iterable[str], rolls: Iterable[str]) -> Again:
    """The entry of a class file.  TypeError, KeyError or ValueError if it is none of this class."""
    kind, attempt, given = fields["kind"], fields["attempt"], fields["rolls"]
    if type(attempt) is not int or not isinstance(given, list) or not all(isinstance(roll, str) for roll in given):
        raise TypeError
    if kind not in tuple(kinds) or not 2 <= attempt <= MOST_ATTEMPTS or not set(given) <= set(rolls):
        raise ValueError
    return Again(kind, attempt, tuple(given))

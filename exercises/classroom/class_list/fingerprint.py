"""What tells one class from another: its phrase, what is set, and who is in it, without the phrase itself.

Two classes are the same where every code of the former is one of the latter
too: a student or a kind more changes none of them.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from exercises.classroom.class_list.class_file import Class, Task
from exercises.classroom.class_list.codes import seed_for, tidy_phrase
from exercises.classroom.class_list.roster import same_roll
from exercises.codes.conventions import BY_KEY, words_of
from exercises.working.words import listed, many

_TOLD = 5


@dataclass(frozen=True)
class Fingerprint:
    """Of a class.

    phrase  a number from the phrase, which says no more of it than a student's code does
    kinds   name -> edition and settings in words (conventions.CHOICES)
    rolls   in the order of the list
    """

    phrase: int
    kinds: Mapping[str, Mapping[str, object]]
    rolls: tuple[str, ...]


def fingerprint_of(class_: Class) -> Fingerprint:
    """That of a class."""
    phrase = seed_for(tidy_phrase(class_.phrase), "fingerprint", "")
    return Fingerprint(phrase, {t.kind.slug: _set(t) for t in class_.tasks}, tuple(s.roll for s in class_.students))


def _set(task: Task) -> dict[str, object]:
    return {"edition": task.edition, **words_of(task.setting)}


def differences(before: Fingerprint, now: Fingerprint) -> tuple[str, ...]:
    """What makes `now` another class than `before`, in a sentence each; none where all codes of before stand."""
    told = []
    if before.phrase != now.phrase:
        told.append("The class phrase is another.")
    if lost := [slug for slug in before.kinds if slug not in now.kinds]:
        told.append(f"{listed(lost)} {'is' if len(lost) == 1 else 'are'} not set any more.")
    changes: dict[str, list[str]] = {}  # what changed -> the kinds of which it did
    for slug, was in before.kinds.items():
        here = now.kinds.get(slug, was)
        if parts := [
            f"{_named(key)} was {was[key]} and is {here.get(key)}" for key in was if was[key] != here.get(key)
        ]:
            changes.setdefault(listed(parts), []).append(slug)
    told += [f"{listed(slugs)}: {changed}." for changed, slugs in changes.items()]
    rolls = set(map(same_roll, now.rolls))
    if gone := [roll for roll in before.rolls if same_roll(roll) not in rolls]:
        shown = ", ".join(gone[:_TOLD]) + (", …" if len(gone) > _TOLD else "")
        told.append(f"{many(len(gone), 'student')} of before {'is' if len(gone) == 1 else 'are'} not in it: {shown}.")
    return tuple(told)


def _named(key: str) -> str:
    return f"the {key}" if key in BY_KEY or key == "edition" else key


def as_dict(found: Fingerprint) -> dict[str, Any]:
    """As JSON can hold it."""
    return {"phrase": found.phrase, "kinds": found.kinds, "rolls": list(found.rolls)}


def from_dict(fields: Mapping[str, Any]) -> Fingerprint:
    """Of what `as_dict` gave.  TypeError or KeyError if it is none."""
    phrase, kinds, rolls = fields["phrase"], fields["kinds"], fields["rolls"]
    if type(phrase) is not int or not isinstance(kinds, dict) or not isinstance(rolls, list):
        raise TypeError
    if not all(isinstance(words, dict) for words in kinds.values()) or not all(isinstance(r, str) for r in rolls):
        raise TypeError
    return Fingerprint(phrase, kinds, tuple(rolls))

"""Each student's code, from a phrase that only the instructor has.

    seed = HMAC-SHA256(phrase, kind, roll, counter) mod 23⁶

The counter is 0.  Only where that seed is taken already in the class is it
raised, by ones, until the seed is free; students are taken in the order of
their rolls, sorted as text, whatever the order of the list.  So a code depends
on nobody else, but for about one student in three thousand in a class of a
hundred thousand (and one in five million in a class of sixty).

A second attempt has new numbers: its code hangs on the attempt too, and steps
aside for every code of the attempts before it.  So theirs stay what they are.

HMAC: RFC 2104.  A code cannot be worked out from a roll without the phrase;
one who has the phrase can make every code.
"""

import hashlib
import hmac
import unicodedata
from collections.abc import Iterable

from exercises.classroom.class_list.roster import Student, same_roll
from exercises.classroom.refused import Refused
from exercises.codes.sheet_code import SEEDS, Setting, SheetCode
from exercises.kinds.kind import Kind

SHORTEST_PHRASE, LONGEST_PHRASE = 8, 200


class PhraseError(Refused):
    """A phrase that cannot be used; the text says why."""

    part = "phrase"


def tidy_phrase(phrase: str) -> str:
    """The phrase as it is hashed: one spelling for each letter, single spaces.  PhraseError if it cannot be used."""
    plain = " ".join(unicodedata.normalize("NFC", phrase).split())
    if len(plain) < SHORTEST_PHRASE:
        raise PhraseError(f"The phrase must have at least {SHORTEST_PHRASE} characters, so that no student guesses it.")
    if len(plain) > LONGEST_PHRASE:
        raise PhraseError(f"The phrase has {len(plain)} characters; at most {LONGEST_PHRASE} are used.")
    if any(unicodedata.category(c) in ("Cc", "Cs") for c in plain):
        raise PhraseError("The phrase has a character that cannot be typed again. Use letters, figures and spaces.")
    return plain


def seed_for(phrase: str, slug: str, roll: str, counter: int = 0, attempt: int = 1) -> int:
    """The seed of one student for one kind; `phrase` as `tidy_phrase` gives it."""
    # no roll and no slug has a line break, so no two ever make one message
    message = f"eight-readings class\n{slug}\n{same_roll(roll)}\n{counter}"
    if attempt > 1:
        message += f"\nattempt {attempt}"
    return int.from_bytes(hmac.digest(phrase.encode(), message.encode(), hashlib.sha256), "big") % SEEDS


def codes_for(
    students: Iterable[Student],
    phrase: str,
    kind: Kind,
    setting: Setting = Setting(),
    edition: int | None = None,
    attempt: int = 1,
) -> dict[Student, SheetCode]:
    """A code for each student, in the order of the list, no two alike.

    edition  of the draw; None is the kind's current one
    attempt  1, or that with new numbers, of which no code is one of an earlier attempt
    PhraseError if the phrase cannot be used.
    """
    students = tuple(students)
    plain = tidy_phrase(phrase)
    taken: set[int] = set()
    seeds: dict[Student, int] = {}
    by_roll = sorted(students, key=lambda s: same_roll(s.roll))
    for turn in range(1, attempt + 1):
        for student in by_roll:
            counter = 0
            while (seed := seed_for(plain, kind.slug, student.roll, counter, turn)) in taken:
                counter += 1
            taken.add(seed)
            seeds[student] = seed
    chosen = kind.edition if edition is None else edition
    return {s: SheetCode(kind.letter, chosen, seeds[s], setting) for s in students}

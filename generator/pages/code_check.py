"""What an exercise's page needs to look a code over before Python is there.

The rule of codes stands in exercises/codes/sheet_code.py alone.  Here it is asked, character by character and place by
place, and the answers go into the page as tables.  The page's script looks up, multiplies, adds and compares
(site_assets/code.js).
"""

import json

from exercises.codes.sheet_code import (
    ALPHABET,
    BASE,
    LENGTH,
    LENGTH_WITH_SETTINGS,
    LONGEST_TEXT,
    CodeError,
    SheetCode,
    symbols_of,
    values_of,
    weighted_sum,
    write,
)
from exercises.kinds.kind import Kind

#: What is said where the sum does not agree.  Only a part of a code with settings can have as many characters as a code
#: without.
LOOKS_WRONG = "This code is mistyped or not whole. Compare it with your sheet."
#: What is said where the sum agrees.  Python may still refuse: a sum can agree by chance.
LOOKS_RIGHT = "This code looks right. It is opened when this page is ready."
TYPED = tuple(map(chr, range(ord(" "), ord("~") + 1)))  # characters that are looked up; of any other only Python knows


def code_check(kind: Kind) -> str:
    """The tables as JSON.

    characters    for each number from 0 on, the characters that are read as it
    between       characters that make no difference
    longest       how many characters of a text are read
    lengths       how many characters a code has
    weights       by what the number of a character counts, from the first place on
    modulus, sum  what the weighted sum of a code leaves when it is divided by the modulus
    begins        the first numbers of this kind's codes, of each edition
    right, wrong  what is said of a code whose sum agrees and that begins so, and of one whose sum does not agree
    """
    read_as = {c: _value(c) for c in TYPED}
    return json.dumps(
        {
            "characters": ["".join(c for c, value in read_as.items() if value == n) for n in range(BASE)],
            "between": "".join(c for c in TYPED if not symbols_of(c)),
            "longest": LONGEST_TEXT,
            "lengths": (LENGTH, LENGTH_WITH_SETTINGS),
            "weights": [weighted_sum([1], place) for place in range(LENGTH_WITH_SETTINGS)],
            "modulus": BASE,
            "sum": weighted_sum(values_of(symbols_of(write(SheetCode(kind.letter, kind.edition, 0))), "a sheet code")),
            "begins": [(ALPHABET.index(kind.letter), edition) for edition in kind.draws],
            "right": LOOKS_RIGHT,
            "wrong": LOOKS_WRONG,
        },
        ensure_ascii=False,
        separators=(",", ":"),
    )


def _value(character: str) -> int | None:
    """The number that a character alone is read as, or None."""
    try:
        values = values_of(symbols_of(character.upper()), "a sheet code")
    except CodeError:
        return None
    return values[0] if values else None

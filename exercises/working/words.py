"""Words put together in a sentence: a list of them, and a count with what is counted."""

from collections.abc import Sequence


def listed(words: Sequence[str]) -> str:
    """At least one word as a sentence lists them.

    >>> listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"])
    ('a', 'a and b', 'a, b and c')
    """
    *before, last = words
    return f"{', '.join(before)} and {last}" if before else last


def many(number: int, one: str, more: str = "") -> str:
    """How many there are.

    one, more  what one is called, and what several are called where that is not `one` with an s

    >>> many(1, "sheet"), many(1200, "sheet"), many(0, "entry", "entries")
    ('1 sheet', '1,200 sheets', '0 entries')
    """
    return f"{number:,} {one if number == 1 else more or one + 's'}"

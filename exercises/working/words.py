"""Words put together in a sentence: a list of them, a count with what is counted, and words of somebody else."""

from collections.abc import Sequence


def listed(words: Sequence[str], joint: str = "and") -> str:
    """At least one word as a sentence lists them, with this word before the last.

    >>> listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"], "or")
    ('a', 'a and b', 'a, b or c')
    """
    *before, last = words
    return f"{', '.join(before)} {joint} {last}" if before else last


def many(number: int, one: str, more: str = "") -> str:
    """How many there are.

    one, more  what one is called, and what several are called where that is not `one` with an s

    >>> many(1, "sheet"), many(1200, "sheet"), many(0, "entry", "entries")
    ('1 sheet', '1,200 sheets', '0 entries')
    """
    return f"{number:,} {one if number == 1 else more or one + 's'}"


def sentence(words: str) -> str:
    """What somebody wrote, with a full stop where nothing ends it.

    >>> sentence("ill"), sentence("Why not?")
    ('ill.', 'Why not?')
    """
    return words if words.endswith((".", "!", "?", "…")) else f"{words}."

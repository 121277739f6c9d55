"""What is new in the mark book: the totals that `eight mark` wrote, held against those that were there."""

import csv
import io
from pathlib import Path
from typing import NamedTuple

from exercises.files.text import without_mark
from exercises.working.words import many

TOLD = 10  # totals that are told on the screen


class Book(NamedTuple):
    """A mark book: what its marks are called, such as “mark out of 60”, and each by its roll, as it stands there."""

    called: str
    marks: dict[str, str]


def book_of(path: Path) -> Book | None:
    """The mark book of a file; None where there is none, or it is no mark book any more."""
    try:
        text = without_mark(path.read_bytes().decode("utf-8"))
    except (OSError, ValueError):
        return None
    head = text.partition("\n")[0]
    separator = next((mark for mark in (";", "\t") if mark in head), ",")
    try:
        heads, *rows = [*csv.reader(io.StringIO(text, newline=""), delimiter=separator)] or [[]]
    except csv.Error:
        return None
    if heads[-2:-1] != ["roll"] or any(len(row) != len(heads) for row in rows):
        return None
    return Book(heads[-1], {row[-2]: row[-1] for row in rows})


def changed_totals(before: Book | None, now: Book | None) -> list[str]:
    """How many totals are others than before, and the first of them; none where there was no mark book."""
    if before is None or now is None:
        return []
    if before.called != now.called:
        return [f"The mark book had the “{before.called}” before; it has the “{now.called}” now."]
    others = [(roll, mark) for roll, mark in now.marks.items() if roll in before.marks and before.marks[roll] != mark]
    if not others:
        return ["No total in the mark book has changed."]
    has = "has" if len(others) == 1 else "have"
    shown = "; ".join(
        f"roll {roll} had {before.marks[roll] or 'none'} and has {mark or 'none'}" for roll, mark in others[:TOLD]
    )
    more = f"; and {len(others) - TOLD:,} more" if len(others) > TOLD else ""
    return [f"{many(len(others), 'total')} in the mark book {has} changed: {shown}{more}."]

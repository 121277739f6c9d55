"""What the steps and the parts of a sheet are called in a report on many sheets, each with numbers of its own."""

from collections import Counter
from collections.abc import Iterable

_LOOSE_ENDS = {"at", "for", "from", "of", "to", "the", "by", "in", "dials"}


def merge(order: list[str], seen: Iterable[str]) -> None:
    """Put what is not yet in the order behind what it followed on this sheet: a fifth distance behind the fourth."""
    at = 0
    for name in dict.fromkeys(seen):
        if name in order:
            at = order.index(name) + 1
        else:
            order.insert(at, name)
            at += 1


def labels_of(titles: dict[str, dict[str, None]], parts: dict[str, dict[str, None]]) -> dict[str, str]:
    """What each column is called: what its titles share; where two columns share it, with the part of the sheet.

    titles, parts  column -> all that it was seen with
    """
    labels = {column: _shared(list(seen)) for column, seen in titles.items()}
    many = Counter(labels.values())
    where = {
        column: _shared(list(seen)).rstrip(" 0123456789") if len(seen) > 1 else next(iter(seen))
        for column, seen in parts.items()
    }
    return {c: f"{label} ({where[c]})" if many[label] > 1 and where[c] else label for c, label in labels.items()}


def _shared(titles: list[str]) -> str:
    """The words that all titles begin with, else those they end with, else the first title.

    >>> _shared(["best mean θ at 22.3 cm", "best mean θ at 23.9 cm"])
    'best mean θ'
    >>> _shared(["nearest distance d", "farthest distance d"])
    'distance d'
    """
    if len(titles) == 1:
        return titles[0]
    words = [t.replace("₁", " ₁").replace("₂", " ₂").split() for t in titles]
    begin = _begin(words)
    while len(begin) > 1 and begin[-1].strip(",") in _LOOSE_ENDS:
        begin.pop()
    return " ".join(begin).rstrip(",") or " ".join(reversed(_begin([w[::-1] for w in words]))) or titles[0]


def _begin(rows: list[list[str]]) -> list[str]:
    """What all rows begin with."""
    begin = []
    for together in zip(*rows):
        if len(set(together)) > 1:
            break
        begin.append(together[0])
    return begin

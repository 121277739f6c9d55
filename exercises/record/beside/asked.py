"""What the bench asks for before the readings, and no more: 2l or the length, B_H or the place, the scale step."""

from collections.abc import Iterator
from typing import NamedTuple

from exercises.bench.local_field import PLACES
from exercises.record.beside.work import Work
from exercises.record.entries import FIELDS
from exercises.record.magnetic_length import CELL, STATED, WORDS, rule_named
from exercises.record.place import angle
from exercises.working.mathematics import symbols

STEPS = (("1", "1°"), ("0.5", "½°"))
HELP = {
    CELL: "as your laboratory has it",
    "length": "of the bar, from end to end, or the length given",
    "two_l": "as it is stated",
    "B_H": "or leave it blank and give the place",
    "place": "from the list, or any name with latitude and longitude",
    "date": "such as 2026-03-14",
    "latitude": "such as 60.4 or 33.9 S",
    "longitude": "such as 5.3 or 70.5 W",
    "step": "one division of the circular scale",
}
KINDS = {CELL: "choice", "step": "choice", "place": "place", "date": "date", "latitude": "words", "longitude": "words"}
OPTIONS = {CELL: tuple(WORDS.items()), "step": STEPS, "place": tuple((p.name, p.name) for p in PLACES)}


class Asked(NamedTuple):
    """A cell of the head that is needed; `text` says what is wrong with it, and `lacks` whether it is still wanted."""

    cell: str
    text: str
    lacks: bool

    def plain(self) -> dict[str, object]:
        """What the page shows of it."""
        f = FIELDS[self.cell]
        return {
            "cell": self.cell,
            "label": f.label,
            "unit": f.unit if self.cell not in OPTIONS else "",
            "kind": KINDS.get(self.cell, "number"),
            "options": [list(option) for option in OPTIONS.get(self.cell, ())],
            "help": HELP[self.cell],
            "text": self.text,
            "html": symbols(self.text),
            "state": "ask" if self.text else "",
            "lacks": self.lacks,
        }


def asked(work: Work) -> list[Asked]:
    """What is needed for what is typed so far, in the order in which it is asked."""
    return [_one(work, cell) for cell in _needed(work)]


def _needed(work: Work) -> Iterator[str]:
    head = work.record.head
    yield CELL
    if rule := rule_named(head.get(CELL, "")):
        yield "two_l" if rule.key == STATED else "length"
    yield "B_H"
    if not head.get("B_H", "").strip():
        yield "place"
        place = head.get("place", "").strip()
        if place and not any(p.name.casefold() == place.casefold() for p in PLACES):
            yield from ("latitude", "longitude")
        if place:
            yield "date"
    yield "step"


def _one(work: Work, cell: str) -> Asked:
    givens, blank = work.givens, not work.record.head.get(cell, "").strip()
    if cell in ("B_H", "place"):
        lacks = blank and not work.record.head.get("place", "").strip() and cell == "B_H"
    elif cell in ("latitude", "longitude"):
        lacks = angle(work.record.head.get(cell, "")) is None
    else:
        lacks = blank
    problems = {**givens.numbers.problems, **givens.problems, **givens.local.problems}
    return Asked(cell, "" if blank else problems.get(cell, ""), lacks or cell in problems)

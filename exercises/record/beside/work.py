"""What a bench page holds while a record is made: the record as typed so far, and what is not of the record."""

from dataclasses import dataclass
from functools import cached_property

from exercises.judging.answer import Unreadable
from exercises.judging.answer import read as read_number
from exercises.record.entries import MOST_ROWS, READINGS, Record, cell_of, from_plain
from exercises.record.givens import Givens, givens_of
from exercises.record.return_slip import ZERO

TYPED = ("who", "code", "lab")


@dataclass(frozen=True)
class Work:
    """A record in the making.

    zero  what was typed for each end at the zero check
    who   roll or name, and code what the class knows the record by, for the return slip;  lab  a laboratory's code
    """

    record: Record
    zero: tuple[str, str] = ("", "")
    who: str = ""
    code: str = ""
    lab: str = ""

    @cached_property
    def givens(self) -> Givens:
        """What the record gives to work with."""
        return givens_of(self.record)

    @cached_property
    def zeros(self) -> tuple[tuple[float | None, str], ...]:
        """(size in degrees or None, what is wrong with it or "") of each end at the zero check."""
        return tuple(_zero(text) for text in self.zero)

    @cached_property
    def problems(self) -> dict[str, str]:
        """A sentence for each cell of a distance or of the zero check that was not read, by cell name."""
        zeros = {cell: text for cell, (_, text) in zip(ZERO, self.zeros) if text}
        cells = self.givens.numbers.problems.items()
        return zeros | {name: text for name, text in cells if cell_of(name).row is not None}

    def value(self, cell: str) -> float | None:
        """What a cell of a distance comes to, SI units or degrees; None where it is blank or not read."""
        return self.givens.numbers.get(cell)

    def readings(self, row: int) -> list[float | None]:
        """The eight of a distance, counted from 0."""
        return [self.value(f"{reading}-{row + 1}") for reading in READINGS]

    def text(self, cell: str) -> str:
        """What stands in a cell of a distance as it was typed."""
        return dict(self.record.cells()).get(cell, "")

    def all_readings(self) -> list[tuple[str, float]]:
        """(cell, degrees) of every reading, in the order of the record."""
        cells = [f"{reading}-{row + 1}" for row in range(len(self.record.rows)) for reading in READINGS]
        return [(cell, value) for cell in cells if (value := self.value(cell)) is not None]

    def is_whole(self, row: int) -> bool:
        """Whether a distance, counted from 0, has its d and all eight readings."""
        return self.value(f"d-{row + 1}") is not None and None not in self.readings(row)


def _zero(text: str) -> tuple[float | None, str]:
    try:
        typed = read_number(text, "angle") if text.strip() else None
    except Unreadable as error:
        return None, str(error)
    if typed is not None and abs(typed.value) > 90:
        return None, f"“{text.strip()[:30]}” was not used. An end of the pointer shows between 0° and 90°."
    return (None if typed is None else abs(typed.value)), ""


def work_of(data: object) -> Work:
    """What JSON holds as a bench page keeps it; whatever is not as it should be is left out, never an error."""
    plain = data if isinstance(data, dict) else {}
    listed = plain.get("zero")
    texts = [x if isinstance(x, str) else "" for x in listed[:2]] if isinstance(listed, list) else []
    one, two = (*texts, "", "")[:2]
    typed = [text if isinstance(text := plain.get(key), str) else "" for key in TYPED]
    record = from_plain(plain)
    return Work(Record(record.head, record.rows[:MOST_ROWS]), (one, two), *typed)

"""A question about the working as an examiner asks it: its sentence with its own data, and a dial to be read.

Each kind has its sentences (`Kind.questions`).  Names in braces are what is given: earlier columns of the
kind, data of its sheets by their names in `Working.givens`, and a few words.
"""

from collections.abc import Callable, Sequence
from contextlib import suppress
from typing import Any

from exercises.bench.instrument import EIGHT
from exercises.kinds.beside import Surroundings
from exercises.kinds.kind import Sheet
from exercises.kinds.sheet import Beside, written
from exercises.working.numbers import centimetres, figures, places, reading
from exercises.working.steps import Step


def questions(sheet: Sheet, column: str) -> list[tuple[Step, str, str]]:
    """What an examiner asks about the steps of a column: each step, its sentence, and what there is to look at.

    The sentence is plain text.  What is looked at is HTML, or "".  A step of the column that is worked
    from something else than the others, such as the mean of them all, is not asked.
    """
    around = Surroundings(sheet)
    words = sheet.kind.questions[column]
    found = []
    for step in sheet.working.steps:
        if step.column == column:
            with suppress(KeyError):
                found.append((step, words.format_map(_Data(sheet, step, around)), _looked_at(around, step)))
    return found


def _looked_at(around: Surroundings, step: Step) -> str:
    """The dial that is read, as HTML; "" where nothing is read."""
    if step.column != "read":
        return ""
    blocks = (block for _, blocks in around.parts for block in blocks)
    return next(block.shown for block in blocks if isinstance(block, Beside) and step in block.steps)


class _Data(dict[str, str]):
    """What a question may give, worked out when it is asked for.  KeyError for what the step is not worked from."""

    def __init__(self, sheet: Sheet, step: Step, around: Surroundings):
        super().__init__()
        self.working, self.step, self.around = sheet.working, step, around

    def __missing__(self, name: str) -> str:
        if name in _WORDS:
            return _WORDS[name](self)
        steps = [self.working.by_id[entry] for entry in self.around.entries(self.step)]
        if found := [one for one in steps if one.column == name]:
            return _joined([written(self.working.value(one.id), one).replace(" °", "°") for one in found])
        return _shown(name, self.given(name))

    def given(self, name: str) -> Any:
        """A datum; of a row of them, the one that the step takes."""
        value = self.working.givens[name]
        if not isinstance(value, tuple | list) or name == "timings":
            return value
        at = [int(key.partition(".")[2]) for key in self.around.data(self.step) if key.startswith(f"{name}.")]
        if len(at) > 1:
            raise KeyError(name)
        return value[at[0] if at else _place(self.step, len(value))]

    def readings(self, *wanted: object) -> str:
        """Those of the eight readings that were taken at this end, or on this arm with N so."""
        taken = zip(self.given("readings"), EIGHT)
        return _shown("readings", [one for one, (arm, north, end) in taken if wanted in ((end,), (arm, north))])


def _place(step: Step, rows: int) -> int:
    """Which of so many rows of data belongs to a step."""
    last = step.id.rpartition("-")[2]
    if step.row is not None:
        return step.row
    return int(last) - 1 if last.isdigit() else rows - 1 if last == "far" else 0


#: What a question may say that is no datum by itself.
_WORDS: dict[str, Callable[[_Data], str]] = {
    "angle": lambda data: "60°" if data.step.id.endswith("near") else "30°",
    "arm_laid": lambda data: data.working.givens["laid"][0],
    "pole": lambda data: data.working.givens["laid"][1],
    "end": lambda data: "①②"[int(data.step.id[-1]) - 1],
    "side": lambda data: "north" if data.working.givens["north"] else "south",
    "end_1": lambda data: data.readings(1),
    "end_2": lambda data: data.readings(2),
    "east_east": lambda data: data.readings("east", "east"),
    "east_west": lambda data: data.readings("east", "west"),
    "west_east": lambda data: data.readings("west", "east"),
    "west_west": lambda data: data.readings("west", "west"),
}

_CENTIMETRES = ("length", "two_l", "two_ls", "breadth", "d", "d1", "found", "radius", "arm", "needle")


def _shown(name: str, value: Any) -> str:
    """A datum, or several, with its unit."""
    if isinstance(value, tuple | list):
        return _joined([_shown(name, one) for one in value])
    if name in _CENTIMETRES or name in ("width_two_l", "width_needle"):
        return f"{centimetres(value)} cm"
    return _FORMS[name](value)


_FORMS: dict[str, Callable[[Any], str]] = {
    "B_H": lambda v: f"{places(v * 1e6, 1)} µT",
    "fields": lambda v: f"{places(v * 1e6, 1)} µT",
    "width_d": lambda v: f"{centimetres(v, 2)} cm",
    "width_theta": lambda v: f"{places(v, 1)}°",
    "theta": lambda v: f"{places(v, 1)}°",
    "other_angle": lambda v: f"{v:.0f}°",
    "tilt": lambda v: f"{v:.0f}°",
    "readings": lambda v: f"{reading(v)}°",
    "mass": lambda v: f"{places(v * 1e3, 1)} g",
    "moment": lambda v: f"{figures(v)} A·m²",
    "swings": lambda v: f"{v:.0f}",
    "timings": lambda v: f"{places(v, 1)} s",
}


def _joined(texts: Sequence[str]) -> str:
    """Several of one thing as a sentence says them."""
    *most, last = texts
    return f"{', '.join(most)} and {last}" if most else last

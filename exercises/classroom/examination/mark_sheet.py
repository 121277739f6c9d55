"""The mark sheet of a practical examination: its parts, what the examiner looks for in each, and what they count."""

from collections.abc import Mapping
from typing import NamedTuple

from exercises.classroom.refused import Refused

type Weights = tuple[tuple[str, float], ...]  # a part's key and its marks, in order

MOST = 1000.0  # marks for one part


class MarkSheetError(Refused):
    """Weights that cannot be used; the text says why."""

    part = "examination"


class Part(NamedTuple):
    """A part of a mark sheet: its name in words that are typed, as it is printed, what is looked for, usual marks."""

    key: str
    title: str
    looked_for: tuple[str, ...]
    usual: float


#: Common practice, no source: what is looked for, and what it counts.
PARTS = (
    Part(
        "set-up",
        "Setting up",
        (
            "other magnets and iron cleared away, board level, needle free, glass tapped",
            "first turn: the box alone; second turn: the whole board, until the pointer reads 0–0",
            "tapped and looked at again; the board left alone from then on",
        ),
        10,
    ),
    Part(
        "observation",
        "Observation",
        (
            "distances that give 30° to 60°; d to the middle of the bar",
            "all eight readings at each distance, in their order, written down at once",
            "both ends read from straight above; repeated where a reading stands apart, and nothing rubbed out",
        ),
        10,
    ),
    Part(
        "working",
        "Working",
        ("means, and tangents to four places", "lengths in metres, with the 2l that holds here", "units at each step"),
        8,
    ),
    Part("result", "Result", ("the values with their units", "the uncertainty, and figures that fit it"), 4),
    Part("viva", "Viva", ("the three questions below",), 8),
)
USUAL: Weights = tuple((part.key, float(part.usual)) for part in PARTS)


def weights_from(typed: Mapping[str, object]) -> Weights:
    """The marks of every part, in order, from texts or numbers by the part's key.

    What is blank or not named is as usual.  MarkSheetError, with a sentence, where they cannot be used.
    """
    if strange := [key for key in typed if key not in dict(USUAL)]:
        raise MarkSheetError(
            f"The mark sheet has no part “{str(strange[0])[:40]}”. Its parts are {', '.join(dict(USUAL))}."
        )
    weights = tuple((part.key, _number(typed.get(part.key, ""), part)) for part in PARTS)
    if not total(weights):
        raise MarkSheetError("The parts of the mark sheet add up to nothing. Give at least one of them some marks.")
    return weights


def total(weights: Weights) -> float:
    """What the parts add up to."""
    return round(sum(marks for _, marks in weights), 2)


def _number(typed: object, part: Part) -> float:
    text = str(typed).strip().replace(",", ".")
    if not text:
        return float(part.usual)
    try:
        number = float(text)
    except ValueError:
        number = -1.0
    if not 0 <= number <= MOST or round(number, 2) != number:
        raise MarkSheetError(
            f"The marks for {part.title.lower()} must be a number from 0 to {MOST:g}, to hundredths at the most."
        )
    return number

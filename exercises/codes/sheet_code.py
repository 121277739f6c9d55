"""The sheet code: twelve characters that stand for one student's numbers.

    A3 222 H7KW4P C        printed as A322-2H7K-W4PC
    │└ edition of the draw
    └─ kind of exercise    then three for the laboratory's settings, six for
                           the seed, and a check character

The 23 characters are those that are hard to mistake in handwriting: of each
look-alike pair only one is used, and the other is read as it (Z as 2, S as 5,
B as 8, G as 6).  23 is prime, so the weighted sum below is zero for every good
code and for no code with one wrong character or two neighbours swapped: a
change of one character by δ changes the sum by weight·δ, a swap by the
difference of two weights times the difference of the characters, and neither
is a multiple of 23.  The scheme is the weighted check sum of ISO 7064's
family, with a prime other than 11 (ISBN-10 uses 11).
"""

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass

from exercises.codes.editions import NEWEST, counts_of

ALPHABET = "23456789ACEFHJKMNPRTWXY"
BASE = len(ALPHABET)  # 23
LENGTH = 12
SEEDS = BASE**6
LOOK_ALIKES = {"Z": "2", "S": "5", "B": "8", "G": "6"}

#: Choices a laboratory may fix; the first of each leaves it to the draw.  They are part of every code: never reorder
#: them.  What is added at the end counts from a new edition on (editions.py).
SCALE_STEPS = (None, 1.0, 0.5)  # degrees
DISTANCES = (None, 4, 5, 6)
LENGTHS_MM = (
    None,
    54,
    55,
    56,
    58,
    60,
    62,
    63,
    64,
    65,
    66,
    68,
    70,
    72,
    74,
    75,
    76,
    77,
    78,
    80,
    82,
    84,
    85,
    86,
    88,
    90,
    92,
    95,
    96,
    98,
    100,
    102,
    105,
    108,
    110,
    115,
    120,
    125,
    127,
)


class CodeError(ValueError):
    """A code that cannot be read.  `position` counts from 1, or is None where it cannot be told."""

    def __init__(self, sentence: str, position: int | None = None):
        super().__init__(sentence)
        self.position = position


@dataclass(frozen=True)
class Setting:
    """What a laboratory fixed for all its students; None leaves it to the draw.

    place: index into local_field.PLACES; scale_step: degrees; distances: how
    many; length_mm: measured length of the magnets, one of LENGTHS_MM.
    """

    place: int | None = None
    scale_step: float | None = None
    distances: int | None = None
    length_mm: int | None = None


@dataclass(frozen=True)
class SheetCode:
    """A read code: the kind's letter, the edition of the draw, the settings, the seed."""

    kind: str
    edition: int
    seed: int
    setting: Setting = Setting()

    def __str__(self) -> str:
        return write(self)


def _digits(number: int, places: int) -> list[int]:
    out = []
    for _ in range(places):
        number, digit = divmod(number, BASE)
        out.append(digit)
    return out[::-1]


def _number(values: list[int]) -> int:
    total = 0
    for value in values:
        total = total * BASE + value
    return total


def _index(name: str, choices: Sequence[float | None], value: float | None) -> int:
    try:
        return choices.index(value)
    except ValueError:
        offered = ", ".join(str(c) for c in choices[1:])
        raise ValueError(f"{name} cannot be {value}; it can be left open or be one of {offered}") from None


def pack(setting: Setting, edition: int = NEWEST) -> int:
    """The settings as one whole number below 23³.  ValueError names a choice that the edition does not offer."""
    offered = counts_of(edition)
    packed = 0 if setting.place is None else setting.place + 1
    if not 0 <= packed <= offered.places or setting.place == -1:
        raise ValueError(f"there are places 0 to {offered.places - 1}; {setting.place} is not among them")
    for name, choices, value in (
        ("the scale step", SCALE_STEPS[: offered.steps], setting.scale_step),
        ("the number of distances", DISTANCES[: offered.distances], setting.distances),
        ("the length of the magnets", LENGTHS_MM[: offered.lengths], setting.length_mm),
    ):
        packed = packed * len(choices) + _index(name, choices, value)
    return packed


def unpack(packed: int, edition: int = NEWEST) -> Setting:
    """Inverse of `pack`.  CodeError if no setting of the edition has that number."""
    offered = counts_of(edition)
    packed, length = divmod(packed, offered.lengths)
    packed, distances = divmod(packed, offered.distances)
    place, step = divmod(packed, offered.steps)
    if place > offered.places:
        raise CodeError(
            "The third to fifth characters of this code stand for no setting of a laboratory. Look at them again.", 3
        )
    return Setting(place - 1 if place else None, SCALE_STEPS[step], DISTANCES[distances], LENGTHS_MM[length])


def write(code: SheetCode) -> str:
    """The code as people copy it: twelve capitals and figures in groups of four.

    ValueError if a field is out of range.
    """
    if len(code.kind) != 1 or code.kind not in ALPHABET:
        raise ValueError(f"a kind's letter is one of {ALPHABET}; {code.kind!r} is not")
    if not 0 <= code.edition < BASE:
        raise ValueError(f"editions go from 0 to {BASE - 1}; {code.edition} does not")
    if not 0 <= code.seed < SEEDS:
        raise ValueError(f"a seed goes from 0 to {SEEDS - 1}; {code.seed} does not")
    values = [ALPHABET.index(code.kind), code.edition]
    values += _digits(pack(code.setting, code.edition), 3) + _digits(code.seed, 6)
    total = sum(weight * value for weight, value in enumerate(values, 1))
    # 12·check ≡ −total (mod 23), and 12 · 2 = 24 ≡ 1, so the inverse of 12 is 2
    values.append(-total * 2 % BASE)
    text = "".join(ALPHABET[v] for v in values)
    return "-".join((text[:4], text[4:8], text[8:]))


def read(text: str) -> SheetCode:
    """Read a code in any case, with or without hyphens and spaces.

    CodeError, with a sentence and where possible a position, if it is not one.
    Whether the kind and the edition exist is for `kinds` to say.

    >>> read(" a322-222222-25 ") == read("A322-2222-2225")
    True
    """
    if len(text) > 200:
        raise CodeError(f"A sheet code has {LENGTH} characters; this text has {len(text)}.")
    plain = unicodedata.normalize("NFKC", text).upper()
    if "CODE=" in plain:  # a sheet's whole address
        plain = plain.partition("CODE=")[2].partition("&")[0].partition("#")[0]
    symbols = [c for c in plain if not c.isspace() and unicodedata.category(c) not in ("Pd", "Cf") and c not in "−_.,+"]
    if not symbols:
        raise CodeError(f"A sheet code has {LENGTH} characters, such as A322-2222-2225. Nothing was typed.")
    values = []
    for position, symbol in enumerate(symbols, 1):
        symbol = LOOK_ALIKES.get(symbol, symbol)
        if symbol not in ALPHABET:
            foreign = ""
            if symbol.isalpha() and not symbol.isascii():
                foreign = " It may come from another alphabet that looks the same."
            raise CodeError(
                f"Character {position} of this code, “{symbols[position - 1]}”, is never used in a sheet code. "
                f"Only these are: {ALPHABET}.{foreign}",
                position,
            )
        values.append(ALPHABET.index(symbol))
    if len(values) != LENGTH:
        gap = LENGTH - len(values)
        many = f"{abs(gap)} character{'s' if abs(gap) > 1 else ''}"
        verb = "are" if abs(gap) > 1 else "is"
        raise CodeError(
            f"A sheet code has {LENGTH} characters; this one has {len(values)}, "
            f"so {many} {verb} {'missing' if gap > 0 else 'too many'}."
        )
    if sum(weight * value for weight, value in enumerate(values, 1)) % BASE:
        raise CodeError(_where_wrong(values))
    setting = unpack(_number(values[2:5]), edition=values[1])
    return SheetCode(ALPHABET[values[0]], values[1], _number(values[5:11]), setting)


def _where_wrong(values: list[int]) -> str:
    """A sentence for a failed check.  One check character cannot tell where; a swap can be looked for."""
    swaps = []
    for i in range(LENGTH - 1):
        tried = values[:i] + [values[i + 1], values[i]] + values[i + 2 :]
        if tried != values and sum(w * v for w, v in enumerate(tried, 1)) % BASE == 0:
            swaps.append(i + 1)
    sentence = "One character of this code is wrong, or two neighbours are swapped: its check character does not agree."
    if len(swaps) == 1:
        sentence += f" If two were swapped, they are characters {swaps[0]} and {swaps[0] + 1}."
    return sentence + " Compare it with your sheet, character by character."

"""The sheet code: nine characters that stand for one student's numbers, or fifteen with the laboratory's settings.

    A3C-H7K-W4P            without settings
    │││ └─────┴ the seed
    ││└ check character
    │└ edition of the draw
    └ kind of exercise
    A3K-H7K-W4P-52M-7XC    with settings: the last two groups, alike on all codes of a class

The 23 characters are those that are hard to mistake in handwriting: of each
look-alike pair only one is used, and the other is read as it (Z as 2, S as 5,
B as 8, G as 6).  23 is prime, so the weighted sum below is zero for every good
code and for no code with one wrong character or two neighbours swapped: a
change of one character by δ changes the sum by weight·δ, a swap by the
difference of two weights times the difference of the characters, and neither
is a multiple of 23 (the check sum of ISBN-10 and ISO 7064 has 11).  The share of
the settings in it is never zero, so a code without its settings is refused too.
"""

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from exercises.codes.editions import NEWEST, counts_of

ALPHABET = "23456789ACEFHJKMNPRTWXY"
BASE = len(ALPHABET)  # 23
GROUP = 3
LENGTH, LENGTH_WITH_SETTINGS = 3 * GROUP, 5 * GROUP
FORMER_LENGTH = 12  # of codes before a laboratory's own conventions were in them
_LENGTHS = f"{LENGTH} characters, or {LENGTH_WITH_SETTINGS} with a laboratory's settings"
_EXAMPLE = "A3H-222-222"
LONGEST_TEXT = 200  # characters that are read
#: What is said first of a code whose check character does not agree; on a phone it takes two lines.
MISTYPED = "A character of this code is wrong, or two are swapped. Compare it with your sheet."
CHECK_AT = 2  # the check character's place, counted from 0
SEEDS = BASE**6
LOOK_ALIKES = {"Z": "2", "S": "5", "B": "8", "G": "6"}

#: Choices a laboratory may fix.  They are part of every code: never reorder them.
TWO_L = ("stated", "given", "five-sixths")  # how 2l is known; the first where nothing is fixed
SCALE_STEPS = (None, 1.0, 0.5)  # degrees; None leaves it to the draw, here and below
GRIDS_MM = (1, 5, 10)  # distances in whole or half centimetres, or in whole millimetres where nothing is fixed
DISTANCES = (None, 3, 4, 5, 6, 7, 8)
LENGTHS_MM = (None, *range(40, 201))
FIELDS_UT10 = range(100, 651)  # a laboratory's own B_H, tenths of a microtesla
FIRST_YEAR, YEARS = 2025, 5  # those of the World Magnetic Model that is used


class CodeError(ValueError):
    """A code that cannot be read.  `position` counts from 1, or is None where it cannot be told."""

    def __init__(self, sentence: str, position: int | None = None):
        super().__init__(sentence)
        self.position = position


class Station(NamedTuple):
    """One place and one month for a whole class.  place: index into local_field.PLACES."""

    place: int
    year: int
    month: int


@dataclass(frozen=True)
class Setting:
    """What a laboratory fixed for all its students; None leaves it to the draw.

    two_l: how the magnetic length is known, one of TWO_L; field: a Station, or B_H itself in microtesla, with one
    decimal; length_mm: measured length of the magnets; grid_mm: every distance is a multiple of it; distances: how
    many; scale_step: degrees.
    """

    two_l: str = TWO_L[0]
    field: Station | float | None = None
    length_mm: int | None = None
    grid_mm: int = GRIDS_MM[0]
    distances: int | None = None
    scale_step: float | None = None


@dataclass(frozen=True)
class SheetCode:
    """A read code: the kind's letter, the edition of the draw, the seed, the settings."""

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


def _number(values: Sequence[int]) -> int:
    total = 0
    for value in values:
        total = total * BASE + value
    return total


def _index(name: str, choices: Sequence[object], value: object) -> int:
    try:
        return choices.index(value)
    except ValueError:
        offered = [str(c) for c in choices if c is not None]
        told = f"one of {', '.join(offered)}" if len(offered) < 10 else f"from {offered[0]} to {offered[-1]}"
        may = "left open or be " if None in choices else ""
        raise ValueError(f"{name} cannot be {value}; it can be {may}{told}") from None


def _field_index(field: Station | float | None, places: int) -> int:
    if field is None:
        return 0
    if not isinstance(field, Station):
        tenths = round(field * 10)
        if tenths not in FIELDS_UT10 or abs(tenths - field * 10) > 1e-6:
            low, high = FIELDS_UT10[0] / 10, FIELDS_UT10[-1] / 10
            raise ValueError(f"B_H goes from {low} to {high} µT, with one decimal; {field} is not among them")
        return 1 + FIELDS_UT10.index(tenths)
    month = (field.year - FIRST_YEAR) * 12 + field.month - 1
    if not 0 <= field.place < places:
        raise ValueError(f"there are places 0 to {places - 1}; {field.place} is not among them")
    if not (1 <= field.month <= 12 and 0 <= month < 12 * YEARS):
        raise ValueError(
            f"months go from 1 to 12 in the years {FIRST_YEAR} to {FIRST_YEAR + YEARS - 1}; "
            f"month {field.month} of {field.year} is not among them"
        )
    return 1 + len(FIELDS_UT10) + field.place * 12 * YEARS + month


def _field_of(index: int, places: int) -> Station | float | None:
    """Inverse of `_field_index`.  ValueError if there is none."""
    if index == 0:
        return None
    if index <= len(FIELDS_UT10):
        return FIELDS_UT10[index - 1] / 10
    place, month = divmod(index - 1 - len(FIELDS_UT10), 12 * YEARS)
    if place >= places:
        raise ValueError
    return Station(place, FIRST_YEAR + month // 12, month % 12 + 1)


@lru_cache(maxsize=64)  # a class has one setting
def pack(setting: Setting, edition: int = NEWEST) -> int:
    """The settings as one whole number, 0 where nothing is fixed.  ValueError names a choice that is not offered."""
    packed = _field_index(setting.field, counts_of(edition).places)  # first: it may grow
    for name, choices, value in (
        ("the length of the magnets", LENGTHS_MM, setting.length_mm),
        ("the number of distances", DISTANCES, setting.distances),
        ("the scale step", SCALE_STEPS, setting.scale_step),
        ("the step of the distances in mm", GRIDS_MM, setting.grid_mm),
        ("the rule of the magnetic length", TWO_L, setting.two_l),
    ):
        packed = packed * len(choices) + _index(name, choices, value)
    return packed


def unpack(packed: int, edition: int = NEWEST) -> Setting:
    """Inverse of `pack`.  CodeError if no setting of the edition has that number."""
    packed, two_l = divmod(packed, len(TWO_L))
    packed, grid = divmod(packed, len(GRIDS_MM))
    packed, step = divmod(packed, len(SCALE_STEPS))
    packed, distances = divmod(packed, len(DISTANCES))
    packed, length = divmod(packed, len(LENGTHS_MM))
    try:
        field = _field_of(packed, counts_of(edition).places)
    except ValueError:
        raise CodeError(
            "The last two groups of this code stand for no setting of a laboratory. Look at them again.", LENGTH + 1
        ) from None
    return Setting(TWO_L[two_l], field, LENGTHS_MM[length], GRIDS_MM[grid], DISTANCES[distances], SCALE_STEPS[step])


def weighted_sum(values: Sequence[int], first: int = 0) -> int:
    """The weighted sum mod 23, 0 for every good code; `first` is the place of the first of the values in the code."""
    return sum((first + n) * value for n, value in enumerate(values, 1)) % BASE


def _settings_word(packed: int) -> list[int]:
    """The six values of settings that are not 0: any five, and one that makes their share of the sum 1 to 22."""
    five, share = divmod(packed - 1, BASE - 1)
    if five >= BASE**5:
        raise ValueError(f"no six characters hold setting number {packed}")
    word = _digits(five, LENGTH_WITH_SETTINGS - LENGTH - 1)
    missing = share + 1 - weighted_sum(word, LENGTH)
    return [*word, missing * pow(LENGTH_WITH_SETTINGS, -1, BASE) % BASE]


def _packed(word: Sequence[int]) -> int:
    """Inverse of `_settings_word`.  CodeError for a word that it never writes."""
    share = weighted_sum(word, LENGTH)
    if not share:
        raise CodeError(
            "The last two groups of this code stand for no setting of a laboratory. Look at them again.", LENGTH + 1
        )
    return _number(word[:-1]) * (BASE - 1) + share


@lru_cache(maxsize=64)  # a student's codes are asked for several times, one after the other
def write(code: SheetCode) -> str:
    """The code as people copy it: capitals and figures in groups of three.

    ValueError if a field is out of range.
    """
    if len(code.kind) != 1 or code.kind not in ALPHABET:
        raise ValueError(f"a kind's letter is one of {ALPHABET}; {code.kind!r} is not")
    if not 0 <= code.edition < BASE:
        raise ValueError(f"editions go from 0 to {BASE - 1}; {code.edition} does not")
    if not 0 <= code.seed < SEEDS:
        raise ValueError(f"a seed goes from 0 to {SEEDS - 1}; {code.seed} does not")
    packed = pack(code.setting, code.edition)
    values = [ALPHABET.index(code.kind), code.edition, 0, *_digits(code.seed, 6)]
    values += _settings_word(packed) if packed else []
    values[CHECK_AT] = -weighted_sum(values) * pow(CHECK_AT + 1, -1, BASE) % BASE
    return _grouped(values)


def _grouped(values: Sequence[int]) -> str:
    text = "".join(ALPHABET[v] for v in values)
    return "-".join(text[n : n + GROUP] for n in range(0, len(text), GROUP))


def read(text: str) -> SheetCode:
    """Read a code in any case, with or without hyphens and spaces.

    CodeError, with a sentence and where possible a position, if it is not one.
    Whether the kind and the edition exist is for `kinds` to say.

    >>> read(" a3h2222 22 ") == read("A3H-222-222")
    True
    """
    if len(text) > LONGEST_TEXT:
        raise CodeError(f"A sheet code has {_LENGTHS}; this text has {len(text)} characters.")
    plain = unicodedata.normalize("NFKC", text).upper()
    if "CODE=" in plain:  # a sheet's whole address
        plain = plain.partition("CODE=")[2].partition("&")[0].partition("#")[0]
    symbols = symbols_of(plain)
    if not symbols:
        raise CodeError(f"A sheet code has {_LENGTHS}, such as {_EXAMPLE}. Nothing was typed.")
    values = values_of(symbols, "a sheet code")
    if len(values) not in (LENGTH, LENGTH_WITH_SETTINGS):
        raise CodeError(_wrong_length(values))
    if weighted_sum(values):
        raise CodeError(_where_wrong(values))
    setting = unpack(_packed(values[LENGTH:]), edition=values[1]) if len(values) > LENGTH else Setting()
    return SheetCode(ALPHABET[values[0]], values[1], _number(values[CHECK_AT + 1 : LENGTH]), setting)


def symbols_of(plain: str) -> list[str]:
    """The characters of a text that count, without spaces, hyphens and the like."""
    return [c for c in plain if not c.isspace() and unicodedata.category(c) not in ("Pd", "Cf") and c not in "−_.,+"]


def values_of(symbols: Sequence[str], what: str) -> list[int]:
    """The number of each character.  CodeError for one that is never used."""
    values = []
    for position, symbol in enumerate(symbols, 1):
        symbol = LOOK_ALIKES.get(symbol, symbol)
        if symbol not in ALPHABET:
            looks_alike = symbol.isalpha() and not symbol.isascii()
            foreign = " It may come from another alphabet that looks the same." if looks_alike else ""
            raise CodeError(
                f"Character {position} of this code, “{symbols[position - 1]}”, is never used in {what}. "
                f"Only these are: {ALPHABET}.{foreign}",
                position,
            )
        values.append(ALPHABET.index(symbol))
    return values


def _wrong_length(values: Sequence[int]) -> str:
    """A sentence for a code of a length that no code has."""
    if len(values) == FORMER_LENGTH and not weighted_sum(values):
        return (
            f"This is a code of the former layout, with {FORMER_LENGTH} characters. Its numbers can no longer be had. "
            f"Ask for a new code. If yours has {LENGTH_WITH_SETTINGS} characters, a group is missing."
        )
    wanted = LENGTH if len(values) <= LENGTH + 1 else LENGTH_WITH_SETTINGS
    gap = wanted - len(values)
    many = f"{abs(gap)} character{'s' if abs(gap) > 1 else ''} {'are' if abs(gap) > 1 else 'is'}"
    return f"A sheet code has {_LENGTHS}; this one has {len(values)}, so {many} {'missing' if gap > 0 else 'too many'}."


def _where_wrong(values: list[int]) -> str:
    """A sentence for a failed check.  One check character cannot tell where; a swap can be looked for."""
    swaps = []
    for i in range(len(values) - 1):
        tried = values[:i] + [values[i + 1], values[i]] + values[i + 2 :]
        if tried != values and not weighted_sum(tried):
            swaps.append(i + 1)
    sentence = f"{MISTYPED} The check character does not agree."
    if len(swaps) == 1:
        sentence += f" If two neighbours were swapped, they are characters {swaps[0]} and {swaps[0] + 1}."
    if len(values) == LENGTH:  # so it is, too, with every code that has lost its settings
        sentence += f" Or the code goes on: with a laboratory’s settings it has {LENGTH_WITH_SETTINGS} characters."
    return sentence


#: The characters of a laboratory's settings alone: the last two groups of its codes, and a check of their own.
LAB_LENGTH = LENGTH_WITH_SETTINGS - LENGTH + 1


def write_setting(setting: Setting) -> str:
    """The settings alone, for an address: the last two groups of every code of them, and a check character.

    "" where nothing is fixed.  ValueError if a choice is not offered.
    Any six characters are some setting's about two times in five, so they alone would not show a wrong one.
    """
    packed = pack(setting)
    if not packed:
        return ""
    values = _settings_word(packed)
    values.append(-weighted_sum(values) * pow(LAB_LENGTH, -1, BASE) % BASE)
    return _grouped(values)


def read_setting(text: str) -> Setting:
    """Inverse of `write_setting`, in any case, with or without hyphens and spaces; a whole address is read too.

    CodeError, with a sentence, if it is none.

    >>> read_setting(write_setting(Setting("given", 38.2))) == Setting("given", 38.2)
    True
    """
    again = "Copy it once more from your sheet, or ask your instructor."
    plain = unicodedata.normalize("NFKC", text[:LONGEST_TEXT]).upper()
    if "LAB=" in plain:
        plain = plain.partition("LAB=")[2].partition("&")[0].partition("#")[0]
    symbols = symbols_of(plain)
    if not symbols:
        return Setting()
    values = values_of(symbols, "a laboratory's code")
    if len(values) != LAB_LENGTH:
        raise CodeError(f"A laboratory’s code has {LAB_LENGTH} characters; this one has {len(values)}. {again}")
    if weighted_sum(values):
        raise CodeError(f"One character of this laboratory’s code is wrong, or two neighbours are swapped. {again}")
    return unpack(_packed(values[:-1]))

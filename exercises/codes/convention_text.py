"""What a person writes for each of a laboratory's choices, read.

Bad text is refused with a sentence that says how to write it; a number that
fits in another unit only is asked about, never converted in silence.
"""

import re
import unicodedata
from collections.abc import Mapping

from exercises.codes.editions import places_of
from exercises.codes.scenario import MONTHS
from exercises.codes.sheet_code import (
    DISTANCES,
    FIELDS_UT10,
    FIRST_YEAR,
    GRIDS_MM,
    LENGTHS_MM,
    SCALE_STEPS,
    TWO_L,
    YEARS,
)
from exercises.working.asked import unit_question
from exercises.working.quantities import QUANTITIES, plain_unit

#: What the ways of knowing 2l are called.
TWO_L_WORDS = dict(
    zip(TWO_L, ("stated on the sheet", "the length given", "five sixths of the measured length"), strict=True)
)
#: What distances are called, by the step between them in mm.
GRID_WORDS = dict(zip(GRIDS_MM, ("whole millimetres", "half centimetres", "whole centimetres"), strict=True))


class ConventionError(ValueError):
    """A choice that cannot be made so; the text is a sentence that says how to write it."""


LARGEST = 1e9  # no choice has a larger number, in any unit
_AMOUNT = re.compile(
    r"(?P<number>(?:\d{1,9}(?:[.,]\d{0,9})?|[.,]\d{1,9})(?:e[+-]?\d{1,3})?)\s*(?P<unit>[^\d\s].*)?", re.I
)


def _amount(text: str, quantity: str, unit: str, usual: tuple[float, float], wanted: str) -> float:
    """The size in SI units that a text stands for; a bare number is in `unit`.

    usual   the smallest and the largest size that can be meant
    wanted  a sentence that says what is
    """
    plain = unicodedata.normalize("NFKC", text).replace("−", "-").strip()
    found = _AMOUNT.fullmatch(plain)
    units = QUANTITIES[quantity].units
    if found is None or plain_unit(found["unit"] or unit) not in units:
        raise ConventionError(f"{wanted} “{text.strip()[:40]}” is not read.")
    number = float(found["number"].replace(",", "."))
    if number > LARGEST:
        raise ConventionError(f"{wanted} “{text.strip()[:40]}” is not.")
    if not found["unit"] and (question := unit_question(found["number"], number, quantity, usual, unit)):
        raise ConventionError(question)
    return number * units[plain_unit(found["unit"] or unit)]


def _one_of(text: str, offered: Mapping[str, object], wanted: str) -> object:
    for name, value in offered.items():
        if _letters(name) == _letters(text):
            return value
    raise ConventionError(f"{wanted} “{text.strip()[:40]}” is not one of them.")


def _letters(name: str) -> str:
    """A name without capitals, accents and marks."""
    return "".join(c for c in unicodedata.normalize("NFKD", name.casefold()) if c.isalnum())


def read_two_l(text: str) -> str:
    """How 2l is known, one of sheet_code.TWO_L.  ConventionError if it is none."""
    offered = {name: name for name in TWO_L} | {words: name for name, words in TWO_L_WORDS.items()}
    found = _one_of(text, offered, f"The magnetic length 2l is one of: {', '.join(TWO_L)}.")
    return str(found)


FIELD_LIMITS = FIELDS_UT10[0] / 10, FIELDS_UT10[-1] / 10


def read_field(text: str) -> float:
    """B_H in microtesla, with one decimal.  ConventionError, with a question where it fits in another unit only."""
    low, high = FIELD_LIMITS
    wanted = f"B_H is a number from {low} to {high} µT, with one decimal."
    found = _amount(text, "field", "µT", (low / 1e6, high / 1e6), wanted) * 1e6
    tenths = round(found * 10)
    if tenths not in FIELDS_UT10 or abs(found * 10 - tenths) > 1e-6:
        raise ConventionError(f"{wanted} “{text.strip()[:40]}” is not.")
    return tenths / 10


def read_place(text: str) -> int:
    """The number of a place by its name, however its capitals and accents are written.  ConventionError if none."""
    for number, place in enumerate(places_of()):
        if _letters(place.name) == _letters(text):
            return number
    raise ConventionError(
        f"There is no place “{text.strip()[:40]}” here. There are: {', '.join(p.name for p in places_of())}."
    )


def read_month(text: str) -> tuple[int, int]:
    """Year and month of “2026-05” or “May 2026”.  ConventionError if it is none that the field model holds for."""
    plain = unicodedata.normalize("NFKC", text).strip()
    year = month = 0
    if found := re.fullmatch(r"(\d{4})-(\d{1,2})", plain, re.ASCII):
        year, month = int(found[1]), int(found[2])
    elif found := re.fullmatch(r"([A-Za-z]+) (\d{4})", plain, re.ASCII):
        names = [name.lower() for name in MONTHS]
        month, year = (names.index(found[1].lower()) + 1 if found[1].lower() in names else 0), int(found[2])
    if not (FIRST_YEAR <= year < FIRST_YEAR + YEARS and 1 <= month <= 12):
        raise ConventionError(
            f"A month is written as {FIRST_YEAR + 1}-05, from {FIRST_YEAR}-01 to {FIRST_YEAR + YEARS - 1}-12. "
            f"“{text.strip()[:40]}” is not one of them. For another year, set B_H to a value of your own instead."
        )
    return year, month


def _millimetres(text: str, offered: tuple[int, ...], wanted: str) -> int:
    """A length as one of the whole millimetres that are offered."""
    found = _amount(text, "distance", "mm", (offered[0] / 1e3, offered[-1] / 1e3), wanted) * 1e3
    if round(found) not in offered or abs(found - round(found)) > 1e-6:
        raise ConventionError(f"{wanted} “{text.strip()[:40]}” is not.")
    return round(found)


LENGTHS = tuple(n for n in LENGTHS_MM if n)
COUNTS = tuple(n for n in DISTANCES if n)
STEPS = {f"{step:g}": step for step in SCALE_STEPS if step}


def read_length(text: str) -> int:
    """The measured length of bars in mm.  ConventionError, with a question where it fits in another unit only."""
    wanted = f"The length of the bars is a whole number of millimetres, from {LENGTHS[0]} to {LENGTHS[-1]}."
    return _millimetres(text, LENGTHS, wanted)


def read_grid(text: str) -> int:
    """The step between distances in mm.  ConventionError, with a question where it fits in another unit only."""
    by_words = {_letters(words): grid for grid, words in GRID_WORDS.items()}
    if (named := by_words.get(_letters(text))) is not None:
        return named
    return _millimetres(text, GRIDS_MM, f"Distances are multiples of {GRIDS_MM[0]}, {GRIDS_MM[1]} or {GRIDS_MM[2]} mm.")


def read_distances(text: str) -> int:
    """How many distances.  ConventionError if so many are not offered."""
    offered = {str(n): n for n in COUNTS}
    if (found := offered.get(unicodedata.normalize("NFKC", text).strip())) is None:
        told = f"The number of distances is a whole number from {COUNTS[0]} to {COUNTS[-1]}."
        raise ConventionError(f"{told} “{text.strip()[:40]}” is not.")
    return found


def read_step(text: str) -> float:
    """The scale step in degrees.  ConventionError if it is not offered."""
    plain = text.strip().rstrip("°").strip().replace("½", "0.5").replace(",", ".")
    if (found := STEPS.get(plain.removesuffix(".0"))) is None:
        raise ConventionError(f"The scale step is {' or '.join(STEPS)} degrees. “{text.strip()[:40]}” is not.")
    return found

"""A scenario: the numbers one student gets, drawn from a seed within physical limits.

The draw uses nothing but `random.Random(seed).random()`, whose sequence Python
promises never to change for a given seed, and sums and products, so that a
code gives the same numbers on every machine for ever.
"""

import hashlib
import math
import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

from exercises.bench.instrument import Faults
from exercises.bench.local_field import PLACES, Place, horizontal
from exercises.codes.editions import counts_of
from exercises.codes.sheet_code import LENGTHS_MM, Setting, SheetCode, pack

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)

#: The Saltmarsh drawer: invented names for invented magnets.
BIRDS = (
    "Avocet",
    "Curlew",
    "Dunlin",
    "Plover",
    "Godwit",
    "Knot",
    "Lapwing",
    "Oystercatcher",
    "Phalarope",
    "Redshank",
    "Ruff",
    "Sanderling",
    "Snipe",
    "Stint",
    "Turnstone",
    "Whimbrel",
)


@dataclass(frozen=True)
class Material:
    """A magnet's material and the range of magnetisation (A/m) of open bars of it."""

    name: str
    lowest: float
    highest: float


#: Ranges from memory of handbook tables of remanence, lowered for the bar's own
#: demagnetising field: common practice, no source.
MATERIALS = (
    Material("carbon steel", 0.4e5, 1.5e5),
    Material("chrome steel", 0.8e5, 2.5e5),
    Material("cobalt steel", 1.5e5, 4.0e5),
    Material("ferrite", 2.0e5, 3.2e5),
    Material("alnico", 3.0e5, 7.5e5),
)


@dataclass(frozen=True)
class Bar:
    """A bar magnet as made: sizes in metres; its true moment (A·m²) and magnetic length (m)."""

    name: str
    material: Material
    length: float
    width: float
    thickness: float
    moment: float
    magnetic_length: float

    @property
    def magnetisation(self) -> float:
        """Moment per volume, A/m."""
        return self.moment / (self.length * self.width * self.thickness)


@dataclass(frozen=True)
class Row:
    """One distance d (m) and its eight readings (degrees)."""

    d: float
    readings: tuple[float, ...]

    @cached_property
    def mean(self) -> float:
        return sum(self.readings) / len(self.readings)


@dataclass(frozen=True)
class Scenario:
    """What every sheet is given: its code, a place and a month, and B_H there, in tesla as it stands on the sheet.

    Each kind adds its own numbers, and the truth behind them.
    """

    code: SheetCode
    place: Place
    year: int
    month: int
    B_H: float

    @property
    def when(self) -> str:
        """The month in words, such as “May 2027”."""
        return f"{MONTHS[self.month - 1]} {self.year}"


class Draw:
    """Numbers from a seed: the same for ever, on every machine.

    places, lengths_mm, birds, materials  what the code's edition reads of the lists that may grow
    """

    def __init__(self, code: SheetCode):
        self.code = code
        reads = counts_of(code.edition)
        self.places = PLACES[: reads.places]
        self.lengths_mm = [n for n in LENGTHS_MM[: reads.lengths] if n is not None]
        self.birds = BIRDS[: reads.birds]
        self.materials = MATERIALS[: reads.materials]
        text = f"eight-readings {code.kind} {code.edition} {pack(code.setting, code.edition)} {code.seed}"
        self._random = random.Random(int.from_bytes(hashlib.sha256(text.encode()).digest(), "big")).random

    def between(self, low: float, high: float) -> float:
        return low + (high - low) * self._random()

    def below(self, n: int) -> int:
        """A whole number from 0 to n − 1."""
        return int(self._random() * n)

    def pick[T](self, choices: Sequence[T]) -> T:
        return choices[self.below(len(choices))]

    def shuffled[T](self, items: Sequence[T]) -> list[T]:
        left = list(items)
        return [left.pop(self.below(len(left))) for _ in range(len(left))]

    def normal(self, sigma: float) -> float:
        """Nearly normal with standard deviation sigma: twelve uniforms, so no library function is used."""
        r = self._random
        # written out: not every Python adds a sum of floats in the same way
        return (r() + r() + r() + r() + r() + r() + r() + r() + r() + r() + r() + r() - 6) * sigma


ATTEMPTS = 5000  # from one stream, before a code is given up


def first_good[Good](draw: Draw, attempt: Callable[[Draw], Good | None], attempts: int = ATTEMPTS) -> Good:
    """The first of so many attempts from one stream that is not None.

    ArithmeticError if none is good, which no setting that can be coded leads to.
    """
    for _ in range(attempts):
        made = attempt(draw)
        if made is not None:
            return made
    raise ArithmeticError(f"no consistent numbers were found for code {draw.code}; use another code")


def draw_place(draw: Draw, setting: Setting) -> tuple[Place, int, int, float]:
    """Place, year, month and B_H in tesla, to 0.1 µT as it is given on the sheet."""
    place = draw.pick(draw.places) if setting.place is None else draw.places[setting.place]
    year, month = 2025 + draw.below(5), 1 + draw.below(12)
    field_here = horizontal(place.latitude, place.longitude, place.height, year + (month - 0.5) / 12)
    return place, year, month, round(field_here * 1e7) / 1e7


def draw_bar(draw: Draw, length_mm: int, magnetic_length: float, moment: float) -> Bar | None:
    """A bar of that length and moment: a material and a section that agree with both, or None."""
    for material in draw.shuffled(draw.materials):
        section = moment / (draw.between(material.lowest, material.highest) * length_mm * 1e-3)
        proportion = draw.between(1.0, 2.2)
        thickness = round(math.sqrt(section / proportion) * 1e3)
        width = round(math.sqrt(section * proportion) * 1e3)
        if 3 <= thickness <= 15 and width <= min(25, length_mm / 3):
            bar = Bar(
                draw.pick(draw.birds), material, length_mm / 1e3, width / 1e3, thickness / 1e3, moment, magnetic_length
            )
            if material.lowest <= bar.magnetisation <= material.highest:
                return bar
    return None


def draw_length_mm(draw: Draw, setting: Setting) -> int:
    return setting.length_mm or draw.pick(draw.lengths_mm)


def draw_faults(draw: Draw) -> Faults:
    """The faults of an instrument in fair condition: sizes are common practice, no source."""
    return Faults(
        pivot_x=draw.between(-0.5e-3, 0.5e-3),
        pivot_y=draw.between(-0.5e-3, 0.5e-3),
        zero_error=draw.between(-0.8, 0.8),
        arm_off=draw.between(-1.5, 1.5),
        box_shift=draw.between(-1e-3, 1e-3),
        centre_shift=draw.between(-1e-3, 1e-3),
        magnet_turned=draw.between(-2.0, 2.0),
    )


READING_ERROR = 0.2  # degrees, standard deviation of one look at the pointer
ARM_LENGTH = 0.50  # m, each arm


def to_grid(value: float, grid: int) -> float:
    """A length in m on a grid of 1/grid m, so that it prints with few figures."""
    return round(value * grid) / grid

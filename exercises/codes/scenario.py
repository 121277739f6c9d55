"""A scenario: the numbers one student gets, drawn from a seed within physical limits.

The draw uses nothing but `random.Random(seed).random()`, whose sequence Python
promises never to change for a given seed, and sums and products, so that a
code gives the same numbers on every machine for ever.
"""

import hashlib
import math
import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from dataclasses import field as dataclass_field
from functools import cache, cached_property

from exercises.bench.instrument import Faults
from exercises.bench.local_field import PLACES, Place, horizontal
from exercises.bench.magnets import MATERIALS
from exercises.codes.editions import counts_of
from exercises.codes.sheet_code import FIRST_YEAR, YEARS, Setting, SheetCode, pack

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


#: Measured lengths of the bars that are drawn, mm.
DRAWN_LENGTHS_MM = (
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


@dataclass(frozen=True)
class Row:
    """One distance d (m) and its eight readings (degrees)."""

    d: float
    readings: tuple[float, ...]

    @cached_property
    def mean(self) -> float:
        return sum(self.readings) / len(self.readings)


@dataclass(frozen=True)
class LocalField:
    """B_H in tesla, to 0.1 µT as a sheet gives it, and the place and month of which the model has it.

    place  None where it is a laboratory's own value
    """

    B_H: float
    place: Place | None = None
    year: int = 0
    month: int = 0

    @property
    def where(self) -> str:
        """Place and month in words: “Vienna, May 2027”."""
        return f"{self.place.name}, {MONTHS[self.month - 1]} {self.year}" if self.place else "the laboratory"

    @property
    def named(self) -> str:
        """What a sheet calls B_H: “B_H at Vienna, May 2027”."""
        return f"B_H at {self.where}" if self.place else "B_H in the laboratory"


@dataclass(frozen=True)
class Scenario:
    """What every sheet is given: its code, and the local field.

    Each kind adds its own numbers, and the truth behind them.
    diagnosable  whether the slips that its draw heeds can all be told apart; only a laboratory's settings prevent it
    """

    code: SheetCode
    field: LocalField
    diagnosable: bool = dataclass_field(default=True, kw_only=True)

    @property
    def B_H(self) -> float:
        """The horizontal component of the earth's field in tesla, as it stands on the sheet."""
        return self.field.B_H

    @property
    def poles_at_ends(self) -> bool:
        """Whether the poles of its bar lie so near its ends that the length cannot be told from 2l."""
        return False


ROOT_2 = math.sqrt(2)  # six uniforms have a standard deviation of 1/√2


class Draw:
    """Numbers from a seed: the same for ever, on every machine.

    places, birds, materials  what the code's edition reads of the lists that may grow
    """

    def __init__(self, code: SheetCode):
        self.code = code
        reads = counts_of(code.edition)
        self.places = PLACES[: reads.places]
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

    def in_turn[T](self, items: Sequence[T]) -> Iterator[T]:
        """All of them in an order of chance, each drawn when it is asked for."""
        left = list(items)
        while left:
            yield left.pop(self.below(len(left)))

    def shuffled[T](self, items: Sequence[T]) -> list[T]:
        return list(self.in_turn(items))

    def normal(self, sigma: float) -> float:
        """Nearly normal with standard deviation sigma, at most 4.3 of it: six uniforms, no library function."""
        return self.normals(sigma, 1)[0]

    def normals(self, sigma: float, n: int) -> tuple[float, ...]:
        """So many of them, one after the other."""
        r, scale = self._random, ROOT_2 * sigma
        # written out: not every Python adds a sum of floats in the same way
        return tuple([(r() + r() + r() + r() + r() + r() - 3) * scale for _ in range(n)])


STRICT = 60  # attempts at numbers whose slips can all be told apart
ATTEMPTS = 5000  # attempts at all, from one stream, before a code is given up
_OPEN = Setting()  # that fixes nothing


def first_good[Good: Scenario, S](
    draw: Draw, slips: tuple[S, ...], attempt: Callable[[Draw, tuple[S, ...]], Good | None]
) -> Good:
    """The first good one of many attempts from one stream.

    attempt  (draw, the slips that must be told apart) -> numbers, or None if they do not hold
    Where a laboratory's settings leave no numbers whose slips can be told apart, the sheet is given all the same: after
    `STRICT` attempts that is no longer asked for, and the sheet is not diagnosable.
    ArithmeticError if none is good, which no setting that can be set leads to.
    """
    # how 2l is known and how fine the scale is leave as many numbers as there are without settings
    setting = draw.code.setting
    narrows = setting != _OPEN and replace(setting, two_l=_OPEN.two_l, scale_step=None) != _OPEN
    strict = STRICT if narrows else ATTEMPTS
    for n in range(ATTEMPTS):
        made = attempt(draw, slips if n < strict else ())
        if made is not None:
            return made if n < strict else replace(made, diagnosable=False)
    raise ArithmeticError(f"no consistent numbers were found for code {draw.code}; use another code")


def draw_field(draw: Draw, setting: Setting) -> LocalField:
    """B_H as the laboratory fixed it, or that of a place and a month."""
    fixed = setting.field
    if isinstance(fixed, float):
        return LocalField(fixed / 1e6)
    if fixed is None:
        place, year, month = draw.pick(draw.places), FIRST_YEAR + draw.below(YEARS), 1 + draw.below(12)
    else:
        place, year, month = draw.places[fixed.place], fixed.year, fixed.month
    return LocalField(_to_tenth(place, year, month), place, year, month)


def strongest_field(setting: Setting) -> float:
    """The largest B_H in tesla that a sheet with these settings may have."""
    fixed = setting.field
    if isinstance(fixed, float):
        return fixed / 1e6
    return _strongest() if fixed is None else _to_tenth(PLACES[fixed.place], fixed.year, fixed.month)


@cache
def _strongest() -> float:
    """The largest B_H in tesla of all places and months."""
    months = [(FIRST_YEAR + year, month) for year in range(YEARS) for month in range(1, 13)]
    return max(_to_tenth(place, *month) for place in PLACES for month in months)


@cache
def _to_tenth(place: Place, year: int, month: int) -> float:
    """The model's B_H in the middle of a month, in tesla, to 0.1 µT."""
    return round(horizontal(place.latitude, place.longitude, place.height, year + (month - 0.5) / 12) * 1e7) / 1e7


def draw_length_mm(draw: Draw, setting: Setting) -> int:
    """The measured length of a bar in mm, as the laboratory fixed it or one of those that bars are sold in."""
    return setting.length_mm or draw.pick(DRAWN_LENGTHS_MM)


def draw_faults(draw: Draw) -> Faults:
    """The faults of an instrument in fair condition: sizes are common practice, no source."""
    pivot_x, pivot_y = draw.between(-0.5e-3, 0.5e-3), draw.between(-0.5e-3, 0.5e-3)
    # what both turns leave: the pointer not quite at 0, the box not quite parallel to the arms
    at_rest, box_turned = draw.between(-0.8, 0.8), draw.between(-1.5, 1.5)
    return Faults(
        pivot_x=pivot_x,
        pivot_y=pivot_y,
        arm_off=box_turned + at_rest,
        box_turned=box_turned,
        box_shift=draw.between(-1e-3, 1e-3),
        centre_shift=draw.between(-1e-3, 1e-3),
        magnet_turned=draw.between(-2.0, 2.0),
    )


READING_ERROR = 0.2  # degrees, standard deviation of one look at the pointer
ARM_LENGTH = 0.50  # m, each arm


def to_grid(value: float, grid: int) -> float:
    """A length in m on a grid of 1/grid m, so that it prints with few figures."""
    return round(value * grid) / grid

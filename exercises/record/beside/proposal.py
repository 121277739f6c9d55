"""Where to lay the magnet next: so that the deflections spread over 33° to 57°, clear of the box, on the arm."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from exercises.bench.field import MU_0_OVER_4PI, distance_end_on, end_on
from exercises.record.beside.look import Looked
from exercises.record.estimate import SHARES
from exercises.record.givens import Givens
from exercises.working.numbers import places

FROM, TO = 33, 57  # degrees: over these the deflections are spread
MIDDLE = 45.0
CLEAR = 0.01  # m between the box and the end of the magnet; common practice, no source
ARM = 0.5  # m, how long an arm is; common practice, no source
GRID = 0.001  # m: distances are whole millimetres
APART = 0.003  # m: distances closer together tell the same thing twice; common practice, no source


class Stretch(NamedTuple):
    """From where to where on the arm the middle of the magnet can lie, m."""

    near: float
    far: float


@dataclass(frozen=True)
class Proposal:
    """The next distance in m, None where nothing is known yet, the deflection there in degrees, and a sentence."""

    d: float | None
    theta: float
    text: str

    @property
    def shown(self) -> str:
        """The distance in cm as it is typed, or ""."""
        return "" if self.d is None else places(100 * self.d, 1)


def stretch_of(givens: Givens, half: float) -> Stretch:
    """Where the magnet can lie; `half` is half its magnetic length, m, which says how long it is at most."""
    length = givens.length or 2 * half / SHARES[0]
    return Stretch(length / 2 + givens.radius + CLEAR, ARM - length / 2)


def proposed(looked: Looked, without: int | None = None) -> Proposal:
    """The next distance, from the readings so far or from a moment that is noted.

    without  a distance, as the bench counts them, that is to be begun anew, or None
    """
    found, l = looked.watched.forecast, looked.bench.half.value
    read = {s.row for s in looked.watched.kept}
    q = found.strength_now if read else _noted(looked)
    stretch = stretch_of(looked.work.givens, l)
    if q is None or stretch.near >= stretch.far:
        return Proposal(None, MIDDLE, FIRST)
    half = min(max(0.0, found.half_now), 2 * l) if read else looked.work.givens.half or l
    target = _target([found.level(row)[0] for row in read if row != without])
    wanted = distance_end_on(q, math.tan(math.radians(target)), half, 1.0)
    taken = [d for row, d in enumerate(looked.bench.ds) if row != without]
    d = _free(round(min(max(wanted, stretch.near), stretch.far) / GRID) * GRID, taken, stretch)
    theta = math.degrees(math.atan(end_on(q, d, half, 1.0)))
    why = ""
    if wanted < stretch.near - GRID:
        why = ", as near as the box lets it"
    elif wanted > stretch.far + GRID:
        why = ", as far as the arm goes"
    text = f"Next {places(100 * d, 1)} cm{why}: about {theta:.0f}° is to be expected there."
    return Proposal(d, theta, text)


FIRST = (
    "Slide the magnet along the east arm until the pointer shows about 45°, and take the nearest whole millimetre as "
    "the first distance."
)


def _noted(looked: Looked) -> float | None:
    """(µ0/4π)·m/B_H in m³ by a moment that is noted in the record, or None."""
    m, B_H = looked.work.value("mean-moment"), looked.work.givens.local.B_H
    return MU_0_OVER_4PI * m / B_H if m and m > 0 and B_H else None


def _target(levels: Sequence[float]) -> float:
    """The deflection that lies farthest from all that are there; of two the smaller, whose magnet is farther off."""
    if not levels:
        return MIDDLE
    return max(range(FROM, TO + 1), key=lambda theta: min(abs(theta - level) for level in levels))


def _free(d: float, taken: Sequence[float], stretch: Stretch) -> float:
    """The whole millimetre next to d that is not too near to a distance that is taken, or d where there is none."""
    for step in range(60):
        for way in (1, -1):
            tried = d + way * step * GRID
            if stretch.near <= tried <= stretch.far and all(abs(tried - other) >= APART - 1e-9 for other in taken):
                return tried
    return d

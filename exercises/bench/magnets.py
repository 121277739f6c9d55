"""Bar magnets as they are made: materials, how strong bars of them are, and where their poles lie.

Two things decide where the poles lie.  A bar of hard steel loses its
magnetisation towards the ends, so its poles lie well inside them.  A bar of
ferrite or alnico is magnetised nearly alike all along, so its poles are its two
end faces; that they are broad brings the poles a little nearer to each other.
"""

import math
from dataclasses import dataclass


@dataclass(frozen=True, eq=False)  # hashed by what it is: much is kept by material
class Material:
    """A magnet's material.

    lowest, highest  range of magnetisation of open bars of it, A/m
    weakened         range of 2l as a share of the length of bars whose ends are weakened; None where a bar is
                     magnetised alike all along, so that 2l follows from its size
    """

    name: str
    lowest: float
    highest: float
    weakened: tuple[float, float] | None = None

    @property
    def share(self) -> float:
        """About where the poles lie: 2l as a share of the length."""
        return sum(self.weakened) / 2 if self.weakened else SLIM


STEEL = (0.81, 0.85)  # of the length: 2l of steel bars, about 5/6; common practice, no source
SLIM = 0.99  # of the length: 2l of a uniform bar seven times as long as wide

#: Ranges from memory of handbook tables of remanence, lowered for the bar's own
#: demagnetising field: common practice, no source.
MATERIALS = (
    Material("carbon steel", 0.4e5, 1.5e5, STEEL),
    Material("chrome steel", 0.8e5, 2.5e5, STEEL),
    Material("cobalt steel", 1.5e5, 4.0e5, STEEL),
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

    @property
    def poles_at_ends(self) -> bool:
        """Whether its poles lie so near its ends that nobody can tell 2l from the length."""
        return self.magnetic_length > NEAR_ENDS * self.length


NEAR_ENDS = 0.95  # of the length


def uniform_magnetic_length(length: float, width: float, thickness: float) -> float:
    """2l of a bar magnetised alike all along: the distance of the two poles whose far field on the axis is its field.

    The end faces carry the poles, each spread over the face.  Of a pole at ±L/2 on the axis and ρ beside it the second
    term of the far field goes as L²/4 − 3ρ²/2; over a face of the sides w and t the mean of ρ² is (w² + t²)/12, so
    (2l)² = L² − (w² + t²)/2.  All in metres.  Worked here; tests/outside holds it against magpylib.

    >>> round(uniform_magnetic_length(0.08, 0.02, 0.01), 4)
    0.0784
    """
    return math.sqrt(length * length - (width * width + thickness * thickness) / 2)

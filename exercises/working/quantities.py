"""The quantities that are typed on a sheet: their units, how these are spelt, and how a value is written.

One table serves the reading of answers, the sheets, the tables and the marks.
A step names its quantity by a key of `QUANTITIES`, or "choice" where something
is chosen from a list.

Units of the c.g.s. system are read too.  1 erg/G = 1 emu = 10⁻³ A·m² and
1 G = 10⁻⁴ T are from R. B. Goldfarb and F. R. Fickett, "Units for magnetic
properties", NBS Special Publication 696, 1985.  A field of 1 Oe in air is 1 G,
since B = H there in that system (its note a).  The others follow from these:
a pole strength is a moment over a length, so 1 emu/cm is 0.1 A·m.
"""

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property


@dataclass(frozen=True)
class Quantity:
    """One quantity.

    shown   its unit as a page shows it, "" if it needs none
    units   each spelling of a unit after `plain_unit`, with its size in SI units
    bare    how many SI units a number without a unit counts
    least, most  the sizes that it can have on a sheet or in a record, SI units (degrees for an angle); wide, for they
            only tell a decimal comma from one that parts thousands
    """

    shown: str
    units: Mapping[str, float] = field(default_factory=dict)
    bare: float = 1.0
    least: float = 0.0
    most: float = math.inf

    def can_be(self, value: float) -> bool:
        """Whether it can have this value in SI units (degrees for an angle), whatever the sign."""
        return self.least <= abs(value) <= self.most

    @cached_property
    def shown_size(self) -> float:
        """The size of the shown unit in SI units."""
        return self.units[plain_unit(self.shown)] if self.shown else 1.0


_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-")


def plain_unit(text: str) -> str:
    """A unit as the table spells it: small letters, no spaces, dots or marks of multiplication and powers.

    >>> plain_unit("A·m²"), plain_unit("A m^2"), plain_unit("µT"), plain_unit("J T**-1")
    ('am2', 'am2', 'ut', 'jt-1')
    """
    unit = text.translate(_RAISED).lower().replace("µ", "u").replace("μ", "u")
    unit = re.sub(r"(?<=[a-z])(?:\s*(?:\^|\*\*)\s*)(?=-?\d)", "", unit)
    return re.sub(r"(?<=[a-z])\s*[x*]\s*(?=[a-z])|\((?=\s*[a-z])|(?<=[a-z0-9])\s*\)|[\s·.]", "", unit)


_PREFIXES = {"": 1.0, "k": 1e3, "m": 1e-3, "u": 1e-6, "n": 1e-9}

#: c.g.s. units of a moment, of a pole strength and of a field, for G and Oe alike.
_CGS_MOMENT = dict.fromkeys(
    ("emu", "erg/g", "ergg-1", "erg/gauss", "erg/oe", "ergoe-1", "gcm3", "gausscm3", "dyncm/g", "dyncm/oe"), 1e-3
)
_CGS_POLE = dict.fromkeys(
    ("emu/cm", "emucm-1", "erg/gcm", "erg/g/cm", "ergg-1cm-1", "dyn/g", "dyng-1", "dyn/oe", "gcm2", "gausscm2"), 0.1
)
_CGS_FIELD = {**dict.fromkeys(("g", "gs", "gauss", "oe", "oersted", "oersteds"), 1e-4), "mg": 1e-7, "moe": 1e-7}

QUANTITIES: dict[str, Quantity] = {
    "moment": Quantity(
        "A·m²",
        {
            **{f"{p}am2": size for p, size in _PREFIXES.items()},
            **{f"{p}{joule}": size for p, size in _PREFIXES.items() for joule in ("j/t", "jt-1")},
            "acm2": 1e-4,
            "macm2": 1e-7,
            "amm2": 1e-6,
            **_CGS_MOMENT,
        },
        least=1e-3,
        most=100.0,
    ),
    "pole": Quantity(
        "A·m",
        {**{f"{p}am": size for p, size in _PREFIXES.items()}, "acm": 1e-2, "amm": 1e-3, "j/tm": 1.0, **_CGS_POLE},
        least=0.5,
        most=500.0,
    ),
    "angle": Quantity("°", {"": 1.0, "°": 1.0, "deg": 1.0, "degree": 1.0, "degrees": 1.0}, most=90.0),
    # a tangent of 1° to 89°, a ratio of two moments, a factor
    "ratio": Quantity("", {"": 1.0}, least=0.01, most=100.0),
    "length4": Quantity("m⁴", {"": 1.0, "m4": 1.0, "cm4": 1e-8, "mm4": 1e-12}, least=1e-6, most=0.04),
    "length": Quantity("m", {"m": 1.0, "cm": 1e-2, "mm": 1e-3}, least=1e-5, most=3.0),
    "distance": Quantity("cm", {"m": 1.0, "cm": 1e-2, "mm": 1e-3}, bare=1e-2, least=1e-5, most=3.0),
    "area": Quantity("m²", {"m2": 1.0, "cm2": 1e-4, "mm2": 1e-6}, least=1e-5, most=0.05),
    "volume": Quantity("m³", {"m3": 1.0, "cm3": 1e-6}, least=5e-5, most=0.2),
    "per_volume": Quantity(
        "m⁻³", {"": 1.0, "m-3": 1.0, "/m3": 1.0, "cm-3": 1e6, "/cm3": 1e6}, least=20.0, most=10_000.0
    ),
    "root_length": Quantity("√m", {"": 1.0, "m1/2": 1.0, "m05": 1.0, "√m": 1.0}, least=0.05, most=3.0),
    "slope": Quantity("m^1.5", {"m3/2": 1.0, "m1.5": 1.0, "m15": 1.0, "": 1.0}, least=1e-3, most=2.0),
    "time": Quantity("s", {"s": 1.0, "ms": 1e-3, "sec": 1.0, "seconds": 1.0}, least=0.5, most=100.0),
    "inertia": Quantity("kg·m²", {"kgm2": 1.0, "gcm2": 1e-7, "kgcm2": 1e-4}, least=1e-6, most=3e-3),
    "m_over_B": Quantity(
        "A·m²/T", {"am2/t": 1.0, "am2t-1": 1.0, "j/t2": 1.0, "jt-2": 1.0, "emu/g": 10.0}, least=500.0, most=1e6
    ),
    "m_times_B": Quantity(
        "A·m²·T",
        {"am2t": 1.0, "nm": 1.0, "j": 1.0, "unm": 1e-6, "uj": 1e-6, "mj": 1e-3, "erg": 1e-7, "dyncm": 1e-7},
        least=5e-7,
        most=1e-3,
    ),
    "percent": Quantity("%", {"%": 1e-2, "percent": 1e-2}, bare=1e-2, least=2e-5, most=1.0),
    "count": Quantity("", {"": 1.0}, most=100.0),
    "freedom": Quantity("", {"": 1.0}, least=1.0, most=2e3),  # effective degrees of freedom
    "field": Quantity(
        "µT", {"t": 1.0, "mt": 1e-3, "ut": 1e-6, "nt": 1e-9, **_CGS_FIELD}, bare=1e-6, least=1e-6, most=2e-4
    ),
}
_OF_A_CHOICE = Quantity("")


def quantity(name: str) -> Quantity:
    """The quantity of a step; one without a unit where the step is a choice.  KeyError for a name that is neither."""
    return _OF_A_CHOICE if name == "choice" else QUANTITIES[name]

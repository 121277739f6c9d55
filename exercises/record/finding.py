"""One thing that was found in a record, as data: how grave it is, which sentence it is, which cells it is about."""

from dataclasses import dataclass
from typing import Literal

#: "amiss": a number does not fit.  "look": it is worth a second look.  "note": it is good to know.
Level = Literal["amiss", "look", "note"]
LEVELS: tuple[Level, ...] = ("amiss", "look", "note")  # the gravest first
SURE = 3.0  # standard errors from which on a difference is believed; common practice


@dataclass(frozen=True)
class Finding:
    """One thing found.

    key    which finding it is: "misread", "trend", a key of instrument_findings.SIGNS …
    text   what is said of it, in whole sentences
    read   address of the passage that explains it (passages.py), or ""
    cells  names of the cells it is about
    """

    level: Level
    key: str
    text: str
    read: str = ""
    cells: tuple[str, ...] = ()

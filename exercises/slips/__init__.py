"""The catalogue of slips: each is one named change to the working.

To add a slip, add one entry to the `SLIPS` of a file here; a new file is found
by itself.  `part` names the replaceable part of a working (see kinds/) that the
slip changes, and `change` takes the right part and gives the slipped one.  A
slip belongs to every kind that has the part, unless `kinds` narrows it.  That
these are the slips students make is common practice, no source.
"""

import importlib
import pkgutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache


@dataclass(frozen=True)
class Slip:
    """A slip: its key, its name, the part it changes and how, what is said, where to read.

    says      one or two plain sentences that tell what the number looks like and
              what belongs there instead; they blame nobody
    kinds     slugs of the kinds it belongs to; () for all that have the part
    by_angle  its value hangs on how finely the angle was kept
    hides     it may lie too near the right answer or another slip to be told on
              every sheet; it is looked for only where no other slip explains a number
    """

    key: str
    name: str
    part: str
    change: Callable[[Callable], Callable]
    says: str
    read: str
    kinds: tuple[str, ...] = ()
    by_angle: bool = False
    hides: bool = False


def always(replacement):
    """A change that does not need the right part."""
    return lambda right: replacement


@cache
def all_slips() -> tuple[Slip, ...]:
    """Every slip of every file here, in the order of the files' names and of their entries."""
    modules = [importlib.import_module(f"{__name__}.{m.name}") for m in pkgutil.iter_modules(__path__)]
    return tuple(slip for module in sorted(modules, key=lambda m: m.__name__) for slip in module.SLIPS)


def slips_for(kind: str, parts: Mapping[str, Callable]) -> tuple[Slip, ...]:
    """The slips of a kind: those whose part its working has."""
    return tuple(s for s in all_slips() if s.part in parts and (not s.kinds or kind in s.kinds))

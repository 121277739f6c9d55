"""What a slip is: one named change to the working.

To add a slip, add one entry to the `SLIPS` of the kind's slips.py, or of a file
here where several kinds share it.  `part` names the replaceable part of a working (see kinds/) that the
slip changes, and `change` takes the right part and gives the slipped one.  A
slip belongs to every kind that has the part, unless `kinds` narrows it.  That
these are the slips students make is common practice, no source.
"""

from collections.abc import Callable, Container, Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

from exercises.working.steps import Step, Working

#: A replaceable part.  Each has a signature of its own, which the kinds declare (steps.Parts).
type Part = Callable[..., Any]
#: The values that a slip may give at a step, from what the step is worked from and comes to, by id.
type Values = Callable[[Working, Step, Mapping[str, Any]], Iterable[float]]


@dataclass(frozen=True)
class Slip:
    """A slip: its key, its name, the part it changes and how, what is said, where to read.

    part      "" for a slip that hangs on where a number stands and on no part; it belongs to every kind
    says      one or two plain sentences that tell what the number looks like and
              what belongs there instead; they blame nobody
    kinds     slugs of the kinds it belongs to; () for all that have the part
    rules     the ways of knowing 2l (sheet_code.TWO_L) on whose sheets it can be made; () for all
    by_angle  its value hangs on how finely the angle was kept
    hides     it may lie too near the right answer or another slip to be told on
              every sheet; it is looked for only where no other slip explains a number
    since     the first edition whose draw heeds it: older numbers were drawn without it, so on an older
              sheet it counts as one that hides
    at        in place of a change: the values it may give at a step that takes the part itself, such as
              one for each reading that may have been left out
    exact     it is named only where a value agrees to the figures typed
    like      key of a slip that it comes so near to that three figures often tell them apart no longer: where both
              agree to the figures typed, that one is named and this one is spoken of after it
    inside    it is told only where the poles lie well inside the ends of the bar, and hides on other sheets
    beside    if it agrees to more than three figures, it is said beside another that agrees as well
    besides   what is said after `says` at a step of a quantity
    """

    key: str
    name: str
    part: str
    change: Callable[[Part], Part]
    says: str
    read: str
    kinds: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()
    by_angle: bool = False
    hides: bool = False
    since: int = 1
    at: Values | None = None
    exact: bool = False
    like: str = ""
    inside: bool = False
    beside: bool = False
    besides: tuple[tuple[str, str], ...] = ()

    def said_at(self, step: Step) -> str:
        """What is said of a number at this step."""
        return " ".join([self.says, *(more for quantity, more in self.besides if quantity == step.quantity)])


def always(replacement: Part) -> Callable[[Part], Part]:
    """A change that does not need the right part."""
    return lambda right: replacement


def unchanged(right: Part) -> Part:
    """The change of a slip whose values `at` gives: none."""
    return right


@cache  # the same slips each time: what is made of a slip is kept for that one (diagnosis.slipped_parts)
def as_of(slips: tuple[Slip, ...], edition: int, rule: str, at_ends: bool = False) -> tuple[Slip, ...]:
    """The slips as sheets of this edition, with 2l by this rule, look for them.

    at_ends  whether the sheet's bar has its poles at its ends
    One that came later hides there, for no draw kept it apart.
    """
    fitting = [slip for slip in slips if not slip.rules or rule in slip.rules]
    hiding = {slip.key for slip in fitting if slip.since > edition or at_ends and slip.inside}
    return tuple([replace(slip, hides=True) if slip.key in hiding else slip for slip in fitting])


_AT_ENDS: dict[int, tuple[tuple[Slip, ...], tuple[Slip, ...]]] = {}  # by identity: to compare so many slips takes long


def told_at_ends(slips: tuple[Slip, ...]) -> tuple[Slip, ...]:
    """Those of some slips that are told where the bar has its poles at its ends: of the same slips the same ones."""
    if id(slips) not in _AT_ENDS:
        _AT_ENDS[id(slips)] = slips, tuple([slip for slip in slips if not slip.inside])
    return _AT_ENDS[id(slips)][1]


def heeded(slips: tuple[Slip, ...], edition: int, rule: str) -> tuple[Slip, ...]:
    """The slips that a draw of such sheets tells apart on every one: none that hides, and none that came later."""
    return tuple(slip for slip in as_of(slips, edition, rule) if not slip.hides)


def slips_for(kind: str, parts: Container[str], catalogue: Iterable[Slip]) -> tuple[Slip, ...]:
    """The slips of a catalogue that belong to a kind: those whose part its working has, or that hang on none."""
    return tuple(s for s in catalogue if (not s.part or s.part in parts) and (not s.kinds or kind in s.kinds))

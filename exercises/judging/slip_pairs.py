"""Two slips together, where no single one explains a wrong number.

One number can be explained by too many pairs, so a pair is only believed when
it explains two or more of the student's entries.
"""

from collections.abc import Mapping, Sequence
from functools import cached_property
from itertools import combinations

from exercises.judging.answer import Typed
from exercises.judging.diagnosis import matches, slipped_parts, with_slips
from exercises.slips.catalogue import Slip
from exercises.working.arithmetic import Exact
from exercises.working.steps import Step, Working

FEWEST = 2  # entries a pair must explain
SEARCHED = 3  # unexplained entries that are searched; the rest are only compared with what was found


def pairs_that_explain(
    working: Working, slips: Sequence[Slip], steps: Sequence[Step], known: Mapping[str, Typed]
) -> list[tuple[tuple[Slip, Slip], list[str]]]:
    """Pairs of slips that give the entries of these steps, with the ids of those they explain.

    steps   steps whose entries are wrong and explained by no single slip
    known   every number typed on the sheet, the starts of later steps
    The likelier first: those that explain more entries, then those nearer the
    front of the catalogue, which stands in the order of how often they are made.
    """
    slips = [slip for slip in slips if not slip.hides]
    looked = [_Look(working, step, slips, known) for step in steps]
    found: dict[tuple[Slip, Slip], list[str]] = {}
    for look in looked[:SEARCHED]:
        for pair in combinations(look.single, 2):
            if pair not in found and look.is_given_by(pair):
                found[pair] = [other.step.id for other in looked if other is look or other.is_given_by(pair)]
    believed = [(pair, ids) for pair, ids in found.items() if len(ids) >= FEWEST]
    order = {slip.key: i for i, slip in enumerate(slips)}
    return sorted(believed, key=lambda f: (-len(f[1]), order[f[0][0].key] + order[f[0][1].key]))


class _Look:
    """One unexplained entry: where its working starts, and what each slip alone makes of it."""

    def __init__(self, working: Working, step: Step, slips: Sequence[Slip], known: Mapping[str, Typed]):
        self.working, self.step, self.typed = working, step, known[step.id]
        self.own = {k: t.value for k, t in known.items() if k != step.id}
        self.right = dict(self.own)
        self.slips = slips

    @cached_property
    def single(self) -> dict[Slip, float]:
        working, step = self.working, self.step
        try:
            self.right[step.id] = working.fill(step, Exact, working.parts, self.right)
        except (ValueError, ArithmeticError):
            return {}  # the entries before it lead to no number
        found = {}
        for slip in self.slips:
            changed = working.slipped(slip.part, slipped_parts(working, slip), self.right, self.own)
            if step.id in changed:
                found[slip] = changed[step.id]
        return found

    def is_given_by(self, pair: tuple[Slip, Slip]) -> bool:
        if not all(slip in self.single for slip in pair):
            return False
        value = pair_value(self.working, pair, self.step, self.right, self.own)
        return (
            value is not None
            and value not in map(self.single.get, pair)
            and matches(self.typed.value, self.typed.last_place, value)
        )


def pair_value(working: Working, pair: tuple[Slip, Slip], step: Step, right, own=None) -> float | None:
    """What two slips together make of a step, or None if they change nothing there or cannot both be made."""
    one, two = pair
    if one.part == two.part:
        return None  # the same thing cannot be done wrong in two ways at once
    parts = with_slips(working.parts, one, two)
    return working.slipped((one.part, two.part), parts, right, own).get(step.id)


def acts_as_two(working: Working, pair: tuple[Slip, Slip], step: Step, right) -> bool:
    """Whether both slips change the step, and together otherwise than either alone."""
    both = pair_value(working, pair, step, right)
    alone = [working.slipped(s.part, slipped_parts(working, s), right).get(step.id) for s in pair]
    return both is not None and None not in alone and both not in alone

"""Two slips together, where no single one explains a wrong number.

One number can be explained by too many pairs, so a pair is only believed when
it explains two or more of the student's entries.
"""

from collections.abc import Mapping, Sequence
from itertools import combinations

from exercises.answer import Typed
from exercises.arithmetic import Exact
from exercises.diagnosis import matches
from exercises.slips import Slip
from exercises.working import Step, Working

FEWEST = 2  # entries a pair must explain
SEARCHED = 4  # unexplained entries that are searched; the rest are only compared with what was found


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
    starts = [_start(working, step, known) for step in steps]
    found: dict[tuple[Slip, Slip], list[str]] = {}
    for step, (right, own) in list(zip(steps, starts))[:SEARCHED]:
        for pair in combinations(slips, 2):
            if pair not in found and _gives(working, pair, step, known[step.id], right, own):
                found[pair] = [
                    s.id for s, (r, o) in zip(steps, starts) if _gives(working, pair, s, known[s.id], r, o)
                ]
    believed = [(pair, ids) for pair, ids in found.items() if len(ids) >= FEWEST]
    order = {slip.key: i for i, slip in enumerate(slips)}
    return sorted(believed, key=lambda f: (-len(f[1]), order[f[0][0].key] + order[f[0][1].key]))


def _start(working: Working, step: Step, known: Mapping[str, Typed]):
    """(values without a slip, entries to start from) for one step."""
    own = {k: t.value for k, t in known.items() if k != step.id}
    right = dict(own)
    right[step.id] = working.fill(step, Exact, working.parts, right)
    return right, own


def _gives(working, pair: tuple[Slip, Slip], step: Step, typed: Typed, right, own) -> bool:
    value = pair_value(working, pair, step, right, own)
    return value is not None and matches(typed.value, typed.last_place, value)


def pair_value(working: Working, pair: tuple[Slip, Slip], step: Step, right, own=None) -> float | None:
    """What two slips together make of a step, or None if one of them changes nothing there."""
    one, two = pair
    if one.part == two.part:
        return None  # the same thing cannot be done wrong in two ways at once
    parts = working.parts
    changed = {part: slip.change(parts[part]) for slip in pair for part in (slip.part,)}
    both = working.slipped((one.part, two.part), {**parts, **changed}, right, own).get(step.id)
    if both is None:
        return None
    for slip in pair:
        if working.slipped(slip.part, {**parts, slip.part: changed[slip.part]}, right, own).get(step.id, right[step.id]) == both:
            return None
    return both

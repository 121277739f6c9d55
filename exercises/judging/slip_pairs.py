"""Two slips together, where no single one explains a wrong number.

One number can be explained by too many pairs, so a pair is only believed when
it explains two or more of the student's entries.
"""

from collections.abc import Iterable, Mapping, Sequence
from itertools import combinations
from typing import Any

from exercises.judging.diagnosis import matches, with_slips
from exercises.judging.evidence import Evidence
from exercises.slips.catalogue import Slip
from exercises.working.steps import Step, Working

FEWEST = 2  # entries a pair must explain
SEARCHED = 3  # unexplained entries that are searched; the rest are only compared with what was found

type Pair = tuple[Slip, Slip]


def pairs_that_explain(unexplained: Sequence[Evidence]) -> list[tuple[Pair, list[str]]]:
    """Pairs of slips that give these entries, with the ids of the steps that each explains.

    unexplained  evidence on numbers of one sheet that are wrong and explained by no single slip
    The likelier first: those that explain more entries, then those nearer the
    front of the catalogue, which stands in the order of how often they are made.
    """
    if len(unexplained) < FEWEST:
        return []
    entries = [_Unexplained(evidence) for evidence in unexplained]
    found: dict[Pair, list[str]] = {}
    for entry in entries[:SEARCHED]:
        for pair in combinations(entry.alone, 2):
            if pair not in found and entry.is_given_by(pair):
                found[pair] = [other.step.id for other in entries if other is entry or other.is_given_by(pair)]
    believed = [(pair, ids) for pair, ids in found.items() if len(ids) >= FEWEST]
    return likelier_first(believed, unexplained[0].slips)


def likelier_first(believed: Iterable[tuple[Pair, list[str]]], slips: Iterable[Slip]) -> list[tuple[Pair, list[str]]]:
    """Those that explain more entries first, then those whose slips together stand nearer the front of `slips`."""
    order = {slip.key: place for place, slip in enumerate(slips)}
    return sorted(believed, key=lambda found: (-len(found[1]), sum(order[slip.key] for slip in found[0])))


class _Unexplained:
    """One unexplained entry: what each slip alone makes of it, and whether two together give it."""

    def __init__(self, evidence: Evidence):
        self.step, self._evidence = evidence.step, evidence
        # a pair is compared with every figure kept, the first of each slip's outcomes
        self.alone = {slip: v[0] for slip, v in evidence.told if v[0] is not None}

    def is_given_by(self, pair: Pair) -> bool:
        """Whether the two slips together, and neither alone, give the number."""
        e = self._evidence
        if e.starts is None or not all(slip in self.alone for slip in pair):
            return False
        value = pair_value(e.working, pair, e.step, e.starts[0], e.own)
        return (
            value is not None
            and value not in map(self.alone.get, pair)
            and matches(e.number.value, e.number.last_place, value)
        )


def pair_value(
    working: Working, pair: Pair, step: Step, right: Mapping[str, Any], own: Mapping[str, Any] | None = None
) -> float | None:
    """What two slips together make of a step, or None if they change nothing there or cannot both be made."""
    one, two = pair
    if one.part == two.part:
        return None  # the same thing cannot be done wrong in two ways at once
    parts = with_slips(working.parts, one, two)
    return working.slipped((one.part, two.part), parts, right, own).get(step.id)

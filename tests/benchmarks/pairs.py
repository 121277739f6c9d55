"""Two slips made consistently through a sheet: are they found?"""

import random
from itertools import combinations

from exercises.judging.diagnosis import slipped_parts, with_slips
from exercises.judging.slip_pairs import FEWEST, pair_value
from exercises.judging.verdict import judge, judge_all
from exercises.working.arithmetic import Exact
from tests.benchmarks.judging import sheets, typed

SHEETS = 200
PAIRS = 6  # of each sheet, at random


def pairs(slug: str) -> dict[str, float]:
    """Pairs that act together in two entries or more: the two are in the first two suggestions of some entry.

    Typed are only the entries in which both act, as when a student skips the steps between.  Pairs are tried only where
    no single slip explains a number: `pair_like_single` is the share of pairs that come, in all but one of their
    entries, to the number of one slip or of none, and so are never tried.  `pairs_tried` is how many pairs were tried.
    It is 0 where no two slips act together in two entries, as in find the fault: of its numbers only the shift takes
    more than one slip, and it is asked for once.
    """
    chance = random.Random(f"pairs {slug}")
    named = total = covered = 0
    for working, slips in sheets(slug)[:SHEETS]:
        right = working.all_values()
        able = []
        for pair in combinations([s for s in slips if not s.hides], 2):
            steps = _apart(
                working, [s for s in working.steps if not s.choices and acts_as_two(working, pair, s, right)]
            )
            if len(steps) >= FEWEST:
                able.append((pair, steps))
        for pair, steps in chance.sample(able, min(PAIRS, len(able))):
            try:
                values = consistent(working, pair)
            except (ValueError, ArithmeticError):
                continue  # the two together lead to no number, so nobody types one
            entries = {s.id: typed(values[s.id], s) for s in steps}
            if sum(judge(working, slips, {s: text}, s).state == "wrong" for s, text in entries.items()) < FEWEST:
                covered += 1
                continue
            verdicts = judge_all(working, slips, entries)
            suggestions = [set(v.slips[i : i + 2]) for v in verdicts.values() if v.state == "slip" for i in (0, 2)]
            named += {s.key for s in pair} in suggestions
            total += 1
    if not total:
        return {"pairs_tried": 0}
    return {"pairs_tried": total, "pair_named": named / total, "pair_like_single": covered / (total + covered)}


def acts_as_two(working, pair, step, right) -> bool:
    """Whether both slips change the step, and together otherwise than either alone."""
    both = pair_value(working, pair, step, right)
    alone = [working.slipped(s.part, slipped_parts(working, s), right).get(step.id) for s in pair]
    return both is not None and None not in alone and both not in alone


def _apart(working, steps):
    """Those of the steps that rest on none of the others: one that follows from a wrong entry is no second witness."""
    chosen = []
    for step in steps:
        if not any(other.id in working.plan.rests[step.id] for other in chosen):
            chosen.append(step)
    return chosen


def consistent(working, pair) -> dict[str, float]:
    """Every value of a sheet worked with both slips all through, each from the slipped ones before it."""
    parts = with_slips(working.parts, *pair)
    known: dict[str, float] = {}
    for step in working.plan.order:
        known[step.id] = step.formula(Exact, known, working.givens, parts)
    return known


def accused(slug: str) -> dict[str, float]:
    """Sheets filled with random wrong numbers: the share of entries accused of two slips."""
    chance = random.Random(f"random sheets {slug}")
    blamed = wrong = 0
    for working, slips in sheets(slug)[:SHEETS]:
        entries = {
            s.id: typed(working.value(s.id) * 10 ** chance.uniform(-1, 1), s) for s in working.steps if not s.choices
        }
        for verdict in judge_all(working, slips, entries).values():
            wrong += verdict.state in ("wrong", "slip")
            blamed += verdict.state == "slip" and len(verdict.slips) > 1
    return {"pair_accused": blamed / wrong}

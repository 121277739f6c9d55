"""What is named of the slips that give many values, of those that hide, and of numbers in a wrong field."""

import math
import random
from collections import Counter
from collections.abc import Iterator

from exercises.judging.verdict import judge
from exercises.slips.elsewhere import right_values
from exercises.slips.readings import division
from tests.benchmarks.judging import sheets, typed
from tests.exercises.slip_values import slip_values

SHEETS = 400
MOST = 20  # degrees that a reading is misread by
FEWEST = 20  # cases of one slip that make a share of its own
MADE = {
    "left_out": ("reading-left-out",),
    "counted_twice": ("reading-counted-twice",),
    "misread": ("reading-five-or-ten-off", "sum-off"),
}
#: What `means` prints.
MEANS = (
    "mean_falsely_named",
    "mean_falsely_named_one_decimal",
    *(f"mean_named_{made}" for made in MADE),
    *(f"mean_named_one_decimal_{made}" for made in MADE),
)


def _slipped_mean(made: str, readings, chance: random.Random) -> float:
    """A mean with this slip, a student's own division at random where there are two."""
    n, added, one = len(readings), sum(readings), chance.choice(readings)
    if made == "left_out":
        return (added - one) / chance.choice((n - 1, n))
    if made == "counted_twice":
        return (added + one) / chance.choice((n, n + 1))
    step = division(readings)
    return (added + chance.choice((1, -1)) * chance.randrange(round(1 / step), round(MOST / step) + 1) * step) / n


def _means(slug: str) -> Iterator[tuple]:
    """Each mean of eight readings: its working, the slips, its step, and the readings."""
    for working, catalogue in sheets(slug)[:SHEETS]:
        for step in working.steps:
            if step.column == "mean" and "readings" in working.givens:
                number = int(step.id.rpartition("-")[2]) - 1
                yield working, catalogue, step, working.givens["readings"][number]
            elif step.column == "mean" and slug == "dial":
                known, one = working.all_values(), working.givens["step"]
                yield working, catalogue, step, [round(known[need] / one) * one for need in step.needs]


def means(slug: str) -> dict[str, float]:
    """Means of eight with a slip in the sum, a third of them each, typed with two decimals and with one.

    Numbers that are accepted are left out.  Falsely named: some slip is, and not the one that was made.
    """
    chance = random.Random(f"means {slug}")
    wrong, named, falsely = Counter(), Counter(), Counter()
    for working, catalogue, step, readings in _means(slug):
        for made, keys in MADE.items():
            value = _slipped_mean(made, readings, chance)
            for places in (2, 1):
                verdict = judge(working, catalogue, {step.id: f"{value:.{places}f}"}, step.id)
                if verdict.state == "right":
                    continue
                wrong[made, places] += 1
                named[made, places] += any(key in verdict.slips[:2] for key in keys)
                falsely[places] += bool(verdict.slips) and not any(key in verdict.slips for key in keys)
    if not wrong:
        return {}  # a kind without means of eight
    shares = [falsely[places] / sum(wrong[made, places] for made in MADE) for places in (2, 1)]
    shares += [named[made, places] / wrong[made, places] for places in (2, 1) for made in MADE]
    return dict(zip(MEANS, shares))


def _finely(value: float, step) -> str:
    """A value as it is typed with the figures that the step asks for."""
    if step.rule == "angle":
        return f"{value:.2f}"
    return f"{value:.4f}" if step.rule == "tangent" and value > 0.1 else typed(value, step)


def plain_values(working, step, catalogue) -> list[float]:
    """What the slips that every draw tells apart make of a step."""
    found = slip_values(working, step, [s for s in catalogue if not s.hides], {})
    return [value for _, values in found for value in values]


def _is_among(value: float, others: list[float]) -> bool:
    """Whether no number of figures tells a value from all of the others: two slips are one mistake there."""
    return any(math.isclose(abs(value), abs(other), rel_tol=1e-9) for other in others)


def other_rows(slug: str) -> dict[str, float]:
    """The right number of another row, typed in this one, of numbers that are not accepted there."""
    named = total = 0
    for working, catalogue in sheets(slug)[:SHEETS]:
        for step in working.steps:
            others = [s for s in working.steps if s.column == step.column and s is not step]
            if step.choices or step.rule in ("reading", "count"):
                continue
            known = plain_values(working, step, catalogue)
            for other in others:
                (value, *_) = right_values(working, other)
                if _is_among(value, known):
                    continue
                verdict = judge(working, catalogue, {step.id: _finely(value, step)}, step.id)
                if verdict.state != "right":
                    total += 1
                    named += "other-row" in verdict.slips[:2]
    return {"other_row_named": named / total} if total else {}


def hidden(slug: str) -> dict[str, float]:
    """Every slip that hides at every step it changes: named first or as one of two, of numbers not accepted.

    Of all of them together, and of the slip that is named least.
    """
    chance = random.Random(f"hidden {slug}")
    named: Counter[str] = Counter()
    wrong: Counter[str] = Counter()
    for working, catalogue in sheets(slug)[:SHEETS]:
        hiding = [slip for slip in catalogue if slip.hides]
        for step in working.steps:
            if step.choices:
                continue
            known = plain_values(working, step, catalogue)
            for slip, values in slip_values(working, step, hiding, {}):
                told = [value for value in values if not _is_among(value, known)]
                if not told:
                    continue
                verdict = judge(working, catalogue, {step.id: _finely(chance.choice(told), step)}, step.id)
                if verdict.state != "right":
                    wrong[slip.key] += 1
                    named[slip.key] += slip.key in (*verdict.slips[:2], *verdict.like)
    if not wrong:
        return {}
    least = min(named[key] / of for key, of in wrong.items() if of >= FEWEST)
    return {"hidden_slip_named": named.total() / wrong.total(), "hidden_slip_named_least": least}

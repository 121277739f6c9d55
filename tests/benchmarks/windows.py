"""How wide the window of a lone result is, and which real mistakes fit through it."""

import random
from statistics import median

from exercises.judging.verdict import judge
from exercises.kinds.deflection.lengths import FIVE_SIXTHS, as_stated
from exercises.working.evaluate import all_spans
from exercises.working.steps import Working
from tests.benchmarks.judging import sheets, typed

LEAST_MOVED = 0.015  # share: a mistake that moves a result by less is lost in the rounding


def lone(slug: str) -> dict[str, float]:
    """Half the width of what is right for the last number of a sheet, where nothing else is entered, in per cent."""
    widths = []
    for working, _ in sheets(slug):
        step = [s for s in working.steps if not s.choices][-1]
        span = all_spans(working)[step.id]
        widths.append(100 * (span.hi - span.lo) / abs(span.hi + span.lo))
    return {"lone_window": median(widths)}


def with_row(working: Working, key: str, row: int, value) -> Working:
    """The sheet with another value of a row."""
    rows = list(working.givens[key])
    rows[row] = value
    return Working(working.plan, {**working.givens, key: tuple(rows)}, working.parts)


def mistakes(working: Working, chance: random.Random) -> list[tuple[str, str, float]]:
    """Real mistakes: what each is called, the step it is looked at, and what it makes of that step."""
    found = []
    for row, (d, readings) in enumerate(zip(working.givens["d"], working.givens["readings"])):
        at = f"moment-{row + 1}"
        arms = [sum(half) / 4 for half in (readings[:4], readings[4:])]
        made = [("first_reading", "readings", (readings[0],) * 8)]
        if abs(arms[0] - arms[1]) >= 1:
            made += [("one_arm", "readings", (arm,) * 8) for arm in arms]
        one = chance.randrange(8)
        for off in (-10, 10):
            misread = tuple(r + off if i == one else r for i, r in enumerate(readings))
            made.append(("misread_by_10", "readings", misread))
        made += [("distance_2_mm", "d", d + off) for off in (-0.002, 0.002)]
        found += [(name, at, with_row(working, key, row, value).value(at)) for name, key, value in made]
    moments = [working.value(f"moment-{row + 1}") for row in range(len(working.givens["d"]))]
    for left_out in moments:
        found.append(("distance_left_out", "mean-moment", (sum(moments) - left_out) / (len(moments) - 1)))
    parts = working.parts.replaced(magnetic_length=as_stated)
    for two_l in (working.givens["length"], FIVE_SIXTHS * working.givens["length"]):  # by the other conventions
        other = Working(working.plan, {**working.givens, "two_l": two_l}, parts)
        found.append(("other_2l", "mean-moment", other.value("mean-moment")))
    return found


def near_misses(slug: str) -> dict[str, float]:
    """Mistakes that move a lone result by 1.5 % or more, typed with three figures: how many are called right."""
    chance = random.Random(f"near {slug}")
    taken: dict[str, list[bool]] = {}
    for working, catalogue in sheets(slug):
        if "mean-moment" not in working.by_id or "d" not in working.givens:
            return {}
        for name, step_id, value in mistakes(working, chance):
            if abs(value / working.value(step_id) - 1) < LEAST_MOVED:
                continue
            text = typed(value, working.by_id[step_id])
            taken.setdefault(name, []).append(judge(working, catalogue, {step_id: text}, step_id).state == "right")
    shares = {f"near_miss_accepted_{name}": sum(right) / len(right) for name, right in taken.items()}
    return {**shares, "near_miss_accepted": max(shares.values())}

"""How well the judge judges, over many codes: what it names, hides, refuses and accuses."""

import random
from functools import cache, partial

from exercises.codes.sheet_code import SEEDS, TWO_L, Setting, SheetCode
from exercises.judging.entries import UNROUNDED
from exercises.judging.verdict import judge, judge_all
from exercises.kinds.kind import Sheet, all_kinds
from exercises.working.cutting import CUTS, Cut
from exercises.working.quantities import quantity
from exercises.working.rounded import cut_off
from tests.exercises.slip_values import slip_values
from tests.rounding import Rounding

CODES = 2000
RIGHT_CODES = 500  # of them, for right working
PATHS = 8  # rounding paths tried a sheet, each through every step


@cache
def sheets(slug: str):
    kind = all_kinds()[slug]
    chosen = random.Random(f"benchmark {slug}")
    made = []
    for n in range(CODES):
        code = SheetCode(kind.letter, kind.edition, chosen.randrange(SEEDS), Setting(TWO_L[n % len(TWO_L)]))
        scenario = kind.draw(code)
        sheet = Sheet(kind, scenario, kind.working(scenario))
        made.append((sheet.working, sheet.slips))
    return made


def typed(value, step, figures: int = 3) -> str:
    """A value as a student types it, without its unit."""
    if step.choices:
        return value
    value /= quantity(step.quantity).bare
    if step.rule == "count":
        return f"{value:.0f}"
    return f"{value:.{figures - 1}e}"


def slips(slug: str) -> dict[str, float]:
    """Every single slip at every step it changes, the number worked with all figures and typed with three.

    One that is spoken of beside the slip, since three figures tell the two apart no longer, does not count as named:
    how often there is one is printed for itself.
    """
    named = hidden = total = beside = 0
    for working, catalogue in sheets(slug):
        plain = [slip for slip in catalogue if not slip.hides]
        for step in working.steps:
            for slip, values in () if step.choices else slip_values(working, step, plain, {}):
                verdict = judge(working, catalogue, {step.id: typed(values[0], step)}, step.id)
                total += 1
                named += verdict.slips == (slip.key,)
                hidden += verdict.state == "right"
                beside += bool(verdict.like)
    return {"single_slip_named": named / total, "slips_hidden": hidden / total, "single_slip_like": beside / total}


def right(slug: str) -> dict[str, float]:
    """Right working, typed alone and step by step: random ways of rounding, and each way of cutting off.

    Where a slip gives the figures of a number that was cut off, nobody can tell the two apart: the slip is named, and
    counted on its own, with all that follows from it.
    """
    chance = random.Random(f"paths {slug}")
    refused = for_slip = cut_total = total = 0
    for working, catalogue in sheets(slug)[:RIGHT_CODES]:
        rounded = ((working.all_values(Rounding(chance.randrange)), _written) for _ in range(PATHS))
        shortened = ((working.all_values(a), partial(cut, a)) for a in CUTS)
        for path, write in (*rounded, *shortened):
            texts = {step.id: write(path[step.id], step, chance) for step in working.steps}
            alone = {step_id: judge(working, catalogue, {step_id: text}, step_id) for step_id, text in texts.items()}
            for verdicts in (alone, judge_all(working, catalogue, texts)):
                slips = {step_id for step_id, verdict in verdicts.items() if verdict.state == "slip"}
                for step_id, verdict in verdicts.items():
                    excused = write is not _written and (step_id in slips or verdict.state == "follows")
                    total += 1
                    cut_total += write is not _written
                    for_slip += excused
                    refused += verdict.state != "right" and not excused
    return {"right_refused": refused / total, "cut_off_called_slip": for_slip / cut_total}


def cut(a: Cut, value, step, chance: random.Random | None = None) -> str:
    """A value of a path that was cut off, as it is typed."""
    if step.choices or step.rule in UNROUNDED:
        return typed(value, step, 12)  # worked from what was cut off, and not cut off itself
    return typed(cut_off(value, a.figures), step, a.figures)


def _written(value, step, chance: random.Random) -> str:
    if step.rule == "angle":
        return f"{value:.{chance.choice((1, 2))}f}"
    if step.rule == "tangent":
        return f"{value:.{chance.choice((4, 5))}f}"
    if step.rule == "reading":
        return typed(value, step, 12)  # off a scale: it may lie on the very edge, and rounding is not at issue
    return typed(value, step, chance.choice((3, 4, 5)))


def accused(slug: str) -> dict[str, float]:
    """Random wrong numbers within a factor of ten either way of the right one, typed with three figures."""
    chance = random.Random(f"wrong {slug}")
    blamed = wrong = 0
    for working, catalogue in sheets(slug):
        for step in working.steps:
            if step.choices:
                continue  # a choice is right or not; there is no random number to accuse
            value = working.value(step.id) * 10 ** chance.uniform(-1, 1)
            verdict = judge(working, catalogue, {step.id: typed(value, step)}, step.id)
            if verdict.state != "right":
                wrong += 1
                blamed += verdict.state == "slip"
    return {"wrong_accused": blamed / wrong}

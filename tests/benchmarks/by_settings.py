"""What a laboratory's settings cost: the slowest sheet, and slips that whole centimetres leave untold."""

import random
import time

from exercises.codes.sheet_code import SEEDS, Setting, SheetCode
from exercises.judging.verdict import judge
from exercises.kinds.kind import Sheet, all_kinds
from tests.benchmarks.judging import typed
from tests.exercises.golden import any_setting
from tests.exercises.slip_values import slip_values

SETTINGS = 200
SHEETS = 200
WHOLE_CENTIMETRES = Setting(grid_mm=10)


def slowest(slug: str) -> dict[str, float]:
    """The slowest sheet of random settings, drawn anew, in ms of processor time; compiled code is there already."""
    kind, chance = all_kinds()[slug], random.Random(f"slowest {slug}")
    taken: list[float] = []
    for n in range(SETTINGS + 40):
        setting = any_setting(chance)
        while kind.refuses(setting):
            setting = any_setting(chance)
        start = time.process_time()
        kind.working(kind.draw(SheetCode(kind.letter, kind.edition, chance.randrange(SEEDS), setting)))
        if n >= 40:  # the first ones have code written for their plans
            taken.append((time.process_time() - start) * 1e3)
    return {"slowest_sheet_ms": max(taken)}


def whole_centimetres(slug: str) -> dict[str, float]:
    """Distances in whole centimetres: the share of slips named alone, and of sheets whose slips are all told apart."""
    kind, chance = all_kinds()[slug], random.Random(f"centimetres {slug}")
    named = total = told = 0
    for _ in range(SHEETS):
        code = SheetCode(kind.letter, kind.edition, chance.randrange(SEEDS), WHOLE_CENTIMETRES)
        scenario = kind.draw(code)
        working = kind.working(scenario)
        catalogue = Sheet(kind, scenario, working).slips
        told += scenario.diagnosable
        plain = [slip for slip in catalogue if not slip.hides]
        for step in working.steps:
            for slip, values in () if step.choices else slip_values(working, step, plain, {}):
                named += judge(working, catalogue, {step.id: typed(values[0], step)}, step.id).slips == (slip.key,)
                total += 1
    return {"single_slip_named_whole_cm": named / total, "diagnosable_whole_cm": told / SHEETS}

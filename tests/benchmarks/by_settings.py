"""What a laboratory's settings cost: the slowest sheet, and slips that whole centimetres leave untold."""

import random
import time

from exercises.codes.sheet_code import SEEDS, TWO_L, Setting, SheetCode
from exercises.judging.verdict import judge
from exercises.kinds.kind import Sheet, all_kinds
from tests.benchmarks.judging import typed
from tests.exercises.golden import any_setting
from tests.exercises.slip_values import slip_values

SETTINGS = 200
SHEETS = 200
WHOLE_CENTIMETRES = Setting(grid_mm=10)
SHORT_BAR_MM = 60
#: What `whole_centimetres` prints.
WHOLE_CM = tuple(
    f"{name}_whole_cm{bar}"
    for bar in ("", "_short_bar")
    for name in ("single_slip_named", "single_slip_said", "single_slip_falsely_named", "diagnosable")
)


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
    """Distances in whole centimetres, with bars as they are drawn, and with a short bar by each way of knowing 2l.

    Of single slips: the share named alone, the share named at all or accepted as right, and the share where others are
    named and not the one that was made.  Of sheets: the share whose slips are all told apart.
    """
    short = [Setting(two_l=rule, length_mm=SHORT_BAR_MM, grid_mm=10) for rule in TWO_L]
    found = _told_apart(slug, [WHOLE_CENTIMETRES])
    return found | {f"{name}_short_bar": share for name, share in _told_apart(slug, short).items()}


def _told_apart(slug: str, settings: list[Setting]) -> dict[str, float]:
    kind, chance = all_kinds()[slug], random.Random(f"centimetres {slug}")
    alone = said = falsely = total = told = 0
    for n in range(SHEETS):
        code = SheetCode(kind.letter, kind.edition, chance.randrange(SEEDS), settings[n % len(settings)])
        scenario = kind.draw(code)
        working = kind.working(scenario)
        catalogue = Sheet(kind, scenario, working).slips
        told += scenario.diagnosable
        plain = [slip for slip in catalogue if not slip.hides]
        for step in working.steps:
            for slip, values in () if step.choices else slip_values(working, step, plain, {}):
                verdict = judge(working, catalogue, {step.id: typed(values[0], step)}, step.id)
                total += 1
                alone += verdict.slips == (slip.key,)
                said += slip.key in verdict.slips or verdict.state == "right"
                falsely += bool(verdict.slips) and slip.key not in verdict.slips
    found = {"single_slip_named": alone, "single_slip_said": said, "single_slip_falsely_named": falsely}
    return {f"{name}_whole_cm": n / total for name, n in found.items()} | {"diagnosable_whole_cm": told / SHEETS}

"""Whether what is stated holds: how many of the 95 % intervals hold the truth, and how wide they are."""

import random
from collections import Counter
from functools import partial
from itertools import product
from statistics import mean, median
from unittest.mock import patch

from exercises.bench.field import field_from_deflection
from exercises.bench.magnets import MATERIALS
from exercises.codes.sheet_code import SEEDS, TWO_L, Setting, SheetCode
from exercises.kinds.deflection import draw as deflection
from exercises.kinds.deflection.result import determination
from exercises.kinds.kind import all_kinds
from exercises.record.check import check
from exercises.record.position import TAN_A, TAN_B
from tests.real_bars import FAR, NEAR, SHAPES, SHARES, real_record

RECORDS = 200  # of each sort
SHEETS = 200  # of each kind and each way of knowing 2l
RECORD_NAMES = ("record_moment_covered", "record_pole_covered", "record_moment_width", "record_pole_width")
NEAR_NAMES = tuple(f"{name}_near" for name in RECORD_NAMES)


def records_near() -> dict[str, float]:
    """The same of weak or long bars, which have to lie nearer."""
    return dict(zip(NEAR_NAMES, records(NEAR, " near").values()))


def records(reach: tuple[float, float] = FAR, of: str = "") -> dict[str, float]:
    """Records of bars that the two-pole model did not make, by sort: position, shape, where the
    poles lie, needle told or not; in tan A alone where they lie near.

    record_moment_covered, record_pole_covered   least share over the sorts whose truth lies in the stated interval;
                                                 the true pole strength is by the far field's distance of the poles
    record_moment_width, record_pole_width       median of U/m and U/p, per cent
    """
    covered, widths = [], []
    sorts = [*product(SHAPES, SHARES, (True, False), (TAN_A,))]
    if reach == FAR:
        sorts += product(SHAPES[:1], SHARES, (True, False), (TAN_B,))
    for shape, share, told, position in sorts:
        chance = random.Random(f"coverage {shape} {share} {told}{of}{' tan B' * position.tan_b}")
        held = Counter()
        for _ in range(RECORDS):
            bar, record = real_record(chance, shape, share, told, position, reach)
            moments = check(record).moments
            if moments is None:
                raise ValueError(f"a record of {shape} {share} has no result")
            m, p = moments.result.moment, moments.result.pole
            held["m"] += abs(m.value - bar.moment) <= m.U
            held["p"] += abs(p.value - bar.moment / bar.magnetic_length) <= p.U
            widths.append((m.U / m.value, p.U / p.value))
        covered.append((held["m"] / RECORDS, held["p"] / RECORDS))
    (moment, pole), (of_moment, of_pole) = map(min, zip(*covered)), map(median, zip(*widths))
    return dict(zip(RECORD_NAMES, (moment, pole, 100 * of_moment, 100 * of_pole)))


def _key(material: str) -> str:
    return f"sheet_share_{material.replace(' ', '_')}"


SHEET_NAMES = ("sheet_moment_covered", "sheet_rejected", *(_key(material.name) for material in MATERIALS))


def sheets() -> dict[str, float]:
    """What worked examples and full workings of tan A and tan B state, before the draw looks whether it is near.

    sheet_moment_covered  least share over kinds and ways of knowing 2l whose true moment lies in m ± U
    sheet_rejected        greatest share of attempts that the draw rejects because they are not near the truth
    sheet_share_MATERIAL  share of each material among the bars of sheets that state 2l
    """
    covered, rejected = [], []
    drawn: Counter[str] = Counter()
    for slug, rule in product(("tan-a", "tan-b"), TWO_L):
        tried: list[tuple[bool, bool]] = []
        kind = all_kinds()[slug]
        chance = random.Random(f"coverage {slug} {rule}")
        with patch.object(deflection, "_near_truth", partial(_seen, tried, deflection._near_truth)):
            for _ in range(SHEETS):
                scenario = kind.draw(SheetCode(kind.letter, kind.edition, chance.randrange(SEEDS), Setting(rule)))
                if rule == TWO_L[0]:
                    drawn[scenario.bar.material.name] += 1
        covered.append(sum(held for held, _ in tried) / len(tried))
        rejected.append(1 - sum(near for _, near in tried) / len(tried))
    shares = {_key(m.name): drawn[m.name] / drawn.total() for m in MATERIALS}
    return {"sheet_moment_covered": min(covered), "sheet_rejected": max(rejected), **shares}


def _seen(tried: list[tuple[bool, bool]], near_truth, scenario, position) -> bool:
    """What the draw's own test says, and whether the stated interval holds the truth, kept in `tried`."""
    near = near_truth(scenario, position)
    l, B_H = scenario.two_l / 2, scenario.B_H
    found = mean(position.moment_from(field_from_deflection(row.mean, B_H), row.d, l) for row in scenario.rows)
    stated = determination(scenario, found, position.tan_b).moment
    tried.append((abs(stated.value - scenario.bar.moment) <= stated.U, near))
    return near

"""The bars of all kinds have their poles where bars of that material and size have them, and the sheet's rule holds."""

import random

import pytest

from exercises.bench.magnets import MATERIALS, uniform_magnetic_length
from exercises.codes.sheet_code import SEEDS, TWO_L, Setting, SheetCode
from exercises.kinds.deflection.bars import materials_of
from exercises.kinds.deflection.lengths import HOLDS, rule_of
from exercises.kinds.kind import Sheet, all_kinds

CODES = 25
WITH_BARS = [slug for slug in all_kinds() if slug not in ("dial", "law", "setting")]


def sheets(slug: str, rule: str) -> list[Sheet]:
    kind = all_kinds()[slug]
    seeds = random.Random(f"bars {slug} {rule}").sample(range(SEEDS), CODES)
    scenarios = [kind.draw(SheetCode(kind.letter, 1, seed, Setting(two_l=rule))) for seed in seeds]
    return [Sheet(kind, scenario, kind.working(scenario)) for scenario in scenarios]


def bars_of(scenario):
    return getattr(scenario, "bars", None) or (scenario.bar,)


@pytest.mark.parametrize("rule", TWO_L)
@pytest.mark.parametrize("slug", WITH_BARS)
def test_the_rule_of_the_sheet_holds_for_its_bars(slug, rule):
    for sheet in sheets(slug, rule):
        for bar in bars_of(sheet.scenario):
            by_rule = {"stated": bar.magnetic_length, "given": bar.length, "five-sixths": bar.length * 5 / 6}[rule]
            assert abs(by_rule / bar.magnetic_length - 1) <= HOLDS
            assert any(bar.material.name in value for _, value in sheet.kind.page.givens(sheet.scenario))
            # a stated 2l is in whole millimetres
            room = 0.51e-3 if rule == "stated" else 0.06e-3
            if bar.material.weakened:
                low, high = bar.material.weakened
                assert low * bar.length - room <= bar.magnetic_length <= high * bar.length + room
            else:
                theirs = uniform_magnetic_length(bar.length, bar.width, bar.thickness)
                assert bar.magnetic_length == pytest.approx(theirs, abs=room)


def test_each_rule_has_its_materials():
    names = {rule: [m.name for m in materials_of(rule_of(Setting(two_l=rule)))] for rule in TWO_L}
    steels = [m.name for m in MATERIALS if m.weakened]
    assert names == {
        "stated": [m.name for m in MATERIALS],
        "given": [m.name for m in MATERIALS if not m.weakened],
        "five-sixths": steels,
    }
    assert len(steels) == 3


@pytest.mark.parametrize("slug", ["tan-a", "tan-b", "distances"])
def test_the_measured_length_is_no_slip_to_tell_where_the_poles_lie_at_the_ends(slug):
    found = sheets(slug, "stated")
    at_ends = [sheet for sheet in found if sheet.scenario.poles_at_ends]
    assert 0 < len(at_ends) < CODES
    for sheet in found:
        about_length = [slip for slip in sheet.slips if slip.inside]
        assert about_length and all(slip.hides == sheet.scenario.poles_at_ends for slip in about_length)
        assert sheet.scenario.poles_at_ends == (sheet.scenario.bar.material.weakened is None)

"""A scenario is physically consistent, within its limits, and the same for ever."""

import json
import random
from collections import Counter

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from exercises.bench.magnets import MATERIALS
from exercises.codes.editions import places_of
from exercises.codes.scenario import Draw
from exercises.codes.sheet_code import SEEDS, Setting, SheetCode, Station, write
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.bars import draw_bar
from exercises.kinds.deflection.draw import WIDEST_RESULT, WIDEST_ROW, relative_uncertainty
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.deflection.stretch import CLEARANCE
from exercises.kinds.kind import all_kinds, open_code
from exercises.student.desk import numbers
from exercises.working.arithmetic import Span
from exercises.working.evaluate import all_spans
from tests.exercises.golden import GOLDEN, HOW_MANY, any_setting

PLACES = places_of(1)
SETTINGS = st.integers().map(lambda seed: any_setting(random.Random(seed)))


@pytest.mark.parametrize("golden", GOLDEN, ids=lambda g: g["code"])
def test_a_code_gives_the_same_numbers_for_ever(golden):
    assert json.loads(numbers(golden["code"])) == golden


def test_every_kind_has_its_golden_codes():
    found = Counter(g["code"][0] for g in GOLDEN)
    assert found == {kind.letter: HOW_MANY.get(slug, HOW_MANY[""]) for slug, kind in all_kinds().items()}


@settings(max_examples=60, deadline=None)
@given(st.integers(0, SEEDS - 1), SETTINGS)
def test_tan_a_is_consistent_whatever_the_laboratory_fixes(seed, setting):
    assume(not all_kinds()["tan-a"].refuses(setting))
    sheet = open_code(write(SheetCode("A", 1, seed, setting)))
    scenario, working = sheet.scenario, sheet.working
    bar, rows = scenario.bar, scenario.rows
    assert len(rows) >= 3 and len(rows) == (setting.distances or len(rows))
    assert not isinstance(setting.field, float) or pytest.approx(setting.field * 1e-6) == scenario.B_H
    assert not isinstance(setting.field, Station) or scenario.field.place == PLACES[setting.field.place]
    assert all(row.d * 1000 % setting.grid_mm == pytest.approx(0, abs=1e-9) for row in rows) or setting.grid_mm == 1
    assert scenario.scale_step == (setting.scale_step or scenario.scale_step)
    assert round(bar.length * 1e3) == (setting.length_mm or round(bar.length * 1e3))
    assert all(30 <= reading <= 60 for row in rows for reading in row.readings)
    assert all(reading % scenario.scale_step == 0 for row in rows for reading in row.readings)
    assert rows[0].d - bar.length / 2 >= scenario.box.radius + CLEARANCE - 1e-3  # d is drawn to a millimetre
    assert rows[-1].d + bar.length / 2 <= scenario.arm_length + 1e-3
    assert all(a.d < b.d for a, b in zip(rows, rows[1:]))
    assert bar.material.lowest <= bar.magnetisation <= bar.material.highest
    assert bar.thickness <= bar.width < bar.length
    found = working.value("mean-moment")
    assert abs(found - bar.moment) <= 2 * relative_uncertainty(scenario) * found
    assert 10e-6 <= scenario.B_H <= 65e-6
    assert not scenario.diagnosable or tells_apart(
        working, sheet.slips, [s.id for s in working.steps if s.column in ("moment", "mean-moment", "pole")]
    )


@pytest.mark.parametrize("slug", ["tan-a", "tan-b"])
@given(st.integers(0, SEEDS - 1), SETTINGS)
def test_correct_rounding_carries_no_step_farther_than_the_draw_takes_it_to(slug, seed, setting):
    kind = all_kinds()[slug]
    assume(not kind.refuses(setting))
    working = open_code(write(SheetCode(kind.letter, 1, seed, setting))).working
    right = working.all_values()
    for step, span in all_spans(working).items():
        if isinstance(span, Span):
            widest = WIDEST_RESULT if step in ("mean-moment", "pole") else WIDEST_ROW
            assert max(span.hi / right[step] - 1, 1 - span.lo / right[step]) < widest, step


def test_a_small_bar_never_has_a_large_moment():
    draw = Draw(SheetCode("A", 1, 1))
    # 30 mm × at most 25 mm × 15 mm of the strongest material
    most = 30e-3 * 25e-3 * 15e-3 * max(m.highest for m in MATERIALS)
    assert draw_bar(draw, 30, rule_of(Setting()), lambda two_l: 2 * most) is None


def test_there_are_enough_places_in_both_hemispheres():
    assert len(PLACES) >= 24
    assert sum(p.latitude < 0 for p in PLACES) >= 8
    assert len({p.name for p in PLACES}) == len(PLACES)


def test_the_draw_is_pythons_documented_sequence():
    # random.Random: "the generator's random() method will continue to produce the same sequence"
    draw = Draw(SheetCode("A", 1, 0))
    assert [draw.below(1000) for _ in range(3)] == [876, 741, 986]

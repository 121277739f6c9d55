"""Settings that leave no diagnosable numbers: slips that cannot be told apart are said together, and none alone."""

import pytest

from exercises.codes.sheet_code import TWO_L, Setting, SheetCode
from exercises.judging.verdict import judge
from exercises.kinds.kind import all_kinds
from tests.exercises.slip_values import slip_values

#: Whole centimetres and a short bar.
SETTINGS = [Setting(two_l=rule, length_mm=60, grid_mm=10) for rule in TWO_L]
SEEDS = range(48)


def untold_sheets(setting: Setting):
    """The workings of tan B, and their slips, that no draw could make diagnosable with this setting."""
    kind = all_kinds()["tan-b"]
    for seed in SEEDS:
        scenario = kind.draw(SheetCode(kind.letter, kind.edition, seed, setting))
        if not scenario.diagnosable:
            yield kind.working(scenario), kind.slips_of(kind.edition, setting.two_l)


@pytest.mark.parametrize("setting", SETTINGS, ids=TWO_L)
def test_a_slip_is_named_or_said_as_one_of_those_that_fit_and_no_other_alone(setting):
    alone = together = sheets = 0
    for working, slips in untold_sheets(setting):
        sheets += 1
        for step in (s for s in working.steps if not s.choices):
            for slip, values in slip_values(working, step, [s for s in slips if not s.hides], {}):
                for value in values:
                    verdict = judge(working, slips, {step.id: f"{value:.2e}"}, step.id)
                    assert slip.key in verdict.slips or verdict.state == "right", (step.id, slip.key, verdict)
                    alone += verdict.slips == (slip.key,)
                    together += len(verdict.slips) > 1
                    if len(verdict.slips) == 2:
                        both = [s for s in slips if s.key in verdict.slips]
                        assert all(s.said_at(step) in verdict.text for s in both)
    assert sheets > 5 and 0 < together < alone / 10

"""What is right at first sight is what the whole table of cases calls right, with nothing remarked."""

import random

import pytest

from exercises.judging.entries import read_entries
from exercises.judging.evidence import gather
from exercises.judging.plain import plainly_right
from exercises.judging.verdict import RIGHT, case_of
from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.sheet import written
from tests.exercises.golden import codes_of


def typed_on(sheet, chance):
    """A sheet filled in: as it is written, or with other figures, a blank or a wrong entry here and there."""
    values, share = sheet.working.all_values(), chance.choice((0, 0.1, 0.4))
    texts = {}
    for step in sheet.working.steps:
        value = values[step.id]
        texts[step.id] = str(value) if step.choices else written(value, step)
        if chance.random() < share:
            figures = f"{value:.{chance.randrange(1, 8)}g}" if not step.choices else ""
            wrong = f"{value * chance.uniform(0.98, 1.02):.4g}" if not step.choices else step.choices[-1][0]
            texts[step.id] = chance.choice((figures, wrong, "", "none"))
    return texts


@pytest.mark.parametrize("slug", all_kinds())
def test_what_is_right_at_first_sight_is_right_by_the_evidence_too(slug):
    chance, seen = random.Random(slug), 0
    for code in codes_of(all_kinds()[slug].letter)[:20]:
        sheet = open_code(code)
        for _ in range(5):
            entries = read_entries(sheet.working, typed_on(sheet, chance))
            evidence = gather(sheet.working, sheet.slips, entries)
            for step_id in plainly_right(sheet.working, entries):
                seen += 1
                assert case_of(evidence[step_id]).verdict(evidence[step_id]) == RIGHT, (code, step_id)
    assert (seen > 100) != (slug == "dial")  # there all rests on what is read off, which is no value of the sheet


def test_nothing_is_right_at_first_sight_behind_an_entry_that_is_not():
    sheet = open_code(codes_of("A")[0])
    values = sheet.working.all_values()
    texts = {step.id: written(values[step.id], step) for step in sheet.working.steps}
    all_right = plainly_right(sheet.working, read_entries(sheet.working, texts))
    assert all_right == set(texts)
    found = plainly_right(sheet.working, read_entries(sheet.working, texts | {"mean-1": "12.3"}))
    behind = {step.id for step in sheet.working.steps if "mean-1" in sheet.working.plan.rests[step.id]}
    assert found == all_right - behind - {"mean-1"} and "pole" not in found and "tan-2" in found

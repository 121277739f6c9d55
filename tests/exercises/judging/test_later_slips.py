"""A slip that came later than a sheet's edition: it takes no number from another slip, and is still looked for."""

import dataclasses

import pytest

from exercises.judging.verdict import Verdict, judge
from exercises.kinds.kind import Sheet, all_kinds, open_code
from exercises.slips.catalogue import Slip, always
from exercises.working.quantities import quantity
from tests.exercises.golden import codes_of
from tests.exercises.slip_values import slip_values

KINDS = sorted(all_kinds())


def with_more(sheet: Sheet, slips: tuple[Slip, ...]) -> Sheet:
    """The sheet, as it is where its kind has these slips too."""
    richer = dataclasses.replace(sheet.kind, slips=(*slips, *sheet.kind.slips))
    return dataclasses.replace(sheet, kind=richer)


def again(sheet: Sheet, since: int) -> Sheet:
    """The sheet, where each told slip came once more, under another key and in front: no number tells the two apart."""
    told = [slip for slip in sheet.slips if not slip.hides]
    return with_more(sheet, tuple(dataclasses.replace(s, key=f"later-{s.key}", since=since) for s in told))


def explained(sheet: Sheet) -> list[tuple[str, str]]:
    """Numbers that the sheet's slips explain: (step, what is typed there)."""
    found = []
    for step in sheet.working.steps:
        for _, values in () if step.choices else slip_values(sheet.working, step, sheet.slips, {}):
            found += [(step.id, f"{value / quantity(step.quantity).bare:.3e}") for value in values]
    return found


def verdicts(sheet: Sheet, typed: list[tuple[str, str]]) -> list[Verdict]:
    return [judge(sheet.working, sheet.slips, {step_id: text}, step_id) for step_id, text in typed]


@pytest.mark.parametrize("slug", KINDS)
def test_verdicts_stay_where_another_slip_explains_the_number(slug):
    sheet = open_code(codes_of(all_kinds()[slug].letter)[0])
    hidden = {slip.key for slip in sheet.slips if slip.hides}
    numbers = explained(sheet)
    # with a slip that hides, the newcomers share
    typed = [one for one, said in zip(numbers, verdicts(sheet, numbers)) if said.slips and not hidden & {*said.slips}]
    assert len(typed) > 5
    before = verdicts(sheet, typed)
    assert verdicts(again(sheet, since=2), typed) == before
    # so the line above can fail: were the slips as old as the sheet, they would share in the numbers
    assert all(one != other for one, other in zip(verdicts(again(sheet, since=1), typed), before, strict=True))


def test_a_later_slip_is_named_where_nothing_else_explains_the_number():
    sheet = open_code(codes_of("A")[0])
    says = "This is for 3d. Take 2d there."
    more = Slip("thrice-d", "3d for 2d", "twice_d", always(lambda a, d: 3 * d), says, "#", since=2)
    richer = with_more(sheet, (more,))
    ((_, (value,)),) = slip_values(sheet.working, sheet.working.by_id["moment-1"], (more,), {})
    typed = [("moment-1", f"{value:.3e}")]
    assert verdicts(sheet, typed)[0].state == "wrong"
    assert verdicts(richer, typed)[0].slips == ("thrice-d",)
    assert [s.hides for s in richer.slips if s.key == "thrice-d"] == [True]
    assert [s.hides for s in richer.kind.slips_of(2) if s.key == "thrice-d"] == [False]


def test_the_slips_of_an_edition_are_the_same_each_time():
    """What is made of a slip is kept for that very slip, so new ones each time would cost a great deal."""
    sheet = again(open_code(codes_of("A")[0]), since=2)
    assert sheet.slips is sheet.slips is not sheet.kind.slips

"""Two slips at once are named only where the same two explain more than one entry."""

import pytest

from exercises.judging.slip_pairs import likelier_first
from exercises.judging.verdict import judge_all
from exercises.kinds.kind import all_kinds, open_code
from tests.benchmarks.judging import typed
from tests.benchmarks.pairs import consistent
from tests.exercises.golden import codes_of

WORKING = open_code(codes_of("A")[0]).working
SLIPS = {s.key: s for s in all_kinds()["tan-a"].slips_of(1)}


def entries(*keys, steps):
    values = consistent(WORKING, [SLIPS[k] for k in keys])
    return {s.id: typed(values[s.id], s) for s in WORKING.steps if s.column in steps}


@pytest.mark.parametrize(
    "keys", [("sine-for-tangent", "mu0-for-mu0-over-4pi"), ("plus-for-minus", "mu0-for-mu0-over-4pi")]
)
def test_a_pair_made_all_through_is_named(keys):
    made = entries(*keys, steps=("moment",))
    verdicts = judge_all(WORKING, tuple(SLIPS.values()), made)
    for step in made:
        assert set(verdicts[step].slips) == set(keys)
        assert verdicts[step].text.startswith("This looks like two slips at once")


def test_two_entries_are_enough():
    made = entries("sine-for-tangent", "mu0-for-mu0-over-4pi", steps=("moment",))
    two = {step: made[step] for step in ("moment-1", "moment-2")}
    verdicts = judge_all(WORKING, tuple(SLIPS.values()), two)
    assert {verdicts[step].case for step in two} <= {"two slips", "two slips, or two others"}


def test_one_entry_alone_is_never_explained_by_two():
    made = entries("sine-for-tangent", "mu0-for-mu0-over-4pi", steps=("moment",))
    one = {"moment-1": made["moment-1"]}
    assert judge_all(WORKING, tuple(SLIPS.values()), one)["moment-1"].state == "wrong"


def test_two_entries_of_different_pairs_are_not_explained():
    one = entries("sine-for-tangent", "mu0-for-mu0-over-4pi", steps=("moment",))["moment-1"]
    two = entries("plus-for-minus", "mu0-for-mu0-over-4pi", steps=("moment",))["moment-2"]
    verdicts = judge_all(WORKING, tuple(SLIPS.values()), {"moment-1": one, "moment-2": two})
    assert {verdicts["moment-1"].state, verdicts["moment-2"].state} == {"wrong"}


def test_slips_in_different_steps_stay_single():
    made = entries("sine-for-tangent", "two-left-out", steps=("tan", "moment"))
    verdicts = judge_all(WORKING, tuple(SLIPS.values()), made)
    assert verdicts["tan-1"].slips == ("sine-for-tangent",)
    assert verdicts["moment-1"].slips == ("two-left-out",)


def test_pairs_that_explain_more_come_first_then_those_nearer_the_front():
    """The places of both slips in the catalogue are added: the first and the fifth come before the third and fourth."""
    a, b, c, d, e = list(SLIPS.values())[:5]
    believed = [((c, d), ["1", "2"]), ((b, e), ["1", "2", "3"]), ((a, e), ["1", "2"]), ((a, c), ["3", "4"])]
    ordered = likelier_first(believed, SLIPS.values())
    assert [pair for pair, _ in ordered] == [(b, e), (a, c), (a, e), (c, d)]
    assert likelier_first(reversed(believed), SLIPS.values()) == ordered

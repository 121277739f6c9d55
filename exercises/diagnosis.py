"""Which slips explain a number, and whether a sheet's slips can be told apart at all.

A sheet is *diagnosable* if, at every step, an answer of three figures tells
every slip from every other and from the right answer.  Scenarios that are not
are not given out.
"""

from collections.abc import Iterable, Mapping

from exercises.slips import Slip
from exercises.arithmetic import Exact, Hundredths, Interval, Tenths, last_place
from exercises.working import Step, Working

#: How far the rounding of intermediates may carry a slip's value, as a share of
#: it.  Wider names more slips of students who round early, and accuses more
#: numbers that are no slip; the benchmarks hold both.
SLIP_SLACK = 0.005


def slip_values(
    working: Working, step: Step, slips: Iterable[Slip], own: Mapping[str, float]
) -> list[tuple[Slip, tuple[float, ...]]]:
    """What each slip makes of a step, started from the student's own entries.

    own    the values typed in earlier steps; the others are worked
    Returns only slips that change the step's value.  A slip that hangs on how
    the angle was kept has one value for each way: every figure, 0.1° and 0.01°.
    """
    own = {k: v for k, v in own.items() if k != step.id}
    starts = [{}, {}, {}]
    for a, right in zip((Exact, Tenths, Hundredths), starts):
        right.update(own)
        right[step.id] = working.fill(step, a, working.parts, right)
    found = []
    for slip in slips:
        parts = slipped_parts(working, slip)
        values = [
            working.slipped(slip.part, parts, right, own).get(step.id)
            for right in (starts if slip.by_angle else starts[:1])
        ]
        values = tuple(dict.fromkeys(v for v in values if v is not None))
        if values:
            found.append((slip, values))
    return found


_slipped_parts: dict[tuple[str, int], dict] = {}


def slipped_parts(working: Working, slip: Slip) -> dict:
    """The parts of a working with the slip's one replaced; made once for each kind's parts."""
    key = slip.key, id(working.parts)
    if key not in _slipped_parts:
        _slipped_parts[key] = {**working.parts, slip.part: slip.change(working.parts[slip.part])}
    return _slipped_parts[key]


def half_unit(value: float, last: float | None = None) -> float:
    """Half a unit in the third figure of value, or of the last place typed if that is finer."""
    third = last_place(value)
    return (third if last is None else min(third, last)) / 2


def matches(typed: float, last: float, value: float, loose: float = 0.0) -> bool:
    """Whether a typed number is a slip's value, rounded.  The sign is often dropped, so it does not count.

    loose  of the step: how far a number read off a graph may miss
    """
    typed, value = abs(typed), abs(value)
    return abs(typed - value) <= half_unit(typed, last) * 1.000001 + max(SLIP_SLACK, loose) * value


def _reach(value: float, loose: float) -> tuple[float, float]:
    """All that can be taken for `value` when it is typed with three figures."""
    value = abs(value)
    room = 2 * half_unit(value) + max(SLIP_SLACK, loose) * value
    return value - room, value + room


def tells_apart(working: Working, slips: Iterable[Slip], step_ids: Iterable[str]) -> bool:
    """Whether an answer of three figures at each of these steps tells the slips apart, and from right."""
    right, spans = working.all_values(), working.all_values(Interval)
    coarser = [working.all_values(Tenths), working.all_values(Hundredths)]
    reaches = {s: [(spans[s].lo, spans[s].hi, "right")] for s in step_ids}
    for slip in slips:
        if slip.hides:
            continue
        parts = slipped_parts(working, slip)
        for start in (right, *coarser) if slip.by_angle else (right,):
            for s, value in working.slipped(slip.part, parts, start).items():
                if s in reaches:
                    reaches[s].append((*_reach(value, working.by_id[s].loose), slip.key))
    return all(map(_disjoint, reaches.values()))


def _disjoint(reaches: list[tuple[float, float, str]]) -> bool:
    reaches.sort()
    # sorted by lower end, an overlap with any other shows against the widest seen so far
    reached, owner = -1.0, ""
    for lo, hi, key in reaches:
        if lo <= reached and key != owner:
            return False
        if hi > reached:
            reached, owner = hi, key
    return True

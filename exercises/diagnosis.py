"""Which slips explain a number, and whether a sheet's slips can be told apart at all.

A sheet is *diagnosable* if, at every step, an answer of three figures tells
every slip from every other and from the right answer.  Scenarios that are not
are not given out.
"""

from collections.abc import Iterable, Mapping

from exercises.slips import Slip
from exercises.working import Exact, Interval, Span, Step, Tenths, Working, last_place

#: How far the rounding of intermediates may carry a slip's value, as a share of
#: it.  Wider names more slips of students who round early, and accuses more
#: numbers that are no slip; the benchmarks hold both.
SLIP_SLACK = 0.003


def slip_values(
    working: Working, step: Step, slips: Iterable[Slip], own: Mapping[str, float]
) -> list[tuple[Slip, tuple[float, ...]]]:
    """What each slip makes of a step, started from the student's own entries.

    own    the values typed in earlier steps; the others are worked
    Returns only slips that change the step's value, with one value for each
    common way of keeping the angle (every figure, or 0.1°).
    """
    right = {a: working.value(step.id, a, own=own) for a in (Exact, Tenths)}
    found = []
    for slip in slips:
        parts = {**working.parts, slip.part: slip.change(working.parts[slip.part])}
        values = []
        for a in (Exact, Tenths):
            value = working.value(step.id, a, parts, own)
            if value != right[a] and value not in values:
                values.append(value)
        if values:
            found.append((slip, tuple(values)))
    return found


def half_unit(value: float, last: float | None = None) -> float:
    """Half a unit in the third figure of value, or of the last place typed if that is finer."""
    third = last_place(value)
    return (third if last is None else min(third, last)) / 2


def matches(typed: float, last: float, value: float) -> bool:
    """Whether a typed number is a slip's value, rounded.  The sign is often dropped, so it does not count."""
    typed, value = abs(typed), abs(value)
    return abs(typed - value) <= half_unit(typed, last) * 1.000001 + SLIP_SLACK * value


def _reach(value: float) -> Span:
    """All that can be taken for `value` when it is typed with three figures."""
    value = abs(value)
    room = 2 * half_unit(value) + SLIP_SLACK * value
    return Span(value - room, value + room)


def tells_apart(working: Working, step: Step, slips: Iterable[Slip]) -> bool:
    """Whether an answer of three figures at this step tells the slips apart, and from right."""
    accepted: Span = working.value(step.id, Interval)
    reaches = []
    for slip, values in slip_values(working, step, slips, {}):
        reaches += [(r.lo, r.hi, slip.key) for r in map(_reach, values)]
    reaches.append((accepted.lo, accepted.hi, "right"))
    reaches.sort()
    # sorted by lower end, an overlap with any other shows against the widest seen so far
    reached, owner = -1.0, ""
    for lo, hi, key in reaches:
        if lo <= reached and key != owner:
            return False
        if hi > reached:
            reached, owner = hi, key
    return True

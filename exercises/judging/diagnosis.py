"""Which slips explain a number, and whether a sheet's slips can be told apart at all.

A sheet is *diagnosable* if, at every step, an answer of three figures tells
every slip from every other and from the right answer.  Scenarios that are not
are not given out.
"""

import math
from bisect import bisect_left
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from exercises.judging.answer import Typed
from exercises.slips.catalogue import Slip
from exercises.working.arithmetic import NotingAngles, Span
from exercises.working.compiled_slips import Slipped
from exercises.working.evaluate import KEPT, evaluator_of, spans_of
from exercises.working.rounded import ANGLE_PLACE, FIGURES, last_place
from exercises.working.steps import Parts, Step, Working

#: How far the rounding of intermediates may carry a slip's value, as a share of
#: it.  Wider names more slips of students who round early, and accuses more
#: numbers that are no slip; the benchmarks hold both.
SLIP_SLACK = 0.005


#: Of one step: the values that it is worked from and its own, by id, with angles kept in each of `KEPT`.
type Starts = Sequence[dict[str, Any]]
#: What each slip makes of one step, of those that change it.
type Outcomes = Sequence[tuple[Slip, Slipped]]


def starts_from(working: Working, step: Step, own: Mapping[str, Any]) -> Starts:
    """What a step is worked from and comes to, for each way of keeping an angle.

    own    the values of the student's entries that it rests on; the others are worked
    ValueError or ArithmeticError where they lead to no number.
    """
    noting, known = NotingAngles(), dict(own)
    known[step.id] = working.fill(step, noting, working.parts, known)
    if not noting.angles:  # then the ways do not differ
        return [known] * len(KEPT)
    starts: list[dict[str, Any]] = [known, *(dict(own) for _ in KEPT[1:])]
    for arithmetic, known in zip(KEPT[1:], starts[1:]):
        known[step.id] = working.fill(step, arithmetic, working.parts, known)
    return starts


def outcomes(working: Working, step: Step, slips: Sequence[Slip], starts: Starts, own: Mapping[str, Any]) -> Outcomes:
    """What each slip makes of a step, worked from `starts`; only slips that change it.

    own    the student's entries among the starts: they stay, whatever the slip
    A slip that hangs on how the angle was kept has one value for each of the starts, another slip one alone, or as
    many as it gives by itself.
    """
    changed = _changed(working, step, slips, starts, own)
    return [
        (slip, given)
        for slip in slips
        if (given := values_at(working, step, slip, starts[0]) if slip.at else changed.get(slip.key))
    ]


def _changed(
    working: Working, step: Step, slips: Sequence[Slip], starts: Starts, own: Mapping[str, Any]
) -> Mapping[str, Slipped]:
    """What each slip that has a change makes of a step, by its key; only slips that change it."""

    def with_change() -> list[Slip]:
        only_here = is_partly_entered(working, step, own)
        return [s for s in slips if not s.at and (not only_here or working.plan.takes(step, s.part, working))]

    found = evaluator_of(working).slipped(working, step, slips, own, with_change, slipped_parts)
    if found is not None:
        return found
    found = {}
    for slip in with_change():
        parts, known_ways = slipped_parts(working, slip), starts if slip.by_angle else starts[:1]
        values = tuple([working.slipped(slip.part, parts, known, own).get(step.id) for known in known_ways])
        if any(value is not None for value in values):
            found[slip.key] = values
    return found


def is_partly_entered(working: Working, step: Step, own: Mapping[str, Any]) -> bool:
    """Whether a step takes several rows together, and some of them are entered and some left blank.

    What stands there was worked without the slips that are looked for in the blank ones.
    """
    rows = [need in own for need in working.plan.asked_needs(step) if working.by_id[need].row is not None]
    return step.row is None and any(rows) and not all(rows)


def values_at(working: Working, step: Step, slip: Slip, known: Mapping[str, Any]) -> tuple[float, ...]:
    """The values that a slip without a change gives at a step, but for the right one."""
    if slip.at is None or (slip.part and not working.plan.takes(step, slip.part, working)):
        return ()
    try:
        return tuple([v for v in slip.at(working, step, known) if v != known[step.id]])
    except (ValueError, ArithmeticError):
        return ()  # from such entries it leads to no number


def that_agree(typed: Typed, step: Step, found: Outcomes) -> tuple[Slip, ...]:
    """The slips one of whose values agrees with the number to the figures typed, in the order of `found`."""
    unit = finest_place(typed, step)
    if not unit:
        return ()  # a zero has no figures to agree to
    agreed = [slip for slip, values in found if any(v and agrees(typed.value, unit, v) for v in values)]
    return tuple(dict.fromkeys(agreed))


def that_give(typed: Typed, step: Step, found: Outcomes, exact: bool = False) -> tuple[Slip, ...]:
    """The slips whose value is the number typed, the nearest first.

    exact  whether nothing was rounded on the way: then a value must agree to the figures typed
    """
    if exact:
        return that_agree(typed, step, found)
    near, agreeing = [], that_agree(typed, step, [(slip, values) for slip, values in found if slip.exact])
    for slip, values in found:
        if slip.exact and slip not in agreeing:
            continue
        misses = [
            abs(abs(typed.value) - abs(v)) / abs(v)
            for v in values
            if v and matches(typed.value, typed.last_place, v, step.loose)
        ]
        if misses:
            near.append((min(misses), slip))
    return tuple(dict.fromkeys([slip for _, slip in sorted(near, key=lambda pair: pair[0])]))


def that_explain(typed: Typed, step: Step, told: Outcomes, hiding: Outcomes, exact: bool) -> tuple[Slip, ...]:
    """The slips that a number is explained by, the likeliest first.

    told    what the slips make of the step that are looked for always, and `hiding` the others
    exact   whether nothing was rounded on the way to the number
    A slip that is exact and agrees to the figures typed goes before others that only come near.  Otherwise one that
    hides is looked for only where no other gives the number.
    """
    agreed = that_agree(typed, step, told)
    if exact and agreed:
        return agreed
    sure = that_agree(typed, step, hiding if exact else [of for of in hiding if of[0].exact])
    if agreed:  # to three figures a number agrees with too many
        sure = tuple([slip for slip in sure if slip.beside and typed.figures > FIGURES])
    if not sure:
        return that_give(typed, step, told, exact) or that_give(typed, step, hiding, exact)
    found = (*agreed, *sure) if agreed else that_agree(typed, step, hiding)
    # a mean to 0.1° or coarser has so few places that many slips come to it: only a sole one is named
    many = step.exact and step.quantity == "angle" and typed.last_place > ANGLE_PLACE / 2
    return () if many and len(found) > 1 else found


def with_slips(parts: Parts, *slips: Slip) -> Parts:
    """The parts with each slip's one replaced; a slip without a change replaces none."""
    return parts.replaced(**{s.part: s.change(parts.part(s.part)) for s in slips if not s.at})


def slipped_parts(working: Working, slip: Slip) -> Parts:
    """The parts of a working with the slip's one replaced; made once for each kind's parts."""
    kept = evaluator_of(working).slipped_parts
    of, parts = kept.get(slip.key, (None, None))
    if parts is None or of is not slip:
        parts = with_slips(working.parts, slip)
        kept[slip.key] = slip, parts
    return parts


def half_unit(value: float, last: float | None = None) -> float:
    """Half a unit in the third figure of value, or of the last place typed if that is finer."""
    third = last_place(value)
    return (third if last is None else min(third, last)) / 2


def finest_place(typed: Typed, step: Step) -> float:
    """One unit of the last place typed, or of the coarsest that is asked for if that is finer."""
    third = last_place(typed.value)
    if step.quantity == "angle" and step.rule != "figures":
        return min(typed.last_place, max(ANGLE_PLACE, third))
    return min(typed.last_place, third)


def agrees(typed: float, unit: float, value: float) -> bool:
    """Whether a typed number is this value to its last unit: rounded, half up or half even, or cut off.

    The sign is often dropped, so it does not count.
    """
    past = (abs(value) - abs(typed)) / unit
    return -0.500001 <= past <= 0.999999


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


def tells_apart(working: Working, slips: Iterable[Slip], step_ids: Iterable[str], widest: float = math.inf) -> bool:
    """Whether an answer of three figures at each of these steps tells the slips apart, and from right.

    widest  how far at most correct rounding carries any of these steps, as a share of the right value, where that is
            known: what correct working reaches is then looked at only where a slip comes near it
    """
    step_ids = tuple(step_ids)
    plain = tuple([slip for slip in slips if not slip.hides])
    if not plain:
        return True
    steps = evaluator_of(working).changes(working, plain, step_ids, slipped_parts)
    looseness = [working.by_id[step_id].loose for step_id in step_ids]
    near = False
    for step, loose in zip(steps, looseness):
        found = sorted(zip(map(abs, step.values), step.keys))
        if not _apart(found, loose):
            return False
        near = near or _within(step.right, found, max(widest, loose), loose)
    if not near:
        return True
    # the interval takes longest, so it is worked only where the slips can be told from each other
    spans = spans_of(working, step_ids)
    for step_id, step, loose in zip(step_ids, steps, looseness):
        span = spans[step_id]
        if isinstance(span, Span) and not _clear_of(span, step.values, loose):
            return False
    return True


#: What slips make of a step, without signs and in order, each with its slip's key.
type _InOrder = list[tuple[float, str]]


def _within(right: float, found: _InOrder, widest: float, loose: float) -> bool:
    """Whether any slip's value may be taken for one that correct working reaches, by how far that goes at most."""
    low, high = abs(right) * (1 - widest), abs(right) * (1 + widest)
    # by a share of 0.015 a value of three figures is taken for another at most, so few values are looked at
    near, far = low * 0.98, high * 1.02
    for at in range(bisect_left(found, (near, "")), len(found)):
        v = found[at][0]
        if not v < far:
            return False
        lo, hi = _reach(v, loose)
        if lo <= high and low <= hi:
            return True
    return False


def _clear_of(span: Span, values: Sequence[float], loose: float) -> bool:
    """Whether no slip's value can be taken for one that correct working reaches."""
    near, far = span.lo * (0.98 - loose), span.hi * (1.02 + loose)  # farther off no slip's reach goes
    for v in values:
        if near < abs(v) < far:
            lo, hi = _reach(v, loose)
            if lo <= span.hi and span.lo <= hi:
                return False
    return True


def _apart(found: _InOrder, loose: float) -> bool:
    """Whether no two slips' values can be taken for each other."""
    slack, sure = max(SLIP_SLACK, loose), True
    # a unit in the third figure is from 1/1000 to 1/100 of the number: that decides nearly always
    together, apart = (0.9989999 - slack) / (1.0010001 + slack), (0.9899999 - slack) / (1.0100001 + slack)
    a, one = 0.0, ""
    for b, other in found:
        if a > b * apart and one != other:
            if a >= b * together:
                return False
            sure = False
        a, one = b, other
    return sure or _disjoint([(*_reach(v, loose), key) for v, key in found])


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

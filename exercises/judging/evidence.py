"""What the verdict on each step rests on, gathered from the working in one pass over the sheet."""

import math
from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from exercises.judging.answer import Typed
from exercises.judging.diagnosis import Outcomes, Starts, outcomes, starts_from, that_agree, that_explain
from exercises.judging.entries import UNROUNDED, Chosen, Entry, accepts, is_coarse, leads_on
from exercises.slips.catalogue import Slip
from exercises.working.arithmetic import Span, own_start
from exercises.working.cutting import CUTS, may_lead_to
from exercises.working.evaluate import NOWHERE, all_spans, evaluator_of
from exercises.working.rounded import cut_off
from exercises.working.steps import Step, Working

CUT_FIGURES = 3  # with fewer, a number cut off and many wrong ones look alike
MOST_CUT_OFF = 0.5  # share: cutting off takes no number farther, not even a difference
FEWEST_FIGURES = 2  # with one, a right number and many wrong ones look alike

type Value = float | str  # of a number, in SI units (degrees for an angle); of a choice, its key


@dataclass(frozen=True, eq=False)
class Evidence:
    """All that the verdict on one step rests on.

    entry     what was read; None if nothing was typed
    is_coarse  whether it is a number with fewer figures than are asked for
    entered   the values of all entries of the sheet that a step can be worked from, by id
    rests_on  ids of those that this step rests on
    wrong     ids of those that are not right, and that no right entry stands between
    coarse    ids of those that have fewer figures than are asked for
    right     all that correct working can reach: a span; of a choice, its key
    follows   the same, worked from the student's own entries; None where it rests on none
    """

    working: Working
    slips: Sequence[Slip]
    step: Step
    entry: Entry | None
    is_coarse: bool
    entered: Mapping[str, Value]
    rests_on: frozenset[str]
    wrong: frozenset[str]
    coarse: frozenset[str]
    right: Span | str
    follows: Span | str | None

    @cached_property
    def number(self) -> Typed:
        """The entry of a step that asks for a number.  TypeError if none was read."""
        if isinstance(self.entry, Typed):
            return self.entry
        raise TypeError(f"no number was read at {self.step.id}")

    # -- what can be told of the entry -------------------------------------------

    @property
    def is_offered(self) -> bool:
        """Whether a choice is one of those offered."""
        return isinstance(self.entry, Chosen) and leads_on(self.entry, self.step)

    @property
    def is_zero(self) -> bool:
        """Whether the number is zero, or none at all, where neither is possible."""
        value = self.number.value
        return not math.isfinite(value) or (value == 0 and self.step.rule not in UNROUNDED)

    @property
    def has_one_figure(self) -> bool:
        """Whether the number has so few figures that right and wrong look alike, and is not right as it stands."""
        if self.number.figures >= FEWEST_FIGURES or self.step.rule in UNROUNDED:
            return False
        if self.step.fewest <= FEWEST_FIGURES:  # an uncertainty may be stated with one, or two if the first is a 1
            return not self.is_right or round(abs(self.number.value) / self.number.last_place) == 1
        return self.number.value not in self._right_span

    @cached_property
    def is_right(self) -> bool:
        """Whether correct working can reach the entry."""
        if isinstance(self.entry, Chosen):
            return self.entry.value == self.right
        return accepts(self._right_span, self.number, self.step)

    @property
    def is_right_but_for_a_minus(self) -> bool:
        """Whether correct working can reach the number without its minus."""
        typed = self.number
        return typed.value < 0 and accepts(self._right_span, typed._replace(value=-typed.value), self.step)

    @property
    def is_slip_with_its_minus(self) -> bool:
        """Whether a slip that explains the number gives it with its minus, as the tangent of radians may."""
        given = [values for slip, values in self.told if slip in self.explained_by]
        return self.number.value < 0 and any(v is not None and v < 0 for values in given for v in values)

    @cached_property
    def is_followed(self) -> bool:
        """Whether correct working from the student's own entries can reach the entry."""
        if self.follows is None:
            return False
        if isinstance(self.entry, Chosen):
            return self.entry.value == self.follows
        return accepts(_numbers(self.follows), self.number, self.step)

    @property
    def is_bound(self) -> bool:
        """Whether all that the step is worked from is entered, right and finely enough: it must follow from that."""
        if not self.rests_on or self.wrong:
            return False
        needs = self.working.plan.asked_needs(self.step)
        return all(need in self.rests_on and need not in self.coarse for need in needs)

    @property
    def is_sound(self) -> bool:
        """Whether right working reaches the entry, and from right entries where it rests on some.

        From entries that are right and fine enough it must follow, for early rounding no longer excuses what does not.
        """
        if isinstance(self.entry, Chosen):
            return self.is_right
        if self.wrong:
            return False
        return self.is_followed or (self.is_right and not self.is_bound)

    @cached_property
    def is_right_apart(self) -> bool:
        """Whether right working from the sheet's own numbers reaches it, but none from the wrong entries before it."""
        if isinstance(self.entry, Chosen) or not self.wrong:
            return False
        if not self.is_right or self.is_followed:
            return False
        # whether a slip gives the number takes longest, so it is asked last
        return not (self.number.figures >= CUT_FIGURES and self._is_cut_from(self.own) and self.is_cut_off)

    @property
    def leads_astray(self) -> bool:
        """Whether what is worked from the entry starts wrong."""
        if self.is_sound or self.is_right_apart:
            return False
        return bool(self.wrong) or not self.is_cut_off  # which takes longest to find out, so it is asked last

    # -- what is worked out only where an entry is neither right nor followed -------

    @cached_property
    def is_cut_off(self) -> bool:
        """Whether one definite way of cutting off, where it should be rounded, gives the number, and no slip does."""
        if not isinstance(self.entry, Typed) or self.entry.figures < CUT_FIGURES:
            return False
        if self.expected is None or abs(self.ratio - 1) > MOST_CUT_OFF:
            return False
        starts = [self.own] if self.wrong or not self.own else [self.own, {}]
        # what slips there are takes longest to find out, so it is asked last
        return any(self._is_cut_from(own) for own in starts) and not self.explained_by

    def _is_cut_from(self, own: Mapping[str, Value]) -> bool:
        typed = self.number
        if not may_lead_to(typed.value, self.working, self.step, own):
            return False
        for a in CUTS:
            try:
                value = self.working.value(self.step.id, a, own=own)
            except (ValueError, ArithmeticError):
                continue  # a way that leads to no number
            figures = typed.figures if self.step.rule in UNROUNDED else min(typed.figures, a.figures)
            if typed.value in Span(cut_off(value, figures)):
                return True
        return False

    @cached_property
    def own(self) -> dict[str, Value]:
        """The values of the student's own entries that the step is worked from, by id."""
        return {step_id: self.entered[step_id] for step_id in self.rests_on}

    @cached_property
    def starts(self) -> Starts | None:
        """What the step is worked from and comes to, for each way of keeping an angle; None where that is no number."""
        return self._starts_from(self.own)

    @property
    def expected(self) -> float | None:
        """What the step comes to from the student's own entries; None if they lead to no number, or to zero."""
        value = self.starts[0][self.step.id] if self.starts else 0.0
        return value if value and math.isfinite(value) else None

    @property
    def comes_to_nothing(self) -> bool:
        """Whether the step comes to exactly zero, from the student's own entries or, with none, from the sheet."""
        return self.starts is not None and self.starts[0][self.step.id] == 0

    @property
    def ratio(self) -> float:
        """How many times too large the number is.  TypeError where nothing is expected."""
        if self.expected is None:
            raise TypeError(f"nothing is expected at {self.step.id}")
        return self.number.value / self.expected

    @cached_property
    def _outcomes(self) -> Outcomes:
        """What each slip makes of the step."""
        return outcomes(self.working, self.step, self.slips, self.starts, self.own) if self.starts else ()

    @property
    def told(self) -> Outcomes:
        """What each slip makes of the step, but for those that hide."""
        return [of for of in self._outcomes if not of[0].hides]

    @cached_property
    def explained_by(self) -> tuple[Slip, ...]:
        """The slips that explain the number; one that hides, mostly only where no other does."""
        if self.starts is None:
            return ()
        hiding = [of for of in self._outcomes if of[0].hides]
        return that_explain(self.number, self.step, (*self.told, *self._told_by_finer_angles), hiding, self._is_exact)

    @cached_property
    def like_explained(self) -> tuple[Slip, ...]:
        """The slips that come near to the one that explains the number, and agree with it to the figures typed too."""
        if len(self.explained_by) != 1:
            return ()
        like = [of for of in self._outcomes if of[0].like == self.explained_by[0].key]
        return that_agree(self.number, self.step, like)

    @property
    def _is_exact(self) -> bool:
        """Whether nothing was rounded on the way to the number: all numbers that the step takes are entered."""
        if not self.step.exact:
            return False
        needs = [self.working.by_id[need] for need in self.working.plan.asked_needs(self.step)]
        return all(need.choices or need.id in self.rests_on for need in needs)

    @cached_property
    def _told_by_finer_angles(self) -> Outcomes:
        """The same with the right angles worked anew: 40.9° on the sheet may have been 40.9375° in the calculator."""
        by_angle = [s for s in self.slips if s.by_angle and not s.hides]
        by_id = self.working.by_id
        finer = {k: v for k, v in self.own.items() if k in self.wrong or by_id[k].rule != "angle"}
        starts = self._starts_from(finer) if by_angle and len(finer) < len(self.own) else None
        if starts is None:
            return ()
        return outcomes(self.working, self.step, by_angle, starts, finer)

    def _starts_from(self, own: Mapping[str, Value]) -> Starts | None:
        try:
            return starts_from(self.working, self.step, own)
        except (ValueError, ArithmeticError):
            return None

    @property
    def _right_span(self) -> Span:
        return _numbers(self.right)


def _numbers(reach: Span | str) -> Span:
    """What a number's step can reach.  TypeError for the key of a choice."""
    if isinstance(reach, str):
        raise TypeError(f"a choice, and no number: {reach}")
    return reach


def gather(
    working: Working, slips: Sequence[Slip], entries: Mapping[str, Entry], told: Container[str] = ()
) -> dict[str, Evidence]:
    """The evidence on every step of a sheet, by id, from everything that was read on it.

    told  ids of steps whose verdict is known without it, such as what is right at first sight (plain.py)
    """
    rests, by_id, spans = working.plan.rests, working.by_id, all_spans(working)
    known = {k: e for k, e in entries.items() if isinstance(e, Typed | Chosen) and leads_on(e, by_id[k])}
    entered: dict[str, Value] = {k: e.value for k, e in known.items()}
    ids = frozenset(known)
    coarse = frozenset([k for k, e in entries.items() if isinstance(e, Typed) and is_coarse(e, by_id[k])])
    following = evaluator_of(working).following(working, {k: stands_for(e, by_id[k]) for k, e in known.items()})
    wrong: set[str] = set()
    found = {}
    for step in working.steps:  # what a step rests on comes before it
        if step.id in told:
            continue
        entry, rests_on = entries.get(step.id), rests[step.id] & ids
        right: Span | str = NOWHERE
        follows: Span | str | None = None
        if isinstance(entry, Typed):
            right, follows = spans[step.id], following.span(step.id) if rests_on else None
        elif isinstance(entry, Chosen):
            right, follows = working.value(step.id), _choice_from(working, step, entered) if rests_on else None
        evidence = Evidence(
            working=working,
            slips=slips,
            step=step,
            entry=entry,
            is_coarse=step.id in coarse,
            entered=entered,
            rests_on=rests_on,
            wrong=_met_first(step, by_id, ids) & wrong if wrong else frozenset(),
            coarse=rests_on & coarse,
            right=right,
            follows=follows,
        )
        if step.id in known and evidence.leads_astray:
            wrong.add(step.id)
        found[step.id] = evidence
    return found


def stands_for(entry: Typed | Chosen, step: Step) -> Span | str:
    """What an entry stands for when later steps are worked from it."""
    if isinstance(entry, Chosen):
        return entry.value
    # what may be off as if it were read off a scale, but was worked, has more figures in the calculator
    worked = step.rule == "reading" and (step.needs or step.quantity == "distance")
    rule = "figures" if worked else step.rule
    return own_start(entry.value, rule, entry.last_place)


def _met_first(step: Step, by_id: Mapping[str, Step], ids: frozenset[str]) -> frozenset[str]:
    """The entries that a step is worked from: going back from it, the first on each way."""
    found, ways = set(), list(step.needs)
    while ways:
        need = ways.pop()
        if need in ids:
            found.add(need)
        else:
            ways += by_id[need].needs
    return frozenset(found)


def _choice_from(working: Working, step: Step, entered: Mapping[str, Value]) -> str | None:
    """The choice that the entries lead to; None where they lead to none."""
    try:
        return str(working.value(step.id, own=entered))
    except (ValueError, ArithmeticError):
        return None

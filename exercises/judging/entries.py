"""Everything typed on one sheet, read once: what each entry stands for, whether it is right, what follows from it."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from exercises.judging import answer
from exercises.judging.answer import Typed, Unreadable
from exercises.working.arithmetic import (
    ANGLE_PLACE,
    TANGENT_PLACE,
    Interval,
    Span,
    as_span,
    last_place,
    own_start,
    widened,
)
from exercises.working.compiled import FELL, once_often
from exercises.working.compiled_spans import OWN, following_as_code
from exercises.working.steps import Step, Working

AS_READ = ("reading", "count")  # rules of numbers that are read or counted: figures are not at issue
NOWHERE = Span(math.nan)


@dataclass(frozen=True)
class Chosen:
    """An entry picked from a list: the key of the choice."""

    value: str


def place(typed: Typed, step: Step) -> float:
    """The coarsest last place that this step may be written to."""
    if step.rule == "angle":
        return ANGLE_PLACE
    if step.rule == "tangent":
        return TANGENT_PLACE
    if step.rule in AS_READ:
        return math.inf
    return last_place(typed.value)


def too_few(typed: Typed, step: Step) -> bool:
    return typed.last_place > place(typed, step) * 1.000001


def accepts(span: Span, typed: Typed, step: Step) -> bool:
    """Whether a typed number lies in the span that correct working can reach.

    One typed with fewer figures than asked stands for all that round to it.
    """
    if too_few(typed, step):
        span = widened(span, typed.last_place / 2)
    return typed.value in span


def read_entries(working: Working, entries: Mapping[str, str]) -> dict[str, Typed | Chosen | Unreadable]:
    """Every entry that was typed, read; what cannot be read stays as its error."""
    found = {}
    for step in working.steps:
        text = entries.get(step.id) or ""
        try:
            typed = Chosen(text) if step.choices and text else answer.read(text, step.quantity) if text else None
        except Unreadable as error:
            typed = error
        if typed is not None:
            found[step.id] = typed
    return found


class Entered:
    """The entries of one sheet.

    read     every entry that was typed, by step: a number, a choice, or why it cannot be read
    known    those that later steps can be worked from
    values   of the known, a number in SI units or the key of a choice
    wrong    ids of the known that are not right
    """

    def __init__(self, working: Working, entries: Mapping[str, str]):
        self.working = working
        self.read = read_entries(working, entries)
        self.known = {k: t for k, t in self.read.items() if _starts(t, working.by_id[k])}
        self.values = {k: t.value for k, t in self.known.items()}
        self.wrong = {k for k, t in self.known.items() if not self._is_right(k, t)}
        self.coarse = {k for k, t in self.known.items() if isinstance(t, Typed) and too_few(t, working.by_id[k])}

    def _is_right(self, step_id: str, entry: Typed | Chosen) -> bool:
        if isinstance(entry, Chosen):
            return entry.value == self.working.value(step_id)
        return accepts(self.span(step_id), entry, self.working.by_id[step_id])

    def span(self, step_id: str) -> Span:
        """All that correct working can reach."""
        return as_span(self.working.spans[step_id])

    def values_but(self, step_id: str) -> dict:
        """The values of all other entries."""
        return {k: v for k, v in self.values.items() if k != step_id}

    def starts(self, step: Step) -> frozenset[str]:
        """The entries that the step rests on."""
        return self.working.plan.rests[step.id] & self.known.keys()

    @cached_property
    def _own(self) -> dict:
        """What each entry stands for when later steps are worked from it."""
        own: dict = {}
        for k, t in self.known.items():
            rule = self.working.by_id[k].rule
            own[k] = t.value if isinstance(t, Chosen) else own_start(t.value, rule, t.last_place)
        return own

    @cached_property
    def _start(self) -> dict:
        """What steps are worked from: the entries, and the values that nobody types and no entry changes."""
        plan = self.working.plan
        fixed = {s.id for s in plan.order if s.hidden and all(plan.by_id[r].hidden for r in plan.rests[s.id])}
        spans = self.working.spans
        return {**{id: spans[id] for id in fixed}, **self._own}

    @cached_property
    def _followed(self) -> dict[str, Span]:
        """Of a sheet of numbers with nothing left blank, what every step follows to; else nothing."""
        working = self.working
        if len(self._own) < len(working.steps):
            return {}
        coded = once_often(working.plan.coded, (id(working.parts), OWN), _write_following, working)
        if coded is None:
            return {}
        try:
            own = tuple([(self._own[s.id].lo, self._own[s.id].hi) for s in working.steps])
            ends = coded[0]({**working.givens, OWN: own})
        except (*FELL, AttributeError):
            return {}
        return {s.id: Span(*pair) for s, pair in zip(working.steps, zip(ends[::2], ends[1::2]))}

    def followed(self, step: Step) -> Span:
        """All that correct working can reach from these entries; NOWHERE, where they lead to no number."""
        if step.id in self._followed:
            span = self._followed[step.id]
        else:
            try:
                span = as_span(self.working.value(step.id, Interval, own=self._start))
            except (ValueError, ArithmeticError):
                return NOWHERE
        return span if math.isfinite(span.lo) and math.isfinite(span.hi) else NOWHERE


def _write_following(working: Working):
    return following_as_code(working), working.parts  # kept with the code, so that nothing else takes their id


def _starts(entry: Typed | Chosen | Unreadable, step: Step) -> bool:
    """Whether later steps can be worked from an entry: nothing is multiplied or divided by zero."""
    if isinstance(entry, Chosen):
        return any(entry.value == key for key, *_ in step.choices)
    return isinstance(entry, Typed) and (bool(entry.value) or step.rule in AS_READ)

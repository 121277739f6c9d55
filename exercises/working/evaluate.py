"""What the formulas of a plan give for one sheet after another: the one door to compiled code.

Where the formulas can be compiled (compiled.py), the code is written when it is
first asked for, kept with the plan, and used from then on.  Where they cannot,
or where the numbers of a sheet are not what the code was written for, the
formulas are run.  Both give the same to the last bit, so that nobody need know.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from functools import cached_property
from itertools import chain
from typing import Any, NamedTuple
from weakref import WeakKeyDictionary

from exercises.working.arithmetic import Exact, Hundredths, Interval, Number, Span, Tenths, as_span
from exercises.working.compiled import TRACED, Cannot, Code, Compiled, traced, traced_values
from exercises.working.compiled_slips import (
    Change,
    CompiledChanges,
    CompiledSlips,
    Rows,
    Slipped,
    compiled_changes,
    compiled_slips,
)
from exercises.working.compiled_spans import OWN, CompiledSpans, compiled_following, compiled_spans
from exercises.working.steps import Parts, Plan, Step, Working

NOWHERE = Span(math.nan)  # holds no number: where entries lead to none

#: How an angle may have been kept on the way: with every figure, to 0.1° and to 0.01°.
KEPT = (Exact, Tenths, Hundredths)

OFTEN = 10  # times that something is worked by the formulas before code is written for it: that takes as long

#: The value of each step by id, for each of `KEPT`.
type Values = Sequence[Mapping[str, Any]]


class Changed(NamedTuple):
    """What slips make of one step: its right value, the values that differ from it, and of which slip each is."""

    right: float
    values: Sequence[float]
    keys: Sequence[str]


class Often[T]:
    """Code that is written only for what is asked for often, as when a class is marked."""

    def __init__(self) -> None:
        self._asked = 0
        self._code: T | None = None

    def code(self, write: Callable[[], T | None]) -> T | None:
        """The code; None before it was asked for so often, and where there is none."""
        self._asked += 1
        if self._asked == OFTEN:
            self._code = write()
        return self._code


class Evaluator:
    """Evaluates the steps of one plan, made of one set of parts, for the givens of any sheet.

    compiled       whether code is looked for at all
    slipped_parts  keeps the parts with one replaced by a slip, by the slip's key, for as long as these parts are used
    """

    def __init__(self, parts: Parts, compiled: bool) -> None:
        self.parts = parts
        self._compiled = compiled
        self.slipped_parts: dict[str, tuple[Change, Parts]] = {}
        self._spans: dict[tuple[str, ...], CompiledSpans | None] = {}
        self._following: list[Compiled | None] = []
        self._values: Often[Compiled] = Often()
        self._slips: dict[tuple[str, frozenset[str]], list[tuple[Sequence[Change], Often[CompiledSlips]]]] = {}
        self._changes: dict[tuple[str, ...], list[tuple[Sequence[Change], CompiledChanges | None]]] = {}

    def _written[T](self, write: Callable[[], T]) -> T | None:
        """The code that is written; None where there is none."""
        if not self._compiled:
            return None
        try:
            return write()
        except (Cannot, TypeError):  # TypeError: a formula hands a symbol to what takes numbers alone
            return None

    def spans(self, working: Working, step_ids: tuple[str, ...], alone: bool = False) -> dict[str, Span | str]:
        """What correct working can reach, of these steps at least, by id: a Span, or the key of a choice."""
        if step_ids not in self._spans:
            wider = (code for code in self._spans.values() if code and set(step_ids) <= set(code.step_ids))
            self._spans[step_ids] = (None if alone else next(wider, None)) or self._written(
                lambda: compiled_spans(working, step_ids)
            )
        compiled = self._spans[step_ids]
        ends = compiled.code(working.givens) if compiled else None
        if not compiled or ends is None:
            return spans_by_formula(working)
        return {step_id: Span(*pair) for step_id, pair in zip(compiled.step_ids, zip(ends[::2], ends[1::2]))}

    def changes[S: Change](
        self,
        working: Working,
        slips: Sequence[S],
        step_ids: tuple[str, ...],
        slipped_parts: Callable[[Working, S], Parts],
    ) -> list[Changed]:
        """What each slip makes of each of these steps; `slipped_parts` gives the parts with the slip's one replaced."""
        compiled = self._code_of_changes(working, slips, step_ids, slipped_parts)
        numbers = compiled.code(working.givens) if compiled else None
        if not compiled or numbers is None:
            return changes_by_formula(working, slips, step_ids, slipped_parts)
        found, at = [], 0
        for rows, keys in compiled.rows:
            first, at = at + len(rows), at + len(rows) + len(keys)
            found.append(_taken(numbers[first - len(rows) : first], numbers[first:at], rows, keys))
        return found

    def _code_of_changes[S: Change](
        self,
        working: Working,
        slips: Sequence[S],
        step_ids: tuple[str, ...],
        slipped_parts: Callable[[Working, S], Parts],
    ) -> CompiledChanges | None:
        known = self._changes.setdefault(step_ids, [])
        # compared, and not looked up by their hash: they are mostly the very same slips, and hashing them takes longer
        for of, compiled in known:
            if of == slips:
                return compiled
        written = self._written(lambda: compiled_changes(working, slips, step_ids, slipped_parts))
        known.append((slips, written))
        return written

    def values(self, working: Working, ways: int) -> Values:
        """The right value of every step by id, for so many of `KEPT` at least."""
        code = self._values.code(lambda: self._written(lambda: compiled_values(working)))
        numbers = code(working.givens) if code else None
        if numbers is None:
            return [working.all_values(a) for a in KEPT[:ways]]
        ids = [step.id for step in working.plan.order]
        return [dict(zip(ids, numbers[at : at + len(ids)])) for at in range(0, len(numbers), len(ids))]

    def slipped[S: Change](
        self,
        working: Working,
        step: Step,
        slips: Sequence[S],
        own: Mapping[str, Any],
        looked_for: Callable[[], Sequence[S]],
        slipped_parts: Callable[[Working, S], Parts],
    ) -> dict[str, Slipped] | None:
        """What each slip makes of a step that is worked from entries, by its key; only of those that change it.

        looked_for  gives those of the slips that are looked for; asked only where the code is written
        None where there is no code for it, and the formulas must be run.
        """
        if not all(type(value) is float for value in own.values()):
            return None
        known = self._slips.setdefault((step.id, frozenset(own)), [])
        often = next((often for of, often in known if of == slips), None)  # compared as in _code_of_changes
        if often is None:
            often = Often[CompiledSlips]()
            known.append((slips, often))
        code = often.code(
            lambda: self._written(lambda: compiled_slips(working, step, looked_for(), tuple(own), slipped_parts))
        )
        return code.slipped(working, own) if code else None

    def following(self, working: Working, entered: Mapping[str, Span | str]) -> "Following":
        """What the steps of a sheet follow to from what stands entered: a Span, or the key of a choice, by step."""
        own = tuple([(x.lo, x.hi) for s in working.steps if isinstance(x := entered.get(s.id), Span)])
        if len(own) < len(working.steps):
            return Following(working, entered)  # there is code for a sheet of numbers with none left blank
        if not self._following:
            self._following.append(self._written(lambda: compiled_following(working)))
        (code,) = self._following
        ends = code({**working.givens, OWN: own}) if code else None
        if ends is None:
            return Following(working, entered)
        return Following(working, entered, dict(zip([s.id for s in working.steps], zip(ends[::2], ends[1::2]))))


#: The evaluator of each plan, which the plan keeps too: it is asked for thousands of times in a draw.
_EVALUATORS: WeakKeyDictionary[Plan, Evaluator] = WeakKeyDictionary()


def evaluator_of(working: Working) -> Evaluator:
    """What evaluates the plan of a sheet, made of its parts, by compiled code where there is some."""
    evaluator: Evaluator | None = working.plan.evaluator
    if evaluator is None or evaluator.parts is not working.parts:
        evaluator = Evaluator(working.parts, working.plan.compiled)
        for other in _EVALUATORS.values():
            if other.parts is working.parts:  # another plan of the kind
                evaluator.slipped_parts = other.slipped_parts
        _EVALUATORS[working.plan] = working.plan.evaluator = evaluator
    return evaluator


def forget() -> None:
    """Let go of all compiled code; what is asked for again is written anew."""
    for plan in _EVALUATORS:
        plan.evaluator = None
    _EVALUATORS.clear()


def spans_of(working: Working, step_ids: tuple[str, ...], alone: bool = False) -> dict[str, Span | str]:
    """What correct working can reach, of these steps at least, by id: a Span, or the key of a choice.

    alone  whether code is written for these alone, though there is some for more of them, which takes longer to run
    """
    found: dict[str, Span | str] | None = working.found_spans
    return evaluator_of(working).spans(working, step_ids, alone) if found is None else found


def all_spans(working: Working) -> dict[str, Span | str]:
    """`spans_of` all steps of a sheet, the hidden ones too; found once."""
    found: dict[str, Span | str] | None = working.found_spans
    if found is None:
        found = working.found_spans = spans_of(working, tuple(step.id for step in working.plan.order))
    return found


def right_values(working: Working, ways: int = 1) -> Values:
    """The right value of every step of a sheet by id, the hidden ones' too; found once.

    ways  for how many of `KEPT` at least
    """
    found: Values = working.found_values
    if len(found) < ways:
        found = working.found_values = evaluator_of(working).values(working, ways)
    return found


class Following:
    """What each step of a sheet follows to from the entries it is worked from; only what is asked for is worked."""

    def __init__(
        self,
        working: Working,
        entered: Mapping[str, Span | str],
        ends: Mapping[str, tuple[float, float]] | None = None,
    ):
        self._working, self._entered, self._ends = working, entered, ends or {}

    @cached_property
    def _known(self) -> dict[str, Number]:
        """What steps are worked from: the entries, and the values that nobody types and no entry changes.

        What is left blank joins it as it is worked.
        """
        plan, spans = self._working.plan, all_spans(self._working)
        fixed = [s.id for s in plan.order if s.hidden and all(plan.by_id[r].hidden for r in plan.rests[s.id])]
        return {**{id: spans[id] for id in fixed}, **self._entered}

    def span(self, step_id: str) -> Span:
        """All that correct working can reach from the entries; NOWHERE, where they lead to no number."""
        if step_id in self._ends:
            span = Span(*self._ends[step_id])
        else:
            working = self._working
            try:
                span = as_span(working.fill(working.by_id[step_id], Interval, working.parts, self._known))
            except (ValueError, ArithmeticError):
                return NOWHERE
        return span if math.isfinite(span.lo) and math.isfinite(span.hi) else NOWHERE


# -- by the formulas -----------------------------------------------------------


def spans_by_formula(working: Working) -> dict[str, Span | str]:
    """`Evaluator.spans` of all steps, with the formulas run as they stand."""
    return {id: x if isinstance(x, str) else as_span(x) for id, x in working.all_values(Interval).items()}


def changes_by_formula[S: Change](
    working: Working, slips: Sequence[S], step_ids: Sequence[str], slipped_parts: Callable[[Working, S], Parts]
) -> list[Changed]:
    """`Evaluator.changes`, with the formulas run as they stand."""
    rights = [working.all_values(a) for a in KEPT]
    found: dict[str, tuple[list[float], list[str]]] = {s: ([], []) for s in step_ids}
    changed_parts = [(slip, slipped_parts(working, slip)) for slip in slips]
    for right in rights:
        for slip, parts in changed_parts:
            if right is rights[0] or slip.by_angle:
                changed = working.slipped(slip.part, parts, right)
                for step_id, value in changed.items():
                    if step_id in found and value != rights[0][step_id]:
                        found[step_id][0].append(value)
                        found[step_id][1].append(slip.key)
    return [Changed(rights[0][s], *found[s]) for s in step_ids]


# -- by compiled code ----------------------------------------------------------


def compiled_values(working: Working) -> Compiled:
    """Code for the values of all steps in order, for one of `KEPT` after the other.  Cannot, where there is none."""
    code = Code()
    symbols = traced(working, code)
    found = [traced_values(symbols, a) for a in TRACED]
    return code.function([values[step.id] for values in found for step in working.plan.order])


def _taken(rights: Sequence[float], values: Sequence[float], rows: Rows, keys: Sequence[str]) -> Changed:
    """What slips make of one step: the values that differ from the right ones.

    rights        of each row;  values, keys  of all rows
    """
    if not frozenset(rights).isdisjoint(values):  # a slip that can change the step, and here does not
        of_values = chain.from_iterable([(right,) * len(row) for right, row in zip(rights, rows)])
        kept = [(v, key) for v, key, of in zip(values, keys, of_values) if v not in (rights[0], of)]
        values, keys = [v for v, _ in kept], [key for _, key in kept]
    return Changed(rights[0], values, keys)

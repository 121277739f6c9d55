"""What slips make of the steps of a sheet, and of one that is worked from a student's entries, as compiled code."""

from collections.abc import Callable, Mapping, Sequence
from itertools import chain
from typing import Any, NamedTuple, Protocol

from exercises.working.arithmetic import Number
from exercises.working.compiled import TRACED, Code, Compiled, TracedExact, traced, traced_values
from exercises.working.compiled_spans import OWN
from exercises.working.steps import Parts, Step, Working


class Change(Protocol):
    """What is asked of a slip here: its key, its part, and whether its value hangs on how the angle was kept."""

    @property
    def key(self) -> str: ...
    @property
    def part(self) -> str: ...
    @property
    def by_angle(self) -> bool: ...


#: What a slip makes of a step: for each way of keeping an angle the value, or None if it stays.
type Slipped = tuple[float | None, ...]


class CompiledSlips(NamedTuple):
    """A function of the givens, and of the entries under OWN, and what its numbers are.

    entered  ids of the entries in order
    alone    the keys of the slips that can change the step and have one value; of each its place among the numbers
    rows     the same of those that have one for each of `TRACED`: their places in that order, and None where it cannot
             change the step.  The first numbers are the right values
    """

    code: Compiled
    entered: tuple[str, ...]
    alone: list[tuple[str, int]]
    rows: list[tuple[str, tuple[int | None, ...]]]

    def slipped(self, working: Working, own: Mapping[str, Any]) -> dict[str, Slipped] | None:
        """What each slip that changes the step makes of it, by its key; None where the formulas must be run."""
        numbers = self.code({**working.givens, OWN: tuple([own[step_id] for step_id in self.entered])})
        if numbers is None:
            return None
        right = numbers[0]
        found: dict[str, Slipped] = {key: (numbers[at],) for key, at in self.alone if numbers[at] != right}
        for key, places in self.rows:
            values = tuple(
                [None if at is None or numbers[at] == right else numbers[at] for at, right in zip(places, numbers)]
            )
            if values.count(None) < len(values):
                found[key] = values
        return found


def compiled_slips[S: Change](
    working: Working,
    step: Step,
    slips: Sequence[S],
    entered: tuple[str, ...],
    slipped_parts: Callable[[Working, S], Parts],
) -> CompiledSlips:
    """Code for what each slip makes of a step, worked from entries.  Cannot, where there is none.

    entered  ids of the entries that the step rests on; they stay, whatever the slip
    """
    code = Code()
    symbols = traced(working, code)
    own = dict(zip(entered, code.given(OWN, (0.0,) * len(entered)))) if entered else {}
    starts: list[dict[str, Number]] = [dict(own) for _ in TRACED]
    for a, known in zip(TRACED, starts):
        known[step.id] = symbols.fill(step, a, working.parts, known)
    wanted = [known[step.id] for known in starts]
    rows: list[tuple[str, tuple[int | None, ...]]] = []
    for slip in slips:
        working.plan.touched((slip.part,), working)  # found out by numbers, once
        parts = slipped_parts(working, slip)
        places: list[int | None] = []
        for known in starts if slip.by_angle else starts[:1]:
            value = symbols.slipped(slip.part, parts, known, own, TracedExact).get(step.id)
            places.append(None if value is None else len(wanted))
            wanted += [] if value is None else [value]
        if places.count(None) < len(places):
            rows.append((slip.key, tuple(places)))
    alone = [(key, at) for key, (at, *others) in rows if not others and at is not None]
    rows = [(key, places) for key, places in rows if len(places) > 1]
    return CompiledSlips(code.function(wanted), entered, alone, rows)


#: A step's slips by their keys, as their values stand behind the right one; one row for each way of keeping the angle.
Rows = list[tuple[str, ...]]


class CompiledChanges(NamedTuple):
    """The code of what slips make of some steps, and whose values its numbers are.

    rows  of each step in order, and the keys of all of them in one
    """

    code: Compiled
    rows: list[tuple[Rows, tuple[str, ...]]]


def compiled_changes[S: Change](
    working: Working, slips: Sequence[S], step_ids: Sequence[str], slipped_parts: Callable[[Working, S], Parts]
) -> CompiledChanges:
    """Code for what each slip makes of each of these steps.  Cannot, where there is none.

    Its numbers are, for each step, the right value of each of its rows, and then what the slips of the rows make of it.
    """
    code = Code()
    symbols = traced(working, code)
    rights: dict[str, list[Number]] = {s: [] for s in step_ids}
    found: dict[str, list[Number]] = {s: [] for s in step_ids}
    rows: dict[str, Rows] = {s: [] for s in step_ids}
    for a in TRACED:
        right = traced_values(symbols, a)
        values: dict[str, list[tuple[Number, str]]] = {s: [] for s in step_ids}
        for slip in slips:
            if a is TracedExact or slip.by_angle:
                working.plan.touched((slip.part,), working)  # found out by numbers, once
                changed = symbols.slipped(slip.part, slipped_parts(working, slip), right, a=TracedExact)
                for step_id, value in changed.items():
                    if step_id in values:
                        values[step_id].append((value, slip.key))
        for step_id, of_step in values.items():
            if of_step or a is TracedExact:
                rights[step_id].append(right[step_id])
                found[step_id] += [value for value, _ in of_step]
                rows[step_id].append(tuple(key for _, key in of_step))
    wanted = [x for step_id in step_ids for x in (*rights[step_id], *found[step_id])]
    return CompiledChanges(code.function(wanted), [(of, tuple(chain.from_iterable(of))) for of in rows.values()])

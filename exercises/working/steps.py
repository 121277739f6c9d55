"""A solution as named steps, written once and run with any arithmetic.

A kind of exercise writes each step's formula once, in terms of an arithmetic
`a` (arithmetic.py) and of replaceable parts.  A slip is a change
of one part (slips/catalogue.py); follow-through is the same formula started from the
student's own entries.  So nothing is worked twice.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, replace
from typing import Any, Self

from exercises.working.arithmetic import Arithmetic, Exact, Number

#: Values of steps by id, and what the sheet gives by name: what formulas and lines take.
type Known = Mapping[str, Number]
type Givens = Mapping[str, Any]


#: The names of the parts of each kind of `Parts`, found once: two slips together make parts anew many times a sheet.
_NAMES: dict[type, frozenset[str]] = {}


@dataclass(frozen=True)
class Parts:
    """The replaceable parts of a kind's formulas.

    Each kind declares its own as fields: a name, the signature, and the right
    part as default.  A slip is one of them replaced (slips/catalogue.py).
    """

    def __post_init__(self) -> None:
        if type(self) in _NAMES:
            return
        names = _NAMES[type(self)] = frozenset(part.name for part in fields(self))
        # A dataclass leaves its defaults on the class too.  There a function of the same name makes every look-up in
        # the instance half as slow again, and a draw makes many thousands.
        for cls in type(self).__mro__:
            for name in names & vars(cls).keys():
                delattr(cls, name)

    def names(self) -> frozenset[str]:
        """The names of all parts."""
        return _NAMES[type(self)]

    def __contains__(self, name: object) -> bool:
        return name in self.names()

    def part(self, name: str) -> Callable[..., Any]:
        """One part.  AttributeError if there is none of that name."""
        found: Callable[..., Any] = getattr(self, name)
        return found

    def replaced(self, **parts: Callable[..., Any]) -> Self:
        """The same with some of them replaced.  TypeError if there is none of that name."""
        return replace(self, **parts)


#: A step's formula, and the line that shows it with its numbers put in.
type Formula[P: Parts] = Callable[[Arithmetic, Known, Givens, P], Number]
type WorkedLine = Callable[[Known, Givens], str]


@dataclass(frozen=True)
class Step:
    """One thing the student works out and types.

    id        unique on the sheet, such as "tan-2"
    column    what it is called wherever it stands in a row: "tan"
    title     as the sheet says it
    quantity  a key of quantities.QUANTITIES, or "choice"
    rule      how finely it is written: "figures", "angle" (to 0.1°), "tangent" (four
              places), "reading" (off a scale: its span is all that counts) or "count"
    needs     ids of the steps whose values its formula takes
    formula   (a, values of the needs, givens, parts) -> value
    line      (all values, givens) -> the step with its numbers put in
    hints     one sentence each, from the gentlest
    read      address of the passage that explains it
    row       index of the distance it belongs to, or None
    looks_back  whether a slip in an earlier, unfilled step is looked for here
    loose     share by which a number read off a graph may miss, so that a slip in it is known all the same
    fewest    figures that are enough: 3, or 2 for an uncertainty, or 1 where it is to be rounded to be stated
    exact     whether nothing is rounded on the way to it, as to a mean of readings: a slip's value must then
              agree to the last place typed
    choices   for quantity "choice": (key, label, what is said when it is wrongly
              chosen); the formula then gives a key
    hidden    True for a value that is worked but not asked for, such as l in metres
    """

    id: str
    column: str
    title: str
    quantity: str
    rule: str
    needs: tuple[str, ...]
    formula: Formula[Any]
    line: WorkedLine
    hints: tuple[str, ...]
    read: str
    row: int | None = None
    looks_back: bool = True
    hidden: bool = False
    loose: float = 0.0
    fewest: int = 3
    exact: bool = False
    choices: tuple[tuple[str, str, str], ...] = ()


def hidden_step(id: str, needs: tuple[str, ...], formula: Formula[Any]) -> Step:
    """A value that steps share and nobody types."""
    return Step(id, id, "", "length", "figures", needs, formula, lambda known, givens: "", (), "", hidden=True)


class Plan:
    """The steps of a kind of sheet in order, and how they hang together.

    order    all steps; `steps` those that are asked for
    rests    for each step, the ids of all that is worked into it
    by_row   the steps that are asked for of each distance or so, by `Step.row`
    before   for each step, the steps worked before it, in order, for judging a
             slip in it: all it rests on, or the hidden ones if it does not look back
    compiled  whether compiled code is looked for.  There is none where formulas decide by numbers.  That is found out
             plan by plan, so a kind with very many plans and no code for them says so
    """

    def __init__(self, order: tuple[Step, ...], compiled: bool = True):
        self.order, self.compiled = order, compiled
        self.steps = tuple(step for step in order if not step.hidden)
        self.by_id = {step.id: step for step in order}
        rows = dict.fromkeys(step.row for step in self.steps)
        self.by_row = {row: [step for step in self.steps if step.row == row] for row in rows}
        self.rests: dict[str, frozenset[str]] = {}
        for step in order:
            self.rests[step.id] = frozenset(step.needs).union(*(self.rests[n] for n in step.needs))
        self.before = {
            s.id: tuple(e for e in order if e.id in self.rests[s.id] and (s.looks_back or e.hidden)) for s in order
        }
        self._uses: dict[str, frozenset[str]] = {}
        self._touched: dict[tuple[str, ...], tuple[Step, ...]] = {}
        self.evaluator: Any = None  # what evaluate.py has made of these steps, kept here for it

    def asked_needs(self, step: Step) -> list[str]:
        """The steps a student fills in that this one takes its values from directly."""
        return [n for n in step.needs if not self.by_id[n].hidden]

    def note_uses(self, working: "Working") -> None:
        """Find which parts each step's own formula takes, by running it once."""
        known: dict[str, float] = {}
        uses: dict[str, frozenset[str]] = {}
        for step in self.order:
            noting = _Noting(working.parts)
            known[step.id] = step.formula(Exact, known, working.givens, noting)
            uses[step.id] = frozenset(noting.taken)
        self._uses = uses  # whole or not at all

    def takes(self, step: Step, part: str, working: "Working") -> bool:
        """Whether the step's own formula takes a part."""
        if not self._uses:
            self.note_uses(working)
        return part in self._uses[step.id]

    def touched(self, parts: tuple[str, ...], working: "Working") -> tuple[Step, ...]:
        """The steps that a change of these parts can change, in order."""
        if parts not in self._touched:
            if not self._uses:
                self.note_uses(working)
            found: dict[str, Step] = {}
            for step in self.order:
                needs = step.needs if step.looks_back else [n for n in step.needs if self.by_id[n].hidden]
                if not self._uses[step.id].isdisjoint(parts) or any(n in found for n in needs):
                    found[step.id] = step
            self._touched[parts] = tuple(found.values())
        return self._touched[parts]


class _Noting:
    """Parts that note which of them were taken."""

    def __init__(self, parts: Parts):
        self._parts = parts
        self.taken: set[str] = set()

    def __getattr__(self, name: str) -> Callable[..., Any]:
        self.taken.add(name)
        return self._parts.part(name)


class Working:
    """A plan with the numbers of one sheet: its givens, and the parts its formulas are made of."""

    def __init__(self, plan: Plan, givens: Givens, parts: Parts):
        self.plan, self.givens, self.parts = plan, givens, parts
        self.steps, self.by_id = plan.steps, plan.by_id
        self.found_spans: Any = None  # what evaluate.py has found for this sheet, kept here for it
        self.found_values: Any = ()

    def value(
        self, step_id: str, a: Arithmetic = Exact, parts: Parts | None = None, own: Known | None = None
    ) -> Number:
        """The value of one step, in SI units (degrees for an angle).

        a      the arithmetic; parts  replacements, or None for the right ones
        own    values to start from instead of working them: the student's entries
        """
        return self.fill(self.by_id[step_id], a, self.parts if parts is None else parts, dict(own or {}))

    def fill(self, step: Step, a: Arithmetic, parts: Parts, known: dict[str, Number]) -> Number:
        """The value of a step, putting into `known` the values of what it needs and were not there."""
        for need in step.needs:
            if need not in known:
                known[need] = self.fill(self.by_id[need], a, parts, known)
        return step.formula(a, known, self.givens, parts)

    def all_values(self, a: Arithmetic = Exact) -> dict[str, Number]:
        """Every step's value by id, in the arithmetic `a`, the hidden ones' too."""
        known: dict[str, Number] = {}
        for step in self.plan.order:
            known[step.id] = step.formula(a, known, self.givens, self.parts)
        return known

    def slipped(
        self,
        part: str | tuple[str, ...],
        parts: Parts,
        right: Known,
        own: Known | None = None,
        a: type[Exact] = Exact,
    ) -> dict[str, Number]:
        """The exact values that change when one part, or several, are replaced all through, by id.

        part   the name of what is replaced, and `parts` all parts with it replaced
        right  values without the slip; steps that are not in it are left out
        own    entries to start from; they stay whatever the slip
        a      Exact, or it written down (compiled.py)
        """
        known: dict[str, Number] = dict(right)
        changed: dict[str, Number] = {}
        for step in self.plan.touched((part,) if isinstance(part, str) else part, self):
            if step.id not in right or (own and step.id in own):
                continue  # worked only into what was entered, or entered
            start = known if step.looks_back else {**right, **{n: known[n] for n in step.needs if self.by_id[n].hidden}}
            try:
                value = step.formula(a, start, self.givens, parts)
            except (ValueError, ArithmeticError):
                value = math.nan  # a slip that leads to no number, such as the root of a negative one
            if a.differ(value, right[step.id]):
                known[step.id] = changed[step.id] = value
        return changed

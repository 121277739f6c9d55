"""What each step of a sheet is worked from: which of the sheet's data, and which earlier entries.

Nothing is listed by hand.  A step names the steps that it needs, and its formula is
run once while the data that it takes are noted.  So a sheet can put the data of a
step beside its field, and it can be measured how far they lie from it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from exercises.working.arithmetic import Exact
from exercises.working.steps import Step, Working


@dataclass(frozen=True)
class Sources:
    """What a step is worked from.

    data     keys of the sheet's data, such as "B_H" and "readings.0"
    entries  ids of the steps whose values it takes
    """

    data: tuple[str, ...]
    entries: tuple[str, ...]


class _Row(tuple[Any, ...]):
    """A row of data that notes which of them are taken."""

    taken: set[str]
    name: str

    def __getitem__(self, at: Any) -> Any:
        self.taken.update(f"{self.name}.{i}" for i in ([at] if isinstance(at, int) else range(len(self))[at]))
        return super().__getitem__(at)

    def __iter__(self) -> Iterator[Any]:
        self.taken.update(f"{self.name}.{i}" for i in range(len(self)))
        return super().__iter__()


class _Noting(dict[str, Any]):
    """A sheet's data that note which of them are taken."""

    def __init__(self, givens: Mapping[str, Any]):
        super().__init__(givens)
        self.taken: set[str] = set()

    def __getitem__(self, name: str) -> Any:
        value = super().__getitem__(name)
        if isinstance(value, list | tuple):
            row = _Row(value)
            row.taken, row.name = self.taken, name
            return row
        self.taken.add(name)
        return value


def sources(working: Working) -> dict[str, Sources]:
    """What each step that is asked for is worked from, by its id; what a hidden step takes counts as its own."""
    values = working.all_values()
    takes: dict[str, dict[str, None]] = {}
    for step in working.plan.order:
        noting = _Noting(working.givens)
        step.formula(Exact, values, noting, working.parts)
        own = [need for need in step.needs if working.by_id[need].hidden]
        takes[step.id] = dict.fromkeys([*(key for need in own for key in takes[need]), *sorted(noting.taken)])
    return {
        step.id: Sources(
            tuple(key for key in takes[step.id] if not _idle(working, step, key)), tuple(_entries(working, step))
        )
        for step in working.steps
    }


def _entries(working: Working, step: Step) -> dict[str, None]:
    """The entries that a step's value is taken from, also where a hidden step stands between."""
    found: dict[str, None] = {}
    for need in step.needs:
        one = working.by_id[need]
        found.update(_entries(working, one) if one.hidden else {need: None})
    return found


def _idle(working: Working, step: Step, key: str) -> bool:
    """Whether a number is taken and does nothing, as the measured length where 2l is stated."""
    name, _, at = key.partition(".")
    given = working.givens[name]
    moved = [_moved(one) if i == int(at) else one for i, one in enumerate(given)] if at else _moved(given)
    if step.choices or moved == given:
        return False
    other = Working(working.plan, {**working.givens, name: moved}, working.parts)
    asked = {need: working.value(need) for need in _entries(working, step)}
    return bool(other.value(step.id, own=asked) == working.value(step.id, own=asked))


def _moved(given: Any) -> Any:
    """A number a little larger, or all of a row of them; anything else as it is."""
    if isinstance(given, list | tuple):
        return [_moved(one) for one in given]
    return 1.001 * given if isinstance(given, float) else given

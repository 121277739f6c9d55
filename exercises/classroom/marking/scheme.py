"""How work is marked: what a step earns, and what is taken off.

A scheme is small enough to be read aloud to a class.  It is kept in the class
file, so that work handed in later is marked alike.
"""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from functools import cache
from typing import Any

from exercises.classroom.refused import Refused
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.kind import all_kinds

MOST = 1000.0  # marks for one step; ten times as many for a whole sheet
ATTEMPTS = ("first", "last")  # the first is taken where nothing is chosen: the page shows the full working later
WHICH = ("first", "last", "best")
_SEEDS = 10  # so many sheets of a kind together have all its columns: not every one has a third balance


class SchemeError(Refused):
    """A scheme that cannot be used; the text says why."""

    part = "marks"


@dataclass(frozen=True)
class Scheme:
    """How work is marked.  SchemeError, with a sentence, where it makes no sense.

    step_mark  marks for each step that is right
    columns    other marks, by "kind/column" (Step.column), such as ("tan-a/pole", 2.0)
    follows    share of a step's mark for right working from a wrong start, 0 to 1
    figures    share taken off where too few or too many figures were typed, 0 to 1
    units      share taken off where a unit was left out and the step has one, 0 to 1
    attempt    "first" or "last": which of what was typed is marked
    which      "first", "last" or "best": which of several slips of one sheet counts
    out_of     what each sheet's total is scaled to, or None to leave it as it is
    """

    step_mark: float = 1.0
    columns: tuple[tuple[str, float], ...] = ()
    follows: float = 1.0
    figures: float = 0.0
    units: float = 0.0
    attempt: str = ATTEMPTS[0]
    out_of: float | None = None
    which: str = "last"

    def __post_init__(self) -> None:
        _check_number(self.step_mark, "The mark of a step", MOST)
        for name in ("follows", "figures", "units"):
            _check_number(getattr(self, name), f"The share “{name}”", 1.0)
        if self.attempt not in ATTEMPTS:
            raise SchemeError("The attempt that is marked must be “first” or “last”.")
        if self.out_of is not None:
            _check_number(self.out_of, "The total that a sheet is out of", 10 * MOST)
            if not self.out_of:
                raise SchemeError("The total that a sheet is out of must be more than nothing.")
        _check_columns(self.columns)
        if self.which not in WHICH:
            raise SchemeError("Which of several slips of one sheet counts must be “first”, “last” or “best”.")

    def for_step(self, kind: str, column: str) -> float:
        """The mark of a step."""
        return dict(self.columns).get(f"{kind}/{column}", self.step_mark)


def as_dict(scheme: Scheme) -> dict[str, Any]:
    """The scheme as JSON can hold it: whole numbers without a point, as a browser writes them."""
    columns = {name: _as_written(mark) for name, mark in scheme.columns}
    return {name: _as_written(value) for name, value in asdict(scheme).items()} | {"columns": columns}


def _as_written(value: object) -> object:
    """A whole number as int; everything else as it is."""
    return int(value) if isinstance(value, float) and value.is_integer() else value


def from_dict(found: object) -> Scheme:
    """The scheme that `as_dict` gave; what is not in it is as usual.  SchemeError, with a sentence, if it is none."""
    if not isinstance(found, Mapping):
        raise SchemeError("The scheme of marks is not in the form that was written.")
    known = [field.name for field in fields(Scheme)]
    if strange := [key for key in found if key not in known]:
        raise SchemeError(f"The scheme of marks has “{str(strange[0])[:40]}”. There are: {', '.join(known)}.")
    columns = found.get("columns", {})
    if not isinstance(columns, Mapping):
        raise SchemeError("The marks of single steps must be given as names with numbers, such as tan-a/pole = 2.")
    return Scheme(**{**found, "columns": tuple(columns.items())})


@cache
def columns_of(slug: str) -> tuple[str, ...]:
    """The names by which a kind's steps can be given marks, in the order of the sheet."""
    kind = all_kinds()[slug]
    names: dict[str, None] = {}
    for edition in kind.draws:
        for seed in range(_SEEDS):
            working = kind.working(kind.draw(SheetCode(kind.letter, edition, seed)))
            names.update(dict.fromkeys(step.column for step in working.steps))
    return tuple(names)


def _check_columns(columns: object) -> None:
    if not isinstance(columns, tuple) or not all(isinstance(c, tuple) and len(c) == 2 for c in columns):
        raise SchemeError("The marks of single steps must be pairs of a name and a number.")
    seen = set()
    for name, mark in columns:
        slug, _, column = str(name).partition("/")
        if slug not in all_kinds():
            raise SchemeError(
                f"“{str(name)[:40]}” is no step: name a kind of exercise and a step of it, such as tan-a/pole. "
                f"The kinds are: {', '.join(all_kinds())}."
            )
        if column not in columns_of(slug):
            raise SchemeError(f"{slug} has no step “{column[:40]}”. It has: {', '.join(columns_of(slug))}.")
        if name in seen:
            raise SchemeError(f"{name} is given a mark twice.")
        seen.add(name)
        _check_number(mark, f"The mark of {name}", MOST)


def _check_number(value: object, what: str, most: float) -> None:
    # compared, not converted: a whole number may be too large for a float
    good = isinstance(value, (int, float)) and not isinstance(value, bool) and 0 <= value <= most
    if not good:
        raise SchemeError(f"{what} must be a number from 0 to {most:g}.")

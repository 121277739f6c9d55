"""How work is marked: what a step earns, and what is taken off.

A scheme is small enough to be read aloud to a class.  It is kept in the class
file, so that work handed in later is marked alike.
"""

import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from datetime import datetime, timedelta
from decimal import ROUND_HALF_UP, Decimal
from functools import cache, lru_cache
from typing import Any

from exercises.classroom.refused import Refused
from exercises.codes.sheet_code import Setting, SheetCode
from exercises.kinds.kind import all_kinds

MOST = 1000.0  # marks for one step; ten times as many for a whole sheet
ATTEMPTS = ("first", "last")  # the first is taken where nothing is chosen: the page shows the full working later
WHICH = ("first", "last", "best")
MISSING = ("zero", "blank", "excused")
DEADLINE = "%Y-%m-%d %H:%M"
MOST_ATTEMPTS = 9  # with new numbers each
_SEEDS = 10  # so many sheets of a kind together have all its columns: not every one has a third balance
_DRAWN = 24  # so many sheets of a kind are looked at for the most that one can earn
_PAIRS = ("columns", "weights", "deadlines")  # fields that stand in JSON as names with values


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
    out_of     what each sheet's total is scaled to; None: the most that a sheet of its kind can earn
    weights    by kind, what its sheets are scaled to in place of that
    which      "first", "last" or "best": which of several slips of one sheet counts
    attempts   the same of several attempts with new numbers
    missing    what a sheet that was not handed in is: "zero", "blank" (then the total is blank) or "excused"
    deadline   of first attempts, "2026-11-20 17:00", or ""
    deadlines  others, by kind, or by kind and attempt as in "tan-a:2"
    zone       by how much the clock of the deadlines is ahead of UTC, "+05:30", or "": mails have their hours in UTC
    late       share of the sheet's mark that each day or part of a day after the deadline takes off, 0 to 1
    late_most  the most that being late takes off, 0 to 1
    """

    step_mark: float = 1.0
    columns: tuple[tuple[str, float], ...] = ()
    follows: float = 1.0
    figures: float = 0.0
    units: float = 0.0
    attempt: str = ATTEMPTS[0]
    out_of: float | None = None
    weights: tuple[tuple[str, float], ...] = ()
    which: str = "last"
    attempts: str = "last"
    missing: str = "zero"
    deadline: str = ""
    deadlines: tuple[tuple[str, str], ...] = ()
    zone: str = ""
    late: float = 0.0
    late_most: float = 1.0

    def __post_init__(self) -> None:
        _check_number(self.step_mark, "The mark of a step", MOST)
        for name in ("follows", "figures", "units", "late", "late_most"):
            _check_number(getattr(self, name), f"The share “{name}”", 1.0)
        if self.attempt not in ATTEMPTS:
            raise SchemeError("The attempt that is marked must be “first” or “last”.")
        if self.out_of is not None:
            _check_number(self.out_of, "The total that a sheet is out of", 10 * MOST)
            if not self.out_of:
                raise SchemeError("The total that a sheet is out of must be more than nothing.")
        _check_columns(self.columns)
        _check_choice(self.which, "Which of several slips of one sheet counts", WHICH)
        _check_choice(self.attempts, "Which of several attempts counts", WHICH)
        _check_choice(self.missing, "What a sheet that was not handed in is", MISSING)
        for name, weight in _checked_pairs(self.weights, "The weights"):
            _check_kind(name, f"The weight of {name[:40]}")
            _check_number(weight, f"The weight of {name}", 10 * MOST)
        _check_deadlines(self.deadline, self.deadlines)
        if not isinstance(self.zone, str) or not re.fullmatch(r"([+-](0\d|1[0-4]):[0-5]\d)?", self.zone):
            raise SchemeError("The zone must say how far your clock is ahead of UTC, such as +05:30 or -03:00.")

    def for_step(self, kind: str, column: str) -> float:
        """The mark of a step."""
        return dict(self.columns).get(f"{kind}/{column}", self.step_mark)

    def out_of_sheet(self, slug: str, edition: int, setting: Setting) -> float:
        """What every sheet of a kind is out of, whatever its numbers, to hundredths."""
        given = dict(self.weights).get(slug, self.out_of)
        if given is None:
            return _most_of_sheet(self.step_mark, self.columns, slug, edition, setting)
        return hundredths(exact(given))

    def deadline_of(self, slug: str, attempt: int) -> datetime | None:
        """When an attempt at a kind is due, or None."""
        own = dict(self.deadlines)
        of_attempt = own.get(slug, self.deadline) if attempt == 1 else own.get(f"{slug}:{attempt}", "")
        return datetime.strptime(of_attempt, DEADLINE) if of_attempt else None


@lru_cache(maxsize=256)
def _most_of_sheet(
    step_mark: float, columns: tuple[tuple[str, float], ...], slug: str, edition: int, setting: Setting
) -> float:
    """The most that one of the first sheets of a kind can earn, to hundredths: some have more distances than others."""
    kind, marks = all_kinds()[slug], dict(columns)
    most = 0.0
    for seed in range(_DRAWN):
        try:
            working = kind.working(kind.draw(SheetCode(kind.letter, edition, seed, setting)))
        except ArithmeticError:
            continue
        most = max(most, sum(marks.get(f"{slug}/{step.column}", step_mark) for step in working.steps))
    return hundredths(exact(most))


def exact(number: float) -> Decimal:
    """The number as it was written down: 0.1 is a tenth."""
    return Decimal(repr(float(number)))


def hundredths(number: Decimal) -> float:
    """A mark as it is kept: to hundredths, a half upwards."""
    return float(number.quantize(Decimal("0.01"), ROUND_HALF_UP))


def when(text: str) -> str:
    """A date and an hour as a scheme has them; a date alone is the end of that day.  SchemeError if it is none.

    >>> when("2026-11-20T17:00"), when("2026-11-20")
    ('2026-11-20 17:00', '2026-11-20 23:59')
    """
    try:
        found = datetime.fromisoformat(text.strip())
    except ValueError:
        found = None
    if found is None or found.tzinfo:
        raise SchemeError(f"“{text.strip()[:40]}” is no date and hour. Write it as 2026-11-20 17:00.")
    if re.fullmatch(r"[\d-]+", text.strip()):
        found += timedelta(hours=23, minutes=59)
    return found.strftime(DEADLINE)


def as_dict(scheme: Scheme) -> dict[str, Any]:
    """The scheme as JSON can hold it: whole numbers without a point, as a browser writes them."""
    pairs = {field: {name: _as_written(v) for name, v in getattr(scheme, field)} for field in _PAIRS}
    return {name: _as_written(value) for name, value in asdict(scheme).items()} | pairs


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
    told = {
        "columns": "The marks of single steps must be given as names with numbers, such as tan-a/pole = 2.",
        "weights": "The weights must be given as kinds with numbers, such as tan-a = 20.",
        "deadlines": "The deadlines must be given as kinds with a date and hour, such as tan-a = 2026-11-20 17:00.",
    }
    pairs = {field: found.get(field, {}) for field in _PAIRS}
    for field, given in pairs.items():
        if not isinstance(given, Mapping):
            raise SchemeError(told[field])
    return Scheme(**{**found, **{field: tuple(given.items()) for field, given in pairs.items()}})


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


def _checked_pairs(pairs: object, what: str) -> tuple[tuple[str, Any], ...]:
    """Pairs of a name and something, each name once."""
    if not isinstance(pairs, tuple) or not all(isinstance(p, tuple) and len(p) == 2 for p in pairs):
        raise SchemeError(f"{what} must be pairs of a name and what it has.")
    names = [str(name) for name, _ in pairs]
    if twice := next((name for name in names if names.count(name) > 1), None):
        raise SchemeError(f"{what}: {twice[:40]} is there twice.")
    return tuple((str(name), value) for name, value in pairs)


def _check_kind(slug: str, what: str) -> None:
    if slug not in all_kinds():
        raise SchemeError(f"{what}: there is no such kind of exercise. There are: {', '.join(all_kinds())}.")


def _check_choice(value: object, what: str, choices: tuple[str, ...]) -> None:
    if value not in choices:
        *most, last = (f"“{choice}”" for choice in choices)
        raise SchemeError(f"{what} must be {', '.join(most)} or {last}.")


def _check_deadlines(deadline: object, deadlines: object) -> None:
    given = [("", deadline)] if deadline != "" else []
    for name, value in (*given, *_checked_pairs(deadlines, "The deadlines")):
        slug, sign, attempt = name.partition(":")
        if slug:
            _check_kind(slug, f"The deadline of {name[:40]}")
        if sign and attempt not in map(str, range(2, MOST_ATTEMPTS + 1)):
            raise SchemeError(f"The deadline of {name[:40]}: an attempt is a number from 2 to {MOST_ATTEMPTS}.")
        if not isinstance(value, str) or when(value) != value:
            raise SchemeError(f"A deadline is written as 2026-11-20 17:00; “{str(value)[:40]}” is not.")

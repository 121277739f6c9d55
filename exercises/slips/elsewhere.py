"""Slips in where a number is entered, and in the system of units: they hang on the plan of a sheet and on no part."""

from collections.abc import Iterable, Mapping
from typing import Any

from exercises.slips.catalogue import Slip, unchanged
from exercises.working import evaluate
from exercises.working.evaluate import KEPT
from exercises.working.quantities import quantity
from exercises.working.steps import Step, Working

#: How many units of the CGS system one unit that the sheet takes a bare number for is.
CGS = {"moment": 1e3, "pole": 10.0, "m_over_B": 0.1, "m_times_B": 1e7, "field": 1e-2}


def right_values(working: Working, step: Step) -> Iterable[float]:
    """The right values of a step, for each way of keeping an angle; where nothing is rounded on the way, the one."""
    known_ways = evaluate.right_values(working, len(KEPT))
    return dict.fromkeys([known[step.id] for known in (known_ways[:1] if step.exact else known_ways)])


def _asks_for_a_number(step: Step) -> bool:
    return not step.choices and step.rule not in ("reading", "count")


def of_other_rows(working: Working, step: Step, known: Mapping[str, Any]) -> Iterable[float]:
    """The right values of the same column in the other rows; none of a number that is read off a scale or counted."""
    others = [s for s in working.steps if s.column == step.column and s is not step]
    return [v for s in others if _asks_for_a_number(step) for v in right_values(working, s)]


def neighbours(working: Working, step: Step) -> list[Step]:
    """The steps whose fields stand beside a step's: those of its row, or the one before and the one after it."""
    if step.row is not None:
        return [s for s in working.steps if s.row == step.row and s is not step]
    at = working.steps.index(step)
    return [s for s in working.steps[max(0, at - 1) : at + 2] if s is not step and s.row is None]


def of_neighbours(working: Working, step: Step, known: Mapping[str, Any]) -> Iterable[float]:
    """The right values of the fields beside it, as they are typed without a unit."""
    bare = quantity(step.quantity).bare
    return [
        value / quantity(s.quantity).bare * bare
        for s in neighbours(working, step)
        if _asks_for_a_number(step) and _asks_for_a_number(s) and s.column != step.column
        for value in right_values(working, s)
    ]


def in_cgs(working: Working, step: Step, known: Mapping[str, Any]) -> Iterable[float]:
    """The step's own value in units of the CGS system."""
    return [known[step.id] * CGS[step.quantity]] if step.quantity in CGS else ()


#: They belong to every kind.
SLIPS = (
    Slip(
        "other-row",
        "the number of another row",
        "",
        unchanged,
        "This looks like the number of another row, entered in this one. Look at which distance it belongs to.",
        "before/result/#the-observation-table",
        hides=True,
        at=of_other_rows,
        exact=True,
        beside=True,
    ),
    Slip(
        "neighbouring-field",
        "the number of the field beside it",
        "",
        unchanged,
        "This looks like the number that belongs in a field beside this one. Look at what each field asks for.",
        "before/result/#the-observation-table",
        hides=True,
        at=of_neighbours,
        exact=True,
    ),
    Slip(
        "cgs",
        "CGS units for SI units",
        "",
        unchanged,
        "The figures are right, and this looks like CGS units: 1 A·m² is 1000 erg/G, 1 A·m is 10 erg/(G·cm), "
        "and 1 T is 10 000 gauss. If you worked in metres and tesla, look at the powers of ten.",
        "before/field-end-on/#metres-before-anything-else",
        hides=True,
        at=in_cgs,
    ),
)

"""What slips come to at a step: the numbers that tests type to see whether a slip is named."""

from collections.abc import Iterable, Mapping
from typing import Any

from exercises.judging.diagnosis import outcomes, starts_from
from exercises.slips.catalogue import Slip
from exercises.working.steps import Step, Working


def slip_values(
    working: Working, step: Step, slips: Iterable[Slip], own: Mapping[str, Any]
) -> list[tuple[Slip, tuple[float, ...]]]:
    """What each slip makes of a step, started from the student's own entries: its different values.

    own    the values typed in earlier steps; the others are worked
    Returns only slips that change the step's value.
    """
    own = {k: v for k, v in own.items() if k != step.id}
    found = outcomes(working, step, slips, starts_from(working, step, own), own)
    return [(slip, tuple(dict.fromkeys(v for v in values if v is not None))) for slip, values in found]

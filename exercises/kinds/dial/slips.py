"""Slips in reading the dial and in taking the mean of what was read."""

from collections.abc import Mapping, Sequence
from typing import Any

from exercises.slips.catalogue import Slip, always
from exercises.slips.readings import reading_slips
from exercises.working.steps import Step, Working


def _as_read(working: Working, step: Step, known: Mapping[str, Any]) -> Sequence[float]:
    """The readings that a mean is taken of, to the nearest division where they are not entered."""
    division = working.givens["step"]
    return [round(known[need] / division) * division for need in step.needs]


SLIPS = (
    Slip(
        "from-the-wrong-zero",
        "counted from the 90, or the needle read instead of the pointer",
        "zero_of_scale",
        always(lambda reading: 90 - reading),
        "This is 90° less the reading: the needle was read instead of the pointer, or the degrees were counted "
        "from the 90. Read the tip of the pointer, and count from the 0 at the east or the west.",
        "exercises/dial/#from-which-zero",
    ),
    Slip(
        "division-misjudged",
        "the size of one division misjudged",
        "one_division",
        lambda right: lambda step: 1.0 if step == 0.5 else 0.5,
        "The divisions are counted right from the numbered mark, but one division was taken for whole degrees where "
        "it is half, or half where it is whole. Count how many divisions there are from one numbered mark to the next.",
        "exercises/dial/#the-size-of-one-division",
    ),
    Slip(
        "mark-above",
        "counted from the next numbered mark above",
        "numbered_mark",
        lambda right: lambda low: low + 10,
        "This is ten degrees too many: the divisions were added to the upper of the two numbered marks. "
        "Add them to the lower one.",
        "exercises/dial/#which-numbered-mark",
    ),
    Slip(
        "mark-below",
        "counted from a numbered mark too low",
        "numbered_mark",
        lambda right: lambda low: low - 10,
        "This is ten degrees too few: the divisions were added to a numbered mark one too low. "
        "Take the mark next to the tip on the side of the 0.",
        "exercises/dial/#which-numbered-mark",
    ),
    Slip(
        "back-taken-for-on",
        "counted back from the upper mark, but added",
        "count_direction",
        always(lambda low, past: low + 20 - past),
        "The divisions were counted back from the upper numbered mark, and then added to it. "
        "What is counted towards the 0 has to be taken off.",
        "exercises/dial/#which-way",
    ),
    Slip(
        "on-taken-for-back",
        "counted on from the lower mark, but taken off",
        "count_direction",
        always(lambda low, past: low - past),
        "The divisions were counted on from the lower numbered mark, and then taken off it. "
        "What is counted away from the 0 has to be added.",
        "exercises/dial/#which-way",
    ),
    Slip(
        "divided-by-four",
        "eight readings divided by four",
        "dial_mean",
        always(lambda a, total: total / 4),
        "This is twice the mean: eight readings were added and divided by four. Divide by eight.",
        "before/eight-readings/#the-mean-of-eight",
        ("dial",),
    ),
    Slip(
        "sum-not-divided",
        "the sum not divided",
        "dial_mean",
        always(lambda a, total: total),
        "This is the sum of the eight readings. Divide it by eight.",
        "before/eight-readings/#the-mean-of-eight",
        ("dial",),
    ),
    # -- looked for only where none of the others explains a number --------------
    *reading_slips("dial_mean", _as_read),
)

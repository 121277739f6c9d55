"""Slips in looking for a fault: the means of four, their difference, its half, the shift, the mended mean."""

import math
from collections.abc import Mapping, Sequence
from typing import Any

from exercises.slips.catalogue import Slip, always
from exercises.slips.readings import handed_to, reading_slips
from exercises.working.arithmetic import total
from exercises.working.steps import Step, Working


def _readings_that_count(working: Working, step: Step, known: Mapping[str, Any]) -> Sequence[float]:
    """The readings of a distance without one that is misread."""
    readings, wrong = handed_to("mended_readings", working, step, known)
    return [r for i, r in enumerate(readings) if i != wrong]


SLIPS = (
    Slip(
        "four-not-divided",
        "the sums of four subtracted, not their means",
        "mean_of_four",
        always(lambda total: total),
        "This is the difference of two sums of four readings. Divide each sum by four first.",
        "exercises/fault/#the-four-differences",
    ),
    Slip(
        "difference-by-eight",
        "the difference divided by eight",
        "mean_of_four",
        always(lambda total: total / 8),
        "This is half the difference: each sum of four was divided by eight. "
        "The half comes later, in a step of its own.",
        "exercises/fault/#the-four-differences",
    ),
    Slip(
        "difference-not-halved",
        "the whole difference taken for the fault",
        "half_of_difference",
        always(lambda x: x),
        "This is the whole difference. One half of the readings is too large by the fault and the other too small by "
        "it, so the fault is half of the difference.",
        "exercises/fault/#the-size-of-the-fault",
    ),
    Slip(
        "shift-in-degrees",
        "degrees not turned into radians",
        "shift_radians",
        always(lambda x: x),
        "This is 57.3 times too large: the half difference was left in degrees. Multiply it by π/180.",
        "exercises/fault/#a-shift-from-an-angle",
    ),
    Slip(
        "shift-of-a-point-magnet",
        "the half length left out of the shift",
        "shift_slope",
        always(lambda a, d, l: a.keep(d / 3)),
        "This looks like d/3, the formula of a magnet of no length, where d(d² − l²)/(3d² + l²) belongs.",
        "exercises/fault/#a-shift-from-an-angle",
    ),
    Slip(
        "shift-with-whole-length",
        "the magnetic length 2l used for l in the shift",
        "shift_slope",
        lambda right: lambda a, d, l: right(a, d, 2 * l),
        "This looks as if the whole magnetic length 2l was put where l belongs. Halve it first.",
        "before/field-end-on/#half-the-magnetic-length",
    ),
    Slip(
        "shift-without-sines",
        "sin θ cos θ left out of the shift",
        "shift_sines",
        always(lambda a, theta: 1.0),
        "This looks as if sin θ cos θ was left out. How fast the needle turns depends on where it stands.",
        "exercises/fault/#a-shift-from-an-angle",
    ),
    Slip(
        "shift-with-sine-only",
        "sin θ taken for sin θ cos θ",
        "shift_sines",
        always(lambda a, theta: a.apply(lambda x: math.sin(math.radians(x)), theta)),
        "This looks as if the cosine was left out: the line below is sin θ times cos θ.",
        "exercises/fault/#a-shift-from-an-angle",
    ),
    Slip(
        "mean-by-four",
        "eight readings divided by four",
        "mean_of_those",
        always(lambda total, count: total / 4),
        "This is about twice the mean: the readings were added and divided by four. Divide by as many as you added.",
        "before/eight-readings/#the-mean-of-eight",
    ),
    Slip(
        "sum-of-eight",
        "the sum not divided",
        "mean_of_those",
        always(lambda total, count: total),
        "This is the sum of the readings. Divide it by as many as you added.",
        "before/eight-readings/#the-mean-of-eight",
    ),
    Slip(
        "misread-kept-in",
        "the misread value kept in the mean",
        "mended_readings",
        always(lambda readings, wrong: (total(readings), len(readings))),
        "This is the mean of all eight, the misread value among them. No pair takes that out: "
        "leave it out and divide the rest by seven.",
        "exercises/fault/#what-can-be-mended",
    ),
    # -- looked for only where none of the others explains a number --------------
    *reading_slips("mended_readings", _readings_that_count),
)

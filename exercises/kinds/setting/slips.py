"""Slips in setting up: in the two turns, and in what a board shows on which one of them was left out."""

import math
from collections.abc import Mapping, Sequence
from typing import Any

from exercises.slips.catalogue import Slip, always
from exercises.slips.readings import reading_slips
from exercises.working.steps import Step, Working

HERE = "exercises/setting/"
FIRST, SHOWS, NEXT = HERE + "#the-first-turn", HERE + "#what-the-pointer-then-shows", HERE + "#the-second-turn"
LEFT_OUT, REST = HERE + "#one-turn-left-out", HERE + "#what-the-mean-still-hides"


def _readings(working: Working, step: Step, known: Mapping[str, Any]) -> Sequence[float]:
    """The readings that the mean is taken of."""
    found: Sequence[float] = working.givens["readings"][working.givens["asked"]]
    return found


_OF_THE_TURNS = (
    Slip(
        "setting-line-from-ninety",
        "the line of the arms counted from the 90",
        "line_from",
        always(lambda read: 90 - read),
        "This is 90° less what the line of the arms shows. Count from the 0 that lies beside the line.",
        FIRST,
    ),
    Slip(
        "setting-board-first",
        "turned by what the pointer shows",
        "first_turn",
        always(lambda line, pointer: pointer),
        "This is what the pointer shows. A turn by so much brings the pointer to 0–0, but leaves the arms askew, "
        "whether you turn the board or the box. First turn the box alone, by what the line of the arms shows.",
        FIRST,
    ),
    Slip(
        "setting-ends-not-halved",
        "the two ends added and not halved",
        "mean_of_ends",
        always(lambda added: added),
        "This looks as if the two ends of the pointer were added and not halved. The pointer shows the mean of both.",
        SHOWS,
    ),
    Slip(
        "setting-wrong-way-round",
        "the box turned the wrong way round",
        "pointer_after",
        lambda right: lambda pointer, line, side: right(pointer, line, -side),
        "This is what the pointer shows if the box is turned the wrong way round. If pointer and line lie on the same "
        "side of the 0, take the difference; if on opposite sides, the sum.",
        SHOWS,
    ),
    Slip(
        "setting-shown-from-ninety",
        "counted from the 90",
        "shown_from",
        always(lambda shown: 90 - shown),
        "This is 90° less what the pointer then shows. Both ends are counted from their own 0.",
        SHOWS,
    ),
    Slip(
        "setting-box-turned-again",
        "turned by the first turn again",
        "second_turn",
        always(lambda shows, pointer, line: line),
        "This is the first turn once more. The box is right now. The board turns by what the pointer shows after it.",
        NEXT,
    ),
    Slip(
        "setting-pointer-as-found",
        "turned by what the pointer showed at first",
        "second_turn",
        always(lambda shows, pointer, line: pointer),
        "This is what the pointer showed before the first turn. The box has been turned since, and the scale with it: "
        "take what the pointer shows now.",
        NEXT,
    ),
    Slip(
        "setting-pointer-for-needle",
        "the pointer taken for the needle",
        "turned",
        always(lambda x: 90 - x),
        "This is 90° less the turn. It looks as if the pointer was taken for the needle. The pointer is square to the "
        "needle and lies east–west, so the turn is what it shows, counted from the 0.",
        NEXT,
    ),
)

_OF_A_TURN_LEFT_OUT = (
    Slip(
        "setting-four-not-divided",
        "the sums of four subtracted, not their means",
        "setting_four",
        always(lambda added: added),
        "This is the difference of two sums of four readings. Divide each sum by four first.",
        LEFT_OUT,
    ),
    Slip(
        "setting-four-by-eight",
        "the sums of four divided by eight",
        "setting_four",
        always(lambda added: added / 8),
        "This is half the difference, as if each sum of four were divided by eight. Divide each sum by four.",
        LEFT_OUT,
    ),
    Slip(
        "setting-eight-by-four",
        "eight readings divided by four",
        "setting_eight",
        always(lambda added: added / 4),
        "This is twice the mean: eight readings were added and divided by four. Divide by eight.",
        "before/eight-readings/#the-mean-of-eight",
    ),
    Slip(
        "setting-eight-not-divided",
        "the sum not divided",
        "setting_eight",
        always(lambda added: added),
        "This is the sum of the eight readings. Divide it by eight.",
        "before/eight-readings/#the-mean-of-eight",
    ),
    Slip(
        "setting-not-halved",
        "the whole difference taken",
        "setting_half",
        always(lambda x: x),
        "This comes from the whole difference. One way is too much and the other way too little by the same: "
        "take half the difference.",
        LEFT_OUT,
    ),
    Slip(
        "setting-half-alone",
        "half the difference taken for the angle",
        "askew_share",
        always(lambda a, left_out, theta: 1.0),
        "This is half the difference itself. The readings show only a share of the angle: divide by sin² θ or cos² θ.",
        LEFT_OUT,
    ),
    Slip(
        "setting-other-turn",
        "the share of the other turn",
        "askew_share",
        lambda right: lambda a, left_out, theta: right(a, "second" if left_out == "first" else "first", theta),
        "This comes from sin² where cos² belongs, or cos² where sin² belongs. With the first turn left out it is "
        "sin² θ, with the second it is cos² θ.",
        LEFT_OUT,
    ),
    Slip(
        "setting-share-not-squared",
        "the sine or cosine not squared",
        "askew_share",
        always(
            lambda a, left_out, theta: a.apply(
                lambda x: (math.sin if left_out == "first" else math.cos)(math.radians(x)), theta
            )
        ),
        "This looks as if the sine or the cosine was not squared. The share is sin² θ or cos² θ.",
        LEFT_OUT,
    ),
    Slip(
        "setting-rest-in-degrees",
        "the angle left in degrees",
        "rest_radians",
        always(lambda angle: angle),
        "This is 57.3² times too large: the angle was left in degrees. Multiply it by π/180 before you square it.",
        REST,
    ),
    Slip(
        "setting-rest-not-squared",
        "the angle not squared",
        "rest_square",
        always(lambda a, angle: angle / 2),
        "This looks as if the angle was not squared. What the mean still hides goes by its square.",
        REST,
    ),
    Slip(
        "setting-rest-not-halved",
        "the half left out",
        "rest_square",
        always(lambda a, angle: a.keep(angle**2)),
        "This is twice what belongs here: the half was left out. It is ½ α² cos 2θ.",
        REST,
    ),
    Slip(
        "setting-rest-single-angle",
        "cos θ taken for cos 2θ",
        "rest_cosine",
        always(lambda a, theta: a.apply(lambda x: math.cos(math.radians(x)), theta)),
        "This looks like cos θ where cos 2θ belongs. Double the mean first, then take the cosine.",
        REST,
    ),
    Slip(
        "setting-rest-sine",
        "sine taken for cosine",
        "rest_cosine",
        always(lambda a, theta: a.apply(lambda x: math.sin(math.radians(2 * x)), theta)),
        "This looks like sin 2θ where cos 2θ belongs. At 45° nothing is left, so it must be the cosine.",
        REST,
    ),
    Slip(
        "setting-rest-share",
        "a share given for a percentage",
        "rest_percent",
        always(lambda share: share / 100),
        "This looks like the share itself. In per cent it is a hundred times that.",
        REST,
    ),
)

SLIPS = (
    *_OF_THE_TURNS,
    *_OF_A_TURN_LEFT_OUT,
    # -- looked for only where none of the others explains a number --------------
    *reading_slips("setting_eight", _readings),
)

"""The formulas of setting up: two turns of a board, and what is seen on a board where one of them was left out.

The line of the arms lies q on the scale and the pointer p, both from the 0 and
clockwise.  When the box has been turned by q, its 0–0 line lies along the arms
and the pointer shows p − q; when the board has been turned by that, the arms
lie along the pointer.

A board whose arms are left askew by α shows, with both ends and both arms, θ ∓
α sin²θ (first turn left out) or θ ± α cos²θ (second), to the first order, with N
east and N west.  With a short needle the mean θ̄ of all eight is in either case
exactly tan 2θ̄ = cos α tan 2θ; so m, which goes by tan θ, is off by the share
−½ α² cos 2θ, to the second order.  Worked from the drawing; no other source.
The tests hold all three against the instrument (bench/instrument.py).
"""

from exercises.kinds.dial.drawing import mark_below
from exercises.kinds.fault.formulas import TO_TWO_DECIMALS, halves
from exercises.kinds.setting.choices import BOARD_BACK, BOARD_CLOCKWISE, BOX_BACK, BOX_CLOCKWISE, EAST_WEST
from exercises.kinds.setting.parts import SettingParts, size
from exercises.working.arithmetic import Arithmetic, Number, middle, total
from exercises.working.steps import Formula, Givens, Known


def _counted(shown: float, step: float, parts: SettingParts) -> Number:
    """A place on the scale as a person counts it: the divisions from the numbered mark below, times their size."""
    low = mark_below(shown)
    return low + (shown - low) / step * parts.one_division(step)


def read(board: int, end: int) -> Formula[SettingParts]:
    """What end 1 or 2 of the pointer shows on a board, numbered from 0."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> Number:
        step = givens["step"]
        shown = _counted(givens["ends"][board][end - 1], step, parts)
        return a.within(parts.zero_of_scale(shown), step / 2)

    return formula


def line(board: int) -> Formula[SettingParts]:
    """Where the line of the arms lies on the scale of a board."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> Number:
        step = givens["step"]
        return a.within(parts.line_from(_counted(givens["lines"][board], step, parts)), step / 2)

    return formula


def first(board: int) -> Formula[SettingParts]:
    """What is turned first, and which way: a key of choices.FIRST."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> str:
        return BOX_CLOCKWISE if givens["signed_lines"][board] > 0 else BOX_BACK

    return formula


def _as_found(board: int, givens: Givens) -> Number:
    """What the pointer shows as the board is found: what a slip may put in the place of another number."""
    one, two = givens["ends"][board]
    return (one + two) / 2


def turn_first(board: int) -> Formula[SettingParts]:
    """How far the box is turned."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> Number:
        return parts.turned(parts.first_turn(known[f"line-{board + 1}"], _as_found(board, givens)))

    return formula


def shows(board: int) -> Formula[SettingParts]:
    """What the pointer shows after the first turn, to a division, without sign."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> Number:
        pointer = parts.mean_of_ends(total(known[f"read-{board + 1}-{end}"] for end in (1, 2)))
        after = size(a, parts.pointer_after(pointer, known[f"line-{board + 1}"], givens["sides"][board]))
        return a.within(parts.shown_from(after), givens["step"] / 2)

    return formula


def turn_next(board: int) -> Formula[SettingParts]:
    """How far the board is turned."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> Number:
        pointer, line = _as_found(board, givens), givens["lines"][board]
        return parts.turned(parts.second_turn(known[f"shows-{board + 1}"], pointer, line))

    return formula


def next_(board: int) -> Formula[SettingParts]:
    """What is turned next, and which way: a key of choices.NEXT."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> str:
        return BOARD_CLOCKWISE if givens["arms"][board] < 0 else BOARD_BACK

    return formula


def arms(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> str:
    """Where the arms lie after both turns: a key of choices.ARMS."""
    return EAST_WEST


def difference(row: int) -> Formula[SettingParts]:
    """How far the mean of the four readings with N east and that of the four with N west differ, without sign."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> Number:
        east, west = (parts.setting_four(added) for added in halves("north", givens["readings"][row]))
        return a.within(abs(east - west), TO_TWO_DECIMALS)

    return formula


def left_out(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> str:
    """Which turn was left out: a key of choices.LEFT_OUT."""
    found: str = givens["left_out"]
    return found


def mean(row: int) -> Formula[SettingParts]:
    """The mean of the eight readings of a row."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> Number:
        return a.angle(parts.setting_eight(a.total(givens["readings"][row])))

    return formula


def askew(row: int) -> Formula[SettingParts]:
    """How far the arms are askew, from the readings of a row: by the turn that was said to be left out."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> Number:
        half = parts.setting_half(known[f"diff-{row + 1}"])
        # what moves the zero alone shows whole at every deflection
        share = (
            1.0 if known["left-out"] == "neither" else parts.askew_share(a, known["left-out"], known[f"mean-{row + 1}"])
        )
        return a.keep(half / share)

    return formula


def remains(row: int) -> Formula[SettingParts]:
    """What is left in the mean of the eight readings of a row: a key of choices.REMAINS."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> str:
        return "large" if middle(known[f"mean-{row + 1}"]) > 45 else "small"

    return formula


def rest(row: int) -> Formula[SettingParts]:
    """The share by which m from the mean of a row is off: ½ α² cos 2θ, without sign."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: SettingParts) -> Number:
        square = parts.rest_square(a, a.keep(parts.rest_radians(known["askew"])))
        return a.keep(parts.rest_percent(square * a.keep(parts.rest_cosine(a, known[f"mean-{row + 1}"]))))

    return formula

"""The numbers of setting up: two boards that leave no doubt about a division, and the readings of a third."""

import math

from exercises.bench.field import distance_end_on, field_from_deflection
from exercises.bench.instrument import Faults, Magnet, eight_readings
from exercises.codes.scenario import READING_ERROR, Draw, LocalField, draw_field, first_good
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.stretch import BOX
from exercises.kinds.setting.parts import PARTS
from exercises.kinds.setting.scenario import Board, SettingScenario
from exercises.kinds.setting.steps import BOARD_PLANS, givens_of, third_plan
from exercises.slips.catalogue import Slip
from exercises.working.steps import Plan, Working

LINES = (3.0, 8.5)  # degrees, how far the box is off the arms
POINTERS = (3.0, 14.0)  # degrees, what the pointer shows
ASKEW = (3.0, 17.0)  # degrees, how far the arms are off
OFF_DIVISION = 0.3  # of a step: a tip no farther from its division leaves no doubt which one it is
LINE_OFF = 0.15  # of a step: the line of the arms
LEAST_SLIPPED = 1.0  # degrees: a slip that comes to nothing could not be told
PIVOT = 0.5e-3  # m, how far at most the pivot is off the centre either way
TRIES = 40  # of one board
LEFT_ASKEW = (5.0, 9.5)  # degrees, the arms of the third board
MAGNET = Magnet(1.5, 0.04)
DEFLECTIONS = ((51.0, 58.0), (32.0, 39.0))  # degrees, at the nearer distance and at the farther
LEAST_CHANGE = 1.5  # degrees, by which the difference of N east and N west changes from one distance to the other
NOT_NEAR_45 = 4.0  # degrees: there nothing is left in the mean


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> SettingScenario:
    """The numbers of a code of edition 1, such that these slips can be told apart.

    ArithmeticError if there are none, which no code leads to.
    """
    return first_good(Draw(code), slips, lambda draw, slips: _attempt(draw, code, slips))


def _attempt(draw: Draw, code: SheetCode, slips: tuple[Slip, ...]) -> SettingScenario | None:
    field = draw_field(draw, code.setting)
    step = code.setting.scale_step or draw.pick((1.0, 0.5))
    first_on_one_side = draw.below(2) == 1
    boards = [_board(draw, step, same_side, slips) for same_side in (first_on_one_side, not first_on_one_side)]
    if boards[0] is None or boards[1] is None:
        return None
    third = _third(draw, field, step)
    if third is None:
        return None
    scenario = SettingScenario(code, field, BOX, step, (boards[0], boards[1]), *third)
    return scenario if _apart(third_plan(scenario.asked), givens_of(scenario), slips) else None


def _apart(plan: Plan, givens: dict[str, object], slips: tuple[Slip, ...]) -> bool:
    return tells_apart(Working(plan, givens, PARTS), slips, [s.id for s in plan.steps if not s.choices])


def _board(draw: Draw, step: float, same_side: bool, slips: tuple[Slip, ...]) -> Board | None:
    """A board as it stands, with pointer and line on one side of the 0 or not; None if none was found."""
    for _ in range(TRIES):
        side = 1 if draw.below(2) else -1
        line = (math.floor(draw.between(*LINES) / step + 0.5) + draw.between(-LINE_OFF, LINE_OFF)) * step
        pointer = draw.between(*POINTERS) * (1 if same_side else -1)
        pivot = draw.between(-PIVOT, PIVOT), draw.between(-PIVOT, PIVOT)
        board = Board(round(side * pointer, 3), round(side * line, 3), *pivot)
        if ASKEW[0] <= abs(board.arms) <= ASKEW[1] and _clear(board, step, slips):
            return board
    return None


def _clear(board: Board, step: float, slips: tuple[Slip, ...]) -> bool:
    """Whether no eye can be in doubt about the division, and every slip shows for what it is."""
    tips = board.ends(BOX)
    if any(abs(tip / step - math.floor(tip / step + 0.5)) > OFF_DIVISION for tip in tips):
        return False
    side = 1.0 if board.same_side else -1.0
    (one, two), line = board.read_ends(BOX, step), board.read_line(step)
    if min(abs(one + two - side * line), abs((one + two) / 2 + side * line)) < LEAST_SLIPPED:
        return False
    givens: dict[str, object] = {
        "step": step,
        "ends": ((one, two),),
        "lines": (line,),
        "sides": (side,),
        "signed_lines": (board.line,),
        "arms": (board.arms,),
    }
    return _apart(BOARD_PLANS[0], givens, slips)  # the plans of the two boards are alike


type Third = tuple[str, float, tuple[tuple[float, ...], tuple[float, ...]], int]


def _third(draw: Draw, field: LocalField, step: float) -> Third | None:
    """The turn that was left out, how far the arms are askew, the readings, and for which distance the rest is asked.

    None if the readings do not plainly show it.
    """
    left_out = draw.pick(("first", "second"))
    askew = round(draw.between(*LEFT_ASKEW), 1) * (1 if draw.below(2) else -1)
    pivot = draw.between(-PIVOT, PIVOT), draw.between(-PIVOT, PIVOT)
    # with the first turn left out the pointer was brought to 0; with the second the scale lies as the arms do
    faults = Faults(*pivot, arm_off=askew, box_turned=askew if left_out == "first" else 0.0)
    nearer, farther = (_readings(draw, field, draw.between(*limits), faults, step) for limits in DEFLECTIONS)
    asked = draw.below(2)
    change = _east_less_west(nearer) - _east_less_west(farther)
    if (change if left_out == "first" else -change) < LEAST_CHANGE:
        return None
    if sum(nearer) / 8 < 45 + NOT_NEAR_45 or sum(farther) / 8 > 45 - NOT_NEAR_45:
        return None
    return left_out, askew, (nearer, farther), asked


def _readings(draw: Draw, field: LocalField, theta: float, faults: Faults, step: float) -> tuple[float, ...]:
    """The eight readings where the magnet turns the needle by theta degrees on a board that is set up."""
    d = distance_end_on(MAGNET.m, field_from_deflection(theta, field.B_H), MAGNET.l)
    errors = draw.normals(READING_ERROR, 8)
    return eight_readings(MAGNET, field.B_H, d, BOX, faults, errors, step)


def _east_less_west(readings: tuple[float, ...]) -> float:
    """How far the means of four with N east and with N west differ, without sign."""
    east = readings[0] + readings[1] + readings[4] + readings[5]
    return abs(2 * east - sum(readings)) / 4

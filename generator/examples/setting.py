"""A worked example of setting up: a board before and after each turn, every step, and what the mean hides."""

import math
from collections.abc import Callable
from dataclasses import replace

from exercises.kinds.kind import Kind, Sheet
from exercises.kinds.rendering import render_working
from exercises.kinds.setting.drawing import plan
from exercises.kinds.setting.scenario import Board, SettingScenario
from exercises.working.numbers import places
from exercises.working.steps import Working
from generator.examples.parts import given, observed, own_sheet


def markdown(code: str, kind: Kind, scenario: SettingScenario, working: Working) -> str:
    """The Markdown of one worked example."""
    return f"""\
## What is given

{given(kind, scenario)}

{observed(kind, scenario)}

## Board 1, turn by turn

{_turn_by_turn(scenario.boards[0])}

The needle and the pointer stay where the earth holds them. The first turn takes the 0–0 line to the line of the arms.
The second takes both to the pointer.

## If the board is turned first

{_board_first(scenario.boards[0])}

## Every step

{render_working(Sheet(kind, scenario, working), level=3)}

## The truth behind board 3

{_truth(scenario)}

{own_sheet(kind, code)}
"""


def _turn_by_turn(board: Board) -> str:
    """Three plans: as found, after the first turn, after the second."""
    after_first = replace(board, pointer=board.pointer - board.line, line=0.0)
    set_up = replace(board, pointer=0.0, line=0.0)
    off = f"{places(abs(board.arms), 1)}°"
    three = (
        ("As found", board, f"The arms lie {off} from the pointer, and the 0–0 line lies along neither."),
        ("After the first turn", after_first, f"The 0–0 line lies along the arms. The pointer shows {off}."),
        ("After the second turn", set_up, "Arms, 0–0 line and pointer lie in one. The pointer shows 0 at both ends."),
    )
    figures = "".join(
        f'<figure class="er-dial"><figcaption>{label}</figcaption>{plan(state, f"{label}. {said}")}</figure>'
        for label, state, said in three
    )
    return f'<div class="er-dials">{figures}</div>'


def _board_first(board: Board) -> str:
    off = f"{places(abs(board.line), 1)}°"
    return (
        f"Turn the whole board by what the pointer shows, {places(abs(board.pointer), 1)}°, and the pointer comes to "
        f"0–0. The box is still {off} off the arms. So the arms lie {off} from magnetic east–west, and the pointer "
        "does not show it."
    )


def _truth(scenario: SettingScenario) -> str:
    askew, theta = abs(scenario.askew), sum(scenario.readings[scenario.asked]) / 8
    side = "north" if scenario.askew > 0 else "south"
    rest = math.radians(askew) ** 2 / 2 * abs(math.cos(math.radians(2 * theta)))
    rest_of = (
        f"The east arm of board 3 points {places(askew, 1)}° to the {side} of magnetic east. With this angle itself "
        f"the mean leaves {places(rest * 100, 2)} % in *m*. The angle that is worked from the readings differs a "
        "little: they are taken to a division, and the pivot and the eye have small errors too. "
    )
    if scenario.left_out == "first":
        return (
            rest_of + "The pointer was at 0–0 before the readings, so a look at the pointer could not find this fault."
        )
    return rest_of + (
        f"Before the readings the pointer showed {places(askew, 1)}° and not 0. "
        "A look at it would have found this fault."
    )


figures: dict[str, Callable[[SettingScenario, Working], str]] = {}

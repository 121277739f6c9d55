"""The steps of setting up: two boards turn by turn, and a third on which one turn was left out."""

from functools import cache

from exercises.kinds.setting import formulas, written
from exercises.kinds.setting.choices import ARMS, FIRST, LEFT_OUT, NEXT, REMAINS, Choice
from exercises.kinds.setting.parts import PARTS, SettingParts
from exercises.kinds.setting.scenario import SettingScenario
from exercises.working.steps import Formula, Plan, Step, WorkedLine, Working

HERE = "exercises/setting/"
WHERE = ("nearer", "farther")


def _reading(
    id: str,
    column: str,
    title: str,
    needs: tuple[str, ...],
    formula: Formula[SettingParts],
    line: WorkedLine,
    hints: tuple[str, ...],
    read: str,
) -> Step:
    """A step whose angle is read off a scale, or would be."""
    return Step(id, column, title, "angle", "reading", needs, formula, line, hints, read, looks_back=False)


def _choice(
    id: str,
    column: str,
    title: str,
    choices: tuple[Choice, ...],
    formula: Formula[SettingParts],
    hints: tuple[str, ...],
    read: str,
    needs: tuple[str, ...] = (),
    line: WorkedLine | None = None,
) -> Step:
    return Step(
        id,
        column,
        title,
        "choice",
        "count",
        needs,
        formula,
        line or written.choice(id, title, choices),
        hints,
        read,
        looks_back=False,
        choices=choices,
    )


def as_it_stands(board: int) -> tuple[Step, ...]:
    """What is read on a board (numbered from 0) as it stands: both ends of the pointer, and the line of the arms."""
    n = board + 1
    ends = (
        _reading(
            f"read-{n}-{end}",
            "read",
            f"pointer, end {'①②'[end - 1]}",
            (),
            formulas.read(board, end),
            written.read(board, end),
            (
                "Read the tip of the pointer, the long thin line, and not the needle.",
                "Count the divisions from the 0 to the tip. See how many there are from one numbered mark to the next.",
            ),
            HERE + "#what-the-pointer-shows",
        )
        for end in (1, 2)
    )
    line = _reading(
        f"line-{n}",
        "line",
        "line of the arms",
        (),
        formulas.line(board),
        written.line(board),
        (
            "The line of the arms is the double line along the middle of the board. Where does it cross the scale?",
            "Count the divisions from the 0 to the line. By this angle the box is off the arms.",
        ),
        HERE + "#the-first-turn",
    )
    return (*ends, line)


def two_turns(board: int) -> tuple[Step, ...]:
    """The two turns of a board, numbered from 0, and where its arms then lie."""
    n = board + 1
    ends, line = (f"read-{n}-1", f"read-{n}-2"), f"line-{n}"
    return (
        _choice(
            f"first-{n}",
            "first",
            "what do you turn first?",
            FIRST,
            formulas.first(board),
            (
                "The pointer does not matter yet. What has to lie parallel to what?",
                "Turn the part that can turn on the board. Its 0 has to go to the line of the arms: which way is that?",
            ),
            HERE + "#the-first-turn",
        ),
        _reading(
            f"turn-first-{n}",
            "turn-first",
            "size of the first turn",
            (line,),
            formulas.turn_first(board),
            written.turn_first(board),
            ("Until the 0–0 line lies along the arms. What shows how far it is off them?",),
            HERE + "#the-first-turn",
        ),
        _reading(
            f"shows-{n}",
            "shows",
            "pointer after the first turn",
            (*ends, line),
            formulas.shows(board),
            written.shows(board),
            (
                "The pointer stays where the needle holds it. The 0 has gone to the line of the arms.",
                "How far is it from the line to the pointer, the mean of both ends? Are they on one side of the old 0?",
            ),
            HERE + "#what-the-pointer-then-shows",
        ),
        _choice(
            f"next-{n}",
            "next",
            "what do you turn next?",
            NEXT,
            formulas.next_(board),
            (
                "Now the 0–0 line and the arms lie parallel, and they have to stay so.",
                "Turn so that the 0 goes to the pointer. On which side of the line of the arms does the pointer lie?",
            ),
            HERE + "#the-second-turn",
        ),
        _reading(
            f"turn-next-{n}",
            "turn-next",
            "size of the second turn",
            (f"shows-{n}",),
            formulas.turn_next(board),
            written.turn_next(board),
            ("Until the pointer shows 0 at both ends.",),
            HERE + "#the-second-turn",
        ),
        _choice(
            f"arms-{n}",
            "arms",
            "where do the arms then lie?",
            ARMS,
            formulas.arms,
            ("Which way does a needle point that is left alone? And the pointer, which is square to it?",),
            HERE + "#where-the-arms-lie",
        ),
    )


def _difference(row: int) -> Step:
    return Step(
        id=f"diff-{row + 1}",
        column="diff",
        title=f"difference between N east and N west, {WHERE[row]}",
        quantity="angle",
        rule="reading",
        needs=(),
        formula=formulas.difference(row),
        line=written.difference(row),
        hints=("Take the mean of the four readings with N east and of the four with N west, and their difference.",),
        read=HERE + "#one-turn-left-out",
        looks_back=False,
        exact=True,
    )


LEFT = _choice(
    "left-out",
    "left-out",
    "which turn was left out?",
    LEFT_OUT,
    formulas.left_out,
    (
        "The deflection is larger at the nearer distance. Is the difference larger there too, or smaller?",
        "First turn left out: sin² θ, which grows. Second turn left out: cos² θ, which falls.",
    ),
    HERE + "#one-turn-left-out",
    line=written.left_out,
)


def _mean(row: int) -> Step:
    return Step(
        id=f"mean-{row + 1}",
        column="mean",
        title=f"mean θ of the eight, {WHERE[row]}",
        quantity="angle",
        rule="angle",
        needs=(),
        formula=formulas.mean(row),
        line=written.mean(row),
        hints=("Add the eight readings of that distance and divide by eight.",),
        read="before/eight-readings/#the-mean-of-eight",
        looks_back=False,
        exact=True,
    )


def _askew(row: int) -> Step:
    return Step(
        id="askew",
        column="askew",
        title=f"arms are askew by α, {WHERE[row]}",
        quantity="angle",
        rule="figures",
        needs=(f"diff-{row + 1}", "left-out", f"mean-{row + 1}"),
        formula=formulas.askew(row),
        line=written.askew(row),
        hints=(
            "Half the difference at that distance is only a share of the angle. The formula above says which share.",
            "First turn left out: half the difference / sin² θ. Second: half the difference / cos² θ. Three figures.",
        ),
        read=HERE + "#one-turn-left-out",
        looks_back=False,
    )


def _remaining(row: int) -> Step:
    return _choice(
        "remains",
        "remains",
        "what is left of the error in this mean?",
        REMAINS,
        formulas.remains(row),
        (
            "What is added to four readings and taken off four others goes out in the mean. Is it quite the same?",
            "At 45° nothing is left. Below 45° the mean is too small, above 45° too large.",
        ),
        HERE + "#what-the-mean-still-hides",
        needs=(f"mean-{row + 1}",),
    )


def _rest(row: int) -> Step:
    return Step(
        id="rest",
        column="rest",
        title="m from this mean is off by",
        quantity="percent",
        rule="figures",
        needs=("askew", f"mean-{row + 1}"),
        formula=formulas.rest(row),
        line=written.rest(row),
        hints=("½ α² cos 2θ, with α in radians, and without its sign.", "In per cent it is a hundred times that."),
        read=HERE + "#what-the-mean-still-hides",
        looks_back=False,
        fewest=2,
    )


#: The steps of each board, numbered from 0.
BOARDS = tuple((*as_it_stands(board), *two_turns(board)) for board in (0, 1))
#: Plans of one board alone: each draw looks at them by themselves, for they are quickly worked.
BOARD_PLANS = tuple(Plan(steps) for steps in BOARDS)


def third_board(row: int) -> tuple[Step, ...]:
    """The steps of the board on which a turn was left out; the angle is worked from this row, 0 or 1."""
    return (_difference(0), _difference(1), LEFT, _mean(row), _askew(row), _remaining(row), _rest(row))


@cache
def third_plan(row: int) -> Plan:
    """The plan of the third board alone."""
    return Plan(third_board(row), compiled=False)


@cache
def plan_for(row: int) -> Plan:
    """The plan of a whole sheet."""
    return Plan((*BOARDS[0], *BOARDS[1], *third_board(row)), compiled=False)


def givens_of(scenario: SettingScenario) -> dict[str, object]:
    """What the formulas take of a sheet."""
    boards = scenario.boards
    return {
        "step": scenario.scale_step,
        "ends": tuple(board.read_ends(scenario.box, scenario.scale_step) for board in boards),
        "lines": tuple(board.read_line(scenario.scale_step) for board in boards),
        "sides": tuple(1.0 if board.same_side else -1.0 for board in boards),
        "signed_lines": tuple(board.line for board in boards),
        "arms": tuple(board.arms for board in boards),
        "left_out": scenario.left_out,
        "readings": scenario.readings,
        "asked": scenario.asked,
    }


def working(scenario: SettingScenario) -> Working:
    """The working of a sheet of setting up."""
    return Working(plan_for(scenario.asked), givens_of(scenario), PARTS)

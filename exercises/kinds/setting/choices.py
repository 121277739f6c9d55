"""What may be chosen on a sheet of setting up: what is turned, where the arms lie, which turn was left out."""

type Choice = tuple[str, str, str]

BOX_CLOCKWISE, BOX_BACK = "box-clockwise", "box-anticlockwise"
BOARD_CLOCKWISE, BOARD_BACK = "board-clockwise", "board-anticlockwise"

_BOX_THE_OTHER_WAY = (
    "The box is the part to turn, but this is the wrong way round: its 0–0 line goes away from the arms. "
    "See on which side of the 0 the line of the arms lies. The 0 has to go there."
)
_BOARD_FIRST = (
    "This is the second turn. If the board is turned first, the pointer comes to 0–0 and lies along the 0–0 line, "
    "but not along the arms. First make the box right on the board: turn the box alone."
)
_BOX_FOR_BOARD = (
    "This is the box in place of the board. The pointer would come to 0–0, but the arms would stay where they are, "
    "and the 0–0 line would no longer be parallel to them. Leave the box as it is; turn the whole board."
)
_BOARD_THE_OTHER_WAY = (
    "The whole board is right, but this is the wrong way round: the pointer would show twice as much. "
    "See on which side of the 0 the pointer lies. The 0 has to go there."
)

#: What is turned first, and which way, seen from above: key, label, and what is said when it is wrongly chosen.
FIRST: tuple[Choice, ...] = (
    (BOX_CLOCKWISE, "the box alone, clockwise", _BOX_THE_OTHER_WAY),
    (BOX_BACK, "the box alone, anticlockwise", _BOX_THE_OTHER_WAY),
    (BOARD_CLOCKWISE, "the whole board, clockwise", _BOARD_FIRST),
    (BOARD_BACK, "the whole board, anticlockwise", _BOARD_FIRST),
)

#: What is turned next, in the same way.
NEXT: tuple[Choice, ...] = (
    (BOX_CLOCKWISE, "the box alone, clockwise", _BOX_FOR_BOARD),
    (BOX_BACK, "the box alone, anticlockwise", _BOX_FOR_BOARD),
    (BOARD_CLOCKWISE, "the whole board, clockwise", _BOARD_THE_OTHER_WAY),
    (BOARD_BACK, "the whole board, anticlockwise", _BOARD_THE_OTHER_WAY),
)

EAST_WEST = "east-west"
#: Where the arms lie after both turns.
ARMS: tuple[Choice, ...] = (
    (EAST_WEST, "magnetic east–west, along the pointer", ""),
    (
        "north-south",
        "magnetic north–south, along the needle",
        "This takes the pointer for the needle. The pointer is square to the needle. The needle lies north–south, so "
        "the pointer lies east–west, and the arms with it.",
    ),
    (
        "geographic",
        "geographic east–west",
        "The needle knows only magnetic north. Geographic north is another direction, and it is not needed here.",
    ),
    (
        "askew",
        "still askew, by what the pointer showed",
        "After the first turn the arms lie along the 0–0 line. After the second the 0–0 line lies along the pointer. "
        "So the arms lie along the pointer too.",
    ),
)

#: Which turn was left out.
LEFT_OUT: tuple[Choice, ...] = (
    (
        "first",
        "the first turn: the box alone",
        "With the first turn left out, N east and N west differ more where the deflection is larger. "
        "Compare the two distances.",
    ),
    (
        "second",
        "the second turn: the whole board",
        "With the second turn left out, N east and N west differ less where the deflection is larger. "
        "Compare the two distances.",
    ),
    (
        "neither",
        "neither: the box was moved afterwards",
        "If the box is moved after both turns, N east and N west differ by the same at every distance. "
        "Here they do not.",
    ),
)

#: What is left in the mean of the eight.
REMAINS: tuple[Choice, ...] = (
    (
        "small",
        "a little, by the square of the angle: the mean is too small",
        "It goes by the square of the angle, but the other way. Look whether the deflection is below 45° or above it.",
    ),
    (
        "large",
        "a little, by the square of the angle: the mean is too large",
        "It goes by the square of the angle, but the other way. Look whether the deflection is below 45° or above it.",
    ),
    (
        "half",
        "half the difference of N east and N west",
        "That half is added in four of the readings and taken off in the other four, so the mean removes it.",
    ),
    (
        "nothing",
        "nothing at all: the mean is exact",
        "What is added one way and what is taken off the other way are not quite the same. A little is left, "
        "by the square of the angle.",
    ),
)

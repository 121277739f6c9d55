"""What may be chosen on a sheet with a fault to be found: the fault, where it shows, and what the mean does with it."""

from collections.abc import Sequence

from exercises.working.numbers import centimetres

type Choice = tuple[str, str, str]

#: The faults: key, label, and what is said when it is wrongly chosen.
CHOICES: tuple[Choice, ...] = (
    (
        "pivot",
        "the pivot is off the centre of the scale",
        "A pivot off centre makes one end of the pointer read more than the other at every place. Compare ① with ②.",
    ),
    (
        "zero",
        "a zero error (the box was moved after setting up)",
        "A zero error makes N east and N west differ by the same angle at every distance. Compare these at both; "
        "if two faults would do as well, say that the readings do not decide.",
    ),
    (
        "first-turn",
        "the first turn was left out (box not parallel to the arms), or the pointer is not square to the needle",
        "The first turn left out makes N east and N west differ, and more so the farther the needle is turned. "
        "Compare these at both distances; if two faults would do as well, say that the readings do not decide.",
    ),
    (
        "second-turn",
        "the second turn was left out (board not turned until the pointer read 0–0)",
        "The second turn left out makes N east and N west differ, and less so the farther the needle is turned. "
        "Compare these at both distances; if two faults would do as well, say that the readings do not decide.",
    ),
    (
        "box",
        "the box is not at the zero of the distance scale",
        "A box off the zero makes the readings of the east arm differ from those of the west arm. Compare the arms.",
    ),
    (
        "centre",
        "the magnetic centre is not the middle of the bar",
        "A magnetic centre off the middle makes N outward and N inward differ. Compare these two.",
    ),
    (
        "misread",
        "one reading is misread",
        "One misread value stands alone: the other seven agree without it. Look for one reading far out of line.",
    ),
    (
        "distance",
        "one distance is misread",
        "A misread distance makes all eight readings there too large or too small beside the other distances.",
    ),
    (
        "none",
        "no fault beyond chance",
        "There is more here than the eye's own scatter, which is a few tenths of a degree. "
        "Look at the differences again.",
    ),
    (
        "undecided",
        "the readings do not decide",
        "They do decide: one fault fits these readings clearly better than any other. Look at the differences again.",
    ),
)
#: Whether the mean of eight removes it: a key of `REMOVED_CHOICES`.
REMOVED = {
    **dict.fromkeys(("pivot", "zero", "first-turn", "second-turn", "box", "centre", "undecided"), "yes"),
    "misread": "no",
    "distance": "no",
    "none": "nothing",
}

#: Key, label, and what is said when it is wrongly chosen.
REMOVED_CHOICES: tuple[Choice, ...] = (
    ("yes", "yes, all but a trace", "This fault does not make as many readings larger as it makes smaller."),
    ("no", "no", "This fault makes four of the eight larger and the other four smaller by about as much."),
    ("nothing", "there is nothing to remove", "You found a fault above; say what the mean of eight does with it."),
)


def where_choices(distances: Sequence[float]) -> tuple[Choice, ...]:
    """One distance (m) by itself, each by the number of its row from 1, or none: key, label, what is said."""
    said = "The readings of this distance are not out of line with the others."
    alone = ((str(row), f"only at {centimetres(d)} cm", said) for row, d in enumerate(distances, 1))
    none = "at no distance by itself", "One distance is out of line with the others. Look at them one by one."
    return (*alone, ("all", *none))

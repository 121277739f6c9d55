"""How each step of setting up looks with its numbers put in."""

import math

from exercises.kinds.dial.drawing import divisions
from exercises.kinds.fault.formulas import halves
from exercises.kinds.setting.choices import Choice
from exercises.working.arithmetic import total
from exercises.working.numbers import figures, places, reading
from exercises.working.steps import Givens, Known, WorkedLine

SIDES = {True: "clockwise", False: "anticlockwise"}


def _pointer(board: int, givens: Givens) -> float:
    """The mean of the two ends of the pointer as they are read."""
    one, two = givens["ends"][board]
    mean: float = (one + two) / 2
    return mean


def read(board: int, end: int) -> WorkedLine:
    """What an end of the pointer shows."""

    def line(known: Known, givens: Givens) -> str:
        shown, step = givens["ends"][board][end - 1], givens["step"]
        low, count = divisions(shown, step)
        mark = "①②"[end - 1]
        return f"Board {board + 1}, end {mark}: {low} + {count} × {reading(step)}° = {reading(shown)}°"

    return line


def line(board: int) -> WorkedLine:
    """Where the line of the arms lies."""

    def written(known: Known, givens: Givens) -> str:
        place, step = givens["lines"][board], givens["step"]
        low, count = divisions(place, step)
        return (
            f"Board {board + 1}, the line of the arms: {low} + {count} × {reading(step)}° = "
            f"{reading(place)}°, {SIDES[givens['signed_lines'][board] > 0]} of the 0"
        )

    return written


def choice(id: str, title: str, choices: tuple[Choice, ...]) -> WorkedLine:
    """The title of a step, and the label of what is chosen there."""
    labels = {key: label for key, label, _ in choices}
    return lambda known, givens: f"{title} – {labels[known[id]]}"


def turn_first(board: int) -> WorkedLine:
    """How far the box is turned."""

    def written(known: Known, givens: Givens) -> str:
        return f"the 0 goes to the line of the arms, by {reading(givens['lines'][board])}°"

    return written


def shows(board: int) -> WorkedLine:
    """What the pointer then shows."""

    def written(known: Known, givens: Givens) -> str:
        pointer, at = _pointer(board, givens), givens["lines"][board]
        same = givens["sides"][board] > 0
        if not same:
            return (
                f"opposite sides of the 0, so the sum; {reading(pointer)}° + {reading(at)}° = {reading(pointer + at)}°"
            )
        more, less = max(pointer, at), min(pointer, at)
        return (
            f"the same side of the 0, so the difference; {reading(more)}° − {reading(less)}° = {reading(more - less)}°"
        )

    return written


def turn_next(board: int) -> WorkedLine:
    """How far the board is turned."""

    def written(known: Known, givens: Givens) -> str:
        at = givens["lines"][board] * givens["sides"][board]
        return f"the pointer comes to 0–0; the board turns by {reading(abs(_pointer(board, givens) - at))}°"

    return written


def difference(row: int) -> WorkedLine:
    """How far N east and N west differ."""

    def written(known: Known, givens: Givens) -> str:
        east, west = halves("north", givens["readings"][row])
        return (
            f"N east less N west: {reading(east)}/4 − {reading(west)}/4 = {reading(east / 4)} − {reading(west / 4)}; "
            f"they differ by {reading(abs(east - west) / 4)}°"
        )

    return written


def left_out(known: Known, givens: Givens) -> str:
    """How it is seen which turn was left out."""
    nearer, farther = (f"{places(known[f'diff-{row}'], 2)}°" for row in (1, 2))
    grows = known["diff-1"] > known["diff-2"]
    which = "first" if givens["left_out"] == "first" else "second"
    return (
        f"nearer {nearer}, farther {farther}: the difference {'grows' if grows else 'falls'} as the deflection grows, "
        f"so the {which} turn was left out"
    )


def mean(row: int) -> WorkedLine:
    """The mean of the eight."""

    def written(known: Known, givens: Givens) -> str:
        readings = givens["readings"][row]
        return f"θ = ({' + '.join(map(reading, readings))}) / 8 = {places(total(readings) / 8, 2)}°"

    return written


def askew(row: int) -> WorkedLine:
    """How far the arms are askew."""

    def written(known: Known, givens: Givens) -> str:
        function = "sin" if givens["left_out"] == "first" else "cos"
        theta, half = places(known[f"mean-{row + 1}"], 2), places(known[f"diff-{row + 1}"] / 2, 3)
        return f"{half}° / ({function} {theta}°)² = {places(known['askew'], 2)}°"

    return written


def rest(row: int) -> WorkedLine:
    """By how much m from the mean is off."""

    def written(known: Known, givens: Givens) -> str:
        angle, doubled = places(known["askew"], 2), 2 * known[f"mean-{row + 1}"]
        cosine = figures(abs(math.cos(math.radians(doubled))))
        share = known["rest"]
        return (
            f"½ α² cos 2θ, with cos {places(doubled, 2)}° = {cosine} but for its sign; "
            f"½ × ({angle} × π/180)² × {cosine} = {figures(share)}, which is {figures(share * 100, 2)} %"
        )

    return written

"""What comes next at the bench, in the order of the trade: the zero check, a distance, and its eight readings.

The order is that of instrument.EIGHT, as content/before/eight-readings.md has it.
"""

from typing import NamedTuple

from exercises.bench.instrument import EIGHT
from exercises.record.beside.work import Work
from exercises.record.entries import MOST_ROWS, READINGS, reading_name
from exercises.record.return_slip import ZERO


class Next(NamedTuple):
    """What is to be read or chosen next.

    cell      where it is typed;  distance  the number of its distance, 0 for the zero check
    reading   which of the eight, from 1, or None
    do        what the hands do before it, or ""
    ask       what is to be typed, as an order or a question;  label  what the cell is called
    """

    cell: str
    distance: int
    reading: int | None
    do: str
    ask: str
    label: str


def next_of(work: Work) -> Next | None:
    """The first thing that is not there; None where all distances that a record holds are whole."""
    rows = work.record.rows
    if all(row.empty for row in rows):
        for at, (size, _) in enumerate(work.zeros):
            if size is None:
                return _zero(at)
    return next_of_distances(work)


def next_of_distances(work: Work) -> Next | None:
    """The first thing that is not there of the distances, also while the zero check is left out."""
    filled = [i for i, row in enumerate(work.record.rows) if not row.empty]
    for i in filled:
        if found := _within(work, i):
            return found
    coming = filled[-1] + 1 if filled else 0
    return _distance(coming) if coming < MOST_ROWS else None


def _zero(at: int) -> Next:
    end = "①②"[at]
    do = "Take all magnets two metres away, and tap." if at == 0 else ""
    return Next(ZERO[at], 0, None, do, f"What does end {end} show?", f"zero, end {end}")


def _distance(row: int) -> Next:
    ask = f"At what d do you lay the middle of the magnet for distance {row + 1}?"
    return Next(f"d-{row + 1}", row + 1, None, "", ask, "d")


def _within(work: Work, row: int) -> Next | None:
    """What a distance that is begun lacks first."""
    d = work.value(f"d-{row + 1}")
    if d is None:
        return _distance(row)
    for k, value in enumerate(work.readings(row)):
        if value is None:
            ask = f"Read end {'①②'[k % 2]}."
            do = _moved(k, f"{round(100 * d, 2):g} cm")
            return Next(f"{READINGS[k]}-{row + 1}", row + 1, k + 1, do, ask, reading_name(k))
    return None


def _moved(k: int, d: str) -> str:
    """What is done with the magnet before the k-th of the eight, from 0, or "" at the second end of a pair."""
    arm, north, end = EIGHT[k]
    if end == 2:
        return ""
    if k == 0:
        return f"Lay the magnet on the {arm} arm, N to the {north}, its middle at {d}. Tap."
    if north == "west":
        return f"Turn the magnet end for end: N to the {north}, its middle at {d} again. Tap."
    return f"Carry the magnet to the {arm} arm: N to the {north}, its middle at {d}. Tap."


def plans() -> list[dict[str, object]]:
    """The eight as a small plan shows them: where the magnet lies, which end is read, which way the needle turns."""
    return [
        {
            "cell": cell,
            "arm": arm,
            "north": north,
            "end": end,
            "label": reading_name(k),
            "moves": end == 1,
            "needle": north,  # on its axis the magnet's field points the way of its north pole on either side
        }
        for k, (cell, (arm, north, end)) in enumerate(zip(READINGS, EIGHT))
    ]

"""What is said at once, in one sentence each, of what was typed last, while the magnet still lies there."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from exercises.bench.instrument import EIGHT
from exercises.judging.answer import Unreadable
from exercises.judging.answer import read as read_number
from exercises.record.beside.forecast import Seen
from exercises.record.beside.look import Looked, step_of
from exercises.record.beside.proposal import APART, proposed, stretch_of
from exercises.record.beside.watch import Alarm, is_off, watched
from exercises.record.beside.work import Work
from exercises.record.entries import READINGS, cell_of, reading_name
from exercises.record.instrument_findings import PRACTICE
from exercises.record.misreadings import Misreading, Way, likely_misreadings
from exercises.record.return_slip import ZERO
from exercises.working.numbers import centimetres, reading

ZERO_OFF = 1.0  # degrees, besides half a scale step: from here on the zero is set anew; common practice, no source
ON_SCALE = 0.01  # scale steps: nearer to a division a reading stands on it
SHIFTS = (5, 10, 20)  # degrees, as misreadings.py has them
CLOSE = 1.5  # standard deviations from what is expected within which a way of misreading is named
MOST = 2  # ways of misreading that are named in one sentence
FAR_OUT = 1.0  # standard deviations beyond the usual band from which on it is said


class Warned(NamedTuple):
    """One sentence about some cells; `key` says which it is."""

    key: str
    text: str
    cells: tuple[str, ...]


def said_of(looked: Looked, cell: str) -> Warned | None:
    """What is to be said of the cell that was typed last, or None."""
    work = looked.work
    if problem := problems_of(looked).get(cell):
        return Warned("unread", problem, (cell,))
    if cell in ZERO:
        return _zero(work, ZERO.index(cell))
    return next(_of(looked, cell), None)


def _of(looked: Looked, cell: str) -> Iterator[Warned]:
    """All that can be said of a cell of a distance, the gravest first."""
    if looked.work.value(cell) is None:
        return
    if cell_of(cell).column == "d":
        yield from _distance(looked, cell)
        return
    yield from (alarm_said(looked, a) for a in looked.watched.alarms if looked.cell(a.seen) == cell)
    yield from _outside(looked, cell)
    yield from _sign(looked.work, cell)
    yield from _between(looked.work, cell)


def problems_of(looked: Looked) -> dict[str, str]:
    """A sentence for each cell of a distance or of the zero check that was not read, by cell name."""
    return {cell: _over_90(looked, cell) or problem for cell, problem in looked.work.problems.items()}


def _over_90(looked: Looked, cell: str) -> str:
    """A question where a reading over 90° is as is to be expected once its two figures are exchanged, or ""."""
    numbers, (column, row) = looked.work.givens.numbers, cell_of(cell)
    if column not in READINGS or row is None or row - 1 not in looked.rows:
        return ""
    try:
        typed = read_number(numbers.texts[cell], "angle")
    except Unreadable:
        return ""
    if typed is None or not 90 < typed.value < 100:
        return ""
    tens, rest = divmod(typed.value, 10)
    exchanged = 10 * (rest // 1) + tens + rest % 1
    seen = Seen(looked.rows.index(row - 1), READINGS.index(column), exchanged)
    fits = PRACTICE[0] <= exchanged <= PRACTICE[1]  # by itself
    if looked.watched.kept:
        fits = exchanged <= 90 and not is_off(*looked.watched.forecast.look(seen))
    return f"{reading(typed.value)}° is over 90°. Did you read {reading(exchanged)}°?" if fits else ""


def all_alarms(looked: Looked) -> list[Warned]:
    """Every reading that does not go with those before it, in the order of reading."""
    return [alarm_said(looked, a) for a in looked.watched.alarms]


# ---- the zero, and a distance -------------------------------------------------


def _zero(work: Work, at: int) -> Warned | None:
    size = work.zeros[at][0]
    if size is None or size <= ZERO_OFF + step_of(work.givens) / 2:
        return None
    text = (
        f"End {'①②'[at]} stands {reading(size)}° from 0: look whether a magnet or iron is near, tap, and turn the "
        "whole board until the pointer reads 0–0."
    )
    return Warned("zero", text, (ZERO[at],))


def _distance(looked: Looked, cell: str) -> Iterator[Warned]:
    number, d = cell_of(cell).row or 0, looked.work.value(cell) or 0.0
    givens = looked.work.givens
    stretch = stretch_of(givens, looked.bench.half.value)
    if d < stretch.near:
        text = (
            f"At {centimetres(d)} cm the end of the magnet comes within 1 cm of the box: lay it at "
            f"{centimetres(stretch.near)} cm or more."
        )
        yield Warned("box", text, (cell,))
    if d > stretch.far and givens.length:
        text = f"At {centimetres(d)} cm the magnet reaches beyond an arm of 50 cm: look at the number."
        yield Warned("arm", text, (cell,))
    near = [i for i, other in zip(looked.rows, looked.bench.ds) if i + 1 != number and abs(other - d) < APART - 1e-9]
    if near:
        text = f"Distance {near[0] + 1} lies within 3 mm of this one, and tells the same thing: take another."
        yield Warned("same", text, (cell, f"d-{near[0] + 1}"))
    if looked.watched.kept and d > looked.bench.half.value:
        theta, u = looked.watched.forecast.at(d)
        if side := _beyond(theta, u):
            about = f"{min(max(theta, 0.0), 90.0):.0f}°"
            text = f"At {centimetres(d)} cm about {about} is to be expected, outside 30° to 60°: lay the magnet {side}."
            yield Warned("d-outside", text, (cell,))


def _beyond(theta: float, u: float) -> str:
    """Where to lay the magnet if a mean deflection surely lies outside the usual band, or ""."""
    low, high = PRACTICE
    return "nearer" if theta + FAR_OUT * u < low else "farther off" if theta - FAR_OUT * u > high else ""


# ---- a reading ------------------------------------------------------------------


def _outside(looked: Looked, cell: str) -> Iterator[Warned]:
    """A distance that gives no good deflection, said as soon as it is sure."""
    row = (cell_of(cell).row or 0) - 1
    if row not in looked.rows:
        return
    at = looked.rows.index(row)
    theta, u = looked.watched.forecast.level(at)
    if side := _beyond(theta, u):
        d = proposed(looked, without=at).shown
        to = f"{side}, at about {d} cm" if d else side
        text = f"About {theta:.0f}° lies outside 30° to 60°: lay the magnet {to}, and begin this distance anew."
        yield Warned("outside", text, (f"d-{row + 1}", cell))


def _sign(work: Work, cell: str) -> Iterator[Warned]:
    if work.text(cell).lstrip()[:1] in ("-", "−", "–"):
        north = EIGHT[READINGS.index(cell_of(cell).column)][1]
        text = f"Readings are noted without sign, so the minus was left out: look that N points {north}."
        yield Warned("sign", text, (cell,))


def _between(work: Work, cell: str) -> Iterator[Warned]:
    """A reading between two divisions, the first of them: who means to read between them is told once."""
    step = work.givens.numbers.get("step")
    if not step:
        return
    between = [name for name, x in work.all_readings() if abs(x / step - round(x / step)) > ON_SCALE]
    if between == [cell]:
        text = (
            f"{reading(work.value(cell) or 0.0)}° stands between two divisions of a scale to {step:g}°: read to the "
            "nearest one."
        )
        yield Warned("between", text, (cell,))


# ---- a reading that does not go with the others -----------------------------------

#: What is said of two readings one of which may be misread so.
OF_TWO: dict[Way, str] = {
    "complement": "one may be counted from the wrong end of the quarter",
    "exchanged": "the two figures of one may be exchanged",
    "backwards": "one may be counted backwards from the next numbered mark",
    "point": "the point of one may stand a place too far to the left",
}


QUARTER = (
    "The nearer the magnet, the farther the needle turns, but here it is the other way about: look whether all of the "
    "readings are counted from the wrong end of the quarter."
)


def alarm_said(looked: Looked, alarm: Alarm) -> Warned:
    """One sentence on a reading that does not go with those before it."""
    s, cell = alarm.seen, looked.cell(alarm.seen)
    room = min(max(CLOSE * alarm.error, looked.bench.step), abs(alarm.off) / 3)  # a way must explain most of it
    ways = likely_misreadings(s.value, alarm.expected, room)
    ways = sorted(ways, key=lambda way: way.way != "shift")[:MOST]
    if alarm.other is not None:
        return Warned(_key(s), _of_both(s, alarm.other, alarm.off, ways), (looked.cell(alarm.other), cell))
    seen = reading(s.value)
    if ways:
        like = " or ".join(way.of_one for way in ways)
        what = f"{seen}° stands where about {alarm.expected:.0f}° is to be expected, and it looks like {like}"
    else:
        what = f"{seen}° stands here, and about {alarm.expected:.0f}° is to be expected"
    if _key(s) == "row":
        d = f"d-{looked.rows[s.row] + 1}"
        if not ways and _turned_round(looked, s):
            return Warned("quarter", QUARTER, (d, cell))
        return Warned("row", f"Look at d = {centimetres(looked.bench.ds[s.row])} cm and read again: {what}.", (d, cell))
    end = f"Read end {'①②'[s.k % 2]} again"
    first = f"{end}, and look at the distance" if s.k % 2 == 0 and s.k else end
    return Warned(_key(s), f"{first}: {what}.", (cell,))


def _turned_round(looked: Looked, s: Seen) -> bool:
    """Whether a reading goes with the distances before it if they and it are all taken from 90°."""
    before = [one for one in looked.watched.kept if one.row != s.row]
    turned = [one._replace(value=90 - one.value) for one in (*before, s)]
    return not watched(looked.bench, turned).alarms


def _key(s: Seen) -> str:
    """Which comparison a reading stands in: its "row" with the rows before, "ends", "reversed", or "arms"."""
    return ("row", "ends", "reversed", "ends", "arms", "ends", "reversed", "ends")[s.k]


def _of_both(s: Seen, other: Seen, off: float, ways: Sequence[Misreading]) -> str:
    """One sentence on two readings of which either may be wrong."""
    of_two = OF_TWO | {"shift": f"one may be read {min(SHIFTS, key=lambda by: abs(abs(off) - by))}° off"}
    like = f", and {' or '.join(of_two[way.way] for way in ways)}" if ways else ""
    if other.k // 2 == s.k // 2:
        return f"Read both ends again: {reading(other.value)}° and {reading(s.value)}° lie too far apart{like}."
    return (
        f"Read this end again, and then {reading_name(other.k)}: {reading(s.value)}° here and {reading(other.value)}° "
        f"there lie too far apart{like}."
    )

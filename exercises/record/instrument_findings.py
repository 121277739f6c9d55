"""What the readings of a record say about the instrument and the reading of it, in sentences.

A difference is believed where it is more than SURE standard errors and more
than chance and rounding to the scale can make of nothing.
"""

import math
from collections.abc import Sequence
from functools import partial
from statistics import mean

from exercises.bench.instrument import PATTERNS, Box
from exercises.bench.uncertainty import distance_term, length_term
from exercises.record import passages
from exercises.record.columns import WorkedDistance
from exercises.record.entries import reading_name
from exercises.record.finding import SURE, Finding, Level
from exercises.record.givens import Givens
from exercises.record.misreadings import likely_misreadings
from exercises.record.outliers import Outlier, ReadingFit
from exercises.record.position import Position
from exercises.record.setting_findings import line_of, said_of_setting, setting_of
from exercises.working.numbers import centimetres, figures, places, reading

PLAIN = 0.5  # degrees; smaller differences between fours are of no consequence; common practice, no source
SEVERAL = 4.0  # degrees; from here on something is out that can be put right; common practice, no source
ABSURD = 15.0  # degrees; no instrument that anybody would use is so far out
WRONG_COLUMNS = "No fault of the instrument makes this pattern: see whether readings stand in each other's columns."
FAR_OUT = "So large a fault is rare. See first whether readings stand in each other's columns, then look at the box."
COUNTS_MUCH = 0.02 * 4 / 15  # of the moment, if 2l is out by 2 %: in tan A where d is twice 2l
PRACTICE = (30.0, 60.0)  # degrees, deflections; common practice, no source


def degrees(x: float) -> str:
    """An angle as the findings show it: to a tenth of a degree."""
    return f"{places(x, 1)}°"


def outside(rows: Sequence[WorkedDistance]) -> list[Finding]:
    """Mean deflections outside the usual band."""
    found = []
    for r in rows:
        theta = r.mean
        if not 0 < theta < 90:
            text = f"Distance {r.number}: a mean deflection of {degrees(theta)} gives no moment."
            found.append(Finding("amiss", "no-tangent", text, cells=(f"mean-{r.number}",)))
        elif not PRACTICE[0] <= theta <= PRACTICE[1]:
            times = 1 / math.sin(math.radians(2 * theta))
            side = "Lay the magnet nearer" if theta < PRACTICE[0] else "Lay the magnet farther off"
            text = (
                f"Distance {r.number}: the mean deflection of {degrees(theta)} lies outside 30° to 60°, where common "
                f"practice keeps it. An error in the angle counts {places(times, 1)} times as much there as at 45°. "
                f"{side}, if there is time."
            )
            found.append(Finding("look", "outside", text, passages.ERROR_IN_THE_ANGLE, (f"d-{r.number}",)))
    return found


# -- a reading, or a side, that does not belong with the others -------------------

#: What may have put one side of a distance out.
SIDE_CAUSES = {
    "arms": "the magnet did not lie at the same distance on both arms",
    "outward": "the magnet was not put back at the same distance after it was turned round",
    "beside": "the magnet’s middle did not lie on the middle line of the arm each time",
    "north": "the board or the box was moved between the two, or the magnet was not turned end for end",
    "ends": "one end was read from the side, or against other divisions than the other",
}


def outlying(outlier: Outlier, rows: Sequence[WorkedDistance], givens: Givens) -> Finding:
    """What is said of a reading, or of a side, that does not belong with the others."""
    row = rows[outlier.row]
    if outlier.reading is None:
        return _outlying_side(outlier, row, givens)
    return _outlying_reading(outlier, outlier.reading, row, givens)


def _outlying_side(outlier: Outlier, row: WorkedDistance, givens: Givens) -> Finding:
    one, two = fours(outlier.side, givens.position)
    more, less = (one, two) if outlier.off > 0 else (two, one)
    shift, cause = "", outlier.side
    if outlier.side == "outward" and givens.position.tan_b:
        cause = "beside"
    elif outlier.side in ("arms", "outward"):
        off = centimetres(abs(math.radians(outlier.off)) / steepness(row, givens))
        shift = f" A difference of {off} cm in d would do it."
    text = (
        f"Distance {row.number}: the readings {more} are {degrees(abs(outlier.off))} larger beside those {less} than "
        f"at the other distances (standard error {degrees(outlier.error)}). "
        f"This looks as if {SIDE_CAUSES[cause]}.{shift}"
    )
    cells = tuple(f"reading{k + 1}-{row.number}" for k in range(8))
    return Finding("amiss", "side", text, passages.EACH_PAIR, cells)


def _outlying_reading(outlier: Outlier, k: int, row: WorkedDistance, givens: Givens) -> Finding:
    seen = row.readings[k]
    expected = seen - outlier.off
    ways = likely_misreadings(seen, expected, max(2.5 * outlier.error, givens.step))
    like = f" It looks like {' or '.join(way.of_one for way in ways)}." if ways else ""
    text = (
        f"Distance {row.number}, {reading_name(k, givens.position)}: {reading(seen)}° does not belong with the others, "
        f"which lead one to expect {degrees(expected)} (standard error {degrees(outlier.error)}).{like} "
        "Keep the reading in the record with a light line through it, and take it again if you can."
    )
    return Finding("amiss", "misread", text, passages.OBSERVATION_TABLE, (f"reading{k + 1}-{row.number}",))


# -- patterns that a fault of the instrument makes ---------------------------------

#: What the two fours of each pattern are called in both positions, those with the sign + first.
FOURS = {
    "ends": ("of end ①", "of end ②"),
    "north": ("with N east", "with N west"),
    "ends by north": ("of end ① with N east and of end ② with N west", "of end ② with N east and of end ① with N west"),
}


def fours(pattern: str, position: Position) -> tuple[str, str]:
    """What the two fours of a pattern are called, those with the sign + first."""
    (one, other), (outward, inward) = position.arms, position.outward
    of_position = {
        "arms": (f"on the {one} arm", f"on the {other} arm"),
        "outward": position.outward,
        "arms by ends": (f"of end ① on the {one} arm and of end ② on the {other} arm", "of the other four"),
        "all three": (f"of end ① {outward} and of end ② {inward}", "of the other four"),
    }
    return of_position[pattern] if pattern in of_position else FOURS[pattern]


def _by_ends(pattern: str) -> tuple[int, ...]:
    return tuple(a * b for a, b in zip(PATTERNS["ends"], PATTERNS[pattern]))


#: The signs of each pattern, in the order of instrument.EIGHT.
SIGNS = {
    **PATTERNS,
    "ends by north": _by_ends("north"),
    "arms by ends": _by_ends("arms"),
    "all three": _by_ends("outward"),
}
#: These no fault of the instrument makes.
OF_NO_FAULT = ("arms by ends", "all three")


def steepness(row: WorkedDistance, givens: Givens) -> float:
    """By how much a shift of the magnet along the arm turns the needle, radians per metre: sin θ cos θ · d ln B/dd."""
    by_d = distance_term(row.d, givens.half, 1.0, givens.position.tan_b)
    return max(1e-3, abs(math.sin(math.radians(2 * row.mean)) / 2) * by_d)


def swing(row: WorkedDistance) -> float:
    """In tan B: by how much a shift across the arm turns the needle, radians per metre: 3 sin²θ/d (see outliers)."""
    return max(1e-3, 3 * math.sin(math.radians(row.mean)) ** 2 / row.d)


def difference(readings: Sequence[float], pattern: str) -> float:
    """The mean of one four of the eight less the mean of the other four, degrees."""
    return sum(sign * x for sign, x in zip(SIGNS[pattern], readings)) / 4


def patterns(rows: Sequence[WorkedDistance], fit: ReadingFit, givens: Givens) -> list[Finding]:
    """Which halves of the readings differ by more than reading error allows, and which fault that suggests.

    rows    with eight readings each; `fit` gives the readings with what stands out put right
    """
    found = []
    error = fit.scatter / math.sqrt(2 * len(rows))
    for pattern in SIGNS:
        each = [difference(readings, pattern) for readings in fit.corrected]
        size = mean(each)
        if abs(size) <= SURE * error or abs(size) < PLAIN:
            found += _both_turns(each, rows, fit.scatter, givens.position) if pattern == "north" else []
            continue
        one, two = fours(pattern, givens.position)[:: 1 if size > 0 else -1]
        said = [
            f"The readings {one} are on the average {degrees(abs(size))} larger than those {two} (standard error "
            f"{degrees(max(error, 0.05))})."
        ]
        explained = pattern not in OF_NO_FAULT and abs(size) <= ABSURD
        if explained:
            said += [_cause(pattern, size, each, rows, fit.scatter, givens), _remedy(size)]
        else:
            said.append(WRONG_COLUMNS if pattern in OF_NO_FAULT else FAR_OUT)
        level: Level = "look" if abs(size) >= SEVERAL or not explained else "note"
        found.append(Finding(level, pattern, " ".join(said), passages.EACH_PAIR))
    return found


def _both_turns(
    each: Sequence[float], rows: Sequence[WorkedDistance], scatter: float, position: Position
) -> list[Finding]:
    """What is said where N east and N west differ one way at large deflections and the other way at small ones.

    Two faults of setting up make that: on the average over the distances they may leave nothing.
    """
    thetas = [r.mean for r in rows]
    setting = setting_of(each, thetas, scatter)
    ends = [line_of(setting, theta) for theta in (max(thetas), min(thetas))]
    most = max(ends, key=abs)
    if setting.alone or abs(most) < PLAIN:
        return []
    large, small = (f"{degrees(abs(x))} {'larger' if x > 0 else 'smaller'}" for x in ends)
    text = (
        f"At the largest deflection the readings with N east are on the average {large} than those with N west, at the "
        f"smallest deflection {small}. {said_of_setting(setting, position)} {_remedy(most)}"
    )
    return [Finding("look" if abs(most) >= SEVERAL else "note", "north", text, passages.EACH_PAIR)]


def _remedy(size: float) -> str:
    if abs(size) < SEVERAL:
        return "The mean of eight is free of it, all but a trace."
    means = "a difference of several degrees means something that can still be put right"
    return f"The mean of eight is free of it, but {means}."


def _cause(
    pattern: str,
    size: float,
    each: Sequence[float],
    rows: Sequence[WorkedDistance],
    scatter: float,
    givens: Givens,
) -> str:
    """Which fault makes a pattern, and how large it is.

    size     the difference of the two fours, degrees; `each` that of every distance
    scatter  standard deviation of one reading, degrees
    """
    half = math.radians(abs(size) / 2)
    if pattern == "north":
        return said_of_setting(setting_of(each, [r.mean for r in rows], scatter), givens.position)
    if pattern in ("ends", "ends by north"):
        share = mean((math.sin if pattern == "ends" else math.cos)(math.radians(r.mean)) for r in rows)
        off = half * givens.radius / max(share, 0.1)
        return (
            f"That is the pattern of a pivot off the centre of the scale, by about {figures(off * 1e3, 2)} mm if the "
            f"scale has a radius of {centimetres(givens.radius, 0)} cm."
        )
    box, centre = (
        "a box that does not sit at the zero of the distance scale",
        "a magnet whose magnetic centre is not its middle",
    )
    along, across = (_millimetres(half / mean(map(f, rows))) for f in (partial(steepness, givens=givens), swing))
    if not givens.position.tan_b:
        return f"That is the pattern of {box if pattern == 'arms' else centre}, by {along}."
    if pattern == "arms":
        return f"That is the pattern of {box}, by {along}, or of {centre}, by {across}."
    return f"That is the pattern of a pivot beside the middle line of the arms, by {across}."


def _millimetres(x: float) -> str:
    return f"about {figures(x * 1e3, 2)} mm"


# -- distances ----------------------------------------------------------------------


def near(givens: Givens) -> list[Finding]:
    """Distances so small that the magnet is at the box, or that its length counts much."""
    l, tan_b = givens.half, givens.position.tan_b
    found = []
    for r in givens.rows:
        found += _at_the_box(r, givens)
        effect = length_term(r.d, l, 0.02 * l, tan_b)
        if effect > COUNTS_MUCH:
            text = (
                f"Distance {r.number}: d is less than twice 2l. If 2l is out by 2 %, the moment there is out by "
                f"{places(100 * effect, 1)} %."
            )
            found.append(Finding("note", "near", text, passages.HALF_LENGTH, (f"d-{r.number}",)))
    return found


def _at_the_box(row: WorkedDistance, givens: Givens) -> list[Finding]:
    box, part = givens.numbers.get("box"), "side" if givens.position.tan_b else "end"
    gap = row.d - givens.half_bar - (box or Box().radius)
    assumed = "" if box else f" (a radius of {centimetres(Box().radius, 0)} cm is taken, for none is given)"
    if gap < 0.0:
        text = (
            f"Distance {row.number}: at d = {centimetres(row.d)} cm the {part} of the magnet would reach over the edge "
            f"of the box{assumed}. Is d measured to the middle of the magnet, from the pivot?"
        )
        return [Finding("amiss" if box else "look", "box", text, passages.CLEAR_OF_THE_BOX, (f"d-{row.number}",))]
    if gap < 0.01:
        text = (
            f"Distance {row.number}: the {part} of the magnet is only {centimetres(gap)} cm clear of the box{assumed}. "
            "Common practice leaves a centimetre at least."
        )
        return [Finding("note", "box", text, passages.CLEAR_OF_THE_BOX, (f"d-{row.number}",))]
    return []


def few(rows: Sequence[WorkedDistance]) -> list[Finding]:
    """A note where there are fewer distances than usual."""
    n = len(rows)
    if not 0 < n < 4:
        return []
    many = f"There {'is one distance' if n == 1 else f'are {n} distances'}. Common practice takes four to six."
    trend = " With one alone, nothing can be said of a trend or of a distance misread." if n == 1 else ""
    return [Finding("note", "few", many + trend, passages.WHERE_ON_THE_ARM)]

"""What the readings of a record say about the instrument and the reading of it, in sentences.

A difference is believed where it is more than SURE standard errors and more
than chance and rounding to the scale can make of nothing.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import mean

from exercises.bench.instrument import PATTERNS, Box
from exercises.bench.uncertainty import distance_term
from exercises.record.columns import Worked
from exercises.record.entries import reading_name
from exercises.record.outliers import Stray, Structure, looks_like
from exercises.working.numbers import centimetres, figures, places, reading

SURE = 3.0  # standard errors; common practice
PLAIN = 0.5  # degrees; smaller differences between fours are of no consequence; common practice, no source
SEVERAL = 4.0  # degrees; from here on something is out that can be put right; common practice, no source
ABSURD = 15.0  # degrees; no instrument that anybody would use is so far out
WRONG_COLUMNS = "No fault of the instrument makes this pattern: see whether readings stand in each other's columns."
PRACTICE = (30.0, 60.0)  # degrees, deflections; common practice, no source
EIGHT_READINGS = "before/eight-readings/"
CLEAR = "before/choosing-distances/#clear-of-the-box"


@dataclass(frozen=True)
class Finding:
    """One thing found: how grave, the sentences, where to read, and the cells it is about.

    level  "amiss" (a number does not fit), "look" (worth a second look), "note" (good to know)
    """

    level: str
    key: str
    text: str
    read: str = ""
    cells: tuple[str, ...] = ()


def degrees(x: float) -> str:
    return f"{places(x, 1)}°"


def outside(rows: Sequence[Worked]) -> list[Finding]:
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
            found.append(
                Finding(
                    "look",
                    "outside",
                    f"Distance {r.number}: the mean deflection of {degrees(theta)} lies outside 30° to 60°, where common "
                    f"practice keeps it. An error in the angle counts {places(times, 1)} times as much there as at 45°. "
                    f"{side}, if there is time.",
                    "before/choosing-distances/#what-an-error-in-the-angle-does",
                    (f"d-{r.number}",),
                )
            )
    return found


def stray(s: Stray, rows: Sequence[Worked], step: float, l: float) -> Finding:
    """What is said of a reading, or of a side, that does not belong with the others; l in m, 0 if it is not known."""
    number, readings = rows[s.row].number, rows[s.row].readings
    if s.reading is None:
        one, two = FOURS[s.side]
        more, less = (one, two) if s.off > 0 else (two, one)
        cause = {
            "arms": "the magnet did not lie at the same distance on both arms",
            "outward": "the magnet was not put back at the same distance after it was turned round",
            "north": "the board or the box was moved between the two, or the magnet was not turned end for end",
            "ends": "one end was read from the side, or against other divisions than the other",
        }[s.side]
        shift = ""
        if s.side in ("arms", "outward"):
            off = centimetres(abs(math.radians(s.off)) / steepness(rows[s.row], l))
            shift = f" A difference of {off} cm in d would do it."
        return Finding(
            "amiss",
            "side",
            f"Distance {number}: the readings {more} are {degrees(abs(s.off))} larger beside those {less} than at the other "
            f"distances (standard error {degrees(s.error)}). This looks as if {cause}.{shift}",
            f"{EIGHT_READINGS}#what-each-pair-removes",
            tuple(f"reading{k + 1}-{number}" for k in range(8)),
        )
    seen = readings[s.reading]
    expected = seen - s.off
    ways = looks_like(seen, expected, max(2.5 * s.error, step))
    looks = f" It looks like {_either(ways)}." if ways else ""
    return Finding(
        "amiss",
        "misread",
        f"Distance {number}, {reading_name(s.reading)}: {reading(seen)}° does not belong with the others, which lead one "
        f"to expect {degrees(expected)} (standard error {degrees(s.error)}).{looks} Keep the reading in the record with a "
        "light line through it, and take it again if you can.",
        "before/result/#the-observation-table",
        (f"reading{s.reading + 1}-{number}",),
    )


def _either(ways: list[str]) -> str:
    said = [f"one {w}" if w.startswith(("read", "counted")) else w for w in ways]
    return " or ".join(said)


FOURS = {
    "ends": ("of end ①", "of end ②"),
    "north": ("with N east", "with N west"),
    "arms": ("on the east arm", "on the west arm"),
    "outward": ("with N outward", "with N inward"),
    "ends by north": ("of end ① with N east and of end ② with N west", "of end ② with N east and of end ① with N west"),
    "arms by ends": ("of end ① on the east arm and of end ② on the west arm", "of the other four"),
    "all three": ("of end ① with N outward and of end ② with N inward", "of the other four"),
}


def _signs() -> dict[str, tuple[int, ...]]:
    end = PATTERNS["ends"]
    return {
        **PATTERNS,
        "ends by north": tuple(a * b for a, b in zip(end, PATTERNS["north"])),
        "arms by ends": tuple(a * b for a, b in zip(end, PATTERNS["arms"])),
        "all three": tuple(a * b for a, b in zip(end, PATTERNS["outward"])),
    }


SIGNS = _signs()


def steepness(row: Worked, l: float) -> float:
    """By how much a shift of the magnet along the arm turns the needle, radians per metre: sin θ cos θ · d ln B/dd."""
    return max(1e-3, abs(math.sin(math.radians(2 * row.mean)) / 2) * distance_term(row.d, l, 1.0))


def difference(readings: Sequence[float], pattern: str) -> float:
    """The mean of one four of the eight less the mean of the other four, degrees."""
    return sum(sign * x for sign, x in zip(SIGNS[pattern], readings)) / 4


def patterns(rows: Sequence[Worked], found: Structure, l: float, radius: float) -> list[Finding]:
    """Which halves of the readings differ by more than reading error allows, and which fault that suggests.

    rows    with eight readings each; what stands out is put right first
    l       half the magnetic length, m, 0 if it is not known;  radius  of the scale, m
    """
    out = []
    n = len(rows)
    error = found.scatter / math.sqrt(2 * n)
    for pattern in SIGNS:
        each = [difference(readings, pattern) for readings in found.cleaned]
        size = mean(each)
        if abs(size) <= SURE * error or abs(size) < PLAIN:
            continue
        one, two = FOURS[pattern] if size > 0 else FOURS[pattern][::-1]
        text = (
            f"The readings {one} are on the average {degrees(abs(size))} larger than those {two} (standard error "
            f"{degrees(max(error, 0.05))}). {_cause(pattern, size, each, rows, found, l, radius)}"
        )
        at = "" if pattern in ("arms by ends", "all three") else " The mean of eight is free of it"
        if at:
            at += (
                ", all but a trace."
                if abs(size) < SEVERAL
                else (", but a difference of several degrees means something that can still be put right.")
            )
        if abs(size) > ABSURD:
            text, at = f"{text.split(' That is')[0]} {WRONG_COLUMNS}", ""
        level = "look" if abs(size) >= SEVERAL or not at else "note"
        out.append(Finding(level, pattern, text + at, f"{EIGHT_READINGS}#what-each-pair-removes"))
    return out


def _cause(pattern, size: float, each: Sequence[float], rows: Sequence[Worked], found: Structure, l, radius) -> str:
    if pattern in ("ends", "ends by north"):
        share = mean((math.sin if pattern == "ends" else math.cos)(math.radians(r.mean)) for r in rows)
        off = math.radians(abs(size) / 2) * radius / max(share, 0.1)
        return (
            f"That is the pattern of a pivot off the centre of the scale, by about {figures(off * 1e3, 2)} mm if the scale "
            f"has a radius of {centimetres(radius, 0)} cm."
        )
    if pattern in ("arms", "outward"):
        shift = math.radians(abs(size) / 2) / mean(steepness(r, l) for r in rows)
        what = (
            "a box that does not sit at the zero of the distance scale"
            if pattern == "arms"
            else ("a magnet whose magnetic centre is not its middle")
        )
        return f"That is the pattern of {what}, by about {figures(shift * 1e3, 2)} mm."
    if pattern == "north":
        return _zero_or_board(each, rows, found)
    return WRONG_COLUMNS


def _zero_or_board(each: Sequence[float], rows: Sequence[Worked], found: Structure) -> str:
    """A zero error is the same at every distance; arms askew do more the farther the needle is turned."""
    shape = [2 * math.sin(math.radians(r.mean)) ** 2 for r in rows]
    variance = found.scatter**2 / 2
    same = mean(each)
    steep = sum(x * f for x, f in zip(each, shape)) / sum(f * f for f in shape)
    as_zero = sum((x - same) ** 2 for x in each) / variance
    as_board = sum((x - steep * f) ** 2 for x, f in zip(each, shape)) / variance
    zero = f"a zero error of {degrees(abs(same) / 2)}"
    board = f"arms {degrees(abs(steep))} off east–west"
    if as_board - as_zero > SURE**2:
        return f"That is the pattern of {zero}."
    if as_zero - as_board > SURE**2:
        return f"That is the pattern of {board}: it grows with the deflection."
    return f"That is the pattern of {zero} or of {board}; these readings do not decide which."


def near(rows: Sequence[Worked], l: float, length: float | None, box: float | None) -> list[Finding]:
    """Distances so small that the magnet is at the box, or that its length counts much."""
    found = []
    for r in rows:
        gap = r.d - (length or 2 * l) / 2 - (box or Box().radius)
        share = l * l / (r.d * r.d)
        assumed = "" if box else f" (a radius of {centimetres(Box().radius, 0)} cm is taken, for none is given)"
        if gap < 0.0:
            text = (
                f"Distance {r.number}: at d = {centimetres(r.d)} cm the end of the magnet would reach over the edge of the "
                f"box{assumed}. Is d measured to the middle of the magnet, from the pivot?"
            )
            found.append(Finding("amiss" if box else "look", "box", text, CLEAR, (f"d-{r.number}",)))
        elif gap < 0.01:
            text = (
                f"Distance {r.number}: the end of the magnet is only {centimetres(gap)} cm clear of the box{assumed}. Common "
                "practice leaves a centimetre at least."
            )
            found.append(Finding("note", "box", text, CLEAR, (f"d-{r.number}",)))
        if share > 1 / 16:
            effect = 4 * share * 0.02 / (1 - share)
            found.append(
                Finding(
                    "note",
                    "near",
                    f"Distance {r.number}: d is less than twice 2l. If 2l is out by 2 %, the moment there is out by "
                    f"{places(100 * effect, 1)} %.",
                    "before/field-end-on/#half-the-magnetic-length",
                    (f"d-{r.number}",),
                )
            )
    return found


def few(rows: Sequence[Worked]) -> list[Finding]:
    """How many distances there are, and how far they are spread."""
    n = len(rows)
    if 0 < n < 4:
        text = f"There {'is one distance' if n == 1 else f'are {n} distances'}. Common practice takes four to six."
        more = " With one alone, nothing can be said of a trend or of a distance misread." if n == 1 else ""
        return [Finding("note", "few", text + more, "before/choosing-distances/#where-on-the-arm-that-is")]
    return []

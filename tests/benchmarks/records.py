"""Simulated lab records, honest and with a known fault: what is said that is not so, and what is found.

The instrument is that of exercises/bench/instrument.py with slight faults of its own, read by an eye good to 0.2° on
a scale of 1° or ½°, at four to six distances.  The magnets' 2l is between 0.82 and 0.85 of their length.
"""

import random
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from exercises.bench.field import distance_broadside_on, distance_end_on, field_from_deflection
from exercises.bench.instrument import ALONE, Box, Faults, Magnet, eight_readings
from exercises.record.check import check
from exercises.record.entries import Record, Row
from exercises.record.instrument_findings import difference
from exercises.record.outliers import fit_readings
from exercises.record.position import TAN_A, TAN_B, Position
from exercises.record.setting_findings import setting_of
from tests.real_bars import FAR, SHARES_45_TAN_B

RECORDS = 400
NAMES = (
    "record_false_alarms",
    "record_misread_found",
    "record_two_misread_found",
    "record_distance_found",
    "record_trend_found",
    "record_pattern_found",
    "record_setting_named",
    "record_setting_decided",
    "record_check_ms",
)
MISREADS = (10.0, -10.0, 5.0, -5.0)
#: Findings that accuse a reading, a side, a distance or a length.
GRAVE = ("misread", "side", "apart", "trend", "arms by ends", "all three")
#: The finding that names each fault of the instrument, the fault, and a size that plainly shows.
PATTERNS: tuple[tuple[str, Callable[[float], Faults], float], ...] = (
    ("ends", ALONE["pivot"], 1.0e-3),
    ("ends by north", lambda size: Faults(pivot_y=size), 1.0e-3),
    ("north", ALONE["zero"], 2.0),
    ("north", ALONE["first-turn"], 4.0),
    ("north", ALONE["second-turn"], 4.0),
    ("north", ALONE["pointer"], 4.0),
    ("arms", ALONE["box"], 3e-3),
    ("outward", ALONE["centre"], 3e-3),
)
#: A fault of setting up, what it is to be called, and a size in degrees that plainly shows.
SETTING = (
    ("zero", "zero", 2.0),
    ("first-turn", "first-turn", 4.0),
    ("second-turn", "second-turn", 4.0),
    ("pointer", "first-turn", 4.0),
)

Rows = list[tuple[float, list[float]]]


@dataclass(frozen=True)
class Instrument:
    """A magnet and an instrument with faults, and what a record of them says at its head.

    near, far  where the deflection is 57° and 33°, m
    """

    head: dict[str, str]
    magnet: Magnet
    B_H: float
    faults: Faults
    step: float
    near: float
    far: float
    position: Position

    def readings(self, chance: random.Random, d: float) -> list[float]:
        """The eight at a distance in m, degrees, as an eye reads them that is good to 0.2°."""
        errors = tuple(chance.gauss(0, 0.2) for _ in range(8))
        tan_b = self.position.tan_b
        return list(eight_readings(self.magnet, self.B_H, d, Box(), self.faults, errors, self.step, tan_b))


def instrument(chance: random.Random, faults: Faults | None = None, position: Position = TAN_A) -> Instrument:
    """An instrument with these faults, or with slight ones of its own."""
    if faults is None:
        pivot = [chance.uniform(-0.5e-3, 0.5e-3) for _ in range(2)]
        at_rest, box = chance.uniform(-0.8, 0.8), chance.uniform(-1.5, 1.5)
        bar = (*(chance.uniform(-1e-3, 1e-3) for _ in range(2)), chance.uniform(-2.0, 2.0))
        faults = Faults(*pivot, box + at_rest, box, 0.0, *bar)
    length, B_H, step = chance.choice((0.06, 0.08, 0.10)), chance.uniform(15e-6, 40e-6), chance.choice((1.0, 0.5))
    l = length * chance.uniform(0.82, 0.85) / 2
    d45 = l / chance.uniform(*(SHARES_45_TAN_B if position.tan_b else FAR))
    m, distance = position.moment(B_H, d45, l), distance_broadside_on if position.tan_b else distance_end_on
    near, far = (distance(m, field_from_deflection(t, B_H), l) for t in (57.0, 33.0))
    head = {"length": f"{100 * length:g}", "two_l_is": "five-sixths", "B_H": f"{1e6 * B_H:.4g}", "step": f"{step:g}"}
    if position.tan_b:
        head["position"] = position.key
    return Instrument(head, Magnet(m, l), B_H, faults, step, near, far, position)


def simulated(
    chance: random.Random, faults: Faults | None = None, count: int | None = None, position: Position = TAN_A
) -> tuple[Record, Rows]:
    """A record with its readings alone, and [(d in m, readings in degrees)]; `count` distances, or four to six."""
    made = instrument(chance, faults, position)
    count = count or chance.choice((4, 5, 6))
    rows = []
    for i in range(count):
        d = round(made.near + (made.far - made.near) * (i + chance.uniform(0.2, 0.8)) / count, 3)
        rows.append((d, made.readings(chance, d)))
    return as_record(made.head, rows), rows


def as_record(head: dict[str, str], rows: Sequence[tuple[float, Sequence[float]]]) -> Record:
    """A record of these rows as simulated() gives them."""
    return Record(head, tuple(Row(f"{100 * d:.1f}", tuple(f"{x:g}" for x in readings)) for d, readings in rows))


def _keys(record: Record) -> list[tuple[str, tuple[str, ...]]]:
    return [(f.key, f.cells) for f in check(record).findings]


def records() -> dict[str, float]:
    """Shares of honest records accused, and of planted faults found.

    record_false_alarms   honest records with any reading, side, moment or trend said not to belong; in tan A or tan B,
                          where there are more
    record_misread_found  records with one reading 5° or 10° off in which that reading, and no other, is named
    record_two_misread_found  the same with two
    record_distance_found     one distance noted 5 or 10 mm off and named
    record_trend_found        the length of the magnet noted twice as long, and a trend told
    record_pattern_found      a fault of the instrument that plainly shows, and its pattern told
    record_setting_named      a zero error or a turn left out, alone and plain, and called that or undecided
    record_setting_decided    of these, the share in which no other is called possible
    record_check_ms           mean time of a check
    """
    chance = random.Random("records")
    false_alarms = max(_false_alarms(chance, TAN_A), _false_alarms(random.Random("records in tan B"), TAN_B))
    one, two = (sum(_misread_found(chance, many) for _ in range(RECORDS)) for many in (1, 2))
    distances = sum(_distance_found(chance) for _ in range(RECORDS))
    trends = sum(_trend_found(chance) for _ in range(RECORDS))
    called = [_setting_called(chance, *SETTING[i % len(SETTING)]) for i in range(RECORDS)]
    patterns = [_pattern_found(chance, *PATTERNS[i % len(PATTERNS)]) for i in range(RECORDS)]
    return {
        "record_false_alarms": false_alarms / RECORDS,
        "record_misread_found": one / RECORDS,
        "record_two_misread_found": two / RECORDS,
        "record_distance_found": distances / RECORDS,
        "record_trend_found": trends / RECORDS,
        "record_pattern_found": sum(found for found, _ in patterns) / RECORDS,
        "record_setting_named": sum(named for named, _ in called) / RECORDS,
        "record_setting_decided": sum(named and alone for named, alone in called) / RECORDS,
        "record_check_ms": 1000 * sum(took for _, took in patterns) / RECORDS,
    }


def _false_alarms(chance: random.Random, position: Position) -> int:
    """How many honest records have something said not to belong."""
    records = (simulated(chance, position=position)[0] for _ in range(RECORDS))
    return sum(any(key in GRAVE for key, _ in _keys(record)) for record in records)


def _misread_found(chance: random.Random, many: int) -> bool:
    """Whether so many misread values are named, and no others."""
    record, rows = simulated(chance)
    places: set[tuple[int, int]] = set()
    while len(places) < many:
        places.add((chance.randrange(len(rows)), chance.randrange(8)))
    for row, k in places:
        rows[row][1][k] += chance.choice(MISREADS)
    found = _keys(as_record(dict(record.head), rows))
    named = {cell for key, cells in found if key in ("misread", "side") for cell in cells}
    return named == {f"reading{k + 1}-{row + 1}" for row, k in places}


def _distance_found(chance: random.Random) -> bool:
    """Whether a distance that was noted wrong is named."""
    record, rows = simulated(chance)
    row = chance.randrange(len(rows))
    rows[row] = (rows[row][0] + chance.choice((-0.01, -0.005, 0.005, 0.01)), rows[row][1])
    found = _keys(as_record(dict(record.head), rows))
    return any(key == "apart" and f"d-{row + 1}" in cells for key, cells in found)


def _trend_found(chance: random.Random) -> bool:
    """Whether a magnet noted twice as long makes a trend that is told."""
    record, _ = simulated(chance)
    doubled = {**record.head, "length": f"{2 * float(record.head['length']):g}"}
    return any(key == "trend" for key, _ in _keys(Record(doubled, record.rows)))


def _setting_called(chance: random.Random, fault: str, name: str, size: float) -> tuple[bool, bool]:
    """Whether a fault of setting up is among those called possible, and whether it is the only one."""
    record, rows = simulated(chance, ALONE[fault](chance.choice((-size, size))))
    half = float(record.head["length"]) / 100 * 5 / 12
    fit = fit_readings(rows, half, float(record.head["step"]))
    each = [difference(readings, "north") for readings in fit.corrected]
    alone = setting_of(each, [sum(readings) / 8 for _, readings in rows], fit.scatter).alone
    return name in alone, len(alone) == 1


def _pattern_found(
    chance: random.Random, key: str, fault: Callable[[float], Faults], size: float
) -> tuple[bool, float]:
    """Whether a fault of the instrument is named, and the seconds that the check took."""
    record, _ = simulated(chance, fault(chance.choice((-size, size))))
    start = time.perf_counter()
    found = _keys(record)
    took = time.perf_counter() - start
    return any(k == key for k, _ in found), took

"""A simulated student at the bench: which misreadings are asked about while the magnet still lies there.

The instruments are those of records.py.  The student lays the magnet first where it turns the needle by 37° to 53°, and
then where it is proposed.  One reading in twenty is misread: by 5°, by 10°, or with its two figures exchanged.  What is
asked about is read again, rightly.  A misreading is caught where it is asked about as it is typed, or with the next
reading where both are named.
"""

import json
import random
import time
from dataclasses import dataclass, field

from exercises.bench.field import distance_end_on, field_from_deflection
from exercises.record.beside import page
from exercises.record.beside.look import looked
from exercises.record.beside.order import next_of
from exercises.record.beside.proposal import proposed
from exercises.record.beside.warnings import Warned, said_of
from exercises.record.beside.work import Work
from exercises.record.entries import READINGS, Record, Row, as_plain, cell_of
from tests.benchmarks.records import RECORDS, Instrument, instrument

NAMES = (
    "bench_misread_caught",
    "bench_misread_5_caught",
    "bench_false_warnings",
    "bench_taps_per_reading",
    "bench_answer_ms",
    "bench_answer_ms_most",
)
MISREAD = 1 / 20
TIMED = 5  # records of which every answer of the page is timed


@dataclass
class Count:
    """What happened: misreadings by their way, those caught, readings, warnings that name none misread, taps.

    times  of each answer of the page that was timed, s of this processor
    """

    misread: list[str] = field(default_factory=list)
    caught: list[str] = field(default_factory=list)
    readings: int = 0
    false: int = 0
    taps: int = 0
    times: list[float] = field(default_factory=list)


def bench() -> dict[str, float]:
    """Shares of misreadings caught and of readings falsely asked about, taps, and what an answer takes.

    bench_misread_caught    misreadings asked about
    bench_misread_5_caught  of those by 5° alone
    bench_false_warnings    warnings that name no reading that is misread, for each reading
    bench_taps_per_reading  Enter, and a tap on the field wherever the page does not ask for the reading whose turn it
                            is in the trade's order; for each reading, without those that are read again
    bench_answer_ms         mean time of an answer of the page;  bench_answer_ms_most  the longest
    """
    chance, count = random.Random("beside the instrument"), Count()
    for at in range(RECORDS):
        _Student(chance, instrument(chance), count, timed=at < TIMED).works()
    by_5 = count.misread.count("5")
    return {
        "bench_misread_caught": len(count.caught) / len(count.misread),
        "bench_misread_5_caught": count.caught.count("5") / by_5,
        "bench_false_warnings": count.false / count.readings,
        "bench_taps_per_reading": count.taps / count.readings,
        "bench_answer_ms": 1000 * sum(count.times) / len(count.times),
        "bench_answer_ms_most": 1000 * max(count.times),
    }


class _Student:
    """One record as it is made.

    wrong  cell -> what it should be and in which way it was misread, of those that stand
    """

    def __init__(self, chance: random.Random, made: Instrument, count: Count, timed: bool):
        self.chance, self.made, self.count, self.timed = chance, made, count, timed
        self.rows: list[tuple[str, list[str]]] = []
        self.right: list[list[float]] = []
        self.wrong: dict[str, tuple[float, str]] = {}

    def work(self) -> Work:
        rows = tuple(Row(d, tuple(readings)) for d, readings in self.rows)
        return Work(Record(self.made.head, rows), ("0", "0"))

    def works(self) -> None:
        """Four to six distances, or as many as the arm has room for."""
        for _ in range(self.chance.choice((4, 5, 6))):
            self.lay(self._distance())
            for reading in READINGS:
                cell = f"{reading}-{len(self.rows)}"
                coming = next_of(self.work())
                self.count.taps += coming is None or coming.cell != cell
                self.read(cell)

    def _distance(self) -> float:
        if self.rows:
            d = proposed(looked(self.work())).d
            assert d is not None
            return d
        theta = self.chance.uniform(37, 53)
        m, l = self.made.magnet.m, self.made.magnet.l
        return round(distance_end_on(m, field_from_deflection(theta, self.made.B_H), l), 3)

    def lay(self, d: float) -> None:
        """A distance is taken, in m."""
        self.rows.append((f"{100 * d:.1f}", [""] * 8))
        self.right.append(self.made.readings(self.chance, d))

    def read(self, cell: str) -> None:
        """A reading is taken, and what is asked about is read again."""
        row, k = _place(cell)
        right = self.right[row][k]
        value, way = self._misread(right)
        if way:
            self.count.misread.append(way)
            self.wrong[cell] = (right, way)
        before = list(self.wrong)[-2:]
        self._type(cell, value)
        self.count.readings += 1
        self.count.taps += 1
        if warned := self._said(cell):
            self._asked(cell, warned)
        for old in before:  # what was not caught by now is not caught any more
            if old != cell and old in self.wrong:
                self.wrong[old] = (self.wrong[old][0], "")

    def _asked(self, cell: str, warned: Warned) -> None:
        """The readings that are named are read again."""
        named = [name for name in warned.cells if name in self.wrong]
        self.count.false += not named
        for name in named:
            right, way = self.wrong.pop(name)
            if way and cell in warned.cells:
                self.count.caught.append(way)
            self._type(name, right)

    def _type(self, cell: str, value: float) -> None:
        row, k = _place(cell)
        self.rows[row][1][k] = f"{value:g}"

    def _said(self, cell: str) -> Warned | None:
        if self.timed:
            work = self.work()
            text = json.dumps({**as_plain(work.record), "zero": list(work.zero)})
            start = time.process_time()
            page.now(text, cell)
            self.count.times.append(time.process_time() - start)
        return said_of(looked(self.work(), cell), cell)

    def _misread(self, right: float) -> tuple[float, str]:
        """What is read, and in which way that is wrong, or ""."""
        if self.chance.random() >= MISREAD:
            return right, ""
        way = self.chance.choice(("5", "10", "exchanged"))
        tens, rest = divmod(right, 10)
        exchanged = 10 * (rest // 1) + tens + rest % 1
        if way == "exchanged" and abs(exchanged - right) > 1:
            return exchanged, way
        by = 5.0 if way == "5" else 10.0
        return right + self.chance.choice((-by, by)), "5" if way == "5" else "10"


def _place(cell: str) -> tuple[int, int]:
    """The row and the place among the eight, both from 0."""
    column, row = cell_of(cell)
    return (row or 0) - 1, int(column.removeprefix("reading")) - 1

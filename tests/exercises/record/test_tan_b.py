"""A record in tan B: the same checks with the other geometry, held against the instrument's root finding."""

import math
import random
import re
from dataclasses import replace

import pytest

from exercises.bench.instrument import ALONE, EIGHT, PERFECT, Box, Faults, Magnet, eight_places
from exercises.bench.uncertainty import length_term
from exercises.kinds.tan_b.kind import SLIPS
from exercises.record import columns, estimate, file, outliers
from exercises.record.check import check
from exercises.record.entries import Record, Row
from exercises.record.file import opened, written
from exercises.record.magnetic_length import rule_named
from exercises.record.moments import by_square, point, turned
from exercises.record.paper import paper
from exercises.record.position import TAN_A, TAN_B
from tests.benchmarks.records import as_record, simulated
from tests.exercises.slip_values import slip_values

HEAD = {"position": "tan-b", "length": "8.0", "two_l_is": "five-sixths", "B_H": "36", "step": "0.5"}
DS = (0.135, 0.145, 0.155, 0.17)
M, L = 1.5, 1 / 30


def rows_of(faults=PERFECT, ds=DS, needle=0.008, step=0.1):
    magnet = Magnet(M, L)
    return [
        (d, [round(x / step) * step for x in eight_places(magnet, 36e-6, d, Box(needle=needle), faults, tan_b=True)])
        for d in ds
    ]


def record_of(rows=None, **head) -> Record:
    return as_record({**HEAD, **head}, rows or rows_of())


def keys(record) -> set[str]:
    return {f.key for f in check(record).findings}


def test_a_perfect_record_gives_the_magnet_back_and_nothing_is_found():
    found = check(record_of(two_l_is="stated", two_l=f"{200 * L:.4f}", needle="1.684"))  # poles at 0.95 of it: 0.8 cm
    assert keys(found.record) <= {"near"}
    moment = found.moments.result.moment
    assert moment.value == pytest.approx(M, rel=0.01) and abs(moment.value - M) < moment.U
    assert found.moments.graph.moment == pytest.approx(M, rel=0.03)
    assert found.values["bracket-1"] == pytest.approx((DS[0] ** 2 + L**2) ** 1.5)
    assert "1/(d² + l²)" in paper(found) and "tan B position" in paper(found) and "north arm" in paper(found)


@pytest.mark.parametrize("slip", [s for s in SLIPS if not s.hides], ids=lambda s: s.key)
def test_every_slip_of_a_sheet_is_named_in_a_record(slip):
    rows = [columns.WorkedDistance(i, d, tuple(r)) for i, (d, r) in enumerate(rows_of(step=0.5), 1)]
    made = columns.working(TAN_B, rows, 36e-6, 0.08, 0.08 * 5 / 6, rule_named("5/6"))
    step, values = next((s, f[0][1]) for s in made.steps if (f := slip_values(made, s, (slip,), {})))
    name = f"{step.column}-{step.row + 1}" if step.row is not None else step.id
    record = record_of(rows_of(step=0.5))
    text = f"{values[0]:.3g}"
    if step.row is None:
        record = Record({**record.head, name: text}, record.rows)
    else:
        changed = list(record.rows)
        changed[step.row] = replace(changed[step.row], **{step.column: text})
        record = Record(record.head, tuple(changed))
    verdict = check(record).verdicts[name]
    assert verdict.state == "slip" and slip.key in verdict.slips


@pytest.mark.parametrize(
    ("faults", "pattern", "words", "size"),
    [
        (ALONE["zero"](2.0), "north", r"a zero error of ([\d.]+)°", 2.0),
        (ALONE["first-turn"](4.0), "north", r"the box was ([\d.]+)° off square to the arms", 4.0),
        (ALONE["second-turn"](4.0), "north", r"the board was ([\d.]+)° off magnetic north–south", 4.0),
        (ALONE["box"](3e-3), "arms", r"zero of the distance scale, by about ([\d.]+) mm", 3.0),
        (ALONE["centre"](3e-3), "arms", r"is not its middle, by about ([\d.]+) mm", 3.0),
        (ALONE["pivot"](1e-3), "ends", r"by about ([\d.]+) mm", 1.0),
    ],
)
def test_each_fault_is_known_by_its_pattern(faults, pattern, words, size):
    found = check(record_of(rows_of(faults)))
    text = next(f.text for f in found.findings if f.key == pattern)
    assert float(re.search(words, text)[1]) == pytest.approx(size, rel=0.1)
    assert {f.key for f in found.findings} <= {pattern, "near"}


def test_the_columns_of_the_fit_are_what_the_instrument_does():
    """A small fault of each kind changes the readings as its column says, to the second order of the needle."""
    magnet, d, box = Magnet(M, 0.01), 0.16, Box(needle=0.0)
    honest = eight_places(magnet, 36e-6, d, box, tan_b=True)
    made = outliers.effect_columns([(d, honest)], 0.01, tan_b=True)
    assert len(made) == outliers.EFFECTS + 1 == len(outliers.effect_columns([(d, honest)], 0.01)) + 1
    for faults, at in (
        (Faults(box_shift=1e-4), 3),
        (Faults(centre_shift=1e-4), 4),
        (ALONE["zero"](0.05), 1),
        (Faults(arm_off=0.05, box_turned=0.05), 2),
    ):
        moved = [x - h for x, h in zip(eight_places(magnet, 36e-6, d, box, faults, tan_b=True), honest)]
        size = math.sumprod(moved, made[at]) / math.sumprod(made[at], made[at])
        assert moved == pytest.approx([size * c for c in made[at]], abs=0.02 * max(map(abs, moved)))


def test_what_each_source_does_to_the_moment():
    """By differences of the formula: d ln m/d(l²), and what a needle does by root finding."""
    p = point(1, 0.15, 45.0, 36e-6, L, 0.1, TAN_B)
    other = point(1, 0.15, 45.0, 36e-6, math.sqrt(L * L + 1e-6), 0.1, TAN_B)
    assert by_square(p, L) == pytest.approx((other.moment / p.moment - 1) / 1e-6, rel=1e-3)
    assert 2 * L * by_square(p, L) == pytest.approx(length_term(0.15, L, 1.0, tan_b=True))
    short = Magnet(M, 0.005)
    point_needle, needle = (eight_places(short, 36e-6, 0.16, Box(needle=n), tan_b=True)[0] for n in (0.0, 0.006))
    share = math.tan(math.radians(needle)) / math.tan(math.radians(point_needle)) - 1
    assert turned(point(1, 0.16, needle, 36e-6, 0.005, 0.1, TAN_B), 0.005, 0.006) == pytest.approx(share, rel=0.05)


def test_a_needle_s_part_is_taken_off_and_2l_counts_by_its_power():
    found = check(record_of(rows_of(needle=0.01), needle="2.0"))
    assert found.moments.result.needle < 0  # broadside-on it makes the moments too small
    known = estimate.known_needle(0.02)
    points = [point(i, d, 45.0, 36e-6, L, 0.1, TAN_B) for i, d in enumerate(DS, 1)]
    tight, loose = (
        estimate.result(points, L, estimate.Known(L, u), known, math.inf).terms[estimate.LENGTH] for u in (1e-6, 1e-3)
    )
    assert tight < 1e-4 < loose < length_term(min(DS), L, 1.2e-3, tan_b=True)


def test_the_position_is_in_the_file_and_a_file_of_before_is_tan_a():
    record, _ = simulated(random.Random("file"), position=TAN_B)
    text = written(record)
    assert "position (tan A or tan B),tan B" in text and "north arm N east end 1" in text and "(d2+l2)^(3/2)" in text
    assert opened(text).record.position is TAN_B and opened(text).record.rows == record.rows and not opened(text).notes
    before = "\n".join(
        line for line in written(Record({"length": "8"}, (Row("17.5"),))).split("\n") if "posit" not in line
    )
    assert opened(before).record == Record({"length": "8"}, (Row("17.5"),))
    by_headings = "\n".join(line for line in text.split("\n") if "position" not in line)
    found = opened(by_headings)
    assert found.record.position is TAN_B and found.notes == (
        "The headings are those of tan B, so this record was taken as tan B.",
    )
    upright = opened(text.replace("tan B)", "x)").replace(",tan B", ",upright"))
    assert "“upright” was not read" in upright.notes[0]
    crossed = opened(text.replace("tan B)", "x)").replace(",tan B", ",tan A"))
    assert crossed.record.position is TAN_A and "its headings are those of tan B" in crossed.notes[0]
    assert "south arm N west end 2" in file.blank(position=TAN_B) and "tan A" in file.blank()


def test_a_moment_that_stands_apart_and_a_wrong_length_are_told():
    rows = rows_of(ds=(0.13, 0.14, 0.15, 0.16, 0.175))
    moved = [(d + 0.01 * (i == 2), r) for i, (d, r) in enumerate(rows)]
    found = next(f for f in check(record_of(moved)).findings if f.key == "apart")
    assert "d-3" in found.cells and "would fit d = 15.0 cm" in found.text
    assert "trend" in keys(record_of(rows, length="18"))


def test_eight_readings_stand_on_the_north_and_the_south_arm():
    assert [TAN_B.arm(arm) for arm, _, _ in EIGHT] == ["north"] * 4 + ["south"] * 4

"""From where on something is said of readings and distances: just inside and just outside each limit."""

import math
import re
from dataclasses import replace
from statistics import mean

import pytest

from exercises.bench.instrument import EIGHT
from exercises.record import instrument_findings
from exercises.record.check import check, sentences
from exercises.record.columns import WorkedDistance
from exercises.record.entries import (
    FIELDS,
    MOST_ROWS,
    RANGES,
    Record,
    Row,
    cell_label,
    cell_of,
    decimal_comma,
    from_plain,
    pointed,
    quantity_of,
    read,
)
from exercises.record.finding import Finding
from exercises.record.givens import Givens, givens_of
from exercises.record.instrument_findings import SIGNS, few, fours, near, outlying, outside, patterns, steepness
from exercises.record.misreadings import likely_misreadings
from exercises.record.outliers import Outlier, ReadingFit
from exercises.record.paper import paper
from exercises.record.position import TAN_A, Position
from exercises.record.setting_findings import said_of_setting, setting_of

L = 0.03


def row(theta=45.0, d=0.2, number=1) -> WorkedDistance:
    return WorkedDistance(number, d, (theta,) * 8)


def given(
    rows=(), length: float | None = None, box: float | None = None, l: float = L, position: Position = TAN_A
) -> Givens:
    """What a record gives that has these rows, and 2l (m) as a number; length and radius of the box in m."""
    lengths = {"length": length, "box": box}
    head = {key: f"{100 * value:.10g}" for key, value in lengths.items() if value is not None}
    found = givens_of(Record({**head, "step": "0.5", "position": position.name}))
    return replace(found, rows=tuple(rows), two_l=2 * l)


def texts(findings: list[Finding]) -> str:
    return " ".join(f.text for f in findings)


# -- distances -----------------------------------------------------------------------


@pytest.mark.parametrize(("theta", "said"), [(29.9, "nearer"), (30.0, ""), (60.0, ""), (60.1, "farther off")])
def test_the_usual_band(theta, said):
    found = outside([row(theta, number=3)])
    assert bool(found) is bool(said) and said in texts(found) and all(f.cells == ("d-3",) for f in found)


def test_how_much_more_an_error_counts():
    assert "counts 1.2 times as much" in texts(outside([row(29)])) and "counts 5.8 times" in texts(outside([row(85)]))
    for theta, none in ((0.0, True), (0.1, False), (89.9, False), (90.0, True)):
        (found,) = outside([row(theta, number=2)])
        assert (found.key == "no-tangent") is none and (found.level == "amiss") is none
    assert outside([row(90.0, number=2)])[0].cells == ("mean-2",)


def test_room_for_the_box():
    """Measured length 8 cm, box 5 cm: below d = 9 cm the bar is over the box, and at 10 cm a centimetre clear."""
    cases = (
        (0.0899, "amiss", "over the edge"),
        (0.0901, "note", "only 0.0 cm clear"),
        (0.0999, "note", "only 1.0 cm"),
        (0.1001, None, ""),
    )
    for d, level, words in cases:
        found = [f for f in near(given([row(d=d)], 0.08, 0.05)) if f.key == "box"]
        assert (
            [f.level for f in found] == [level] * bool(level)
            and words in texts(found)
            and "is taken" not in texts(found)
        )
    for d, level in ((0.0699, "look"), (0.0701, "note")):  # no length: 2l; no box: 4 cm
        found = [f for f in near(given([row(d=d, number=2)], None, None)) if f.key == "box"]
        assert [(f.level, f.cells) for f in found] == [(level, ("d-2",))] and "a radius of 4 cm is taken" in texts(
            found
        )


def test_where_the_length_counts_much():
    """At d = 4l: 4(l/d)²·2 %/(1 − (l/d)²) = 4/16 × 2 % / (15/16) = 0.53 %."""
    found = near(given([row(d=4 * L * 0.999, number=2)], None, 0.01))
    assert [(f.key, f.cells) for f in found] == [("near", ("d-2",))] and "the moment there is out by 0.5 %" in texts(
        found
    )
    assert near(given([row(d=4 * L * 1.001)], None, 0.01)) == []
    assert "out by 2.7 %" in texts(near(given([row(d=2 * L)], None, 0.01)))


def test_how_many_distances():
    assert few([]) == [] == few([row()] * 4)
    assert "There is one distance." in texts(few([row()])) and "With one alone" in texts(few([row()]))
    assert "There are 3 distances." in texts(few([row()] * 3)) and "With one alone" not in texts(few([row()] * 3))


# -- readings ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("seen", "expected", "first"),
    [
        (34.0, 44.2, "read 10° too small"),
        (34.0, 38.8, "read 5° too small"),
        (34.0, 54.0, "read 20° too small"),
        (57.0, 47.3, "read 10° too large"),
        (57.0, 52.0, "read 5° too large"),
        (57.0, 37.0, "read 20° too large"),
        (33.0, 57.0, "90° less the reading, counted from the wrong end of the quarter"),
        (52.5, 25.4, "its two figures exchanged"),
        (33.0, 37.0, "counted from the next numbered mark, backwards"),
        (4.5, 45.0, "its point one place too far to the left"),
    ],
)
def test_what_a_misreading_looks_like(seen, expected, first):
    assert ways(seen, expected, 0.5)[0] == first


def ways(seen: float, expected: float, room: float) -> list[str]:
    return [way.words for way in likely_misreadings(seen, expected, room)]


def test_of_one_reading_the_words_fit_after_it_looks_like():
    (shift,), (backwards,) = likely_misreadings(34.0, 44.2, 0.5), likely_misreadings(33.0, 37.0, 0.5)
    assert shift.of_one == "one read 10° too small" and backwards.of_one.startswith("one counted from")
    assert likely_misreadings(52.5, 25.4, 0.5)[0].of_one == "its two figures exchanged"
    assert likely_misreadings(33.0, 57.0, 0.5)[0].of_one.startswith("90° less the reading")


def test_a_misreading_is_known_within_its_room_and_the_nearest_is_first():
    assert likely_misreadings(34.0, 44.49, 0.5) and not likely_misreadings(34.0, 44.51, 0.5)
    assert ways(34.0, 39.4, 0.9) == ["read 5° too small"]
    near_ones = [way.split(",")[0] for way in ways(40.0, 47.0, 3.0)]
    assert near_ones == ["read 10° too small", "90° less the reading", "counted from the next numbered mark"]
    # what would change next to nothing is no explanation: 44 and 45 are nearly each other's complement
    assert likely_misreadings(44.5, 45.5, 0.5) == [] == likely_misreadings(44.0, 44.0, 0.5)
    assert ways(10.0, 5.0, 0.3) == ["read 5° too large"]


def test_what_is_said_of_one_reading():
    rows = [row(number=4), WorkedDistance(5, 0.2, (44.5, 45, 44, 45, 45, 55, 45, 45))]
    found = outlying(Outlier(1, 5, "", 10.02, 0.31), rows, given())
    arm, north, end = EIGHT[5]
    assert found.cells == ("reading6-5",) and found.level == "amiss"
    assert f"Distance 5, {arm} arm, N {north}, end {'①②'[end - 1]}: 55° does not belong" in found.text
    assert "to expect 45.0° (standard error 0.3°). It looks like one read 10° too large." in found.text
    # the room is 2.5 standard errors, and a step of the scale at least
    for off, error, known in ((10.7, 0.3, True), (10.8, 0.3, False), (10.45, 0.1, True), (10.55, 0.1, False)):
        assert ("looks like" in outlying(Outlier(1, 5, "", off, error), rows, given()).text) is known, off


def test_what_is_said_of_one_side():
    rows = [row(theta=45.0, d=0.2)]
    for side, shifted in (("arms", True), ("outward", True), ("north", False), ("ends", False)):
        for off in (3.0, -3.0):
            found = outlying(Outlier(0, None, side, off, 0.4), rows, given())
            more, less = fours(side, TAN_A) if off > 0 else fours(side, TAN_A)[::-1]
            assert f"the readings {more} are 3.0° larger beside those {less} than at the other" in found.text
            assert found.cells == tuple(f"reading{k}-1" for k in range(1, 9)) and found.key == "side"
            cm = 100 * math.radians(3) / steepness(rows[0], given())
            assert (f"A difference of {cm:.1f} cm in d would do it." in found.text) is shifted


def test_a_shift_turns_the_needle_as_the_root_finding_shows():
    """dθ/dd = sin θ cos θ · d ln B/dd, by differences: a dipole's field falls as d⁻³, a bar's a little faster."""
    at = 45.0
    assert steepness(row(at), given(l=0.0)) == pytest.approx(0.5 * 3 / 0.2)
    assert steepness(row(30), given(l=0.0)) == pytest.approx(math.sin(math.radians(60)) / 2 * 15)

    def field(d):
        return d / (d * d - L * L) ** 2

    turned = (math.atan(field(0.19999) / field(0.2)) - math.atan(field(0.20001) / field(0.2))) / 2e-5
    assert steepness(row(at), given()) == pytest.approx(turned, rel=1e-5)


def with_pattern(pattern: str, size: float, scatter: float = 0.1, thetas=(45.0, 45.0)):
    rows = [
        WorkedDistance(n, 0.2, tuple(t + size / 2 * sign for sign in SIGNS[pattern])) for n, t in enumerate(thetas, 1)
    ]
    return rows, ReadingFit(scatter, 8.0, (), tuple(r.readings for r in rows))


def pattern_of(pattern, size, **more):
    rows, fit = with_pattern(pattern, size, **more)
    return patterns(rows, fit, given())


@pytest.mark.parametrize("pattern", SIGNS)
def test_each_pattern_from_half_a_degree_on(pattern):
    assert pattern_of(pattern, 0.499) == [] and [f.key for f in pattern_of(pattern, 0.501)] == [pattern]
    # and from three standard errors on: of two distances one is scatter/2
    assert pattern_of(pattern, 1.49, scatter=1.0) == [] and pattern_of(pattern, 1.51, scatter=1.0)
    assert pattern_of(pattern, 1.05, scatter=1.0, thetas=(45.0,) * 4) == [] and pattern_of(
        pattern, 1.07, scatter=1.0, thetas=(45.0,) * 4
    )
    one, two = fours(pattern, TAN_A)
    assert f"The readings {one} are on the average 2.0° larger than those {two} (standard error 0.1°)" in texts(
        pattern_of(pattern, 2.0)
    )
    assert f"The readings {two} are on the average 2.0° larger than those {one}" in texts(pattern_of(pattern, -2.0))


def test_how_grave_a_pattern_is():
    for size, level, words in (
        (3.9, "note", "free of it, all but a trace."),
        (4.1, "look", "several degrees"),
        (14.9, "look", "several degrees"),
    ):
        (found,) = pattern_of("arms", size)
        assert found.level == level and words in found.text and instrument_findings.WRONG_COLUMNS not in found.text
    (found,) = pattern_of("arms", 15.1)  # a fault can make it, but hardly so much of it
    assert found.text.endswith(instrument_findings.FAR_OUT) and "That is" not in found.text and found.level == "look"
    for size in (1.0, 15.1):
        (found,) = pattern_of("all three", size)
        assert found.level == "look" and found.text.endswith(instrument_findings.WRONG_COLUMNS)
        assert found.text.count(instrument_findings.WRONG_COLUMNS) == 1


def test_how_large_the_fault_is():
    """By hand, for a difference of 2°: half of it is 0.01745; a pivot of 40 mm · 0.01745 / sin 45° = 0.99 mm."""
    assert "by about 0.99 mm if the scale has a radius of 4 cm" in texts(pattern_of("ends", 2.0))
    assert "by about 0.81 mm" in texts(pattern_of("ends", 2.0, thetas=(60.0, 60.0)))
    assert "by about 1.4 mm" in texts(pattern_of("ends by north", 2.0, thetas=(60.0, 60.0)))
    shift = math.radians(1) / mean(steepness(r, given()) for r in with_pattern("arms", 2.0)[0])
    assert f"by about {1e3 * shift:.1f} mm" in texts(pattern_of("arms", 2.0)) and "magnetic centre" in texts(
        pattern_of("outward", 2.0)
    )


def test_how_far_each_fault_of_setting_up_is_off():
    """Of one deflection, 45°, nothing tells them apart: a difference of 2° is 1° of zero, or 2° of either turn."""
    said = texts(pattern_of("north", 2.0))
    assert "a zero error of 1.0°" in said
    assert "the box was 2.0° off parallel" in said and "the board was 2.0° off" in said
    assert (
        "do not decide which. With no magnet near the pointer tells: it shows 1.0°, 0° or 2.0°, in this order." in said
    )


def said_of(arms, box, scatter=0.1, thetas=(30.0, 60.0)):
    """What is said of arms and a 0–0 line so far off, in degrees."""
    seen = [2 * (arms * math.cos(math.radians(t)) ** 2 - box) for t in thetas]
    return said_of_setting(setting_of(seen, thetas, scatter), TAN_A)


@pytest.mark.parametrize(("size", "level"), [(1.0, "note"), (5.0, "look")])
def test_both_turns_may_leave_nothing_on_the_average(size, level):
    """Arms twice as far off as the 0–0 line: the difference is 2·size·cos 2θ, which is nothing at 45°."""
    thetas = (57.0, 51.0, 39.0, 33.0)
    each = [2 * size * math.cos(math.radians(2 * t)) for t in thetas]
    assert abs(mean(each)) < 1e-9
    rows = [row(t, number=n) for n, t in enumerate(thetas, 1)]
    seen = tuple(tuple(t + s * e / 2 for s in SIGNS["north"]) for t, e in zip(thetas, each))
    (found,) = patterns(rows, ReadingFit(0.1, 20.0, (), seen), given())
    most = f"{abs(each[0]):.1f}°"
    assert (found.key, found.level) == ("north", level) and found.text.startswith(
        f"At the largest deflection the readings with N east are on the average {most} smaller than those with N west, "
        f"at the smallest deflection {most} larger. No zero error makes this"
    )
    # a slope that chance makes, and one of no consequence, are not spoken of
    assert patterns(rows, ReadingFit(2.5 * size, 20.0, (), seen), given()) == []
    small = tuple(tuple(t + s * 0.3 / size * e / 2 for s in SIGNS["north"]) for t, e in zip(thetas, each))
    assert patterns(rows, ReadingFit(0.02, 20.0, (), small), given()) == []


def test_the_faults_of_setting_up_are_told_apart():
    assert said_of(0, -1.0).startswith("That is the pattern of a zero error of 1.0°")
    assert said_of(2.0, 2.0).startswith(
        "That is the pattern of the first turn left out or not quite made (the box was 2.0° off parallel"
    )
    assert said_of(-2.0, -2.0) == said_of(2.0, 2.0)
    assert said_of(5.0, 0).startswith(
        "That is the pattern of the second turn left out or not quite made (the board was 5.0° off"
    )
    both = said_of(6.0, 2.0)
    assert both.startswith("No zero error makes this") and "Arms 6.0° off" in both and "0–0 line 2.0° off" in both
    assert "do not decide" not in both


def test_they_are_decided_from_three_standard_errors_on():
    """At 30° and 60°, where sin²θ is ¼ and ¾, each difference with a variance of scatter²/2.

    A zero error of 1° sets the fours 2° apart at both.  By hand: either turn has the shape ½ and 3/2 (or the other way
    round), its size is (2·½ + 2·3/2)/(¼ + 9/4) = 1.6, left are 2 − 0.8 = 1.2 and 2 − 2.4 = −0.4, in squares 1.6.  So
    it is told from both while 1.6/(scatter²/2) > 9: below 0.596°.
    The second turn left out by 2° gives 3° and 1°: a zero error leaves 1 + 1 = 2, so it is told from that below
    0.667°; the first turn left out leaves 10 − (½·3 + 3/2·1)²/2.5 = 6.4, so from that below 1.193°.
    """
    for scatter, told in ((0.59, True), (0.602, False)):
        assert ("do not decide" not in said_of(0, -1.0, scatter)) is told
    for scatter, left in ((0.66, 1), (0.672, 2), (1.18, 2), (1.2, 3)):
        said = said_of(2.0, 0, scatter)
        assert sum(x in said for x in ("a zero error", "first turn", "second turn")) == left, (scatter, said)


def test_more_than_one_fault_of_setting_up_is_said_where_no_single_one_will_do():
    """Arms 4° off and the 0–0 line 2° off give 2·(3 − 2) = 2° at 30° and 2·(1 − 2) = −2° at 60°.

    By hand: a zero error fits 0 and leaves 8; either turn fits (2·½ − 2·3/2)/2.5 = −0.8 and leaves 8 − 1.6 = 6.4 at
    the least.  So no single fault will do while 6.4/(scatter²/2) > 16, four standard errors: below 0.894°.
    """
    assert said_of(4.0, 2.0, 0.89).startswith("No zero error makes this")
    assert not said_of(4.0, 2.0, 0.9).startswith("No zero error makes this")


# -- cells ---------------------------------------------------------------------------

UNITS = {"distance": (100.0, "cm"), "field": (1e6, "µT"), "angle": (1.0, "°")}


@pytest.mark.parametrize("kind", RANGES)
def test_a_cell_is_used_within_its_range(kind):
    low, high, sentence = RANGES[kind]
    name = {"d": "d-2", "reading": "reading3-2"}.get(kind, kind)
    size, unit = UNITS[quantity_of(name)]
    for value, used in ((low, True), (high, True), (low * 0.99, low == 0), (high * 1.01, False)):
        text = f"{value * size:.12g} {unit}"
        record = from_plain({"head": {kind: text}, "rows": [{}, {"d": text, "readings": ["", "", text]}]})
        numbers = read(record)
        assert (name in numbers.values) is used and (sentence in numbers.problems.get(name, "")) is not used, value
        assert not used or numbers.get(name) == pytest.approx(value, abs=1e-12)


@pytest.mark.parametrize(
    ("cell", "text", "unit", "types"),
    [
        ("B_H", "0.382", "gauss", ("type 38.2, or 0.382 G.",)),
        ("B_H", "0,382", "gauss", ("type 38.2, or 0,382 G.",)),
        ("B_H", "3.82e-5", "tesla", ("type 38.2, or 3.82e-5 T.",)),
        ("B_H", "0.0382", "millitesla", ("type 38.2, or 0.0382 mT.",)),
        ("B_H", "38200", "nanotesla", ("type 38.2, or 38200 nT.",)),
        ("length", "96", "millimetres", ("type 9.6, or 96 mm.",)),
        ("length", "40", "millimetres", ("type 4, or 40 mm.", "If 40 cm is meant, type it with the unit.")),
        ("length", "0.096", "metres", ("type 9.6, or 0.096 m.",)),
        ("two_l", "80", "millimetres", ("type 8, or 80 mm.",)),
        ("width", "10", "millimetres", ("type 1, or 10 mm.", "If 10 cm is meant, type it with the unit.")),
        ("thickness", "6", "millimetres", ("type 0.6, or 6 mm.",)),
        ("box", "40", "millimetres", ("type 4, or 40 mm.",)),
        ("needle", "30", "millimetres", ("type 3, or 30 mm.",)),
        ("d-1", "173", "millimetres", ("type 17.3, or 173 mm.", "If 173 cm is meant, type it with the unit.")),
        ("d-1", "0.173", "metres", ("type 17.3, or 0.173 m.",)),
    ],
)
def test_a_number_that_fits_in_another_unit_is_asked_about_and_not_converted(cell, text, unit, types):
    def numbers(typed):
        return read(from_plain({"head": {cell: typed}, "rows": [{"d": typed}]}))

    question = numbers(text).problems[cell]
    assert cell not in numbers(text).values
    assert question.startswith(f"Is “{text}” in {unit}?") and all(said in question for said in types)
    # each of the ways that are offered is read, and as the same value
    bare, named = re.findall(r"type (\S+), or (.+?)\.(?: |$)", question)[0]
    assert numbers(bare).get(cell) == pytest.approx(numbers(named).get(cell)) and not numbers(named).problems.get(cell)


def test_what_is_usual_or_has_its_unit_is_not_asked_about():
    for cell, texts in {
        "B_H": ("38.2", "0.382 G", "3.82e-5 T", "5", "15"),
        "length": ("9.6", "96 mm", "30", "40 cm"),
        "d-1": ("17.3", "173 cm", "55", "173 mm"),
    }.items():
        for text in texts:
            numbers = read(from_plain({"head": {cell: text}, "rows": [{"d": text}]}))
            assert cell in numbers.values, (cell, text, numbers.problems)


def test_no_cell_has_a_longer_name_than_it_needs():
    assert read(from_plain({"rows": [{"d": "17", "mean": "500"}]})).get("mean-1") == 500
    long = read(from_plain({"head": {"B_H": "9" * 40}})).problems["B_H"]
    assert f"“{'9' * 30}” was not used." in long


def test_a_minus_before_a_reading_is_left_out_and_told():
    numbers = read(from_plain({"rows": [{"readings": ["-44.5"]}]}))
    assert numbers.get("reading1-1") == 44.5 and numbers.notes == (
        "Distance 1, east arm, N east, end ①: readings are noted without sign, so the minus was left out.",
    )


@pytest.mark.parametrize(
    ("cells", "comma"),
    [
        (["17,5"], True),
        (["17,5", "44.5"], False),
        (["1,234"], False),
        (["0,234"], True),
        ([",234"], True),
        (["17,52"], True),
        (["1,234", "17,5"], True),
        ([], False),
        (["44", "1,2345"], True),
        (["1,2,3"], False),
        (["1.2.3", "17,5"], True),
        (["-,5"], True),
    ],
)
def test_a_comma_as_the_decimal_mark(cells, comma):
    assert decimal_comma(cells) is comma


def test_a_comma_is_made_a_point_once():
    assert [pointed(t) for t in ("17,5", ",5", " ,5 cm", "1,5 × 10,2", "a, b")] == [
        "17.5",
        ".5",
        ".5 cm",
        "1.5 × 10,2",
        "a, b",
    ]


def test_cells_are_called_by_name():
    assert (
        cell_label("B_H") == "B_H"
        and cell_label("two_l") == "Magnetic length 2l"
        and cell_label("reading8-3") == "Distance 3, west arm, N west, end ②"
    )
    assert cell_label("B_H", opening=False) == "B_H" and cell_label("two_l", opening=False) == "magnetic length 2l"
    assert cell_label("d-1", opening=False) == "distance 1, d"
    assert cell_of("reading8-3") == ("reading8", 3) and cell_of("mean-moment") == ("mean-moment", None)
    assert cell_label("bracket-12") == "Distance 12, (d² − l²)²" and cell_label("d-1") == "Distance 1, d"


def test_what_json_may_hold_besides_text():
    record = from_plain(
        {
            "head": {"length": 8, "B_H": True, "name": None},
            "rows": [{"d": 17.5, "readings": [44, 44.5] + [45] * 9, "tan": {}}, 3],
        }
    )
    assert record.head["length"] == "8" and record.head["B_H"] == record.head["name"] == ""
    assert (
        record.rows == (Row("17.5", ("44", "44.5", *["45"] * 6)), Row())
        and record.rows[1].empty
        and not record.rows[0].empty
    )
    assert len(from_plain({"rows": [{}] * 20}).rows) == MOST_ROWS == 8
    assert set(dict(record.cells())) == {
        *FIELDS,
        *(f"{c}-{n}" for n in (1, 2) for c in ("d", "mean", "tan", "bracket", "moment")),
        *(f"reading{k}-{n}" for n in (1, 2) for k in range(1, 9)),
    }


# -- what is worked ------------------------------------------------------------------

HEAD = {"length": "8.4", "two_l_is": "five-sixths", "B_H": "36"}  # 2l = 7.0 cm


def checked(*rows, **head):
    return check(Record({**HEAD, **head}, rows))


def full(d="17.5", reading="44.5", **cells) -> Row:
    return Row(d, (reading,) * 8, **cells)


def test_a_distance_must_clear_half_the_magnet():
    assert [r.number for r in checked(full("3.67"), full("3.68"), full("17.5")).givens.rows] == [2, 3]
    found = checked(full("3.67")).findings[0]
    assert "d must be longer than half the magnet" in found.text and found.level == "look"


def test_what_a_distance_lacks():
    def lacking(count, **cells):
        return " ".join(f.text for f in checked(Row("17.5", ("44",) * (8 - count) + ("",) * count, **cells)).findings)

    assert "lacks one reading of its eight: west arm, N west, end ②, so it is not worked" in lacking(1)
    assert "lacks two readings of its eight: west arm, N west, end ① and west arm, N west, end ②, so" in lacking(2)
    assert "lacks 3 of its eight readings" in lacking(3) and "lacks 7 of its eight" in lacking(7)
    assert "has no readings yet, so it is not worked" in lacking(8)
    for mean_, taken in (("0.1", True), ("0", False), ("89.9", True), ("90", False)):
        assert ("the mean that was noted is taken" in lacking(8, mean=mean_)) is taken


def test_a_reading_that_is_missing_is_said_before_all_else_and_the_scale_is_seen_in_the_others():
    """Seven of eight, in half degrees: what is missing is named, with its cell, and no step of 1° is made up."""
    found = checked(Row("17.5", ("44", "44.5", "44", "44.5", "44", "", "44", "44.5")))
    assert [f.key for f in found.findings][0] == "incomplete" and found.findings[0].level == "look"
    assert found.findings[0].cells == ("reading6-1",) and "west arm, N east, end ②" in found.findings[0].text
    assert found.givens.step_shown == 0.5 and "0.5°" in paper(found)
    bare = checked(Row("17.5"))
    assert bare.givens.step_shown is None and "Scale step" not in paper(bare)


def test_the_scale_step_is_seen_in_the_readings():
    for reading, step in (("44", 1.0), ("44.5", 0.5), ("44.25", 0.25), ("44.2", 0.2), ("44.3", 0.1), ("44.33", 0.1)):
        found = checked(full(reading=reading))
        assert found.givens.step == step and f"a scale read to {step:g}°" in texts(found.findings)
    assert checked(full(), step="1").givens.step == 1.0 and "No scale step" not in texts(
        checked(full(), step="1").findings
    )
    assert checked().givens.step == 1.0 and checked(Row("17.5", mean="44.25")).givens.step == 1.0


def test_what_is_not_judged_is_told():
    few_ = checked(full(), Row("18", mean="40", tan="0.8"), Row("19"), **{"mean-moment": "1.4", "pole": "20"})
    assert "The mean moment and the pole strength cannot be judged while a distance is not worked." in texts(
        few_.findings
    )
    assert "mean-moment" not in few_.values and "moment-1" in few_.values
    assert "cannot be judged" not in texts(checked(full(), pole="20").findings)
    assert "There is no distance that can be worked yet" in texts(checked().findings)
    assert "At most 8 distances are checked; the record has 9." in texts(checked(*[full()] * 9).findings)
    assert "At most" not in texts(checked(*[full()] * 8).findings)


def test_a_mean_next_to_nothing_or_to_a_right_angle_is_not_among_the_points():
    shown = {p.number for p in checked(*(full(reading=r) for r in ("0.4", "0.6", "89.4", "89.6"))).moments.points}
    assert shown == {2, 3}


def test_the_gravest_is_said_first():
    levels = [f.level for f in checked(full("9.9"), full("17.5", "65"), full("17.5", "0"), box="6").findings]
    assert set(levels) == {"amiss", "look", "note"} and levels == sorted(levels, key=("amiss", "look", "note").index)


def test_what_a_terminal_is_told():
    """Wrong entries and remarks with the line they stand on, and nothing of what is right."""
    right = checked(full()).values
    rows = (full(mean="44.50", tan=f"{right['tan-1']:.4f}", bracket="9.9", moment="x"), full("here"))
    made = checked(*rows, B_H="36")
    said = sentences(made, {1: 5, 2: 6, "B_H": 3})
    assert any(s.startswith("Line 5, distance 1, (d² − l²)², “9.9”: ") for s in said)
    assert any(s.startswith("Line 5, distance 1, moment m, “x”: ") for s in said)
    assert any(s.startswith("Line 6, distance 2, d: “here”") for s in said)
    assert not any("tan θ" in s or "mean θ" in s for s in said)
    assert any(s.startswith("Distance 1, (d² − l²)², “9.9”: ") for s in sentences(made, {}))
    few_figures = sentences(checked(full(tan="0.98")), {1: 5})
    assert any(s.startswith("Line 5, distance 1, tan θ: Few figures") for s in few_figures)
    field = sentences(checked(full(), B_H="900"), {"B_H": 3, 1: 5})
    assert any(s.startswith("Line 3, B_H: ") for s in field)
    assert [s for s in said if s in [f.text for f in made.findings]] == [f.text for f in made.findings]


def test_a_slip_in_all_moments_is_not_taken_for_another_field():
    """Twice the right moments, by the factor 2 or by 40 µT for 20 µT: the slip is named and the field left alone."""
    rows = (full("17.5", "56"), full("18.7", "50"), full("20.1", "44"))
    right = checked(*rows, B_H="20").values

    def noted(times):
        cells = (f"{times * right[f'moment-{n}']:.4g}" for n in (1, 2, 3))
        return checked(*(full(r.d, r.readings[0], moment=m) for r, m in zip(rows, cells)), B_H="20")

    assert {v.state for v in noted(2).verdicts.values()} == {"slip"} and "other-field" not in {
        f.key for f in noted(2).findings
    }
    assert {v.state for v in noted(1.37).verdicts.values()} == {"wrong"} and "other-field" in {
        f.key for f in noted(1.37).findings
    }

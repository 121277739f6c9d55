"""A record is checked as an instructor with time would: columns, readings, moments, field.

What is left blank is fine.
"""

import json
import random
import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from exercises.bench.instrument import ALONE, PERFECT, Faults, Magnet, eight_readings
from exercises.kinds.tan_a.kind import SLIPS
from exercises.record import columns, outliers, page, passages
from exercises.record.check import check, sentences
from exercises.record.entries import FIELDS, Record, Row, as_plain, from_plain
from exercises.record.finding import LEVELS
from exercises.record.magnetic_length import rule_named
from exercises.record.paper import paper
from exercises.record.place import angle, field_of
from exercises.record.position import TAN_A
from exercises.record.said import assumed, quote
from generator.build.runtime import ROOT
from tests.benchmarks.records import as_record, simulated
from tests.exercises.slip_values import slip_values

HEAD = {"length": "8.0", "two_l_is": "five-sixths", "B_H": "36", "step": "0.5"}
DS = (0.175, 0.185, 0.199, 0.216)


def rows_of(faults=PERFECT, seed=1, ds=DS, m=1.5, l=1 / 30):
    chance = random.Random(seed)

    def readings(d):
        errors = tuple(chance.gauss(0, 0.15) for _ in range(8))
        return list(eight_readings(Magnet(m, l), 36e-6, d, faults=faults, errors=errors, step=0.5))

    return [(d, readings(d)) for d in ds]


def record_of(rows=None, filled=True, **head) -> Record:
    """A record with its columns rightly filled in."""
    record = as_record({**HEAD, **head}, rows or rows_of())
    if not filled:
        return record
    values = check(record).values
    made = tuple(
        replace(
            r,
            mean=f"{values[f'mean-{i}']:.2f}",
            tan=f"{values[f'tan-{i}']:.4f}",
            bracket=f"{values[f'bracket-{i}']:.4g}",
            moment=f"{values[f'moment-{i}']:.4g}",
        )
        for i, r in enumerate(record.rows, 1)
    )
    return Record({**record.head, "mean-moment": f"{values['mean-moment']:.3g}", "pole": f"{values['pole']:.3g}"}, made)


def with_cell(record: Record, name: str, text: str) -> Record:
    plain = as_plain(record)
    if name in FIELDS:
        plain["head"][name] = text
    else:
        column, row = name.rsplit("-", 1)
        at = plain["rows"][int(row) - 1]
        if column.startswith("reading"):
            at["readings"][int(column[7:]) - 1] = text
        else:
            at[column] = text
    return from_plain(plain)


def keys(record: Record) -> list[str]:
    return [f.key for f in check(record).findings]


def states(record: Record) -> dict[str, str]:
    return {name: v.state for name, v in check(record).verdicts.items()}


# -- columns ---------------------------------------------------------------------


def test_an_honest_record_is_right_in_every_column():
    found = states(record_of())
    assert len(found) == 18 and set(found.values()) == {"right"}


def test_blank_steps_are_fine():
    assert states(record_of(filled=False)) == {}
    blanked = with_cell(with_cell(record_of(), "tan-2", ""), "bracket-3", "")
    assert len(states(blanked)) == 16 and set(states(blanked).values()) == {"right"}


@pytest.mark.parametrize("slip", [s for s in SLIPS if not s.hides], ids=lambda s: s.key)
def test_every_slip_of_a_sheet_is_named_in_a_record(slip):
    record = record_of(filled=False)
    rows = [columns.WorkedDistance(i, d, tuple(r)) for i, (d, r) in enumerate(rows_of(), 1)]
    made = columns.working(TAN_A, rows, 36e-6, 0.08, 0.08 * 5 / 6, rule_named("5/6"))
    step, values = next((s, f[0][1]) for s in made.steps if (f := slip_values(made, s, (slip,), {})))
    name = f"{step.column}-{step.row + 1}" if step.row is not None else step.id
    verdict = check(with_cell(record, name, f"{values[0]:.3g}")).verdicts[name]
    assert verdict.state == "slip" and slip.key in verdict.slips


def test_what_follows_from_a_wrong_entry_is_right_working():
    record = with_cell(record_of(filled=False), "tan-1", "1.1000")
    rows = [columns.WorkedDistance(i, d, tuple(r)) for i, (d, r) in enumerate(rows_of(), 1)]
    moment = columns.working(TAN_A, rows, 36e-6, 0.08, 0.08 * 5 / 6, rule_named("5/6")).value(
        "moment-1", own={"tan-1": 1.1}
    )
    assert states(with_cell(record, "moment-1", f"{moment:.4g}"))["moment-1"] == "follows"


def test_a_right_entry_that_does_not_follow_from_a_wrong_one_says_so_on_the_page_and_in_the_terminal():
    record = record_of()
    tangent = float(next(iter(record.rows)).tan)
    found = check(with_cell(record, "tan-1", f"{tangent * 1.1:.4f}"))
    verdict = found.verdicts["moment-1"]
    assert (verdict.state, verdict.case) == ("right", "right, does not follow")
    assert any(verdict.text in said for said in sentences(found, {}))
    told = json.loads(page.check(json.dumps(as_plain(found.record))))
    assert told["cells"]["moment-1"]["text"] == verdict.text and not told["cells"]["moment-1"]["quiet"]
    listed = [f for f in told["findings"] if f["cells"] == ["moment-1"]]
    assert [f["level"] for f in listed] == ["look"] and told["cells"]["moment-2"]["quiet"]


def test_a_magnetic_length_of_ones_own_is_used_as_it_stands():
    record = record_of(two_l_is="stated", two_l="7.2")
    assert set(states(record).values()) == {"right"}
    values, found = check(record).values, check(record)
    assert found.givens.two_l == pytest.approx(0.072) and values["pole"] == pytest.approx(values["mean-moment"] / 0.072)
    wrong = check(with_cell(record, "pole", f"{values['mean-moment'] / 0.08:.3g}")).verdicts["pole"]
    assert wrong.slips == ("measured-length",) and "5/6" not in wrong.text and "2l of its own" in wrong.text
    alone = {k: v for k, v in record.head.items() if k != "length"}
    assert set(states(Record(alone, record.rows)).values()) == {"right"}
    half = f"{check(record).values['pole'] * 2:.3g}"
    assert check(with_cell(record, "pole", half)).verdicts["pole"].slips == ("half-length-for-length",)


def test_two_records_of_different_own_lengths_do_not_disturb_each_other():
    one, two = (record_of(two_l_is="stated", two_l=x) for x in ("7.2", "6.0"))
    for record in (one, two, one):
        slipped = check(record).values["bracket-1"] ** 0.5
        assert check(with_cell(record, "bracket-1", f"{slipped:.4g}")).verdicts["bracket-1"].slips == (
            "bracket-not-squared",
        )


def test_a_mean_alone_stands_for_readings_that_are_not_there():
    record = record_of()
    bare = Record(record.head, (replace(record.rows[0], readings=("",) * 8), *record.rows[1:]))
    found = check(bare)
    assert "mean-1" not in found.verdicts and {v.state for v in found.verdicts.values()} == {"right"}
    assert any("has no readings yet, so the mean" in f.text for f in found.findings)
    lacking = with_cell(with_cell(record, "reading3-2", ""), "mean-2", "")
    text = " ".join(sentences(check(lacking), {}))
    assert "Distance 2 lacks one reading of its eight: east arm, N west, end ①, so it is not worked" in text
    assert "mean-moment" not in check(lacking).verdicts and "cannot be judged while a distance is not worked" in text


def test_without_length_or_field_the_rest_is_judged():
    record = record_of()
    no_length = Record({**record.head, "length": ""}, record.rows)
    assert set(check(no_length).verdicts) == {f"{c}-{i}" for c in ("mean", "tan") for i in range(1, 5)}
    no_field = Record({**record.head, "B_H": ""}, record.rows)
    assert "bracket-1" in check(no_field).verdicts and "moment-1" not in check(no_field).verdicts
    assert {"no-length", "no-field"} <= {*keys(no_length), *keys(no_field)}


# -- readings --------------------------------------------------------------------


@pytest.mark.parametrize(
    "change, words",
    [
        (lambda x: x + 10, "read 10° too large"),
        (lambda x: x - 5, "read 5° too small"),
        (lambda x: 90 - x, "90° less the reading"),
        (lambda x: 10 * (x // 1 % 10) + x // 10, "two figures exchanged"),
        (lambda x: x / 10, "point one place too far"),
        (lambda x: 2 * (x // 10 * 10) + 10 - x, "backwards"),
    ],
)
def test_a_misread_value_is_named_with_what_it_looks_like(change, words):
    for row, k in ((2, 6), (3, 1)):
        rows = rows_of(Faults(box_turned=-0.7, pivot_x=4e-4))
        rows[row][1][k] = change(rows[row][1][k])
        found = [f for f in check(as_record(HEAD, rows)).findings if f.key == "misread"]
        assert [f.cells for f in found] == [(f"reading{k + 1}-{row + 1}",)]
        assert words in found[0].text, found[0].text


def test_of_one_distance_a_misreading_is_found_too():
    rows = rows_of(ds=(0.199,))
    rows[0][1][5] += 10
    found = [f for f in check(as_record(HEAD, rows)).findings if f.key == "misread"]
    assert [f.cells for f in found] == [("reading6-1",)]


def test_one_arm_at_another_distance_is_told_from_a_misreading():
    rows = rows_of()
    other = rows_of(ds=tuple(d + 0.006 for d in DS), seed=5)
    rows[1][1][4:] = other[1][1][4:]
    found = [f for f in check(as_record(HEAD, rows)).findings if f.key in ("misread", "side")]
    assert [f.key for f in found] == ["side"]
    assert "Distance 2: the readings on the east arm" in found[0].text and "same distance on both arms" in found[0].text


@pytest.mark.parametrize(
    "fault, size, key, words",
    [
        ("pivot", 1e-3, "ends", "pivot off the centre"),
        ("pivot north", -1e-3, "ends by north", "pivot off the centre"),
        ("zero", -2.0, "north", "That is the pattern of a zero error of 1.9° (the box"),
        (
            "first-turn",
            5.0,
            "north",
            "That is the pattern of the first turn left out or not quite made (the box was 4.9° off",
        ),
        (
            "pointer",
            5.0,
            "north",
            "or the pointer is as far off square to the needle, or the magnet lay about twice as",
        ),
        ("magnet", 8.0, "north", "or the magnet lay about twice as far off the line of the arms)."),
        (
            "second-turn",
            5.0,
            "north",
            "That is the pattern of the second turn left out or not quite made (the board was 5.1° off",
        ),
        (
            "second-turn",
            -5.0,
            "north",
            "That is the pattern of the second turn left out or not quite made (the board was",
        ),
        ("box", 3e-3, "arms", "does not sit at the zero of the distance scale, by about 3"),
        ("centre", -3e-3, "outward", "magnetic centre is not its middle, by about 3"),
    ],
)
def test_the_patterns_of_the_faults(fault, size, key, words):
    others = {"pivot north": Faults(pivot_y=size), "magnet": Faults(magnet_turned=size)}
    faults = others.get(fault) or ALONE[fault](size)
    found = check(as_record(HEAD, rows_of(faults))).findings
    said = [f for f in found if f.key in outliers.SIDES or f.key == "ends by north"]
    assert [f.key for f in said] == [key] and words in said[0].text, said
    assert said[0].read.endswith("#what-each-pair-removes")


def test_readings_one_division_apart_are_not_called_misread():
    """With a zero error alone all eight should be two numbers, and each is rounded to one of two divisions."""
    chance = random.Random("divisions")
    for _ in range(60):
        record, _ = simulated(chance, ALONE["zero"](chance.choice((-2.0, 2.0))))
        assert not [f.text for f in check(record).findings if f.key in ("misread", "side")]


def test_readings_in_each_others_columns():
    rows = rows_of(ALONE["zero"](3.0))
    for _, r in rows:
        r[0], r[2] = r[2], r[0]
    assert any("each other's columns" in f.text for f in check(as_record(HEAD, rows)).findings)


def test_outside_the_band():
    found = [f for f in check(as_record(HEAD, rows_of(ds=(0.15, 0.2, 0.3)))).findings if f.key == "outside"]
    assert [f.cells for f in found] == [("d-1",), ("d-3",)]
    assert "farther off" in found[0].text and "nearer" in found[1].text and "common practice" in found[0].text


# -- moments, field, magnet ---------------------------------------------------------


def test_a_distance_misread_is_named_with_the_one_that_would_fit():
    rows = rows_of()
    rows[2] = (rows[2][0] + 0.01, rows[2][1])
    found = next(f for f in check(as_record(HEAD, rows)).findings if f.key == "apart")
    assert "Distance 3" in found.text and "would fit d = 19.9 cm instead of 20.9 cm" in found.text


def test_a_distance_whose_eight_readings_are_all_complements():
    rows = rows_of()
    rows[0] = (rows[0][0], [90 - x for x in rows[0][1]])
    found = next(f for f in check(as_record(HEAD, rows)).findings if f.key == "apart")
    assert "Distance 1" in found.text and "all eight are 90° less the reading" in found.text


def test_a_trend_is_told_from_noise_and_does_not_accuse_the_field():
    assert "trend" not in keys(as_record(HEAD, rows_of()))
    rise = next(f for f in check(as_record({**HEAD, "length": "16"}, rows_of())).findings if f.key == "trend")
    assert "rise by" in rise.text and "do not tell which" in rise.text
    assert "A wrong B_H would not do this" in rise.text
    assert "trend" not in keys(as_record({**HEAD, "B_H": "24"}, rows_of()))


def test_the_field_that_was_typed_beside_the_model():
    at = {"place": "Bergen", "date": "2026-03-14"}
    assert "field" not in keys(record_of(**at, B_H="15.2"))
    whole = next(f for f in check(record_of(**at, B_H="51.0")).findings if f.key == "field")
    assert "the whole field" in whole.text and whole.level == "amiss"
    iron = next(f for f in check(record_of(**at, B_H="16.5")).findings if f.key == "field")
    assert "Iron in the building" in iron.text and "10 % more" in iron.text


@pytest.mark.parametrize(
    "head, cell, words",
    [
        (
            {"place": "Bergen", "date": "2024-03-14"},
            "date",
            "knows the years 2025 to 2029, and “2024-03-14” is not in them. If",
        ),
        ({"place": "Bergen", "date": "3 May 2031"}, "date", "type B_H itself"),
        ({"place": "Bergen", "date": "2026-02-30"}, "date", "calendar"),
        ({"place": "Bergen", "date": "3/4/2026"}, "date", "two ways. Type the year first: 2026-03-04 or 2026-04-03"),
        ({"place": "Bergen"}, "date", "With the date"),
        ({"place": "Saltmarsh", "date": "2026-03-14"}, "place", "none of the places"),
        ({"latitude": "95", "longitude": "5", "date": "2026-03-14"}, "latitude", "between −90° and 90°"),
        ({"latitude": "here", "longitude": "5", "date": "2026-03-14"}, "latitude", "not read"),
    ],
)
def test_a_place_or_date_that_gives_no_field(head, cell, words):
    found = field_of(Record(head), None)
    assert found.B_H is None and words in found.problems[cell]


@pytest.mark.parametrize("date", ["2019-10-02", "14 March 2024", "2031-01"])
def test_a_date_outside_the_model_is_named_as_it_was_typed(date):
    """Never as a decimal year, and with what to do; a B_H that is typed is used all the same."""
    here = {"place": "Bergen", "date": date}
    asked, typed = field_of(Record(here), None).problems["date"], field_of(Record(here), 15.2e-6)
    assert f"“{date}”" in asked and "type B_H itself" in asked
    assert typed.B_H == 15.2e-6 and not typed.problems and f"“{date}”" in typed.not_compared
    notes = [f for f in check(record_of(**here, B_H="15.2")).findings if f.key == "field"]
    assert [(f.level, f.text) for f in notes] == [("note", typed.not_compared)]
    whole = [f.level for f in check(record_of(**here, B_H="51.0")).findings if f.key == "field"]
    assert whole == ["look", "note"]


def test_the_last_day_of_the_model_is_inside_and_the_day_after_is_not():
    last, after = (field_of(Record({"place": "Bergen", "date": d}), None) for d in ("2029-12-31", "2030-01-02"))
    assert last.B_H is not None and "date" not in last.problems
    assert after.B_H is None and "2030-01-02" in after.problems["date"]


def test_dates_and_angles_as_people_write_them():
    dates = ("2026-03-14", "14.3.2026", "14 March 2026", "14/3/2026", "3/14/2026", "March 14, 2026", "2026-03-14 10:30")
    fields = [field_of(Record({"place": "Bogota", "date": d}), None).model for d in dates]
    assert len(set(fields)) == 1 and fields[0] is not None
    typed = ("60.4", "60,4° N", "33° 54' S", "-33.9", "70.5W", "x", "")
    assert [angle(t) for t in typed] == pytest.approx([60.4, 60.4, -33.9, -33.9, -70.5, None, None])


def test_moments_worked_with_another_field_are_told_by_their_common_ratio():
    record = record_of()
    other = Record({**record.head, "B_H": "38.5"}, record.rows)
    found = next(f for f in check(other).findings if f.key == "other-field")
    assert "would fit B_H = 36.0 µT" in found.text
    assert "other-field" not in keys(record)
    assert "other-field" not in keys(with_cell(with_cell(record, "moment-1", "1.42"), "moment-2", "1.61"))


def test_a_moment_no_magnet_of_that_size_has():
    size = {"width": "1.2", "thickness": "0.6"}
    assert "Look at the lengths" not in " ".join(f.text for f in check(record_of(**size)).findings)
    small = next(f for f in check(record_of(width="0.3", thickness="0.3")).findings if f.key == "size")
    assert small.level == "amiss" and "No magnet keeps so much" in small.text


def test_a_magnet_at_the_box():
    found = check(as_record({**HEAD, "box": "14"}, rows_of())).findings
    assert [f.level for f in found if f.key == "box"] == ["amiss", "note"]


# -- result, page, paper ---------------------------------------------------------------


def test_the_result_and_what_putting_right_does_to_it():
    honest = check(as_record(HEAD, rows_of())).moments.result
    rows = rows_of()
    rows[1][1][2] += 10
    spoilt = check(as_record(HEAD, rows)).moments
    assert abs(honest.moment.value - 1.5) < honest.moment.U
    assert spoilt.result.moment.value > honest.moment.value * 1.003
    assert spoilt.corrected.moment.value == pytest.approx(honest.moment.value, rel=2e-3)
    assert spoilt.result.terms["angle"] > honest.terms["angle"]


def test_what_is_known_of_2l_and_of_the_needle_makes_a_result_surer():
    """A rule says less than the measured length; a 2l that is stated and a needle that is told say more."""
    by_rule = check(as_record(HEAD, rows_of())).moments.result
    other_rule = check(as_record({**HEAD, "two_l_is": "given"}, rows_of())).moments.result
    two_l = 5 / 6 * float(HEAD["length"])
    stated = check(as_record({**HEAD, "two_l_is": "stated", "two_l": f"{two_l:.3f}"}, rows_of())).moments.result
    told = check(as_record({**HEAD, "needle": "1.6"}, rows_of())).moments.result
    assert other_rule.moment.value == pytest.approx(by_rule.moment.value, rel=1e-3)
    assert other_rule.pole.value == pytest.approx(by_rule.pole.value, rel=5e-3)
    assert stated.pole.U < by_rule.pole.U / 3 and stated.terms["2l"] < by_rule.terms["2l"] / 3
    assert stated.two_l.value == pytest.approx(two_l / 100, rel=5e-3)
    assert told.terms["needle"] < by_rule.terms["needle"] / 3


def test_what_was_assumed_is_said():
    def said(**head):
        checked = check(as_record({**HEAD, **head}, rows_of()))
        return " ".join(assumed(checked.givens, checked.moments.result))

    rule = said()
    assert "The table takes 2l as 5/6 of the measured length" in rule and "from 0.78 to 1.01 times" in rule
    assert "The length of the needle is not given, so it was counted as 1.0 to 2.5 cm." in rule
    told = said(needle="1.6", two_l_is="stated", two_l="6.5")
    assert "2l was counted as stated, 6.50 cm, good to 2 %." in told and "The needle is 1.6 cm long." in told
    assert "The standard uncertainty of m is " in told and "scatter" not in told


def test_quoting():
    assert quote(0.8234, 0.0049, "A·m²") == "(0.823 ± 0.005) A·m²"
    assert quote(12345.0, 210.0, "A·m") == "(12.3 ± 0.2) × 10³ A·m"
    assert quote(0.00123, 0.00002, "A·m²") == "(1.23 ± 0.02) × 10⁻³ A·m²"


def test_the_page_s_answers_and_that_nothing_typed_is_taken_for_markup():
    evil = '<img src=x onerror="alert(1)">'
    record = with_cell(record_of(name=evil, magnet=evil, place=evil), "tan-1", evil)
    record = with_cell(with_cell(with_cell(record, "d-2", evil), "reading1-3", evil), "pole", evil)
    found = json.loads(page.check(json.dumps(as_plain(record))))
    assert "<img" not in found["paper"] and all("<img" not in f["html"] for f in found["findings"])
    assert found["cells"]["tan-1"]["state"] == "unread" and found["cells"]["d-2"]["state"] == "ask"


PASSAGES = {name: address for name, address in vars(passages).items() if name.isupper()}


@pytest.mark.parametrize("address", PASSAGES.values(), ids=PASSAGES)
def test_every_passage_that_is_pointed_at_exists(address):
    page_address, _, anchor = address.partition("/#")
    content = (ROOT / "content" / f"{page_address.rstrip('/')}.md").read_text().lower()
    heads = {
        re.sub(r"[^a-z0-9]+", "-", re.sub(r"\$.*?\$", "", head)).strip("-")
        for head in re.findall(r"^#+ (.+)$", content, re.M)
    }
    assert not anchor or anchor in heads


def test_findings_are_data():
    """A finding's level is one of three, it sends to a passage that is listed, and it is about cells that exist."""
    chance = random.Random(9)
    seen = set()
    for n in range(60):
        record, rows = simulated(chance, ALONE["zero"](3.0) if n % 3 else None, count=1 + n % 6)
        rows[0][1][n % 8] += (0, 10, -5)[n % 3]
        head = {**record.head, "box": "9", "width": "1", "thickness": "1", "length": ("8", "16")[n % 2]}
        noted = as_record(head, rows)
        cells = {name for name, _ in noted.cells()}
        for f in check(noted).findings:
            assert f.level in LEVELS and f.key and f.text.endswith((".", "?"))
            assert f.read in ("", *PASSAGES.values()) and cells.issuperset(f.cells)
            seen.add(f.key)
    assert seen >= {"misread", "north", "box", "near", "size", "few", "trend"}


def test_a_saved_record_opens_in_the_page_as_it_was():
    plain = as_plain(record_of(name="Sanderling"))
    saved = json.loads(page.save(json.dumps(plain)))
    assert json.loads(page.open_file(saved["csv"]))["record"] == plain
    assert json.loads(page.open_file(saved["csv"].encode("utf-16")))["record"] == plain
    assert json.loads(page.open_file(b"PK\x03\x04"))["ok"] is False
    assert json.loads(page.open_file(json.loads(page.blank())["csv"]))["ok"] is True


def test_the_paper_has_every_part():
    html = paper(check(record_of(name="Ringed Plover")))
    for part in (
        "Ringed Plover",
        "Signed",
        "<svg",
        "5/6 of the measured length",
        "expanded uncertainty",
        "rc-table",
    ):
        assert part in html
    assert paper(check(Record())) == ""


KEYS = [*FIELDS, "head", "rows", "d", "readings", "mean", "tan"]
JUNK = st.recursive(
    st.none()
    | st.booleans()
    | st.floats()
    | st.text(max_size=20)
    | st.sampled_from(["44", "17.5", "0", "1e30", "-3", "90", "0.1"]),
    lambda inner: st.lists(inner, max_size=9) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=6),
    max_leaves=20,
)
CELLS = st.sampled_from(["", "44", "44.5", "0", "90", "89.9", "45.0.1", "x", "0.001", "17", "1e-3", "200", "-44"])


@settings(max_examples=60, deadline=None)
@given(JUNK)
def test_no_json_crashes_the_page(junk):
    for data in (junk, {"head": HEAD, "rows": junk}, {"head": junk, "rows": as_plain(record_of())["rows"]}):
        assert "findings" in json.loads(page.check(json.dumps(data)))


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.lists(CELLS, min_size=13, max_size=13), max_size=5),
    st.dictionaries(st.sampled_from(list(FIELDS)), CELLS, max_size=8),
)
def test_no_numbers_crash_the_page(rows, head):
    made = Record({**HEAD, **head}, tuple(Row(r[0], tuple(r[1:9]), *r[9:]) for r in rows))
    assert "findings" in json.loads(page.check(json.dumps(as_plain(made))))


def test_simulated_records_are_never_called_wrong_where_they_are_right():
    chance = random.Random(4)
    for _ in range(20):
        record, rows = simulated(chance)
        filled = record_of(rows, **record.head)
        assert set(states(filled).values()) == {"right"}


def test_a_result_that_rests_on_moments_that_are_struck_out_is_not_simply_right():
    """The mean of four moments, two of which are wrong, follows from them, even where it comes near the right one."""
    record = record_of()
    noted = [float(row.moment) for row in record.rows]
    for at, share in ((1, 1.08), (3, 0.91)):
        record = with_cell(record, f"moment-{at}", f"{noted[at - 1] * share:.4g}")
        noted[at - 1] *= share
    mean = sum(noted) / len(noted)
    record = with_cell(record, "mean-moment", f"{mean:.4g}")
    found = states(with_cell(record, "pole", f"{mean / (5 / 6 * 0.08):.4g}"))
    assert [found[k] for k in ("moment-1", "moment-3", "mean-moment", "pole")] == [
        "wrong",
        "wrong",
        "follows",
        "follows",
    ]

"""A record says how 2l is known: every rule, every way of saying it, a record that does not say, and an old file."""

import json

import pytest

from exercises.codes.sheet_code import Setting, Station, write_setting
from exercises.record import page
from exercises.record.check import check
from exercises.record.columns import slips_for_record
from exercises.record.entries import Record, Row, as_plain
from exercises.record.file import blank, opened, written
from exercises.record.laboratory import notes_of, otherwise, taken, with_settings
from exercises.record.magnetic_length import rule_named
from exercises.record.paper import paper
from exercises.record.position import TAN_A

ROWS = tuple(Row(d, (reading,) * 8) for d, reading in (("17.5", "57"), ("18.7", "51.5"), ("20.1", "45"), ("22", "37")))


def record(rows=ROWS, **head):
    return Record({"length": "8.4", "B_H": "36", "step": "0.5", **head}, rows)


def cells_of(checked, key):
    return [f.cells for f in checked.findings if f.key == key]


@pytest.mark.parametrize(
    "head, two_l",
    [
        ({"two_l_is": "stated", "two_l": "7.1"}, 0.071),
        ({"two_l_is": "given"}, 0.084),
        ({"two_l_is": "The length given"}, 0.084),
        ({"two_l_is": "five-sixths"}, 0.070),
        ({"two_l_is": "5/6 of the measured length"}, 0.070),
    ],
)
def test_each_rule_gives_its_own_2l_to_every_column(head, two_l):
    """(d² − l²)² and p = m / 2l worked here from what each rule says."""
    found = check(record(**head))
    assert found.givens.two_l == pytest.approx(two_l)
    assert found.values["bracket-1"] == pytest.approx((0.175**2 - (two_l / 2) ** 2) ** 2)
    assert found.values["pole"] == pytest.approx(found.values["mean-moment"] / two_l)
    assert not found.problems and f"{100 * two_l:.2f} cm, " in paper(found)


def test_a_record_that_does_not_say_is_asked_and_judged_as_far_as_it_can_be():
    found = check(record((Row("17.5", ("57",) * 8, "57.0", "1.5399", "0.0008"),)))
    assert cells_of(found, "no-rule") == [("two_l_is",)] and not cells_of(found, "no-length")
    assert set(found.verdicts) == {"mean-1", "tan-1"} and found.moments is None
    typed = check(record(two_l="7.1"))
    assert typed.givens.two_l == pytest.approx(0.071) and cells_of(typed, "two-l") == [("two_l_is",)]
    assert check(record(length="")).problems == {} and cells_of(check(record(length="")), "no-length")


def test_what_the_rule_needs_is_asked_for_in_its_own_cell():
    assert list(check(record(two_l_is="stated")).problems) == ["two_l"]
    assert list(check(record(two_l_is="given", length="")).problems) == ["length"]
    assert list(check(record(two_l_is="as ever")).problems) == ["two_l_is"]
    assert list(check(record(two_l_is="stated", two_l="x")).problems) == ["two_l"]


@pytest.mark.parametrize("typed, heard", [("7.0", False), ("7.03", False), ("7.2", True)])
def test_a_2l_that_the_rule_does_not_use_is_said(typed, heard):
    found = check(record(two_l_is="five-sixths", two_l=typed))
    assert found.givens.two_l == pytest.approx(0.07) and bool(cells_of(found, "two-l")) is heard


@pytest.mark.parametrize("head", [{"two_l_is": "given"}, {"two_l_is": "stated", "two_l": "8.4"}])
def test_five_sixths_is_the_slip_where_2l_is_known_itself(head):
    values = check(record(**head)).values
    wrong = check(record(**head, pole=f"{values['mean-moment'] / 0.07:.4g}", **{"mean-moment": "x"}))
    named = {s.key for s in slips_for_record(TAN_A, head["two_l_is"])}
    assert "five-sixths-taken" in named and "five-sixths-taken" not in {
        s.key for s in slips_for_record(TAN_A, "five-sixths")
    }
    bracket = (0.175**2 - 0.035**2) ** 2
    rows = (Row("17.5", ("57",) * 8, bracket=f"{bracket:.4g}"), *ROWS[1:])
    verdict = check(record(rows, **head)).verdicts["bracket-1"]
    assert verdict.slips == ("five-sixths-taken",) and "record" in verdict.text and "sheet" not in verdict.text
    assert wrong.verdicts["pole"].state != "right"


def test_nobody_is_told_of_five_sixths_where_the_length_given_is_2l():
    """Only the slip that takes it speaks of it."""
    found = check(record(two_l_is="given"))
    told = [f.text for f in found.findings] + [paper(found), found.givens.rule.half_is, found.givens.rule.whole_is]
    assert not any("5/6" in text for text in told)
    assert [s.key for s in slips_for_record(TAN_A, "given") if "5/6" in s.says] == ["five-sixths-taken"]


def test_the_file_has_a_line_for_it_and_an_old_one_is_read_with_a_note():
    made = record(two_l_is="given", two_l="")
    assert opened(written(made)).record.head["two_l_is"] == "given"
    assert "how 2l is known (stated, given or five-sixths)" in blank()
    old = "measured length (cm),8.4\nB_H (µT),36\nd (cm),1,2,3,4,5,6,7,8\n17.5,57,57,57,57,57,57,57,57\n"
    answer = json.loads(page.open_file(old))
    assert answer["record"]["head"]["two_l_is"] == "five-sixths"
    assert [note for note in answer["notes"] if "does not say how 2l is known" in note]
    own = json.loads(page.open_file("magnetic length 2l (cm),7.0\n" + old))
    assert own["record"]["head"]["two_l_is"] == "" and not own["notes"]
    words = json.loads(page.open_file("how 2l is known,The length given\n" + old))
    assert words["record"]["head"]["two_l_is"] == "given" and not words["notes"]


def test_a_laboratory_fills_only_what_is_blank_and_says_so():
    setting = Setting("given", 38.2, scale_step=0.5)
    assert taken(setting, {}) == {"two_l_is": "given", "B_H": "38.2", "step": "0.5"}
    assert taken(setting, {"two_l_is": "stated", "place": "Pune", "step": "1"}) == {}
    assert taken(setting, {"two_l": "7.0", "latitude": "60", "step": "1"}) == {}
    assert taken(Setting(field=Station(3, 2027, 5)), {}) == {"two_l_is": "stated", "place": "Bergen", "date": "2027-05"}
    dated = {"date": "2026-01-02", "two_l": "7"}
    assert taken(Setting(field=Station(3, 2027, 5)), dated) == {"two_l_is": "stated", "place": "Bergen"}
    assert [note for note in notes_of(setting, {}) if "field is 38.2 µT" in note]
    filled, notes = with_settings(record(), setting)
    assert filled.head["two_l_is"] == "given" and filled.head["B_H"] == "36"
    assert ["2l is" in note for note in notes] == [True, False] and "field is 38.2 µT" in notes[1]


def test_what_a_laboratory_has_otherwise_is_said_and_nothing_that_is_not_certain():
    setting, bergen = Setting("given", 38.2, scale_step=0.5), Setting(field=Station(3, 2027, 5))
    alike = {"two_l_is": "The length given", "B_H": "38,20", "step": "0.5"}
    assert otherwise(setting, alike) == otherwise(setting, {}) == {} and notes_of(setting, alike) == ()
    assert otherwise(setting, {"two_l_is": "5/6", "B_H": "36", "step": "1"}) == taken(setting, {})
    for elsewhere in ({"place": "Pune"}, {"latitude": "60.4"}):
        assert otherwise(setting, elsewhere) == {"B_H": "38.2"}
    assert otherwise(setting, {"two_l": "7.0"}) == {"two_l_is": "given"} and otherwise(bergen, {"two_l": "7.0"}) == {}
    assert otherwise(bergen, {"place": "Pune"}) == {"place": "Bergen"}
    for perhaps in ({"place": "bergen", "date": "2026-03-14"}, {"B_H": "15"}, {"two_l_is": "as ever"}):
        assert otherwise(bergen, perhaps) == {}
    assert otherwise(setting, {"B_H": "0.382 G", "step": "½"}) == {}


def test_the_page_reads_a_laboratory_s_code():
    lab, plain = write_setting(Setting("given", 38.2)), json.dumps(as_plain(record(B_H="")))
    answer = json.loads(page.laboratory(lab, plain))
    assert answer["ok"] and answer["cells"] == {"two_l_is": "given", "B_H": "38.2"} and len(answer["notes"]) == 1
    for wrong in (lab[:-1], "222-222-2", "?" * 300):
        refused = json.loads(page.laboratory(wrong, plain))
        assert not refused["ok"] and refused["text"]
    assert not json.loads(page.open_file("d (cm),mean\n17.5,57\n", "22"))["ok"]


def test_the_words_of_a_rule():
    assert [rule_named(w).key for w in ("2l stated", "LENGTH", "five sixths", "5 / 6")] == [
        "stated",
        "given",
        "five-sixths",
        "five-sixths",
    ]
    assert rule_named("") is None and rule_named("6/5") is None

"""At the bench: the order of the trade, what is said at once, where to lay the magnet next, and what it has come to."""

import json
import random

import numpy as np
import pytest

from exercises.bench.fault_fit import variance
from exercises.bench.field import deflection, distance_end_on, end_on
from exercises.bench.instrument import EIGHT, Magnet, eight_readings
from exercises.codes.sheet_code import Setting, write_setting
from exercises.record import page as record_page
from exercises.record.beside import page
from exercises.record.beside.forecast import ANY_DEFLECTION, UNUSUAL, Bench, Forecast, Law, Seen
from exercises.record.beside.proposal import APART, CLEAR, FROM, TO
from exercises.record.beside.settling import LEAST, NARROWS
from exercises.record.check import check
from exercises.record.entries import MOST_ROWS, READINGS, from_plain
from exercises.record.estimate import Known
from exercises.record.said import stated
from tests.benchmarks.records import instrument

HEAD = {"two_l_is": "given", "length": "8", "B_H": "36", "step": "0.5"}
MAGNET, FIELD = Magnet(1.5, 0.04), 36e-6


def state(rows, head=HEAD, zero=("0", "0.5"), **more) -> str:
    """What the page keeps; of each row (d in cm, its readings as typed)."""
    listed = [{"d": d, "readings": [*readings, *[""] * (8 - len(readings))]} for d, readings in rows]
    return json.dumps({"head": head, "zero": list(zero), "rows": listed, **more})


def now(rows, at="", **more):
    return json.loads(page.now(state(rows, **more), at))


def eight(d) -> list[str]:
    """What an instrument without faults shows at d cm, as typed."""
    return [f"{x:g}" for x in eight_readings(MAGNET, FIELD, d / 100, step=0.5)]


def row(d, count=8) -> tuple[str, list[str]]:
    return f"{d:g}", eight(d)[:count]


# -- the order ---------------------------------------------------------------------


def test_the_order_is_that_of_the_trade():
    """Both ends of the zero, then d, then the eight as content/before/eight-readings.md has them."""
    zero, rows, asked = ["", ""], [], []
    while len(rows) < 2:
        coming = now(rows, zero=zero)["next"]
        asked.append((coming["cell"], coming["do"], coming["ask"]))
        if coming["cell"].startswith("zero"):
            zero[int(coming["cell"][-1]) - 1] = "0"
        elif coming["reading"] is None:
            rows.append((f"{20 + 2 * len(rows)}", []))
        else:
            rows[-1][1].append(eight(float(rows[-1][0]))[coming["reading"] - 1])
    assert [cell for cell, _, _ in asked] == ["zero-1", "zero-2", "d-1", *(f"{r}-1" for r in READINGS), "d-2"]
    moved = [do for _, do, _ in asked[3:11]]
    assert moved == [
        "Lay the magnet on the east arm, N to the east, its middle at 20 cm. Tap.",
        "",
        "Turn the magnet end for end: N to the west, its middle at 20 cm again. Tap.",
        "",
        "Carry the magnet to the west arm: N to the east, its middle at 20 cm. Tap.",
        "",
        "Turn the magnet end for end: N to the west, its middle at 20 cm again. Tap.",
        "",
    ]
    assert [ask for _, _, ask in asked[3:11]] == ["Read end ①.", "Read end ②."] * 4
    assert asked[0][1] and not asked[1][1]


def test_plans_are_the_eight():
    plans = now([])["plans"]
    assert [(p["arm"], p["north"], p["end"]) for p in plans] == list(EIGHT)
    assert [p["moves"] for p in plans] == [True, False] * 4 and all(p["needle"] == p["north"] for p in plans)


def test_what_is_not_read_is_asked_again_and_what_is_begun_first():
    found = now([("20", ["44", "4four", "44"])], at="reading2-1")
    assert found["next"]["cell"] == "reading2-1" and found["said"]["key"] == "unread"
    assert found["problems"] == {"reading2-1": found["said"]["text"]} and found["read"] == 2
    assert now([row(20, 3), row(22)])["next"]["cell"] == "reading4-1"
    assert now([("", []), row(22)])["next"]["cell"] == "d-3"
    assert now([("x", ["44"])])["next"]["cell"] == "d-1"
    assert now([row(20)] * MOST_ROWS)["next"] is None
    strange = now([], zero=["up", "200"], at="zero-1")
    assert strange["next"]["cell"] == "zero-1" and set(strange["problems"]) == {"zero-1", "zero-2"}


def test_the_zero_check():
    assert now([], zero=["1", "0.5"], at="zero-1")["said"] is None
    said = now([], zero=["0", "-2.5"], at="zero-2")["said"]
    assert said["key"] == "zero" and "2.5°" in said["text"] and said["cells"] == ["zero-2"]


# -- what is said at once ---------------------------------------------------------------


def with_reading(rows, at, text):
    """The rows with another reading in a cell (row, place), and what is said of it."""
    rows = [(d, list(readings)) for d, readings in rows]
    rows[at[0]][1][at[1]] = text
    return now(rows, f"reading{at[1] + 1}-{at[0] + 1}")["said"]


@pytest.mark.parametrize("off", (-10, -5, 5, 10))
@pytest.mark.parametrize("at", [(0, 1), (0, 2), (0, 3), (0, 4), (0, 7), (1, 0), (1, 1), (1, 5)])
def test_a_misreading_is_asked_about_at_once(at, off):
    rows = [row(20), row(21.5)][: at[0]] + [row((20, 21.5)[at[0]], at[1] + 1)]
    right = float(rows[at[0]][1][at[1]])
    assert with_reading(rows, at, f"{right:g}") is None
    said = with_reading(rows, at, f"{right + off:g}")
    assert f"reading{at[1] + 1}-{at[0] + 1}" in said["cells"]
    assert said["text"].endswith(".") and ". " not in said["text"]  # one sentence
    assert f"{abs(off)}°" in said["text"]
    if at == (0, 1):
        assert said["cells"] == ["reading1-1", "reading2-1"] and said["key"] == "ends"
    if at == (1, 0):
        assert "d-2" in said["cells"] and said["key"] == "row" and "21.5 cm" in said["text"]


def test_the_comparison_has_a_name():
    at = [(0, 1), (0, 2), (0, 3), (0, 4), (0, 6), (1, 0)]
    keys = ["ends", "reversed", "ends", "arms", "reversed", "row"]
    for (r, k), key in zip(at, keys, strict=True):
        assert with_reading([row(20), row(21.5)][: r + 1], (r, k), "34")["key"] == key, (r, k)


def test_how_it_was_misread():
    rows = [row(20), row(22)]  # 49° and 40°
    assert "figures exchanged" in with_reading([row(22), row(23)], (1, 5), "63")["text"]  # 36°
    assert "wrong end of the quarter" in with_reading([row(20), row(23)], (1, 5), "54")["text"]  # 90° − 36°
    assert "one may be read 10° off" in with_reading([row(22, 2)], (0, 1), "50")["text"]
    strange = with_reading(rows, (1, 5), "43")["text"]
    assert "looks like" not in strange and "43° stands here" in strange and "40°" in strange


def test_a_reading_over_90_whose_figures_exchanged_would_fit_is_a_question():
    """49° is to be expected at 20 cm; the first reading of all is to lie within 30° to 60°."""
    for typed, text in [
        ("94", "94° is over 90°. Did you read 49°?"),
        ("94,5", "94.5° is over 90°. Did you read 49.5°?"),
    ]:
        for count in (0, 4):
            found = now([("20", [*eight(20)[:count], typed])], at=f"reading{count + 1}-1")
            assert found["said"]["text"] == text and found["said"]["key"] == "unread"
            assert found["problems"] == {f"reading{count + 1}-1": text} and found["read"] == count
    for typed in ("93", "99", "194", "90.5"):  # 39° does not go with 49°
        said = now([("20", [*eight(20)[:4], typed])], at="reading5-1")["said"]["text"]
        assert said.startswith(f"“{typed}” was not used. A reading lies between 0° and 90°."), typed
    assert "was not used" in now([("x", ["94"])], at="reading1-1")["said"]["text"]


def test_all_from_the_wrong_end_of_the_quarter():
    """One distance by itself cannot show it: 90° − 40° may be a reading.  Two can: farther off it must be less."""
    turned = [(d, [f"{90 - float(x):g}" for x in readings]) for d, readings in (row(22), row(19, 1))]
    assert now(turned[:1], "reading8-1")["warnings"] == []
    said = now(turned, "reading1-2")["said"]
    assert said["key"] == "quarter" and said["cells"] == ["d-2", "reading1-2"] and ". " not in said["text"]
    assert now([row(22), ("19", ["53"])], "reading1-2")["said"] is None


def test_the_reading_before_may_be_the_one():
    """The first reading after the magnet is turned is 3° off, which may be; its pair tells, and both are named."""
    rows = [row(20, 4)]
    rows[0][1][2] = "52.5"
    assert now([(rows[0][0], rows[0][1][:3])], "reading3-1")["said"] is None
    said = now(rows, "reading4-1")["said"]
    assert said["cells"] == ["reading3-1", "reading4-1"] and "Read both ends again" in said["text"]


def test_what_was_kept_is_not_asked_about_for_ever():
    """An instrument whose ends differ by 6° everywhere: asked about where it begins, and then believed."""
    odd = [
        (d, [f"{float(x) + (6 if k % 2 else 0):g}" for k, x in enumerate(readings)])
        for d, readings in (row(20), row(22))
    ]
    asked = []
    for r, (d, readings) in enumerate(odd):
        for k in range(8):
            if now([*odd[:r], (d, readings[: k + 1])], f"reading{k + 1}-{r + 1}")["said"]:
                asked.append((r, k))
    assert now(odd)["warnings"] == []
    assert (0, 1) in asked and len(asked) <= 3 and all(r == 0 for r, _ in asked)


def test_the_readings_after_it_bear_a_reading_out():
    """N west shows 4.5° more than N east: the first such reading is asked about, and the next three are not."""
    slant = ["49", "49", "53.5", "53.5", "49", "49", "53.5", "53.5"]
    said = [now([("20", slant[:k])], f"reading{k}-1")["said"] for k in range(1, 9)]
    assert [k for k, one in enumerate(said, 1) if one] == [3] and now([("20", slant)])["warnings"] == []


def test_honest_instruments_are_left_alone():
    chance = random.Random("left alone")
    for _ in range(6):
        made, rows = instrument(chance), []
        for theta in (54, 44, 36):
            d = made.near + (made.far - made.near) * (57 - theta) / 24
            rows.append((f"{100 * d:.1f}", [f"{x:g}" for x in made.readings(chance, round(d, 3))]))
            found = now(rows, f"reading8-{len(rows)}", head=made.head)
            assert found["warnings"] == [] and found["said"] is None


def test_outside_the_usual_band_at_the_first_reading():
    said = now([("16", ["70"])], "reading1-1")["said"]
    assert said["key"] == "outside" and "farther off, at about" in said["text"]
    assert now([("16", ["60.5"])], "reading1-1")["said"] is None  # faults of the instrument may do that
    said = now([("28", ["22"])], "reading1-1")["said"]
    assert said["key"] == "outside" and "nearer, at about" in said["text"]
    assert now([row(20), ("26", [])], "d-2")["said"]["key"] == "d-outside"


@pytest.mark.parametrize(
    ("d", "key"),
    [("8.5", "box"), ("47", "arm"), ("20.2", "same"), ("15", "d-outside"), ("22", None), ("two", "unread")],
)
def test_a_distance_that_will_not_do(d, key):
    said = now([row(20), (d, [])], "d-2")["said"]
    assert (said and said["key"]) == key


def test_signs_and_divisions():
    said = now([("20", ["-49"])], "reading1-1")["said"]
    assert said["key"] == "sign" and "N points east" in said["text"]
    said = now([("20", ["49.3"])], "reading1-1")["said"]
    assert said["key"] == "between" and "49.3°" in said["text"]
    assert now([("20", ["49.3", "49.2"])], "reading2-1")["said"] is None  # told once
    assert now([("20", ["49.3"])], "reading1-1", head={**HEAD, "step": ""})["said"] is None


# -- the forecast ---------------------------------------------------------------------


@pytest.mark.parametrize(("times", "free"), [(1.0, None), (UNUSUAL, 1)])
def test_the_forecast_is_least_squares(times, free):
    """Reading by reading it comes to what numpy finds from all at once, with what is known beforehand."""
    chance = random.Random("least squares")
    bench = Bench((0.18, 0.2, 0.23), Known(0.04, 0.002), 1.0)
    seen = [Seen(r, k, t + chance.gauss(0, 1)) for r, t in enumerate((58, 49, 36)) for k in range(8)][:-3]
    law = Law(bench, seen)
    forecast = Forecast(law, times, free)
    for s in seen:
        forecast.take(s)
    columns = np.array([law.columns[8 * s.row + s.k] for s in seen])
    right = np.array([s.value - law.middle[s.row] for s in seen])
    prior = np.array(law.prior(times, free))
    assert (ANY_DEFLECTION in prior) is (free is not None)
    spread = np.linalg.inv(columns.T @ columns / variance(1.0) + np.diag(1 / prior**2))
    mean = spread @ columns.T @ right / variance(1.0)
    assert np.allclose(forecast.mean, mean, atol=1e-6) and np.allclose(forecast.spread, spread, atol=1e-6)
    one = Seen(2, 6, 40.0)
    column = np.array(law.columns[8 * one.row + one.k])
    off, error = forecast.look(one)
    assert off == pytest.approx(40.0 - law.middle[2] - column @ mean, abs=1e-6)
    assert error == pytest.approx(np.sqrt(column @ spread @ column + variance(1.0)), abs=1e-6)
    level, u = forecast.level(1)
    only = np.array([*law.columns[8][:-6], *[0.0] * 6])
    assert level == pytest.approx(law.middle[1] + only @ mean, abs=1e-6)
    assert u == pytest.approx(np.sqrt(only @ spread @ only), abs=1e-6)


def test_the_law_is_the_cubic_law():
    """What two distances show foretells a third, by the field of exercises/bench/field.py."""
    bench = Bench((0.18, 0.23), Known(0.04, 0.0001), 0.5)
    seen = [Seen(r, k, deflection(end_on(1.5, d, 0.04), FIELD)) for r, d in enumerate(bench.ds) for k in range(8)]
    forecast = Forecast(Law(bench, seen))
    for s in seen:
        forecast.take(s)
    for d in (0.19, 0.21, 0.25):
        theta, u = forecast.at(d)
        assert theta == pytest.approx(deflection(end_on(1.5, d, 0.04), FIELD), abs=0.15) and 0.1 < u < 1


# -- where to lay it next --------------------------------------------------------------


def test_the_first_distance():
    at_45 = distance_end_on(1.5, FIELD, 0.04)  # where it is as strong as the earth's field
    assert now([])["propose"]["cm"] == "" and "about 45°" in now([])["propose"]["text"]
    assert now([], head={**HEAD, "mean-moment": "1.5"})["propose"]["cm"] == f"{100 * at_45:.1f}"
    assert now([row(20, 3)])["propose"] is None
    assert now([], zero=["", ""])["propose"]["cell"] == "d-1"  # who passes over the zero check has it too
    assert now([row(20), ("", [])])["propose"]["cell"] == "d-2"


@pytest.mark.parametrize("first", [18.5, 20.5, 23.5])
def test_proposals_spread_the_deflections(first):
    rows = [row(first)]
    for _ in range(4):
        propose = now(rows)["propose"]
        assert propose["cell"] == f"d-{len(rows) + 1}"
        rows.append(row(float(propose["cm"])))
    seen = sorted(float(readings[0]) for _, readings in rows)
    assert FROM - 1 <= seen[0] < FROM + 2 and TO - 3 < seen[-1] <= TO + 1
    assert max(b - a for a, b in zip(seen, seen[1:])) < 12
    ds = sorted(float(d) for d, _ in rows)
    assert min(b - a for a, b in zip(ds, ds[1:])) >= 100 * APART - 1e-9


def test_proposals_keep_clear_of_the_box_and_on_the_arm():
    weak = [("12", [f"{x:g}" for x in eight_readings(Magnet(0.12, 0.04), FIELD, 0.12, step=0.5)])]
    propose = now(weak)["propose"]
    assert float(propose["cm"]) >= 4 + 4 + 100 * CLEAR and ("box" in propose["text"] or float(propose["cm"]) > 9)
    strong = [("45", [f"{x:g}" for x in eight_readings(Magnet(17, 0.04), FIELD, 0.45, step=0.5)])]
    propose = now(strong)["propose"]
    assert float(propose["cm"]) <= 46 and "as far as the arm goes" in propose["text"]


# -- what it has come to --------------------------------------------------------------------


def test_the_result_is_that_of_the_record_page():
    rows = [row(18.3), row(20), row(23.5)]
    for n in (1, 2, 3):
        found = now(rows[:n])
        record = from_plain(json.loads(state(rows[:n])))
        moments = check(record).moments
        assert found["result"]["moment"] == stated(moments.result.moment, "A·m²")
        assert found["result"]["pole"] == stated(moments.result.pole, "A·m")
        assert found["result"]["value"] == moments.result.moment.value
        assert [s["distances"] for s in found["settles"]] == list(range(1, n + 1))
        assert found["settles"][-1]["U"] == found["result"]["U"]
        assert found["rows"][-1]["mean"] and found["rows"][-1]["moment"].endswith("A·m²")


def test_the_result_settles_reading_by_reading():
    us = [now([row(20, k)])["result"]["U"] for k in range(1, 9)]
    assert us[0] > 1.5 * us[-1] and all(b <= 1.05 * a for a, b in zip(us, us[1:]))
    assert now([row(20, 3)])["result"]["text"].startswith("After part of 1 distance: m = ")
    begun = now([row(18.3), row(23.5, 1)])["result"]
    assert begun["distances"] == 2 and "the last not whole" in begun["text"]


def test_without_givens_the_readings_are_taken_all_the_same():
    found = now([row(20), row(22, 5)], "reading5-2", head={})
    assert found["result"] is None and "2l and <i>B</i><sub>H</sub>" in found["lacks"] and found["said"] is None
    assert with_reading([row(20), row(22)], (1, 5), "50")  # the pattern needs neither
    assert now([row(20), row(22, 6)], head={"length": "8"})["lacks"].startswith("Without 2l and <i>B")
    assert now([row(20)], head={"B_H": "abc"})["lacks"].startswith("Go back to Givens: something that is typed there")


def test_when_to_stop():
    rows = [row(18.3), row(20), row(23.5)]
    assert now(rows[: LEAST - 1])["enough"] is False and now(rows[: LEAST - 1])["stop"] == ""
    found = now(rows)
    more = now([*rows, row(float(found["propose"]["cm"]))])
    narrows = more["result"]["U"] / found["result"]["U"]
    assert found["enough"] is (narrows >= NARROWS)  # what was foretold is what came
    five = [*rows, row(21.2), row(19.1)]
    assert now(five)["enough"] and "0–0" in now(five)["stop"]
    assert now([*five, row(22.3, 2)])["enough"] is False  # one that is begun is not left
    assert now(five, head={})["enough"] and "5 distances" in now(five, head={})["stop"]


def test_distances_that_do_not_agree_are_spoken_of():
    """The second d is 5 mm wrong: the interval gets wider, and the page says why."""
    rows = [row(18.3), ("20.5", eight(20)), row(23.5)]
    assert "differ" not in now(rows[:1])["result"]["text"]
    found = now(rows[:2])
    assert found["settles"][1]["U"] > found["settles"][0]["U"]
    why = "These distances differ by more than their readings explain"
    assert found["result"]["text"].endswith(f"{why}; a further one can show which.")
    assert why not in now([*rows[:2], ("23.5", eight(23.5)[:1])])["result"]["text"]  # one that is begun may still tell
    five = now([*rows, row(21.2), row(19.1)])
    assert five["enough"] and five["result"]["text"].endswith(f"{why}.")
    right = now([row(18.3), row(20), row(23.5)])
    assert "differ" not in right["result"]["text"]


# -- what is asked, and the end ---------------------------------------------------------------


def begun(head, lab=""):
    found = json.loads(page.begin(json.dumps({"head": head, "lab": lab})))
    return {one["cell"]: one for one in found["asked"]}, found


def test_what_is_needed_and_no_more():
    assert list(begun({})[0]) == ["two_l_is", "B_H", "place", "step"]
    assert list(begun({"two_l_is": "stated", "B_H": "36"})[0]) == ["two_l_is", "two_l", "B_H", "step"]
    assert list(begun({"two_l_is": "five-sixths", "B_H": "36"})[0]) == ["two_l_is", "length", "B_H", "step"]
    assert "date" in begun({"place": "Lima"})[0] and "latitude" not in begun({"place": "Lima"})[0]
    assert {"latitude", "longitude", "date"} <= set(begun({"place": "Here"})[0])
    asked, found = begun(HEAD)
    assert found["complete"] and not any(one["lacks"] or one["text"] for one in asked.values())
    asked, found = begun({**HEAD, "B_H": "360"})
    assert not found["complete"] and asked["B_H"]["state"] == "ask" and asked["B_H"]["text"].endswith((".", "?"))
    for wanting in ("two_l_is", "length", "B_H", "step"):
        assert not begun({**HEAD, wanting: ""})[1]["complete"]
    place = {**HEAD, "B_H": "", "place": "Lima", "date": "2026-05-01"}
    assert begun(place)[1]["complete"] and not begun({**place, "date": ""})[1]["complete"]


def test_the_laboratory_fills_what_is_blank():
    code = write_setting(Setting("given", 38.2, scale_step=0.5))
    found = begun({"length": "8"}, code)[1]
    assert found["cells"] == {"two_l_is": "given", "B_H": "38.2", "step": "0.5"} and found["notes"]
    assert begun({}, "no code")[1]["trouble"]


def test_the_end_is_the_record_and_its_slip():
    rows = [row(20), ("", []), row(22, 3)]
    found = json.loads(page.finish(state(rows, who="Knot", code="A3H-222-222")))
    assert [r["d"] for r in found["record"]["rows"]] == ["20", "22"] and found["record"]["head"]["B_H"] == "36"
    assert json.loads(record_page.open_file(found["csv"]))["record"]["rows"] == found["record"]["rows"]
    assert found["slip"]["ok"] and "2 distances, 1 of them" in found["slip"]["says"]
    opened = json.loads(page.open_slip(found["slip"]["text"]))
    assert opened["ok"] and opened["record"] == found["record"] and opened["zero"] == ["0", "0.5"]
    assert (opened["who"], opened["code"]) == ("Knot", "A3H-222-222")
    nobody = json.loads(page.finish(state(rows)))["slip"]
    assert not nobody["ok"] and nobody["at"] == "who"


@pytest.mark.parametrize(
    "text", ["", "null", "[1]", '{"rows": 3, "zero": 5}', '{"head": {"B_H": []}, "zero": [null, {}]}']
)
def test_anything_is_answered(text):
    for ask in (page.begin, page.now, page.finish, page.open_slip):
        assert isinstance(json.loads(ask(text)), dict)

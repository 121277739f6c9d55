"""The main job in Firefox: what tests/browser/firefox.mjs saw is what this Python says."""

import csv
import io
import json
from pathlib import Path

import pytest

from exercises.classroom.class_list import class_file
from exercises.classroom.desk import classes as desk
from exercises.kinds.kind import all_kinds, open_code
from exercises.record.file import written
from exercises.return_slip.text import return_slips_in
from tests.browser import firefox
from tests.browser.chromium import NoBrowser
from tests.browser.harm import Harming
from tests.browser.steps import right_answers
from tests.exercises.golden import GOLDEN
from tests.exercises.record.test_check import record_of, rows_of, with_cell
from tests.exercises.slip_values import slip_values

PHRASE, KINDS = "sand and salt water", ["tan-a", "dial"]
LIST = "roll,name\n1,Ringed Plover\n2,Sanderling\n3,=Knot"
A_KIND = 3  # golden codes of each kind


def slip_of(code: str):
    """A slip, a step of a sheet that shows it, and what is then typed."""
    sheet = open_code(code)
    working = sheet.working
    slip = next(s for s in sheet.slips if not s.hides)
    step, found = next((s, found) for s in working.steps if (found := slip_values(working, s, (slip,), {})))
    return slip, step.id, f"{found[0][1][0]:.2e}"


def class_here(site: str) -> tuple[list[str], str]:
    """The codes of the class in the order of its list, a kind after the other, and the table of codes."""
    wanted = {"list": LIST, "phrase": PHRASE, "kinds": KINDS, "common": {}, "own": {}, "site": site}
    made = json.loads(desk.make(json.dumps(wanted)))
    table = json.loads(desk.part(made["session"], "codes.csv", 0, made["students"]))
    return [str(code) for _, given in class_file.read_class(made["text"]).codes() for _, code in given], table["text"]


@pytest.fixture(scope="module")
def hostile(site):
    host = Harming(site)
    host.sooner("taken.js", ("[0,1000,3000]", "[0, 20, 40]"))
    host.sooner("coming.js", ("SOON=2000", "SOON=0"), ("STALLED=15000", "STALLED=700"))
    yield host
    host.close()


@pytest.fixture(scope="module")
def given(address, hostile, tmp_path_factory):
    """What the driver is told: the class, the first student's sheet, a record with two things amiss."""
    codes, _ = class_here(address)
    slip, step, typed = slip_of(codes[0])
    rows = rows_of()
    rows[1][1][2] += 10
    place = tmp_path_factory.mktemp("firefox")
    downloads, record = place / "downloads", place / "record.csv"
    downloads.mkdir()
    record.write_text(written(with_cell(record_of(rows), "tan-1", "0.8631")), encoding="utf-8", newline="")
    letters = [k.letter for k in all_kinds().values()]
    golden = [g["code"] for letter in letters for g in [g for g in GOLDEN if g["code"][0] == letter][:A_KIND]]
    return {
        "base": address,
        "hostile": hostile.address,
        "list": LIST,
        "phrase": PHRASE,
        "kinds": KINDS,
        "code": codes[0],
        "who": "1",
        "answers": right_answers(codes[0]),
        "slip": {"step": step, "typed": typed, "key": slip.key},
        "slipFile": f"return-1-{codes[0]}.txt",
        "golden": golden,
        "record": str(record),
        "downloads": str(downloads),
    }


@pytest.fixture(scope="module")
def saw(given, say):
    """All that was seen in Firefox, which starts once."""
    found = firefox.drive(Path(__file__).with_name("firefox.mjs"), given, firefox.find_firefox(say))
    assert found["browser"]["version"].lower().startswith("firefox")
    return found


def test_the_class_desk_makes_the_codes_of_this_python(saw, given):
    assert saw["class"]["codes"] == class_here(given["base"])[1]


def test_right_answers_are_right_and_nothing_is_lost_on_reload(saw, given):
    steps = given["answers"]
    assert saw["worked"]["states"] == dict.fromkeys(steps, "right")
    assert saw["worked"]["score"] == f"All {len(steps)} steps are right."
    assert saw["reloaded"] == {"entries": steps, "states": dict.fromkeys(steps, "right")}


def test_a_slip_is_named_and_a_hint_given(saw, given):
    slip, _, _ = slip_of(given["code"])
    assert slip.says in saw["slip"]["text"] and saw["slip"]["read"].endswith(slip.read)
    working = open_code(given["code"]).working
    assert saw["hint"]["text"] == f"Hint: {working.by_id['tan-1'].hints[0]}"


def test_the_return_slip_reads_back_and_is_marked(saw, given):
    made = saw["slip made"]
    (slip,), problems = return_slips_in(made["saved"], "saved")
    assert problems == [] and made["saved"].rstrip("\n") == made["text"]
    assert (slip.who, slip.code, slip.answers) == (given["who"], given["code"], given["answers"])
    assert slip.firsts == {given["slip"]["step"]: given["slip"]["typed"]}
    assert made["copied"].startswith("Copied")
    rows = {row["roll"]: row for row in csv.DictReader(io.StringIO(saw["marked"]["marks"].removeprefix("\ufeff")))}
    # by the scheme that is set at first, first attempts count, and one of them was a slip
    assert (
        rows["1"]["tan-a right"] == str(len(given["answers"]) - len(slip.firsts))
        and rows["2"]["tan-a handed in"] == "no"
    )


def test_golden_numbers_are_those_of_this_python(saw, given):
    by_code = {golden["code"]: golden for golden in GOLDEN}
    assert len(given["golden"]) == A_KIND * len(all_kinds())
    assert saw["golden"]["numbers"] == [by_code[code] for code in given["golden"]]


def test_a_record_is_checked(saw):
    found = saw["record"]
    assert found["score"].startswith("17 of 18 entries right.") and found["graphs"] == 1
    assert [cell for cell in found["states"] if cell[1] in ("slip", "doubt")] == [
        ["reading3", "doubt"],
        ["tan", "slip"],
    ]
    assert "sin θ" in found["findings"]
    assert "east arm, N west, end ①" in found["findings"]


@pytest.mark.parametrize("fault", ["cut", "ends early", "stall", "corrupt", "fetched anew"])
def test_on_a_hostile_network_what_was_typed_is_checked(saw, site, fault):
    """Each harms the image once; what is sent is counted: of a cut by a reset, nobody knows how much had come."""
    assert saw[fault]["typed"] == "5"
    size = (site / "eight" / "image.bin").stat().st_size
    most = {"ends early": 1.1, "stall": 0.6, "fetched anew": 1.0}
    assert fault not in most or saw[fault]["sent"] <= most[fault] * size
    assert saw["corrupt"]["failed"] == "1" and saw["fetched anew"]["failed"] is None


def test_the_pages_had_no_error(saw):
    assert saw["errors"]["errors"] == []


def test_without_a_firefox_it_is_said_what_to_install(monkeypatch):
    monkeypatch.setattr(firefox.shutil, "which", lambda name: None)
    with pytest.raises(NoBrowser, match="apt-get install firefox-esr"):
        firefox.find_firefox()


def test_a_driver_that_fails_says_what_it_had_seen(tmp_path):
    script = tmp_path / "fails.mjs"
    script.write_text('console.log(JSON.stringify({ saw: "much", what: 1 })); throw new Error("no field");')
    with pytest.raises(RuntimeError, match=r"(?s)had seen much: .*no field"):
        firefox.drive(script, {}, "firefox")
    script.write_text("setTimeout(() => {}, 60000);")
    with pytest.raises(RuntimeError, match="had not ended after 1 seconds"):
        firefox.drive(script, {}, "firefox", seconds=1)

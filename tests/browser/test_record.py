"""A lab record in a real browser: typed, checked, kept, saved, opened, pasted and printed, on a phone."""

import random
import re

import pytest

from exercises.bench.instrument import Faults
from exercises.codes.sheet_code import Setting, write_setting
from exercises.record.entries import as_plain
from exercises.record.file import opened, written
from exercises.record.position import TAN_B
from tests.benchmarks.records import simulated
from tests.browser.steps import PYTHON
from tests.exercises.record.test_check import record_of, rows_of, with_cell

RECORD = record_of(name="Ringed Plover", magnet="Curlew")
KEPT = "eight-readings:record"


READY = '.er-status[data-state="ready"]'


@pytest.fixture(scope="module")
def phone(browser, address):
    """One page on a phone for all: Python starts once."""
    context = browser.new_context(viewport={"width": 360, "height": 800})
    page = context.new_page()
    page.errors = []
    page.on("pageerror", lambda error: page.errors.append(str(error)))
    page.asked = []
    page.on("dialog", lambda d: (page.asked.append(d.message), d.accept()))
    page.base = address
    page.goto(f"{address}record/")
    page.wait_for_selector(READY, timeout=60_000)
    yield page
    context.close()


@pytest.fixture
def page(phone):
    """The page with nothing typed; its errors fail the test."""
    phone.click(".rc-clear")
    folds(phone, False)
    phone.evaluate("document.querySelector('.er-trouble').hidden = true")
    phone.asked.clear()
    yield phone
    assert phone.errors == []


def folds(page, opened):
    """Opens all folds, or closes them."""
    page.evaluate("open => { for (const d of document.querySelectorAll('.rc-desk details')) d.open = open; }", opened)


def open_page(page, record):
    page.set_input_files(
        ".rc-open input", {"name": "r.csv", "mimeType": "text/csv", "buffer": written(record).encode()}
    )
    page.wait_for_function("d => document.querySelector('#rc-d-1').value === d", arg=record.rows[0].d)
    page.wait_for_function("document.querySelector('.er-score').textContent !== ''")


def check(page):
    page.evaluate("document.querySelector('.er-score').textContent = ''")
    page.click(".rc-check")
    page.wait_for_function("document.querySelector('.er-score').textContent !== ''")
    return page.inner_text(".rc-findings")


def typed(page):
    return page.evaluate(f"JSON.parse(localStorage.getItem('{KEPT}'))")


def test_a_record_is_typed_checked_and_printed(page):
    plain = as_plain(RECORD)
    folds(page, True)
    for key, text in plain["head"].items():
        if key == "two_l_is":
            page.select_option("#rc-two_l_is", text)
        elif text:
            page.fill(f"#rc-{key}", text)
    page.focus("#rc-d-1")  # from there Enter alone goes through all readings, and then through what was worked
    for row in plain["rows"]:
        for text in (row["d"], *row["readings"]):
            page.keyboard.type(text)
            page.keyboard.press("Enter")
    for row in plain["rows"]:
        for text in (row["mean"], row["tan"], row["bracket"], row["moment"]):
            page.keyboard.type(text)
            page.keyboard.press("Enter")
    check(page)
    assert page.inner_text(".er-score").startswith("18 of 18 entries right.")
    assert page.locator('.rc-work [data-state="right"]').count() == 16
    # the result is on the screen, and has the keyboard
    assert page.evaluate("document.activeElement.className").startswith("rc-outcome")
    assert page.evaluate("document.querySelector('.rc-quote').getBoundingClientRect().top") < 300
    assert "Ringed Plover" in page.inner_text(".rc-paper") and page.locator(".rc-graph").count() == 1
    assert page.evaluate("document.documentElement.scrollWidth") <= page.viewport_size["width"]


def test_what_is_wrong_is_said_at_the_cell_and_in_the_list(page):
    rows = rows_of()
    rows[1][1][2] += 10
    record = with_cell(with_cell(record_of(rows), "tan-1", "0.8631"), "pole", "hello")
    open_page(page, record)
    said = check(page)
    assert "tan θ: This looks like sin θ" in page.inner_text(".rc-work >> nth=0")
    assert page.get_attribute('.rc-row >> nth=1 >> [data-cell="reading3"]', "data-state") == "doubt"
    assert "does not begin with a number" in page.inner_text('[data-cell="pole"] .er-said')
    assert "east arm, N west, end ①" in said and "10° too large" in said
    assert "east arm, N west, end ①" in page.inner_text(".rc-outcome li")  # the gravest
    page.click(".rc-findings li:has-text('end ①') button")
    assert page.evaluate("document.activeElement.id") == "rc-reading3-2"
    for link in page.locator(".rc-findings a").all():
        assert re.search(r"/before/[a-z-]+/", link.get_attribute("href"))
    assert page.input_value("#rc-pole") == "hello"


def test_what_is_mended_is_checked_again_before_it_can_be_printed(page):
    open_page(page, with_cell(with_cell(RECORD, "tan-2", "1.0"), "mean-1", "60"))
    assert "Few figures: keep angles to 0.1°" in page.inner_text(".rc-work >> nth=0")
    page.wait_for_selector(".rc-print:enabled")
    page.fill("#rc-mean-1", RECORD.rows[0].mean)
    page.fill("#rc-tan-2", RECORD.rows[1].tan)
    assert page.locator(".rc-print:disabled").count() == 1
    page.press("#rc-tan-2", "Tab")
    page.wait_for_selector(".rc-print:enabled")
    assert page.inner_text(".er-score").startswith("18 of 18 entries right.")


def test_a_closed_tab_loses_nothing(page):
    page.fill("#rc-d-1", "17.5")
    page.fill("#rc-reading8-2", "44.5")
    folds(page, True)
    page.fill("#rc-name", "<b>Sanderling</b>")
    other = page.context.new_page()
    other.goto(page.url)
    values = [other.input_value(f"#rc-{k}") for k in ("d-1", "reading8-2", "name")]
    other.close()
    assert values == ["17.5", "44.5", "<b>Sanderling</b>"]


def test_what_is_needed_comes_first_and_enter_goes_along_the_readings(page):
    assert page.evaluate("document.querySelector('#rc-d-1').getBoundingClientRect().top + scrollY") < 1200  # of 360 px
    assert page.is_visible("#rc-B_H") and not page.is_visible("#rc-needle") and not page.is_visible("#rc-two_l")
    page.select_option("#rc-two_l_is", "stated")
    assert page.is_visible("#rc-two_l")
    page.fill("#rc-d-2", "18.5")
    page.press("#rc-reading8-1", "Enter")
    assert page.evaluate("document.activeElement.id") == "rc-reading1-2"  # d stands there already
    page.press("#rc-reading8-2", "Enter")
    assert page.evaluate("document.activeElement.id") == "rc-d-3"


def test_a_record_in_tan_b_with_a_reading_missing(page):
    record, _ = simulated(random.Random("plover"), Faults(), 4, TAN_B)
    open_page(page, with_cell(record, "reading6-4", ""))
    assert page.inner_text(".rc-row >> nth=0").count("north arm") and page.input_value("#rc-position") == "tan-b"
    assert "lacks one reading of its eight: south arm, N east, end ②" in page.inner_text(".rc-outcome li")
    assert "tan B position" in page.inner_text(".rc-paper") and "(d² + l²)3/2" in page.inner_text(".rc-paper")
    page.select_option("#rc-position", "tan-a")
    assert "north arm" not in page.inner_text(".rc-row >> nth=0")


def test_distances_are_added_and_removed(page):
    open_page(page, RECORD)
    while page.locator(".rc-add:enabled").count():
        page.click(".rc-add")
    assert page.locator(".rc-row").count() == 8
    page.fill("#rc-d-8", "25")
    page.locator(".rc-remove").nth(1).click()
    assert "Distance 2" in page.asked[-1]
    assert [r["d"] for r in typed(page)["rows"]] == [
        RECORD.rows[0].d,
        RECORD.rows[2].d,
        RECORD.rows[3].d,
        "",
        "",
        "",
        "25",
    ]


def test_saved_and_opened_again(page, tmp_path):
    open_page(page, RECORD)
    with page.expect_download() as made:
        page.click(".rc-save")
    made.value.save_as(tmp_path / "record.csv")
    raw = (tmp_path / "record.csv").read_bytes()
    assert raw.startswith(b"\xef\xbb\xbf") and opened(raw.decode("utf-8-sig")).record.rows == RECORD.rows
    (tmp_path / "other.csv").write_bytes(written(record_of(name="Dunlin")).replace("54", "here", 1).encode("utf-16"))
    page.set_input_files(".rc-open input", tmp_path / "other.csv")
    page.wait_for_function("document.querySelector('#rc-name').value === 'Dunlin'")
    page.wait_for_selector(".rc-findings li")
    assert "here" in page.inner_text(".rc-findings")


@pytest.mark.parametrize(
    "raw, part",
    [(b"hello", "Nothing here looks like"), (b"PK\x03\x04", "CSV"), (b"x" * 3_000_000, "at most 2,000,000")],
    ids=["no record", "no text", "large"],
)
def test_a_file_that_is_no_record_is_refused_and_what_is_typed_stays(page, tmp_path, raw, part):
    open_page(page, RECORD)
    (tmp_path / "x.csv").write_bytes(raw)
    page.set_input_files(".rc-open input", tmp_path / "x.csv")
    page.wait_for_selector(".er-trouble:not([hidden])")
    assert part in page.inner_text(".er-trouble")
    assert page.input_value("#rc-name") == "Ringed Plover"


PASTE = """([id, text]) => {
  const data = new DataTransfer();
  data.setData("text/plain", text);
  const event = new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true });
  document.getElementById(id).dispatchEvent(event);
}"""


def test_cells_of_a_spreadsheet_are_pasted(page):
    cells = "17.5\t59\t60\t59\t60\t59\t60\t59\t60\n18.7\t54\t54\t54\t54\t54\t54\t54\t54\r\n"
    page.evaluate(PASTE, ["rc-d-2", cells])
    page.wait_for_function("document.querySelector('#rc-reading8-3').value === '54'")
    assert page.input_value("#rc-d-2") == "17.5" and page.input_value("#rc-d-1") == ""
    page.evaluate(PASTE, ["rc-mean-1", "59.7\n54.0"])
    assert page.input_value("#rc-mean-2") == "54.0"
    page.evaluate(PASTE, ["rc-d-1", written(RECORD).replace(",", "\t")])
    page.wait_for_function("document.querySelector('#rc-name').value === 'Ringed Plover'")


def test_without_python_what_is_typed_is_kept(browser, address):
    page = browser.new_page()
    page.route(PYTHON, lambda route: route.abort())
    page.goto(f"{address}record/")
    page.fill("#rc-d-1", "17.5")
    page.wait_for_selector('.er-status[data-state="failed"]', timeout=60_000)
    page.click(".rc-check")
    assert "could not start" in page.inner_text(".er-trouble")
    assert typed(page)["rows"][0]["d"] == "17.5"
    page.close()


def test_a_class_s_address_fills_what_is_blank_and_says_so(browser, address):
    page = browser.new_page()
    page.goto(f"{address}record/")
    page.fill("#rc-step", "1")
    page.goto(f"{address}record/?lab={write_setting(Setting('given', 38.2, scale_step=0.5))}")
    page.wait_for_function("document.querySelector('#rc-two_l_is').value === 'given'", timeout=60_000)
    assert page.input_value("#rc-B_H") == "38.2" and page.input_value("#rc-step") == "1"
    assert "2l is the length given" in page.inner_text(".rc-notes")
    page.goto(f"{address}record/?lab={write_setting(Setting('given', 20.0))}")  # of another laboratory
    page.locator(".rc-notes li", has_text="otherwise than this record: the horizontal field is 20.0 µT").wait_for(
        timeout=60_000
    )
    assert page.input_value("#rc-B_H") == "38.2"
    page.goto(f"{address}record/?lab=222")
    page.wait_for_selector(".er-trouble:not([hidden])", timeout=60_000)
    assert "laboratory" in page.inner_text(".er-trouble") and typed(page)["head"]["two_l_is"] == "given"
    page.close()


def test_a_full_record_prints_on_one_page(page):
    rows = rows_of(ds=tuple(0.170 + 0.008 * i for i in range(8)))
    rows[1][1][2] += 10
    rows[4][1][6] -= 5
    open_page(page, with_cell(record_of(rows, name="Ringed Plover", place="Bergen", date="2026-03-14"), "tan-3", "0.5"))
    pdf = page.pdf(prefer_css_page_size=True, format="A4")
    assert len(re.findall(rb"/Type\s*/Page\b", pdf)) == 1
    page.emulate_media(media="print")
    assert page.is_visible(".rc-paper") and not page.is_visible(".rc-form") and not page.is_visible(".rc-findings")
    page.emulate_media(media="screen")


def test_nothing_is_wider_than_a_desk_s_screen(page):
    open_page(page, RECORD)
    page.set_viewport_size({"width": 1280, "height": 900})
    page.wait_for_timeout(800)  # the theme's search field slides to its place
    assert page.evaluate("document.documentElement.scrollWidth") <= 1280
    page.set_viewport_size({"width": 360, "height": 800})

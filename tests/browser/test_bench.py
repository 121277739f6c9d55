"""Readings at the bench in a real browser, on a phone: a whole record, a misreading, sleep, undo, and no Python."""

import pytest

from exercises.codes.sheet_code import Setting, write_setting
from tests.browser.steps import PYTHON, kept
from tests.exercises.record.test_check import DS, rows_of
from tests.hostile import IMG

READY = '.bn-desk .er-status[data-state="ready"]'
ROWS = [(f"{100 * d:.1f}", [f"{x:g}" for x in readings]) for d, readings in rows_of(ds=DS[:3])]


@pytest.fixture
def phone(browser, address):
    """A phone's page with nothing kept; its errors fail the test."""
    context = browser.new_context(viewport={"width": 360, "height": 640}, has_touch=True)
    page = context.new_page()
    page.base, errors, page.asked = address, [], []
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.on("dialog", lambda dialog: (page.asked.append(dialog.message), dialog.accept()))
    yield page
    context.close()
    assert errors == []


def take(page, texts):
    """Type one figure after the other, as one does with the keyboard of a phone."""
    for text in texts:
        page.keyboard.type(text)
        page.keyboard.press("Enter")


def title(page):
    return page.inner_text("#bn-title-readings")


def test_a_record_of_three_distances(phone):
    page = phone
    page.goto(f"{page.base}record/bench/?lab={write_setting(Setting('five-sixths', 36.0, scale_step=0.5))}")
    page.click(".bn-part[data-part=safety] .bn-on")
    for tick in page.locator(".bn-part[data-part=setting] .bn-tick").all():
        tick.tap()
    page.fill("#bn-zero-1", "0")
    page.fill("#bn-zero-2", "0.5")
    page.click(".bn-part[data-part=setting] .bn-on")
    page.wait_for_function("document.querySelector('#bn-B_H').value === '36.0'", timeout=60_000)
    page.fill("#bn-length", "8")
    page.click(".bn-part[data-part=givens] .bn-on")
    take(page, [ROWS[0][0], *ROWS[0][1]])
    page.locator(".bn-result", has_text="±").first.wait_for()
    page.locator(".bn-take").wait_for()  # a next distance is proposed

    # a reading of the second distance is misread by 10°: warned before one goes on, and mended
    d, readings = ROWS[1]
    take(page, [d, *readings[:3]])
    page.keyboard.type(f"{float(readings[3]) + 10:g}")
    page.locator(".bn-said p").wait_for()
    assert title(page) == "Distance 2, reading 4 of 8"
    assert page.locator('.bn-row[open] .bn-cell[data-at="3"][data-doubt]').count() == 1
    page.reload()  # the phone fell asleep
    assert title(page) == "Distance 2, reading 4 of 8" and page.locator(".bn-said p").count() == 1
    page.fill("#bn-now", readings[3])
    page.wait_for_selector(READY, timeout=60_000)
    page.wait_for_function("!document.querySelector('.bn-said p')")
    page.click(".bn-one button")
    take(page, readings[4:])
    take(page, [ROWS[2][0], *ROWS[2][1]])
    page.locator(".bn-settles line").nth(2).wait_for(state="attached")
    assert page.locator(".bn-row [data-doubt]").count() == 0

    page.click(".bn-parts [data-to=end]")
    page.fill("#bn-who", "Knot")
    page.press("#bn-who", "Enter")
    page.locator(".bn-slip-holder").wait_for()
    assert "03 hand-in: 1 [" in page.input_value(".er-slip") and "04 written: 20" in page.input_value(".er-slip")
    assert "Knot" in page.input_value(".er-slip") and page.evaluate("document.documentElement.scrollWidth") <= 360
    page.click(".bn-record")
    page.wait_for_function("document.querySelector('#rc-d-3')?.value")
    for i, (d, readings) in enumerate(ROWS, 1):
        assert page.input_value(f"#rc-d-{i}") == d
        assert [page.input_value(f"#rc-reading{k}-{i}") for k in range(1, 9)] == readings
    assert page.input_value("#rc-length") == "8" and page.input_value("#rc-B_H") == "36.0" and not page.asked


def test_without_python_every_reading_can_be_typed_and_undone(phone):
    page = phone
    page.route(PYTHON, lambda route: route.abort())
    page.goto(f"{page.base}record/bench/")
    page.click(".bn-parts [data-to=readings]")
    take(page, ["19", "51"])
    page.keyboard.press("Enter")  # a thumb that presses twice
    assert title(page) == "Distance 1, reading 2 of 8" and "Type this reading" in page.inner_text(".bn-said")
    page.keyboard.type("52,5")
    page.click(".bn-undo")
    assert page.input_value("#bn-now") == ""
    page.click(".bn-undo")
    assert title(page) == "Distance 1, reading 1 of 8" and page.input_value("#bn-now") == "51"
    page.focus("#bn-now")
    page.keyboard.press("Enter")
    take(page, ["52", "50.5"])
    page.click('.bn-cell[data-at="0"]')  # back to the first, and on from where one was
    take(page, ["51.5"])
    assert title(page) == "Distance 1, reading 4 of 8"

    page.check(".bn-switch")
    assert page.evaluate("document.activeElement.id") == "bn-whole-3"
    take(page, ["51.5", "51", "52"])
    other = page.context.new_page()
    other.goto(f"{page.base}record/bench/")
    assert [other.input_value(f"#bn-whole-{k}") for k in ("d", *range(8))] == [
        *("19", "51.5", "52", "50.5", "51.5", "51", "52", "", "")
    ]
    other.close()
    take(page, ["50.5", "51"])
    page.keyboard.press("Enter")  # on the button that the keyboard came to
    assert title(page) == "Distance 2" and len(kept(page)["bench"]["rows"]) == 2

    # what was worked out in the record for these readings stays when they come once more
    page.click(".bn-parts [data-to=end]")
    page.click(".bn-record")
    page.wait_for_selector("#rc-mean-1", state="attached")
    page.evaluate("for (const fold of document.querySelectorAll('details')) fold.open = true")
    page.fill("#rc-mean-1", "51.25")
    page.goto(f"{page.base}record/bench/")
    page.click(".bn-record")
    page.wait_for_function("document.querySelector('#rc-mean-1')?.value === '51.25'")
    assert page.input_value("#rc-reading8-1") == "51"
    page.fill("#rc-d-1", "20")  # another record now
    page.goto(f"{page.base}record/bench/")
    page.click(".bn-record")
    page.wait_for_function("document.querySelector('#rc-d-1')?.value === '19'")
    assert page.asked == ["The record page holds another record. Put these readings in its place?"]


def test_whatever_was_kept_the_page_opens(phone):
    page = phone
    page.route("**/worker.js", lambda route: None)  # Python is starting, and stays so
    page.goto(f"{page.base}record/bench/")
    states = (
        {
            "part": "readings",
            "head": {"length": IMG},
            "rows": [{"d": IMG, "readings": [IMG]}],
            "at": {"row": 0, "cell": 0},
        },
        {
            "part": "nowhere",
            "head": [],
            "rows": [None, {"readings": 7}],
            "zero": "no",
            "at": {"row": 9, "cell": "length"},
        },
    )
    said = {"asked": 7, "found": {"said": 1}}
    for state in (*states, [1], "text", None):
        page.evaluate(
            "([state, said]) => { localStorage.setItem('eight-readings:bench', JSON.stringify(state));"
            " localStorage.setItem('eight-readings:bench-said', JSON.stringify(said)); }",
            [state, said],
        )
        page.reload()
        page.click(".bn-parts [data-to=readings]")
        if state is states[0]:
            assert page.input_value("#bn-now") == IMG and IMG in page.inner_text(".bn-row[open]")
        take(page, ["19", "51"])
        assert title(page).endswith("reading 2 of 8" if state is not states[0] else "reading 3 of 8")
    assert page.evaluate("window.__hit") is None

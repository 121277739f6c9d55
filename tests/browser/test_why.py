"""The page "Why eight readings" in a real browser: sliders by keyboard, the tables that follow, and without scripts."""

import pytest

from exercises.student.why import SLIDERS, USUAL, fragment, means, moment, read, sentence

PAGE = "before/why-eight/"
TABLES = ".er-why .er-why-tables"


def open_page(page):
    page.goto(page.base + PAGE)
    page.wait_for_selector('.er-why .er-status[data-state="ready"]', timeout=60_000)


def slider(page, name):
    return page.locator(f".er-sliders input[name={name}]")


def wait_for_moment(page, settings):
    """Wait until the table of moments ends with what all eight readings of a setting give."""
    found = f"{moment(means(read(settings), 8)[0]):.3f}"
    one = f"{read(settings)[0]:.1f}"
    page.wait_for_function(
        "([where, one, found]) => {"
        " const cells = [...document.querySelectorAll(where + ' td')].map((c) => c.textContent);"
        " return cells[0] === one && cells.at(-5) === found; }",
        arg=[TABLES, one, found],
    )


def test_sliders_are_moved_by_keyboard_and_everything_follows(page):
    open_page(page)
    page.focus("[data-set=none]")
    page.keyboard.press("Enter")
    settings = dict.fromkeys(USUAL, 0.0)
    wait_for_moment(page, settings)
    assert {slider(page, s.name).input_value() for s in SLIDERS} == {"0"}
    slider(page, "box_shift").focus()
    for _ in range(5):
        page.keyboard.press("ArrowRight")
    settings["box_shift"] = 0.5
    wait_for_moment(page, settings)
    assert slider(page, "box_shift").get_attribute("aria-valuetext") == "0.5 mm"
    assert page.inner_text("output[for=why-box-shift]") == "0.5 mm"
    page.keyboard.press("Home")
    settings["box_shift"] = -3.0
    wait_for_moment(page, settings)
    assert page.inner_text("output[for=why-box-shift]") == "−3.0 mm"
    page.wait_for_function(
        "says => document.querySelector('.er-why-says').textContent === says", arg=sentence(settings)
    )
    page.click(".er-sliders button[type=reset]")
    wait_for_moment(page, USUAL)


def test_every_slider_can_be_reached_with_tab_and_has_its_label(page):
    open_page(page)
    slider(page, SLIDERS[0].name).focus()
    for expected in SLIDERS:
        assert page.evaluate("document.activeElement.name") == expected.name
        assert page.evaluate("document.activeElement.labels[0].textContent") == expected.label
        page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.dataset.set") == "none"


def test_the_last_setting_wins_and_the_sentence_is_said_once(page):
    open_page(page)
    page.evaluate(
        "window.said = []; new MutationObserver(() => said.push(document.querySelector('.er-why-says').textContent))"
        ".observe(document.querySelector('.er-why-says'), {childList: true, characterData: true, subtree: true})"
    )
    page.evaluate(
        "const s = document.querySelector('.er-sliders input[name=zero_error]');"
        "for (let i = -20; i <= 20; i++) { s.value = i / 10; s.dispatchEvent(new Event('input', {bubbles: true})); }"
    )
    settings = {**USUAL, "zero_error": 2.0, "pivot_x": 0.5}
    wait_for_moment(page, settings)
    page.wait_for_function(
        "says => document.querySelector('.er-why-says').textContent === says", arg=sentence(settings)
    )
    assert len(page.evaluate("said")) <= 1
    assert page.get_attribute(".er-why-says", "role") == "status"
    assert page.get_attribute("output[for=why-zero-error]", "aria-live") == "off"


def test_an_answer_comes_while_the_hand_is_still_on_the_slider(page):
    """A tenth of a second from a move to the new table, the median of twenty: seen as at once."""
    open_page(page)
    took = page.evaluate(
        """async () => {
          const s = document.querySelector(".er-sliders input[name=box_shift]");
          const tables = document.querySelector(".er-why-tables");
          const took = [];
          for (let i = 0; i < 20; i++) {
            const start = performance.now();
            const changed = new Promise((done) => {
              const seen = new MutationObserver(() => { seen.disconnect(); done(); });
              seen.observe(tables, {childList: true});
            });
            s.value = (i - 10) / 5;
            s.dispatchEvent(new Event("input", {bubbles: true}));
            await changed;
            took.push(performance.now() - start);
          }
          return took.sort((a, b) => a - b);
        }"""
    )
    assert took[10] < 100, took


def test_nothing_is_too_wide(page):
    open_page(page)
    assert page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0
    for table in page.locator(".er-why-tables table").all():
        box = table.bounding_box()
        assert box["x"] >= 0 and box["x"] + box["width"] <= page.viewport_size["width"]
    for name in (s.name for s in SLIDERS):
        assert slider(page, name).bounding_box()["height"] >= 24


@pytest.fixture
def plain(browser, address):
    """A visitor whose scripts are off."""
    visitor = browser.new_context(viewport={"width": 360, "height": 900}, java_script_enabled=False)
    opened = visitor.new_page()
    opened.goto(address + PAGE)
    yield opened
    visitor.close()


def test_without_scripts_it_can_be_read(plain):
    assert not plain.locator(".er-sliders").is_visible()
    assert plain.locator(".er-why noscript").count() == 1
    assert plain.inner_text(".er-why-says") == sentence(USUAL)
    assert plain.locator(f"{TABLES} table").count() == fragment(USUAL).count("<table>")
    alone = plain.locator("table", has_text="each fault by itself")
    assert alone.locator("tbody tr").count() == len(SLIDERS)
    assert "both arms" in alone.inner_text()


def test_a_python_that_does_not_start_leaves_the_tables_and_says_so(context, address):
    page = context.new_page()
    page.route("**/pyodide.js*", lambda route: route.abort())
    page.goto(address + PAGE)
    page.wait_for_selector('.er-why .er-status[data-state="failed"]')
    assert "could not start" in page.inner_text(".er-why .er-status")
    assert page.locator(f"{TABLES} table").count() == 2
    page.close()

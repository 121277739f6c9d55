"""The main job in a real browser: open a sheet, type its steps, be told right or what went wrong."""

import re

import pytest

from exercises.kinds.kind import open_code
from generator.pages.code_check import LOOKS_RIGHT
from tests.browser.steps import CODE, PYTHON, SHEET, enter_code, kept, open_sheet, right_answers, said, type_in
from tests.exercises.slip_values import slip_values

PHONE = {"width": 360, "height": 900}
OTHER = "A37-222-49M"
OPENED = open_code(CODE)
SCENARIO, WORKING = OPENED.scenario, OPENED.working
SLIPS = [slip for slip in OPENED.slips if not slip.hides]


@pytest.fixture(scope="module")
def opened(browser, address):
    """One page for all tests that only work on an open sheet, since Python takes seconds to start."""
    context = browser.new_context(viewport=PHONE)
    page = context.new_page()
    page.base, page.errors = address, []
    page.on("pageerror", lambda error: page.errors.append(str(error)))
    open_sheet(page)
    yield page
    context.close()


@pytest.fixture
def sheet(opened):
    """The sheet with nothing typed and nothing kept; errors of the page fail the test."""
    enter_code(opened, OTHER)
    opened.evaluate("localStorage.clear()")
    enter_code(opened, CODE)
    assert opened.input_value("#er-mean-1") == ""
    yield opened
    assert opened.errors == []


def test_fresh_numbers_are_new_each_time(page):
    open_sheet(page, code=None)
    first = page.get_attribute(".er-sheet", "data-code")
    page.click(".er-fresh")
    page.wait_for_function("old => document.querySelector('.er-sheet').dataset.code !== old", arg=first)
    assert page.get_attribute(".er-sheet", "data-code") in page.url


def test_solve_a_sheet_by_typing(sheet):
    page = sheet
    cells = page.locator(".er-observations tbody tr").first.locator(".er-reading").all_inner_texts()
    assert [float(c) for c in cells] == list(SCENARIO.rows[0].readings)
    answers = right_answers()
    page.focus("#er-mean-1")
    for step, answer in answers.items():
        page.keyboard.type(answer)
        page.keyboard.press("Enter")  # it goes on once the verdict is there
        page.wait_for_function("step => document.activeElement.name !== step", arg=step)
    for step in answers:
        assert said(page, step)[0] == "right", step
    page.wait_for_function("document.querySelector('.er-score').textContent.startsWith('All 26 steps are right')")


def test_enter_stays_on_a_wrong_entry_and_goes_on_when_pressed_again(sheet):
    page = sheet
    page.focus("#er-mean-1")
    page.keyboard.type("12")
    page.keyboard.press("Enter")
    said(page, "mean-1")
    page.wait_for_timeout(100)
    assert page.evaluate("document.activeElement.name") == "mean-1"
    page.keyboard.press("Enter")
    page.wait_for_function("document.activeElement.name === 'tan-1'")


def test_what_is_typed_again_as_it_was_has_its_verdict_again(sheet):
    """A browser sees no change then."""
    page, right = sheet, right_answers()["mean-1"]
    assert type_in(page, "mean-1", right)[0] == "right"
    page.focus("#er-mean-1")
    page.keyboard.press("Control+a")
    page.keyboard.type(right)
    assert page.get_attribute('[data-step="mean-1"]', "data-state") == ""
    page.keyboard.press("Shift+Tab")
    assert said(page, "mean-1")[0] == "right"


def test_a_pasted_row_fills_the_row_and_is_undone(sheet):
    page = sheet
    answers = right_answers()
    row = [answers[f"{column}-2"] for column in ("mean", "tan", "bracket", "moment")]
    page.fill("#er-mean-2", "1")
    page.focus("#er-mean-2")
    page.evaluate(
        """text => {
          const clipboardData = new DataTransfer();
          clipboardData.setData("text/plain", text);
          const paste = new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true });
          document.activeElement.dispatchEvent(paste);
        }""",
        "\t".join([*row, "beyond the row"]) + "\r\n" + answers["mean-3"],
    )
    assert [page.input_value(f"#er-{c}-2") for c in ("mean", "tan", "bracket", "moment")] == row
    assert page.input_value("#er-mean-3") == answers["mean-3"] and page.input_value("#er-tan-3") == ""
    assert said(page, "moment-2")[0] == "right" and page.inner_text('[data-of="moment-2"] >> nth=0') == row[-1]
    page.keyboard.press("Control+z")
    assert (page.input_value("#er-mean-2"), page.input_value("#er-moment-2")) == ("1", "")
    assert kept(page)[f"sheet:{CODE}"] == {"mean-2": "1"}


def test_what_was_cleared_comes_back(sheet):
    page = sheet
    page.once("dialog", lambda dialog: dialog.accept())
    type_in(page, "mean-1", "54.4")
    page.click(".er-clear")
    assert page.input_value("#er-mean-1") == ""
    page.click(".er-undo")
    assert page.input_value("#er-mean-1") == "54.4" and kept(page)[f"sheet:{CODE}"] == {"mean-1": "54.4"}


def test_a_phone_has_the_keys_that_its_figures_lack(browser, address):
    context = browser.new_context(viewport={"width": 360, "height": 640}, has_touch=True, is_mobile=True)
    page = context.new_page()
    page.route(PYTHON, lambda route: None)
    page.goto(address + SHEET)
    page.tap("#er-mean-1")
    assert page.get_attribute("#er-mean-1", "inputmode") == "decimal"
    for name in ("minus", "comma", "times ten to the power"):
        page.tap(f'.er-keys [aria-label="{name}"]')
    assert page.input_value("#er-mean-1") == "−,×10^" and page.evaluate("document.activeElement.name") == "mean-1"
    page.tap('.er-keys [aria-label="letters"]')
    assert page.evaluate("document.activeElement.inputMode") == "text"
    context.close()


def test_five_distances_fit_a_screen_and_each_line_has_its_readings(sheet):
    page = sheet
    page.set_viewport_size({"width": 1280, "height": 900})
    first = page.locator(".er-reading").first.bounding_box()
    last = page.locator("#er-pole").bounding_box()
    assert last["y"] + last["height"] - first["y"] < 850
    for row in page.locator(".er-book tbody tr").all():
        heights = [box.bounding_box()["y"] for box in row.locator(":is(.er-reading, input)").all()]
        assert max(heights) - min(heights) < 20
    page.set_viewport_size(PHONE)


def test_each_slip_is_named(sheet):
    page = sheet
    for slip in SLIPS:
        step, values = next(
            (step, found[0][1]) for step in WORKING.steps if (found := slip_values(WORKING, step, (slip,), {}))
        )
        page.fill(f"#er-{step.id}", f"{values[0]:.2e}")
        page.press(f"#er-{step.id}", "Tab")
        said(page, step.id, "slip")
        page.wait_for_function(
            "([step, says]) => document.querySelector(`[data-step='${step}'] .er-said`).textContent.includes(says)",
            arg=[step.id, slip.says],
        )
        link = page.locator(f'.er-entry[data-step="{step.id}"] .er-said a')
        assert link.get_attribute("href").endswith(slip.read), slip.key
        page.fill(f"#er-{step.id}", "")


def test_right_working_from_a_wrong_start(sheet):
    page = sheet
    assert type_in(page, "tan-1", "1.1000")[0] == "wrong"
    moment = WORKING.value("moment-1", own={"tan-1": 1.1})
    state, text = type_in(page, "moment-1", f"{moment:.3g}")
    assert state == "follows"
    assert "wrong start" in text


def test_what_cannot_be_judged_gets_a_sentence(sheet):
    page = sheet
    for typed, part in (
        ("1,234 mA m²", "two ways"),
        ("9**9**9", "“9” was understood"),
        ("1.62 T", "unit of something else"),
        ("<img src=x onerror=alert(1)>", "does not begin with a number"),
        ("1" * 5000, "characters long"),
    ):
        state, _ = type_in(page, "mean-moment", typed)
        assert state in ("ask", "unread")
        assert part in page.inner_text('[data-step="mean-moment"] .er-said')
        assert page.input_value("#er-mean-moment") == typed


def test_a_closed_tab_loses_nothing(page):
    open_sheet(page)
    type_in(page, "mean-1", "54.4")
    page.fill("#er-tan-1", "half-typed")  # no Enter, no leaving of the field
    other = page.context.new_page()
    other.base = page.base
    page.close()  # as when the tab is closed
    open_sheet(other, code=None)  # the last sheet comes back by itself
    assert other.get_attribute(".er-sheet", "data-code") == CODE
    assert other.input_value("#er-mean-1") == "54.4"
    assert other.input_value("#er-tan-1") == "half-typed"
    assert said(other, "mean-1")[0] in ("right", "wrong", "slip")
    assert kept(other)[f"sheet:{CODE}"]["tan-1"] == "half-typed"


def test_hints_before_the_answer_and_the_working_after_asking_twice(sheet):
    page = sheet
    hint = page.locator('.er-entry[data-step="tan-1"] .er-hint')
    hint.click()
    page.wait_for_selector('.er-entry[data-step="tan-1"] .er-hinted')
    first = page.inner_text('.er-entry[data-step="tan-1"] .er-hinted')
    hint.click()
    page.wait_for_selector('.er-entry[data-step="tan-1"] .er-hinted:nth-child(2)')
    assert first == page.inner_text('.er-entry[data-step="tan-1"] .er-hinted:first-child')  # hints add up
    page.click(".er-solution")
    assert page.locator(".er-solved .er-working").count() == 0
    assert "press again" in page.inner_text(".er-solved")
    page.click(".er-solution")
    page.wait_for_selector(".er-solved .er-working")
    assert right_answers()["mean-moment"].split()[0] in page.inner_text(".er-solved")


def test_a_wrong_code_is_refused_with_a_sentence_and_the_sheet_stays(sheet):
    page = sheet
    type_in(page, "mean-1", "54.4")
    for code in ("A3Y-MAK-X92", "a3y mak x9", "hello", "<b>x</b>"):
        page.evaluate("document.querySelector('.er-trouble').hidden = true")
        page.fill("#er-code", code)
        page.press("#er-code", "Enter")
        page.wait_for_selector(".er-trouble:not([hidden])")
        assert re.search(r"character|code", page.inner_text(".er-trouble"))
        assert page.get_attribute(".er-sheet", "data-code") == CODE
        assert page.input_value("#er-mean-1") == "54.4"


def test_a_wrong_code_in_the_address_is_refused(page):
    page.goto(f"{page.base}{SHEET}?code=A3Y-MAK-X92")
    page.wait_for_selector(".er-trouble:not([hidden])", timeout=60_000)
    assert "check character" in page.inner_text(".er-trouble")
    page.click(".er-fresh")
    page.wait_for_selector(".er-holder:not(.er-waiting) .er-sheet")


def test_typing_while_python_starts_waits_and_is_judged(page):
    held = []
    page.route("**/image.bin", lambda route: held.append(route))
    page.goto(f"{page.base}{SHEET}?code={CODE}")
    assert page.inner_text(".er-status").endswith(LOOKS_RIGHT)
    page.fill("#er-mean-1", right_answers()["mean-1"])
    page.press("#er-mean-1", "Tab")
    assert page.get_attribute('[data-step="mean-1"]', "data-state") == "waiting"
    page.wait_for_timeout(300)
    assert page.locator(".er-holder.er-waiting").count() == 1
    while not held:
        page.wait_for_timeout(50)
    held.pop().continue_()
    assert said(page, "mean-1", "right")[0] == "right"


def test_python_that_cannot_start_says_why_and_keeps_the_work(page):
    page.route(PYTHON, lambda route: route.abort())
    page.goto(f"{page.base}{SHEET}?code={CODE}")
    page.fill("#er-mean-1", "54.4")
    page.wait_for_selector('.er-status[data-state="failed"]', timeout=60_000)
    text = page.inner_text(".er-trouble")
    assert "No numbers could be drawn" in text and "Try:" in text and f"for {CODE} is kept" in text
    # on the page are the numbers that everyone shares, and what is typed now belongs to these
    practice = page.get_attribute(".er-sheet", "data-code")
    assert practice != CODE and page.input_value("#er-mean-1") == "" and page.input_value("#er-code") == CODE
    page.fill("#er-mean-1", "12.3")
    page.press("#er-mean-1", "Tab")
    found = kept(page)
    assert found[f"sheet:draft tan-a for {CODE}"] == {
        "mean-1": "54.4"
    }  # no Python has said yet that there is such a sheet
    assert found[f"firsts:{practice}"] == {"mean-1": "12.3"}
    assert f"firsts:{CODE}" not in found or "mean-1" not in found[f"firsts:{CODE}"]
    page.unroute(PYTHON)
    page.click(".er-again")
    page.wait_for_selector(f'.er-holder:not(.er-waiting) .er-sheet[data-code="{CODE}"]', timeout=60_000)
    assert page.input_value("#er-mean-1") == "54.4" and said(page, "mean-1")[0] in ("right", "wrong", "slip")
    found = kept(page)
    assert (found[f"sheet:{CODE}"], found[f"sheet:{practice}"]) == ({"mean-1": "54.4"}, {"mean-1": "12.3"})


def test_without_a_code_what_is_typed_waits_for_its_sheet(page):
    """On a first visit nobody knows whose numbers are worked, until a code is opened."""
    page.route(PYTHON, lambda route: None)
    page.goto(page.base + SHEET)
    page.fill("#er-mean-1", "54.4")
    page.reload()
    assert page.input_value("#er-mean-1") == "54.4"
    page.unroute(PYTHON)
    page.reload()
    page.wait_for_selector('.er-status[data-state="ready"]', timeout=60_000)
    assert "Open the sheet that your entries belong to" in page.inner_text(".er-status")
    page.fill("#er-code", CODE)
    page.press("#er-code", "Enter")
    assert said(page, "mean-1")[0] in ("right", "wrong", "slip") and page.input_value("#er-mean-1") == "54.4"
    assert kept(page)[f"sheet:{CODE}"] == {"mean-1": "54.4"}


def test_of_two_sheets_each_keeps_its_own_while_python_starts(page):
    for code, text in ((OTHER, "22.2"), (CODE, "11.1")):
        open_sheet(page, code)
        type_in(page, "mean-1", text)
    held = []
    page.route("**/image.bin", lambda route: held.append(route))
    page.goto(page.base + SHEET)
    assert page.input_value("#er-code") == CODE and page.input_value("#er-mean-1") == "11.1"
    page.fill("#er-code", OTHER)
    page.press("#er-code", "Enter")
    assert page.input_value("#er-mean-1") == "22.2"
    while not held:
        page.wait_for_timeout(50)
    held.pop().continue_()
    page.wait_for_selector(f'.er-holder:not(.er-waiting) .er-sheet[data-code="{OTHER}"]', timeout=60_000)
    assert page.input_value("#er-mean-1") == "22.2"
    assert (kept(page)[f"sheet:{CODE}"]["mean-1"], kept(page)[f"sheet:{OTHER}"]["mean-1"]) == ("11.1", "22.2")


def test_a_code_that_is_being_typed_when_python_comes_stands(page):
    held = []
    page.route("**/image.bin", lambda route: held.append(route))
    page.goto(page.base + SHEET)
    page.fill("#er-code", "A322-25")
    while not held:
        page.wait_for_timeout(50)
    held.pop().continue_()
    page.wait_for_selector('.er-status[data-state="ready"]', timeout=60_000)
    assert page.input_value("#er-code") == "A322-25" and "Open the sheet code" in page.inner_text(".er-status")
    assert page.is_disabled(".er-print")


def test_new_numbers_may_be_asked_for_before_python_is_ready(page):
    open_sheet(page)
    held = []
    page.route("**/image.bin", lambda route: held.append(route))
    page.reload()
    page.click(".er-fresh")
    assert "New numbers come when this page is ready" in page.inner_text(".er-status")
    while not held:
        page.wait_for_timeout(50)
    held.pop().continue_()
    page.wait_for_selector(".er-holder:not(.er-waiting) .er-sheet", timeout=60_000)
    assert page.get_attribute(".er-sheet", "data-code") != CODE


def test_prints_on_one_page_with_room_to_write(sheet):
    page = sheet
    type_in(page, "mean-1", "12")
    pdf = page.pdf(prefer_css_page_size=True, format="A4")
    assert len(re.findall(rb"/Type\s*/Page\b", pdf)) == 1
    page.emulate_media(media="print")
    assert not page.is_visible(".er-bar") and not page.is_visible(".er-said") and not page.is_visible(".md-header")
    assert page.locator("#er-mean-1").bounding_box()["height"] > 30
    page.emulate_media(media="screen")


def test_nothing_is_wider_than_the_screen(sheet):
    page = sheet
    assert page.evaluate("document.documentElement.scrollWidth") <= page.viewport_size["width"]


def test_with_scripts_off_there_is_a_sheet_with_answers_folded_away(browser, address):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + SHEET)
    assert page.locator(".er-observations tbody tr").count() >= 4
    answers = page.locator("details.er-answers")
    assert answers.count() == 2
    assert not answers.first.locator("table").is_visible()
    answers.first.locator("summary").click()
    assert answers.first.locator("table").is_visible()
    assert page.locator(".er-note").is_visible()
    context.close()


def test_a_code_opened_before_python_is_ready_is_kept(page):
    held = []
    page.route("**/image.bin", lambda route: held.append(route))
    page.goto(page.base + SHEET)
    page.fill("#er-code", CODE.lower())
    page.press("#er-code", "Enter")
    assert "is opened when this page is ready" in page.inner_text(".er-status")
    while not held:
        page.wait_for_timeout(50)
    held.pop().continue_()
    page.wait_for_selector(f'.er-holder:not(.er-waiting) .er-sheet[data-code="{CODE}"]', timeout=60_000)


def test_two_tabs_on_one_sheet_keep_each_others_entries(sheet):
    page = sheet
    other = page.context.new_page()
    other.base = page.base
    open_sheet(other)
    page.fill("#er-mean-1", "54.4")
    other.wait_for_function("document.querySelector('#er-mean-1').value === '54.4'")
    other.fill("#er-mean-2", "50.1")
    entries = kept(other)[f"sheet:{CODE}"]
    assert (entries["mean-1"], entries["mean-2"]) == ("54.4", "50.1")
    other.close()


def test_new_numbers_asks_first_and_back_brings_the_sheet_again(sheet):
    page = sheet
    type_in(page, "mean-1", "54.4")
    asked = []
    page.once("dialog", lambda d: (asked.append(d.message), d.accept()))
    page.click(".er-fresh")
    page.wait_for_function("old => document.querySelector('.er-sheet').dataset.code !== old", arg=CODE)
    assert CODE in asked[0]
    page.go_back()
    page.wait_for_selector(f'.er-sheet[data-code="{CODE}"]')
    assert page.input_value("#er-mean-1") == "54.4"


def test_a_whole_address_can_be_pasted_as_a_code(sheet):
    page = sheet
    enter_code(page, OTHER)
    page.fill("#er-code", f"https://example.org/exercises/tan-a/?code={CODE}#x")
    page.press("#er-code", "Enter")
    page.wait_for_selector(f'.er-sheet[data-code="{CODE}"]')

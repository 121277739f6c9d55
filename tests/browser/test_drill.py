"""The examiner's questions in the browser: one is answered, the next comes, nothing moves, and the device remembers."""

import pytest

from tests.browser.steps import SHIFTS, kept

FIELD = ".er-question :is(input, select)"


def answer_one(page):
    page.wait_for_selector(".er-question > *", timeout=60_000)
    if page.locator(".er-question input").count():
        page.fill(".er-question input", "12.3")
        page.press(".er-question input", "Enter")
        page.wait_for_selector('.er-question .er-entry[data-state]:not([data-state=""])')
    if not page.locator(".er-next:visible").count():
        page.click(".er-model")
    if not page.locator(FIELD).count():
        page.wait_for_selector(".er-had:visible")
        page.click(".er-had-not")
    page.wait_for_selector(".er-next:visible")
    assert page.inner_text(".er-answer")


@pytest.mark.parametrize("width", [360, 1280])
def test_three_questions_and_what_is_kept(page, width):
    page.set_viewport_size({"width": width, "height": 740})
    page.add_init_script(SHIFTS)
    page.goto(page.base + "revision/drill/")
    for n in range(1, 4):
        answer_one(page)
        assert page.locator(".er-notebook li").count() == n
        page.click(".er-next")
        page.wait_for_selector(".er-next", state="hidden")
        place = page.locator(":focus").bounding_box()  # what comes next is in sight, and the keyboard is there
        assert place["y"] >= 48 and place["y"] + place["height"] <= 740
    assert not [shift for shift in page.evaluate("shifts") if shift[0] > 0]
    assert kept(page)["drill"]["turn"] == 3
    page.reload()
    page.wait_for_selector(".er-question > *", timeout=60_000)
    assert page.inner_text(".er-score") == "3"

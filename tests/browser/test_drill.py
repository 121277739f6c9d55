"""The revision drill in the browser: a card is answered, the next comes, and the device remembers."""

from tests.browser.steps import kept


def answer_one(page):
    page.wait_for_selector(".er-card > *", timeout=60_000)
    field = page.locator(".er-card input")
    if field.count():
        field.fill("12.3")
        field.press("Enter")
        page.wait_for_selector('.er-card .er-entry[data-state]:not([data-state=""])')
    if not page.locator(".er-next:visible").count():
        page.click(".er-model")
    if page.locator(".er-had:visible").count() or page.locator(".er-card input, .er-card select").count() == 0:
        page.wait_for_selector(".er-had:visible")
        page.click(".er-had-not")
    page.wait_for_selector(".er-next:visible")
    assert page.inner_text(".er-answer")


def test_three_cards_and_what_is_kept(page):
    page.goto(page.base + "revision/drill/")
    for _ in range(3):
        answer_one(page)
        page.click(".er-next")
        page.wait_for_selector(".er-next", state="hidden")
    assert kept(page)["drill"]["turn"] == 3
    page.reload()
    page.wait_for_selector(".er-card > *", timeout=60_000)
    assert page.inner_text(".er-score").startswith("3 answered")

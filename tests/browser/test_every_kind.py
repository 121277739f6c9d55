"""Every kind of exercise in a real browser: solved by typing at a phone's width, and printed on one page."""

import re

import pytest

from exercises.kinds.kind import all_kinds, open_code
from tests.benchmarks.judging import typed
from tests.browser.steps import open_sheet
from tests.exercises.golden import codes_of


@pytest.fixture(scope="module")
def phone(browser, address):
    context = browser.new_context(viewport={"width": 360, "height": 800})
    page = context.new_page()
    page.base = address
    yield page
    context.close()


@pytest.mark.parametrize("slug", [s for s in all_kinds() if s != "tan-a"])
def test_solved_and_printed(phone, slug):
    code = codes_of(all_kinds()[slug].letter)[3]
    working = open_code(code).working
    values = working.all_values()
    open_sheet(phone, code, sheet=f"exercises/{slug}/")
    for step in working.steps:
        field = phone.locator(f"#er-{step.id}")
        if step.choices:
            field.select_option(values[step.id])
        else:
            field.fill(typed(values[step.id], step, 5))
    phone.click(".er-check")
    phone.wait_for_function("document.querySelector('.er-score').textContent.startsWith('All ')")
    assert phone.evaluate("document.documentElement.scrollWidth") <= 360
    pdf = phone.pdf(prefer_css_page_size=True, format="A4")
    assert len(re.findall(rb"/Type\s*/Page\b", pdf)) == 1

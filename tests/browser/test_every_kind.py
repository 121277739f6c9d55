"""Every kind of exercise in a real browser: solved by typing at a phone's width, and printed on one page."""

import re

import pytest

from exercises.codes.sheet_code import Setting, SheetCode, Station, write
from exercises.kinds.kind import all_kinds, open_code
from tests.benchmarks.judging import typed
from tests.browser.steps import enter_code, open_sheet
from tests.exercises.golden import codes_of


@pytest.fixture(scope="module")
def phone(browser, address):
    context = browser.new_context(viewport={"width": 360, "height": 800})
    page = context.new_page()
    page.base = address
    yield page
    context.close()


def pages(page) -> int:
    """How many pages of paper a page prints on."""
    return len(re.findall(rb"/Type\s*/Page\b", page.pdf(prefer_css_page_size=True, format="A4")))


#: All that makes a sheet long: the most distances, the longest rule of 2l, the longest name of a place.
LONG = Setting("five-sixths", Station(16, 2027, 9), 120, distances=8, scale_step=0.5)


@pytest.mark.parametrize("slug", all_kinds())
def test_solved_and_printed_on_one_page_and_so_is_one_of_eight_distances(phone, slug):
    """From its own page; test_paper.py looks at what the class desk prints."""
    kind = all_kinds()[slug]
    code = codes_of(kind.letter)[3]
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
    assert pages(phone) == 1
    enter_code(phone, write(SheetCode(kind.letter, kind.edition, 777_777, LONG)))
    assert pages(phone) == 1

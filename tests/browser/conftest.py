"""A page of the site in the browser, at a phone's width.

What fits there fits a desk; test_pages.py and test_rules.py look at both widths, test_firefox.py works at a desk's.
"""

import time

import pytest
from playwright.sync_api import Error, Page, TimeoutError

from tests.browser.steps import PHONE


def until(page, expression, arg=None, timeout=30_000):
    """Wait until an expression holds in the page, asking again and again.

    Playwright's own way has the page evaluate text, which the site's security policy forbids.
    """
    end = time.monotonic() + timeout / 1000
    while not _holds(page, expression, arg):
        if time.monotonic() > end:
            raise TimeoutError(f"after {timeout} ms still not so: {expression}")
        page.wait_for_timeout(25)


def _holds(page, expression, arg):
    try:
        return page.evaluate(expression, arg)
    except Error as error:
        if "Execution context was destroyed" not in error.message:  # else another page is just being loaded
            raise
        return False


Page.wait_for_function = until


@pytest.fixture(scope="session")
def context(browser):
    """One visitor's browser; its cache is kept between tests."""
    visitor = browser.new_context(viewport={"width": 360, "height": 900})
    yield visitor
    visitor.close()


@pytest.fixture
def page(context, address):
    """A page with nothing kept from before; its errors fail the test."""
    opened = context.new_page()
    errors = []
    opened.on("pageerror", lambda error: errors.append(str(error)))
    opened.base = address
    opened.goto(f"{address}eight/icon.svg")  # what is kept belongs to the site, and a picture is the least of it
    opened.evaluate("localStorage.clear()")
    yield opened
    for left in context.pages:
        left.close()
    assert errors == []


@pytest.fixture
def reader(browser, address):
    """A page that asks for little motion, without a service worker, its errors noted."""
    context = browser.new_context(viewport=PHONE, reduced_motion="reduce", service_workers="block")
    page = context.new_page()
    page.base, page.errors = address, []
    page.on("pageerror", lambda error: page.errors.append(str(error)))
    page.on("dialog", lambda dialog: dialog.accept())
    yield page
    context.close()
    assert page.errors == []

"""A page of the site in the browser, at a phone's width and at a desk's."""

import time

import pytest
from playwright.sync_api import Page, TimeoutError


def until(page, expression, arg=None, timeout=30_000):
    """Wait until an expression holds in the page, asking again and again.

    Playwright's own way has the page evaluate text, which the site's security policy forbids.
    """
    end = time.monotonic() + timeout / 1000
    while not page.evaluate(expression, arg):
        if time.monotonic() > end:
            raise TimeoutError(f"after {timeout} ms still not so: {expression}")
        page.wait_for_timeout(10)


Page.wait_for_function = until


@pytest.fixture(scope="session", params=[1280, 360], ids=["desk", "phone"])
def context(request, browser):
    """One visitor's browser at a desk's and at a phone's width; its cache is kept between tests."""
    visitor = browser.new_context(viewport={"width": request.param, "height": 900})
    yield visitor
    visitor.close()


@pytest.fixture
def page(context, address):
    """A page with nothing kept from before; its errors fail the test."""
    opened = context.new_page()
    errors = []
    opened.on("pageerror", lambda error: errors.append(str(error)))
    opened.base = address
    opened.goto(address)
    opened.evaluate("localStorage.clear()")
    yield opened
    for left in context.pages:
        left.close()
    assert errors == []

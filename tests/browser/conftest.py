"""A page of the site in the browser, at a phone's width and at a desk's."""

import pytest


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

"""A page of the site in the browser, at a phone's width and at a desk's."""

import pytest


@pytest.fixture(params=[1280, 360], ids=["desk", "phone"])
def page(request, browser, address):
    """A fresh page of a fresh visitor; its errors fail the test."""
    context = browser.new_context(viewport={"width": request.param, "height": 900})
    opened = context.new_page()
    errors = []
    opened.on("pageerror", lambda error: errors.append(str(error)))
    opened.base = address
    yield opened
    context.close()
    assert errors == []

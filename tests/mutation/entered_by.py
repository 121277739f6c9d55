"""For pytest, under coverage: each line is entered under the test that runs, in its helpers and fixtures too."""

import coverage
import pytest

from tests.mutation.copies import calm

calm()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item):
    current = coverage.Coverage.current()
    current.switch_context(item.nodeid.split("[")[0])
    try:
        return (yield)
    finally:
        current.switch_context("")

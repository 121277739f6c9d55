"""What tests share: the built site, a server for it, and a real browser."""

import functools
import http.server
import threading

import pytest
from filelock import FileLock
from hypothesis import settings

from generator.build.runtime import ROOT
from generator.commands.command import Handler, build
from tests.browser.chromium import launched

settings.register_profile(
    "untimed", deadline=None, derandomize=True
)  # a busy machine is no failure; benchmarks hold the times
settings.load_profile("untimed")


@pytest.fixture(scope="session")
def say(request):
    """Print a progress line past pytest's capture."""
    capture = request.config.pluginmanager.getplugin("capturemanager")

    def line(text: str) -> None:
        with capture.global_and_fixture_disabled():
            print(text, flush=True)

    return line


@pytest.fixture(scope="session")
def site(say, tmp_path_factory, testrun_uid):
    """The site, built once for all tests, whichever process asks first: its folder."""
    built = tmp_path_factory.getbasetemp().parent / f"built-{testrun_uid}"
    with FileLock(f"{built}.lock"):
        if not built.exists():
            say("\nBuilding the site for the tests ...")
            build()
            built.touch()
    return ROOT / "site"


@pytest.fixture(scope="session")
def address(site):
    """The address at which the built site is served."""
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Handler, directory=str(site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()


@pytest.fixture(scope="session")
def playwright():
    """What drives the browsers."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        yield driver


@pytest.fixture(scope="session")
def browser(playwright, say):
    """A real Chromium.  Fails, with what to install, if there is none and none can be fetched."""
    chromium = launched(playwright, say)
    for make in ("new_context", "new_page"):
        # the site is kept offline only where a test asks for it: it takes time, and hides requests from page.route
        setattr(chromium, make, functools.partial(getattr(chromium, make), service_workers="block"))
    yield chromium
    chromium.close()

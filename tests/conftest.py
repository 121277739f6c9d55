"""What tests share: the built site, a server for it, and a real browser."""

import functools
import os
import threading
from pathlib import Path

import pytest
from filelock import FileLock
from hypothesis import settings

from generator.build.image import QUICKLY
from generator.build.runtime import ROOT
from generator.commands.command import build
from generator.commands.serving import Server
from tests.browser.chromium import BRIEF, launched
from tests.browser.host import Shared

settings.register_profile(
    "untimed", deadline=None, derandomize=True
)  # a busy machine is no failure; benchmarks hold the times
settings.load_profile("untimed")


os.environ[QUICKLY] = "1"  # also for builds in processes of their own: the best compression takes a minute
# what these processes run is compiled once, also where no compiled files are to lie beside the code
os.environ["PYTHONPYCACHEPREFIX"] = str(ROOT / ".cache" / "bytecode")
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

HERE = Path(__file__).parent
FIRST = "generator/build/test_build.py"  # most of it is builds
#: The files that take longest, longest first.
LONG = (
    "browser/test_rules.py",
    "browser/test_everyone.py",
    "browser/test_hostile.py",
    "browser/test_class_desk.py",
    "browser/test_start.py",
    "browser/test_safe.py",
    "browser/test_other_codes.py",
    "browser/test_sheet.py",
    "browser/test_offline.py",
    "browser/test_pages.py",
    "browser/test_firefox.py",
    "browser/test_every_kind.py",
    "browser/test_round.py",
)


def pytest_configure():
    for name in (FIRST, *LONG):
        if not (HERE / name).is_file():
            raise pytest.UsageError(f"tests/conftest.py orders a file that is not there: {name}. Give its new name.")


def pytest_collection_modifyitems(items):
    """The order of the files: two processes take the next one each, and neither is to wait for the other.

    The first file has the site built, and tests of the exercises keep the other process busy meanwhile.  Then come the
    files that need the site, the long ones first, and last what is short.
    """
    files = {}
    for item in items:
        files.setdefault(item.path, []).append(item)
    long = {HERE / name: place for place, name in enumerate(LONG)}

    def place(path):
        if path == HERE / FIRST:
            return 0, 0
        if path.is_relative_to(HERE / "exercises"):
            return 1, 0
        if any("site" in item.fixturenames for item in files[path]):
            return 2, long.get(path, len(LONG))
        return 3, 0

    items[:] = [item for path in sorted(files, key=place) for item in files[path]]


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
    server = Server(("127.0.0.1", 0), functools.partial(Shared, directory=str(site)))
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
    chromium = launched(playwright, say, more=BRIEF)
    for make in ("new_context", "new_page"):
        # the site is kept offline only where a test asks for it: it takes time, and hides requests from page.route
        setattr(chromium, make, functools.partial(getattr(chromium, make), service_workers="block"))
    yield chromium
    chromium.close()

"""A student's first visit on a phone's network: 1.6 Mbit/s for all that comes, 150 ms until each answer begins.

first_paint_mobile_s        until the largest text or figure of an exercise's first screen is drawn, on a processor
                            slowed down four times
exercise_first_visit_ms     from opening an exercise until it can be checked, nothing kept from before
exercise_after_reading_ms   the same by someone who has read a page of Before the lab until all of it has come ahead
"""

import functools
import statistics
import threading
import time
from pathlib import Path

from playwright.sync_api import sync_playwright

from generator.build.runtime import ROOT
from generator.commands.command import build
from tests.benchmarks.pages import READY, Host, hosted
from tests.browser.chromium import launched

NAMES = ("first_paint_mobile_s", "exercise_first_visit_ms", "exercise_after_reading_ms")
EXERCISE, READ = "exercises/tan-a/", "before/instrument/"
BYTES_PER_SECOND, DELAY, SLOWER = 1.6e6 / 8, 0.150, 4
PIECE = 4096  # bytes sent at once
RUNS = 3
LAST = "glue.bin"  # of what comes ahead
PAINTED = """
window.painted = 0;
for (const type of ["paint", "largest-contentful-paint"])
  new PerformanceObserver((list) => list.getEntries().forEach((e) => (painted = Math.max(painted, e.startTime))))
    .observe({ type, buffered: true });"""


class Line:
    """One line that all answers share."""

    def __init__(self, out):
        self.out = out

    lock = threading.Lock()

    def write(self, content: bytes) -> int:
        for at in range(0, len(content), PIECE):
            piece = content[at : at + PIECE]
            with Line.lock:
                time.sleep(len(piece) / BYTES_PER_SECOND)
            self.out.write(piece)
        return len(content)

    def __getattr__(self, name):
        return getattr(self.out, name)


class Mobile(Host):
    """The site as a host that compresses gives it over a phone's network."""

    sent: list[str] = []  # addresses whose answer is whole

    def setup(self):
        super().setup()
        self.wfile = Line(self.wfile)

    def do_GET(self):
        time.sleep(DELAY)
        super().do_GET()
        Mobile.sent.append(self.path)


def _painted(browser, address: str) -> float:
    """Seconds until the last of what an exercise's first screen is made of is drawn."""
    context = browser.new_context(viewport={"width": 360, "height": 800}, service_workers="block")
    page = context.new_page()
    page.add_init_script(PAINTED)
    page.route("**/worker.js", lambda route: route.abort())  # the page alone
    session = context.new_cdp_session(page)
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.goto(address, wait_until="load")
    page.wait_for_timeout(1000)
    found = page.evaluate("painted") / 1000
    context.close()
    return found


def _ready(page, address: str) -> float:
    """Milliseconds from opening a page until it can be checked."""
    begun = time.perf_counter()
    page.goto(address, wait_until="commit")
    page.wait_for_selector(READY, timeout=180_000)
    return (time.perf_counter() - begun) * 1000


def visits(folder: Path | None = None) -> dict[str, float]:
    """The figures, of a site in a folder or of the site built anew."""
    if folder is None:
        build()
        folder = ROOT / "site"
    with sync_playwright() as playwright, hosted(Mobile, folder) as base:
        browser = launched(playwright)
        visitor = functools.partial(browser.new_context, service_workers="block")
        painted = statistics.median(_painted(browser, base + EXERCISE) for _ in range(RUNS))
        with visitor() as context:
            first = _ready(context.new_page(), base + EXERCISE)
        with visitor() as context:
            page = context.new_page()
            Mobile.sent.clear()
            page.goto(base + READ)
            while not any(path.endswith(LAST) for path in Mobile.sent):
                page.wait_for_timeout(200)
            page.wait_for_timeout(500)
            after = _ready(page, base + EXERCISE)
        browser.close()
    return dict(zip(NAMES, (painted, first, after), strict=True))

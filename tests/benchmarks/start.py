"""How soon the first answer of a visit is judged, and what it costs to fetch, beside the plain way.

The plain way is the same pinned runtime started with its defaults: a page that
loads pyodide.mjs, unpacks exercises.zip, imports and asks the same first check.
Both are served by the same host and run by the same Chromium, in turn.

first_check_ratio       a first visit, from opening the page to the verdict, nothing kept from before
first_check_ratio_slow  the same at 10 Mbit/s with 40 ms to the host, which gzips everything (the harder host for us),
                        and a four times slower processor; both run in the page itself, as only that can be slowed down
second_visit_ratio      the page opened again, its files kept by the browser
first_check_ratio_mobile  the same as the slow one at 1.6 Mbit/s with 150 ms to the host
kept_MB                 what is kept of the site on a device, as a host that gzips everything sends it, in 10⁶ bytes
bytes_ratio_…           what the host sent until the first verdict, if it compresses nothing or gzips everything
"""

import functools
import gzip
import http.server
import mimetypes
import statistics
import threading
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import unquote

from playwright.sync_api import sync_playwright

from exercises.student import desk as student
from generator.build import offline
from generator.build.runtime import ROOT
from generator.commands.command import build
from tests.browser.chromium import launched

RUNS, SLOW_RUNS, MOBILE_RUNS = 5, 3, 1
CHECK = ("A3Y-MAK-X9M", '{"mean-1": "54.4", "tan-1": "1.4"}')
SLOWER = 4
#: Way of going slowly -> (Mbit/s, ms to the host).
NETWORKS = {"slow": (10, 40), "mobile": (1.6, 150)}
NAMES = (
    "first_check_ratio",
    "first_check_ratio_slow",
    "first_check_ratio_mobile",
    "kept_MB",
    "second_visit_ratio",
    "bytes_ratio_plain_host",
    "bytes_ratio_gzip_host",
    "first_check_ms",
    "second_visit_ms",
    "first_check_ms_slow",
    "plain_first_check_ms",
    "plain_first_check_ms_slow",
    "first_check_ms_mobile",
)

SITE = """
import { Python } from "./eight/python.js";
const python = await new Promise((resolve, reject) => {
  const made = new Python({ onready: () => resolve(made), onfailed: reject });
});
if (python.from !== "image") throw new Error("not started from the image");
const answer = JSON.stringify(await python.ask("check", ...CHECK));
"""
IN_PAGE = """
import { start } from "./eight/start.js";
const [, student] = await start("image");
const answer = JSON.stringify(JSON.parse(student.check(...CHECK)));
"""
PLAIN = """
import { loadPyodide } from "./eight/python/pyodide.js";
const python = await loadPyodide();
const code = await (await fetch("./eight/exercises.zip")).arrayBuffer();
python.unpackArchive(code, "zip");
const answer = JSON.stringify(JSON.parse(python.pyimport("exercises.student.desk").check(...CHECK)));
"""
WAYS = {"site": SITE, "in_page": IN_PAGE, "plain": PLAIN}
PAGE = """<!doctype html><meta charset="utf-8"><link rel="icon" href="data:,"><title>start</title>
<script type="module">const CHECK = {check};
{way}
window.found = [performance.now(), answer];
</script>"""


class Host(http.server.BaseHTTPRequestHandler):
    """A static host as they are: files may be kept for ten minutes, sent as they are or gzipped, all of them."""

    protocol_version = "HTTP/1.1"
    sent = 0  # bytes of all bodies

    def __init__(self, *args, folder: Path, zipped: bool):
        self.folder, self.zipped = folder, zipped
        super().__init__(*args)

    def do_GET(self):
        name = self.path.strip("/")
        content = _page(WAYS[name]) if name in WAYS else _file(self.folder / name, self.zipped)
        if content is None:
            self.send_error(404)
            return
        Host.sent += len(content)
        self.send_response(200)
        kind = "text/html" if name in WAYS else mimetypes.guess_type(name)[0]
        self.send_header("Content-Type", kind or "application/octet-stream")
        if self.zipped and name not in WAYS:
            self.send_header("Content-Encoding", "gzip")
        self.send_header("Cache-Control", "max-age=600")
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        self.wfile.write(content)

    def log_message(self, *_):
        pass


def _page(way: str) -> bytes:
    return PAGE.replace("{check}", str(list(CHECK))).replace("{way}", way).encode()


@functools.cache
def _file(path: Path, zipped: bool) -> bytes | None:
    if not path.is_file():
        return None
    return gzip.compress(path.read_bytes(), 6, mtime=0) if zipped else path.read_bytes()


@contextmanager
def _host(folder: Path, zipped: bool):
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Host, folder=folder, zipped=zipped))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    for path in sorted((folder / "eight").rglob("*")):
        _file(path, zipped)  # compressed beforehand
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()


def _visit(page, address: str, way: str) -> tuple[float, int]:
    """Milliseconds from opening a page to its first verdict, and the bytes that were sent."""
    before = Host.sent
    page.goto(address + way, wait_until="commit")
    page.wait_for_function("window.found", timeout=180_000)
    took, answer = page.evaluate("window.found")
    right = page.evaluate("text => JSON.stringify(JSON.parse(text))", student.check(*CHECK))
    if answer != right:
        raise RuntimeError(f"The {way} way gave another verdict: {answer[:200]}")
    return took, Host.sent - before


def kept(folder: Path) -> float:
    """What is kept of a built site, as a host that gzips everything sends it, in millions of bytes."""
    names = [unquote(name) for name in offline.listed(folder) if name not in offline.LATER]
    paths = [folder / name / "index.html" if name == "" or name.endswith("/") else folder / name for name in names]
    return sum(len(_file(path, True) or b"") for path in paths) / 1e6


def _slow(page, mbit: float, delay: float) -> None:
    session = page.context.new_cdp_session(page)
    rate = mbit * 1e6 / 8
    session.send("Network.enable")
    session.send(
        "Network.emulateNetworkConditions",
        {"offline": False, "latency": delay, "downloadThroughput": rate, "uploadThroughput": rate},
    )
    session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})


def start(folder: Path | None = None) -> dict[str, float]:
    """The figures, of a site in a folder or of the site built anew."""
    if folder is None:
        build()
        folder = ROOT / "site"
    took: dict[tuple[str, str], list[float]] = {}
    sent: dict[tuple[str, bool], int] = {}
    with sync_playwright() as playwright, _host(folder, False) as bare, _host(folder, True) as zipping:
        browser = launched(playwright)

        def visits(address: str, way: str, slow: str = "") -> None:
            visitor = browser.new_context(service_workers="block")
            for which in [slow] if slow else ["first", "second"]:
                page = visitor.new_page()
                if slow:
                    _slow(page, *NETWORKS[slow])
                milliseconds, size = _visit(page, address, way)
                if slow or address == bare:
                    took.setdefault((way, which), []).append(milliseconds)
                if which == "first":
                    sent[way, address == zipping] = size
                page.close()
            visitor.close()

        for _ in range(RUNS):
            for way in ("site", "plain"):
                visits(bare, way)
        for way in ("site", "plain"):
            visits(zipping, way)
        for slow, runs in (("slow", SLOW_RUNS), ("mobile", MOBILE_RUNS)):
            for _ in range(runs):
                for way in ("in_page", "plain"):
                    visits(zipping, way, slow)
        browser.close()
    middle = {visit: statistics.median(times) for visit, times in took.items()}

    def ratio(way: str, which: str) -> float:
        """Of each visit to the plain one right after it: the machine is not as fast at one time as at another."""
        return statistics.median(
            ours / plain for ours, plain in zip(took[way, which], took["plain", which], strict=True)
        )

    return {
        "first_check_ratio": ratio("site", "first"),
        "first_check_ratio_slow": ratio("in_page", "slow"),
        "first_check_ratio_mobile": ratio("in_page", "mobile"),
        "kept_MB": kept(folder),
        "second_visit_ratio": ratio("site", "second"),
        "bytes_ratio_plain_host": sent["site", False] / sent["plain", False],
        "bytes_ratio_gzip_host": sent["site", True] / sent["plain", True],
        "first_check_ms": middle["site", "first"],
        "second_visit_ms": middle["site", "second"],
        "first_check_ms_slow": middle["in_page", "slow"],
        "plain_first_check_ms": middle["plain", "first"],
        "plain_first_check_ms_slow": middle["plain", "slow"],
        "first_check_ms_mobile": middle["in_page", "mobile"],
    }

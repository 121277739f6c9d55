"""Any host: below a path, from a server that knows nothing of the site, and with no request to another origin."""

import re
import socket
import threading

import pytest

from generator.commands.serving import Handler
from tests.browser.host import Host
from tests.browser.steps import open_sheet, right_answers, type_in

#: What a browser fetches by itself on meeting it: in a page, in a style sheet, behind a script.
FETCHED = re.compile(
    r"""<(?:script|img|iframe|source|video|audio|embed|object|use|image|input)\b[^>]*?\s(?:src|srcset|data|href)=["']?([^"'\s>]+)"""
    r"""|<link\b[^>]*?\shref=["']?([^"'\s>]+)"""
)
IN_STYLES = re.compile(r"""url\(\s*["']?([^"')]+)|@import\s+["']([^"']+)""")
SOURCE_MAP = re.compile(r"[#@]\s*sourceMappingURL=(\S+)")
#: Chromium's own question about any form it sees, whatever page it is in; no page causes it or can prevent it.
BROWSERS_OWN = "CONNECT content-autofill.googleapis.com:443 "
FOREIGN = re.compile(r"^(?:[a-z][a-z0-9+.-]*:)?//", re.IGNORECASE)


class Elsewhere:
    """Stands for all other hosts: the browser's proxy for them, which notes what is asked of it and answers nothing."""

    def __init__(self):
        self.asked = []
        self.socket = socket.create_server(("127.0.0.1", 0))
        self.address = f"http://127.0.0.1:{self.socket.getsockname()[1]}"
        threading.Thread(target=self._listen, daemon=True).start()

    def _listen(self):
        while True:
            try:
                client, _ = self.socket.accept()
            except OSError:
                return
            with client:
                line = client.recv(1000).partition(b"\r\n")[0].decode("ascii", "replace")
            if not line.startswith(BROWSERS_OWN):
                self.asked.append(line)


@pytest.fixture(scope="module")
def elsewhere():
    it = Elsewhere()
    yield it
    it.socket.close()


@pytest.fixture(scope="module")
def host(site):
    it = Host(site, below="/some/where/")
    yield it
    it.close()


@pytest.fixture(scope="module")
def page(browser, host, elsewhere):
    """One page for all of this file: whatever it asks of another host, worker or not, goes to `elsewhere`."""
    context = browser.new_context(proxy={"server": elsewhere.address, "bypass": "127.0.0.1"})
    opened = context.new_page()
    opened.base, opened.errors = host.address, []
    context.on("weberror", lambda error: opened.errors.append(str(error.error)))
    context.on("response", lambda r: opened.errors.append(f"{r.status} {r.url}") if r.status >= 400 else None)
    yield opened
    context.close()


def addresses(site):
    return [path.relative_to(site).as_posix().removesuffix("index.html") for path in sorted(site.rglob("index.html"))]


def test_pages_open_below_a_path_and_ask_nothing_of_others(page, host, site, elsewhere):
    for where in addresses(site)[::5]:  # of every sort; test_pages.py looks at what each page asks for
        page.goto(host.address + where)
        assert page.locator("h1").count() == 1, where
        assert page.evaluate("getComputedStyle(document.body).getPropertyValue('--er-ink') !== ''"), where
    assert page.errors == []
    assert elsewhere.asked == []
    assert [path for path in host.asked if not path.startswith(host.below)] == []


def test_a_sheet_the_search_and_the_class_desk_work_below_a_path(page, host, elsewhere):
    open_sheet(page)
    assert type_in(page, "mean-1", right_answers()["mean-1"])[0] == "right"
    words = f"{host.below}search/search_index.json"
    assert words not in host.asked  # it comes when the search is opened
    page.click("input.md-search__input")
    page.keyboard.type("pivot")
    page.locator(".md-search-result__link").first.click()
    assert words in host.asked
    page.wait_for_url(f"{host.address}**")
    assert page.locator("h1").count() == 1
    page.goto(f"{host.address}class/desk/")
    page.locator('.er-status[data-state="ready"]').first.wait_for(timeout=60_000)
    assert page.errors == []
    assert elsewhere.asked == []


def test_the_search_works_where_the_packed_script_does_not_come(page, host):
    page.route("**/theme.bin", lambda route: route.abort())
    page.goto(f"{host.address}class/")
    page.click("input.md-search__input")
    page.keyboard.type("pivot")
    page.locator(".md-search-result__link").first.wait_for()
    page.unroute("**/theme.bin")


def test_what_is_asked_of_others_would_be_seen(browser, elsewhere):
    """The check of the two above can fail: a page that does ask is noticed, also where it is refused at once."""
    context = browser.new_context(proxy={"server": elsewhere.address, "bypass": "127.0.0.1"})
    page = context.new_page()
    page.set_content(
        '<link rel="stylesheet" href="http://elsewhere.example/a.css"><img src="http://elsewhere.example/b.png">'
    )
    context.close()
    assert {line.split()[1] for line in elsewhere.asked} == {
        "http://elsewhere.example/a.css",
        "http://elsewhere.example/b.png",
    }
    elsewhere.asked.clear()


def test_no_file_names_another_host_for_the_browser_to_fetch(site):
    foreign = []
    for path in site.rglob("*"):
        if path.suffix not in (".html", ".css", ".js", ".mjs", ".svg", ".webmanifest"):
            continue
        text = path.read_text(encoding="utf-8")
        found = []
        if path.suffix in (".html", ".svg"):
            found += FETCHED.findall(text)
        if path.suffix in (".html", ".svg", ".css"):
            found += IN_STYLES.findall(text)
        if path.suffix in (".css", ".js", ".mjs"):
            found += [(address,) for address in SOURCE_MAP.findall(text)]
        addresses = ["".join(parts) for parts in found]
        foreign += [f"{path.relative_to(site)}: {a}" for a in addresses if FOREIGN.match(a)]
        # nor from the root of its own host, where another site may lie
        foreign += [f"{path.relative_to(site)}: {a}" for a in addresses if a.startswith("/")]
    assert foreign == []


def test_python_starts_from_a_host_that_does_not_know_its_media_types(browser, site):
    class Plain(Handler):
        """A host of long ago: it knows pages, styles, scripts and pictures, and calls all else bytes."""

        def guess_type(self, path):
            known = str(path).endswith((".html", ".css", ".js", ".mjs", ".svg", ".png"))
            return super().guess_type(path) if known else "application/octet-stream"

    old = Host(site, handler=Plain)
    context = browser.new_context()
    page = context.new_page()
    page.base = old.address
    open_sheet(page)
    assert type_in(page, "mean-1", right_answers()["mean-1"])[0] == "right"
    context.close()
    old.close()


def test_in_a_room_without_https_all_works_but_keeping_and_copying_with_one_press(browser, site):
    host = Host(site)
    # the browser reaches the host by a name that is not its own machine's, through the host itself
    context = browser.new_context(proxy={"server": host.address}, service_workers="allow")
    page = context.new_page()
    page.base = "http://room.example/"
    open_sheet(page)
    assert page.evaluate("[isSecureContext, 'serviceWorker' in navigator]") == [False, False]
    assert type_in(page, "mean-1", right_answers()["mean-1"])[0] == "right"
    page.locator("#er-who").fill("Knot")
    page.locator("#er-who").press("Enter")
    page.locator(".er-slip-holder:not([hidden]) .er-copy").click()
    page.locator(".er-slip-says", has_text="selected").wait_for()
    slip = page.input_value(".er-slip")
    assert (
        page.evaluate("e = document.querySelector('.er-slip'), e.value.slice(e.selectionStart, e.selectionEnd)") == slip
    )
    context.close()
    host.close()


def test_a_page_opened_from_a_file_says_why_it_does_not_work(browser, site):
    page = browser.new_page()
    page.goto((site / "exercises" / "tan-a" / "index.html").as_uri())
    assert "opened from a file" in page.inner_text(".er-from-file")
    assert "opened from a file" in page.inner_text(".er-status")
    assert page.locator(".er-observations tbody tr").count() >= 4
    page.close()

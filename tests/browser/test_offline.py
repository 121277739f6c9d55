"""Without a network: after one visit all of the site works, and one version of it at a time."""

import json
import shutil

import pytest

from exercises.kinds.kind import open_code
from generator.build import offline
from generator.commands.serving import Handler
from tests.benchmarks.judging import typed
from tests.browser.host import Host, version_with
from tests.browser.steps import CODE, SHEET, kept, open_sheet, right_answers, said, type_in

OTHER = "tan-b"  # a kind that has not been opened before the network goes
IN_STORE = """async () => {
  const found = [];
  for (const name of await caches.keys()) for (const r of await (await caches.open(name)).keys()) found.push(r.url);
  return found;
}"""


@pytest.fixture(scope="module")
def versions(site, tmp_path_factory):
    """Two versions of the site, told apart on a page, in a script and by what Python says: (folder, folder)."""
    place = tmp_path_factory.mktemp("versions")
    for name in ("one", "two"):
        version_with(
            site,
            place / name,
            {
                "exercises/tan-a/index.html": ("<title>", f"<title>{name}: "),
                "eight/desk.js": ("Your numbers are here.", f"The numbers of {name} are here."),
            },
        )
    return place / "one", place / "two"


@pytest.fixture
def host(versions):
    it = Host(versions[0], below="/some/where/")
    yield it
    it.close()


@pytest.fixture
def visitor(browser):
    """A browser that keeps nothing from before and may keep the site; errors of its pages fail the test."""
    context, errors = browser.new_context(service_workers="allow"), []
    context.on("weberror", lambda error: errors.append(str(error.error)))
    yield context
    context.close()
    assert errors == []


def opened(visitor, host):
    page = visitor.new_page()
    page.base = host.address
    return page


def wait_until_kept(page, text="opens without a network"):
    page.locator(".er-kept", has_text=text).wait_for(timeout=60_000, state="attached")


def version_of(page):
    """Which version a page is of, by its title, its script and its worker: one word if they agree."""
    title = page.title().partition(":")[0]
    page.locator('.er-status[data-state="ready"]', has_text=f"The numbers of {title} are here").wait_for(timeout=60_000)
    return title


def files_of(folder):
    site = (folder / "offline.js").read_text().partition(";\n")[0].removeprefix("const SITE = ")
    found = json.loads(site)
    return {name: of for name, of in found["files"].items() if name not in found["later"]}


def test_after_one_visit_all_works_without_a_network(visitor, host, versions):
    page = opened(visitor, host)
    page.goto(host.address)
    wait_until_kept(page)
    assert len(page.evaluate(IN_STORE)) == len(files_of(versions[0]))
    # what only a plain start takes is kept once it was asked for
    fetched = "root => fetch(root + 'eight/exercises.zip').then(got => got.arrayBuffer()).then(got => got.byteLength)"
    size = page.evaluate(fetched, host.address)
    page.wait_for_function(f"async () => (await ({IN_STORE})()).some(url => url.includes('exercises.zip'))")
    host.off = True
    assert page.evaluate(fetched, host.address) == size == (versions[0] / "eight/exercises.zip").stat().st_size

    # a sheet that was not opened before, with numbers of its own, solved
    sheet = f"exercises/{OTHER}/"
    open_sheet(page, code=None, sheet=sheet)
    code = page.get_attribute(".er-sheet", "data-code")
    assert code in page.url
    working = open_code(code).working
    values = working.all_values()
    for step in working.steps:
        field = page.locator(f"#er-{step.id}")
        if step.choices:
            field.select_option(values[step.id])
        else:
            field.fill(typed(values[step.id], step, 5))
    page.click(".er-check")
    page.locator(".er-score", has_text="All ").wait_for()

    # other pages with their figures, the search, a file to save, an address without its slash or with a page's name
    page.goto(f"{host.address}before/why-eight/")
    assert page.locator("svg.er-figure").count() >= 1
    asked = page.locator('link[rel="stylesheet"]').count()
    assert page.evaluate("[...document.styleSheets].filter(sheet => sheet.cssRules.length).length") >= asked > 0
    page.click("input.md-search__input")
    page.keyboard.type("pivot")
    page.locator(".md-search-result__item").first.wait_for()
    page.goto(f"{host.address}class/desk?x=1")
    assert page.url == f"{host.address}class/desk/?x=1"
    page.goto(f"{host.address}record/index.html")
    page.locator('.er-status[data-state="ready"]').wait_for(timeout=60_000)
    types = page.evaluate(
        """root => Promise.all(["class/saltmarsh.csv", "eight/icon-192.png", "eight/python/pyodide.js",
             "manifest.webmanifest", "eight/worker.js"].map(
             async name => (await fetch(new URL(name, root))).headers.get("content-type").split(";")[0]))""",
        host.address,
    )
    assert types == ["text/csv", "image/png", "text/javascript", "application/manifest+json", "text/javascript"]
    assert page.goto(f"{host.address}no/such/page").status == 404
    assert "no page at this address" in page.inner_text("h1")


class Strict(Handler):
    """Forbids what is not the site's, and lets a browser itself keep nothing."""

    def end_headers(self):
        self.send_header("Content-Security-Policy", "script-src 'self' 'wasm-unsafe-eval'")
        super().end_headers()

    def send_header(self, name, value):
        super().send_header(name, "no-store" if name == "Cache-Control" else value)


def test_after_one_visit_of_a_strict_host_python_starts_without_a_network(browser, versions):
    host, context = Host(versions[0], handler=Strict), browser.new_context(service_workers="allow")
    page = context.new_page()
    page.goto(host.address)
    wait_until_kept(page)
    host.off = True
    page.goto(f"{host.address}{SHEET}?code={CODE}")
    page.locator('.er-status[data-state="ready"]').wait_for(timeout=60_000)
    context.close()
    host.close()


def test_a_newer_version_takes_over_whole_and_nothing_typed_is_lost(visitor, host, versions):
    page = opened(visitor, host)
    open_sheet(page)
    wait_until_kept(page)
    page.reload()
    type_in(page, "mean-1", right_answers()["mean-1"])
    page.fill("#er-tan-1", "half-typed")
    host.folder = versions[1]

    # another tab is opened after the new version was put up: both go on with the one they began with
    other = opened(visitor, host)
    open_sheet(other)
    assert version_of(other) == version_of(page) == "one"
    wait_until_kept(other, "A newer version")
    other.reload()
    assert version_of(other) == "one"
    assert page.input_value("#er-tan-1") == "half-typed"
    assert said(page, "mean-1", "right")
    other.close()

    # the only tab left is loaded again: the new version takes over, all of it, and the old one is gone
    page.reload()
    page.locator(".er-status", has_text="The numbers of two are here").wait_for(timeout=60_000)
    assert version_of(page) == "two"
    assert page.input_value("#er-tan-1") == "half-typed" and page.input_value("#er-mean-1") == right_answers()["mean-1"]
    assert kept(page)[f"sheet:{CODE}"]["tan-1"] == "half-typed"
    host.off = True
    page.reload()
    assert version_of(page) == "two"
    hashes = {url.partition("?kept=")[2] for url in page.evaluate(IN_STORE)}
    assert len(page.evaluate(IN_STORE)) == len(files_of(versions[1]))
    changed = {name for name, found in files_of(versions[0]).items() if files_of(versions[1])[name] != found}
    assert {SHEET, "eight/desk.js"} <= changed
    assert not any(files_of(versions[0])[name].replace("=", "%3D") in hashes for name in changed)


def test_a_site_that_is_no_longer_to_be_kept_is_removed(visitor, host, versions, tmp_path):
    page = opened(visitor, host)
    page.goto(f"{host.address}before/")
    wait_until_kept(page)
    place = tmp_path / "none"
    shutil.copytree(versions[1], place)
    offline.write_none(place)
    host.folder = place
    page.reload()
    wait_until_kept(page, "A newer version")
    page.reload()
    page.locator(".er-kept").wait_for(state="detached")
    page.wait_for_function("async () => (await caches.keys()).length === 0")
    page.wait_for_function("async () => (await navigator.serviceWorker.getRegistrations()).length === 0")
    page.goto(host.address + SHEET)
    assert version_of(page) == "two"


def test_a_version_that_is_not_whole_is_not_kept(visitor, host, versions, tmp_path):
    place = tmp_path / "torn"
    version_with(versions[0], place, {"exercises/tan-a/index.html": ("<title>one", "<title>torn")})
    script = place / "eight" / "keep.js"
    script.write_text(script.read_text() + "// another's\n")  # as when only some files of a site have arrived
    host.folder = place
    page = opened(visitor, host)
    page.goto(host.address)
    wait_until_kept(page, "could not be kept")
    assert page.evaluate("async () => (await navigator.serviceWorker.getRegistration())?.active ?? null") is None

    # once it is whole the next visit keeps it, and fetches only what it lacks
    host.folder, host.asked[:] = versions[0], []
    page.goto(f"{host.address}revision/")
    wait_until_kept(page)
    assert len([path for path in host.asked if path.endswith(".wasm")]) == 0
    host.off = True
    page.goto(host.address + SHEET)
    assert version_of(page) == "one"

"""Hostile networks: each file that a sheet's page asks for is cut, stalled, truncated, corrupted or replaced, in turn.

The page says what happened or works all the same; nothing typed is lost; the next try takes up what has come.
"""

import json
import re

import pytest

from tests.browser.harm import Harming
from tests.browser.steps import CODE, SHEET, kept, right_answers, said

#: Starts Python the site's way in a worker, until all has come ("image") or until it runs, and gives what came of that.
PROBE = """
import { handedOver, start } from "./start.js";
import { Missed } from "./taken.js";
onmessage = async ({ data: { way, run, ...more } }) => {
  let there;
  const all = new Promise((done) => (there = done));
  const started = start(way, { ...more, there, arrived: (...bytes) => postMessage({ arrived: bytes }) });
  try {
    await (run ? started : Promise.race([all, started]));
    postMessage({ came: true });
  } catch (error) {
    postMessage({ failed: String(error.message || error), missed: error instanceof Missed, taken: handedOver() });
  }
};
"""
#: {came}, {failed, missed} or, where it only waits, {waits}; with what it has and what it said last of what arrived.
RUN = """([way, more, goOn, quiet]) => new Promise((resolve) => {
  const worker = new Worker("/eight/probe.js", { type: "module" });
  let last = [0, 0, true];
  let timer;
  const end = ({ taken = [], ...found }) => {
    clearTimeout(timer);
    worker.terminate();
    window.taken = taken;
    resolve({ ...found, taken: Object.fromEntries(taken.map(([name, { bytes }]) => [name, bytes])), arrived: last });
  };
  worker.onmessage = ({ data }) => {
    clearTimeout(timer);
    if (!data.arrived) return end(data);
    last = data.arrived;
    if (last[2]) timer = setTimeout(() => end({ waits: true }), quiet);
  };
  worker.postMessage({ ...more, way, taken: goOn ? window.taken : [] });
})"""
LARGE = 1_000_000  # bytes: of what is far smaller, the browser may say nothing before it is whole
LONG = 60_000  # ms: no wait of these starts counts as one for ever
#: What a start from the image asks for beside its scripts, what the plain one does.
IMAGE = ("image.json", "unpacker.bin", "image.bin", "runtime.bin", "glue.bin")
MODULES = ("unpacker.js", "python/pyodide.js")
PLAIN = ("exercises.zip", "python/pyodide.asm.js", "python/pyodide.asm.wasm", "python/python_stdlib.zip")


@pytest.fixture(scope="module")
def host(site):
    it = Harming(site)
    it.own["probe/"] = b"<!doctype html><title>probe</title>", "text/html"
    it.own["eight/probe.js"] = PROBE.encode(), "text/javascript"
    it.sooner("taken.js", ("[0,1000,3000]", "[0, 20, 40]"))
    yield it
    it.close()


@pytest.fixture(scope="module")
def bare(browser, host):
    """A page beside the site that starts Python the site's way."""
    context = browser.new_context()
    opened = context.new_page()
    opened.goto(f"{host.address}probe/")
    opened.wire = context.new_cdp_session(opened)
    yield opened
    context.close()


@pytest.fixture
def probe(bare, host):
    bare.wire.send("Network.clearBrowserCache")
    host.mend()
    host.sent.clear()
    host.asked.clear()

    def run(way="image", go_on=False, quiet=LONG, **more):
        return bare.evaluate(RUN, [way, more, go_on, quiet])

    yield run
    host.mend()


def of(*names):
    return [f"eight/{name}" for name in names]


def sizes(site, names):
    return {path: (site / path).stat().st_size for path in of(*names)}


@pytest.mark.parametrize("fault", ["cut", "ends early"])
def test_a_start_goes_on_by_itself_where_every_file_breaks_off(probe, host, site, fault):
    host.harm(of(*IMAGE), fault, half=True, times=1)
    found = probe()
    assert found["came"] and max(host.left.values()) < 0
    whole = sizes(site, IMAGE)
    if fault == "ends early":  # of what is reset, nobody knows how much has come
        assert host.sent["eight/image.bin"] < 1.4 * whole["eight/image.bin"]
    assert found["arrived"][0] == found["arrived"][1] == sum(whole.values()) - whole["eight/image.json"]


@pytest.mark.parametrize("ranges", [True, False], ids=["", "no ranges"])
def test_the_next_try_takes_up_what_has_come(probe, host, site, ranges):
    """In turn, each file breaks off for good; what came of all is handed on, and then the fault is over."""
    host.ranges = ranges
    for name, size in sizes(site, IMAGE if ranges else IMAGE[2:3]).items():
        host.sent.clear()
        host.harm([name], "ends early", half=True)
        found = probe()
        assert found["missed"], name
        taken = found["taken"].get(name.removeprefix("eight/"), 0)
        assert taken <= size / 2 and (taken or size < LARGE), name
        host.mend()
        host.sent.clear()
        again = probe(go_on=True)
        assert again["came"], name
        if taken:
            assert host.sent[name] == (size - taken if ranges else size), name
    host.ranges = True


def test_what_came_of_another_version_is_not_taken_up(probe, host, site):
    name = "eight/image.bin"
    host.harm([name], "ends early", half=True)
    assert probe()["taken"]["image.bin"] > LARGE
    host.mend()
    host.own[name] = (site / name).read_bytes(), "application/octet-stream"  # it says nothing of which version it is
    again = probe(go_on=True)
    del host.own[name]
    assert again["came"] and again["arrived"][0] == again["arrived"][1]
    assert host.sent[name] > (site / name).stat().st_size


#: What is left to be taken up of a file of which five bytes came, after a host's answer to the question for the rest.
LEFT = """async ([status, headers]) => {
  const network = self.fetch;
  self.fetch = async () => new Response("sixth", { status, headers });
  const { take } = await import(`/eight/taken.js?${status} ${JSON.stringify(headers)}`);
  self.fetch = network;
  const had = { mark: '"one"', bytes: 5, whole: false, pieces: [new Uint8Array(5)] };
  await take("file", had).catch(() => {});
  return had.mark;
}"""


@pytest.mark.parametrize(
    ("left", "status", "headers"),
    [
        ('"one"', 206, {"ETag": '"one"', "Content-Range": "bytes 5-9/10"}),
        ('"one"', 503, {}),
        ("", 206, {"ETag": '"two"', "Content-Range": "bytes 5-9/10"}),
        ("", 206, {"ETag": '"one"', "Content-Range": "bytes 0-4/10"}),
        ("", 416, {"Content-Range": "bytes */4"}),
    ],
)
def test_what_a_host_cannot_go_on_with_is_not_asked_for_again(bare, left, status, headers):
    """A host may take no heed of If-Range, and give a part of another version, or say that it has none."""
    assert bare.evaluate(LEFT, [status, headers]) == left


@pytest.mark.parametrize("half", [False, True], ids=["at once", "half-way"])
def test_a_start_that_stalls_says_that_it_waits(probe, host, half):
    for name in of(*IMAGE, *MODULES):
        host.harm([name], "stall", half)
        found = probe(quiet=250)
        assert found.get("waits") and found["arrived"][2], name


@pytest.mark.parametrize("fault", ["short", "corrupt", "page"])
def test_no_start_from_a_file_that_is_not_right(probe, host, fault):
    """It fails, and by its content: nothing of it is taken up."""
    for name in of(*IMAGE):
        host.harm([name], fault)
        found = probe(run=True)
        assert found["failed"] and not found["missed"], name


@pytest.mark.parametrize("fault", ["cut", "short", "corrupt", "page"])
def test_a_script_of_the_start_that_is_not_right_is_asked_for_once_more(probe, host, fault):
    for name in of(*MODULES):
        host.harm([name], fault, half=True, times=1)
        assert probe().get("came"), name


def test_the_plain_start_goes_on_by_itself_where_every_file_breaks_off(probe, host):
    host.harm(of(*PLAIN), "ends early", half=True, times=1)
    found = probe("plain")
    assert found["came"] and max(host.left.values()) < 0


def test_a_plain_start_that_stalls_says_that_it_waits(probe, host):
    for name in of(*PLAIN, "python/pyodide.js", "python/pyodide-lock.json"):
        host.harm([name], "stall", half=name != PLAIN[0])
        found = probe("plain", quiet=250)
        assert found.get("waits") and found["arrived"][2], name


@pytest.mark.parametrize(
    ("fault", "names"),
    [
        ("cut", PLAIN),
        ("corrupt", PLAIN[:1]),
        ("page", PLAIN[1:2]),
        ("short", PLAIN[2:3]),
    ],
)
def test_no_plain_start_from_a_file_that_is_not_right(probe, host, fault, names):
    for name in of(*names):
        host.harm([name], fault)
        found = probe("plain")
        assert found["failed"] and found["missed"] == (fault == "cut"), name


# ---- the files of a page ----------------------------------------------------

#: In place of the worker that starts Python: it says nothing.
SILENT = "onmessage = () => {};"
DESK = re.compile(r'<div class="er-desk".*?</article>', re.DOTALL)
BARE = "exercises/bare/"
NOTE = ".er-from-file"
BEGUN = "document.documentElement?.dataset.python"


@pytest.fixture(scope="module")
def silent(site):
    """A host of pages on which Python never starts."""
    it = Harming(site)
    it.own["eight/worker.js"] = SILENT.encode(), "text/javascript"
    yield it
    it.close()


@pytest.fixture(scope="module")
def visitor(browser, silent, site):
    """A page of one visitor; `bare` is the sheet without the theme around it."""
    silent.sooner(
        "offline.js",
        ("HELPLESS=8000", "HELPLESS=100"),
        ("LATE=20000", "LATE=300"),
        ("NOT_YET),1000", "NOT_YET), 50"),
    )
    html = (site / SHEET / "index.html").read_text(encoding="utf-8")
    scripts = re.findall(r'<script src="[^"]*(?:offline|desk)\.js"[^>]*></script>', html)
    assert len(scripts) == 2
    text = f"<!doctype html><meta charset='utf-8'>{''.join(scripts)}<article><h1>Tan A</h1>{DESK.search(html)[0]}"
    text += "<p class='md-copyright'>"
    silent.own[BARE] = text.encode(), "text/html"
    context = browser.new_context(viewport={"width": 360, "height": 900})
    opened = context.new_page()
    opened.set_default_timeout(15_000)
    opened.base = silent.address
    yield opened
    context.close()


@pytest.fixture
def calm(visitor, silent):
    """The page, before anything is harmed; nothing is kept."""
    silent.mend()
    visitor.goto(f"{visitor.base}eight/icon.svg")
    visitor.evaluate("localStorage.clear()")
    silent.asked.clear()
    yield visitor
    silent.mend()


@pytest.fixture(scope="module")
def asked(visitor, silent):
    """The files that the sheet's page asks for, with the theme around it, by their paths."""
    silent.asked.clear()
    visitor.goto(visitor.base + SHEET)
    visitor.wait_for_load_state("networkidle")
    found = sorted({path.partition("?")[0].removeprefix("/") for path in silent.asked})
    assert {SHEET, "eight/desk.js", "eight/keep.js", "eight/site.css", "eight/worker.js"} <= set(found)
    return found


def survives(host, page, where, name, fault, half, typed):
    """The page says what is amiss or works all the same; what is typed is there after the next try."""
    host.harm([name], fault, half)
    page.goto(page.base + where, wait_until="commit")
    page.wait_for_selector("#er-mean-1", state="attached")
    page.evaluate(TYPE, typed)  # in one move: the script may come meanwhile, and put what was there before
    page.wait_for_function(f"{BEGUN} || document.querySelector('{NOTE}')")
    if fault != "stall" and page.locator(NOTE).count():
        host.mend()
        with page.expect_navigation(wait_until="commit"):
            page.click(f"{NOTE} .er-again")
    host.mend()  # what has stalled goes on
    page.wait_for_function(f"{BEGUN} && !document.querySelector('{NOTE}')")
    assert page.input_value("#er-mean-1") == typed, (name, fault, half)


TYPE = """typed => {
  const field = document.querySelector("#er-mean-1");
  field.value = typed;
  for (const event of ["input", "change"]) field.dispatchEvent(new Event(event, { bubbles: true }));
}"""
#: Of these each third file is harmed, a different third each: the others of the kind are not otherwise.
SOME = [("cut", False), ("stall", False), ("ends early", True), ("page", True)]
WAYS = [*SOME, *((fault, True) for fault in ("cut", "stall", "short", "corrupt"))]


@pytest.mark.parametrize(("fault", "half"), WAYS, ids=[f"{f}{' half-way' * h}" for f, h in WAYS])
def test_whichever_script_of_a_sheet_is_harmed(calm, silent, asked, fault, half):
    scripts = [name for name in asked if name.endswith(".js") and name not in ("eight/worker.js", "eight/theme.js")]
    start = SOME.index((fault, half)) if (fault, half) in SOME else None
    for n, name in enumerate(scripts if start is None else scripts[start % 3 :: 3]):
        survives(silent, calm, BARE, name, fault, half, f"5{n}")


def test_what_was_typed_early_comes_to_its_own_sheet_whatever_address_is_opened_next(calm):
    """And not at a later visit, over something newer."""
    place = f"eight-readings:sheet:early /{BARE}"
    for search, typed in ((f"?from=mail&code={CODE.lower()}", "5"), ("", "6")):
        calm.evaluate("given => localStorage.setItem(...given)", [place + search, json.dumps({"mean-1": typed})])
    calm.goto(f"{calm.base}{BARE}?code=A37-222-49M", wait_until="commit")
    calm.wait_for_function(BEGUN)
    found = kept(calm)
    assert found[f"sheet:draft tan-a for {CODE}"] == {"mean-1": "5"} and found["sheet:draft tan-a"] == {"mean-1": "6"}
    assert not [name for name in found if "early" in name]


@pytest.mark.parametrize("fault", ["cut", "stall", "short", "corrupt", "page"])
def test_whatever_else_of_a_sheets_page_is_harmed(calm, silent, asked, fault):
    """Styles, fonts, the theme's script."""
    for n, name in enumerate(asked):
        if name == "eight/theme.js" or name.endswith((".css", "theme.bin", ".woff2")):
            survives(silent, calm, SHEET, name, fault, True, f"4{n}")


@pytest.mark.parametrize("fault", ["cut", "stall", "ends early", "short"])
def test_a_page_that_did_not_come_whole_says_so(calm, silent, fault):
    silent.harm([SHEET], fault, half=True)
    calm.goto(calm.base + SHEET, wait_until="commit")
    calm.locator(NOTE, has_text="Only a part of this page").wait_for()
    silent.mend()
    if fault != "stall":
        with calm.expect_navigation(wait_until="commit"):
            calm.click(f"{NOTE} .er-again")
    calm.wait_for_function(f"{BEGUN} && !document.querySelector('{NOTE}')")


# ---- the whole way ----------------------------------------------------------

READY = '.er-status[data-state="ready"]'
FAILED = '.er-status[data-state="failed"]'
#: Scripts of the worker.
WORKER = ("worker.js", "start.js", "taken.js")


@pytest.fixture
def sheet(browser, host, site):
    """A new visitor's page on a host where Python starts; waits are short."""
    host.mend()
    for name in ("sent", "asked"):
        getattr(host, name).clear()
    host.sooner("coming.js", ("SOON=2000", "SOON=0"), ("STALLED=15000", "STALLED=700"))
    context = browser.new_context(viewport={"width": 360, "height": 900})
    opened = context.new_page()
    opened.set_default_timeout(30_000)
    opened.base = host.address
    yield opened
    context.close()
    host.mend()
    host.ranges = True


def is_worked(page, typed):
    """The sheet's numbers are there, and what was typed is there and checked."""
    page.wait_for_selector(".er-holder:not(.er-waiting) .er-sheet")
    said(page, "mean-1")
    assert page.input_value("#er-mean-1") == typed


def begin(page, host, typed):
    page.goto(f"{page.base}{SHEET}?code={CODE}")
    page.fill("#er-mean-1", typed)


@pytest.mark.parametrize("ranges", [True, False], ids=["", "no ranges"])
def test_try_again_takes_up_what_has_come_after_both_starts_failed(sheet, host, site, ranges):
    host.ranges = ranges
    image, size = "eight/image.bin", (site / "eight/image.bin").stat().st_size
    host.harm([image, "eight/exercises.zip"], "ends early", half=True)
    begin(sheet, host, "5")
    sheet.wait_for_selector(FAILED)
    assert re.search("is kept.*exercises.zip", sheet.inner_text(".er-trouble"))
    host.mend()
    host.sent.clear()
    sheet.click(".er-again")
    is_worked(sheet, "5")
    assert 0.3 * size < host.sent[image] < 0.7 * size if ranges else host.sent[image] == size


@pytest.mark.parametrize("half", [False, True], ids=["at once", "half-way"])
def test_a_stall_is_said_and_the_next_try_takes_up_what_has_come(sheet, host, site, half):
    image, size = "eight/image.bin", (site / "eight/image.bin").stat().st_size
    host.harm([image], "stall", half)
    begin(sheet, host, "5")
    sheet.locator(".er-status", has_text="Nothing has come for 15 s").wait_for()
    sheet.fill("#er-mean-1", right_answers()["mean-1"])
    host.stop()
    host.sent.clear()
    sheet.click(".er-again")
    is_worked(sheet, right_answers()["mean-1"])
    assert host.sent[image] < 0.7 * size if half else host.sent[image] == size


def test_a_wrong_copy_that_the_browser_keeps_is_fetched_anew(sheet, host):
    """It has the tag of the right one, so the host says that it has not changed."""
    host.harm(["eight/image.bin"], "corrupt")
    begin(sheet, host, "5")
    is_worked(sheet, "5")
    assert "/eight/exercises.zip" in host.asked and kept(sheet)["image-failed"] == 1
    host.mend()
    host.asked.clear()
    begin(sheet, host, "5")
    is_worked(sheet, "5")
    assert "/eight/exercises.zip" not in host.asked and "image-failed" not in kept(sheet)


#: A worker in which no start succeeds; it says how it was to start.
FAILING = "onmessage = ({ data: { begin } }) => postMessage({ failed: `${begin.way}, anew: ${begin.anew}` });"


def test_a_start_that_always_fails_by_its_content_is_asked_for_anew_once(calm, silent):
    silent.own["eight/worker.js"] = FAILING.encode(), "text/javascript"
    for anew in ("true", "false", "false"):
        calm.goto(calm.base + BARE, wait_until="commit")
        calm.locator(".er-trouble", has_text=f"plain, anew: {anew}").wait_for()
    silent.own["eight/worker.js"] = SILENT.encode(), "text/javascript"


@pytest.mark.parametrize("fault", ["cut", "stall", "short", "corrupt", "page"])
def test_a_worker_whose_scripts_do_not_come_can_be_tried_again(sheet, host, fault):
    host.harm(["eight/image.bin"], "stall")
    begin(sheet, host, "5")
    for name in of(*WORKER):
        host.harm([name], fault, half=True)
        sheet.goto(f"{sheet.base}{SHEET}?code={CODE}")
        if fault == "stall":
            sheet.locator(".er-status", has_text="Nothing has come for 15 s").wait_for()
        else:
            sheet.wait_for_selector(FAILED)
        host.stop()
        host.asked.clear()
        sheet.click(".er-again")
        sheet.wait_for_selector(".er-status:not([data-state=failed])")
        while "/eight/image.bin" not in host.asked:
            sheet.wait_for_timeout(10)
    is_worked(sheet, "5")

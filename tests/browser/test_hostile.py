"""Hostile networks: each file that a sheet's page asks for is cut, stalled, truncated, corrupted or replaced, in turn.

The page says what happened or works all the same; nothing typed is lost; the next try takes up what has come.
"""

import re

import pytest

from generator.build.offline import LATER
from tests.browser.harm import FAULTS, Harming
from tests.browser.steps import CODE, SHEET, kept, open_sheet, right_answers, said

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
    sooner(it, site, "taken.js", ("[0, 1000, 3000]", "[0, 20, 40]"))
    yield it
    it.close()


def sooner(host, site, name, *changes):
    """Have a script come with shorter times."""
    text = (site / "eight" / name).read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    host.own[f"eight/{name}"] = text.encode(), "text/javascript"


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
        assert host.sent["eight/image.bin"] < 1.1 * whole["eight/image.bin"]
    assert found["arrived"][0] == found["arrived"][1] == sum(whole.values()) - whole["eight/image.json"]


@pytest.mark.parametrize("ranges", [True, False], ids=["", "no ranges"])
def test_the_next_try_takes_up_what_has_come(probe, host, site, ranges):
    """In turn, each file breaks off for good; what came of all is handed on, and then the fault is over."""
    host.ranges = ranges
    for name, size in sizes(site, IMAGE).items():
        host.sent.clear()
        host.harm([name], "ends early", half=True)
        found = probe()
        assert found["missed"], name
        short = name.removeprefix("eight/")
        if size > LARGE:
            assert 0.4 * size < found["taken"][short] < 0.51 * size, name
        host.mend()
        host.sent.clear()
        again = probe(go_on=True)
        assert again["came"], name
        if size > LARGE:
            assert host.sent[name] < 0.6 * size if ranges else host.sent[name] == size
    host.ranges = True


def test_what_came_of_another_version_is_not_taken_up(probe, host, site):
    name = "eight/image.bin"
    host.harm([name], "ends early", half=True)
    assert probe()["taken"]["image.bin"] > LARGE
    host.own[name] = (site / name).read_bytes(), "application/octet-stream"  # it says nothing of which version it is
    again = probe(go_on=True)
    del host.own[name]
    assert again["came"] and again["arrived"][0] == again["arrived"][1]
    assert host.sent[name] > (site / name).stat().st_size


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


@pytest.mark.parametrize("fault", ["cut", "short", "corrupt", "page"])
def test_no_plain_start_from_a_file_that_is_not_right(probe, host, fault):
    for name in of(*PLAIN):
        host.harm([name], fault)
        found = probe("plain")
        assert found["failed"] and found["missed"] == (fault == "cut"), name

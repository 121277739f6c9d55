"""How fast scenarios are drawn and answers judged, here and in the browser."""

import functools
import http.server
import json
import random
import threading
import time
from contextlib import contextmanager

from playwright.sync_api import sync_playwright

from exercises.codes.sheet_code import SEEDS, SheetCode, write
from exercises.kinds.kind import all_kinds, open_code
from generator.build.runtime import ROOT
from generator.commands.command import Handler, build
from tests.benchmarks.judging import typed
from tests.browser.chromium import launched

SCENARIOS = 500
CHECKS = 300

#: In the page: start Python the way the site does, and time calls of it.
TIMED = """async ([call, list]) => {
  const { Python } = await import(new URL("eight/python.js", document.baseURI));
  const python = await new Promise((resolve, reject) => {
    const made = new Python({ onready: () => resolve(made), onfailed: reject });
  });
  await python.ask(call, ...list[0]);
  const taken = [];
  for (const args of list) {
    const start = performance.now();
    await python.ask(call, ...args);
    taken.push(performance.now() - start);
  }
  python.stop("done");
  return taken;
}"""


def codes(kind, many: int) -> list[str]:
    chance = random.Random(f"speed {kind.slug}")
    return [write(SheetCode(kind.letter, kind.edition, chance.randrange(SEEDS))) for _ in range(many)]


@contextmanager
def page():
    """A page of the freshly built site in a real browser."""
    build()
    handler = functools.partial(Handler, directory=str(ROOT / "site"))
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    with sync_playwright() as playwright:
        browser = launched(playwright)
        opened = browser.new_page(service_workers="block")
        opened.goto(f"http://127.0.0.1:{server.server_port}/")
        yield opened
        browser.close()
    server.shutdown()


def scenarios(slug: str) -> dict[str, float]:
    """Scenarios drawn a second by this Python and by the browser's, of the same codes."""
    kind = all_kinds()[slug]
    chosen = [SheetCode(kind.letter, kind.edition, seed) for seed in random.Random(1).sample(range(SEEDS), SCENARIOS)]
    start = time.perf_counter()
    for code in chosen:
        kind.draw(code)
    here = SCENARIOS / (time.perf_counter() - start)
    with page() as opened:
        taken = opened.evaluate(TIMED, ["numbers", [[str(code)] for code in chosen]])
    return {
        "scenarios_per_second_cpython": here,
        "scenarios_per_second_browser": len(taken) / (sum(taken) / 1000),
    }


def checks(slug: str) -> dict[str, float]:
    """A whole sheet of typed answers, half of them wrong, judged in the browser: time from asking to verdicts."""
    kind = all_kinds()[slug]
    chance = random.Random(2)
    calls = []
    for code in codes(kind, CHECKS // 10):
        working = open_code(code).working
        values = working.all_values()
        for _ in range(10):
            entries = {
                s.id: values[s.id] if s.choices else typed(values[s.id] * chance.choice((1, 1.3)), s)
                for s in working.steps
            }
            calls.append([code, json.dumps(entries)])
    with page() as opened:
        taken = sorted(opened.evaluate(TIMED, ["check", calls]))
    # the first check of a code also draws its numbers; a student's sheet is open already
    return {"check_ms_p50": taken[len(taken) // 2], "check_ms_p95": taken[int(len(taken) * 0.95)]}

"""How far the data of an entry lie from its field, in the pages as they are built.

The sheet itself knows what each step is worked from (exercises/kinds/sources.py), and marks it: `data-needs` and
`data-from` on an entry, `data-given` on what the sheet gives, `data-of` where an earlier entry is said again.  Of a
datum that stands in several places the nearest that can be seen counts.  A distance is the difference in height
between the middles of two boxes: so far the eye has to go up or down the page.
"""

import json
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from exercises.kinds.kind import all_kinds, open_code
from exercises.kinds.rendering import render
from generator.commands.command import build
from tests.benchmarks.pages import hosted
from tests.browser.chromium import launched

WIDTHS = {1280: 900, 360: 740}  # of a screen, and its height
CODES = 12  # of each kind, half of them with a laboratory's settings
GOLDEN = Path(__file__).parents[1] / "exercises" / "golden"

#: A sheet in the place of that of the page, as the script puts it there.
SHOW = """html => {
  const holder = document.querySelector(".er-holder");
  holder.innerHTML = html;
  holder.classList.remove("er-waiting");
}"""
#: The greatest distance of an entry from a datum that it needs, the entry, the datum; one that is not seen is an error.
FAR = """() => {
  const middle = (e) => { const r = e.getBoundingClientRect(); return (r.top + r.bottom) / 2; };
  const seen = (e) => e.checkVisibility({ visibilityProperty: true }) && e.getClientRects().length;
  const shown = [...document.querySelectorAll(".er-sheet [data-given]")].filter(seen);
  let worst = [0, "", ""];
  const look = (field, step, datum, places) => {
    if (!places.length) throw new Error(`${datum}, which ${step} needs, is not seen`);
    const far = Math.min(...places.map((e) => Math.abs(middle(e) - middle(field))));
    if (far > worst[0]) worst = [far, step, datum];
  };
  const words = (text) => (text || "").split(" ").filter(Boolean);
  for (const entry of document.querySelectorAll(".er-entry")) {
    const field = entry.querySelector("input, select"), { step, needs, from } = entry.dataset;
    for (const key of words(needs)) look(field, step, key, shown.filter((e) => words(e.dataset.given).includes(key)));
    for (const of of words(from)) {
      const places = document.querySelectorAll(`#er-${of}, [data-of="${of}"]`);
      look(field, step, of, [...places].filter(seen));
    }
  }
  return worst;
}"""
#: From the first reading of the first table to the last field of the sheet.
HIGH = """() => document.querySelector(".er-group:last-child .er-entry:last-child input").getBoundingClientRect().bottom
  - document.querySelector(".er-reading").getBoundingClientRect().top"""

NAMES = (*(f"far_px.{slug}.{width}" for slug in all_kinds() for width in WIDTHS), "sheet_px.tan-a.1280")


def codes(slug: str) -> list[str]:
    """Codes of a kind, as many as are looked at."""
    lines = (GOLDEN / f"{slug}.jsonl").read_text(encoding="utf-8").splitlines()
    return [json.loads(line)["code"] for line in lines[:: max(1, len(lines) // CODES)][:CODES]]


def far_on(page: Page, slug: str) -> float:
    """The greatest distance on any of a kind's sheets that are looked at, in px."""
    worst = 0.0
    for code in codes(slug):
        page.evaluate(SHOW, render(open_code(code)))
        far, step, datum = page.evaluate(FAR)
        if far > worst:
            worst, where = far, f"{code}: from {step} to {datum}"
    print(f"# {slug}, {page.viewport_size['width']} px: {where}", flush=True)
    return worst


def figures() -> dict[str, float]:
    """The greatest distance by kind and width, and how high five distances with their result are at 1280 px."""
    build()
    found = {}
    with hosted() as base, sync_playwright() as playwright:
        browser = launched(playwright)
        for width, height in WIDTHS.items():
            page = browser.new_page(viewport={"width": width, "height": height}, service_workers="block")
            page.route("**/worker.js", lambda route: route.abort())  # the sheets come from here
            for slug in all_kinds():
                page.goto(f"{base}exercises/{slug}/")
                found[f"far_px.{slug}.{width}"] = far_on(page, slug)
            if width == 1280:
                page.goto(f"{base}exercises/tan-a/")
                five = next(code for code in codes("tan-a") if len(open_code(code).scenario.rows) == 5)
                page.evaluate(SHOW, render(open_code(five)))
                found["sheet_px.tan-a.1280"] = page.evaluate(HIGH)
            page.close()
        browser.close()
    return found

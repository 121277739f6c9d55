"""The pictures of README.md are taken of the built site by this one command: a sheet being checked, a class's report.

    uv run python -m tests.pictures

Run it after the look of a sheet or of the report has changed.  Nothing in them is of a real class: it is the
Saltmarsh class of the instructor's guide, and what its students hand in is made up here.
"""

import base64
import random
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from exercises.classroom.class_list import roster
from exercises.classroom.class_list.class_file import make, task
from exercises.classroom.report.counts import count
from exercises.classroom.report.page import report_html
from exercises.kinds.kind import open_code
from generator.build.paper_style import paper_style
from generator.build.runtime import ROOT
from generator.commands.command import build
from tests.benchmarks.pages import hosted
from tests.browser.chromium import launched
from tests.browser.steps import CODE, open_sheet, right_answers, type_in
from tests.exercises.classwork import handed, marked, slipped

FOLDER = ROOT / "site_assets" / "pictures"  # for README.md; no part of the site
SHEET, REPORT = {"width": 1280, "height": 720}, {"width": 960, "height": 1000}
QUALITY = 70  # per cent, of WebP: some 60 to 100 kB


def report() -> str:
    """The report on the Saltmarsh class as a page: most of it right, some with a slip of the kind."""
    students = roster.look((ROOT / "content" / "class" / "saltmarsh.csv").read_text("utf-8")).students
    class_ = make(students, "mud and marram", [task("tan-a")], "")
    chance = random.Random("of the class")
    work = []
    for at, (_, given) in enumerate(class_.codes()):
        keys = [slip.key for slip in open_code(str(given[0][1])).slips if not slip.hides]
        answers = slipped(given[0][1], chance.choice(keys[:6])) if chance.random() < 0.45 else None
        work.append(marked(handed(class_, at, answers), class_.scheme))
    return report_html(count(class_, work), class_, paper_style())


def worked_sheet(page: Page, base: str) -> None:
    """A sheet on which two distances are worked: one right, one with a bracket that was not squared."""
    page.base = base
    open_sheet(page, CODE)
    answers = right_answers(CODE)
    root = open_code(CODE).working.value("bracket-2") ** 0.5
    answers["bracket-2"] = f"{root:.4f}"
    for step in ("mean-1", "tan-1", "bracket-1", "moment-1", "mean-2", "tan-2", "bracket-2"):
        type_in(page, step, answers[step])
    page.locator(".er-sheet").scroll_into_view_if_needed()
    page.evaluate(
        "document.querySelector('.er-sheet').scrollIntoView(); scrollBy(0, -70); document.activeElement.blur()"
    )


def taken(page: Page, name: str) -> Path:
    """What the window shows, as a file."""
    wire = page.context.new_cdp_session(page)
    shot = wire.send("Page.captureScreenshot", {"format": "webp", "quality": QUALITY})
    FOLDER.mkdir(exist_ok=True)
    path = FOLDER / name
    path.write_bytes(base64.b64decode(shot["data"]))
    return path


def main() -> None:
    """The command."""
    build()
    with sync_playwright() as playwright, hosted() as base:
        browser = launched(playwright)
        page = browser.new_context(viewport=SHEET, service_workers="block", reduced_motion="reduce").new_page()
        worked_sheet(page, base)
        made = [taken(page, "sheet.webp")]
        page = browser.new_context(viewport=REPORT).new_page()  # a new one: the site's policy takes no other's styles
        page.set_content(report())
        made.append(taken(page, "report.webp"))
        browser.close()
    for path in made:
        print(f"{path.relative_to(ROOT)}: {path.stat().st_size / 1000:.0f} kB")


if __name__ == "__main__":
    main()

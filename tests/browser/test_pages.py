"""Every page in the browser: its links lead somewhere, nothing comes from elsewhere, nothing is too wide."""

from pathlib import Path
from urllib.parse import urljoin

import pytest

from exercises.codes.sheet_code import SheetCode, write
from exercises.kinds.kind import all_kinds, open_code
from generator.build.runtime import ROOT
from tests.browser.steps import SHIFTS
from tests.raw import raw_in

#: In the page: what breaks its own security policy.
BROKEN = """window.broken = [];
addEventListener("securitypolicyviolation", (e) => window.broken.push(`${e.violatedDirective} ${e.blockedURI}`));"""


def pages() -> list[str]:
    """The address of every page that is written, from content/."""
    found = []
    for path in sorted((ROOT / "content").rglob("*.md")):
        name = path.relative_to(ROOT / "content").with_suffix("")
        found.append("" if str(name) == "index" else f"{name.parent if name.name == 'index' else name}/")
    return found


@pytest.mark.parametrize("where", pages(), ids=lambda w: w or "home")
def test_page_is_whole_and_asks_nothing_of_others(context, address, where):
    page = context.new_page()
    page.emulate_media(reduced_motion="reduce")  # so that nothing is still sliding when it is measured
    page.add_init_script(BROKEN + SHIFTS)
    asked, failed, errors = [], [], []
    page.on("request", lambda r: asked.append(r.url))
    page.on("response", lambda r: failed.append(f"{r.status} {r.url}") if r.status >= 400 else None)
    page.on("pageerror", lambda e: errors.append(str(e)))
    # Python has its turn in test_hosts.py
    page.route("**/worker.js", lambda route: route.fulfill(body="", content_type="text/javascript"))
    page.goto(address + where)
    page.wait_for_timeout(150)  # what a script asks for once the page is there
    assert page.evaluate("shifts") == []  # nothing has moved that nobody had moved
    for width in (360, 1280):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    for figure in page.locator("svg.er-figure").all():
        assert len(figure.get_attribute("aria-label")) > 30
    assert page.locator("h1").count() == 1
    assert failed == [] and errors == []
    assert page.evaluate("window.broken") == []
    assert [u for u in asked if not u.startswith((address, "data:", "blob:"))] == []
    page.close()


def test_a_page_follows_the_device_until_a_scheme_is_chosen(page):
    def scheme():
        return page.evaluate("document.body.dataset.mdColorScheme")

    page.emulate_media(color_scheme="light")
    page.goto(f"{page.base}record/")
    for device, shown in (("dark", "evening"), ("light", "notebook"), ("dark", "evening")):
        page.emulate_media(color_scheme=device)
        page.wait_for_function("shown => document.body.dataset.mdColorScheme === shown", arg=shown)
    page.click("label[for=__palette_1] >> visible=true")
    assert scheme() == "notebook"
    page.reload()
    assert scheme() == "notebook"


def test_every_link_of_the_working_leads_to_a_passage(site):
    addresses = {slip.read for kind in all_kinds().values() for slip in kind.slips}
    for kind in all_kinds().values():
        code = write(SheetCode(kind.letter, kind.edition, 0))
        addresses |= {step.read for step in open_code(code).working.steps}
    for address in sorted(addresses):
        where, _, anchor = address.partition("#")
        html = Path(urljoin(f"{site}/", f"{where}index.html")).read_text()
        assert f'id="{anchor}"' in html, address


def test_no_page_shows_raw_notation(site):
    """Symbols are set wherever a page is read or read out; what is typed stands as code."""
    assert [(path.parent.name, raw) for path in site.rglob("*.html") for raw in raw_in(path.read_text("utf-8"))] == []

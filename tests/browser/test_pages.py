"""Every page in the browser: its links lead somewhere, nothing comes from elsewhere, nothing is too wide."""

from pathlib import Path
from urllib.parse import urljoin

import pytest

from exercises.kinds import all_kinds, open_code
from exercises.slips import SLIPS
from generator.runtime import ROOT
from tests.exercises.golden import GOLDEN


def pages() -> list[str]:
    """The address of every page that is written, from content/."""
    found = []
    for path in sorted((ROOT / "content").rglob("*.md")):
        name = path.relative_to(ROOT / "content").with_suffix("")
        found.append("" if str(name) == "index" else f"{name.parent if name.name == 'index' else name}/")
    return found


@pytest.mark.parametrize("where", pages(), ids=lambda w: w or "home")
def test_page_is_whole_and_asks_nothing_of_others(page, where):
    asked, failed = [], []
    page.on("request", lambda r: asked.append(r.url))
    page.on("response", lambda r: failed.append(f"{r.status} {r.url}") if r.status >= 400 else None)
    page.goto(page.base + where)
    page.wait_for_load_state("networkidle")
    assert failed == []
    assert [u for u in asked if not u.startswith((page.base, "data:", "blob:"))] == []
    assert page.evaluate("document.documentElement.scrollWidth") <= page.viewport_size["width"]
    for figure in page.locator("svg.er-figure").all():
        assert len(figure.get_attribute("aria-label")) > 30
    assert page.locator("h1").count() == 1


def test_every_link_of_the_working_leads_to_a_passage(site):
    addresses = {slip.read for slip in SLIPS}
    for kind in all_kinds().values():
        code = next(c for c in _codes() if c.startswith(kind.letter))
        addresses |= {step.read for step in open_code(code)[2].steps}
    for address in sorted(addresses):
        where, _, anchor = address.partition("#")
        html = Path(urljoin(f"{site}/", f"{where}index.html")).read_text()
        assert f'id="{anchor}"' in html, address


def _codes():
    return [golden["code"] for golden in GOLDEN]

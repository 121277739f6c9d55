"""The pages of the site, and what they are called."""

import re
from functools import cache
from pathlib import Path

from mkdocs.utils.meta import get_data

from generator.build.runtime import ROOT

CONTENT = ROOT / "content"
PAGES = sorted(CONTENT.rglob("*.md"))

#: The names over the pages in the navigation, the outermost ones, in order.
SECTIONS = re.findall(r"^  - ([^:\n]+):", (ROOT / "mkdocs.yml").read_text("utf-8").partition("\nnav:\n")[2], re.M)


@cache
def title_of(page: Path) -> str:
    """The title that a page gives itself."""
    return str(get_data(page.read_text("utf-8"))[1]["title"])


def name_of(page: Path) -> str:
    """What a page is called everywhere: its title up to a colon."""
    return title_of(page).partition(":")[0]

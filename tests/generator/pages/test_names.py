"""One thing has one name: in the navigation, on the home page, in its title, in the guide.

A page's name is its title, or the title up to a colon.  The lines of mkdocs.yml
that list the pages of the kinds are held by test_kind_lists.py.
"""

import ast
import re
from pathlib import Path

import pytest

from exercises.kinds.kind import all_kinds
from generator.build.runtime import ROOT
from tests.generator.pages.navigation import CONTENT, PAGES, SECTIONS, name_of, title_of

#: The rooms of the site, by address.  Whoever gives one a new name gives it everywhere.
ROOMS = {
    "before/": "Before the lab",
    "examples/": "Worked examples",
    "exercises/": "Exercises",
    "revision/": "Revision",
    "record/": "Lab record",
    "class/": "For the instructor",
}
GUIDES = (CONTENT / "index.md", *sorted((CONTENT / "class").glob("*.md")))
LINK = re.compile(r"(?<!!)\[([^\]]+)\]\((?!https?:)([^)#]+\.md)\)")


def test_the_rooms_are_called_alike_in_the_navigation_and_in_their_titles():
    assert {where: name_of(CONTENT / where / "index.md") for where in ROOMS} == ROOMS
    assert [name for name in SECTIONS if name != "Home"] == list(ROOMS.values())


def test_the_doors_of_the_home_page_are_the_rooms():
    doors = re.findall(r'<a href="([^"]+)"><strong>([^<]+)</strong>', (CONTENT / "index.md").read_text("utf-8"))
    assert dict(doors) == ROOMS
    assert len(doors) % 2 == len(doors) % 3 == 0  # in rows of two and of three no door stands alone


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(CONTENT).as_posix())
def test_a_page_s_heading_is_its_title(page):
    headings = re.findall(r"^# (.+)$", page.read_text("utf-8"), re.M)
    assert headings == [title_of(page)]


def test_no_two_pages_have_one_name():
    """Examples are called after their magnet or their kind, and what comes after the colon tells them apart."""
    names = [title_of(p) if p.parent.name == "examples" else name_of(p) for p in PAGES]
    assert len(set(names)) == len(names), sorted(name for name in names if names.count(name) > 1)


@pytest.mark.parametrize("kind", all_kinds().values(), ids=lambda kind: kind.slug)
def test_a_kind_has_one_name(kind):
    page = CONTENT / "exercises" / f"{kind.slug}.md"
    assert title_of(page) == kind.title and name_of(page) == kind.listing.name


@pytest.mark.parametrize("guide", GUIDES, ids=lambda page: page.relative_to(ROOT).as_posix())
def test_a_link_to_a_whole_page_calls_it_by_its_name(guide):
    for said, where in LINK.findall(guide.read_text("utf-8")):
        name = name_of((guide.parent / where).resolve())
        assert " ".join(said.split()).lower().removeprefix("the ") == name.lower().removeprefix("the ")


def said_to_readers() -> list[tuple[str, str]]:
    """(file, text) of all that the site says to a reader: pages, scripts' sentences, texts of Python's own."""
    found = [(p.name, p.read_text("utf-8")) for p in PAGES if p.name not in ("publish.md", "carried.md")]
    for script in sorted((ROOT / "site_assets").glob("*.js")):
        lines = (line for line in script.read_text("utf-8").splitlines() if not line.lstrip().startswith("//"))
        found += [(script.name, text) for line in lines for text in re.findall(r'"[^"]* [^"]*"|`[^`]* [^`]*`', line)]
    for path in [*(ROOT / "exercises").rglob("*.py"), *(ROOT / "generator" / "pages").glob("*.py")]:
        found += [(path.name, text) for text in _strings(path)]
    return found


def _strings(path: Path) -> list[str]:
    """The strings of a file of Python, without what is written for its readers alone."""
    tree = ast.parse(path.read_text("utf-8"))
    notes = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    return [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in notes
    ]


def test_a_reader_is_told_of_what_he_waits_for_and_not_of_python():
    texts = said_to_readers()
    assert len(texts) > 2000
    assert not [(where, text) for where, text in texts if re.search(r"\bPython\b|\bcheckers?\b", text)]

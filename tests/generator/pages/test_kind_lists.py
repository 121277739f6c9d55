"""Where all kinds are listed by hand, the list is what the kinds say; a failure prints the very lines to write."""

import pytest
from mkdocs.exceptions import PluginError

from exercises.kinds.kind import listed_kinds
from generator.build.markers import with_markdown
from generator.build.runtime import ROOT
from generator.pages import class_desk, kind_lists


@pytest.mark.parametrize(
    "file, lines",
    [
        ("README.md", kind_lists.readme),
        ("mkdocs.yml", kind_lists.navigation_of_examples),
        ("mkdocs.yml", kind_lists.navigation_of_exercises),
    ],
    ids=lambda given: given if isinstance(given, str) else given.__name__,
)
def test_the_file_has_every_kind(file, lines):
    assert f"\n{lines()}\n" in (ROOT / file).read_text(), f"in {file} these lines are to stand:\n\n{lines()}\n"


@pytest.mark.parametrize("name", kind_lists.TABLES)
def test_the_page_asks_for_its_table(name):
    page = (ROOT / "content" / name / "index.md").read_text()
    assert f"\n<!-- kinds: {name} -->\n" in page
    assert kind_lists.TABLES[name]() in with_markdown(page)


def test_a_table_that_there_is_not_stops_the_build():
    with pytest.raises(PluginError, match="there are exercises, examples"):
        with_markdown("<!-- kinds: nosuch -->")


def test_the_order_is_of_one_kind_each_and_the_class_desk_keeps_it():
    kinds = listed_kinds()
    orders = [kind.listing.order for kind in kinds]
    assert len(set(orders)) == len(orders), "two kinds have one `order` in their Listing"
    html = class_desk.class_desk()
    at = [html.index(f'value="{kind.slug}"') for kind in kinds]
    assert at == sorted(at)

"""What Python writes into pages, each asked for by a comment on a line of its own.

    <!-- worked-example: CODE -->         the worked example of a sheet (generator/examples/)
    <!-- example-figure: WHAT CODE -->    one of its figures; the example itself asks for it
    <!-- figure: NAME -->                 a figure of a theory page (generator/figures/)
    <!-- sheet: KIND CODE -->             the exercise of a kind, with the practice sheet of that code
    <!-- fragment: NAME -->               a part of a page (generator/pages/fragments.py)
    <!-- carried: all -->                 what the site carries of others (carried.py)
    <!-- kinds: LIST -->                  a table of all kinds (generator/pages/kind_lists.py)

An example and a table are Markdown, put in before the page is rendered; the others are HTML, put in afterwards.
"""

import re
from collections.abc import Callable

from mkdocs.exceptions import PluginError

from exercises.kinds.kind import open_code
from generator.build import carried
from generator.build.cache import cached_text
from generator.examples.example import example_figure, worked_example
from generator.pages.desk import desk
from generator.pages.fragments import page_fragment
from generator.pages.kind_lists import markdown_table

MARKER = re.compile(r"<!-- (worked-example|example-figure|figure|sheet|fragment|carried|kinds): (.+?) -->")


def with_markdown(markdown: str) -> str:
    """A page's Markdown with its examples and tables put in; the other markers stay."""
    return MARKER.sub(_markdown, markdown)


def with_html(html: str) -> str:
    """A page's HTML with what its markers ask for.  PluginError if one asks for what there is not."""
    return MARKER.sub(_html, html)


def _markdown(marker: re.Match[str]) -> str:
    what, about = marker.groups()
    if what == "worked-example":
        return worked_example(about)
    if what == "kinds":
        return _or_plugin_error(markdown_table, about)
    return marker[0]


def _html(marker: re.Match[str]) -> str:
    what, about = marker.groups()
    if what in ("figure", "example-figure"):
        return cached_text(marker[0], lambda: _figure(what, about))
    if what == "fragment":
        return with_html(_or_plugin_error(page_fragment, about))  # a fragment may ask for figures
    if what == "carried":
        return carried.page()
    slug, code = about.split()
    return desk(slug, open_code(code))


def _figure(what: str, about: str) -> str:
    if what == "example-figure":
        return example_figure(*about.split())
    # matplotlib takes longer to load than the site to build, so only when something is to be drawn
    from generator.figures.theory_all import theory_figure

    return _or_plugin_error(theory_figure, about)


def _or_plugin_error(make: Callable[[str], str], name: str) -> str:
    """What is made under that name; a name that there is not stops the build with a sentence, not with a traceback."""
    try:
        return make(name)
    except LookupError as error:
        raise PluginError(str(error.args[0])) from error

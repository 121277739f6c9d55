"""What the theme's pages lack for people who use no mouse or cannot see; it is added to the finished page.

Each fix is one replacement in mkdocs-material's own HTML.  If a new version of the theme writes something else, the
fix finds nothing, and the tests of every page (tests/browser/test_rules.py) say what is wrong.
"""

import re
from collections.abc import Iterable

#: Our styles, in the order in which later rules win; the page loads them as one file.
JOINED_OF = ("formulas.css", "notebook.css", "report.css", "handin.css", "sheet.css")
#: Styles of a few pages, by how the names of their classes begin; no other page loads them.
ONLY_WITH = {"record.css": re.compile(r"\b(?:rc|bn)-")}  # the bench shows what the record says
JOINED = "site.css"

STYLE_LINK = re.compile(r'\s*<link rel="stylesheet" href="((?:\.\./)*eight/)([\w.]+)">')
SECTION = re.compile(
    r'<label class="md-nav__title" for="(__nav_[\d_]+)">'
    r'\s*<span class="md-nav__icon md-icon"></span>\s*([^<]+?)\s*</label>'
)
BARE = re.compile(
    r'(<label class="md-nav__link "[^>]* id="(__nav_[\d_]+)_label"[^>]*>)'
    r'(\s*<span class="md-nav__icon md-icon"></span>\s*</label>)'
)
DRAWER = '<label class="md-header__button md-icon" for="__drawer">'
SEARCH = '<div class="md-search" data-md-component="search" role="dialog"'


def with_theme_fixes(html: str) -> str:
    """A page of the theme with names for screen readers, the size of its picture, and one link for our styles."""
    html = html.replace(SEARCH, f'{SEARCH} aria-label="Search the site"', 1)
    # the theme's script takes Enter on a label for a press
    html = html.replace(DRAWER, f'{DRAWER[:-1]} tabindex="0"><span class="er-hidden">All pages</span>', 1)
    names = dict(SECTION.findall(html))
    html = BARE.sub(
        lambda m: f'{m[1]}<span class="er-hidden">Pages of “{names.get(m[2], "this part")}”</span>{m[3]}', html
    )
    # a corner cell heads nothing
    html = re.sub(r"<th(?: [^>]*)?></th>", "<td></td>", html)
    # the drawing beside the name says nothing that the name does not
    html = re.sub(r'(<img src="[^"]*icon\.svg") alt="logo">', r'\1 alt="" width="24" height="24">', html)
    return _joined(html)


def _joined(html: str) -> str:
    """The page with one link for our styles; a style sheet that it has alone goes to its head too."""
    own = [
        (root, name)
        for root, name in STYLE_LINK.findall(html)
        if name not in JOINED_OF and (name not in ONLY_WITH or ONLY_WITH[name].search(html))
    ]
    if first := STYLE_LINK.search(html):
        html = STYLE_LINK.sub("", html)
        links = "".join(f'<link rel="stylesheet" href="{root}{name}">' for root, name in [(first[1], JOINED), *own])
        html = html.replace("</head>", f"{links}</head>", 1)
    return html


def joined(texts: Iterable[str]) -> str:
    """Style sheets as one, without their comments, and without spaces about the braces and ends of rules."""
    css = re.sub(r"/\*.*?\*/", "", "\n".join(texts), flags=re.DOTALL)
    return re.sub(r"\s*\n\s*", "\n", re.sub(r"\s*([{};])\s*", r"\1", css)).strip() + "\n"

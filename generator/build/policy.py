"""The content security policy of a page: what it may load and run, written into its head at build.

A page may load what lies beside it on the same site and nothing else.  The few
inline scripts that mkdocs-material writes are let in by their hash, page by page
(they hold the way to the site's root), and so is its one large script; nothing else that stands in a page runs.

What the policy does not reach:

- The worker.  A worker that came over the network has the policy of its own
  response, not that of the page that started it (Content Security Policy Level 3
  and HTML, "initialize worker policy container").  A meta element is no
  response, so Python runs under no policy, unless the host sends one with
  worker.js.  'wasm-unsafe-eval' stands here for a host that sends this very
  policy as a header with every file, and for a browser that hands a page's policy on to
  its workers: Python's runtime is WebAssembly and starts under it, without 'unsafe-eval'
  (tests/browser/test_safe.py holds both).
- Who may show a page in a frame: frame-ancestors counts only in a header.
"""

import base64
import hashlib
import re
from functools import cache

from mkdocs.exceptions import PluginError

from exercises.classroom.class_list import paper
from exercises.classroom.class_list.class_file import Class
from exercises.classroom.report import page as report_page
from exercises.classroom.report import student_pages as mark_pages
from exercises.classroom.report.counts import Report
from generator.build.paper_style import paper_style
from generator.build.theme_files import ASKS, script

#: What every page has, beside its script-src.
EVERY = {
    "default-src": "'self'",
    "worker-src": "'self'",
    "connect-src": "'self'",
    "font-src": "'self'",
    "img-src": "'self' data:",  # the theme's style sheets hold their icons as data
    "manifest-src": "'self'",
    "object-src": "'none'",
    "base-uri": "'self'",
    "form-action": "'self'",
}
#: How the theme's own inline scripts begin; any other is a mistake of ours.
THEMES_OWN = ("__md_scope=", "var palette=", "var target=")
SCRIPT = re.compile(r"<script\b([^>]*)>(.*?)</script>", re.DOTALL | re.IGNORECASE)
STYLE = re.compile(r"<style>(.*?)</style>", re.DOTALL)
#: The encoding must stand in the first 1024 bytes, so the policy comes right behind it; neither loads anything.
BEFORE = re.compile(r"<head>\s*<meta charset=[^>]*>")
DATA = re.compile(r"""\btype=["']?application/(?:ld\+)?json\b""")


def with_policy(html: str) -> str:
    """A whole page with its policy first in its head.  PluginError where it cannot have one."""
    rules = "; ".join(f"{what} {allowed}" for what, allowed in policy_of(html).items())
    page, many = BEFORE.subn(
        lambda head: f'{head[0]}<meta http-equiv="Content-Security-Policy" content="{rules}">', html, 1
    )
    if not many:
        raise PluginError("A page has no head that begins with its encoding, so it can have no security policy.")
    return page


def policy_of(html: str) -> dict[str, str]:
    """What the policy of a page lets in: directive -> sources."""
    inline = [
        text for attributes, text in SCRIPT.findall(html) if " src=" not in attributes and not DATA.search(attributes)
    ]
    for text in inline:
        if not text.startswith(THEMES_OWN):
            raise PluginError(
                f"An inline script is not the theme's; put it in a file in site_assets/: {text.strip()[:60]}"
            )
    if ASKS in html:
        inline.append(script()[1])  # the theme's, which theme.js unpacks and puts into the page
    rules = EVERY | {"script-src": _listed("'self' 'wasm-unsafe-eval'", inline)}
    if 'data-print="' in html:
        # The class desk prints a page of its own making through a frame.  A blob: page has the policy of the page that
        # made it, so the one style element of each kind of print is let in here by its hash, and the font in it too.
        printing = {"style-src": _listed("'self'", printed_styles()), "font-src": "'self' data:", "frame-src": "blob:"}
        return rules | printing
    return rules | {"style-src": "'self'", "frame-src": "'none'"}


def _listed(plain: str, texts: list[str] | tuple[str, ...]) -> str:
    return " ".join([plain, *sorted({_hash(text) for text in texts})])


def _hash(text: str) -> str:
    """The source expression of an inline element's text: a browser hashes it with plain line ends, as UTF-8."""
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


@cache
def printed_styles() -> tuple[str, ...]:
    """The text of the style element of each kind of page that the class desk prints."""
    css = paper_style()  # as class_paper.js puts it together
    report = report_page.report_html(Report(0, "last", ()), Class((), "", ()), css)
    pages = (paper.head("", css), mark_pages.head(css), report)
    return tuple(style for page in pages for style in STYLE.findall(page)[:1])

"""Pages and scripts without bytes that say nothing to a browser: a host that compresses nothing sends them all.

page     without the blanks that the theme's templates leave, and without what a drawing needs only outside a page
scripts  without comments and blanks
"""

import hashlib
import json
import re
from collections.abc import Sequence

from generator.build.cache import cached_text
from generator.build.terser import BLANKS, shortened

#: A page has all colours from our style sheet, and a browser knows the two elements by their names.
FALLBACK = re.compile(r"var\((--er-[\w-]+),#[0-9a-f]{6}\)")
NAMESPACE = re.compile(r'(<(?:svg|math)\b)(?: xmlns="http://www\.w3\.org/(?:2000/svg|1998/Math/MathML)")')


def page(html: str) -> str:
    """The page, the same to whoever reads it."""
    html = NAMESPACE.sub(r"\1", FALLBACK.sub(r"var(\1)", html))
    head, begin, rest = html.partition("<article")
    inside, end, foot = rest.rpartition("</article>")
    return _without_indents(head) + begin + inside + end + _without_indents(foot)


def _without_indents(html: str) -> str:
    return re.sub(r"\n\s+", "\n", html)


def scripts(texts: Sequence[str]) -> list[str]:
    """Scripts of ours, each the same to a browser.  Trouble if one cannot be read."""
    digest = hashlib.sha256(json.dumps(texts).encode()).hexdigest()
    made: list[str] = json.loads(
        cached_text(f"scripts {digest}", lambda: json.dumps(shortened("A script", texts, BLANKS)))
    )
    return made

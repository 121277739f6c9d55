"""Formulas: `$…$` in a line and `$$…$$` in a paragraph of its own, set as MathML at build time.

Readable with scripts off and by screen readers; the browser sets them itself.
A Python-Markdown extension, named in mkdocs.yml.
"""

import re

from latex2mathml.converter import convert
from markdown import Markdown
from markdown.extensions import Extension
from markdown.inlinepatterns import InlineProcessor

#: The name of a function, with its power where it has one: a space inside of msup would be taken for an argument.
FUNCTION = re.compile(r"<msup><mi>(?:sin|cos|tan|cot)</mi>.+?</msup>|<mi>(?:sin|cos|tan|cot)</mi>")
THIN = '<mspace width="0.17em" />'
INLINE = r"(?<![\\$])\$(?!\s)([^$\n]+?)(?<!\s)\$(?![\d$])"
DISPLAY = r"(?<!\\)\$\$(.+?)\$\$"


class _Formula(InlineProcessor):
    def __init__(self, pattern: str, md: Markdown, display: str):
        super().__init__(pattern, md)
        self.display = display

    def handleMatch(self, m: re.Match[str], data: str) -> tuple[str, int, int]:  # noqa: N802 - the name is Markdown's
        latex = m.group(1).strip()
        # given to Markdown as ready HTML, so that nothing in it is taken for Markdown
        html = mathml(latex, self.display)
        if self.display == "block":
            html = f'<span class="er-math">{html}</span>'  # the box in which a wide one scrolls (reach.js)
        return self.md.htmlStash.store(html), m.start(0), m.end(0)


class Formulas(Extension):
    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802 - the name is Markdown's
        # above "escape" (180), so that a backslash in a formula is LaTeX's
        md.inlinePatterns.register(_Formula(DISPLAY, md, "block"), "formula-display", 186)
        md.inlinePatterns.register(_Formula(INLINE, md, "inline"), "formula-inline", 185)


def makeExtension(**settings: object) -> Formulas:  # noqa: N802 - the name is Markdown's
    return Formulas(**settings)


def mathml(latex: str, display: str = "block") -> str:
    """A formula as MathML; `display` is "block" or "inline"."""
    # the converter leaves out the thin space around the name of a function
    return FUNCTION.sub(lambda name: THIN + name[0] + THIN, convert(latex, display=display))

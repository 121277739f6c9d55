"""The style sheet of what is printed for a class: the notebook's, with the font of the formulas in it.

A saved page fetches nothing, so the font stands in it as data: 62 kB of a file.  site_assets/class_paper.js puts the
same text together in the browser.
"""

import base64
from functools import cache

from generator.build.font import NAME, formula_font
from generator.build.runtime import ROOT


@cache
def paper_style() -> str:
    """The text of the style sheet.  Trouble if the package that brings the font is not there."""
    data = base64.b64encode(formula_font()).decode()
    face = f'@font-face {{ font-family: "{NAME}"; src: url("data:font/woff2;base64,{data}") format("woff2"); }}\n'
    return (ROOT / "site_assets" / "notebook.css").read_text(encoding="utf-8") + face

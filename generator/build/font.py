"""The font of the site's formulas: STIX Two Math, cut down to the characters that formulas have.

The whole font comes with the package ziamath.  Its licence, the SIL Open Font License 1.1, goes beside the font into
the site.  The table MATH stays, with all heights of brackets, roots and bars (OpenType 1.9, "MATH - The mathematical
typesetting table").  The part gets a name of its own.
"""

import importlib.util
import io
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

from generator.build.cache import cached
from generator.build.trouble import Trouble

NAME = "Eight Readings Formulas"
WHOLE = Path("fonts") / "STIXTwoMath-Regular.ttf"  # in the package ziamath
#: What may stand in a formula: upright letters, numbers and signs.
UPRIGHT = (
    " !%'()*+,-./0123456789:;<=>?[]ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
    "αβγδεθλμνπρστφχωΔΣΩ\u00a0°²³¹⁰⁴⁵⁶⁷⁸⁹⁻½±∓×·⋅÷−√∛≈∝…¯–’“”µ①②"
)
#: The forms of the mathematical alphabet that a browser takes for a letter that stands alone.
ITALIC = (
    "".join(chr(0x1D434 + at) for at in range(52) if at != 33)  # h has its own place
    + "\u210e"
    + "".join(chr(0x1D6FC + at) for at in range(31))  # α to ω, and other forms of them
)
#: Names in the font: 0 whose it is, 5 its version, 7 trade marks, 8 and 9 who made it, 13 and 14 its licence.
NAMES_KEPT = [0, 1, 2, 4, 5, 6, 7, 8, 9, 13, 14]


def formula_font() -> bytes:
    """The font as WOFF2.  Trouble if the package that brings it is not there."""
    return cached("formula-font", _made)


def _made() -> bytes:
    found = importlib.util.find_spec("ziamath")
    path = Path(found.origin).parent / WHOLE if found and found.origin else WHOLE
    if not path.is_file():
        raise Trouble("The font of the formulas is not there. Install the packages again: uv sync")
    font = TTFont(path)
    options = subset.Options(
        layout_features=["ssty"], name_IDs=NAMES_KEPT, hinting=False, notdef_outline=True, glyph_names=False
    )
    options.drop_tables += ["DSIG", "GPOS", "GDEF"]
    cutter = subset.Subsetter(options)
    cutter.populate(text=UPRIGHT + ITALIC)
    cutter.subset(font)
    for record in font["name"].names:
        if record.nameID in (1, 4):
            record.string = NAME
        elif record.nameID == 6:
            record.string = NAME.replace(" ", "")
    font.flavor = "woff2"
    font["head"].modified = font["head"].created  # the same bytes in every build
    font.recalcTimestamp = False
    out = io.BytesIO()
    font.save(out)
    return out.getvalue()

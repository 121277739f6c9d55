"""Two sets of fonts for a browser, whatever is installed: a plain one, and one with a font for mathematics as well.

A browser sets formulas by the table MATH of a font where it finds one (OpenType 1.9, "MATH - The mathematical
typesetting table"), and by rules of its own where it finds none, so formulas come out in different sizes.  The plain
fonts come with matplotlib.  The one for mathematics is made of them: no package that we use brings any.
"""

import hashlib
import os
import shutil
import tempfile
from pathlib import Path

import matplotlib
from fontTools.misc.transform import Scale
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont, newTable
from fontTools.ttLib.tables import otTables

FONTS = ("plain", "mathematics")
KEPT = Path(__file__).parents[2] / ".cache" / "fonts"
SHIPPED = Path(matplotlib.get_data_path()) / "fonts" / "ttf"
GENERIC = {"serif": "DejaVu Serif", "sans-serif": "DejaVu Sans", "monospace": "DejaVu Sans Mono"}
#: Chromium asks for this family when a page asks for a font for mathematics.
MATHEMATICS = "Latin Modern Math"

#: Lengths of the table MATH in thousandths of an em, of the size that fonts for mathematics have.
LENGTHS = {
    "MathLeading": 120,
    "AxisHeight": 275,
    "AccentBaseHeight": 539,
    "FlattenedAccentBaseHeight": 709,
    "SubscriptShiftDown": 277,
    "SubscriptTopMax": 330,
    "SubscriptBaselineDropMin": 138,
    "SuperscriptShiftUp": 381,
    "SuperscriptShiftUpCramped": 312,
    "SuperscriptBottomMin": 220,
    "SuperscriptBaselineDropMax": 277,
    "SubSuperscriptGapMin": 120,
    "SuperscriptBottomMaxWithSubscript": 335,
    "SpaceAfterScript": 40,
    "UpperLimitGapMin": 96,
    "UpperLimitBaselineRiseMin": 96,
    "LowerLimitGapMin": 96,
    "LowerLimitBaselineDropMin": 511,
    "StackTopShiftUp": 403,
    "StackTopDisplayStyleShiftUp": 635,
    "StackBottomShiftDown": 268,
    "StackBottomDisplayStyleShiftDown": 637,
    "StackGapMin": 96,
    "StackDisplayStyleGapMin": 120,
    "StretchStackTopShiftUp": 96,
    "StretchStackBottomShiftDown": 511,
    "StretchStackGapAboveMin": 96,
    "StretchStackGapBelowMin": 96,
    "FractionNumeratorShiftUp": 403,
    "FractionNumeratorDisplayStyleShiftUp": 635,
    "FractionDenominatorShiftDown": 268,
    "FractionDenominatorDisplayStyleShiftDown": 637,
    "FractionNumeratorGapMin": 96,
    "FractionNumDisplayStyleGapMin": 120,
    "FractionRuleThickness": 64,
    "FractionDenominatorGapMin": 96,
    "FractionDenomDisplayStyleGapMin": 120,
    "SkewedFractionHorizontalGap": 300,
    "SkewedFractionVerticalGap": 80,
    "OverbarVerticalGap": 96,
    "OverbarRuleThickness": 52,
    "OverbarExtraAscender": 50,
    "UnderbarVerticalGap": 96,
    "UnderbarRuleThickness": 52,
    "UnderbarExtraDescender": 50,
    "RadicalVerticalGap": 96,
    "RadicalDisplayStyleVerticalGap": 96,
    "RadicalRuleThickness": 52,
    "RadicalExtraAscender": 96,
    "RadicalKernBeforeDegree": 40,
    "RadicalKernAfterDegree": -526,
}
HEIGHTS = {"DelimitedSubFormulaMinHeight": 1333, "DisplayOperatorMinHeight": 1333}
PERCENT = {
    "ScriptPercentScaleDown": 80,
    "ScriptScriptPercentScaleDown": 65,
    "RadicalDegreeBottomRaisePercent": 55,
}
#: What grows with what stands beside it, and how many times as high as usual it comes.
STRETCHED = "()√"
SIZES = (1.5, 2.2, 3.0)


def environment(fonts: str = "plain") -> dict[str, str]:
    """The environment of a browser's process that sees a set of fonts and no others.  The fonts are kept in .cache/."""
    folder = KEPT / hashlib.sha256(str(KEPT).encode() + Path(__file__).read_bytes()).hexdigest()[:16] / fonts
    settings = folder / "fonts.conf"
    if not settings.exists():
        KEPT.mkdir(parents=True, exist_ok=True)
        work = Path(tempfile.mkdtemp(prefix="making-", dir=KEPT))
        _make(fonts, work, folder)
        folder.parent.mkdir(exist_ok=True)
        try:
            work.rename(folder)
        except OSError:  # another process was quicker
            shutil.rmtree(work)
    return {**os.environ, "FONTCONFIG_FILE": str(settings)}


def _make(fonts: str, work: Path, folder: Path) -> None:
    """Put the fonts and the fontconfig file of a set, which is to lie in `folder`, into the folder `work`."""
    here = work / "fonts"
    here.mkdir()
    for path in SHIPPED.glob("DejaVu*.ttf"):
        shutil.copy(path, here)
    if fonts == "mathematics":
        _mathematics(SHIPPED / "DejaVuSerif.ttf", here / "Mathematics.ttf")
    aliases = "".join(
        f"<alias><family>{generic}</family><prefer><family>{family}</family></prefer></alias>"
        for generic, family in GENERIC.items()
    )
    (work / "fonts.conf").write_text(
        '<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">'
        f"<fontconfig><dir>{folder / 'fonts'}</dir><cachedir>{folder / 'cache'}</cachedir>{aliases}</fontconfig>",
        encoding="utf-8",
    )


def _mathematics(plain: Path, made: Path) -> None:
    """Write a font for mathematics: a plain one with a table MATH, and signs that stretch."""
    font = TTFont(plain)
    scale = font["head"].unitsPerEm / 1000
    table = newTable("MATH")
    table.table = otTables.MATH()
    table.table.Version = 0x00010000
    table.table.MathConstants = _constants(scale)
    table.table.MathGlyphInfo = None
    table.table.MathVariants = _variants(font)
    font["MATH"] = table
    for record in font["name"].names:
        if record.nameID in (1, 4, 16):
            record.string = MATHEMATICS
        elif record.nameID == 6:
            record.string = MATHEMATICS.replace(" ", "")
    font.save(made)


def _constants(scale: float) -> otTables.MathConstants:
    constants = otTables.MathConstants()
    for name, value in LENGTHS.items():
        record = otTables.MathValueRecord()
        record.Value = round(value * scale)
        setattr(constants, name, record)
    for name, value in HEIGHTS.items():
        setattr(constants, name, round(value * scale))
    for name, value in PERCENT.items():
        setattr(constants, name, value)
    return constants


def _variants(font: TTFont) -> otTables.MathVariants:
    """Each sign that stretches in several heights, drawn anew from its own outline."""
    names = {font.getBestCmap()[ord(sign)]: sign for sign in STRETCHED}
    glyphs, made = font.getGlyphSet(), {}
    for name in names:
        made[name] = []
        for size in SIZES:
            pen = TTGlyphPen(None)
            glyphs[name].draw(TransformPen(pen, Scale(1, size)))
            glyph, tall = pen.glyph(), f"{name}.{round(size * 10)}"
            font["glyf"][tall] = glyph
            glyph.recalcBounds(font["glyf"])
            font["hmtx"][tall] = (font["hmtx"][name][0], glyph.xMin)
            made[name].append((tall, glyph.yMax - glyph.yMin))
    variants = otTables.MathVariants()
    variants.MinConnectorOverlap = 20
    variants.VertGlyphCoverage = otTables.Coverage()
    variants.VertGlyphCoverage.glyphs = sorted(made, key=font.getGlyphID)
    variants.VertGlyphCount, variants.VertGlyphConstruction = len(made), []
    for name in variants.VertGlyphCoverage.glyphs:
        construction = otTables.MathGlyphConstruction()
        construction.GlyphAssembly, construction.MathGlyphVariantRecord = None, []
        for tall, height in made[name]:
            record = otTables.MathGlyphVariantRecord()
            record.VariantGlyph, record.AdvanceMeasurement = tall, height
            construction.MathGlyphVariantRecord.append(record)
        construction.VariantCount = len(made[name])
        variants.VertGlyphConstruction.append(construction)
    variants.HorizGlyphCoverage, variants.HorizGlyphCount, variants.HorizGlyphConstruction = None, 0, []
    return variants

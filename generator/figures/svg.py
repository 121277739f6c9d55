"""A matplotlib figure as inline SVG that follows the site's colours and fonts.

The same figure gives the same bytes every time.  Text stays text, in the page's
font; colours become CSS variables with the printed colour as fallback; nothing
in it can touch the rest of the page (no style sheet, no id without its prefix).
"""

import io
import re
import xml.etree.ElementTree as ET

import matplotlib as mpl
from matplotlib.figure import Figure

from generator.figures.style import INK, VARIABLES, notebook

SVG = "http://www.w3.org/2000/svg"
XLINK = "{http://www.w3.org/1999/xlink}href"
NUMBER = re.compile(r"-?\d+\.\d{3,}(?:e-?\d+)?")
MEASURED = ("d", "x", "y", "transform", "points", "width", "height", "style", "x1", "x2", "y1", "y2")
MARKUP = re.compile(r"\*(?P<italic>[^*]+)\*|_(?P<low>[A-Za-z0-9]+)|\^\((?P<high>[^()]+)\)")


def variable(color: str) -> str:
    """A sentinel colour as the CSS variable it stands for: `var(--er-ink,#22302f)`."""
    return f"var({VARIABLES[color]},{color})"


def to_svg(fig: Figure, name: str, alt: str, describe: str = "") -> str:
    """The figure as one `<svg>` element of class er-figure, to be put in a page as it is.

    name      letters, digits and hyphens; starts every id inside, so unique on a page
    alt       what a person who does not see the figure must know, one or two sentences
    describe  more than that, if the figure needs it
    """
    if not re.fullmatch(r"[a-z][a-z0-9-]*", name):
        raise ValueError(f"a figure's name is small letters, digits and hyphens; {name!r} is not")
    if not alt.strip():
        raise ValueError(f"the figure {name} needs an alt text")
    text = io.StringIO()
    with notebook(), mpl.rc_context({"svg.hashsalt": name}):
        fig.savefig(text, format="svg", metadata={"Date": None, "Creator": None, "Format": None, "Type": None})
    return _tidy(text.getvalue(), name, alt, describe)


def _tidy(drawn: str, name: str, alt: str, describe: str) -> str:
    root = ET.fromstring(drawn)
    view = root.get("viewBox", "")
    referred = set(re.findall(r'(?:url\(#|href="#)([^")]+)', drawn))
    for parent in list(root.iter()):
        for child in list(parent):
            # matplotlib's style sheet would hold for the whole page; its two rules go on the root
            if child.tag in (f"{{{SVG}}}metadata", f"{{{SVG}}}style"):
                parent.remove(child)
    for element in list(root.iter()):  # a list, for setting a text adds elements
        element.tag = element.tag.removeprefix(f"{{{SVG}}}")
        _attributes(element, name, referred)
        element.tail = None
        if element.tag == "text":
            _set_text(element)
        else:
            element.text = None
    _unwrap(root)
    root.attrib.clear()
    root.attrib.update(
        {
            "xmlns": SVG,
            "class": "er-figure",
            "viewBox": _rounded(view),
            "role": "img",
            "aria-label": alt,
            "stroke-linejoin": "round",
            "stroke-linecap": "butt",
        }
    )
    for element in root.iter():
        _unstyled(element)
    title = ET.Element("title")
    title.text = alt
    root.insert(0, title)
    if describe:
        more = ET.Element("desc")
        more.text = describe
        root.insert(1, more)
    return ET.tostring(root, encoding="unicode")


def _attributes(element: ET.Element, name: str, referred: set[str]) -> None:
    """Prefix what is referred to, drop other ids, round the numbers, name the colours."""
    target = element.attrib.pop(XLINK, None)
    if target:
        element.set("href", f"#{name}-{target[1:]}")
    if (own := element.get("id")) is not None:
        if own in referred:
            element.set("id", f"{name}-{own}")
        else:
            del element.attrib["id"]
    for key, value in list(element.attrib.items()):
        value = value.replace("url(#", f"url(#{name}-")
        if key in MEASURED:
            value = _rounded(value)
        if key == "d":
            value = " ".join(value.split())
        if key == "style":
            for color in VARIABLES:
                value = value.replace(color, variable(color))
            # the family is matplotlib's; the page's own is used
            rules = (rule.strip() for rule in value.split(";"))
            value = "; ".join(rule for rule in rules if rule and not rule.startswith("font-family:"))
        element.set(key, value)
    if element.get("transform", "").startswith("rotate(-0 "):
        del element.attrib["transform"]
    if element.tag == "text" and "fill:" not in element.get("style", ""):
        element.set("style", f"{element.get('style', '')}; fill: {variable(INK)}".strip("; "))


def _unstyled(element: ET.Element) -> None:
    """Make the rules of a style attribute attributes of their own: the site's security policy allows no style "
    "attribute."""
    for rule in element.attrib.pop("style", "").split(";"):
        if rule.strip():
            key, _, value = rule.partition(":")
            element.set(key.strip(), value.strip())


def _set_text(element: ET.Element) -> None:
    """Turn the markup of a label (`*d*`, `B_H`, `^(3/2)`) into tspans."""
    text = element.text or ""
    if not MARKUP.search(text):
        return
    element.text, at, back = "", 0, ""  # back: how far the baseline has to go back
    last: ET.Element | None = None
    for mark in MARKUP.finditer(text):
        back = _plain(element, last, text[at : mark.start()], back)
        last = ET.SubElement(element, "tspan")
        if mark["italic"]:
            symbol, _, low = mark["italic"].partition("_")
            last.set("font-style", "italic")
            last.text = symbol
            if back:
                last.set("dy", back)
                back = ""
            if low:
                last = ET.SubElement(element, "tspan")
                last.text = low
        else:
            low = mark["low"]
            last.text = low or mark["high"]
        if low or mark["high"]:
            # the lengths are in the letters' own size: 0.78 of 0.25em is 0.2em of what follows
            last.set("dy", "0.25em" if low else "-0.5em")
            last.set("style", "font-size: 0.78em")
            back = "-0.2em" if low else "0.39em"
        at = mark.end()
    _plain(element, last, text[at:], back)


def _plain(element: ET.Element, last: ET.Element | None, text: str, back: str) -> str:
    """Add plain text after the last tspan, back on its line if that one was not."""
    if not text:
        return back
    if last is None:
        element.text = text
    elif back:
        ET.SubElement(element, "tspan", {"dy": back}).text = text
    else:
        last.tail = text
    return ""


def _unwrap(parent: ET.Element) -> None:
    """Take away groups that hold nothing or say nothing."""
    for child in list(parent):
        _unwrap(child)
        if child.tag in ("g", "defs") and not len(child):
            parent.remove(child)
        elif child.tag == "path" and child.get("style") == "fill: none":
            parent.remove(child)  # the figure's own transparent ground
        elif child.tag == "g" and not child.attrib:
            at = list(parent).index(child)
            parent.remove(child)
            for i, grandchild in enumerate(list(child)):
                parent.insert(at + i, grandchild)


def _rounded(text: str) -> str:
    """Every number in the text to two decimals at most."""

    def short(number: re.Match[str]) -> str:
        return f"{round(float(number[0]), 2) + 0.0:g}"

    return NUMBER.sub(short, text)

"""The theme's style sheets without what no page of this site can use; half of their bytes are for other sites.

A rule goes where each of its selectors names a class, a colour or a direction of writing that the site does not have,
and a custom property (`--name`) that no rule reads.  What looks at state, size or media stays as it is.
"""

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from mkdocs.exceptions import PluginError

FOLDER = "assets/stylesheets"
NESTED = ("@media", "@supports", "@layer")
CLASS = re.compile(r"\.(-?[a-zA-Z_](?:[\w-]|\\.)*)")
#: Attributes that say which palette and direction the page has; what a script does to other attributes is not known.
CHOICE = re.compile(r"""\[((?:data-md-color-(?:scheme|primary|accent)|dir))=["']?([\w-]+)["']?\]""")
FUNCTION = re.compile(r":(?:not|is|where|has|matches)\([^()]*(?:\([^()]*\)[^()]*)*\)")
CLASSES = re.compile(r'\bclass="?([^">]*)')
WORD = re.compile(r"[\w-]+")
QUOTED = r""""[^"]*"|'[^']*'"""
PROPERTY = re.compile(rf"""(?<=[{{;])(--[\w-]+):(?:{QUOTED}|\((?:{QUOTED}|[^()"'])*\)|[^;{{}}"'()])*(?:;|(?=\}}))""")
USED = re.compile(r"var\(\s*(--[\w-]+)")


class Site:
    """The classes and choices that pages have or scripts may give them, and the custom properties that are read."""

    def __init__(self, pages: Iterable[str], ours: Iterable[str], theme: Iterable[str]):
        self.classes: set[str] = set()
        self.choices: set[tuple[str, str]] = set()
        for html in pages:
            for names in CLASSES.findall(html):
                self.classes.update(names.split())
            self.choices.update(CHOICE.findall("[" + "][".join(re.findall(r"""\b[\w-]+="[\w-]+\"""", html)) + "]"))
        # the theme's script adds to the parts that a page has: md-nav__link--passed to md-nav__link
        blocks = {re.split("__|--", name)[0] for name in self.classes}
        for script in theme:
            self.classes.update(word for word in WORD.findall(script) if re.split("__|--", word)[0] in blocks)
        for text in ours:
            self.classes.update(WORD.findall(text))

    def has(self, selector: str) -> bool:
        """Whether something of the site may be what this selector names."""
        plain = FUNCTION.sub("", selector)
        bare = re.sub(r"\[[^\]]*\]", "", plain)
        return all(name.replace("\\", "") in self.classes for name in CLASS.findall(bare)) and all(
            choice in self.choices for choice in CHOICE.findall(plain)
        )


def slimmed(css: str, site: Site) -> str:
    """The style sheet without the rules that the site has no use for."""
    out = []
    for prelude, body in _rules(css):
        if body is None:
            out.append(prelude)
        elif prelude.startswith(NESTED):
            if inside := slimmed(body, site):
                out.append(f"{prelude}{{{inside}}}")
        elif prelude.startswith("@"):
            out.append(f"{prelude}{{{body}}}")
        elif kept := [selector for selector in _listed(prelude) if site.has(selector)]:
            out.append(f"{','.join(kept)}{{{body}}}")
    return "".join(out)


def _rules(css: str) -> Iterator[tuple[str, str | None]]:
    """What stands before each brace and what is in it; None for a statement without braces."""
    start = depth = opened = 0
    for match in re.finditer(r""""(?:[^"\\]|\\.)*"|'(?:[^'\\]|\\.)*'|url\([^"')]*\)|[;{}]""", css):
        mark = match[0]
        if mark == "{":
            depth += 1
            if depth == 1:
                opened = match.end()
        elif mark == "}":
            depth -= 1
            if depth == 0:
                yield css[start : opened - 1].strip(), css[opened : match.start()]
                start = match.end()
        elif mark == ";" and depth == 0:
            yield css[start : match.end()], None
            start = match.end()


def _listed(prelude: str) -> list[str]:
    """The selectors of a list, which commas part outside brackets."""
    return re.findall(r"""(?:\((?:[^()]|\([^()]*\))*\)|\[[^\]]*\]|[^,(\[])+""", prelude)


def without_unread(sheets: dict[Path, str], others: Iterable[str]) -> dict[Path, str]:
    """The sheets without the custom properties that neither they nor other texts read."""
    known = {name for text in others for name in re.findall(r"--[\w-]+", text)}
    while (less := _without(known, sheets)) != sheets:
        sheets = less
    return less


def _without(known: set[str], sheets: dict[Path, str]) -> dict[Path, str]:
    read = known.union(*(USED.findall(css) for css in sheets.values()))
    return {path: PROPERTY.sub(lambda m: m[0] if m[1] in read else "", css) for path, css in sheets.items()}


def slim(folder: Path, sources: Iterable[Path]) -> None:
    """Write the theme's style sheets of a built site anew.

    sources  files of ours besides the pages in which names of classes may stand.
    PluginError where the theme has no style sheet in its folder.
    """
    pages = [path.read_text(encoding="utf-8") for path in folder.rglob("*.html")]
    ours = [path.read_text(encoding="utf-8") for path in (*sources, *folder.glob("eight/*.js"))]
    theme = [path.read_text(encoding="utf-8") for path in folder.glob("assets/javascripts/*.js")]
    site = Site(pages, ours, theme)
    paths = sorted((folder / FOLDER).glob("*.css"))
    sheets = {path: slimmed(path.read_text(encoding="utf-8"), site) for path in paths}
    if not sheets:
        raise PluginError("The theme's style sheets were not found. Look for their new place; mend theme_styles.py.")
    styles = [path.read_text(encoding="utf-8") for path in folder.glob("eight/*.css")]
    for path, css in without_unread(sheets, (*pages, *ours, *theme, *styles)).items():
        path.write_text(re.sub(r"[^{}]+\{\}", "", css), encoding="utf-8", newline="\n")

"""A figure as it stands in a page: drawn, with its caption, and registered under its name.

To add a figure to a theory page, write a function in a file theory_*.py that
returns a matplotlib figure, mark it with `@plate(...)`, and place it in a page
with `<!-- figure: NAME -->`.  For figures of one scenario, `as_plate` does the
same with a figure in hand.
"""

import re
from collections.abc import Callable
from functools import wraps

from matplotlib.figure import Figure

from exercises.codes.sheet_code import SheetCode
from generator.figures.style import notebook
from generator.figures.svg import to_svg

#: Every figure registered so far: its name -> a function that gives the complete `<figure>`.
FIGURES: dict[str, Callable[[], str]] = {}

#: Words, or a function that gives them where they hold a number that is worked out.
type Words = str | Callable[[], str]

#: The spaces about an equals sign and between a number and its unit, where a line must not break.
UNIT = re.compile(r"(?<=\d) (?=%|[cm]?m\b|µT|A·m)|(?<=\)) (?=A·m)| (?==)|(?<= =) ")
NBSP = "\u00a0"


def _words(words: Words) -> str:
    return words() if callable(words) else words


def as_plate(body: str, caption: str) -> str:
    """A drawn SVG or a table with its caption (HTML), as the pages show it."""
    caption = UNIT.sub(NBSP, caption)
    return f'<figure class="er-plate" data-search-exclude>{body}<figcaption>{caption}</figcaption></figure>'


def figure_name(what: str, code: SheetCode) -> str:
    """The name of a figure of one sheet, unique on a page: `figure_name("bench", code)` is 'bench-a322-236m-y667'."""
    return f"{what}-{str(code).lower()}"


def _register(name: str, make: Callable[[], str]) -> None:
    if name in FIGURES:
        raise ValueError(f"two figures are called {name}")
    FIGURES[name] = make


def plate(
    name: str, alt: Words, caption: Words, describe: Words = ""
) -> Callable[[Callable[[], Figure]], Callable[[], Figure]]:
    """Register a function that draws a matplotlib figure; it runs inside the figures' style."""

    def mark(draw: Callable[[], Figure]) -> Callable[[], Figure]:
        @wraps(draw)
        def make() -> str:
            with notebook():
                return as_plate(to_svg(draw(), name, _words(alt), _words(describe)), _words(caption))

        _register(name, make)
        return draw

    return mark


def table(name: str, caption: Words) -> Callable[[Callable[[], str]], Callable[[], str]]:
    """Register a function that returns an HTML table, for numbers better read than drawn."""

    def mark(write: Callable[[], str]) -> Callable[[], str]:
        _register(name, lambda: as_plate(write(), _words(caption)))
        return write

    return mark

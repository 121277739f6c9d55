"""The figures of the site, by name: `FIGURES["bench"]()` is the complete `<figure>`.

To add a figure, write a function that returns a matplotlib figure, mark it with
`@plate(...)`, and place it in a page with `<!-- figure: NAME -->`.  For figures
of one scenario, `as_plate` does the same with a figure in hand.
"""

import re
from collections.abc import Callable
from functools import wraps

from matplotlib.figure import Figure

from generator.figures.style import notebook
from generator.figures.svg import to_svg

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


def _register(name: str, make: Callable[[], str]) -> None:
    if name in FIGURES:
        raise ValueError(f"two figures are called {name}")
    FIGURES[name] = make


def plate(name: str, alt: Words, caption: Words, describe: Words = ""):
    """Register a function that draws a matplotlib figure; it runs inside the figures' style."""

    def mark(draw: Callable[[], Figure]):
        @wraps(draw)
        def make() -> str:
            with notebook():
                return as_plate(to_svg(draw(), name, _words(alt), _words(describe)), _words(caption))

        _register(name, make)
        return draw

    return mark


def table(name: str, caption: Words):
    """Register a function that returns an HTML table, for numbers better read than drawn."""

    def mark(write: Callable[[], str]):
        _register(name, lambda: as_plate(write(), _words(caption)))
        return write

    return mark


# Each of these registers its figures as it is imported, so they come last.
from generator.figures import (  # noqa: E402, F401
    theory_bench,
    theory_choice,
    theory_compare,
    theory_distances,
    theory_earth,
    theory_field,
    theory_graph,
    theory_law,
    theory_law_board,
    theory_readings,
    theory_result,
    theory_setting,
    theory_tan_b,
    theory_why,
)

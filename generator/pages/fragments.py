"""What a page asks for by name with `<!-- made: NAME -->`.

To add one, write a function of nothing that returns HTML and enter it here.
"""

from collections.abc import Callable

from mkdocs.exceptions import PluginError

from generator.pages import blank, class_desk, drill, record
from generator.pages.why import bench, each_fault

MADE: dict[str, Callable[[], str]] = {
    "why": bench,
    "why-each": each_fault,
    "drill": drill.drill,
    "viva": drill.viva,
    "record": record.desk,
    "class-desk": class_desk.class_desk,
    "blank-tan-a": blank.tan_a,
    "blank-tan-b": blank.tan_b,
}


def made(name: str) -> str:
    """The HTML of that name.  PluginError, with the names there are, if there is none."""
    if name not in MADE:
        raise PluginError(f"Nothing made is called {name}; there are {', '.join(sorted(MADE))}.")
    return MADE[name]()

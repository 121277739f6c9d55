"""The parts of pages that Python writes, by the name with which a page asks for them: `<!-- fragment: NAME -->`.

To add one, write a function of nothing that returns HTML and enter it here.
"""

from collections.abc import Callable

from generator.pages import bench, blank, class_desk, drill, record, why

FRAGMENTS: dict[str, Callable[[], str]] = {
    "why": why.bench,
    "why-each": why.each_fault,
    "drill": drill.drill,
    "viva": drill.viva,
    "record": record.desk,
    "bench": bench.bench,
    "class-desk": class_desk.class_desk,
    "blank-tan-a": blank.tan_a,
    "blank-tan-b": blank.tan_b,
}


def page_fragment(name: str) -> str:
    """The HTML of that name.  KeyError, with the names there are, if there is none."""
    if name not in FRAGMENTS:
        raise KeyError(f"No fragment is called {name}; there are {', '.join(sorted(FRAGMENTS))}.")
    return FRAGMENTS[name]()

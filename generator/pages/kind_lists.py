"""The lists of all kinds, in the order in which they are taught, on pages, in README.md and in mkdocs.yml."""

from collections.abc import Callable, Sequence

from exercises.kinds.kind import Kind, listed_kinds


def examples_of(kind: Kind) -> tuple[str, ...]:
    """The pages of a kind's worked examples, as they are called in content/examples/."""
    return kind.listing.examples or (f"{kind.slug}-1", f"{kind.slug}-2")


def exercises() -> str:
    """The table on the page of exercises."""
    return _table(
        ("exercise", "what you do"),
        [(f"[{kind.listing.name}]({kind.slug}.md)", kind.listing.task) for kind in listed_kinds()],
    )


def examples() -> str:
    """The table on the page of worked examples: of the kinds whose examples have no names of their own."""
    rows = []
    for kind in listed_kinds():
        if not kind.listing.examples:
            links = (f"[{number}]({page}.md)" for number, page in zip(("one", "two"), examples_of(kind)))
            rows.append((kind.listing.name, ", ".join(links)))
    return _table(("determination", "examples"), rows)


def readme() -> str:
    """The table of README.md.  The second number of slips is of those that hide."""
    rows = []
    for kind in listed_kinds():
        hidden = sum(slip.hides for slip in kind.slips)
        slips = f"{len(kind.slips) - hidden} + {hidden}" if hidden else f"{len(kind.slips)}"
        about = kind.listing
        rows.append((f"{about.name} (`{kind.slug}`)", about.steps, slips, about.checked))
    return _table(("kind", "steps", "slips", "checked against"), rows)


def navigation_of_examples() -> str:
    """The lines of mkdocs.yml that list the worked examples."""
    lines = []
    for kind in listed_kinds():
        lines.append(f"      - {kind.listing.name}:")
        lines += [f"          - examples/{page}.md" for page in examples_of(kind)]
    return "\n".join(lines)


def navigation_of_exercises() -> str:
    """The lines of mkdocs.yml that list the exercises."""
    return "\n".join(f"      - exercises/{kind.slug}.md" for kind in listed_kinds())


#: The tables that a page may ask for with `<!-- kinds: LIST -->`.
TABLES: dict[str, Callable[[], str]] = {"exercises": exercises, "examples": examples}


def markdown_table(name: str) -> str:
    """The table of that name as Markdown.  KeyError, with the names there are, if there is none."""
    if name not in TABLES:
        raise KeyError(f"No table of kinds is called {name}; there are {', '.join(TABLES)}.")
    return TABLES[name]()


def _table(heads: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> str:
    lines = [f"| {' | '.join(cells)} |" for cells in (heads, *rows)]
    return "\n".join([lines[0], "|" + "---|" * len(heads), *lines[1:]])

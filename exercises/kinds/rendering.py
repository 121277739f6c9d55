"""A whole sheet as HTML, as a student sees it: the same at build time and in the browser.

All text passes through `escape`; nothing that a person typed gets here.
"""

from collections.abc import Iterable, Sequence
from html import escape

from exercises.kinds.beside import Surroundings, said_again
from exercises.kinds.kind import Sheet
from exercises.kinds.sheet import Beside, Book, Given, Line, entry, unit_shown, written
from exercises.working.mathematics import set_out, symbols

HIGH = 6  # lines of a table; with more of them, what stands under it stands above it too


def render(sheet: Sheet, with_formula: bool = True) -> str:
    """The sheet: what is given, and every entry with the data that it is worked from.

    with_formula  whether the formula to use stands above them
    """
    page, scenario = sheet.kind.page, sheet.scenario
    code = str(scenario.code)
    around = Surroundings(sheet)
    givens = "".join(map(_given, page.givens(scenario)))
    parts = "".join(_part(around, heading, blocks) for heading, blocks in around.parts)
    formula = f'<p class="er-formula">{set_out(page.formula)}</p>' if page.formula and with_formula else ""
    return (
        f'<section class="er-sheet" data-kind="{sheet.kind.slug}" data-code="{code}" aria-label="Sheet {code}">'
        f'<header class="er-sheet-head"><p class="er-code">Sheet <strong>{code}</strong></p>'
        '<p class="er-name">Name <span></span></p></header>'
        f'<p class="er-task">{symbols(page.task)}</p>{formula}<dl class="er-givens">{givens}</dl>'
        f'<div class="er-entries">{parts}</div></section>'
    )


def _given(given: tuple[str, str]) -> str:
    keys = given.keys if isinstance(given, Given) else ()
    name, value = given
    return f"<div{_keys(keys)}><dt>{symbols(name)}</dt><dd>{symbols(value)}</dd></div>"


def _keys(keys: Iterable[str]) -> str:
    """The attribute that says which data stand in an element."""
    found = " ".join(keys)
    return f' data-given="{escape(found)}"' if found else ""


def _part(around: Surroundings, heading: str, blocks: Sequence[Beside | Book]) -> str:
    inside = "".join(_book(around, b) if isinstance(b, Book) else _beside(around, b) for b in blocks)
    if not heading:
        return f'<div class="er-part">{inside}</div>'
    return f'<fieldset class="er-part"><legend>{symbols(heading)}</legend>{inside}</fieldset>'


def _beside(around: Surroundings, block: Beside) -> str:
    """Data, and the entries that are worked from them."""
    again = " er-alone" if block.again else ""
    shown = f'<div class="er-data{again}"{_keys(block.keys)}>{block.shown}</div>' if block.shown else ""
    entries = "".join(
        entry(step, said_again(around.of_step(block, at)), around.marks(step)) for at, step in enumerate(block.steps)
    )
    group = f'<div class="er-group">{entries}</div>' if entries else ""
    return f'<div class="er-beside">{shown}{group}</div>'


def _book(around: Surroundings, book: Book) -> str:
    """A table as in a record book.

    Its parts say what they are: a narrow screen shows each line as a block, and then some browsers forget the table.
    """
    asked = "".join(
        f'<th scope="col" rowspan="{len(book.head)}">{symbols(title)}{unit_shown(step)}</th>'
        for step, title in zip(book.asked, book.columns or [step.title for step in book.asked])
    )
    first, *below = book.head
    head = "".join(f"<tr>{row}</tr>" for row in (first + asked, *below))
    size = f'data-cells="{len(book.labels)}" data-entries="{len(book.asked)}"'
    body = "".join(_line(around, book, line) for line in book.lines)
    again = said_again(around.of_all(book), "p", " er-wide")
    above = again if len(book.lines) > HIGH else ""
    return (
        f'{above}<table class="er-observations er-book" role="table" {size}><caption>{book.caption}</caption>'
        f'<thead>{head}</thead><tbody role="rowgroup">{body}</tbody></table>{again}'
    )


def _line(around: Surroundings, book: Book, line: Line) -> str:
    name, unit = (escape(text) for text in book.first)
    sides = "".join(f' data-side-{n}="{escape(side)}"' for n, side in enumerate(book.sides, 1))
    heading = (
        f'<th scope="row" role="rowheader"{_keys([line.heading_key])}>'
        f'<span class="er-alone">{escape(line.name)}{f": {name} =" if name else ""} </span>{line.heading}'
        f'<span class="er-alone"> {unit}</span></th>'
    )
    keys = line.keys if len(line.keys) > 1 else line.keys * len(line.cells)
    cells = "".join(
        f'<td role="cell" class="er-reading" data-label="{escape(label)}"{_keys([key])}>{cell}</td>'
        for label, key, cell in zip(book.labels, keys, line.cells)
    )
    again = said_again(around.of_line(line, heading=True), "td", " er-alone")
    of = line.name if name else f"{line.name} {line.heading}"
    entries = "".join(
        entry(step, attributes=f'{around.marks(step)} role="cell" data-at="{at}"', of=of, tag="td")
        for at, step in enumerate(line.steps, 1)
    )
    return f'<tr role="row"{sides}>{heading}{cells}{again}{entries}</tr>'


def render_working(sheet: Sheet, level: int = 4, with_result: bool = True) -> str:
    """The full working, each step with its numbers put in, as HTML; its headings are of that level.

    with_result  whether the last line states the result as value ± U
    """
    working, values = sheet.working, sheet.working.all_values()
    parts = []
    for group in sheet.kind.page.groups(sheet.scenario, working):
        lines = "".join(f"<li>{set_out(step.line(values, working.givens))}</li>" for step in group.steps)
        parts.append(f"<h{level}>{symbols(group.heading)}</h{level}><ol>{lines}</ol>")
    result = sheet.kind.page.result(sheet.scenario, working) if with_result else ""
    if result:
        parts.append(f"<p>{symbols(result)}</p>")
    return f'<div class="er-working">{"".join(parts)}</div>'


def render_static(sheet: Sheet) -> str:
    """The sheet for a page whose scripts are off: the answers folded away below it."""
    values = sheet.working.all_values()
    rows = "".join(
        f"<tr><th>{symbols(group.heading)}</th><td>"
        + ";  ".join(f"{symbols(s.title)} = {symbols(written(values[s.id], s))}" for s in group.steps)
        + "</td></tr>"
        for group in sheet.kind.page.groups(sheet.scenario, sheet.working)
    )
    return (
        render(sheet)
        + '<details class="er-answers"><summary>The answers to this sheet</summary>'
        + f"<table>{rows}</table></details>"
        + '<details class="er-answers"><summary>The full working of this sheet</summary>'
        + render_working(sheet, level=2)
        + "</details>"
    )

"""The page "Lab record" as it stands before any script runs: the form, rows to copy, and the buttons."""

from collections.abc import Callable, Mapping
from html import escape

from exercises.bench.instrument import EIGHT
from exercises.bench.local_field import PLACES
from exercises.record.entries import HEAD, MOST_ROWS, RESULTS, Field
from exercises.record.file import LARGEST
from exercises.record.magnetic_length import CELL, WORDS
from exercises.record.position import KEY, POSITIONS, TAN_A, Position
from exercises.working.mathematics import symbols

FIRST_ROWS = 4  # as record.js makes them, so that nothing moves when it comes
#: The cells of what is needed.
NEEDED = (KEY, CELL, "length", "two_l", "step", "B_H", "place", "date")
#: What may be said besides: titles and their cells.
BESIDES = (
    ("What was measured", ("name", "magnet", "width", "thickness")),
    ("A place that is not in the list", ("latitude", "longitude", "height")),
    ("The instrument", ("needle", "box")),
)
HELP = {
    "two_l_is": "as your laboratory has it",
    "length": "or the length given",
    "two_l": "as it is stated",
    "width": "may stay blank",
    "thickness": "may stay blank",
    "B_H": "or place and date",
    "place": "of the list",
    "date": "as 2026-03-14",
    "latitude": "such as 60.4 or 33.9 S",
    "longitude": "such as 5.3 or 70.5 W",
    "height": "above sea level; may stay blank",
    "step": "blank: as read",
    "box": "blank: 4 cm is taken",
    "needle": "blank: 1.6 cm is taken",
}


def _in_each(words: Callable[[Position], str]) -> str:
    """HTML that is another in each position, of which the page shows one."""
    return "".join(f'<span class="rc-{p.key}">{words(p)}</span>' for p in POSITIONS)


def _input(key: str, label: str, unit: str = "", more: str = "") -> str:
    shown = f' <span class="er-unit">{escape(unit)}</span>' if unit else ""
    helped = f'<small id="rc-{key}-help">{escape(HELP[key])}</small>' if key in HELP else ""
    about = f"rc-{key}-said" + (f" rc-{key}-help" if helped else "")
    hidden = " hidden" if key == "two_l" else ""  # until it is said that 2l is stated
    return (
        f'<div class="rc-cell" data-cell="{key}"{hidden}><label for="rc-{key}">{symbols(label)}{shown}</label>'
        f'<input id="rc-{key}" type="text" autocomplete="off" spellcheck="false" aria-describedby="{about}"{more}>'
        f'{helped}<div class="er-said" id="rc-{key}-said" role="status"></div></div>'
    )


def _choice(f: Field, options: Mapping[str, str], help_html: str = "") -> str:
    """A choice of one of these, by key."""
    chosen = "".join(f'<option value="{key}">{escape(words)}</option>' for key, words in options.items())
    helped = f'<small id="rc-{f.key}-help">{help_html or HELP[f.key]}</small>'
    asked = "Which position?" if f.key == KEY else f.label
    label = f'<label for="rc-{f.key}">{symbols(asked)}</label>'
    return (
        f'<div class="rc-cell" data-cell="{f.key}">{label}'
        f'<select id="rc-{f.key}" autocomplete="off" aria-describedby="rc-{f.key}-said rc-{f.key}-help">'
        f'{chosen}</select>{helped}<div class="er-said" id="rc-{f.key}-said" role="status"></div></div>'
    )


def _field(f: Field) -> str:
    if f.key == KEY:
        options = {p.key: f"{p.name}: arms {p.line}" for p in POSITIONS}
        return _choice(f, options, _in_each(lambda p: f"the magnet lies {p.magnet}"))
    if f.key == CELL:  # nothing is chosen beforehand
        return _choice(f, {"": "choose", **WORDS})
    return _input(f.key, f.label, f.unit, ' list="rc-places"' if f.key == "place" else "")


#: The cells that are worked out: name, label, unit.
WORKED = (
    ("mean", "mean θ", "degrees"),
    ("tan", "tan θ", ""),
    ("bracket", _in_each(lambda p: p.bracket_html), _in_each(lambda p: p.bracket_unit)),
    ("moment", "moment m", "A·m²"),
)
NUMBER = 'type="text" inputmode="decimal" autocomplete="off"'


class _Row:
    """The cells of distance i; of 0 they have no ids, and the script numbers them."""

    def __init__(self, i: int):
        self.i = i

    def readings(self) -> str:
        """The distance and its eight readings."""
        remove = f'<button type="button" class="rc-remove" aria-label="Remove distance {self.i}">Remove</button>'
        label = self._label("d", 'd <span class="er-unit">cm</span>')
        d = f'<div class="rc-cell rc-d" data-cell="d">{label}<input {NUMBER}{self._id("d")}></div>'
        arms = "".join(self._arm(arm) for arm in ("east", "west"))
        return self._fieldset("rc-row", f"{remove}{d}{arms}")

    def working(self) -> str:
        """What was worked from them."""
        cells = []
        for cell, label, unit in WORKED:
            shown = f' <span class="er-unit">{unit}</span>' if unit else ""
            typing = 'type="text" autocomplete="off" autocapitalize="off" spellcheck="false"'
            cells.append(
                f'<div class="rc-cell" data-cell="{cell}">{self._label(cell, label + shown)}'
                f"<input {typing}{self._id(cell)}></div>"
            )
        return self._fieldset("rc-work", "".join(cells))

    def _fieldset(self, name: str, inner: str) -> str:
        return (
            f'<fieldset class="{name}"><legend>Distance {self.i}</legend>{inner}'
            '<div class="rc-row-said" role="status"></div></fieldset>'
        )

    def _id(self, cell: str) -> str:
        return f' id="rc-{cell}-{self.i}"' if self.i else ""

    def _label(self, cell: str, html: str) -> str:
        to = f' for="rc-{cell}-{self.i}"' if self.i else ""
        return f"<label{to}>{html}</label>"

    def _arm(self, arm: str) -> str:
        eight = enumerate(EIGHT, 1)
        four = "".join(self._reading(f"reading{k}", arm, north, end) for k, (a, north, end) in eight if a == arm)
        name = _in_each(lambda p: f"{p.arm(arm)} arm")
        return f'<div class="rc-arm"><span class="rc-arm-name" aria-hidden="true">{name}</span>{four}</div>'

    def _reading(self, cell: str, arm: str, north: str, end: int) -> str:
        of_arm = f'<span class="rc-hidden">{_in_each(lambda p: f"{p.arm(arm)} arm, ")}</span>'
        label = self._label(cell, f"{of_arm}N {north} {'①②'[end - 1]}")
        return f'<div class="rc-cell rc-reading" data-cell="{cell}">{label}<input {NUMBER}{self._id(cell)}></div>'


def _group(title: str, cells: str) -> str:
    return f'<fieldset class="rc-group"><legend>{escape(title)}</legend>{cells}</fieldset>'


def desk() -> str:
    """The HTML of the page."""
    fields = {f.key: f for f in HEAD}

    needed = "".join(_field(fields[key]) for key in NEEDED)
    besides = "".join(_group(title, "".join(_field(fields[key]) for key in keys)) for title, keys in BESIDES)
    results = "".join(_field(f) for f in RESULTS)
    places = "".join(f'<option value="{escape(p.name)}"></option>' for p in PLACES)
    rows = [_Row(i) for i in range(1, FIRST_ROWS + 1)]
    return f"""\
<div class="rc-desk er-desk" data-rows="{MOST_ROWS}" data-bytes="{LARGEST}" data-position="{TAN_A.key}">
<noscript><p class="er-note">Scripts are off, so nothing is checked here. The command
<code>uv run eight record FILE</code> checks the same record on your own machine.</p></noscript>
<div class="rc-run er-live" inert>
<p class="er-status" role="status" data-state="starting" data-lead="Getting ready to check.">Getting \
ready to check. You can type meanwhile.</p>
<div class="er-tools rc-files">
<label class="rc-open">Open a record file <input type="file" accept=".csv,.txt,.tsv,text/csv"></label></div>
<p class="er-trouble" role="alert" hidden></p>
<ul class="rc-notes" hidden></ul>
<section class="rc-outcome" tabindex="-1" aria-label="What came out">
<div class="rc-outcome-said"></div>
<p class="er-score" role="status"></p>
<div class="er-tools rc-after"><button type="button" class="rc-all">All that was found</button>
<button type="button" class="rc-print" disabled>Print for the record book</button></div></section>
<form class="rc-form" autocomplete="off">
<div class="rc-group rc-needed">{needed}</div>
<details class="rc-more"><summary>More that you can say: names, the needle, the box, another place</summary>
<div class="rc-head">{besides}</div></details>
<datalist id="rc-places">{places}</datalist>
<h2 id="the-readings">The eight readings at each distance</h2>
<p class="rc-hint">In degrees. Cells from a spreadsheet can be pasted into any cell.</p>
<div class="rc-rows">{"".join(row.readings() for row in rows)}</div>
<div class="er-tools"><button type="button" class="rc-add">Add a distance</button></div>
<details class="rc-working"><summary>Check my working too: the columns and the result that you worked out</summary>
<p class="rc-hint">What you did not work out may stay blank.</p>
<div class="rc-works">{"".join(row.working() for row in rows)}</div>
<fieldset class="rc-group rc-ends"><legend>Your result</legend>{results}</fieldset></details>
<div class="er-tools"><button type="submit" class="rc-check">Check this record</button>
<button type="button" class="rc-save">Save as a file</button>
<button type="button" class="rc-blank">An empty record file</button>
<button type="button" class="rc-clear">Clear everything</button></div>
</form>
<div class="rc-findings" tabindex="-1"></div>
<div class="rc-holder"></div>
</div>
<template class="rc-template">{_Row(0).readings()}{_Row(0).working()}</template>
</div>
<script type="module" src="../eight/record.js"></script>"""

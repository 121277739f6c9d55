"""The page "Lab record" as it stands before any script runs: the form, one row to copy, and the buttons."""

from html import escape

from exercises.bench.instrument import EIGHT
from exercises.bench.local_field import PLACES
from exercises.kinds.sheet import symbols
from exercises.record.entries import HEAD, MOST_ROWS, RESULTS, Field
from exercises.record.file import LARGEST
from exercises.record.magnetic_length import CELL, WORDS

FIRST_ROWS = 4  # as record.js makes them, so that nothing moves when it comes
GROUPS = (
    ("What was measured", ("name", "magnet", "date")),
    ("The magnet", ("two_l_is", "length", "two_l", "width", "thickness")),
    ("The earth's field", ("B_H", "place", "latitude", "longitude", "height")),
    ("The instrument", ("step", "box", "needle")),
)
HELP = {
    "two_l_is": "as your laboratory has it",
    "length": "or the length given",
    "two_l": "where it is stated",
    "width": "may stay blank",
    "thickness": "may stay blank",
    "B_H": "or place and date",
    "place": "from the list, or any name with latitude and longitude",
    "date": "such as 2026-03-14",
    "latitude": "such as 60.4 or 33.9 S",
    "longitude": "such as 5.3 or 70.5 W",
    "height": "above sea level; may stay blank",
    "step": "blank: as the readings show",
    "box": "blank: 4 cm is taken",
    "needle": "blank: 1.6 cm is taken",
}


def _input(key: str, label: str, unit: str = "", more: str = "") -> str:
    shown = f' <span class="er-unit">{escape(unit)}</span>' if unit else ""
    helped = f'<small id="rc-{key}-help">{escape(HELP[key])}</small>' if key in HELP else ""
    about = f"rc-{key}-said" + (f" rc-{key}-help" if helped else "")
    return (
        f'<div class="rc-cell" data-cell="{key}"><label for="rc-{key}">{symbols(label)}{shown}</label>'
        f'<input id="rc-{key}" type="text" autocomplete="off" spellcheck="false" aria-describedby="{about}"{more}>'
        f'{helped}<div class="er-said" id="rc-{key}-said" role="status"></div></div>'
    )


def _two_l_is(f: Field) -> str:
    """The choice of how 2l is known; nothing is chosen beforehand."""
    chosen = "".join(f'<option value="{key}">{escape(words)}</option>' for key, words in WORDS.items())
    return (
        f'<div class="rc-cell" data-cell="{f.key}"><label for="rc-{f.key}">{symbols(f.label)}</label>'
        f'<select id="rc-{f.key}" autocomplete="off" aria-describedby="rc-{f.key}-said rc-{f.key}-help">'
        f'<option value="">choose</option>{chosen}</select><small id="rc-{f.key}-help">{HELP[f.key]}</small>'
        f'<div class="er-said" id="rc-{f.key}-said" role="status"></div></div>'
    )


def _field(f: Field) -> str:
    if f.key == CELL:
        return _two_l_is(f)
    return _input(f.key, f.label, f.unit, ' list="rc-places"' if f.key == "place" else "")


#: The cells that are worked out: name, label, unit.
WORKED = (
    ("mean", "mean θ", "degrees"),
    ("tan", "tan θ", ""),
    ("bracket", "(d² − l²)²", "m⁴"),
    ("moment", "moment m", "A·m²"),
)
NUMBER = 'type="text" inputmode="decimal" autocomplete="off"'


class _Row:
    """The cells of distance i; of 0 they have no ids, and the script numbers them."""

    def __init__(self, i: int):
        self.i = i

    def html(self) -> str:
        """The whole distance."""
        cells = "".join((self._distance(), *(self._arm(arm) for arm in ("east", "west")), self._worked()))
        remove = f'<button type="button" class="rc-remove" aria-label="Remove distance {self.i}">Remove</button>'
        return (
            f'<fieldset class="rc-row"><legend>Distance {self.i}</legend>{remove}'
            f'{cells}<div class="rc-row-said" role="status"></div></fieldset>'
        )

    def _id(self, cell: str) -> str:
        return f' id="rc-{cell}-{self.i}"' if self.i else ""

    def _label(self, cell: str, html: str) -> str:
        to = f' for="rc-{cell}-{self.i}"' if self.i else ""
        return f"<label{to}>{html}</label>"

    def _distance(self) -> str:
        label = self._label("d", 'd <span class="er-unit">cm</span>')
        return f'<div class="rc-cell rc-d" data-cell="d">{label}<input {NUMBER}{self._id("d")}></div>'

    def _arm(self, arm: str) -> str:
        eight = enumerate(EIGHT, 1)
        four = "".join(self._reading(f"reading{k}", arm, north, end) for k, (a, north, end) in eight if a == arm)
        return f'<div class="rc-arm"><span class="rc-arm-name">{arm} arm</span>{four}</div>'

    def _reading(self, cell: str, arm: str, north: str, end: int) -> str:
        label = self._label(cell, f"N {north} {'①②'[end - 1]}")
        about = f'aria-label="{arm} arm, N {north}, end {end}, degrees"'
        return (
            f'<div class="rc-cell rc-reading" data-cell="{cell}">{label}<input {NUMBER}{self._id(cell)} {about}></div>'
        )

    def _worked(self) -> str:
        cells = []
        for cell, label, unit in WORKED:
            shown = f" <span class=er-unit>{unit}</span>" if unit else ""
            typing = 'type="text" autocomplete="off" autocapitalize="off" spellcheck="false"'
            cells.append(
                f'<div class="rc-cell" data-cell="{cell}">{self._label(cell, label + shown)}'
                f"<input {typing}{self._id(cell)}></div>"
            )
        return f'<div class="rc-worked">{"".join(cells)}</div>'


def _group(title: str, cells: str) -> str:
    return f'<fieldset class="rc-group"><legend>{escape(title)}</legend>{cells}</fieldset>'


def desk() -> str:
    """The HTML of the page."""
    fields = {f.key: f for f in HEAD}
    head = "".join(_group(title, "".join(_field(fields[key]) for key in keys)) for title, keys in GROUPS)
    results = "".join(_field(f) for f in RESULTS)
    places = "".join(f'<option value="{escape(p.name)}"></option>' for p in PLACES)
    return f"""\
<div class="rc-desk er-desk" data-rows="{MOST_ROWS}" data-bytes="{LARGEST}">
<noscript><p class="er-note">Scripts are off, so nothing is checked here. The command
<code>uv run eight record FILE</code> checks the same record on your own machine.</p></noscript>
<div class="rc-run er-live" inert>
<p class="er-status" role="status" data-state="starting">The check of your record is on its way. You can type \
meanwhile.</p>
<div class="er-tools rc-files">
<label class="rc-open">Open a record file <input type="file" accept=".csv,.txt,.tsv,text/csv"></label>
<button type="button" class="rc-save">Save as a file</button>
<button type="button" class="rc-blank">An empty record file</button>
<button type="button" class="rc-clear">Clear everything</button></div>
<p class="er-trouble" role="alert" hidden></p>
<ul class="rc-notes" hidden></ul>
<form class="rc-form" autocomplete="off">
<div class="rc-head">{head}</div>
<datalist id="rc-places">{places}</datalist>
<h2 id="the-readings">The readings and what you worked from them</h2>
<p class="rc-hint">Cells from a spreadsheet can be pasted into any cell. What you did not work out may stay blank.</p>
<div class="rc-rows">{"".join(_Row(i).html() for i in range(1, FIRST_ROWS + 1))}</div>
<div class="er-tools"><button type="button" class="rc-add">Add a distance</button></div>
<fieldset class="rc-group rc-ends"><legend>Your result</legend>{results}</fieldset>
<div class="er-tools"><button type="submit" class="rc-check">Check this record</button>
<button type="button" class="rc-print" disabled>Print for the record book</button></div>
</form>
<p class="er-score" role="status"></p>
<div class="rc-findings" tabindex="-1"></div>
<div class="rc-holder"></div>
</div>
<template class="rc-template">{_Row(0).html()}</template>
</div>
<script type="module" src="../eight/record.js"></script>"""

"""The three questions of a viva, drawn by a sheet's code: the same code gives the same questions for ever.

One is about the instrument and the readings, one about what is found and by which law, and one about the working,
with the student's own numbers.  What is drawn from never changes; a question that is new goes into lists of its own,
for the codes of a later edition.
"""

import hashlib
from typing import NamedTuple

from exercises.kinds.kind import Sheet
from exercises.kinds.sheet import written
from exercises.student.asked import questions
from exercises.student.viva import VIVA, Viva
from exercises.working.mathematics import set_out, symbols

#: Keys of student/viva.py.  Never changed: each draw takes the one at a place in the list.
BENCH = (
    *("which-end-is-n", "short-needle", "aluminium", "mirror", "scale", "two-adjustments", "arms-east-west"),
    *("first-turn-left-out", "second-turn-left-out", "board-askew", "board-first", "four-places", "both-ends"),
    *("reversal", "both-arms", "tapping", "iron-near", "own-magnet-away"),
)
LAW = (
    *("aim", "tangent-law", "why-perpendicular", "horizontal-component", "declination", "why-45", "where-is-d"),
    *("needle-error", "field-on-axis", "moment-formula", "magnetic-length", "where-poles-lie", "unit-of-moment"),
    *("straight-line", "distance-error", "other-place", "tan-a-tan-b"),
)
#: Where the magnet lies in the tan B position, what holds for tan A alone is not asked.
BENCH_TAN_B = (
    *("which-end-is-n", "short-needle", "aluminium", "mirror", "scale", "setting-up-tan-b", "both-ends", "tapping"),
    *("iron-near", "own-magnet-away"),
)
LAW_TAN_B = (
    *("tangent-law", "why-perpendicular", "horizontal-component", "declination", "where-is-d", "magnetic-length"),
    *("where-poles-lie", "unit-of-moment", "other-place", "tan-a-tan-b"),
)
#: By kind, the columns that are asked about.  Never changed either.
COLUMNS = {
    "tan-a": ("mean", "tan", "bracket", "moment", "mean-moment", "pole"),
    "tan-b": ("mean", "tan", "bracket", "moment", "mean-moment", "pole"),
    "distances": ("l", "field", "cube", "guess", "correction", "distance", "gap", "reach"),
    "setting": ("turn-first", "turn-next", "diff", "mean", "askew", "rest"),
    "dial": ("mean",),
    "law": ("tan-1", "field-1", "theta-2", "along-2", "earth-3", "east-4", "west-4", "mean-4", "field-4"),
    "compare": ("mean", "tan", "bracket-1", "bracket-2", "ratio-angles", "null", "mean-ratio"),
    "earth": ("tan", "bracket", "ratio", "period", "inertia", "product", "moment", "earth"),
    "graph": ("tan", "x", "root", "moment-a", "moment-b", "found-2l"),
    "uncertainty": ("mean", "u-mean", "u-d", "u-l", "share-distance", "combined", "moment", "expanded"),
    "fault": ("ends", "north", "arms"),
}
_BY_KEY = {one.key: one for one in VIVA}


class Asked(NamedTuple):
    """A question of the viva and its model answer, both HTML; `key` is what it is known by."""

    key: str
    question: str
    answer: str


def drawn(sheet: Sheet) -> list[Asked]:
    """The questions for one sheet: three, or two for a kind without questions on its working."""
    code, tan_b = str(sheet.scenario.code), sheet.kind.slug == "tan-b"
    lists = (BENCH_TAN_B, LAW_TAN_B) if tan_b else (BENCH, LAW)
    said = [_of(_BY_KEY[keys[_place(code, name, len(keys))]]) for name, keys in zip(("bench", "law"), lists)]
    return said + _about_the_working(sheet, code)


def _of(viva: Viva) -> Asked:
    return Asked(viva.key, symbols(viva.question), symbols(viva.answer))


def _about_the_working(sheet: Sheet, code: str) -> list[Asked]:
    """One question with the numbers of the sheet; none where no column of the kind is asked about."""
    columns = COLUMNS.get(sheet.kind.slug, ())
    first = _place(code, "working", len(columns)) if columns else 0
    for column in columns[first:] + columns[:first]:  # not every sheet has every column
        if found := questions(sheet, column):
            step, question, _ = found[_place(code, column, len(found))]
            values = sheet.working.all_values()
            line = set_out(step.line(values, sheet.working.givens))
            answer = f"{symbols(step.title)}: {symbols(written(values[step.id], step).replace(' °', '°'))}. {line}"
            return [Asked(step.id, symbols(question), answer)]
    return []


def _place(code: str, what: str, many: int) -> int:
    """A place in a list of so many, drawn by the code: each draw has its own name `what`."""
    return int.from_bytes(hashlib.sha256(f"viva {what} {code}".encode()).digest()[:8]) % many

"""What is said again beside a field: data and earlier entries that it is worked from and that stand farther off.

A datum that the sheet gives is said with its value.  An entry of the student's own
is an empty place with `data-of`, which the page keeps filled with what is typed.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

from exercises.kinds.kind import Sheet
from exercises.kinds.sheet import Beside, Book, Given, Line, Part
from exercises.kinds.sources import sources
from exercises.working.mathematics import symbols
from exercises.working.steps import Step

NEAR = 2  # entries back in the same block that are in sight on any screen


@dataclass(frozen=True)
class Said:
    """A datum as it is said beside a field: what it is called, and its value, or the entry that it is.

    keys  the data that it holds, with blanks between them
    """

    name: str
    value: str
    keys: str = ""
    entry: str = ""

    def html(self) -> str:
        """Its value, marked as this datum."""
        if self.entry:
            return f'<b data-of="{self.entry}"></b>'
        return f'<b data-given="{escape(self.keys)}">{symbols(self.value)}</b>'


class Surroundings:
    """Where the data of a sheet stand, and what has to be said again where."""

    def __init__(self, sheet: Sheet):
        page, scenario, self.working = sheet.kind.page, sheet.scenario, sheet.working
        self.parts: list[Part] = page.parts(scenario, self.working)
        self.looked_at = page.looked_at
        self.sources = sources(self.working)
        self.said: dict[str, list[Said]] = {}
        self._shown: set[str] = set()
        for given in page.givens(scenario):
            if isinstance(given, Given):
                self._note_given(given)
        for _, blocks in self.parts:
            for block in blocks:
                self._note_block(block)

    def _note(self, key: str, *said: Said) -> None:
        self._shown.add(key)
        self.said.setdefault(key, []).extend(said)

    def _note_given(self, given: Given) -> None:
        for key in given.keys:
            self._note(key, Said(given.short, given.said, " ".join(given.keys)))

    def _note_block(self, block: Beside | Book) -> None:
        if isinstance(block, Beside):
            self._shown.update(block.keys)
            for given in block.said:
                self._note_given(given)
            return
        for line in block.lines:
            name, unit = block.first
            if line.heading_key not in self._shown:
                self._note(line.heading_key, Said(name, f"{line.heading} {unit}".strip(), line.heading_key))
            self._shown.update(line.keys)

    def data(self, step: Step) -> list[str]:
        """The keys, as the sheet marks them, of the data that a step is worked from, without what no sheet shows."""
        heads = ((key, key.partition(".")[0]) for key in self.sources[step.id].data)
        found = (key if key in self._shown else head if head in self._shown else "" for key, head in heads)
        return [key for key in dict.fromkeys(found) if key]

    def entries(self, step: Step) -> tuple[str, ...]:
        """The earlier entries that a step is worked from."""
        return (*self.sources[step.id].entries, *self.looked_at(step))

    def marks(self, step: Step) -> str:
        """What a step is worked from, as attributes of its entry."""
        data, entries = self.data(step), self.entries(step)
        needs = f' data-needs="{escape(" ".join(data))}"' if data else ""
        return needs + (f' data-from="{" ".join(entries)}"' if entries else "")

    def far(self, steps: Iterable[Step], keys: Sequence[str] = (), near: Sequence[str] = ()) -> list[Said]:
        """What some steps are worked from and is not near: neither among these keys nor among these entries."""
        found: dict[Said, None] = {}
        for step in steps:
            for key in self.data(step):
                if key not in keys:
                    found.update(dict.fromkeys(self.said.get(key, ())))
            for entry in self.entries(step):
                if entry not in near:
                    found[Said(self.working.by_id[entry].title, "", entry=entry)] = None
        return list(found)

    def of_line(self, line: Line, heading: bool = False) -> list[Said]:
        """What the entries of a table's line are worked from and is not in the line; heading: its heading once more."""
        keys = line.keys if heading else (line.heading_key, *line.keys)
        return self.far(line.steps, keys, [step.id for step in line.steps])

    def of_all(self, book: Book) -> list[Said]:
        """What stands under a table: data of any of its lines, and entries that all of them are worked from."""
        found = [dict.fromkeys(self.of_line(line)) for line in book.lines]
        every = dict.fromkeys(said for one in found for said in one)
        return [said for said in every if not said.entry or all(said in one for one in found)]

    def of_step(self, block: Beside, at: int) -> list[Said]:
        """What an entry is worked from, apart from what is near: the data that head its block, the entries just before
        it, and what is said beside the last of these."""
        keys = [key for key in block.keys if at < NEAR or not any(key in given.keys for given in block.said)]
        near = [step.id for step in block.steps[max(0, at - NEAR) : at]]
        if at:
            near += self.entries(block.steps[at - 1])
        return self.far([block.steps[at]], keys, near)


def said_again(all_said: Sequence[Said], tag: str = "div", where: str = "") -> str:
    """What is said again, as HTML: each name once, with its values after it; "" for nothing."""
    if not all_said:
        return ""
    names: dict[str, list[str]] = {}
    for said in all_said:
        names.setdefault(said.name, []).append(said.html())
    items = " ".join(f"<span>{symbols(name)} {' · '.join(values)}</span>" for name, values in names.items())
    return f'<{tag} class="er-from{where}">{items}</{tag}>'

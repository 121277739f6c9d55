"""What a sheet of eight readings a distance shows."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from html import escape

from exercises.bench.instrument import EIGHT
from exercises.codes.scenario import Row
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.deflection.result import determination, in_words
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.sheet import Beside, Book, Given, Group, Line, Page, Part
from exercises.working.numbers import centimetres, places, reading
from exercises.working.steps import Step, Working


def scale_step_words(step: float) -> str:
    """The scale step (degrees) as a caption tells it."""
    return f"scale step {'½' if step == 0.5 else '1'}°"


#: What each of the eight readings is called where they stand by themselves.
LABELS = tuple(f"N {north} {'①②'[end - 1]}" for _, north, end in EIGHT)


def _eight_headings(corner: str, position: str, arms: tuple[str, str]) -> tuple[str, str, str]:
    """The three rows of headings over eight readings, as HTML: arms, directions of the magnet, ends of the pointer."""
    directions = dict.fromkeys((arm, north) for arm, north, _ in EIGHT)
    names = dict(zip(("east", "west"), arms))
    over_arms = "".join(f'<th scope="colgroup" colspan="4">magnet on the {name} arm</th>' for name in arms)
    over_norths = "".join(
        f'<th scope="colgroup" colspan="2"><abbr title="magnet on the {names[arm]} arm, {position} {north}">N {north}'
        "</abbr></th>"
        for arm, north in directions
    )
    over_ends = "".join(
        f'<th scope="col"><abbr title="end {end} of the pointer">{"①②"[end - 1]}</abbr></th>' for *_, end in EIGHT
    )
    return f'<th scope="col" rowspan="3">{corner}</th>{over_arms}', over_norths, over_ends


def eight_readings_table(
    caption: str,
    corner: str,
    rows: Sequence[tuple[str, Sequence[float]]],
    position: str,
    arms: tuple[str, str] = ("east", "west"),
) -> str:
    """A table of eight readings a line, as HTML.

    caption, corner  HTML; corner stands above the headings of the lines
    rows             (heading, eight readings in degrees in the order of `EIGHT`)
    position         how the magnet's direction is called; arms  names of the two arms, in the order of the readings
    """
    body = "".join(
        f'<tr><th scope="row">{heading}</th>' + "".join(f"<td>{reading(r)}</td>" for r in readings) + "</tr>"
        for heading, readings in rows
    )
    head = "".join(f"<tr>{row}</tr>" for row in _eight_headings(corner, position, arms))
    return (
        f'<table class="er-observations"><caption>{caption}</caption><thead>{head}</thead><tbody>{body}</tbody></table>'
    )


def eight_readings_book(
    caption: str,
    corner: str,
    first: tuple[str, str],
    lines: Sequence[tuple[str, str, str, int, Sequence[float], Sequence[Step]]],
    position: str,
    arms: tuple[str, str] = ("east", "west"),
    columns: tuple[str, ...] = (),
) -> Book:
    """A table of eight readings a line, with the entries that are worked from them.

    first, columns  as `Book` has them
    lines  (name, heading, key of the heading, index of the readings, the eight readings, the steps)
    """
    made = [
        Line(name, heading, key, [reading(r) for r in readings], (f"readings.{at}",), steps)
        for name, heading, key, at, readings, steps in lines
    ]
    sides = (f"{arms[0]} arm", f"{arms[1]} arm")
    return Book(caption, _eight_headings(corner, position, arms), made, first, LABELS, sides, columns)


def distances_caption(scale_step: float, position: str) -> str:
    """What stands by eight readings at each distance, as HTML.  scale_step in degrees."""
    return (
        f"Eight readings of the pointer at each distance, in degrees ({scale_step_words(scale_step)}). "
        f"{escape(position)} as marked; ① and ② are the two ends of the pointer."
    )


def distances_table(
    rows: Sequence[Row], scale_step: float, position: str, arms: tuple[str, str] = ("east", "west")
) -> str:
    """The observation table of a deflection, one distance a line, as HTML.  scale_step in degrees."""
    lines = [(centimetres(row.d), row.readings) for row in rows]
    return eight_readings_table(distances_caption(scale_step, position), "d<br>cm", lines, position, arms)


@dataclass(frozen=True)
class DeflectionPage(Page[DeflectionScenario]):
    """What a sheet of eight readings a distance shows.

    position  heading of the magnet's direction in the table
    arms      names of the two arms, in the order of the readings
    tan_b     whether the magnet lies broadside-on
    """

    task: str
    formula: str
    position: str
    arms: tuple[str, str] = ("east", "west")
    tan_b: bool = False

    def givens(self, scenario: DeflectionScenario) -> list[tuple[str, str]]:
        """What is known before the first reading: (what it is, its value)."""
        return [
            ("Magnet", f"{scenario.bar.name}, {scenario.bar.material.name}"),
            *rule_of(scenario.code.setting).given(scenario.bar.length, scenario.two_l),
            Given(scenario.field.named, f"{places(scenario.B_H * 1e6, 1)} µT", "B_H", short="B_H"),
        ]

    def observations(self, scenario: DeflectionScenario) -> str:
        """The observation table, one distance a line."""
        return distances_table(scenario.rows, scenario.scale_step, self.position, self.arms)

    def result(self, scenario: DeflectionScenario, working: Working) -> str:
        """The moment and the pole strength with their uncertainty."""
        return in_words(determination(scenario, working.value("mean-moment"), self.tan_b))

    def numbers(self, scenario: DeflectionScenario) -> dict[str, object]:
        """What is given, as JSON can hold it."""
        return {
            "where": scenario.field.where,
            "B_H": scenario.B_H,
            "length": scenario.bar.length,
            "two_l": scenario.two_l,
            "rows": [[row.d, *row.readings] for row in scenario.rows],
        }

    def groups(self, scenario: DeflectionScenario, working: Working) -> list[Group]:
        """One group for each distance, then the result."""
        rows = [
            Group(
                f"Distance {i}",
                working.plan.by_row[i - 1],
                f"d = {centimetres(row.d)} cm",
                series="Distance",
            )
            for i, row in enumerate(scenario.rows, 1)
        ]
        return [*rows, Group("Result", working.plan.by_row[None])]

    def parts(self, scenario: DeflectionScenario, working: Working) -> list[Part]:
        """The table, one distance a line, then the result."""
        *rows, result = self.groups(scenario, working)
        book = self.book(scenario, {i: group.steps for i, group in enumerate(rows)})
        return [("", [book]), (result.heading, [Beside(result.steps)])]

    def book(
        self,
        scenario: DeflectionScenario,
        steps: Mapping[int, Sequence[Step]],
        caption: str = "",
        columns: tuple[str, ...] = (),
    ) -> Book:
        """A table of some of the distances, by their index, with the entries of each.

        caption  HTML, if it is another than that of all distances; columns  as `Book` has them
        """
        lines = [
            (f"Distance {at + 1}", centimetres(scenario.rows[at].d), f"d.{at}", at, scenario.rows[at].readings, asked)
            for at, asked in steps.items()
        ]
        caption = caption or distances_caption(scenario.scale_step, self.position)
        return eight_readings_book(caption, "d<br>cm", ("d", "cm"), lines, self.position, self.arms, columns)

"""What a sheet of eight readings a distance shows."""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from exercises.bench.instrument import EIGHT
from exercises.codes.scenario import Row
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.deflection.result import determination, in_words
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.sheet import Group, Page
from exercises.working.numbers import centimetres, places, reading
from exercises.working.steps import Working


def scale_step_words(step: float) -> str:
    """The scale step (degrees) as a caption tells it."""
    return f"scale step {'½' if step == 0.5 else '1'}°"


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
    body = "".join(
        f'<tr><th scope="row">{heading}</th>' + "".join(f"<td>{reading(r)}</td>" for r in readings) + "</tr>"
        for heading, readings in rows
    )
    return (
        f'<table class="er-observations"><caption>{caption}</caption>'
        f'<thead><tr><th scope="col" rowspan="3">{corner}</th>{over_arms}</tr>'
        f"<tr>{over_norths}</tr><tr>{over_ends}</tr></thead>"
        f"<tbody>{body}</tbody></table>"
    )


def distances_table(
    rows: Sequence[Row], scale_step: float, position: str, arms: tuple[str, str] = ("east", "west")
) -> str:
    """The observation table of a deflection, one distance a line, as HTML.  scale_step in degrees."""
    caption = (
        f"Eight readings of the pointer at each distance, in degrees ({scale_step_words(scale_step)}). "
        f"{escape(position)} as marked; ① and ② are the two ends of the pointer."
    )
    lines = [(centimetres(row.d), row.readings) for row in rows]
    return eight_readings_table(caption, "d<br>cm", lines, position, arms)


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
            (scenario.field.named, f"{places(scenario.B_H * 1e6, 1)} µT"),
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

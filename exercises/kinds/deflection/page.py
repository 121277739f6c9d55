"""What a sheet of eight readings a distance shows."""

from dataclasses import dataclass
from html import escape

from exercises.bench.instrument import EIGHT
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.sheet import Page
from exercises.working.numbers import centimetres, places, reading
from exercises.working.steps import Step, Working


@dataclass(frozen=True)
class DeflectionPage(Page):
    """What a sheet of eight readings a distance shows.

    position  heading of the magnet's direction in the table
    arms      names of the two arms, in the order of the readings
    """

    task: str
    formula: str
    position: str
    arms: tuple[str, str] = ("east", "west")

    def givens(self, scenario: DeflectionScenario) -> list[tuple[str, str]]:
        """What is known before the first reading: (what it is, its value)."""
        return [
            ("Magnet", f"{scenario.bar.name}, {scenario.bar.material.name}"),
            ("Its measured length", f"{centimetres(scenario.bar.length)} cm"),
            ("Its magnetic length 2l", "5/6 of the measured length"),
            (f"B_H at {scenario.place.name}, {scenario.when}", f"{places(scenario.B_H * 1e6, 1)} µT"),
        ]

    def observations(self, scenario: DeflectionScenario) -> str:
        """The observation table, one distance a line."""
        directions = dict.fromkeys((arm, north) for arm, north, _ in EIGHT)
        names = dict(zip(("east", "west"), self.arms))
        arms = "".join(f'<th scope="colgroup" colspan="4">magnet on the {name} arm</th>' for name in self.arms)
        norths = "".join(
            f'<th scope="colgroup" colspan="2"><abbr title="magnet on the {names[arm]} arm, {self.position} '
            f'{north}">N {north}</abbr></th>'
            for arm, north in directions
        )
        ends = "".join(
            f'<th scope="col"><abbr title="end {end} of the pointer">{"①②"[end - 1]}</abbr></th>' for *_, end in EIGHT
        )
        body = "".join(
            f'<tr><th scope="row">{centimetres(row.d)}</th>'
            + "".join(f"<td>{reading(r)}</td>" for r in row.readings)
            + "</tr>"
            for row in scenario.rows
        )
        return (
            '<table class="er-observations"><caption>Eight readings of the pointer at each distance, in degrees '
            f"(scale step {'½' if scenario.scale_step == 0.5 else '1'}°). "
            f"{escape(self.position)} as marked; ① and ② are the two ends of the pointer.</caption>"
            f'<thead><tr><th scope="col" rowspan="3">d<br>cm</th>{arms}</tr><tr>{norths}</tr><tr>{ends}</tr></thead>'
            f"<tbody>{body}</tbody></table>"
        )

    def numbers(self, scenario: DeflectionScenario) -> dict:
        return {
            "place": scenario.place.name,
            "when": scenario.when,
            "B_H": scenario.B_H,
            "length": scenario.bar.length,
            "rows": [[row.d, *row.readings] for row in scenario.rows],
        }

    def groups(self, scenario: DeflectionScenario, working: Working) -> list[tuple[str, list[Step]]]:
        """One group for each distance, then the result."""
        rows = [
            (f"Distance {i}: d = {centimetres(row.d)} cm", [s for s in working.steps if s.row == i - 1])
            for i, row in enumerate(scenario.rows, 1)
        ]
        return [*rows, ("Result", [s for s in working.steps if s.row is None])]

"""What a sheet of tangent law drills shows."""

from exercises.kinds.law.scenario import Drill
from exercises.kinds.sheet import Beside, Given, Group, Page, Part
from exercises.working.numbers import places
from exercises.working.steps import Step, Working

ANGLES = "Four questions. Angles are means of eight readings, except in the last."
#: Which data each question gives.
DATA = (("theta.0",), ("fields.0",), ("fields.1", "theta.1"), ("fields.2", "tilt", "north"))


class DrillPage(Page[Drill]):
    """What the sheet shows: the place, and a line for each question."""

    task = (
        "Four short questions about a needle in two fields. The arms lie east–west, so that the magnet’s field B "
        "lies across B_H, except in the last: there the first turn of setting up was left out."
    )
    formula = "B = B_H tan θ"

    def givens(self, scenario: Drill) -> list[tuple[str, str]]:
        return [Given(scenario.field.named, f"{places(scenario.B_H * 1e6, 1)} µT", "B_H", short="B_H")]

    def _questions(self, scenario: Drill) -> tuple[tuple[str, str], ...]:
        """Each question as HTML: what is known, and what is sought."""
        B2, B3, B4 = (places(B * 1e6, 1) for B in scenario.fields)
        one, three = (places(theta, 1) for theta in scenario.theta)
        here, field = "<i>B</i><sub>H</sub>", "<i>B</i>"
        side = "north" if scenario.north else "south"
        return (
            (f"here: θ = {one}°", f"the magnet’s field {field}"),
            (f"here: {field} = {B2} µT", "θ, and the field along the needle"),
            (f"in another room: {field} = {B3} µT, θ = {three}°", f"{here} there"),
            (
                f"here: the box was set {scenario.tilt:.0f}° askew to the arms, and the board turned until the pointer "
                f"read 0–0. So the east arm points {scenario.tilt:.0f}° {side} of east; the magnet lies on it, "
                f"{field} = {B4} µT along the arm",
                f"both deflections; {field} from them, and from one alone",
            ),
        )

    def observations(self, scenario: Drill) -> str:
        body = "".join(
            f'<tr><th scope="row">{i}</th><td>{known}</td><td>{sought}</td></tr>'
            for i, (known, sought) in enumerate(self._questions(scenario), 1)
        )
        return (
            f'<table class="er-observations"><caption>{ANGLES}</caption><thead><tr><td></td>'
            '<th scope="col">what is known</th><th scope="col">what is sought</th></tr></thead>'
            f"<tbody>{body}</tbody></table>"
        )

    def parts(self, scenario: Drill, working: Working) -> list[Part]:
        """Each question with its own data and its entries."""
        asked = zip(self.groups(scenario, working), self._questions(scenario), DATA)
        along, side = places(scenario.fields[2] * 1e6, 1), "north" if scenario.north else "south"
        last = (
            Given("", f"{along} µT", "fields.2", short="B"),
            Given("", f"{scenario.tilt:.0f}° {side} of east", "tilt", "north", short="east arm"),
        )
        return [
            ("", [Beside((), f'<p class="er-known">{ANGLES}</p>')]),
            *(
                (
                    group.heading,
                    [
                        Beside(
                            group.steps,
                            f'<p class="er-known">{known}. Sought: {sought}.</p>',
                            keys,
                            last if keys is DATA[-1] else (),
                        )
                    ],
                )
                for group, (known, sought), keys in asked
            ),
        ]

    def groups(self, scenario: Drill, working: Working) -> list[Group]:
        def of(*ids: str) -> list[Step]:
            return [working.by_id[i] for i in ids]

        return [
            Group("1. A field from a deflection", of("tan-1", "field-1")),
            Group("2. A deflection from a field", of("theta-2", "along-2")),
            Group("3. The earth’s field", of("earth-3")),
            Group("4. The first turn left out", of("way-4", "east-4", "west-4", "mean-4", "field-4", "error-4")),
        ]

    def numbers(self, scenario: Drill) -> dict[str, object]:
        return {
            "where": scenario.field.where,
            "B_H": scenario.B_H,
            "theta": scenario.theta,
            "fields": scenario.fields,
            "tilt": scenario.tilt,
            "north": scenario.north,
        }

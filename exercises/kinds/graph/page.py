"""What the sheet of the graph method shows."""

from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.graph.scenario import Plotted
from exercises.kinds.sheet import Beside, Book, Given, Group, Line, Page, Part
from exercises.working.numbers import centimetres, places
from exercises.working.steps import Step, Working

#: What stands by the deflections.
DEFLECTED = "End-on (tan A position): the mean of eight readings at each distance."


class GraphPage(Page[Plotted]):
    """The readings of a magnet at five or six distances, and the steps by graph."""

    task = (
        "Find the magnetic moment of this bar magnet from two straight lines, each drawn by hand on graph paper, and "
        "its magnetic length from the second; the first takes the 2l of this sheet. Take 4π/µ₀ = 10⁷ A/(T·m). Let both "
        "axes begin at zero."
    )
    formula = "tan θ = (µ₀/4π)·(m/B_H) · 2d/(d² − l²)²;  d² = l² + √((µ₀/4π)·2m/B_H) · √(d cot θ)"

    def givens(self, scenario: Plotted) -> list[tuple[str, str]]:
        bar = scenario.bar
        return [
            ("Magnet", f"{bar.name}, {bar.material.name}"),
            *rule_of(scenario.code.setting).given(bar.length, 2 * scenario.half_length),
            Given(scenario.field.named, f"{places(scenario.B_H * 1e6, 1)} µT", "B_H", short="B_H"),
        ]

    def observations(self, scenario: Plotted) -> str:
        rows = list(zip(scenario.ds, scenario.thetas))
        ds = "".join(f'<th scope="col">{centimetres(d)}</th>' for d, _ in rows)
        thetas = "".join(f"<td>{places(theta, 1)}</td>" for _, theta in rows)
        return (
            f'<table class="er-observations er-few"><caption>{DEFLECTED}</caption><thead><tr>'
            f'<th scope="row">d, cm</th>{ds}</tr></thead>'
            f'<tbody><tr><th scope="row">mean θ, degrees</th>{thetas}</tr></tbody></table>'
        )

    def groups(self, scenario: Plotted, working: Working) -> list[Group]:
        def of(*columns: str) -> list[Step]:
            return [s for s in working.steps if s.column in columns]

        rows = [
            Group(
                f"Point {i + 1}", [s for s in working.steps if s.row == i], f"d = {centimetres(d)} cm", series="Point"
            )
            for i, d in enumerate(scenario.ds)
        ]
        return [
            *rows,
            Group("First line", of("slope-a", "moment-a"), "tan θ against x"),
            Group("Second line", of("slope-b", "moment-b", "intercept", "found-2l"), "d² against √(d cot θ)"),
        ]

    def parts(self, scenario: Plotted, working: Working) -> list[Part]:
        """The table, one point a line, then the two straight lines."""
        *points, first, second = self.groups(scenario, working)
        lines = [
            Line(group.name, centimetres(d), f"d.{i}", [f"{places(theta, 1)}°"], (f"theta.{i}",), group.steps)
            for i, (group, d, theta) in enumerate(zip(points, scenario.ds, scenario.thetas))
        ]
        headings = '<th scope="col">d, cm</th><th scope="col">mean θ, degrees</th>'
        table = Book(DEFLECTED, [headings], lines, ("d", "cm"), ["mean θ"])
        return [("", [table]), *((group.heading, [Beside(group.steps)]) for group in (first, second))]

    def numbers(self, scenario: Plotted) -> dict[str, object]:
        return {
            "where": scenario.field.where,
            "B_H": scenario.B_H,
            "length": scenario.bar.length,
            "two_l": 2 * scenario.half_length,
            "rows": [[d, theta] for d, theta in zip(scenario.ds, scenario.thetas)],
        }


PAGE = GraphPage()

"""What the sheet of the earth's field and the moment together shows."""

from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.earth.scenario import Survey
from exercises.kinds.sheet import Beside, Book, Given, Group, Line, Page, Part
from exercises.working.numbers import centimetres, places
from exercises.working.steps import Working

#: What stands by the deflections.
DEFLECTED = "On the arm, end-on: the mean of eight readings at two distances."
HEADINGS = '<th scope="col">d, cm</th><th scope="col">mean θ, degrees</th>'


class EarthPage(Page[Survey]):
    """The magnet, its deflections at two distances, its swings, and the steps."""

    task = (
        "Find the magnetic moment of this bar magnet and the earth's horizontal field B_H, both from the same magnet: "
        "end-on on the arm of the magnetometer, and swinging level on a thread. Take 4π/µ₀ = 10⁷ A/(T·m)."
    )
    formula = "m/B_H = (4π/µ₀) · (d² − l²)²/(2d) · tan θ;  T = 2π√(I/(m·B_H));  I = M(L² + b²)/12"

    def givens(self, scenario: Survey) -> list[tuple[str, str]]:
        bar, rule = scenario.bar, rule_of(scenario.code.setting)
        return [
            ("Magnet", f"{bar.name}, {bar.material.name}"),
            Given(
                "Its length L and breadth b",
                f"{centimetres(bar.length)} cm × {centimetres(bar.width)} cm",
                "length",
                "breadth",
                short="L, b",
            ),
            Given("Its mass M", f"{places(scenario.mass * 1e3, 1)} g", "mass", short="M"),
            Given(
                "Its magnetic length 2l",
                rule.two_l_said(scenario.two_l),
                "two_l" if rule.sure else "length",
                short="2l",
            ),
            ("Where", scenario.field.where),
        ]

    def observations(self, scenario: Survey) -> str:
        deflected = "".join(
            f'<tr><th scope="row">{centimetres(row.d)}</th><td>{places(theta, 1)}</td></tr>'
            for row, theta in zip(scenario.rows, scenario.thetas)
        )
        return (
            f'<table class="er-observations er-few"><caption>{DEFLECTED}</caption><thead><tr>{HEADINGS}</tr></thead>'
            f"<tbody>{deflected}</tbody></table>{self._timed(scenario)}"
        )

    def _timed(self, scenario: Survey) -> str:
        """The table of the swings."""
        timed = "".join(f"<td>{places(t, 1)}</td>" for t in scenario.timings)
        return (
            '<table class="er-observations er-few"><caption>On the thread, in the earth’s field alone: the time of '
            f"{scenario.swings} swings, there and back, taken three times.</caption><thead><tr>"
            '<th scope="col">swings</th><th scope="col">1st, s</th><th scope="col">2nd, s</th>'
            '<th scope="col">3rd, s</th>'
            f'</tr></thead><tbody><tr><th scope="row">{scenario.swings}</th>{timed}</tr></tbody></table>'
        )

    def groups(self, scenario: Survey, working: Working) -> list[Group]:
        by_id = working.by_id
        rows = [
            Group(
                f"Distance {i + 1}",
                [s for s in working.steps if s.row == i],
                f"d = {centimetres(row.d)} cm",
                series="Distance",
            )
            for i, row in enumerate(scenario.rows)
        ]
        ids = ("ratio", "period", "inertia", "product", "moment", "earth")
        mean, *rest = (by_id[i] for i in ids)
        return [
            *rows,
            Group("Both distances", [mean]),
            Group("The swinging magnet", rest[:3]),
            Group("Result", rest[3:]),
        ]

    def parts(self, scenario: Survey, working: Working) -> list[Part]:
        """The table of the deflections, the swings beside what is worked from them, the result."""
        *rows, both, swinging, result = self.groups(scenario, working)
        lines = [
            Line(group.name, centimetres(row.d), f"d.{i}", [f"{places(theta, 1)}°"], (f"theta.{i}",), group.steps)
            for i, (group, row, theta) in enumerate(zip(rows, scenario.rows, scenario.thetas))
        ]
        table = Book(DEFLECTED, [HEADINGS], lines, ("d", "cm"), ["mean θ"])
        timed = Beside(swinging.steps, self._timed(scenario), ("swings", "timings"))
        return [
            ("", [table]),
            (both.heading, [Beside(both.steps)]),
            (swinging.heading, [timed]),
            (result.heading, [Beside(result.steps)]),
        ]

    def numbers(self, scenario: Survey) -> dict[str, object]:
        return {
            "where": scenario.field.where,
            "length": scenario.bar.length,
            "two_l": scenario.two_l,
            "breadth": scenario.bar.width,
            "mass": scenario.mass,
            "rows": [[row.d, theta] for row, theta in zip(scenario.rows, scenario.thetas)],
            "swings": [scenario.swings, *scenario.timings],
        }


PAGE = EarthPage()

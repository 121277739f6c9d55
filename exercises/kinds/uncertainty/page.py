"""What the sheet on the uncertainty of a moment shows."""

from exercises.kinds.deflection.page import distances_caption, distances_table, eight_readings_book
from exercises.kinds.sheet import Beside, Given, Group, Page, Part
from exercises.kinds.uncertainty.scenario import Budget
from exercises.working.numbers import centimetres, places
from exercises.working.steps import Working


class BudgetPage(Page[Budget]):
    """The sheet: one distance's readings, the half widths, the steps."""

    task = (
        "How sure is the moment? Take s from the scatter of the readings about the pattern of the faults (Type A, "
        "3 degrees of freedom). All else is known within half widths, inside which all values are as likely (Type B). "
        "Give every share of u(m)/m in per cent, take off what the needle does, and state m ± U with k by the table of "
        "Student's t (JCGM 100:2008, table G.2). "
        "Take 4π/µ₀ = 10⁷ A/(T·m)."
    )
    formula = "m = (4π/µ₀) · B_H · (d² − l²)²/(2d) · tan θ"

    def givens(self, scenario: Budget) -> list[tuple[str, str]]:
        return [
            ("Magnet", f"{scenario.bar.name}, {scenario.bar.material.name}"),
            Given(
                "Distance d",
                f"{centimetres(scenario.row.d)} cm, half width {centimetres(scenario.width_d, 2)} cm",
                "d",
                "width_d",
                short="d",
            ),
            Given(
                "Length, which is taken as 2l" if scenario.code.setting.two_l == "given" else "Magnetic length 2l",
                f"{centimetres(scenario.two_l)} cm, half width {centimetres(scenario.width_two_l)} cm",
                "two_l",
                "width_two_l",
                short="2l",
            ),
            Given(
                "Needle, from pole to pole 2n",
                f"{centimetres(scenario.needle)} cm, half width {centimetres(scenario.width_needle)} cm",
                "needle",
                "width_needle",
                short="2n",
            ),
            Given(
                "Friction at the pivot, in the mean θ",
                f"half width {places(scenario.width_theta, 1)}°",
                "width_theta",
                short="friction:",
            ),
            Given(scenario.field.named, f"{places(scenario.B_H * 1e6, 1)} µT, taken as exact", "B_H", short="B_H"),
        ]

    def observations(self, scenario: Budget) -> str:
        return distances_table([scenario.row], scenario.scale_step, "N pole points")

    def groups(self, scenario: Budget, working: Working) -> list[Group]:
        named = (
            ("The angle", ("mean-1", "scatter", "u-mean", "u-theta", "share-angle")),
            ("The distance and the length", ("u-d", "sensitivity", "share-distance", "u-l", "share-length")),
            ("The needle", ("needle-effect", "share-needle")),
            ("Together", ("combined", "largest", "ratio")),
            ("Result", ("moment", "corrected", "freedom", "coverage", "expanded", "count")),
        )
        return [Group(title, [working.by_id[i] for i in ids]) for title, ids in named]

    def parts(self, scenario: Budget, working: Working) -> list[Part]:
        """The readings with what is worked from them, then the rest of the budget."""
        angle, *rest = self.groups(scenario, working)
        line = ("The distance", centimetres(scenario.row.d), "d", 0, scenario.row.readings, angle.steps[:2])
        caption = distances_caption(scenario.scale_step, "N pole points")
        table = eight_readings_book(caption, "d<br>cm", ("d", "cm"), [line], "N pole points")
        others = [(group.heading, [Beside(group.steps)]) for group in rest]
        return [(angle.heading, [table, Beside(angle.steps[2:])]), *others]

    def numbers(self, scenario: Budget) -> dict[str, object]:
        return {
            "where": scenario.field.where,
            "B_H": scenario.B_H,
            "rows": [[scenario.row.d, *scenario.row.readings]],
            "widths": [scenario.width_theta, scenario.width_d, scenario.width_two_l, scenario.width_needle],
            "two_l": scenario.two_l,
            "needle": scenario.needle,
            "other_angle": scenario.other_angle,
        }


PAGE = BudgetPage()

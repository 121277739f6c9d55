"""What a sheet of choosing distances shows."""

from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.distances.scenario import Choosing
from exercises.kinds.sheet import Given, Group, Page
from exercises.working.numbers import centimetres, figures, places
from exercises.working.steps import Step, Working


class ChoosingPage(Page[Choosing]):
    """What the sheet shows: all that is known before the lab, and the two limits in order."""

    task = (
        "Before the lab: between which distances do the deflections of this magnet lie within 30° to 60° (tan A "
        "position)? Work the nearest and the farthest distance, then see whether the bar is clear of the box and "
        "the arm long enough. Take µ₀/4π = 10⁻⁷ T·m/A."
    )
    formula = "B = B_H tan θ = (µ₀/4π) · 2md/(d² − l²)²"

    def givens(self, scenario: Choosing) -> list[tuple[str, str]]:
        return [
            ("Magnet", f"{scenario.bar.name}, {scenario.bar.material.name}"),
            Given("Its rough moment m", f"{figures(scenario.moment)} A·m²", "moment", short="m"),
            *rule_of(scenario.code.setting).given(scenario.bar.length, scenario.two_l),
            Given(scenario.field.named, f"{places(scenario.B_H * 1e6, 1)} µT", "B_H", short="B_H"),
            Given("Radius of the box", f"{centimetres(scenario.radius)} cm", "radius", short="radius of the box"),
            Given("Each arm, from the box’s centre", f"{centimetres(scenario.arm)} cm", "arm", short="arm"),
        ]

    def groups(self, scenario: Choosing, working: Working) -> list[Group]:
        def of(*ids: str) -> list[Step]:
            return [working.by_id[i] for i in ids]

        columns = ("field", "cube", "guess", "correction", "distance")
        return [
            Group("The magnet", of("l")),
            Group("The nearest distance", of(*(f"{c}-near" for c in columns)), "60°"),
            Group("The farthest distance", of(*(f"{c}-far" for c in columns)), "30°"),
            Group("The box and the arm", of("gap", "clear", "from", "reach", "fits", "to")),
        ]

    def numbers(self, scenario: Choosing) -> dict[str, object]:
        return {
            "where": scenario.field.where,
            "B_H": scenario.B_H,
            "length": scenario.bar.length,
            "two_l": scenario.two_l,
            "moment": scenario.moment,
            "radius": scenario.radius,
            "arm": scenario.arm,
        }

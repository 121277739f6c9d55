"""What a sheet with a fault to be found shows: the readings, and the faults there may be in them."""

from html import escape

from exercises.kinds.deflection.page import DeflectionPage, distances_caption
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.fault.choices import CHOICES
from exercises.kinds.sheet import Beside, Group, Part
from exercises.working.numbers import centimetres
from exercises.working.steps import Step, Working


class FaultPage(DeflectionPage):
    """The readings, and a fault to be found in them."""

    def result(self, scenario: DeflectionScenario, working: Working) -> str:
        """None: the moments of a faulty instrument are no result."""
        return ""

    def givens(self, scenario: DeflectionScenario) -> list[tuple[str, str]]:
        """What is known before the first reading; B_H is not needed."""
        return super().givens(scenario)[:-1]

    def observations(self, scenario: DeflectionScenario) -> str:
        """The table, and the faults there are, which must be seen on paper too."""
        return super().observations(scenario) + self._faults()

    def _faults(self) -> str:
        """The faults that there are."""
        faults = "; ".join(label for key, label, _ in CHOICES if key not in ("none", "undecided"))
        return (
            f'<p class="er-faults">At most one of these: {escape(faults)}. Or there is no fault beyond chance, or '
            "the readings do not decide.</p>"
        )

    def parts(self, scenario: DeflectionScenario, working: Working) -> list[Part]:
        """The nearest and the farthest distance with their differences, the choices, all distances with their means."""
        near, far, name, mend, size = self.groups(scenario, working)
        last = len(scenario.rows) - 1
        caption = f"{distances_caption(scenario.scale_step, self.position)} Give the differences to two decimals."
        looked = self.book(scenario, {0: near.steps, last: far.steps}, caption)
        means = self.book(scenario, {i: [step] for i, step in enumerate(mend.steps)}, columns=("best mean θ",))
        return [
            ("Look for a pattern at the nearest and the farthest distance", [looked]),
            (name.heading, [Beside(name.steps, self._faults())]),
            (mend.heading, [means]),
            (size.heading, [Beside(size.steps)]),
        ]

    def looked_at(self, step: Step) -> tuple[str, ...]:
        """The fault, and where it shows, are seen in the differences."""
        ends = [f"{pattern}-{at}" for pattern in ("ends", "north", "arms", "outward") for at in ("near", "far")]
        return tuple(ends) if step.id in ("fault", "where") else ()

    def groups(self, scenario: DeflectionScenario, working: Working) -> list[Group]:
        """The differences at both ends, the choices, the means, the size."""
        look = "Look for a pattern at the"
        near, far = (centimetres(r.d) for r in (scenario.rows[0], scenario.rows[-1]))
        steps = list(working.steps)
        return [
            Group(f"{look} nearest distance, {near} cm (two decimals)", steps[:4], part=f"{look} nearest distance"),
            Group(f"{look} farthest distance, {far} cm (two decimals)", steps[4:8], part=f"{look} farthest distance"),
            Group("Name the fault", steps[8:11]),
            Group("Mend what can be mended", steps[11:-2]),
            Group("How large is it?", steps[-2:]),
        ]


PAGE = FaultPage(
    task="Something may be wrong with this set of readings: at most one fault. Find it, say whether the mean of eight "
    "removes it, and go on with what can be mended. The position is tan A: the magnet lies along the arm.",
    formula="",
    position="N pole points",
)

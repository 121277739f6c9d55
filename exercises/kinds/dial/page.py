"""What a sheet of dials shows: eight dials to be read, and the same in words."""

from exercises.kinds.dial.drawing import dial, words
from exercises.kinds.dial.scenario import DialScenario
from exercises.kinds.sheet import Beside, Group, Page, Part
from exercises.working.numbers import centimetres
from exercises.working.steps import Working


def _label(scenario: DialScenario, number: int) -> str:
    """What a dial, numbered from 0, is called."""
    one = scenario.dials[number]
    return f"Dial {number + 1}: {one.arm} arm, N {one.north}"


class DialPage(Page[DialScenario]):
    """Eight dials to be read."""

    task = (
        "Read both ends of the pointer on each of the eight dials to the nearest division, and take the mean of the "
        "eight readings of each distance. Below each dial its two ends are shown enlarged, with the rim upwards."
    )
    formula = ""

    def givens(self, scenario: DialScenario) -> list[tuple[str, str]]:
        return [
            ("Magnet", f"{scenario.bar.name}, {centimetres(scenario.bar.length)} cm long"),
            ("Place", scenario.field.where),
            ("Dials 1 to 4", f"d = {centimetres(scenario.dials[0].d)} cm"),
            ("Dials 5 to 8", f"d = {centimetres(scenario.dials[4].d)} cm"),
        ]

    def observations(self, scenario: DialScenario) -> str:
        return f'<div class="er-dials">{"".join(self._drawn(scenario))}</div>{self._in_words(scenario)}'

    def _drawn(self, scenario: DialScenario) -> list[str]:
        """Each dial as a figure."""
        figures = []
        for i, one in enumerate(scenario.dials):
            label = _label(scenario, i)
            svg = dial(one.phi, scenario.box, scenario.faults, scenario.scale_step, label)
            figures.append(f'<figure class="er-dial"><figcaption>{label}</figcaption>{svg}</figure>')
        return figures

    def _in_words(self, scenario: DialScenario) -> str:
        """All dials in words, folded away."""
        said = []
        for i in range(len(scenario.dials)):
            ends = " ".join(words(t, end, scenario.scale_step) for end, t in enumerate(scenario.ends(i), 1))
            said.append(f"<li>{_label(scenario, i)}. {ends}</li>")
        return (
            '<details class="er-dial-words"><summary>The dials in words</summary>'
            "<p>Each scale has four quadrants from 0 to 90; the 0s are at the east and the west. The divisions are "
            f"{'half degrees: twenty' if scenario.scale_step == 0.5 else 'whole degrees: ten'} from one numbered mark "
            f"to the next.</p><ul>{''.join(said)}</ul></details>"
        )

    def parts(self, scenario: DialScenario, working: Working) -> list[Part]:
        """Each dial with its two fields under it, then the means."""
        near, far, means = self.groups(scenario, working)
        figures = self._drawn(scenario)
        dials = [Beside(working.steps[2 * i : 2 * i + 2], figures[i], (f"tips.{i}",)) for i in range(len(figures))]
        half = len(dials) // 2
        return [
            (near.heading, [Beside((), self._in_words(scenario)), *dials[:half]]),
            (far.heading, dials[half:]),
            (means.heading, [Beside(means.steps)]),
        ]

    def groups(self, scenario: DialScenario, working: Working) -> list[Group]:
        steps = working.steps
        return [
            Group("Dials 1 to 4", list(steps[:8]), f"d = {centimetres(scenario.dials[0].d)} cm"),
            Group("Dials 5 to 8", list(steps[8:16]), f"d = {centimetres(scenario.dials[4].d)} cm"),
            Group("Mean deflections", list(steps[16:])),
        ]

    def numbers(self, scenario: DialScenario) -> dict[str, object]:
        return {
            "where": scenario.field.where,
            "scale_step": scenario.scale_step,
            "dials": [[one.arm, one.north, one.d, one.phi] for one in scenario.dials],
            "tips": [[round(t, 6) for t in scenario.ends(i)] for i in range(len(scenario.dials))],
        }

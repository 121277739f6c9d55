"""What a sheet of dials shows: eight dials to be read, and the same in words."""

from exercises.kinds.dial.drawing import dial, words
from exercises.kinds.dial.scenario import DialScenario
from exercises.kinds.sheet import Group, Page
from exercises.working.numbers import centimetres
from exercises.working.steps import Working


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
        drawn, said = [], []
        for i, one in enumerate(scenario.dials):
            label = f"Dial {i + 1}: {one.arm} arm, N {one.north}"
            svg = dial(one.phi, scenario.box, scenario.faults, scenario.scale_step, label)
            drawn.append(f'<figure class="er-dial"><figcaption>{label}</figcaption>{svg}</figure>')
            ends = " ".join(words(t, end, scenario.scale_step) for end, t in enumerate(scenario.ends(i), 1))
            said.append(f"<li>{label}. {ends}</li>")
        return (
            f'<div class="er-dials">{"".join(drawn)}</div>'
            '<details class="er-dial-words"><summary>The dials in words</summary>'
            "<p>Each scale has four quadrants from 0 to 90; the 0s are at the east and the west. The divisions are "
            f"{'half degrees: twenty' if scenario.scale_step == 0.5 else 'whole degrees: ten'} from one numbered mark "
            f"to the next.</p><ul>{''.join(said)}</ul></details>"
        )

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

"""What a sheet of setting up shows: two boards as they stand, the same in words, and the readings of a third."""

from exercises.kinds.deflection.page import eight_readings_book, eight_readings_table, scale_step_words
from exercises.kinds.setting.drawing import drawn, plan, words
from exercises.kinds.setting.scenario import SettingScenario
from exercises.kinds.setting.steps import BOARDS, WHERE
from exercises.kinds.sheet import Beside, Book, Group, Page, Part
from exercises.working.steps import Step, Working


class SettingPage(Page[SettingScenario]):
    """Two boards to be set up, and one on which a turn was left out."""

    task = (
        "Set up boards 1 and 2 for tan A: say what you read, and what you turn, in which order, by how much and which "
        "way, seen from above. No magnet is near. On board 3 somebody left out one of the two turns. Its readings say "
        "which."
    )
    formula = (
        "Arms left askew by α, first turn left out: θ ∓ α sin² θ with N east and N west. "
        "Second turn left out: θ ± α cos² θ. What the mean still hides in m: ½ α² cos 2θ, as a share of it."
    )

    def givens(self, scenario: SettingScenario) -> list[tuple[str, str]]:
        return [
            ("One division of the scale", "half a degree" if scenario.scale_step == 0.5 else "one degree"),
            ("Boards 1 and 2", "as they stand, no magnet near"),
            ("Board 3", "one turn was left out"),
        ]

    def observations(self, scenario: SettingScenario) -> str:
        return (
            f'<div class="er-boards"><div class="er-dials">{"".join(self._drawn(scenario))}</div>'
            f"{self._in_words(scenario)}{self._third(scenario)}</div>"
        )

    def _drawn(self, scenario: SettingScenario) -> list[str]:
        """Boards 1 and 2 as figures."""
        figures = []
        for n, board in enumerate(scenario.boards, 1):
            svg = drawn(board, scenario.box, scenario.scale_step, f"Board {n}")
            figures.append(f'<figure class="er-dial"><figcaption>Board {n}</figcaption>{svg}</figure>')
        return figures

    def _third(self, scenario: SettingScenario) -> str:
        """The readings on board 3."""
        lines = list(zip(WHERE, scenario.readings))
        return eight_readings_table(self._of_readings(scenario), "distance", lines, "N pole points")

    def _of_readings(self, scenario: SettingScenario) -> str:
        """What stands by the readings on board 3."""
        return (
            f"Board 3: eight readings at each of two distances, in degrees ({scale_step_words(scenario.scale_step)}). "
            "The N pole points as marked; ① and ② are the two ends of the pointer."
        )

    def _in_words(self, scenario: SettingScenario) -> str:
        """Boards 1 and 2 in words, folded away."""
        said = [
            f"<li>Board {n}. {words(board, scenario.box, scenario.scale_step)}</li>"
            for n, board in enumerate(scenario.boards, 1)
        ]
        return (
            '<details class="er-dial-words"><summary>The boards in words</summary>'
            "<p>Each scale has four quadrants from 0 to 90. The two 0s lie near the east and the west; each end of the "
            f"pointer has its own. One division is {'half a degree' if scenario.scale_step == 0.5 else 'one degree'}."
            f"</p><ul>{''.join(said)}</ul></details>"
        )

    def parts(self, scenario: SettingScenario, working: Working) -> list[Part]:
        """Each board beside its entries, the readings of the third above its own."""
        *boards, third = self.groups(scenario, working)
        figures = self._drawn(scenario)
        seen = ("ends", "lines", "sides", "signed_lines", "arms")
        drawn: list[Part] = []
        for i, (group, board) in enumerate(zip(boards, scenario.boards)):
            keys = tuple(f"{key}.{i}" for key in seen)
            small = f'<div class="er-dial er-plan">{plan(board, f"Board {i + 1} once more, as it stands.")}</div>'
            as_it_stands, *turns = (group.steps[:3], group.steps[3:6], group.steps[6:])
            again = [Beside(steps, small, keys, again=True) for steps in turns]
            drawn.append((group.heading, [Beside(as_it_stands, figures[i], keys), *again]))
        return [*drawn, ("", [Beside((), self._in_words(scenario))]), (third.heading, self._of_third(scenario, third))]

    def _of_third(self, scenario: SettingScenario, group: Group) -> list[Beside | Book]:
        """The readings of board 3 with what is worked from them, then the rest of its entries."""
        by_id = {step.id: step for step in group.steps}
        mean = f"mean-{scenario.asked + 1}"
        lines = []
        for at, (where, readings) in enumerate(zip(WHERE, scenario.readings)):
            ids = [f"diff-{at + 1}", *([mean] if at == scenario.asked else [])]
            lines.append(("Board 3,", where, f"distance.{at}", at, readings, [by_id.pop(id) for id in ids]))
        columns = ("difference between N east and N west", "mean θ of the eight")
        table = eight_readings_book(
            self._of_readings(scenario), "distance", ("", ""), lines, "N pole points", columns=columns
        )
        return [table, Beside(list(by_id.values()))]

    def looked_at(self, step: Step) -> tuple[str, ...]:
        """Which turn was left out is seen in the differences at both distances."""
        return ("diff-1", "diff-2") if step.id == "left-out" else ()

    def groups(self, scenario: SettingScenario, working: Working) -> list[Group]:
        one, two = (len(steps) for steps in BOARDS)
        return [
            Group("Board 1", list(working.steps[:one]), series="Board"),
            Group("Board 2", list(working.steps[one : one + two]), series="Board"),
            Group("Board 3, one turn left out", list(working.steps[one + two :])),
        ]

    def numbers(self, scenario: SettingScenario) -> dict[str, object]:
        return {
            "where": scenario.field.where,
            "scale_step": scenario.scale_step,
            "boards": [[board.pointer, board.line] for board in scenario.boards],
            "tips": [[round(t, 6) for t in board.ends(scenario.box)] for board in scenario.boards],
            "left_out": scenario.left_out,
            "askew": scenario.askew,
            "readings": scenario.readings,
            "asked": scenario.asked,
        }

"""The sheet of a comparison of two magnets."""

from dataclasses import dataclass
from html import escape

from exercises.kinds.compare.scenario import Comparison
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.deflection.page import eight_readings_table, scale_step_words
from exercises.kinds.sheet import Group, Page
from exercises.working.numbers import centimetres
from exercises.working.steps import Working


@dataclass(frozen=True)
class ComparisonPage(Page[Comparison]):
    """Both magnets, their eight readings at one distance, and the balances."""

    task: str
    formula: str

    def givens(self, scenario: Comparison) -> list[tuple[str, str]]:
        """What is known before the first reading: (what it is, its value)."""
        rule = rule_of(scenario.code.setting)
        magnets = [
            (f"Magnet {i}", f"{bar.name}, {bar.material.name}, {rule.brief(bar.length, bar.magnetic_length)}")
            for i, bar in enumerate(scenario.bars, 1)
        ]
        where = ("Where", scenario.field.where)
        return [*magnets, where, ("Both at", f"d = {centimetres(scenario.d)} cm")]

    def observations(self, scenario: Comparison) -> str:
        """The table of the deflections, then that of the balances."""
        return self._deflections(scenario) + self._balances(scenario)

    def _deflections(self, scenario: Comparison) -> str:
        caption = (
            "Eight readings of the pointer for each magnet at "
            f"d = {centimetres(scenario.d)} cm, in degrees ({scale_step_words(scenario.scale_step)}). "
            "① and ② are the two ends of the pointer."
        )
        rows = [(str(i), readings) for i, readings in enumerate(scenario.readings, 1)]
        return eight_readings_table(caption, "mag-<br>net", rows, "N pole points")

    def _balances(self, scenario: Comparison) -> str:
        arms = "".join(
            f'<th scope="colgroup" colspan="2">1 {arm}, 2 {other}</th>'
            for arm, other in (("east", "west"), ("west", "east"))
        )
        ways = '<th scope="col">N out</th><th scope="col">N in</th>' * 2
        body = "".join(
            f'<tr><th scope="row">{centimetres(b.d1)}</th>'
            + "".join(f"<td>{escape(centimetres(d))}</td>" for d in b.found)
            + "</tr>"
            for b in scenario.balances
        )
        return (
            '<table class="er-observations er-few"><caption>Balances: magnet 1 lies at d₁ on the arm named, and '
            "magnet 2 on the other arm keeps the pointer at rest at d₂, in cm. "
            "N out: both N poles point away from the box; N in: both towards it.</caption>"
            f'<thead><tr><th scope="col" rowspan="2">d₁<br>cm</th>{arms}</tr><tr>{ways}</tr></thead>'
            f"<tbody>{body}</tbody></table>"
        )

    def groups(self, scenario: Comparison, working: Working) -> list[Group]:
        """The deflections, one group for each balance, then their mean."""
        balances = [
            Group(
                f"Balance {j}",
                [working.by_id[f"{column}-{j}"] for column in ("null", "near", "far", "ratio")],
                f"d₁ = {centimetres(b.d1)} cm",
                series="Balance",
            )
            for j, b in enumerate(scenario.balances, 1)
        ]
        asked = {step for balance in balances for step in balance.steps}
        return [
            Group(
                f"Deflections at d = {centimetres(scenario.d)} cm",
                [s for s in working.steps[:-1] if s not in asked],
                part="Deflections",
            ),
            *balances,
            Group("Result", [working.by_id["mean-ratio"]]),
        ]

    def numbers(self, scenario: Comparison) -> dict[str, object]:
        """What is given, as JSON can hold it."""
        return {
            "where": scenario.field.where,
            "lengths": [bar.length for bar in scenario.bars],
            "two_ls": [2 * half for half in scenario.halves],
            "d": scenario.d,
            "readings": [list(r) for r in scenario.readings],
            "balances": [[b.d1, *b.found] for b in scenario.balances],
        }

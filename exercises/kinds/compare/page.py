"""The sheet of a comparison of two magnets."""

from dataclasses import dataclass
from html import escape

from exercises.kinds.compare.scenario import Comparison
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.deflection.page import eight_readings_book, eight_readings_table, scale_step_words
from exercises.kinds.sheet import Beside, Book, Given, Group, Line, Page, Part
from exercises.working.numbers import centimetres
from exercises.working.steps import Working

OF_A_MAGNET = ("mean", "tan", "bracket")  # the steps that stand in the line of a magnet
#: What stands by the balances.
BALANCES = (
    "Balances: magnet 1 lies at d₁ on the arm named, and magnet 2 on the other arm keeps the pointer at rest at d₂, "
    "in cm. N out: both N poles point away from the box; N in: both towards it."
)


@dataclass(frozen=True)
class ComparisonPage(Page[Comparison]):
    """Both magnets, their eight readings at one distance, and the balances."""

    task: str
    formula: str

    def givens(self, scenario: Comparison) -> list[tuple[str, str]]:
        """What is known before the first reading: (what it is, its value)."""
        rule = rule_of(scenario.code.setting)
        magnets = [
            Given(
                f"Magnet {i + 1}",
                f"{bar.name}, {bar.material.name}, {rule.brief(bar.length, bar.magnetic_length)}",
                f"lengths.{i}",
                f"two_ls.{i}",
                short=f"magnet {i + 1}:",
                said=rule.brief(bar.length, bar.magnetic_length),
            )
            for i, bar in enumerate(scenario.bars)
        ]
        where = ("Where", scenario.field.where)
        return [
            *magnets,
            where,
            Given("Both at", f"d = {centimetres(scenario.d)} cm", "d", short="d", said=f"{centimetres(scenario.d)} cm"),
        ]

    def observations(self, scenario: Comparison) -> str:
        """The table of the deflections, then that of the balances."""
        return self._deflections(scenario) + self._balances(scenario)

    def _deflections(self, scenario: Comparison) -> str:
        rows = [(str(i), readings) for i, readings in enumerate(scenario.readings, 1)]
        return eight_readings_table(self._of_deflections(scenario), "mag&shy;net", rows, "N pole points")

    def _of_deflections(self, scenario: Comparison) -> str:
        """What stands by the table of the deflections."""
        return (
            "Eight readings of the pointer for each magnet at "
            f"d = {centimetres(scenario.d)} cm, in degrees ({scale_step_words(scenario.scale_step)}). "
            "① and ② are the two ends of the pointer."
        )

    def _balance_headings(self) -> tuple[str, str]:
        """The two rows of headings over the balances: which magnet is on which arm, and where the N poles point."""
        arms = "".join(
            f'<th scope="colgroup" colspan="2">1&nbsp;{arm}, 2&nbsp;{other}</th>'
            for arm, other in (("east", "west"), ("west", "east"))
        )
        return (
            f'<th scope="col" rowspan="2">d₁<br>cm</th>{arms}',
            '<th scope="col">N out</th><th scope="col">N in</th>' * 2,
        )

    def _balances(self, scenario: Comparison) -> str:
        head = "".join(f"<tr>{row}</tr>" for row in self._balance_headings())
        body = "".join(
            f'<tr><th scope="row">{centimetres(b.d1)}</th>'
            + "".join(f"<td>{escape(centimetres(d))}</td>" for d in b.found)
            + "</tr>"
            for b in scenario.balances
        )
        return (
            f'<table class="er-observations er-few"><caption>{BALANCES}</caption><thead>{head}</thead>'
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

    def parts(self, scenario: Comparison, working: Working) -> list[Part]:
        """The table of the deflections and what follows from it, then that of the balances, then the mean."""
        deflections, *balances, result = self.groups(scenario, working)
        magnets = [
            ("Magnet", str(i), f"magnet.{i}", i - 1, readings, [working.by_id[f"{c}-{i}"] for c in OF_A_MAGNET])
            for i, readings in enumerate(scenario.readings, 1)
        ]
        caption = self._of_deflections(scenario)
        columns = ("mean θ", "tan θ", "(d² − l²)²")
        table = eight_readings_book(caption, "mag&shy;net", ("", ""), magnets, "N pole points", columns=columns)
        lines = [
            Line(
                group.name,
                centimetres(balance.d1),
                f"d1.{j}",
                [centimetres(d) for d in balance.found],
                (f"found.{j}",),
                group.steps,
            )
            for j, (group, balance) in enumerate(zip(balances, scenario.balances))
        ]
        labels, sides = ("N out", "N in") * 2, ("1 east, 2 west", "1 west, 2 east")
        balanced = Book(BALANCES, self._balance_headings(), lines, ("d₁", "cm"), labels, sides)
        ratio = Beside([working.by_id["ratio-angles"]])
        return [(deflections.heading, [table, ratio]), ("", [balanced]), (result.heading, [Beside(result.steps)])]

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

"""Two magnets compared: the scenario, its steps and the parts they are made of."""

from dataclasses import dataclass
from functools import cache

from exercises.bench.instrument import Box, Faults
from exercises.codes.scenario import Bar, Scenario
from exercises.kinds.deflection.steps import MAGNETIC_SHARE
from exercises.kinds.deflection.steps import PARTS as DEFLECTION
from exercises.working.arithmetic import total
from exercises.working.numbers import centimetres, figures, mean_angle, places, reading
from exercises.working.steps import Plan, Step, Working, hidden_step


@dataclass(frozen=True)
class Balance:
    """Magnet 1 at d1, and the four settings of magnet 2 that keep the needle at rest, m (balance.FOUR)."""

    d1: float
    found: tuple[float, ...]

    @property
    def d2(self) -> float:
        return total(self.found) / len(self.found)


@dataclass(frozen=True)
class Comparison(Scenario):
    """All of one sheet: both magnets, their eight readings at d (m), and the balances.  B_H in tesla."""

    bars: tuple[Bar, Bar]
    box: Box
    faults: tuple[Faults, Faults]
    scale_step: float
    d: float
    readings: tuple[tuple[float, ...], tuple[float, ...]]
    balances: tuple[Balance, ...] = ()

    @property
    def angles(self) -> tuple[float, float]:
        """The mean deflections, degrees."""
        one, two = (total(r) / len(r) for r in self.readings)
        return one, two

    @property
    def halves(self) -> tuple[float, float]:
        """The half lengths l that the working uses, m."""
        one, two = (MAGNETIC_SHARE * bar.length / 2 for bar in self.bars)
        return one, two

    @property
    def true_ratio(self) -> float:
        return self.bars[0].moment / self.bars[1].moment

    def working(self, plan: Plan) -> Working:
        givens = {
            "lengths": tuple(bar.length for bar in self.bars),
            "d": self.d,
            "readings": self.readings,
            "d1": tuple(b.d1 for b in self.balances),
            "found": tuple(b.found for b in self.balances),
        }
        return Working(plan, givens, PARTS)


PARTS = {
    name: DEFLECTION[name]
    for name in ("magnetic_length", "half_length", "distance", "mean_of_eight", "tangent", "outer_square")
} | {
    "bracket_sign": lambda: -1,
    "distances_compared": lambda a, d1, d2: (d2, d1),
    "which_over_which": lambda a, ratio: ratio,
    "mean_of_settings": lambda a, found: a.keep(a.keep(a.total(found)) / len(found)),
    "mean_of_ratios": lambda a, ratios: a.keep(a.keep(a.total(ratios)) / len(ratios)),
}


def _length(i):
    return lambda a, known, givens, parts: givens["lengths"][i]


def _distance(i, where):
    """A distance of magnet i in metres; `where` finds the one on the scale."""
    return lambda a, known, givens, parts: parts["distance"](a, where(known, givens), {"length": givens["lengths"][i]})


def _lengths() -> list[Step]:
    steps = []
    for i in (0, 1):
        n = i + 1
        steps += [
            hidden_step(f"length-{n}", (), _length(i)),
            hidden_step(
                f"two-l-{n}",
                (f"length-{n}",),
                lambda a, known, givens, parts, n=n: parts["magnetic_length"](a, known[f"length-{n}"]),
            ),
            hidden_step(
                f"l-{n}",
                (f"two-l-{n}",),
                lambda a, known, givens, parts, n=n: parts["half_length"](a, known[f"two-l-{n}"]),
            ),
            hidden_step(f"d-{n}", (), _distance(i, lambda known, givens: givens["d"])),
        ]
    return steps


def _bracket(at: str, l: str):
    def formula(a, known, givens, parts):
        d, half = known[at], known[l]
        sign = parts["bracket_sign"]()
        difference = a.either(
            lambda: a.keep(a.keep(d * d) + sign * a.keep(half * half)),
            lambda: a.keep(a.keep(d - half) * a.keep(d + half)) if sign < 0 else a.keep(d * d + half * half),
        )
        return a.keep(parts["outer_square"](a, difference))

    return formula


def _bracket_step(id: str, at: str, i: int, sub: str, where) -> Step:
    """A bracket of lengths; `sub` is the index of d in print, `where` finds d in m."""
    mark = "₁₂"[i]

    def line(known, givens):
        d, l = where(known, givens), MAGNETIC_SHARE * givens["lengths"][i] / 2
        return (
            f"(d{sub}² − l{mark}²)² = ({figures(d, 4)}² − {figures(l, 4)}²)² = ({figures(d * d, 4)} − "
            f"{figures(l * l, 4)})² = {figures(known[id], 4)} m⁴"
        )

    return Step(
        id=id,
        column=id,
        title=f"(d{sub}² − l{mark}²)²",
        quantity="length4",
        rule="figures",
        needs=(at, f"l-{i + 1}"),
        formula=_bracket(at, f"l-{i + 1}"),
        line=line,
        hints=(
            f"In metres. l{mark} is half the magnetic length of magnet {i + 1}, and that is 5/6 of its measured length.",
            "Square d, square l, subtract, and square what is left.",
        ),
        read="before/field-end-on/#the-bracket-is-squared",
    )


def _mean_step(i: int) -> Step:
    mark = "₁₂"[i]

    def formula(a, known, givens, parts):
        return a.angle(parts["mean_of_eight"](a, givens["readings"][i]))

    def line(known, givens):
        added = " + ".join(reading(r) for r in givens["readings"][i])
        return f"θ{mark} = ({added}) / 8 = {mean_angle(known[f'mean-{i + 1}'])}°"

    return Step(
        id=f"mean-{i + 1}",
        column="mean",
        title=f"mean θ{mark}",
        quantity="angle",
        rule="angle",
        needs=(),
        formula=formula,
        line=line,
        hints=(f"Add all eight readings of magnet {i + 1} and divide by eight.",),
        read="before/eight-readings/#the-mean-of-eight",
    )


def _tangent_step(i: int) -> Step:
    mark, theta = "₁₂"[i], f"mean-{i + 1}"

    def line(known, givens):
        return f"tan θ{mark} = tan {mean_angle(known[theta])}° = {places(known[f'tan-{i + 1}'], 4)}"

    return Step(
        id=f"tan-{i + 1}",
        column="tan",
        title=f"tan θ{mark}",
        quantity="ratio",
        rule="tangent",
        needs=(theta,),
        formula=lambda a, known, givens, parts: a.tangent(parts["tangent"](a, known[theta])),
        line=line,
        hints=("Take the tangent of the mean deflection, with the calculator set to degrees. Keep four places.",),
        read="before/tangent-law/#the-tangent-not-the-sine",
    )


def _quotient(a, b1, b2, x, y):
    """b1·x / b2·y in the ways it is worked; x or y may be the plain number 1."""
    return a.either(
        lambda: a.keep(a.keep(b1 / b2) * a.keep(x / y)),
        lambda: a.keep(a.keep(b1 * x) / a.keep(b2 * y)),
        lambda: a.keep(a.keep(a.keep(b1 * x) / b2) / y),
        lambda: a.keep(a.keep(b1 / y) / a.keep(b2 / x)),
        lambda: a.keep(a.keep(b1 / (2 * y)) / a.keep(b2 / (2 * x))),
    )


def _ratio_by_angles(a, known, givens, parts):
    ratio = _quotient(a, known["bracket-1"], known["bracket-2"], known["tan-1"], known["tan-2"])
    return parts["which_over_which"](a, ratio)


RATIO_BY_ANGLES = Step(
    id="ratio-angles",
    column="ratio-angles",
    title="m₁/m₂",
    quantity="ratio",
    rule="figures",
    needs=("tan-1", "tan-2", "bracket-1", "bracket-2"),
    formula=_ratio_by_angles,
    line=lambda known, givens: (
        f"m₁/m₂ = ({figures(known['bracket-1'], 4)} × {places(known['tan-1'], 4)}) / "
        f"({figures(known['bracket-2'], 4)} × {places(known['tan-2'], 4)}) = {figures(known['ratio-angles'])}"
    ),
    hints=(
        "Write the moment of each magnet, and divide one by the other: what is the same in both drops out.",
        "m₁/m₂ = (d² − l₁²)² tan θ₁ / [(d² − l₂²)² tan θ₂].",
    ),
    read="exercises/compare/#at-equal-distances",
)


def _balance_steps(j: int) -> list[Step]:
    n = j + 1
    null, near, far, ratio = f"null-{n}", f"near-{n}", f"far-{n}", f"ratio-{n}"

    def mean(a, known, givens, parts):
        return parts["mean_of_settings"](a, givens["found"][j])

    def ratio_formula(a, known, givens, parts):
        x, y = parts["distances_compared"](a, known[f"d1-{n}"], known[f"d2-{n}"])
        return parts["which_over_which"](a, _quotient(a, known[near], known[far], x, y))

    def mean_line(known, givens):
        added = " + ".join(centimetres(d) for d in givens["found"][j])
        return f"d₂ = ({added}) / 4 = {centimetres(known[null], 2)} cm"

    def ratio_line(known, givens):
        return (
            f"m₁/m₂ = ({figures(known[near], 4)} × {figures(known[null], 4)}) / ({figures(known[far], 4)} × "
            f"{figures(givens['d1'][j])}) = {figures(known[ratio])}"
        )

    return [
        hidden_step(f"d1-{n}", (), _distance(0, lambda known, givens: givens["d1"][j])),
        Step(
            id=null,
            column="null",
            title="mean d₂",
            quantity="distance",
            rule="figures",
            needs=(),
            row=j,
            formula=mean,
            line=mean_line,
            hints=("Add the four settings of magnet 2 and divide by four.",),
            read="exercises/compare/#four-settings-for-one-balance",
        ),
        hidden_step(f"d2-{n}", (null,), _distance(1, lambda known, givens: known[null])),
        _bracket_step(near, f"d1-{n}", 0, "₁", lambda known, givens: givens["d1"][j]),
        _bracket_step(far, f"d2-{n}", 1, "₂", lambda known, givens: known[null]),
        Step(
            id=ratio,
            column="ratio",
            title="m₁/m₂",
            quantity="ratio",
            rule="figures",
            row=j,
            needs=(near, far, f"d1-{n}", f"d2-{n}"),
            formula=ratio_formula,
            line=ratio_line,
            hints=(
                "At balance both fields are equal: write the end-on field of each magnet and solve for m₁/m₂.",
                "m₁/m₂ = (d₁² − l₁²)² d₂ / [(d₂² − l₂²)² d₁]. The d of one magnet stands beside the bracket of the other.",
            ),
            read="exercises/compare/#the-balance",
        ),
    ]


def _mean_ratio(count: int) -> Step:
    ids = tuple(f"ratio-{j + 1}" for j in range(count))

    def line(known, givens):
        return f"m₁/m₂ = ({' + '.join(figures(known[i], 4) for i in ids)}) / {count} = {figures(known['mean-ratio'])}"

    return Step(
        id="mean-ratio",
        column="mean-ratio",
        title="mean m₁/m₂",
        quantity="ratio",
        rule="figures",
        needs=ids,
        line=line,
        formula=lambda a, known, givens, parts: parts["mean_of_ratios"](a, [known[i] for i in ids]),
        hints=("Add the ratios of all balances and divide by how many there are.",),
        read="exercises/compare/#the-balance",
    )


@cache
def plan_for(balances: int) -> Plan:
    """The plan of a sheet with so many balances; with none, only the deflections."""
    at = [_bracket_step(f"bracket-{i + 1}", f"d-{i + 1}", i, "", lambda known, givens: givens["d"]) for i in (0, 1)]
    first = [*(step for i in (0, 1) for step in (_mean_step(i), _tangent_step(i))), *at, RATIO_BY_ANGLES]
    then = [step for j in range(balances) for step in _balance_steps(j)]
    last = [_mean_ratio(balances)] if balances else []
    return Plan((*_lengths(), *first, *then, *last))

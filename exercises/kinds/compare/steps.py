"""The steps of a comparison of two magnets: the deflections at one distance, then the balances."""

from collections.abc import Callable
from functools import cache

from exercises.kinds.compare.parts import ComparisonParts, parts_for, quotient
from exercises.kinds.compare.scenario import Comparison
from exercises.kinds.deflection.lengths import LengthRule, rule_of
from exercises.kinds.deflection.parts import end_on_bracket
from exercises.working.arithmetic import Arithmetic, Number
from exercises.working.numbers import centimetres, figures, mean_angle, places, reading
from exercises.working.steps import Givens, Known, Plan, Step, Working, hidden_step

MARKS = "₁₂"  # of magnet 1 and magnet 2 in print

#: Finds a distance among the values and the givens, m.
type Where = Callable[[Known, Givens], Number]


def _at_one_distance(known: Known, givens: Givens) -> Number:
    return givens["d"]


# -- worked but not asked for --------------------------------------------------


def _length_steps(i: int) -> tuple[Step, ...]:
    """The length of magnet i as the sheet gives it, its 2l and its l, in metres."""
    length, two_l = f"length-{i + 1}", f"two-l-{i + 1}"

    def measured(a: Arithmetic, known: Known, givens: Givens, parts: ComparisonParts) -> Number:
        return givens["lengths"][i]

    def magnetic(a: Arithmetic, known: Known, givens: Givens, parts: ComparisonParts) -> Number:
        return parts.magnetic_length(a, known[length], givens["two_ls"][i])

    def half(a: Arithmetic, known: Known, givens: Givens, parts: ComparisonParts) -> Number:
        return parts.half_length(a, known[two_l])

    return (
        hidden_step(length, (), measured),
        hidden_step(two_l, (length,), magnetic),
        hidden_step(f"l-{i + 1}", (two_l,), half),
    )


def _distance_step(id: str, i: int, where: Where, needs: tuple[str, ...] = ()) -> Step:
    """A distance of magnet i in metres; `where` finds the one on the scale."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: ComparisonParts) -> Number:
        return parts.distance(a, where(known, givens), {"length": givens["lengths"][i]})

    return hidden_step(id, needs, formula)


# -- the deflections at one distance -------------------------------------------


def _mean_step(i: int) -> Step:
    id = f"mean-{i + 1}"

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: ComparisonParts) -> Number:
        return a.angle(parts.mean_of_eight(a, givens["readings"][i]))

    def line(known: Known, givens: Givens) -> str:
        added = " + ".join(reading(r) for r in givens["readings"][i])
        return f"θ{MARKS[i]} = ({added}) / 8 = {mean_angle(known[id])}°"

    return Step(
        id=id,
        column="mean",
        title=f"mean θ{MARKS[i]}",
        quantity="angle",
        rule="angle",
        needs=(),
        formula=formula,
        line=line,
        hints=(f"Add all eight readings of magnet {i + 1} and divide by eight.",),
        read="before/eight-readings/#the-mean-of-eight",
        exact=True,
    )


def _tangent_step(i: int) -> Step:
    id, theta = f"tan-{i + 1}", f"mean-{i + 1}"

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: ComparisonParts) -> Number:
        return a.tangent(parts.tangent(a, known[theta]))

    def line(known: Known, givens: Givens) -> str:
        return f"tan θ{MARKS[i]} = tan {mean_angle(known[theta])}° = {places(known[id], 4)}"

    return Step(
        id=id,
        column="tan",
        title=f"tan θ{MARKS[i]}",
        quantity="ratio",
        rule="tangent",
        needs=(theta,),
        formula=formula,
        line=line,
        hints=("Take the tangent of the mean deflection, with the calculator set to degrees. Keep four places.",),
        read="before/tangent-law/#the-tangent-not-the-sine",
    )


def _bracket_step(id: str, i: int, rule: LengthRule, *, at: str, sub: str, where: Where) -> Step:
    """(d² − l²)² of magnet i.

    at  id of the step that is d;  sub  the index of d in print;  where  finds d in m for the line
    """
    mark, half = MARKS[i], f"l-{i + 1}"

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: ComparisonParts) -> Number:
        return end_on_bracket(a, known[at], known[half], parts)

    def line(known: Known, givens: Givens) -> str:
        d, l = where(known, givens), givens["two_ls"][i] / 2
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
        needs=(at, half),
        formula=formula,
        line=line,
        hints=(
            f"In metres. {rule.half_is}",
            "Square d, square l, subtract, and square what is left.",
        ),
        read="before/field-end-on/#the-bracket-is-squared",
    )


def _ratio_by_angles(a: Arithmetic, known: Known, givens: Givens, parts: ComparisonParts) -> Number:
    ratio = quotient(a, known["bracket-1"], known["bracket-2"], known["tan-1"], known["tan-2"])
    return parts.which_over_which(a, ratio)


def _ratio_by_angles_line(known: Known, givens: Givens) -> str:
    return (
        f"m₁/m₂ = ({figures(known['bracket-1'], 4)} × {places(known['tan-1'], 4)}) / "
        f"({figures(known['bracket-2'], 4)} × {places(known['tan-2'], 4)}) = {figures(known['ratio-angles'])}"
    )


RATIO_BY_ANGLES = Step(
    id="ratio-angles",
    column="ratio-angles",
    title="m₁/m₂",
    quantity="ratio",
    rule="figures",
    needs=("tan-1", "tan-2", "bracket-1", "bracket-2"),
    formula=_ratio_by_angles,
    line=_ratio_by_angles_line,
    hints=(
        "Write the moment of each magnet, and divide one by the other: what is the same in both drops out.",
        "m₁/m₂ = (d² − l₁²)² tan θ₁ / [(d² − l₂²)² tan θ₂].",
    ),
    read="exercises/compare/#at-equal-distances",
)


# -- the balances --------------------------------------------------------------


def _null_step(j: int) -> Step:
    """The mean of the four settings of magnet 2."""
    id = f"null-{j + 1}"

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: ComparisonParts) -> Number:
        return parts.mean_of_settings(a, givens["found"][j])

    def line(known: Known, givens: Givens) -> str:
        added = " + ".join(centimetres(d) for d in givens["found"][j])
        return f"d₂ = ({added}) / 4 = {centimetres(known[id], 2)} cm"

    return Step(
        id=id,
        column="null",
        title="mean d₂",
        quantity="distance",
        rule="figures",
        needs=(),
        formula=formula,
        line=line,
        hints=("Add the four settings of magnet 2 and divide by four.",),
        read="exercises/compare/#four-settings-for-one-balance",
        row=j,
        exact=True,
    )


def _ratio_step(j: int) -> Step:
    """m₁/m₂ from one balance."""
    n = j + 1
    near, far, d1, d2 = f"near-{n}", f"far-{n}", f"d1-{n}", f"d2-{n}"

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: ComparisonParts) -> Number:
        x, y = parts.distances_compared(a, known[d1], known[d2])
        return parts.which_over_which(a, quotient(a, known[near], known[far], x, y))

    def line(known: Known, givens: Givens) -> str:
        return (
            f"m₁/m₂ = ({figures(known[near], 4)} × {figures(known[f'null-{n}'], 4)}) / ({figures(known[far], 4)} × "
            f"{figures(givens['d1'][j])}) = {figures(known[f'ratio-{n}'])}"
        )

    return Step(
        id=f"ratio-{n}",
        column="ratio",
        title="m₁/m₂",
        quantity="ratio",
        rule="figures",
        needs=(near, far, d1, d2),
        formula=formula,
        line=line,
        hints=(
            "At balance both fields are equal: write the end-on field of each magnet and solve for m₁/m₂.",
            "m₁/m₂ = (d₁² − l₁²)² d₂ / [(d₂² − l₂²)² d₁]. The d of one magnet stands beside the bracket of the other.",
        ),
        read="exercises/compare/#the-balance",
        row=j,
    )


def _balance_steps(j: int, rule: LengthRule) -> tuple[Step, ...]:
    """All steps of one balance, in order."""
    n = j + 1

    def first(known: Known, givens: Givens) -> Number:
        return givens["d1"][j]

    def second(known: Known, givens: Givens) -> Number:
        return known[f"null-{n}"]

    return (
        _distance_step(f"d1-{n}", 0, first),
        _null_step(j),
        _distance_step(f"d2-{n}", 1, second, needs=(f"null-{n}",)),
        _bracket_step(f"near-{n}", 0, rule, at=f"d1-{n}", sub="₁", where=first),
        _bracket_step(f"far-{n}", 1, rule, at=f"d2-{n}", sub="₂", where=second),
        _ratio_step(j),
    )


def _mean_ratio_step(balances: int) -> Step:
    ids = tuple(f"ratio-{j + 1}" for j in range(balances))

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: ComparisonParts) -> Number:
        return parts.mean_of_ratios(a, [known[i] for i in ids])

    def line(known: Known, givens: Givens) -> str:
        added = " + ".join(figures(known[i], 4) for i in ids)
        return f"m₁/m₂ = ({added}) / {balances} = {figures(known['mean-ratio'])}"

    return Step(
        id="mean-ratio",
        column="mean-ratio",
        title="mean m₁/m₂",
        quantity="ratio",
        rule="figures",
        needs=ids,
        formula=formula,
        line=line,
        hints=("Add the ratios of all balances and divide by how many there are.",),
        read="exercises/compare/#the-balance",
    )


# -- all together --------------------------------------------------------------


@cache
def plan_for(balances: int, rule: LengthRule) -> Plan:
    """The plan of a sheet with so many balances; with none, only the deflections."""
    magnets = (0, 1)
    lengths = [step for i in magnets for step in (*_length_steps(i), _distance_step(f"d-{i + 1}", i, _at_one_distance))]
    angles = [step for i in magnets for step in (_mean_step(i), _tangent_step(i))]
    brackets = [
        _bracket_step(f"bracket-{i + 1}", i, rule, at=f"d-{i + 1}", sub="", where=_at_one_distance) for i in magnets
    ]
    balanced = [step for j in range(balances) for step in _balance_steps(j, rule)]
    last = (_mean_ratio_step(balances),) if balances else ()
    return Plan((*lengths, *angles, *brackets, RATIO_BY_ANGLES, *balanced, *last))


def working(scenario: Comparison) -> Working:
    """The working of a comparison, of as many balances as it has so far."""
    givens = {
        "lengths": tuple(bar.length for bar in scenario.bars),
        "two_ls": tuple(2 * half for half in scenario.halves),
        "d": scenario.d,
        "readings": scenario.readings,
        "d1": tuple(b.d1 for b in scenario.balances),
        "found": tuple(b.found for b in scenario.balances),
    }
    rule = rule_of(scenario.code.setting)
    return Working(plan_for(len(scenario.balances), rule), givens, parts_for(rule))

"""Steps and parts as they were, for earth, graph and uncertainty.  Goes when these have declared their parts."""

import math
from collections.abc import Callable

from exercises.bench.field import MU_0_OVER_4PI
from exercises.working.numbers import centimetres, figures, mean_angle, places, reading
from exercises.working.steps import Step, hidden_step

MAGNETIC_SHARE = 5 / 6  # magnetic length over measured length, common practice


def _mean_of_eight(a, readings):
    # a mean of each arm, then of both; as one sum the first rounding is not there
    one, two = readings[:4], readings[4:]
    return (a.angle(a.total(one) / 4) + a.angle(a.total(two) / 4)) / 2


PARTS = {
    "metres": lambda x: x,
    "magnetic_length": lambda a, length: a.keep(MAGNETIC_SHARE * length),
    "half_length": lambda a, two_l: a.keep(two_l / 2),
    "distance": lambda a, d, givens: d,
    "mean_of_eight": _mean_of_eight,
    "sum_of_moments": lambda a, moments: a.keep(a.keep(a.total(moments)) / len(moments)),
    "poles": lambda a, m, two_l: a.keep(m / a.keep(two_l)),
    "tangent": lambda a, theta: a.apply(lambda x: math.tan(math.radians(x)), theta),
    "outer_square": lambda a, difference: difference**2,
    "twice_d": lambda a, d: 2 * d,
    "field_constant": lambda: MU_0_OVER_4PI,
    "pole_length": lambda a, two_l, length: two_l,
}


def _length(a, known, givens, parts):
    return parts["metres"](givens["length"])


def _magnetic_length(a, known, givens, parts):
    return parts["magnetic_length"](a, known["length"])


def _half_length(a, known, givens, parts):
    return parts["half_length"](a, known["two-l"])


def _distance(row):
    return lambda a, known, givens, parts: parts["metres"](parts["distance"](a, givens["d"][row], givens))


#: Worked but not asked for: the measured length, 2l and l, all in metres.
LENGTHS = (
    hidden_step("length", (), _length),
    hidden_step("two-l", ("length",), _magnetic_length),
    hidden_step("l", ("two-l",), _half_length),
)


def _mean(row):
    def formula(a, known, givens, parts):
        return a.angle(parts["mean_of_eight"](a, givens["readings"][row]))

    return formula


def _tangent(row):
    theta = f"mean-{row + 1}"

    def formula(a, known, givens, parts):
        return a.tangent(parts["tangent"](a, known[theta]))

    return formula


def _mean_moment(rows):
    ids = [f"moment-{i + 1}" for i in range(rows)]

    def formula(a, known, givens, parts):
        return parts["sum_of_moments"](a, [known[i] for i in ids])

    return formula


def _pole(a, known, givens, parts):
    return parts["poles"](a, known["mean-moment"], parts["pole_length"](a, known["two-l"], known["length"]))


# -- how each step looks with its numbers put in -----------------------------


def _mean_line(row):
    def line(known, givens):
        added = " + ".join(reading(r) for r in givens["readings"][row])
        return f"θ = ({added}) / 8 = {mean_angle(known[f'mean-{row + 1}'])}°"

    return line


def _tangent_line(row):
    return lambda known, givens: (
        f"tan θ = tan {mean_angle(known[f'mean-{row + 1}'])}° = {places(known[f'tan-{row + 1}'], 4)}"
    )


def _mean_moment_line(rows):
    def line(known, givens):
        added = " + ".join(figures(known[f"moment-{i + 1}"], 4) for i in range(rows))
        return f"m = ({added}) / {rows} = {figures(known['mean-moment'])} A·m²"

    return line


def _pole_line(known, givens):
    two_l = MAGNETIC_SHARE * givens["length"]
    return (
        f"2l = 5/6 × {centimetres(givens['length'])} cm = {figures(two_l)} m;  "
        f"p = m / 2l = {figures(known['mean-moment'], 4)} / {figures(two_l, 4)} = {figures(known['pole'])} A·m"
    )


MEAN = dict(
    column="mean",
    title="mean θ",
    quantity="angle",
    rule="angle",
    make=_mean,
    line=_mean_line,
    hints=("Add all eight readings of this distance and divide by eight.",),
    read="before/eight-readings/#the-mean-of-eight",
)
TANGENT = dict(
    column="tan",
    title="tan θ",
    quantity="ratio",
    rule="tangent",
    make=_tangent,
    line=_tangent_line,
    needs=("mean",),
    hints=(
        "Take the tangent of the mean deflection, with the calculator set to degrees. Keep four places.",
        "Below 45° the tangent is less than 1; at 45° it is 1; above, it is more.",
    ),
    read="before/tangent-law/#the-tangent-not-the-sine",
)


def row_step(spec: dict, row: int) -> Step:
    """A step of one row, from a spec whose `make` and `line` take the row and whose needs are columns, or l."""
    more = dict(spec)
    make: Callable = more.pop("make")
    line: Callable = more.pop("line")
    needs = tuple(n if n == "l" else f"{n}-{row + 1}" for n in more.pop("needs", ()))
    return Step(id=f"{spec['column']}-{row + 1}", row=row, formula=make(row), line=line(row), needs=needs, **more)


def _bracket(row):
    at = f"d-{row + 1}"

    def formula(a, known, givens, parts):
        d, l = known[at], known["l"]
        sign = parts["bracket_sign"]()
        difference = a.either(
            lambda: a.keep(a.keep(d * d) + sign * a.keep(l * l)),
            # the same by (d − l)(d + l); with the wrong sign there is no such form
            lambda: a.keep(a.keep(d - l) * a.keep(d + l)) if sign < 0 else a.keep(d * d + l * l),
        )
        return a.keep(parts["outer_square"](a, difference))

    return formula


def _bracket_line(row):
    def line(known, givens):
        d, l = givens["d"][row], MAGNETIC_SHARE * givens["length"] / 2
        return (
            f"(d² − l²)² = ({figures(d)}² − {figures(l, 4)}²)² = ({figures(d * d, 4)} − {figures(l * l, 4)})² "
            f"= {figures(known[f'bracket-{row + 1}'], 4)} m⁴"
        )

    return line


BRACKET = dict(
    column="bracket",
    title="(d² − l²)²",
    quantity="length4",
    rule="figures",
    make=_bracket,
    needs=("d", "l"),
    line=_bracket_line,
    hints=(
        "Turn d and l into metres first. l is half the magnetic length, and the magnetic length is 5/6 "
        "of the measured length.",
        "Square d, square l, subtract, and square what is left.",
    ),
    read="before/field-end-on/#the-bracket-is-squared",
)

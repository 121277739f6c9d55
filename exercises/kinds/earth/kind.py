"""The earth's field and the moment together, the magnetometer's own method of absolute measurement.

Two ways in: the deflections end-on give m/B_H = (4π/µ0)(d² − l²)² tan θ / 2d, and
the period of the same magnet swinging in the earth's field alone gives
m·B_H = 4π²I/T², with I = M(L² + b²)/12.  Their product is m², their quotient B_H².
"""

import math
from functools import cache

from exercises.codes.sheet_code import SheetCode
from exercises.kinds.deflection import old_steps as deflection
from exercises.kinds.deflection.old_steps import BRACKET, LENGTHS, TANGENT, row_step
from exercises.kinds.earth.draw import ROWS, Survey, draw_survey
from exercises.kinds.earth.page import EarthPage
from exercises.kinds.earth.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.kind import Kind
from exercises.slips.catalogue import Slip, slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.working.arithmetic import total
from exercises.working.numbers import figures, places
from exercises.working.safely import over, root
from exercises.working.steps import Plan, Step, Working, hidden_step

THEORY = "exercises/earth/"
SHARED = (
    "metres",
    "magnetic_length",
    "half_length",
    "distance",
    "tangent",
    "outer_square",
    "twice_d",
    "field_constant",
)


def _ratio_part(a, *, tangent, bracket, twice_d, k, **_):
    return a.product(tangent, bracket, a.keep(1 / twice_d)) / k


def _swing_time(a, timings, swings):
    return a.either(
        lambda: a.keep(a.keep(a.total(timings) / len(timings)) / swings),
        lambda: a.keep(a.total(a.keep(t / swings) for t in timings) / len(timings)),
    )


def _bar_inertia(a, M, L, b):
    squares = a.keep(a.keep(L * L) + a.keep(b * b))
    return a.either(
        lambda: a.keep(a.keep(M * squares) / 12),
        lambda: a.keep(M * a.keep(squares / 12)),
        lambda: a.keep(a.keep(M / 12) * squares),
        lambda: a.keep(a.keep(M * a.keep(L * L) / 12) + a.keep(M * a.keep(b * b) / 12)),
    )


PARTS = {
    **{name: deflection.PARTS[name] for name in SHARED},
    "bracket_sign": lambda: -1,
    "ratio_value": _ratio_part,
    "swing_time": _swing_time,
    "bar_units": lambda M, L, b: (M, L, b),
    "bar_inertia": _bar_inertia,
    "four_pi_squared": lambda: 4 * math.pi**2,
    "period_power": lambda T: T * T,
    "under_root": lambda a, product, ratio, wanted: product * (ratio if wanted == "m" else a.apply(over, ratio)),
    "final_root": lambda a, x: a.apply(root, x),
}


def _tangent(row):
    # of an angle that is given, so that only its own rounding counts, which may be done twice
    return lambda a, known, givens, parts: a.tangent(a.tangent(parts["tangent"](a, known[f"mean-{row + 1}"])))


def _ratio(row):
    at, tangent, bracket = f"d-{row + 1}", f"tan-{row + 1}", f"bracket-{row + 1}"

    def formula(a, known, givens, parts):
        d = known[at]
        return a.keep(
            parts["ratio_value"](
                a,
                tangent=known[tangent],
                bracket=known[bracket],
                twice_d=parts["twice_d"](a, d),
                k=parts["field_constant"](),
                d=d,
                l=known["l"],
            )
        )

    return formula


def _mean_ratio(a, known, givens, parts):
    return a.keep(a.keep(a.total(known[f"ratio-{i + 1}"] for i in range(ROWS))) / ROWS)


def _period(a, known, givens, parts):
    return a.keep(parts["swing_time"](a, givens["timings"], givens["swings"]))


def _inertia(a, known, givens, parts):
    return a.keep(parts["bar_inertia"](a, *parts["bar_units"](givens["mass"], givens["length"], givens["breadth"])))


def _product(a, known, givens, parts):
    squared = a.keep(parts["period_power"](known["period"]))
    return a.product(a.keep(parts["four_pi_squared"]()), known["inertia"], a.keep(a.apply(over, squared)))


def _result(wanted):
    def formula(a, known, givens, parts):
        under = a.keep(parts["under_root"](a, known["product"], known["ratio"], wanted))
        return a.keep(parts["final_root"](a, under))

    return formula


# -- how each step looks with its numbers put in -----------------------------


def _tangent_line(row):
    return lambda known, givens: (
        f"tan θ = tan {places(givens['theta'][row], 1)}° = {places(known[f'tan-{row + 1}'], 4)}"
    )


def _ratio_line(row):
    return lambda known, givens: (
        f"m/B_H = 10⁷ × {figures(known[f'bracket-{row + 1}'], 4)} × {places(known[f'tan-{row + 1}'], 4)} "
        f"/ (2 × {figures(givens['d'][row])}) = {figures(known[f'ratio-{row + 1}'], 4)} A·m²/T"
    )


def _mean_ratio_line(known, givens):
    added = " + ".join(figures(known[f"ratio-{i + 1}"], 4) for i in range(ROWS))
    return f"m/B_H = ({added}) / {ROWS} = {figures(known['ratio'], 4)} A·m²/T"


def _period_line(known, givens):
    times = " + ".join(places(t, 1) for t in givens["timings"])
    return (
        f"mean time = ({times}) / {len(givens['timings'])} = {places(total(givens['timings']) / len(givens['timings']), 2)} s;  "
        f"T = mean time / {givens['swings']} = {figures(known['period'], 4)} s"
    )


def _inertia_line(known, givens):
    M, L, b = (figures(givens[k]) for k in ("mass", "length", "breadth"))
    return f"I = M(L² + b²)/12 = {M} × ({L}² + {b}²) / 12 = {figures(known['inertia'], 4)} kg·m²"


def _product_line(known, givens):
    return (
        f"m·B_H = 4π²I/T² = 39.48 × {figures(known['inertia'], 4)} / {figures(known['period'], 4)}² "
        f"= {figures(known['product'], 4)} A·m²·T"
    )


def _moment_line(known, givens):
    return f"m = √(({figures(known['product'], 4)}) × ({figures(known['ratio'], 4)})) = {figures(known['moment'])} A·m²"


def _earth_line(known, givens):
    return (
        f"B_H = √(({figures(known['product'], 4)}) / ({figures(known['ratio'], 4)})) = {figures(known['earth'])} T "
        f"= {places(known['earth'] * 1e6, 1)} µT"
    )


RATIO = dict(
    column="ratio",
    title="m/B_H",
    quantity="m_over_B",
    rule="figures",
    make=_ratio,
    line=_ratio_line,
    needs=("d", "l", "tan", "bracket"),
    hints=(
        "The formula of the moment end-on, with B_H carried to the other side: m/B_H = 10⁷ · (d² − l²)² · tan θ / (2d).",
        "Multiply tan θ by (d² − l²)², divide by 2d in metres, and multiply by 10⁷. It is a large number: B_H is small.",
    ),
    read=f"{THEORY}#the-ratio-from-the-deflection",
)


def _step(id, title, quantity, needs, formula, line, hints, read, looks_back=False) -> Step:
    return Step(id, id, title, quantity, "figures", needs, formula, line, hints, read, looks_back=looks_back)


MEAN_RATIO = _step(
    "ratio",
    "mean m/B_H",
    "m_over_B",
    tuple(f"ratio-{i + 1}" for i in range(ROWS)),
    _mean_ratio,
    _mean_ratio_line,
    ("Add the two and divide by two.",),
    f"{THEORY}#the-ratio-from-the-deflection",
    looks_back=True,
)
VIBRATION = (
    _step(
        "period",
        "period T",
        "time",
        (),
        _period,
        _period_line,
        ("Take the mean of the three timings first.", "Then divide by the number of swings: T is the time of one."),
        f"{THEORY}#one-swing-there-and-back",
    ),
    _step(
        "inertia",
        "moment of inertia I",
        "inertia",
        (),
        _inertia,
        _inertia_line,
        (
            "I = M(L² + b²)/12, with the bar's measured length and breadth, and not its magnetic length.",
            "M in kilograms, L and b in metres. Square each side, add, multiply by M, divide by 12.",
        ),
        f"{THEORY}#length-and-breadth",
    ),
    _step(
        "product",
        "m·B_H",
        "m_times_B",
        ("inertia", "period"),
        _product,
        _product_line,
        (
            "Square T = 2π√(I/(m·B_H)) and solve it for m·B_H.",
            "m·B_H = 4π²I/T²: square the period, and take 4π² as 39.48.",
        ),
        f"{THEORY}#the-product-from-the-period",
    ),
)
RESULT = (
    _step(
        "moment",
        "moment m",
        "moment",
        ("product", "ratio"),
        _result("m"),
        _moment_line,
        ("Multiply m·B_H by m/B_H: what is left?", "The B_H goes away and m² stays. Take the square root."),
        f"{THEORY}#both-from-the-two",
    ),
    _step(
        "earth",
        "B_H",
        "field",
        ("product", "ratio"),
        _result("B_H"),
        _earth_line,
        (
            "Divide m·B_H by m/B_H: what is left?",
            "The m goes away and B_H² stays. Take the square root. In tesla it is a few times 10⁻⁵: turn it into µT.",
        ),
        f"{THEORY}#both-from-the-two",
    ),
)


def _given_distance(row):
    return hidden_step(f"d-{row + 1}", (), deflection._distance(row))


def _given_angle(row):
    return hidden_step(f"mean-{row + 1}", (), lambda a, known, givens, parts: givens["theta"][row])


@cache
def plan_for(rows: int) -> Plan:
    """The plan of a sheet: the whole of it for two rows; for fewer, as the draw tries them, no results."""
    if rows == 0:
        return Plan(VIBRATION)
    hidden = [_given_distance(row) for row in range(rows)] + [_given_angle(row) for row in range(rows)]
    tangent = {**TANGENT, "make": _tangent, "line": _tangent_line}
    steps = [row_step(spec, row) for row in range(rows) for spec in (tangent, BRACKET, RATIO)]
    rest = (MEAN_RATIO, *VIBRATION, *RESULT) if rows == ROWS else ()
    return Plan((*LENGTHS, *hidden, *steps, *rest))


def working(survey: Survey) -> Working:
    """The working of a survey of as many rows as it has so far."""
    bar = survey.bar
    givens = {
        "length": bar.length,
        "breadth": bar.width,
        "mass": survey.mass,
        "d": tuple(row.d for row in survey.rows),
        "theta": survey.thetas,
        "swings": survey.swings,
        "timings": survey.timings,
    }
    return Working(plan_for(len(survey.rows)), givens, PARTS)


SLIPS = slips_for("earth", PARTS, (*OF_DEFLECTION, *OF_THIS_KIND))


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> Survey:
    """The numbers of a code of edition 1."""
    return draw_survey(code, working, working, slips)


PAGE = EarthPage()
KIND = Kind("E", "earth", "The earth's field and the moment together", {1: draw_first_edition}, working, PAGE, SLIPS)

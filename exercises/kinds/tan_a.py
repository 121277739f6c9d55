"""Tan A: the magnetic moment and pole strength of a bar magnet, end-on, by deflection.

Arms east–west, the magnet along the arm.  At each distance d: the mean of the
eight readings, its tangent, (d² − l²)², and m = (4π/µ0)·B_H·(d²−l²)²·tan θ / 2d.
Then the mean moment, and the pole strength m / 2l, with 2l = 5/6 of the
measured length (common practice).
"""

import math

from exercises import uncertainty
from exercises.diagnosis import tells_apart
from exercises.field import MU_0_OVER_4PI, distance_end_on, field_from_deflection, moment_end_on
from exercises.instrument import Box, Magnet, eight_readings
from exercises.kinds import Kind
from exercises.scenario import (
    ARM_LENGTH,
    READING_ERROR,
    Draw,
    Row,
    Scenario,
    draw_bar,
    draw_faults,
    draw_length_mm,
    draw_place,
    to_grid,
)
from exercises.sheet_code import SheetCode
from exercises.slips import slips_for
from exercises.working import Step, Working

MAGNETIC_SHARE = 5 / 6  # magnetic length over measured length, common practice
LOWEST, HIGHEST = 30.0, 60.0  # degrees, the deflections worth taking
BOX = Box(radius=0.040, needle=0.006)

# -- the working ------------------------------------------------------------

PARTS = {
    "metres": lambda x: x,
    "magnetic_length": lambda a, givens, parts: a.keep(MAGNETIC_SHARE * parts["metres"](givens["length"])),
    "half_length": lambda a, two_l: a.keep(two_l / 2),
    "distance": lambda a, d, givens: d,
    "tangent": lambda a, theta: a.apply(lambda x: math.tan(math.radians(x)), theta),
    "bracket_sign": lambda: -1,
    "outer_square": lambda a, difference: difference**2,
    "twice_d": lambda a, d: 2 * d,
    "field_constant": lambda: MU_0_OVER_4PI,
    "moment": lambda a, *, B_H, tangent, bracket, twice_d, k, **_: a.product(
        B_H, tangent, bracket, a.keep(1 / twice_d)
    )
    / k,
    "pole_length": lambda a, givens, parts: parts["magnetic_length"](a, givens, parts),
}


def _half_length(a, givens, parts):
    return parts["half_length"](a, parts["magnetic_length"](a, givens, parts))


def _distance(a, givens, parts, row):
    return parts["metres"](parts["distance"](a, givens["d"][row], givens))


def _mean(row):
    def formula(a, known, givens, parts):
        halves = givens["readings"][row][:4], givens["readings"][row][4:]
        # a mean of each arm, then of both; as one sum the first rounding is not there
        return a.angle(sum(a.angle(sum(half) / 4) for half in halves) / 2)

    return formula


def _tangent(row):
    def formula(a, known, givens, parts):
        return a.tangent(parts["tangent"](a, known[f"mean-{row + 1}"]))

    return formula


def _bracket(row):
    def formula(a, known, givens, parts):
        d, l = _distance(a, givens, parts, row), _half_length(a, givens, parts)
        sign = parts["bracket_sign"]()
        difference = a.either(
            lambda: a.keep(a.keep(d * d) + sign * a.keep(l * l)),
            # the same by (d − l)(d + l); with the wrong sign there is no such form
            lambda: a.keep(a.keep(d - l) * a.keep(d + l)) if sign < 0 else a.keep(d * d + l * l),
        )
        return a.keep(parts["outer_square"](a, difference))

    return formula


def _moment(row):
    def formula(a, known, givens, parts):
        d = _distance(a, givens, parts, row)
        return a.keep(
            parts["moment"](
                a,
                B_H=givens["B_H"],
                tangent=known[f"tan-{row + 1}"],
                bracket=known[f"bracket-{row + 1}"],
                twice_d=parts["twice_d"](a, d),
                k=parts["field_constant"](),
                d=d,
                l=_half_length(a, givens, parts),
            )
        )

    return formula


def _mean_moment(rows):
    def formula(a, known, givens, parts):
        return a.keep(a.keep(sum(known[f"moment-{i + 1}"] for i in range(rows))) / rows)

    return formula


def _pole(a, known, givens, parts):
    return a.keep(known["mean-moment"] / a.keep(parts["pole_length"](a, givens, parts)))


ROW_STEPS = (
    dict(
        column="mean",
        title="mean deflection θ",
        quantity="angle",
        rule="angle",
        make=_mean,
        hints=("Add all eight readings of this distance and divide by eight.",),
        read="before/eight-readings/#the-mean-of-eight",
    ),
    dict(
        column="tan",
        title="tan θ",
        quantity="ratio",
        rule="tangent",
        make=_tangent,
        needs=("mean",),
        hints=(
            "Take the tangent of the mean deflection, with the calculator set to degrees. Keep four places.",
            "Below 45° the tangent is less than 1; at 45° it is 1; above, it is more.",
        ),
        read="before/tangent-law/#the-tangent-not-the-sine",
    ),
    dict(
        column="bracket",
        title="(d² − l²)²",
        quantity="length4",
        rule="figures",
        make=_bracket,
        hints=(
            "Turn d and l into metres first. l is half the magnetic length, and the magnetic length is 5/6 "
            "of the measured length.",
            "Square d, square l, subtract, and square what is left.",
        ),
        read="before/field-end-on/#the-bracket-is-squared",
    ),
    dict(
        column="moment",
        title="moment m",
        quantity="moment",
        rule="figures",
        make=_moment,
        needs=("tan", "bracket"),
        hints=(
            "m = (4π/µ₀) · B_H · (d² − l²)² · tan θ / 2d, with 4π/µ₀ = 10⁷ and B_H in tesla.",
            "Multiply B_H, tan θ and (d² − l²)², divide by 2d in metres, and multiply by 10⁷.",
        ),
        read="before/field-end-on/#the-moment-from-the-deflection",
    ),
)


def steps_for(rows: int) -> tuple[Step, ...]:
    """The steps of a sheet with that many distances."""
    steps = []
    for row in range(rows):
        for spec in ROW_STEPS:
            more = dict(spec)
            make = more.pop("make")
            needs = tuple(f"{n}-{row + 1}" for n in more.pop("needs", ()))
            steps.append(Step(id=f"{spec['column']}-{row + 1}", row=row, formula=make(row), needs=needs, **more))
    steps.append(
        Step(
            id="mean-moment",
            column="mean-moment",
            title="mean moment m",
            quantity="moment",
            rule="figures",
            needs=tuple(f"moment-{i + 1}" for i in range(rows)),
            formula=_mean_moment(rows),
            hints=("Add the moments of all distances and divide by how many there are.",),
            read="before/result/#the-mean-moment",
        )
    )
    steps.append(
        Step(
            id="pole",
            column="pole",
            title="pole strength p",
            quantity="pole",
            rule="figures",
            needs=("mean-moment",),
            formula=_pole,
            hints=(
                "p = m / 2l: divide the mean moment by the magnetic length.",
                "The magnetic length 2l is 5/6 of the measured length, in metres.",
            ),
            read="before/result/#pole-strength",
            looks_back=False,
        )
    )
    return tuple(steps)


def working(scenario: Scenario) -> Working:
    """The working of a tan A scenario."""
    givens = {
        "B_H": scenario.B_H,
        "length": scenario.bar.length,
        "d": tuple(r.d for r in scenario.rows),
        "readings": tuple(r.readings for r in scenario.rows),
    }
    return Working(steps_for(len(scenario.rows)), givens, PARTS)


# -- the draw ---------------------------------------------------------------


def _row(draw: Draw, scenario: dict, d: float) -> Row | None:
    """Eight readings at d, if they can be used: within limits and diagnosable."""
    bar = scenario["bar"]
    errors = tuple(draw.normal(READING_ERROR) for _ in range(8))
    readings = eight_readings(
        Magnet(bar.moment, bar.magnetic_length / 2),
        scenario["B_H"],
        d,
        BOX,
        scenario["faults"],
        errors,
        scenario["scale_step"],
    )
    if not (LOWEST <= min(readings) and max(readings) <= HIGHEST):
        return None
    row = Row(d, readings)
    givens = {"B_H": scenario["B_H"], "length": bar.length, "d": (d,), "readings": (readings,)}
    alone = Working(ONE_ROW, givens, PARTS)
    if all(tells_apart(alone, step, SLIPS) for step in ONE_ROW if step.column in ("tan", "bracket", "moment")):
        return row
    return None


ONE_ROW = steps_for(1)
SLIPS = slips_for("tan-a", PARTS)


def _attempt(draw: Draw, code: SheetCode) -> Scenario | None:
    setting = code.setting
    place, year, month, B_H = draw_place(draw, setting)
    length_mm = draw_length_mm(draw, setting)
    magnetic = to_grid(length_mm * 1e-3 * draw.between(0.82, 0.85), 10000)
    # l/d near 0.19 keeps the l² term big enough to see and the magnet clear of the box
    d45 = length_mm * 1e-3 * MAGNETIC_SHARE / 2 / draw.between(0.170, 0.205)
    moment = float(f"{moment_end_on(B_H, d45, magnetic / 2):.2e}")
    bar = draw_bar(draw, length_mm, magnetic, moment)
    if bar is None:
        return None
    step = setting.scale_step or draw.pick((1.0, 0.5))
    faults = draw_faults(draw)
    shared = {"bar": bar, "B_H": B_H, "faults": faults, "scale_step": step}
    near, far = (
        distance_end_on(moment, field_from_deflection(angle, B_H), magnetic / 2) for angle in (58.5, 31.5)
    )
    if near - bar.length / 2 < BOX.radius + 0.01 or far + bar.length / 2 > ARM_LENGTH:
        return None
    count = setting.distances or draw.pick((4, 5, 6))
    rows = []
    for i in range(count):
        low, high = near + (far - near) * i / count, near + (far - near) * (i + 1) / count
        grid = range(math.ceil(low * 1000), math.floor(high * 1000) + 1)
        for mm in draw.shuffled(grid):
            if rows and mm / 1000 - rows[-1].d < 0.004:
                continue
            row = _row(draw, shared, mm / 1000)
            if row is not None:
                rows.append(row)
                break
        else:
            return None
    scenario = Scenario(
        code, place, year, month, B_H, bar, BOX, faults, step, ARM_LENGTH, tuple(rows)
    )
    return scenario if _consistent(scenario) else None


def _consistent(scenario: Scenario) -> bool:
    """The answer lies within its own uncertainty of the truth, and the mean is diagnosable."""
    work = working(scenario)
    found = work.value("mean-moment")
    spread = relative_uncertainty(scenario) * found
    if abs(found - scenario.bar.moment) > 2 * spread:
        return False
    return all(tells_apart(work, work.by_id[s], SLIPS) for s in ("mean-moment", "pole"))


def relative_uncertainty(scenario: Scenario) -> float:
    """Relative standard uncertainty of the mean moment of a scenario."""
    l = MAGNETIC_SHARE * scenario.bar.length / 2
    rows = [(row.mean, row.d) for row in scenario.rows]
    return uncertainty.mean_moment(rows, l, scenario.scale_step, scenario.box.needle)


def draw_first_edition(code: SheetCode) -> Scenario:
    """The numbers of a code of edition 1: attempts from one stream until one is good."""
    draw = Draw(code)
    for _ in range(5000):
        scenario = _attempt(draw, code)
        if scenario is not None:
            return scenario
    raise ArithmeticError(f"no consistent numbers exist for code {code}; use another code")


KIND = Kind("A", "tan-a", "Tan A: moment and pole strength", {1: draw_first_edition}, working, None)

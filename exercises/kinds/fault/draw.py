"""Numbers for a sheet with a fault to be found: one fault planted, read by an eye, and kept if the fit finds it.

A known share has no fault, and a smaller one a fault that the readings do not
tell from another: a slight zero error or arms slightly off east–west.
"""

import math
from dataclasses import replace

from exercises.bench.fault_fit import Fit, fit_all, named, variance
from exercises.bench.field import distance_end_on, field_from_deflection, moment_end_on
from exercises.bench.instrument import Faults, Magnet, eight_readings
from exercises.codes.scenario import (
    ARM_LENGTH,
    READING_ERROR,
    Draw,
    Row,
    draw_bar,
    draw_length_mm,
    draw_place,
    to_grid,
)
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.draw import BOX, CLEARANCE
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.deflection.steps import MAGNETIC_SHARE

#: Key, label, and what is said when it is wrongly chosen.
CHOICES = (
    (
        "pivot",
        "the pivot is off the centre of the scale",
        "A pivot off centre makes one end of the pointer read more than the other at every place. Compare ① with ②.",
    ),
    (
        "zero",
        "a zero error of the scale",
        "A zero error sets N east against N west by the same angle at every distance. Compare these at both distances; "
        "if two faults would do as well, say that the readings do not decide.",
    ),
    (
        "board",
        "the arms are not truly east–west",
        "Arms off east–west set N east against N west, and more so the farther the needle is turned. "
        "Compare these at both distances; if two faults would do as well, say that the readings do not decide.",
    ),
    (
        "box",
        "the box is not at the zero of the distance scale",
        "A box off the zero sets the readings of the east arm against those of the west arm. Compare the arms.",
    ),
    (
        "centre",
        "the magnetic centre is not the middle of the bar",
        "A magnetic centre off the middle sets N outward against N inward. Compare these two.",
    ),
    (
        "misread",
        "one reading is misread",
        "One misread value stands alone: its seven fellows agree without it. Look for one reading far out of line.",
    ),
    (
        "distance",
        "one distance is misread",
        "A misread distance makes all eight readings there too large or too small beside the other distances.",
    ),
    (
        "none",
        "no fault beyond chance",
        "There is more here than the eye's own scatter, which is a few tenths of a degree. Look at the differences again.",
    ),
    (
        "undecided",
        "the readings do not decide",
        "They do decide: one fault fits these readings clearly better than any other. Look at the differences again.",
    ),
)
REMOVED = {
    **dict.fromkeys(("pivot", "zero", "board", "box", "centre", "undecided"), "yes"),
    "misread": "no",
    "distance": "no",
    "none": "nothing",
}

#: Sizes that plainly show (m, degrees), with either sign.
SIZES = {
    "pivot": (0.8e-3, 1.5e-3),
    "zero": (1.5, 3.0),
    "board": (3.0, 5.5),
    "box": (2e-3, 4e-3),
    "centre": (2e-3, 4e-3),
}
SLIGHT = {"zero": (0.5, 1.0), "board": (1.0, 2.0)}  # sizes that may not be told apart
FIELD = {"pivot": "pivot_x", "zero": "zero_error", "board": "arm_off", "box": "box_shift", "centre": "centre_shift"}
#: What is planted, one of these with equal chance: none in 2 of 17, undecided in 1 of 17.
PLANTED = (*(2 * ("pivot", "zero", "board", "box", "centre", "misread", "distance")), "none", "none", "undecided")
LOWEST, HIGHEST = 25.0, 65.0  # degrees, any one reading that is not misread
LEAST_HALF = 0.15  # degrees, half the largest difference at the nearest distance: from less no shift is worked
ATTEMPTS = 3000


def verdict(scenario: DeflectionScenario) -> tuple[str, Fit]:
    """What the readings say, and the best fit: (a key of `CHOICES`, Fit)."""
    if "fits" not in scenario.more:
        rows = [(r.d, r.readings) for r in scenario.rows]
        scenario.more["fits"] = fit_all(rows, MAGNETIC_SHARE * scenario.bar.length / 2, scenario.scale_step)
    fits = scenario.more["fits"]
    return named(fits), fits[0]


def draw_fault(code: SheetCode, working, slips) -> DeflectionScenario:
    """The numbers of a code: what is planted first, then attempts from one stream until the readings show it."""
    draw = Draw(code)
    planted = draw.pick(PLANTED)
    for _ in range(ATTEMPTS):
        scenario = _attempt(draw, code, planted)
        if scenario is not None and _good(scenario, working, slips):
            return scenario
    raise ArithmeticError(f"no fault that shows was found for code {code}; use another code")


def _size(draw: Draw, limits: tuple[float, float], grid: float) -> float:
    size = round(draw.between(*limits) / grid) * grid
    return size if draw.below(2) else -size


def _attempt(draw: Draw, code: SheetCode, planted: str) -> DeflectionScenario | None:
    setting = code.setting
    place, year, month, B_H = draw_place(draw, setting)
    length_mm = draw_length_mm(draw, setting)
    magnetic = to_grid(length_mm * 1e-3 * draw.between(0.82, 0.85), 10000)
    d45 = length_mm * 1e-3 * MAGNETIC_SHARE / 2 / draw.between(0.170, 0.205)
    moment = float(f"{moment_end_on(B_H, d45, magnetic / 2):.2e}")
    bar = draw_bar(draw, length_mm, magnetic, moment)
    if bar is None:
        return None
    step = setting.scale_step or draw.pick((1.0, 0.5))
    count = setting.distances or draw.pick((4, 5))
    near, far = (distance_end_on(moment, field_from_deflection(t, B_H), magnetic / 2) for t in (56.5, 33.5))
    if near - bar.length / 2 < BOX.radius + CLEARANCE or far + bar.length / 2 > ARM_LENGTH:
        return None
    faults, size = Faults(), 0.0
    kind = draw.pick(("zero", "board")) if planted == "undecided" else planted
    if kind in FIELD:
        limits = SLIGHT[kind] if planted == "undecided" else SIZES[kind]
        size = _size(draw, limits, 0.1 if kind in ("zero", "board") else 1e-4)
        faults = replace(faults, **{FIELD[kind]: size})
    span = (far - near) / count
    distances = [to_grid(near + span * (i + draw.between(0.2, 0.8)), 1000) for i in range(count)]
    rows = []
    for d in distances:
        errors = tuple(draw.normal(READING_ERROR) for _ in range(8))
        readings = eight_readings(Magnet(moment, magnetic / 2), B_H, d, BOX, faults, errors, step)
        if min(readings) < LOWEST or max(readings) > HIGHEST:
            return None
        rows.append(Row(d, readings))
    more = {"planted": planted, "kind": kind, "size": size}
    if kind == "misread":
        row, at, size = draw.below(count), draw.below(8), draw.pick((-10.0, -5.0, 5.0, 10.0))
        readings = list(rows[row].readings)
        readings[at] += size
        rows[row] = Row(rows[row].d, tuple(readings))
        more.update(row=row, reading=at, size=size)
    if kind == "distance":
        row, size = draw.below(count), draw.pick((-0.010, -0.005, 0.005, 0.010))
        rows[row] = Row(to_grid(rows[row].d + size, 1000), rows[row].readings)
        more.update(row=row, size=size)
        ds = [r.d for r in rows]
        if any(b - a < 0.002 for a, b in zip(ds, ds[1:])):
            return None
    return DeflectionScenario(code, place, year, month, B_H, bar, BOX, faults, step, ARM_LENGTH, tuple(rows), more)


def _good(scenario: DeflectionScenario, working, slips) -> bool:
    """Whether the fit names what was planted, leaves no more than chance, and the slips can be told apart."""
    found, fit = verdict(scenario)
    planted = scenario.more["planted"]
    if found != planted:
        return False
    if found in ("misread", "distance") and (fit.row != scenario.more["row"] or fit.size * scenario.more["size"] < 0):
        return False
    fits = scenario.more["fits"]
    if found == "undecided" and {fits[0].fault, fits[1].fault} != {"zero", "board"}:
        return False
    freedom = 8 * len(scenario.rows) - 2
    if fit.left > variance(scenario.scale_step) * (freedom + 3 * math.sqrt(2 * freedom)):
        return False
    made = working(scenario)
    if made.value("half") < LEAST_HALF:
        return False
    if found == "misread" and not fit.reading == stray(scenario.rows[fit.row].readings) == scenario.more["reading"]:
        return False
    return tells_apart(made, slips, [s.id for s in made.steps if not s.choices])


def stray(readings) -> int:
    """Which of the eight lies farthest from the mean of the others."""
    total = sum(readings)
    return max(range(8), key=lambda i: abs(readings[i] - (total - readings[i]) / 7))

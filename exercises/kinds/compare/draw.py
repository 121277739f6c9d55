"""Numbers for comparing two magnets, drawn within physical limits.

Magnets of clearly different lengths, so that the l² terms do not drop out of the
ratio; both deflect to 30°–60° at one distance; each balance is one that a person
can set, with both magnets clear of the box and on the arms.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from exercises.bench.balance import (
    balance_distance,
    four_balances,
    own_faults,
    ratio_uncertainty_by_angles,
    ratio_uncertainty_by_balance,
)
from exercises.bench.field import distance_end_on, field_from_deflection, moment_end_on
from exercises.bench.instrument import Magnet, eight_readings
from exercises.bench.magnets import Bar
from exercises.codes.scenario import (
    ARM_LENGTH,
    READING_ERROR,
    Draw,
    draw_faults,
    draw_field,
    draw_length_mm,
    first_good,
    to_grid,
)
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.compare.scenario import Balance, Comparison
from exercises.kinds.compare.steps import working
from exercises.kinds.deflection.bars import draw_bar, strengths_of
from exercises.kinds.deflection.lengths import FIVE_SIXTHS, LengthRule, rule_of
from exercises.kinds.deflection.stretch import BOX, CLEARANCE, HIGHEST, LOWEST
from exercises.slips.catalogue import Slip

SHORTER = (0.50, 0.62)  # the second magnet's length as a share of the longer one's
SHORT = 66  # mm; a laboratory's magnet below this is the shorter of the two
SHARES = (0.32, 0.38)  # l/d of the longer magnet at the one distance, if it is clear of the box there
WEAKEST_AT = 40.0  # degrees; so far off the weakest bar at least turns the needle less: nearer, few bars are of use
FARTHEST = 0.30  # least l₁/d₁ of a balance, so that l² is still seen
TRIES = 5  # distances d₁ tried for each balance


def draw_comparison(code: SheetCode, slips: tuple[Slip, ...]) -> Comparison:
    """The numbers of a code: attempts from one stream until one is good.

    The laboratory's length is that of magnet 1.  ArithmeticError if nothing is found.
    """
    return first_good(Draw(code), slips, lambda draw, slips: _attempt(draw, code, slips))


def _attempt(draw: Draw, code: SheetCode, slips: tuple[Slip, ...]) -> Comparison | None:
    deflected = _deflections(draw, code)
    if deflected is None or not _apart(deflected, slips, ("tan-1", "tan-2", "bracket-1", "bracket-2", "ratio-angles")):
        return None
    scenario = _balances(draw, deflected, slips)
    return scenario if scenario is not None and _near_truth(scenario) else None


def _apart(scenario: Comparison, slips: tuple[Slip, ...], step_ids: Sequence[str]) -> bool:
    return tells_apart(working(scenario), slips, step_ids)


def _magnet_of(bar: Bar) -> Magnet:
    return Magnet(bar.moment, bar.magnetic_length / 2)


def _deflections(draw: Draw, code: SheetCode) -> Comparison | None:
    """Both magnets and their eight readings at one distance, or None."""
    field = draw_field(draw, code.setting)
    B_H = field.B_H
    first = draw_length_mm(draw, code.setting)
    share = draw.between(*SHORTER)
    lengths = (first, round(first * share if first >= SHORT else first / share))
    rule = rule_of(code.setting)
    half = max(lengths) / 2
    nearest = max(half * FIVE_SIXTHS / draw.between(*SHARES), half + (BOX.radius + CLEARANCE) * 1000)
    weakest = max(
        min(of.weakest for of in strengths_of(rule, length_mm, materials=draw.materials)) for length_mm in lengths
    )
    nearest = max(nearest, 1000 * distance_end_on(weakest, field_from_deflection(WEAKEST_AT, B_H), half / 1000))
    d = math.ceil(nearest / code.setting.grid_mm) * code.setting.grid_mm / 1000
    bars = _bars(draw, lengths, d, B_H, rule)
    if bars is None:
        return None
    faults = draw_faults(draw)
    both = faults, own_faults(faults, draw.between(-1e-3, 1e-3), draw.between(-2.0, 2.0))
    step = code.setting.scale_step or draw.pick((1.0, 0.5))
    readings = []
    for bar, fault in zip(bars, both, strict=True):
        errors = draw.normals(READING_ERROR, 8)
        seen = eight_readings(_magnet_of(bar), B_H, d, BOX, fault, errors, step)
        if min(seen) < LOWEST or max(seen) > HIGHEST:
            return None
        readings.append(seen)
    return Comparison(code, field, bars, BOX, both, step, d, (readings[0], readings[1]))


def _bars(draw: Draw, lengths: tuple[int, int], d: float, B_H: float, rule: LengthRule) -> tuple[Bar, Bar] | None:
    """Two bars of these lengths (mm), one of which deflects well above 45° at d and one well below, or None."""
    targets = draw.shuffled((draw.between(47, 57), draw.between(33, 42)))
    bars: list[Bar] = []
    for length_mm, target in zip(lengths, targets, strict=True):
        bar = draw_bar(draw, length_mm, rule, partial(_moment_at, field_from_deflection(target, B_H), d))
        if bar is None:
            return None
        bars.append(bar)
    one, two = bars
    other = draw.pick([bird for bird in draw.birds if bird != one.name])
    return one, replace(two, name=other)


def _moment_at(field: float, d: float, two_l: float) -> float:
    """The moment (A·m²) of a bar of this 2l (m) that makes a field (T) at d (m)."""
    return moment_end_on(field, d, two_l / 2)


def _balances(draw: Draw, scenario: Comparison, slips: tuple[Slip, ...]) -> Comparison | None:
    """The scenario with two or three balances at well-spread d₁, or None."""
    count = draw.pick((2, 3))
    nearest = max(bar.length / 2 for bar in scenario.bars) + BOX.radius + CLEARANCE
    farthest = max(nearest + 0.02, max(scenario.halves) / FARTHEST)
    found: list[Balance] = []
    for i in range(count):
        low, high = nearest + (farthest - nearest) * i / count, nearest + (farthest - nearest) * (i + 0.7) / count
        for _ in range(TRIES):
            d1 = to_grid(draw.between(low, high), 1000 // scenario.code.setting.grid_mm)
            balance = _balance(draw, scenario, d1)
            if balance and _apart(replace(scenario, balances=(balance,)), slips, ("near-1", "far-1", "ratio-1")):
                found.append(balance)
                break
        else:
            return None
    scenario = replace(scenario, balances=tuple(found))
    return scenario if _apart(scenario, slips, ("mean-ratio",)) else None


def _balance(draw: Draw, scenario: Comparison, d1: float) -> Balance | None:
    errors = draw.normals(READING_ERROR, 4)
    magnets = _magnet_of(scenario.bars[0]), _magnet_of(scenario.bars[1])
    try:
        if not _lies_well(scenario.bars[1], balance_distance(magnets, d1)):
            return None  # before the four are looked for one by one
        found = four_balances(magnets, d1, scenario.B_H, BOX.needle, scenario.faults, errors)
    except ArithmeticError:
        return None
    good = _lies_well(scenario.bars[0], d1) and all(_lies_well(scenario.bars[1], d) for d in found)
    return Balance(d1, found) if good else None


def _lies_well(bar: Bar, d: float) -> bool:
    """Whether a magnet with its middle at d is clear of the box and on the arm."""
    return d - bar.length / 2 >= BOX.radius + CLEARANCE and d + bar.length / 2 <= ARM_LENGTH


def uncertainties(scenario: Comparison) -> tuple[float, float]:
    """Relative standard uncertainties of both ratios: by the angles, by the balances."""
    by_angles = ratio_uncertainty_by_angles(
        scenario.angles, scenario.d, scenario.halves, scenario.scale_step, scenario.box.needle
    )
    pairs = [(b.d1, b.d2) for b in scenario.balances]
    return by_angles, ratio_uncertainty_by_balance(pairs, scenario.halves, scenario.box.needle)


def _near_truth(scenario: Comparison) -> bool:
    """Whether both ratios lie within twice their standard uncertainty of the true one."""
    worked = working(scenario)
    found = worked.value("ratio-angles"), worked.value("mean-ratio")
    return all(
        math.fabs(ratio / scenario.true_ratio - 1) <= 2 * u
        for ratio, u in zip(found, uncertainties(scenario), strict=True)
    )

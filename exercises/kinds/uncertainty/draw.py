"""Numbers for the uncertainty of a moment: one of the four shares stands out, each in turn."""

import math
from collections.abc import Iterator, Mapping
from itertools import count
from typing import Any, NamedTuple

from exercises.bench import uncertainty
from exercises.bench.field import distance_end_on, field_from_deflection
from exercises.bench.instrument import Box, Magnet, eight_places, read_off
from exercises.bench.student_t import t95
from exercises.bench.uncertainty import ROOT_3
from exercises.codes.scenario import ARM_LENGTH, READING_ERROR, Draw, Row, draw_faults, first_good, to_grid
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.draw import draw_magnet
from exercises.kinds.deflection.stretch import BOX, CLEARANCE, END_ON, HIGHEST, LOWEST
from exercises.kinds.uncertainty.budget import NAMES, figures_to_quote, freedom, rounds_plainly, scatter
from exercises.kinds.uncertainty.scenario import Budget, working, working_of_inputs
from exercises.slips.catalogue import Slip
from exercises.working.arithmetic import Exact, Span
from exercises.working.evaluate import all_spans
from exercises.working.steps import Working

CLEAR = 1.25  # times the next: by so much the largest share stands out
PATIENCE = 200  # attempts until another share may be the largest: not every setting of a laboratory allows each
OTHERS = (12, 14, 15, 16, 18, 20, 22, 24, 66, 68, 70, 72, 74, 75, 76, 78)  # degrees to set against 45°
MOST_FREEDOM = 1000  # effective degrees of freedom: with more the scatter does not count at all
NEARLY = 0.95  # of what is asked for, where it is looked at in advance
STEADY = 1.04  # k at one end of what correct rounding reaches over k at the other: the table's rows lie that near


LOOKS = 3  # times the pointer is looked at again for one magnet


class World(NamedTuple):
    """How well things are known where one share is meant to be the largest: half widths to pick from.

    friction   degrees;  d, two_l  m
    needle     distances of the needle's poles, m, and their half widths
    angles     limits of the deflection, degrees
    """

    friction: tuple[float, ...]
    d: tuple[float, ...]
    two_l: tuple[float, ...]
    needle: tuple[tuple[float, float], ...]
    angles: tuple[float, float] = (LOWEST + 1.0, HIGHEST - 1.0)


_NEEDLES = ((0.014, 1e-3), (0.016, 2e-3), (0.018, 2e-3), (0.020, 2e-3))
#: By the share that is meant to be the largest.  Sizes are common practice, no source.
WORLDS = {
    "angle": World((0.2, 0.3), (0.3e-3, 0.5e-3), (1e-3, 2e-3, 3e-3), _NEEDLES),
    "distance": World((0.1, 0.2), (0.5e-3, 1.0e-3, 1.5e-3), (1e-3, 2e-3, 3e-3), _NEEDLES),
    "length": World((0.1,), (0.2e-3, 0.3e-3), (5e-3, 6e-3, 7e-3), _NEEDLES),
    "needle": World(
        (0.1,), (0.2e-3, 0.3e-3), (1e-3, 2e-3), ((0.020, 4e-3), (0.022, 5e-3), (0.024, 5e-3)), (47.0, 58.0)
    ),
}


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> Budget:
    """The numbers of a code of edition 1: attempts from one stream until one is good.

    ArithmeticError if none is good, which no setting that can be set leads to.
    """
    draw = Draw(code)
    first, attempts = draw.below(len(NAMES)), count()

    def attempt(draw: Draw, slips: tuple[Slip, ...]) -> Budget | None:
        wanted = NAMES[(first + next(attempts) // PATIENCE) % len(NAMES)]
        return next((s for s in _attempts(draw, code, wanted) if _good(s, slips)), None)

    return first_good(draw, slips, attempt)


class _Told(NamedTuple):
    """Half widths as the student is told them, and the distance of the needle's poles; degrees and m."""

    friction: float
    d: float
    two_l: float
    needle: float
    width_needle: float

    def leads(self, wanted: str, angle: float, d: float, l: float, scatter: float, clear: float) -> bool:
        """Whether one share is `clear` times the next.

        angle, scatter  the deflection and the scatter of one reading, degrees;  d, l  m
        """
        u_theta = math.hypot(scatter / math.sqrt(8), self.friction / ROOT_3)
        u_needle = 2 * self.width_needle / self.needle / ROOT_3  # of what the needle does, as a share of it
        shares = {
            "angle": uncertainty.angle_term(angle, u_theta),
            "distance": uncertainty.distance_term(d, l, self.d / ROOT_3),
            "length": uncertainty.length_term(d, l, self.two_l / 2 / ROOT_3),
            "needle": uncertainty.needle_term(angle, d, self.needle / 2) * u_needle,
        }
        largest = shares.pop(wanted)
        return largest >= clear * max(shares.values())


def _attempts(draw: Draw, code: SheetCode, wanted: str) -> Iterator[Budget]:
    """Sheets of one magnet at one distance, the pointer looked at again each time; the wanted share stands out."""
    magnet = draw_magnet(draw, code.setting, END_ON)
    if magnet is None:
        return
    bar, world = magnet.bar, WORLDS[wanted]
    length, magnetic = bar.length, bar.magnetic_length
    step = code.setting.scale_step or (draw.pick((1.0, 0.5)) if wanted in ("angle", "distance") else 0.5)
    needle, width_needle = draw.pick(world.needle)
    widths = draw.pick(world.friction), draw.pick(world.d), draw.pick(world.two_l)
    told = _Told(*widths, needle, width_needle)
    angle, other = draw.between(*world.angles), float(draw.pick(OTHERS))
    d = distance_end_on(bar.moment, field_from_deflection(angle, magnet.B_H), magnetic / 2)
    d = to_grid(d, 1000 // code.setting.grid_mm)
    if d - length / 2 < BOX.radius + CLEARANCE or d + length / 2 > ARM_LENGTH:
        return
    two_l = to_grid(magnetic + draw.between(-told.two_l, told.two_l), 1000)
    if code.setting.two_l == "given":
        two_l = length
    expected = math.hypot(READING_ERROR, step / math.sqrt(12))
    if abs(two_l - magnetic) > told.two_l or not told.leads(wanted, angle, d, two_l / 2, expected, NEARLY * CLEAR):
        return
    faults = draw_faults(draw)
    # the truth lies anywhere within the half widths of what the student is told
    lay, stuck = d + draw.between(-told.d, told.d), draw.between(-told.friction, told.friction)
    box = Box(BOX.radius, (told.needle + draw.between(-told.width_needle, told.width_needle)) / 2)
    pointed = eight_places(Magnet(bar.moment, magnetic / 2), magnet.B_H, lay, box, faults)
    for _ in range(LOOKS):
        readings = read_off(pointed, tuple([stuck + draw.normal(READING_ERROR) for _ in range(8)]), step)
        row, shown = Row(d, readings), scatter(Exact, readings, freedom)
        # a scatter smaller than rounding makes by itself says nothing
        if min(readings) < LOWEST or max(readings) > HIGHEST or shown < step / math.sqrt(12):
            continue
        if told.leads(wanted, row.mean, d, two_l / 2, shown, CLEAR):
            known = told.friction, told.d, two_l, told.two_l, told.needle, told.width_needle
            yield Budget(code, *magnet, box, faults, step, row, *known, other)


def _is_steady(values: Mapping[str, Any]) -> bool:
    """Whether k and the figures of U would be the same a few per cent to either side, a look before the long one."""
    nu, U = values["freedom"], values["expanded"]
    steady = nu <= MOST_FREEDOM and t95(nu * NEARLY) / t95(nu / NEARLY) < STEADY
    return steady and rounds_plainly(U) and figures_to_quote(U * 0.98, 1.0) == figures_to_quote(U * 1.02, 1.0)


def _good(scenario: Budget, slips: tuple[Slip, ...]) -> bool:
    """Whether the truth is within U, nothing hangs on rounding, and slips can be told."""
    inputs, work = working_of_inputs(scenario), working(scenario)
    if not tells_apart(inputs, slips, [s.id for s in inputs.steps]):
        return False
    values = work.all_values()
    if abs(values["corrected"] - scenario.bar.moment) > values["expanded"] or not _is_steady(values):
        return False
    k, U, figures, moment = (_numbers(work, step_id) for step_id in ("coverage", "expanded", "count", "corrected"))
    if k.hi > STEADY * k.lo:
        return False
    if not (rounds_plainly(U.lo) and rounds_plainly(U.hi) and figures.lo == figures.hi == values["count"]):
        return False
    if int(f"{moment.lo:e}"[-3:]) != int(f"{moment.hi:e}"[-3:]):
        return False
    ids = [s.id for s in work.steps if s.id not in inputs.by_id and not s.choices and s.rule != "count"]
    return tells_apart(work, slips, ids)


def _numbers(work: Working, step_id: str) -> Span:
    """What correct working can reach of a step that asks for a number."""
    span = all_spans(work)[step_id]
    if isinstance(span, str):
        raise TypeError(f"{step_id} asks for a choice")
    return span

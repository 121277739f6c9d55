"""Numbers for the earth's field and the moment together, drawn within physical limits.

Place, magnet and vibration first, for they are quickly worked; then two
distances, each read eight times by the instrument of instrument.py.
"""

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import islice

from exercises.bench import uncertainty
from exercises.bench.field import distance_end_on, end_on, moment_end_on
from exercises.bench.vibration import DENSITIES, inertia, period
from exercises.codes.scenario import Draw, draw_faults, first_good
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.bars import NARROWEST
from exercises.kinds.deflection.draw import PlacedMagnet, distances_to_try, draw_magnet, rows_at, stretch_of
from exercises.kinds.deflection.stretch import BOX, Position
from exercises.kinds.earth.parts import ROWS
from exercises.kinds.earth.scenario import Survey, working
from exercises.slips.catalogue import Slip
from exercises.working.arithmetic import total
from exercises.working.steps import Working

TIMINGS = 3
MAGNETS = 60  # that are tried in one attempt: in a weak field most swing too slowly
TRIES = 12  # distances that are tried in each half of the stretch
#: l/d at 45°, so that l counts.
POSITION = Position(end_on, moment_end_on, distance_end_on, shares=(0.17, 0.205), reach=0.5)
BREADTHS = (0.20, 0.32)  # breadth over length, so that b counts in the moment of inertia
STOPWATCH = 0.2  # s, standard deviation of a start and a stop by hand; common practice, no source
FEWEST_SWINGS = 10
THINNEST = NARROWEST
LONGEST = 150.0  # s that anyone wants to count swings for
SET_UP = 0.003  # relative standard uncertainty of m·B_H from amplitude, thread and stirrup; common practice, no source


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> Survey:
    """The numbers of a code of edition 1: attempts from one stream until one is good.

    ArithmeticError if none is good, which no setting that can be coded leads to.
    """
    return first_good(Draw(code), slips, lambda draw, slips: _attempt(draw, code, slips))


def _attempt(draw: Draw, code: SheetCode, slips: tuple[Slip, ...]) -> Survey | None:
    hung = next(filter(None, (_hung(draw, code) for _ in range(MAGNETS))), None)
    if hung is None or not _apart(hung[2], slips):
        return None
    magnet, ends, survey = hung
    for part in range(ROWS):
        # one from the near half of the stretch and one from the far half
        rows = (
            row
            for d in islice(distances_to_try(draw, ends, part, ROWS, code.setting.grid_mm), TRIES)
            for row in rows_at(draw, POSITION, magnet, d, survey.faults, survey.scale_step, survey.two_l / 2)
        )
        told = (r for r in rows if _apart(replace(survey, rows=(r,)), slips, ("tan-1", "bracket-1", "ratio-1")))
        row = next(told, None)
        if row is None:
            return None
        survey = replace(survey, rows=(*survey.rows, row))
    good = near_truth(survey, working(survey)) and _apart(survey, slips, ("ratio", "moment", "earth"))
    return survey if good else None


def _hung(draw: Draw, code: SheetCode) -> tuple[PlacedMagnet, tuple[float, float], Survey] | None:
    """A magnet, the stretch that it leaves, and its swings; None if it is of no use on the arm or on the thread."""
    magnet = draw_magnet(draw, code.setting, POSITION, _flat, BREADTHS[0], count=ROWS)
    ends = magnet and stretch_of(POSITION, magnet)
    survey = magnet and ends and _swung(draw, code, magnet)
    return (magnet, ends, survey) if magnet and ends and survey else None


def _swung(draw: Draw, code: SheetCode, magnet: PlacedMagnet) -> Survey | None:
    """The magnet on the thread, with no distance yet, or None if nobody wants to count so long."""
    bar = magnet.bar
    density = DENSITIES[bar.material.name] * draw.between(0.985, 1.015)
    mass = round(density * bar.length * bar.width * bar.thickness * 1e4) / 1e4
    amplitude, torsion, stirrup = draw.between(3, 8), draw.between(0, 0.003), draw.between(0, 0.004)
    T = period(inertia(mass, bar.length, bar.width) * (1 + stirrup), bar.moment, magnet.B_H, amplitude, torsion)
    swings = draw.pick((FEWEST_SWINGS, 20))
    if swings * T > LONGEST:
        return None
    timings = tuple(round((swings * T + draw.normal(STOPWATCH)) * 10) / 10 for _ in range(TIMINGS))
    faults, step = draw_faults(draw), code.setting.scale_step or draw.pick((1.0, 0.5))
    return Survey(
        code,
        *magnet,
        mass,
        BOX,
        faults,
        step,
        (),
        swings,
        timings,
        amplitude,
        torsion,
        stirrup,
    )


def _apart(survey: Survey, slips: tuple[Slip, ...], step_ids: Sequence[str] = ()) -> bool:
    """Whether the slips are told apart at these steps, or at all that the survey has so far."""
    worked = working(survey)
    return tells_apart(worked, slips, step_ids or [s.id for s in worked.steps])


def _flat(draw: Draw, length_mm: int, area: float) -> tuple[int, int] | None:
    """A section broad enough for its breadth to count in the moment of inertia."""
    width = round(length_mm * draw.between(*BREADTHS))
    return width, round(area / width)


def uncertainties(survey: Survey) -> dict[str, float]:
    """Relative standard uncertainties of m/B_H, of m·B_H, and of m and of B_H, which share one."""
    l = survey.two_l / 2
    rows = [(row.mean, row.d) for row in survey.rows]
    ratio = uncertainty.mean_moment(rows, l, survey.scale_step, survey.box.needle)
    counted = total(survey.timings) / TIMINGS
    timing = 2 * STOPWATCH / math.sqrt(TIMINGS) / counted
    size = 2 * 0.5e-3 / math.sqrt(3) / survey.bar.length  # the length to the nearest millimetre; b and M matter less
    product = math.hypot(timing, size, SET_UP)
    return {"ratio": ratio, "product": product, "result": math.hypot(ratio, product) / 2}


def near_truth(survey: Survey, worked: Working) -> bool:
    """Whether m and B_H lie within twice their standard uncertainty of the truth."""
    u = uncertainties(survey)["result"]
    found, true = (worked.value("moment"), worked.value("earth")), (survey.bar.moment, survey.B_H)
    return all(abs(f - t) <= 2 * u * f for f, t in zip(found, true))

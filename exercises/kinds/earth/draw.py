"""Numbers for the earth's field and the moment together, drawn within physical limits.

Place, magnet and vibration first, for they are quickly worked; then two
distances, each read eight times by the instrument of instrument.py.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

from exercises.bench import uncertainty
from exercises.bench.field import distance_end_on, moment_end_on
from exercises.bench.instrument import Box, Faults
from exercises.bench.vibration import DENSITIES, inertia, period
from exercises.codes.scenario import Bar, Draw, Row, Scenario, draw_faults, first_good
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.draw import BOX, Position, draw_magnet, read_row, stretch
from exercises.kinds.deflection.steps import MAGNETIC_SHARE
from exercises.working.arithmetic import total
from exercises.working.steps import Working

ROWS = 2
TIMINGS = 3
#: l/d at 45°, so that l counts.
POSITION = Position(moment_end_on, distance_end_on, shares=(0.17, 0.205), reach=0.5)
BREADTHS = (0.20, 0.32)  # breadth over length, so that b counts in the moment of inertia
STOPWATCH = 0.2  # s, standard deviation of a start and a stop by hand; common practice, no source
LONGEST = 150.0  # s that anyone wants to count swings for
SET_UP = 0.003  # relative standard uncertainty of m·B_H from amplitude, thread and stirrup; common practice, no source


@dataclass(frozen=True)
class Survey(Scenario):
    """One sheet: the magnet on the arm and on the thread, and the truth behind both.

    B_H is the true field (T), which the student is to find.  mass in kg.
    swings, timings  how many swings each timing takes in, and the timings in s
    amplitude in degrees; torsion as a share of m·B_H; stirrup as a share of the bar's I
    """

    bar: Bar
    mass: float
    box: Box
    faults: Faults
    scale_step: float
    rows: tuple[Row, ...]
    swings: int
    timings: tuple[float, ...]
    amplitude: float
    torsion: float
    stirrup: float

    @property
    def thetas(self) -> tuple[float, ...]:
        """The mean deflections in degrees as the sheet gives them, to 0.1°."""
        return tuple(math.floor(row.mean * 10 + 0.5) / 10 for row in self.rows)


def draw_survey(code: SheetCode, working: Callable, vibration: Callable, slips) -> Survey:
    """The numbers of a code: attempts from one stream until one is good.

    working, vibration  from a survey to its working, whole and of the vibration alone.
    ArithmeticError if none is good, which no setting that can be coded leads to.
    """
    return first_good(Draw(code), lambda draw: _attempt(draw, code, working, vibration, slips))


def _attempt(draw: Draw, code: SheetCode, working, vibration, slips) -> Survey | None:
    magnet = draw_magnet(draw, code.setting, POSITION, _flat_bar)
    if magnet is None:
        return None
    place, year, month, B_H, bar = magnet
    ends = stretch(POSITION, bar, B_H)
    if ends is None:
        return None
    near, far = ends
    density = DENSITIES[bar.material.name] * draw.between(0.985, 1.015)
    mass = round(density * bar.length * bar.width * bar.thickness * 1e4) / 1e4
    amplitude, torsion, stirrup = draw.between(3, 8), draw.between(0, 0.003), draw.between(0, 0.004)
    T = period(inertia(mass, bar.length, bar.width) * (1 + stirrup), bar.moment, B_H, amplitude, torsion)
    swings = draw.pick((10, 20))
    if swings * T > LONGEST:
        return None
    timings = tuple(round((swings * T + draw.normal(STOPWATCH)) * 10) / 10 for _ in range(TIMINGS))
    faults, step = draw_faults(draw), code.setting.scale_step or draw.pick((1.0, 0.5))

    def with_rows(rows: tuple[Row, ...]) -> Survey:
        return Survey(
            code,
            place,
            year,
            month,
            B_H,
            bar,
            mass,
            BOX,
            faults,
            step,
            rows,
            swings,
            timings,
            amplitude,
            torsion,
            stirrup,
        )

    if not _told(vibration(with_rows(())), slips):
        return None
    rows: list[Row] = []
    for i in range(ROWS):
        # one from the near half of the stretch and one from the far half
        low, high = near + (far - near) * i / ROWS, near + (far - near) * (i + 1) / ROWS
        for mm in draw.shuffled(range(math.ceil(low * 1000), math.floor(high * 1000) + 1))[:12]:
            row = read_row(draw, POSITION, bar, B_H, mm / 1000, faults, step)
            if row and _told(working(with_rows((row,))), slips, ("tan-1", "bracket-1", "ratio-1")):
                rows.append(row)
                break
        else:
            return None
    survey = with_rows(tuple(rows))
    worked = working(survey)
    if not near_truth(survey, worked):
        return None
    return survey if _told(worked, slips, ("ratio", "moment", "earth")) else None


def _told(worked: Working, slips, step_ids=None) -> bool:
    own = [s for s in slips if s.part in worked.parts]
    return tells_apart(worked, own, step_ids or [s.id for s in worked.steps])


def _flat_bar(draw: Draw, length_mm: int, magnetic: float, moment: float) -> Bar | None:
    """A bar broad enough for its breadth to count, of a material that gives it this moment, or None."""
    width = round(length_mm * draw.between(*BREADTHS))
    for material in draw.shuffled(draw.materials):
        magnetisation = draw.between(material.lowest, material.highest)
        thickness = round(moment / (magnetisation * length_mm * width * 1e-6) * 1e3)
        if 3 <= thickness <= min(15, width):
            bar = Bar(draw.pick(draw.birds), material, length_mm / 1e3, width / 1e3, thickness / 1e3, moment, magnetic)
            if material.lowest <= bar.magnetisation <= material.highest:
                return bar
    return None


def uncertainties(survey: Survey) -> dict[str, float]:
    """Relative standard uncertainties of m/B_H, of m·B_H, and of m and of B_H, which share one."""
    l = MAGNETIC_SHARE * survey.bar.length / 2
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

"""Numbers for the uncertainty of a moment: one of the three shares stands out, each in turn."""

from dataclasses import replace
from itertools import count

from exercises.bench import uncertainty
from exercises.bench.field import distance_end_on, field_from_deflection
from exercises.bench.instrument import Magnet, eight_readings
from exercises.codes.scenario import ARM_LENGTH, READING_ERROR, Draw, Row, draw_faults, first_good, to_grid
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.draw import draw_magnet
from exercises.kinds.deflection.stretch import BOX, CLEARANCE, END_ON, HIGHEST, LOWEST
from exercises.kinds.uncertainty.budget import NAMES, SHARES, rounds_plainly
from exercises.kinds.uncertainty.scenario import Budget, working
from exercises.slips.catalogue import Slip
from exercises.working.arithmetic import Span
from exercises.working.evaluate import all_spans
from exercises.working.steps import Working

CLEAR = 1.25  # times the next: by so much the largest share stands out
LEAST_SCATTER = 0.25  # degrees; eight readings nearly all alike show no scatter to work with
PATIENCE = 200  # attempts until another share may be the largest: not every setting of a laboratory allows each
OTHERS = (12, 14, 15, 16, 18, 20, 22, 24, 66, 68, 70, 72, 74, 75, 76, 78)  # degrees to set against 45°

#: Which share is meant to be the largest -> size of the faults (of an instrument in fair condition),
#: half widths (m) of d and of 2l.  Sizes are common practice, no source.
WORLDS = {
    "angle": (1.0, (0.3e-3, 0.5e-3, 1.0e-3), (1e-3, 2e-3, 3e-3)),
    "distance": (0.5, (1.0e-3, 1.5e-3, 2.0e-3), (1e-3, 2e-3, 3e-3)),
    "length": (0.1, (0.2e-3, 0.3e-3), (4e-3, 5e-3, 6e-3)),
}


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> Budget:
    """The numbers of a code of edition 1: attempts from one stream until one is good.

    ArithmeticError if none is good, which no setting that can be set leads to.
    """
    draw = Draw(code)
    first, attempts = draw.below(len(NAMES)), count()

    def attempt(draw: Draw, slips: tuple[Slip, ...]) -> Budget | None:
        wanted = NAMES[(first + next(attempts) // PATIENCE) % len(NAMES)]
        scenario = _attempt(draw, code, wanted)
        return scenario if scenario is not None and _good(scenario, wanted, slips) else None

    return first_good(draw, slips, attempt)


def _attempt(draw: Draw, code: SheetCode, wanted: str) -> Budget | None:
    magnet = draw_magnet(draw, code.setting, END_ON)
    if magnet is None:
        return None
    B_H, bar = magnet.B_H, magnet.bar
    length, magnetic, moment = bar.length, bar.magnetic_length, bar.moment
    size, widths_d, widths_two_l = WORLDS[wanted]
    step = code.setting.scale_step or (0.5 if size < 0.3 else draw.pick((1.0, 0.5)))
    width_d, width_two_l = draw.pick(widths_d), draw.pick(widths_two_l)
    sound = draw_faults(draw)
    faults = replace(sound, **{name: size * value for name, value in vars(sound).items()})
    angle = draw.between(LOWEST + 1, HIGHEST - 1)
    d = to_grid(distance_end_on(moment, field_from_deflection(angle, B_H), magnetic / 2), 1000 // code.setting.grid_mm)
    if d - length / 2 < BOX.radius + CLEARANCE or d + length / 2 > ARM_LENGTH:
        return None
    # where the magnet truly lay, and the length as the student was told it: anywhere within the half widths
    lay = d + draw.between(-width_d, width_d)
    two_l = to_grid(magnetic + draw.between(-width_two_l, width_two_l), 1000)
    if code.setting.two_l == "given":
        two_l = length
    if abs(two_l - magnetic) > width_two_l:
        return None
    errors = tuple(draw.normal(READING_ERROR) for _ in range(8))
    readings = eight_readings(Magnet(moment, magnetic / 2), B_H, lay, BOX, faults, errors, step)
    other = float(draw.pick(OTHERS))
    if min(readings) < LOWEST or max(readings) > HIGHEST or len(set(readings)) == 1:
        return None
    row = Row(d, readings)
    return Budget(code, *magnet, faults, step, row, width_d, two_l, width_two_l, other)


def _good(scenario: Budget, wanted: str, slips: tuple[Slip, ...]) -> bool:
    """Whether the wanted share stands out, the truth is within U, no count hangs on rounding, and slips can be told."""
    work = working(scenario)
    values = work.all_values()
    shares = sorted(values[s] for s in SHARES)
    if values["scatter"] < LEAST_SCATTER or values["largest"] != wanted or shares[2] < CLEAR * shares[1]:
        return False
    needle = uncertainty.needle_term(values["mean-1"], scenario.row.d, BOX.needle) * values["moment"]
    if abs(values["moment"] - scenario.bar.moment) > values["expanded"] - needle:
        return False
    if not rounds_plainly(values["expanded"]):
        return False
    U, figures, moment = (_numbers(work, step_id) for step_id in ("expanded", "count", "moment"))
    if not (rounds_plainly(U.lo) and rounds_plainly(U.hi) and figures.lo == figures.hi == values["count"]):
        return False
    if int(f"{moment.lo:e}"[-3:]) != int(f"{moment.hi:e}"[-3:]):
        return False
    return tells_apart(work, slips, [s.id for s in work.steps if not s.choices and s.rule != "count"])


def _numbers(work: Working, step_id: str) -> Span:
    """What correct working can reach of a step that asks for a number."""
    span = all_spans(work)[step_id]
    if isinstance(span, str):
        raise TypeError(f"{step_id} asks for a choice")
    return span

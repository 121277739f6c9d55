"""How sure the moment is: from readings, distance and length to m ± U at one distance (JCGM 100:2008).

The scatter of the eight readings gives u(θ) (Type A); half widths of d and 2l
give theirs (Type B).  Each share of u(m)/m, the three in squares, then U.
"""

from dataclasses import dataclass, replace

from exercises.bench import uncertainty
from exercises.bench.field import distance_end_on, field_from_deflection, moment_end_on
from exercises.bench.instrument import Faults, Magnet, eight_readings
from exercises.codes.scenario import (
    ARM_LENGTH,
    ATTEMPTS,
    READING_ERROR,
    Bar,
    Draw,
    Row,
    Scenario,
    draw_bar,
    draw_faults,
    draw_length_mm,
    draw_place,
    to_grid,
)
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.draw import BOX, CLEARANCE, HIGHEST, LOWEST
from exercises.kinds.deflection.page import DeflectionPage
from exercises.kinds.deflection.steps import MAGNETIC_SHARE
from exercises.kinds.kind import Kind
from exercises.kinds.sheet import Page
from exercises.kinds.uncertainty.budget import NAMES, PARTS, SHARES, rounds_plainly
from exercises.kinds.uncertainty.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.uncertainty.steps import plan_for
from exercises.slips.catalogue import Slip, slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.working.arithmetic import Interval
from exercises.working.numbers import centimetres, places
from exercises.working.steps import Step, Working

SLIPS = slips_for("uncertainty", PARTS, (*OF_DEFLECTION, *OF_THIS_KIND))
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


@dataclass(frozen=True)
class Budget(Scenario):
    """One distance d with its eight readings, and half widths (m) of d and 2l; other_angle in degrees.

    two_l is the magnetic length as the student is told it; bar and faults are the truth.
    """

    bar: Bar
    faults: Faults
    scale_step: float
    row: Row
    width_d: float
    two_l: float
    width_two_l: float
    other_angle: float

    @property
    def rows(self) -> tuple[Row, ...]:
        return (self.row,)


def working(scenario: Budget) -> Working:
    """The working of a sheet."""
    givens = {
        "B_H": scenario.B_H,
        "d": scenario.row.d,
        "readings": (scenario.row.readings,),
        "width_d": scenario.width_d,
        "two_l": scenario.two_l,
        "width_two_l": scenario.width_two_l,
        "other_angle": float(scenario.other_angle),
    }
    return Working(plan_for(scenario.other_angle), givens, PARTS)


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> Budget:
    """The numbers of a code of edition 1: attempts from one stream until one is good."""
    draw = Draw(code)
    first = draw.below(len(NAMES))
    for i in range(ATTEMPTS):
        wanted = NAMES[(first + i // PATIENCE) % len(NAMES)]
        scenario = _attempt(draw, code, wanted)
        if scenario is not None and _good(scenario, wanted, slips):
            return scenario
    raise ArithmeticError(f"no consistent numbers were found for code {code}; use another code")


def _attempt(draw: Draw, code: SheetCode, wanted: str) -> Budget | None:
    setting = code.setting
    place, year, month, B_H = draw_place(draw, setting)
    length = draw_length_mm(draw, setting) * 1e-3
    magnetic = to_grid(length * draw.between(0.82, 0.85), 10000)
    d45 = length * MAGNETIC_SHARE / 2 / draw.between(0.170, 0.205)
    moment = float(f"{moment_end_on(B_H, d45, magnetic / 2):.2e}")
    bar = draw_bar(draw, round(length * 1e3), magnetic, moment)
    if bar is None:
        return None
    size, widths_d, widths_two_l = WORLDS[wanted]
    step = setting.scale_step or (0.5 if size < 0.3 else draw.pick((1.0, 0.5)))
    width_d, width_two_l = draw.pick(widths_d), draw.pick(widths_two_l)
    sound = draw_faults(draw)
    faults = replace(sound, **{name: size * value for name, value in vars(sound).items()})
    angle = draw.between(LOWEST + 1, HIGHEST - 1)
    d = to_grid(distance_end_on(moment, field_from_deflection(angle, B_H), magnetic / 2), 1000)
    if d - length / 2 < BOX.radius + CLEARANCE or d + length / 2 > ARM_LENGTH:
        return None
    # where the magnet truly lay, and the length as the student was told it: anywhere within the half widths
    lay = d + draw.between(-width_d, width_d)
    two_l = to_grid(magnetic + draw.between(-width_two_l, width_two_l), 1000)
    errors = tuple(draw.normal(READING_ERROR) for _ in range(8))
    readings = eight_readings(Magnet(moment, magnetic / 2), B_H, lay, BOX, faults, errors, step)
    other = float(draw.pick(OTHERS))
    if min(readings) < LOWEST or max(readings) > HIGHEST or len(set(readings)) == 1:
        return None
    row = Row(d, readings)
    return Budget(code, place, year, month, B_H, bar, faults, step, row, width_d, two_l, width_two_l, other)


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
    spans = work.all_values(Interval)
    if not all(rounds_plainly(U) for U in (values["expanded"], spans["expanded"].lo, spans["expanded"].hi)):
        return False
    if not spans["count"].lo == spans["count"].hi == values["count"] or int(f"{spans['moment'].lo:e}"[-3:]) != int(
        f"{spans['moment'].hi:e}"[-3:]
    ):
        return False
    return tells_apart(work, slips, [s.id for s in work.steps if not s.choices and s.rule != "count"])


class BudgetPage(DeflectionPage):
    """The sheet: one distance's readings, the half widths, the steps."""

    def givens(self, scenario: Budget) -> list[tuple[str, str]]:
        return [
            ("Magnet", f"{scenario.bar.name}, {centimetres(scenario.bar.length)} cm long"),
            ("Distance d", f"{centimetres(scenario.row.d)} cm, half width {centimetres(scenario.width_d, 2)} cm"),
            (
                "Magnetic length 2l",
                f"{centimetres(scenario.two_l)} cm, half width {centimetres(scenario.width_two_l)} cm",
            ),
            (f"B_H at {scenario.place.name}, {scenario.when}", f"{places(scenario.B_H * 1e6, 1)} µT, taken as exact"),
        ]

    def groups(self, scenario: Budget, working: Working) -> list[tuple[str, list[Step]]]:
        named = (
            ("The angle", ("mean-1", "scatter", "u-theta", "share-angle")),
            ("The distance and the length", ("u-d", "sensitivity", "share-distance", "u-l", "share-length")),
            ("Together", ("combined", "largest", "ratio")),
            ("Result", ("moment", "expanded", "count")),
        )
        return [(title, [working.by_id[i] for i in ids]) for title, ids in named]

    def numbers(self, scenario: Budget) -> dict:
        return {
            "place": scenario.place.name,
            "when": scenario.when,
            "B_H": scenario.B_H,
            "rows": [[scenario.row.d, *scenario.row.readings]],
            "widths": [scenario.width_d, scenario.width_two_l],
            "two_l": scenario.two_l,
            "other_angle": scenario.other_angle,
        }


PAGE: Page = BudgetPage(
    task="How sure is the moment? Take u(θ) from the scatter of the eight readings (Type A), u(d) and u(2l) from "
    "their half widths, within which all values are as likely (Type B). Give every share of u(m)/m in per cent, "
    "and take 4π/µ₀ = 10⁷ A/(T·m).",
    formula="m = (4π/µ₀) · B_H · (d² − l²)² · tan θ / 2d",
    position="N pole points",
)

KIND = Kind("X", "uncertainty", "How sure is the moment?", {1: draw_first_edition}, working, PAGE, SLIPS)

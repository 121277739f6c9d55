"""Reading the dial: both ends of the pointer on eight dials, and the two means.

The eight dials are the four places of the magnet at each of two distances, so
that they are the sixteen readings of two distances.  A reading is right if it
lies within half a scale step of the drawn tip.
"""

import math
from dataclasses import dataclass
from functools import cache

from exercises.bench.field import distance_end_on, field_from_deflection, moment_end_on
from exercises.bench.instrument import EIGHT, Box, Faults, Magnet, equilibrium, pointer_ends, poles
from exercises.codes.scenario import Bar, Draw, draw_bar, draw_faults, draw_length_mm, draw_place, to_grid
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.draw import BOX, CLEARANCE
from exercises.kinds.dial.drawing import dial, divisions, words
from exercises.kinds.dial.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.kind import Kind
from exercises.kinds.sheet import Page
from exercises.slips.catalogue import Slip, slips_for
from exercises.working.arithmetic import total
from exercises.working.numbers import centimetres, places, reading
from exercises.working.steps import Plan, Step, Working

PLACES = tuple((arm, north) for arm, north, end in EIGHT if end == 1)
#: Where the mean deflection of the two distances lies, degrees.
RANGES = ((47.0, 56.0), (33.0, 43.0))
STICKING = 0.25  # degrees, standard deviation of where the needle stops
OFF_DIVISION = 0.3  # of a step: a tip no farther from its division leaves no doubt which one it is
ATTEMPTS = 3000


@dataclass(frozen=True)
class Dial:
    """One dial: the magnet's arm, where its north pole points, its distance d (m), the needle's turn phi (degrees)."""

    arm: str
    north: str
    d: float
    phi: float


@dataclass(frozen=True)
class DialScenario:
    """Eight dials of one instrument; scale_step in degrees."""

    code: SheetCode
    place: str
    bar: Bar
    box: Box
    faults: Faults
    scale_step: float
    dials: tuple[Dial, ...]

    def ends(self, number: int) -> tuple[float, float]:
        """Where the two tips lie on dial `number` (from 0), in degrees as the scale shows them."""
        return pointer_ends(self.dials[number].phi, self.box, self.faults)


PARTS = {
    "numbered_mark": lambda low: low,
    "one_division": lambda step: step,
    "count_direction": lambda low, past: low + past,
    "zero_of_scale": lambda reading: reading,
    "dial_mean": lambda a, total: total / 8,
}


def _read(number: int, end: int):
    def formula(a, known, givens, parts):
        step, tip = givens["step"], givens["tips"][number][end - 1]
        low, _ = divisions(tip, step)
        past = (tip - low) / step * parts["one_division"](step)
        return a.within(parts["zero_of_scale"](parts["count_direction"](parts["numbered_mark"](low), past)), step / 2)

    return formula


def _read_line(number: int, end: int):
    def line(known, givens):
        step, tip = givens["step"], givens["tips"][number][end - 1]
        low, count = divisions(tip, step)
        return (
            f"Dial {number + 1}, end {'①②'[end - 1]}: {low} + {count} × {reading(step)}° = {reading(low + count * step)}° "
            f"(the tip is drawn at {places(tip, 2)}°)"
        )

    return line


def _mean(first: int):
    ids = [f"read-{number + 1}-{end}" for number in range(first, first + 4) for end in (1, 2)]

    def formula(a, known, givens, parts):
        return a.angle(parts["dial_mean"](a, a.total(known[i] for i in ids)))

    def line(known, givens):
        # as the readings are written down: to the nearest division
        tips = [tip for pair in givens["tips"][first : first + 4] for tip in pair]
        step = givens["step"]
        readings = [low + count * step for low, count in (divisions(t, step) for t in tips)]
        return f"θ = ({' + '.join(map(reading, readings))}) / 8 = {places(total(readings) / 8, 2)}°"

    return ids, formula, line


@cache
def plan_for(dials: int) -> Plan:
    steps = []
    for number in range(dials):
        for end in (1, 2):
            steps.append(
                Step(
                    id=f"read-{number + 1}-{end}",
                    column="read",
                    title=f"dial {number + 1}, end {'①②'[end - 1]}",
                    quantity="angle",
                    rule="reading",
                    needs=(),
                    formula=_read(number, end),
                    line=_read_line(number, end),
                    hints=(
                        "Find the two numbered marks on either side of the tip. The lower one is on the side of the 0.",
                        "Count the divisions from one numbered mark to the next: ten to ten degrees, or twenty.",
                        "Lower mark + divisions past it × the size of one division.",
                    ),
                    read="exercises/dial/#how-to-read-it",
                )
            )
    for group in range(dials // 4):
        ids, formula, line = _mean(4 * group)
        steps.append(
            Step(
                id=f"mean-{group + 1}",
                column="mean",
                title=f"mean of the eight, dials {4 * group + 1}–{4 * group + 4}",
                quantity="angle",
                rule="angle",
                needs=tuple(ids),
                formula=formula,
                line=line,
                hints=("Add the eight readings of these four dials, both ends of each, and divide by eight.",),
                read="before/eight-readings/#the-mean-of-eight",
                looks_back=False,
            )
        )
    return Plan(tuple(steps))


def working(scenario: DialScenario) -> Working:
    """The working of a sheet of dials."""
    tips = tuple(scenario.ends(i) for i in range(len(scenario.dials)))
    return Working(plan_for(len(tips)), {"step": scenario.scale_step, "tips": tips}, PARTS)


SLIPS = slips_for("dial", PARTS, OF_THIS_KIND)


def _clear(tips: tuple[float, float], step: float, slips: tuple[Slip, ...]) -> bool:
    """Whether no eye can be in doubt about the division, and every slip shows for what it is."""
    for t in tips:
        off = t / step - math.floor(t / step + 0.5)
        if abs(off) > OFF_DIVISION:
            return False
    return tells_apart(Working(plan_for(1), {"step": step, "tips": (tips,)}, PARTS), slips, ("read-1-1", "read-1-2"))


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> DialScenario:
    """The numbers of a code of edition 1: attempts from one stream until one is good."""
    draw = Draw(code)
    for _ in range(ATTEMPTS):
        scenario = _attempt(draw, code, slips)
        if scenario is not None:
            return scenario
    raise ArithmeticError(f"no eight clear dials were found for code {code}; use another code")


def _attempt(draw: Draw, code: SheetCode, slips: tuple[Slip, ...]) -> DialScenario | None:
    place, _, _, B_H = draw_place(draw, code.setting)
    length_mm = draw_length_mm(draw, code.setting)
    magnetic = to_grid(length_mm * 1e-3 * draw.between(0.82, 0.85), 10000)
    d45 = length_mm * 1e-3 * 5 / 12 / draw.between(0.170, 0.205)
    moment = float(f"{moment_end_on(field_from_deflection(45.0, B_H), d45, magnetic / 2):.2e}")
    bar = draw_bar(draw, length_mm, magnetic, moment)
    if bar is None:
        return None
    step = code.setting.scale_step or draw.pick((1.0, 0.5))
    faults = draw_faults(draw)
    magnet = Magnet(moment, magnetic / 2)
    if (
        distance_end_on(moment, field_from_deflection(57.0, B_H), magnetic / 2) - bar.length / 2
        < BOX.radius + CLEARANCE
    ):
        return None
    dials: list[Dial] = []
    for low, high in RANGES:
        near, far = (distance_end_on(moment, field_from_deflection(t, B_H), magnetic / 2) for t in (high, low))
        for mm in draw.shuffled(range(math.ceil(near * 1000), math.floor(far * 1000) + 1)):
            four = _four(draw, magnet, B_H, mm / 1000, faults, step, slips)
            if four:
                dials += four
                break
        else:
            return None
    return DialScenario(code, place.name, bar, BOX, faults, step, tuple(dials))


def _four(
    draw: Draw, magnet: Magnet, B_H: float, d: float, faults: Faults, step: float, slips: tuple[Slip, ...]
) -> list[Dial] | None:
    """The four places at d with clear dials, or None.  The needle sticks a little, so a place is tried again."""
    four = []
    for arm, north in PLACES:
        phi = equilibrium(poles(magnet, d, arm, north, faults), B_H, BOX.needle)
        for _ in range(8):
            stopped = round(phi + draw.normal(STICKING), 3)
            if _clear(pointer_ends(stopped, BOX, faults), step, slips):
                four.append(Dial(arm, north, d, stopped))
                break
        else:
            return None
    return four


class DialPage(Page):
    """Eight dials to be read."""

    task = (
        "Read both ends of the pointer on each of the eight dials to the nearest division, and take the mean of the "
        "eight readings of each distance. Below each dial its two ends are shown enlarged, with the rim upwards."
    )
    formula = ""

    def givens(self, scenario: DialScenario) -> list[tuple[str, str]]:
        return [
            ("Magnet", f"{scenario.bar.name}, {centimetres(scenario.bar.length)} cm long"),
            ("Place", scenario.place),
            ("Dials 1 to 4", f"d = {centimetres(scenario.dials[0].d)} cm"),
            ("Dials 5 to 8", f"d = {centimetres(scenario.dials[4].d)} cm"),
        ]

    def observations(self, scenario: DialScenario) -> str:
        drawn, said = [], []
        for i, one in enumerate(scenario.dials):
            label = f"Dial {i + 1}: {one.arm} arm, N {one.north}"
            svg = dial(one.phi, scenario.box, scenario.faults, scenario.scale_step, label)
            drawn.append(f'<figure class="er-dial"><figcaption>{label}</figcaption>{svg}</figure>')
            ends = " ".join(words(t, end, scenario.scale_step) for end, t in enumerate(scenario.ends(i), 1))
            said.append(f"<li>{label}. {ends}</li>")
        return (
            f'<div class="er-dials">{"".join(drawn)}</div>'
            '<details class="er-dial-words"><summary>The dials in words</summary>'
            "<p>Each scale has four quadrants from 0 to 90; the 0s are at the east and the west. The divisions are "
            f"{'half degrees: twenty' if scenario.scale_step == 0.5 else 'whole degrees: ten'} from one numbered mark "
            f"to the next.</p><ul>{''.join(said)}</ul></details>"
        )

    def groups(self, scenario, working: Working) -> list[tuple[str, list[Step]]]:
        steps = working.steps
        return [
            (f"Dials 1 to 4: d = {centimetres(scenario.dials[0].d)} cm", list(steps[:8])),
            (f"Dials 5 to 8: d = {centimetres(scenario.dials[4].d)} cm", list(steps[8:16])),
            ("Mean deflections", list(steps[16:])),
        ]

    def numbers(self, scenario: DialScenario) -> dict:
        return {
            "place": scenario.place,
            "scale_step": scenario.scale_step,
            "dials": [[one.arm, one.north, one.d, one.phi] for one in scenario.dials],
            "tips": [[round(t, 6) for t in scenario.ends(i)] for i in range(len(scenario.dials))],
        }


KIND = Kind("R", "dial", "Reading the dial", {1: draw_first_edition}, working, DialPage(), SLIPS)

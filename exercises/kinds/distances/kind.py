"""Choosing distances: between which distances the deflections lie within 30°–60°, end-on.

Worked before the lab from a rough moment; the steps are those of choosing.py.
"""

from dataclasses import dataclass

from exercises.bench.field import distance_end_on, field_from_deflection, moment_end_on
from exercises.codes.scenario import Bar, Draw, Scenario, draw_bar, draw_length_mm, draw_place, to_grid
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.draw import CLEARANCE
from exercises.kinds.deflection.steps import MAGNETIC_SHARE
from exercises.kinds.distances.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.distances.steps import LIMITS, PARTS, PLAN
from exercises.kinds.kind import Kind
from exercises.kinds.sheet import Page
from exercises.slips.catalogue import Slip, slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.working.numbers import centimetres, figures, places
from exercises.working.steps import Step, Working


@dataclass(frozen=True)
class Choosing(Scenario):
    """What one student knows before the lab.  Lengths in m, B_H in T.

    moment  rough, in A·m², as the sheet gives it; radius of the box; arm from the box's centre to its end
    """

    bar: Bar
    moment: float
    radius: float
    arm: float


SLIPS = slips_for("distances", PARTS, (*OF_DEFLECTION, *OF_THIS_KIND))
NUMERIC = tuple(step.id for step in PLAN.steps if not step.choices)
SHARES = (0.15, 0.26)  # of l/d at 45°: the correction is seen beside rounding, and one is enough
RADII = (0.035, 0.040, 0.045, 0.050, 0.055, 0.060, 0.065, 0.070, 0.075, 0.080)  # m
ARMS = (0.20, 0.25, 0.30, 0.35, 0.40, 0.45, 0.50)  # m
ROOM = 0.003  # m by which gap and reach keep off their limits, so that rounding never turns a choice over
SMALLEST_GAP = 0.002  # m; a gap of nothing or less is no number to type
SHORTEST = 0.015  # m of arm that is left to choose from
CLOSE_ENOUGH = 0.0008  # m, the corrected distance off the true one
ATTEMPTS = 5000


def truth(chosen: Choosing, limit: str) -> float:
    """The distance in m at which the field is exactly what the limit needs, with 2l = 5/6 of the bar."""
    field = field_from_deflection(LIMITS[limit], chosen.B_H)
    return distance_end_on(chosen.moment, field, MAGNETIC_SHARE * chosen.bar.length / 2)


def working(chosen: Choosing) -> Working:
    """The working of a scenario of choosing distances."""
    givens = {
        "B_H": chosen.B_H,
        "moment": chosen.moment,
        "length": chosen.bar.length,
        "radius": chosen.radius,
        "arm": chosen.arm,
    }
    return Working(PLAN, givens, PARTS)


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> Choosing:
    """The numbers of a code of edition 1.  ArithmeticError if there are none, which no code leads to."""
    draw = Draw(code)
    for _ in range(ATTEMPTS):
        chosen = _attempt(draw, code, slips)
        if chosen is not None:
            return chosen
    raise ArithmeticError(f"no consistent numbers were found for code {code}; use another code")


def _attempt(draw: Draw, code: SheetCode, slips: tuple[Slip, ...]) -> Choosing | None:
    place, year, month, B_H = draw_place(draw, code.setting)
    length_mm = draw_length_mm(draw, code.setting)
    l = length_mm * 1e-3 * MAGNETIC_SHARE / 2
    moment = float(f"{moment_end_on(B_H, l / draw.between(*SHARES), l):.1e}")
    bar = draw_bar(draw, length_mm, to_grid(2 * l, 10000), moment)
    wants_clear, wants_fit = draw.below(2) == 0, draw.below(10) < 6
    radii, arms = draw.shuffled(RADII), draw.shuffled(ARMS)
    if bar is None:
        return None
    chosen = Choosing(code, place, year, month, B_H, bar, moment, radii[0], arms[0])
    near, far = (working(chosen).value(f"distance-{limit}") for limit in LIMITS)
    if any(abs(d - truth(chosen, limit)) > CLOSE_ENOUGH for d, limit in ((near, "near"), (far, "far"))):
        return None
    gaps = [(near - bar.length / 2 - radius, radius) for radius in radii]
    gaps = [(gap, radius) for gap, radius in gaps if gap > SMALLEST_GAP and abs(gap - CLEARANCE) > ROOM]
    reach = far + bar.length / 2
    arms = [arm for arm in arms if abs(reach - arm) > ROOM]
    # what was wished for, or else what there is: a long magnet is always clear of the box
    gaps = [pair for pair in gaps if (pair[0] > CLEARANCE) == wants_clear] or gaps
    arms = [arm for arm in arms if (arm > reach) == wants_fit] or arms
    for gap, radius in gaps[:1]:
        start = max(near, radius + CLEARANCE + bar.length / 2)
        for arm in arms:
            if min(far, arm - bar.length / 2) - start >= SHORTEST:
                chosen = Choosing(code, place, year, month, B_H, bar, moment, radius, arm)
                return chosen if tells_apart(working(chosen), slips, NUMERIC) else None
    return None


class ChoosingPage(Page):
    """What the sheet shows: all that is known before the lab, and the two limits in order."""

    task = (
        "Before the lab: between which distances do the deflections of this magnet lie within 30° to 60° (tan A "
        "position)? Work the nearest and the farthest distance, then see whether the bar is clear of the box and "
        "the arm long enough. Take µ₀/4π = 10⁻⁷ T·m/A."
    )
    formula = "B = B_H tan θ = (µ₀/4π) · 2md / (d² − l²)²"

    def givens(self, scenario: Choosing) -> list[tuple[str, str]]:
        return [
            ("Magnet", f"{scenario.bar.name}, {scenario.bar.material.name}"),
            ("Its rough moment m", f"{figures(scenario.moment, 2)} A·m²"),
            ("Its measured length", f"{centimetres(scenario.bar.length)} cm"),
            ("Its magnetic length 2l", "5/6 of the measured length"),
            (f"B_H at {scenario.place.name}, {scenario.when}", f"{places(scenario.B_H * 1e6, 1)} µT"),
            ("Radius of the box", f"{centimetres(scenario.radius)} cm"),
            ("Each arm, from the box’s centre", f"{centimetres(scenario.arm)} cm"),
        ]

    def groups(self, scenario: Choosing, working: Working) -> list[tuple[str, list[Step]]]:
        def of(*ids):
            return [working.by_id[i] for i in ids]

        rounds = ("field", "cube", "guess", "correction", "distance")
        return [
            ("The magnet", of("l")),
            ("The nearest distance: 60°", of(*(f"{r}-near" for r in rounds))),
            ("The farthest distance: 30°", of(*(f"{r}-far" for r in rounds))),
            ("The box and the arm", of("gap", "clear", "from", "reach", "fits", "to")),
        ]

    def numbers(self, scenario: Choosing) -> dict:
        return {
            "place": scenario.place.name,
            "when": scenario.when,
            "B_H": scenario.B_H,
            "length": scenario.bar.length,
            "moment": scenario.moment,
            "radius": scenario.radius,
            "arm": scenario.arm,
        }


PAGE = ChoosingPage()
KIND = Kind("N", "distances", "Choosing distances", {1: draw_first_edition}, working, PAGE, SLIPS)

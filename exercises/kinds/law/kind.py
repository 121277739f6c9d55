"""Tangent law drills: four short items about one needle in two fields.

1  B from θ and B_H          3  B_H from θ and B
2  θ from B and B_H, and     4  arms that are α off east–west: with a magnet of field B along the arm,
   the field along the needle     tan θ = B cos α / (B_H ± B sin α), the sign by the way its N pole points
"""

import math
from dataclasses import dataclass

from exercises.codes.scenario import Draw, Scenario, draw_place
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.kind import Kind
from exercises.kinds.law.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.law.steps import PARTS, PLAN
from exercises.kinds.sheet import Page
from exercises.slips.catalogue import Slip, slips_for
from exercises.working.numbers import places
from exercises.working.steps import Step, Working


@dataclass(frozen=True)
class Drill(Scenario):
    """The numbers of the four items: fields in T as shown (0.1 µT), angles in degrees as shown.

    theta  deflections given in items 1 and 3; fields  the fields given in items 2, 3 and 4
    tilt   how far the east arm points off east in item 4; north  True if it is off towards the north
    """

    theta: tuple[float, float]
    fields: tuple[float, float, float]
    tilt: float
    north: bool


SLIPS = slips_for("law", PARTS, OF_THIS_KIND)
NUMERIC = tuple(step.id for step in PLAN.steps if not step.choices)
LEAST, MOST = 26.0, 64.0  # degrees
NOT_NEAR_45 = 3.5  # degrees: nearer than that an angle and its complement look alike
TILTS = (5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0)  # degrees
EARTH = (12.0, 42.0)  # µT, what B_H of item 3 may be
ATTEMPTS = 5000


def working(drill: Drill) -> Working:
    """The working of a drill."""
    givens = {"B_H": drill.B_H, "theta": drill.theta, "fields": drill.fields, "tilt": drill.tilt, "north": drill.north}
    return Working(PLAN, givens, PARTS)


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> Drill:
    """The numbers of a code of edition 1.  ArithmeticError if there are none, which no code leads to."""
    draw = Draw(code)
    for _ in range(ATTEMPTS):
        drill = _attempt(draw, code, slips)
        if drill is not None:
            return drill
    raise ArithmeticError(f"no consistent numbers were found for code {code}; use another code")


def _to_tenth(x: float) -> float:
    return math.floor(x * 10 + 0.5) / 10


def _attempt(draw: Draw, code: SheetCode, slips: tuple[Slip, ...]) -> Drill | None:
    place, year, month, B_H = draw_place(draw, code.setting)
    earth = B_H * 1e6
    angles = tuple(_to_tenth(draw.between(LEAST, MOST)) for _ in range(4))
    elsewhere = draw.between(*EARTH)
    tilt, north = draw.pick(TILTS), draw.below(2) == 1
    if any(abs(angle - 45) < NOT_NEAR_45 for angle in angles[:3]) or len(set(angles)) < 4:
        return None
    one, two, three, four = angles
    tangents = (math.tan(math.radians(x)) for x in (two, three, four))
    fields = tuple(math.floor(B * t * 10 + 0.5) / 1e7 for B, t in zip((earth, elsewhere, earth), tangents))
    drill = Drill(code, place, year, month, B_H, (one, three), fields, tilt, north)
    return drill if tells_apart(working(drill), slips, NUMERIC) else None


class DrillPage(Page):
    """What the sheet shows: the place, and a line for each item."""

    task = (
        "Four short questions about a needle in two fields. The arms lie east–west, so that the magnet’s field B "
        "lies across B_H, except in the last: there somebody has turned the board."
    )
    formula = "B = B_H tan θ"

    def givens(self, scenario: Drill) -> list[tuple[str, str]]:
        return [(f"B_H at {scenario.place.name}, {scenario.when}", f"{places(scenario.B_H * 1e6, 1)} µT")]

    def observations(self, scenario: Drill) -> str:
        B2, B3, B4 = (places(B * 1e6, 1) for B in scenario.fields)
        one, three = (places(theta, 1) for theta in scenario.theta)
        here, field = "<i>B</i><sub>H</sub>", "<i>B</i>"
        side = "north" if scenario.north else "south"
        lines = (
            (f"here: θ = {one}°", f"the magnet’s field {field}"),
            (f"here: {field} = {B2} µT", "θ, and the field along the needle"),
            (f"in another room: {field} = {B3} µT, θ = {three}°", f"{here} there"),
            (
                f"here: {field} = {B4} µT along the arm, the magnet on the east arm, "
                f"which points {scenario.tilt:.0f}° {side} of east",
                f"both deflections; {field} from them, and from one alone",
            ),
        )
        body = "".join(
            f'<tr><th scope="row">{i}</th><td>{known}</td><td>{sought}</td></tr>'
            for i, (known, sought) in enumerate(lines, 1)
        )
        return (
            '<table class="er-observations"><caption>Four questions. Angles are means of eight readings, '
            "except in the last.</caption><thead><tr><td></td>"
            '<th scope="col">what is known</th><th scope="col">what is sought</th></tr></thead>'
            f"<tbody>{body}</tbody></table>"
        )

    def groups(self, scenario: Drill, working: Working) -> list[tuple[str, list[Step]]]:
        def of(*ids):
            return [working.by_id[i] for i in ids]

        return [
            ("1. A field from a deflection", of("tan-1", "field-1")),
            ("2. A deflection from a field", of("theta-2", "along-2")),
            ("3. The earth’s field", of("earth-3")),
            ("4. The board turned", of("way-4", "east-4", "west-4", "mean-4", "field-4", "error-4")),
        ]

    def numbers(self, scenario: Drill) -> dict:
        return {
            "place": scenario.place.name,
            "when": scenario.when,
            "B_H": scenario.B_H,
            "theta": scenario.theta,
            "fields": scenario.fields,
            "tilt": scenario.tilt,
            "north": scenario.north,
        }


PAGE = DrillPage()
KIND = Kind("W", "law", "Tangent law drills", {1: draw_first_edition}, working, PAGE, SLIPS)

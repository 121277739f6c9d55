"""The steps of the tangent law drills, and the parts their formulas are made of.

Item 4: with the arms α off east–west the magnet's field, which lies along the
arm, has a part B cos α to the east or west and a part B sin α that adds to B_H
one way round and takes from it the other way.  Worked from the drawing in
content/exercises/law.md; no other source.
"""

import math

from exercises.working.arithmetic import Span
from exercises.working.numbers import figures, places
from exercises.working.steps import Plan, Step

THEORY = "exercises/law/"
BOARD = THEORY + "#a-board-that-is-not-east-west"
ALONG = THEORY + "#the-field-along-the-needle"
LAW = "before/tangent-law/"


def _tan(x: float) -> float:
    return math.tan(math.radians(x))


def _arctan(x: float) -> float:
    return math.degrees(math.atan(x))


PARTS = {
    "law_tangent": lambda a, theta: a.apply(_tan, theta),
    "law_angle": lambda a, ratio: a.apply(_arctan, ratio),
    "law_written": lambda B: B,
    "law_along": lambda a, B, B_H: a.apply(math.sqrt, a.keep(a.keep(B * B) + a.keep(B_H * B_H))),
    "law_tilt": lambda alpha: (math.cos(math.radians(alpha)), math.sin(math.radians(alpha))),
    "law_side": lambda side: side,
    "law_halve": lambda: 2,
    "law_error": lambda a, *, large, small, right: (large - right) / right,
    "law_percent": lambda share: share,
}


def _ends(choose, x, y):
    """max or min of two values; of two spans, the one with the larger or smaller middle."""
    return choose(x, y, key=lambda v: (v.lo + v.hi) / 2 if isinstance(v, Span) else v)


def _tangent_1(a, known, givens, parts):
    return a.tangent(parts["law_tangent"](a, givens["theta"][0]), twice=True)


def _field_1(a, known, givens, parts):
    return a.keep(parts["law_written"](givens["B_H"] * known["tan-1"]), twice=True)


def _theta_2(a, known, givens, parts):
    return a.angle(parts["law_angle"](a, a.tangent(givens["fields"][0] / givens["B_H"])), twice=True)


def _along_2(a, known, givens, parts):
    B, B_H = givens["fields"][0], givens["B_H"]

    def by_angle():  # the same by way of the deflection, which may have been kept to 0.1°
        theta = a.angle(_arctan(B / B_H))
        return B_H / a.keep(a.apply(lambda x: math.cos(math.radians(x)), theta))

    along = a.either(lambda: parts["law_along"](a, B, B_H), by_angle)
    return a.keep(parts["law_written"](along), twice=True)


def _earth_3(a, known, givens, parts):
    tangent = a.tangent(parts["law_tangent"](a, givens["theta"][1]))
    return a.keep(parts["law_written"](givens["fields"][1] / tangent), twice=True)


def _way_4(a, known, givens, parts):
    # N pole east: the field points out along the east arm, and its northward part has the arm's own sign
    return "west" if givens["north"] else "east"


def _turned(way):
    def formula(a, known, givens, parts):
        B, (cos, sin) = givens["fields"][2], parts["law_tilt"](givens["tilt"])
        side = parts["law_side"]((1 if givens["north"] else -1) * (1 if way == "east" else -1))
        under = a.keep(givens["B_H"] + side * a.keep(B * sin))
        return a.angle(parts["law_angle"](a, a.tangent(a.keep(B * cos) / under)))

    return formula


def _mean_4(a, known, givens, parts):
    return a.angle((known["east-4"] + known["west-4"]) / parts["law_halve"](), twice=True)


def _field_4(a, known, givens, parts):
    tangent = a.tangent(parts["law_tangent"](a, known["mean-4"]))
    return a.keep(parts["law_written"](givens["B_H"] * tangent))


def _error_4(a, known, givens, parts):
    def alone(theta):
        return a.keep(givens["B_H"] * a.tangent(parts["law_tangent"](a, theta)))

    large, small = (alone(_ends(choose, known["east-4"], known["west-4"])) for choose in (max, min))
    return a.keep(parts["law_percent"](parts["law_error"](a, large=large, small=small, right=givens["fields"][2])))


# -- how each step looks with its numbers put in -----------------------------


def _ut(B: float) -> str:
    return places(B * 1e6, 1)


def _tangent_line(known, givens):
    return f"tan θ = tan {places(givens['theta'][0], 1)}° = {places(known['tan-1'], 4)}"


def _field_line(known, givens):
    return f"B = B_H tan θ = {_ut(givens['B_H'])} × {places(known['tan-1'], 4)} = {figures(known['field-1'] * 1e6)} µT"


def _theta_line(known, givens):
    B, B_H = givens["fields"][0], givens["B_H"]
    return f"tan θ = B/B_H = {_ut(B)} / {_ut(B_H)} = {places(B / B_H, 4)};  θ = {places(known['theta-2'], 1)}°"


def _along_line(known, givens):
    B, B_H = givens["fields"][0], givens["B_H"]
    return f"√(B² + B_H²) = √({_ut(B)}² + {_ut(B_H)}²) = {figures(known['along-2'] * 1e6)} µT"


def _earth_line(known, givens):
    theta, B = givens["theta"][1], givens["fields"][1]
    return (
        f"B_H = B / tan θ = {_ut(B)} / tan {places(theta, 1)}° = {_ut(B)} / {places(_tan(theta), 4)} "
        f"= {figures(known['earth-3'] * 1e6)} µT"
    )


def _way_line(known, givens):
    return (
        f"The east arm points {'north' if givens['north'] else 'south'} of east. With the N pole to the "
        f"{known['way-4']} the magnet’s field has a part to the south, against B_H: there the needle turns farther."
    )


def _turned_line(way):
    def line(known, givens):
        sign = "+" if givens["north"] == (way == "east") else "−"
        B, B_H, alpha = _ut(givens["fields"][2]), _ut(givens["B_H"]), f"{givens['tilt']:.0f}°"
        theta = known[f"{way}-4"]
        return (
            f"N {way}: tan θ = {B} cos {alpha} / ({B_H} {sign} {B} sin {alpha}) = {places(_tan(theta), 4)};  "
            f"θ = {places(theta, 2)}°"
        )

    return line


def _mean_line(known, givens):
    east, west = places(known["east-4"], 2), places(known["west-4"], 2)
    return f"θ = ({east}° + {west}°) / 2 = {places(known['mean-4'], 2)}°"


def _field_4_line(known, givens):
    mean = places(known["mean-4"], 2)
    return (
        f"B = B_H tan θ = {_ut(givens['B_H'])} × tan {mean}° = {figures(known['field-4'] * 1e6)} µT, "
        f"very nearly the {_ut(givens['fields'][2])} µT that is there"
    )


def _error_line(known, givens):
    theta, B = max(known["east-4"], known["west-4"]), givens["fields"][2]
    one = figures(givens["B_H"] * _tan(theta) * 1e6, 5)  # the difference is small: it takes more figures
    return (
        f"B_H tan {places(theta, 2)}° = {one} µT;  ({one} − {_ut(B)}) / {_ut(B)} = {figures(known['error-4'] * 100)} %"
    )


WAYS = (
    (
        "east",
        "N pole east",
        "With the N pole to the east this magnet’s field has a part to the north, which helps "
        "B_H and holds the needle back.",
    ),
    (
        "west",
        "N pole west",
        "With the N pole to the west this magnet’s field has a part to the north, which helps "
        "B_H and holds the needle back.",
    ),
)


def _step(id, title, quantity, rule, formula, line, hints, read, needs=(), looks_back=True, choices=()):
    return Step(
        id, id, title, quantity, rule, needs, formula, line, hints, read, looks_back=looks_back, choices=choices
    )


def _turned_step(way):
    return _step(
        f"{way}-4",
        f"θ, N pole {way}",
        "angle",
        "angle",
        _turned(way),
        _turned_line(way),
        (
            "The magnet’s field lies along the arm: B cos α of it across B_H, B sin α along B_H.",
            f"With the N pole {way}, does the part B sin α point north, with B_H, or south, against it?",
            "tan θ = B cos α / (B_H ± B sin α): plus where it points north, minus where it points south.",
        ),
        BOARD,
    )


PLAN = Plan(
    (
        _step(
            "tan-1",
            "tan θ",
            "ratio",
            "tangent",
            _tangent_1,
            _tangent_line,
            (
                "Set the calculator to degrees. Keep four places.",
                "Below 45° the tangent is less than 1; above, it is more.",
            ),
            LAW + "#the-tangent-not-the-sine",
        ),
        _step(
            "field-1",
            "the magnet’s field B",
            "field",
            "figures",
            _field_1,
            _field_line,
            ("B = B_H tan θ. Below 45° the magnet’s field is the weaker of the two.",),
            LAW + "#why-the-needle-settles-there",
            ("tan-1",),
        ),
        _step(
            "theta-2",
            "deflection θ",
            "angle",
            "angle",
            _theta_2,
            _theta_line,
            ("tan θ = B / B_H; then the angle that has this tangent, tan⁻¹ on a calculator, in degrees.",),
            LAW + "#which-angle",
        ),
        _step(
            "along-2",
            "field along the needle",
            "field",
            "figures",
            _along_2,
            _along_line,
            (
                "The two fields are the short sides of a right-angled triangle; the needle lies along its longest side.",
                "√(B² + B_H²). B_H / cos θ is the same.",
            ),
            ALONG,
        ),
        _step(
            "earth-3",
            "B_H there",
            "field",
            "figures",
            _earth_3,
            _earth_line,
            (
                "Solve B = B_H tan θ for B_H.",
                "B_H = B / tan θ. Below 45° the earth’s field is the stronger of the two.",
            ),
            THEORY + "#the-law-both-ways",
        ),
        _step(
            "way-4",
            "which way turns the needle farther?",
            "choice",
            "reading",
            _way_4,
            _way_line,
            (
                "Beyond the ends of a magnet its field points the way its N pole points.",
                "Draw the field at the box. Has it a part to the north, with B_H, or to the south, against it?",
            ),
            BOARD,
            choices=WAYS,
        ),
        _turned_step("east"),
        _turned_step("west"),
        _step(
            "mean-4",
            "mean of the two θ",
            "angle",
            "angle",
            _mean_4,
            _mean_line,
            ("Add the two and halve, as the reversal in the eight readings does.",),
            BOARD,
            ("east-4", "west-4"),
            False,
        ),
        _step(
            "field-4",
            "B from the mean",
            "field",
            "figures",
            _field_4,
            _field_4_line,
            ("B_H tan θ with the mean deflection, as if the board were true.",),
            BOARD,
            ("mean-4",),
            False,
        ),
        _step(
            "error-4",
            "the larger θ alone: B too large by",
            "percent",
            "figures",
            _error_4,
            _error_line,
            (
                "Work B_H tan θ with the larger of the two deflections and compare it with the B that is there.",
                "(B_H tan θ − B) / B, in per cent.",
            ),
            BOARD,
            ("east-4", "west-4"),
            False,
        ),
    )
)

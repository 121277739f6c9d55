"""The steps of choosing distances before the lab: a first guess without l, a correction for l, and the limits.

For each limit of the deflection: the field needed, B = B_H tan θ; the cube of
the first guess, d₀³ = (µ0/4π)·2m/B; d₀; and since (d² − l²)²/d is d³ − 2l²d
but for l⁴/d, the correction 2l²/3d₀ that d₀ is too short by, to first order in
l²/d².  Then whether the bar is clear of the box and lies on the arm.

The correction is a step of its own because a slip in l moves d itself by no
more than three figures hide.
"""

import math

from exercises.bench.field import MU_0_OVER_4PI
from exercises.kinds.deflection.draw import CLEARANCE, HIGHEST, LOWEST
from exercises.kinds.deflection.steps import MAGNETIC_SHARE
from exercises.working.arithmetic import Span
from exercises.working.numbers import centimetres, figures, places
from exercises.working.steps import Plan, Step

HALF_MILLIMETRE = 0.0005  # m; a distance is chosen in whole millimetres
LIMITS = {"near": HIGHEST, "far": LOWEST}  # the larger deflection is the nearer one
THEORY = "exercises/distances/"

PARTS = {
    "limit_angle": lambda limit: LIMITS[limit],
    "limit_tangent": lambda a, theta: a.apply(lambda x: math.tan(math.radians(x)), theta),
    "limit_twice_moment": lambda m: 2 * m,
    "field_constant": lambda: MU_0_OVER_4PI,
    "limit_tesla": lambda B: B,
    "limit_guess_root": lambda a, cube: a.apply(math.cbrt, cube),
    "limit_magnetic_share": lambda: MAGNETIC_SHARE,
    "limit_half_length": lambda a, two_l: two_l / 2,
    "correction_length": lambda l: l,
    "correction_square": lambda l: l * l,
    "correction_share": lambda: 2 / 3,
    "correction_sign": lambda: 1,
    "arm_half_bar": lambda length, l: length / 2,
    "box_edge": lambda radius: radius,
    "box_clearance": lambda: CLEARANCE,
    "start_moved": lambda: True,
    "stop_moved": lambda: True,
}


def _middle(x) -> float:
    return (x.lo + x.hi) / 2 if isinstance(x, Span) else x


def _half_length(a, known, givens, parts):
    two_l = a.keep(parts["limit_magnetic_share"]() * givens["length"])
    return a.within(parts["limit_half_length"](a, two_l), HALF_MILLIMETRE)


def _field(limit):
    def formula(a, known, givens, parts):
        tangent = a.tangent(parts["limit_tangent"](a, parts["limit_angle"](limit)))
        return a.keep(givens["B_H"] * tangent, twice=True)

    return formula


def _cube(limit):
    def formula(a, known, givens, parts):
        top = a.keep(parts["field_constant"]() * parts["limit_twice_moment"](givens["moment"]))
        return a.keep(top / parts["limit_tesla"](known[f"field-{limit}"]))

    return formula


def _guess(limit):
    return lambda a, known, givens, parts: a.keep(parts["limit_guess_root"](a, known[f"cube-{limit}"]))


def _correction(limit):
    def formula(a, known, givens, parts):
        l, d = parts["correction_length"](known["l"]), known[f"guess-{limit}"]
        square, share = a.keep(parts["correction_square"](l)), parts["correction_share"]()
        return a.keep(a.either(lambda: a.keep(share * square) / d, lambda: share * a.keep(square / d)))

    return formula


def _distance(limit):
    def formula(a, known, givens, parts):
        d = known[f"guess-{limit}"] + parts["correction_sign"]() * known[f"correction-{limit}"]
        return a.keep(a.within(d, HALF_MILLIMETRE))

    return formula


def _half_bar(known, givens, parts):
    return parts["arm_half_bar"](givens["length"], known["l"])


def _gap(a, known, givens, parts):
    left = known["distance-near"] - _half_bar(known, givens, parts) - parts["box_edge"](givens["radius"])
    return a.within(left, HALF_MILLIMETRE)


def _reach(a, known, givens, parts):
    return a.keep(known["distance-far"] + _half_bar(known, givens, parts))


def _from(a, known, givens, parts):
    # every part is taken whether it counts or not, so that the plan knows what this step hangs on
    moved = parts["start_moved"]() and _middle(known["gap"]) < CLEARANCE
    least = parts["box_edge"](givens["radius"]) + parts["box_clearance"]() + _half_bar(known, givens, parts)
    return a.keep(a.within(least if moved else known["distance-near"], HALF_MILLIMETRE))


def _to(a, known, givens, parts):
    moved = parts["stop_moved"]() and _middle(known["reach"]) > givens["arm"]
    most = givens["arm"] - _half_bar(known, givens, parts)
    return a.keep(a.within(most if moved else known["distance-far"], HALF_MILLIMETRE))


def _clear(a, known, givens, parts):
    return "clear" if _middle(known["gap"]) >= CLEARANCE else "close"


def _fits(a, known, givens, parts):
    return "fits" if _middle(known["reach"]) <= givens["arm"] else "short"


# -- how each step looks with its numbers put in -----------------------------


def _l_line(known, givens):
    return (
        f"2l = 5/6 × {centimetres(givens['length'])} cm = {centimetres(2 * known['l'], 2)} cm;  "
        f"l = {centimetres(known['l'], 2)} cm"
    )


def _limit_lines(limit):
    def field(known, givens):
        theta = LIMITS[limit]
        return (
            f"B = B_H tan {theta:.0f}° = {places(givens['B_H'] * 1e6, 1)} × "
            f"{places(math.tan(math.radians(theta)), 4)} = {figures(known[f'field-{limit}'] * 1e6)} µT"
        )

    def cube(known, givens):
        return (
            f"d₀³ = 10⁻⁷ × 2 × {figures(givens['moment'], 2)} / {figures(known[f'field-{limit}'], 4)} "
            f"= {figures(known[f'cube-{limit}'], 4)} m³"
        )

    def guess(known, givens):
        return f"d₀ = ∛({figures(known[f'cube-{limit}'], 4)} m³) = {centimetres(known[f'guess-{limit}'])} cm"

    def correction(known, givens):
        return (
            f"2l²/3d₀ = 2 × ({centimetres(known['l'], 2)} cm)² / (3 × {centimetres(known[f'guess-{limit}'])} cm) "
            f"= {centimetres(known[f'correction-{limit}'], 2)} cm"
        )

    def distance(known, givens):
        return (
            f"d = d₀ + 2l²/3d₀ = {centimetres(known[f'guess-{limit}'], 2)} + "
            f"{centimetres(known[f'correction-{limit}'], 2)} = {centimetres(known[f'distance-{limit}'])} cm"
        )

    return field, cube, guess, correction, distance


def _gap_line(known, givens):
    return (
        f"{centimetres(known['distance-near'])} − {centimetres(givens['length'] / 2, 2)} − "
        f"{centimetres(givens['radius'])} = {centimetres(known['gap'])} cm"
    )


def _clear_line(known, givens):
    gap = centimetres(known["gap"])
    if known["gap"] >= CLEARANCE:
        return f"{gap} cm is more than 1 cm: the bar is clear of the box."
    return f"{gap} cm is less than 1 cm: the bar would be too close to the box."


def _reach_line(known, givens):
    return f"{centimetres(known['distance-far'])} + {centimetres(givens['length'] / 2, 2)} = {centimetres(known['reach'])} cm"


def _fits_line(known, givens):
    more, how = ("less", "long enough") if known["reach"] <= givens["arm"] else ("more", "too short")
    return f"{centimetres(known['reach'])} cm is {more} than {centimetres(givens['arm'])} cm: the arm is {how}."


def _from_line(known, givens):
    if known["gap"] >= CLEARANCE:
        return f"The bar is clear: from {centimetres(known['from'])} cm, where the deflection is 60°."
    half = centimetres(givens["length"] / 2, 2)
    return f"{centimetres(givens['radius'])} + 1 + {half} = {centimetres(known['from'])} cm, box, gap and half the bar"


def _to_line(known, givens):
    if known["reach"] <= givens["arm"]:
        return f"The arm is long enough: to {centimetres(known['to'])} cm, where the deflection is 30°."
    half = centimetres(givens["length"] / 2, 2)
    return (
        f"{centimetres(givens['arm'])} − {half} = {centimetres(known['to'])} cm, so that the whole bar lies on the arm"
    )


def _limit_steps(limit):
    lines = _limit_lines(limit)
    theta = LIMITS[limit]
    which = {"near": "nearest", "far": "farthest"}[limit]

    def step(column, at, title, quantity, formula, needs, hints, anchor, looks_back=True):
        read, id = THEORY + anchor, f"{column}-{limit}"
        return Step(id, column, title, quantity, "figures", needs, formula, lines[at], hints, read, None, looks_back)

    cube, guess, correction = f"cube-{limit}", f"guess-{limit}", f"correction-{limit}"
    return (
        step(
            "field",
            0,
            f"field B for {theta:.0f}°",
            "field",
            _field(limit),
            (),
            (
                f"The {which} distance has the {'largest' if limit == 'near' else 'smallest'} deflection, {theta:.0f}°.",
                f"By the tangent law B = B_H tan {theta:.0f}°.",
            ),
            "#the-field-needed",
        ),
        step(
            "cube",
            1,
            "d₀³ = (µ₀/4π)·2m/B",
            "volume",
            _cube(limit),
            (f"field-{limit}",),
            (
                "Far from a short magnet B = (µ₀/4π)·2m/d³. Turn it round for d³.",
                "(µ₀/4π) is 10⁻⁷ T·m/A, and B goes in in tesla: 1 µT is 10⁻⁶ T.",
            ),
            "#the-first-guess",
        ),
        step(
            "guess",
            2,
            "first guess d₀",
            "distance",
            _guess(limit),
            (cube,),
            ("Take the cube root. It is in metres; a hundred times that is in centimetres.",),
            "#the-first-guess",
        ),
        step(
            "correction",
            3,
            "correction 2l²/3d₀",
            "distance",
            _correction(limit),
            ("l", guess),
            (
                "Square l, double it, and divide by three times d₀.",
                "With l and d₀ both in centimetres it comes out in centimetres: a few millimetres.",
            ),
            "#the-correction-for-l",
            False,
        ),
        step(
            "distance",
            4,
            f"{which} distance d",
            "distance",
            _distance(limit),
            (guess, correction),
            ("d = d₀ + 2l²/3d₀, to the millimetre.",),
            "#the-correction-for-l",
            False,
        ),
    )


CLEAR = (
    ("clear", "yes: begin at 60°", "The end of the bar would be less than 1 cm from the box. Begin farther off."),
    ("close", "no: begin farther off", "The end of the bar is 1 cm or more from the box, so it is clear."),
)
FITS = (
    ("fits", "yes: go out to 30°", "The far end of the bar would stand out over the end of the arm."),
    ("short", "no: stop earlier", "The whole bar still lies on the arm there, so the arm is long enough."),
)
HALF = Step(
    "l",
    "l",
    "half length l",
    "distance",
    "reading",
    (),
    _half_length,
    _l_line,
    ("The magnetic length 2l is 5/6 of the measured length; l is half of it.",),
    "before/field-end-on/#half-the-magnetic-length",
)


def _end_step(id, title, quantity, needs, formula, line, hints, anchor, choices=()):
    rule = "reading" if id in ("gap", "clear", "fits") else "figures"
    return Step(
        id, id, title, quantity, rule, needs, formula, line, hints, THEORY + anchor, looks_back=False, choices=choices
    )


ENDS = (
    _end_step(
        "gap",
        "gap between box and bar, nearest",
        "distance",
        ("distance-near", "l"),
        _gap,
        _gap_line,
        (
            "From the centre of the box: d to the middle of the bar, less half the bar as measured, less the box's radius.",
        ),
        "#the-box-and-the-arm",
    ),
    _end_step(
        "clear",
        "at least 1 cm clear?",
        "choice",
        ("gap",),
        _clear,
        _clear_line,
        ("Compare the gap with 1 cm.",),
        "#the-box-and-the-arm",
        CLEAR,
    ),
    _end_step(
        "from",
        "distances from",
        "distance",
        ("distance-near", "gap", "l"),
        _from,
        _from_line,
        (
            "If the bar is clear, this is the nearest distance. If not, it is the radius, 1 cm and half the bar together.",
        ),
        "#the-box-and-the-arm",
    ),
    _end_step(
        "reach",
        "far end of the bar, farthest",
        "distance",
        ("distance-far", "l"),
        _reach,
        _reach_line,
        ("d goes to the middle of the bar. Half its measured length lies farther out.",),
        "#the-box-and-the-arm",
    ),
    _end_step(
        "fits",
        "arm long enough?",
        "choice",
        ("reach",),
        _fits,
        _fits_line,
        ("Compare where the far end lies with the length of the arm.",),
        "#the-box-and-the-arm",
        FITS,
    ),
    _end_step(
        "to",
        "distances to",
        "distance",
        ("distance-far", "reach", "l"),
        _to,
        _to_line,
        (
            "If the arm is long enough, this is the farthest distance. If not, take half the bar off the length of the arm.",
        ),
        "#the-box-and-the-arm",
    ),
)

PLAN = Plan((HALF, *_limit_steps("near"), *_limit_steps("far"), *ENDS))

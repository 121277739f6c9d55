"""The formulas of choosing distances: a first guess without l, a correction for l, and the limits.

For each limit of the deflection: the field needed, B = B_H tan θ; the cube of
the first guess, d₀³ = (µ0/4π)·2m/B; d₀.  (d² − l²)²/d is d³ − 2l²d but for
l⁴/d, so d₀ is too short by 2l²/3d₀, to first order in l²/d²: the correction.
Then whether the bar is clear of the box and lies on the arm.

The correction is a step of its own because a slip in l moves d itself by no
more than three figures hide.
"""

from exercises.kinds.deflection.stretch import CLEARANCE
from exercises.kinds.distances.parts import DistancesParts
from exercises.kinds.distances.scenario import HALF_MILLIMETRE
from exercises.working.arithmetic import Arithmetic, Number, middle
from exercises.working.steps import Formula, Givens, Known


def half_length(a: Arithmetic, known: Known, givens: Givens, parts: DistancesParts) -> Number:
    """l from what the sheet gives."""
    two_l = parts.limit_magnetic_length(a, givens["length"], givens["two_l"])
    return a.within(parts.limit_half_length(a, two_l), HALF_MILLIMETRE)


def field(limit: str) -> Formula[DistancesParts]:
    """B = B_H tan θ at a limit, "near" or "far"."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: DistancesParts) -> Number:
        tangent = a.tangent(parts.limit_tangent(a, parts.limit_angle(limit)))
        return a.keep(givens["B_H"] * tangent)

    return formula


def cube(limit: str) -> Formula[DistancesParts]:
    """d₀³ at a limit."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: DistancesParts) -> Number:
        top = a.keep(parts.field_constant() * parts.limit_twice_moment(givens["moment"]))
        return a.keep(top / parts.limit_tesla(known[f"field-{limit}"]))

    return formula


def guess(limit: str) -> Formula[DistancesParts]:
    """d₀ at a limit."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: DistancesParts) -> Number:
        return a.keep(parts.limit_guess_root(a, known[f"cube-{limit}"]))

    return formula


def correction(limit: str) -> Formula[DistancesParts]:
    """2l²/3d₀ at a limit."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: DistancesParts) -> Number:
        l, d = parts.correction_length(known["l"]), known[f"guess-{limit}"]
        square, share = a.keep(parts.correction_square(l)), parts.correction_share()
        return a.keep(a.either(lambda: a.keep(share * square) / d, lambda: share * a.keep(square / d)))

    return formula


def distance(limit: str) -> Formula[DistancesParts]:
    """d = d₀ + 2l²/3d₀ at a limit."""

    def formula(a: Arithmetic, known: Known, givens: Givens, parts: DistancesParts) -> Number:
        d = known[f"guess-{limit}"] + parts.correction_sign() * known[f"correction-{limit}"]
        return a.keep(a.within(d, HALF_MILLIMETRE))

    return formula


def _half_bar(known: Known, givens: Givens, parts: DistancesParts) -> Number:
    return parts.arm_half_bar(givens["length"], known["l"])


def gap(a: Arithmetic, known: Known, givens: Givens, parts: DistancesParts) -> Number:
    """What is left between the box and the bar at the nearest distance."""
    left = known["distance-near"] - _half_bar(known, givens, parts) - parts.box_edge(givens["radius"])
    return a.within(left, HALF_MILLIMETRE)


def reach(a: Arithmetic, known: Known, givens: Givens, parts: DistancesParts) -> Number:
    """Where the far end of the bar lies at the farthest distance."""
    return a.keep(known["distance-far"] + _half_bar(known, givens, parts))


def start(a: Arithmetic, known: Known, givens: Givens, parts: DistancesParts) -> Number:
    """The distance that is begun at."""
    # every part is taken whether it counts or not, so that the plan knows what this step hangs on
    moved = parts.start_moved() and middle(known["gap"]) < CLEARANCE
    least = parts.box_edge(givens["radius"]) + parts.box_clearance() + _half_bar(known, givens, parts)
    return a.keep(a.within(least if moved else known["distance-near"], HALF_MILLIMETRE))


def stop(a: Arithmetic, known: Known, givens: Givens, parts: DistancesParts) -> Number:
    """The distance that is gone out to."""
    moved = parts.stop_moved() and middle(known["reach"]) > givens["arm"]
    most = givens["arm"] - _half_bar(known, givens, parts)
    return a.keep(a.within(most if moved else known["distance-far"], HALF_MILLIMETRE))


def clear(a: Arithmetic, known: Known, givens: Givens, parts: DistancesParts) -> str:
    """Whether the bar is clear of the box: "clear" or "close"."""
    return "clear" if middle(known["gap"]) >= CLEARANCE else "close"


def fits(a: Arithmetic, known: Known, givens: Givens, parts: DistancesParts) -> str:
    """Whether the bar lies on the arm: "fits" or "short"."""
    return "fits" if middle(known["reach"]) <= givens["arm"] else "short"

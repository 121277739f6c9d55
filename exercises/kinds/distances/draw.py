"""The numbers of choosing distances, drawn so that every choice is plain and the slips can be told apart."""

from dataclasses import replace

from exercises.bench.field import moment_end_on
from exercises.codes.scenario import Draw, draw_field, draw_length_mm, first_good
from exercises.codes.sheet_code import SheetCode
from exercises.judging.diagnosis import tells_apart
from exercises.kinds.deflection.bars import draw_bar
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.deflection.stretch import CLEARANCE
from exercises.kinds.distances.scenario import LIMITS, Choosing, truth
from exercises.kinds.distances.steps import working
from exercises.slips.catalogue import Slip, told_at_ends

SHARES = (0.15, 0.26)  # of l/d at 45°: the correction is seen beside rounding, and one is enough
# so many that classmates who share the field hardly ever share all numbers
RADII = tuple(n / 1000 for n in range(35, 81))  # m
ARMS = tuple(n / 200 for n in range(40, 101))  # m
ROOM = 0.003  # m by which gap and reach keep off their limits, so that rounding never turns a choice over
SMALLEST_GAP = 0.002  # m; a gap of nothing or less is no number to type
SHORTEST = 0.015  # m of arm that is left to choose from
CLOSE_ENOUGH = 0.0008  # m, the corrected distance off the true one


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> Choosing:
    """The numbers of a code of edition 1, such that these slips can be told apart.

    ArithmeticError if there are none, which no code leads to.
    """
    return first_good(Draw(code), slips, lambda draw, slips: _attempt(draw, code, slips))


def _attempt(draw: Draw, code: SheetCode, slips: tuple[Slip, ...]) -> Choosing | None:
    field, rule = draw_field(draw, code.setting), rule_of(code.setting)
    length_mm = draw_length_mm(draw, code.setting)
    share = draw.between(*SHARES)

    def rough(two_l: float) -> float:
        l = rule.two_l(length_mm / 1e3, two_l) / 2
        return moment_end_on(field.B_H, l / share, l)

    bar = draw_bar(draw, length_mm, rule, rough)
    wants_clear, wants_fit = draw.below(2) == 0, draw.below(10) < 6
    if bar is None:
        return None
    if bar.poles_at_ends:
        slips = told_at_ends(slips)
    # the two limits do not hang on the box and the arm, which are chosen by them
    chosen = Choosing(code, field, bar, bar.moment, RADII[0], ARMS[0])
    near, far = (working(chosen).value(f"distance-{limit}") for limit in LIMITS)
    if any(abs(d - truth(chosen, limit)) > CLOSE_ENOUGH for d, limit in ((near, "near"), (far, "far"))):
        return None
    radius = _radius(draw, near - bar.length / 2, wants_clear)
    if radius is None:
        return None
    start = max(near, radius + CLEARANCE + bar.length / 2)
    arm = _arm(draw, far, start, bar.length / 2, wants_fit)
    if arm is None:
        return None
    chosen = replace(chosen, radius=radius, arm=arm)
    work = working(chosen)
    return chosen if tells_apart(work, slips, [s.id for s in work.steps if not s.choices]) else None


def _radius(draw: Draw, near_end: float, wants_clear: bool) -> float | None:
    """A radius with the wished answer to "is the bar clear?", or else one that leaves no doubt.

    near_end  of the bar from the centre of the box, m
    """
    plain = [r for r in RADII if near_end - r > SMALLEST_GAP and abs(near_end - r - CLEARANCE) > ROOM]
    # a long magnet is always clear of the box
    wished = [r for r in plain if (near_end - r > CLEARANCE) == wants_clear] or plain
    return draw.pick(wished) if wished else None


def _arm(draw: Draw, far: float, start: float, half: float, wants_fit: bool) -> float | None:
    """An arm that leaves a stretch to choose from, if there is one with the wished answer to "long enough?".

    far, start  the farthest distance and where one begins; half  half the bar, m
    """
    plain = [arm for arm in ARMS if abs(far + half - arm) > ROOM]
    wished = [arm for arm in plain if (arm > far + half) == wants_fit] or plain
    long_enough = [arm for arm in wished if min(far, arm - half) - start >= SHORTEST]
    return draw.pick(long_enough) if long_enough else None

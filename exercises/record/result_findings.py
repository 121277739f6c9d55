"""What the moments, the field and the magnet's size say, in sentences."""

import math
from collections.abc import Sequence
from dataclasses import replace

from exercises.bench.magnets import MATERIALS
from exercises.record import passages
from exercises.record.finding import SURE, Finding
from exercises.record.misreadings import OF_ALL_EIGHT, likely_misreadings
from exercises.record.moments import Apart, Point, Trend
from exercises.record.place import LocalField
from exercises.working.numbers import centimetres, figures, places

KNOWN_NEEDLE = 0.015  # what a 2l that is not quite right and the eye may do where the needle is reckoned with
#: A change usual with a needle that is not a point, a fall in tan A (before/result), and one of no consequence.
FALL, RISE = 0.03, 0.01
STANDS_APART = 0.02  # of the mean: less is no matter
#: Shares by which B_H may differ from the model's: iron in the building, or a mistake; common practice, no source.
FIELD_APART, FIELD_WRONG = 0.05, 0.30
#: A/m.  No magnet on sale keeps more than about 1.45 T / µ₀; from memory, common practice.
STRONGEST, WEAKEST = 1.15e6, 0.1e5
MOST_HORIZONTAL = 43e-6  # T; B_H is less everywhere on earth


def percent(share: float, count: int = 1) -> str:
    """A share in per cent, to `count` decimal places."""
    return f"{places(100 * share, count)} %"


# -- the moments ------------------------------------------------------------------


def of_moments(
    points: Sequence[Point], trend: Trend | None, apart: Apart | None, two_l: float, length: float | None
) -> list[Finding]:
    """A trend, or one moment that stands apart: whichever explains the moments better is said first.

    two_l, length  the magnetic length, and the measured one or None, m
    """
    odd = apart if apart is not None and _stands_apart(apart) else None
    if odd and (trend is None or odd.left + SURE**2 < trend.left):
        return [_apart(points, odd)]
    tan_b = points[0].position.tan_b if points else False
    if trend is None or not _is_a_trend(trend, tan_b):
        return []
    found = _trend(trend, two_l, length, len(points), tan_b)
    if odd:
        d = next(p.d for p in points if p.number == odd.number)
        fits = f"{centimetres(odd.d)} cm instead of {centimetres(d)} cm"
        or_else = f" Or distance {odd.number} alone is out: its readings would fit {fits}."
        found = replace(found, text=found.text + or_else)
    return [found]


def _stands_apart(apart: Apart) -> bool:
    return abs(apart.off) > SURE * apart.error and abs(apart.off) > STANDS_APART


def _is_a_trend(trend: Trend, tan_b: bool) -> bool:
    """Whether the moments go with the distance; in tan B a needle makes them rise, and not fall."""
    way = 1 if tan_b else -1  # of what the needle does
    change, needle = way * trend.change, way * trend.needle
    if -change > max(RISE, SURE * trend.error):
        return True
    return change > usual_by_needle(trend) and change - needle > SURE * trend.error


def usual_by_needle(trend: Trend) -> float:
    """The change by the needle that nobody need look into, as a share: short magnets lie nearer to the needle."""
    return max(FALL, 1.5 * abs(trend.needle)) if trend.needle else KNOWN_NEEDLE


def _apart(points: Sequence[Point], apart: Apart) -> Finding:
    number = apart.number
    p = next(p for p in points if p.number == number)
    side = "larger" if apart.off > 0 else "smaller"
    text = (
        f"Distance {number}: its moment is {percent(abs(apart.off))} {side} than the mean of the others (standard "
        f"error {percent(apart.error)}). Was d misread? The eight readings would fit d = {centimetres(apart.d)} cm "
        f"instead of {centimetres(p.d)} cm. Or the magnet was not turned, or the readings belong to another line."
        f"{_all_eight(p, apart)}"
    )
    return Finding("amiss", "apart", text, passages.MEAN_MOMENT, (f"d-{number}", f"moment-{number}"))


def _all_eight(p: Point, apart: Apart) -> str:
    """What all eight readings of a distance look like, if the distance is right."""
    expected = math.degrees(math.atan(math.tan(math.radians(p.theta)) / (1 + apart.off)))
    ways = likely_misreadings(p.theta, expected, 0.7)
    return f" Or all eight are {ways[0].words}." if ways and ways[0].way in OF_ALL_EIGHT else ""


def _trend(trend: Trend, two_l: float, length: float | None, count: int, tan_b: bool) -> Finding:
    rises = trend.change > 0
    said = [
        f"The moments {'rise' if rises else 'fall'} by {percent(abs(trend.change))} from the nearest distance to the "
        f"farthest (standard error {percent(trend.error)})."
    ]
    if rises == tan_b and trend.needle:
        usual = percent(usual_by_needle(trend), 0)
        said.append(
            f"A {'rise' if rises else 'fall'} of up to {usual} is usual here, for the needle is not a point; this is "
            "more."
        )
    elif rises == tan_b:
        said.append("What the needle does is taken off already.")
    ways = _what_would_level(trend, two_l, length) if count > 2 else []
    if ways:
        said.append(f"What would level them: {'; or '.join(ways)}. The moments alone do not tell which.")
    else:
        said.append("Look at l, and at the point from which d was measured.")
    said.append("A wrong B_H would not do this: it changes every moment by the same share.")
    return Finding("look", "trend", " ".join(said), passages.MEAN_MOMENT)


def _what_would_level(trend: Trend, two_l: float, length: float | None) -> list[str]:
    """Another 2l, or another zero of d, as far as a magnet of that size can have it."""
    ways = []
    most = length or two_l * 1.2
    if 0.6 * most < trend.two_l <= 1.02 * most:
        other = f"({centimetres(trend.two_l)} ± {centimetres(trend.u_two_l)}) cm"
        ways.append(f"a 2l of {other} instead of {centimetres(two_l)} cm")
    if abs(trend.shift) < 0.05:
        side = "more" if trend.shift > 0 else "less"
        ways.append(
            f"distances that are all ({centimetres(abs(trend.shift), 2)} ± {centimetres(trend.u_shift, 2)}) cm {side} "
            "than noted, as when d is not counted from the pivot to the middle of the magnet"
        )
    return ways


# -- the field --------------------------------------------------------------------


def of_field(local: LocalField, typed: float | None) -> list[Finding]:
    """What is said of the B_H that was typed (T): beside the model's for the place and date, or else on its own."""
    if typed is None:
        return []
    if local.model is None:
        said = local.not_compared
        return [Finding("note", "field", said, cells=("date",))] * bool(said) + _of_a_field_alone(typed)
    off = typed / local.model - 1
    if abs(off) < FIELD_APART:
        return []
    text = (
        f"B_H was typed as {places(typed * 1e6, 1)} µT; the field model gives {places(local.model * 1e6, 1)} µT for "
        f"this place and date, so it is {percent(abs(off), 0)} {'more' if off > 0 else 'less'}."
    )
    for part, name in ((local.total, "the whole field"), (local.vertical, "the vertical part of the field")):
        if part and abs(typed / part - 1) < 0.03 < abs(part / local.model - 1):
            text += f" It is about {name} there, {places(part * 1e6, 1)} µT: the horizontal part is wanted."
            return [Finding("amiss", "field", text, passages.TANGENT_LAW, ("B_H",))]
    if abs(off) > FIELD_WRONG:
        text += " Look at the unit, and whether it is the horizontal part."
    else:
        text += (
            " Iron in the building can do that; the moments go with B_H, all by the same share, so they do not show it."
        )
    return [Finding("look", "field", text, passages.HOW_SURE, ("B_H",))]


def _of_a_field_alone(typed: float) -> list[Finding]:
    if typed <= MOST_HORIZONTAL:
        return []
    text = (
        f"B_H = {places(typed * 1e6, 1)} µT is more than the horizontal part is anywhere on earth, about 42 µT. "
        "Is it the whole field?"
    )
    return [Finding("look", "field", text, passages.TANGENT_LAW, ("B_H",))]


def of_another_field(B_H: float, ratios: Sequence[float], wrong: int) -> list[Finding]:
    """Noted moments that are all wrong by the same share: another B_H was used for them.

    B_H     T;  ratios  how many times too large each noted moment is (columns.moment_ratios)
    wrong   how many moments were judged wrong
    """
    if len(ratios) < 2 or wrong < 2:
        return []
    ratio = sum(ratios) / len(ratios)
    other = B_H * ratio
    if abs(ratio - 1) < 0.01 or max(abs(r / ratio - 1) for r in ratios) > 0.006 or not 5e-6 < other < 70e-6:
        return []
    text = (
        f"The moments that were noted are all {places(ratio, 3)} times what B_H = {places(B_H * 1e6, 1)} µT gives. "
        f"They would fit B_H = {places(other * 1e6, 1)} µT: if that is what was used, type it as B_H."
    )
    return [Finding("look", "other-field", text, passages.MOMENT_FROM_DEFLECTION, ("B_H",))]


# -- the magnet -------------------------------------------------------------------


def of_size(moment: float, length: float | None, width: float | None, thickness: float | None) -> list[Finding]:
    """The moment (A·m²) beside the magnet's volume (lengths in m): no magnet is stronger than its material."""
    if length is None or width is None or thickness is None:
        return []
    magnetisation = moment / (length * width * thickness)
    start = f"{figures(moment)} A·m² in this volume is a magnetisation of {figures(magnetisation, 2)} A/m"
    cells = ("mean-moment", "length", "width", "thickness")
    if magnetisation > STRONGEST:
        most = f"about {figures(STRONGEST, 2)} A/m is the most"
        text = f"{start}. No magnet keeps so much ({most}). Look at the lengths and at B_H."
        return [Finding("amiss", "size", text, "", cells)]
    if magnetisation < WEAKEST:
        text = (
            f"{start}. That is little even for an old steel bar. Look at the lengths and at B_H, or the magnet has "
            "lost its strength."
        )
        return [Finding("look", "size", text, "", cells)]
    fitting = [m.name for m in MATERIALS if m.lowest <= magnetisation <= m.highest]
    if fitting:
        return [Finding("note", "size", f"{start}, as bars of {' or '.join(fitting)} have.", "", cells)]
    like = "the strong modern magnets" if magnetisation > max(m.highest for m in MATERIALS) else "weak bars"
    return [Finding("note", "size", f"{start}, as {like} have.", "", cells)]

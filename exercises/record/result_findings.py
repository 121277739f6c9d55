"""What the moments, the field and the magnet's size say, in sentences."""

import math
from collections.abc import Sequence
from dataclasses import replace

from exercises.codes.scenario import MATERIALS
from exercises.record.instrument_findings import SURE, Finding
from exercises.record.moments import Apart, Point, Trend
from exercises.record.outliers import looks_like
from exercises.record.place import LocalField
from exercises.working.numbers import centimetres, figures, places

KNOWN_NEEDLE = 0.015  # what the 5/6 rule and the eye may do where the needle is reckoned with
FALL, RISE = 0.03, 0.01  # a fall usual with a needle that is not a point (before/result), and a rise of no consequence
STANDS_APART = 0.02  # of the mean: less is no matter
#: Shares by which B_H may differ from the model's: iron in the building, or a mistake; common practice, no source.
FIELD_APART, FIELD_WRONG = 0.05, 0.30
#: A/m.  No magnet on sale keeps more than about 1.45 T / µ₀; from memory, common practice.
STRONGEST, WEAKEST = 1.15e6, 0.1e5


def percent(share: float, count: int = 1) -> str:
    return f"{places(100 * share, count)} %"


def of_moments(
    points: Sequence[Point], t: Trend | None, a: Apart | None, two_l: float, length: float | None
) -> list[Finding]:
    """A trend, or one moment that stands apart: whichever explains the moments better is said first."""
    trending = t is not None and (
        t.change > max(RISE, SURE * t.error) or (t.change < -usual_fall(t) and t.change - t.needle < -SURE * t.error)
    )
    alone = a is not None and abs(a.off) > SURE * a.error and abs(a.off) > STANDS_APART
    if alone and (t is None or a.left + SURE**2 < t.left):
        return [_apart(points, a)]
    if trending:
        found = _trend(t, two_l, length, len(points))
        if alone:
            d = next(p.d for p in points if p.number == a.number)
            fits = f"{centimetres(a.d)} cm instead of {centimetres(d)} cm"
            or_else = f" Or distance {a.number} alone is out: its readings would fit {fits}."
            found = replace(found, text=found.text + or_else)
        return [found]
    return []


def usual_fall(t: Trend) -> float:
    """The fall of the moments that nobody need look into, as a share: short magnets lie nearer to the needle."""
    return max(FALL, -1.5 * t.needle) if t.needle else KNOWN_NEEDLE


def _apart(points: Sequence[Point], a: Apart) -> Finding:
    p = next(p for p in points if p.number == a.number)
    side = "larger" if a.off > 0 else "smaller"
    text = (
        f"Distance {a.number}: its moment is {percent(abs(a.off))} {side} than the mean of the others (standard error "
        f"{percent(a.error)}). Was d misread? The eight readings would fit d = {centimetres(a.d)} cm instead of "
        f"{centimetres(p.d)} cm. Or the magnet was not turned, or the readings belong to another line.{_all_eight(p, a)}"
    )
    return Finding("amiss", "apart", text, "before/result/#the-mean-moment", (f"d-{a.number}", f"moment-{a.number}"))


def _all_eight(p: Point, a: Apart) -> str:
    """What all eight readings of a distance look like, if the distance is right."""
    expected = math.degrees(math.atan(math.tan(math.radians(p.theta)) / (1 + a.off)))
    ways = looks_like(p.theta, expected, 0.7)
    return f" Or all eight are {ways[0]}." if ways and ways[0].startswith(("read", "90")) else ""


def _trend(t: Trend, two_l: float, length: float | None, n: int) -> Finding:
    way = "rise" if t.change > 0 else "fall"
    text = (
        f"The moments {way} by {percent(abs(t.change))} from the nearest distance to the farthest (standard error "
        f"{percent(t.error)})."
    )
    if way == "fall":
        usual = (
            f" A fall of up to {percent(usual_fall(t), 0)} is usual here, for the needle is not a point; this is more."
        )
        text += usual if t.needle else " What the needle does is taken off already."
    ways = []
    if n > 2:
        most = length or two_l * 1.2
        if 0.6 * most < t.two_l <= 1.02 * most:
            ways.append(
                f"a 2l of ({centimetres(t.two_l)} ± {centimetres(t.u_two_l)}) cm instead of {centimetres(two_l)} cm"
            )
        if abs(t.shift) < 0.05:
            side = "more" if t.shift > 0 else "less"
            ways.append(
                f"distances that are all ({centimetres(abs(t.shift), 2)} ± {centimetres(t.u_shift, 2)}) cm {side} than noted, "
                "as when d is not counted from the pivot to the middle of the magnet"
            )
    if ways:
        text += f" What would level them: {'; or '.join(ways)}. The moments alone do not tell which."
    else:
        text += " Look at l, and at the point from which d was measured."
    text += " A wrong B_H would not do this: it changes every moment by the same share."
    return Finding("look", "trend", text, "before/result/#the-mean-moment")


def of_field(local: LocalField, typed: float | None) -> list[Finding]:
    """The field that was typed beside the model's for the place and date."""
    if typed is None or local.model is None:
        if typed is not None and typed > 43e-6:
            text = (
                f"B_H = {places(typed * 1e6, 1)} µT is more than the horizontal part is anywhere on earth, about 42 µT. "
                "Is it the whole field?"
            )
            return [Finding("look", "field", text, "before/tangent-law/", ("B_H",))]
        return []
    off = typed / local.model - 1
    if abs(off) < FIELD_APART:
        return []
    text = (
        f"B_H was typed as {places(typed * 1e6, 1)} µT; the field model gives {places(local.model * 1e6, 1)} µT for this "
        f"place and date, so it is {percent(abs(off), 0)} {'more' if off > 0 else 'less'}."
    )
    for part, name in ((local.total, "the whole field"), (local.vertical, "the vertical part of the field")):
        if part and abs(typed / part - 1) < 0.03 < abs(part / local.model - 1):
            text += f" It is about {name} there, {places(part * 1e6, 1)} µT: the horizontal part is wanted."
            return [Finding("amiss", "field", text, "before/tangent-law/", ("B_H",))]
    if abs(off) > FIELD_WRONG:
        text += " Look at the unit, and whether it is the horizontal part."
    else:
        text += (
            " Iron in the building can do that; the moments go with B_H, all by the same share, so they do not show it."
        )
    return [Finding("look", "field", text, "before/result/#how-sure", ("B_H",))]


def of_another_field(B_H: float, ratios: Sequence[float], wrong: int) -> list[Finding]:
    """Noted moments that are all wrong by the same share: another B_H was used for them."""
    if len(ratios) < 2 or wrong < 2:
        return []
    middle = sum(ratios) / len(ratios)
    other = B_H * middle
    if abs(middle - 1) < 0.01 or max(abs(r / middle - 1) for r in ratios) > 0.006 or not 5e-6 < other < 70e-6:
        return []
    text = (
        f"The moments that were noted are all {places(middle, 3)} times what B_H = {places(B_H * 1e6, 1)} µT gives. They would "
        f"fit B_H = {places(other * 1e6, 1)} µT: if that is what was used, type it as B_H."
    )
    return [Finding("look", "other-field", text, "before/field-end-on/#the-moment-from-the-deflection", ("B_H",))]


def of_size(moment: float, length: float | None, width: float | None, thickness: float | None) -> list[Finding]:
    """The moment beside the magnet's volume: no magnet is stronger than its material."""
    if None in (length, width, thickness):
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
            f"{start}. That is little even for an old steel bar. Look at the lengths and at B_H, or the magnet has lost "
            "its strength."
        )
        return [Finding("look", "size", text, "", cells)]
    fitting = [m.name for m in MATERIALS if m.lowest <= magnetisation <= m.highest]
    if fitting:
        return [Finding("note", "size", f"{start}, as bars of {' or '.join(fitting)} have.", "", cells)]
    like = "the strong modern magnets" if magnetisation > max(m.highest for m in MATERIALS) else "weak bars"
    return [Finding("note", "size", f"{start}, as {like} have.", "", cells)]

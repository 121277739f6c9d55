"""Bars for a sheet: a material, a size that agrees with it and with the moment, and poles where such a bar has them.

Only bars for which the sheet's way of knowing 2l holds are drawn (lengths.LengthRule.holds).
"""

import math
from collections.abc import Callable
from functools import cache
from typing import NamedTuple

from exercises.bench.magnets import MATERIALS, Bar, Material, uniform_magnetic_length
from exercises.codes.scenario import Draw, to_grid
from exercises.codes.sheet_code import Setting
from exercises.kinds.deflection.lengths import LengthRule, rule_of
from exercises.kinds.deflection.stretch import Position, limits

NARROWEST, THICKEST, WIDEST = 3, 15, 25  # mm, of the sections of bars

#: (draw, length in mm, area in mm²) -> width and thickness in mm, or None if nobody makes such bars.
type Section = Callable[[Draw, int, float], tuple[int, int] | None]
#: From the magnetic length (m) of a bar to the moment (A·m²) that is wanted of it, or None if no such bar is of use.
type MomentFor = Callable[[float], float | None]


def oblong(draw: Draw, length_mm: int, area: float) -> tuple[int, int] | None:
    """A section up to twice as wide as thick."""
    proportion = draw.between(1.0, 2.2)
    width, thickness = round(math.sqrt(area * proportion)), round(math.sqrt(area / proportion))
    return (width, thickness) if width <= min(WIDEST, length_mm / 3) else None


def draw_bar(
    draw: Draw, length_mm: int, rule: LengthRule, moment_for: MomentFor, section: Section = oblong
) -> Bar | None:
    """A bar of that length whose moment is the one wanted, to three figures, or None."""
    for material in draw.in_turn(materials_of(rule, draw.materials)):
        bar = _bar_of(draw, material, length_mm, rule, moment_for, section)
        if bar is not None:
            return bar
    return None


def _bar_of(
    draw: Draw,
    material: Material,
    length_mm: int,
    rule: LengthRule,
    moment_for: MomentFor,
    section: Section,
) -> Bar | None:
    length = length_mm / 1e3
    lowest, highest = rule.shares(material)
    two_l = to_grid(length * draw.between(lowest, highest), rule.grid)
    wanted = moment_for(two_l)
    if wanted is None:
        return None
    area = wanted * 1e6 / (draw.between(material.lowest, material.highest) * length)
    sides = section(draw, length_mm, area)
    if sides is None or not NARROWEST <= sides[1] <= min(THICKEST, sides[0]):
        return None
    width, thickness = sides
    if material.weakened is None:  # its size says where the poles lie, and they the moment
        two_l = to_grid(uniform_magnetic_length(length, width / 1e3, thickness / 1e3), rule.grid)
        wanted = moment_for(two_l) if rule.holds(length, two_l) else None
        if wanted is None:
            return None
    moment = float(f"{wanted:.2e}")  # as a maker would state it
    bar = Bar(draw.pick(draw.birds), material, length, width / 1e3, thickness / 1e3, moment, two_l)
    return bar if material.lowest <= bar.magnetisation <= material.highest else None


@cache
def materials_of(rule: LengthRule, materials: tuple[Material, ...] = MATERIALS) -> tuple[Material, ...]:
    """The materials of whose bars a rule holds."""
    return tuple(material for material in materials if rule.shares(material)[0] < rule.shares(material)[1])


class Strengths(NamedTuple):
    """The moments (A·m²) of the weakest and of the strongest bar of a length, and l by the rule in m."""

    weakest: float
    strongest: float
    l: float


ROOM = 0.8  # of the strongest bar, and one over it of the weakest: those at the very ends are seldom drawn


@cache
def strengths_of(
    rule: LengthRule, length_mm: int, breadth: float = 0.0, materials: tuple[Material, ...] = MATERIALS
) -> tuple[Strengths, ...]:
    """How strong bars of a length are, for each place in which bars for the rule have their poles.

    breadth  the least width as a share of the length
    """
    width = min(WIDEST, length_mm // 3)
    largest = length_mm * width * min(width, THICKEST) * 1e-9 * ROOM
    smallest = length_mm * max(breadth * length_mm, NARROWEST) * NARROWEST * 1e-9 / ROOM
    found: dict[float, Strengths] = {}
    for material in materials_of(rule, materials):
        l = rule.two_l(length_mm / 1e3, length_mm / 1e3 * material.share) / 2
        weakest, strongest = smallest * material.lowest, largest * material.highest
        if l in found:
            weakest, strongest = min(weakest, found[l].weakest), max(strongest, found[l].strongest)
        found[l] = Strengths(weakest, strongest, l)
    return tuple(found.values())


def strengths_of_setting(setting: Setting, length_mm: int, breadth: float = 0.0) -> tuple[Strengths, ...]:
    """The same for the rule that a laboratory keeps to."""
    return strengths_of(rule_of(setting), length_mm, breadth)


def reach(position: Position, length: float, of: Strengths, field: float) -> tuple[float, float]:
    """The distances (m) of 45° of the weakest and of the strongest bar of a length (m) in a field (T).

    The first is 0 where the weakest is not too strong for any distance that is looked for.
    """
    nearest, wanted = 0.0, min(of.l / position.shares[1], limits(position, length, of.l)[1])
    if of.weakest > position.moment_from(field, wanted, of.l):
        nearest = position.distance_for(of.weakest, field, of.l)
    return nearest, position.distance_for(of.strongest, field, of.l)

"""Which of a laboratory's settings leave no numbers for this kind: too few distances, or a magnet too slow to count."""

import math

from exercises.bench.vibration import DENSITIES, inertia, period
from exercises.codes.scenario import strongest_field
from exercises.codes.sheet_code import Setting
from exercises.kinds.deflection.bars import materials_of, reach, strengths_of_setting
from exercises.kinds.deflection.enough import Wanted, lengths_of, too_few
from exercises.kinds.deflection.lengths import rule_of
from exercises.kinds.deflection.stretch import range_of_45
from exercises.kinds.earth.draw import BREADTHS, FEWEST_SWINGS, LONGEST, POSITION, THINNEST
from exercises.kinds.earth.parts import ROWS

NEARLY = 0.9  # of the greatest moment that the arm allows: the greatest itself is seldom drawn


def refuses(setting: Setting) -> str:
    """A sentence where the settings leave no numbers; "" where they do."""
    return too_few(Wanted(POSITION, ROWS, counts=False), setting) or _too_slow(setting)


def _too_slow(setting: Setting) -> str:
    field = strongest_field(setting)
    quickest = min(_quickest(setting, length_mm, field) for length_mm in lengths_of(setting))
    if FEWEST_SWINGS * quickest <= LONGEST:
        return ""
    bar = f"A bar of {setting.length_mm} mm" if setting.length_mm else "A bar"
    if quickest == math.inf:
        made_of = " or ".join(material.name for material in materials_of(rule_of(setting)))
        return f"{bar} of {made_of} is too strong for the arm where B_H is {field * 1e6:.1f} µT, however thin it is."
    return (
        f"{bar} swings too slowly where B_H is {field * 1e6:.1f} µT: {FEWEST_SWINGS} swings take "
        f"{FEWEST_SWINGS * quickest:.0f} s or more, and {LONGEST:.0f} s is the most that is counted."
    )


def _quickest(setting: Setting, length_mm: int, field: float) -> float:
    """The shortest period in s of a bar of that length: as strong as the arm allows, as thin and narrow as bars are."""
    rule, length = rule_of(setting), length_mm / 1e3
    width = length * BREADTHS[0]
    section = THINNEST / 1e3 * width
    found = math.inf
    for of in strengths_of_setting(setting, length_mm, BREADTHS[0]):
        l, (nearest, farthest) = of.l, reach(POSITION, length, of, field)
        ends = range_of_45(POSITION, length, l, ROWS, setting.grid_mm / 1e3, farthest, nearest)
        if ends is None:
            continue
        moment = NEARLY * POSITION.moment_from(field, ends[1], l)
        for material in materials_of(rule):
            magnetisation = min(material.highest, moment / (length * section))
            if magnetisation >= material.lowest and math.isclose(rule.two_l(length, length * material.share), 2 * l):
                mass = DENSITIES[material.name] * moment / magnetisation
                found = min(found, period(inertia(mass, length, width), moment, field))
    return found

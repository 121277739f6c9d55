"""Whether a laboratory's settings leave enough distances, said when they are set and not first by a code of them.

The strongest bar of a length reaches farthest in the weakest field; so the
strongest field that its sheets may have counts, and where the length is drawn,
the length that leaves most.
"""

from dataclasses import dataclass

from exercises.codes.convention_text import GRID_WORDS
from exercises.codes.scenario import DRAWN_LENGTHS_MM, strongest_field
from exercises.codes.sheet_code import Setting
from exercises.kinds.deflection.bars import reach, strengths_of_setting
from exercises.kinds.deflection.stretch import Position, how_many


@dataclass(frozen=True)
class Wanted:
    """What a kind wants of its distances.

    least      how many, where the laboratory leaves their number to the draw
    counts     whether it takes as many as the laboratory sets
    apart      how far apart they must at least be, m
    shown      the least l/d at 45° with which it can be worked
    """

    position: Position
    least: int
    counts: bool = True
    apart: float = 0.0
    shown: float = 0.0


def left(wanted: Wanted, setting: Setting) -> int:
    """How many distances a bar leaves at best under these settings."""
    field = strongest_field(setting)
    grid = max(setting.grid_mm / 1e3, wanted.apart)
    most = 0
    for length_mm in lengths_of(setting):
        for of in strengths_of_setting(setting, length_mm):
            nearest, farthest = reach(wanted.position, length_mm / 1e3, of, field)
            if wanted.shown:
                farthest = min(farthest, of.l / wanted.shown)
            most = max(most, how_many(wanted.position, length_mm / 1e3, of.l, grid, farthest, nearest))
    return most


def lengths_of(setting: Setting) -> tuple[int, ...]:
    """The lengths in mm that a bar may have."""
    return (setting.length_mm,) if setting.length_mm else DRAWN_LENGTHS_MM


def too_few(wanted: Wanted, setting: Setting) -> str:
    """A sentence where the settings leave too few distances; "" where they leave enough."""
    is_set = setting.distances if wanted.counts else None
    needed = is_set or wanted.least
    found = left(wanted, setting)
    if found >= needed:
        return ""
    bar = f"A bar of {setting.length_mm} mm" if setting.length_mm else "A bar"
    if setting.field is not None:
        bar += f" in a field of {strongest_field(setting) * 1e6:.1f} µT"
    many = f"at most {found} distance{'s' if found > 1 else ''}" if found else "no distance"
    spread = f", each {wanted.apart * 1e3:g} mm from the next," if wanted.apart * 1e3 > setting.grid_mm else ""
    near = " where its length still shows" if wanted.shown else ""
    told = f"{bar} leaves {many} of {GRID_WORDS[setting.grid_mm]}{spread} between 30° and 60°{near}"
    return f"{told}; {needed} are {'set' if is_set else 'needed'}."

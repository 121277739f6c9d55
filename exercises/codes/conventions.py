"""What a laboratory may fix for its sheets: each choice with its key and its words.

Class files, the options of `eight class` and the forms of both desks take
these and no others.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from exercises.codes.convention_text import (
    COUNTS,
    FIELD_LIMITS,
    GRID_WORDS,
    LENGTHS,
    STEPS,
    TWO_L_WORDS,
    ConventionError,
    read_distances,
    read_field,
    read_grid,
    read_length,
    read_month,
    read_place,
    read_step,
    read_two_l,
)
from exercises.codes.editions import places_of
from exercises.codes.scenario import MONTHS
from exercises.codes.sheet_code import FIRST_YEAR, GRIDS_MM, TWO_L, YEARS, Setting, Station

OPEN = "open"  # left to the draw


@dataclass(frozen=True)
class Choice:
    """One thing that a laboratory may fix.

    key      its word in class files, forms and options
    label    what a form calls it
    help     what it is and how it is written, as the command says it
    usual    the text of what holds where nothing is fixed
    offered  (text, what a list shows) of every value but OPEN; () where it is typed
    """

    key: str
    label: str
    help: str
    usual: str = OPEN
    offered: tuple[tuple[str, str], ...] = ()


def _step_words(step: float) -> str:
    return "½°" if step == 0.5 else f"{step:g}°"


def _month_text(year: int, month: int) -> str:
    return f"{year}-{month:02d}"


CHOICES = (
    Choice(
        "2l",
        "Magnetic length 2l",
        f"how the magnetic length 2l is known: {', '.join(TWO_L)}",
        TWO_L[0],
        tuple(TWO_L_WORDS.items()),
    ),
    Choice(
        "place",
        "B_H of one place",
        "the place whose B_H all sheets have, with a month",
        offered=tuple((place.name, place.name) for place in places_of()),
    ),
    Choice(
        "month",
        "in the month",
        f"with a place, its month, such as {FIRST_YEAR + 1}-05",
        offered=tuple(
            (_month_text(FIRST_YEAR + year, month), f"{name} {FIRST_YEAR + year}")
            for year in range(YEARS)
            for month, name in enumerate(MONTHS, 1)
        ),
    ),
    Choice(
        "field",
        "B_H of your own, in µT",
        f"B_H of your own in µT, {FIELD_LIMITS[0]} to {FIELD_LIMITS[1]}",
    ),
    Choice(
        "length",
        "Length of the bars, in mm",
        f"the measured length of the bars in mm, {LENGTHS[0]} to {LENGTHS[-1]}",
    ),
    Choice(
        "grid",
        "Distances in",
        f"the step between distances, one of {', '.join(f'{grid} mm' for grid in GRIDS_MM)}",
        f"{GRIDS_MM[0]} mm",
        tuple((f"{grid} mm", words) for grid, words in GRID_WORDS.items()),
    ),
    Choice(
        "distances",
        "How many distances",
        f"how many distances, {COUNTS[0]} to {COUNTS[-1]}",
        offered=tuple((str(n), str(n)) for n in COUNTS),
    ),
    Choice(
        "step",
        "Scale step",
        f"the scale step in degrees, {' or '.join(STEPS)}",
        offered=tuple((text, _step_words(step)) for text, step in STEPS.items()),
    ),
)
BY_KEY = {choice.key: choice for choice in CHOICES}
_OF_FIELD = ("place", "month", "field")


def setting_from(words: Mapping[str, str]) -> Setting:
    """The setting of {key: text}; a blank text or OPEN leaves a choice as usual.  ConventionError if it cannot be.

    >>> setting_from({"field": "38.2", "step": "½", "length": OPEN})
    Setting(two_l='stated', field=38.2, length_mm=None, grid_mm=1, distances=None, scale_step=0.5)
    """
    if other := next((key for key in words if key not in BY_KEY), None):
        raise ConventionError(f"There is no setting “{other[:40]}”. There are: {', '.join(BY_KEY)}.")
    fixed = {key: text.strip() for key, text in words.items() if text.strip() and text.strip().lower() != OPEN}

    def value[T](key: str, read: Callable[[str], T], usual: T) -> T:
        return read(fixed[key]) if key in fixed else usual

    return Setting(
        value("2l", read_two_l, TWO_L[0]),
        _field_from(fixed),
        value("length", read_length, None),
        value("grid", read_grid, GRIDS_MM[0]),
        value("distances", read_distances, None),
        value("step", read_step, None),
    )


def _field_from(fixed: Mapping[str, str]) -> Station | float | None:
    given = [key for key in _OF_FIELD if key in fixed]
    if "field" in given and len(given) > 1:
        raise ConventionError(
            "B_H is either a value of your own or that of a place and a month. Leave one of the two open."
        )
    if given == ["place"]:
        raise ConventionError(
            f"A place needs a month too, such as {FIRST_YEAR + 1}-05: the earth’s field changes from year to year."
        )
    if given == ["month"]:
        raise ConventionError("A month needs a place too: B_H is that of a place in a month.")
    if given == ["field"]:
        return read_field(fixed["field"])
    return Station(read_place(fixed["place"]), *read_month(fixed["month"])) if given else None


def instead(common: Mapping[str, str], own: Mapping[str, str]) -> dict[str, str]:
    """The words that hold where `own` take the place of `common`; blank ones of `own` take none.

    Place, month and a value of B_H are one choice: a value takes the place of a place and its month, and the other
    way round.
    """
    given = {key: text for key, text in own.items() if text.strip()}
    left = dict(common)
    if "field" in given or given.get("place", "").strip().lower() == OPEN:
        left = {key: text for key, text in left.items() if key not in ("place", "month")}
    if "place" in given:
        left.pop("field", None)
    return {**left, **given}


def words_of(setting: Setting) -> dict[str, str]:
    """The words that a setting is given with, as `setting_from` takes them; of each choice, also the usual ones."""
    field = setting.field
    place = month = value = OPEN
    if isinstance(field, Station):
        place, month = places_of()[field.place].name, _month_text(field.year, field.month)
    elif field is not None:
        value = f"{field:.1f} µT"
    return {
        "2l": setting.two_l,
        "place": place,
        "month": month,
        "field": value,
        "length": OPEN if setting.length_mm is None else f"{setting.length_mm} mm",
        "grid": f"{setting.grid_mm} mm",
        "distances": OPEN if setting.distances is None else str(setting.distances),
        "step": OPEN if setting.scale_step is None else f"{setting.scale_step:g}",
    }


def in_words(setting: Setting) -> str:
    """What a laboratory fixed, in words, without a full stop.

    >>> in_words(Setting("given", 38.2, grid_mm=5))
    '2l is the length given, B_H 38.2 µT, distances in half centimetres'
    """
    said = []
    if setting.two_l != TWO_L[0]:
        said.append(f"2l is {TWO_L_WORDS[setting.two_l]}")
    if isinstance(setting.field, Station):
        place, year, month = setting.field
        said.append(f"B_H at {places_of()[place].name}, {MONTHS[month - 1]} {year}")
    elif setting.field is not None:
        said.append(f"B_H {setting.field:.1f} µT")
    if setting.length_mm is not None:
        said.append(f"bars of {setting.length_mm} mm")
    if setting.grid_mm != GRIDS_MM[0]:
        said.append(f"distances in {GRID_WORDS[setting.grid_mm]}")
    if setting.distances is not None:
        said.append(f"{setting.distances} distances")
    if setting.scale_step is not None:
        said.append(f"scale step {_step_words(setting.scale_step)}")
    return ", ".join(said) or "as usual (2l stated, distances in whole millimetres, all else left to the draw)"

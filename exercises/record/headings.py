"""How a line of a record file is known: by the words of its headings, its labels and its units."""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from exercises.bench.instrument import EIGHT
from exercises.record.entries import COLUMNS, FIELDS, READINGS, Field, column_quantity
from exercises.record.position import TAN_A, TAN_B, Position
from exercises.working.quantities import QUANTITIES, plain_unit


def headings_for(position: Position) -> tuple[str, ...]:
    """The headings of a record that is written here."""
    return (
        "d (cm)",
        *(f"{position.arm(arm)} arm N {north} end {end} (degrees)" for arm, north, end in EIGHT),
        "mean theta (degrees)",
        "tan theta",
        position.bracket_heading,
        "moment (A m2)",
    )


#: Words by which a head cell is known, besides its label.
LABELS = {
    "name": ("name", "student", "observed by", "by"),
    "length": ("length", "magnet length", "length of the magnet", "measured length of the magnet", "l measured"),
    "position": ("position", "tan position", "magnet position"),
    "two_l_is": ("2l is", "2l known by", "how the magnetic length is known", "magnetic length is"),
    "two_l": ("2l", "magnetic length", "two l"),
    "B_H": ("bh", "b h", "b_h", "horizontal field", "earth s field", "horizontal component"),
    "height": ("height above sea level", "altitude", "elevation"),
    "step": ("step", "scale step in degrees", "least count", "division"),
    "box": ("box radius", "radius of box", "box"),
    "needle": ("needle", "needle length"),
    "mean-moment": ("mean m", "moment m", "magnetic moment", "m mean"),
    "pole": ("p", "pole strength p"),
}
#: Words by which a column is known, and words that its heading may begin with.
COLUMN_WORDS = {
    "d": ("d", "distance", "distance d", "d cm", "d mm", "d m"),
    "mean": ("mean", "theta", "mean of eight"),
    "bracket": ("bracket", "d2 l2 2", "d 2 l 2 2", "d2 l2 3 2", "d 2 l 2 3 2"),
    "moment": ("m", "moment", "moment m", "magnetic moment"),
}
COLUMN_BEGINS = {
    "mean": ("mean theta", "mean deflection", "mean angle"),
    "tan": ("tan",),
    "moment": ("moment m ",),
}
_BRACKET = re.compile(r"\(d(2|\^2|\*\*2|²)([-−–+])l")
_EIGHT = re.compile(
    r"(?:magnet on )?(?:the )?(east|west|north|south|e|w|n|s) arm (?:magnet )?(?:n|north)(?: pole)?(?: points| to)? "
    r"(east|west|e|w) "
    r"(?:end )?([12])\b"
)
_NUMBERED = re.compile(r"(?:reading|theta|r|no)? *([1-8])(?: degrees?| deg)?")
_IN_BRACKETS = re.compile(r"[(\[]([^()\[\]]+)[)\]]\s*$")  # a unit may have a stroke in it: (erg/G)
_UNIT = re.compile(r"[(\[/,]\s*([^()\[\]/,]*?)\s*[)\]]?\s*$")
_DIRECTIONS = {"e": "east", "w": "west"}
#: Arms of tan B: the place of each in instrument.EIGHT.
_OF_TAN_B = {"north": "east", "n": "east", "south": "west", "s": "west"}


class Heading(NamedTuple):
    """What stands in a column: its name, and the unit of a bare number, or "" for the usual one."""

    column: str
    unit: str = ""


#: The columns of a record without headings, by place.
IN_ORDER = {i: Heading(column) for i, column in enumerate(("d", *READINGS, *COLUMNS))}


def headings_of(cells: list[str]) -> dict[int, Heading]:
    """The headings by place; none if this is no line of headings: it names d, and at least two columns in all."""
    found: dict[str, int] = {}
    for i, cell in enumerate(cells):
        if cell and (column := column_of(cell)):
            found.setdefault(column, i)
    if len(found) < 2 or "d" not in found:
        return {}
    at = position_of(cells) or TAN_A
    return {i: Heading(column, unit_of(cells[i], column_quantity(column, at))) for column, i in found.items()}


def position_of(cells: Iterable[str]) -> Position | None:
    """The position that headings show, by their arms or by the sign in their bracket; None where they do not.

    >>> position_of(["d", "south arm N east end 2"]).name, position_of(["d", "mean"])
    ('tan B', None)
    """
    for cell in cells:
        arm, sign = _EIGHT.match(_plain(cell)), _BRACKET.match(_tight(cell))
        if arm or sign:
            return TAN_B if arm and arm[1] in _OF_TAN_B or sign and sign[2] == "+" else TAN_A
    return None


def column_of(heading: str) -> str | None:
    """The column that a heading names: "d", "reading3", "mean", "tan", "bracket", "moment", or None.

    >>> column_of("Mean deflection"), column_of("west arm N east end 1"), column_of("weather")
    ('mean', 'reading5', None)
    """
    words = _words(heading)
    if _BRACKET.match(_tight(heading)):
        return "bracket"
    for column in ("d", *COLUMNS):
        if words in COLUMN_WORDS.get(column, ()) or words.startswith(COLUMN_BEGINS.get(column, ())):
            return column
    return _reading_of(heading)


def _reading_of(heading: str) -> str | None:
    """The reading that a heading names, by its place in the table or by its number."""
    words = _plain(heading)
    if found := _EIGHT.match(words):
        arm, north = (_DIRECTIONS.get(x, x) for x in (_OF_TAN_B.get(found[1], found[1]), found[2]))
        return READINGS[EIGHT.index((arm, north, int(found[3])))]
    if found := _NUMBERED.fullmatch(words):
        return READINGS[int(found[1]) - 1]
    return None


def _tight(heading: str) -> str:
    """A heading in small letters without spaces."""
    return unicodedata.normalize("NFKC", heading).casefold().replace(" ", "")


def _plain(heading: str) -> str:
    """A heading in small letters, with spaces for marks."""
    plain = unicodedata.normalize("NFKC", heading.replace("①", " 1").replace("②", " 2")).casefold()
    return " ".join(re.sub(r"[\W_]+", " ", plain.replace("θ", "theta ")).split())


def field_of_label(label: str) -> Field | None:
    """The head cell that a label names, or None."""
    words = _words(label)
    if not words:
        return None
    return next((f for f in FIELDS.values() if words == _words(f.label) or words in LABELS.get(f.key, ())), None)


def head_value(field: Field, label: str, cells: list[str]) -> str:
    """What a head line gives: the cells after its label, none of them empty, with the unit of a number."""
    if not field.quantity:
        return ", ".join(cells)
    unit = unit_of(label, field.quantity)
    if len(cells) > 1 and not unit and is_number(cells[0]):
        unit = unit_of(f"({cells[1]})", field.quantity)
    return with_unit(cells[0], unit, field.quantity)


def row_values(cells: list[str], columns: Mapping[int, Heading], position: Position) -> dict[str, str]:
    """The cells of a line by column, each with the unit of its heading."""
    return {
        column: with_unit(cells[i] if i < len(cells) else "", unit, column_quantity(column, position))
        for i, (column, unit) in columns.items()
    }


def is_number(cell: str) -> bool:
    """Whether a cell begins as a number does."""
    return bool(re.match(r"[+\-−]?\s*[.,]?\d", cell))


def unit_of(heading: str, quantity: str) -> str:
    """The unit in a heading such as “d (mm)”, “d/mm” or “d, mm”; "" if there is none of that quantity.

    >>> unit_of("d (mm)", "distance"), unit_of("d (furlong)", "distance")
    ('mm', '')
    """
    if quantity not in QUANTITIES:
        return ""
    found = [match[1].strip() for pattern in (_IN_BRACKETS, _UNIT) if (match := pattern.search(heading)) and match[1]]
    return next((unit for unit in found if plain_unit(unit) in QUANTITIES[quantity].units), "")


def with_unit(cell: str, unit: str, quantity: str) -> str:
    """The cell with the unit of its heading, where it has none and a bare number would mean another."""
    if not unit or not is_number(cell) or re.search(r"[^\W\d_]{1,2}[²2⁴4]?\s*$|°\s*$", cell):
        return cell
    measured = QUANTITIES[quantity]
    return cell if measured.units[plain_unit(unit)] == measured.bare else f"{cell} {unit}"


def _words(cell: str) -> str:
    """The words of a heading without its unit, in small letters and with one spelling for each sign."""
    plain = unicodedata.normalize("NFKC", cell).casefold().replace("θ", " theta ").replace("ø", " theta ")
    plain = plain.translate(str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789"))
    if not plain.startswith("("):
        plain = re.sub(r"[(\[/,].*", "", plain)  # a unit
    return " ".join(re.sub(r"[\W_]+", " ", plain).split())

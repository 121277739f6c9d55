"""B_H of a record: as it is typed, or from the field model by place and date.  The findings compare the two."""

import datetime
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from exercises.bench.local_field import FIRST_YEAR, LAST_YEAR, PLACES, OutsideModel, field_parts
from exercises.codes.scenario import MONTHS
from exercises.record.entries import Record, pointed

_ISO = re.compile(r"(\d{4})-(\d{1,2})(?:-(\d{1,2}))?(?:[T ].*)?", re.ASCII)
_NAMED = re.compile(r"(?:(\d{1,2})\.?\s+)?([^\W\d_]{3,})\.?(?:\s+(\d{1,2}))?,?\s+(\d{4})", re.ASCII)
_NUMBERED = re.compile(r"(\d{1,2})([./])\s*(\d{1,2})\2\s*(\d{4})", re.ASCII)
_ANGLE = re.compile(
    r"([+-]?)\s*(\d{1,3}(?:\.\d+)?)\s*(?:°|deg|degrees)?\s*"
    r"(?:(\d{1,2}(?:\.\d+)?)\s*['′’])?\s*(?:(\d{1,2}(?:\.\d+)?)\s*(?:\"|″|”|''))?\s*"
    r"(n|s|e|w|north|south|east|west)?",
    re.IGNORECASE | re.ASCII,
)
_KNOWS = f"The field model knows the years {FIRST_YEAR:.0f} to {LAST_YEAR - 1:.0f}"
_HEIGHT = re.compile(r"([+-]?\d+(?:\.\d+)?)\s*(m|km)?", re.IGNORECASE | re.ASCII)


class DateError(ValueError):
    """A date that was not read; the text says why and what to type."""


class Position(NamedTuple):
    """Where a record was made: degrees north and east, kilometres above sea level, and what the place is called."""

    latitude: float
    longitude: float
    height: float
    name: str


@dataclass(frozen=True)
class LocalField:
    """B_H in tesla to work with, or None, and where it is from.

    model      B_H of the field model there and then, T, or None
    total, vertical   the other parts of the model's field, T, or None
    problems   a sentence by cell name
    not_compared  why a B_H that is typed was not compared with the model, where its date is the reason; or ""
    """

    B_H: float | None
    source: str
    model: float | None = None
    total: float | None = None
    vertical: float | None = None
    problems: Mapping[str, str] = field(default_factory=dict)
    not_compared: str = ""


def field_of(record: Record, typed: float | None) -> LocalField:
    """The field of a record; `typed` is its B_H in tesla, or None."""
    problems: dict[str, str] = {}
    here = _where(record, problems)
    date = record.head.get("date", "").strip()
    year = _year(date, problems)
    model = total = vertical = None
    not_compared = ""
    if here and year is not None:
        try:
            model, total, vertical = field_parts(here.latitude, here.longitude, here.height, year)
        except OutsideModel as error:
            if error.quantity != "year":
                problems[error.quantity] = f"{str(error)[0].upper()}{str(error)[1:]}."
            elif typed is None:
                problems["date"] = (
                    f"{_KNOWS}, and “{date[:30]}” is not in them. If the date is right, type B_H itself: the value "
                    "that your laboratory gives, or that of a table for that year."
                )
            else:
                not_compared = f"{_KNOWS}, and “{date[:30]}” is not in them. So B_H is used as it is typed, unchecked."
    elif here and typed is None and not date:
        problems["date"] = "With the date, B_H can be worked out for this place. Or type B_H."
    if typed is not None:
        return LocalField(typed, "as typed", model, total, vertical, problems, not_compared)
    if here is None or not model:
        return LocalField(None, "", model, total, vertical, problems)
    # to 0.1 µT, as it would be written in a record
    source = f"field model WMM2025 at {here.name}, {date}"
    return LocalField(round(model * 1e7) / 1e7, source, model, total, vertical, problems)


def _where(record: Record, problems: dict[str, str]) -> Position | None:
    """Where the record was made; None, with a problem for each cell that was not read, if that is not known."""
    head = {k: record.head.get(k, "").strip() for k in ("place", "latitude", "longitude", "height", "B_H")}
    height = _height(head["height"], problems) if head["height"] else None
    if head["latitude"] or head["longitude"]:
        return _typed_position(head, height, problems)
    if not head["place"]:
        return None
    listed = next((p for p in PLACES if _bare(p.name) == _bare(head["place"])), None)
    if listed:
        return Position(listed.latitude, listed.longitude, listed.height if height is None else height, listed.name)
    if not head["B_H"]:
        problems["place"] = (
            f"“{head['place'][:40]}” is none of the places listed. Give its latitude and longitude too, or type B_H."
        )
    return None


def _height(text: str, problems: dict[str, str]) -> float:
    """Kilometres above sea level; 0, with a problem, if it is not read."""
    found = _HEIGHT.fullmatch(_plain(text))
    if not found:
        problems["height"] = "The height was not read. Type metres above sea level, such as 560."
        return 0.0
    return float(found[1]) * (1.0 if (found[2] or "").lower() == "km" else 1e-3)


def _typed_position(head: Mapping[str, str], height: float | None, problems: dict[str, str]) -> Position | None:
    latitude, longitude = angle(head["latitude"]), angle(head["longitude"])
    for key, value, letters in (("latitude", latitude, "N or S"), ("longitude", longitude, "E or W")):
        if value is None:
            problems[key] = (
                f"The {key} was not read. Type degrees with a point, such as 60.4, with {letters} if you like."
            )
    if latitude is None or longitude is None:
        return None
    name = head["place"] or f"{latitude:g}°, {longitude:g}°"
    return Position(latitude, longitude, height or 0.0, name)


def _plain(text: str) -> str:
    """The text with one spelling for each mark, and a decimal point."""
    text = pointed(unicodedata.normalize("NFKC", text.strip().replace("º", "°"))[:60])
    return text.replace("−", "-").replace("–", "-")


def _bare(text: str) -> str:
    """A name without accents, capitals and marks, to compare names by."""
    apart = unicodedata.normalize("NFD", text.casefold())
    return "".join(c for c in apart if c.isalnum() or c.isdigit())


def angle(text: str) -> float | None:
    """A latitude or longitude in degrees, south and west negative; None if it is not read.

    >>> angle("60.4"), angle("33° 54' S"), angle("-70,5")
    (60.4, -33.9, -70.5)
    """
    found = _ANGLE.fullmatch(_plain(text))
    if not found:
        return None
    value = float(found[2]) + float(found[3] or 0) / 60 + float(found[4] or 0) / 3600
    down = (found[1] == "-") != ((found[5] or "n")[0].lower() in "sw")
    return -value if down else value


def _year(text: str, problems: dict[str, str]) -> float | None:
    """The decimal year of a date; None, with a problem if something was typed, if it is not read."""
    text = text[:60]
    if not text:
        return None
    try:
        year, month, day = _date(text)
    except DateError as error:
        problems["date"] = str(error)
        return None
    try:
        first, following = datetime.date(year, 1, 1), datetime.date(year + 1, 1, 1)
        days = (datetime.date(year, month, day) - first).days
    except (ValueError, OverflowError):
        problems["date"] = f"“{text[:30]}” is not a day of the calendar. Type it as 2026-03-14."
        return None
    return year + days / (following - first).days


def _date(text: str) -> tuple[int, int, int]:
    """(year, month, day) as typed; the 15th where no day is named.  DateError if it is not read with certainty."""
    if found := _ISO.fullmatch(text):
        return int(found[1]), int(found[2]), int(found[3] or 15)
    if found := _NAMED.fullmatch(text):
        for i, name in enumerate(MONTHS, 1):
            if name.lower().startswith(found[2].lower()):
                return int(found[4]), i, int(found[1] or found[3] or 15)
    if found := _NUMBERED.fullmatch(text):
        one, two = int(found[1]), int(found[3])
        if found[2] == "/" and one <= 12 and two <= 12 and one != two:
            first, other = (f"{found[4]}-{month:02d}-{day:02d}" for month, day in ((one, two), (two, one)))
            raise DateError(f"“{text}” can be read two ways. Type the year first: {first} or {other}.")
        return (int(found[4]), one, two) if found[2] == "/" and two > 12 else (int(found[4]), two, one)
    raise DateError(f"“{text[:30]}” was not read as a date. Type it as 2026-03-14.")

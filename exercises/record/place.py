"""B_H of a record: as it is typed, or from the field model by place and date; both are compared."""

import datetime
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field

from pygeomag import GeoMag
from pygeomag.wmm.wmm_2025 import WMM_2025

from exercises.bench.local_field import PLACES, horizontal
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
_HEIGHT = re.compile(r"([+-]?\d+(?:\.\d+)?)\s*(m|km)?", re.IGNORECASE | re.ASCII)


@dataclass(frozen=True)
class LocalField:
    """B_H in tesla to work with, or None, and where it is from.

    model      B_H of the field model there and then, or None
    total, vertical   the other parts of the model's field, T, or None
    problems   a sentence by cell name
    """

    B_H: float | None
    source: str
    model: float | None = None
    total: float | None = None
    vertical: float | None = None
    problems: Mapping[str, str] = field(default_factory=dict)


def field_of(record: Record, typed: float | None) -> LocalField:
    """The field of a record; `typed` is its B_H in tesla, or None."""
    problems: dict[str, str] = {}
    here, name = _where(record, problems)
    when = _when(record.head.get("date", ""), problems)
    parts: tuple[float | None, ...] = (None, None, None)
    if here and when is not None:
        try:
            parts = (horizontal(*here, when), *_other_parts(*here, when))
        except ValueError as error:
            at = next((k for k in ("latitude", "longitude", "height") if k in str(error)), "date")
            more = " Type B_H instead, from a table for your date." if at == "date" else ""
            said = str(error)
            problems[at] = f"{said[0].upper()}{said[1:]}.{more}"
    elif here and typed is None and not record.head.get("date", "").strip():
        problems["date"] = "With the date, B_H can be worked out for this place. Or type B_H."
    if typed is not None:
        return LocalField(typed, "as typed", *parts, problems)
    source = f"field model WMM2025 at {name}, {record.head.get('date', '').strip()}" if parts[0] else ""
    # to 0.1 µT, as it would be written in a record
    return LocalField(round(parts[0] * 1e7) / 1e7 if parts[0] else None, source, *parts, problems)


def _other_parts(latitude, longitude, height, year) -> tuple[float, float]:
    found = GeoMag(coefficients_data=WMM_2025).calculate(glat=latitude, glon=longitude, alt=height, time=year)
    return found.f * 1e-9, abs(found.z) * 1e-9


def _where(record: Record, problems) -> tuple[tuple[float, float, float] | None, str]:
    """(latitude, longitude, height in km) and a name, or None."""
    texts = {k: record.head.get(k, "").strip() for k in ("place", "latitude", "longitude", "height")}
    height = 0.0
    if texts["height"]:
        found = _HEIGHT.fullmatch(_plain(texts["height"]))
        if found:
            height = float(found[1]) * (1.0 if (found[2] or "").lower() == "km" else 1e-3)
        else:
            problems["height"] = "The height was not read. Type metres above sea level, such as 560."
    if texts["latitude"] or texts["longitude"]:
        at = [angle(texts[k]) for k in ("latitude", "longitude")]
        for key, value, letters in zip(("latitude", "longitude"), at, ("N or S", "E or W")):
            if value is None:
                problems[key] = (
                    f"The {key} was not read. Type degrees with a point, such as 60.4, with {letters} if you like."
                )
        if None in at:
            return None, ""
        return (at[0], at[1], height), texts["place"] or f"{at[0]:g}°, {at[1]:g}°"
    if texts["place"]:
        found = next((p for p in PLACES if _bare(p.name) == _bare(texts["place"])), None)
        if found:
            return (found.latitude, found.longitude, height if texts["height"] else found.height), found.name
        if not record.head.get("B_H", "").strip():
            problems["place"] = (
                f"“{texts['place'][:40]}” is none of the places listed. Give its latitude and longitude, or type B_H."
            )
    return None, ""


def _plain(text: str) -> str:
    text = pointed(unicodedata.normalize("NFKC", text.strip().replace("º", "°"))[:60])
    return text.replace("−", "-").replace("–", "-")


def _bare(text: str) -> str:
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


def _when(text: str, problems) -> float | None:
    """The decimal year of a date, or None."""
    text = text.strip()[:60]
    if not text:
        return None
    try:
        year, month, day = _date(text)
        first = datetime.date(year, 1, 1)
        at = datetime.date(year, month, day)
        return year + (at - first).days / (datetime.date(year + 1, 1, 1) - first).days
    except (ValueError, OverflowError) as error:
        said = str(error)
        problems["date"] = (
            said if said.startswith("“") else f"“{text[:30]}” is not a day of the calendar. Type it as 2026-03-14."
        )
        return None


def _date(text: str) -> tuple[int, int, int]:
    if found := _ISO.fullmatch(text):
        return int(found[1]), int(found[2]), int(found[3] or 15)
    if found := _NAMED.fullmatch(text):
        for i, name in enumerate(MONTHS, 1):
            if name.lower().startswith(found[2].lower()):
                return int(found[4]), i, int(found[1] or found[3] or 15)
    if found := _NUMBERED.fullmatch(text):
        one, two = int(found[1]), int(found[3])
        if found[2] == "/" and one <= 12 and two <= 12 and one != two:
            raise ValueError(
                f"“{text}” can be read two ways. Type the date as {found[4]}-{one:02d}-{two:02d}, year first."
            )
        return (int(found[4]), one, two) if found[2] == "/" and two > 12 else (int(found[4]), two, one)
    raise ValueError(f"“{text[:30]}” was not read as a date. Type it as 2026-03-14.")

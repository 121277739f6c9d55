"""The horizontal component of the earth's field at a place and a date.

From the World Magnetic Model 2025 (valid 2025.0 to 2030.0), through pygeomag,
whose coefficients travel with it: no file is read and no host is asked.
Source of the model: NOAA/NCEI and the British Geological Survey, *The US/UK
World Magnetic Model for 2025–2030*.
"""

from functools import lru_cache
from typing import NamedTuple

from pygeomag import GeoMag
from pygeomag.wmm.wmm_2025 import WMM_2025

FIRST_YEAR, LAST_YEAR = 2025.0, 2030.0


class Place(NamedTuple):
    name: str
    latitude: float  # degrees north
    longitude: float  # degrees east
    height: float  # kilometres above sea level


#: Real coordinates, to a tenth of a degree, spread over both hemispheres.  The
#: order is part of every sheet code: never change it, only add at the end.
PLACES = (
    Place("Aberdeen", 57.1, -2.1, 0.0),
    Place("Accra", 5.6, -0.2, 0.1),
    Place("Antananarivo", -18.9, 47.5, 1.3),
    Place("Bergen", 60.4, 5.3, 0.0),
    Place("Bogotá", 4.7, -74.1, 2.6),
    Place("Cairo", 30.0, 31.2, 0.0),
    Place("Colombo", 6.9, 79.9, 0.0),
    Place("Dakar", 14.7, -17.4, 0.0),
    Place("Denver", 39.7, -105.0, 1.6),
    Place("Dunedin", -45.9, 170.5, 0.0),
    Place("Hanoi", 21.0, 105.8, 0.0),
    Place("Hobart", -42.9, 147.3, 0.1),
    Place("Kathmandu", 27.7, 85.3, 1.4),
    Place("Lima", -12.0, -77.0, 0.2),
    Place("Lisbon", 38.7, -9.1, 0.1),
    Place("Manila", 14.6, 121.0, 0.0),
    Place("Mexico City", 19.4, -99.1, 2.2),
    Place("Montevideo", -34.9, -56.2, 0.0),
    Place("Nairobi", -1.3, 36.8, 1.7),
    Place("Perth", -31.9, 115.9, 0.0),
    Place("Pune", 18.5, 73.9, 0.6),
    Place("Sapporo", 43.1, 141.4, 0.0),
    Place("Suva", -18.1, 178.4, 0.0),
    Place("Ushuaia", -54.8, -68.3, 0.0),
)


class OutsideModel(ValueError):
    """A place or date that the field model does not hold for.

    quantity  which one it is: "latitude", "longitude", "height" or "year"
    """

    def __init__(self, quantity: str, text: str):
        super().__init__(text)
        self.quantity = quantity


_model = GeoMag(coefficients_data=WMM_2025)


class FieldParts(NamedTuple):
    """The parts of the field, T: horizontal, the whole field, and the size of the vertical part."""

    horizontal: float
    total: float
    vertical: float


@lru_cache(maxsize=4096)
def field_parts(latitude: float, longitude: float, height: float, year: float) -> FieldParts:
    """The earth's field at degrees north and east, kilometres above sea level, decimal year.

    OutsideModel, with what to mend, outside ±90°, ±180°, −1 to 600 km or
    2025.0 to 2030.0.
    """
    if not -90 <= latitude <= 90:
        raise OutsideModel("latitude", f"a latitude lies between −90° and 90°; {latitude}° does not")
    if not -180 <= longitude <= 180:
        raise OutsideModel("longitude", f"a longitude lies between −180° and 180°; {longitude}° does not")
    if not -1 <= height <= 600:
        raise OutsideModel("height", f"a height lies between −1 km and 600 km; {height} km does not")
    if not FIRST_YEAR <= year <= LAST_YEAR:
        raise OutsideModel("year", f"this field model holds from {FIRST_YEAR} to {LAST_YEAR}; {year} lies outside it")
    field = _model.calculate(glat=latitude, glon=longitude, alt=height, time=year)
    return FieldParts(field.h * 1e-9, field.f * 1e-9, abs(field.z) * 1e-9)


def horizontal(latitude: float, longitude: float, height: float, year: float) -> float:
    """B_H in tesla, of the place and errors as for `field_parts`.

    >>> round(horizontal(80.0, 0.0, 0.0, 2025.0) * 1e9)  # the WMM2025 report's first test value
    6523
    """
    return field_parts(latitude, longitude, height, year).horizontal

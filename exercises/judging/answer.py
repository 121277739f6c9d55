"""What a person typed, read as a number, a unit and a count of figures.

Nothing is evaluated: a typed answer is matched against one pattern, so that no
input can run, overflow or hang.  What cannot be read with certainty is asked
about, never guessed.
"""

import re
import unicodedata
from dataclasses import dataclass
from decimal import Decimal

LONGEST = 60  # characters; the longest honest answer is about half of that

#: Spellings of each unit after `_plain_unit`, with the factor to SI.
_PREFIXES = {"": 1.0, "k": 1e3, "m": 1e-3, "u": 1e-6, "n": 1e-9}
UNITS: dict[str, dict[str, float]] = {
    "moment": {
        **{f"{p}am2": f for p, f in _PREFIXES.items()},
        **{f"{p}{j}": f for p, f in _PREFIXES.items() for j in ("j/t", "jt-1")},
        "acm2": 1e-4,
        "macm2": 1e-7,
        "amm2": 1e-6,
        "emu": 1e-3,
    },
    "pole": {**{f"{p}am": f for p, f in _PREFIXES.items()}, "acm": 1e-2, "amm": 1e-3, "j/tm": 1.0},
    "angle": {"": 1.0, "°": 1.0, "deg": 1.0, "degree": 1.0, "degrees": 1.0},
    "ratio": {"": 1.0},
    "length4": {"": 1.0, "m4": 1.0, "cm4": 1e-8, "mm4": 1e-12},
    "length": {"m": 1.0, "cm": 1e-2, "mm": 1e-3},
    "distance": {"m": 1.0, "cm": 1e-2, "mm": 1e-3},
    "area": {"m2": 1.0, "cm2": 1e-4, "mm2": 1e-6},
    "volume": {"m3": 1.0, "cm3": 1e-6},
    "per_volume": {"": 1.0, "m-3": 1.0, "/m3": 1.0, "cm-3": 1e6, "/cm3": 1e6},
    "root_length": {"": 1.0, "m1/2": 1.0, "m05": 1.0, "√m": 1.0},
    "slope": {"m3/2": 1.0, "m1.5": 1.0, "m15": 1.0, "": 1.0},
    "time": {"s": 1.0, "ms": 1e-3, "sec": 1.0, "seconds": 1.0},
    "inertia": {"kgm2": 1.0, "gcm2": 1e-7, "kgcm2": 1e-4},
    "m_over_B": {"am2/t": 1.0, "am2t-1": 1.0, "j/t2": 1.0, "jt-2": 1.0},
    "m_times_B": {"am2t": 1.0, "nm": 1.0, "j": 1.0, "unm": 1e-6, "uj": 1e-6, "mj": 1e-3},
    "percent": {"%": 1e-2, "percent": 1e-2},
    "count": {"": 1.0},
    "field": {"t": 1.0, "mt": 1e-3, "ut": 1e-6, "nt": 1e-9, "g": 1e-4, "gauss": 1e-4},
}
#: How each unit is shown; an empty one needs no unit.
SHOWN = {
    "moment": "A·m²",
    "pole": "A·m",
    "angle": "°",
    "ratio": "",
    "length4": "m⁴",
    "length": "m",
    "distance": "cm",
    "area": "m²",
    "volume": "m³",
    "per_volume": "m⁻³",
    "root_length": "√m",
    "slope": "m^1.5",
    "time": "s",
    "inertia": "kg·m²",
    "m_over_B": "A·m²/T",
    "m_times_B": "A·m²·T",
    "percent": "%",
    "count": "",
    "field": "µT",
}
#: A bare number is taken to be in this many SI units.
BARE = {"field": 1e-6, "distance": 1e-2, "percent": 1e-2}

_SUPERSCRIPTS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-")
_MINUS = str.maketrans({"−": "-", "–": "-", "‐": "-", "‑": "-", "﹣": "-", "－": "-", "⁻": "-"})
_DEGREES = str.maketrans({"º": "°", "˚": "°", "∘": "°"})
_NUMBER = re.compile(
    r"""(?P<sign>[+-]?)\s*
        (?P<body>\d+(?:\s*[.,]\s*\d*)?|[.,]\s*\d+)
        (?:\s*(?:e|[x*·]\s*10\s*(?:\^|\*\*))\s*(?P<open>\()?(?P<power>[+-]?\s*\d{1,4})(?(open)\)))?
        (?P<rest>.*)\Z""",
    re.VERBOSE | re.IGNORECASE | re.ASCII | re.DOTALL,
)


class Unreadable(ValueError):
    """What was typed is not one certain number; the text says what was and was not understood."""


class Ask(Unreadable):
    """What was typed can mean two numbers; the text asks which."""


@dataclass(frozen=True)
class Typed:
    """A read answer: value in SI units (degrees for an angle), and how it was written.

    figures     significant figures typed
    last_place  the size of one unit in its last figure, same unit as value
    named       True if a unit was typed
    """

    value: float
    figures: int
    last_place: float
    named: bool


def _digits_to_ascii(text: str) -> str:
    """Every decimal digit of any script (full-width, Devanagari, Arabic-Indic ...) as 0–9."""
    return "".join(str(unicodedata.decimal(c)) if c.isdecimal() else c for c in text)


def _plain(text: str) -> str:
    """The text with one spelling for each mark, and nothing that cannot be seen."""
    if text.isascii():
        return " ".join(text.split())
    text = "".join(c for c in text if unicodedata.category(c) != "Cf")
    text = _digits_to_ascii(text.translate(_MINUS).translate(_DEGREES))
    # "10⁻³" is a power and "m²" a unit; any other raised figure must not join the figures before it
    text = re.sub(r"(?<=10)(-?[⁰¹²³⁴⁵⁶⁷⁸⁹]+)", lambda s: "^" + s.group(), text)
    text = re.sub(r"(?<![^\W\d_])(?<![⁰¹²³⁴⁵⁶⁷⁸⁹^\-])(?=[⁰¹²³⁴⁵⁶⁷⁸⁹])", "^", text).translate(_SUPERSCRIPTS)
    text = unicodedata.normalize("NFKC", text).translate(_MINUS)
    text = text.replace("٫", ".").replace("×", "x").replace("✕", "x").replace("∙", "·").replace("⋅", "·")
    return " ".join(text.split())


def _plain_unit(text: str) -> str:
    unit = text.lower().replace("µ", "u").replace("μ", "u")
    unit = re.sub(r"(?<=[a-z])(?:\s*(?:\^|\*\*)\s*)(?=-?\d)", "", unit)
    return re.sub(r"(?<=[a-z])\s*[x*]\s*(?=[a-z])|\((?=\s*[a-z])|(?<=[a-z0-9])\s*\)|[\s·.]", "", unit)


def _read_body(body: str, shown: str) -> Decimal:
    body = re.sub(r"\s", "", body)
    if "," in body:
        whole, _, part = body.partition(",")
        if len(part) == 3 and 1 <= len(whole) <= 3 and whole.strip("0"):
            raise Ask(
                f"“{shown}” can be read two ways: {whole}.{part} or {whole}{part}. "
                "Type it with a point, or without any mark between the figures."
            )
        body = f"{whole}.{part}"
    return Decimal(body.rstrip(".") if body.endswith(".") else body)


def _figures(body: str) -> int:
    digits = re.sub(r"\D", "", body)
    significant = digits.lstrip("0")
    return len(significant) or 1


#: How nearly everybody types: figures, a point, a power of ten, and the unit as the sheet shows it.
_USUAL = re.compile(
    r"(?P<body>(?P<whole>\d{1,15})(?:\.(?P<part>\d{1,15}))?)(?:e(?P<sign>[+-]?)(?P<power>\d{1,2}))?(?: ?(?P<unit>[^\d\s.,x*].*))?",
    re.ASCII,
)


#: The factor to SI of each unit as it is shown.
_SHOWN_FACTOR = {quantity: UNITS[quantity][_plain_unit(_plain(unit))] for quantity, unit in SHOWN.items() if unit}


def _usual(text: str, quantity: str) -> Typed | None:
    """What `read` makes of a text typed as usual, without looking at it twice; None if it is not."""
    match = _USUAL.fullmatch(text)
    if not match:
        return None
    unit, factor = match["unit"], BARE.get(quantity, 1.0)
    if unit:
        if unit != SHOWN[quantity]:
            return None
        factor = _SHOWN_FACTOR[quantity]
    power = int(f"{match['sign']}{match['power']}") if match["power"] else 0
    if abs(power) > 30:
        return None
    whole, part = match["whole"].lstrip("0"), match["part"] or ""
    figures = len(whole) + len(part) if whole else len(part.lstrip("0"))
    value = float(f"{match['body']}e{power}") * factor
    return Typed(value, figures or 1, 10.0 ** -len(part) * (10.0**power * factor), bool(unit))


def read(text: str, quantity: str) -> Typed | None:
    """Read a typed answer for a quantity of `UNITS`; None if nothing was typed.

    Unreadable, or its case Ask, with a sentence that says how to mend it.

    >>> read("1,62 × 10^0 A·m²", "moment")
    Typed(value=1.62, figures=3, last_place=0.01, named=True)
    """
    if usual := _usual(text, quantity):
        return usual
    if len(text) > LONGEST:
        raise Unreadable(
            f"That is {len(text):,} characters long. Type one number of at most {LONGEST} characters, such as 1.62."
        )
    plain = _plain(text)
    if not plain:
        return None
    if any(unicodedata.decomposition(c).startswith("<fraction>") for c in text):
        raise Unreadable("A fraction sign such as ½ is not read. Type the number with a point, such as 37.5.")
    shown = plain if len(plain) <= 30 else plain[:30] + "…"
    if re.search(r"\d[.,]\d+\.\Z", plain):
        plain = plain[:-1]  # the full stop of a sentence
    match = _NUMBER.match(plain)
    if not match:
        raise Unreadable(
            f"“{shown}” does not begin with a number. Type the number first, such as 1.62, then the unit if you like."
        )
    rest = match["rest"].strip()
    number = plain[: match.start("rest")].strip()
    if advice := _shape_of(rest, plain):
        raise Unreadable(f"“{number}” was understood, “{rest[:30]}” after it was not. {advice}")
    if re.match(r"·\s*\d", rest):
        raise Ask(f"“{shown}” can be read two ways, with a decimal point or as a product. Type the point as 1.62.")
    if re.match(r"[.,]?\s*\d", rest) or re.match(r"[.,]", rest):
        if re.match(r"[+-]?[\d\s.,]+\Z", plain[: len(plain) - len(rest.lstrip("0123456789., "))]):
            raise Ask(
                f"“{shown}” has more than one mark or gap between its figures. "
                "Type it with one point and nothing else, such as 1234.5."
            )
        raise Unreadable(f"“{number}” was understood, “{rest}” after it was not. Type one number, such as 1.62.")
    factor = _factor(rest, quantity, number, shown)
    mantissa = _read_body(match["body"], shown)
    power = int(re.sub(r"\s", "", match["power"])) if match["power"] else 0
    if abs(power) > 30:
        raise Unreadable(f"A power of ten of {power} is beyond anything here. Look at the exponent again.")
    places = -mantissa.as_tuple().exponent
    scale = 10.0**power * factor
    value = float(mantissa.scaleb(power)) * factor
    value = -value if match["sign"] == "-" else value
    return Typed(value, _figures(match["body"]), 10.0**-places * scale, bool(rest))


def _shape_of(rest: str, plain: str) -> str:
    """What to do about the commonest things that follow a number and are no unit, or ""."""
    if re.match(r"[x*·]?\s*10\s*(\^|\(|-|\d*\Z)", rest) or re.match(r"\^", rest):
        return "Write a power of ten as 1.62e-3 or 1.62 × 10^-3."
    if re.match(r"±|\+/-|\+-", rest):
        return "Type only the value here, without its uncertainty."
    if re.match(r"rad", rest, re.IGNORECASE):
        return "Angles are in degrees here."
    if re.match(r"°\s*\d", rest):
        return "Type the angle in degrees with a decimal point, such as 37.5."
    return ""


def _factor(rest: str, quantity: str, number: str, shown: str) -> float:
    units = UNITS[quantity]
    if not rest:
        return BARE.get(quantity, 1.0)
    unit = _plain_unit(rest)
    if not unit:
        raise Unreadable(f"“{number}” was understood, but it seems to break off at “{rest}”. Type the whole number.")
    # capital M is mega, ten to the ninth away from milli: never guess between them
    if unit in units and not re.match(r"\s*M", rest):
        return units[unit]
    wanted = SHOWN[quantity]
    for other, table in UNITS.items():
        if unit in table and unit and other != quantity:
            wants = f"is measured in {wanted}" if wanted else "has no unit"
            raise Unreadable(f"“{number}” was understood, but “{rest}” is a unit of something else: this step {wants}.")
    advice = f"Leave the unit out or write {wanted}." if wanted else "This step has no unit: type only the number."
    if re.search(r"[+\-*/^=]\s*-?\d|\(", rest):
        advice = "Type the result, not the sum: nothing is worked out for you here."
    raise Unreadable(f"“{number}” was understood, “{rest[:30]}” after it was not. {advice}")

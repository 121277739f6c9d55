"""What a person typed, read as a number, a unit and a count of figures.

Nothing is evaluated: a typed answer is matched against one pattern, so that no
input can run, overflow or hang.  What cannot be read with certainty is asked
about, never guessed.
"""

import re
import unicodedata
from decimal import Decimal
from typing import NamedTuple

from exercises.working.quantities import QUANTITIES, plain_unit

LONGEST = 60  # characters; the longest honest answer is about half of that

_SUPERSCRIPTS = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-")
_MINUS = str.maketrans({"−": "-", "–": "-", "‐": "-", "‑": "-", "﹣": "-", "－": "-", "⁻": "-"})
_DEGREES = str.maketrans({"º": "°", "˚": "°", "∘": "°"})
_NUMBER = re.compile(
    r"""(?P<sign>[+-]?)\s*
        (?P<body>\d+(?:\s*[.,]\s*\d*)?|[.,]\s*\d+)
        (?:\s*(?:e|[x*·]\s*10\s*(?:\^|\*\*)|[x·]\s*10(?=\s?[+-]\d))\s*
            (?P<open>\()?(?P<power>[+-]?\s*\d{1,4})(?(open)\)))?
        (?P<rest>.*)\Z""",
    re.VERBOSE | re.IGNORECASE | re.ASCII | re.DOTALL,
)

#: What may stand before a number: the symbol of what is asked for, and a sign that it comes to that.  No unit can be
#: taken for a symbol: “B_H/T = 3.6e-5” and “m (mA·m²) = 1620” say in which unit the number is, and are not read.
_SYMBOL = r"""(?:(?:mean|average)\s+)?
    (?: (?:tan|sin|cos)?\s*(?:2\s?l|theta|moment|B_?\ ?H|[^\W\d_])[\u0304\u0305]?(?:_?\d{1,2}|_\w{1,4})?
      | tan\s?\(?\s?\d{1,2}(?:[.,]\d{1,4})?\s?°?\s?\)? | mean | u\s?\(\w{1,4}\) | m\s?[/·*]?\s?B_?\ ?H | m_?1\s?/\s?m_?2
      | \(\s*d\^?2\s*[-+]\s*l\^?2\s*\)\s*(?:\^\s?)?2 )"""
_BEFORE = re.compile(
    rf"(?:{_SYMBOL}\s*:?\s*[=≈≅≃~∼]{{1,2}}|{_SYMBOL}\s*:|[=≈≅≃~∼]{{1,2}})\s*", re.VERBOSE | re.IGNORECASE
)
_PLUS_MINUS = re.compile(r"±|\+/-|\+-")
_IN_BRACKETS = re.compile(r"\((?P<value>[^()±]+?)(?:±|\+/-|\+-)(?P<more>[^()]+)\)(?P<after>.*)\Z", re.DOTALL)


class Unreadable(ValueError):
    """What was typed is not one certain number; the text says what was and was not understood."""


class Ask(Unreadable):
    """What was typed can mean two numbers; the text asks which."""


class Typed(NamedTuple):
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


def _read_body(body: str, shown: str, scale: float, quantity: str, has_power: bool) -> Decimal:
    """The figures as a number; `scale` is what their last whole one counts in SI units.

    Before a power of ten stands one figure and a point, and nobody parts thousands there: 2,597·10⁻⁵.
    """
    body = re.sub(r"\s", "", body)
    if "," in body:
        whole, _, part = body.partition(",")
        readings = [f"{whole}.{part}"]
        if len(part) == 3 and 1 <= len(whole) <= 3 and whole.strip("0"):
            readings.append(whole + part)
            measured = QUANTITIES[quantity]
            possible = [reading for reading in readings if measured.can_be(float(reading) * scale)]
            if has_power and len(whole) == 1:  # a power of ten that is lost must not be found again by a comma
                possible = [reading for reading in possible if reading == readings[0]]
            if len(possible) != 1:  # where neither is possible a guess would mislead as much as where both are
                raise Ask(
                    f"“{shown}” can be read two ways: {readings[0]} or {readings[1]}. "
                    "Type it with a point, or without any mark between the figures."
                )
            readings = possible
        body = readings[0]
    return Decimal(body.rstrip(".") if body.endswith(".") else body)


def _figures(body: str) -> int:
    digits = re.sub(r"\D", "", body)
    significant = digits.lstrip("0")
    return len(significant) or 1


#: How nearly everybody types: figures, a point, a power of ten, and the unit as the sheet shows it.
_USUAL = re.compile(
    r"((\d{1,15})(?:\.(\d{1,15}))?)(?:e([+-]?\d{1,2})| × 10(⁻?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,2}))?(?: ?([^\d\s.,x*].*))?", re.ASCII
)

_PLACES = tuple(10.0**-places for places in range(16))  # the size of the last of so many decimal places


def _usual(text: str, quantity: str) -> Typed | None:
    """What `read` makes of a text typed as usual, without looking at it twice; None if it is not."""
    match = _USUAL.fullmatch(text)
    if not match:
        return None
    body, whole, part, exponent, raised, unit = match.groups("")
    measured = QUANTITIES[quantity]
    if unit and unit != measured.shown:
        return None
    factor = measured.shown_size if unit else measured.bare
    whole = whole.lstrip("0")
    figures = len(whole) + len(part) if whole else len(part.lstrip("0")) or 1
    if not (exponent or raised):  # most numbers; a class has a great many
        return Typed(float(body) * factor, figures, _PLACES[len(part)] * factor, bool(unit))
    power = int(exponent or raised.translate(_SUPERSCRIPTS))
    if abs(power) > 30:
        return None
    value = float(f"{body}e{power}") * factor
    return Typed(value, figures, _PLACES[len(part)] * (10.0**power * factor), bool(unit))


def read(text: str, quantity: str) -> Typed | None:
    """Read a typed answer for a quantity of `QUANTITIES`; None if nothing was typed.

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
    return _read_plain(plain, quantity)


def _read_plain(plain: str, quantity: str) -> Typed:
    """`read` of a text that has one spelling for each mark."""
    shown = plain if len(plain) <= 30 else plain[:30] + "…"
    if re.search(r"\d[.,]\d+\.\Z", plain):
        plain = plain[:-1]  # the full stop of a sentence
    if before := _BEFORE.match(plain):
        plain = plain[before.end() :]
    plain = _without_uncertainty(plain, quantity, shown)
    match = _NUMBER.match(plain)
    if not match:
        raise Unreadable(
            f"“{shown}” does not begin with a number. Type the number first, such as 1.62, then the unit if you like."
        )
    rest = match["rest"].strip()
    number = plain[: match.start("rest")].strip()
    if trouble := _after_the_number(plain, number, rest, shown):
        raise trouble
    factor = _factor(rest, quantity, number, shown)
    power = int(re.sub(r"\s", "", match["power"])) if match["power"] else 0
    if abs(power) > 30:
        raise Unreadable(f"A power of ten of {power} is beyond anything here. Look at the exponent again.")
    scale = 10.0**power * factor
    mantissa = _read_body(match["body"], shown, scale, quantity, bool(match["power"]))
    places = -int(mantissa.as_tuple().exponent)
    value = float(mantissa.scaleb(power)) * factor
    value = -value if match["sign"] == "-" else value
    return Typed(value, _figures(match["body"]), 10.0**-places * scale, bool(rest))


def _without_uncertainty(plain: str, quantity: str, shown: str) -> str:
    """A value with its unit, of “1.62 ± 0.05 A·m²” and the like; any other text as it is.

    Ask where only the uncertainty has a power of ten, which may count for both.
    """
    if bracketed := _IN_BRACKETS.match(plain):
        inner, after = f"{bracketed['value']}±{bracketed['more']}", bracketed["after"]
        return f"{_without_uncertainty(inner, quantity, shown)}{after}"
    value, *more = _PLUS_MINUS.split(plain, maxsplit=1)
    number, uncertainty = _NUMBER.match(value), _NUMBER.match(more[0].strip()) if more else None
    if number is None or uncertainty is None:
        return plain
    if uncertainty["power"] and not number["power"]:
        raise Ask(
            f"“{shown}” can be read two ways, for the power of ten may count for both numbers. "
            "Type only the value, without its uncertainty."
        )
    unit = uncertainty["rest"].strip()
    if unit == "%" and "%" not in QUANTITIES[quantity].units:
        unit = ""  # the uncertainty is a share of the value
    elif unit:
        _factor(unit, quantity, uncertainty.group()[: uncertainty.start("rest")].strip(), shown)
    return value.strip() if number["rest"].strip() else f"{value.strip()} {unit}".strip()


def _after_the_number(plain: str, number: str, rest: str, shown: str) -> Unreadable | None:
    """What is amiss with what follows a number and is no unit, or None."""
    if advice := _shape_of(rest):
        return Unreadable(f"“{number}” was understood, “{rest[:30]}” after it was not. {advice}")
    if re.match(r"·\s*\d", rest):
        return Ask(f"“{shown}” can be read two ways, with a decimal point or as a product. Type the point as 1.62.")
    if re.match(r"[.,]?\s*\d", rest) or re.match(r"[.,]", rest):
        if re.match(r"[+-]?[\d\s.,]+\Z", plain[: len(plain) - len(rest.lstrip("0123456789., "))]):
            return Ask(
                f"“{shown}” has more than one mark or gap between its figures. "
                "Type it with one point and nothing else, such as 1234.5."
            )
        return Unreadable(f"“{number}” was understood, “{rest}” after it was not. Type one number, such as 1.62.")
    return None


def _shape_of(rest: str) -> str:
    """What to do about the commonest things that follow a number and are no unit, or ""."""
    if re.match(r"[x*·]?\s*10\s*(\^|\(|-|\d*\Z)", rest) or re.match(r"\^", rest):
        return "Write a power of ten as 1.62e-3 or 1.62 × 10^-3."
    if re.match(r"±|\+/-|\+-|\(\d{1,2}\)", rest):  # 1.62(5) is 1.62 ± 0.05
        return "Type only the value, without its uncertainty."
    if re.match(r"g?rad|gon", rest, re.IGNORECASE):
        return "Angles are in degrees here."
    if re.match(r"°\s*\d", rest):
        return "Type the angle in degrees with a decimal point, such as 37.5."
    if re.match(r"(°|deg\w*)?\s*((anti|counter)-?\s*clockwise|clockwise|a?c?cw)\b", rest, re.IGNORECASE):
        return "Type the number alone. Which way it goes is asked by itself."
    return ""


def _factor(rest: str, quantity: str, number: str, shown: str) -> float:
    units = QUANTITIES[quantity].units
    if not rest:
        return QUANTITIES[quantity].bare
    unit = plain_unit(rest)
    if not unit:
        raise Unreadable(f"“{number}” was understood, but it seems to break off at “{rest}”. Type the whole number.")
    # capital M is mega, ten to the ninth away from milli: never guess between them
    if unit in units and not re.match(r"\s*M", rest):
        return units[unit]
    wanted = QUANTITIES[quantity].shown
    for other, measured in QUANTITIES.items():
        if unit in measured.units and unit and other != quantity:
            wants = f"is measured in {wanted}" if wanted else "has no unit"
            raise Unreadable(f"“{number}” was understood, but “{rest}” is a unit of something else: this step {wants}.")
    advice = f"Leave the unit out or write {wanted}." if wanted else "This step has no unit: type only the number."
    if re.search(r"[+\-*/^=]\s*-?\d|\(", rest):
        advice = "Type the result, not the sum: nothing is worked out for you here."
    raise Unreadable(f"“{number}” was understood, “{rest[:30]}” after it was not. {advice}")

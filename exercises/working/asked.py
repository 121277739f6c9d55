"""A number without a unit that fits in another unit only: what is asked, so that nothing is converted in silence."""

from exercises.working.quantities import QUANTITIES, plain_unit

#: The units that people have in mind without writing them, by quantity, and what they are called.
_OTHERS = {
    "field": {"G": "gauss", "T": "tesla", "mT": "millitesla", "nT": "nanotesla"},
    "distance": {"mm": "millimetres", "cm": "centimetres", "m": "metres"},
}


def unit_question(typed: str, number: float, quantity: str, usual: tuple[float, float], unit: str = "") -> str:
    """A question and how to answer it, where a number fits in another unit only; "" where there is nothing to ask.

    typed     as it was written, without a unit;  number  what was read in it
    quantity  "field" or "distance"
    usual     the smallest and the largest usual value, SI units; between them nothing is asked
    unit      the unit that a bare number has there, if it is not the one that a page shows

    KeyError for a quantity or a unit that is not in the tables.

    >>> unit_question("0.382", 0.382, "field", (10e-6, 70e-6))
    'Is “0.382” in gauss? A number without a unit is in µT here: type 38.2, or 0.382 G.'
    >>> unit_question("9.6", 9.6, "distance", (0.04, 0.2), unit="mm")
    'Is “9.6” in centimetres? A number without a unit is in mm here: type 96, or 9.6 cm.'
    """
    measured = QUANTITIES[quantity]
    bare_unit = unit or measured.shown
    bare, (least, most) = measured.units[plain_unit(bare_unit)], usual
    if _between(least, number * bare, most):
        return ""
    for other, name in _OTHERS[quantity].items():
        value = number * measured.units[plain_unit(other)]
        if _between(least, value, most):
            shown = typed.strip()[:30]
            return (
                f"Is “{shown}” in {name}? A number without a unit is in {bare_unit} here: "
                f"type {value / bare:.6g}, or {shown} {other}."
            )
    return ""


def _between(least: float, value: float, most: float) -> bool:
    """Whether a value lies between two limits; the last bit of a float must not decide: 0.65 G is 65.0 µT."""
    return least * (1 - 1e-9) <= value <= most * (1 + 1e-9)

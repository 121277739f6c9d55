"""Numbers as a page shows them: so many figures, powers of ten with a raised exponent."""

import math

_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def figures(value: float, count: int = 3) -> str:
    """A number to `count` significant figures, as a person writes it.

    >>> figures(1.6249), figures(0.000061274, 4), figures(96200.0)
    ('1.62', '6.127 × 10⁻⁵', '9.62 × 10⁴')
    """
    if value == 0 or not math.isfinite(value):
        return f"{value:g}"
    mantissa, exponent = f"{value:.{count - 1}e}".split("e")
    power = int(exponent)
    if -3 < power < count + 1:
        return f"{float(f'{mantissa}e{power}'):.{max(0, count - 1 - power)}f}".replace("-", "−")
    return f"{mantissa} × 10{str(power).translate(_RAISED)}".replace("-", "−")


def places(value: float, count: int) -> str:
    """A number to `count` decimal places.

    >>> places(37.0625, 2), places(-0.5, 1)
    ('37.06', '−0.5')
    """
    return f"{value:.{count}f}".replace("-", "−")


def mean_angle(value: float) -> str:
    """A mean of eight readings with all its decimals, so that its tangent can be checked.

    >>> mean_angle(54.8125), mean_angle(50.5)
    ('54.8125', '50.5')
    """
    return f"{value:.4f}".rstrip("0").rstrip(".")


def reading(value: float) -> str:
    """A pointer reading in degrees: whole or half.

    >>> reading(38.5), reading(38.0)
    ('38.5', '38')
    """
    return f"{value:g}"


def centimetres(value: float, count: int = 1) -> str:
    """A length in metres, shown in centimetres: `centimetres(0.173)` is '17.3'."""
    return f"{value * 100:.{count}f}"

"""What a result says of itself: its value ± U, and what was assumed for it."""

from exercises.bench.uncertainty import Stated
from exercises.kinds.uncertainty.budget import quoted
from exercises.record.estimate import ANGLE, DISTANCE, LENGTH, NEEDLE, NEEDLES, SHARES, STATED, Result
from exercises.record.givens import Givens
from exercises.record.magnetic_length import WORDS
from exercises.working.numbers import centimetres, figures, places

SHOWN = 1.05  # times: an excess below it is not worth a word


def quote(value: float, u: float, unit: str) -> str:
    """A value with its uncertainty as it is quoted, in a power of ten that keeps the figures few.

    >>> quote(12345.0, 210.0, "A·m")
    '(12.3 ± 0.2) × 10³ A·m'
    """
    if not 0 < u < float("inf"):
        return f"{figures(value)} {unit}"
    power = next((p for p in range(-9, 10, 3) if value < 1000 * 10.0**p), 9) if not 0.01 <= value < 1000 else 0
    size = 10.0**power
    scale = f" × 10{str(power).translate(str.maketrans('-0123456789', '⁻⁰¹²³⁴⁵⁶⁷⁸⁹'))}" if power else ""
    return f"({quoted(u / size, value / size)}){scale} {unit}"


def stated(result: Stated, unit: str) -> str:
    """A result as value ± U."""
    return quote(result.value, result.U, unit)


def coverage(result: Result) -> str:
    """The coverage factors: “k = 2.00”, or “k = 2.00 for m and 2.05 for p”."""
    of_m, of_p = (places(of.k, 2) for of in (result.moment, result.pole))
    return f"k = {of_m}" if of_m == of_p else f"k = {of_m} for m and {of_p} for p"


def assumed(givens: Givens, result: Result) -> list[str]:
    """What was taken for 2l and for the needle, and what the uncertainty of m is made of, a sentence or more each."""
    return [_of_two_l(givens, result), _of_the_needle(givens, result), _of_the_terms(result)]


def _percent(share: float, count: int = 1) -> str:
    return f"{places(100 * share, count)} %"


def _of_two_l(givens: Givens, result: Result) -> str:
    if givens.rule is None or givens.two_l_stated or givens.length is None:
        return f"2l was counted as stated, {centimetres(2 * givens.half, 2)} cm, good to {_percent(STATED, 0)}."
    low, high = (places(share, 2) for share in SHARES)
    return (
        f"The table takes 2l as {WORDS[givens.rule.key]}, {centimetres(2 * givens.half, 2)} cm. Such a rule is good to "
        "some 10 %, because the poles lie where the material has them. So for this result 2l was counted as anything "
        f"from {low} to {high} times the measured length. Together with what the distances show, it is "
        f"({quoted(100 * result.two_l.U, 100 * result.two_l.value)}) cm. If you know 2l better, state it."
    )


def _of_the_needle(givens: Givens, result: Result) -> str:
    length, side = givens.numbers.get("needle"), "large" if result.needle >= 0 else "small"
    did = f"It makes the moments about {_percent(abs(result.needle))} too {side}, and the result is free of that."
    if length:
        return f"The needle is {centimetres(length)} cm long. {did}"
    low, high = (centimetres(of) for of in NEEDLES)
    return (
        f"The length of the needle is not given, so it was counted as {low} to {high} cm. {did} Give its length: then "
        "less is uncertain."
    )


def _of_the_terms(result: Result) -> str:
    words = {ANGLE: "the angle", DISTANCE: "the distance", LENGTH: "2l", NEEDLE: "the needle"}
    parts = [f"{words[name]} {_percent(share)}" for name, share in result.terms.items()]
    text = (
        f"The standard uncertainty of m is {_percent(result.moment.u / result.moment.value)} of it: from "
        f"{', '.join(parts[:-1])} and {parts[-1]}, added in squares."
    )
    if result.excess > SHOWN:
        text += (
            " The moments scatter more than angle and distance let one expect, so these two were counted "
            f"{figures(result.excess, 2)} times."
        )
    return text

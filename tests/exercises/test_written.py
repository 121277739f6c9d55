"""Worked solutions: their wording as it was last read, and every equation in them true; slips, by what they come to."""

import math
import re

import pytest

from exercises.kinds.kind import all_kinds, open_code
from tests.exercises.golden import codes_of
from tests.exercises.written import KEPT, SLIPS_KEPT, kept, slips, written

SMALL = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")
POWER = "[⁻⁰¹²³⁴-⁹]+"
NAMES = {name: getattr(math, name) for name in ("sin", "cos", "tan", "sqrt", "radians", "pi")}
SCALE = {"%": 1e-2, "µT": 1e-6, "cm": 1e-2}  # of the units that are not SI


@pytest.mark.parametrize("slug", all_kinds())
def test_a_solution_is_worded_as_it_was_read(slug):
    assert written(slug) == kept(KEPT)[slug], "see tests/keep.py if the change was meant"


@pytest.mark.parametrize("slug", all_kinds())
def test_a_slip_comes_to_what_it_came_to(slug):
    """A slip is looked for by its value; that it is named by it is tested with each kind."""
    assert slips(slug) == kept(SLIPS_KEPT)[slug], "see tests/keep.py if the change was meant"


def worked(text: str) -> tuple[float, float, float] | None:
    """An expression in numbers, such as (0.115² − 0.025²)² or 16.5 µT: its value, its unit, and half its last place.

    None where there are letters in it.
    """
    text = text.strip()
    ended = re.fullmatch(r"(.*[\d)²⁰-⁹]) ?(%|(?<= )(?!sin|cos|tan)√?[A-Zckmsµ][\w·²³⁻¹⁴/]*)", text)
    text, unit = ended.groups() if ended else (text, "")
    decimals = re.match(r"[\d]+(?:\.(\d+))?", text)
    text = re.sub(rf"([\d.]+) × 10({POWER})", lambda m: f"{m[1]}e{m[2].translate(SMALL)}", text)  # one number
    place = 0.0
    if re.fullmatch(r"[\d.e-]+°?", text):
        place = 0.5 * 10.0 ** (int(text.partition("e")[2] or 0) - len(decimals[1] or ""))
    text = re.sub(r"\b(sin|cos|tan) ([\d.]+)°", r"\1(radians(\2))", text)
    text = (
        re.sub(r"√([\d.e-]+)", r"sqrt(\1)", text).replace("√(", "sqrt(").replace("^(3/2)", "**1.5").replace("π", "pi")
    )
    text = re.sub(POWER, lambda raised: f"**({raised[0].translate(SMALL)})", text)
    text = re.sub(r"([\d)]) (?=(?:sin|cos|tan)\()", r"\1 * ", text).replace("×", "*").replace("−", "-").replace("°", "")
    if re.sub(r"\b(sin|cos|tan|sqrt|radians|pi|(?<=\d)e)\b|(?<=\d)e(?=-?\d)", "", text).strip("0123456789.()*/+- "):
        return None
    return eval(text, dict(NAMES)), SCALE.get(unit, 1.0), place


def agree(one, other) -> bool:
    """To a hundredth, or to the last place, since what is written is rounded; a unit may be left out on one side."""
    (x, x_unit, x_place), (y, y_unit, y_place) = one, other
    return any(
        abs(x * u - y * v) <= 0.01 * abs(x * u) + 1.01 * max(x_place * u, y_place * v)
        for u, v in ((1, 1), (x_unit, y_unit))
    )


def test_what_the_reader_of_equations_makes_of_them():
    assert worked("(0.115² − 0.025²)²")[0] == pytest.approx((0.115**2 - 0.025**2) ** 2)
    assert worked("1.588 × 10⁻⁴ m⁴") == pytest.approx((1.588e-4, 1, 5e-8)) and worked("16.5 µT") == (16.5, 1e-6, 0.05)
    assert worked("40.8 cos 7° / (32.6 − 40.8 sin 7°)")[0] == pytest.approx(1.4658, abs=1e-4)
    assert worked("0.02005 × √0.02005")[0] == pytest.approx(2.84e-3, rel=1e-3)
    assert worked("m / 2l") is None and worked("B_H tan 55.70°") is None and worked("2l") is None
    assert agree(worked("0.03 cm"), worked("0.00034")) and agree(worked("26.7 × 1.6255"), worked("43.4 µT"))
    assert not agree(worked("0.03 cm"), worked("0.00037")) and not agree(worked("26.7 × 1.6255"), worked("43.9 µT"))


@pytest.mark.parametrize("slug", all_kinds())
def test_every_equation_of_a_solution_is_true(slug):
    seen = steps = 0
    for code in codes_of(all_kinds()[slug].letter)[:12]:
        working = open_code(code).working
        steps += len(working.steps)
        values = working.all_values()
        for step in working.steps:
            for part in re.split(r";  |; |, |: ", step.line(values, working.givens)):
                sides = [worked(side.split(" (the tip")[0]) for side in part.split(" = ")]
                for one, other in zip(sides, sides[1:]):
                    if one and other:
                        assert agree(one, other), part
                        seen += 1
    assert seen >= min(80, steps / 2)  # a kind may have few steps

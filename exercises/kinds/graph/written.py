"""How each step of the graph method looks with its numbers put in."""

from collections.abc import Callable

from exercises.bench.least_squares import line, through_origin_error
from exercises.kinds.graph.lines import columns
from exercises.working.arithmetic import signed_root
from exercises.working.numbers import centimetres, figures, places
from exercises.working.steps import Givens, Known


def x_line(row: int) -> Callable[[Known, Givens], str]:
    """x of a row."""
    return lambda known, givens: (
        f"x = 2 × {figures(known[f'd-{row + 1}'])} / ({figures(known[f'd-{row + 1}'])}² − {figures(known['l'], 4)}²)² "
        f"= {figures(known[f'x-{row + 1}'], 4)} m⁻³"
    )


def root_line(row: int) -> Callable[[Known, Givens], str]:
    """√(d cot θ) of a row."""
    return lambda known, givens: (
        f"d² = {figures(known[f'square-{row + 1}'], 4)} m²;  √(d cot θ) = √({figures(known[f'd-{row + 1}'])} / "
        f"{places(known[f'tan-{row + 1}'], 4)}) = {figures(known[f'root-{row + 1}'], 4)} √m"
    )


def percent(share: float) -> str:
    """A share in per cent."""
    return f"{share * 100:.1f} %"


def slope_a_line(known: Known, givens: Givens) -> str:
    """The first slope."""
    error = through_origin_error(*columns(known, givens, "x", "tan"))
    return (
        f"slope of tan θ against x = {figures(known['slope-a'])} m³ by least squares, standard error "
        f"{figures(error, 1)} m³; read by hand, within {percent(givens['allowed'].slope_a)}"
    )


def slope_b_line(known: Known, givens: Givens) -> str:
    """The second slope."""
    error = line(*columns(known, givens, "root", "square")).slope_error
    return (
        f"slope of d² against √(d cot θ) = {figures(known['slope-b'])} m^1.5 by least squares, standard error "
        f"{figures(error, 1)} m^1.5; read by hand, within {percent(givens['allowed'].slope_b)}"
    )


def intercept_line(known: Known, givens: Givens) -> str:
    """The intercept."""
    error, allow = line(*columns(known, givens, "root", "square")).intercept_error, givens["allowed"].intercept
    return (
        f"intercept l² = {figures(known['intercept'])} m² by least squares, standard error {figures(error, 1)} m²; "
        f"read by hand, within {figures(allow, 1)} m²"
    )


def moment_a_line(known: Known, givens: Givens) -> str:
    """The moment from the first slope."""
    return f"m = 10⁷ × {figures(known['slope-a'])} × {figures(givens['B_H'])} = {figures(known['moment-a'])} A·m²"


def moment_b_line(known: Known, givens: Givens) -> str:
    """The moment from the second slope."""
    return f"m = 10⁷ × {figures(known['slope-b'])}² × {figures(givens['B_H'])} / 2 = {figures(known['moment-b'])} A·m²"


def two_l_line(known: Known, givens: Givens) -> str:
    """2l from the intercept."""
    lo, hi = (2 * signed_root(known["intercept"] + s * givens["allowed"].intercept) for s in (-1, 1))
    return (
        f"2l = 2 × √({figures(known['intercept'])}) = {figures(known['found-2l'], 2)} m = "
        f"{centimetres(known['found-2l'])} cm; "
        f"the intercept allows anything from {centimetres(lo)} to {centimetres(hi)} cm"
    )

"""How the working of an uncertainty is written: each step with its numbers put in."""

import math

from exercises.kinds.uncertainty.budget import SHARES, cos, differences, figures_to_quote, quoted, sin
from exercises.working.arithmetic import total
from exercises.working.numbers import figures, places
from exercises.working.steps import Givens, Known

CHOICES = (
    (
        "angle",
        "the angle θ",
        "Look at the four shares again. In squares the largest counts most; it is not the angle's.",
    ),
    (
        "distance",
        "the distance d",
        "Look at the four shares again. The factor 3 and more makes much of d, yet here its share is not the largest.",
    ),
    (
        "length",
        "the magnetic length 2l",
        "Look at the four shares again. The length comes in only through l², a small "
        "part of the bracket; here its share is not the largest.",
    ),
    (
        "needle",
        "the needle",
        "Look at the four shares again. What the needle does is taken off, and only what is not known of it counts; "
        "here that is not the largest.",
    ),
)


def percent(x: float, count: int = 3) -> str:
    """A share in per cent, to so many figures."""
    return f"{figures(100 * x, count)} %"


def scatter_line(known: Known, givens: Givens) -> str:
    apart = differences(givens["readings"][0])
    mean = total(apart) / len(apart)
    squares = total((x - mean) ** 2 for x in apart)
    listed = ", ".join(signed(x) for x in apart)
    return (
        f"① − ②: {listed}°, mean {signed(mean)}°;  s = √(Σ(difference − mean)² / 3) / √2 = "
        f"√({figures(squares)} / 3) / √2 = {figures(known['scatter'])}°"
    )


def signed(x: float) -> str:
    """A difference of readings with its sign."""
    text = f"{abs(x):.3f}".rstrip("0").rstrip(".")
    return f"−{text}" if x < 0 else text


def share_angle_line(known: Known, givens: Givens) -> str:
    theta, u = known["mean-1"], known["u-theta"]
    return (
        f"u(θ) = {figures(u)} × π/180 = {figures(math.radians(u))} rad;  "
        f"u(θ) / (sin θ cos θ) = {figures(math.radians(u))} / ({places(sin(theta), 4)} × {places(cos(theta), 4)}) "
        f"= {percent(known['share-angle'])}"
    )


def sensitivity_line(known: Known, givens: Givens) -> str:
    d, l = givens["d"], known["l"]
    return (
        f"4d² / (d² − l²) − 1 = 4 × {figures(d * d, 4)} / ({figures(d * d, 4)} − {figures(l * l, 4)}) − 1 "
        f"= {figures(known['sensitivity'])}"
    )


def share_length_line(known: Known, givens: Givens) -> str:
    d, l, u = givens["d"], known["l"], known["u-l"]
    return (
        f"4l · u(l) / (d² − l²) = 4 × {figures(l)} × {figures(u)} / {figures(d * d - l * l)} "
        f"= {percent(known['share-length'])}"
    )


def needle_effect_line(known: Known, givens: Givens) -> str:
    n, d, theta = givens["needle"] / 2, givens["d"], known["mean-1"]
    return (
        f"f = (n/d)² · (15 sin²θ − 3) = ({figures(100 * n, 3)} / {figures(100 * d)})² × "
        f"(15 × {places(sin(theta), 4)}² − 3) = {percent(known['needle-effect'])}"
    )


def share_needle_line(known: Known, givens: Givens) -> str:
    u = givens["width_needle"] / math.sqrt(3)
    return (
        f"u(2n) = {figures(100 * givens['width_needle'], 2)} / √3 = {figures(100 * u)} cm;  2f · u(2n)/2n = "
        f"2 × {percent(known['needle-effect'])} × {figures(100 * u)} / {figures(100 * givens['needle'])} "
        f"= {percent(known['share-needle'])}"
    )


def freedom_line(known: Known, givens: Givens) -> str:
    return (
        f"ν = 3 × ({percent(known['combined'])} / {percent(known['share-angle'])} × {figures(known['u-theta'])} / "
        f"{figures(known['u-mean'])})⁴ = {figures(known['freedom'])}"
    )


def coverage_line(known: Known, givens: Givens) -> str:
    nu = known["freedom"]
    return f"ν = {figures(nu)}, cut to {math.floor(nu)};  for 95 % k = {places(known['coverage'], 2)}"


def combined_line(known: Known, givens: Givens) -> str:
    squares = " + ".join(f"{figures(100 * known[s])}²" for s in SHARES)
    return f"u(m)/m = √({squares}) % = {percent(known['combined'])}"


def moment_line(known: Known, givens: Givens) -> str:
    d, l, theta = givens["d"], known["l"], known["mean-1"]
    return (
        f"m = 10⁷ × {figures(givens['B_H'])} × ({figures(d)}² − {figures(l)}²)² × "
        f"{places(math.tan(math.radians(theta)), 4)} / (2 × {figures(d)}) = {figures(known['moment'], 4)} A·m²"
    )


def count_line(known: Known, givens: Givens) -> str:
    U, m = known["expanded"], known["corrected"]
    return (
        f"U = {figures(U)} A·m² is rounded to {quoted(U, m).split()[-1]}, so m = ({quoted(U, m)}) A·m²: "
        f"{figures_to_quote(U, m)} figures"
    )


def largest_line(known: Known, givens: Givens) -> str:
    named = {key: label for key, label, _ in CHOICES}
    return f"The largest share is that of {named[known['largest']]}."


def ratio_line(known: Known, givens: Givens) -> str:
    x = givens["other_angle"]
    return (
        f"(sin 45° cos 45°) / (sin {x:g}° cos {x:g}°) = 0.5 / {places(sin(x) * cos(x), 4)} = {figures(known['ratio'])}"
    )

"""The steps of the uncertainty of a moment: how each looks on the sheet and with its numbers put in."""

import math
from functools import cache

from exercises.kinds.deflection.steps import mean_step
from exercises.kinds.uncertainty import budget
from exercises.kinds.uncertainty.budget import SHARES, cos, figures_to_quote, quoted, sin
from exercises.working.arithmetic import total
from exercises.working.numbers import figures, places, reading
from exercises.working.steps import Givens, Known, Plan, Step, hidden_step

PAGE = "exercises/uncertainty/"


def _percent(x: float, count: int = 3) -> str:
    return f"{figures(100 * x, count)} %"


def _scatter_line(known: Known, givens: Givens) -> str:
    readings = givens["readings"][0]
    squares = total((r - known["mean-1"]) ** 2 for r in readings)
    listed = ", ".join(reading(r) for r in readings)
    return f"s = √(Σ(θᵢ − θ)² / 7) = √({figures(squares)} / 7) = {figures(known['scatter'])}°, from {listed}"


def _share_angle_line(known: Known, givens: Givens) -> str:
    theta, u = known["mean-1"], known["u-theta"]
    return (
        f"u(θ) = {figures(u)} × π/180 = {figures(math.radians(u))} rad;  "
        f"u(θ) / (sin θ cos θ) = {figures(math.radians(u))} / ({places(sin(theta), 4)} × {places(cos(theta), 4)}) "
        f"= {_percent(known['share-angle'])}"
    )


def _sensitivity_line(known: Known, givens: Givens) -> str:
    d, l = givens["d"], known["l"]
    return (
        f"4d² / (d² − l²) − 1 = 4 × {figures(d * d, 4)} / ({figures(d * d, 4)} − {figures(l * l, 4)}) − 1 "
        f"= {figures(known['sensitivity'])}"
    )


def _share_length_line(known: Known, givens: Givens) -> str:
    d, l, u = givens["d"], known["l"], known["u-l"]
    return (
        f"4l · u(l) / (d² − l²) = 4 × {figures(l)} × {figures(u)} / {figures(d * d - l * l)} "
        f"= {_percent(known['share-length'])}"
    )


def _combined_line(known: Known, givens: Givens) -> str:
    squares = " + ".join(f"{figures(100 * known[s])}²" for s in SHARES)
    return f"u(m)/m = √({squares}) % = {_percent(known['combined'])}"


def _moment_line(known: Known, givens: Givens) -> str:
    d, l, theta = givens["d"], known["l"], known["mean-1"]
    return (
        f"m = 10⁷ × {figures(givens['B_H'])} × ({figures(d)}² − {figures(l)}²)² × "
        f"{places(math.tan(math.radians(theta)), 4)} / (2 × {figures(d)}) = {figures(known['moment'], 4)} A·m²"
    )


def _count_line(known: Known, givens: Givens) -> str:
    U, m = known["expanded"], known["moment"]
    return (
        f"U = {figures(U)} A·m² is rounded to {quoted(U, m).split()[-1]}, so m = ({quoted(U, m)}) A·m²: "
        f"{figures_to_quote(U, m)} figures"
    )


def _largest_line(known: Known, givens: Givens) -> str:
    named = {key: label for key, label, _ in CHOICES}
    return f"The largest share is that of {named[known['largest']]}."


def _ratio_line(known: Known, givens: Givens) -> str:
    x = givens["other_angle"]
    return (
        f"(sin 45° cos 45°) / (sin {x:g}° cos {x:g}°) = 0.5 / {places(sin(x) * cos(x), 4)} = {figures(known['ratio'])}"
    )


CHOICES = (
    (
        "angle",
        "the angle θ",
        "Look at the three shares again. In squares the largest counts most; it is not the angle's.",
    ),
    (
        "distance",
        "the distance d",
        "Look at the three shares again. The factor 3 and more makes much of d, yet here its share is not the largest.",
    ),
    (
        "length",
        "the magnetic length 2l",
        "Look at the three shares again. The length comes in only through l², a small "
        "part of the bracket; here its share is not the largest.",
    ),
)


def _steps(other: float) -> tuple[Step, ...]:
    return (
        Step(
            id="scatter",
            column="scatter",
            title="standard deviation s",
            quantity="angle",
            rule="figures",
            fewest=2,
            needs=(),
            formula=budget.scatter,
            line=_scatter_line,
            hints=(
                "Take each reading's difference from the mean, square it, and add the eight squares.",
                "Divide the sum by 7, one less than the number of readings, and take the root.",
            ),
            read=PAGE + "#scatter",
        ),
        Step(
            id="u-theta",
            column="u-theta",
            title="u(θ) of the mean",
            quantity="angle",
            rule="figures",
            fewest=2,
            needs=("scatter",),
            formula=budget.u_theta,
            line=lambda known, givens: (
                f"u(θ) = s/√8 = {figures(known['scatter'])} / {figures(math.sqrt(8))} = {figures(known['u-theta'])}°"
            ),
            hints=("The mean of eight is surer than one reading by √8.",),
            read=PAGE + "#scatter",
        ),
        Step(
            id="share-angle",
            column="share-angle",
            title="share of θ",
            quantity="percent",
            rule="figures",
            fewest=2,
            needs=("u-theta", "mean-1"),
            formula=budget.share_angle,
            line=_share_angle_line,
            hints=(
                "u(θ) / (sin θ cos θ), with u(θ) in radians.",
                "Radians are degrees × π/180. Times 100 makes the share per cent.",
            ),
            read=PAGE + "#from-the-angle",
        ),
        Step(
            id="u-d",
            column="u-d",
            title="u(d)",
            quantity="distance",
            rule="figures",
            fewest=2,
            needs=(),
            formula=budget.u_d,
            line=lambda known, givens: (
                f"u(d) = {figures(100 * givens['width_d'], 2)} / √3 = {figures(100 * known['u-d'])} cm"
            ),
            hints=("All values within the half width are as likely: divide it by √3.",),
            read=PAGE + "#half-width",
        ),
        Step(
            id="sensitivity",
            column="sensitivity",
            title="4d²/(d² − l²) − 1",
            quantity="ratio",
            rule="figures",
            needs=("d", "l"),
            formula=budget.sensitivity_d,
            line=_sensitivity_line,
            hints=(
                "Square d, square l, subtract. Then divide 4d² by what is left, and take 1 off.",
                "l is half of 2l. The answer is a little more than 3.",
            ),
            read=PAGE + "#from-the-distance",
        ),
        Step(
            id="share-distance",
            column="share-distance",
            title="share of d",
            quantity="percent",
            rule="figures",
            fewest=2,
            needs=("sensitivity", "u-d", "d"),
            formula=budget.share_distance,
            line=lambda known, givens: (
                f"{figures(known['sensitivity'])} × {figures(100 * known['u-d'])} / "
                f"{figures(100 * givens['d'])} = {_percent(known['share-distance'])}"
            ),
            hints=("Divide u(d) by d in the same unit, and multiply by the factor before it.",),
            read=PAGE + "#from-the-distance",
        ),
        Step(
            id="u-l",
            column="u-l",
            title="u(l)",
            quantity="distance",
            rule="figures",
            fewest=2,
            needs=(),
            formula=budget.u_l,
            line=lambda known, givens: (
                f"u(2l) = {figures(100 * givens['width_two_l'], 2)} / √3 = {figures(200 * known['u-l'])} cm;  "
                f"u(l) = u(2l)/2 = {figures(100 * known['u-l'])} cm"
            ),
            hints=("What is given is the half width of 2l. That of l is half as wide.", "Then divide by √3."),
            read=PAGE + "#half-width",
        ),
        Step(
            id="share-length",
            column="share-length",
            title="share of 2l",
            quantity="percent",
            rule="figures",
            fewest=2,
            needs=("u-l", "l", "d"),
            formula=budget.share_length,
            line=_share_length_line,
            hints=("4l · u(l) / (d² − l²), all in metres or all in centimetres.",),
            read=PAGE + "#from-the-length",
        ),
        Step(
            id="combined",
            column="combined",
            title="u(m)/m",
            quantity="percent",
            rule="figures",
            fewest=2,
            needs=SHARES,
            formula=budget.combined,
            line=_combined_line,
            hints=(
                "The three have nothing to do with each other, so they add in squares.",
                "Square each share, add the squares, and take the root.",
            ),
            read=PAGE + "#in-squares",
            looks_back=False,
        ),
        Step(
            id="largest",
            column="largest",
            title="the largest share",
            quantity="choice",
            rule="figures",
            needs=SHARES,
            formula=budget.largest,
            line=_largest_line,
            hints=("Compare the three shares.",),
            read=PAGE + "#in-squares",
            choices=CHOICES,
            looks_back=False,
        ),
        Step(
            id="moment",
            column="moment",
            title="moment m",
            quantity="moment",
            rule="figures",
            needs=("mean-1", "d", "l"),
            formula=budget.moment,
            line=_moment_line,
            hints=(
                "m = (4π/µ₀) · B_H · (d² − l²)² · tan θ / 2d, with 4π/µ₀ = 10⁷ and everything in metres and tesla.",
            ),
            read=PAGE + "#the-result",
        ),
        Step(
            id="expanded",
            column="expanded",
            title="U = 2 u(m)",
            quantity="moment",
            rule="figures",
            fewest=1,
            needs=("combined", "moment"),
            formula=budget.expanded,
            line=lambda known, givens: (
                f"U = 2 × {_percent(known['combined'])} × {figures(known['moment'], 4)} A·m² = "
                f"{figures(known['expanded'])} A·m²"
            ),
            hints=(
                "u(m) is the relative uncertainty times m; U is twice that.",
                "A per cent is a hundredth: 0.8 % of 2.00 is 0.016.",
            ),
            read=PAGE + "#the-result",
            looks_back=False,
        ),
        Step(
            id="count",
            column="count",
            title="figures of m to quote",
            quantity="count",
            rule="count",
            needs=("expanded", "moment"),
            formula=budget.count,
            line=_count_line,
            hints=(
                "Round U to one figure, or to two if the first is a 1. Then m ends at the same decimal place.",
                "Count the figures of m from the first that is not 0.",
            ),
            read=PAGE + "#how-many-figures",
            looks_back=False,
        ),
        Step(
            id="ratio",
            column="ratio",
            title=f"share of θ at {other:g}° ÷ at 45°",
            quantity="ratio",
            rule="figures",
            needs=(),
            formula=budget.ratio,
            line=_ratio_line,
            hints=(
                "u(θ) is the same at both, so only 1/(sin θ cos θ) counts.",
                f"Work out sin 45° cos 45° and divide it by sin {other:g}° cos {other:g}°.",
            ),
            read=PAGE + "#why-30-to-60",
        ),
    )


@cache
def plan_for(other: float) -> Plan:
    """The plan of a sheet that compares 45° with this other angle."""
    return Plan(
        (
            hidden_step("d", (), budget.distance),
            hidden_step("l", (), budget.half_length),
            mean_step(0),
            *_steps(other),
        ),
        compiled=False,
    )

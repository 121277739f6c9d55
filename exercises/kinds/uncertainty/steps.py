"""The steps of the uncertainty of a moment, by what adds to it, then the sum and the result."""

import math
from functools import cache

from exercises.kinds.deflection.steps import mean_step
from exercises.kinds.uncertainty import budget, written
from exercises.kinds.uncertainty.budget import SHARES
from exercises.kinds.uncertainty.written import CHOICES, percent
from exercises.working.numbers import figures
from exercises.working.steps import Plan, Step, hidden_step

PAGE = "exercises/uncertainty/"


def _angle_steps() -> tuple[Step, ...]:
    """What the angle adds: the scatter of its readings, u(θ) of the mean and the share of θ."""
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
            line=written.scatter_line,
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
            line=written.share_angle_line,
            hints=(
                "u(θ) / (sin θ cos θ), with u(θ) in radians.",
                "Radians are degrees × π/180. Times 100 makes the share per cent.",
            ),
            read=PAGE + "#from-the-angle",
        ),
    )


def _distance_steps() -> tuple[Step, ...]:
    """What the distance adds: u(d) of its half width, the factor before it and the share of d."""
    return (
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
            line=written.sensitivity_line,
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
                f"{figures(100 * givens['d'])} = {percent(known['share-distance'])}"
            ),
            hints=("Divide u(d) by d in the same unit, and multiply by the factor before it.",),
            read=PAGE + "#from-the-distance",
        ),
    )


def _length_steps() -> tuple[Step, ...]:
    """What the magnetic length adds: u(l) of the half width of 2l, and the share of 2l."""
    return (
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
            line=written.share_length_line,
            hints=("4l · u(l) / (d² − l²), all in metres or all in centimetres.",),
            read=PAGE + "#from-the-length",
        ),
    )


def _combined_steps() -> tuple[Step, ...]:
    """The shares together: u(m)/m, and which share is the largest."""
    return (
        Step(
            id="combined",
            column="combined",
            title="u(m)/m",
            quantity="percent",
            rule="figures",
            fewest=2,
            needs=SHARES,
            formula=budget.combined,
            line=written.combined_line,
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
            line=written.largest_line,
            hints=("Compare the three shares.",),
            read=PAGE + "#in-squares",
            choices=CHOICES,
            looks_back=False,
        ),
    )


def _result_steps() -> tuple[Step, ...]:
    """The result: the moment, and the expanded uncertainty U."""
    return (
        Step(
            id="moment",
            column="moment",
            title="moment m",
            quantity="moment",
            rule="figures",
            needs=("mean-1", "d", "l"),
            formula=budget.moment,
            line=written.moment_line,
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
                f"U = 2 × {percent(known['combined'])} × {figures(known['moment'], 4)} A·m² = "
                f"{figures(known['expanded'])} A·m²"
            ),
            hints=(
                "u(m) is the relative uncertainty times m; U is twice that.",
                "A per cent is a hundredth: 0.8 % of 2.00 is 0.016.",
            ),
            read=PAGE + "#the-result",
            looks_back=False,
        ),
    )


def _count_step() -> Step:
    """How many figures of m are worth quoting beside U."""
    return Step(
        id="count",
        column="count",
        title="figures of m to quote",
        quantity="count",
        rule="count",
        needs=("expanded", "moment"),
        formula=budget.count,
        line=written.count_line,
        hints=(
            "Round U to one figure, or to two if the first is a 1. Then m ends at the same decimal place.",
            "Count the figures of m from the first that is not 0.",
        ),
        read=PAGE + "#how-many-figures",
        looks_back=False,
    )


def _ratio_step(other: float) -> Step:
    """The share of θ at another angle beside that at 45°."""
    return Step(
        id="ratio",
        column="ratio",
        title=f"share of θ at {other:g}° ÷ at 45°",
        quantity="ratio",
        rule="figures",
        needs=(),
        formula=budget.ratio,
        line=written.ratio_line,
        hints=(
            "u(θ) is the same at both, so only 1/(sin θ cos θ) counts.",
            f"Work out sin 45° cos 45° and divide it by sin {other:g}° cos {other:g}°.",
        ),
        read=PAGE + "#why-30-to-60",
    )


@cache
def plan_for(other: float) -> Plan:
    """The plan of a sheet that compares 45° with this other angle."""
    return Plan(
        (
            hidden_step("d", (), budget.distance),
            hidden_step("l", (), budget.half_length),
            mean_step(0),
            *_angle_steps(),
            *_distance_steps(),
            *_length_steps(),
            *_combined_steps(),
            *_result_steps(),
            _count_step(),
            _ratio_step(other),
        ),
        compiled=False,
    )

"""The steps of what each of the four inputs adds to the uncertainty of a moment."""

import math

from exercises.kinds.uncertainty import formulas, written
from exercises.kinds.uncertainty.written import percent
from exercises.working.numbers import figures, places
from exercises.working.steps import Step

PAGE = "exercises/uncertainty/"


def angle_steps() -> tuple[Step, ...]:
    """What the angle adds: the scatter about the pattern, u(θ) of the mean with the friction, and the share of θ."""
    return (
        Step(
            id="scatter",
            column="scatter",
            title="scatter s about the pattern",
            quantity="angle",
            rule="figures",
            fewest=2,
            needs=(),
            formula=formulas.scatter,
            line=written.scatter_line,
            hints=(
                "Take ① − ② at each of the four settings. Without scatter the four differences would be alike.",
                "Find the standard deviation of the four differences: divide the sum of squares by 3, and take the "
                "root. A difference holds the scatter of two readings: divide by √2.",
            ),
            read=PAGE + "#scatter",
        ),
        Step(
            id="u-mean",
            column="u-mean",
            title="s/√8",
            quantity="angle",
            rule="figures",
            fewest=2,
            needs=("scatter",),
            formula=formulas.u_mean,
            line=lambda known, givens: (
                f"s/√8 = {figures(known['scatter'])} / {figures(math.sqrt(8))} = {figures(known['u-mean'])}°"
            ),
            hints=("The mean of eight is surer than one reading by √8.",),
            read=PAGE + "#scatter",
        ),
        Step(
            id="u-theta",
            column="u-theta",
            title="u(θ), with the friction",
            quantity="angle",
            rule="figures",
            fewest=2,
            needs=("u-mean",),
            formula=formulas.u_theta,
            line=lambda known, givens: (
                f"u(θ) = √({figures(known['u-mean'])}² + ({places(givens['width_theta'], 1)} / √3)²) = "
                f"{figures(known['u-theta'])}°"
            ),
            hints=(
                "The friction is given as a half width: divide it by √3.",
                "Then add it to s/√8 in squares, and take the root.",
            ),
            read=PAGE + "#friction",
        ),
        Step(
            id="share-angle",
            column="share-angle",
            title="share of θ",
            quantity="percent",
            rule="figures",
            fewest=2,
            needs=("u-theta", "mean-1"),
            formula=formulas.share_angle,
            line=written.share_angle_line,
            hints=(
                "u(θ) / (sin θ cos θ), with u(θ) in radians.",
                "Radians are degrees × π/180. Times 100 makes the share per cent.",
            ),
            read=PAGE + "#from-the-angle",
        ),
    )


def distance_steps() -> tuple[Step, ...]:
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
            formula=formulas.u_d,
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
            formula=formulas.sensitivity_d,
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
            formula=formulas.share_distance,
            line=lambda known, givens: (
                f"{figures(known['sensitivity'])} × {figures(100 * known['u-d'])} / "
                f"{figures(100 * givens['d'])} = {percent(known['share-distance'])}"
            ),
            hints=("Divide u(d) by d in the same unit, and multiply by the factor before it.",),
            read=PAGE + "#from-the-distance",
        ),
    )


def length_steps() -> tuple[Step, ...]:
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
            formula=formulas.u_l,
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
            formula=formulas.share_length,
            line=written.share_length_line,
            hints=("4l · u(l) / (d² − l²), all in metres or all in centimetres.",),
            read=PAGE + "#from-the-length",
        ),
    )


def needle_steps() -> tuple[Step, ...]:
    """What the needle adds: by how much it makes the moment too large, and how well that is known."""
    return (
        Step(
            id="needle-effect",
            column="needle-effect",
            title="effect f of the needle",
            quantity="percent",
            rule="figures",
            fewest=2,
            needs=("mean-1", "d"),
            formula=formulas.needle_effect,
            line=written.needle_effect_line,
            hints=(
                "f = (n/d)² · (15 sin²θ − 3), where n is half of 2n.",
                "Times 100 makes it per cent.",
            ),
            read=PAGE + "#from-the-needle",
        ),
        Step(
            id="share-needle",
            column="share-needle",
            title="share of the needle",
            quantity="percent",
            rule="figures",
            fewest=2,
            needs=("needle-effect",),
            formula=formulas.share_needle,
            line=written.share_needle_line,
            hints=(
                "f goes with the square of 2n, so its relative uncertainty is twice that of 2n: 2f · u(2n)/2n.",
                "u(2n) is the half width of 2n, divided by √3.",
            ),
            read=PAGE + "#from-the-needle",
        ),
    )

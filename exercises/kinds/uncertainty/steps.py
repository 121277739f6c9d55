"""The steps of the uncertainty of a moment: how each looks on the sheet and with its numbers put in."""

import math
from functools import cache

from exercises.kinds.deflection.old_steps import MEAN, row_step
from exercises.kinds.uncertainty import budget
from exercises.kinds.uncertainty.budget import SHARES, cos, figures_to_quote, quoted, sin
from exercises.working.arithmetic import total
from exercises.working.numbers import figures, places, reading
from exercises.working.steps import Plan, Step, hidden_step

PAGE = "exercises/uncertainty/"


def _percent(x: float, count: int = 3) -> str:
    return f"{figures(100 * x, count)} %"


def _scatter_line(known, givens):
    readings = givens["readings"][0]
    squares = total((r - known["mean-1"]) ** 2 for r in readings)
    listed = ", ".join(reading(r) for r in readings)
    return f"s = √(Σ(θᵢ − θ)² / 7) = √({figures(squares)} / 7) = {figures(known['scatter'])}°, from {listed}"


def _share_angle_line(known, givens):
    theta, u = known["mean-1"], known["u-theta"]
    return (
        f"u(θ) = {figures(u)} × π/180 = {figures(math.radians(u))} rad;  u(θ) / (sin θ cos θ) = {figures(math.radians(u))} "
        f"/ ({places(sin(theta), 4)} × {places(cos(theta), 4)}) = {_percent(known['share-angle'])}"
    )


def _sensitivity_line(known, givens):
    d, l = givens["d"], known["l"]
    return (
        f"4d² / (d² − l²) − 1 = 4 × {figures(d * d, 4)} / ({figures(d * d, 4)} − {figures(l * l, 4)}) − 1 "
        f"= {figures(known['sensitivity'])}"
    )


def _share_length_line(known, givens):
    d, l, u = givens["d"], known["l"], known["u-l"]
    return (
        f"4l · u(l) / (d² − l²) = 4 × {figures(l)} × {figures(u)} / {figures(d * d - l * l)} "
        f"= {_percent(known['share-length'])}"
    )


def _combined_line(known, givens):
    squares = " + ".join(f"{figures(100 * known[s])}²" for s in SHARES)
    return f"u(m)/m = √({squares}) % = {_percent(known['combined'])}"


def _moment_line(known, givens):
    d, l, theta = givens["d"], known["l"], known["mean-1"]
    return (
        f"m = 10⁷ × {figures(givens['B_H'])} × ({figures(d)}² − {figures(l)}²)² × {places(math.tan(math.radians(theta)), 4)} "
        f"/ (2 × {figures(d)}) = {figures(known['moment'], 4)} A·m²"
    )


def _count_line(known, givens):
    U, m = known["expanded"], known["moment"]
    return (
        f"U = {figures(U)} A·m² is rounded to {quoted(U, m).split()[-1]}, so m = ({quoted(U, m)}) A·m²: "
        f"{figures_to_quote(U, m)} figures"
    )


def _ratio_line(known, givens):
    x = givens["other_angle"]
    return (
        f"(sin 45° cos 45°) / (sin {x:g}° cos {x:g}°) = 0.5 / {places(sin(x) * cos(x), 4)} = {figures(known['ratio'])}"
    )


def _step(id, title, quantity, rule, needs, formula, line, hints, anchor, **more) -> Step:
    return Step(id, id, title, quantity, rule, needs, formula, line, hints, PAGE + anchor, **more)


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
        _step(
            "scatter",
            "standard deviation s",
            "angle",
            "figures",
            (),
            budget.scatter,
            _scatter_line,
            (
                "Take each reading's difference from the mean, square it, and add the eight squares.",
                "Divide the sum by 7, one less than the number of readings, and take the root.",
            ),
            "#scatter",
        ),
        _step(
            "u-theta",
            "u(θ) of the mean",
            "angle",
            "figures",
            ("scatter",),
            budget.u_theta,
            lambda known, givens: (
                f"u(θ) = s/√8 = {figures(known['scatter'])} / {figures(math.sqrt(8))} = {figures(known['u-theta'])}°"
            ),
            ("The mean of eight is surer than one reading by √8.",),
            "#scatter",
        ),
        _step(
            "share-angle",
            "share of θ",
            "percent",
            "figures",
            ("u-theta", "mean-1"),
            budget.share_angle,
            _share_angle_line,
            (
                "u(θ) / (sin θ cos θ), with u(θ) in radians.",
                "Radians are degrees × π/180. Times 100 makes the share per cent.",
            ),
            "#from-the-angle",
        ),
        _step(
            "u-d",
            "u(d)",
            "distance",
            "figures",
            (),
            budget.u_d,
            lambda known, givens: (
                f"u(d) = {figures(100 * givens['width_d'], 2)} / √3 = {figures(100 * known['u-d'])} cm"
            ),
            ("All values within the half width are as likely: divide it by √3.",),
            "#half-width",
        ),
        _step(
            "sensitivity",
            "4d²/(d² − l²) − 1",
            "ratio",
            "figures",
            ("d", "l"),
            budget.sensitivity_d,
            _sensitivity_line,
            (
                "Square d, square l, subtract. Then divide 4d² by what is left, and take 1 off.",
                "l is half of 2l. The answer is a little more than 3.",
            ),
            "#from-the-distance",
        ),
        _step(
            "share-distance",
            "share of d",
            "percent",
            "figures",
            ("sensitivity", "u-d", "d"),
            budget.share_distance,
            lambda known, givens: (
                f"{figures(known['sensitivity'])} × {figures(100 * known['u-d'])} / "
                f"{figures(100 * givens['d'])} = {_percent(known['share-distance'])}"
            ),
            ("Divide u(d) by d in the same unit, and multiply by the factor before it.",),
            "#from-the-distance",
        ),
        _step(
            "u-l",
            "u(l)",
            "distance",
            "figures",
            (),
            budget.u_l,
            lambda known, givens: (
                f"u(2l) = {figures(100 * givens['width_two_l'], 2)} / √3 = {figures(200 * known['u-l'])} cm;  "
                f"u(l) = u(2l)/2 = {figures(100 * known['u-l'])} cm"
            ),
            ("What is given is the half width of 2l. That of l is half as wide.", "Then divide by √3."),
            "#half-width",
        ),
        _step(
            "share-length",
            "share of 2l",
            "percent",
            "figures",
            ("u-l", "l", "d"),
            budget.share_length,
            _share_length_line,
            ("4l · u(l) / (d² − l²), all in metres or all in centimetres.",),
            "#from-the-length",
        ),
        _step(
            "combined",
            "u(m)/m",
            "percent",
            "figures",
            SHARES,
            budget.combined,
            _combined_line,
            (
                "The three have nothing to do with each other, so they add in squares.",
                "Square each share, add the squares, and take the root.",
            ),
            "#in-squares",
            looks_back=False,
        ),
        _step(
            "largest",
            "the largest share",
            "choice",
            "figures",
            SHARES,
            budget.largest,
            lambda known, givens: (
                f"The largest share is that of {dict((k, v) for k, v, _ in CHOICES)[known['largest']]}."
            ),
            ("Compare the three shares.",),
            "#in-squares",
            choices=CHOICES,
            looks_back=False,
        ),
        _step(
            "moment",
            "moment m",
            "moment",
            "figures",
            ("mean-1", "d", "l"),
            budget.moment,
            _moment_line,
            ("m = (4π/µ₀) · B_H · (d² − l²)² · tan θ / 2d, with 4π/µ₀ = 10⁷ and everything in metres and tesla.",),
            "#the-result",
        ),
        _step(
            "expanded",
            "U = 2 u(m)",
            "moment",
            "figures",
            ("combined", "moment"),
            budget.expanded,
            lambda known, givens: (
                f"U = 2 × {_percent(known['combined'])} × {figures(known['moment'], 4)} A·m² = "
                f"{figures(known['expanded'])} A·m²"
            ),
            (
                "u(m) is the relative uncertainty times m; U is twice that.",
                "A per cent is a hundredth: 0.8 % of 2.00 is 0.016.",
            ),
            "#the-result",
            looks_back=False,
        ),
        _step(
            "count",
            "figures of m to quote",
            "count",
            "count",
            ("expanded", "moment"),
            budget.count,
            _count_line,
            (
                "Round U to one figure, or to two if the first is a 1. Then m ends at the same decimal place.",
                "Count the figures of m from the first that is not 0.",
            ),
            "#how-many-figures",
            looks_back=False,
        ),
        _step(
            "ratio",
            f"share of θ at {other:g}° ÷ at 45°",
            "ratio",
            "figures",
            (),
            budget.ratio,
            _ratio_line,
            (
                "u(θ) is the same at both, so only 1/(sin θ cos θ) counts.",
                f"Work out sin 45° cos 45° and divide it by sin {other:g}° cos {other:g}°.",
            ),
            "#why-30-to-60",
        ),
    )


@cache
def plan_for(other: float) -> Plan:
    """The plan of a sheet that compares 45° with this other angle."""
    return Plan(
        (
            hidden_step("d", (), lambda a, known, givens, parts: givens["d"]),
            hidden_step("l", (), lambda a, known, givens, parts: a.keep(parts["half"](givens["two_l"]))),
            row_step(MEAN, 0),
            *_steps(other),
        )
    )

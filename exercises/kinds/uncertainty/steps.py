"""The steps of the uncertainty of a moment: what each input adds, then all together, then the result."""

from functools import cache

from exercises.kinds.deflection.steps import mean_step
from exercises.kinds.uncertainty import formulas, written
from exercises.kinds.uncertainty.budget import SHARES
from exercises.kinds.uncertainty.input_steps import PAGE, angle_steps, distance_steps, length_steps, needle_steps
from exercises.kinds.uncertainty.written import CHOICES, percent
from exercises.working.numbers import figures, places
from exercises.working.steps import Plan, Step, hidden_step


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
            formula=formulas.combined,
            line=written.combined_line,
            hints=(
                "The four have nothing to do with each other, so they add in squares.",
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
            formula=formulas.largest,
            line=written.largest_line,
            hints=("Compare the four shares.",),
            read=PAGE + "#in-squares",
            choices=CHOICES,
            looks_back=False,
        ),
    )


def _moment_steps() -> tuple[Step, ...]:
    """The moment by the formula, and with what the needle does taken off."""
    return (
        Step(
            id="moment",
            column="moment",
            title="moment m by the formula",
            quantity="moment",
            rule="figures",
            needs=("mean-1", "d", "l"),
            formula=formulas.moment,
            line=written.moment_line,
            hints=(
                "m = (4π/µ₀) · B_H · (d² − l²)² · tan θ / 2d, with 4π/µ₀ = 10⁷ and everything in metres and tesla.",
            ),
            read=PAGE + "#the-result",
        ),
        Step(
            id="corrected",
            column="corrected",
            title="m, the needle's effect taken off",
            quantity="moment",
            rule="figures",
            needs=("moment", "needle-effect"),
            formula=formulas.corrected,
            line=lambda known, givens: (
                f"m / (1 + f) = {figures(known['moment'], 4)} / {places(1 + known['needle-effect'], 4)} = "
                f"{figures(known['corrected'], 4)} A·m²"
            ),
            hints=("The needle makes the moment too large by the share f, so divide by 1 + f.",),
            read=PAGE + "#from-the-needle",
            looks_back=False,
        ),
    )


def _expanded_steps() -> tuple[Step, ...]:
    """The effective degrees of freedom, k, and the expanded uncertainty U."""
    return (
        Step(
            id="freedom",
            column="freedom",
            title="effective degrees of freedom ν",
            quantity="freedom",
            rule="figures",
            fewest=2,
            needs=("combined", "share-angle", "u-theta", "u-mean"),
            formula=formulas.effective_freedom,
            line=written.freedom_line,
            hints=(
                "ν = 3 · (u(m)/m ÷ share of θ × u(θ) ÷ (s/√8))⁴. The scatter has 3 degrees of freedom.",
                "Keep two figures or more here. It is cut to a whole number for the table only.",
            ),
            read=PAGE + "#degrees-of-freedom",
            looks_back=False,
        ),
        Step(
            id="coverage",
            column="coverage",
            title="coverage factor k for 95 %",
            quantity="ratio",
            rule="figures",
            needs=("freedom",),
            formula=formulas.coverage,
            line=written.coverage_line,
            hints=(
                "Cut ν to a whole number, never up, and look in the column for 95 %.",
                "Where the table has no row for it, take the row before.",
            ),
            read=PAGE + "#degrees-of-freedom",
            looks_back=False,
        ),
        Step(
            id="expanded",
            column="expanded",
            title="U = k · u(m)",
            quantity="moment",
            rule="figures",
            fewest=1,
            needs=("coverage", "combined", "corrected"),
            formula=formulas.expanded,
            line=lambda known, givens: (
                f"U = {places(known['coverage'], 2)} × {percent(known['combined'])} × "
                f"{figures(known['corrected'], 4)} A·m² = {figures(known['expanded'])} A·m²"
            ),
            hints=(
                "u(m) is the relative uncertainty times m; U is k times that.",
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
        needs=("expanded", "corrected"),
        formula=formulas.count,
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
        formula=formulas.ratio,
        line=written.ratio_line,
        hints=(
            "u(θ) is the same at both, so only 1/(sin θ cos θ) counts.",
            f"Work out sin 45° cos 45° and divide it by sin {other:g}° cos {other:g}°.",
        ),
        read=PAGE + "#why-30-to-60",
    )


_LENGTHS = hidden_step("d", (), formulas.distance), hidden_step("l", (), formulas.half_length)


@cache
def plan_of_inputs() -> Plan:
    """The plan of most inputs' shares and of the moment: there is code for it, so a draw looks at it first."""
    return Plan((*_LENGTHS, mean_step(0), *angle_steps(), *distance_steps(), *needle_steps(), *_moment_steps()))


@cache
def plan_for(other: float) -> Plan:
    """The plan of a sheet that compares 45° with this other angle."""
    return Plan(
        (
            *_LENGTHS,
            mean_step(0),
            *angle_steps(),
            *distance_steps(),
            *length_steps(),
            *needle_steps(),
            *_combined_steps(),
            *_moment_steps(),
            *_expanded_steps(),
            _count_step(),
            _ratio_step(other),
        ),
        compiled=False,
    )

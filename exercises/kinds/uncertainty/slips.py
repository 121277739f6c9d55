"""Slips on the way from readings to the uncertainty of the result."""

import math

from exercises.bench.student_t import t95
from exercises.kinds.uncertainty.budget import DEGREES, decimals_to_quote, of_ninety
from exercises.kinds.uncertainty.input_slips import PAGE
from exercises.kinds.uncertainty.input_slips import SLIPS as OF_INPUTS
from exercises.slips.catalogue import Slip, always

SLIPS = (
    *OF_INPUTS,
    Slip(
        "share-for-percent",
        "a share written where per cent is asked",
        "per_cent",
        always(lambda share: share / 100),
        "This looks like the share as a plain number, such as 0.008. In per cent it is a hundred times that, 0.8.",
        PAGE + "#from-the-angle",
    ),
    Slip(
        "added-linearly",
        "shares added, not in squares",
        "combine",
        always(lambda a, shares: a.total(shares)),
        "This looks like the plain sum of the shares. Uncertainties that have nothing to do with each other "
        "add in squares: square, add, take the root.",
        PAGE + "#in-squares",
    ),
    Slip(
        "root-left-out",
        "the root over the sum of squares left out",
        "combine",
        always(lambda a, shares: 100 * a.total(x * x for x in shares)),
        "This looks like the sum of the squares, in per cent, without the root over it.",
        PAGE + "#in-squares",
    ),
    Slip(
        "half-length-left-out-of-moment",
        "the half length left out of the moment",
        "half_length_in_moment",
        always(lambda l: 0.0),
        "This looks as if l was left out, so that d² stands for d² − l². That is the formula of a magnet of no length.",
        "before/field-end-on/#half-the-magnetic-length",
    ),
    Slip(
        "needle-kept",
        "what the needle does not taken off",
        "without_needle",
        always(lambda a, m, effect: m),
        "This looks like the moment by the formula. The needle makes it too large by the share f. What is known of an "
        "error is taken off: divide by 1 + f.",
        PAGE + "#from-the-needle",
        hides=True,
    ),
    Slip(
        "needle-put-on",
        "what the needle does put on, not taken off",
        "without_needle",
        always(lambda a, m, effect: m * (1 + effect)),
        "This looks as if f was put on. The needle makes the moment too large, so divide by 1 + f.",
        PAGE + "#from-the-needle",
        hides=True,
    ),
    Slip(
        "square-for-fourth-power",
        "the square for the fourth power",
        "power_of_freedom",
        always(lambda x: x**2),
        "This looks like the square. The degrees of freedom go with the fourth power.",
        PAGE + "#degrees-of-freedom",
    ),
    Slip(
        "seven-degrees",
        "7 degrees of freedom of the scatter",
        "degrees",
        always(lambda: 7.0),
        "This looks as if the scatter had 7 degrees of freedom. Eight readings less their mean and the faults of four "
        "pairs leave 3.",
        PAGE + "#degrees-of-freedom",
    ),
    Slip(
        "all-of-the-angle",
        "all of u(θ) counted as scatter",
        "part_of_scatter",
        always(lambda a, u_theta, u_mean: 1.0),
        "This looks as if all of u(θ) came from the scatter. Only s/√8 has so few degrees of freedom: multiply by "
        "u(θ) ÷ (s/√8) before the fourth power.",
        PAGE + "#degrees-of-freedom",
        hides=True,
    ),
    Slip(
        "two-by-habit",
        "2 taken for k",
        "coverage",
        always(lambda a, nu: 2.0),
        "This looks like k = 2, which holds where the degrees of freedom are very many. Here take k from the table.",
        PAGE + "#degrees-of-freedom",
        hides=True,
    ),
    Slip(
        "three-degrees-for-k",
        "k of 3 degrees of freedom",
        "coverage",
        always(lambda a, nu: t95(DEGREES)),
        "This looks like k for 3 degrees of freedom. That would hold if all of u(m) came from the scatter. Take ν, cut "
        "to a whole number.",
        PAGE + "#degrees-of-freedom",
        hides=True,
    ),
    Slip(
        "column-of-ninety",
        "k from the column for 90 %",
        "coverage",
        always(of_ninety),
        "This looks like k for 90 %. What is asked for is 95 %.",
        PAGE + "#degrees-of-freedom",
    ),
    Slip(
        "coverage-left-out",
        "the factor k of the expanded uncertainty left out",
        "times_k",
        always(lambda k: 1.0),
        "This looks like u(m), the standard uncertainty. The expanded one is U = k · u(m).",
        PAGE + "#the-result",
    ),
    Slip(
        "percent-as-number",
        "per cent used as a plain number",
        "as_share",
        always(lambda share: 100 * share),
        "This looks as if the per cent were used as a plain number. One per cent is 0.01: divide by 100.",
        PAGE + "#the-result",
    ),
    Slip(
        "left-relative",
        "the relative uncertainty not multiplied by m",
        "of_the_moment",
        always(lambda m: 1.0),
        "This looks like k · u(m)/m, a part of the moment. U is in A·m²: multiply by m.",
        PAGE + "#the-result",
    ),
    Slip(
        "decimals-for-figures",
        "decimal places counted for figures",
        "counted",
        always(decimals_to_quote),
        "This looks like the number of decimal places. Figures are counted from the first that is not 0, "
        "those before the point too.",
        PAGE + "#how-many-figures",
    ),
    Slip(
        "sine-alone",
        "cos θ left out of the comparison",
        "steepness",
        always(lambda a, angle: 1 / math.sin(math.radians(angle))),
        "This looks like the ratio of the sines alone. The share of the angle goes with 1/(sin θ cos θ).",
        PAGE + "#why-30-to-60",
    ),
    Slip(
        "ratio-upside-down",
        "the ratio turned over",
        "compare",
        always(lambda a, other, best: best / other),
        "This looks like the ratio the other way up. 45° is the best there is, so the other angle's share is larger "
        "and the ratio more than 1.",
        PAGE + "#why-30-to-60",
    ),
    Slip(
        "not-compared",
        "not divided by the value at 45°",
        "compare",
        always(lambda a, other, best: other),
        "This looks like 1/(sin θ cos θ) of the other angle by itself. Divide by the same at 45°, which is 2.",
        PAGE + "#why-30-to-60",
    ),
)

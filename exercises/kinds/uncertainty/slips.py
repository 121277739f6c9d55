"""Slips on the way from readings to the uncertainty of the result."""

import math

from exercises.kinds.uncertainty.budget import decimals_to_quote
from exercises.slips.catalogue import Slip, always

PAGE = "exercises/uncertainty/"

SLIPS = (
    Slip(
        "divided-by-n",
        "divided by 8 and not by 7 in s",
        "freedom",
        always(lambda n: n),
        "This looks as if the sum of squares was divided by 8. For the scatter of a sample it is one less, 7: "
        "on a calculator the key s or σₙ₋₁.",
        PAGE + "#scatter",
    ),
    Slip(
        "root-of-eight-left-out",
        "s not divided by √8",
        "root_of_count",
        always(lambda n: 1.0),
        "This looks like s itself, the scatter of one reading. The mean of eight has s/√8.",
        PAGE + "#scatter",
    ),
    Slip(
        "divided-by-eight",
        "s divided by 8 and not by √8",
        "root_of_count",
        always(lambda n: float(n)),
        "This looks like s/8. The scatter of a mean falls with the root of the number of readings: s/√8.",
        PAGE + "#scatter",
    ),
    Slip(
        "uncertainty-in-degrees",
        "u(θ) not turned into radians",
        "radians",
        always(lambda u: u),
        "This looks as if u(θ) was left in degrees. u(θ)/(sin θ cos θ) needs it in radians: times π/180.",
        PAGE + "#from-the-angle",
    ),
    Slip(
        "angle-unweighted",
        "sin θ cos θ left out",
        "angle_share",
        always(lambda a, u, sine, cosine: u),
        "This looks like u(θ) in radians by itself. What counts is how much the tangent changes: "
        "divide by sin θ cos θ.",
        PAGE + "#from-the-angle",
    ),
    Slip(
        "tangent-not-relative",
        "change of tan θ not divided by tan θ",
        "angle_share",
        always(lambda a, u, sine, cosine: u / (cosine * cosine)),
        "This looks like u(θ)/cos² θ, the change of tan θ itself. As a part of tan θ it is u(θ)/(sin θ cos θ).",
        PAGE + "#from-the-angle",
    ),
    Slip(
        "root-three-left-out",
        "half width not divided by √3",
        "rectangular",
        always(lambda width: width),
        "This looks as if the half width was taken for the standard uncertainty. "
        "Within a half width where all values are as likely, divide it by √3.",
        PAGE + "#half-width",
    ),
    Slip(
        "half-width-as-full",
        "half width divided by √12",
        "rectangular",
        always(lambda width: width / math.sqrt(12)),
        "This looks like the half width divided by √12, or by 2 and by √3. √12 belongs to the full width, √3 to half "
        "of it; what is given is the half.",
        PAGE + "#half-width",
    ),
    Slip(
        "width-not-halved",
        "the half width of 2l used for l",
        "half_of_width",
        always(lambda width: width),
        "This looks like u(2l). The formula has l, and u(l) is half of u(2l).",
        PAGE + "#half-width",
    ),
    Slip(
        "two-l-for-l",
        "the magnetic length 2l used for l",
        "half",
        always(lambda two_l: two_l),
        "This looks as if the whole magnetic length 2l was put where the half length l belongs. Halve it first.",
        "before/field-end-on/#half-the-magnetic-length",
    ),
    Slip(
        "sensitivity-of-a-point",
        "3 taken for 4d²/(d² − l²) − 1",
        "sensitivity",
        always(lambda a, d2, l2, bracket: 3.0),
        "This looks like the factor 3, which holds for a magnet of no length. Yours has a length: "
        "4d²/(d² − l²) − 1 is a little more.",
        PAGE + "#from-the-distance",
    ),
    Slip(
        "sensitivity-left-out",
        "1 taken for 4d²/(d² − l²) − 1",
        "sensitivity",
        always(lambda a, d2, l2, bracket: 1.0),
        "This looks like u(d)/d by itself. The moment goes with about the cube of d, so one per cent of d is "
        "more than three per cent of m.",
        PAGE + "#from-the-distance",
    ),
    Slip(
        "one-not-taken-off",
        "the −1 left out of 4d²/(d² − l²) − 1",
        "sensitivity",
        always(lambda a, d2, l2, bracket: 4 * d2 / bracket),
        "This looks like 4d²/(d² − l²) without the −1. The −1 is the d below the line of the formula.",
        PAGE + "#from-the-distance",
    ),
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
        "This looks like the plain sum of the three shares. Uncertainties that have nothing to do with each other "
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
        "coverage-left-out",
        "the factor 2 of the expanded uncertainty left out",
        "coverage",
        always(lambda: 1.0),
        "This looks like u(m), the standard uncertainty. The expanded one is U = 2 u(m).",
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
        "This looks like 2 u(m)/m, a part of the moment. U is in A·m²: multiply by m.",
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

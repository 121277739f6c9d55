"""Slips in what each of the four inputs adds to the uncertainty of a moment."""

import math

from exercises.kinds.uncertainty.budget import scatter_of_all, scatter_of_differences
from exercises.slips.catalogue import Slip, always

PAGE = "exercises/uncertainty/"

SLIPS = (
    Slip(
        "scatter-of-all-eight",
        "the standard deviation of all eight readings",
        "scatter",
        always(scatter_of_all),
        "This looks like the standard deviation of all eight readings. They differ by design: the faults set four of "
        "them against the other four, and that cancels in the mean. s is the scatter about this pattern, from ① − ②.",
        PAGE + "#scatter",
    ),
    Slip(
        "divided-by-n",
        "divided by 4 and not by 3 in s",
        "freedom",
        always(lambda n: n),
        "This looks as if the sum of squares was divided by 4. For the scatter of four differences it is one less, 3: "
        "on a calculator the key s or σₙ₋₁.",
        PAGE + "#scatter",
        hides=True,
    ),
    Slip(
        "root-two-left-out",
        "the scatter of the differences not divided by √2",
        "scatter",
        always(scatter_of_differences),
        "This looks like the scatter of the differences ① − ②. A difference holds the scatter of two readings, so that "
        "of one reading is smaller by √2.",
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
        "friction-left-out",
        "the friction left out of u(θ)",
        "with_friction",
        always(lambda a, u, friction: u),
        "This looks like s/√8 by itself. Friction holds the needle back the same way at both ends, so the scatter does "
        "not show it: add its standard uncertainty in squares.",
        PAGE + "#friction",
        hides=True,
    ),
    Slip(
        "friction-added",
        "the friction added to s/√8, not in squares",
        "with_friction",
        always(lambda a, u, friction: u + friction),
        "This looks like s/√8 plus the standard uncertainty of the friction. They have nothing to do with each other, "
        "so they add in squares.",
        PAGE + "#friction",
        hides=True,
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
        "needle-not-halved",
        "2n used for n",
        "half_needle",
        always(lambda between: between),
        "This looks as if 2n, from pole to pole of the needle, was put where n belongs. Halve it first.",
        PAGE + "#from-the-needle",
    ),
    Slip(
        "needle-three-left-out",
        "the −3 left out of 15 sin²θ − 3",
        "steepness_of_needle",
        always(lambda a, square: 15 * square),
        "This looks like (n/d)² · 15 sin²θ. Then comes −3.",
        PAGE + "#from-the-needle",
    ),
    Slip(
        "needle-once",
        "2 left out before the share of the needle",
        "twice_over",
        always(lambda share: share),
        "This looks like f · u(2n)/2n. The effect goes with the square of 2n, so its relative uncertainty is twice "
        "that of 2n.",
        PAGE + "#from-the-needle",
        hides=True,
        like="half-width-as-full",
    ),
)

"""Slips with a graph: its columns, its slope, its intercept, and what is worked from them."""

from exercises.slips.catalogue import Slip, always
from exercises.working.arithmetic import reciprocal_or_zero, signed_root

GRAPH = "exercises/graph/"

SLIPS = (
    Slip(
        "x-turned-over",
        "x turned over",
        "over_bracket",
        always(lambda a, twice_d, bracket: bracket / twice_d),
        "This looks like (d² − l²)²/2d, the number turned over. For the graph 2d stands above the line.",
        f"{GRAPH}#tangent-against-distance",
    ),
    Slip(
        "tangent-for-cotangent",
        "tan taken for cot",
        "times_cot",
        always(lambda a, d, tangent: d * tangent),
        "This looks like √(d tan θ). The cotangent is 1/tan θ, so divide d by tan θ before the root.",
        f"{GRAPH}#a-line-that-tells-the-length-too",
    ),
    Slip(
        "root-of-column-left-out",
        "the root over d cot θ left out",
        "column_root",
        always(lambda a, x: x),
        "This looks like d cot θ without its root. d² goes in step with the root of it: take the root for the graph.",
        f"{GRAPH}#a-line-that-tells-the-length-too",
    ),
    Slip(
        "axes-swapped",
        "the axes swapped: 1/slope",
        "slope_way",
        always(reciprocal_or_zero),
        "This looks like the slope turned over, as if the axes were swapped. The slope is the rise of what is drawn "
        "upwards over the run of what is drawn to the right.",
        f"{GRAPH}#the-slope-of-a-line",
    ),
    Slip(
        "two-counted-again",
        "the 2 of 2d counted again",
        "first_line",
        always(lambda m: m / 2),
        "This looks like half the moment. The 2 is in 2d already, and so in your x: the first slope needs no other 2.",
        f"{GRAPH}#tangent-against-distance",
    ),
    Slip(
        "two-in-slope-left-out",
        "the 2 in the slope left out",
        "second_two",
        always(lambda: 1),
        "This looks like twice the moment. The square of the second slope is (µ₀/4π)·2m/B_H: divide by its 2 as well.",
        f"{GRAPH}#a-line-that-tells-the-length-too",
    ),
    Slip(
        "slope-not-squared",
        "the slope not squared",
        "second_square",
        always(lambda a, s: s),
        "This looks as if the second slope was not squared. It is a root, √((µ₀/4π)·2m/B_H): square it first.",
        f"{GRAPH}#a-line-that-tells-the-length-too",
    ),
    Slip(
        "earth-left-out",
        "B_H left out",
        "with_earth",
        always(lambda B_H: 1.0),
        "This looks like m/B_H, with the earth's field left out. Multiply by B_H in tesla.",
        f"{GRAPH}#tangent-against-distance",
    ),
    Slip(
        "read-at-the-first-point",
        "the intercept read beside the first point",
        "intercept_at",
        always(lambda intercept, ys: min(ys)),
        "This looks like a d² from beside your points. The intercept is where the line meets the upright axis at "
        "x = 0: draw that axis at zero, and carry the line on to it.",
        f"{GRAPH}#the-intercept",
    ),
    Slip(
        "intercept-taken-as-l",
        "the intercept taken as l",
        "length_from",
        always(lambda a, intercept: 2 * intercept),
        "This looks as if the intercept was taken as l. It is l², in m²: take its root first, then double it.",
        f"{GRAPH}#the-intercept",
    ),
    Slip(
        "l-for-two-l",
        "l given for 2l",
        "length_from",
        always(lambda a, intercept: signed_root(intercept)),
        "This looks like l, the half length. The magnetic length is 2l: double it.",
        f"{GRAPH}#the-intercept",
    ),
    Slip(
        "doubled-before-the-root",
        "doubled before the root",
        "length_from",
        always(lambda a, intercept: signed_root(2 * intercept)),
        "This looks like √(2l²). Take the root of the intercept first, and double what you get.",
        f"{GRAPH}#the-intercept",
        hides=True,
    ),
)

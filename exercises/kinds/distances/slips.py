"""Slips in choosing distances: the field for a limit, the first guess, the correction for l, the box and the arm."""

import math

from exercises.slips.catalogue import Slip, always

THEORY = "exercises/distances/"
FIELD, GUESS, CORRECTION, ENDS = (
    THEORY + anchor
    for anchor in ("#the-field-needed", "#the-first-guess", "#the-correction-for-l", "#the-box-and-the-arm")
)

SLIPS = (
    Slip(
        "ends-changed-over",
        "nearest and farthest changed over",
        "limit_angle",
        lambda right: lambda limit: right({"near": "far", "far": "near"}[limit]),
        "This looks like the other end of the stretch. The field is stronger near by: 60° belongs to the nearest "
        "distance and 30° to the farthest.",
        FIELD,
    ),
    Slip(
        "limit-as-radians",
        "30 and 60 taken as radians",
        "limit_tangent",
        always(lambda a, theta: a.apply(math.tan, theta)),
        "This looks like the tangent of that many radians. Set the calculator to degrees (often marked D or DEG).",
        "before/tangent-law/#degrees-not-radians",
    ),
    Slip(
        "limit-sine",
        "sine taken for tangent",
        "limit_tangent",
        always(lambda a, theta: a.apply(lambda x: math.sin(math.radians(x)), theta)),
        "This looks like B_H sin θ. By the tangent law the magnet’s field is B = B_H tan θ.",
        "before/tangent-law/#the-tangent-not-the-sine",
    ),
    Slip(
        "limit-cosine",
        "cosine taken for tangent",
        "limit_tangent",
        always(lambda a, theta: a.apply(lambda x: math.cos(math.radians(x)), theta)),
        "This looks like B_H cos θ. By the tangent law the magnet’s field is B = B_H tan θ.",
        "before/tangent-law/#the-tangent-not-the-sine",
    ),
    Slip(
        "two-of-2m-left-out",
        "the 2 in 2m left out",
        "limit_twice_moment",
        always(lambda m: m),
        "This looks as if the 2 in (µ₀/4π)·2m/B was left out. Without it this is the distance broadside-on; "
        "end-on the field is twice as strong.",
        GUESS,
    ),
    Slip(
        "microtesla",
        "B left in microtesla",
        "limit_tesla",
        always(lambda B: B * 1e6),
        "This looks as if B was left in µT: it goes in in tesla, 1 µT = 10⁻⁶ T. "
        "Or a length in metres was typed where centimetres are asked for.",
        GUESS,
    ),
    Slip(
        "square-root-for-cube-root",
        "square root taken for cube root",
        "limit_guess_root",
        always(lambda a, cube: a.apply(math.sqrt, cube)),
        "This looks like a square root. The field falls with the cube of the distance, so take the cube root.",
        GUESS,
    ),
    Slip(
        "guess-not-rooted",
        "no root taken of d₀³",
        "limit_guess_root",
        always(lambda a, cube: cube),
        "This looks like d₀³ itself, with no root taken. d₀ is its cube root.",
        GUESS,
    ),
    Slip(
        "whole-for-half",
        "2l given for l",
        "limit_half_length",
        always(lambda a, two_l: two_l),
        "This looks like the whole magnetic length 2l where the half length l belongs. Halve it.",
        "before/field-end-on/#half-the-magnetic-length",
    ),
    Slip(
        "measured-for-magnetic",
        "half the measured length used for l",
        "limit_magnetic_length",
        always(lambda a, length, given: length),
        "This looks like half of the measured length. The poles lie inside the ends of the bar: "
        "l is half of the magnetic length 2l.",
        "before/result/#the-magnetic-length",
        inside=True,
    ),
    Slip(
        "whole-length-in-correction",
        "2l put for l in the correction",
        "correction_length",
        always(lambda l: 2 * l),
        "This looks four times too large, as if the whole magnetic length was put where the half length l belongs.",
        CORRECTION,
    ),
    Slip(
        "l-not-squared",
        "l not squared in the correction",
        "correction_square",
        always(lambda l: l),
        "This looks as if l was not squared. A length comes out only of l²/d₀.",
        CORRECTION,
    ),
    Slip(
        "two-thirds-left-out",
        "the 2/3 of the correction left out",
        "correction_share",
        always(lambda: 1.0),
        "This looks like l²/d₀ without the 2/3 before it.",
        CORRECTION,
    ),
    Slip(
        "three-left-out",
        "the 3 of the correction left out",
        "correction_share",
        always(lambda: 2.0),
        "This looks three times too large: the 3 in 2l²/3d₀ was left out.",
        CORRECTION,
    ),
    Slip(
        "two-left-out-of-correction",
        "the 2 of the correction left out",
        "correction_share",
        always(lambda: 1 / 3),
        "This looks half as large as it should be: the 2 in 2l²/3d₀ was left out.",
        CORRECTION,
    ),
    Slip(
        "correction-taken-off",
        "the correction taken off",
        "correction_sign",
        always(lambda: -1),
        "This looks as if the correction was taken off. End-on a magnet of some length is stronger than a short one, "
        "so its distance is a little longer: add it.",
        CORRECTION,
    ),
    Slip(
        "half-bar-left-out",
        "half the bar left out",
        "arm_half_bar",
        always(lambda length, l: 0.0),
        "This looks as if half the bar was left out. d goes to its middle, and its ends lie half its measured "
        "length nearer and farther.",
        ENDS,
    ),
    Slip(
        "half-magnetic-length-of-bar",
        "half the magnetic length taken for half the bar",
        "arm_half_bar",
        always(lambda length, l: l),
        "This looks as if l, half the magnetic length, was used. The bar itself is longer: from its middle to its end "
        "is half of its measured length.",
        ENDS,
        hides=True,
    ),
    Slip(
        "whole-bar",
        "the whole bar taken for half of it",
        "arm_half_bar",
        always(lambda length, l: length),
        "This looks as if the whole length of the bar was used. From its middle to its end is only half of it.",
        ENDS,
    ),
    Slip(
        "box-left-out",
        "the radius of the box left out",
        "box_edge",
        always(lambda radius: 0.0),
        "This looks as if the radius of the box was left out. d counts from the centre of the box, and its edge lies "
        "one radius farther out.",
        ENDS,
    ),
    Slip(
        "box-diameter",
        "the diameter of the box taken for its radius",
        "box_edge",
        always(lambda radius: 2 * radius),
        "This looks as if the diameter of the box was used. From its centre to its edge is one radius.",
        ENDS,
    ),
    Slip(
        "clearance-left-out",
        "the clear centimetre left out",
        "box_clearance",
        always(lambda: 0.0),
        "This is where the bar would touch the box. Keep 1 cm between them.",
        ENDS,
    ),
    Slip(
        "start-not-moved",
        "begun at 60° though the bar touches the box",
        "start_moved",
        always(lambda: False),
        "This is the distance for 60°, but there the bar would be too close to the box. Begin where 1 cm is left "
        "between them.",
        ENDS,
    ),
    Slip(
        "stop-not-moved",
        "gone out to 30° though the arm is too short",
        "stop_moved",
        always(lambda: False),
        "This is the distance for 30°, but there the bar would stand out over the end of the arm. Stop where the "
        "whole bar still lies on it.",
        ENDS,
    ),
)

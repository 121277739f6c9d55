"""The slips of the toy kind."""

import math

from exercises.slips.catalogue import Slip, always

SLIPS = (
    Slip(
        "toy-sine",
        "sine taken for tangent",
        "toy_tangent",
        always(lambda a, theta: a.apply(lambda x: math.sin(math.radians(x)), theta)),
        "This looks like sin θ where tan θ belongs.",
        "exercises/toy/#the-tangent",
    ),
    Slip(
        "toy-two-fields",
        "the earth’s field counted twice",
        "toy_earth",
        always(lambda B_H: 2 * B_H),
        "This is twice the field: the earth’s field counts once.",
        "exercises/toy/#the-field",
    ),
)

"""The earth's field and the moment together, the magnetometer's own method of absolute measurement.

Two ways in: the deflections end-on give m/B_H = (4π/µ0)(d² − l²)² tan θ / 2d, and
the period of the same magnet swinging in the earth's field alone gives
m·B_H = 4π²I/T², with I = M(L² + b²)/12.  Their product is m², their quotient B_H².
"""

from exercises.kinds.earth.draw import draw_first_edition
from exercises.kinds.earth.page import PAGE
from exercises.kinds.earth.parts import PARTS
from exercises.kinds.earth.questions import QUESTIONS
from exercises.kinds.earth.refuses import refuses
from exercises.kinds.earth.scenario import working
from exercises.kinds.earth.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.slips.catalogue import slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.slips.elsewhere import SLIPS as OF_PLACES

SLIPS = slips_for("earth", PARTS, (*OF_DEFLECTION, *OF_THIS_KIND, *OF_PLACES))

KIND = Kind(
    "E",
    "earth",
    "The earth's field and the moment",
    {1: draw_first_edition},
    working,
    PAGE,
    SLIPS,
    questions=QUESTIONS,
    listing=Listing(
        order=70,
        name="The earth's field and the moment",
        task="both at once, from deflection and vibration",
        steps="m/B_H, period, inertia, m·B_H, both results",
        checked="scipy's integration; a handbook's inertia of a bar",
    ),
    refuses=refuses,
)

"""Choosing distances: between which distances the deflections lie within 30°–60°, end-on.

It is worked before the lab, from a rough moment.
"""

from exercises.kinds.distances.draw import draw_first_edition
from exercises.kinds.distances.page import ChoosingPage
from exercises.kinds.distances.parts import PARTS
from exercises.kinds.distances.questions import QUESTIONS
from exercises.kinds.distances.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.distances.steps import working
from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.slips.catalogue import slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.slips.elsewhere import SLIPS as OF_PLACES

SLIPS = slips_for("distances", PARTS, (*OF_DEFLECTION, *OF_THIS_KIND, *OF_PLACES))

KIND = Kind(
    "N",
    "distances",
    "Choosing distances",
    {1: draw_first_edition},
    working,
    ChoosingPage(),
    SLIPS,
    questions=QUESTIONS,
    listing=Listing(
        order=30,
        name="Choosing distances",
        task="from a rough moment to the stretch of the arm worth using",
        steps="field, first guess and corrected distance at 30° and 60°; clear of the box, on the arm",
        checked="scipy's root finding on Coulomb poles",
    ),
)

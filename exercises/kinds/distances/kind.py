"""Choosing distances: between which distances the deflections lie within 30°–60°, end-on.

It is worked before the lab, from a rough moment.
"""

from exercises.kinds.distances.draw import draw_first_edition
from exercises.kinds.distances.page import ChoosingPage
from exercises.kinds.distances.parts import PARTS
from exercises.kinds.distances.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.distances.steps import working
from exercises.kinds.kind import Kind
from exercises.slips.catalogue import slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION

SLIPS = slips_for("distances", PARTS, (*OF_DEFLECTION, *OF_THIS_KIND))

KIND = Kind("N", "distances", "Choosing distances", {1: draw_first_edition}, working, ChoosingPage(), SLIPS)

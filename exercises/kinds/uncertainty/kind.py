"""How sure the moment is: from readings, distance and length to m ± U at one distance (JCGM 100:2008).

The scatter of the eight readings gives u(θ) (Type A); half widths of d and 2l
give theirs (Type B).  Each share of u(m)/m, the three in squares, then U.
"""

from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.kinds.uncertainty.budget import PARTS
from exercises.kinds.uncertainty.draw import draw_first_edition
from exercises.kinds.uncertainty.page import PAGE
from exercises.kinds.uncertainty.scenario import working
from exercises.kinds.uncertainty.slips import SLIPS as OF_THIS_KIND
from exercises.slips.catalogue import slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.slips.elsewhere import SLIPS as OF_PLACES

SLIPS = slips_for("uncertainty", PARTS, (*OF_DEFLECTION, *OF_THIS_KIND, *OF_PLACES))

KIND = Kind(
    "X",
    "uncertainty",
    "How sure is the moment?",
    {1: draw_first_edition},
    working,
    PAGE,
    SLIPS,
    listing=Listing(
        order=90,
        name="Uncertainty",
        task="from reading, distance and length to the moment",
        steps="each input's share, combined, expanded, figures to quote",
        checked="JCGM 100:2008, the uncertainties package",
    ),
)

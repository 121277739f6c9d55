"""How sure the moment is: from readings, distance, length and needle to m ± U at one distance (JCGM 100:2008).

The scatter of the readings about the pattern of the four pairs' faults is Type A;
half widths of the friction, of d, of 2l and of the needle are Type B.  Each of the
four shares of u(m)/m, then all in squares; what the needle does taken off; k by
Student's t with effective degrees of freedom; U = k·u(m).
"""

from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.kinds.uncertainty.budget import PARTS
from exercises.kinds.uncertainty.draw import draw_first_edition
from exercises.kinds.uncertainty.page import PAGE
from exercises.kinds.uncertainty.questions import QUESTIONS
from exercises.kinds.uncertainty.scenario import working
from exercises.kinds.uncertainty.slips import SLIPS as OF_THIS_KIND
from exercises.slips.catalogue import slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.slips.elsewhere import SLIPS as OF_PLACES

SLIPS = slips_for("uncertainty", PARTS, (*OF_DEFLECTION, *OF_THIS_KIND, *OF_PLACES))

KIND = Kind(
    "X",
    "uncertainty",
    "Uncertainty: how sure is the moment?",
    {1: draw_first_edition},
    working,
    PAGE,
    SLIPS,
    questions=QUESTIONS,
    listing=Listing(
        order=90,
        name="Uncertainty",
        task="from reading, distance, length and needle to the moment",
        steps="each input's share, combined, the needle taken off, k, expanded, figures to quote",
        checked="JCGM 100:2008, the uncertainties package, scipy's t",
    ),
)

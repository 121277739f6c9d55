"""Reading the dial: both ends of the pointer on eight dials, and the two means.

The eight dials are the four places of the magnet at each of two distances, so
that they are the sixteen readings of two distances.
"""

from exercises.kinds.dial.draw import draw_first_edition
from exercises.kinds.dial.page import DialPage
from exercises.kinds.dial.parts import PARTS
from exercises.kinds.dial.questions import QUESTIONS
from exercises.kinds.dial.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.dial.steps import working
from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.slips.catalogue import slips_for
from exercises.slips.elsewhere import SLIPS as OF_PLACES

SLIPS = slips_for("dial", PARTS, (*OF_THIS_KIND, *OF_PLACES))

KIND = Kind(
    "R",
    "dial",
    "Reading the dial",
    {1: draw_first_edition},
    working,
    DialPage(),
    SLIPS,
    questions=QUESTIONS,
    listing=Listing(
        order=40,
        name="Reading the dial",
        task="both ends of the pointer on eight dials",
        steps="both ends of eight dials, two means",
        checked="the classical error of eccentricity, by numpy",
    ),
)

"""Tangent law drills: four short questions about one needle in two fields.

1  B from θ and B_H          3  B_H from θ and B
2  θ from B and B_H, and     4  arms that are α off east–west: with a magnet of field B along the arm,
   the field along the needle     tan θ = B cos α / (B_H ± B sin α), the sign by the way its N pole points
"""

from exercises.kinds.kind import Kind
from exercises.kinds.law.draw import draw_first_edition
from exercises.kinds.law.page import DrillPage
from exercises.kinds.law.parts import PARTS
from exercises.kinds.law.questions import QUESTIONS
from exercises.kinds.law.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.law.steps import working
from exercises.kinds.listing import Listing
from exercises.slips.catalogue import slips_for
from exercises.slips.elsewhere import SLIPS as OF_PLACES

SLIPS = slips_for("law", PARTS, (*OF_THIS_KIND, *OF_PLACES))

KIND = Kind(
    "W",
    "law",
    "Tangent law drills",
    {1: draw_first_edition},
    working,
    DrillPage(),
    SLIPS,
    questions=QUESTIONS,
    listing=Listing(
        order=50,
        name="Tangent law drills",
        task="B, θ and B<sub>H</sub> from each other, and a box set askew",
        steps="B, θ, B_H from each other; a box set askew",
        checked="a table of natural tangents",
    ),
)

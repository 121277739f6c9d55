"""The graph method: the moment from the slope of a straight line, drawn by hand.

First tan θ against 2d/(d² − l²)², a line through the origin.  Then d² against
√(d cot θ), whose intercept is l², so that the magnetic length comes out of the
readings too.  What is read from the graph is judged by the rule in graph_lines.py.
"""

from functools import partial

from exercises.kinds.deflection.enough import Wanted, too_few
from exercises.kinds.graph.draw import COUNTS, POSITION, SHOWN, draw_first_edition
from exercises.kinds.graph.page import PAGE
from exercises.kinds.graph.parts import PARTS
from exercises.kinds.graph.questions import QUESTIONS
from exercises.kinds.graph.scenario import working
from exercises.kinds.graph.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.slips.catalogue import slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.slips.elsewhere import SLIPS as OF_PLACES

SLIPS = slips_for("graph", PARTS, (*OF_DEFLECTION, *OF_THIS_KIND, *OF_PLACES))

KIND = Kind(
    "K",
    "graph",
    "The graph method: the moment from a slope",
    {1: draw_first_edition},
    working,
    PAGE,
    SLIPS,
    questions=QUESTIONS,
    listing=Listing(
        order=80,
        name="The graph method",
        task="the moment from a slope, the magnetic length from an intercept",
        steps="columns, two slopes, moments, intercept, magnetic length",
        checked="NIST StRD Norris and NoInt1",
    ),
    refuses=partial(too_few, Wanted(POSITION, min(COUNTS), shown=SHOWN)),
)

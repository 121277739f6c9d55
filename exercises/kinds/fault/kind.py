"""Find the fault: readings at several distances with one fault planted, or none.

The nearest and the farthest distance are searched for a pattern by four
differences each; then the fault is named, and what can be mended is mended.
What is right is decided by fitting the instrument with each fault to the
readings (fault_fit.py), not by what was planted.
"""

from functools import partial

from exercises.kinds.deflection.enough import Wanted, too_few
from exercises.kinds.deflection.stretch import END_ON
from exercises.kinds.fault.draw import APART, COUNTS, draw_first_edition
from exercises.kinds.fault.page import PAGE
from exercises.kinds.fault.parts import PARTS
from exercises.kinds.fault.questions import QUESTIONS
from exercises.kinds.fault.scenario import FaultScenario
from exercises.kinds.fault.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.fault.steps import working
from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.slips.catalogue import slips_for
from exercises.slips.elsewhere import SLIPS as OF_PLACES

SLIPS = slips_for("fault", PARTS, (*OF_THIS_KIND, *OF_PLACES))

KIND: Kind[FaultScenario] = Kind(
    "F",
    "fault",
    "Find the fault",
    {1: draw_first_edition},
    working,
    PAGE,
    SLIPS,
    questions=QUESTIONS,
    listing=Listing(
        order=100,
        name="Find the fault",
        task="name the instrument's fault from the pattern of its readings",
        steps="four differences, the fault, what the mean removes, what can be mended",
        checked="scipy's least squares on an independent model",
    ),
    refuses=partial(too_few, Wanted(END_ON, min(COUNTS), apart=APART)),
)

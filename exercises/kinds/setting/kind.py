"""Setting up: boards as they stand on the bench, the two turns in their order, and a turn that was left out.

The box is turned alone until its 0–0 line is parallel to the arms; then the
whole board, until the pointer shows 0–0.  Then the arms lie magnetic east–west
(common practice, no source).
"""

from exercises.kinds.dial.slips import SLIPS as OF_READING
from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.kinds.setting.draw import draw_first_edition
from exercises.kinds.setting.page import SettingPage
from exercises.kinds.setting.parts import PARTS
from exercises.kinds.setting.questions import QUESTIONS
from exercises.kinds.setting.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.setting.steps import working
from exercises.slips.catalogue import slips_for
from exercises.slips.elsewhere import SLIPS as OF_PLACES

SLIPS = slips_for("setting", PARTS, (*OF_READING, *OF_THIS_KIND, *OF_PLACES))

KIND = Kind(
    "P",
    "setting",
    "Setting up",
    {1: draw_first_edition},
    working,
    SettingPage(),
    SLIPS,
    questions=QUESTIONS,
    listing=Listing(
        order=35,
        name="Setting up",
        task="the two turns of a board in their order, and a turn that was left out",
        steps="both ends, the two turns, where the arms lie; which turn was left out, what the mean still hides",
        checked="rotations of three lines by numpy; scipy’s root finding on Coulomb poles",
    ),
)

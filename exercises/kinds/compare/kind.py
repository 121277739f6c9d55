"""Comparing the moments of two magnets: by the angles at one distance, and by a balance.

Both end-on.  At equal distances m₁/m₂ = (d²−l₁²)² tan θ₁ / (d²−l₂²)² tan θ₂.
By balance, the magnets on opposite arms and the needle at rest,
m₁/m₂ = (d₁²−l₁²)² d₂ / (d₂²−l₂²)² d₁.  Neither needs B_H.
"""

from exercises.codes.sheet_code import SheetCode
from exercises.kinds.compare.draw import draw_comparison
from exercises.kinds.compare.page import ComparisonPage
from exercises.kinds.compare.parts import PARTS
from exercises.kinds.compare.questions import QUESTIONS
from exercises.kinds.compare.scenario import Comparison
from exercises.kinds.compare.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.compare.steps import working
from exercises.kinds.kind import Kind
from exercises.kinds.listing import Listing
from exercises.slips.catalogue import Slip, slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.slips.elsewhere import SLIPS as OF_PLACES

SLIPS = slips_for("compare", PARTS, (*OF_THIS_KIND, *OF_DEFLECTION, *OF_PLACES))


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> Comparison:
    """The numbers of a code of edition 1."""
    return draw_comparison(code, slips)


PAGE = ComparisonPage(
    task="How does the moment of magnet 1 compare with that of magnet 2? Find m₁/m₂ twice: from their deflections at "
    "one distance, and by balancing them against each other. The arms lie east–west and the magnets along them (tan A "
    "position).",
    # the spaces inside a bracket do not break
    formula="m₁/m₂ = (d²\u00a0−\u00a0l₁²)²\u00a0tan\u00a0θ₁ / [(d²\u00a0−\u00a0l₂²)²\u00a0tan\u00a0θ₂];  "
    "balance: m₁/m₂ = (d₁²\u00a0−\u00a0l₁²)²\u00a0d₂ / [(d₂²\u00a0−\u00a0l₂²)²\u00a0d₁]",
)

KIND = Kind(
    "C",
    "compare",
    "Comparing two magnets",
    {1: draw_first_edition},
    working,
    PAGE,
    SLIPS,
    questions=QUESTIONS,
    listing=Listing(
        order=60,
        name="Comparing two magnets",
        task="by equal distances and by balance",
        steps="ratio by equal distances and by balance",
        checked="magpylib and scipy for the balance point",
    ),
)

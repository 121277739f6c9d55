"""The steps of the tangent law drills."""

from exercises.kinds.law import formulas, written
from exercises.kinds.law.parts import PARTS
from exercises.kinds.law.scenario import Drill
from exercises.working.steps import Plan, Step, Working

THEORY = "exercises/law/"
BOARD = THEORY + "#the-first-turn-left-out"
ALONG = THEORY + "#the-field-along-the-needle"
LAW = "before/tangent-law/"

WAYS = (
    (
        "east",
        "N pole east",
        "With the N pole to the east this magnet’s field has a part to the north, which helps "
        "B_H and holds the needle back.",
    ),
    (
        "west",
        "N pole west",
        "With the N pole to the west this magnet’s field has a part to the north, which helps "
        "B_H and holds the needle back.",
    ),
)

FROM_A_DEFLECTION = (
    Step(
        id="tan-1",
        column="tan-1",
        title="tan θ",
        quantity="ratio",
        rule="tangent",
        needs=(),
        formula=formulas.tangent_1,
        line=written.tangent_1,
        hints=(
            "Set the calculator to degrees. Keep four places.",
            "Below 45° the tangent is less than 1; above, it is more.",
        ),
        read=LAW + "#the-tangent-not-the-sine",
    ),
    Step(
        id="field-1",
        column="field-1",
        title="the magnet’s field B",
        quantity="field",
        rule="figures",
        needs=("tan-1",),
        formula=formulas.field_1,
        line=written.field_1,
        hints=("B = B_H tan θ. Below 45° the magnet’s field is the weaker of the two.",),
        read=LAW + "#why-the-needle-settles-there",
    ),
)

FROM_A_FIELD = (
    Step(
        id="theta-2",
        column="theta-2",
        title="deflection θ",
        quantity="angle",
        rule="angle",
        needs=(),
        formula=formulas.theta_2,
        line=written.theta_2,
        hints=(
            "tan θ = B / B_H. Keep four places, for 0.01 in the tangent is 0.3° at 45°.",
            "Then take the angle that has this tangent, tan⁻¹ on a calculator, in degrees.",
        ),
        read=LAW + "#which-angle",
    ),
    Step(
        id="along-2",
        column="along-2",
        title="field along the needle",
        quantity="field",
        rule="figures",
        needs=(),
        formula=formulas.along_2,
        line=written.along_2,
        hints=(
            "The two fields are the short sides of a right-angled triangle; the needle lies along its longest side.",
            "√(B² + B_H²). B_H / cos θ is the same.",
        ),
        read=ALONG,
    ),
)

EARTH = Step(
    id="earth-3",
    column="earth-3",
    title="B_H there",
    quantity="field",
    rule="figures",
    needs=(),
    formula=formulas.earth_3,
    line=written.earth_3,
    hints=(
        "Solve B = B_H tan θ for B_H.",
        "B_H = B / tan θ. Below 45° the earth’s field is the stronger of the two.",
    ),
    read=THEORY + "#the-law-both-ways",
)

WAY = Step(
    id="way-4",
    column="way-4",
    title="which way turns the needle farther?",
    quantity="choice",
    rule="reading",
    needs=(),
    formula=formulas.way_4,
    line=written.way_4,
    hints=(
        "Beyond the ends of a magnet its field points the way its N pole points.",
        "Draw the field at the box. Has it a part to the north, with B_H, or to the south, against it?",
    ),
    read=BOARD,
    choices=WAYS,
)


def turned(way: str) -> Step:
    """The deflection with the arms askew and the N pole that way, "east" or "west"."""
    return Step(
        id=f"{way}-4",
        column=f"{way}-4",
        title=f"θ, N pole {way}",
        quantity="angle",
        rule="angle",
        needs=(),
        formula=formulas.turned_4(way),
        line=written.turned_4(way),
        hints=(
            "The magnet’s field lies along the arm: B cos α of it across B_H, B sin α along B_H.",
            f"With the N pole {way}, does the part B sin α point north, with B_H, or south, against it?",
            "tan θ = B cos α / (B_H ± B sin α): plus where it points north, minus where it points south. "
            "Keep four places of it.",
        ),
        read=BOARD,
    )


FROM_BOTH_DEFLECTIONS = (
    Step(
        id="mean-4",
        column="mean-4",
        title="mean of the two θ",
        quantity="angle",
        rule="angle",
        needs=("east-4", "west-4"),
        formula=formulas.mean_4,
        line=written.mean_4,
        hints=("Add the two and halve, as the reversal in the eight readings does.",),
        read=BOARD,
        looks_back=False,
        exact=True,
    ),
    Step(
        id="field-4",
        column="field-4",
        title="B from the mean",
        quantity="field",
        rule="figures",
        needs=("mean-4",),
        formula=formulas.field_4,
        line=written.field_4,
        hints=("B_H tan θ with the mean deflection, as if the arms lay east–west.",),
        read=BOARD,
        looks_back=False,
    ),
    Step(
        id="error-4",
        column="error-4",
        title="the larger θ alone: B too large by",
        quantity="percent",
        rule="figures",
        needs=("east-4", "west-4"),
        formula=formulas.error_4,
        line=written.error_4,
        hints=(
            "Work B_H tan θ with the larger of the two deflections and compare it with the B that is there.",
            "(B_H tan θ − B) / B, in per cent.",
        ),
        read=BOARD,
        looks_back=False,
    ),
)

PLAN = Plan(
    (*FROM_A_DEFLECTION, *FROM_A_FIELD, EARTH, WAY, turned("east"), turned("west"), *FROM_BOTH_DEFLECTIONS),
)


def working(drill: Drill) -> Working:
    """The working of a drill."""
    givens = {"B_H": drill.B_H, "theta": drill.theta, "fields": drill.fields, "tilt": drill.tilt, "north": drill.north}
    return Working(PLAN, givens, PARTS)

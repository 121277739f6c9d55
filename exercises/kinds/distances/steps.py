"""The steps of choosing distances before the lab."""

from functools import cache

from exercises.kinds.deflection.lengths import LengthRule, rule_of
from exercises.kinds.distances import formulas, written
from exercises.kinds.distances.parts import PARTS, DistancesParts
from exercises.kinds.distances.scenario import LIMITS, Choosing
from exercises.working.steps import Plan, Step, Working

THEORY = "exercises/distances/"
BOX_AND_ARM = THEORY + "#the-box-and-the-arm"
WHICH = {"near": "nearest", "far": "farthest"}


def half_length_step(rule: LengthRule) -> Step:
    """l, with 2l by a rule."""
    return Step(
        id="l",
        column="l",
        title="half length l",
        quantity="distance",
        rule="reading",
        needs=(),
        formula=formulas.half_length,
        line=written.half_length(rule),
        hints=(rule.half_is,),
        read="before/field-end-on/#half-the-magnetic-length",
    )


def field_step(limit: str) -> Step:
    """B = B_H tan θ at a limit, "near" or "far"."""
    theta = f"{LIMITS[limit]:.0f}°"
    size = "largest" if limit == "near" else "smallest"
    return Step(
        id=f"field-{limit}",
        column="field",
        title=f"field B for {theta}",
        quantity="field",
        rule="figures",
        needs=(),
        formula=formulas.field(limit),
        line=written.field(limit),
        hints=(
            f"The {WHICH[limit]} distance has the {size} deflection, {theta}.",
            f"By the tangent law B = B_H tan {theta}.",
        ),
        read=THEORY + "#the-field-needed",
    )


def cube_step(limit: str) -> Step:
    """d₀³ at a limit."""
    return Step(
        id=f"cube-{limit}",
        column="cube",
        title="d₀³ = (µ₀/4π)·2m/B",
        quantity="volume",
        rule="figures",
        needs=(f"field-{limit}",),
        formula=formulas.cube(limit),
        line=written.cube(limit),
        hints=(
            "Far from a short magnet B = (µ₀/4π)·2m/d³. Turn it round for d³.",
            "(µ₀/4π) is 10⁻⁷ T·m/A, and B goes in in tesla: 1 µT is 10⁻⁶ T.",
        ),
        read=THEORY + "#the-first-guess",
    )


def guess_step(limit: str) -> Step:
    """d₀ at a limit."""
    return Step(
        id=f"guess-{limit}",
        column="guess",
        title="first guess d₀",
        quantity="distance",
        rule="figures",
        needs=(f"cube-{limit}",),
        formula=formulas.guess(limit),
        line=written.guess(limit),
        hints=("Take the cube root. It is in metres; a hundred times that is in centimetres.",),
        read=THEORY + "#the-first-guess",
    )


def correction_step(limit: str) -> Step:
    """2l²/3d₀ at a limit."""
    return Step(
        id=f"correction-{limit}",
        column="correction",
        title="correction 2l²/3d₀",
        quantity="distance",
        rule="figures",
        needs=("l", f"guess-{limit}"),
        formula=formulas.correction(limit),
        line=written.correction(limit),
        hints=(
            "Square l, double it, and divide by three times d₀.",
            "With l and d₀ both in centimetres it comes out in centimetres: a few millimetres.",
        ),
        read=THEORY + "#the-correction-for-l",
        looks_back=False,
    )


def distance_step(limit: str) -> Step:
    """d at a limit."""
    return Step(
        id=f"distance-{limit}",
        column="distance",
        title=f"{WHICH[limit]} distance d",
        quantity="distance",
        rule="figures",
        needs=(f"guess-{limit}", f"correction-{limit}"),
        formula=formulas.distance(limit),
        line=written.distance(limit),
        hints=("d = d₀ + 2l²/3d₀, to the millimetre.",),
        read=THEORY + "#the-correction-for-l",
        looks_back=False,
    )


def limit_steps(limit: str) -> tuple[Step, ...]:
    """All that is worked for a limit, "near" or "far"."""
    return field_step(limit), cube_step(limit), guess_step(limit), correction_step(limit), distance_step(limit)


NEAR_END = (
    Step(
        id="gap",
        column="gap",
        title="gap between box and bar, nearest",
        quantity="distance",
        rule="reading",
        needs=("distance-near", "l"),
        formula=formulas.gap,
        line=written.gap,
        hints=(
            "From the centre of the box: d to the middle of the bar, less half the bar itself, less the box's radius.",
        ),
        read=BOX_AND_ARM,
        looks_back=False,
    ),
    Step(
        id="clear",
        column="clear",
        title="at least 1 cm clear?",
        quantity="choice",
        rule="reading",
        needs=("gap",),
        formula=formulas.clear,
        line=written.clear,
        hints=("Compare the gap with 1 cm.",),
        read=BOX_AND_ARM,
        looks_back=False,
        choices=(
            (
                "clear",
                "yes: begin at 60°",
                "The end of the bar would be less than 1 cm from the box. Begin farther off.",
            ),
            ("close", "no: begin farther off", "The end of the bar is 1 cm or more from the box, so it is clear."),
        ),
    ),
    Step(
        id="from",
        column="from",
        title="distances from",
        quantity="distance",
        rule="figures",
        needs=("distance-near", "gap", "l"),
        formula=formulas.start,
        line=written.start,
        hints=(
            "If the bar is clear, this is the nearest distance. If not, it is the radius, 1 cm and half the bar "
            "together.",
        ),
        read=BOX_AND_ARM,
        looks_back=False,
    ),
)

FAR_END = (
    Step(
        id="reach",
        column="reach",
        title="far end of the bar, farthest",
        quantity="distance",
        rule="figures",
        needs=("distance-far", "l"),
        formula=formulas.reach,
        line=written.reach,
        hints=("d goes to the middle of the bar. Half of the bar itself lies farther out.",),
        read=BOX_AND_ARM,
        looks_back=False,
    ),
    Step(
        id="fits",
        column="fits",
        title="arm long enough?",
        quantity="choice",
        rule="reading",
        needs=("reach",),
        formula=formulas.fits,
        line=written.fits,
        hints=("Compare where the far end lies with the length of the arm.",),
        read=BOX_AND_ARM,
        looks_back=False,
        choices=(
            ("fits", "yes: go out to 30°", "The far end of the bar would stand out over the end of the arm."),
            ("short", "no: stop earlier", "The whole bar still lies on the arm there, so the arm is long enough."),
        ),
    ),
    Step(
        id="to",
        column="to",
        title="distances to",
        quantity="distance",
        rule="figures",
        needs=("distance-far", "reach", "l"),
        formula=formulas.stop,
        line=written.stop,
        hints=(
            "If the arm is long enough, this is the farthest distance. If not, take half the bar off the length of "
            "the arm.",
        ),
        read=BOX_AND_ARM,
        looks_back=False,
    ),
)


@cache
def plan_for(rule: LengthRule) -> Plan:
    """The plan of a sheet that knows 2l by a rule."""
    return Plan((half_length_step(rule), *limit_steps("near"), *limit_steps("far"), *NEAR_END, *FAR_END))


@cache
def parts_for(rule: LengthRule) -> DistancesParts:
    """The parts of such a sheet."""
    return PARTS.replaced(limit_magnetic_length=rule.part)


def working(chosen: Choosing) -> Working:
    """The working of a scenario of choosing distances."""
    givens = {
        "B_H": chosen.B_H,
        "moment": chosen.moment,
        "length": chosen.bar.length,
        "two_l": chosen.two_l,
        "radius": chosen.radius,
        "arm": chosen.arm,
    }
    rule = rule_of(chosen.code.setting)
    return Working(plan_for(rule), givens, parts_for(rule))

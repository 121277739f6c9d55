"""The steps of looking for a fault: eight differences, three choices, the mended means, the size of the fault."""

from functools import lru_cache

from exercises.bench.instrument import PATTERNS
from exercises.kinds.deflection.lengths import LengthRule, rule_of
from exercises.kinds.fault import formulas, written
from exercises.kinds.fault.choices import CHOICES, REMOVED_CHOICES, where_choices
from exercises.kinds.fault.parts import parts_for
from exercises.kinds.fault.scenario import FaultScenario
from exercises.working.numbers import centimetres
from exercises.working.steps import Plan, Step, Working

PAGE_HERE = "exercises/fault/#"

TITLES = {
    "ends": "difference between ends ① and ②",
    "north": "difference between N east and N west",
    "arms": "difference between east and west arm",
    "outward": "difference between N outward and N inward",
}
ASKED = {
    "ends": "Take the mean of the four readings of end ① and of the four of end ②, and their difference, without sign.",
    "north": "Take the mean of the four readings with N east and of the four with N west, and their difference.",
    "arms": "Take the mean of the four readings on the east arm and of the four on the west arm, and their difference.",
    "outward": "N points outward on the east arm with N east and on the west arm with N west. Take the mean of those "
    "four and of the other four, and their difference.",
}


def difference_step(pattern: str, which: str, row: int) -> Step:
    """How far two means of four differ, at the distance of this row, which is the "near" or the "far" one."""
    return Step(
        id=f"{pattern}-{which}",
        column=pattern,
        title=TITLES[pattern],
        quantity="angle",
        rule="reading",
        needs=(),
        formula=formulas.difference(pattern, row),
        line=written.difference(pattern, row),
        hints=(ASKED[pattern], "Keep two decimals; it may come to nothing."),
        read=PAGE_HERE + "the-four-differences",
        exact=True,
    )


def fault_step() -> Step:
    """Which fault the readings show."""
    title = "which fault do the readings show?"
    return Step(
        id="fault",
        column="fault",
        title=title,
        quantity="choice",
        rule="count",
        needs=(),
        formula=formulas.fault,
        line=written.choice("fault", title, CHOICES),
        hints=(
            "Which of the four differences is far larger than the others? Is it so at both distances?",
            "If none is, look for one reading that is out of line with the other seven, and for one distance whose "
            "eight readings are all too large or all too small beside the others.",
            "A zero error does as much at the far distance as at the near one. The first turn of setting up left out "
            "does more the farther the needle is turned, the second turn left out less.",
        ),
        read=PAGE_HERE + "naming-it",
        looks_back=False,
        choices=CHOICES,
    )


def where_step(distances: tuple[float, ...]) -> Step:
    """At which distance (m) it shows, if at one only."""
    title, choices = "where does it show?", where_choices(distances)
    return Step(
        id="where",
        column="where",
        title=title,
        quantity="choice",
        rule="count",
        needs=(),
        formula=formulas.where,
        line=written.choice("where", title, choices),
        hints=("A fault of the instrument or of the magnet shows at every distance. A wrong note shows at one.",),
        read=PAGE_HERE + "naming-it",
        looks_back=False,
        choices=choices,
    )


def removed_step() -> Step:
    """Whether the mean of eight removes it."""
    title = "does the mean of eight remove it?"
    return Step(
        id="removed",
        column="removed",
        title=title,
        quantity="choice",
        rule="count",
        needs=("fault",),
        formula=formulas.removed,
        line=written.choice("removed", title, REMOVED_CHOICES),
        hints=("Does the fault make four of the eight larger and four smaller by about as much?",),
        read=PAGE_HERE + "what-can-be-mended",
        looks_back=False,
        choices=REMOVED_CHOICES,
    )


def best_mean_step(row: int, d: float) -> Step:
    """The best mean deflection of a row, at d (m)."""
    return Step(
        id=f"mean-{row + 1}",
        column="mean",
        title=f"best mean θ at {centimetres(d)} cm",
        quantity="angle",
        rule="angle",
        needs=("fault", "where"),
        formula=formulas.best_mean(row),
        line=written.best_mean(row),
        hints=("The mean of the eight readings; one that is certainly misread is left out.",),
        read=PAGE_HERE + "what-can-be-mended",
        looks_back=False,
        exact=True,
    )


HALF = Step(
    id="half",
    column="half",
    title="half the largest difference at the nearest distance",
    quantity="angle",
    rule="reading",
    needs=tuple(f"{pattern}-near" for pattern in PATTERNS),
    formula=formulas.half,
    line=written.half,
    hints=("Of the four differences at the nearest distance take the largest, and halve it.",),
    read=PAGE_HERE + "the-size-of-the-fault",
    looks_back=False,
)


def shift_step(rule: LengthRule) -> Step:
    """The shift that would turn the needle as far, with 2l by a rule."""
    return Step(
        id="shift",
        column="shift",
        title="shift of the magnet along the arm that would do that",
        quantity="distance",
        rule="figures",
        needs=("half", "mean-1"),
        formula=formulas.shift,
        line=written.shift,
        hints=(
            "Half the difference in radians, times d(d² − l²)/(3d² + l²), over sin θ cos θ of the nearest distance.",
            f"{rule.half_is} Lengths in metres.",
        ),
        read=PAGE_HERE + "a-shift-from-an-angle",
        looks_back=False,
    )


@lru_cache(maxsize=16)  # a plan for each set of distances, and there are hundreds of thousands
def plan_for(distances: tuple[float, ...], rule: LengthRule) -> Plan:
    """The plan of a sheet with these distances (m)."""
    differences = [
        difference_step(pattern, which, row)
        for which, row in (("near", 0), ("far", len(distances) - 1))
        for pattern in PATTERNS
    ]
    means = [best_mean_step(row, d) for row, d in enumerate(distances)]
    return Plan(
        (*differences, fault_step(), where_step(distances), removed_step(), *means, HALF, shift_step(rule)),
        compiled=False,
    )


def working(scenario: FaultScenario) -> Working:
    """The working of a sheet with a fault to be found."""
    found, fit = scenario.found, scenario.fits[0]
    readings = tuple(row.readings for row in scenario.rows)
    where, expected = "all", {}
    if fit.row is not None and found == fit.fault:  # the fault of one distance, or of one reading there
        where = str(fit.row + 1)
        if fit.reading is not None:
            expected[fit.row] = readings[fit.row][fit.reading] - fit.size
    givens = {
        "length": scenario.bar.length,
        "two_l": scenario.two_l,
        "d": tuple(row.d for row in scenario.rows),
        "readings": readings,
        "fault": found,
        "where": where,
        "expected": expected,  # what a misread reading should have been, by its row
        "step": scenario.scale_step,
    }
    rule = rule_of(scenario.code.setting)
    return Working(plan_for(tuple(row.d for row in scenario.rows), rule), givens, parts_for(rule))

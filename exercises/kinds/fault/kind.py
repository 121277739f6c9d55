"""Find the fault: readings at several distances with one fault planted, or none.

The nearest and the farthest distance are searched for a pattern by four
differences each; then the fault is named, and what can be mended is mended.
What is right is decided by fitting the instrument with each fault to the
readings (fault_fit.py), not by what was planted.
"""

import math
from functools import lru_cache
from html import escape

from exercises.bench.instrument import PATTERNS
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.deflection.page import DeflectionPage
from exercises.kinds.deflection.scenario import DeflectionScenario
from exercises.kinds.deflection.steps import MAGNETIC_SHARE
from exercises.kinds.fault.draw import CHOICES, REMOVED, draw_fault, stray, verdict
from exercises.kinds.fault.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.kind import Kind
from exercises.slips.catalogue import Slip, slips_for
from exercises.working.arithmetic import Span, as_span
from exercises.working.numbers import centimetres, figures, places, reading
from exercises.working.steps import Plan, Step, Working

PAGE_HERE = "exercises/fault/#"
PARTS = {
    "mean_of_four": lambda total: total / 4,
    "half_of_difference": lambda x: x / 2,
    "shift_radians": lambda x: math.radians(1) * x,
    "shift_slope": lambda a, d, l: a.keep(d * (d * d - l * l) / (3 * d * d + l * l)),
    "shift_sines": lambda a, theta: a.keep(
        a.apply(lambda x: math.sin(math.radians(x)), theta) * a.apply(lambda x: math.cos(math.radians(x)), theta)
    ),
    "mean_of_those": lambda total, count: total / count,
    "mended_readings": lambda readings, wrong: (
        (sum(readings), 8) if wrong is None else (sum(readings) - readings[wrong], 7)
    ),
}


def _halves(pattern: str, readings) -> tuple[float, float]:
    """The two sums of four that the pattern sets against each other."""
    one = sum(r for r, side in zip(readings, PATTERNS[pattern]) if side > 0)
    return one, sum(readings) - one


def _difference(pattern: str, row: int):
    def formula(a, known, givens, parts):
        one, two = (parts["mean_of_four"](total) for total in _halves(pattern, givens["readings"][row]))
        return a.within(abs(one - two), 0.005)

    def line(known, givens):
        one, two = _halves(pattern, givens["readings"][row])
        return (
            f"{NAMES[pattern]}: {reading(one)}/4 − {reading(two)}/4 = {reading(one / 4)} − {reading(two / 4)}; "
            f"they differ by {reading(abs(one - two) / 4)}°"
        )

    return formula, line


NAMES = {
    "ends": "① less ②",
    "north": "N east less N west",
    "arms": "east arm less west arm",
    "outward": "N outward less N inward",
}


def _mean(row: int):
    def formula(a, known, givens, parts):
        readings = givens["readings"][row]
        out = known["fault"] == "misread" and known["where"] == str(row + 1)
        wrong = stray(readings) if out else None
        total, count = parts["mended_readings"](readings, wrong)
        first = a.angle(parts["mean_of_those"](total, count))
        if wrong is None or count == 8:
            return first
        # the misread value left out, or put right to a division: both are good practice
        put_right = sum(readings) - readings[wrong] + givens["expected"].get(row, total / 7)
        one_out = givens["step"] / 8
        return a.either(lambda: first, lambda: a.angle(a.within(parts["mean_of_those"](put_right, 8), one_out)))

    def line(known, givens):
        readings = givens["readings"][row]
        out = known["fault"] == "misread" and known["where"] == str(row + 1)
        wrong = stray(readings) if out else None
        kept = [r for i, r in enumerate(readings) if i != wrong]
        without = f" (without the {reading(readings[wrong])}°)" if out else ""
        return (
            f"θ at {centimetres(givens['d'][row])} cm = ({' + '.join(map(reading, kept))}) / {len(kept)} = "
            f"{places(sum(kept) / len(kept), 2)}°{without}"
        )

    return formula, line


FOUR = tuple(PATTERNS)


def _largest(values):
    if any(isinstance(v, Span) for v in values):
        spans = [as_span(v) for v in values]
        return Span(max(s.lo for s in spans), max(s.hi for s in spans))
    return max(values)


def _half(a, known, givens, parts):
    return a.within(parts["half_of_difference"](_largest([known[f"{p}-near"] for p in FOUR])), 0.005)


def _half_line(known, givens):
    return f"half the largest: {reading(max(known[f'{p}-near'] for p in FOUR))}° / 2 = {places(known['half'], 2)}°"


def _l(a, givens):
    return a.keep(a.keep(MAGNETIC_SHARE * givens["length"]) / 2)


def _shift(a, known, givens, parts):
    slope = parts["shift_slope"](a, givens["d"][0], _l(a, givens))
    return a.keep(a.keep(parts["shift_radians"](known["half"])) * slope / parts["shift_sines"](a, known["mean-1"]))


def _shift_line(known, givens):
    d, l = givens["d"][0], MAGNETIC_SHARE * givens["length"] / 2
    theta = places(known["mean-1"], 1)
    return (
        f"shift = {places(known['half'], 2)} × π/180 × {figures(d)} × ({figures(d)}² − {figures(l)}²) / "
        f"((3 × {figures(d)}² + {figures(l)}²) × sin {theta}° × cos {theta}°) = {centimetres(known['shift'], 2)} cm"
    )


TITLES = {
    "ends": "ends ① and ② differ by",
    "north": "N east and N west differ by",
    "arms": "east and west arm differ by",
    "outward": "N outward and N inward differ by",
}
ASKED = {
    "ends": "Take the mean of the four readings of end ① and of the four of end ②, and their difference, without sign.",
    "north": "Take the mean of the four readings with N east and of the four with N west, and their difference.",
    "arms": "Take the mean of the four readings on the east arm and of the four on the west arm, and their difference.",
    "outward": "N points outward on the east arm with N east and on the west arm with N west. Take the mean of those "
    "four and of the other four, and their difference.",
}


def _choice(id: str, title: str, choices, formula, hints, needs=(), read="naming-it") -> Step:
    labels = {key: label for key, label, _ in choices}
    return Step(
        id=id,
        column=id,
        title=title,
        quantity="choice",
        rule="count",
        needs=needs,
        formula=formula,
        line=lambda known, givens: f"{title} – {labels[known[id]]}",
        hints=hints,
        read=PAGE_HERE + read,
        looks_back=False,
        choices=choices,
    )


@lru_cache(maxsize=16)  # a plan for each set of distances, and there are hundreds of thousands
def plan_for(distances: tuple[float, ...]) -> Plan:
    rows = len(distances)
    steps = []
    for name, row in (("near", 0), ("far", rows - 1)):
        for pattern in FOUR:
            formula, line = _difference(pattern, row)
            steps.append(
                Step(
                    f"{pattern}-{name}",
                    pattern,
                    TITLES[pattern],
                    "angle",
                    "reading",
                    (),
                    formula,
                    line,
                    (ASKED[pattern], "Keep two decimals; it may come to nothing."),
                    PAGE_HERE + "the-four-differences",
                )
            )
    steps.append(
        _choice(
            "fault",
            "which fault do the readings show?",
            CHOICES,
            lambda a, known, givens, parts: givens["fault"],
            (
                "Which of the four differences is far larger than the others? Is it so at both distances?",
                "If none is, look for one reading that is out of line with its seven fellows, and for one distance whose "
                "eight readings are all too large or all too small beside the others.",
                "A zero error is as large at the far distance as at the near one; arms off east–west do more the farther "
                "the needle is turned.",
            ),
        )
    )
    where = tuple(
        (
            str(i + 1),
            f"only at {centimetres(d)} cm",
            "The readings of this distance are not out of line with the others.",
        )
        for i, d in enumerate(distances)
    ) + (("all", "at no distance by itself", "One distance is out of line with the others. Look at them one by one."),)
    steps.append(
        _choice(
            "where",
            "where does it show?",
            where,
            lambda a, known, givens, parts: givens["where"],
            ("A fault of the instrument or of the magnet shows at every distance. A wrong note shows at one.",),
        )
    )
    steps.append(
        _choice(
            "removed",
            "does the mean of eight remove it?",
            REMOVED_CHOICES,
            lambda a, known, givens, parts: REMOVED[known["fault"]],
            ("Does the fault make four of the eight larger and four smaller by about as much?",),
            ("fault",),
            "what-can-be-mended",
        )
    )
    for row, d in enumerate(distances):
        formula, line = _mean(row)
        steps.append(
            Step(
                f"mean-{row + 1}",
                "mean",
                f"best mean θ at {centimetres(d)} cm",
                "angle",
                "angle",
                ("fault", "where"),
                formula,
                line,
                ("The mean of the eight readings; one that is certainly misread is left out.",),
                PAGE_HERE + "what-can-be-mended",
                looks_back=False,
            )
        )
    steps.append(
        Step(
            "half",
            "half",
            "half the largest difference at the nearest distance",
            "angle",
            "reading",
            tuple(f"{p}-near" for p in FOUR),
            _half,
            _half_line,
            ("Of the four differences at the nearest distance take the largest, and halve it.",),
            PAGE_HERE + "the-size-of-the-fault",
            looks_back=False,
        )
    )
    steps.append(
        Step(
            "shift",
            "shift",
            "shift of the magnet along the arm that would do that",
            "distance",
            "figures",
            ("half", "mean-1"),
            _shift,
            _shift_line,
            (
                "Half the difference in radians, times d(d² − l²)/(3d² + l²), over sin θ cos θ of the nearest distance.",
                "l is half the magnetic length, and that is 5/6 of the measured length. Lengths in metres.",
            ),
            PAGE_HERE + "a-shift-from-an-angle",
            looks_back=False,
        )
    )
    return Plan(tuple(steps))


REMOVED_CHOICES = (
    ("yes", "yes, all but a trace", "This fault does not make as many readings larger as it makes smaller."),
    ("no", "no", "This fault makes four of the eight larger and the other four smaller by about as much."),
    ("nothing", "there is nothing to remove", "You found a fault above; say what the mean of eight does with it."),
)


def working(scenario: DeflectionScenario) -> Working:
    """The working of a sheet with a fault to be found."""
    found, fit = verdict(scenario)
    single = found in ("misread", "distance")
    readings = tuple(r.readings for r in scenario.rows)
    expected = {}
    if found == "misread":
        expected[fit.row] = readings[fit.row][fit.reading] - fit.size
    givens = {
        "length": scenario.bar.length,
        "d": tuple(r.d for r in scenario.rows),
        "readings": readings,
        "fault": found,
        "where": str(fit.row + 1) if single else "all",
        "expected": expected,
        "step": scenario.scale_step,
    }
    return Working(plan_for(givens["d"]), givens, PARTS)


SLIPS = slips_for("fault", PARTS, OF_THIS_KIND)


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> DeflectionScenario:
    """The numbers of a code of edition 1."""
    return draw_fault(code, working, slips)


class FaultPage(DeflectionPage):
    """The readings, and a fault to be found in them."""

    def givens(self, scenario: DeflectionScenario) -> list[tuple[str, str]]:
        return super().givens(scenario)[:3]

    def observations(self, scenario: DeflectionScenario) -> str:
        """The table, and the faults there are, which must be seen on paper too."""
        faults = "; ".join(label for key, label, _ in CHOICES if key not in ("none", "undecided"))
        return super().observations(scenario) + (
            f'<p class="er-faults">At most one of these: {escape(faults)}. Or there is no fault beyond chance, or '
            "the readings do not decide.</p>"
        )

    def groups(self, scenario: DeflectionScenario, working: Working) -> list[tuple[str, list[Step]]]:
        near, far = (centimetres(r.d) for r in (scenario.rows[0], scenario.rows[-1]))
        steps = list(working.steps)
        return [
            (f"Look for a pattern at the nearest distance, {near} cm (two decimals)", steps[:4]),
            (f"Look for a pattern at the farthest distance, {far} cm (two decimals)", steps[4:8]),
            ("Name the fault", steps[8:11]),
            ("Mend what can be mended", steps[11:-2]),
            ("How large is it?", steps[-2:]),
        ]


PAGE = FaultPage(
    task="Something may be wrong with this set of readings: at most one fault. Find it, say whether the mean of eight "
    "removes it, and go on with what can be mended. Arms east–west, magnet along the arm.",
    formula="",
    position="N pole points",
)

KIND = Kind("F", "fault", "Find the fault", {1: draw_first_edition}, working, PAGE, SLIPS)

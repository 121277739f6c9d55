"""The graph method: the moment from the slope of a straight line, drawn by hand.

First tan θ against 2d/(d² − l²)², a line through the origin.  Then d² against
√(d cot θ), whose intercept is l², so that the magnetic length comes out of the
readings too.  What is read from the graph is judged by the rule in graph_lines.py.
"""

from functools import cache

from exercises.codes.sheet_code import SheetCode
from exercises.kinds.deflection import old_steps as deflection
from exercises.kinds.deflection.old_steps import LENGTHS, TANGENT, row_step
from exercises.kinds.graph import written
from exercises.kinds.graph.draw import Plotted, draw_plotted
from exercises.kinds.graph.lines import columns, free_line, middle, slope_through_origin
from exercises.kinds.graph.page import GraphPage
from exercises.kinds.graph.slips import SLIPS as OF_THIS_KIND
from exercises.kinds.kind import Kind
from exercises.slips.catalogue import Slip, slips_for
from exercises.slips.deflection import SLIPS as OF_DEFLECTION
from exercises.working.arithmetic import Span, as_span
from exercises.working.safely import over, root
from exercises.working.steps import Plan, Step, Working, hidden_step

THEORY = "exercises/graph/"
SHARED = (
    "metres",
    "magnetic_length",
    "half_length",
    "distance",
    "tangent",
    "outer_square",
    "twice_d",
    "field_constant",
)
TWO_FIGURES = 0.025  # of 2l: an intercept of two figures is known no better than to a twentieth
LEAST = 1e-5  # m², an intercept of a magnet of six millimetres; whatever the graph allows, l² is not nothing
#: How far a slip in what is read from the graph may miss, as shares (Step.loose).
LOOSE_SLOPE, LOOSE_INTERCEPT = 0.03, 0.3

PARTS = {
    **{name: deflection.PARTS[name] for name in SHARED},
    "bracket_sign": lambda: -1,
    "over_bracket": lambda a, twice_d, bracket: a.keep(twice_d / bracket),
    "times_cot": lambda a, d, tangent: a.either(
        lambda: a.keep(d * a.apply(over, tangent)), lambda: a.keep(d * a.keep(a.apply(over, tangent)))
    ),
    "column_root": lambda a, x: a.apply(root, x),
    "slope_way": lambda slope: slope,
    "first_line": lambda m: m,
    "second_two": lambda: 2,
    "second_square": lambda a, slope: a.keep(slope * slope),
    "with_earth": lambda B_H: B_H,
    "intercept_at": lambda intercept, ys: intercept,
    "length_from": lambda a, intercept: 2 * a.keep(a.apply(root, intercept)),
}


def _tangent(row):
    # of an angle that is given, so that only its own rounding counts, which may be done twice
    return lambda a, known, givens, parts: a.tangent(a.tangent(parts["tangent"](a, known[f"mean-{row + 1}"])))


def _x(row):
    at = f"d-{row + 1}"

    def formula(a, known, givens, parts):
        d, l = known[at], known["l"]
        sign = parts["bracket_sign"]()
        difference = a.either(
            lambda: a.keep(a.keep(d * d) + sign * a.keep(l * l)),
            lambda: a.keep(a.keep(d - l) * a.keep(d + l)) if sign < 0 else a.keep(d * d + l * l),
        )
        return parts["over_bracket"](a, parts["twice_d"](a, d), a.keep(parts["outer_square"](a, difference)))

    return formula


def _root(row):
    at, tangent = f"d-{row + 1}", f"tan-{row + 1}"
    return lambda a, known, givens, parts: a.keep(
        parts["column_root"](a, parts["times_cot"](a, known[at], known[tangent]))
    )


def _square(row):
    return lambda a, known, givens, parts: known[f"d-{row + 1}"] ** 2


def _read_slope(a, best, share: float, parts):
    return a.within(parts["slope_way"](best), share * abs(middle(parts["slope_way"](middle(best)))))


def _slope_a(a, known, givens, parts):
    return _read_slope(a, slope_through_origin(*columns(known, givens, "x", "tan")), givens["allowed"].slope_a, parts)


def _slope_b(a, known, givens, parts):
    return _read_slope(a, free_line(*columns(known, givens, "root", "square"))[0], givens["allowed"].slope_b, parts)


def _intercept(a, known, givens, parts):
    xs, ys = columns(known, givens, "root", "square")
    best, intercept = free_line(xs, ys)
    value = parts["intercept_at"](intercept, ys)
    if isinstance(known["slope-b"], Span):
        # a slope a little too steep goes with an intercept that is too low: both belong to one line through the points
        play = givens["allowed"].slope_b * abs(middle(best))
        steep = min(max(middle(known["slope-b"]), middle(best) - play), middle(best) + play) - middle(best)
        shift = steep * a.total(map(middle, xs)) / len(xs)
        value = as_span(value) - Span(min(0.0, shift), max(0.0, shift))
    read = a.within(value, givens["allowed"].intercept)
    return Span(max(read.lo, LEAST), read.hi) if isinstance(read, Span) and read.hi > LEAST else read


def _moment_a(a, known, givens, parts):
    over_k = a.keep(known["slope-a"] * parts["with_earth"](givens["B_H"])) * (1 / parts["field_constant"]())
    return a.keep(parts["first_line"](over_k))


def _moment_b(a, known, givens, parts):
    square = a.keep(parts["second_square"](a, known["slope-b"]))
    return a.keep(square * parts["with_earth"](givens["B_H"])) * (
        1 / (parts["second_two"]() * parts["field_constant"]())
    )


def _two_l(a, known, givens, parts):
    two_l = parts["length_from"](a, known["intercept"])
    return a.within(two_l, TWO_FIGURES * abs(middle(two_l)))


X = dict(
    column="x",
    title="x = 2d/(d² − l²)²",
    quantity="per_volume",
    rule="figures",
    make=_x,
    line=written.x_line,
    needs=("d", "l"),
    hints=(
        "Turn d and l into metres first; l is half of 5/6 of the measured length.",
        "Work out (d² − l²)², and divide 2d by it. Expect some hundreds, and more for a short bar.",
    ),
    read=f"{THEORY}#tangent-against-distance",
)
ROOT = dict(
    column="root",
    title="√(d cot θ)",
    quantity="root_length",
    rule="figures",
    make=_root,
    line=written.root_line,
    needs=("d", "tan"),
    looks_back=False,
    hints=("cot θ is 1/tan θ.", "Divide d in metres by tan θ, and take the root."),
    read=f"{THEORY}#a-line-that-tells-the-length-too",
)


def _step(id, title, quantity, rule, needs, formula, line, hints, read, loose=0.0) -> Step:
    return Step(id, id, title, quantity, rule, needs, formula, line, hints, read, looks_back=False, loose=loose)


def _results(rows: int) -> tuple[Step, ...]:
    def ids(*names):
        return tuple(f"{name}-{i + 1}" for name in names for i in range(rows))

    return (
        _step(
            "slope-a",
            "its slope",
            "volume",
            "figures",
            ids("x", "tan"),
            _slope_a,
            written.slope_a_line,
            (
                "Draw x to the right and tan θ upwards, both from zero. Lay the ruler through the origin and as near "
                "all points as it goes.",
                "Slope = rise over run, between the origin and a point of the line far out.",
            ),
            f"{THEORY}#the-slope-of-a-line",
            LOOSE_SLOPE,
        ),
        _step(
            "moment-a",
            "moment m from it",
            "moment",
            "figures",
            ("slope-a",),
            _moment_a,
            written.moment_a_line,
            ("The slope is (µ₀/4π)·m/B_H.", "Multiply the slope by 10⁷ and by B_H in tesla."),
            f"{THEORY}#tangent-against-distance",
        ),
        _step(
            "slope-b",
            "its slope",
            "slope",
            "figures",
            ids("root", "square"),
            _slope_b,
            written.slope_b_line,
            (
                "Draw √(d cot θ) to the right and d² upwards, both from zero. This line does not pass through the origin.",
                "Slope = rise over run, between two points of the line far apart, not of the table.",
            ),
            f"{THEORY}#the-slope-of-a-line",
            LOOSE_SLOPE,
        ),
        _step(
            "moment-b",
            "moment m from it",
            "moment",
            "figures",
            ("slope-b",),
            _moment_b,
            written.moment_b_line,
            ("The square of this slope is (µ₀/4π)·2m/B_H.", "Square the slope, multiply by 10⁷ and by B_H, and halve."),
            f"{THEORY}#a-line-that-tells-the-length-too",
        ),
        _step(
            "intercept",
            "its intercept l²",
            "area",
            "reading",
            (*ids("root", "square"), "slope-b"),
            _intercept,
            written.intercept_line,
            (
                "Carry the second line on to the left until it meets the upright axis at √(d cot θ) = 0.",
                "Expect a small number, a few thousandths of a square metre or less; two figures are all it is good for.",
            ),
            f"{THEORY}#the-intercept",
            LOOSE_INTERCEPT,
        ),
        _step(
            "found-2l",
            "magnetic length 2l",
            "distance",
            "reading",
            ("intercept",),
            _two_l,
            written.two_l_line,
            ("The intercept is l².", "Take its root for l, and double it. Expect a little less than the bar is long."),
            f"{THEORY}#the-intercept",
        ),
    )


def _hidden(row: int) -> tuple[Step, ...]:
    i = row + 1
    return (
        hidden_step(f"d-{i}", (), deflection._distance(row)),
        hidden_step(f"mean-{i}", (), lambda a, known, givens, parts: givens["theta"][row]),
        hidden_step(f"square-{i}", (f"d-{i}",), _square(row)),
    )


@cache
def plan_for(rows: int) -> Plan:
    """The plan of a sheet of so many distances; of one alone, as the draw tries them, no results."""
    hidden = [step for row in range(rows) for step in _hidden(row)]
    tangent = {**TANGENT, "title": "y = tan θ", "make": _tangent, "line": written.tangent_line}
    steps = [row_step(spec, row) for row in range(rows) for spec in (tangent, X, ROOT)]
    return Plan((*LENGTHS, *hidden, *steps, *(_results(rows) if rows > 2 else ())))


def working(plotted: Plotted) -> Working:
    """The working of as many distances as there are so far."""
    givens = {
        "B_H": plotted.B_H,
        "length": plotted.bar.length,
        "d": plotted.ds,
        "theta": plotted.thetas,
        "allowed": plotted.allowed,
    }
    return Working(plan_for(len(plotted.rows)), givens, PARTS)


SLIPS = slips_for("graph", PARTS, (*OF_DEFLECTION, *OF_THIS_KIND))


def draw_first_edition(code: SheetCode, slips: tuple[Slip, ...]) -> Plotted:
    """The numbers of a code of edition 1."""
    return draw_plotted(code, working, slips)


PAGE = GraphPage()
KIND = Kind("K", "graph", "The graph method: the moment from a slope", {1: draw_first_edition}, working, PAGE, SLIPS)

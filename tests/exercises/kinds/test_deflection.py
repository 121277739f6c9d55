"""What the kinds of deflection share: (d² − l²)² by both ways, the parts of each kind, the draw's attempts."""

import pytest

from exercises.codes.scenario import ATTEMPTS, Draw, LocalField, Scenario, first_good
from exercises.codes.sheet_code import Setting, SheetCode
from exercises.kinds.compare.parts import ComparisonParts
from exercises.kinds.deflection.parts import BracketParts, end_on_bracket
from exercises.kinds.tan_a.steps import TanAParts
from exercises.kinds.tan_b.steps import TanBParts
from exercises.working.arithmetic import Exact, Interval

SHARED = {"magnetic_length", "half_length", "distance", "mean_of_eight", "tangent"}
DEFLECTION = SHARED | {"metres", "field_constant", "sum_of_moments", "poles", "pole_length"}


#: Whether d² − l² is worked by squares or by sum and difference: what it can be, and one number that it gives.
WAYS = {
    "squares": (
        lambda d, l: Interval.keep(Interval.keep(d * d) - Interval.keep(l * l)),
        lambda d, l: three(three(d * d) - three(l * l)),
    ),
    "sum-and-difference": (
        lambda d, l: Interval.keep((d - l) * (d + l)),  # d − l and d + l come out exactly
        lambda d, l: three((d - l) * (d + l)),
    ),
}
LENGTHS = [(d / 1000, l / 10000) for d in range(130, 350) for l in range(310, 690, 15)]  # d and l, m


def three(x: float) -> float:
    """A number written down with three figures."""
    return float(f"{x:.2e}")


def test_the_bracket_is_the_textbook_s():
    assert end_on_bracket(Exact, 0.2, 0.05, BracketParts()) == pytest.approx((0.04 - 0.0025) ** 2, rel=1e-12)


@pytest.mark.parametrize("way", WAYS)
def test_both_ways_to_the_bracket_are_right(way):
    span_of, number_of = WAYS[way]
    unsquared = BracketParts(outer_square=lambda a, difference: difference)
    for d, l in LENGTHS:
        number, span, reached = number_of(d, l), span_of(d, l), end_on_bracket(Interval, d, l, unsquared)
        assert number in reached and span.lo in reached and span.hi in reached
        assert three(number**2) in end_on_bracket(Interval, d, l, BracketParts())


def test_the_squares_reach_what_sum_and_difference_do_not():
    """So the test above can fail."""
    span_of, number_of = WAYS["sum-and-difference"][0], WAYS["squares"][1]
    assert any(number_of(d, l) not in span_of(d, l) for d, l in LENGTHS)


def test_with_the_wrong_sign_the_bracket_has_one_form():
    parts = BracketParts(bracket_sign=lambda: 1)
    assert end_on_bracket(Exact, 0.2, 0.05, parts) == pytest.approx((0.04 + 0.0025) ** 2, rel=1e-12)
    span = end_on_bracket(Interval, 0.2, 0.05, parts)
    assert span.lo > (0.04 - 0.0025) ** 2


@pytest.mark.parametrize(
    ("parts", "names"),
    [
        (TanAParts(), DEFLECTION | {"bracket_sign", "outer_square", "twice_d", "moment"}),
        (TanBParts(), DEFLECTION | {"broadside_sign", "three_halves", "front_number", "moment"}),
        (
            ComparisonParts(),
            SHARED
            | {"bracket_sign", "outer_square", "distances_compared", "which_over_which"}
            | {"mean_of_settings", "mean_of_ratios"},
        ),
    ],
    ids=["tan-a", "tan-b", "compare"],
)
def test_a_kind_has_the_parts_that_its_slips_are_known_by(parts, names):
    """A slip belongs to every kind that has its part, so a part too many would bring slips that make no sense."""
    assert parts.names() == names


def test_the_first_good_attempt_is_taken_from_one_stream():
    code = SheetCode("A", 1, 7, Setting())
    draw = Draw(code)
    drawn = [draw.between(0, 1) for _ in range(50)]
    good = first_good(Draw(code), (), lambda draw, slips: x if (x := draw.between(0, 1)) > 0.9 else None)
    assert good == next(x for x in drawn if x > 0.9)


def test_where_settings_leave_nothing_that_can_be_told_apart_the_sheet_is_given_all_the_same():
    """And says of itself that it is not diagnosable; without settings that never happens."""

    def attempt(draw, slips):
        return None if slips else Scenario(draw.code, LocalField(38e-6))

    with_settings = Draw(SheetCode("A", 1, 7, Setting(grid_mm=10)))
    assert first_good(with_settings, ("a slip",), attempt) == Scenario(
        with_settings.code, LocalField(38e-6), diagnosable=False
    )
    with pytest.raises(ArithmeticError):
        first_good(Draw(SheetCode("A", 1, 7)), ("a slip",), attempt)


def test_a_code_without_a_good_attempt_is_told():
    code = SheetCode("A", 1, 7, Setting())
    tried = []
    with pytest.raises(ArithmeticError, match=f"no consistent numbers were found for code {code}"):
        first_good(Draw(code), (), lambda draw, slips: tried.append(slips))
    assert len(tried) == ATTEMPTS

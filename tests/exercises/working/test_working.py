"""The three arithmetics agree: exact lies in the interval, and so does every path of correct rounding."""

import math
import random
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exercises.bench.field import moment_end_on
from exercises.kinds.kind import open_code
from exercises.working.arithmetic import (
    Exact,
    Hundredths,
    Interval,
    Span,
    Tenths,
    half_place,
    last_place,
    own_start,
    reciprocal_or_zero,
    signed_root,
    total,
)
from tests.exercises.golden import codes_of
from tests.exercises.settings import half_length
from tests.rounding import Rounding

CODES = codes_of("A")


@pytest.mark.parametrize("code", CODES[::10])
def test_exact_is_the_textbook_formula(code):
    sheet = open_code(code)
    scenario, working = sheet.scenario, sheet.working
    values = working.all_values()
    l = half_length(scenario.code.setting, scenario.bar)
    moments = []
    for i, row in enumerate(scenario.rows, 1):
        theta = sum(row.readings) / 8
        B = scenario.B_H * math.tan(math.radians(theta))
        moments.append(moment_end_on(B, row.d, l))
        assert values[f"mean-{i}"] == pytest.approx(theta, rel=1e-12)
        assert values[f"tan-{i}"] == pytest.approx(math.tan(math.radians(theta)), rel=1e-12)
        assert values[f"bracket-{i}"] == pytest.approx((row.d**2 - l**2) ** 2, rel=1e-12)
        assert values[f"moment-{i}"] == pytest.approx(moments[-1], rel=1e-12)
    mean = sum(moments) / len(moments)
    assert values["mean-moment"] == pytest.approx(mean, rel=1e-12)
    assert values["pole"] == pytest.approx(mean / (2 * l), rel=1e-12)


@pytest.mark.parametrize("code", CODES[::20])
def test_every_rounding_path_lies_in_the_interval(code):
    working = open_code(code).working
    spans, exact = working.all_values(Interval), working.all_values()
    for seed in range(200):
        path = working.all_values(Rounding(random.Random(seed).randrange))
        for step in working.steps:
            assert path[step.id] in spans[step.id], (step.id, seed)
            assert exact[step.id] in spans[step.id]


@pytest.mark.parametrize("code", CODES[::20])
def test_the_interval_comes_from_the_formula_and_is_not_wide(code):
    working = open_code(code).working
    widths = {}
    for step in working.steps:
        span = working.value(step.id, Interval)
        widths[step.column] = max(widths.get(step.column, 0), (span.hi - span.lo) / (span.hi + span.lo))
    assert widths["tan"] < 0.005 and widths["bracket"] < 0.03 and widths["moment"] < 0.05 and widths["pole"] < 0.06
    assert widths["tan"] < widths["bracket"] < widths["moment"]


spans = st.tuples(st.floats(0.01, 100), st.floats(0, 10)).map(lambda t: Span(t[0], t[0] + t[1]))
inside = st.floats(0, 1)


@given(spans, spans, inside, inside)
def test_spans_hold_every_result(a, b, i, j):
    x, y = a.lo + i * (a.hi - a.lo), b.lo + j * (b.hi - b.lo)
    assert x + y in a + b
    assert x - y in a - b
    assert x * y in a * b
    assert x / y in a / b
    assert (x - y) ** 2 in (a - b) ** 2
    assert x**1.5 in a**1.5
    assert x * y in Interval.product(a, b)
    assert 1 / x in 1 / a and 3 - x in 3 - a and 2 * x in 2 * a


@given(st.lists(st.floats(1e-6, 1e6), min_size=2, max_size=4), st.randoms())
def test_a_product_in_any_order_lies_in_the_interval(factors, chance):
    span = Interval.product(*factors)
    assert Exact.product(*factors) in span
    assert Rounding(lambda n: chance.randrange(n)).product(*factors) in span


@given(st.floats(1e-12, 1e12))
def test_last_place_is_that_of_the_third_figure(x):
    printed = f"{x:.2e}"
    assert abs(float(printed) - x) <= last_place(x) / 2 * (1 + 1e-9)


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_half_a_place_is_half_of_the_last_place(x):
    assert half_place(x) == half_place(-x) == last_place(x) / 2


def test_last_place_of_nothing_and_of_no_number():
    for none in (0.0, math.inf, math.nan):
        assert last_place(none) == half_place(none) == 0.0


@given(st.lists(st.floats(-1e9, 1e9), min_size=1, max_size=12))
def test_a_total_is_the_float_nearest_to_the_true_sum(values):
    """By exact fractions: neither the order of the numbers nor the Python that adds them matters."""
    found = float(sum(map(Fraction, values)))
    assert total(values) == Exact.total(values) == total(values[::-1]) == found
    assert found in Interval.total([Span(v) for v in values])


def test_one_more_rounding_takes_a_tenth_of_a_place():
    def room(once: Span, twice: Span):
        return pytest.approx((once.lo - twice.lo, twice.hi - once.hi))

    assert room(Interval.keep(33.948), Interval.keep(33.948, twice=True)) == (0.01, 0.01)
    assert 34.0 in Interval.keep(33.948, twice=True) and 34.0 not in Interval.keep(33.948)
    assert room(Interval.angle(40.0), Interval.angle(40.0, twice=True)) == (0.01, 0.01)
    assert room(Interval.tangent(1.0), Interval.tangent(1.0, twice=True)) == (1e-5, 1e-5)
    for a in (Exact, Tenths, Hundredths):
        assert a.keep(0.12345, twice=True) == a.tangent(0.12345, twice=True) == 0.12345
        assert a.angle(40.06, twice=True) == a.angle(40.06)


def test_no_entry_breaks_a_root_or_a_reciprocal():
    assert [signed_root(x) for x in (9.0, 0.0, -9.0)] == [3.0, 0.0, -3.0]
    assert [reciprocal_or_zero(x) for x in (4.0, 0.0, -4.0)] == [0.25, 0.0, -0.25]


def test_own_start_is_no_wider_than_correct_working_keeps():
    assert own_start(38.0, "angle", 1.0).hi == pytest.approx(38.06)
    assert own_start(1.6, "figures", 0.1).hi == pytest.approx(1.606)
    assert own_start(1.62345, "figures", 1e-5).hi == pytest.approx(1.623456)


def test_division_by_a_span_with_zero_in_it_says_nothing_is_known():
    span = Span(1, 2) / Span(-1, 1)
    assert span.lo == -math.inf and span.hi == math.inf


@pytest.mark.parametrize(
    ("a", "b", "lo", "hi"),
    [
        ((-3, 2), (5, 7), -21, 14),
        ((-3, 2), (-7, 5), -15, 21),
        ((-3, -2), (-7, -5), 10, 21),
        ((2, 3), (-7, 5), -21, 15),
        ((-3, 2), (-5, -4), -10, 15),
        ((0, 2), (0, 5), 0, 10),
        ((0.1, 0.5), (0.2, 0.4), 0.02, 0.2),
        ((-3, 7), (-5, 2), -35, 15),
    ],
)
def test_products_of_spans_on_both_sides_of_nothing(a, b, lo, hi):
    for found in (Span(*a) * Span(*b), Span(*b) * Span(*a)):
        assert (found.lo, found.hi) == pytest.approx((lo, hi))


def test_quotients_and_powers_of_spans():
    assert (lambda s: (s.lo, s.hi))(Span(-4, 8) / Span(2, 4)) == (-2, 4)
    assert (lambda s: (s.lo, s.hi))(Span(1, 2) / Span(-4, -2)) == (-1, -0.25)
    for edge in (Span(0, 1), Span(-1, 0)):  # nothing divides by nothing, at the very edge of a span either
        assert (Span(1, 2) / edge).hi == math.inf
    assert (lambda s: (s.lo, s.hi))(Span(-3, 2) ** 2) == (0, 9) and (lambda s: (s.lo, s.hi))(Span(-2, 3) ** 2) == (0, 9)
    assert (lambda s: (s.lo, s.hi))(Span(-3, -2) ** 2) == (4, 9) and (lambda s: (s.lo, s.hi))(Span(2, 3) ** 3) == (
        8,
        27,
    )
    assert (lambda s: (s.lo, s.hi))(Span(-1, 0) ** 2) == (0, 1)
    assert math.isnan((Span(-1, 2) ** 3).lo) and math.isnan((Span(-1e-3, 2) ** 0.5).hi) and (Span(0, 4) ** 0.5).hi == 2
    assert repr(Span(1.5)) == "Span(1.5, 1.5)"


def test_a_value_on_the_edge_belongs():
    span = Span(1.0, 2.0)
    assert 2 + 1e-9 in span and 1 - 1e-9 in span and 2 + 3e-9 not in span and 1 - 3e-9 not in span
    assert -2 - 1e-9 in Span(-2, -1) and -2 - 3e-9 not in Span(-2, -1)


def test_how_far_each_rounding_opens_a_span():
    """Half of the third figure's place, 0.05°, and half of the fourth decimal."""

    def ends(span):
        return pytest.approx((span.lo, span.hi), rel=1e-12)

    assert ends(Interval.keep(Span(1.62, 2.33))) == (1.615, 2.335) and ends(
        Interval.keep(Span(95.0 - 0.45, 105.0))
    ) == (94.5, 105.5)
    assert ends(Interval.angle(40.0)) == (39.95, 40.05) and ends(Interval.tangent(1.0)) == (0.99995, 1.00005)
    assert ends(Interval.within(Span(1.0, 1.2), 0.1)) == (0.9, 1.3) and ends(
        Interval.apply(lambda x: -x, Span(0.5, 1))
    ) == (-1, -0.5)
    assert (
        ends(Interval.either(lambda: Span(2, 5), lambda: Span(1, 4), lambda: 3)) == (1, 5)
        and Exact.either(lambda: 1, lambda: 2) == 1
    )
    # 2 × 3 = 6.00 and 6 × 4 = 24.0: half of a place is put on at each of the two
    found = Interval.product(2.0, 3.0, 4.0)
    assert found.lo == pytest.approx(min(5.995 * 4, 7.995 * 3, 11.95 * 2) - 0.05)
    assert found.hi == pytest.approx(max(6.005 * 4, 8.005 * 3, 12.05 * 2) + 0.05)
    assert Interval.product(Span(0.0, 1.0), 2.0).hi == math.inf and Interval.product(Span(1, 2)).hi == 2


def test_the_other_common_paths_of_an_angle():
    assert [Tenths.angle(x) for x in (44.04, 44.05001, 44.14)] == pytest.approx([44.0, 44.1, 44.1])
    assert [Hundredths.angle(x) for x in (44.004, 44.005001, 44.014)] == pytest.approx([44.0, 44.01, 44.01])


def test_an_own_start_is_as_wide_as_what_was_typed_allows():
    for rule in ("reading", "count"):
        assert own_start(38.0, rule, 1.0).lo == own_start(38.0, rule, 1.0).hi == 38.0
    for rule, typed, coarsest in (("angle", 1.0, 0.1), ("tangent", 0.01, 1e-4), ("figures", 1.0, 0.1)):
        assert own_start(38.0, rule, typed).hi == pytest.approx(38 + 0.6 * coarsest)
        assert own_start(38.0, rule, typed).lo == pytest.approx(38 - 0.6 * coarsest)
        assert own_start(38.0, rule, coarsest / 10).hi == pytest.approx(38 + 0.06 * coarsest)

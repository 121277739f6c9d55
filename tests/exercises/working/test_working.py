"""The three arithmetics agree: exact lies in the interval, and so does every path of correct rounding."""

import math
import random
from decimal import ROUND_HALF_DOWN, ROUND_HALF_UP
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exercises.bench.field import moment_end_on
from exercises.kinds.kind import all_kinds, open_code
from exercises.working.arithmetic import (
    Exact,
    Hundredths,
    Interval,
    Span,
    Tenths,
    as_span,
    own_start,
    reciprocal_or_zero,
    signed_root,
    total,
)
from exercises.working.cutting import CUTS, Cut, may_lead_to
from exercises.working.rounded import cut_off, highest, last_place, lowest
from tests.exercises.golden import codes_of
from tests.exercises.settings import half_length
from tests.rounding import Rounding, to_figures, to_places

CODES = codes_of("A")
EDGES = st.sampled_from((0.0, 1e-3, -1e-3, 1e-6, -1e-6))


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


@pytest.mark.parametrize("slug", all_kinds())
def test_every_rounding_path_lies_in_the_interval(slug):
    for code in codes_of(all_kinds()[slug].letter)[:10]:
        working = open_code(code).working
        spans, exact = working.all_values(Interval), working.all_values()
        for seed in range(50):
            path = working.all_values(Rounding(random.Random(f"{code} {seed}").randrange))
            for step in (s for s in working.steps if not s.choices):
                assert path[step.id] in as_span(spans[step.id]), (step.id, seed)
                assert exact[step.id] in as_span(spans[step.id])


@pytest.mark.parametrize("code", CODES[::20])
def test_the_interval_comes_from_the_formula_and_is_not_wide(code):
    working = open_code(code).working
    widths = {}
    for step in working.steps:
        span = working.value(step.id, Interval)
        widths[step.column] = max(widths.get(step.column, 0), (span.hi - span.lo) / (span.hi + span.lo))
    assert widths["tan"] < 0.005 and widths["bracket"] < 0.03 and widths["moment"] < 0.05 and widths["pole"] < 0.06
    assert max(widths["tan"], widths["bracket"]) < widths["moment"]


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


def test_last_place_of_nothing_and_of_no_number():
    for none in (0.0, math.inf, math.nan):
        assert last_place(none) == 0.0


@given(st.lists(st.floats(-1e9, 1e9), min_size=1, max_size=12))
def test_a_total_is_the_float_nearest_to_the_true_sum(values):
    """By exact fractions: neither the order of the numbers nor the Python that adds them matters."""
    found = float(sum(map(Fraction, values)))
    assert total(values) == Exact.total(values) == total(values[::-1]) == found
    assert found in Interval.total([Span(v) for v in values])


def ways_of(x: float, fewest: int, write) -> list[float]:
    """All that x can become: as it is, or with so many figures or decimals, a half up or down."""
    return [x] + [write(x, n, half) for n in range(fewest, fewest + 8) for half in (ROUND_HALF_UP, ROUND_HALF_DOWN)]


numbers = st.one_of(
    st.floats(1e-9, 1e9),
    # on and beside the halves of a unit and the powers of ten, where a rounding turns over
    st.builds(lambda n, power, off: (n / 2 + off) * 10.0**power, st.integers(1, 20001), st.integers(-9, 6), EDGES),
)


@given(numbers, numbers)
def test_a_span_is_what_rounding_reaches_and_no_more(x, y):
    """By decimal arithmetic, which the spans do not use."""
    lo, hi = sorted((x, y))
    for kept, fewest, write in (
        (Interval.keep, 3, to_figures),
        (Interval.angle, 1, to_places),
        (Interval.tangent, 4, to_places),
    ):
        span = kept(Span(lo, hi))
        # what lies so near to a half that no student can tell may be taken for one
        near = 0.0 if write is to_figures else 2e-6 * 10.0**-fewest
        least, most = (min(ways_of(x, fewest, write)) for x in (lo * (1 - 2e-8) - near, lo))
        assert least * (1 - 1e-9) <= span.lo <= most * (1 + 1e-9)
        least, most = (max(ways_of(x, fewest, write)) for x in (hi, hi * (1 + 2e-8) + near))
        assert least * (1 - 1e-9) <= span.hi <= most * (1 + 1e-9)


def test_what_is_no_number_stays_so():
    for x in (math.inf, -math.inf):
        assert highest(x) == lowest(x) == x
    assert math.isnan(highest(math.nan)) and math.isnan(lowest(math.nan)) and highest(0.0) == lowest(0.0) == 0.0


def test_cutting_off_leaves_out_what_follows():
    assert [cut_off(x, 3) for x in (1.629, 1.62, 0.00299999, -33.99, 0.0)] == [1.62, 1.62, 0.00299, -33.9, 0.0]
    assert math.isinf(cut_off(math.inf, 3))
    # 2.22 × 3.33 = 7.3926 and 3.33 × 4.44 = 14.7852
    assert Cut(3).product(2.22, 3.33, 4.44) == pytest.approx(32.8)  # 7.39 × 4.44 = 32.8116
    assert Cut(3, backward=True).product(2.22, 3.33, 4.44) == pytest.approx(32.6)  # 14.7 × 2.22 = 32.634
    assert Cut(4).angle(54.8199) == Cut(4).tangent(54.8199) == 54.81


def test_of_equal_forms_cutting_off_takes_the_first_or_the_second():
    ways = [lambda n=n: n for n in range(4)]
    for cut in CUTS:
        assert cut.either(*ways[:2]) == (1 if cut.second_of_two else 0)
        assert cut.either(*ways) == (1 if cut.second_of_more else 0)
    assert len({(c.figures, c.backward, c.second_of_two, c.second_of_more) for c in CUTS}) == len(CUTS) == 16


@pytest.mark.parametrize("slug", all_kinds())
def test_what_a_way_of_cutting_off_comes_to_is_never_ruled_out(slug):
    """Neither from the numbers of a sheet nor from entries, some of them wrong."""
    chance, seen, ruled_out = random.Random(slug), 0, 0
    for code in codes_of(all_kinds()[slug].letter)[:12]:
        working = open_code(code).working
        right = working.all_values()
        for step in [s for s in working.steps if not s.choices]:
            typed = [s for s in working.steps if s.id in working.plan.rests[step.id] and not s.choices]
            of_all = {s.id: right[s.id] * chance.choice((1, 1, 1.004, 0.99, 1.3, -1)) for s in typed}
            for own in ({}, of_all, {s: x for s, x in of_all.items() if chance.random() < 0.5}):
                for cut in CUTS:
                    try:
                        value = cut_off(working.value(step.id, cut, own=own), cut.figures)
                    except (ValueError, ArithmeticError):
                        continue  # such entries lead to no number
                    seen += 1
                    assert may_lead_to(value, working, step, own), (code, step.id, own)
                    ruled_out += not may_lead_to(value * 1.2, working, step, own)
    assert seen > 1000 and ruled_out > seen / 4


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


def test_how_far_each_rounding_takes_the_ends():
    """To three figures, 0.1° and four decimals; a half goes either way, and what is no half goes one."""

    def ends(span):
        return pytest.approx((span.lo, span.hi), rel=1e-12)

    assert ends(Interval.keep(Span(1.624, 2.325))) == (1.62, 2.33)
    assert ends(Interval.keep(Span(1.626, 2.324))) == (1.626, 2.324)
    assert ends(Interval.keep(1.235)) == (1.23, 1.24)  # no float is 1.235
    assert ends(Interval.keep(Span(9.996, 100.4))) == (9.996, 100.4)
    assert ends(Interval.keep(Span(10.04, 99.96))) == (10.0, 100.0)
    assert ends(Interval.angle(40.05)) == (40.0, 40.1) and ends(Interval.tangent(1.00005)) == (1.0, 1.0001)
    assert ends(Interval.within(Span(1.0, 1.2), 0.1)) == (0.9, 1.3)
    assert ends(Interval.apply(lambda x: -x, Span(0.5, 1))) == (-1, -0.5)
    assert ends(Interval.either(lambda: Span(2, 5), lambda: Span(1, 4), lambda: 3)) == (1, 5)
    assert Exact.either(lambda: 1, lambda: 2) == 1
    # 2.22 × 3.33 = 7.3926, 3.33 × 4.44 = 14.7852, 2.22 × 4.44 = 9.8568: to three figures 7.39, 14.8, 9.86
    found = Interval.product(2.22, 3.33, 4.44)
    assert found.lo == pytest.approx(32.8)  # 7.39 × 4.44 = 32.81
    assert found.hi == pytest.approx(32.9)  # 14.8 × 2.22 = 32.86
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

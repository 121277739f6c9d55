"""The three arithmetics agree: exact lies in the interval, and so does every path of correct rounding."""

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from exercises.field import moment_end_on, pole_strength
from exercises.kinds import open_code
from exercises.arithmetic import Exact, Interval, Rounding, Span, last_place, own_start
from tests.exercises.golden import codes_of

CODES = codes_of("A")


@pytest.mark.parametrize("code", CODES[::10])
def test_exact_is_the_textbook_formula(code):
    _, scenario, working = open_code(code)
    values = working.all_values()
    l = scenario.bar.length * 5 / 12
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
    assert values["pole"] == pytest.approx(pole_strength(mean, 2 * l), rel=1e-12)


@pytest.mark.parametrize("code", CODES[::20])
def test_every_rounding_path_lies_in_the_interval(code):
    _, _, working = open_code(code)
    spans, exact = working.all_values(Interval), working.all_values()
    for seed in range(200):
        path = working.all_values(Rounding(random.Random(seed).randrange))
        for step in working.steps:
            assert path[step.id] in spans[step.id], (step.id, seed)
            assert exact[step.id] in spans[step.id]


@pytest.mark.parametrize("code", CODES[::20])
def test_the_interval_comes_from_the_formula_and_is_not_wide(code):
    _, _, working = open_code(code)
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


def test_last_place_of_nothing_and_of_no_number():
    assert last_place(0.0) == last_place(math.inf) == last_place(math.nan) == 0.0


def test_own_start_is_no_wider_than_correct_working_keeps():
    assert own_start(38.0, "angle", 1.0).hi == pytest.approx(38.06)
    assert own_start(1.6, "figures", 0.1).hi == pytest.approx(1.606)
    assert own_start(1.62345, "figures", 1e-5).hi == pytest.approx(1.623456)


def test_division_by_a_span_with_zero_in_it_says_nothing_is_known():
    span = Span(1, 2) / Span(-1, 1)
    assert span.lo == -math.inf and span.hi == math.inf

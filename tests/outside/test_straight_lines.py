"""Least squares against certified values of NIST's Statistical Reference Datasets, and against scipy.

Norris (a line, lower difficulty) and NoInt1 (through the origin, average
difficulty).  Data and certified values are from memory; that the data give the
certified values to twelve figures and more says that the memory is right.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import linregress

from exercises.bench.least_squares import line, through_origin, through_origin_error

NORRIS = [
    (0.2, 0.1),
    (337.4, 338.8),
    (118.2, 118.1),
    (884.6, 888.0),
    (10.1, 9.2),
    (226.5, 228.1),
    (666.3, 668.5),
    (996.3, 998.5),
    (448.6, 449.1),
    (777.0, 778.9),
    (558.2, 559.2),
    (0.4, 0.3),
    (0.6, 0.1),
    (775.5, 778.1),
    (666.9, 668.8),
    (338.0, 339.3),
    (447.5, 448.9),
    (11.6, 10.8),
    (556.0, 557.7),
    (228.1, 228.3),
    (995.8, 998.0),
    (887.6, 888.8),
    (120.2, 119.6),
    (0.3, 0.3),
    (0.3, 0.6),
    (556.8, 557.6),
    (339.1, 339.3),
    (887.2, 888.0),
    (999.0, 998.5),
    (779.0, 778.9),
    (11.1, 10.2),
    (118.3, 117.6),
    (229.2, 228.9),
    (669.1, 668.4),
    (448.9, 449.2),
    (0.5, 0.2),
]


def test_norris():
    fitted = line(*zip(*NORRIS))
    assert fitted.intercept == pytest.approx(-0.262323073774029, rel=1e-11)
    assert fitted.slope == pytest.approx(1.00211681802045, rel=1e-13)
    assert fitted.intercept_error == pytest.approx(0.232818234301152, rel=1e-11)
    assert fitted.slope_error == pytest.approx(0.429796848199937e-3, rel=1e-11)


def test_no_intercept_1():
    xs, ys = list(range(60, 71)), list(range(130, 141))
    assert through_origin(xs, ys) == pytest.approx(2.07438016528926, rel=1e-13)
    assert through_origin_error(xs, ys) == pytest.approx(0.165289256198347e-1, rel=1e-12)


POINTS = st.lists(st.tuples(st.integers(1, 1000), st.integers(-1000, 1000)), min_size=3, max_size=12)


@given(POINTS.filter(lambda points: all(len(set(column)) >= 2 for column in zip(*points))))
def test_a_line_as_scipy_has_it(points):
    xs, ys = (np.array(column, float) for column in zip(*points))
    ours, theirs = line(list(xs), list(ys)), linregress(xs, ys)
    size = 1 + np.abs(ys).max()
    steep = size / np.ptp(xs)
    assert ours.slope == pytest.approx(theirs.slope, rel=1e-9, abs=1e-9 * steep)
    assert ours.intercept == pytest.approx(theirs.intercept, rel=1e-9, abs=1e-6 * steep)
    assert ours.slope_error == pytest.approx(theirs.stderr, rel=1e-4, abs=1e-5 * steep)
    assert ours.intercept_error == pytest.approx(theirs.intercept_stderr, rel=1e-4, abs=1e-2 * steep)


@given(POINTS)
def test_through_the_origin_as_numpy_has_it(points):
    xs, ys = (np.array(column, float) for column in zip(*points))
    (slope,), squares, *_ = np.linalg.lstsq(xs[:, None], ys, rcond=None)
    assert through_origin(list(xs), list(ys)) == pytest.approx(slope, rel=1e-9, abs=1e-9)
    error = np.sqrt(squares[0] / (len(xs) - 1) / np.sum(xs**2))
    assert through_origin_error(list(xs), list(ys)) == pytest.approx(error, rel=1e-6, abs=1e-9)

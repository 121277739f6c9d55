"""Lines through points of unequal weight, worked by hand."""

import math

import pytest

from exercises.bench.least_squares import line, weighted_line, weighted_mean


def test_a_weighted_mean():
    """Weights 1 and 1/4: (1·2 + ¼·7)/(5/4) = 3."""
    assert weighted_mean([2.0, 7.0], [1.0, 2.0]) == pytest.approx(3.0)
    assert weighted_mean([2.0], [0.3]) == pytest.approx(2.0)


def test_with_equal_weights_it_is_the_plain_line():
    xs, ys = [1.0, 2.0, 4.0, 5.0], [1.1, 1.9, 4.2, 4.8]
    plain, weighted = line(xs, ys), weighted_line(xs, ys, [0.5] * 4)
    assert weighted.slope == pytest.approx(plain.slope)
    assert weighted.squares == pytest.approx(2 * plain.scatter**2 / 0.25)
    assert weighted.slope_error == pytest.approx(0.5 / math.sqrt(10))  # Σ(x − 3)² = 10


def test_a_point_of_little_weight_hardly_counts():
    assert weighted_line([0.0, 1.0, 2.0], [0.0, 1.0, 50.0], [1.0, 1.0, 1e6]).slope == pytest.approx(1.0, abs=1e-9)


def test_points_at_one_place_give_no_slope():
    """Weights 1 and 1/4: the mean is (1·1 + ¼·2)/(5/4) = 1.2; left are 0.04 and 0.64/4."""
    found = weighted_line([0.2, 0.2], [1.0, 2.0], [1.0, 2.0])
    assert (found.slope, found.slope_error) == (0.0, math.inf)
    assert found.squares == pytest.approx(0.04 + 0.64 / 4)


def test_as_many_numbers_of_each():
    for numbers in (([1.0], [1.0, 2.0], [1.0, 1.0]), ([1.0, 2.0], [1.0, 2.0], [1.0])):
        with pytest.raises(ValueError):
            weighted_line(*numbers)

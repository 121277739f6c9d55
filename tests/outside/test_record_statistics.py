"""What is said of a lab record against scipy, numpy, the uncertainties package and IGRF-14.

The instrument's pattern and the search for what stands out are written here a second time, with numpy's least squares
on augmented rows and scipy's t; nothing of exercises/record/outliers.py is used for it.
"""

import datetime
import math
import random
from dataclasses import replace

import numpy as np
import ppigrf
import pytest
from scipy import optimize, stats
from uncertainties import ufloat, umath

from exercises.bench.least_squares import weighted_line
from exercises.bench.local_field import PLACES
from exercises.bench.student_t import beyond, within
from exercises.bench.uncertainty import DISTANCE_BOTH_ARMS, mean_angle
from exercises.record import columns, estimate, moments, outliers
from exercises.record.check import check
from exercises.record.entries import Record
from exercises.record.place import field_of
from tests.benchmarks.records import as_record, simulated


@pytest.mark.parametrize("freedom", [1, 2, 3, 4, 7, 10, 33, 64])
def test_student_t(freedom):
    """scipy.stats.t."""
    for t in (0.1, 1.0, 2.5, 6.0):
        assert within(t, freedom) == pytest.approx(1 - 2 * stats.t.sf(t, freedom), abs=1e-12)
    for share in (0.5, 0.05, 0.01, 1e-4):
        assert beyond(share, freedom) == pytest.approx(stats.t.isf(share / 2, freedom), rel=1e-6)


ARM = np.array([1, 1, 1, 1, -1, -1, -1, -1])
NORTH = np.array([1, 1, -1, -1] * 2)
END = np.array([1, -1] * 4)


def again(rows, l, step):
    """The outliers by the generalized extreme Studentized deviate procedure, by numpy and scipy."""
    n, seen = len(rows), np.concatenate([r for _, r in rows])
    expected = 0.2**2 + step**2 / 12
    ds = np.array([d for d, _ in rows])
    theta = np.radians([np.median(r) for _, r in rows])
    steep = np.sin(2 * theta) * (3 * ds**2 + l**2) / 3 / (ds**2 - l**2) * np.median(ds) / ds
    effects = [
        np.outer(1.4142 * np.sin(theta), END),
        np.outer(np.ones(n), NORTH),
        np.outer(2 * np.sin(theta) ** 2, NORTH),
        np.outer(steep, ARM),
        np.outer(steep, ARM * NORTH),
        np.outer(1.4142 * np.cos(theta), END * NORTH),
    ]
    design = np.column_stack([np.kron(np.eye(n), np.ones((8, 1))), *(e.ravel() for e in effects)])
    weight = math.sqrt(expected) / outliers.PRIOR
    prior = np.hstack([np.zeros((6, n)), weight * np.eye(6)])

    def fitted(extra):
        full = np.vstack([np.column_stack([design, *extra]), np.hstack([prior, np.zeros((6, len(extra)))])])
        target = np.concatenate([seen, np.zeros(6)])
        value = np.linalg.lstsq(full, target, rcond=None)[0]
        cover = np.linalg.inv(full.T @ full)
        off = seen - full[: 8 * n] @ value
        freedom = 8 * n - np.trace(full[: 8 * n] @ cover @ full[: 8 * n].T)
        s2 = (outliers.EXPECTED_COUNTS * expected + off @ off) / (outliers.EXPECTED_COUNTS + freedom)
        return value, np.sqrt(np.diag(cover) * s2), freedom, np.sum((target - full @ value) ** 2), math.sqrt(s2)

    candidates = {(row, k): np.eye(8 * n)[8 * row + k] for row in range(n) for k in range(8)}
    if n > 2:
        for row in range(n):
            for side, signs in {"ends": END, "north": NORTH, "arms": ARM, "outward": ARM * NORTH}.items():
                candidates[row, side] = np.kron(np.eye(n)[row], signs)
    found, last, extra = [], 0, []
    for turn in range(max(1, min(2 + n // 2, 8 * n // 5))):
        name = min(candidates, key=lambda c: fitted([*extra, candidates[c]])[3])
        extra.append(candidates.pop(name))
        value, error, freedom, _, _ = fitted(extra)
        tests = len(candidates) + 1
        critical = stats.t.isf(outliers.CHANCE / tests / 2, int(freedom) + outliers.EXPECTED_COUNTS)
        found.append(name)
        if abs(value[-1]) / error[-1] > critical:
            last = turn + 1
    value, error, freedom, _, scatter = fitted(extra[:last])
    return found[:last], value[n + 6 :], error[n + 6 :], scatter


@pytest.mark.parametrize("seed", range(14))
def test_what_stands_out_is_what_numpy_finds(seed):
    chance = random.Random(seed)
    record, rows = simulated(chance, count=1 + seed % 5)
    for _ in range(seed % 4):
        rows[chance.randrange(len(rows))][1][chance.randrange(8)] += chance.choice((-10, -5, 5, 10))
    step = float(record.head["step"])
    found = outliers.fit_readings(rows, 0.03, step)
    names, values, errors, scatter = again(rows, 0.03, step)
    assert [(s.row, s.side or s.reading) for s in found.outliers] == names
    assert found.scatter == pytest.approx(scatter, rel=1e-9)
    for s, value, error in zip(found.outliers, values, errors):
        share = 2 if s.side else 1
        assert (s.off, s.error) == pytest.approx((share * value, share * error), rel=1e-6)


def _points(seed=3, count=6):
    chance = random.Random(seed)
    record, rows = simulated(chance, count=count)
    l = float(record.head["length"]) / 240
    found = [columns.WorkedDistance(i, d, tuple(r)) for i, (d, r) in enumerate(rows, 1)]
    return [moments.point(w.number, w.d, w.mean, 3e-5, l, mean_angle(0.5)) for w in found], l


def test_a_trend_is_the_line_that_scipy_fits():
    """scipy.stats.linregress where all weigh the same; scipy.optimize.curve_fit where they do not."""
    points, l = _points()
    ds, ys = np.array([p.d for p in points]), np.array([p.moment for p in points])
    m, span = ys.mean(), ds.max() - ds.min()
    same = [moments.Point(p.number, p.d, p.theta, p.moment, 0.001, 0.0) for p in points]
    line = stats.linregress(ds, ys)
    assert moments.trend(same, l, 0.008).change == pytest.approx(line.slope * span / m, rel=1e-9)
    assert moments.trend(same, l, 0.008).error == pytest.approx(line.stderr * span / m, rel=1e-9)  # scatter rules here
    own = np.array([p.own for p in points])
    best, cover = optimize.curve_fit(lambda d, a, b: a + b * d, ds, ys / m, sigma=own, absolute_sigma=True)
    left = np.sum(((ys / m - best[0] - best[1] * ds) / own) ** 2)
    found = moments.trend(points, l, 0.008)
    assert found.change == pytest.approx(best[1] * span, rel=1e-6)
    assert found.error == pytest.approx(
        math.sqrt(cover[1, 1]) * span * max(1, math.sqrt(left / (len(points) - 2))), rel=1e-6
    )


@pytest.mark.parametrize("two_l, shift", [(0.060, 0.0), (0.075, 0.0), (0.0667, 0.006), (0.0667, -0.006)])
def test_what_would_level_the_moments_is_what_was_done_to_them(two_l, shift):
    """Exact moments spoilt by another 2l or another zero of d; scipy.optimize.minimize_scalar levels them exactly."""
    true, B_H = 0.0667, 3e-5
    ds = np.array([0.15, 0.17, 0.19, 0.21, 0.24])
    theta = np.degrees(np.arctan(1e-7 * 2 * 0.9 * ds / (ds**2 - true**2 / 4) ** 2 / B_H))
    noted = ds + shift
    points = [moments.point(i, d, t, B_H, two_l / 2, mean_angle(0.5)) for i, (d, t) in enumerate(zip(noted, theta))]
    found = moments.trend(points, two_l / 2, 0.0)

    def spread(l, off):
        m = np.tan(np.radians(theta)) * ((noted + off) ** 2 - l * l) ** 2 / (noted + off)
        return m.std() / m.mean()

    exact_l = optimize.minimize_scalar(lambda l: spread(l, 0.0), bounds=(0.001, 0.07), method="bounded").x
    exact_off = optimize.minimize_scalar(lambda off: spread(two_l / 2, off), bounds=(-0.02, 0.02), method="bounded").x
    if shift == 0:
        assert 2 * exact_l == pytest.approx(true, abs=1e-4)
        assert found.two_l == pytest.approx(2 * exact_l, rel=0.06)
        assert found.change * (two_l - true) > 0
    else:
        assert exact_off == pytest.approx(-shift, abs=1e-4)
        assert found.shift == pytest.approx(exact_off, rel=0.25)  # to first order
        assert found.change * shift < 0


def test_what_would_level_them_has_the_error_that_scipy_gives():
    """scipy.optimize.curve_fit of the moments against what each mistake does to them, to first order."""
    points, l = _points()
    ds, own = np.array([p.d for p in points]), np.array([p.own for p in points])
    ys = np.array([p.moment for p in points])
    ys /= ys.mean()

    def slope(shape):
        best, cover = optimize.curve_fit(lambda x, a, b: a + b * x, shape, ys, sigma=own, absolute_sigma=True)
        return best[1], math.sqrt(cover[1, 1])

    found = moments.trend(points, l, 0.008)
    square, u_square = slope(-2 / (ds**2 - l**2))
    half = math.sqrt(l**2 - square)
    assert (found.two_l, found.u_two_l) == pytest.approx((2 * half, u_square / half), rel=1e-5)
    shift, u_shift = slope((4 * ds**2 / (ds**2 - l**2) - 1) / ds)
    assert (found.shift, found.u_shift) == pytest.approx((-shift, u_shift), rel=1e-5)
    weights = 1 / own**2
    assert found.level == pytest.approx(np.sum(weights * (ys - np.average(ys, weights=weights)) ** 2))
    line = np.polyval(np.polyfit(ds, ys, 1, w=1 / own), ds)
    assert found.left == pytest.approx(np.sum(weights * (ys - line) ** 2))
    turned = [_turned(p, 0.008**2, l) for p in points]
    by_needle = np.polyfit(ds, turned, 1, w=1 / own)[0] * (ds.max() - ds.min())
    assert found.needle == pytest.approx(min(0.0, by_needle), rel=1e-9) and found.needle < -0.005


def _turned(p, n2, l):
    """What a needle does before two poles: n²/12 of the curvature of 2d/(d² − l²)², by numpy's polynomials."""
    top, below = np.poly1d([2, 0]), np.poly1d([1, 0, -(l**2)]) ** 2
    # (f/g)'' over f/g, from f''=0
    g1, g2 = below.deriv()(p.d) / below(p.d), below.deriv(2)(p.d) / below(p.d)
    curvature = 2 * g1**2 - g2 - 2 * top.deriv()(p.d) / top(p.d) * g1
    return float(n2 * curvature / 12) * (15 * math.sin(math.radians(p.theta)) ** 2 - 3)


def test_a_trend_needs_two_distances_apart():
    points, l = _points(count=4)
    two = [moments.Point(n, d, 45.0, m, 0.005, 0.0) for n, d, m in ((1, 0.2, 1.0), (2, 0.2021, 1.01))]
    assert moments.trend(points[:1], l, 0.008) is None and moments.trend(two, l, 0.0).change == pytest.approx(
        0.01 / 1.005
    )
    nearer = [two[0], moments.Point(2, 0.2019, 45.0, 1.01, 0.005, 0.0)]
    assert moments.trend(nearer, l, 0.008) is None
    # a scatter larger than what is expected widens the error of four and more
    four = [moments.Point(n, 0.2 + 0.01 * n, 45.0, 1 + 0.1 * (-1) ** n, 0.005, 0.0) for n in range(4)]
    wide, narrow = (moments.trend(p, l, 0.0) for p in (four, four[:3]))
    assert wide.error == pytest.approx(0.005 / math.sqrt(5e-4) * 0.03 * math.sqrt(wide.left / 2), rel=1e-9)
    assert narrow.error == pytest.approx(0.005 / math.sqrt(2e-4) * 0.02, rel=1e-9)


def test_the_moment_that_stands_apart_is_held_against_the_weighted_mean_of_the_others():
    """numpy.average with its weights; the distance that would mend it by scipy.optimize.brentq."""
    l = 0.0333
    owns = (0.004, 0.006, 0.003, 0.005)
    points = [
        moments.Point(n, d, th, m, u, 0.0)
        for n, d, th, m, u in zip(
            (1, 2, 4, 5), (0.175, 0.19, 0.2, 0.215), (56.0, 50.0, 46.0, 40.0), (1.5, 1.51, 1.59, 1.495), owns
        )
    ]
    found = moments.apart(points, l, 0.008)
    others, odd = [points[i] for i in (0, 1, 3)], points[2]
    weights = [1 / p.own**2 for p in others]
    m = np.average([p.moment for p in others], weights=weights)
    assert found.number == 4 and found.off == pytest.approx(1.59 / m - 1)

    turned = _turned(odd, 0.008**2, l) - np.mean([_turned(p, 0.008**2, l) for p in others])
    parts = (0.003, 1 / math.sqrt(sum(weights)), turned)
    assert found.error == pytest.approx(math.hypot(*parts), rel=1e-9)
    assert found.left == pytest.approx(sum(w * (p.moment / m - 1) ** 2 for w, p in zip(weights, others)), rel=1e-9)

    def fits(d):  # the moment that the same readings give at another distance
        return 1.59 * ((d**2 - l**2) ** 2 / d) / ((0.2**2 - l**2) ** 2 / 0.2) - m

    assert found.d == pytest.approx(optimize.brentq(fits, 0.15, 0.25), abs=2e-5)
    assert moments.apart(points[:2], l, 0.008) is None and moments.apart(points[:3], l, 0.008).number == 4
    low = [*points[:2], moments.Point(4, 0.2, 46.0, 1.4, 0.003, 0.0)]
    assert moments.apart(low, l, 0.008).off < 0


def test_distances_that_are_all_the_same_have_no_slope():
    """numpy.average with its weights; nothing is divided by the spread that is not there."""
    ys, us = [1.0, 1.2, 1.4], [0.1, 0.2, 0.1]
    slope, error, left = weighted_line([0.2] * 3, ys, us)
    weights = 1 / np.array(us) ** 2
    assert (slope, error) == (0.0, math.inf)
    assert left == pytest.approx(np.sum(weights * (np.array(ys) - np.average(ys, weights=weights)) ** 2))


def test_what_a_needle_does_is_taken_off():
    points, l = _points(count=4)
    steep = moments.Point(9, 0.2, 20.0, 1.0, 0.005, 0.0)  # below 26.6° a needle makes the moment too small
    for p, bare in zip([*points, steep], moments.without_needle([*points, steep], l, 0.008)):
        turned = _turned(p, 0.008**2, l)
        assert bare.moment == pytest.approx(p.moment / (1 + turned)) and (bare.d, bare.own) == (p.d, p.own)
        assert (turned < 0) is (p is steep)


def test_the_graph_of_a_record_is_what_scipy_fits():
    """Through the origin by least squares; the free line and its errors by scipy.stats.linregress."""
    points, l = _points(count=5)
    found = moments.graph(points, 3e-5, l)
    x = np.array([2 * p.d / (p.d**2 - l**2) ** 2 for p in points])
    y = np.tan(np.radians([p.theta for p in points]))
    slope = np.sum(x * y) / np.sum(x * x)
    error = math.sqrt(np.sum((y - slope * x) ** 2) / 4 / np.sum(x * x))
    assert (found.slope, found.error, found.moment) == pytest.approx((slope, error, 1e7 * 3e-5 * slope), rel=1e-9)
    line = stats.linregress(x, y)
    assert found.free == pytest.approx((line.slope, line.intercept, line.intercept_stderr), rel=1e-9)
    assert moments.graph(points[:1], 3e-5, l).error is None and moments.graph(points[:2], 3e-5, l).free is None
    assert moments.graph(points[:2], 3e-5, l).error is not None and moments.graph(points[:3], 3e-5, l).free is not None
    together = [moments.Point(n, 0.2, 45.0, 1.0, 0.01, 0.0) for n in range(3)]
    assert moments.graph(together, 3e-5, l).free is None


def test_one_point_from_what_was_read():
    """A scatter larger than what the scale makes counts in the angle: over √8, with the pivot's friction."""
    assert moments.seen_angle(0.5, 1.2) == pytest.approx(math.hypot(1.2 / math.sqrt(8), 0.1))
    assert moments.seen_angle(0.5, 0.01) == moments.seen_angle(0.5, None) == mean_angle(0.5)
    theta, d = ufloat(45.0, 0.2), ufloat(0.2, DISTANCE_BOTH_ARMS)
    textbook = 1e7 * 3e-5 * (d**2 - 0.03**2) ** 2 * umath.tan(theta * math.pi / 180) / (2 * d)
    found = moments.point(1, 0.2, 45.0, 3e-5, 0.03, 0.2)
    assert found.moment == pytest.approx(textbook.n) and found.own == pytest.approx(textbook.s / textbook.n, rel=1e-6)


def _as_scipy_fits_it(points, l, half, needle):
    """ln m, l, n², s and their covariance by scipy.optimize.least_squares; what is known makes three more residuals."""
    spread = estimate.between(*estimate.SPREAD)

    def left(x):
        log_m, l_now, n2, s = x[0], x[1] * half.u, x[2] * needle.u, x[3] * spread.u
        out = [
            (
                math.log(p.moment * (p.d**2 - l_now**2) ** 2 / (p.d**2 - l**2) ** 2)
                - log_m
                - math.log(1 + _turned(p, n2, l_now))
                - 3 * s * (l_now / p.d) ** 4 * (1 - (l_now / p.d) ** 2) ** 2
            )
            / p.own
            for p in points
        ]
        return [*out, x[1] - half.value / half.u, x[2] - needle.value / needle.u, x[3] - spread.value / spread.u]

    start = [math.log(points[0].moment), half.value / half.u, needle.value / needle.u, spread.value / spread.u]
    fit = optimize.least_squares(left, start, xtol=1e-14, ftol=1e-14, gtol=1e-14)
    scale = np.diag([1, half.u, needle.u, spread.u])
    return scale @ fit.x, scale @ np.linalg.inv(fit.jac.T @ fit.jac) @ scale, 2 * fit.cost


@pytest.mark.parametrize("told", [0.018, None])
@pytest.mark.parametrize("stated", [True, False])
def test_the_result_is_the_fit_that_scipy_makes(stated, told):
    points, l = _points(count=5)
    half, needle = estimate.known_half(2 * l, 2.4 * l, stated), estimate.known_needle(told)
    found = estimate.result(points, l, half, needle, 20.0)
    (log_m, l_fit, n2, _), covariance, squares = _as_scipy_fits_it(points, l, half, needle)
    assert squares < 4 and found.excess == 1.0
    assert found.moment.value == pytest.approx(math.exp(log_m), rel=1e-7)
    assert found.two_l.value == pytest.approx(2 * l_fit, rel=1e-6)
    assert found.two_l.u == pytest.approx(2 * math.sqrt(covariance[1, 1]), rel=1e-4)
    along = np.array([1, -1 / l_fit, 0, 0])
    assert found.moment.u == pytest.approx(found.moment.value * math.sqrt(covariance[0, 0]), rel=1e-4)
    assert found.pole.u == pytest.approx(found.pole.value * math.sqrt(along @ covariance @ along), rel=1e-4)
    assert math.hypot(*found.terms.values()) == pytest.approx(math.sqrt(covariance[0, 0]), rel=1e-4)
    turned = [_turned(p, n2, l_fit) for p in points]
    assert found.needle == pytest.approx(np.mean(turned), rel=1e-5)


def test_the_coverage_factor_is_that_of_the_effective_degrees_of_freedom():
    """Welch-Satterthwaite worked again; t by scipy.stats."""
    points, l = _points(seed=7, count=5)
    half, needle = estimate.known_half(2 * l, None, True), estimate.known_needle(0.012)
    found = estimate.result(points, l, half, needle, 3.0)
    assert found.excess == 1.0
    free = 3.0 * (math.hypot(*found.terms.values()) / found.terms["angle"]) ** 4
    assert found.pole.k < found.moment.k == pytest.approx(stats.t.ppf(0.975, int(free)), rel=1e-6)
    assert estimate.result(points, l, half, needle, math.inf).moment.k == pytest.approx(1.96, abs=0.003)


def test_moments_that_scatter_more_than_they_should_count_by_their_scatter():
    points, l = _points(count=5)
    wild = [replace(p, moment=p.moment * (1 + 0.04 * (-1) ** p.number)) for p in points]
    half, needle = estimate.known_half(2 * l, None, True), estimate.known_needle(0.012)
    found = estimate.result(wild, l, half, needle, math.inf)
    *_, squares = _as_scipy_fits_it(wild, l, half, needle)
    assert found.excess == pytest.approx(math.sqrt(squares / 4), rel=1e-3)
    more = math.hypot(found.terms["angle"], found.terms["distance"]) * math.sqrt(1 - 4 / squares)
    free = 4 * (math.hypot(*found.terms.values()) / more) ** 4
    assert found.moment.k == pytest.approx(stats.t.ppf(0.975, int(free)), rel=1e-6)
    assert found.moment.u == pytest.approx(stats.sem([p.moment for p in wild]), rel=0.25)


def test_what_is_known_of_a_needle_beforehand():
    """Moments of a number anywhere between two limits, by scipy.stats.uniform."""
    found, told = estimate.known_needle(None), estimate.known_needle(0.02)
    length = stats.uniform(0.010, 0.015)
    share = 0.95 / 2
    mean, fourth = share**2 * length.moment(2), share**4 * length.moment(4)
    assert found.value == pytest.approx(mean)
    of_poles = stats.uniform(0.90, 0.10).std() / 0.95 * 2
    assert found.u == pytest.approx(math.sqrt(fourth - mean**2 + (of_poles * mean) ** 2))
    assert (told.value, told.u) == pytest.approx(((share * 0.02) ** 2, of_poles * (share * 0.02) ** 2))


def test_every_column_is_what_numpy_works_out():
    record, rows = simulated(random.Random(8), count=6)
    found = check(record).values
    l, B_H = float(record.head["length"]) / 240, float(record.head["B_H"]) * 1e-6
    ds, mean = np.array([d for d, _ in rows]), np.mean([r for _, r in rows], axis=1)
    m = B_H * np.tan(np.deg2rad(mean)) * (ds**2 - l**2) ** 2 / (2 * ds) / 1e-7
    assert [found[f"moment-{i}"] for i in range(1, 7)] == pytest.approx(list(m))
    assert [found[f"mean-{i}"] for i in range(1, 7)] == pytest.approx(list(mean))
    assert found["mean-moment"] == pytest.approx(m.mean())
    assert found["pole"] == pytest.approx(m.mean() / (2 * l))


@pytest.mark.parametrize("place", PLACES[::5], ids=lambda p: p.name)
def test_the_field_of_a_place_and_date_agrees_with_igrf(place):
    """IGRF-14 through ppigrf; the models differ by up to 0.12 % (test_earth_field.py)."""
    east, north, up = ppigrf.igrf(place.longitude, place.latitude, place.height, datetime.datetime(2026, 3, 14))
    east, north, up = (float(np.ravel(x)[0]) for x in (east, north, up))
    horizontal, total = math.hypot(east, north), math.hypot(east, north, up)
    typed = {"latitude": f"{place.latitude}", "longitude": f"{place.longitude}", "height": f"{1000 * place.height:g} m"}
    for head in ({"place": place.name.upper()}, typed):
        found = field_of(Record({**head, "date": "14 March 2026"}), None)
        assert pytest.approx(horizontal * 1e-9, rel=0.003, abs=0.06e-6) == found.B_H
        assert found.model == pytest.approx(horizontal * 1e-9, rel=0.003)
        assert found.total == pytest.approx(total * 1e-9, rel=0.003)
        assert found.vertical == pytest.approx(abs(up) * 1e-9, rel=0.003, abs=0.1e-6)


def test_misreadings_are_found_and_honest_records_left_alone():
    """Figures of many records are printed by tests/benchmarks/records.py; here a few, with the rates they must keep."""
    chance, alarms, found = random.Random(2), 0, 0
    for _ in range(60):
        record, rows = simulated(chance)
        alarms += any(f.key in ("misread", "side", "apart", "trend") for f in check(record).findings)
        row, k = chance.randrange(len(rows)), chance.randrange(8)
        rows[row][1][k] += chance.choice((10, -10))
        said = [f for f in check(as_record(record.head, rows)).findings if f.key == "misread"]
        found += [f.cells for f in said] == [(f"reading{k + 1}-{row + 1}",)] and "10°" in said[0].text
    assert alarms <= 4 and found >= 57

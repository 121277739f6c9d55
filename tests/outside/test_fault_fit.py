"""The pure-Python fit of a fault against scipy.optimize.least_squares (scipy is the outside source).

The instrument is written here a second time, on its own: two poles, vectors,
complex numbers; nothing of exercises/ is used for it.
"""

import math

import numpy as np
import pytest
from scipy.optimize import least_squares

from exercises.bench.fault_fit import fit_all, fit_moment
from exercises.codes.sheet_code import SheetCode
from exercises.kinds.fault import kind as kind_module

RADIUS = 0.040  # m, of the circular scale
CODES = [SheetCode("F", 1, 104729 * i + 17) for i in range(60)]
SHEETS = [kind_module.KIND.draw(code) for code in CODES]


def readings(strength, rows, l, fault="", size=0.0, only=None):
    """All readings (degrees) of a point needle; strength is m·µ0/(4π·B_H) in m³, split into two poles."""
    out = []
    for i, d in enumerate(rows):
        if fault == "distance" and i == only:
            d = d - size
        for arm in (1, -1):
            for north in (1, -1):
                axis = np.exp(1j * math.radians(size if fault in ("first-turn", "second-turn") else 0.0))
                middle = (arm * d - (size if fault == "box" else 0.0)) * axis
                if fault == "centre":
                    middle += size * north * axis
                field = 1j  # the earth's, in units of B_H: north is up
                for sign in (1, -1):
                    pole = middle + sign * north * l * axis
                    field += sign * (strength / (2 * l)) * (-pole) / abs(pole) ** 3
                pointer = field / abs(field) * -1j  # at right angles to the needle, end 1
                shift = size / RADIUS if fault == "pivot" else 0.0
                for end in (1, -1):
                    seen = -np.degrees(np.angle(end * (shift + end * pointer)))
                    out.append(abs(seen + (size if fault in ("zero", "second-turn") else 0.0)))
    return np.array(out)


@pytest.mark.parametrize("scenario", SHEETS, ids=lambda s: str(s.code))
def test_every_candidate_agrees_with_scipy(scenario):
    l = scenario.two_l / 2
    rows = [(r.d, r.readings) for r in scenario.rows]
    ds, seen = [r.d for r in scenario.rows], np.array([x for r in scenario.rows for x in r.readings])
    start, none = fit_moment(rows, l)
    alone = least_squares(lambda p: readings(start * p[0], ds, l) - seen, [1.0], xtol=1e-14, ftol=1e-14, gtol=1e-14)
    assert 2 * alone.cost == pytest.approx(none, rel=1e-6)
    fits = fit_all(rows, l, scenario.scale_step)
    assert [f.left for f in fits] == sorted(f.left for f in fits)
    of_angle = {"zero", "first-turn", "second-turn", "misread"}
    assert {f.fault for f in fits} == of_angle | {"pivot", "box", "centre", "distance"}
    for fit in fits:
        scale = 1.0 if fit.fault in of_angle else 1e-3

        def off(p, fit=fit, scale=scale):
            found = readings(start * p[0], ds, l, fit.fault, p[1] * scale, fit.row)
            if fit.fault == "misread":
                found[8 * fit.row + fit.reading] += p[1]
            return found - seen

        best = least_squares(off, [1.0, 0.0], xtol=1e-14, ftol=1e-14, gtol=1e-14)
        assert 2 * best.cost == pytest.approx(fit.left, rel=1e-4, abs=1e-6), fit
        assert best.x[1] * scale == pytest.approx(fit.size, rel=2e-3, abs=2e-3 * scale), fit


@pytest.mark.parametrize("scenario", SHEETS[:30], ids=lambda s: str(s.code))
def test_no_other_reading_or_distance_would_have_fitted_better(scenario):
    """The misread value and distance are searched for by their residuals; here by trying all of them."""
    l = scenario.two_l / 2
    rows = [(r.d, r.readings) for r in scenario.rows]
    ds, seen = [r.d for r in scenario.rows], np.array([x for r in scenario.rows for x in r.readings])
    start, _ = fit_moment(rows, l)
    fits = {f.fault: f for f in fit_all(rows, l, scenario.scale_step)}
    ours = fits["distance"].left
    for row in range(len(ds)):

        def off(p, row=row):
            return readings(start * p[0], ds, l, "distance", p[1] * 1e-3, row) - seen

        best = least_squares(off, [1.0, 0.0])
        assert 2 * best.cost >= ours * (1 - 1e-3)
    for i in range(len(seen)):
        keep = np.arange(len(seen)) != i
        best = least_squares(lambda p, keep=keep: (readings(start * p[0], ds, l) - seen)[keep], [1.0])
        assert 2 * best.cost >= fits["misread"].left * (1 - 0.03)

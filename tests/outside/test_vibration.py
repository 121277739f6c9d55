"""A bar's moment of inertia and the period of a magnet in a field, against a published table and by integration."""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from exercises.bench.vibration import inertia, period

BARS = [(0.0828, 0.095, 0.021, 0.005), (0.134, 0.115, 0.037, 0.004), (0.3, 0.054, 0.018, 0.015)]  # M, L, b, height


def from_the_table(M, a, b):
    """Halliday, Resnick and Walker, *Fundamentals of Physics*, table 10-2, slab about the perpendicular axis
    through its centre: I = M(a² + b²)/12.  From memory."""
    return M * (a**2 + b**2) / 12


@pytest.mark.parametrize("M, L, b, height", BARS)
def test_the_moment_of_inertia_is_the_tables(M, L, b, height):
    assert inertia(M, L, b) == pytest.approx(from_the_table(M, L, b), rel=1e-14)


@pytest.mark.parametrize("M, L, b, height", BARS)
def test_the_moment_of_inertia_by_adding_up_the_bar(M, L, b, height):
    # ∫(x² + y²) dm by Gauss and Legendre's rule, exact for squares; the height only carries mass
    nodes, weights = np.polynomial.legendre.leggauss(5)
    x, y, _ = np.meshgrid(nodes * L / 2, nodes * b / 2, nodes * height / 2, indexing="ij")
    w = weights[:, None, None] * weights[None, :, None] * weights[None, None, :]
    density = M / (L * b * height)
    summed = density * (L * b * height / 8) * np.sum(w * (x**2 + y**2))
    assert inertia(M, L, b) == pytest.approx(summed, rel=1e-12)


def swing(I, m, B_H, amplitude, torsion):
    """The period by integrating I·φ″ = −m·B_H·(sin φ + torsion·φ) from rest at the amplitude."""
    guess = 2 * math.pi * math.sqrt(I / (m * B_H))

    def moves(t, state):
        phi, rate = state
        return rate, -m * B_H / I * (math.sin(phi) + torsion * phi)

    def passes_north(t, state):
        return state[0]

    passes_north.direction = -1
    run = solve_ivp(
        moves, (0, 3.5 * guess), (math.radians(amplitude), 0.0), events=passes_north, rtol=1e-11, atol=1e-13
    )
    first, second, third = run.t_events[0][:3]
    assert third - second == pytest.approx(second - first, rel=1e-8)
    return second - first


@pytest.mark.parametrize("I, m, B_H", [(6.5e-5, 1.74, 35.2e-6), (8.5e-5, 1.2, 26.9e-6), (1.5e-4, 0.36, 19.4e-6)])
def test_the_period_by_integrating_the_swing(I, m, B_H):
    # at a tenth of a degree the textbook's period; wider, the series; and with a thread that twists
    assert period(I, m, B_H) == pytest.approx(swing(I, m, B_H, 0.1, 0), rel=1e-6)
    assert period(I, m, B_H, amplitude=8) == pytest.approx(swing(I, m, B_H, 8, 0), rel=1e-7)
    assert period(I, m, B_H, amplitude=25) == pytest.approx(swing(I, m, B_H, 25, 0), rel=1e-5)
    assert period(I, m, B_H, 0.1, torsion=0.003) == pytest.approx(swing(I, m, B_H, 0.1, 0.003), rel=1e-6)


def test_the_page_on_wide_swings_is_right():
    # content/exercises/earth.md: at 8° the period is an eighth of a per cent too long
    I, m, B_H = 6.5e-5, 1.74, 35.2e-6
    assert swing(I, m, B_H, 8, 0) / period(I, m, B_H) - 1 == pytest.approx(0.00125, abs=5e-5)

"""Choosing distances: the first guess, the correction, and the distance itself."""

import numpy as np
from matplotlib.figure import Figure

from exercises.bench.field import distance_end_on, field_from_deflection
from exercises.kinds.deflection.stretch import HIGHEST, LOWEST
from generator.figures.plates import plate
from generator.figures.style import ACCENT, FAINT, INK, graph
from generator.figures.theory import B_H, MAGNET

DASHED = (0, (5, 3))


def _distances(angle: float) -> tuple[float, float, float]:
    """In cm: the first guess d₀, with its correction, and the distance itself for this deflection."""
    B = field_from_deflection(angle, B_H)
    guess = distance_end_on(MAGNET.m, B)
    return 100 * guess, 100 * (guess + 2 * MAGNET.l**2 / (3 * guess)), 100 * distance_end_on(MAGNET.m, B, MAGNET.l)


def _caption() -> str:
    guess, better, right = _distances(HIGHEST)
    return (
        f"For a magnet of {MAGNET.m} A·m² with l = {MAGNET.l * 100:.0f} cm where <i>B</i><sub>H</sub> is "
        f"{B_H * 1e6:.0f} µT. At 60° the first guess is {guess:.1f} cm, {(right - guess) * 10:.0f} mm short; with the "
        f"correction it is {better:.2f} cm, and the distance is {right:.2f} cm."
    )


@plate(
    "first-guess",
    alt="Distance against deflection. A dashed line, the first guess, runs some millimetres below a solid line, the "
    "distance itself. Dots, the first guess with its correction, lie on the solid line all along. Both lines fall, "
    "from about 24 centimetres at 30 degrees to 17 at 60 degrees.",
    caption=_caption,
)
def first_guess() -> Figure:
    fig, ax = graph(3.7, x="deflection θ, degrees", y="distance *d*, cm")
    ax.axvspan(LOWEST, HIGHEST, color=FAINT, alpha=0.35, linewidth=0)
    angles = np.linspace(20, 70, 101)
    rows = np.array([_distances(a) for a in angles])
    ax.plot(angles, rows[:, 2], color=ACCENT, linewidth=1.8)
    ax.plot(angles, rows[:, 0], color=INK, linewidth=1.1, linestyle=DASHED)
    ax.plot(angles[::10], rows[::10, 1], "o", color=ACCENT, markersize=5)
    ax.text(43, 22.3, "with the correction", color=ACCENT)
    ax.text(22, 17.8, "first guess", ha="left")
    ax.plot([33, 45.5], [18.4, float(np.interp(45.5, angles, rows[:, 0]))], color=INK, linewidth=0.6)
    ax.text(45, 14.4, "take readings here", ha="center")
    ax.set_xlim(20, 70)
    ax.set_ylim(14, 29)
    return fig

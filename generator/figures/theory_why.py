"""Why eight readings: the spread of the moment over many instruments in fair condition."""

from functools import cache

import numpy as np
from matplotlib.figure import Figure

from exercises.bench.instrument import eight_readings
from exercises.codes.scenario import READING_ERROR, Draw, draw_faults
from exercises.codes.sheet_code import SheetCode
from exercises.student.why import B_H, BOX, DISTANCE, MAGNET, means, moment
from generator.figures.plates import plate
from generator.figures.style import ACCENT, FAINT, INK, PAPER, graph

INSTRUMENTS = 4000
SEED = 8
STEP = 0.5  # degrees
SIZES = (1, 2, 4, 8)


@cache
def moments() -> dict[int, np.ndarray]:
    """The moment (A·m²) that each instrument gives, by how many of its readings are used: (INSTRUMENTS,) each."""
    draw = Draw(SheetCode("A", 1, SEED))  # the faults of the sheets' own instruments
    found: dict[int, list[float]] = {size: [] for size in SIZES}
    for _ in range(INSTRUMENTS):
        faults, errors = draw_faults(draw), tuple(draw.normal(READING_ERROR) for _ in range(8))
        readings = eight_readings(MAGNET, B_H, DISTANCE, BOX, faults, errors, STEP)
        for size in SIZES:
            found[size].append(moment(means(readings, size)[0]))
    return {size: np.array(values) for size, values in found.items()}


def spread(size: int) -> float:
    """Half the width, in per cent of the true moment, of the range that holds 95 in a hundred instruments."""
    low, high = np.percentile(moments()[size], (2.5, 97.5))
    return float(high - low) / 2 / MAGNET.m * 100


def _caption() -> str:
    said = {size: f"{spread(size):.1f} %" for size in SIZES}
    return (
        f"{INSTRUMENTS} instruments in fair condition, one magnet of {MAGNET.m} A·m² at {DISTANCE * 100:.0f} cm. "
        f"Within the bars lie 95 in a hundred of the moments: ±{said[1]} with one reading, ±{said[2]} with both ends, "
        f"±{said[4]} with the magnet reversed as well, and ±{said[8]} with all eight. Faults and reading errors drawn "
        f"at random, scale step ½°."
    )


@plate(
    "why-eight-spread",
    alt=lambda: (
        "Four histograms, one under the other, of the moments that many instruments give. With one reading they spread "
        f"over about {spread(1):.0f} per cent either way, with two {spread(2):.0f}, with four {spread(4):.1f} and with "
        f"eight readings {spread(8):.1f}, all about the true moment."
    ),
    caption=_caption,
)
def why_eight_spread() -> Figure:
    fig, ax = graph(4.4, x="moment less the true one, %", left=0.04, bottom=0.125)
    names = {1: "one reading", 2: "both ends", 4: "four, reversed", 8: "all eight"}
    for row, size in enumerate(SIZES):
        off = 100 * (moments()[size] / MAGNET.m - 1)
        # a mean of so many readings comes in steps of STEP/size: one bar for each step, or the bars would comb
        lattice = STEP / size * (np.arange(35 * size / STEP, 53 * size / STEP) + 0.5)
        edges = 100 * (np.array([moment(angle) for angle in lattice]) / MAGNET.m - 1)
        edges = edges[np.abs(edges) < 10]
        counts, _ = np.histogram(off, edges)
        base = -row
        ax.stairs(base + 0.62 * counts / counts.max(), edges, baseline=base, fill=True, color=FAINT, alpha=0.6)
        low, high = np.percentile(off, (2.5, 97.5))
        ax.plot([low, high], [base - 0.07] * 2, color=ACCENT, linewidth=2.2)
        for end in (low, high):
            ax.plot([end, end], [base - 0.13, base - 0.01], color=ACCENT, linewidth=2.2)
        ax.text(-9.9, base + 0.42, names[size], ha="left", va="center")
        ax.text(-9.9, base + 0.22, f"±{spread(size):.1f} %", ha="left", va="center", color=ACCENT)
    ax.plot([0, 0], [-3.2, 0.75], color=INK, linewidth=0.9)
    ax.text(0.3, 0.72, "true", ha="left", va="center", backgroundcolor=PAPER)
    ax.set_xlim(-10, 10)
    ax.set_ylim(-3.3, 0.85)
    ax.set_xticks([-10, -5, 0, 5, 10], ["−10", "−5", "0", "5", "10"])
    ax.set_yticks([])
    ax.spines["left"].set_visible(False)
    return fig

"""Choosing distances: why 30°–60°, where on the arm that is, and what a needle of some length does there."""

import math

import numpy as np
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from exercises.bench.field import distance_end_on, field_from_deflection
from exercises.bench.instrument import Box, eight_readings
from exercises.bench.uncertainty import angle_term
from exercises.kinds.deflection.stretch import HIGHEST, LOWEST
from generator.figures.plates import NBSP, plate, table
from generator.figures.style import ACCENT, FAINT, INK, PAPER, bar_magnet, graph, plank, sketch
from generator.figures.theory import B_H, LENGTH, MAGNET

HALF_DEGREE = 0.5


def _error_caption() -> str:
    least, ends = angle_term(45, HALF_DEGREE), angle_term(LOWEST, HALF_DEGREE)
    far = angle_term(15, HALF_DEGREE)
    return (
        f"What half a degree of error in θ does to tan θ, and so to the moment: {100 * least:.1f} % at 45°, "
        f"{100 * ends:.1f} % at {LOWEST:.0f}° and {HIGHEST:.0f}° ({100 * (ends / least - 1):.0f} % more), "
        f"{100 * far:.1f} % at 15°."
    )


@plate(
    "angle-error",
    alt="Relative error of tan theta for half a degree of error in theta, against theta. A wide bowl, lowest at 45 "
    "degrees, almost flat from 30 to 60 degrees, and rising steeply below 20 and above 70 degrees.",
    caption=_error_caption,
)
def angle_error() -> Figure:
    fig, ax = graph(3.8, x="deflection θ, degrees", y="error of tan θ, %, for half a degree")
    ax.axvspan(LOWEST, HIGHEST, color=FAINT, alpha=0.35, linewidth=0)
    angles = np.linspace(8, 82, 149)
    ax.plot(angles, [100 * angle_term(a, HALF_DEGREE) for a in angles], color=ACCENT, linewidth=1.9)
    ax.plot([45], [100 * angle_term(45, HALF_DEGREE)], "o", color=ACCENT, markersize=5)
    ax.text(45, 100 * angle_term(45, HALF_DEGREE) - 0.5, "least at 45°", ha="center", va="center")
    ax.text(45, 4.4, "take readings", ha="center")
    ax.text(45, 4.0, "here", ha="center")
    ax.set_xlim(0, 90)
    ax.set_ylim(0, 6)
    ax.set_xticks([0, 15, 30, 45, 60, 75, 90])
    return fig


def _where(angle: float) -> float:
    """Distance in metres at which this magnet gives this deflection."""
    return distance_end_on(MAGNET.m, field_from_deflection(angle, B_H), MAGNET.l)


def _stretch_caption() -> str:
    near, far = _where(HIGHEST), _where(LOWEST)
    return (
        f"To scale, for a magnet of {MAGNET.m} A·m² where <i>B</i><sub>H</sub> is {B_H * 1e6:.0f} µT. Sixty degrees "
        f"come at <i>d</i> = {near * 100:.1f} cm, thirty at {far * 100:.1f} cm: all your distances lie in "
        f"{(far - near) * 100:.0f} centimetres of the arm. The magnet is drawn at its nearest."
    )


@plate(
    "working-stretch",
    alt="The east arm from above, to scale. Between the distances that give 60 and 30 degrees lies the stretch to "
    "work in. Nearer than that the magnet comes close to the box and the deflection is too large; farther off it is "
    "too small.",
    caption=_stretch_caption,
)
def working_stretch() -> Figure:
    fig, ax = sketch(300, 172)
    left, cm, y = 40, 7.4, 92
    near, far = left + _where(HIGHEST) * 100 * cm, left + _where(LOWEST) * 100 * cm
    plank(ax, left, y - 11, 256, 22)
    ax.add_patch(Rectangle((near, y - 11), far - near, 22, facecolor=ACCENT, alpha=0.25, linewidth=0))
    for mark in range(5, 35):
        long = 8 if mark % 5 == 0 else 4
        ax.plot([left + mark * cm] * 2, [y - 11, y - 11 + long], color=INK, linewidth=0.6)
        if mark % 10 == 0:
            ax.text(left + mark * cm, y - 24, str(mark), ha="center")
    ax.text(left + 34.6 * cm, y - 24, "cm", ha="right")
    # the box's edge by itself: its middle is the zero of the scale
    plank(ax, left - 36, y - 36, 36 + Box().radius * 100 * cm, 72)
    ax.text(left - 3, y, "box", ha="center", va="center_baseline")
    for at, angle in ((near, HIGHEST), (left + _where(45) * 100 * cm, 45), (far, LOWEST)):
        ax.plot([at, at], [y - 11, y + 42], color=INK, linewidth=0.7)
        ax.text(at, y + 46, f"{angle:.0f}°", ha="center")
    ax.text((near + far) / 2, y + 64, "work here", ha="center", color=ACCENT)
    bar_magnet(ax, near, y + 25, LENGTH * 100 * cm, 15)
    ax.plot([near], [y + 25], "o", color=PAPER, markeredgecolor=INK, markersize=4)
    outside = ((10.5, "too near:", "θ too large"), (30, "too far:", "θ too small"))
    for middle, where, what in ((left + at * cm, where, what) for at, where, what in outside):
        ax.text(middle, y - 52, where, ha="center")
        ax.text(middle, y - 65, what, ha="center")
    return fig


NEEDLES = (10, 15, 20, 25)  # mm, from end to end


def needle_error(length: float, angle: float) -> float:
    """How far the moment comes out too large by the needle's length, in per cent.

    length  of the needle from end to end, m
    angle   the deflection that a needle of no length would show, degrees
    """
    readings = eight_readings(MAGNET, B_H, _where(angle), Box(needle=length / 2))
    return 100 * (math.tan(math.radians(sum(readings) / 8)) / math.tan(math.radians(angle)) - 1)


@table(
    "needle-error",
    caption="How far the moment comes out too large, by the length of the needle, for the magnet of these pages "
    f"(2<i>l</i> = {200 * MAGNET.l:.1f} cm). For a shorter bar, which lies nearer, it is more: with a bar of 5 to 6 cm "
    "and a needle of 2 cm it can be 10 % at 60°.",
)
def needle_errors() -> str:
    angles = (LOWEST, 45, HIGHEST)
    body = ""
    for mm in NEEDLES:
        cells = "".join(f"<td>{needle_error(mm / 1000, angle):.1f}{NBSP}%</td>" for angle in angles)
        body += f'<tr><th scope="row">{mm / 10:.1f}{NBSP}cm</th>{cells}</tr>'
    head = "".join(f'<th scope="col">at {angle:.0f}°</th>' for angle in angles)
    return f'<table><thead><tr><th scope="col">needle</th>{head}</tr></thead><tbody>{body}</tbody></table>'

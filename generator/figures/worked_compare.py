"""The figures of a worked comparison: the bench at one balance, and all the ratios side by side."""

from matplotlib.patches import Circle

from exercises.bench.uncertainty import COVERAGE
from exercises.kinds.compare.result import ratios as stated_ratios
from exercises.kinds.compare.scenario import Comparison
from exercises.working.numbers import centimetres
from exercises.working.steps import Working
from generator.figures.plates import as_plate, figure_name
from generator.figures.style import (
    ACCENT,
    INK,
    PAPER,
    bar_magnet,
    dimension,
    needle,
    north_arrow,
    notebook,
    plank,
    sketch,
)
from generator.figures.style import graph as axes
from generator.figures.svg import to_svg


def bench(scenario: Comparison, working: Working) -> str:
    """The plan of the bench at the first balance, magnet 1 on the east arm, to scale."""
    one, two = scenario.bars
    first = scenario.balances[0]
    d1, d2 = first.d1, first.found[0]
    with notebook():
        left, right = d2 + two.length / 2 + 0.015, d1 + one.length / 2 + 0.015
        scale = 100 / (left + right)
        fig, ax = sketch(100, 62)
        x0, y0, radius = left * scale, 32, scenario.box.radius * scale
        plank(ax, 0, y0 - 3.5, 100, 7)
        ax.add_patch(Circle((x0, y0), radius, facecolor=PAPER, edgecolor=INK, linewidth=1.2))
        ax.plot([x0 - radius * 0.9, x0 + radius * 0.9], [y0, y0], color=ACCENT, linewidth=1.3)
        needle(ax, x0, y0, max(3.2, scenario.box.needle * scale))
        for at, bar, angle in ((x0 + d1 * scale, one, 0), (x0 - d2 * scale, two, 180)):
            bar_magnet(ax, at, y0, bar.length * scale, max(4.5, bar.width * scale), angle)
            ax.text(at, y0 + 7, bar.name, ha="center")
            ax.plot([at, at], [11, y0 - 4], color=INK, linewidth=0.5)
        ax.plot([x0, x0], [11, y0 - radius], color=INK, linewidth=0.5)
        dimension(ax, (x0, 13), (x0 + d1 * scale, 13), "", lift=-4)
        dimension(ax, (x0, 13), (x0 - d2 * scale, 13), "", lift=4)
        ax.text(x0 + d1 * scale / 2, 7, f"*d*₁ = {centimetres(d1)} cm", ha="center", va="center")
        ax.text(x0 - d2 * scale / 2, 7, f"*d*₂ = {centimetres(d2)} cm", ha="center", va="center")
        north_arrow(ax, 5, 46, 9)
        alt = (
            f"Plan of the bench at the first balance, to scale. {one.name}, {centimetres(one.length)} cm long, lies "
            f"on the east arm at {centimetres(d1)} cm, and {two.name}, {centimetres(two.length)} cm long, on the west "
            f"arm at {centimetres(d2)} cm. Both N poles point away from the box. The needle points north."
        )
        svg = to_svg(fig, figure_name("bench", scenario.code), alt)
    return as_plate(svg, "The first balance, to scale: both N poles out, and the needle as if no magnet were near.")


def ratios(scenario: Comparison, working: Working) -> str:
    """Every ratio found, with ± U for the two results, and the true ratio as a line."""
    values = working.all_values()
    stated = stated_ratios(scenario, values["ratio-angles"], values["mean-ratio"])
    rows: list[tuple[str, float, float]] = [("deflections", stated.by_angles.value, stated.by_angles.U)]
    rows += [(f"balance {j + 1}", values[f"ratio-{j + 1}"], 0.0) for j in range(len(scenario.balances))]
    rows += [("mean of balances", stated.by_balance.value, stated.by_balance.U)]
    with notebook():
        fig, ax = axes(2.6, "*m*₁/*m*₂", "", left=0.34, bottom=0.19)
        ax.axvline(scenario.true_ratio, color=ACCENT, linewidth=1.4)
        for i, (_, ratio, U) in enumerate(rows):
            if U:
                ax.plot([ratio - U, ratio + U], [-i, -i], color=INK, linewidth=1.2)
            ax.plot(
                [ratio], [-i], "o", color=INK, markersize=5, markerfacecolor=INK if U else PAPER, markeredgewidth=1.3
            )
        ax.set_yticks([-i for i in range(len(rows))], [name for name, *_ in rows])
        ax.set_ylim(-len(rows) + 0.4, 0.6)
        ax.margins(x=0.12)
        said = "; ".join(f"{name} {ratio:.3f}" for name, ratio, _ in rows)
        svg = to_svg(
            fig,
            figure_name("ratios", scenario.code),
            f"The ratios found: {said}. The true ratio is {scenario.true_ratio:.3f}.",
        )
    return as_plate(
        svg,
        "Every ratio found; what the needle does is taken off the first and the last. The bars are ± <i>U</i> with "
        f"<i>k</i> = {COVERAGE:g}; the upright line is the true "
        "ratio of the two.",
    )

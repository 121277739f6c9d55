"""The result: one sheet of the Saltmarsh drawer as a table, a straight line and an uncertainty."""

from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator

from exercises.bench import uncertainty
from exercises.bench.field import MU_0_OVER_4PI
from exercises.kinds.deflection.result import determination, quantity
from exercises.kinds.tan_a.kind import PAGE
from exercises.working.numbers import figures
from generator.figures.plates import plate, table
from generator.figures.style import ACCENT, INK, PAPER, graph
from generator.figures.theory import sheet


def _half_length() -> float:
    return sheet()[0].two_l / 2


def _given() -> str:
    scenario, _ = sheet()
    return (
        f"magnet {scenario.bar.name} with 2<i>l</i> = {scenario.two_l * 100:.1f} cm, at {scenario.field.where}, where "
        f"<i>B</i><sub>H</sub> is {scenario.B_H * 1e6:.1f} µT"
    )


@table("observed", caption=lambda: f"An observation table: {_given()}.")
def observed() -> str:
    box = '<div class="er-scroll" tabindex="0" role="group" aria-label="What was observed">'
    return f"{box}{PAGE.observations(sheet()[0])}</div>"


def _worked_caption() -> str:
    scenario, working = sheet()
    mean = working.value("mean-moment")
    return (
        f"The working of the same table, with <i>l</i> = {figures(_half_length(), 4)} m. Mean moment "
        f"<i>m</i> = {figures(mean)} A·m²; pole strength <i>p</i> = {figures(working.value('pole'))} A·m."
    )


@table("worked-rows", caption=_worked_caption)
def worked_rows() -> str:
    scenario, working = sheet()
    heads = ("<i>d</i>, cm", "θ", "tan θ", "(<i>d</i>² − <i>l</i>²)², 10⁻³\u00a0m⁴", "<i>m</i>, A·m²")
    head = "".join(f'<th scope="col">{h}</th>' for h in heads)
    body = ""
    for i, row in enumerate(scenario.rows, 1):
        mean, tan, bracket, moment = (working.value(f"{c}-{i}") for c in ("mean", "tan", "bracket", "moment"))
        cells = (f"{mean:.2f}°", f"{tan:.4f}", f"{bracket * 1000:.4g}", f"{moment:.3f}")
        body += f'<tr><th scope="row">{row.d * 100:.1f}</th>' + "".join(f"<td>{c}</td>" for c in cells) + "</tr>"
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def _line_points() -> tuple[list[float], list[float]]:
    scenario, working = sheet()
    l = _half_length()
    xs = [2 * r.d / (r.d**2 - l**2) ** 2 for r in scenario.rows]
    return xs, [working.value(f"tan-{i + 1}") for i in range(len(xs))]


def _line_caption() -> str:
    scenario, _ = sheet()
    xs, ys = _line_points()
    slope = sum(x * y for x, y in zip(xs, ys, strict=True)) / sum(x * x for x in xs)
    return (
        f"The same rows drawn: {_given()}. The best line through the origin has the slope "
        f"{slope * 1000:.3f} × 10⁻³ m³, and the slope is (µ₀/4π)·<i>m</i>/<i>B</i><sub>H</sub>: "
        f"<i>m</i> = {figures(slope * scenario.B_H / MU_0_OVER_4PI)} A·m²."
    )


@plate(
    "straight-line",
    alt="Tan theta against 2d over the square of d squared minus l squared. The points of one sheet lie on a straight "
    "line through the origin.",
    caption=_line_caption,
)
def straight_line() -> Figure:
    xs, ys = _line_points()
    fig, ax = graph(4.0, x="2*d* / (*d*² − *l*²)², m⁻³", y="tan θ")
    slope = sum(x * y for x, y in zip(xs, ys, strict=True)) / sum(x * x for x in xs)
    end = 1.1 * max(xs)
    ax.plot([0, end], [0, slope * end], color=ACCENT, linewidth=1.6)
    ax.plot(xs, ys, "o", color=PAPER, markeredgecolor=INK, markersize=6.5, markeredgewidth=1.3)
    ax.text(xs[1] * 0.93, ys[1] * 1.06, "one point, one distance", ha="right")
    ax.set_xlim(0, end)
    ax.set_ylim(0, 1.08 * slope * end)
    ax.yaxis.set_major_locator(MaxNLocator(4, steps=[1, 2, 5, 10]))
    return fig


def _terms() -> list[tuple[str, float]]:
    """Relative standard uncertainties of the moment at the middle distance, by where they come from."""
    scenario, _ = sheet()
    row = scenario.rows[len(scenario.rows) // 2]
    l = _half_length()
    return [
        ("the angle", uncertainty.angle_term(row.mean, uncertainty.mean_angle(scenario.scale_step))),
        ("the distance", uncertainty.distance_term(row.d, l, uncertainty.DISTANCE_BOTH_ARMS)),
        ("the magnetic length", uncertainty.length_term(row.d, l, uncertainty.MAGNETIC_LENGTH * l)),
        ("the needle", uncertainty.NEEDLE * uncertainty.needle_term(row.mean, row.d, scenario.box.needle)),
    ]


def _shares_caption() -> str:
    scenario, working = sheet()
    row = scenario.rows[len(scenario.rows) // 2]
    m = determination(scenario, working.value("mean-moment")).moment
    return (
        f"Where the standard uncertainty of the moment comes from at <i>d</i> = {row.d * 100:.1f} cm. For the mean of "
        f"all {len(scenario.rows)} distances it comes to {100 * m.u / m.value:.1f} %. With what the needle does taken "
        f"off, <i>m</i> = {quantity(m, 'A·m²')}, value ± <i>U</i> with <i>k</i> = {m.k:g}."
    )


@plate(
    "uncertainty-shares",
    alt=lambda: (
        "Bars: the part of the relative uncertainty of the moment that comes from each input. "
        + "; ".join(f"{name.replace('*', '')}: {100 * value:.2f} %" for name, value in _terms())
        + "."
    ),
    caption=_shares_caption,
)
def uncertainty_shares() -> Figure:
    fig, ax = graph(3.3, x="relative standard uncertainty, %", left=0.05, bottom=0.165)
    terms = _terms()
    for i, (name, value) in enumerate(terms):
        y = -i
        ax.barh([y], [100 * value], height=0.32, color=ACCENT, linewidth=0)
        ax.text(0, y + 0.33, name, ha="left", va="center")
        ax.text(100 * value + 0.008, y, f"{100 * value:.2f} %", ha="left", va="center")
    ax.set_xlim(0, 125 * max(v for _, v in terms))
    ax.set_ylim(-len(terms) + 0.6, 0.6)
    ax.set_yticks([])
    ax.spines["left"].set_visible(False)
    ax.xaxis.set_major_locator(MaxNLocator(4, steps=[1, 2, 5, 10]))
    return fig

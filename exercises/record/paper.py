"""The record as one page for the record book: all columns, the result, the graph, what was found, a line to sign.

Everything typed passes through `escape`.
"""

from html import escape

from exercises.kinds.sheet import symbols
from exercises.kinds.uncertainty.budget import decimals_to_quote, quoted
from exercises.record.check import Checked
from exercises.record.columns import Worked
from exercises.record.entries import COLUMNS, FIELDS, MOST_ROWS, Row
from exercises.record.instrument_findings import SIGNS
from exercises.record.plot import graph_svg
from exercises.working.numbers import centimetres, figures, mean_angle, places, reading

MOST_FINDINGS = 7  # on paper; the page shows all
LONGEST = 60  # characters of a cell on paper
NEAR = 0.06  # of tan θ; the needle, which is no point, does as much; common practice, no source


def shown(column: str, value: float) -> str:
    """A computed value as the table shows it, without its unit; `column` is a step's or result's."""
    if column == "mean":
        return mean_angle(value)
    if column == "tan":
        return places(value, 4)
    return figures(value, 4)


def paper(checked: Checked) -> str:
    """The page as HTML."""
    if not any(not r.empty for r in checked.record.rows):
        return ""
    return (
        '<article class="rc-paper"><header><h2>Magnetic moment by deflection, tan A position</h2>'
        f"{_givens(checked)}</header>{_table(checked)}"
        f'<div class="rc-two"><div class="rc-results">{_results(checked)}</div>{_graph(checked)}</div>{_found(checked)}'
        '<p class="rc-sign"><span>Signed</span><span>Date</span><span>Seen by</span></p></article>'
    )


def _cut(text: str) -> str:
    text = text.strip()
    return escape(text if len(text) <= LONGEST else text[:LONGEST] + "…")


def _givens(c: Checked) -> str:
    head = c.record.head
    told = [k for k in ("name", "magnet", "place", "date") if head.get(k, "").strip()]
    pairs = [(FIELDS[k].label.capitalize(), _cut(head[k])) for k in told]
    length, own = c.numbers.get("length"), c.numbers.get("two_l")
    if length:
        pairs.append(("Measured length", f"{centimetres(length, 2)} cm"))
    if c.two_l:
        by = "as entered" if own else "5/6 of the measured length"
        pairs.append(("Magnetic length 2l", f"{centimetres(c.two_l, 2)} cm, {by}"))
    if c.local.B_H:
        pairs.append(("B_H", f"{places(c.local.B_H * 1e6, 1)} µT, {_cut(c.local.source)}"))
    pairs.append(("Scale step", f"{c.step:g}°"))
    return (
        '<dl class="er-givens">' + "".join(f"<div><dt>{symbols(k)}</dt><dd>{v}</dd></div>" for k, v in pairs) + "</dl>"
    )


def _table(c: Checked) -> str:
    worked = {r.number: r for r in c.rows}
    doubted = {cell for f in c.findings if f.key == "misread" for cell in f.cells}
    body = "".join(
        _line(c, i, row, worked.get(i), doubted) for i, row in enumerate(c.record.rows[:MOST_ROWS], 1) if not row.empty
    )
    arms = "".join(f'<th scope="colgroup" colspan="4">{arm} arm</th>' for arm in ("east", "west"))
    norths = 2 * "".join(f'<th scope="colgroup" colspan="2">N {n}</th>' for n in ("east", "west"))
    ends = 4 * '<th scope="col">①</th><th scope="col">②</th>'
    heads = "".join(
        f'<th scope="col" rowspan="3">{h}</th>' for h in ("mean θ<br>°", "tan θ", "(d² − l²)²<br>m⁴", "moment<br>A·m²")
    )
    return (
        '<div class="rc-scroll" tabindex="0" role="region" aria-label="All columns"><table class="rc-table">'
        "<caption>In italics what was worked out here. An entry struck out is not right; below it stands what the readings "
        "give. A reading with a question mark does not belong with the others."
        '</caption><thead><tr><th scope="col" rowspan="3">d<br>cm</th>'
        f"{arms}{heads}</tr><tr>{norths}</tr><tr>{ends}</tr></thead><tbody>{body}</tbody></table></div>"
    )


def _line(c: Checked, i: int, row: Row, worked: Worked | None, doubted: set[str]) -> str:
    d = c.numbers.get(f"d-{i}")
    cells = [f'<th scope="row">{centimetres(d) if d is not None else _cut(row.d) or "–"}</th>']
    for k, text in enumerate(row.readings, 1):
        value = c.numbers.get(f"reading{k}-{i}")
        mark = "<sup>?</sup>" if f"reading{k}-{i}" in doubted else ""
        cells.append(f"<td>{reading(value) if value is not None else _cut(text) or '–'}{mark}</td>")
    for column, text in zip(COLUMNS, (row.mean, row.tan, row.bracket, row.moment)):
        cells.append(f"<td>{_entry(c, column, f'{column}-{i}', text)}</td>")
    return f"<tr>{''.join(cells)}</tr>"


def _entry(c: Checked, column: str, name: str, text: str) -> str:
    """What was typed where it is right, what is right where it is not or nothing was typed."""
    verdict, value = c.verdicts.get(name), c.values.get(name)
    ours = f"<i>{shown(column, value)}</i>" if value is not None else ""
    if not text.strip():
        return ours or "–"
    if verdict is not None and verdict.state == "right" or not ours:
        return _cut(text)
    return f"<s>{_cut(text)}</s><br>{ours}" if verdict is not None else _cut(text)


def _results(c: Checked) -> str:
    out = []
    for key, column in (("mean-moment", "moment"), ("pole", "pole")):
        text = c.record.head.get(key, "")
        if c.values.get(key) is not None:
            unit = "A·m²" if key == "mean-moment" else "A·m"
            verdict = c.verdicts.get(key)
            with_unit = verdict is not None and verdict.state == "right" and any(map(str.isalpha, text))
            own = "" if with_unit else f" {unit}"
            out.append(f"<p>{FIELDS[key].label.capitalize()}: {_entry(c, column, key, text)}{own}</p>")
    if c.result is None:
        return "".join(out) or "<p>There is no result yet.</p>"
    out += _said(c)
    return "".join(out)


def quote(value: float, u: float, unit: str) -> str:
    """A value with its standard uncertainty as it is quoted, in a power of ten that keeps the figures few."""
    if not 0 < u < float("inf"):
        return f"{figures(value)} {unit}"
    power = next((p for p in range(-9, 10, 3) if value < 1000 * 10.0**p), 9) if not 0.01 <= value < 1000 else 0
    size = 10.0**power
    scale = f" × 10{str(power).translate(str.maketrans('-0123456789', '⁻⁰¹²³⁴⁵⁶⁷⁸⁹'))}" if power else ""
    return f"({quoted(u / size, value / size)}){scale} {unit}"


def _rounded(u: float) -> str:
    """An uncertainty to one figure, or to two if the first is a 1."""
    return f"{u:.{decimals_to_quote(u, 1.0)}f}" if u >= 1e-4 else figures(u, 2)


def _said(c: Checked) -> list[str]:
    r, n = c.result, len(c.points)
    out = [
        f'<p class="rc-quote">m = {quote(r.moment, r.u_moment, "A·m²")}<br>p = {quote(r.pole, r.u_pole, "A·m")}</p>',
        f"<p>One standard uncertainty, from {n} distance{'s' if n > 1 else ''}, for this <i>B</i><sub>H</sub>.</p>",
    ]
    share = places(100 * r.from_parts / r.moment, 1)
    parts = f"From the parts (angle, distance, 2l, needle): {_rounded(r.from_parts)} A·m², {share} %."
    if r.from_scatter is None:
        out.append(f"<p>{parts} Of one distance there is no scatter.</p>")
    else:
        larger = (
            "The scatter is the larger and was taken: the distances agree less well than the parts let one expect."
            if r.from_scatter > r.from_parts
            else "The parts are the larger and were taken: the scatter does not show what is common to all distances."
        )
        out.append(
            f"<p>{parts} From the scatter of the moments between distances: {_rounded(r.from_scatter)} A·m², "
            f"{places(100 * r.from_scatter / r.moment, 1)} %. {larger}</p>"
        )
    if c.mended:
        out.append(
            f"<p>With what stands out put right: m = {quote(c.mended.moment, c.mended.u_moment, 'A·m²')}, "
            f"p = {quote(c.mended.pole, c.mended.u_pole, 'A·m')}.</p>"
        )
    g = c.graph
    text = f"From the slope of the graph: m = {quote(g.moment, 1e7 * c.local.B_H * (g.error or 0.0), 'A·m²')}."
    if g.free:
        _, intercept, error = g.free
        near = (
            "at the origin, within what the points allow"
            if abs(intercept) <= 3 * error
            else (
                "near the origin"
                if abs(intercept) < NEAR
                else "away from the origin: look at l, and at where d was measured from"
            )
        )
        text += f" The best line of all meets the upright axis at {places(intercept, 3)} ± {places(error, 3)}, {near}."
    out.append(f"<p>{text}</p>")
    return out


def _graph(c: Checked) -> str:
    return graph_svg(c.graph, tuple(p.number for p in c.points)) if c.graph else ""


def _found(c: Checked) -> str:
    wrong = [n for n, v in c.verdicts.items() if v.state != "right"]
    grave = [f.text for f in c.findings if f.level != "note"]
    shown = grave + [f.text for f in c.findings if f.level == "note" and f.key in SIGNS]
    more = f"<li>And {len(shown) - MOST_FINDINGS} more.</li>" if len(shown) > MOST_FINDINGS else ""
    listed = "".join(f"<li>{symbols(t)}</li>" for t in shown[:MOST_FINDINGS]) + more
    listed = f'<ul class="rc-found">{listed}</ul>' if listed else ""
    if not grave:
        text = "Nothing in the readings or the moments stands out." if c.rows else ""
        if wrong:
            text += " Entries struck out above are to be mended."
        return (f'<p class="rc-found">{text}</p>' if text else "") + listed
    return listed

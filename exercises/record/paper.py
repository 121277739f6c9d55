"""The record as one page for the record book: all columns, the result, the graph, what was found, a line to sign.

Everything typed passes through `escape`.
"""

from html import escape

from exercises.record.check import Checked, Moments
from exercises.record.entries import COLUMNS, FIELDS, MOST_ROWS, READINGS, RESULTS, Field, Row
from exercises.record.estimate import Result
from exercises.record.instrument_findings import SIGNS
from exercises.record.magnetic_length import STATED, WORDS
from exercises.record.moments import Graph
from exercises.record.plot import graph_svg
from exercises.record.said import assumed, coverage, stated
from exercises.working.mathematics import symbols
from exercises.working.numbers import centimetres, figures, mean_angle, places, reading

MOST_FINDINGS = 7  # on paper; the page shows all
LONGEST = 60  # characters of a cell on paper
BY = {**WORDS, STATED: "as stated"}  # how 2l is known
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
    if all(r.empty for r in checked.record.rows):
        return ""
    return (
        '<article class="rc-paper"><header><h2>Magnetic moment by deflection, '
        f"{checked.record.position.name} position</h2>{_givens(checked)}</header>{_table(checked)}"
        f'<div class="rc-two"><div class="rc-results">{_results(checked)}</div>{_graph(checked)}</div>{_found(checked)}'
        '<p class="rc-sign"><span>Signed</span><span>Date</span><span>Seen by</span></p></article>'
    )


def _cut(text: str) -> str:
    """What was typed, safe in HTML and no longer than a cell holds."""
    text = text.strip()
    return escape(text if len(text) <= LONGEST else text[:LONGEST] + "…")


def _givens(c: Checked) -> str:
    head, givens = c.record.head, c.givens
    told = [k for k in ("name", "magnet", "place", "date") if head.get(k, "").strip()]
    pairs = [(FIELDS[k].label.capitalize(), _cut(head[k])) for k in told]
    if givens.length:
        pairs.append(("Measured length", f"{centimetres(givens.length, 2)} cm"))
    if givens.two_l and givens.rule:
        pairs.append(("Magnetic length 2l", f"{centimetres(givens.two_l, 2)} cm, {BY[givens.rule.key]}"))
    if givens.local.B_H:
        pairs.append(("B_H", f"{places(givens.local.B_H * 1e6, 1)} µT, {_cut(givens.local.source)}"))
    if givens.step_shown:
        pairs.append(("Scale step", f"{givens.step_shown:g}°"))
    return (
        '<dl class="er-givens">' + "".join(f"<div><dt>{symbols(k)}</dt><dd>{v}</dd></div>" for k, v in pairs) + "</dl>"
    )


def _table(c: Checked) -> str:
    at = c.record.position
    doubted = {cell for f in c.findings if f.key == "misread" for cell in f.cells}
    body = "".join(_line(c, i, row, doubted) for i, row in enumerate(c.record.rows[:MOST_ROWS], 1) if not row.empty)
    arms = "".join(f'<th scope="colgroup" colspan="4">{arm} arm</th>' for arm in at.arms)
    norths = 2 * "".join(f'<th scope="colgroup" colspan="2">N {n}</th>' for n in ("east", "west"))
    ends = 4 * '<th scope="col">①</th><th scope="col">②</th>'
    worked = ("mean θ<br>°", "tan θ", f"{at.bracket_html}<br>{at.bracket_unit}", "moment<br>A·m²")
    heads = "".join(f'<th scope="col" rowspan="3">{h}</th>' for h in worked)
    return (
        '<div class="rc-scroll" tabindex="0" role="region" aria-label="All columns"><table class="rc-table">'
        "<caption>In italics what was worked out here. An entry struck out is not right; below it stands what the "
        "readings give. A reading with a question mark does not belong with the others."
        '</caption><thead><tr><th scope="col" rowspan="3">d<br>cm</th>'
        f"{arms}{heads}</tr><tr>{norths}</tr><tr>{ends}</tr></thead><tbody>{body}</tbody></table></div>"
    )


def _line(c: Checked, i: int, row: Row, doubted: set[str]) -> str:
    numbers = c.givens.numbers
    d = numbers.get(f"d-{i}")
    cells = [f'<th scope="row">{centimetres(d) if d is not None else _cut(row.d) or "–"}</th>']
    for column, text in zip(READINGS, row.readings):
        value = numbers.get(f"{column}-{i}")
        mark = "<sup>?</sup>" if f"{column}-{i}" in doubted else ""
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
    out = [_result_entry(c, field) for field in RESULTS if field.key in c.values]
    if c.moments is None:
        return "".join(out) or "<p>There is no result yet.</p>"
    return "".join(out + _moments(c, c.moments))


def _result_entry(c: Checked, field: Field) -> str:
    """The mean moment or the pole strength as it was noted, with its unit once."""
    text, verdict = c.record.head.get(field.key, ""), c.verdicts.get(field.key)
    has_unit = verdict is not None and verdict.state == "right" and any(map(str.isalpha, text))
    unit = "" if has_unit else f" {field.unit}"
    return f"<p>{field.label.capitalize()}: {_entry(c, field.key, field.key, text)}{unit}</p>"


def _moments(c: Checked, m: Moments) -> list[str]:
    """The result, what it rests on, and the moment from the graph."""
    n = len(m.points)
    said = [
        f'<p class="rc-quote">{both(m.result, "<br>")}</p>',
        f"<p>Each ± is the expanded uncertainty <i>U</i>, with {coverage(m.result)}: 95 intervals in a hundred hold "
        f"the true value. It rests on {n} distance{'s' if n > 1 else ''} and on this <i>B</i><sub>H</sub>.</p>",
        *(f"<p>{symbols(text)}</p>" for text in assumed(c.givens, m.result)),
    ]
    if m.corrected:
        said.append(f"<p>With what stands out put right: {both(m.corrected, ', ')}.</p>")
    return [*said, f"<p>{_slope(m.graph)}</p>"]


def both(r: Result, between: str) -> str:
    """m and p with their expanded uncertainties."""
    return f"m = {stated(r.moment, 'A·m²')}{between}p = {stated(r.pole, 'A·m')}"


def _slope(g: Graph) -> str:
    """The moment from the slope, and where the best line of all meets the upright axis."""
    slope = (
        f"From the slope of the graph, with the 2l of the table and nothing taken off: m = {figures(g.moment)} A·m², "
        f"with a standard error of {figures(g.moment_error, 2)} A·m²."
        if g.moment_error
        else f"From the slope of the graph: m = {figures(g.moment)} A·m²."
    )
    if not g.free:
        return slope
    _, intercept, error = g.free
    if abs(intercept) <= 3 * error:
        near = "at the origin, within what the points allow"
    elif abs(intercept) < NEAR:
        near = "near the origin"
    else:
        near = "away from the origin: look at l, and at where d was measured from"
    meets = f"{places(intercept, 3)} ± {places(error, 3)}"
    return f"{slope} The best line of all meets the upright axis at {meets}, {near}."


def _graph(c: Checked) -> str:
    if c.moments is None:
        return ""
    return graph_svg(c.moments.graph, tuple(p.number for p in c.moments.points), c.record.position.abscissa)


def _found(c: Checked) -> str:
    """What is to be looked at, and the patterns of the instrument; or a sentence that nothing stands out."""
    grave = [f.text for f in c.findings if f.level != "note"]
    said = grave + [f.text for f in c.findings if f.level == "note" and f.key in SIGNS]
    items = [f"<li>{symbols(text)}</li>" for text in said[:MOST_FINDINGS]]
    if len(said) > MOST_FINDINGS:
        items.append(f"<li>And {len(said) - MOST_FINDINGS} more.</li>")
    listed = f'<ul class="rc-found">{"".join(items)}</ul>' if items else ""
    if grave:
        return listed
    text = "Nothing in the readings or the moments stands out." if c.givens.rows else ""
    if any(v.state != "right" for v in c.verdicts.values()):
        text += " Entries struck out above are to be mended."
    return (f'<p class="rc-found">{text}</p>' if text else "") + listed

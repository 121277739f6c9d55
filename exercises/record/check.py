"""A record checked: what can be worked is worked and judged, the rest is said in a sentence."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from exercises.bench.instrument import Box
from exercises.judging.answer import Typed
from exercises.judging.verdict import Verdict
from exercises.kinds.deflection.steps import MAGNETIC_SHARE
from exercises.record import instrument_findings, result_findings
from exercises.record.columns import Worked, judged, moment_ratios, right_values
from exercises.record.entries import COLUMNS, MOST_ROWS, RESULTS, Numbers, Record, read, reading_name
from exercises.record.entries import where as called_in_record
from exercises.record.instrument_findings import Finding
from exercises.record.moments import NEEDLE, Graph, Point, Result, apart, graph, point, result, trend, without_needle
from exercises.record.outliers import Structure, fit
from exercises.record.place import LocalField, field_of

STEPS = (1.0, 0.5, 0.25, 0.2, 0.1)  # scale steps that readings may show


@dataclass(frozen=True)
class Checked:
    """All that was found.

    rows       the distances that could be worked
    verdicts   on the entries that were judged, by cell name
    values     what each column comes to, by cell name, SI units
    problems   a sentence for each cell that could not be used, by cell name
    findings   what the numbers say, the gravest first
    result, mended   the result, and the one with what stands out put right, or None
    """

    record: Record
    numbers: Numbers
    local: LocalField
    step: float
    two_l: float | None
    rows: tuple[Worked, ...]
    verdicts: Mapping[str, Verdict]
    values: Mapping[str, float]
    problems: Mapping[str, str]
    findings: tuple[Finding, ...]
    structure: Structure | None
    points: tuple[Point, ...]
    result: Result | None
    mended: Result | None
    graph: Graph | None


def check(record: Record) -> Checked:
    """Everything that can be said of a record; nothing in it raises an error."""
    numbers = read(record)
    local = field_of(record, numbers.get("B_H"))
    problems = {**numbers.problems, **local.problems}
    two_l = _two_l(numbers)
    notes = [Finding("note", "read", text) for text in numbers.notes]
    rows, missing = _rows(record, numbers, two_l)
    notes += missing
    step, said = _step(numbers, rows)
    notes += said
    results = [f.key for f in RESULTS]
    entries = {n: text for n, text in numbers.texts.items() if n in results or n.rsplit("-", 1)[0] in COLUMNS}
    whole = len(rows) == sum(not r.empty for r in record.rows)
    length = numbers.get("length")
    own = numbers.get("two_l")
    verdicts = judged(rows, local.B_H, length, own, whole, entries)
    problems = {name: text for name, text in problems.items() if name not in verdicts}
    values = right_values(rows, local.B_H, length, own)
    if not whole and rows:
        values = {k: v for k, v in values.items() if k not in ("mean-moment", "pole")}
    notes += _not_judged(numbers, local, two_l, rows, entries, whole)
    findings = instrument_findings.outside(rows) + instrument_findings.few(rows)
    structure, seen = None, [r for r in rows if not r.by_mean and 0 < r.mean < 90]
    half = (two_l or 0.0) / 2
    if seen:
        structure = fit([(r.d, r.readings) for r in seen], half, step)
        findings += [instrument_findings.stray(s, seen, step, half) for s in structure.strays]
        findings += instrument_findings.patterns(seen, structure, half, numbers.get("box") or Box().radius)
    findings += result_findings.of_field(local, numbers.get("B_H"))
    points, res, mended, drawn = (), None, None, None
    if two_l and local.B_H:
        typed = {name: numbers.values[name].value for name in entries if name in numbers.values}
        wrong = sum(v.state == "wrong" for n, v in verdicts.items() if n.startswith("moment-"))
        ratios = moment_ratios(rows, local.B_H, length, own, typed)
        findings += result_findings.of_another_field(local.B_H, ratios, wrong)
        box, needle = numbers.get("box"), numbers.get("needle")
        findings += instrument_findings.near(rows, half, length, box)
        means = _mended_means(rows, seen, structure)
        points = _points(rows, {r.number: r.mean for r in rows}, local.B_H, half, step, structure, needle)
        better = _points(rows, means, local.B_H, half, step, structure, needle)
        if points:
            reach = needle / 2 if needle else NEEDLE
            res, drawn = result(points, half, reach), graph(points, local.B_H, half)
            if means != {r.number: r.mean for r in rows} and better:
                mended = result(better, half, reach)
            trusted = better or points
            if needle:
                trusted, reach = without_needle(trusted, reach), 0.0
            findings += result_findings.of_moments(
                trusted, trend(trusted, half, reach), apart(trusted, half, reach), two_l, length
            )
            findings += result_findings.of_size(
                (mended or res).moment, length, numbers.get("width"), numbers.get("thickness")
            )
    order = ("amiss", "look", "note")
    ordered = tuple(sorted(findings, key=lambda f: order.index(f.level))) + tuple(notes)
    return Checked(
        record,
        numbers,
        local,
        step,
        two_l,
        rows,
        verdicts,
        values,
        problems,
        ordered,
        structure,
        points,
        res,
        mended,
        drawn,
    )


def _two_l(numbers: Numbers) -> float | None:
    own, length = numbers.get("two_l"), numbers.get("length")
    return own if own is not None else None if length is None else MAGNETIC_SHARE * length


def _rows(record: Record, numbers: Numbers, two_l: float | None) -> tuple[tuple[Worked, ...], list[Finding]]:
    """The distances that can be worked, and a sentence for each other one."""
    rows, said = [], []
    for i, row in enumerate(record.rows[:MOST_ROWS], 1):
        if row.empty:
            continue
        d = numbers.get(f"d-{i}")
        readings = [numbers.get(f"reading{k}-{i}") for k in range(1, 9)]
        mean: Typed | None = numbers.values.get(f"mean-{i}")
        lacking = [k for k, x in enumerate(readings) if x is None]
        if d is None:
            text = f"Distance {i} has no d that can be used, so it is not worked."
        elif two_l and d <= two_l / 2 * 1.05:
            text = (
                f"Distance {i}: d must be longer than half the magnet, or the formula gives nothing. d goes from the pivot "
                "to the middle of the magnet."
            )
        elif not lacking:
            rows.append(Worked(i, d, tuple(readings)))
            continue
        elif mean is not None and 0 < mean.value < 90:
            rows.append(Worked(i, d, (mean.value,) * 8, by_mean=True))
            text = f"Distance {i} lacks {_lacking(lacking)}, so the mean that was noted is taken as it stands."
        else:
            text = f"Distance {i} lacks {_lacking(lacking)}, so it is not worked."
        said.append(Finding("note", "incomplete", text, cells=(f"d-{i}",)))
    if len(record.rows) > MOST_ROWS:
        text = f"At most {MOST_ROWS} distances are checked; the record has {len(record.rows)}."
        said.append(Finding("note", "many", text))
    return tuple(rows), said


def _lacking(lacking: list[int]) -> str:
    if len(lacking) == 8:
        return "its eight readings"
    if len(lacking) > 2:
        return f"{len(lacking)} of its eight readings"
    return " and ".join(f"the reading {reading_name(k)}" for k in lacking)


def _step(numbers: Numbers, rows: tuple[Worked, ...]) -> tuple[float, list[Finding]]:
    """The scale step in degrees, as given or as the readings show it."""
    if step := numbers.get("step"):
        return step, []
    readings = [x for r in rows if not r.by_mean for x in r.readings]
    if not readings:
        return 1.0, []
    step = next((s for s in STEPS if all(math.isclose(x / s, round(x / s), abs_tol=1e-6) for x in readings)), STEPS[-1])
    text = f"No scale step is given; the readings look like a scale read to {step:g}°."
    return step, [Finding("note", "step", text, cells=("step",))]


def _not_judged(numbers, local: LocalField, two_l, rows, entries, whole: bool) -> list[Finding]:
    """Why some entries were not judged."""
    said = []

    def note(key: str, text: str, *cells: str) -> None:
        said.append(Finding("note", key, text, cells=cells))

    if not rows:
        note("empty", "There is no distance that can be worked yet: each needs d and its eight readings.")
        return said
    if not two_l:
        note("no-length", "Without the length of the magnet the columns from (d² − l²)² on are not judged.", "length")
    if not local.B_H:
        note("no-field", "Without B_H, or a place and a date, the moments are not judged.", "B_H")
    asked = [f.label for f in RESULTS if entries.get(f.key, "").strip()]
    if asked and not whole:
        note("not-whole", f"The {' and the '.join(asked)} cannot be judged while a distance is not worked.")
    return said


def _mended_means(rows, seen, structure: Structure | None) -> dict[int, float]:
    """The mean of each distance, what stands out put right."""
    means = {r.number: r.mean for r in rows}
    touched = {s.row for s in structure.strays} if structure else set()
    for at in touched:
        means[seen[at].number] = sum(structure.cleaned[at]) / 8
    return means


def _points(rows, means, B_H, half, step, structure, needle) -> tuple[Point, ...]:
    scatter = structure.scatter if structure else None
    reach = needle / 2 if needle else NEEDLE
    return tuple(
        point(r.number, r.d, means[r.number], B_H, half, step, scatter, reach)
        for r in rows
        if 0.5 < means[r.number] < 89.5
    )


def sentences(checked: Checked, lines: Mapping[str | int, int]) -> list[str]:
    """Everything that was found as plain sentences, for a terminal: wrong entries, unread cells, findings.

    lines  the line of the file that a head cell (by key) and a distance (by number) stands on
    """

    def where(name: str) -> str:
        column, _, number = name.rpartition("-")
        line = lines.get(name) or (lines.get(int(number)) if number.isdigit() else None)
        called = called_in_record(name)
        if line is None:
            return called
        return f"Line {line}, {called if name == 'B_H' else called[0].lower() + called[1:]}"

    said = [f"{where(name)}: {text}" for name, text in checked.problems.items()]
    for name, verdict in checked.verdicts.items():
        if verdict.state != "right":
            said.append(f"{where(name)}, “{_typed(checked.record, name)}”: {verdict.text}")
        said += [f"{where(name)}: {remark}" for remark in verdict.remarks]
    return said + [f.text for f in checked.findings]


def _typed(record: Record, name: str) -> str:
    return next((text.strip()[:30] for n, text in record.cells() if n == name), "")

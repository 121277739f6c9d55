"""A record checked: what can be worked is worked and judged, the rest is said in a sentence."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from exercises.judging.verdict import Verdict
from exercises.record import instrument_findings, result_findings
from exercises.record.columns import Columns, WorkedDistance
from exercises.record.entries import COLUMNS, RESULTS, Record, cell_label, cell_of
from exercises.record.estimate import Result, known_half, known_needle, result
from exercises.record.finding import LEVELS, Finding
from exercises.record.givens import Givens, givens_of
from exercises.record.moments import Graph, Point, apart, graph, point, seen_angle, trend, without_needle
from exercises.record.outliers import ReadingFit, fit_readings

OF_NO_USE = 0.5  # degrees from 0° and from 90°: such a mean gives no moment worth a point


@dataclass(frozen=True)
class Moments:
    """The moments of a record, one distance at least, and what they come to.

    points     the distances as they were noted; `trusted` with what stands out put right
    result     from the points;  corrected  from those that are trusted, or None where they are the same
    """

    points: tuple[Point, ...]
    trusted: tuple[Point, ...]
    result: Result
    corrected: Result | None
    graph: Graph


@dataclass(frozen=True)
class Checked:
    """All that was found.

    givens     what was worked from
    verdicts   on the entries that were judged, by cell name
    values     what each column comes to, by cell name, SI units
    problems   a sentence for each cell that could not be used, by cell name
    findings   what the numbers say, the gravest first
    fit        the readings fitted together, or None where no distance has its eight readings
    moments    None where there is no result
    """

    record: Record
    givens: Givens
    verdicts: Mapping[str, Verdict]
    values: Mapping[str, float]
    problems: Mapping[str, str]
    findings: tuple[Finding, ...]
    fit: ReadingFit | None
    moments: Moments | None


def check(record: Record) -> Checked:
    """Everything that can be said of a record; nothing in it raises an error."""
    givens = givens_of(record)
    numbers, local = givens.numbers, givens.local
    entries = {name: text for name, text in numbers.texts.items() if is_worked_out(name)}
    columns = None
    if givens.rows:
        columns = Columns(record.position, givens.rows, local.B_H, givens.length, givens.two_l, givens.rule)
    verdicts = columns.verdicts(entries, givens.complete) if columns else {}
    fitted = [r for r in givens.rows if not r.by_mean and 0 < r.mean < 90]
    rows = [(r.d, r.readings) for r in fitted]
    fit = fit_readings(rows, givens.half, givens.step, record.position.tan_b) if fitted else None
    moments = _moments(givens, fitted, fit)
    findings = [
        *_of_the_readings(givens, fitted, fit),
        *result_findings.of_field(local, numbers.get("B_H")),
        *(_of_noted_moments(givens, columns, entries, verdicts) if columns else []),
        *(_of_the_moments(givens, moments) if moments else []),
        *givens.notes,
        *_not_judged(givens, entries),
    ]
    findings.sort(key=lambda f: LEVELS.index(f.level))
    problems = {**numbers.problems, **givens.problems, **local.problems}
    return Checked(
        record=record,
        givens=givens,
        verdicts=verdicts,
        values=columns.values(givens.complete) if columns else {},
        problems={name: text for name, text in problems.items() if name not in verdicts},
        findings=tuple(findings),
        fit=fit,
        moments=moments,
    )


def is_worked_out(name: str) -> bool:
    """Whether a cell, by its name, holds what the student worked out."""
    return name in (f.key for f in RESULTS) or cell_of(name).column in COLUMNS


def _of_the_readings(givens: Givens, fitted: list[WorkedDistance], fit: ReadingFit | None) -> list[Finding]:
    """What the distances and the readings say."""
    found = instrument_findings.outside(givens.rows) + instrument_findings.few(givens.rows)
    if fit:
        found += [instrument_findings.outlying(o, fitted, givens) for o in fit.outliers]
        found += instrument_findings.patterns(fitted, fit, givens)
    return found


def _of_noted_moments(
    givens: Givens, columns: Columns, entries: Mapping[str, str], verdicts: Mapping[str, Verdict]
) -> list[Finding]:
    """What the moments that were noted say of B_H, and what 2l says of the distances."""
    if not (givens.two_l and givens.local.B_H):
        return []
    typed = {name: givens.numbers.values[name].value for name in entries if name in givens.numbers.values}
    wrong = sum(v.state == "wrong" for name, v in verdicts.items() if cell_of(name).column == "moment")
    found = result_findings.of_another_field(givens.local.B_H, columns.moment_ratios(typed), wrong)
    return found + instrument_findings.near(givens)


def _of_the_moments(givens: Givens, moments: Moments) -> list[Finding]:
    """What the moments say of the distances, of 2l, and of the magnet."""
    numbers, half = givens.numbers, givens.half
    points, needle = moments.trusted, givens.half_needle
    if numbers.get("needle"):  # what it does is known, and taken off
        points, needle = without_needle(points, half, needle), 0.0
    found = trend(points, half, needle)
    said = result_findings.of_moments(points, found, apart(points, half, needle), 2 * half, givens.length)
    best = moments.corrected or moments.result
    return said + result_findings.of_size(
        best.moment.value, givens.length, numbers.get("width"), numbers.get("thickness")
    )


def _moments(givens: Givens, fitted: list[WorkedDistance], fit: ReadingFit | None) -> Moments | None:
    """The moments as noted and with what stands out put right; None without 2l, B_H or a distance that gives one."""
    B_H = givens.local.B_H
    if not (givens.two_l and B_H):
        return None
    noted = {r.number: r.mean for r in givens.rows}
    points = _points(givens, B_H, noted, fit)
    if not points:
        return None
    means = _corrected_means(noted, fitted, fit)
    trusted = _points(givens, B_H, means, fit)
    corrected = result_of(givens, trusted, fit) if means != noted and trusted else None
    return Moments(
        points,
        trusted or points,
        result_of(givens, points, fit),
        corrected,
        graph(points, B_H, givens.half),
    )


def _corrected_means(
    noted: Mapping[int, float], fitted: list[WorkedDistance], fit: ReadingFit | None
) -> dict[int, float]:
    """The mean of each distance by its number, what stands out put right."""
    if fit is None:
        return dict(noted)
    return {**noted, **{fitted[o.row].number: sum(fit.corrected[o.row]) / 8 for o in fit.outliers}}


def _points(givens: Givens, B_H: float, means: Mapping[int, float], fit: ReadingFit | None) -> tuple[Point, ...]:
    u_theta = seen_angle(givens.step, fit.scatter if fit else None)
    return tuple(
        point(r.number, r.d, means[r.number], B_H, givens.half, u_theta, givens.position)
        for r in givens.rows
        if OF_NO_USE < means[r.number] < 90 - OF_NO_USE
    )


def result_of(givens: Givens, points: Sequence[Point], fit: ReadingFit | None) -> Result:
    """What the points come to, with what is known of 2l and of the needle."""
    half = known_half(2 * givens.half, givens.length, givens.two_l_stated)
    by_scatter = fit is not None and seen_angle(givens.step, fit.scatter) > seen_angle(givens.step, None)
    freedom = fit.freedom if fit is not None and by_scatter else math.inf
    return result(points, givens.half, half, known_needle(givens.numbers.get("needle")), freedom)


def _not_judged(givens: Givens, entries: Mapping[str, str]) -> list[Finding]:
    """Why some entries were not judged."""
    if not givens.rows:
        text = "There is no distance that can be worked yet: each needs d and its eight readings."
        return [Finding("note", "empty", text)]
    notes = []
    if not givens.two_l and not any(note.key == "no-rule" for note in givens.notes):
        text = f"Without the magnetic length the columns from {givens.position.bracket} on are not judged."
        notes.append(Finding("note", "no-length", text, cells=("length",)))
    if not givens.local.B_H:
        text = "Without B_H, or a place and a date, the moments are not judged."
        notes.append(Finding("note", "no-field", text, cells=("B_H",)))
    asked = [f.label for f in RESULTS if entries.get(f.key, "").strip()]
    if asked and not givens.complete:
        text = f"The {' and the '.join(asked)} cannot be judged while a distance is not worked."
        notes.append(Finding("note", "not-whole", text))
    return notes


def sentences(checked: Checked, lines: Mapping[str | int, int]) -> list[str]:
    """Everything that was found as plain sentences, for a terminal: unread cells, entries, findings.

    Of an entry that is right and of which nothing more is said there is none.

    lines  the line of the file that a head cell (by key) and a distance (by number) stands on
    """
    typed, at = dict(checked.record.cells()), checked.record.position

    def where(name: str) -> str:
        cell = cell_of(name)
        line = lines.get(name if cell.row is None else cell.row)
        return cell_label(name, at) if line is None else f"Line {line}, {cell_label(name, at, opening=False)}"

    said = [f"{where(name)}: {text}" for name, text in checked.problems.items()]
    for name, verdict in checked.verdicts.items():
        if not verdict.is_plain:
            said.append(f"{where(name)}, “{typed[name].strip()[:30]}”: {verdict.text}")
        said += [f"{where(name)}: {remark}" for remark in verdict.remarks]
    return said + [f.text for f in checked.findings]
